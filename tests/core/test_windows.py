"""Windows: areas, edges and what lies inside."""

import math

import numpy as np
import pytest
import shapely

from stemmap.core.windows import CutDisc, Disc, Rectangle
from stemmap.errors import InputError


def test_disc_has_area_and_perimeter_of_a_circle():
    disc = Disc((3.0, -2.0), 7.98)

    assert disc.area == pytest.approx(200.058, abs=5e-4)  # computed
    assert disc.perimeter == pytest.approx(2 * math.pi * 7.98)
    assert disc.half_diagonal == pytest.approx(7.98 * math.sqrt(2))


def test_rectangle_has_area_and_perimeter():
    rectangle = Rectangle(-1.0, 2.0, 3.0, 5.0)

    assert (rectangle.area, rectangle.perimeter, rectangle.half_diagonal) == (12.0, 14.0, 2.5)


def test_edge_of_a_disc_is_inside_in_every_direction_and_in_projected_coordinates():
    azimuth = np.radians(np.arange(0.0, 360.0, 7.0))
    centre = (512_345.678, 5_312_345.678)
    on_edge = np.asarray(centre) + 12.62 * np.column_stack([np.sin(azimuth), np.cos(azimuth)])

    assert Disc(centre, 12.62).inside(on_edge).all()
    assert not Disc(centre, 12.6199).inside(on_edge).any()


def test_edge_of_a_rectangle_is_inside():
    corner_and_beyond = [[0.0, 0.0], [2.0, 1.0], [2.001, 0.5], [1.0, -0.001]]

    assert Rectangle(0.0, 0.0, 2.0, 1.0).inside(corner_and_beyond).tolist() == [True, True, False, False]


def test_distance_to_the_edge_is_negative_outside():
    points = [[0.0, 0.0], [6.0, 0.0], [0.0, 11.0]]

    np.testing.assert_allclose(Disc((0.0, 0.0), 10.0).to_edge(points), [10.0, 4.0, -1.0])
    np.testing.assert_allclose(Rectangle(-7.0, -10.0, 7.0, 10.0).to_edge(points), [7.0, 1.0, -1.0])


@pytest.mark.parametrize("window", [Disc((0.0, 0.0), 1.0), Rectangle(0.0, 0.0, 1.0, 1.0)])
def test_missing_position_is_not_inside_and_no_points_give_no_answers(window):
    assert window.inside([[np.nan, 0.0]]).tolist() == [False]
    assert window.inside(np.empty((0, 2))).shape == (0,)
    assert window.inside([]).shape == (0,)


@pytest.mark.parametrize("radius", [0.0, -1.0, np.nan, np.inf])
def test_disc_without_a_positive_radius_is_refused(radius):
    with pytest.raises(InputError, match="positive radius"):
        Disc((0.0, 0.0), radius)


@pytest.mark.parametrize("corners", [(0, 0, 0, 1), (2, 0, 1, 1), (0, 0, np.nan, 1), (0, 0, np.inf, 1)])
def test_rectangle_without_an_area_is_refused(corners):
    with pytest.raises(InputError, match="south-west corner first"):
        Rectangle(*corners)


# Arcs and shared areas


@pytest.mark.parametrize(
    ("radius", "from_centre", "distance", "share"),
    [
        # Computed from 1 - acos((R² - u² - t²) / 2ut) / π.
        (10.0, 8.0, 2.0, 1.0),
        (10.0, 8.0, 3.0, 0.690160),
        (10.0, 8.0, 4.0, 0.601166),
        (10.0, 10.0, 1.0, 0.484078),
        (10.0, 10.0, 5.0, 0.419569),
        (12.62, 12.0, 2.0, 0.575403),
        (12.62, 6.0, 8.0, 0.711789),
    ],
)
def test_share_of_a_circle_inside_a_disc(radius, from_centre, distance, share):
    assert Disc((5.0, 0.0), radius).arc_fraction([[5.0, from_centre]], [distance])[0] == pytest.approx(share, abs=5e-7)


def test_share_of_a_circle_about_the_centre_and_of_no_circle_is_all():
    assert Disc((0.0, 0.0), 10.0).arc_fraction([[0.0, 0.0], [3.0, 0.0]], [5.0, 0.0]).tolist() == [1.0, 1.0]


def test_disc_shares_a_lens_with_itself_moved():
    disc = Disc((0.0, 0.0), 10.0)

    np.testing.assert_allclose(disc.set_covariance([0.0, 20.0, 30.0], [0.0, 0.0, 0.0]), [disc.area, 0.0, 0.0])
    assert disc.set_covariance(6.0, 8.0) == pytest.approx(200 * math.acos(0.5) - 5 * math.sqrt(300))  # the formula


def test_rectangle_in_its_corner_sees_a_quarter_of_a_circle():
    rectangle = Rectangle(0.0, 0.0, 20.0, 10.0)

    np.testing.assert_allclose(
        rectangle.arc_fraction([[0.0, 0.0], [10.0, 0.0], [10.0, 5.0]], [3.0, 3.0, 3.0]), [0.25, 0.5, 1]
    )
    assert rectangle.set_covariance(5.0, -4.0) == pytest.approx(90.0)


# Cut discs


STAND = shapely.Polygon([(60, 20), (101, 45), (95, 52), (103, 60), (140, 90), (60, 90)])


@pytest.mark.parametrize(
    ("whole", "cut"),
    [
        (Disc((100.0, 50.0), 12.62), CutDisc(Disc((100.0, 50.0), 12.62), shapely.box(0, 0, 300, 300))),
        (Rectangle(90, 40, 105, 60), CutDisc(Disc((100.0, 50.0), 90.0), shapely.box(90, 40, 105, 60))),
    ],
    ids=["nothing cut off", "only a rectangle left"],
)
def test_cut_disc_is_a_disc_or_a_rectangle_where_it_looks_like_one(whole, cut):
    rng = np.random.default_rng(4)
    xy, d = whole.random(300, rng), 14.0 * rng.random(300)

    assert (cut.area, cut.perimeter) == pytest.approx((whole.area, whole.perimeter), rel=1e-12)
    assert cut.half_diagonal == pytest.approx(whole.half_diagonal, rel=1e-12)
    np.testing.assert_allclose(cut.to_edge(xy), whole.to_edge(xy), atol=1e-12)
    np.testing.assert_allclose(cut.arc_fraction(xy, d), whole.arc_fraction(xy, d), atol=1e-12)
    np.testing.assert_allclose(cut.set_covariance(d, -d / 3), whole.set_covariance(d, -d / 3), atol=1e-9)


def test_disc_cut_by_a_bent_edge_agrees_with_a_fine_polygon():
    angle = 2 * math.pi * np.arange(40_000) / 40_000
    circle = shapely.Polygon(np.array([100.0, 50.0]) + 12.62 * np.column_stack([np.cos(angle), np.sin(angle)]))
    fine = shapely.intersection(STAND, circle)
    cut = CutDisc(Disc((100.0, 50.0), 12.62), STAND)

    assert cut.area == pytest.approx(fine.area, rel=1e-7)
    assert cut.perimeter == pytest.approx(fine.length, rel=1e-7)
    for move in ((3.0, 1.0), (-5.0, 4.0), (12.0, -9.0)):
        moved = shapely.transform(fine, lambda corners, move=move: corners + np.array(move))
        assert cut.set_covariance(*move) == pytest.approx(shapely.intersection(fine, moved).area, abs=1e-4)


def test_points_at_random_fill_a_cut_disc_evenly():
    cut = CutDisc(Disc((100.0, 50.0), 12.62), STAND)
    points = cut.random(20_000, np.random.default_rng(6))

    assert cut.inside(points).all()
    near = CutDisc(Disc((96.0, 50.0), 5.0), STAND)
    assert near.inside(points).mean() == pytest.approx(near.area / cut.area, abs=0.012)


def test_disc_outside_the_stand_and_an_edge_that_crosses_itself_are_refused():
    with pytest.raises(InputError, match="wholly outside"):
        CutDisc(Disc((0.0, 0.0), 5.0), STAND)
    with pytest.raises(InputError, match="cannot be used: Self-intersection"):
        CutDisc(Disc((0.0, 0.0), 5.0), shapely.Polygon([(0, 0), (1, 1), (1, 0), (0, 1)]))


@pytest.mark.parametrize(
    "stand",
    [
        shapely.Polygon([(60, 10), (105, 10), (98, 49), (106, 53), (140, 90), (60, 90)]),
        shapely.Point(102, 52).buffer(9, quad_segs=3).difference(shapely.box(100, 50, 102, 53)),
        shapely.MultiPolygon([shapely.box(80, 30, 102, 52), shapely.box(103, 53, 130, 80)]),
    ],
    ids=["bent", "with a hole", "in two parts"],
)
def test_arc_fraction_in_a_cut_disc_is_the_share_of_the_places_on_the_circle(stand):
    cut, rng = CutDisc(Disc((100.0, 50.0), 12.62), stand), np.random.default_rng(3)
    points, distance = cut.random(40, rng), rng.random(40) * 15.0
    angle = (np.arange(20_000) + 0.5) * (2.0 * np.pi / 20_000)
    ring = points[:, None] + distance[:, None, None] * np.stack([np.cos(angle), np.sin(angle)], axis=-1)
    there = shapely.contains_xy(stand, ring[..., 0], ring[..., 1])
    there &= np.hypot(ring[..., 0] - 100.0, ring[..., 1] - 50.0) <= 12.62

    np.testing.assert_allclose(cut.arc_fraction(points, distance), there.mean(axis=1), atol=3e-4)


def test_a_circle_through_the_corners_of_a_stand_has_its_share():
    cut = CutDisc(Disc((0.0, 0.0), 10.0), shapely.box(-3.0, -4.0, 3.0, 4.0))
    # From the middle the circle of 5 m only touches the four corners; from a side's middle a half circle goes through.
    points, distance = [[0.0, 0.0], [0.0, 0.0], [-3.0, 0.0]], [5.0, 2.0, 4.0]

    np.testing.assert_allclose(cut.arc_fraction(points, distance), [0.0, 1.0, 0.5], atol=1e-9)
