"""The command line as a user and a nightly script call it."""

from __future__ import annotations

import csv
import io
import json
import os
import subprocess
import sys

import pytest

from stemmap.assets import sample_data
from stemmap.cli import main

SURVEY = [str(sample_data("survey") / name) for name in ("plots.csv", "stems.csv")]
SETTINGS = ["--settings", str(sample_data("survey") / "settings.toml")]


@pytest.fixture
def stemmap(monkeypatch, capsys):
    """Runs a command line in this process and gives exit code, output and messages."""

    def run(*arguments, window=lambda *_files, **_options: 0):
        monkeypatch.setattr(sys, "argv", ["stemmap", *map(str, arguments)])
        code = main(window)
        told = capsys.readouterr()
        return code, told.out, told.err

    return run


def _strict(text):
    def refuse(name):
        raise AssertionError(name)

    return json.loads(text, parse_constant=refuse)


def test_check_json_has_the_promised_form(stemmap):
    code, out, err = stemmap("check", *SURVEY, *SETTINGS, "--format", "json")
    report = _strict(out)

    assert code == 0
    assert err == ""
    assert set(report) == {"findings", "counts"}
    wanted = ["id", "plot", "visit", "stem", "check", "severity", "family", "field"]
    wanted += ["message", "evidence", "proposals", "effect"]
    for finding in report["findings"]:
        assert list(finding) == wanted
        assert set(finding["effect"]) == {"stems_per_ha", "basal_area_m2_per_ha"}
        assert not any(letter.isspace() for letter in finding["id"])
    ids = [finding["id"] for finding in report["findings"]]
    assert len(set(ids)) == len(ids)
    assert sum(report["counts"].values()) == len(ids)


def test_summary_json_has_the_promised_form(stemmap):
    _, out, _ = stemmap("summary", *SURVEY, *SETTINGS, "--format", "json")
    report = _strict(out)

    assert set(report) == {"plots", "strata", "survey", "estimates", "change", "error_budget"}
    wanted = {"plot", "visit", "stems", "in", "borderline", "stems_per_ha", "basal_area_m2_per_ha", "qmd_cm"}
    wanted |= {"mean_nearest_m", "clark_evans", "uniform_angle", "mingling", "hidden_share", "reasons"}
    for plot in report["plots"]:
        assert wanted <= set(plot)
        assert {"r", "z", "p", "correction", "n"} <= set(plot["clark_evans"])
        for name in ("stems_per_ha", "qmd_cm", "mean_nearest_m", "uniform_angle", "mingling", "hidden_share"):
            assert (plot[name] is None) == (name in plot["reasons"])
    assert {row["stratum"] for row in report["strata"]} == {None, "plateau", "slope"}
    assert {row["by"] for row in report["survey"]} == {"survey", "visit", "crew", "day"}


@pytest.mark.parametrize("form", ["table", "csv", "html", "json"])
def test_findings_come_in_every_form(stemmap, tmp_path, form):
    code, out, _ = stemmap("check", *SURVEY, *SETTINGS, "--format", form)
    assert code == 0
    assert "outside" in out
    stemmap("check", *SURVEY, *SETTINGS, "--format", form, "-o", tmp_path / "out")
    assert (tmp_path / "out").read_text(encoding="utf-8") == out.replace("\r\n", "\n")


def test_fail_on_turns_findings_into_exit_code_1(stemmap, tmp_path):
    assert stemmap("check", *SURVEY, *SETTINGS, "--fail-on", "warning")[0] == 1
    clean = tmp_path / "clean.csv"
    clean.write_text("plot,stem,azimuth,distance_m,dbh_cm\nA,1,10,5,20\n", encoding="utf-8")
    assert stemmap("check", clean, "--radius", 10, "--fail-on", "warning")[0] == 0


def test_map_names_a_column_and_radius_a_circle(stemmap, tmp_path):
    upload = tmp_path / "u.csv"
    upload.write_text("plot,stem,Zeiger,distance_m,dbh_cm\nA,1,10,5,20\n", encoding="utf-8")
    _, out, _ = stemmap("summary", upload, "--map", "azimuth=Zeiger", "--radius", 10, "--format", "json")
    assert _strict(out)["plots"][0]["stems_per_ha"] == pytest.approx(31.830988618)


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (["check", "nowhere.csv"], "nowhere.csv"),
        (["check"], "Missing argument"),
        (["chekc"], "No such command"),
        (["check", *SURVEY, "--map", "azimuth"], "field=column"),
        (["check", *SURVEY, "--settings", "nowhere.toml"], "nowhere.toml"),
        (["export", *SURVEY, "-o", "stems.docx"], "must end in"),
        (["sheets", *SURVEY, "-o", "maps.docx"], "ends in"),
        (["sheets", *SURVEY, "--plots", "nowhere", "-o", "maps.pdf"], "no plot nowhere"),
    ],
)
def test_what_cannot_be_used_ends_with_2_and_a_sentence(stemmap, arguments, sentence):
    code, out, err = stemmap(*arguments)
    assert code == 2
    assert out == ""
    assert sentence in err
    assert "Traceback" not in err


def test_what_cannot_be_written_ends_with_3_and_a_sentence(stemmap, tmp_path):
    code, _, err = stemmap("check", *SURVEY, *SETTINGS, "-o", tmp_path / "nowhere" / "out.csv")
    assert code == 3
    assert "cannot be written" in err


def test_export_and_sheets_write_what_their_names_ask_for(stemmap, tmp_path):
    code, out, err = stemmap("export", *SURVEY, *SETTINGS, "-o", tmp_path / "stems.csv")
    assert (code, out) == (0, "")
    assert "EPSG:25832" in err
    rows = list(csv.DictReader(io.StringIO((tmp_path / "stems.csv").read_text(encoding="utf-8"))))
    assert {"plot", "visit", "stem", "easting", "northing", "local_x_m", "local_y_m"} <= set(rows[0])
    assert {"horizontal_distance_m", "grid_azimuth_deg", "limiting_distance_m"} <= set(rows[0])
    assert {row["inside"] for row in rows} == {"true", "false", ""}

    assert stemmap("sheets", *SURVEY, *SETTINGS, "--plots", "1,2", "-o", tmp_path / "m.png")[0] == 0
    assert sorted(path.name for path in tmp_path.glob("*.png")) == ["m_1.png", "m_2.png"]
    assert stemmap("sheets", *SURVEY, *SETTINGS, "--plots", "1", "--scale", "200", "-o", tmp_path / "m.pdf")[0] == 0
    assert (tmp_path / "m.pdf").read_bytes().startswith(b"%PDF")


def test_checks_lists_the_catalogue(stemmap):
    code, out, _ = stemmap("checks")
    assert code == 0
    for slug in ("outside-circle", "borderline", "value-not-understood", "column-not-placed", "settings-assumed"):
        assert f"\n{slug}  (" in f"\n{out}"


def test_view_hands_files_and_options_to_the_window(stemmap):
    asked = []

    def window(files, **options):
        asked.append((files, options))
        return 0

    assert stemmap("view", *SURVEY, "--radius", 9, window=window)[0] == 0
    assert stemmap(window=window)[0] == 0
    assert [str(path) for path in asked[0][0]] == SURVEY
    assert asked[0][1]["radius_m"] == 9.0
    assert asked[1] == ((), {})


def test_demo_without_a_display_writes_pictures_sheets_and_tables(stemmap, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    code, out, _ = stemmap("demo")
    assert code == 0
    assert out.splitlines()[-1].endswith("stemmap-demo/")
    names = {path.suffix for path in (tmp_path / "stemmap-demo").iterdir()}
    assert names == {".png", ".pdf", ".csv"}


def test_a_reader_that_stops_early_is_no_fault():
    line = f"{sys.executable} -m stemmap check {' '.join([*SURVEY, *SETTINGS])} --format json | head -n 1"
    done = subprocess.run(line, shell=True, capture_output=True, text=True, check=False, env=os.environ)
    assert "Traceback" not in done.stderr


def test_recheck_json_has_the_promised_form(stemmap):
    code, out, err = stemmap(
        "recheck", *SURVEY, *SETTINGS, "--budget-hours", "6", "--blind-share", "0.1", "--format", "json"
    )
    report = _strict(out)

    assert (code, err) == (0, "")
    assert set(report) == {"recheck", "totals"}
    wanted = ["plot", "visit", "stem", "kind", "probability", "effect"]
    wanted += ["worth_percent", "worth_percent_per_hour", "minutes", "reasons"]
    for line in report["recheck"]:
        assert list(line) == wanted
        assert set(line["effect"]) == {"stems_per_ha", "basal_area_m2_per_ha"}
        assert line["kind"] in {"doubt", "blind"}
        assert (line["probability"] is None) == (line["kind"] == "blind")
    assert report["totals"]["minutes"] <= 360


def test_recheck_is_the_same_list_as_table_and_csv(stemmap, tmp_path):
    _, out, _ = stemmap("recheck", *SURVEY, *SETTINGS, "--format", "json")
    lines = _strict(out)["recheck"]
    _, table, _ = stemmap("recheck", *SURVEY, *SETTINGS)
    stemmap("recheck", *SURVEY, *SETTINGS, "--format", "csv", "-o", tmp_path / "list.csv")
    rows = list(csv.DictReader(io.StringIO((tmp_path / "list.csv").read_text(encoding="utf-8"))))

    assert [row["plot"] for row in rows] == [line["plot"] for line in lines]
    assert [row["stem"] for row in rows] == [line["stem"] or "" for line in lines]
    assert len(table.splitlines()) == len(lines) + 6


def test_recheck_with_an_impossible_budget_is_a_usage_error(stemmap):
    code, out, err = stemmap("recheck", *SURVEY, *SETTINGS, "--budget-hours", "-1")

    assert (code, out) == (2, "")
    assert "budget" in err


def test_sheets_are_printed_for_the_re_check_list(stemmap, tmp_path):
    listed = ("--recheck", "--budget-hours", "2")
    code, _, err = stemmap("sheets", *SURVEY, *SETTINGS, *listed, "-o", tmp_path / "walk.png")
    _, out, _ = stemmap("recheck", *SURVEY, *SETTINGS, "--budget-hours", "2", "--format", "json")

    plots = {line["plot"] for line in _strict(out)["recheck"]}
    assert (code, len(plots)) == (0, 2)
    assert {path.stem for path in tmp_path.glob("*.png")} == {f"walk_{plot}" for plot in plots}
    assert "2 files written" in err
    assert stemmap("sheets", *SURVEY, *SETTINGS, "--recheck", "--doubtful", "-o", tmp_path / "x.pdf")[0] == 2
    assert stemmap("sheets", *SURVEY, *SETTINGS, "--budget-hours", "2", "-o", tmp_path / "x.pdf")[0] == 2
