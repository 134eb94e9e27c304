"""Records that another program changes in the survey file are told, never taken silently."""

import sqlite3
from contextlib import closing, suppress

import pyogrio
import pytest

from stemmap.errors import InputError
from stemmap.store.decisions import Request, decide
from stemmap.store.repair import repair
from stemmap.store.survey_file import opened
from stemmap.tasks.survey_file import add_uploads, refresh_layers
from stemmap.tasks.workup import open_uploads
from tests.store.crash import make_survey


@pytest.fixture
def survey(tmp_path):
    return make_survey(tmp_path)[0]


def edit(path, *statements):
    with closing(sqlite3.connect(path)) as connection, connection:
        for each in statements:
            connection.execute(each)


def told(path):
    return [each.message for each in open_uploads([path]).findings if each.check == "records-edited"]


def test_records_as_uploaded_are_not_told(survey):
    assert told(survey) == []


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE records_stems SET dbh_cm = '99' WHERE line = 7",
        "UPDATE records_stems SET dbh_cm = NULL WHERE line = 7",
        "UPDATE records_stems SET species = 'oak' WHERE line = 7",
        "UPDATE records_stems SET plot = 77 WHERE line = 7",
        "UPDATE records_stems SET seal = 'x' WHERE line = 7",
        "UPDATE records_stems SET replaced_by = 1 WHERE line = 7",
        "UPDATE readings SET number = 40 WHERE name = 'dbh_cm' AND cell = '25'",
        "UPDATE readings SET number = 9e999 WHERE name = 'dbh_cm' AND cell = '25'",
        "UPDATE readings SET number = 1e308 WHERE name = 'dbh_cm' AND cell = '25'",
    ],
)
def test_a_changed_record_is_told_with_its_line(survey, statement):
    edit(survey, statement)
    (message,) = told(survey)
    assert "Another program changed the records of stems.csv" in message
    assert "7" in message
    assert "missing" not in message


def test_a_layer_changed_in_a_gis_is_told_until_it_is_made_anew(survey):
    def said():
        return [each.message for each in open_uploads([survey]).findings if each.check == "layer-edited"]

    assert said() == []
    stems = pyogrio.read_dataframe(survey, layer="stems")
    stems["dbh_cm"] = 50.0
    pyogrio.write_dataframe(stems, survey, layer="stems", append=False)
    (message,) = said()
    assert "changed the layer stems in" in message
    assert refresh_layers(survey).kept == ["stems_edited_1"]
    assert said() == []


def test_a_record_that_is_gone_is_told(survey):
    edit(survey, "DELETE FROM records_stems WHERE line IN (7, 8)")
    (message,) = told(survey)
    assert ": 2 missing." in message


def test_a_record_that_nobody_uploaded_is_told(survey):
    edit(
        survey,
        "INSERT INTO records_stems (source, line, upload, plot, stem, azimuth, distance_m, dbh_cm) "
        "VALUES (0, 999, 1, '0', '77', '10', '3,5', '30')",
    )
    (message,) = told(survey)
    assert "1 record in it (line 999) changed" in message


@pytest.mark.parametrize("column", ["source", "line"])
@pytest.mark.parametrize("value", ["'here'", "-1", "99999999999", "NULL", "x'00ff'"])
def test_a_record_whose_place_is_changed_is_told_or_the_change_is_refused(survey, column, value):
    try:
        edit(survey, f"UPDATE records_stems SET {column} = {value} WHERE line = 7")
    except sqlite3.IntegrityError:
        return
    assert len(told(survey)) == 1


def test_what_a_record_says_of_its_upload_is_known_from_its_file(survey):
    edit(survey, "UPDATE records_stems SET upload = 77 WHERE line = 7")
    assert told(survey) == []
    assert len(open_uploads([survey]).survey.stems) == 45


def test_a_changed_record_is_as_it_was_typed_when_its_file_is_added_again(survey):
    edit(survey, "UPDATE records_stems SET dbh_cm = '99' WHERE line = 7")
    with pytest.raises(InputError, match="--replace"):
        add_uploads(survey, [survey.parent / "stems.csv"], who="Ida")
    add_uploads(survey, [survey.parent / "stems.csv"], who="Ida", replace_known=True)
    assert told(survey) == []
    assert "99" not in open_uploads([survey]).survey.upload.stems.texts("dbh_cm").tolist()


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE journal SET why = x'00ff'",
        "UPDATE journal SET changes = '[' WHERE entry = 1",
        "UPDATE journal SET changes = '[[1]]' WHERE entry = 1",
        "UPDATE journal SET who = 7 WHERE entry = 1",
        "UPDATE survey_file SET schema_version = 'two'",
        "UPDATE survey_file SET schema_version = 0",
        "DELETE FROM survey_file",
        "DROP TABLE readings",
        "ALTER TABLE records_stems RENAME COLUMN line TO row",
        "UPDATE settings SET toml = 'x ='",
        "UPDATE settings SET toml = x'ff00'",
        "UPDATE uploads SET after_entry = 'first'",
        "UPDATE sources SET name = x'ff'",
        "UPDATE record_columns SET field = 'height_m' WHERE field = 'dbh_cm'",
    ],
)
def test_whatever_another_program_changed_ends_in_a_sentence(survey, statement):
    with opened(survey, write=True) as survey_file:
        decide(survey_file, Request("0/-/8/outside-circle/distance_m", "value=4", "", "Ida"))
    edit(survey, statement)
    with suppress(InputError):
        open_uploads([survey])


@pytest.mark.parametrize(
    "change", ["source = 'x'", "proposals = 'x'", "line = 9e999", "line = 1e308", "line = '99999999999999999999'"]
)
def test_a_finding_that_another_program_spoiled_cannot_be_decided(survey, change):
    edit(survey, f"UPDATE findings SET {change} WHERE stem = '8'")
    with opened(survey, write=True) as survey_file, pytest.raises(InputError, match="changed the finding"):
        decide(survey_file, Request("0/-/8/outside-circle/distance_m", "correct", "", "Ida"))


def test_a_survey_file_with_a_damaged_list_of_tables_is_read_from_its_pages(survey):
    before = [each.id for each in open_uploads([survey]).findings]
    survey.write_bytes(survey.read_bytes().replace(b"CREATE TABLE journal", b"CREATE T\xffBLE journal"))
    after = [each.id for each in open_uploads([survey]).findings]
    assert any("survey-file-damaged" in each for each in after)
    assert [each for each in after if not each.startswith("file")] == [
        each for each in before if not each.startswith("file")
    ]


def test_a_flipped_byte_in_a_record_is_told_of_the_repaired_file(survey, tmp_path):
    damaged = tmp_path / "damaged.gpkg"
    damaged.write_bytes(survey.read_bytes().replace(b"9011,5", b"9012,5"))
    repair(damaged, tmp_path / "repaired.gpkg")
    assert told(tmp_path / "repaired.gpkg") == told(damaged)
