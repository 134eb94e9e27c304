"""Height against dbh: robust lines."""

import numpy as np
import pytest

from stemmap.core.heights import robust_lines


def pairs(seed=5, count=400, slope=0.6, spread=0.1):
    rng = np.random.default_rng(seed)
    x = rng.normal(3.0, 0.4, count)
    return x, 1.0 + slope * x + rng.normal(0.0, spread, count)


def test_line_and_spread_of_clean_pairs_are_found():
    x, y = pairs()
    made = robust_lines(x, y, np.zeros(400, int))
    assert made.slope[0] == pytest.approx(0.6, abs=0.03)
    assert made.spread[0] == pytest.approx(0.1, abs=0.015)


def test_one_value_in_twenty_ten_times_too_large_moves_the_line_little():
    x, y = pairs()
    y[::20] += np.log(10.0)
    made = robust_lines(x, y, np.zeros(400, int))
    assert made.slope[0] == pytest.approx(0.6, abs=0.04)
    assert np.abs(made.off(x, y, np.zeros(400, int)))[::20].min() > 15.0


def test_small_groups_follow_the_line_of_all():
    x, y = pairs()
    group = np.zeros(400, int)
    group[:10] = 1
    made = robust_lines(x, y, group)
    whole = robust_lines(x, y, np.zeros(400, int))
    assert made.slope[1] == whole.slope[0]
    assert made.slope[0] != whole.slope[0]


def test_without_pairs_nothing_is_known():
    made = robust_lines(np.full(3, np.nan), np.ones(3), np.zeros(3, int))
    assert np.isnan(made.spread).all()
