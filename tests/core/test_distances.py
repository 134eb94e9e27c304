"""G, F and J: worked by hand, and without bias for stems at random in small windows."""

import math

import numpy as np
import pytest
import shapely

from stemmap.core.distances import f_function, g_function, j_function
from stemmap.core.windows import CutDisc, Disc, Rectangle
from stemmap.errors import InputError

TEN = Disc((0.0, 0.0), 10.0)
# Nearest distances 3, 3, 8, √72 at 10, 7, 2 and 10 - √72 from the edge: the last two are hidden.
FOUR = [[0.0, 0.0], [3.0, 0.0], [0.0, 8.0], [-6.0, -6.0]]
CUT = CutDisc(Disc((0.0, 0.0), 12.62), shapely.box(-3.0, -50.0, 50.0, 50.0))


def test_g_of_four_stems_by_hand():
    radii = [8.5, 2.9, 3.0, 8.0]

    np.testing.assert_allclose(g_function(FOUR, TEN, radii, correction="none"), [1.0, 0.0, 0.5, 0.75])
    np.testing.assert_allclose(g_function(FOUR, TEN, radii, correction="hanisch"), [1.0, 0.0, 1.0, 1.0])
    # Censored at 2 and 1.51, two are at risk at 3 and both end.
    np.testing.assert_allclose(g_function(FOUR, TEN, radii), [1.0, 0.0, 1.0, 1.0])


def test_kaplan_meier_keeps_those_that_the_edge_hides_later():
    # Nearest distances 1, 1, 4: the third is censored at 2 and still at risk at 1.
    xy = [[0.0, 0.0], [1.0, 0.0], [5.0, 0.0], [8.0, 0.0]]
    np.testing.assert_allclose(g_function(xy, TEN, [0.5, 1.0, 2.9, 3.0]), [0.0, 0.5, 0.5, 1.0])


def test_hanisch_weighs_by_the_ground_that_lets_a_distance_be_known():
    xy = [[0.0, 0.0], [1.0, 0.0], [-4.0, 0.0]]
    weight = np.array([1 / 81, 1 / 81, 1 / 36])

    assert g_function(xy, TEN, [1.0], correction="hanisch")[0] == pytest.approx(weight[:2].sum() / weight.sum())


def test_f_of_one_stem_in_the_middle_is_the_share_of_the_circle():
    np.testing.assert_allclose(
        f_function([[0.0, 0.0]], TEN, [3.0, 6.0, 10.0], correction="none"), [0.09, 0.36, 1.0], atol=0.003
    )


@pytest.mark.parametrize("correction", ["kaplan_meier", "hanisch"])
@pytest.mark.parametrize("window", [TEN, CUT, Rectangle(0, 0, 25, 14)], ids=["disc", "cut disc", "rectangle"])
def test_g_f_and_j_of_stems_at_random_are_those_of_randomness(window, correction):
    rng, radii, runs = np.random.default_rng(3), np.array([0.8, 1.6]), 80
    plots = [window.random(int(rng.poisson(40)), rng) for _ in range(runs)]
    expected = 1.0 - np.exp(-40 / window.area * math.pi * radii**2)

    g = np.mean([g_function(xy, window, radii, correction=correction) for xy in plots], axis=0)
    f = np.mean([f_function(xy, window, radii, correction=correction) for xy in plots[:15]], axis=0)

    np.testing.assert_allclose(g, expected, atol=0.03)
    np.testing.assert_allclose(f, expected, atol=0.05)


def test_j_tells_clumped_from_regular():
    x, y = np.meshgrid(np.arange(-6.0, 7.0, 2.0), np.arange(-6.0, 7.0, 2.0))
    clumps = np.repeat([[-5.0, 0.0], [0.0, 5.0], [5.0, 0.0], [0.0, -5.0]], 3, axis=0)
    clumps = clumps + np.tile([[0.0, 0.0], [0.2, 0.0], [0.0, 0.2]], (4, 1))

    assert j_function(np.column_stack([x.ravel(), y.ravel()]), TEN, [1.0])[0] > 1.5
    assert j_function(clumps, TEN, [1.0])[0] < 0.2


def test_nothing_known_gives_no_value():
    assert np.isnan(g_function([[0.0, 0.0]], TEN, [1.0])).all()
    assert np.isnan(g_function([[9.0, 0.0], [-9.0, 0.0]], TEN, [1.0, 2.0], correction="hanisch")).all()
    assert np.isnan(f_function([], TEN, [1.0])).all()
    assert math.isnan(j_function([[0.0, 0.0], [1.0, 0.0]], TEN, [50.0])[0])


def test_stem_outside_and_an_unknown_correction_are_refused():
    with pytest.raises(InputError, match="inside the window"):
        g_function([[11.0, 0.0]], TEN, [1.0])
    with pytest.raises(InputError, match="'guard' is not known"):
        g_function(FOUR, TEN, [1.0], correction="guard")


def test_ground_less_a_margin():
    half = CutDisc(TEN, shapely.box(0, -50, 50, 50))

    np.testing.assert_allclose(TEN.eroded_area([0.0, 4.0, 12.0]), [100 * math.pi, 36 * math.pi, 0.0])
    np.testing.assert_allclose(Rectangle(0, 0, 20, 10).eroded_area([0.0, 2.0, 5.0]), [200.0, 96.0, 0.0])
    # A circle of 10 - d cut d from its middle.
    d = 3.0
    cap = 49 * math.acos(d / 7) - d * math.sqrt(49 - d * d)
    np.testing.assert_allclose(half.eroded_area([0.0, d, 11.0]), [50 * math.pi, cap, 0.0])
