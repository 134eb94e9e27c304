"""A morning's work with keyboard and mouse alone, and how many steps it takes.

A step is a key with its modifiers, a click, or a text typed into a line.
"""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QFileDialog

from stemmap.assets import sample_data

FOLDER = sample_data("survey")
FILES = [str(FOLDER / name) for name in ("plots.csv", "stems.csv", "settings.toml")]


class Hands:
    """Presses keys and clicks, counts both, and waits for what comes of it."""

    def __init__(self, qtbot, window, settled):
        self._qtbot, self._window, self._settled = qtbot, window, settled
        self.steps = 0

    def press(self, key, modifier=Qt.KeyboardModifier.NoModifier, on=None):
        self._qtbot.keyClick(on or QApplication.focusWidget() or self._window, key, modifier)
        self._done()

    def type(self, text):
        self._qtbot.keyClicks(QApplication.focusWidget(), text)
        self._done()

    def click(self, widget, at=None):
        self._qtbot.mouseClick(widget, Qt.MouseButton.LeftButton, pos=at or widget.rect().center())
        self._done()

    def _done(self):
        self.steps += 1
        self._settled()


@pytest.fixture
def hands(qtbot, window, settled):
    return Hands(qtbot, window, settled)


def cell(view, row, column):
    return view.visualRect(view.model().index(row, column)).center()


def heading(view, column):
    header = view.horizontalHeader()
    return header.viewport(), header.rect().center().__class__(
        header.sectionViewportPosition(column) + header.sectionSize(column) // 2, header.height() - 8
    )


def test_this_morning_s_uploads_are_opened(hands, window, monkeypatch):
    monkeypatch.setattr(QFileDialog, "getOpenFileNames", lambda *rest: (FILES, ""))
    hands.steps += 2  # the first and, with Shift, the last file in the dialog; Enter comes with the second
    hands.press(Qt.Key.Key_O, Qt.KeyboardModifier.ControlModifier)
    assert window.session.workup.survey.settings.name.startswith("Ottmarshag")
    assert hands.steps <= 3


def test_yesterday_s_survey_is_opened_again(hands, window, settled, qtbot):
    window.uploads.open([FOLDER / "plots.csv", FOLDER / "stems.csv"], settings=FOLDER / "settings.toml")
    settled()
    before = window.session.workup
    hands.press(Qt.Key.Key_F, Qt.KeyboardModifier.AltModifier, on=window.menuBar())
    hands.press(Qt.Key.Key_R, on=QApplication.activePopupWidget())
    hands.press(Qt.Key.Key_1, on=QApplication.activePopupWidget())
    assert window.session.workup is not before
    assert window.session.workup.survey.settings == before.survey.settings
    assert hands.steps == 3


def test_plots_that_need_attention_come_first(hands, opened):
    plots = opened.panels.plots_panel
    hands.click(*heading(plots.view, 2))
    states = [plots.model.text(row, 2) for row in range(1, plots.model.rowCount())]
    doubtful = [state for state in states if "error" in state or "to look at" in state]
    assert len(doubtful) == int(((opened.session.opened.errors + opened.session.opened.warnings) > 0).sum())
    assert states[: len(doubtful)] == doubtful
    assert "error" in states[0]
    assert hands.steps == 1


def test_the_first_ten_findings_are_looked_at_on_the_whole_window(hands, opened):
    seen = []
    hands.press(Qt.Key.Key_F8)
    for _ in range(9):
        seen.append(opened.panels.round.finding.id)
        hands.press(Qt.Key.Key_Space)
    seen.append(opened.panels.round.finding.id)
    assert len(set(seen)) == 10
    assert opened.panels.map_panel.canvas.width() > 0.9 * opened.width()
    assert hands.steps == 10


def test_the_stem_a_crew_member_calls_about_is_found(hands, opened):
    hands.press(Qt.Key.Key_F, Qt.KeyboardModifier.ControlModifier)
    hands.type("plot 20 visit 2026 stem 30")
    hands.press(Qt.Key.Key_Return)
    session = opened.session
    assert session.visit == session.workup.survey.visit_row("20", "2026")
    assert session.workup.survey.stems.label(session.stem) == "30"
    canvas = opened.panels.map_panel.canvas
    assert canvas.rect().contains(canvas.place_of(session.stem).toPoint())
    table = opened.panels.stems_table.view
    assert table.viewport().rect().intersects(table.visualRect(table.currentIndex()))
    assert hands.steps == 3


def test_a_plot_is_compared_with_its_last_visit(hands, opened, settled):
    session, survey = opened.session, opened.session.workup.survey
    now = survey.visit_row("20", "2026")
    stem = next(row for row in range(*survey.visits.stems(now).indices(10**9)) if survey.stems.label(row) == "10")
    session.select_stem(stem)
    settled()
    hands.press(Qt.Key.Key_V)
    assert survey.visits.visit[session.visit] == "2021"
    assert survey.stems.label(session.stem) == "10"
    hands.press(Qt.Key.Key_V)
    assert (session.visit, session.stem) == (now, stem)
    assert hands.steps == 2


def test_borderline_beeches_of_all_plots_are_found_and_copied(hands, opened):
    hands.press(Qt.Key.Key_F, Qt.KeyboardModifier.ControlModifier)
    hands.type("beech borderline")
    hands.press(Qt.Key.Key_Return)
    hands.press(Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    hands.press(Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    lines = QApplication.clipboard().text().splitlines()
    assert lines[0].startswith("plot\tvisit\tstem\t")
    assert len(lines) > 3
    assert all("beech" in line and "borderline" in line for line in lines[1:])
    assert hands.steps == 5
