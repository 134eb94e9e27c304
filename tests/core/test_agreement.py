"""Agreement of measurements made twice, and its intervals."""

import numpy as np
import pytest

from stemmap.core.agreement import agreement, turned, within


def test_figures_by_hand():
    """Differences 1, 2, 3 (computed by hand): t(2; 0.975) = 4.3027, chi-square(2): 0.05064 and 7.3778."""
    made = agreement([1.0, np.nan, 2.0, 3.0], tolerance=2.0)
    assert made.pairs == 3
    assert made.within == pytest.approx(2 / 3)
    assert (made.bias, made.spread) == (2.0, 1.0)
    assert made.bias_high - made.bias == pytest.approx(4.3027 / 3**0.5, rel=1e-4)
    assert made.spread_low == pytest.approx((2 / 7.3778) ** 0.5, rel=1e-4)
    assert made.spread_high == pytest.approx((2 / 0.05064) ** 0.5, rel=1e-3)


def test_all_within_leaves_the_interval_of_the_share_open_below():
    """Ten of ten: n / (n + z²) by Wilson's formula (computed by hand)."""
    made = agreement(np.zeros(10), tolerance=0.1)
    assert made.within_low == pytest.approx(10 / (10 + 1.959964**2), rel=1e-6)
    assert made.within_high == pytest.approx(1.0)


def test_a_difference_of_just_the_tolerance_is_within():
    assert agreement([0.3 - 0.2], tolerance=0.1).within == 1.0


def test_each_pair_may_have_its_own_tolerance():
    assert agreement([0.3, 0.3, np.nan], tolerance=[0.2, 0.4, 0.1]).within == 0.5
    assert within([0.3, np.nan, 0.3], [0.3, 1.0, np.nan]).tolist() == [True, False, False]


def test_azimuths_differ_the_shorter_way_round():
    assert turned([359.0, 2.0, 180.0], [1.0, 358.0, 0.0]).tolist() == [-2.0, 4.0, 180.0]
    assert turned(399.0, 1.0, full_circle=400.0) == -2.0
    assert np.isnan(turned(np.nan, 1.0))


def test_a_single_pair_has_no_spread():
    made = agreement([0.4], tolerance=0.5)
    assert (made.pairs, made.within, made.bias) == (1, 1.0, 0.4)
    assert np.isnan([made.bias_low, made.spread, made.spread_high]).all()


def test_without_pairs_every_figure_is_missing():
    made = agreement([np.nan], tolerance=1.0)
    assert made.pairs == 0
    assert np.isnan([made.within, made.bias, made.spread]).all()


def test_intervals_hold_95_of_100_true_figures():
    """Normal differences of known bias and spread (own simulation)."""
    rng = np.random.default_rng(11)
    made = [agreement(each, tolerance=0.2) for each in rng.normal(0.05, 0.1, (2000, 25))]
    assert 0.935 <= np.mean([each.bias_low <= 0.05 <= each.bias_high for each in made]) <= 0.965
    assert 0.935 <= np.mean([each.spread_low <= 0.1 <= each.spread_high for each in made]) <= 0.965
