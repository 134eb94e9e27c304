"""An export carries where a stem stands, what was decided, and the record's own fields."""

import numpy as np
import pytest

from stemmap.survey.fields import fields_of
from stemmap.survey.measured import measure
from stemmap.writing.stems import stem_columns
from tests.uploads import survey

PROMISED = (
    *("plot", "visit", "stem", "easting", "northing", "local_x_m", "local_y_m", "horizontal_distance_m"),
    *("grid_azimuth_deg", "limiting_distance_m", "inside", "inside_probability"),
)


def columns_of(made):
    nowhere = np.full(len(made.stems), np.nan)
    return stem_columns(made, measure(made), nowhere, nowhere)


def test_columns_that_are_promised_come_first(written):
    columns = columns_of(written)
    assert tuple(columns)[: len(PROMISED)] == PROMISED
    assert {len(column) for column in columns.values()} == {5}


def test_fields_of_the_record_follow_as_read(written):
    columns = columns_of(written)
    np.testing.assert_array_equal(columns["distance_m"], [10.0, 9.98, 5.0, np.nan, 20.0])
    assert columns["species"].tolist()[0] == "Fichte"
    assert columns["date"][0] == np.datetime64("2026-05-01")
    np.testing.assert_array_equal(columns["dbh_cm"], [31.25, np.nan, 0.1, 40.0, -5.0])


def test_stem_is_named_as_findings_name_it(written):
    assert columns_of(written)["stem"].tolist() == [written.stems.label(row) for row in range(5)]


def test_column_with_a_name_of_ours_keeps_its_values_under_another(written):
    columns = columns_of(written)
    assert columns["inside"].tolist() == [True, True, True, None, False]
    assert columns["inside_2"].tolist() == ["yes", "no", "", "", ""]


def test_weight_of_a_stem_that_is_out_is_zero_and_of_one_unknown_missing(written):
    weight = 10_000 / (np.pi * 100)
    np.testing.assert_allclose(columns_of(written)["stems_per_ha"], [weight, weight, weight, np.nan, 0.0])


def test_dbh_in_centimetres_is_there_whatever_was_measured():
    assert columns_of(survey({"plot": [1], "girth_cm": ["100"]}))["dbh_cm"][0] == pytest.approx(100 / np.pi)
    assert "dbh_cm" in columns_of(survey({"plot": [1]}))


def test_all_fields_of_a_stem_are_exported():
    stems = {field.name: ["1"] for field in fields_of("stems")}
    assert set(stems) <= set(columns_of(survey(stems)))


def test_no_stems_make_empty_columns():
    assert {len(column) for column in columns_of(survey()).values()} == {0}


def test_feet_and_inches_are_called_so_and_dbh_is_given_in_centimetres():
    made = survey(
        {"plot": ["A"], "stem": ["1"], "azimuth": ["10"], "distance_m": ["20"], "dbh_cm": ["12"]},
        settings={"measurement": {"length_unit": "foot"}, "design": {"radius_m": 24}},
    )
    columns = columns_of(made)
    assert columns["distance_ft"].tolist() == [20.0]
    assert columns["dbh_in"].tolist() == [12.0]
    assert columns["dbh_cm"] == pytest.approx([30.48])
    assert columns["horizontal_distance_m"] == pytest.approx([6.096])
