"""The edge of the stand on the map of a plot."""

from dataclasses import replace

import numpy as np
import shapely

from stemmap.drawing.plot_map import describe_plot
from stemmap.drawing.scene import Lines
from stemmap.survey.measured import measure
from stemmap.survey.survey import StandGround
from tests.uploads import survey

CRS = "EPSG:32633"


def scene(edge_at, method="area_weight"):
    """Map of a plot whose stand begins so many metres west of the centre."""
    made = survey(
        {"plot": [1, 1], "azimuth": [90.0, 200.0], "distance_m": [4.0, 6.0], "dbh_cm": [30.0, 20.0]},
        {"plot": [1], "easting": [400100.0], "northing": [5400050.0]},
        settings={"survey": {"crs": CRS}, "design": {"radius_m": 12.62, "stand": "stand.gpkg", "edge": method}},
    )
    stand = shapely.box(400100.0 - edge_at, 5399000.0, 401000.0, 5401000.0)
    made = replace(made, ground=StandGround("stand.gpkg", CRS, stand))
    return describe_plot(made, measure(made), 0, millimetres_per_metre=7.0)


def dashed(drawn):
    return [shape for shape in drawn.shapes if isinstance(shape, Lines) and len(shape.stroke.dash_mm) == 4]


def test_edge_is_drawn_where_it_lies_and_said():
    drawn = scene(5.0)
    (line,) = dashed(drawn)

    np.testing.assert_allclose(np.concatenate([line.start, line.end])[:, 0], -5.0, atol=0.01)
    assert np.hypot(*np.concatenate([line.start, line.end]).T).max() <= 12.62 * 1.5
    assert any("edge of the stand" in note for note in drawn.notes)


def test_ticks_point_out_of_the_stand():
    (ticks,) = [
        shape
        for shape in scene(5.0).shapes
        if isinstance(shape, Lines)
        and shape.stroke.width_mm == 0.25
        and np.allclose(shape.start[:, 0], -5.0, atol=0.01)
    ]

    np.testing.assert_allclose(ticks.end[:, 0], -5.6, atol=0.01)
    np.testing.assert_allclose(ticks.end[:, 1], ticks.start[:, 1], atol=0.01)


def test_centre_outside_and_the_share_of_a_part_plot_are_said():
    notes = " ".join(scene(-3.0, "part_plot").notes)

    assert "The plot centre lies outside the stand." in notes
    # Beyond a chord 3 m from the centre of a circle of 12.62 m: 35 %.
    assert "35 % of the circle lie in the stand" in notes


def test_plot_far_from_the_edge_shows_none():
    drawn = scene(500.0)

    assert not dashed(drawn)
    assert not any("edge of the stand" in note for note in drawn.notes)
