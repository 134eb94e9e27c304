"""The round leads through what needs a look, and its card never hides the stem it speaks of."""

import numpy as np
import pytest
from PySide6.QtCore import QPointF, QRect, QSize, Qt

from stemmap.desktop.round import Round
from stemmap.desktop.round_card import beside
from stemmap.desktop.sentences import visit_state
from stemmap.desktop.session import Session, prepare
from stemmap.tasks.workup import work_up
from tests.uploads import survey

STEMS = {
    "plot": ["A", "A", "A", "B", "C", "C"],
    "stem": ["1", "2", "3", "1", "1", "1"],
    "azimuth": [10, 20, "x", 40, 50, 60],
    "distance_m": [9.98, 25, 4, 5, 9.99, 5],
    "dbh_cm": [20, 20, 20, 20, 20, 20],
}


@pytest.fixture
def small(qapp):
    made = Session()
    going = Round(made)
    made.show(prepare(work_up(survey(STEMS, {"plot": ["A", "B", "C"]}, settings={"design": {"radius_m": 10.0}}))))
    return made, going


def walked(going):
    """Findings of the round from where it starts to its end."""
    going.start()
    told = []
    while (finding := going.finding) is not None:
        told.append(finding)
        going.go(1)
    return told


def test_every_error_and_warning_is_shown_once_plot_by_plot_the_graver_first(small):
    session, going = small
    session.select_visit(-1)
    told = walked(going)
    wanted = [one for one in session.workup.findings if one.severity != "note"]
    assert sorted(one.id for one in told) == sorted(one.id for one in wanted)
    assert [one.visit_row for one in told] == sorted(one.visit_row for one in told)
    for row in {one.visit_row for one in told}:
        grave = [one.severity != "error" for one in told if one.visit_row == row]
        assert grave == sorted(grave)


def test_plots_without_findings_are_skipped_and_counted_out(small):
    _, going = small
    told = walked(going)
    assert "B" not in {one.plot for one in told}
    going.go(-1)
    stage = going.stage
    assert stage.plot == stage.plots == len({one.plot for one in told} - {None})
    assert stage.finding == stage.findings


def test_plot_s_state_changes_in_words(small):
    session, going = small
    session.select_visit(0)
    going.start()
    count, found = going.stage.findings, visit_state(session.opened, 0)
    assert count > 1
    for left in range(count - 1, 0, -1):
        assert visit_state(session.opened, 0, going.looked_at(0)) == f"{left} left; {found}"
        going.go(1)
    assert visit_state(session.opened, 0, going.looked_at(0)) == f"looked through; {found}"


def test_going_back_shows_the_finding_before(small):
    _, going = small
    going.start()
    first = going.finding
    going.go(1)
    assert going.finding.id != first.id
    going.go(-1)
    assert going.finding == first
    going.go(-1)
    assert going.finding == first


def test_a_round_begun_again_goes_on_where_it_was_left(small):
    _, going = small
    going.start()
    going.go(1)
    seen = going.finding.id
    going.end()
    going.start()
    assert going.finding.id != seen


def test_notes_are_gone_through_when_wanted(session):
    going = Round(session)
    without = len(walked(going))
    going.end()
    going.switch_notes()
    assert len(going.queue) == without + session.workup.findings.counts["note"]
    going.switch_notes()
    assert len(going.queue) == without


def test_what_was_looked_at_outlives_other_settings(small):
    session, going = small
    session.select_visit(0)
    going.start()
    told = going.finding
    session.update(prepare(work_up(session.workup.survey.under(session.settings.having("errors.distance_sd_m", 0.06)))))
    assert going.finding.id == told.id
    assert going.looked_at(0) == 1
    session.show(prepare(work_up(survey(STEMS, {"plot": ["A", "B", "C"]}, settings={"design": {"radius_m": 10.0}}))))
    assert not going.active
    assert going.looked_at(0) == 0


def test_a_plot_that_is_selected_otherwise_takes_the_round_with_it(opened, qtbot, settled):
    session, going = opened.session, opened.panels.round
    qtbot.keyClick(opened, Qt.Key.Key_F8)
    settled()
    card = opened.panels.round_view.card
    for key in (*[Qt.Key.Key_PageDown] * 6, *[Qt.Key.Key_PageUp] * 3):
        before = session.visit
        qtbot.keyClick(opened, key)
        assert session.visit == before + (1 if key == Qt.Key.Key_PageDown else -1)
        doubts = [one.id for one in session.findings if one.severity != "note"]
        if doubts:
            qtbot.waitUntil(lambda: going.finding is not None and going.finding.visit_row == session.visit)
            assert session.selected_finding.id == going.finding.id
            assert card.sentence.text() == going.finding.message
        else:
            qtbot.waitUntil(lambda: card.sentence.text() == "No error and nothing to look at was found here.")
            assert going.finding is None
            assert card.heading.text().startswith(f"Plot {session.workup.survey.visits.plot[session.visit]}")
    here = session.visit
    qtbot.keyClick(opened, Qt.Key.Key_Space)
    assert session.visit >= here


def test_the_round_goes_on_behind_a_plot_without_findings(small, qtbot):
    session, going = small
    session.select_visit(0)
    going.start()
    session.select_visit(1)
    qtbot.waitUntil(lambda: going.finding is None)
    assert not going.is_through
    going.go(1)
    assert (going.finding.plot, going.stage.finding) == ("C", 1)
    session.select_visit(1)
    qtbot.waitUntil(lambda: going.finding is None)
    going.go(-1)
    assert (going.finding.plot, going.stage.finding) == ("A", going.stage.findings)


def test_a_finding_that_is_selected_otherwise_is_the_one_on_the_card(small):
    session, going = small
    going.start()
    session.select_stem(session.workup.survey.visits.first_stem[2])
    assert going.finding.id == session.selected_finding.id
    assert going.finding.plot == "C"


def test_what_was_looked_at_is_again_when_a_decision_was_undone(small):
    session, going = small
    session.select_visit(0)
    going.start()
    shown, told = session.opened, going.finding
    fewer = prepare(
        work_up(
            survey(
                STEMS | {"azimuth": [10, 20, 30, 40, 50, 60], "distance_m": [4.0, 5, 4, 5, 9.99, 5]},
                {"plot": ["A", "B", "C"]},
                settings={"design": {"radius_m": 10.0}},
            )
        )
    )
    session.update(fewer)
    assert going.looked_at(0) == 0
    session.update(shown)
    assert told.id in going.looked[("A", "")]
    assert going.looked_at(0) >= 1


def test_survey_without_doubts_says_so(show, qtbot):
    stems = {"plot": ["A"], "azimuth": [10], "distance_m": [5], "dbh_cm": [20]}
    window = show(stems, {"plot": ["A"]}, {"design": {"kind": "fixed", "radius_m": 10.0}})
    assert window.session.workup.findings.counts["warning"] == 0
    qtbot.keyClick(window, Qt.Key.Key_F8)
    assert window.panels.round_view.card.heading.text() == "Nothing to look at"


# the card


@pytest.mark.parametrize("x", [5.0, 300.0, 795.0])
@pytest.mark.parametrize("y", [5.0, 250.0, 595.0])
def test_card_lies_on_the_map_and_off_its_stem(x, y):
    size, room = QSize(300, 220), QSize(800, 600)
    corner = beside(QPointF(x, y), 30.0, size, room, np.zeros((0, 2)))
    card = QRect(corner, size)
    assert QRect(0, 0, 800, 600).contains(card)
    assert not card.adjusted(-28, -28, 28, 28).contains(round(x), round(y))


def test_card_keeps_clear_of_other_stems_where_it_can():
    others = np.array([[500.0 + 10 * step, 300.0] for step in range(10)])
    corner = beside(QPointF(400.0, 300.0), 30.0, QSize(200, 100), QSize(800, 600), others)
    card = QRect(corner, QSize(200, 100))
    assert not any(card.contains(round(left), round(top)) for left, top in others)


def test_map_fills_the_window_in_the_round_and_gives_it_back(qtbot, opened, settled):
    docks = [name for name, dock in opened.panels.docks.items() if dock.isVisible()]
    width = opened.panels.map_panel.canvas.width()
    qtbot.keyClick(opened, Qt.Key.Key_F8)
    settled()
    canvas, card = opened.panels.map_panel.canvas, opened.panels.round_view.card
    assert not any(dock.isVisible() for dock in opened.panels.docks.values())
    assert canvas.width() > 1200
    assert card.isVisible()
    seen = []
    for _ in range(12):
        seen.append(opened.panels.round.finding.id)
        place = canvas.place_of(opened.session.stem)
        assert place is None or not card.geometry().contains(place.toPoint())
        assert canvas.rect().contains(card.geometry())
        qtbot.keyClick(opened, Qt.Key.Key_Space)
        settled()
    assert len(set(seen)) == 12
    qtbot.keyClick(opened, Qt.Key.Key_Backspace)
    assert opened.panels.round.finding.id == seen[-1]
    qtbot.keyClick(opened, Qt.Key.Key_Escape)
    settled()
    assert not card.isVisible()
    assert [name for name, dock in opened.panels.docks.items() if dock.isVisible()] == docks
    assert abs(opened.panels.map_panel.canvas.width() - width) < 20


def test_card_says_finding_progress_and_worth(qtbot, opened, settled):
    qtbot.keyClick(opened, Qt.Key.Key_F8)
    settled()
    card, told = opened.panels.round_view.card, opened.panels.round.finding
    assert told.message == card.sentence.text()
    assert "finding 1 of" in card.progress.text()
    assert "stems/ha" in card.remainder.text()
    assert told.message in card.accessibleDescription()


def test_keys_of_the_round_rest_outside_it(qtbot, opened):
    assert not opened.actions_by_name["go-on"].isEnabled()
    qtbot.keyClick(opened, Qt.Key.Key_F8)
    assert opened.actions_by_name["go-on"].isEnabled()
    qtbot.keyClick(opened, Qt.Key.Key_Escape)
    assert not opened.actions_by_name["end-round"].isEnabled()
