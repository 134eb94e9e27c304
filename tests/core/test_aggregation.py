"""Pielou, Hopkins and Skellam, and p by simulation."""

import math

import numpy as np
import pytest
import shapely

from stemmap.core.aggregation import hopkins_skellam, mean_squared_gap, pielou
from stemmap.core.clark_evans import clark_evans
from stemmap.core.windows import CutDisc, Disc, Rectangle

TEN = Disc((500.0, -20.0), 10.0)


def lattice(count, step):
    x, y = np.meshgrid(step * (np.arange(count) + 0.5), step * (np.arange(count) + 0.5))
    return np.column_stack([x.ravel(), y.ravel()])


def test_gap_about_one_stem_is_the_moment_of_the_window():
    half = CutDisc(TEN, shapely.box(500, -50, 600, 50))

    # R²/2 in a circle and its half; (w² + h²)/12 in a rectangle.
    assert mean_squared_gap([TEN.centre], TEN) == pytest.approx(50.0, rel=1e-12)
    assert mean_squared_gap([TEN.centre], half) == pytest.approx(50.0, rel=1e-12)
    assert mean_squared_gap([[10.0, 5.0]], Rectangle(0, 0, 20, 10)) == pytest.approx(500 / 12, rel=1e-12)
    # Steiner: three metres off the middle add nine.
    assert mean_squared_gap([[503.0, -20.0]], TEN) == pytest.approx(59.0, rel=1e-12)


def test_gap_of_a_square_lattice_is_that_of_its_cell():
    assert mean_squared_gap(lattice(9, 2.0), Rectangle(0, 0, 18, 18)) == pytest.approx(4 / 6, rel=1e-10)


@pytest.mark.parametrize(
    "window", [TEN, CutDisc(TEN, shapely.Polygon([(490, -60), (503, -25), (495, -18), (530, 20), (470, 20)]))]
)
def test_gap_agrees_with_many_places_at_random(window):
    rng = np.random.default_rng(3)
    stems, places = window.random(12, rng), window.random(50_000, rng)
    to_stems = np.hypot(*(places[:, None, :] - stems[None, :, :]).transpose(2, 0, 1)).min(axis=1)

    assert mean_squared_gap(stems, window) == pytest.approx(np.mean(to_stems**2), rel=0.03)


def test_lattice_is_regular_and_one_clump_is_clumped():
    square = Rectangle(0, 0, 18, 18)
    regular, clump = lattice(9, 2.0), 9.0 + 0.05 * lattice(9, 2.0)

    assert hopkins_skellam(regular, square).value == pytest.approx(6.0)
    assert pielou(regular, square).value == pytest.approx(math.pi / 6)
    assert hopkins_skellam(clump, square).value < 0.01
    assert pielou(clump, square).value > 5.0


def test_shared_positions_count_as_no_distance():
    assert hopkins_skellam([[500, -20], [500, -20], [503, -20]], TEN).value > 0.0
    assert hopkins_skellam([[500, -20], [500, -20]], TEN).value == 0.0


@pytest.mark.parametrize("index", [clark_evans, pielou, hopkins_skellam])
def test_p_by_simulation_knows_random_from_clumped(index):
    rng = np.random.default_rng(12)
    clump = np.array([501.0, -18.0]) + 0.2 * (TEN.random(20, rng) - TEN.centre)

    assert index(clump, TEN, simulations=99, rng=rng).p == pytest.approx(0.02)
    assert index(TEN.random(20, np.random.default_rng(1)), TEN, simulations=99, rng=rng).p > 0.05
    assert index(clump, TEN, simulations=99, rng=rng).simulations == 99


@pytest.mark.parametrize("correction", ["none", "donnelly", "cdf"])
def test_p_by_simulation_rejects_random_patterns_as_often_as_it_says(correction):
    rng = np.random.default_rng(7)

    p = [clark_evans(TEN.random(15, rng), TEN, correction=correction, simulations=39, rng=rng).p for _ in range(200)]

    assert np.mean(np.array(p) <= 0.05) == pytest.approx(0.05, abs=0.047)  # three standard errors


def test_p_of_every_correction_but_cdf_is_the_same_by_simulation():
    xy = TEN.random(20, np.random.default_rng(2))
    plain, donnelly = (
        clark_evans(xy, TEN, correction=correction, rng=np.random.default_rng(5)) for correction in ("none", "donnelly")
    )

    assert plain.p == donnelly.p
    assert plain.r != donnelly.r


@pytest.mark.parametrize("index", [pielou, hopkins_skellam, clark_evans])
def test_fewer_than_two_stems_have_no_index(index):
    result = index([[500.0, -20.0], [np.nan, 0.0]], TEN, rng=np.random.default_rng(1))

    assert result.n == 1
    assert math.isnan(result.p)
    assert result.simulations == 0
