"""The user's own ground lies where it is, within the dial of a plot and on the map of all plots."""

import numpy as np
import pytest

from stemmap.drawing import backgrounds
from stemmap.drawing.backgrounds import ground_of_plot, ground_of_survey
from stemmap.drawing.palette import LIGHT
from stemmap.drawing.plot_map import describe_plot
from stemmap.drawing.scene import Discs, Image, Paths
from stemmap.drawing.targets import write_png
from stemmap.survey.background import Outlines, Picture
from stemmap.survey.measured import measure

CENTRE = np.array([400_000.0, 5_300_000.0])
#: Ground metres are 0.9996 of the grid's, as in the middle of a UTM zone.
SCALE = 0.9996 * np.eye(2)


def around(*points):
    """Places some grid metres from the plot centre."""
    return CENTRE + np.array(points, float)


def outlines(*lines):
    first = np.cumsum([0, *map(len, lines)])
    return Outlines("own", "EPSG:25833", np.vstack([np.array(line, float) for line in lines]), first)


def square(side=40.0):
    """A picture around the plot centre, its western half red."""
    pixels = np.full((80, 80, 4), 255, np.uint8)
    pixels[:, :40, 1:3] = 0
    ((west, north),) = around((-side / 2.0, side / 2.0))
    return Picture("own", "EPSG:25833", pixels, float(west), float(north), side / 80.0, side / 80.0)


def test_a_line_across_a_plot_is_cut_at_the_rim_in_ground_metres():
    (paths,) = ground_of_plot([outlines(around((-500.0, 3.0), (500.0, 3.0)))], CENTRE, SCALE, 10.0, LIGHT)

    assert paths.points[:, 1] == pytest.approx(3.0 / 0.9996)
    assert np.hypot(*paths.points.T) == pytest.approx(10.0, abs=0.01)


def test_lines_and_points_beyond_the_plot_are_left_out():
    far = outlines(around((200.0, 0.0), (300.0, 0.0)), around((9.0, 9.0)), around((1.0, 2.0)))
    (points,) = ground_of_plot([far], CENTRE, SCALE, 10.0, LIGHT)

    assert isinstance(points, Discs)
    assert points.centre == pytest.approx(np.array([[1.0, 2.0]]) / 0.9996)


def test_several_lines_stay_apart():
    lines = outlines(around((-5.0, 1.0), (5.0, 1.0)), around((-5.0, 2.0), (0.0, 2.5), (5.0, 2.0)))
    (paths,) = ground_of_plot([lines], CENTRE, SCALE, 10.0, LIGHT)

    assert np.diff(paths.first).tolist() == [2, 3]


def test_a_picture_fills_the_dial_and_nothing_outside_it():
    (image,) = ground_of_plot([square()], CENTRE, SCALE, 10.0, LIGHT)
    middle = len(image.pixels) // 2

    assert image.pixels[middle, middle - 3].tolist() == [255, 0, 0, 255]
    assert image.pixels[middle, middle + 3].tolist() == [255, 255, 255, 255]
    assert image.pixels[0, 0, 3] == 0
    assert (image.low, image.high) == ((-10.0, -10.0), (10.0, 10.0))


def test_a_picture_elsewhere_is_left_out():
    assert ground_of_plot([square()], CENTRE + 1000.0, SCALE, 10.0, LIGHT) == []
    assert ground_of_survey([square()], CENTRE, 1.0, low=(100.0, 100.0), high=(200.0, 200.0), theme=LIGHT) == []


def test_on_the_map_of_all_plots_they_lie_in_metres_from_its_base():
    line = outlines(around((10.0, 20.0), (30.0, 40.0)), around((1.0, 2.0)))
    shapes = ground_of_survey([line, square()], CENTRE, 1.0, low=(-50.0, -50.0), high=(50.0, 50.0), theme=LIGHT)
    paths, points, image = shapes

    assert isinstance(paths, Paths)
    assert paths.points[:2].tolist() == [[10.0, 20.0], [30.0, 40.0]]
    assert points.centre.tolist() == [[1.0, 2.0]]
    assert isinstance(image, Image)
    assert (image.low, image.high) == ((-20.0, -20.0), (20.0, 20.0))


def test_where_very_many_corners_are_in_sight_lines_are_thinned_out_but_keep_their_ends(monkeypatch):
    monkeypatch.setattr(backgrounds, "MOST_CORNERS", 50)
    along = np.column_stack([np.arange(400.0), np.zeros(400)])
    (paths,) = ground_of_survey(
        [outlines(CENTRE + along, CENTRE + along)], CENTRE, 1.0, low=(0.0, -1.0), high=(9.0, 1.0), theme=LIGHT
    )

    assert len(paths.points) < 60
    for start, stop in zip(paths.first[:-1], paths.first[1:], strict=True):
        assert paths.points[[start, stop - 1], 0].tolist() == [0.0, 399.0]


def test_a_plot_map_with_its_own_ground_is_painted(plot, scattered, tmp_path):
    place = {"easting": [CENTRE[0]], "northing": [CENTRE[1]]}
    survey = plot(scattered(5), plots=place, survey={"crs": "EPSG:25833"})
    scene = describe_plot(
        survey,
        measure(survey),
        0,
        millimetres_per_metre=5.0,
        backgrounds=(square(), outlines(around((-9.0, 0.0), (9.0, 5.0)))),
    )
    write_png(page_of(scene), tmp_path / "a.png")

    assert any(isinstance(shape, Image) for shape in scene.shapes)
    assert any(isinstance(shape, Paths) for shape in scene.shapes)


def page_of(scene):
    from stemmap.drawing.page import Page, Placed

    return Page(200.0, 200.0, (Placed(scene, 100.0, 100.0, 5.0),), "#ffffff", "own ground")
