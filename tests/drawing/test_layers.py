"""Layers of a plot map, what its fills mean, and the grids over it."""

import numpy as np
import pytest

from stemmap.core import locate
from stemmap.drawing.colouring import colouring
from stemmap.drawing.layers import COLOURS_BY, Layers
from stemmap.drawing.legend import describe_legend
from stemmap.drawing.palette import LIGHT, PAPER
from stemmap.drawing.plot_map import describe_plot
from stemmap.drawing.scene import Discs, Lines, Paths, Texts
from stemmap.survey.measured import measure

LOCATED = {"easting": [447120.0], "northing": [5324100.0]}
SCALE = 10.0


def scene_of(survey, told=(), **layers):
    measured, wanted = measure(survey), Layers(**layers)
    return describe_plot(survey, measured, 0, findings=told, millimetres_per_metre=SCALE, layers=wanted)


def words(scene):
    return [text for shape in scene.shapes if isinstance(shape, Texts) for text in shape.texts]


def of_kind(scene, kind):
    return [shape for shape in scene.shapes if isinstance(shape, kind)]


def test_without_the_layer_of_stems_nobody_can_point_at_one(plot, scattered):
    assert scene_of(plot(scattered(5)), stems=False).stems is None


def test_numbers_and_species_stand_beside_the_stems_as_wanted(plot):
    survey = plot({"stem": [7], "species": ["beech"], "azimuth": [10.0], "distance_m": [4.0], "dbh_cm": [30.0]})

    assert "7" in words(scene_of(survey))
    assert "7 beech" in words(scene_of(survey, species=True))
    assert "beech" in words(scene_of(survey, species=True, numbers=False))
    assert not {"7", "beech"} & set(words(scene_of(survey, numbers=False)))


def test_without_the_layer_of_findings_neither_letter_nor_ghost_is_drawn(plot, scattered, finding):
    survey = plot(scattered(4))
    told = [finding(1, "typing", "error", azimuth=100.0)]
    assert "T" in words(scene_of(survey, told))
    assert "T" not in words(scene_of(survey, told, findings=False))


def test_circles_and_borderline_zone_go_apart(plot, scattered):
    survey = plot(scattered(3))

    def radii(**layers):
        discs = of_kind(scene_of(survey, **layers), Discs)
        return {disc.radius_m for disc in discs if np.ndim(disc.radius_m) == 0 and disc.stroke and not disc.fill}

    assert 12.62 in radii(borderline_zone=False)
    assert 12.62 not in radii(circles=False)


def test_an_ellipse_spans_two_standard_deviations_along_and_across_the_sight(plot):
    survey = plot({"azimuth": [0.0], "distance_m": [10.0], "dbh_cm": [30.0]})
    (ellipses,) = of_kind(scene_of(survey, uncertainty=True), Paths)
    half = np.abs(ellipses.points - (0.0, 10.0)).max(axis=0)

    # Computed: 2 * 10 m * 1 degree across the line of sight, 2 * 0.05 m along it.
    assert half == pytest.approx([20.0 * np.radians(1.0), 0.1], rel=0.02)


def test_the_polar_grid_has_rings_at_round_distances(plot, scattered):
    scene = scene_of(plot(scattered(3)), polar_grid=True)

    assert {"2 m", "10 m", "12 m"} <= set(words(scene))


def test_lines_of_the_projected_grid_lie_where_pyproj_puts_them(plot):
    stems = {"azimuth": [90.0], "distance_m": [5.0], "dbh_cm": [30.0]}
    survey = plot(stems, plots=LOCATED, survey={"crs": "EPSG:25833"}, measurement={"north": "grid"})
    measured = measure(survey)
    scene = scene_of(survey, projected_grid=True)
    (line,) = [shape for shape in of_kind(scene, Lines) if shape.stroke.dash_mm == (1.6, 0.8)]
    upright = line.start[np.abs(line.start[:, 0] - line.end[:, 0]) < 1e-3, 0]
    turn = measured.convergence_deg[0]
    east, north = locate.project(
        LOCATED["easting"],
        LOCATED["northing"],
        "EPSG:25833",
        plot_of_stem=np.zeros(len(upright), int),
        true_azimuth_deg=np.full(len(upright), 90.0) + turn,
        distance_m=upright,
        target_crs="EPSG:25833",
    )

    assert "447120 E" in words(scene)
    assert "5324100 N" in words(scene)
    assert (east + 2.5) % 5.0 == pytest.approx(2.5, abs=1e-4)
    assert north == pytest.approx(LOCATED["northing"][0], abs=1e-3)


def test_a_plot_without_coordinates_says_why_it_has_no_projected_grid(plot, scattered):
    scene = scene_of(plot(scattered(3)), projected_grid=True)

    assert "The plot has no coordinates, so no projected grid is drawn." in scene.notes


def test_thicker_stems_are_said(plot, scattered):
    survey = plot(scattered(3))
    usual, thick = scene_of(survey), scene_of(survey, symbol_factor=3.0)

    assert thick.stems.radius_m == pytest.approx(3.0 * usual.stems.radius_m)
    assert "Stems are drawn 3 times as thick as they are." in thick.notes


@pytest.mark.parametrize("by", COLOURS_BY)
def test_every_kind_of_fill_is_in_the_legend_with_a_count(plot, scattered, finding, by):
    survey = plot(scattered(12))
    told = [finding(1, "typing", "error")]
    scene = describe_legend(
        survey,
        measure(survey),
        0,
        findings=told,
        theme=PAPER,
        width_mm=150.0,
        most_rows=40,
        layers=Layers(colour_by=by),
    )
    counts = [int(text.rpartition(": ")[2]) for text in words(scene) if ": " in text]

    assert sum(counts) == 12


def test_stems_are_put_into_classes_of_dbh_with_limits_in_the_class_above(plot):
    survey = plot(
        {"azimuth": [0.0] * 5, "distance_m": [1.0] * 5, "dbh_cm": [9.9, 10.0, 59.9, 60.0, None]}
    )

    assert colouring(survey, measure(survey), 0, by="dbh").kind.tolist() == [0, 1, 5, 6, -1]


def test_a_stem_whose_number_the_last_visit_lacks_is_new():
    from tests.uploads import survey as made

    survey = made(
        {
            "plot": ["A"] * 5,
            "visit": ["1", "1", "2", "2", "2"],
            "stem": [1, 2, 1, 3, None],
            "azimuth": [0.0] * 5,
            "distance_m": [1.0, 2.0, 1.0, 3.0, 4.0],
        },
        {"plot": ["A"]},
        settings={"design": {"radius_m": 10.0}},
    )
    measured = measure(survey)

    assert colouring(survey, measured, 1, by="visit").kind.tolist() == [0, 1, -1]
    assert colouring(survey, measured, 0, by="visit").kind.tolist() == [-1, -1]


def test_status_has_a_fill_and_a_stroke(plot):
    survey = plot({"azimuth": [0.0, 90.0], "distance_m": [3.0, 3.0], "dbh_cm": [30.0, 30.0], "status": ["", "dead"]})
    colours = colouring(survey, measure(survey), 0, by="status")

    assert colours.kind.tolist() == [0, 1]
    assert colours.fill_of(0, LIGHT) != colours.fill_of(1, LIGHT)
