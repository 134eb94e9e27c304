"""Layers for a GIS follow what is decided in the window, by the survey that the window has worked up anyway."""

import sqlite3
from contextlib import closing

import pytest

from stemmap.store.decisions import Request, decide
from stemmap.store.survey_file import opened, stale
from stemmap.tasks import survey_file as task


@pytest.fixture
def following(window, qtbot, survey_path):
    with qtbot.waitSignal(window.session.replaced, timeout=20000):
        window.uploads.open([survey_path])
    window.deciding.following.keeping._soon.setInterval(10)
    return window.deciding.following


def is_stale(path):
    with opened(path) as survey_file:
        return stale(survey_file)


def change_a_value(window, path, value):
    told = next(told for told in window.session.workup.findings if told.field == "distance_m" and told.stem)
    with opened(path, write=True) as survey_file:
        entry = decide(survey_file, Request(told.id, f"value={value}", "", "Ida"))
    window.deciding.following.took([entry])
    return entry


def stem_layer(path):
    with closing(sqlite3.connect(path)) as connection:
        return connection.execute("SELECT * FROM stems").fetchall()


def test_layers_follow_without_working_the_survey_up_again(window, following, qtbot, survey_path, monkeypatch):
    monkeypatch.setattr(task, "work_up", None)
    monkeypatch.setattr(task, "load", None)
    change_a_value(window, survey_path, "4")
    qtbot.waitUntil(lambda: not is_stale(survey_path), timeout=20000)
    # What was written last is not read again.
    monkeypatch.setattr("stemmap.store.layers.row_sums", None)
    before = stem_layer(survey_path)
    qtbot.waitUntil(lambda: not window.jobs.runs("layers"))
    change_a_value(window, survey_path, "4.5")
    qtbot.waitUntil(lambda: not is_stale(survey_path), timeout=20000)
    changed = [one for one, other in zip(before, stem_layer(survey_path), strict=True) if one != other]
    assert len(changed) == 1


def test_layers_wait_until_the_survey_as_a_whole_is_checked(window, following, qtbot, survey_path):
    qtbot.waitUntil(lambda: not (following.keeping._soon.isActive() or window.jobs.runs("layers")))
    change_a_value(window, survey_path, "4")
    assert following.settling
    following.keeping.refresh_layers()
    assert not window.jobs.runs("layers")
    assert following.keeping._soon.isActive()
