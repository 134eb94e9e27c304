"""Hidden ground and the chance of being seen, against closed forms and a ray caster."""

import math

import numpy as np
import pytest

from stemmap.core.visibility import hidden_ground, seen_probability, wholly_hidden
from tests.stands import random_places

# Hidden ground


def test_one_stem_hides_a_sector_beyond_itself():
    made = hidden_ground([90.0], [5.0], [100.0], np.array([0]), radius_m=[10.0])

    half = math.degrees(math.asin(0.1))
    assert made.share[0] == pytest.approx(2 * half / 360 * 0.75)
    assert (made.plot[0], made.beyond_m[0]) == (0, 5.0)
    assert (made.start_deg[0], made.end_deg[0]) == pytest.approx((90 - half, 90 + half))


def test_of_two_stems_in_line_the_nearer_one_hides():
    made = hidden_ground([90.0, 90.0], [8.0, 4.0], [60.0, 20.0], np.array([0, 0]), radius_m=[10.0])

    inner, outer = math.asin(0.025), math.asin(0.0375)
    assert made.beyond_m.tolist() == [8.0, 4.0, 8.0]
    assert made.share[0] == pytest.approx((inner * 0.84 + (outer - inner) * 0.36) / math.pi)


def test_sector_across_north_is_given_in_two_parts():
    made = hidden_ground([0.0], [5.0], [100.0], np.array([0]), radius_m=[10.0])

    half = math.degrees(math.asin(0.1))
    np.testing.assert_allclose(made.start_deg, [0.0, 360 - half])
    np.testing.assert_allclose(made.end_deg, [half, 360.0])
    assert made.share[0] == pytest.approx(2 * half / 360 * 0.75)


def test_stems_beyond_the_circle_or_without_values_or_over_the_centre_hide_nothing():
    azimuth = [10.0, 20.0, np.nan, 40.0, 50.0]
    distance = [11.0, 5.0, 5.0, 0.1, np.nan]
    made = hidden_ground(azimuth, distance, [50.0, np.nan, 50.0, 50.0, 50.0], np.zeros(5, int), radius_m=[10.0])

    assert made.share.tolist() == [0.0]
    assert len(made.plot) == 0


def test_plot_without_radius_is_not_known_and_no_plots_give_no_answers():
    assert np.isnan(hidden_ground([10.0], [5.0], [30.0], np.array([0]), radius_m=[np.nan]).share).all()
    assert hidden_ground([], [], [], np.zeros(0, int), radius_m=[]).share.shape == (0,)
    assert hidden_ground([], [], [], np.zeros(0, int), radius_m=[5.0]).share.tolist() == [0.0]


# Computed: the visible share 2 [1 - e^-x (1 + x)] / x² with x = stems per m² times dbh times R, derived from
# P(clear to r) = exp(-stems per m² dbh r).
@pytest.mark.parametrize(
    ("per_ha", "dbh_m", "radius", "visible"),
    [
        (400, 0.30, 12.62, 0.90455),
        (600, 0.25, 12.62, 0.88232),
        (1000, 0.20, 12.62, 0.84664),
        (600, 0.25, 17.84, 0.83829),
        (1500, 0.15, 10.0, 0.86193),
        (600, 0.25, 7.98, 0.92367),
    ],
)
def test_visible_share_of_stems_at_random_is_that_of_the_closed_form(per_ha, dbh_m, radius, visible):
    azimuth, distance, plot = random_places(np.random.default_rng(7), per_ha=per_ha, radius=radius, plots=4000)
    share = hidden_ground(
        azimuth, distance, np.full(len(plot), 100 * dbh_m), plot, radius_m=np.full(4000, radius)
    ).share

    assert 1 - share.mean() == pytest.approx(visible, abs=4 * share.std() / math.sqrt(4000))


def test_hidden_share_and_sectors_agree_with_rays():
    rng = np.random.default_rng(3)
    plot = np.repeat(np.arange(5), 40)
    azimuth, distance, dbh = rng.uniform(0, 360, 200), 10 * np.sqrt(rng.random(200)), rng.uniform(10, 90, 200)
    made = hidden_ground(azimuth, distance, dbh, plot, radius_m=np.full(5, 10.0))

    rays = (np.arange(36_000) + 0.5) / 100
    for p in range(5):
        mine = (plot == p) & (distance > dbh / 200)
        half = np.degrees(np.arcsin(dbh[mine] / 200 / distance[mine]))
        hit = np.abs((rays[:, None] - azimuth[mine] + 180) % 360 - 180) < half
        nearest = np.where(hit, distance[mine], 10.0).min(axis=1)
        assert made.share[p] == pytest.approx(1 - np.mean((nearest / 10) ** 2), abs=2e-4)
        sector = made.plot == p
        of_sectors = (made.end_deg - made.start_deg) / 360 * (1 - (made.beyond_m / 10) ** 2)
        assert of_sectors[sector].sum() == pytest.approx(made.share[p])


def test_share_does_not_depend_on_the_order_of_stems_or_on_north():
    rng = np.random.default_rng(4)
    azimuth, distance, plot = random_places(rng, per_ha=900, radius=10.0, plots=20)
    dbh = rng.uniform(8, 60, len(plot))
    radius = np.full(20, 10.0)
    share = hidden_ground(azimuth, distance, dbh, plot, radius_m=radius).share

    mixed = rng.permutation(len(plot))
    np.testing.assert_allclose(
        hidden_ground(azimuth[mixed], distance[mixed], dbh[mixed], plot[mixed], radius_m=radius).share, share
    )
    np.testing.assert_allclose(
        hidden_ground((azimuth + 123.4) % 360, distance, dbh, plot, radius_m=radius).share, share
    )


# Being seen


def test_stem_fits_unseen_behind_a_nearer_one_only_when_it_is_narrower():
    shadow, stem = 2 * math.asin(0.1), 2 * math.asin(0.05 / 8)
    for azimuth in (90.0, 0.5):
        got = wholly_hidden([azimuth], [2.0], [40.0], np.array([0]), at_m=[8.0], sizes_cm=[10.0, 170.0])
        np.testing.assert_allclose(got, [[(shadow - stem) / (2 * math.pi), 0.0]])


def test_nothing_is_hidden_before_the_nearest_stem():
    assert wholly_hidden([90.0], [2.0], [40.0], np.array([0]), at_m=[1.9], sizes_cm=[10.0]).item() == 0.0


def test_behind_a_closed_wall_everything_is_hidden():
    wall = np.arange(0, 360, 15), np.full(24, 2.0), np.full(24, 60.0), np.zeros(24, int)
    got = wholly_hidden(*wall, at_m=[8.0], sizes_cm=[90.0])
    np.testing.assert_allclose(got, 1.0)


def test_lone_stem_is_surely_seen_and_stems_without_values_have_no_probability():
    chance = seen_probability([90.0, np.nan], [2.0, 2.0], [40.0, 40.0], np.array([0, 1]), radius_m=[10.0, 10.0])
    assert chance[0] == 1.0
    assert np.isnan(chance[1])
    assert np.isnan(seen_probability([np.nan], [2.0], [40.0], np.array([0]), radius_m=[10.0])).all()
