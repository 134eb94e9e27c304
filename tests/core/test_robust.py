"""Middle and spread that a slip does not move, and gross differences."""

import numpy as np
import pytest
from scipy.stats import binom, norm

from stemmap.core.robust import NORMAL, gross, robust

#: Example data of Rosner 1983 (Technometrics 25: 165-172), from memory: 54 values of which three are outliers.
ROSNER = [
    *(-0.25, 0.68, 0.94, 1.15, 1.20, 1.26, 1.26, 1.34, 1.38, 1.43, 1.49, 1.49, 1.55, 1.56, 1.58, 1.65, 1.69, 1.70),
    *(1.76, 1.77, 1.81, 1.91, 1.94, 1.96, 1.99, 2.06, 2.09, 2.10, 2.14, 2.15, 2.23, 2.24, 2.26, 2.35, 2.37, 2.40),
    *(2.47, 2.54, 2.62, 2.64, 2.90, 2.92, 2.92, 2.93, 3.21, 3.26, 3.30, 3.59, 3.68, 4.30, 4.64, 5.34, 5.42, 6.01),
]


def test_figures_by_hand():
    """Nine values around 3, deviations 0, 1, 1, 2, 2, 3, 3, 4 and 97: binomial(9, 1/2) is at most 1 in 2.0 % of cases.

    So both intervals run from the second to the second last (computed by hand).
    """
    made = robust([-1.0, 0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, np.nan, 100.0])
    assert (made.median, made.median_low, made.median_high) == (3.0, 0.0, 6.0)
    assert (made.spread, made.spread_low, made.spread_high) == pytest.approx((2 * NORMAL, NORMAL, 4 * NORMAL))


def test_the_factor_is_that_of_the_normal_distribution():
    assert pytest.approx(1.0 / norm.ppf(0.75), rel=1e-15) == NORMAL


@pytest.mark.parametrize(("count", "has"), [(1, False), (5, False), (6, True), (9, True)])
def test_an_interval_takes_six_values(count, has):
    """Five equally likely sides agree once in 16, six once in 32 (computed by hand)."""
    made = robust(np.arange(count))
    assert np.isfinite([made.median_low, made.median_high, made.spread_low]).tolist() == [has] * 3
    assert np.isfinite(made.median)
    assert np.isfinite(made.spread) == (count > 1)


def test_without_values_every_figure_is_missing():
    assert np.isnan(list(vars(robust([np.nan])).values())).all()


@pytest.mark.parametrize("count", [8, 25, 40, 101])
def test_intervals_hold_what_they_say(count):
    """Of the median just what the binomial says, of the spread the same within a little (own simulation)."""
    rng = np.random.default_rng(count)
    runs = 2000
    made = [robust(each) for each in rng.normal(0.05, 0.1, (runs, count))]
    rank = max(each for each in range(1, count) if binom.cdf(each - 1, count, 0.5) <= 0.025)
    expected = 1.0 - 2.0 * binom.cdf(rank - 1, count, 0.5)
    low, high = binom.ppf([0.0005, 0.9995], runs, expected)
    assert low <= sum(each.median_low <= 0.05 <= each.median_high for each in made) <= high
    held = np.mean([each.spread_low <= 0.1 <= each.spread_high for each in made])
    assert expected - 0.015 <= held <= expected + 0.015
    assert held > 0.945


def test_a_published_example_has_three_outliers():
    """Rosner 1983: R 3.118, 2.942, 3.179, 2.810 against 3.158, 3.151, 3.143, 3.136; the third is the last above."""
    values = np.array(ROSNER)
    assert values[gross(values, risk=0.05)].tolist() == [5.34, 5.42, 6.01]
    assert not gross(values[values < 5.0], risk=0.05).any()


def test_two_gross_differences_do_not_hide_each_other():
    values = np.append(np.linspace(-1.0, 1.0, 20), [310.5, 311.0])
    assert np.flatnonzero(gross(values)).tolist() == [20, 21]


@pytest.mark.parametrize("count", [3, 8, 25, 100])
def test_one_normal_sample_in_a_hundred_has_a_gross_difference(count):
    """Own simulation; the risk is a little above its 1 % where many may be taken away (2 % of 400)."""
    rng = np.random.default_rng(count)
    told = sum(gross(each).any() for each in rng.normal(size=(2000, count)))
    low, high = binom.ppf([0.0005, 0.9995], 2000, 0.012)
    assert low <= told <= high


@pytest.mark.parametrize("values", [[], [1.0], [1.0, 300.0], [0.2] * 9, [np.nan] * 3 + [1.0, 2.0]])
def test_nothing_is_gross_where_nothing_can_be_told(values):
    assert not gross(values).any()


def test_missing_values_keep_their_places():
    assert gross([np.nan, 0.1, 0.0, np.nan, -0.1, 0.05, 0.0, 99.0]).tolist() == [False] * 7 + [True]
