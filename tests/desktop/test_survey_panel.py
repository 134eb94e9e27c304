"""The page of the whole survey."""

import pytest
from PySide6.QtGui import QGuiApplication

from stemmap.core.keystrokes import SLIPS
from stemmap.desktop.survey_words import kind_texts, survey_lines


@pytest.fixture
def panel(opened):
    opened.panels.bring_forward("survey")
    return opened.panels.survey_panel


def rows(panel):
    lines = panel.as_text().rstrip("\n").split("\n")
    return {line.split("\t")[0]: line.split("\t")[1:] for line in lines}


def test_crews_stand_beside_the_whole_survey(panel):
    told = rows(panel)
    assert told[""] == ["Whole survey", "north", "south"]
    assert told["Plots measured"] == ["48", "36", "12"]
    assert "in 1,000 (" in told["Azimuths mistyped"][0]
    assert told["Plots numbered clockwise"] == ["46 of 46", "34 of 34", "12 of 12"]


def test_another_grouping_is_shown_when_chosen(panel):
    panel.by.setCurrentIndex(panel.by.findData("visit"))
    panel.by.activated.emit(panel.by.currentIndex())
    assert rows(panel)[""] == ["Whole survey", "2021", "2026"]


def test_the_lines_go_into_the_clipboard(panel):
    panel.copy_button.click()
    assert QGuiApplication.clipboard().text() == panel.as_text()


def test_every_line_says_what_it_means(panel, opened):
    for line in survey_lines(opened.session.workup.fieldwork):
        assert line.meaning
        assert len(line.texts) == len(opened.session.workup.fieldwork)
        assert all(line.texts), line.title


def test_what_cannot_be_known_is_given_its_reason(panel, opened, qtbot):
    opened.session.edit("measurement.method", "at_stem")
    qtbot.waitUntil(lambda: "at the stem" in rows(panel)["Ground hidden from the centre"][0], timeout=20_000)


def test_every_kind_of_slip_has_its_words(qapp):
    assert set(kind_texts()) == set(SLIPS)
