"""Settings are read once, checked, and say what was said."""

from dataclasses import fields

import pytest

from stemmap.errors import InputError
from stemmap.survey.settings import (
    CircleSettings,
    Settings,
    StratumSettings,
    assumed,
    parse_settings,
    said_values,
    sampling_design,
)

VALUES = {
    "survey": {"name": "Upper wood", "crs": "EPSG:25832"},
    "measurement": {
        "azimuth_unit": "gon",
        "north": "magnetic",
        "declination_deg": -3.5,
        "distance": "slope",
        "distance_to": "face",
        "method": "at_stem",
        "breast_height_m": 1.37,
        "length_unit": "foot",
    },
    "design": {
        "kind": "concentric",
        "radius_m": 12.62,
        "circles": [
            {"radius_m": 7.98, "min_dbh_cm": 12.0, "max_dbh_cm": 36.0, "offset_azimuth": 100.0, "offset_m": 5.0},
            {"radius_m": 12.62, "min_dbh_cm": 0.0},
        ],
        "basal_area_factor": 4.0,
        "max_radius_m": 25.0,
        "slope": "enlarged_radius_on_slope",
        "min_dbh_cm": 7.0,
        "membership": "first_visit",
        "outside_recorded_to_m": 2.0,
        "stand": "stands.gpkg",
        "edge": "part_plot",
    },
    "sample": {
        "layout": "systematic",
        "area_ha": 120.0,
        "strata": [{"name": "A", "area_ha": 70.0}, {"name": "B", "area_ha": 50.0}],
        "auxiliary_mean": -0.25,
        "auxiliary_points": 400.0,
    },
    "errors": {
        "azimuth_sd_deg": 0.5,
        "distance_sd_m": 0.02,
        "distance_sd_percent": 0.3,
        "vertical_angle_sd_deg": 0.25,
        "dbh_sd_percent": 1.0,
        "dbh_sd_mm": 0.0,
        "borderline_probability": 0.05,
        "borderline_m": 0.1,
        "breast_height_sd_m": 0.0,
        "taper_cm_per_m": 1.5,
    },
    "instrument": {"max_dbh_cm": 80.0, "min_distance_m": 0.0, "max_distance_m": 30.0},
    "recheck": {
        "minutes_to_plot": 20.0,
        "minutes_to_set_up": 0.0,
        "minutes_per_stem": 1.5,
        "minutes_to_search": 15.0,
        "misplaced_share": 0.0,
    },
    "tolerance": {
        "preset": "us_core_field_guide",
        "azimuth_deg": 3.0,
        "distance_m": 0.0,
        "distance_percent": 0.5,
        "dbh_mm": 4.0,
        "dbh_percent": 0.0,
    },
    "status": {"living": ["1", "x"], "dead": ["2"], "cut": ["3"], "gone": ["4"], "struck": ["5"]},
    "columns": {"dbh_cm": "stem diameter"},
}
KEYS = [(section, key) for section, content in VALUES.items() for key in content if section != "columns"]


def test_every_key_is_tried_here():
    sections = ("measurement", "design", "sample", "errors", "instrument", "recheck", "tolerance", "status")
    known = {(section, each.name) for section in sections for each in fields(getattr(Settings(), section))}
    assert known | {("survey", "name"), ("survey", "crs")} == set(KEYS)
    assert VALUES["design"]["circles"][0].keys() == {each.name for each in fields(CircleSettings)}


@pytest.mark.parametrize(("section", "key"), KEYS)
def test_key_is_taken_and_said(section, key):
    value = VALUES[section][key]
    made = parse_settings({section: {key: value}})
    taken = getattr(made if section == "survey" else getattr(made, section), key)
    if key == "circles":
        assert taken == tuple(CircleSettings(**circle) for circle in value)
    elif key == "strata":
        assert taken == tuple(StratumSettings(**stratum) for stratum in value)
    else:
        assert taken == (tuple(value) if isinstance(value, list) else value)
    assert made.said == {f"{section}.{key}"}
    assert made == Settings().having(f"{section}.{key}", value)


def test_nothing_said_means_the_defaults():
    made = parse_settings({})
    assert made == Settings()
    assert made.measurement.azimuth_unit == "degree"
    assert made.measurement.north == "grid"
    assert made.measurement.breast_height_m == 1.3
    assert made.design.kind == "fixed"
    assert made.design.radius_m is None
    assert made.design.min_dbh_cm is None
    assert (made.errors.azimuth_sd_deg, made.errors.distance_sd_m, made.errors.dbh_sd_mm) == (1.0, 0.05, 3.0)
    assert (made.errors.borderline_probability, made.errors.borderline_m) == (0.025, 0.0)


# What cannot be


@pytest.mark.parametrize(
    ("table", "words"),
    [
        ({"measurment": {}}, ["measurment", "measurement"]),
        ({"measurement": {"azimut_unit": "gon"}}, ["azimut_unit", "azimuth_unit"]),
        ({"design": {"xyz": 1}}, ["'xyz'", "radius_m"]),
        ({"measurement": "gon"}, ["measurement", "section"]),
        ({"measurement": {"azimuth_unit": "grads"}}, ["azimuth_unit", "'grads'", "'gon'", "'mil_6400'"]),
        ({"measurement": {"north": True}}, ["north", "'magnetic'"]),
        ({"design": {"radius_m": "7,98"}}, ["radius_m", "'7,98'", "number"]),
        ({"design": {"radius_m": 0}}, ["radius_m", "above zero"]),
        ({"design": {"radius_m": -7.98}}, ["radius_m", "-7.98"]),
        ({"design": {"radius_m": True}}, ["radius_m", "number"]),
        ({"design": {"radius_m": float("nan")}}, ["radius_m", "number"]),
        ({"design": {"radius_m": float("inf")}}, ["radius_m", "number"]),
        ({"design": {"circles": 7.98}}, ["circles", "list"]),
        ({"sample": {"strata": [{"area_ha": 3.0}]}}, ["strata", "name"]),
        ({"sample": {"strata": [{"name": "A", "area_ha": 3.0}, {"name": "B", "points": 9}]}}, ["area_ha", "points"]),
        ({"sample": {"strata": [{"name": "A", "area_ha": 3.0}, {"name": "A", "area_ha": 9}]}}, ["own name"]),
        ({"design": {"circles": [7.98]}}, ["circles", "radius_m"]),
        ({"design": {"circles": [{"min_dbh_cm": 12}]}}, ["circles", "radius_m"]),
        ({"design": {"circles": [{"radius_m": 8, "mindbh": 12}]}}, ["'mindbh'", "min_dbh_cm"]),
        ({"design": {"circles": [{"radius_m": 8, "min_dbh_cm": 36, "max_dbh_cm": 12}]}}, ["max_dbh_cm", "min_dbh_cm"]),
        ({"errors": {"distance_sd_m": -0.1}}, ["distance_sd_m", "below zero"]),
        ({"errors": {"borderline_probability": 0.5}}, ["borderline_probability", "0.5"]),
        ({"survey": {"crs": 25832}}, ["crs", "25832", "text"]),
        ({"status": {"living": "alive"}}, ["living", "list"]),
        ({"status": {"living": ["1"], "dead": [" 1"]}}, ["status", "living", "dead"]),
    ],
)
def test_wrong_settings_are_refused_by_name(table, words):
    with pytest.raises(InputError) as refused:
        parse_settings(table)
    assert [word for word in words if word not in str(refused.value)] == []
    assert str(refused.value).endswith(".")


@pytest.mark.parametrize(
    "dotted", ["", "radius_m", "nowhere.radius_m", "columns.dbh_cm", "design.circle", "design.x.y"]
)
def test_there_is_no_such_setting(dotted):
    with pytest.raises(InputError):
        Settings().having(dotted, 1.0)


def test_having_keeps_what_was_said_before():
    made = parse_settings({"design": {"kind": "angle_count"}}).having("design.basal_area_factor", 4)
    assert made.design.kind == "angle_count"
    assert made.design.basal_area_factor == 4.0
    assert made.said == {"design.kind", "design.basal_area_factor"}


def test_having_takes_a_value_away_again():
    made = Settings().having("design.radius_m", 12.62).having("design.radius_m", None)
    assert made.design.radius_m is None
    assert said_values(made) == {}


# What is assumed and what is said


def test_assumed_are_the_deciding_settings_that_were_not_said():
    assert assumed(Settings())["measurement.azimuth_unit"] == "degree"
    assert "measurement.azimuth_unit" not in assumed(Settings().having("measurement.azimuth_unit", "degree"))
    everything = parse_settings(VALUES)
    assert assumed(everything) == {}


def test_said_values_are_the_tables_that_were_read():
    assert parse_settings(said_values(parse_settings(VALUES))) == parse_settings(VALUES)
    assert said_values(parse_settings(VALUES))["design"]["radius_m"] == 12.62
    assert said_values(Settings()) == {}


# Units


def test_units_of_fields_follow_the_settings():
    feet = Settings().having("measurement.length_unit", "foot").measurement
    units = {name: feet.unit_of(name) for name in ("distance_m", "dbh_cm", "dbh_mm", "easting")}
    assert units == {"distance_m": "ft", "dbh_cm": "in", "dbh_mm": "mm", "easting": ""}
    assert Settings().having("measurement.azimuth_unit", "gon").measurement.unit_of("azimuth") == "gon"


# Words of status


def test_code_said_for_one_status_is_no_default_of_another():
    words = parse_settings({"status": {"living": ["2", "D"]}}).status
    assert words.living == ("2", "D")
    assert "2" not in words.dead
    assert "d" not in words.dead
    assert "dead" in words.dead


def test_codes_may_be_numbers():
    assert parse_settings({"status": {"cut": [7]}}).status.cut == ("7",)


# The design


def test_design_is_in_metres_and_centimetres():
    design = sampling_design(parse_settings(VALUES))
    inner, outer = design.circles
    assert inner.radius_m == pytest.approx(7.98 * 0.3048)
    assert inner.min_dbh_cm == pytest.approx(12 * 2.54)
    assert inner.max_dbh_cm == pytest.approx(36 * 2.54)
    assert inner.offset_azimuth_deg == pytest.approx(90.0)
    assert inner.offset_m == pytest.approx(5 * 0.3048)
    assert outer.radius_m == pytest.approx(12.62 * 0.3048)


def test_basal_area_factor_of_a_foot_survey_is_in_square_feet_per_acre():
    # 1 ft²/ac = 0.229568 m²/ha (computed: 0.09290304 m² in 4046.8564224 m²).
    settings = {"measurement": {"length_unit": "foot"}, "design": {"kind": "angle_count", "basal_area_factor": 10}}
    assert sampling_design(parse_settings(settings)).basal_area_factor == pytest.approx(2.29568, abs=5e-6)


@pytest.mark.parametrize(
    "design", [{"kind": "concentric"}, {"kind": "angle_count"}, {"kind": "angle_count", "max_radius_m": 20}]
)
def test_design_without_its_figures_is_none(design):
    assert sampling_design(parse_settings({"design": design})) is None


def test_fixed_design_may_leave_the_radius_to_the_plots():
    assert sampling_design(Settings()).radius_m is None


def test_smallest_dbh_of_zero_takes_every_stem():
    assert not sampling_design(parse_settings({"design": {"min_dbh_cm": 0}})).needs_dbh
