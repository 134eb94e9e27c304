"""Decisions in the window: on the disk at once, undone and redone, seen in the journal."""

import pytest
from PySide6.QtGui import QGuiApplication

from stemmap.desktop.session import WHOLE_SURVEY
from stemmap.store.decisions import Request, entries
from stemmap.store.decisions import decide as store_decision
from stemmap.store.survey_file import opened
from stemmap.tasks.survey_file import add_uploads


@pytest.fixture
def survey_path(tmp_path, checkout_root):
    folder = checkout_root / "sample_data" / "survey"
    path = tmp_path / "survey.gpkg"
    add_uploads(path, [folder / "stems.csv", folder / "plots.csv"], who="Ida", settings=folder / "settings.toml")
    return path


@pytest.fixture
def deciding(window, qtbot, survey_path, monkeypatch):
    monkeypatch.setattr(type(window.deciding), "who", lambda self, ask=True: "Ida")
    with qtbot.waitSignal(window.session.replaced, timeout=20000):
        window.uploads.open([survey_path])
    return window


def journal(path):
    with opened(path) as survey_file:
        return entries(survey_file)


def go_to_proposal(window):
    """Select a finding about one stem that has a proposal."""
    for visit in range(WHOLE_SURVEY, len(window.session.workup.survey.visits)):
        window.session.select_visit(visit)
        for place, told in enumerate(window.session.findings):
            if told.proposals and told.stem is not None and told.family == "typing":
                window.session.select_finding(place)
                return told
    raise AssertionError


def test_a_key_decides_and_the_survey_follows(deciding, qtbot, survey_path):
    told = go_to_proposal(deciding)
    with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
        deciding.actions_by_name["correct"].trigger()
        # On the disk before anything is computed anew.
        assert [(one.finding, one.decision, one.who) for one in journal(survey_path)] == [(told.id, "correct", "Ida")]
    stems = deciding.session.workup.survey.stems
    assert stems.numbers(told.field)[told.stem_row] == pytest.approx(told.proposals[0]["value"])
    assert told.id not in {one.id for one in deciding.session.workup.findings}
    with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
        deciding.actions_by_name["undo"].trigger()
    assert told.id in {one.id for one in deciding.session.workup.findings}
    with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
        deciding.actions_by_name["redo"].trigger()
    assert told.id not in {one.id for one in deciding.session.workup.findings}
    assert [one.decision for one in journal(survey_path)] == ["correct", "undo", "redo"]


def test_another_value_is_given_in_a_line(deciding, qtbot, survey_path):
    told = go_to_proposal(deciding)
    deciding.actions_by_name["other-value"].trigger()
    line = deciding.value_line
    assert line.isVisibleTo(deciding)
    line.value.setText("77,5")
    line.reason.setText("called the crew")
    with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
        line.value.returnPressed.emit()
    assert not line.isVisibleTo(deciding)
    last = journal(survey_path)[-1]
    assert (last.finding, last.new, last.why) == (told.id, "77.5", "called the crew")


def test_the_round_goes_on_after_a_decision(deciding, qtbot, survey_path):
    going = deciding.panels.round
    going.start()
    first = going.finding
    with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
        deciding.actions_by_name["keep-finding"].trigger()
        second = going.finding
    assert second.id != first.id
    assert going.active
    assert going.finding.id == second.id
    assert journal(survey_path)[-1].finding == first.id


def test_the_journal_shows_what_was_decided_and_is_searched(deciding, qtbot):
    told = go_to_proposal(deciding)
    with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
        deciding.actions_by_name["recheck-finding"].trigger()
    deciding.show_journal()
    shown = deciding.panels.journal_panel
    assert shown.isVisible()
    assert shown.model.rowCount() == 1
    assert [shown.model.text(0, column) for column in (0, 2, 5, 6)] == ["1", "Ida", told.stem, "measure again"]
    shown.filter.setText("no such word")
    assert shown.model.rowCount() == 0
    shown.filter.setText("Ida")
    deciding.session.select_visit(WHOLE_SURVEY)
    shown.view.selectRow(0)
    assert (deciding.session.visit, deciding.session.stem) == (told.visit_row, told.stem_row)
    shown.copy_rows()
    assert "measure again" in QGuiApplication.clipboard().text()


def test_uploads_say_that_a_survey_file_is_needed_and_become_one(window, qtbot, tmp_path, checkout_root, monkeypatch):
    monkeypatch.setattr(type(window.deciding), "who", lambda self, ask=True: "Ida")
    with qtbot.waitSignal(window.session.replaced, timeout=20000):
        window.uploads.open_sample()
    go_to_proposal(window)
    window.actions_by_name["keep-finding"].trigger()
    assert "survey file" in window.message_bar.sentence
    path = tmp_path / "kept.gpkg"
    with qtbot.waitSignal(window.session.replaced, timeout=30000):
        window.deciding.keep_as(path)
    assert window.deciding.survey_path == path
    go_to_proposal(window)
    with qtbot.waitSignal(window.session.replaced, timeout=20000):
        window.actions_by_name["keep-finding"].trigger()
    assert len(journal(path)) == 1


def test_settings_changed_in_the_window_are_in_the_file(deciding, qtbot, survey_path):
    from stemmap.tasks.stored import load_path

    deciding.session.edit("errors.azimuth_sd_deg", 2.5)
    qtbot.waitUntil(lambda: load_path(survey_path).settings.errors.azimuth_sd_deg == 2.5, timeout=20000)


def test_a_survey_file_opens_where_it_was_left(deciding, qtbot, survey_path):
    visits = deciding.session.workup.survey.visits
    deciding.session.select_visit(17)
    with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
        deciding.uploads.open([survey_path])
    qtbot.waitUntil(lambda: deciding.session.visit == 17)
    assert visits.plot[17] == deciding.session.workup.survey.visits.plot[17]


def test_what_others_decide_is_taken_in_and_told(deciding, qtbot, survey_path):
    told = go_to_proposal(deciding)
    with opened(survey_path, write=True) as survey_file:
        store_decision(survey_file, Request(told.id, "keep", "", "Bo"))
    with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
        deciding.deciding.following.read_along()
    assert "Bo" in deciding.message_bar.sentence
    assert told.id not in {one.id for one in deciding.session.workup.findings}
    deciding.message_bar.hide()
    go_to_proposal(deciding)
    with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
        deciding.actions_by_name["keep-finding"].trigger()
    deciding.deciding.following.read_along()
    assert not deciding.message_bar.sentence


def test_a_finding_that_came_up_with_other_settings_can_be_decided(deciding, qtbot, survey_path):
    before = {one.id for one in deciding.session.workup.findings}
    with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
        deciding.session.edit("errors.azimuth_sd_deg", 0.2)
    qtbot.waitUntil(lambda: deciding.session.opened.checked, timeout=20000)
    fresh = next(one for one in deciding.session.workup.findings if one.id not in before and one.stem is not None)
    deciding.session.select_visit(fresh.visit_row)
    ids = [one.id for one in deciding.session.findings]
    deciding.session.select_finding(ids.index(fresh.id))
    deciding.actions_by_name["keep-finding"].trigger()
    qtbot.waitUntil(lambda: [one.finding for one in journal(survey_path)] == [fresh.id], timeout=20000)
