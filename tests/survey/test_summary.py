"""What plots and strata say per hectare; what cannot be known is null with a reason."""

import csv
import json
from pathlib import Path

import numpy as np
import pytest

from stemmap.survey.measured import measure
from stemmap.survey.summary import summarise
from tests.uploads import survey

REFERENCE = Path(__file__).parents[1] / "reference"
#: Radii of circles of 500 and 200 m².
R500, R200 = np.sqrt(500 / np.pi), np.sqrt(200 / np.pi)


def summary(stems=None, plots=None, **settings):
    made = survey(stems, plots, settings=settings)
    return summarise(made, measure(made))


def plot(stems=None, plots=None, *, row=0, **settings):
    """The JSON of one plot; plot 1 and azimuths and distances inside the circle where nothing else is said."""
    if stems is not None:
        count = len(next(iter(stems.values())))
        spread = {"azimuth": np.linspace(0, 330, count).round(1).tolist(), "distance_m": [3.0] * count}
        stems = {"plot": [1] * count, **spread, **stems}
    told = summary(stems, plots, **settings).plot_json(row)
    json.dumps(told, allow_nan=False)
    return told


# Worked numbers


def test_five_stems_on_500_square_metres():
    # Computed.
    told = plot({"dbh_cm": [20, 25, 30, 35, 40]}, design={"radius_m": R500})
    assert told["stems_per_ha"] == pytest.approx(100.0)
    assert told["basal_area_m2_per_ha"] == pytest.approx(7.461283, abs=1e-6)
    assert told["qmd_cm"] == pytest.approx(30.82207, abs=1e-5)
    assert (told["stems"], told["in"], told["borderline"]) == (5, 5, 0)


def test_nested_circles_of_200_and_500_square_metres():
    """The design of the Swiss National Forest Inventory, from 12 and 36 cm; sums computed for 50 and 20 per hectare."""
    circles = [{"radius_m": R200, "min_dbh_cm": 12}, {"radius_m": R500, "min_dbh_cm": 36}]
    told = plot(
        {"dbh_cm": [14, 20, 30, 40, 55, 38, 30], "distance_m": [5.0, 7.5, 3.0, 11.0, 12.0, 6.0, 9.0]},
        design={"kind": "concentric", "circles": circles},
    )
    assert (told["stems"], told["in"]) == (7, 6)
    assert told["stems_per_ha"] == pytest.approx(210.0)
    assert told["basal_area_m2_per_ha"] == pytest.approx(15.407941, abs=1e-6)


def test_each_stem_of_an_angle_count_adds_the_factor():
    told = plot({"dbh_cm": [20, 35, 60]}, design={"kind": "angle_count", "basal_area_factor": 4})
    assert told["basal_area_m2_per_ha"] == pytest.approx(12.0)
    assert told["stems_per_ha"] == pytest.approx(4 / (np.pi / 40_000) * (1 / 400 + 1 / 1225 + 1 / 3600))


def test_smaller_circle_sampled_alone_has_its_published_factor():
    # Norwegian National Forest Inventory, circle of 250 m² (Noordermeer et al. 2025, Silva Fennica); 8.92 m computed.
    assert plot({"dbh_cm": [20]}, design={"radius_m": 8.92})["stems_per_ha"] == pytest.approx(40.006, abs=1e-3)


# Reference patterns


def disc_patterns():
    """Patterns in a disc around (0, 0): name to positions and species."""
    patterns = {}
    with (REFERENCE / "patterns.csv").open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            if row["pattern"].startswith("disc_"):
                patterns.setdefault(row["pattern"], []).append((float(row["x_m"]), float(row["y_m"]), row["species"]))
    return patterns


NUMBERS = json.loads((REFERENCE / "numbers.json").read_text("utf-8"))["patterns"]


@pytest.mark.parametrize("name", list(disc_patterns()))
def test_density_and_nearest_stems_of_generated_patterns(name):
    """A general statistics library computed the numbers, see tests/reference/README.md.

    It knows Donnelly's correction in rectangles only; in the disc it is written out here with the constants of
    Donnelly (1978), from memory: the expectation is 0.5 sqrt(A / n) + (0.0514 + 0.041 / sqrt(n)) P / n.
    """
    expected, pattern = NUMBERS[name], disc_patterns()[name]
    radius = expected["window"]["radius_m"]
    x, y = (np.array([stem[axis] for stem in pattern]) for axis in (0, 1))
    distance = np.hypot(x, y)
    stems = {
        "azimuth": np.mod(np.degrees(np.arctan2(x, y)), 360).tolist(),
        "distance_m": distance.tolist(),
        "species": [stem[2] for stem in pattern],
    }
    told = plot(stems, design={"radius_m": radius})

    n, area, perimeter = len(pattern), np.pi * radius**2, 2 * np.pi * radius
    mean = expected["mean_nearest_m"]
    donnelly = mean / (0.5 * np.sqrt(area / n) + (0.0514 + 0.041 / np.sqrt(n)) * perimeter / n)
    assert told["stems_per_ha"] == pytest.approx(10_000 * n / area, rel=1e-9)
    assert told["mean_nearest_m"] == pytest.approx(mean, rel=1e-9)
    assert told["clark_evans"]["n"] == n
    assert told["clark_evans"]["correction"] == "donnelly"
    assert told["clark_evans"]["r"] == pytest.approx(donnelly, rel=1e-9)
    assert told["clark_evans"]["plain"]["r"] == pytest.approx(expected["clark_evans_none"], rel=1e-9)
    assert told["clark_evans"]["plain"]["z"] == pytest.approx(expected["z_none"], rel=1e-9)
    assert told["clark_evans"]["plain"]["p"] == pytest.approx(expected["p_none"], rel=1e-9)

    apart = np.hypot(x[:, None] - x, y[:, None] - y)
    counts = np.sort(apart, axis=1)[:, 4] < radius - distance
    assert told["uniform_angle_n"] == told["mingling_n"] == counts.sum()
    for index in ("uniform_angle", "mingling"):
        wanted = np.array(expected[index])[counts]
        assert told[index] == (pytest.approx(wanted.mean(), rel=1e-9) if counts.any() else None)


# Zero, null and why


def test_empty_plot_is_a_zero():
    told = plot(plots={"plot": [1], "plot_status": ["empty"]}, design={"radius_m": 10})
    assert told["plot_status"] == "empty"
    assert (told["stems"], told["in"], told["stems_per_ha"], told["basal_area_m2_per_ha"]) == (0, 0, 0.0, 0.0)
    assert told["qmd_cm"] is None
    assert told["reasons"]["qmd_cm"] == "no stems"


def test_empty_plot_is_a_zero_even_without_a_radius():
    told = plot(plots={"plot": [1], "plot_status": ["empty"]})
    assert told["stems_per_ha"] == 0.0


@pytest.mark.parametrize("design", [{"kind": "concentric"}, {"kind": "angle_count"}])
def test_empty_plot_is_a_zero_under_every_design(design):
    assert plot(plots={"plot": [1], "plot_status": ["empty"]}, design=design)["stems_per_ha"] == 0.0


@pytest.mark.parametrize(
    ("status", "reason"),
    [("not reached", "reached"), ("non-forest", "forest"), ("measured", "no stems"), ("", "no stems")],
)
def test_plot_without_stems_is_null_with_a_reason(status, reason):
    told = plot(plots={"plot": [1], "plot_status": [status]}, design={"radius_m": 10})
    assert told["stems_per_ha"] is None
    assert told["in"] is None
    assert reason in told["reasons"]["stems_per_ha"]


def test_plot_without_radius_is_null_with_a_reason():
    told = plot({"dbh_cm": [20]})
    assert told["stems_per_ha"] is None
    assert "radius" in told["reasons"]["stems_per_ha"]
    assert told["stems"] == 1


@pytest.mark.parametrize(
    ("design", "word"), [({"kind": "concentric"}, "circles"), ({"kind": "angle_count"}, "basal area factor")]
)
def test_design_without_its_figures_is_the_reason(design, word):
    told = plot({"dbh_cm": [20]}, design=design)
    assert told["stems_per_ha"] is None
    assert word in told["reasons"]["stems_per_ha"]


def test_stem_that_cannot_be_decided_leaves_the_density_unknown():
    told = plot({"dbh_cm": [20, 20], "distance_m": [3, ""]}, design={"radius_m": 10})
    assert told["stems_per_ha"] is None
    assert "distance" in told["reasons"]["stems_per_ha"]
    assert told["in"] == 1


def test_missing_dbh_leaves_the_stems_and_takes_the_basal_area():
    told = plot({"dbh_cm": [20, ""]}, design={"radius_m": R500})
    assert told["stems_per_ha"] == pytest.approx(40.0)
    assert told["without_dbh"] == 1
    assert told["basal_area_m2_per_ha"] is None
    assert "dbh" in told["reasons"]["basal_area_m2_per_ha"]
    assert "dbh" in told["reasons"]["qmd_cm"]


@pytest.mark.parametrize("stems", [None, {"dbh_cm": [20]}])
def test_every_null_has_a_reason(stems):
    told = plot(stems, {"plot": [1]})
    nulls = {name for name, value in told.items() if value is None}
    explained = {name.partition(".")[0] for name in told["reasons"]}
    assert nulls - explained == {"visit", "date", "stratum"}


# Living and dead, species, classes


def test_dead_stems_stand_apart_and_cut_ones_nowhere():
    told = plot({"dbh_cm": [20, 30, 40, 50], "status": ["living", "dead", "cut", "gone"]}, design={"radius_m": R500})
    assert (told["stems"], told["in"]) == (1, 1)
    assert told["stems_per_ha"] == pytest.approx(20.0)
    assert told["dead"]["in"] == 1
    assert told["dead"]["stems_per_ha"] == pytest.approx(20.0)
    assert told["dead"]["basal_area_m2_per_ha"] == pytest.approx(20 * np.pi * 0.15**2)


def test_species_add_up_to_the_plot_whatever_their_case_and_space():
    told = plot({"dbh_cm": [20, 25, 30, 35], "species": ["Spruce", "spruce ", "fir", ""]}, design={"radius_m": R500})
    assert [(row["species"], row["in"]) for row in told["species"]] == [("Spruce", 2), ("fir", 1), (None, 1)]
    assert sum(row["stems_per_ha"] for row in told["species"]) == pytest.approx(told["stems_per_ha"])
    area = sum(row["basal_area_m2_per_ha"] for row in told["species"])
    assert area == pytest.approx(told["basal_area_m2_per_ha"])


def test_dbh_classes_add_up_to_the_plot():
    told = plot({"dbh_cm": [4.9, 5.0, 12, 13, 31]}, design={"radius_m": R500})
    assert told["dbh_classes"]["edges_cm"] == [0.0, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 35.0]
    np.testing.assert_allclose(told["dbh_classes"]["stems_per_ha"], [20, 20, 40, 0, 0, 0, 20])


def test_plots_are_told_with_their_visit_date_and_stratum():
    stems = {"plot": [1, 2], "visit": ["2026", "2026"], "distance_m": [3, 3], "azimuth": [0, 0]}
    plots = {"plot": [1, 2], "date": ["2026-05-01", ""], "stratum": ["plateau", ""]}
    told = summary(stems, plots, design={"radius_m": 10})
    first, second = told.plot_json(0), told.plot_json(1)
    assert (first["plot"], first["visit"], first["date"], first["stratum"]) == ("1", "2026", "2026-05-01", "plateau")
    assert (second["date"], second["stratum"]) == (None, None)


# Nearest stems: one inclusion rule


def test_indices_of_a_nested_design_take_the_stems_of_the_inner_circle():
    circles = [{"radius_m": 8, "min_dbh_cm": 12}, {"radius_m": 12, "min_dbh_cm": 36}]
    stems = {"dbh_cm": [20, 40, 20, 40], "azimuth": [0, 90, 180, 270], "distance_m": [5, 5, 7.9, 11]}
    told = plot(stems, design={"kind": "concentric", "circles": circles})
    assert told["in"] == 4
    assert told["clark_evans"]["n"] == 3
    assert "8 m" in told["pattern_stems"]
    assert told["mean_nearest_m"] == pytest.approx((np.hypot(5, 5) * 2 + np.hypot(5, 7.9)) / 3)


def test_stems_of_an_offset_circle_are_in_no_pattern():
    circles = [
        {"radius_m": 2, "min_dbh_cm": 4, "max_dbh_cm": 12, "offset_azimuth": 0, "offset_m": 6},
        {"radius_m": 8, "min_dbh_cm": 12},
    ]
    stems = {"dbh_cm": [20, 20, 5], "azimuth": [0, 180, 0], "distance_m": [5, 5, 7]}
    told = plot(stems, design={"kind": "concentric", "circles": circles})
    assert told["in"] == 3
    assert told["clark_evans"]["n"] == 2


def test_angle_count_has_no_pattern_and_says_why():
    told = plot({"dbh_cm": [40, 40]}, design={"kind": "angle_count", "basal_area_factor": 2})
    assert told["stems_per_ha"] is not None
    for name in ("mean_nearest_m", "clark_evans.r", "uniform_angle", "mingling"):
        assert "angle count" in told["reasons"][name]
    assert told["clark_evans"]["r"] is None
    assert told["pattern_stems"] is None


def test_circle_on_a_slope_has_no_pattern_and_level_ground_has():
    slope = {"radius_m": 10, "slope": "same_radius_on_slope"}
    steep = plot({"dbh_cm": [40, 40]}, {"plot": [1], "slope_percent": [30], "aspect_deg": [0]}, design=slope)
    assert "slope" in steep["reasons"]["mean_nearest_m"]
    level = plot({"dbh_cm": [40, 40]}, {"plot": [1], "slope_percent": [0]}, design=slope)
    assert level["mean_nearest_m"] is not None


def test_forks_stand_once_in_the_pattern():
    stems = {"tree": [1, 1, 2, 3], "stem": [1, 2, 1, 1], "azimuth": [0, 0, 90, 180], "distance_m": [4, 4, 4, 4]}
    told = plot(stems, design={"radius_m": 10})
    assert told["in"] == 4
    assert told["clark_evans"]["n"] == 3
    assert told["mean_nearest_m"] == pytest.approx(4 * np.sqrt(2))


@pytest.mark.parametrize(("count", "note"), [(1, True), (7, True), (8, False)])
def test_few_stems_are_said_to_be_too_few(count, note):
    told = plot({"dbh_cm": [20] * count}, design={"radius_m": 10})
    assert (told["clark_evans"]["note"] == "too few stems") == note
    assert (told["clark_evans"]["r"] is None) == (count < 2)


def test_missing_species_are_the_reason_for_missing_mingling():
    angles = np.arange(0, 360, 36)
    stems = {"azimuth": angles.tolist(), "distance_m": [1.0] * 10, "species": [""] * 10}
    told = plot(stems, design={"radius_m": 10})
    assert told["uniform_angle"] is not None
    assert told["mingling"] is None
    assert "species" in told["reasons"]["mingling"]


# Expected number


def test_expected_sample_trees_need_stems_recorded_outside():
    stems = {"distance_m": [9.0, 10.0, 10.05, 11.5]}
    told = plot(stems, design={"radius_m": 10})
    assert told["expected_in"] is None
    assert "outside" in told["reasons"]["expected_in"]
    told = plot(stems, design={"radius_m": 10, "outside_recorded_to_m": 2})
    assert told["expected_in"] == pytest.approx(1 + 0.5 + 0.1587, abs=1e-4)


# Strata


def strata_of(made):
    return {(row["stratum"], row["visit"]): row for row in made.strata_json()}


def three_plots(**more):
    """Plots of 20, 40 and 60 stems per hectare."""
    stems = {"plot": [1, 2, 2, 3, 3, 3], "azimuth": [0, 0, 90, 0, 90, 180], "distance_m": [3] * 6, "dbh_cm": [20] * 6}
    return summary(stems, {"plot": [1, 2, 3], **more}, design={"radius_m": R500})


def test_survey_is_the_mean_of_its_plots_with_its_interval():
    row = strata_of(three_plots())[None, None]
    assert row["plots"] == 3
    assert row["stems_per_ha"]["mean"] == pytest.approx(40.0)
    assert row["stems_per_ha"]["standard_error"] == pytest.approx(20 / np.sqrt(3))
    # Student's t of two degrees of freedom, 97.5 %: 4.302653 (from memory of printed tables).
    assert row["stems_per_ha"]["high"] == pytest.approx(40 + 4.302653 * 20 / np.sqrt(3), abs=1e-4)
    assert row["method"] == "simple random sampling"


def test_strata_stand_beside_the_survey():
    rows = strata_of(three_plots(stratum=["a", "a ", "b"]))
    assert {name: row["plots"] for (name, _), row in rows.items()} == {None: 3, "a": 2, "b": 1}
    assert rows["a", None]["stems_per_ha"]["mean"] == pytest.approx(30.0)
    assert rows["b", None]["stems_per_ha"]["standard_error"] is None
    assert rows["b", None]["stems_per_ha"]["reason"]


def test_plots_without_stratum_are_a_stratum_of_their_own():
    assert ("(none)", None) in strata_of(three_plots(stratum=["a", "", "b"]))


def test_empty_plots_count_and_non_forest_plots_do_not():
    plots = {"plot": [1, 2, 3, 4], "plot_status": ["", "empty", "non-forest", "not reached"]}
    row = strata_of(summary({"plot": [1], "distance_m": [3]}, plots, design={"radius_m": R500}))[None, None]
    assert row["stems_per_ha"]["mean"] == pytest.approx(10.0)
    assert row["plots"] == 2
    assert row["stems_per_ha"]["left_out"] == 1


def test_visits_of_one_name_are_summed_up_together():
    stems = {"plot": [1, 1, 1, 2, 2], "visit": ["2021", "2026", "2026", "2021", "2026"], "distance_m": [3] * 5}
    rows = strata_of(summary(stems, design={"radius_m": R500}))
    assert rows[None, "2021"]["stems_per_ha"]["mean"] == pytest.approx(20.0)
    assert rows[None, "2026"]["stems_per_ha"]["mean"] == pytest.approx(30.0)


def test_visits_of_many_names_give_each_plots_last():
    stems = {"plot": [1, 1, 2], "visit": ["a", "b", "c"], "distance_m": [3] * 3}
    (row,) = summary(stems, design={"radius_m": R500}).strata_json()
    assert row["visit"] is None
    assert row["plots"] == 2


def test_survey_of_non_forest_has_no_mean():
    row = strata_of(summary(plots={"plot": [1], "plot_status": ["non-forest"]}))[None, None]
    assert row["plots"] == 0
    assert row["stems_per_ha"]["mean"] is None
    assert row["stems_per_ha"]["reason"]


def test_empty_upload_has_no_strata():
    made = summary()
    assert made.strata_json() == []
    assert made.stems_per_ha.shape == (0,)


# What the stems hide


def test_hidden_share_is_the_sector_behind_a_stem():
    told = plot({"azimuth": [90], "distance_m": [5.0], "dbh_cm": [100]}, design={"radius_m": 10.0})
    # Computed: 2 asin(0.1) of the full angle, from 5 m to 10 m.
    assert told["hidden_share"] == pytest.approx(np.arcsin(0.1) / np.pi * 0.75)
    # A lone stem is seen wherever it stands.
    assert told["missed_stems_per_ha"] == told["missed_stems_per_ha_low"] == told["missed_stems_per_ha_high"] == 0.0


def test_missed_stems_and_their_basal_area_come_with_intervals():
    rng = np.random.default_rng(1)
    stems = {
        "azimuth": rng.uniform(0, 360, 60).round().tolist(),
        "distance_m": (1 + 11.5 * np.sqrt(rng.random(60))).round(2).tolist(),
        "dbh_cm": [30] * 60,
    }
    told = plot(stems, design={"radius_m": 12.62})
    assert 0.1 < told["hidden_share"] < 0.4
    for name in ("missed_stems_per_ha", "missed_basal_area_m2_per_ha"):
        assert 0.0 <= told[f"{name}_low"] < told[name] < told[f"{name}_high"]
    share = told["missed_stems_per_ha"] / told["stems_per_ha"]
    assert told["missed_basal_area_m2_per_ha"] == pytest.approx(share * told["basal_area_m2_per_ha"])


def test_dead_stems_hide_but_cut_ones_do_not():
    stems = {"azimuth": [90], "distance_m": [5.0], "dbh_cm": [100]}
    assert plot({**stems, "status": ["dead"]}, design={"radius_m": 10.0})["hidden_share"] > 0.02
    assert plot({**stems, "status": ["cut"]}, design={"radius_m": 10.0})["hidden_share"] == 0.0


def test_stems_of_each_circle_are_missed_in_their_own_circle():
    circles = [{"radius_m": 8.0, "min_dbh_cm": 7}, {"radius_m": 12.0, "min_dbh_cm": 30}]
    stems = {"azimuth": [0, 0.5, 180], "distance_m": [2.0, 6.0, 10.0], "dbh_cm": [45, 10, 40]}
    told = plot(stems, design={"kind": "concentric", "circles": circles})
    assert told["hidden_share"] == pytest.approx(
        (np.arcsin(0.1125) * (1 - 4 / 144) + np.arcsin(0.02) * (1 - 100 / 144)) / np.pi
    )
    assert told["missed_stems_per_ha"] > 0.0


def test_empty_plot_hides_nothing():
    told = plot(plots={"plot": [1], "plot_status": ["empty"], "radius_m": [10]})
    assert told["hidden_share"] == told["missed_stems_per_ha"] == told["missed_basal_area_m2_per_ha"] == 0.0


def test_stems_seen_from_other_points_are_not_hidden_from_the_centre():
    stems = {"plot": [1, 1], "azimuth": [0, 0], "distance_m": [3.0, 3.0], "dbh_cm": [30, 30], "station": ["", "7"]}
    made = survey(
        stems, stations={"station": ["7"], "azimuth": [90], "distance_m": [4]}, settings={"design": {"radius_m": 10}}
    )
    told = summarise(made, measure(made)).plot_json(0)
    assert told["hidden_share"] is None
    assert "other points" in told["reasons"]["hidden_share"]


@pytest.mark.parametrize(
    ("change", "settings", "why"),
    [
        ({}, {"measurement": {"method": "at_stem"}}, "measured at the stem"),
        ({}, {"design": {"kind": "angle_count", "basal_area_factor": 4}}, "angle count"),
        ({}, {"design": {}}, "no plot radius"),
        ({"dbh_cm": [30, ""]}, {}, "no dbh"),
        ({"azimuth": [0, ""]}, {}, "no place"),
        ({}, {"design": {"radius_m": 10.0, "slope": "same_radius_on_slope"}}, "slope"),
        (
            {},
            {"design": {"kind": "concentric", "circles": [{"radius_m": 9}, {"radius_m": 3, "offset_m": 5}]}},
            "apart from the centre",
        ),
    ],
)
def test_hidden_share_that_cannot_be_known_says_why(change, settings, why):
    told = plot({"dbh_cm": [30, 30], **change}, **{"design": {"radius_m": 10.0}, **settings})
    for name in ("hidden_share", "missed_stems_per_ha", "missed_stems_per_ha_low", "missed_basal_area_m2_per_ha"):
        assert told[name] is None
        assert why in told["reasons"][name]
