"""The survey file: what was typed comes back as it was, decisions are laid over it and lost by nothing."""

import os
import sqlite3
import subprocess
import sys

import numpy as np
import pytest
from click.testing import CliRunner

from stemmap.cli.main import cli
from stemmap.errors import InputError, OutputError
from stemmap.store.decisions import FindingUnknown, Request, decide, entries, turn
from stemmap.store.survey_file import is_survey_file, opened
from stemmap.survey.settings import Settings
from stemmap.tasks.stored import load_path
from stemmap.tasks.survey_file import add_uploads, refresh_layers
from stemmap.tasks.workup import open_uploads

STEMS = """plot;visit;stem;azimuth;distance_m;dbh_cm;species;note of the crew
A1;2026;1;12;3,40;21,5;beech;fork?
A1;2026;2;58;7,10;35,2;oak;
A1;2026;3;121;5,55;18,0;beech;"leans; badly"
A1;2026;4;128;620;27,3;oak;
A1;2026;5;137;4,10;12x;beech;
A1;2026;6;201;8,80;40,1;;
A1;2026;7;260;6,00;22,2;beech;
A1;2026;8;300;2,90;19,9;beech;
A1;2026;9;341;7,70;33,3;oak;
"""
PLOTS = "plot;lon;lat\nA1;10,5;50,1\nB2;10,6;50,2\n"
SETTINGS = "[design]\nradius_m = 12.62\n"


@pytest.fixture
def upload(tmp_path):
    files = []
    for name, text in (("stems.csv", STEMS), ("plots.csv", PLOTS), ("settings.toml", SETTINGS)):
        (tmp_path / name).write_text(text, "utf-8")
        files.append(tmp_path / name)
    return files


@pytest.fixture
def survey_path(tmp_path, upload):
    path = tmp_path / "survey.gpkg"
    add_uploads(path, upload, who="Ida")
    return path


def findings_of(path, **how):
    return [finding.as_json() for finding in open_uploads([path], **how).findings]


def typing_finding(path):
    return next(each for each in findings_of(path) if each["family"] == "typing" and each["proposals"])


def test_a_survey_file_says_what_the_uploads_say(survey_path, upload):
    assert findings_of(survey_path) == [finding.as_json() for finding in open_uploads(upload).findings]
    held, typed = load_path(survey_path), open_uploads(upload).survey
    assert held.settings == typed.settings
    for mine, theirs in ((held.upload.stems, typed.upload.stems), (held.upload.plots, typed.upload.plots)):
        assert set(mine.columns) == set(theirs.columns)
        assert set(mine.other) == set(theirs.other)
        np.testing.assert_array_equal(mine.line, theirs.line)
        for name in theirs.columns:
            np.testing.assert_array_equal(mine.texts(name), theirs.texts(name))
            np.testing.assert_array_equal(mine.numbers(name), theirs.numbers(name))
            np.testing.assert_array_equal(mine.dates(name), theirs.dates(name))
        for name, column in theirs.other.items():
            np.testing.assert_array_equal(mine.other[name].texts, column.texts)


def test_the_same_upload_again_changes_nothing(survey_path, upload):
    before = survey_path.read_bytes()
    assert add_uploads(survey_path, upload, who="Ida").upload is None
    assert survey_path.read_bytes() == before


def test_a_changed_upload_must_be_told_what_to_do(survey_path, upload, tmp_path):
    changed = STEMS.replace("58;7,10", "58;7,20").replace(
        "A1;2026;9;341;7,70;33,3;oak;\n", "C3;2026;1;10;2,00;9,9;oak;\n"
    )
    upload[0].write_text(changed, "utf-8")
    with pytest.raises(InputError, match=r"1 stem that is gone, 1 changed stem \(plots A1\).*--replace.*--keep"):
        add_uploads(survey_path, upload, who="Ida")
    kept = add_uploads(survey_path, upload, who="Ida", replace_known=False)
    assert kept.upload == 2
    held = load_path(survey_path)
    assert "C3" in held.visits.plot
    assert 7.1 in held.stems.numbers("distance_m")
    add_uploads(survey_path, upload, who="Ida", replace_known=True)
    held = load_path(survey_path)
    assert 7.2 in held.stems.numbers("distance_m")
    assert 7.1 not in held.stems.numbers("distance_m")
    assert "9" not in held.stems.texts("stem")
    with sqlite3.connect(survey_path) as connection:
        # What was typed first is still there, as it was typed.
        assert connection.execute("SELECT count(*) FROM records_stems WHERE distance_m = '7,10'").fetchone() == (1,)


def test_a_correction_is_laid_over_what_was_typed(survey_path):
    finding = typing_finding(survey_path)
    with opened(survey_path, write=True) as survey_file:
        entry = decide(survey_file, Request(finding["id"], "correct", "as  said,\tsurely", "Ida"))
    assert (entry.entry, entry.who, entry.why) == (1, "Ida", "as  said,\tsurely")
    held = load_path(survey_path)
    row = list(held.stems.texts("stem")).index(finding["stem"])
    assert held.stems.numbers(finding["field"])[row] == finding["proposals"][0]["value"]
    typed = held.upload.stems
    assert typed.texts(finding["field"])[list(typed.texts("stem")).index(finding["stem"])] == entry.old
    assert finding["id"] not in {each["id"] for each in findings_of(survey_path)}
    assert finding["id"] in {each["id"] for each in findings_of(survey_path, as_of="0")}


def test_a_kept_finding_stays_away_until_its_record_changes(survey_path, upload):
    finding = typing_finding(survey_path)
    with opened(survey_path, write=True) as survey_file:
        decide(survey_file, Request(finding["id"], "keep", "", "Ida"))
    others = [each["id"] for each in findings_of(survey_path)]
    assert others == [each["id"] for each in findings_of(survey_path, as_of="0") if each["id"] != finding["id"]]
    line = next(line for line in STEMS.splitlines() if line.startswith(f"A1;2026;{finding['stem']};"))
    upload[0].write_text(STEMS.replace(line, line + "seen again"), "utf-8")
    add_uploads(survey_path, upload, who="Ida", replace_known=True)
    assert finding["id"] in {each["id"] for each in findings_of(survey_path)}


def test_the_last_decision_on_a_finding_holds_and_undoing_it_brings_back_the_one_before(survey_path):
    finding = typing_finding(survey_path)
    field, stem = finding["field"], finding["stem"]

    def value():
        held = load_path(survey_path)
        return held.stems.numbers(field)[list(held.stems.texts("stem")).index(stem)]

    typed = value()
    with opened(survey_path, write=True) as survey_file:
        for decision in ("value=77,5", "correct", "keep"):
            decide(survey_file, Request(finding["id"], decision, "", "Ida"))
        assert value() == typed
        turn(survey_file, "undo", who="Bo")
        assert value() == finding["proposals"][0]["value"]
        turn(survey_file, "undo", who="Bo")
        assert value() == 77.5
        turn(survey_file, "redo", who="Bo")
        assert value() == finding["proposals"][0]["value"]
        turn(survey_file, "undo", 1, who="Bo")
        turn(survey_file, "undo", who="Bo")
        assert value() == typed
        with pytest.raises(InputError, match="nothing to undo"):
            turn(survey_file, "undo", who="Bo")
        assert [entry.entry for entry in entries(survey_file)] == list(range(1, 9))


@pytest.mark.parametrize(
    ("decision", "sentence"),
    [
        ("correct=9", "no proposal 9"),
        ("correct=x", "no proposal x"),
        ("value=abc", "is no number"),
        ("value=nan", "is no number"),
        ("value=1e308", "is no number"),
        ("value=-5", "cannot be below zero"),
        ("perhaps", "is no decision"),
    ],
)
def test_what_is_no_decision_is_refused_and_not_stored(survey_path, decision, sentence):
    with opened(survey_path, write=True) as survey_file:
        with pytest.raises(InputError, match=sentence):
            decide(survey_file, Request(typing_finding(survey_path)["id"], decision, "", "Ida"))
        with pytest.raises(FindingUnknown):
            decide(survey_file, Request("A1/2026/7/no-such-check/-", "keep", "", "Ida"))
        assert not entries(survey_file)


def test_layers_follow_the_decisions(survey_path):
    finding = typing_finding(survey_path)

    def stem():
        with sqlite3.connect(survey_path) as connection:
            value, place = connection.execute(
                f"SELECT {finding['field']}, geom FROM stems WHERE stem = ?", (finding["stem"],)
            ).fetchone()
        return value, place

    before = stem()
    with opened(survey_path, write=True) as survey_file:
        decide(survey_file, Request(finding["id"], "correct", "", "Ida"))
    refresh_layers(survey_path)
    after = stem()
    assert after[0] == finding["proposals"][0]["value"]
    assert after[1] != before[1]
    # The settled finding stays known, so that it can be decided otherwise.
    with opened(survey_path, write=True) as survey_file:
        decide(survey_file, Request(finding["id"], "keep", "", "Ida"))


def test_a_file_that_cannot_be_written_is_read(survey_path):
    survey_path.chmod(0o444)
    with opened(survey_path) as survey_file, pytest.raises(OutputError, match="cannot be written here"):
        decide(survey_file, Request("x", "keep", "", "Ida"))


def test_what_is_no_survey_file_is_told_apart(survey_path, tmp_path):
    other = tmp_path / "other.gpkg"
    other.write_bytes(b"SQLite format 3\0" + bytes(200))
    assert is_survey_file(survey_path)
    assert not is_survey_file(other)
    with pytest.raises(InputError, match="damaged"), opened(other):
        pass


def test_a_later_version_is_refused_by_a_sentence(survey_path):
    with sqlite3.connect(survey_path) as connection:
        connection.execute("UPDATE survey_file SET schema_version = 99")
    with pytest.raises(InputError, match="made by a later stemmap"), opened(survey_path):
        pass


def test_settings_without_a_file_are_the_defaults(tmp_path, upload):
    path = tmp_path / "plain.gpkg"
    add_uploads(path, upload[:2], who="Ida", settings=Settings())
    assert load_path(path).settings == Settings()


def test_decisions_are_read_line_by_line_and_bad_lines_are_answered(survey_path):
    finding = typing_finding(survey_path)
    lines = f"{finding['id']} keep as  typed \nno-such keep\n\n{finding['id']} correct\nundo\n"
    result = CliRunner().invoke(cli, ["decide", str(survey_path), "-", "--who", "Ida"], input=lines)
    answers = result.stdout.splitlines()
    assert answers[0] == f"ok 1 {finding['id']}"
    assert answers[1].startswith("error ")
    assert answers[2:] == [f"ok 2 {finding['id']}", f"ok 3 {finding['id']}"]
    assert result.exit_code == 2
    shown = CliRunner().invoke(cli, ["journal", str(survey_path), "--format", "json"]).stdout
    assert '"why": "as  typed "' in shown


def test_an_answer_is_one_line_whatever_it_quotes(survey_path):
    lines = f"{typing_finding(survey_path)['id']} correct=1\u20292\r3\x854\n"
    result = CliRunner().invoke(cli, ["decide", str(survey_path), "-", "--who", "Ida"], input=lines)
    (answer,) = result.stdout.splitlines()
    assert answer.startswith("error The finding has no proposal 1 2 3 4")


def test_bytes_that_are_no_text_are_refused(survey_path):
    finding = typing_finding(survey_path)["id"]
    with opened(survey_path, write=True) as survey_file:
        for request in (Request(finding, "keep", "a \udcff", "Ida"), Request("\udcff", "keep", "", "Ida")):
            with pytest.raises(InputError, match="is no decision"):
                decide(survey_file, request)
        with pytest.raises(InputError, match="200000 characters"):
            decide(survey_file, Request(finding, "keep", "why " * 50_000, "Ida"))
        assert not entries(survey_file)


def test_a_line_that_is_no_text_is_answered_and_the_rest_goes_on(survey_path):
    finding = typing_finding(survey_path)["id"]
    run = subprocess.run(
        [sys.executable, "-m", "stemmap", "decide", survey_path, "-", "--who", "Ida"],
        check=False,
        input=f"{finding} keep F\xe4ule\n{finding} keep a\rb\n".encode("latin-1"),
        capture_output=True,
        env={**os.environ, "PYTHONIOENCODING": "utf-8:strict"},
    )
    first, second = run.stdout.decode().splitlines()
    assert first.startswith("error ")
    assert second == f"ok 1 {finding}"
    with opened(survey_path) as survey_file:
        assert [each.why for each in entries(survey_file)] == ["a\rb"]


@pytest.mark.skipif(sys.platform != "linux", reason="other systems take no such names")
def test_a_file_whose_name_is_no_text_can_be_added(tmp_path):
    upload, survey = tmp_path / "st\udcffems.csv", tmp_path / "s\udcff.gpkg"
    upload.write_text("plot;stem;azimuth;distance_m;dbh_cm\n1;1;10;4,5;20\n", "utf-8")
    add_uploads(survey, [upload], who="Ida", radius_m=8.0)
    assert load_path(survey).upload.sources == ("st\ufffdems.csv",)


def test_a_table_is_not_called_a_damaged_survey_file(tmp_path):
    (tmp_path / "stems.csv").write_text("plot,stem,azimuth,distance_m,dbh_cm\n1,1,40,3.20,22.4\n")
    with pytest.raises(InputError, match=r"stems.csv is no survey file of stemmap"), opened(tmp_path / "stems.csv"):
        pass
