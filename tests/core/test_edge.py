"""Plots that a stand edge cuts: areas against closed forms and polygons, corrections against repeated sampling."""

import math

import numpy as np
import pytest
import shapely

from stemmap.core import edge
from tests.benchmarks.bias_edge import STANDS, simulate

#: A forked stand with a hole.
BENT = shapely.Polygon([(0, 0), (60, -5), (55, 30), (30, 22), (20, 50), (-10, 25)], [[(25, 5), (30, 5), (28, 12)]])
ORIGIN = [[0.0, 0.0]]


# Areas


@pytest.mark.parametrize(
    ("radius", "distance", "segment", "share"),
    [
        # Computed: R² acos(b/R) - b √(R² - b²), the segment of a circle beyond a chord.
        (12.62, 5.0, 127.356, 0.745463),
        (7.32, 3.0, 41.5095, 0.753410),
        (10.0, 5.0, 61.4185, 0.804499),
        (12.62, 0.0, 250.1719, 0.5),
    ],
)
def test_straight_edge_cuts_off_the_segment_of_a_circle(radius, distance, segment, share):
    ground = edge.boundary([shapely.box(-distance, -50.0, 50.0, 50.0)])

    area = edge.area_inside(ground, ORIGIN, [radius], plot=[0])

    assert math.pi * radius**2 - area[0] == pytest.approx(segment, abs=5e-4)
    assert edge.share_inside(ground, ORIGIN, [radius], plot=[0])[0] == pytest.approx(share, abs=5e-7)


def test_weight_is_the_inverse_of_the_share():
    ground = edge.boundary([shapely.box(-5.0, -50.0, 50.0, 50.0)])

    # Computed: 1 / 0.745463.
    assert edge.area_weight(ground, ORIGIN, [12.62], plot=[0])[0] == pytest.approx(1.341448, abs=5e-7)


def test_lens_of_two_circles_in_the_limit_of_many_chords():
    ground = edge.boundary([shapely.buffer(shapely.Point(10.0, 0.0), 7.98, quad_segs=4000)])

    # Computed: circles of 12.62 and 7.98 m with centres 10 m apart share 127.4730 m².
    assert edge.area_inside(ground, ORIGIN, [12.62], plot=[0])[0] == pytest.approx(127.4730, abs=2e-4)


def test_corner_at_the_centre_leaves_a_quarter():
    ground = edge.boundary([shapely.box(0.0, 0.0, 50.0, 50.0)])

    assert edge.share_inside(ground, ORIGIN, [10.0], plot=[0])[0] == pytest.approx(0.25, rel=1e-12)


def test_bent_edges_with_holes_agree_with_fine_polygons():
    rng = np.random.default_rng(1)
    centres, radius = rng.uniform(-20, 70, (150, 2)), rng.uniform(1, 30, 150)

    exact = edge.area_inside(edge.boundary([BENT]), centres, radius, plot=np.zeros(150, int))
    chords = shapely.buffer(shapely.points(centres), radius, quad_segs=2000)

    np.testing.assert_allclose(exact, shapely.area(shapely.intersection(BENT, chords)), atol=2e-4)


def test_circles_wholly_inside_and_wholly_outside():
    ground = edge.boundary(
        [shapely.box(-50.0, -50.0, 50.0, 50.0), shapely.box(60.0, 0.0, 90.0, 9.0), shapely.Polygon()]
    )

    assert edge.share_inside(ground, np.zeros((3, 2)), [10.0] * 3, plot=[0, 1, 2]).tolist() == [1.0, 0.0, 0.0]


def test_circle_around_a_whole_stand_holds_its_area():
    ground = edge.boundary([shapely.box(-2.0, -1.0, 2.0, 1.0)])

    assert edge.area_inside(ground, ORIGIN, [10.0], plot=[0])[0] == pytest.approx(8.0)


def test_several_polygons_of_one_plot_add_up():
    parts = shapely.MultiPolygon([shapely.box(-9, -9, -1, 9), shapely.box(1, -9, 9, 9)])
    alone = [edge.area_inside(edge.boundary([part]), ORIGIN, [6.0], plot=[0])[0] for part in parts.geoms]

    assert edge.area_inside(edge.boundary([parts]), ORIGIN, [6.0], plot=[0])[0] == pytest.approx(sum(alone))


def test_points_inside_agree_with_shapely():
    points = np.random.default_rng(3).uniform(-20, 70, (3000, 2))

    told = edge.inside(edge.boundary([BENT]), points, plot=np.zeros(3000, int))

    assert (told == shapely.contains_xy(BENT, *points.T)).all()


def test_order_of_corners_does_not_matter():
    square = [(0, 0), (0, 9), (9, 9), (9, 0)]
    for corners in (square, square[::-1]):
        ground = edge.boundary([shapely.Polygon(corners)])
        assert edge.area_inside(ground, [[4.0, 4.0]], [3.0], plot=[0])[0] == pytest.approx(9.0 * math.pi)


def test_plots_along_a_straight_edge_lack_as_much_as_is_known_of_them():
    # Plots with centres up to a radius from the edge lack 2 / (3π) of their ground on average: the known bias of
    # uncorrected plots, 2 R L / (3π A) for an edge of length L around an area A (Haga, T., Maezawa, K. (1959). Bias due
    # to edge effect in using the Bitterlich method. Forest Science 5(4), 370-376; from memory, integrated anew).
    far = (np.arange(4000) + 0.5) / 4000 * 12.62
    ground = edge.boundary([shapely.box(0.0, -50.0, 50.0, 50.0)])

    share = edge.share_inside(ground, np.column_stack([far, np.zeros(4000)]), np.full(4000, 12.62), plot=np.zeros(4000))

    assert 1.0 - share.mean() == pytest.approx(2.0 / (3.0 * math.pi), rel=1e-6)


def test_weights_on_the_edge_and_in_its_corner_are_two_and_four():
    # Beers, T. W. (1966). The direct-weight procedure for eliminating bias from boundary-line slopover. Purdue
    # Univ. Res. Prog. Rep. 224 (from memory), the weights themselves: half or a quarter of the circle lies inside.
    corner = shapely.box(0.0, 0.0, 50.0, 50.0)
    near = np.array([[1e-9, 25.0], [1e-9, 1e-9]])

    weight = edge.area_weight(edge.boundary([corner, corner]), near, [10.0, 10.0], plot=[0, 1])

    assert weight == pytest.approx([2.0, 4.0], rel=1e-5)


# Corrections, rule by rule


def test_stem_outside_the_stand_weighs_nothing():
    ground = edge.boundary([shapely.box(-5.0, -50.0, 50.0, 50.0)])
    outside = [[-6.0, 0.0]]

    assert edge.area_weight(ground, outside, [10.0], plot=[0]).tolist() == [0.0]
    assert edge.walkthrough(ground, outside, plot=[0]).tolist() == [0.0]
    assert edge.mirage(ground, outside, [10.0], plot=[0], reach=[10.0]).times.tolist() == [0.0]


def test_walkthrough_counts_twice_when_as_far_again_is_outside():
    # Ducey, Gove and Valentine (2004), the rule itself: the edge lies 5 m west of the centre.
    ground = edge.boundary([shapely.box(-5.0, -50.0, 50.0, 50.0)])

    times = edge.walkthrough(ground, [[-2.4, 1.0], [-2.6, 1.0], [4.0, 0.0]], plot=[0, 0, 0])

    assert times.tolist() == [1.0, 2.0, 1.0]


def test_mirage_counts_what_the_reflected_centre_reaches():
    # The centre lies 3 m from the edge, its reflection 6 m west of it.
    ground = edge.boundary([shapely.box(-3.0, -50.0, 50.0, 50.0)])
    made = edge.mirage(ground, [[-2.0, 0.0], [3.9, 0.0], [4.1, 0.0]], [10.0] * 3, plot=[0] * 3, reach=[10.0])

    assert made.times.tolist() == [2.0, 2.0, 1.0]
    assert made.possible.tolist() == [True]


def test_mirage_in_a_right_angled_corner_takes_three_reflections():
    ground = edge.boundary([shapely.box(-1.0, -1.0, 50.0, 50.0)])
    made = edge.mirage(ground, [[0.0, 0.0]], [10.0], plot=[0], reach=[10.0])

    assert made.times.tolist() == [4.0]
    assert made.possible.all()


@pytest.mark.parametrize(
    "stand",
    [
        shapely.Polygon([(-3, -50), (50, -50), (50, 50), (-3, 50), (-6, 2)]),
        shapely.Polygon([(-50, -50), (50, -50), (50, 50), (3, 50), (3, 3), (-50, 3)]).reverse(),
        shapely.box(-3.0, -50.0, 3.0, 50.0),
        shapely.box(5.0, -50.0, 50.0, 50.0),
    ],
    ids=["bent", "re-entrant corner", "strip", "centre outside"],
)
def test_mirage_says_where_it_cannot(stand):
    assert not edge.mirage(edge.boundary([stand]), [[1.0, 0.0]], [10.0], plot=[0], reach=[10.0]).possible[0]


def test_edge_drawn_with_a_corner_on_a_straight_line_is_one_edge():
    stand = shapely.Polygon([(-3, -50), (50, -50), (50, 50), (-3, 50), (-3, 1)])
    made = edge.mirage(edge.boundary([stand]), [[-2.0, 0.0]], [10.0], plot=[0], reach=[10.0])

    assert made.possible[0]
    assert made.times[0] == 2.0


def test_walkthrough_is_whole_at_a_straight_edge_and_falls_short_in_a_tip():
    stands = [shapely.box(-3.0, -50.0, 50.0, 50.0), shapely.Polygon([(-2, 0), (50, 20), (50, -20)])]

    share = edge.walkthrough_share(stands, np.zeros((2, 2)), [10.0, 10.0], plot=[0, 1])

    assert share[0] == pytest.approx(1.0, rel=1e-12)
    assert share[1] < 0.6


def test_walkthrough_of_a_stem_without_a_place_is_not_known():
    share = edge.walkthrough_share([shapely.box(-3.0, -50.0, 50.0, 50.0)], [[np.nan, 1.0]], [10.0], plot=[0])

    assert np.isnan(share).all()


# Repeated sampling


@pytest.mark.parametrize("stand", STANDS)
def test_corrections_are_unbiased_and_no_correction_is_not(stand):
    result = simulate(STANDS[stand], plots=20_000)

    exact = {"area weight", "walkthrough, completed", "part plot"} | ({"mirage"} if stand == "straight" else set())
    for method in exact:
        bias, error = result[method]
        assert abs(bias) < 3.0 * error, method
    assert result["none"][0] < -15.0
