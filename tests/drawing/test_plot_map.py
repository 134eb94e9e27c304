"""What the map of a plot shows."""

from time import perf_counter

import numpy as np
import pytest

from stemmap.drawing.palette import DARK, LIGHT
from stemmap.drawing.plot_map import describe_plot, frame_of, reach_of
from stemmap.drawing.scene import Discs, Lines, Polygons, Texts
from stemmap.survey.batches import StemMeant
from stemmap.survey.finding import Finding
from stemmap.survey.measured import measure


def scene_of(survey, row=0, **options):
    return describe_plot(survey, measure(survey), row, **{"millimetres_per_metre": 7.0, **options})


def shapes(scene, kind):
    return [shape for shape in scene.shapes if isinstance(shape, kind)]


def words(scene):
    return [text for shape in shapes(scene, Texts) for text in shape.texts]


def firm_circles(scene, theme=LIGHT):
    return [
        float(np.ravel(disc.radius_m)[0])
        for disc in shapes(scene, Discs)
        if disc.fill is None and disc.stroke is not None and disc.stroke.colour == theme.ink and not disc.stroke.dash_mm
    ]


def discs_filled(scene):
    """Radii in metres of the discs of stems by fill."""
    found = {}
    for disc in shapes(scene, Discs):
        if disc.least_mm and disc.fill is not None:
            found.setdefault(disc.fill, []).extend(np.ravel(disc.radius_m).tolist())
    return found


def test_a_fixed_plot_is_one_firm_circle_on_lighter_ground_with_a_faint_zone(plot, scattered):
    scene = scene_of(plot(scattered(20)))

    assert firm_circles(scene) == [12.62]
    fills = {disc.fill: disc.radius_m for disc in shapes(scene, Discs) if disc.stroke is None}
    # Two standard deviations of the distance, 0.05 m, on either side.
    assert fills[LIGHT.zone] == pytest.approx(12.72)
    assert fills[LIGHT.inside] == pytest.approx(12.52)


def test_stems_are_discs_to_scale(plot, scattered):
    stems = scattered(40)
    radii = sorted(radius for found in discs_filled(scene_of(plot(stems))).values() for radius in found)

    assert radii == pytest.approx(sorted(dbh / 200.0 for dbh in stems["dbh_cm"]))


def test_every_number_is_written_once(plot, scattered):
    scene = scene_of(plot(scattered(40)), corners=False)
    numbers = next(shape for shape in reversed(shapes(scene, Texts)) if len(shape.texts) == 40)

    assert sorted(map(int, numbers.texts)) == list(range(1, 41))


def test_a_stem_that_is_out_is_hollow(plot):
    scene = scene_of(
        plot(
            {"stem": [1, 2], "azimuth": [0, 90], "distance_m": [5.0, 13.0], "dbh_cm": [20, 30], "species": ["oak"] * 2}
        )
    )

    assert discs_filled(scene)[LIGHT.inside] == [0.15]


@pytest.mark.parametrize(("status", "strokes"), [("dead", 2), ("cut", 1), ("living", 0)])
def test_status_is_told_by_strokes(plot, status, strokes):
    scene = scene_of(plot({"azimuth": [10], "distance_m": [5.0], "dbh_cm": [20], "status": [status]}), corners=False)
    across = [line for line in shapes(scene, Lines) if np.array_equal(line.start, line.end) and len(line.start) == 1]

    assert len([line for line in across if line.start.any()]) == strokes


def test_a_stem_without_dbh_is_a_diamond(plot):
    scene = scene_of(plot({"azimuth": [10, 20], "distance_m": [5.0, 6.0]}), corners=False)
    (diamonds,) = shapes(scene, Polygons)

    assert len(diamonds.place) == 2
    assert not discs_filled(scene)


def test_concentric_circles_are_all_drawn_and_an_offset_one_stands_aside(plot):
    circles = [
        {"radius_m": 3.0, "offset_m": 5.0, "offset_azimuth": 100.0},
        {"radius_m": 7.98, "min_dbh_cm": 12},
        {"radius_m": 12.62, "min_dbh_cm": 36},
    ]
    survey = plot(radius_m=None, design={"kind": "concentric", "circles": circles}, measurement={"azimuth_unit": "gon"})
    scene = scene_of(survey)
    aside = [disc for disc in shapes(scene, Discs) if disc.centre.any()]

    assert firm_circles(scene) == [12.62, 7.98, 3.0]
    assert [disc.radius_m for disc in aside] == pytest.approx([3.1, 2.9, 3.0])
    for disc in aside:
        assert disc.centre[0] == pytest.approx([5.0, 0.0], abs=1e-9)


def test_an_angle_count_has_a_circle_only_at_its_largest_radius(plot, scattered):
    free = plot(scattered(10), radius_m=None, design={"kind": "angle_count", "basal_area_factor": 4})
    bounded = plot(
        scattered(10), radius_m=None, design={"kind": "angle_count", "basal_area_factor": 4, "max_radius_m": 18.0}
    )

    assert firm_circles(scene_of(free)) == []
    assert "no circle is drawn" in scene_of(free).notes[0]
    assert firm_circles(scene_of(bounded)) == [18.0]


def test_a_circle_on_the_slope_is_an_ellipse_shorter_along_the_aspect(plot):
    survey = plot(
        plots={"slope_percent": [75.0], "aspect_deg": [90.0]},
        design={"slope": "same_radius_on_slope"},
    )
    ellipses = [np.asarray(shape.outline_m) for shape in shapes(scene_of(survey, corners=False), Polygons)]

    # 75 % is a slope of 3 to 4, whose cosine is 0.8; the zone lies 0.1 m on either side.
    for outline, grown in zip(ellipses, (0.1, -0.1, 0.0), strict=True):
        assert np.abs(outline[:, 0]).max() == pytest.approx(0.8 * 12.62 + grown)
        assert np.abs(outline[:, 1]).max() == pytest.approx(12.62 + grown)


def test_a_slope_without_aspect_is_said_and_drawn_level(plot):
    scene = scene_of(plot(plots={"slope_percent": [75.0]}, design={"slope": "same_radius_on_slope"}))

    assert firm_circles(scene) == [12.62]
    assert "Slope or aspect is not known" in scene.notes[0]


def test_ticks_are_counted_in_the_unit_and_from_the_north_of_the_survey(plot):
    degrees = scene_of(plot(), corners=False)
    gon = scene_of(plot(measurement={"azimuth_unit": "gon"}), corners=False)
    turned = scene_of(plot(plots={"declination_deg": [10.0]}, measurement={"north": "magnetic"}), corners=False)

    assert words(degrees) == [str(value) for value in range(0, 360, 30)]
    assert words(gon) == [str(value) for value in range(0, 400, 50)]
    assert sum(len(line.start) for line in shapes(gon, Lines)) == 40 + 4
    # Magnetic north lies 10 degrees east of the map's north.
    zero = shapes(turned, Texts)[0].place[0]
    assert np.degrees(np.arctan2(*zero)) == pytest.approx(10.0)


def test_findings_give_a_stem_letters_and_an_outline(plot, scattered, finding):
    scene = scene_of(
        plot(scattered(12)),
        findings=[finding(3, "typing", "error"), finding(3, "revisit"), finding(5, "inclusion", "note"), finding(-1)],
        corners=False,
    )
    outlines = [disc for disc in shapes(scene, Discs) if disc.fill is None and np.ravel(disc.radius_mm)[0] > 0.5]

    assert [word for word in words(scene) if word in "ICTDRV"] == ["T", "R", "C", "T"]
    assert "whole plot" in words(scene)
    assert len(outlines) == 2
    assert len({(disc.stroke.colour, disc.stroke.width_mm, disc.stroke.dash_mm) for disc in outlines}) == 2


def test_all_stems_have_ghosts_where_a_whole_plot_is_meant_otherwise(plot):
    stems = {"plot": ["A"] * 3, "stem": [1, 2, 3], "azimuth": [10, 100, 390], "distance_m": [3, 4, 5]}
    survey = plot(stems, radius_m=8)
    meant = tuple(StemMeant(row, {"azimuth": 0.9 * stems["azimuth"][row]}, 0.5) for row in range(3))
    about = Finding("A", "A", None, None, "some-check", "warning", "revisit", None, "", {}, [], {}, 0, -1, meant)
    scene = scene_of(survey, findings=[about])
    ghosts = [disc for disc in shapes(scene, Discs) if disc.stroke is not None and disc.stroke.colour == LIGHT.ghost]
    angle = np.radians([9.0, 90.0, 351.0])
    places = np.column_stack([[3, 4, 5] * np.sin(angle), [3, 4, 5] * np.cos(angle)])
    # The third azimuth could not be placed as typed, but can be as meant.
    assert np.vstack([ghost.centre for ghost in ghosts]) == pytest.approx(places)



@pytest.mark.parametrize(
    ("settings", "azimuth"),
    [
        ({}, 120.0),
        ({"measurement": {"azimuth_unit": "gon"}}, 120.0 / 0.9),
        ({"measurement": {"north": "magnetic"}}, 115.0),
    ],
    ids=["degree", "gon", "magnetic"],
)
def test_a_proposal_is_a_dashed_ghost_where_the_stem_would_stand(plot, finding, settings, azimuth):
    survey = plot(
        {"stem": [1], "azimuth": [12.0], "distance_m": [6.0], "dbh_cm": [40]},
        plots={"declination_deg": [5.0]},
        **settings,
    )
    scene = scene_of(survey, findings=[finding(0, azimuth=azimuth)])
    (ghost,) = [disc for disc in shapes(scene, Discs) if disc.stroke is not None and disc.stroke.colour == LIGHT.ghost]
    (line,) = [line for line in shapes(scene, Lines) if line.stroke.colour == LIGHT.ghost]

    assert ghost.centre[0] == pytest.approx([6.0 * np.sin(np.radians(120.0)), 6.0 * np.cos(np.radians(120.0))])
    assert ghost.radius_m == pytest.approx(0.2)
    assert ghost.stroke.dash_mm
    assert line.end[0] == pytest.approx(ghost.centre[0])


def test_proposed_distances_and_diameters_are_drawn_too(plot, finding):
    slope = {"measurement": {"distance": "slope", "distance_to": "face"}}
    columns = {"azimuth": [90.0], "distance_m": [50.0], "vertical_angle_deg": [60.0], "dbh_cm": [40]}
    found = [finding(0, distance_m=5.0), finding(0, dbh_cm=20.0)]
    scene = scene_of(plot(columns, radius_m=30.0, **slope), findings=found)
    ghosts = [disc for disc in shapes(scene, Discs) if disc.stroke is not None and disc.stroke.colour == LIGHT.ghost]

    # 5 m along a slope of 60 degrees are 2.5 m, and the axis is half a dbh behind the face.
    assert [disc.centre[0].round(6).tolist() for disc in ghosts] == [[2.7, 0.0], [25.2, 0.0]]
    assert [disc.radius_m for disc in ghosts] == pytest.approx([0.2, 0.1])


def test_the_last_visit_is_a_hollow_dot_tied_to_its_stem_by_number(plot):
    stems = {
        "plot": ["A"] * 4,
        "visit": ["1", "1", "2", "2"],
        "stem": [7, 8, 7, 9],
        "azimuth": [0, 90, 0, 180],
        "distance_m": [5.0, 6.0, 5.5, 7.0],
        "dbh_cm": [20, 20, 21, 8],
    }
    survey = plot(stems)
    scene = scene_of(survey, survey.visit_row("A", "2"))
    (dots,) = [disc for disc in shapes(scene, Discs) if disc.fill == LIGHT.inside and disc.radius_mm]
    (tie,) = [line for line in shapes(scene, Lines) if line.end.any() and line.stroke.width_mm == 0.15]

    assert np.hypot(*dots.centre.T).tolist() == pytest.approx([5.0, 6.0])
    assert tie.start[0] == pytest.approx([0.0, 5.0])
    assert tie.end[0] == pytest.approx([0.0, 5.5])


def test_a_stem_far_out_stands_at_the_rim_with_its_distance(plot, scattered):
    stems = scattered(10)
    stems["distance_m"][4], stems["azimuth"][4] = 63.4, 90
    scene = scene_of(plot(stems))

    assert scene.box.high[0] < 14.0
    assert "5 at 63.4 m" in words(scene)
    east, north = scene.stems.place[4]
    assert 12.0 < east < scene.box.high[0]
    assert north == pytest.approx(0.0, abs=1e-9)
    assert "Too far out for this map, an arrow at the rim: 5." in scene.notes


def test_a_stem_too_thick_to_be_true_hides_no_other(plot, scattered):
    stems = scattered(10)
    stems["dbh_cm"][9] = 371.0
    discs = [disc for disc in shapes(scene_of(plot(stems)), Discs) if disc.fill and np.size(disc.radius_m) > 0]
    of_stems = [np.broadcast_to(disc.radius_m, len(disc.centre)).max() for disc in discs if disc.stroke is not None]
    assert of_stems.index(1.855) < min(place for place, radius in enumerate(of_stems) if 0.0 < radius < 0.5)


def test_a_stem_just_outside_widens_the_map(plot, scattered):
    stems = scattered(10)
    stems["distance_m"][4] = 14.0

    survey = plot(stems)

    assert reach_of(survey, measure(survey), 0) > 14.0


def test_a_stem_without_a_place_is_named(plot, scattered):
    stems = scattered(10)
    stems["azimuth"][4] = None
    scene = scene_of(plot(stems))

    assert scene.notes == ("Not drawn, since azimuth or distance is not known: 5.",)
    assert len(scene.stems.row) == 9


@pytest.mark.parametrize("count", [0, 1, 300])
@pytest.mark.parametrize("radius", [12.62, None])
@pytest.mark.parametrize("theme", [LIGHT, DARK], ids=["light", "dark"])
def test_any_number_of_stems_can_be_drawn(plot, scattered, count, radius, theme):
    survey = plot(scattered(count) if count else None, radius_m=radius)
    scene = scene_of(survey, theme=theme)

    assert len(scene.stems.row) == count
    assert scene.background == theme.page
    assert frame_of(survey, measure(survey), 0) == scene.box


def test_an_overfull_plot_numbers_only_stems_with_findings(plot, scattered, finding):
    scene = scene_of(plot(scattered(700)), findings=[finding(650)])

    assert "651" in words(scene)
    assert "12" not in words(scene)
    assert any("only those with findings" in note for note in scene.notes)


def test_a_monstrous_stem_number_is_cut(plot):
    scene = scene_of(plot({"stem": ["x y\n" * 1_000_000], "azimuth": [1.0], "distance_m": [2.0]}), corners=False)

    assert max(map(len, words(scene))) <= 12


def test_lengths_of_a_survey_in_feet_are_told_in_feet(plot):
    survey = plot(
        {"stem": [1], "azimuth": [0.0], "distance_m": [300.0], "dbh_cm": [10.0]},
        radius_m=50.0,
        measurement={"length_unit": "foot"},
    )
    scene = scene_of(survey)

    assert firm_circles(scene) == pytest.approx([50.0 * 0.3048])
    assert "1 at 300.0 ft" in words(scene)
    assert "10 ft" in words(scene)


def test_describing_very_many_stems_takes_no_time_for_numbers(plot, scattered):
    survey = plot(scattered(20_000))
    started = perf_counter()
    scene = scene_of(survey)
    assert perf_counter() - started < 1.0
    assert "The plot has more than 5000 stems, so none is numbered." in scene.notes
