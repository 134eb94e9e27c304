"""Per-hectare values and sampling errors against worked and published numbers."""

import math

import numpy as np
import pytest
from scipy import stats

from stemmap.core.stand import (
    dbh_classes,
    estimate,
    post_stratified,
    stand_values,
    stand_values_by_group,
    sum_by_plot,
)
from stemmap.errors import InputError

# Per-hectare values


def test_five_stems_on_500_square_metres():
    values = stand_values([20, 25, 30, 35, 40], np.full(5, 20.0), [0, 5])

    # Computed.
    assert values.stems_per_ha[0] == 100.0
    assert values.basal_area[0] == pytest.approx(7.461283, abs=1e-6)
    assert values.qmd[0] == pytest.approx(30.82207, abs=1e-5)


def test_nested_circles_give_each_stem_the_factor_of_its_own():
    # Computed: 50/ha below 36 cm, 20/ha from there on; a stem outside its circle does not count.
    dbh = [14, 20, 30, 40, 55, 38, 30]
    values = stand_values(
        dbh, [50, 50, 50, 20, 20, 20, 50], [0, 7], counted=[True, True, True, True, True, True, False]
    )

    assert values.stems[0] == 6
    assert values.stems_per_ha[0] == 210.0
    assert values.basal_area[0] == pytest.approx(15.407941, abs=1e-6)


def test_empty_plots_are_zeros_wherever_they_stand():
    values = stand_values([10.0, 20.0, 30.0], [10.0, 10.0, 10.0], [0, 0, 2, 2, 2, 3, 3])

    assert values.stems.tolist() == [0, 2, 0, 0, 1, 0]
    assert values.stems_per_ha.tolist() == [0.0, 20.0, 0.0, 0.0, 10.0, 0.0]
    assert values.basal_area[[0, 2, 3, 5]].tolist() == [0.0] * 4
    assert np.isnan(values.qmd[[0, 2, 3, 5]]).all()


def test_survey_of_empty_plots_only_is_all_zeros():
    assert sum_by_plot([], [0, 0, 0]).tolist() == [0.0, 0.0]
    assert stand_values([], [], [0, 0]).basal_area.tolist() == [0.0]
    assert stand_values([], [], [0]).basal_area.shape == (0,)


def test_missing_dbh_leaves_stems_known_and_basal_area_unknown():
    values = stand_values([20.0, np.nan, 30.0], [20.0, 20.0, 20.0], [0, 2, 3])

    assert values.stems_per_ha.tolist() == [40.0, 20.0]
    assert values.without_dbh.tolist() == [1, 0]
    assert np.isnan(values.basal_area).tolist() == [True, False]
    assert np.isnan(values.qmd).tolist() == [True, False]
    assert values.basal_area_measured[0] == pytest.approx(20 * math.pi / 4 * 0.2**2)


def test_missing_dbh_of_a_stem_that_does_not_count_is_no_matter():
    values = stand_values([20.0, np.nan], [20.0, np.nan], [0, 2], counted=[True, False])

    assert values.without_dbh.tolist() == [0]
    assert values.stems_per_ha.tolist() == [20.0]
    assert values.qmd[0] == pytest.approx(20.0)


def test_unknown_expansion_factor_makes_the_plot_unknown():
    values = stand_values([20.0, 30.0], [np.nan, 20.0], [0, 1, 2])

    assert np.isnan(values.stems_per_ha).tolist() == [True, False]
    assert np.isnan(values.basal_area).tolist() == [True, False]


def test_angle_count_gives_each_stem_the_basal_area_factor():
    dbh = np.array([12.0, 33.0, 51.0])

    assert stand_values(dbh, 4.0 / (math.pi / 4e4 * dbh**2), [0, 3]).basal_area[0] == pytest.approx(12.0)


def test_groups_of_a_plot_sum_to_the_plot():
    rng = np.random.default_rng(2)
    offsets = np.array([0, 30, 30, 50])
    dbh, factor, species = rng.uniform(7, 60, 50), rng.choice([20.0, 50.0], 50), rng.integers(-1, 4, 50)
    counted = rng.random(50) < 0.8

    whole = stand_values(dbh, factor, offsets, counted=counted)
    parts = stand_values_by_group(dbh, factor, offsets, species, counted=counted)
    first = stand_values(dbh, factor, offsets, counted=counted & (species == 2))

    for name in ("stems", "stems_per_ha", "basal_area"):
        summed = np.bincount(parts.plot, weights=getattr(parts.values, name), minlength=3)
        np.testing.assert_allclose(summed, getattr(whole, name))
    row = np.flatnonzero((parts.plot == 0) & (parts.group == 2))
    assert parts.values.qmd[row] == pytest.approx(first.qmd[0])
    assert 1 not in parts.plot
    assert np.unique(np.column_stack([parts.plot, parts.group]), axis=0).shape[0] == len(parts.plot)


def test_no_stems_give_no_groups():
    assert stand_values_by_group([], [], [0, 0], []).plot.shape == (0,)


def test_dbh_on_a_limit_belongs_to_the_class_above():
    classes = dbh_classes([9.9, 10.0, 14.99, 15.0, np.nan, 0.3], [20.0] * 6, [0, 5, 6])

    assert classes.edges.tolist() == [0.0, 5.0, 10.0, 15.0, 20.0]
    assert classes.stems_per_ha.tolist() == [[0.0, 20.0, 40.0, 20.0], [20.0, 0.0, 0.0, 0.0]]
    assert classes.without_dbh.tolist() == [1, 0]


def test_class_limits_hold_in_spite_of_decimal_fractions():
    assert dbh_classes([0.3], [1.0], [0, 1], width=0.1).stems_per_ha.tolist() == [[0.0, 0.0, 0.0, 1.0]]


def test_classes_of_no_stems_are_one_empty_class():
    assert dbh_classes([], [], [0, 0]).stems_per_ha.tolist() == [[0.0]]


@pytest.mark.parametrize("width", [0.0, -5.0, np.nan, np.inf])
def test_class_without_a_width_is_refused(width):
    with pytest.raises(InputError, match="positive width"):
        dbh_classes([10.0], [1.0], [0, 1], width=width)


# Sampling errors


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


def test_post_stratification_written_out():
    strata = estimate([1.0, 3.0, 5.0, 10.0, 14.0], stratum=[0, 0, 0, 1, 1], strata=2)

    result = post_stratified(strata, [750.0, 250.0])

    # Computed by hand: variances 4 and 8, n = 5.
    assert result.mean[0] == pytest.approx(0.75 * 3 + 0.25 * 12)
    assert result.standard_error[0] ** 2 == pytest.approx((0.75 * 4 + 0.25 * 8) / 5 + (0.25 * 4 + 0.75 * 8) / 25)
    assert result.high[0] - result.mean[0] == pytest.approx(result.standard_error[0] * stats.t.ppf(0.975, 3), rel=1e-9)
    assert result.reason == ("",)


def test_post_stratification_of_one_stratum_is_the_simple_sample():
    simple = estimate([1.0, 3.0, 5.0, 10.0])

    combined = post_stratified(simple, [1.0])

    assert combined.low[0] == pytest.approx(simple.low[0])
    assert combined.high[0] == pytest.approx(simple.high[0])


def test_post_stratified_error_is_the_spread_of_repeated_samples():
    rng = np.random.default_rng(23)
    share, level, spread = np.array([0.3, 0.7]), np.array([10.0, 25.0]), np.array([2.0, 6.0])
    results = []
    for _ in range(1500):
        stratum = (rng.random(40) > share[0]).astype(int)
        values = rng.normal(level[stratum], spread[stratum])
        results.append(post_stratified(estimate(values, stratum=stratum, strata=2), share))

    means = np.array([result.mean[0] for result in results])
    errors = np.array([result.standard_error[0] for result in results])
    assert means.mean() == pytest.approx(20.5, abs=0.08)
    assert np.sqrt(np.mean(errors**2)) == pytest.approx(means.std(), rel=0.05)


def test_post_stratification_with_a_stratum_of_one_plot_says_why_it_has_no_error():
    result = post_stratified(estimate([1.0, 3.0, 10.0], stratum=[0, 0, 1], strata=2), [1.0, 1.0])

    assert result.mean[0] == 6.0
    assert math.isnan(result.standard_error[0])
    assert result.reason == ("a stratum has fewer than two plots",)


@pytest.mark.parametrize("areas", [[1.0], [1.0, 0.0], [1.0, np.nan], [1.0, -1.0]])
def test_post_stratification_needs_the_area_of_every_stratum(areas):
    with pytest.raises(InputError, match="area of every stratum"):
        post_stratified(estimate([1.0, 2.0], stratum=[0, 1], strata=2), areas)
