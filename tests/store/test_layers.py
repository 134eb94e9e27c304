"""Layers that follow decisions row by row are those made anew, and what another program changed is never lost."""

import random
import shutil
import sqlite3
from contextlib import closing, suppress
from dataclasses import replace

import numpy as np
import pytest

from stemmap.assets import sample_data
from stemmap.errors import InputError
from stemmap.store import layer_rows
from stemmap.store.decisions import Request, decide, entries, turn
from stemmap.store.layer_rows import Layer, differing_rows, insert_rows, row_sums
from stemmap.store.layers import compare_layers, write_layers
from stemmap.store.survey_file import opened
from stemmap.survey.decided import Decisions
from stemmap.survey.fields import STRUCK
from stemmap.tasks.gis_layers import layers_of
from stemmap.tasks.stored import load_path
from stemmap.tasks.survey_file import add_uploads, keep_settings, refresh_layers
from stemmap.tasks.workup import decide_again, open_uploads
from tests.store.crash import make_survey
from tests.store.validity import faults

LAYERS = ("plots", "plot_centres", "stems", "findings")


@pytest.fixture(scope="module")
def sample(tmp_path_factory):
    path = tmp_path_factory.mktemp("sample") / "survey.gpkg"
    add_uploads(path, [sample_data("survey") / name for name in ("plots.csv", "stems.csv")], who="Ida")
    return path


@pytest.fixture
def survey(sample, tmp_path):
    return shutil.copy(sample, tmp_path / "survey.gpkg")


@pytest.fixture
def small(tmp_path):
    return make_survey(tmp_path)


def run(path, *statements):
    with closing(sqlite3.connect(path)) as connection, connection:
        for each in statements:
            connection.execute(each)


def ask(path, statement):
    with closing(sqlite3.connect(path)) as connection:
        return connection.execute(statement).fetchall()


def dump(path):
    """All that a GIS is told, without the numbers of rows and the time of the last change."""
    told = {name: sorted(map(repr, (row[1:] for row in ask(path, f"SELECT * FROM {name}")))) for name in LAYERS}
    told["contents"] = ask(
        path,
        "SELECT table_name, data_type, identifier, min_x, min_y, max_x, max_y, srs_id FROM gpkg_contents ORDER BY 1",
    )
    told["edited"] = ask(path, "SELECT table_name, description NOT LIKE '%(made ' || last_change || ')' "
                               "FROM gpkg_contents WHERE data_type = 'features' ORDER BY 1")  # fmt: skip
    for table in ("gpkg_geometry_columns", "gpkg_extensions", "gpkg_spatial_ref_sys"):
        told[table] = sorted(map(repr, ask(path, f"SELECT * FROM {table}")))
    told["schema"] = ask(path, "SELECT type, name, tbl_name, sql FROM sqlite_master ORDER BY 1, 2")
    told["at"] = ask(path, "SELECT layers_at FROM survey_file")
    return told


def made_anew(path):
    """Bring layers up to date that nobody can compare with: another column stands in each."""
    run(path, *(f"ALTER TABLE {name} ADD COLUMN other TEXT" for name in LAYERS))
    run(path, "UPDATE survey_file SET layers_at = NULL")
    refresh_layers(path)


def decide_at_random(path, dice, ids):
    with opened(path, write=True) as survey_file, suppress(InputError):
        what = dice.choice(["correct", "correct", "keep", "recheck", "value=3.5", "value=21", "undo", "undo", "redo"])
        if what in ("undo", "redo"):
            turn(survey_file, what, who="Ida")
        else:
            decide(survey_file, Request(dice.choice(ids), what, "", "Ida"))


@pytest.mark.parametrize("seed", range(3))
def test_after_any_decisions_the_layers_are_those_made_anew(survey, tmp_path, seed):
    dice, other = random.Random(seed), tmp_path / "anew.gpkg"
    ids = [told.id for told in open_uploads([survey]).findings if told.plot and told.severity != "note"]
    strikes = [told.id for told in open_uploads([survey]).findings if STRUCK in (x["value"] for x in told.proposals)]
    ids = [*dice.sample(ids, 6), *strikes]
    left = None
    for _ in range(6):
        shutil.copy(survey, other)
        for _ in range(dice.randint(1, 3)):
            state = dice.getstate()
            decide_at_random(survey, dice, ids)
            dice.setstate(state)
            decide_at_random(other, dice, ids)
        left = refresh_layers(survey, workup=open_uploads([survey]) if dice.random() < 0.5 else None, before=left)
        made_anew(other)
        assert dump(survey) == dump(other)
        assert not faults(survey)


def test_only_rows_that_differ_are_written(survey):
    finding = next(told for told in open_uploads([survey]).findings if told.proposals and told.field == "distance_m")
    before = {name: set(ask(survey, f"SELECT * FROM {name}")) for name in LAYERS}
    with opened(survey, write=True) as survey_file:
        decide(survey_file, Request(finding.id, "correct", "", "Ida"))
    refresh_layers(survey)
    after = {name: set(ask(survey, f"SELECT * FROM {name}")) for name in LAYERS}
    assert [len(after[name] - before[name]) for name in ("plots", "plot_centres", "stems")] == [1, 1, 1]
    assert {row[0] for row in after["stems"]} == {row[0] for row in before["stems"]}


def test_a_struck_stem_goes_and_comes_back_alone(survey, tmp_path):
    told = next(told for told in open_uploads([survey]).findings if STRUCK in (x["value"] for x in told.proposals))
    place = [each["value"] for each in told.proposals].index(STRUCK) + 1
    before = set(ask(survey, "SELECT * FROM stems"))
    for decision, count in [(f"correct={place}", -1), ("undo", 0)]:
        with opened(survey, write=True) as survey_file:
            if decision == "undo":
                turn(survey_file, "undo", who="Ida")
            else:
                decide(survey_file, Request(told.id, decision, "", "Ida"))
        other = shutil.copy(survey, tmp_path / "anew.gpkg")
        refresh_layers(survey)
        made_anew(other)
        assert dump(survey) == dump(other)
        after = set(ask(survey, "SELECT * FROM stems"))
        assert len(after) == len(before) + count
        assert len(before - after) < 10


def test_layers_that_are_right_stay_untouched(survey):
    run(survey, "UPDATE survey_file SET layers_at = NULL")
    before = ask(survey, "SELECT table_name, last_change FROM gpkg_contents")
    refresh_layers(survey)
    assert ask(survey, "SELECT table_name, last_change FROM gpkg_contents") == before
    assert ask(survey, "SELECT layers_at FROM survey_file") == [(0,)]


# what other programs do


@pytest.mark.parametrize("name", LAYERS)
@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE {name} SET plot = 'mine' WHERE fid = 2",
        "DELETE FROM {name} WHERE fid = 2",
        "DELETE FROM {name}",
        "INSERT INTO {name} (plot) VALUES ('mine')",
    ],
)
def test_a_layer_changed_by_plain_sql_is_kept_beside(small, name, statement):
    path, _ = small
    run(path, statement.format(name=name))
    changed = ask(path, f"SELECT * FROM {name}")
    run(path, "UPDATE survey_file SET layers_at = NULL")
    assert refresh_layers(path).kept == [f"{name}_edited_1"]
    assert ask(path, f"SELECT * FROM {name}_edited_1") == changed
    assert not faults(path)
    run(path, "UPDATE survey_file SET layers_at = NULL")
    assert not refresh_layers(path).kept


@pytest.mark.parametrize("decision", ["keep", "value=4"])
def test_the_index_of_another_program_is_taken_away_with_the_first_change(small, decision):
    path, findings = small
    for name in LAYERS:
        run(
            path,
            f"CREATE VIRTUAL TABLE rtree_{name}_geom USING rtree(id, minx, maxx, miny, maxy)",
            f"CREATE TRIGGER rtree_{name}_geom_update2 AFTER UPDATE ON {name} WHEN ST_IsEmpty(NEW.geom) "
            f"BEGIN DELETE FROM rtree_{name}_geom WHERE id = OLD.fid; END",
            f"INSERT INTO gpkg_extensions VALUES ('{name}', 'geom', 'gpkg_rtree_index', 'url', 'write-only')",
        )
    with opened(path, write=True) as survey_file:
        decide(survey_file, Request(next(each for each in findings if "distance_m" in each), decision, "", "Ida"))
    assert not refresh_layers(path).kept
    for name in LAYERS if decision != "keep" else ("findings", "plots", "plot_centres"):
        assert ask(path, f"SELECT 1 FROM sqlite_master WHERE name LIKE 'rtree_{name}_geom%'") == []
    assert not faults(path)


def test_who_reads_with_gdal_finds_no_trace_of_the_watch(survey):
    import pyogrio

    for name in LAYERS:
        frame = pyogrio.read_dataframe(survey, layer=name)
        assert len(frame) == ask(survey, f"SELECT COUNT(*) FROM {name}")[0][0]
    pyogrio.write_dataframe(pyogrio.read_dataframe(survey, layer="plots"), survey, layer="plots", append=True)
    run(survey, "UPDATE survey_file SET layers_at = NULL")
    assert refresh_layers(survey).kept == ["plots_edited_1"]


def test_layers_that_somebody_wrote_after_they_were_compared_are_compared_again(small):
    path, _ = small
    layers = layers_of(open_uploads([path]))
    with opened(path, write=True) as survey_file:
        differences = compare_layers(survey_file, layers)
        run(path, "UPDATE stems SET dbh_cm = 99 WHERE fid = 3")
        with survey_file.writing() as connection:
            assert write_layers(connection, layers, differences).kept == ["stems_edited_1"]
    assert ask(path, "SELECT COUNT(*) FROM stems WHERE dbh_cm = 99") == [(0,)]


def test_settled_findings_lose_their_place_under_another_system(survey):
    finding = next(told for told in open_uploads([survey]).findings if told.proposals and told.field == "distance_m")
    with opened(survey, write=True) as survey_file:
        decide(survey_file, Request(finding.id, "correct", "", "Ida"))
    refresh_layers(survey)
    settings = load_path(survey).settings
    keep_settings(survey, settings.having("survey.crs", "EPSG:3035"), who="Ida")
    refresh_layers(survey)
    assert not faults(survey)
    with opened(survey, write=True) as survey_file:
        decide(survey_file, Request(finding.id, "keep", "", "Ida"))


# a survey that was worked up before


def test_a_workup_is_only_used_for_the_file_as_it_is(small):
    path, findings = small
    before = open_uploads([path])
    with opened(path, write=True) as survey_file:
        decide(survey_file, Request(next(each for each in findings if "distance_m" in each), "value=4", "", "Ida"))
        decisions = Decisions(entries(survey_file))
    other = open_uploads([path], settings=before.survey.settings.having("design.radius_m", 6.0))
    partly = decide_again(before, decisions)
    anew = open_uploads([path])
    refresh_layers(path)
    wanted = dump(path)
    for workup in (before, other, partly, anew):
        run(path, "UPDATE survey_file SET layers_at = NULL")
        refresh_layers(path, workup=workup)
        assert dump(path) == wanted


def test_a_workup_of_the_file_as_it_is_is_not_computed_again(small, monkeypatch):
    path, findings = small
    with opened(path, write=True) as survey_file:
        decide(survey_file, Request(next(each for each in findings if "distance_m" in each), "value=4", "", "Ida"))
    monkeypatch.setattr("stemmap.tasks.survey_file.work_up", None)
    refresh_layers(path, workup=open_uploads([path]))
    assert ask(path, "SELECT layers_at FROM survey_file") == [(1,)]


def test_messages_of_a_window_in_another_language_are_not_kept(small):
    path, _ = small
    workup = open_uploads([path])
    foreign = replace(workup, findings=replace(workup.findings, telling=lambda _message, _values: "auf Deutsch"))
    run(path, "UPDATE survey_file SET layers_at = NULL")
    before = dump(path)["findings"]
    refresh_layers(path, workup=foreign)
    assert dump(path)["findings"] == before


# rows


def written(rows):
    connection = sqlite3.connect(":memory:")
    connection.execute("CREATE TABLE t (fid INTEGER PRIMARY KEY, geom POINT, number DOUBLE, text TEXT)")
    insert_rows(connection, "t", rows)
    return connection


@pytest.mark.parametrize("seed", range(200))
def test_any_rows_become_any_others_and_those_they_share_stay(seed):
    dice = random.Random(seed)

    def rows():
        return [(None, dice.choice([-1.0, -2.0, 0.0, 1.0]), dice.choice("ab")) for _ in range(dice.randint(0, 9))]

    old, new = rows(), rows()
    connection = written(old)
    some = dice.randint(1, 4)
    differing = differing_rows(row_sums(connection, "t"), (new[at : at + some] for at in range(0, len(new), some)))
    kept = sum(min(old.count(row), new.count(row)) for row in set(old))
    assert (len(differing.gone), len(differing.fresh)) == (len(old) - kept, len(new) - kept)
    connection.executemany("DELETE FROM t WHERE fid = ?", [(fid,) for fid in differing.gone])
    insert_rows(connection, "t", differing.fresh, differing.fids)
    after = row_sums(connection, "t")
    assert sorted(zip(after.fids, after.sums, strict=True)) == sorted(
        zip(differing.after.fids, differing.after.sums, strict=True)
    )
    now = connection.execute("SELECT geom, number, text FROM t").fetchall()
    assert sorted(now, key=repr) == sorted(new, key=repr)
    connection.close()


def test_where_very_many_rows_are_new_the_layer_is_made_anew(small, monkeypatch):
    path, findings = small
    with opened(path, write=True) as survey_file:
        decide(survey_file, Request(next(each for each in findings if "distance_m" in each), "value=4", "", "Ida"))
    monkeypatch.setattr(layer_rows, "_MOST_NEW", 0)
    other = shutil.copy(path, path.with_name("other.gpkg"))
    refresh_layers(path)
    monkeypatch.undo()
    refresh_layers(other)
    assert dump(path) == dump(other)


def test_every_kind_of_column_comes_back_as_it_was_written():
    columns = {
        "number": np.array([0.1, -0.0, np.nan, np.inf, 3.0, 1e300]),
        "count": np.arange(6),
        "flag": np.array([True, False] * 3),
        "perhaps": np.array([None, True, False] * 2, object),
        "text": np.array(["", "ä\0b", "12", "1e5", "x" * 5000, "'"], object),
        "day": np.array(["2026-01-02", "NaT"] * 3, "datetime64[D]"),
        "none": np.array([None, ""] * 3, object),
    }
    place = np.array([0.0, -0.0, np.nan, 1.5, -2.0, 7.0])
    layer = Layer.of_columns(columns, place, place)
    with closing(sqlite3.connect(":memory:")) as connection:
        declared = ", ".join(f'"{name}" {kind}' for name, kind in layer.declared().items())
        connection.execute(f"CREATE TABLE t ({declared}, PRIMARY KEY (fid))")
        for rows in layer.rows(4326):
            insert_rows(connection, "t", rows)
        differing = differing_rows(row_sums(connection, "t"), layer.rows(4326))
    assert (differing.gone, differing.fresh) == ([], [])
