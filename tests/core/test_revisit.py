"""Two visits of the same plots."""

import numpy as np
import pytest

from stemmap.core.revisit import Map, matches, placed, rigid_fit, search, squared_distance

GROWTH = (1.5, 1.0)


def chart(x, y, dbh=None, plot=None, variance=0.01):
    x, y = np.asarray(x, float), np.asarray(y, float)
    same = np.full(len(x), variance)
    dbh = np.full(len(x), 20.0) if dbh is None else np.asarray(dbh, float)
    plot = np.zeros(len(x), np.int64) if plot is None else np.asarray(plot)
    return Map(x, y, same, same, np.zeros(len(x)), dbh, plot)


LAST = chart([5, 0, -6, 3], [0, 7, 2, -8])
# Computed: turned by 4 degrees clockwise and moved by (+0.60, -0.35).
THIS = chart([5.5878, 1.0883, -5.2459, 3.0346], [-0.6988, 6.6329, 2.0637, -8.5398])


def stand(seed, plots=8, stems=25):
    rng = np.random.default_rng(seed)
    angle, radius = rng.uniform(0, 2 * np.pi, plots * stems), 10 * np.sqrt(rng.random(plots * stems))
    return chart(
        radius * np.sin(angle),
        radius * np.cos(angle),
        rng.uniform(8, 50, plots * stems),
        np.repeat(np.arange(plots), stems),
    )


def seen_again(last, *, turn_deg=0.0, east=0.0, north=0.0, seed=1):
    """The same stems by a compass that shows too much, from a centre that lies elsewhere."""
    rng = np.random.default_rng(seed)
    x, y = last.x_m - east, last.y_m - north
    angle = np.radians(turn_deg)
    x, y = np.cos(angle) * x + np.sin(angle) * y, -np.sin(angle) * x + np.cos(angle) * y
    noise = rng.normal(0, 0.08, (2, len(x)))
    return chart(x + noise[0], y + noise[1], last.dbh_cm + rng.normal(1.5, 0.5, len(x)), last.plot)


def test_turn_and_shift_of_exact_pairs():
    fit = rigid_fit(THIS, LAST, 1)
    assert fit.rotation_deg == pytest.approx([4.0], abs=0.001)
    assert fit.shift_east_m == pytest.approx([-0.623], abs=0.001)
    assert fit.shift_north_m == pytest.approx([0.307], abs=0.001)
    assert fit.pairs.tolist() == [4]


def test_placed_stems_lie_on_the_last_visit():
    at = placed(THIS, rigid_fit(THIS, LAST, 1))
    assert at.x_m == pytest.approx(LAST.x_m, abs=0.001)
    assert at.y_m == pytest.approx(LAST.y_m, abs=0.001)
    assert squared_distance(at, LAST) == pytest.approx(0.0, abs=0.001)


def test_one_wrong_pair_hardly_pulls():
    last = stand(2, plots=1)
    this = seen_again(last, turn_deg=3.0)
    this.x_m[4] += 6.0
    fit = rigid_fit(this, last, 1)
    assert fit.rotation_deg == pytest.approx([3.0], abs=0.5)
    assert np.hypot(fit.shift_east_m, fit.shift_north_m) < 0.1


def test_covariance_is_that_of_repeated_visits():
    last = stand(3, plots=1)
    fits = [rigid_fit(seen_again(last, seed=seed), last, 1) for seed in range(200)]
    spread = np.std([fit.rotation_deg[0] for fit in fits])
    # The maps carry errors of 0.1 m each, the visits differ by 0.08 m.
    assert spread == pytest.approx(np.sqrt(fits[0].covariance[0, 0, 0]) * 0.08 / np.sqrt(0.02), rel=0.25)


def test_plot_without_pairs_has_no_fit():
    fit = rigid_fit(THIS, LAST, 2)
    assert np.isinf(fit.covariance[1]).all()
    assert fit.rotation_deg[1] == 0.0


def test_every_stem_has_at_most_one_match():
    last = chart([0, 0.1, 5], [0, 0, 0], [20, 30, 40])
    this = chart([0.05, 0.0, 5.0], [0, 0, 0], [31.5, 21.5, 80.0])
    found = matches(this, last, growth_cm=GROWTH)
    # Growth tells the first two apart; a mistyped dbh does not part the third from its place.
    assert found.last.tolist() == [1, 0, 2]


def test_stems_far_apart_do_not_match():
    found = matches(chart([0, 3], [0, 0]), chart([1.5], [0]), growth_cm=GROWTH)
    assert found.last.tolist() == [-1, -1]
    assert np.isnan(found.cost).all()


def test_stems_without_place_do_not_match():
    found = matches(chart([np.nan, 0], [0, 0]), chart([0, np.nan], [0, 0]), growth_cm=GROWTH)
    assert found.last.tolist() == [-1, 0]


@pytest.mark.parametrize("turn", [-31.0, -9.0, 8.0, 20.0])
def test_turn_is_found(turn):
    last = stand(4)
    turned, _ = search(seen_again(last, turn_deg=turn), last, 8, growth_cm=GROWTH)
    assert turned.rotation_deg == pytest.approx(turn, abs=1.6)


def test_shift_is_found():
    last = stand(5)
    _, moved = search(seen_again(last, east=1.4, north=-0.9), last, 8, growth_cm=GROWTH)
    assert moved.shift_east_m == pytest.approx(1.4, abs=0.3)
    assert moved.shift_north_m == pytest.approx(-0.9, abs=0.3)
