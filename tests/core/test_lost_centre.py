"""Three stems from which a lost centre is found again."""

import numpy as np
import pytest
from scipy.optimize import least_squares

from stemmap.core.lost_centre import THICKEST, three_around


def test_stems_that_stand_120_degrees_apart_are_chosen():
    azimuth = [10.0, 40.0, 80.0, 130.0, 200.0, 250.0, 300.0]
    chosen = three_around(azimuth, 6.0, 30.0, 0.05)
    assert chosen.stems.tolist() == [0, 3, 5]
    assert chosen.widest_gap_deg == pytest.approx(120.0)


def test_at_120_degrees_the_variance_is_four_thirds_of_that_of_a_distance():
    """Trace of the inverse of (3 / 2 s^2) I (computed by hand)."""
    chosen = three_around([0.0, 120.0, 240.0], 6.0, 30.0, 0.06)
    assert chosen.sd_m == pytest.approx(0.06 * np.sqrt(4.0 / 3.0))


def test_the_centre_is_found_where_it_was_and_as_surely_as_is_said():
    """Own simulation: the centre adjusted by least squares from three distances with errors, 2,000 times."""
    rng = np.random.default_rng(11)
    azimuth, distance = rng.uniform(0.0, 360.0, 15), rng.uniform(2.0, 12.0, 15)
    sd = 0.03 + 0.01 * distance
    chosen = three_around(azimuth, distance, rng.uniform(10.0, 60.0, 15), sd)
    turned = np.radians(azimuth[chosen.stems])
    stems = np.column_stack([np.sin(turned), np.cos(turned)]) * distance[chosen.stems, None]
    error = sd[chosen.stems]

    def centre(taped):
        return least_squares(lambda at: (np.hypot(*(stems - at).T) - taped) / error, np.zeros(2)).x

    assert centre(distance[chosen.stems]) == pytest.approx(0.0, abs=1e-6)
    found = np.array([centre(distance[chosen.stems] + rng.normal(0.0, error)) for _ in range(2000)])
    assert np.sqrt((found**2).sum(axis=1).mean()) == pytest.approx(chosen.sd_m, rel=0.1)


def test_stems_around_the_centre_go_before_stems_on_one_side():
    azimuth = [0.0, 60.0, 300.0, 150.0]
    chosen = three_around(azimuth, 5.0, 30.0, [0.01, 0.01, 0.01, 0.3])
    assert 3 in chosen.stems
    assert chosen.widest_gap_deg < 180.0


def test_where_all_stand_on_one_side_the_widest_spread_is_taken():
    assert three_around([10.0, 20.0, 60.0, 100.0], 5.0, 30.0, 0.05).widest_gap_deg == pytest.approx(270.0)


def test_thin_stems_are_left_out_where_there_are_enough_thick_ones():
    azimuth = np.append(np.arange(THICKEST) * 29.0, [0.5, 120.0, 240.0])
    dbh = np.append(np.full(THICKEST, 40.0), [8.0, np.nan, 7.0])
    assert three_around(azimuth, 5.0, dbh, 0.05).stems.max() < THICKEST


@pytest.mark.parametrize(
    ("azimuth", "distance"),
    [([], []), ([0.0, 120.0], [5.0, 5.0]), ([0.0, 180.0, 0.0], [5.0, 5.0, 9.0]), ([0.0, 120.0, np.nan], [5.0] * 3)],
)
def test_where_no_three_stems_fix_the_centre_none_are_named(azimuth, distance):
    assert three_around(azimuth, distance, 30.0, 0.05) is None


def test_stems_are_told_clockwise_from_north():
    assert three_around([240.0, -10.0, 120.0], 5.0, 30.0, 0.05).stems.tolist() == [2, 0, 1]
