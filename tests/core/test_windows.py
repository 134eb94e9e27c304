"""Windows: areas, edges and what lies inside."""

import math

import numpy as np
import pytest

from stemmap.core.windows import Disc, Rectangle
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
