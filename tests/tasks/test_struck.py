"""A record entered twice is struck by a decision: kept as typed, no stem any more, and back when that is undone."""

import sqlite3

import pytest

from stemmap.store.decisions import Request, decide, turn
from stemmap.store.survey_file import opened
from stemmap.survey.settings import parse_settings
from stemmap.tasks.survey_file import add_uploads, refresh_layers
from stemmap.tasks.workup import open_uploads

HEADINGS = "plot;visit;stem;azimuth;distance_m;dbh_cm\n"
ROWS = [f"1;2026;{number};{number * 17};{4 + number * 0.3:.2f};{20 + number}\n" for number in range(1, 19)]
SETTINGS = "[design]\nradius_m = 12.62\n"


@pytest.fixture
def upload(tmp_path):
    """A plot with stem 3 entered again as 19, and stem 7 entered again under its own number."""
    (tmp_path / "stems.csv").write_text("".join([HEADINGS, *ROWS, "1;2026;19;51;4.9;23\n", ROWS[6]]), "utf-8")
    (tmp_path / "settings.toml").write_text(SETTINGS, "utf-8")
    return [tmp_path / "stems.csv", tmp_path / "settings.toml"]


@pytest.fixture
def survey_path(tmp_path, upload):
    path = tmp_path / "survey.gpkg"
    add_uploads(path, upload, who="Ida")
    return path


def told(path, check, stem):
    return next(one for one in open_uploads([path]).findings if (one.check, one.stem) == (check, stem))


def strike(path, finding):
    with opened(path, write=True) as survey_file:
        return decide(survey_file, Request(finding.id, "correct", "", "Ida"))


def stems_of(path):
    return [*open_uploads([path]).survey.stems.texts("stem")]


def test_the_best_proposal_for_a_record_entered_twice_is_to_strike_it(survey_path):
    best = max(told(survey_path, "mistyped", "19").proposals, key=lambda each: each["probability"])
    assert (best["field"], best["value"]) == ("status", "struck")
    assert best["probability"] > 0.95


def test_a_struck_record_is_counted_nowhere_and_stays_as_typed(survey_path, tmp_path):
    before = open_uploads([survey_path])
    entry = strike(survey_path, told(survey_path, "mistyped", "19"))
    assert (entry.field, entry.old, entry.new) == ("status", None, "struck")
    after = open_uploads([survey_path])
    assert len(after.survey.stems) == len(before.survey.stems) - 1
    assert after.summary.inside[0] == before.summary.inside[0] - 1
    assert [*after.survey.struck.texts("stem")] == ["19"]
    assert "19" in after.survey.upload.stems.texts("stem")
    # The doubt about the other record of the pair is gone with it, and no new one comes.
    assert {one.id for one in after.findings} < {one.id for one in before.findings}
    assert not [one for one in after.findings if one.stem in ("3", "19")]
    assert len(open_uploads([survey_path], as_of="0").survey.stems) == len(before.survey.stems)


def test_one_entered_again_under_its_number_is_struck_too_and_the_first_keeps_its_name(survey_path):
    strike(survey_path, told(survey_path, "stem-number-twice", "7"))
    after = open_uploads([survey_path])
    row = stems_of(survey_path).index("7")
    assert stems_of(survey_path).count("7") == 1
    assert int(after.survey.stems.records.line[row]) == 8
    assert not [one for one in after.findings if one.stem == "7" and one.check == "stem-number-twice"]


def test_undone_it_is_a_stem_again(survey_path):
    before = [one.as_json() for one in open_uploads([survey_path]).findings]
    strike(survey_path, told(survey_path, "mistyped", "19"))
    with opened(survey_path, write=True) as survey_file:
        turn(survey_file, "undo", who="Ida")
    assert [one.as_json() for one in open_uploads([survey_path]).findings] == before


def test_layers_are_without_it_and_the_finding_can_be_decided_otherwise(survey_path):
    finding = told(survey_path, "mistyped", "19")
    strike(survey_path, finding)
    refresh_layers(survey_path)
    with sqlite3.connect(survey_path) as connection:
        assert connection.execute("SELECT count(*) FROM stems WHERE stem = '19'").fetchone() == (0,)
        row = connection.execute("SELECT open, decision FROM findings WHERE id = ?", (finding.id,)).fetchone()
    assert row == (0, "correct")
    with opened(survey_path, write=True) as survey_file:
        decide(survey_file, Request(finding.id, "keep", "they are two", "Ida"))
    assert "19" in stems_of(survey_path)


def test_the_same_upload_again_changes_nothing(survey_path, upload, tmp_path):
    strike(survey_path, told(survey_path, "mistyped", "19"))
    strike(survey_path, told(survey_path, "stem-number-twice", "7"))
    assert add_uploads(survey_path, upload, who="Ida").upload is None
    upload[0].write_text(upload[0].read_text("utf-8") + "2;2026;1;10;5;30\n", "utf-8")
    added = add_uploads(survey_path, upload, who="Ida")
    assert added.difference.changes == 0
    assert stems_of(survey_path).count("7") == 1
    assert "19" not in stems_of(survey_path)


def test_a_number_decided_otherwise_is_no_difference_to_an_upload(survey_path, upload):
    finding = told(survey_path, "stem-number-twice", "7")
    with opened(survey_path, write=True) as survey_file:
        decide(survey_file, Request(finding.id, "value=20", "", "Ida"))
    upload[0].write_text(upload[0].read_text("utf-8") + "2;2026;1;10;5;30\n", "utf-8")
    assert add_uploads(survey_path, upload, who="Ida").difference.changes == 0
    assert "20" in stems_of(survey_path)


def test_other_words_for_struck_hold_at_once(survey_path, upload):
    text = upload[0].read_text("utf-8").replace("dbh_cm\n", "dbh_cm;status\n", 1).replace("4.9;23\n", "4.9;23;weg\n")
    upload[0].write_text(text, "utf-8")
    plain = open_uploads(upload)
    assert "19" in plain.survey.stems.texts("stem")
    said = plain.survey.under(parse_settings({"design": {"radius_m": 12.62}, "status": {"struck": ["weg"]}}))
    assert "19" not in said.stems.texts("stem")


def test_a_plot_entered_twice_is_struck_at_once(tmp_path):
    (tmp_path / "stems.csv").write_text("".join([HEADINGS, *ROWS, *ROWS]), "utf-8")
    path = tmp_path / "twice.gpkg"
    add_uploads(path, [tmp_path / "stems.csv"], who="Ida", radius_m=12.62)
    finding = next(one for one in open_uploads([path]).findings if one.strikes_all)
    assert finding.stem is None
    entry = strike(path, finding)
    assert (entry.field, len(entry.changes)) == ("status", len(ROWS))
    after = open_uploads([path])
    assert list(after.survey.stems.records.line) == [*range(2, len(ROWS) + 2)]
    assert not [one for one in after.findings if one.check in ("mistyped", "stem-number-twice")]
