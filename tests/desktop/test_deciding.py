"""Decisions in the window: on the disk at once, undone and redone, seen in the journal."""

import os
import shutil

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QFileDialog, QLabel, QListWidget

from stemmap.desktop.decision_words import decided_place, decision_words
from stemmap.desktop.sentences import field_words
from stemmap.desktop.session import WHOLE_SURVEY
from stemmap.store.decisions import Request, entries
from stemmap.store.decisions import decide as store_decision
from stemmap.store.survey_file import opened
from stemmap.survey.journal import Entry


@pytest.fixture
def deciding(window, qtbot, survey_path, monkeypatch):
    monkeypatch.setattr(type(window.deciding), "who", lambda self, ask=True: "Ida")
    with qtbot.waitSignal(window.session.replaced, timeout=20000):
        window.uploads.open([survey_path])
    return window


def journal(path):
    with opened(path) as survey_file:
        return entries(survey_file)


def strikes(told):
    return any(each["field"] == "status" for each in told.proposals)


def go_to_proposal(window, wanted=lambda told: told.proposes_number):
    """Select a finding about one stem that has a proposal."""
    for visit in range(WHOLE_SURVEY, len(window.session.workup.survey.visits)):
        window.session.select_visit(visit)
        for place, told in enumerate(window.session.findings):
            if wanted(told) and told.stem is not None and told.family == "typing":
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


def test_a_record_entered_twice_is_struck(deciding, qtbot):
    told = go_to_proposal(deciding, strikes)
    before = deciding.session.workup.survey.stems
    with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
        deciding.actions_by_name["correct"].trigger()
    assert deciding.statusBar().currentMessage() == "Stored: struck; the record is kept as typed and counts nowhere."
    assert len(deciding.session.workup.survey.stems) == len(before) - 1
    assert told.id not in {one.id for one in deciding.session.workup.findings}
    with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
        deciding.actions_by_name["undo"].trigger()
    assert len(deciding.session.workup.survey.stems) == len(before)


def open_places(window):
    """Places of the findings of the plot shown that ask for a decision."""
    standing = window.session.workup.survey.decisions.standing
    told = window.session.findings
    return [place for place, one in enumerate(told) if one.severity != "note" and one.id not in standing]


def go_to_plot(window, several):
    """Show a plot with at least so many findings that ask for a decision, and select the second of them."""
    for visit in range(len(window.session.workup.survey.visits)):
        window.session.select_visit(visit)
        if len(open_places(window)) >= several:
            window.session.select_finding(open_places(window)[1])
            return [window.session.findings[place] for place in open_places(window)]
    raise AssertionError


def test_after_a_decision_the_next_open_finding_of_the_plot_is_selected(deciding, qtbot, survey_path):
    told = go_to_plot(deciding, several=4)
    for decided, following in ((told[1], told[2]), (told[2], told[3])):
        assert deciding.session.selected_finding.id == decided.id
        with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
            deciding.actions_by_name["keep-finding"].trigger()
        assert deciding.session.selected_finding.id == following.id
        assert deciding.session.stem == following.stem_row
    assert [one.finding for one in journal(survey_path)] == [told[1].id, told[2].id]


def test_after_the_last_one_it_goes_on_above_and_then_stays(deciding, qtbot, survey_path):
    told = go_to_plot(deciding, several=3)
    seen = []
    while (chosen := deciding.session.selected_finding.id) not in seen:
        seen.append(chosen)
        with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
            deciding.actions_by_name["recheck-finding"].trigger()
    assert seen == [one.id for one in (*told[1:], told[0])]
    assert [one.finding for one in journal(survey_path)] == seen


def test_behind_the_last_of_a_plot_the_next_key_goes_on_and_not_back(deciding, qtbot, survey_path):
    session = deciding.session
    for visit in range(len(session.workup.survey.visits)):
        session.select_visit(visit)
        if len(open_places(deciding)) == 1:
            break
    session.select_finding(open_places(deciding)[0])
    told = session.selected_finding
    said = []
    deciding.statusBar().messageChanged.connect(said.append)
    # Faster than the plot is checked again.
    for _ in range(2):
        deciding.actions_by_name["keep-finding"].trigger()
        deciding.actions_by_name["next-finding"].trigger()
        assert session.selected_finding.id != told.id
    decided = [one.finding for one in journal(survey_path)]
    assert decided[0] == told.id
    assert len(set(decided)) == 2
    assert said.count("Stored: right as recorded.") == 2
    qtbot.waitUntil(lambda: not deciding.jobs.busy, timeout=30000)


def test_in_the_table_of_all_findings_the_next_row_comes(deciding, qtbot, survey_path):
    table = deciding.panels.findings_table
    deciding.panels.bring_forward("all-findings")
    table.view.setFocus()
    places = [place for place, one in enumerate(deciding.session.workup.findings) if one.severity != "note"]
    ids = [deciding.session.workup.findings.tell(place).id for place in places[:3]]
    deciding.session.select_place(places[0])
    assert table.view.hasFocus()
    for number in (0, 1):
        with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
            qtbot.keyClick(table.view, Qt.Key.Key_K)
        assert deciding.session.selected_finding.id == ids[number + 1]
        assert len(table.marked_places()) == 1
    assert [one.finding for one in journal(survey_path)] == ids[:2]


def test_a_key_held_down_decides_once(deciding):
    names = ("correct", "correct-2", "correct-3", "keep-finding", "recheck-finding", "other-value")
    assert not any(deciding.actions_by_name[name].autoRepeat() for name in names)
    assert deciding.actions_by_name["next-finding"].autoRepeat()


def test_whoever_has_gone_elsewhere_while_it_was_stored_stays_there(deciding, qtbot):
    told = go_to_plot(deciding, several=3)
    elsewhere = deciding.session.finding = open_places(deciding)[2]
    deciding.deciding._going_on.go_on([told[1].id])
    assert deciding.session.finding == elsewhere


def test_a_refusal_goes_with_the_next_action(deciding, qtbot):
    go_to_proposal(deciding)
    deciding.actions_by_name["correct-3"].trigger()
    assert "There is no such proposal" in deciding.message_bar.sentence
    deciding.actions_by_name["other-value"].trigger()
    assert not deciding.message_bar.isVisible()
    deciding.actions_by_name["correct-3"].trigger()
    assert "There is no such proposal" in deciding.message_bar.sentence
    deciding.session.step_visit(1)
    assert not deciding.message_bar.isVisible()
    deciding.actions_by_name["keep-finding"].trigger()
    assert "Choose a finding first" in deciding.message_bar.sentence
    qtbot.keyClick(deciding, Qt.Key.Key_N)
    assert not deciding.message_bar.isVisible()


def test_undo_and_redo_name_plot_stem_field_old_and_new(deciding, qtbot):
    told = go_to_proposal(deciding)
    with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
        deciding.actions_by_name["correct"].trigger()
    last = deciding.deciding.following.journal[-1]
    deciding.session.select_visit(0)
    for action, words in (("undo", "Undone"), ("redo", "Done again")):
        with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
            deciding.actions_by_name[action].trigger()
        said = deciding.statusBar().currentMessage()
        place = f"plot {told.plot}, stem {told.stem}"
        assert said == f"{words}: entry 1 by Ida, {place}: {decision_words(last)}."
        assert said.endswith(f"{field_words(told.field)} {last.old} → {last.new}.")


def test_the_place_of_a_decision_is_told_in_the_language_of_the_window(german):
    entry = Entry(
        1, "2026-11-25T12:00:00Z", "Ida", "1/2026/3/mistyped/azimuth", "1", "2026", "3", "keep", *[None] * 3, ""
    )
    assert decided_place(entry) == "Probefläche 1, Stamm 3"


def test_undo_of_what_was_kept_names_the_field(deciding, qtbot):
    told = go_to_proposal(deciding, lambda told: told.proposes_number and told.field == "azimuth")
    with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
        deciding.actions_by_name["keep-finding"].trigger()
    with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
        deciding.actions_by_name["undo"].trigger()
    said = deciding.statusBar().currentMessage()
    assert said == f"Undone: entry 1 by Ida, plot {told.plot}, stem {told.stem}, azimuth: kept as recorded."


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


def test_what_is_no_number_stays_to_be_mended(deciding, survey_path):
    go_to_proposal(deciding)
    deciding.actions_by_name["other-value"].trigger()
    line = deciding.value_line
    line.value.setText("7o")
    line.value.returnPressed.emit()
    assert line.isVisibleTo(deciding)
    assert line.value.text() == "7o"
    assert "7o is no number." in {label.text()[:16] for label in line.findChildren(QLabel)}
    assert journal(survey_path) == ()


def test_a_finding_about_no_single_value_says_so(deciding):
    place = next(n for n, each in enumerate(deciding.session.workup.findings) if each.stem and each.field is None)
    deciding.session.select_place(place)
    deciding.actions_by_name["other-value"].trigger()
    assert not deciding.value_line.isVisibleTo(deciding)
    assert deciding.statusBar().currentMessage().startswith("This finding is about no single value")


def test_a_value_where_none_was_recorded_is_told_so(deciding, qtbot, survey_path):
    going = deciding.panels.round
    going.start()
    while going.finding.check != "dbh-missing":
        going.go(1)
    assert "E gives another value" in deciding.panels.round_view.card.keys.text()
    deciding.actions_by_name["other-value"].trigger()
    deciding.value_line.value.setText("34,2")
    with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
        deciding.value_line.value.returnPressed.emit()
    assert (journal(survey_path)[-1].old, journal(survey_path)[-1].new) == (None, "34.2")
    assert deciding.statusBar().currentMessage() == "Stored: 34.2 holds, where nothing was recorded."


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
    assert "kept.gpkg was made" in window.statusBar().currentMessage()
    assert "kept.gpkg" in window.windowTitle()
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


# several at once, reasons, taking back


def mark(window, findings):
    """Mark rows in the table of all findings, as dragging over them does."""
    table = window.panels.findings_table
    window.panels.bring_forward("all-findings")
    table.view.setFocus()
    ids = [one.id for one in window.session.workup.findings]
    model = table.view.selectionModel()
    table.view.clearSelection()
    for finding in findings:
        place = table.model.shown.place_of(ids.index(finding))
        flags = model.SelectionFlag.Select | model.SelectionFlag.Rows
        model.select(table.model.index(place, 0), flags)


def test_a_key_decides_all_findings_that_are_marked_and_one_answer_undoes_them(deciding, qtbot, survey_path):
    deciding.activateWindow()
    before = {one.id for one in deciding.session.workup.findings}
    wanted = [one.id for one in deciding.session.workup.findings if one.check == "borderline"][:4]
    mark(deciding, wanted)
    qtbot.waitUntil(deciding.panels.findings_table.view.hasFocus)
    with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
        deciding.actions_by_name["keep-finding"].trigger()
    assert [(one.entry, one.finding, one.decision) for one in journal(survey_path)] == [
        (number, finding, "keep") for number, finding in enumerate(wanted, start=1)
    ]
    assert not {one.id for one in deciding.session.workup.findings} & set(wanted)
    assert "Stored for 4 findings: kept as recorded." in deciding.message_bar.sentence
    with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
        deciding.message_bar.buttons[0].click()
    assert [(one.decision, one.of) for one in journal(survey_path)[4:]] == [("undo", number) for number in range(1, 5)]
    assert {one.id for one in deciding.session.workup.findings} == before


def test_marked_findings_without_a_proposal_stay_and_are_counted(deciding, qtbot, survey_path):
    told = go_to_proposal(deciding)
    other = next(one.id for one in deciding.session.workup.findings if one.check == "borderline" and not one.proposals)
    mark(deciding, [told.id, other])
    qtbot.waitUntil(deciding.panels.findings_table.view.hasFocus)
    deciding.actions_by_name["correct"].trigger()
    assert [one.finding for one in journal(survey_path)] == [told.id]
    assert "1 have no such proposal" in deciding.message_bar.sentence


def test_a_reason_goes_with_the_next_decision_alone(deciding, qtbot, survey_path):
    go_to_proposal(deciding)
    deciding.actions_by_name["reason"].trigger()
    assert deciding.reason_line.isVisible()
    qtbot.keyClicks(deciding.reason_line.reason, "crew called")
    qtbot.keyClick(deciding.reason_line.reason, Qt.Key.Key_Return)
    assert deciding.reason_line.isVisible()
    deciding.actions_by_name["recheck-finding"].trigger()
    assert not deciding.reason_line.isVisible()
    deciding.actions_by_name["undo"].trigger()
    assert [one.why for one in journal(survey_path)] == ["crew called", ""]


def test_what_somebody_else_decided_is_undone_only_when_it_is_said_twice(deciding, qtbot, survey_path):
    told = go_to_proposal(deciding)
    with opened(survey_path, write=True) as survey_file:
        store_decision(survey_file, Request(told.id, "keep", "", "Bo"))
    with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
        deciding.deciding.following.read_along()
    deciding.actions_by_name["undo"].trigger()
    assert "not yours: Bo" in deciding.message_bar.sentence
    assert len(journal(survey_path)) == 1
    deciding.message_bar.tell("something else")
    deciding.actions_by_name["undo"].trigger()
    assert len(journal(survey_path)) == 1
    deciding.actions_by_name["undo"].trigger()
    assert [(one.who, one.decision) for one in journal(survey_path)] == [("Bo", "keep"), ("Ida", "undo")]
    assert "entry 1 by Bo" in deciding.statusBar().currentMessage()


def test_what_was_decided_is_told_on_the_card_and_on_the_plot(deciding, qtbot):
    told = go_to_proposal(deciding)
    deciding.deciding.decide("recheck", "leaning stem")
    qtbot.waitUntil(lambda: bool(deciding.session.workup.survey.decisions.entries), timeout=20000)
    listed = deciding.panels.findings_panel.findChild(QListWidget)
    assert listed.isVisible()
    words = listed.item(0).text()
    assert all(part in words for part in ("measure again", "Ida", "leaning stem", told.stem))
    going = deciding.panels.round
    going.start()
    while going.finding is not None and going.finding.id != told.id:
        going.go(1)
    assert "leaning stem" in deciding.panels.round_view.card.decision.text()


# earlier moments


def test_the_slider_shows_the_survey_as_it_was_and_nothing_can_be_decided_there(deciding, qtbot, survey_path):
    told = go_to_proposal(deciding)
    with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
        deciding.actions_by_name["correct"].trigger()
    corrected = deciding.session.workup.measured.x_m[told.stem_row]
    slider = deciding.panels.journal_panel.slider
    assert (slider.minimum(), slider.maximum(), slider.value()) == (0, 1, 1)
    with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
        slider.setValue(0)
    assert told.id in {one.id for one in deciding.session.workup.findings}
    assert deciding.session.workup.measured.x_m[told.stem_row] != corrected
    assert "nothing can be decided here" in deciding.past_bar.sentence
    assert not deciding.actions_by_name["keep-finding"].isEnabled()
    assert not deciding.actions_by_name["undo"].isEnabled()
    deciding.deciding.decide("keep")
    assert len(journal(survey_path)) == 1
    with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
        deciding.past_bar.buttons[0].click()
    assert told.id not in {one.id for one in deciding.session.workup.findings}
    assert deciding.session.workup.measured.x_m[told.stem_row] == corrected
    assert not deciding.past_bar.sentence
    assert deciding.actions_by_name["keep-finding"].isEnabled()


def test_earlier_moments_have_the_uploads_and_settings_of_then(deciding, qtbot, survey_path, tmp_path):
    go_to_proposal(deciding)
    with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
        deciding.actions_by_name["keep-finding"].trigger()
    (tmp_path / "later.csv").write_text("plot,stem,azimuth,distance_m,dbh_cm\n900,1,10,3,30\n")
    with qtbot.waitSignal(deciding.adding.told, timeout=20000):
        deciding.adding.add([tmp_path / "later.csv"])
    now = deciding.session.workup.survey.settings
    with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
        deciding.deciding.following.look(0)
    assert deciding.session.workup.survey.visit_row("900") < 0
    with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
        deciding.deciding.following.look(None)
    assert deciding.session.workup.survey.visit_row("900") >= 0
    assert deciding.session.workup.survey.settings == now


# others who write


def test_a_decision_waits_for_another_writer_who_is_named(deciding, qtbot, survey_path):
    told = go_to_proposal(deciding)
    with opened(survey_path, write=True) as survey_file, survey_file.writing("Bo"):
        deciding.actions_by_name["keep-finding"].trigger()
        qtbot.waitUntil(lambda: "Bo on the computer" in deciding.message_bar.sentence, timeout=5000)
        assert "is stored as soon as that is done" in deciding.message_bar.sentence
    qtbot.waitUntil(lambda: [one.finding for one in journal(survey_path)] == [told.id], timeout=20000)
    qtbot.waitUntil(lambda: not deciding.message_bar.sentence, timeout=20000)


def test_a_file_that_can_only_be_read_says_so_and_stores_nothing(window, qtbot, survey_path, monkeypatch):
    monkeypatch.setattr(type(window.deciding), "who", lambda self, ask=True: "Ida")
    monkeypatch.setattr(os, "access", lambda path, mode: mode != os.W_OK)
    with qtbot.waitSignal(window.deciding.told, timeout=20000):
        window.uploads.open([survey_path])
    assert "survey.gpkg can only be read here" in window.message_bar.sentence
    assert "can only be read" in window.windowTitle()
    assert not window.actions_by_name["add-uploads"].isEnabled()
    go_to_proposal(window)
    window.actions_by_name["keep-finding"].trigger()
    assert "cannot be written here" in window.message_bar.sentence
    assert journal(survey_path) == ()


def test_stems_are_not_exported_over_the_open_survey_file(deciding, settled, survey_path, monkeypatch):
    """Whoever picks it in the dialog and says yes to replacing it keeps it all the same."""
    before = survey_path.read_bytes()
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *rest: (str(survey_path), "GeoPackage (*.gpkg)"))
    for action in ("export", "save-settings"):
        deciding.actions_by_name[action].trigger()
        settled()
        assert "survey.gpkg is a survey file" in deciding.message_bar.sentence
    assert survey_path.read_bytes() == before


def test_an_earlier_copy_put_in_the_place_of_the_file_is_read_anew(deciding, qtbot, survey_path, tmp_path):
    """What is on the screen is on the disk, also where a backup or a shared folder brought another state back."""
    backup = shutil.copy(survey_path, tmp_path / "backup.gpkg")
    for _ in range(2):
        go_to_proposal(deciding)
        with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
            deciding.actions_by_name["keep-finding"].trigger()
    following = deciding.deciding.following
    qtbot.waitUntil(lambda: not following.settling and not deciding.jobs.busy, timeout=20000)
    assert len(following.journal) == 2
    away = survey_path.rename(tmp_path / "away.gpkg")
    following.read_along()
    qtbot.waitUntil(lambda: not deciding.jobs.busy, timeout=20000)
    assert len(following.journal) == 2
    away.rename(survey_path)
    shutil.copy(backup, survey_path)
    qtbot.waitUntil(lambda: following.journal == (), timeout=20000)
    assert "Another copy of survey.gpkg was put in its place" in deciding.message_bar.sentence
    told = go_to_proposal(deciding)
    with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
        deciding.actions_by_name["keep-finding"].trigger()
    assert [entry.finding for entry in journal(survey_path)] == [told.id]
    assert following.journal == journal(survey_path)


def test_the_map_of_a_decision_comes_with_its_findings_and_is_of_what_is_shown(deciding, qtbot):
    go_to_proposal(deciding)
    canvas, maps = deciding.panels.map_panel.canvas, []
    qtbot.waitUntil(lambda: canvas.shown is not None and not deciding.jobs.runs("map"), timeout=20000)
    deciding.session.replaced.connect(lambda: maps.append(canvas.shown.request.workup is deciding.session.workup))
    with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
        deciding.actions_by_name["correct"].trigger()
    assert maps[0]
    assert canvas.shown.request.findings == tuple(deciding.session.findings)


def test_a_map_described_ahead_is_not_shown_when_another_plot_is_selected_meanwhile(deciding, qtbot):
    go_to_proposal(deciding)
    canvas, shown = deciding.panels.map_panel.canvas, []
    with qtbot.waitSignal(deciding.session.replaced, timeout=20000):
        deciding.actions_by_name["correct"].trigger()
        deciding.session.step_visit(1)
        canvas.described.connect(lambda: shown.append(canvas.shown.request.visit))
    qtbot.waitUntil(lambda: bool(shown) and not deciding.jobs.busy, timeout=20000)
    assert set(shown) == {deciding.session.visit}
