"""What samples say of the mean, against published worked examples, figures by hand, and repeated sampling."""

import math

import numpy as np
import pytest
from scipy import stats

from stemmap.core.estimates import (
    clustered,
    double_regression,
    double_stratified,
    estimate,
    ratio_values,
    stratified,
)
from stemmap.errors import InputError
from tests.benchmarks.cover_estimates import DESIGNS, coverage, coverage_by_presence

#: SAS/STAT User's Guide, The SURVEYMEANS Procedure, "Getting Started": what 40 pupils of grades 7 to 9 spend on ice
#: cream, grade and dollars a week. Grades hold 1,824, 1,025 and 1,151 pupils.
PUPILS = """
7 7  7 7  8 12  9 10  7 1  7 10  7 3  8 20  8 19  7 2  7 2  9 15  8 16  7 6  7 6  7 6  9 15  8 17  8 14  9 8  9 8  9 7
7 3  7 12  7 4  9 14  8 18  9 9  7 2  7 1  7 4  7 11  9 8  8 10  8 13  7 2  9 6  9 11  7 2  7 9
"""
GRADES = [1824, 1025, 1151]
#: The same guide, Example "Stratified Cluster Sample Design": grade, study group, dollars; 608, 252 and 403 groups.
GROUPS = """
7 34 7  7 34 7  7 412 4  9 27 14  7 34 2  9 230 15  9 27 15  7 501 2  9 230 8  9 230 7  7 501 3  8 59 20  7 403 4
7 403 11  8 59 13  8 59 17  8 143 12  8 143 16  8 59 18  9 235 9  8 143 10  9 312 8  9 235 6
9 235 11  9 312 10  7 321 6  8 156 19  8 156 14  7 321 3  7 321 12  7 489 2
7 489 9  7 78 1  7 78 10  7 489 2  7 156 1  7 78 6  7 412 6  7 156 2  9 301 8
"""

#: Lohr, S. L., Sampling: Design and Analysis (2nd ed. 2010, chapter 4, regression estimation): dead trees on 25 of 100
#: plots, counted on photographs and on the ground; the mean of all photographs is 11.3.
PHOTOGRAPH = [10, 12, 7, 13, 13, 6, 17, 16, 15, 10, 14, 12, 10, 5, 12, 10, 10, 9, 6, 11, 7, 9, 11, 10, 10]
GROUND = [15, 14, 9, 14, 8, 5, 18, 15, 13, 15, 11, 15, 12, 8, 13, 9, 11, 12, 9, 12, 13, 11, 10, 9, 8]


def table(text, columns):
    return np.array(text.split(), int).reshape(-1, columns).T


def printed(n, mean, variance):
    """Values by stratum with the numbers, means and variances that a book prints, and their strata."""
    each = [np.linspace(-1.0, 1.0, size) for size in n]
    values = [m + math.sqrt(v) * x / x.std(ddof=1) for x, m, v in zip(each, mean, variance, strict=True)]
    return np.concatenate(values), np.repeat(np.arange(len(n)), n)


# One stratum


def test_published_simple_random_sample():
    # Cochran, W. G. (1977). Sampling Techniques, 3rd ed., section 2.8, signatures on 50 sheets of a petition
    # (from memory; sum 1,471 and sum of squares 54,497 agree with the book): s² = 229.0.
    signatures = [42, 41, 36, 32, 29, 27, 23, 19, 16, 15, 14, 11, 10, 9, 7, 6, 5, 4, 3]
    sheets = [23, 4, 1, 1, 1, 2, 1, 1, 2, 2, 1, 1, 1, 1, 1, 3, 2, 1, 1]
    sample = np.repeat(signatures, sheets)

    result = estimate(sample)

    assert (sample.sum(), (sample**2).sum()) == (1471, 54497)
    assert result.n[0] == 50
    assert 676 * result.mean[0] == pytest.approx(19_888, abs=0.5)
    assert 50 * result.standard_error[0] ** 2 == pytest.approx(229.0, abs=0.05)


def test_interval_is_students():
    sample = np.random.default_rng(7).normal(30.0, 8.0, 12)

    result = estimate(sample, confidence=0.9)
    low, high = stats.t.interval(0.9, 11, loc=sample.mean(), scale=stats.sem(sample))

    assert (result.low[0], result.high[0]) == pytest.approx((low, high), rel=1e-9)
    assert result.confidence == 0.9
    assert result.reason == ("",)


def test_every_stratum_is_estimated_by_its_own_plots():
    result = estimate([1.0, 10.0, 3.0, 5.0, 14.0], stratum=[0, 1, 0, 0, 1], strata=4)

    assert result.n.tolist() == [3, 2, 0, 0]
    assert result.mean[:2].tolist() == [3.0, 12.0]
    assert result.standard_error[:2].tolist() == pytest.approx([2 / math.sqrt(3), 2.0])
    assert np.isnan(result.mean[2:]).all()
    assert result.reason[2] == "no plot with a known value"


def test_single_plot_has_a_mean_but_no_error():
    result = estimate([25.0])

    assert result.mean[0] == 25.0
    assert np.isnan([result.standard_error[0], result.low[0], result.high[0]]).all()
    assert result.reason == ("one plot has no sampling error",)


def test_unknown_values_are_left_out_and_said():
    result = estimate([1.0, np.nan, 3.0, np.nan])

    assert (result.n[0], result.left_out[0], result.mean[0]) == (2, 2, 2.0)
    assert result.reason == ("2 plots without a known value left out",)


def test_survey_without_plots_is_answered():
    assert estimate([]).reason == ("no plot with a known value",)


def test_confidence_intervals_hold_the_mean_as_often_as_they_say():
    rng = np.random.default_rng(19)
    strata = np.repeat(np.arange(4000), 6)

    result = estimate(rng.normal(10.0, 3.0, len(strata)), stratum=strata, strata=4000)

    assert np.mean((result.low <= 10.0) & (result.high >= 10.0)) == pytest.approx(0.95, abs=0.012)


# Several strata


def test_published_simple_random_sample_of_pupils():
    # The guide prints mean 8.75 and standard error 0.845139 with 4,000 pupils in all.
    _, dollars = table(PUPILS, 2)
    result = stratified(dollars, np.zeros(40, int), [1.0], population=[4000])

    assert result.mean[0] == pytest.approx(8.75)
    assert result.standard_error[0] == pytest.approx(0.845139, abs=5e-7)


def test_published_stratified_sample():
    # The guide prints mean 9.141298 and standard error 0.531799 (figures from memory, data from the guide).
    grade, dollars = table(PUPILS, 2)
    result = stratified(dollars, grade - 7, GRADES, population=GRADES)

    assert result.mean[0] == pytest.approx(9.141298, abs=5e-7)
    assert result.standard_error[0] == pytest.approx(0.531799, abs=5e-7)
    assert result.design_effect[0] < 0.5


def test_published_strata_with_satterthwaites_degrees_of_freedom():
    # Thompson, S. K. (2012). Sampling, 3rd ed., table 11.1 and example 1 of chapter 11: total 64.4 with variance 322.8,
    # 7.82 degrees of freedom.
    values, stratum = printed([5, 3, 4], [1.6, 2.8, 0.6], [3.3, 4.0, 2.2])
    result = stratified(values, stratum, [20, 9, 12], population=[20, 9, 12])

    assert 41 * result.mean[0] == pytest.approx(64.4, abs=0.05)
    assert 41**2 * result.standard_error[0] ** 2 == pytest.approx(322.8, abs=0.05)
    assert result.freedom[0] == pytest.approx(7.82, abs=5e-3)


def test_published_strata_of_three_places():
    # Scheaffer, R. L., Mendenhall, W., Ott, L. (1990). Elementary Survey Sampling, 4th ed., chapter 5, hours before the
    # television in two towns and the country (data also in the course STAT 506 of Pennsylvania State University, 6.1):
    # mean 27.7, variance 1.97.
    hours = [35, 43, 36, 39, 28, 28, 29, 25, 38, 27, 26, 32, 29, 40, 35, 41, 37, 31, 45, 34]
    hours += [27, 15, 4, 41, 49, 25, 10, 30, 8, 14, 12, 15, 30, 32, 21, 20, 34, 7, 11, 24]
    households = [155, 62, 93]
    result = stratified(hours, np.repeat([0, 1, 2], [20, 8, 12]), households, population=households)

    assert result.mean[0] == pytest.approx(27.7, abs=0.05)
    assert result.standard_error[0] ** 2 == pytest.approx(1.97, abs=5e-3)


def test_published_stratification_after_sampling():
    # Scheaffer, Mendenhall and Ott, chapter 5, accounts receivable, 70 and 30 in the sample of 100 for shares of 0.4
    # and 0.6 (also in STAT 506, example 6-2; results from memory): mean 376, variance 227.97.
    values, stratum = printed([70, 30], [520.0, 280.0], [210.0**2, 90.0**2])
    result = stratified(values, stratum, [0.4, 0.6], after=True)

    assert result.mean[0] == pytest.approx(376.0)
    assert result.standard_error[0] ** 2 == pytest.approx(227.97, abs=5e-3)


def test_strata_of_the_sample_itself_weigh_like_the_simple_sample():
    values = np.random.default_rng(5).normal(10.0, 2.0, 30)
    stratum = np.repeat([0, 1, 2], [5, 10, 15])

    assert stratified(values, stratum, [5, 10, 15]).mean[0] == pytest.approx(values.mean())


def test_one_stratum_is_the_simple_sample_with_design_effect_one():
    values = [1.0, 3.0, 5.0, 10.0]
    simple, made = estimate(values), stratified(values, [0] * 4, [7.0])

    assert (made.low[0], made.high[0]) == pytest.approx((simple.low[0], simple.high[0]))
    assert made.design_effect[0] == pytest.approx(1.0)


def test_several_quantities_at_once_are_each_estimated_alone():
    rng = np.random.default_rng(8)
    values, stratum = rng.gamma(2.0, 3.0, (20, 4)), np.repeat([0, 1], 10)

    made = stratified(values, stratum, [2.0, 1.0])
    alone = [stratified(values[:, place], stratum, [2.0, 1.0]) for place in range(4)]

    assert made.standard_error == pytest.approx([each.standard_error[0] for each in alone])
    assert made.high == pytest.approx([each.high[0] for each in alone])


def test_equal_spread_and_sizes_leave_nearly_all_degrees_of_freedom():
    made = stratified([1.0, 2.0, 3.0, 11.0, 12.0, 13.0], [0, 0, 0, 1, 1, 1], [1.0, 1.0])

    # Cochran (1977), 5.4: between the least n_h - 1 and n less the number of strata, which equal variances reach.
    assert made.freedom[0] == pytest.approx(4.0)


def test_post_stratification_written_out():
    result = stratified([1.0, 3.0, 5.0, 10.0, 14.0], [0, 0, 0, 1, 1], [750.0, 250.0], after=True)

    # Computed by hand: variances 4 and 8, n = 5.
    assert result.mean[0] == pytest.approx(0.75 * 3 + 0.25 * 12)
    assert result.standard_error[0] ** 2 == pytest.approx((0.75 * 4 + 0.25 * 8) / 5 + (0.25 * 4 + 0.75 * 8) / 25)
    assert result.high[0] - result.mean[0] == pytest.approx(result.standard_error[0] * stats.t.ppf(0.975, 3), rel=1e-9)
    assert result.reason == ("",)


def test_post_stratification_of_one_stratum_is_the_simple_sample():
    simple = estimate([1.0, 3.0, 5.0, 10.0])

    combined = stratified([1.0, 3.0, 5.0, 10.0], [0] * 4, [1.0], after=True)

    assert combined.low[0] == pytest.approx(simple.low[0])
    assert combined.high[0] == pytest.approx(simple.high[0])


def test_post_stratified_error_is_the_spread_of_repeated_samples():
    rng = np.random.default_rng(23)
    share, level, spread = np.array([0.3, 0.7]), np.array([10.0, 25.0]), np.array([2.0, 6.0])
    results = []
    for _ in range(1500):
        stratum = (rng.random(40) > share[0]).astype(int)
        values = rng.normal(level[stratum], spread[stratum])
        results.append(stratified(values, stratum, share, after=True))

    means = np.array([result.mean[0] for result in results])
    errors = np.array([result.standard_error[0] for result in results])
    assert means.mean() == pytest.approx(20.5, abs=0.08)
    assert np.sqrt(np.mean(errors**2)) == pytest.approx(means.std(), rel=0.05)


def test_post_stratification_with_a_stratum_of_one_plot_says_why_it_has_no_error():
    result = stratified([1.0, 3.0, 10.0], [0, 0, 1], [1.0, 1.0], after=True)

    assert result.mean[0] == 6.0
    assert math.isnan(result.standard_error[0])
    assert result.reason == ("a stratum has fewer than two plots",)


@pytest.mark.parametrize("areas", [[1.0, 0.0], [1.0, np.nan], [1.0, -1.0]])
def test_post_stratification_needs_the_area_of_every_stratum(areas):
    with pytest.raises(InputError, match="area of every stratum"):
        stratified([1.0, 2.0], [0, 1], areas)


# Ratios and clusters


def test_published_stratified_cluster_sample():
    # The guide prints mean 8.923860 and standard error 0.650859 (figures from memory, data from the guide).
    grade, group, dollars = table(GROUPS, 3)
    groups = [608, 252, 403]
    result = clustered(dollars, grade * 1000 + group, stratum=grade - 7, weights=groups, population=groups)

    assert result.n[0] == 16
    assert result.mean[0] == pytest.approx(8.923860, abs=5e-7)
    assert result.standard_error[0] == pytest.approx(0.650859, abs=5e-7)


def test_published_clusters_of_unequal_size():
    # Scheaffer, Mendenhall and Ott, chapter 8, income in 25 of 415 blocks (from memory; sums of 151 residents and
    # 1,329 thousand dollars agree with the book): 8,801 dollars a head, variance 653,785.
    residents = [8, 12, 4, 5, 6, 6, 7, 5, 8, 3, 2, 6, 5, 10, 9, 3, 6, 5, 5, 4, 6, 8, 7, 3, 8]
    income = [96, 121, 42, 65, 52, 40, 75, 65, 45, 50, 85, 43, 54, 49, 53, 50, 32, 22, 45, 37, 51, 30, 39, 47, 41]
    each = np.repeat(1000.0 * np.array(income) / residents, residents)
    result = clustered(each, np.repeat(np.arange(25), residents), population=[415])

    assert (sum(residents), sum(income)) == (151, 1329)
    assert result.mean[0] == pytest.approx(8801, abs=0.5)
    assert result.standard_error[0] ** 2 == pytest.approx(653_785, abs=0.5)


def test_published_ratio_of_means():
    # Lohr, the example of dead trees: ratio 1.0906, its residuals' sum of squares 184.645.
    result = estimate(ratio_values(GROUND, PHOTOGRAPH))

    assert result.mean[0] == pytest.approx(1.0906, abs=5e-5)
    assert 25 * 24 * (265 / 25) ** 2 * result.standard_error[0] ** 2 == pytest.approx(184.645, abs=5e-4)
    # With the correction for 25 of 100 plots and times 11.3: 12.323 with standard error 0.512.
    assert 11.3 * result.mean[0] == pytest.approx(12.323, abs=5e-4)
    assert 11.3 * math.sqrt(0.75) * result.standard_error[0] == pytest.approx(0.512, abs=5e-4)


def test_clusters_of_one_plot_are_the_simple_sample():
    values = [4.0, 9.0, 1.0, 6.0]
    made, simple = clustered(values, [3, 1, 7, 5]), estimate(values)

    assert made.mean[0] == pytest.approx(simple.mean[0])
    assert made.standard_error[0] == pytest.approx(simple.standard_error[0])
    assert made.design_effect[0] == pytest.approx(1.0)


def test_clusters_of_equal_plots_tell_no_more_than_their_number():
    made = clustered(np.repeat([4.0, 9.0, 1.0, 6.0], 5), np.repeat(np.arange(4), 5))

    assert made.standard_error[0] == pytest.approx(estimate([4.0, 9.0, 1.0, 6.0]).standard_error[0])
    assert made.design_effect[0] == pytest.approx(19 / 3)


def test_ratio_of_means_written_out():
    found, size = np.array([10.0, 3.0, 8.0, 5.0]), np.array([1.0, 0.4, 0.9, 0.5])
    ratio = 26.0 / 2.8
    made = estimate(ratio_values(found, size))

    # Cochran (1977), equation 6.10 without the finite population correction.
    error = math.sqrt(((found - ratio * size) ** 2).sum() / 12) / 0.7
    assert made.mean[0] == pytest.approx(ratio)
    assert made.standard_error[0] == pytest.approx(error)


def test_part_plots_of_one_density_have_no_sampling_error():
    made = estimate(ratio_values([200.0, 80.0, 20.0], [1.0, 0.4, 0.1]))

    assert made.mean[0] == pytest.approx(200.0)
    assert made.standard_error[0] == pytest.approx(0.0, abs=1e-9)


def test_ratios_of_nested_circles_add_up():
    found, size = np.array([[100.0, 40.0], [50.0, 10.0], [70.0, 60.0]]), np.array([[1.0, 0.9], [0.6, 0.5], [1.0, 1.0]])

    made = ratio_values(found, size)

    assert made.mean() == pytest.approx(220.0 / 2.6 + 110.0 / 2.4)


def test_unknown_plots_stay_unknown_in_a_ratio():
    assert np.isnan(ratio_values([1.0, np.nan, 3.0], [1.0, 1.0, 1.0])).tolist() == [False, True, False]


# Double sampling


def test_double_sampling_for_stratification_written_out():
    result = double_stratified([1.0, 2.0, 3.0, 5.0, 7.0, 9.0], [0, 0, 0, 1, 1, 1], [60, 40])

    # By hand: w 0.6 and 0.4, means 2 and 7, variances 1 and 4.
    within = 0.6 * 59 / 99 * 1 / 3 + 0.4 * 39 / 99 * 4 / 3
    assert result.mean[0] == pytest.approx(4.0)
    assert result.standard_error[0] ** 2 == pytest.approx(within + (0.6 * 4 + 0.4 * 9) / 99)


def test_published_double_sampling_for_stratification():
    # Lohr, Sampling: Design and Analysis, chapter 12, after Stockford and Page (1984): of 2,064 records 755 said yes,
    # 804 no, 505 nothing; 49 of 67, 11 of 72 and 211 of 505 looked at had been in Vietnam (from memory): 0.429.
    found, looked = [49, 11, 211], [67, 72, 505]
    values = np.concatenate([np.arange(size) < there for there, size in zip(found, looked, strict=True)])
    result = double_stratified(values, np.repeat([0, 1, 2], looked), [755, 804, 505])

    assert result.mean[0] == pytest.approx(0.429, abs=5e-4)


@pytest.mark.parametrize(
    ("points", "n", "mean", "variance", "result"),
    [
        # Jin, Y., Du, Z., Jiang, Y., Sampling Techniques (China Renmin University Press), example 7.1: mean 6.42.
        ([540, 320, 100, 40], [80, 60, 40, 20], [2, 7, 15, 40], [1.01, 2.71, 15.38, 690.53], 6.42),
        # Särndal, C.-E., Swensson, B., Wretman, J. (1992). Model Assisted Survey Sampling, exercises of chapter 9:
        # 160 municipalities in four strata of 40 by size, 20 drawn from each; the mean is that of the four.
        ([40] * 4, [20] * 4, [17.05, 19.75, 22.40, 31.25], [19.945, 24.197, 28.359, 42.829], 22.6125),
    ],
)
def test_published_double_samples_have_the_error_that_another_book_gives(points, n, mean, variance, result):
    values, stratum = printed(n, mean, variance)
    made = double_stratified(values, stratum, points)

    # Särndal, Swensson and Wretman, equation 9.4.14 for very many units (as in Brus, D. J. (2022). Spatial Sampling
    # with R, 11.1).
    points, total = np.array(points), sum(points)
    within = ((points - 1) / (total - 1) * points / total * variance / np.array(n)).sum()
    between = (points / total * (np.array(mean) - result) ** 2).sum() / (total - 1)
    assert made.mean[0] == pytest.approx(result, abs=1e-9)
    assert made.standard_error[0] == pytest.approx(math.sqrt(within + between))


def test_strata_known_ever_better_are_strata_of_known_size():
    values, stratum = [1.0, 2.0, 3.0, 5.0, 7.0, 9.0], [0, 0, 0, 1, 1, 1]
    made, known = double_stratified(values, stratum, [6e8, 4e8]), stratified(values, stratum, [0.6, 0.4])

    assert made.standard_error[0] == pytest.approx(known.standard_error[0], rel=1e-6)
    assert made.freedom[0] == pytest.approx(known.freedom[0], rel=1e-6)


def test_double_sampling_with_regression_written_out():
    x, y = np.array([1.0, 2.0, 3.0, 4.0]), np.array([2.0, 3.0, 5.0, 6.0])
    result = double_regression(y, x, first_mean=3.0, points=40)

    # By hand: slope 1.4, residual sum of squares 0.2, variance of y 10 / 3.
    assert result.mean[0] == pytest.approx(4.7)
    assert result.standard_error[0] ** 2 == pytest.approx(0.1 * (0.25 + 0.25 / 5) + (10 / 3 - 0.1) / 40)


def test_published_regression_of_dead_trees_on_photographs():
    # Lohr, the example of dead trees, a first sample that is all 100 plots: mean 11.99; 0.417 from a residual variance
    # of 5.7896, where the book divides the squares by n - 1 and prints 0.408.
    made = double_regression(GROUND, PHOTOGRAPH, first_mean=11.3, points=100)
    level = double_regression(GROUND, PHOTOGRAPH, first_mean=float(np.mean(PHOTOGRAPH)), points=100)

    assert made.mean[0] == pytest.approx(11.99, abs=5e-3)
    # Of a first sample of all plots Cochran (12.8) takes s² / N off; the book leaves out that the slope is uncertain.
    error = math.sqrt(level.standard_error[0] ** 2 - np.var(GROUND, ddof=1) / 100)
    assert error == pytest.approx(0.417, abs=5e-4)
    assert error * math.sqrt(23 / 24) == pytest.approx(0.408, abs=5e-4)


def test_double_sampling_with_regression_needs_a_larger_first_sample():
    with pytest.raises(InputError, match="first sample"):
        double_regression([1.0, 2.0, 3.0], [1.0, 2.0, 3.0], first_mean=2.0, points=2)


@pytest.mark.parametrize(
    ("auxiliary", "reason"),
    [([4.0, 4.0, 4.0], "the same on all plots"), ([4.0, np.nan, 5.0], "fewer than three plots")],
)
def test_auxiliary_value_that_cannot_help_is_told(auxiliary, reason):
    made = double_regression([1.0, 2.0, 3.0], auxiliary, first_mean=2.0, points=20)

    assert np.isnan([made.mean[0], made.standard_error[0]]).all()
    assert reason in made.reason[0]


@pytest.mark.parametrize("kind", ["stratification", "regression"])
def test_errors_of_double_sampling_are_the_spread_of_repeated_samples(kind):
    rng = np.random.default_rng(31)
    made = []
    for _ in range(1200):
        aid = rng.gamma(4.0, 2.0, 300)
        chosen = rng.permutation(300)[:40]
        values = 5.0 + 3.0 * aid + rng.normal(0.0, 4.0, 300)
        if kind == "regression":
            made.append(double_regression(values[chosen], aid[chosen], first_mean=aid.mean(), points=300))
        else:
            tall = (aid > 8.0).astype(int)
            points = np.bincount(tall, minlength=2)
            picked = np.concatenate([rng.permutation(np.flatnonzero(tall == place))[:20] for place in (0, 1)])
            made.append(double_stratified(values[picked], tall[picked], points))
    means, errors = np.array([each.mean[0] for each in made]), np.array([each.standard_error[0] for each in made])

    assert means.mean() == pytest.approx(29.0, abs=0.12)
    assert np.sqrt(np.mean(errors**2)) == pytest.approx(means.std(), rel=0.06)
    assert np.mean([each.low[0] <= 29.0 <= each.high[0] for each in made]) == pytest.approx(0.95, abs=0.02)


# Intervals


@pytest.mark.parametrize("design", DESIGNS)
def test_intervals_of_totals_hold_as_often_as_they_say_from_20_plots(design):
    held = coverage(20, design, forest="even", surveys=1500)[:, 0]

    # Two standard errors of so few surveys are 1.1; those of Student and those without skewness.
    assert (held >= 93.5).all()
    assert (held <= 96.5).all()


def test_without_skewness_intervals_hold_better_where_plots_differ_much():
    held = coverage(20, "simple", forest="patchy", surveys=1500)

    assert 93.5 <= held[1, 0] <= 96.5
    # A species of 40 stems per hectare: Student's t holds 92.
    assert held[1, 3] > held[0, 3] + 1.0


def test_limits_without_skewness_are_the_published_transformation_of_the_mean():
    values = np.array([0.0, 0.0, 1.0, 2.0, 2.0, 3.0, 9.0])
    n, mean, error = 7, values.mean(), values.std(ddof=1) / np.sqrt(7)
    gamma = n / ((n - 1) * (n - 2)) * np.sum((values - mean) ** 3) / values.std(ddof=1) ** 3
    made = estimate(values)

    for limit, quantile in ((made.skew_low[0], 2.446912), (made.skew_high[0], -2.446912)):
        t = np.sqrt(n) * (mean - limit) / (error * np.sqrt(n))
        # Hall (1992): n^1/2 {T + γ T² / 3 + γ² T³ / 27 + γ / 6 n} with T over n^1/2.
        u = t / np.sqrt(n)
        assert np.sqrt(n) * (u + gamma * u**2 / 3 + gamma**2 * u**3 / 27 + gamma / (6 * n)) == pytest.approx(
            quantile, abs=1e-6
        )


def test_of_even_values_both_intervals_are_the_same():
    made = estimate([1.0, 2.0, 3.0, 4.0, 5.0])

    assert (made.skew_low[0], made.skew_high[0]) == pytest.approx((made.low[0], made.high[0]))
    assert np.isnan(estimate([4.0]).skew_low[0])


def test_one_stratum_is_the_simple_estimate_without_skewness_too():
    values = np.random.default_rng(1).gamma(1.0, 10.0, 15)
    one, other = estimate(values), stratified(values, np.zeros(15, int), [3.0])
    grouped = clustered(values, np.arange(15))

    assert other.skew_low[0] == pytest.approx(one.skew_low[0])
    assert grouped.skew_high[0] == pytest.approx(one.skew_high[0])


def test_intervals_of_a_species_on_few_plots_hold_less_often_than_they_say():
    held = coverage_by_presence(plots=50, surveys=1500)

    few = [share for word, (share, _) in held.items() if float(word.split()[0]) < 5]
    assert max(few) < 93.0
