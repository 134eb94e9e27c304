"""Plots that the stand edge cuts: which method carries the correction, and that none is corrected twice."""

from dataclasses import replace

import numpy as np
import pytest
import shapely

from stemmap.core.neighbours import clark_evans
from stemmap.survey.ground import CARRIED, OUTSIDE
from stemmap.survey.measured import measure
from stemmap.survey.profiles import profiles
from stemmap.survey.summary import summarise
from stemmap.survey.survey import StandGround
from tests.uploads import survey

CRS = "EPSG:32633"
#: Three plots 100 m apart: 50 m inside, 5 m inside, and 3 m outside a straight edge that runs north.
PLOTS = {"plot": ["deep", "edge", "out"], "easting": [400150.0, 400105.0, 400097.0], "northing": [5400050.0] * 3}
STAND = shapely.box(400100.0, 5399000.0, 401000.0, 5401000.0)
STEMS = {
    "plot": ["deep", "edge", "edge", "edge", "out"],
    "azimuth": [90.0, 90.0, 270.0, 270.0, 90.0],
    "distance_m": [4.0, 10.0, 4.0, 6.0, 8.0],
    "dbh_cm": [30.0] * 5,
}
R = 12.62
FACTOR = 10_000.0 / (np.pi * R**2)


def told(edge="area_weight", *, ground=STAND, crs=CRS, stems=STEMS, plots=PLOTS, **design):
    design = {"radius_m": R, "stand": "stand.gpkg", "edge": edge, **design}
    made = survey(stems, plots, settings={"survey": {"crs": CRS}, "design": design})
    made = replace(made, ground=None if ground is None else StandGround("stand.gpkg", crs, ground))
    return summarise(made, measure(made))


def share(distance, radius=R):
    """Share of a circle on the centre's side of a straight edge (computed: a circle less its segment)."""
    beyond = radius**2 * np.arccos(distance / radius) - distance * np.sqrt(radius**2 - distance**2)
    return 1.0 - beyond / (np.pi * radius**2)


def test_share_of_the_circle_inside_is_told():
    made = told()
    shares = [made.plot_json(row)["share_inside"] for row in range(3)]

    # Point scale of the projection at the plot: 0.9997.
    assert shares == pytest.approx([1.0, share(5.0), 1.0 - share(3.0)], abs=2e-4)
    assert made.plot_json(0)["edge_correction"] == CARRIED["area_weight"]


def test_area_weight_is_that_of_each_stems_own_circle():
    made = told()

    # Stems 15 m and 1 m inside the edge; the one 1 m outside is none of this stand's.
    expected = FACTOR * np.array([1.0, 1.0 / share(1.0), 0.0])
    assert made.measured.expansion_per_ha[1:4] == pytest.approx(expected, rel=1e-3)
    assert made.plot_json(1)["in"] == 2


def test_angle_count_weighs_by_the_limiting_distance():
    made = told(kind="angle_count", basal_area_factor=4.0, radius_m=None)

    # 30 cm at 4 m²/ha: 7.5 m, so that the stem at 10 m is out and the one 1 m inside has 7.5 m around it.
    factor = 4.0 / (np.pi * 0.15**2)
    assert made.measured.expansion_per_ha[2] == pytest.approx(factor / share(1.0, 7.5), rel=1e-3)


@pytest.mark.parametrize(("edge", "times"), [("mirage", [1.0, 2.0]), ("walkthrough", [1.0, 2.0]), ("none", [1.0, 1.0])])
def test_stems_near_the_edge_count_again(edge, times):
    made = told(edge)

    assert made.measured.expansion_per_ha[1:3] == pytest.approx(FACTOR * np.array(times))
    assert made.plot_json(1)["edge_correction"] == CARRIED[edge]


def test_stem_outside_the_stand_is_not_taken_for_one_without_a_circle():
    assert not told().measured.taken_by_none.any()
    assert told(min_dbh_cm=40.0).measured.taken_by_none.all()


def test_part_plots_weigh_by_the_share_and_count_when_the_centre_is_outside():
    made = told("part_plot")

    assert made.measured.expansion_per_ha[1:3] == pytest.approx(FACTOR / share(5.0), rel=1e-3)
    assert made.measured.expansion_per_ha[4] == pytest.approx(FACTOR / (1.0 - share(3.0)), rel=1e-3)
    assert made.sampled.all()


@pytest.mark.parametrize("edge", ["area_weight", "mirage", "walkthrough", "none"])
def test_plot_with_its_centre_outside_is_no_plot_of_the_stand(edge):
    made = told(edge)

    assert made.plot_json(2)["reasons"]["stems_per_ha"] == OUTSIDE
    assert made.sampled.tolist() == [True, True, False]


def test_polygons_in_another_system_and_turned_norths_change_nothing():
    from pyproj import Transformer

    turn = Transformer.from_crs(CRS, "EPSG:4326", always_xy=True)
    fine = shapely.segmentize(STAND, 20.0)
    lonlat = shapely.transform(fine, lambda xy: np.column_stack(turn.transform(xy[:, 0], xy[:, 1])))
    weights = told(ground=lonlat, crs="EPSG:4326").measured.expansion_per_ha

    assert weights == pytest.approx(told().measured.expansion_per_ha, rel=1e-6, nan_ok=True)


def test_mirage_at_a_bent_edge_is_refused_with_the_reason():
    bent = shapely.Polygon(
        [(400100, 5399000), (401000, 5399000), (401000, 5401000), (400100, 5401000), (400095, 5400050)]
    )
    reasons = told("mirage", ground=bent).plot_json(1)["reasons"]

    assert "mirage is not exact" in reasons["stems_per_ha"]


def test_part_plots_of_an_angle_count_are_refused():
    made = told("part_plot", kind="angle_count", basal_area_factor=4.0, radius_m=None)

    assert "angle count" in made.plot_json(1)["reasons"]["stems_per_ha"]


def test_stand_that_was_not_found_makes_every_value_unknown():
    made = told(ground=None)

    assert np.isnan(made.stems_per_ha).all()
    assert "not found" in made.plot_json(0)["reasons"]["share_inside"]


def test_plot_without_a_place_is_unknown_and_the_others_are_not():
    plots = {**PLOTS, "easting": [400150.0, None, 400097.0]}
    made = told(plots=plots)

    assert "centre is not known" in made.plot_json(1)["reasons"]["stems_per_ha"]
    assert made.plot_json(0)["stems_per_ha"] == pytest.approx(FACTOR)


def test_without_a_stand_nothing_is_said_of_it():
    made = survey(STEMS, PLOTS, settings={"survey": {"crs": CRS}, "design": {"radius_m": R}})

    assert "share_inside" not in summarise(made, measure(made)).plot_json(0)


def test_pattern_of_a_cut_plot_is_that_of_the_part_inside():
    made = told()
    plot, ground = made.plot_json(1), made.pattern.window(1)

    # Two of its three stems stand inside, 14 m apart.
    assert plot["mean_nearest_m"] == pytest.approx(14.0, abs=1e-6)
    assert plot["pattern_stems"] == "living stems within 12.62 m and inside the stand, one position a tree"
    assert made.pattern.area_m2[1] == pytest.approx(share(5.0) * np.pi * R**2, rel=2e-4)
    assert (ground.area, ground.perimeter) == pytest.approx((made.pattern.area_m2[1], made.pattern.perimeter_m[1]))
    # 1 m from the edge of the stand, and 2.62 m from the circle.
    assert made.pattern.to_edge_m[1:3] == pytest.approx([R - 10.0, 1.0], abs=2e-3)
    np.testing.assert_allclose(ground.to_edge([[10.0, 0.0], [-4.0, 0.0]]), made.pattern.to_edge_m[1:3], atol=1e-9)


def test_clark_evans_of_a_cut_plot_is_that_of_the_cut_disc():
    xy = shapely.get_coordinates(shapely.MultiPoint(np.random.default_rng(1).uniform(-8.0, 8.0, (30, 2))))
    xy = xy[xy[:, 0] > -4.9]
    stems = {
        "plot": ["edge"] * len(xy),
        "azimuth": np.degrees(np.arctan2(xy[:, 0], xy[:, 1])) % 360.0,
        "distance_m": np.hypot(xy[:, 0], xy[:, 1]),
        "dbh_cm": [20.0] * len(xy),
    }
    made = told(stems=stems)
    expected = clark_evans(xy, made.pattern.window(1), correction="donnelly")

    index = made.plot_json(1)["clark_evans"]
    assert (index["r"], index["z"], index["n"]) == pytest.approx((expected.r, expected.z, len(xy)), rel=1e-6)


def test_profiles_round_the_centre_leave_cut_plots_out():
    made = profiles(told(), [0, 1])

    assert (made["azimuth"].stems, made["distance"].stems, made["dbh"].stems) == (1, 1, 3)
