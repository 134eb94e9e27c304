"""What the plots say of the survey: design from the settings, species and classes, part plots, budget, change."""

from dataclasses import replace

import numpy as np
import pytest
import shapely

from stemmap.core import estimates
from stemmap.survey.change import change_json
from stemmap.survey.error_budget import error_budget_json
from stemmap.survey.estimates import estimates_json
from stemmap.survey.measured import measure
from stemmap.survey.summary import summarise
from stemmap.survey.survey import StandGround
from tests.uploads import survey

R = 12.62
FACTOR = 10_000.0 / (np.pi * R**2)
COUNTS = [3, 5, 2, 8, 9, 7]


def plots(**columns):
    return {"plot": list(range(6)), "stratum": ["A"] * 3 + ["B"] * 3, **columns}


def stems(**columns):
    plot = np.repeat(np.arange(6), COUNTS).tolist()
    count = len(plot)
    return {
        "plot": plot,
        "azimuth": np.linspace(0.0, 350.0, count).round(1).tolist(),
        "distance_m": [5.0] * count,
        "dbh_cm": np.linspace(10.0, 50.0, count).round(1).tolist(),
        "species": ["oak" if place % 5 == 0 else "beech" for place in range(count)],
        **columns,
    }


def summary(sample=None, *, plot_columns=None, design=None, **columns):
    settings = {"design": {"radius_m": R, **(design or {})}, **({"sample": sample} if sample else {})}
    made = survey(stems(**columns), plots(**(plot_columns or {})), settings=settings)
    return summarise(made, measure(made))


VALUES = FACTOR * np.array(COUNTS)


def test_without_a_word_the_sample_is_simple_and_random():
    told = estimates_json(summary())[0]

    simple = estimates.estimate(VALUES)
    assert told["method"] == "simple random sampling"
    assert told["stems_per_ha"]["mean"] == pytest.approx(simple.mean[0])
    assert told["stems_per_ha"]["low"] == pytest.approx(simple.low[0])
    assert told["cautions"] == []


def test_areas_of_strata_weigh_them():
    strata = [{"name": "A", "area_ha": 30.0}, {"name": "B", "area_ha": 10.0}]
    told = estimates_json(summary({"strata": strata}))[0]

    made = estimates.stratified(VALUES, [0, 0, 0, 1, 1, 1], [30.0, 10.0])
    assert told["method"] == "stratified sampling"
    assert told["stems_per_ha"]["standard_error"] == pytest.approx(made.standard_error[0])
    assert told["area_ha"] == 40.0
    assert told["totals"]["stems"]["total"] == pytest.approx(40.0 * made.mean[0])


def test_strata_of_a_grid_are_told_after_sampling_and_the_caution_is_said():
    strata = [{"name": "A", "area_ha": 30.0}, {"name": "B", "area_ha": 10.0}]
    told = estimates_json(summary({"layout": "systematic", "strata": strata}))[0]

    made = estimates.stratified(VALUES, [0, 0, 0, 1, 1, 1], [30.0, 10.0], after=True)
    assert told["method"] == "stratified after sampling"
    assert told["stems_per_ha"]["standard_error"] == pytest.approx(made.standard_error[0])
    assert "grid" in told["cautions"][0]


def test_points_of_a_first_sample_are_double_sampling():
    strata = [{"name": "A", "points": 60}, {"name": "B", "points": 40}]
    told = estimates_json(summary({"strata": strata}))[0]

    made = estimates.double_stratified(VALUES, [0, 0, 0, 1, 1, 1], [60, 40])
    assert told["method"] == "double sampling for stratification"
    assert told["stems_per_ha"]["standard_error"] == pytest.approx(made.standard_error[0])
    assert "totals" not in told


PHOTOGRAPHS = {"auxiliary_mean": 160.0, "auxiliary_points": 400}


def test_auxiliary_value_of_a_first_sample_is_double_sampling_with_regression():
    told = estimates_json(summary(PHOTOGRAPHS, plot_columns={"auxiliary": [60, 110, 50, 170, 160, 150]}))[0]

    made = estimates.double_regression(VALUES, [60, 110, 50, 170, 160, 150], first_mean=160.0, points=400)
    assert told["method"] == "double sampling with regression on the auxiliary value"
    assert told["stems_per_ha"]["mean"] == pytest.approx(made.mean[0])
    assert told["stems_per_ha"]["standard_error"] == pytest.approx(made.standard_error[0])
    assert told["stems_per_ha"]["design_effect"] < 0.5
    assert sum(part["stems_per_ha"]["mean"] for part in told["species"]) == pytest.approx(made.mean[0])


@pytest.mark.parametrize(
    ("sample", "columns", "why"),
    [
        ({}, {}, "three plots or more"),
        ({}, {"auxiliary": [5.0] * 6}, "three plots or more"),
        ({"auxiliary_points": None}, {"auxiliary": [60, 110, 50, 170, 160, 150]}, "only one of them was said"),
        ({"auxiliary_points": 4}, {"auxiliary": [60, 110, 50, 170, 160, 150]}, "a first sample of 4 points"),
        ({}, {"auxiliary": [6, 11, 5, 17, 16, 15], "cluster": list("xxyyzz")}, "in clusters already"),
    ],
)
def test_auxiliary_value_that_cannot_help_is_not_used_and_said(sample, columns, why):
    told = estimates_json(summary({**PHOTOGRAPHS, **sample}, plot_columns=columns))[0]

    assert why in told["cautions"][0]
    assert told["stems_per_ha"]["mean"] == pytest.approx(VALUES.mean())


def test_stratum_that_the_settings_do_not_name_is_told():
    told = estimates_json(summary({"strata": [{"name": "A", "area_ha": 30.0}]}))[0]

    assert "B is not among [sample] strata" in told["cautions"][0]
    assert told["stems_per_ha"]["mean"] == pytest.approx(VALUES.mean())


def test_clusters_of_plots_are_the_units():
    told = estimates_json(summary(plot_columns={"cluster": ["x", "x", "y", "y", "z", "z"]}))[0]

    made = estimates.clustered(VALUES, [0, 0, 1, 1, 2, 2])
    assert told["method"] == "clusters, random, ratio of means"
    assert told["stems_per_ha"]["standard_error"] == pytest.approx(made.standard_error[0])
    assert told["stems_per_ha"]["design_effect"] == pytest.approx(made.design_effect[0])


def test_species_and_classes_sum_to_the_whole_and_rare_ones_are_told():
    told = estimates_json(summary())[0]

    for parts in (told["species"], told["dbh_classes"]):
        assert sum(part["stems_per_ha"]["mean"] for part in parts) == pytest.approx(told["stems_per_ha"]["mean"])
    assert all("less often" in part["note"] for part in told["species"])


def test_density_of_the_survey_is_that_of_its_means():
    told = estimates_json(summary())[0]
    stems_per_ha, basal = told["stems_per_ha"]["mean"], told["basal_area_m2_per_ha"]["mean"]
    qmd = 200.0 * np.sqrt(basal / np.pi / stems_per_ha)

    assert told["density"]["qmd_cm"] == pytest.approx(qmd)
    assert told["density"]["reineke_per_ha"] == pytest.approx(stems_per_ha * (qmd / 25.4) ** 1.605)
    assert told["density"]["relative_density"] == pytest.approx(basal / np.sqrt(qmd))
    assert told["density"]["reineke_summed_per_ha"]["mean"] < told["density"]["reineke_per_ha"]


def test_plot_that_is_unknown_is_left_out_of_every_quantity():
    distance = [5.0] * sum(COUNTS)
    distance[0] = None
    told = estimates_json(summary(distance_m=distance))[0]

    assert (told["stems_per_ha"]["plots"], told["stems_per_ha"]["left_out"]) == (5, 1)
    assert told["stems_per_ha"]["mean"] == pytest.approx(VALUES[1:].mean())


def test_part_plots_are_estimated_by_the_ratio_of_means():
    crs = "EPSG:32633"
    columns = {"easting": [400100.0 + 60 * place for place in range(6)], "northing": [5400050.0] * 6}
    settings = {"survey": {"crs": crs}, "design": {"radius_m": R, "stand": "s.gpkg", "edge": "part_plot"}}
    made = survey(stems(azimuth=[90.0] * sum(COUNTS)), plots(**columns), settings=settings)
    # The edge runs through the centre of the first plot; its stems stand on the inner side.
    ground = StandGround("s.gpkg", crs, shapely.box(400100.0, 5399000.0, 401000.0, 5401000.0))
    made = replace(made, ground=ground)
    told = estimates_json(summarise(made, measure(made)))[0]

    assert told["stems_per_ha"]["mean"] == pytest.approx(FACTOR * sum(COUNTS) / 5.5, rel=1e-6)
    assert "ratio of means" in told["edge_correction"]


# Error budget


def test_budget_names_what_each_remedy_buys():
    told = error_budget_json(summary())[0]
    line = told["stems_per_ha"]

    assert line["sampling_error"] == pytest.approx(estimates.estimate(VALUES).standard_error[0])
    assert line["a_further_plot"] == pytest.approx(line["sampling_error"] * (np.sqrt(6 / 7) - 1))
    assert line["not_visible"] == pytest.approx(-line["a_second_stand_point"])
    assert set(told["notes"]) <= set(line)


def test_a_further_plot_leaves_the_error_of_a_first_sample():
    photographs = {"auxiliary": [60, 110, 50, 170, 160, 150]}
    told = error_budget_json(summary({"auxiliary_mean": 110.0, "auxiliary_points": 12}, plot_columns=photographs))[0]
    line = told["stems_per_ha"]

    made = estimates.double_regression(VALUES, photographs["auxiliary"], first_mean=110.0, points=12)
    after = np.sqrt((made.standard_error[0] ** 2 - made.lasting[0]) * 6 / 7 + made.lasting[0])
    assert line["a_further_plot"] == pytest.approx(after - made.standard_error[0])
    # Six plots and twelve points: half the error is out of reach without a larger first sample.
    assert line["plots_for_half_the_error"] is None


def test_half_the_error_takes_four_times_the_plots():
    assert error_budget_json(summary())[0]["stems_per_ha"]["plots_for_half_the_error"] == 24


def test_better_instruments_mend_no_more_than_the_doubt_in_the_error():
    line = error_budget_json(summary(distance_m=[12.6] * sum(COUNTS)))[0]["stems_per_ha"]

    left = np.sqrt(line["sampling_error"] ** 2 - line["inclusion_doubt"] ** 2)
    assert left < line["sampling_error"] + line["a_better_distance"] < line["sampling_error"]


def test_distances_decide_about_the_edge_and_azimuths_do_not():
    line = error_budget_json(summary(distance_m=[12.6] * sum(COUNTS)))[0]["stems_per_ha"]

    assert line["inclusion_doubt"] > 0.0
    assert line["a_better_compass"] == 0.0
    assert line["a_better_distance"] < 0.0


def test_doubt_of_one_stem_in_two_is_its_binomial_error():
    distance = [5.0] * sum(COUNTS)
    distance[0] = R
    line = error_budget_json(summary(distance_m=distance))[0]["stems_per_ha"]

    assert line["inclusion_doubt"] == pytest.approx(FACTOR / 6 * 0.5, rel=0.02)


# Change


def twice(second, *, design=None, first=None):
    """One plot on two visits, stems as (number, distance, dbh, status)."""
    first = first or [("1", 5.0, 30.0, ""), ("2", 5.0, 40.0, ""), ("3", 6.0, 20.0, "")]
    rows = [("2020", *row) for row in first] + [("2025", *row) for row in second]
    visit, number, distance, dbh, status = map(list, zip(*rows, strict=True))
    azimuth = [30.0 * int(each) for each in number]
    columns = {"plot": ["1"] * len(rows), "visit": visit, "stem": number, "azimuth": azimuth, "distance_m": distance}
    made = survey(
        {**columns, "dbh_cm": dbh, "status": status},
        {"plot": ["1"]},
        settings={"design": {"radius_m": R, **(design or {})}},
    )
    return change_json(summarise(made, measure(made)))


def test_change_is_taken_apart():
    told = twice([("1", 5.0, 33.0, ""), ("2", 5.0, 40.0, "dead"), ("4", 7.0, 8.0, "")])
    (made,) = told
    area = {d: FACTOR * np.pi * (d / 200.0) ** 2 for d in (30.0, 33.0, 40.0, 20.0, 8.0)}
    means = {name: part["mean"] for name, part in made["basal_area_m2_per_ha"].items()}

    assert (made["from_visit"], made["to_visit"], made["plots"]) == ("2020", "2025", 1)
    assert means["growth"] == pytest.approx(area[33.0] - area[30.0])
    assert means["ingrowth"] == pytest.approx(area[8.0])
    assert means["mortality"] == pytest.approx(area[40.0])
    assert means["not_found"] == pytest.approx(area[20.0])
    assert means["net"] == pytest.approx(area[33.0] + area[8.0] - area[30.0] - area[40.0] - area[20.0])
    assert made["stems_per_ha"]["net"]["mean"] == pytest.approx(-FACTOR)


def test_cut_stems_are_removals():
    (made,) = twice([("1", 5.0, 30.0, ""), ("2", 5.0, 40.0, "cut"), ("3", 6.0, 20.0, "")])

    assert made["stems_per_ha"]["removals"]["mean"] == pytest.approx(FACTOR)


def test_new_stem_beyond_the_inner_circle_is_ongrowth():
    circles = [{"radius_m": 7.98, "min_dbh_cm": 12.0}, {"radius_m": R, "min_dbh_cm": 36.0}]
    first = [("1", 5.0, 30.0, ""), ("2", 5.0, 13.0, ""), ("3", 10.0, 35.0, "")]
    second = [("1", 5.0, 30.0, ""), ("2", 5.0, 14.0, ""), ("3", 10.0, 37.0, ""), ("4", 6.0, 12.5, "")]
    (made,) = twice(second, first=first, design={"kind": "concentric", "circles": circles})
    means = {name: part["mean"] for name, part in made["stems_per_ha"].items()}

    assert means["ongrowth"] == pytest.approx(FACTOR)
    assert means["ingrowth"] == pytest.approx(10_000.0 / (np.pi * 7.98**2))


def test_change_is_that_of_the_means_where_every_plot_was_measured_twice():
    made = survey(
        {
            "plot": ["1", "2", "1", "2", "2"],
            "visit": ["2020", "2020", "2025", "2025", "2025"],
            "stem": ["1", "1", "1", "1", "2"],
            "azimuth": [10.0, 20.0, 10.0, 20.0, 90.0],
            "distance_m": [5.0] * 5,
            "dbh_cm": [20.0, 30.0, 22.0, 33.0, 10.0],
        },
        {"plot": ["1", "2"]},
        settings={"design": {"radius_m": R}},
    )
    made = summarise(made, measure(made))
    before, after = (told["basal_area_m2_per_ha"]["mean"] for told in estimates_json(made))

    (told,) = change_json(made)
    assert told["basal_area_m2_per_ha"]["net"]["mean"] == pytest.approx(after - before)


def test_one_visit_has_no_change():
    assert change_json(summary()) == []
