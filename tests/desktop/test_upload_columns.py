"""Saying what the columns of an upload are."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog

from stemmap.desktop.columns_page import MOST_COLUMNS, field_choices, field_label
from stemmap.desktop.recent import recent_surveys
from stemmap.reading import read_settings

PLOTS = "Ort;Mitte Ost;Mitte Nord\nA1;500000;5400000\n"
STEMS = "Ort;Weite;Zeiger;Dicke\nA1;3,5;90;24,1\nA1;7,25;300;31\nA1;x;10;20\n"
SAID = {"Ort": "plot", "Weite": "distance_m", "Zeiger": "azimuth", "Dicke": "dbh_cm"}


@pytest.fixture
def odd(tmp_path):
    """Stems under headings that nobody knows."""
    path = tmp_path / "odd.csv"
    path.write_text(STEMS, "utf-8")
    return path


@pytest.fixture
def asked(window, settled, odd):
    """The window after such stems were opened."""
    window.uploads.open([odd])
    settled()
    return window


def _say(page, said):
    for heading, name in said.items():
        page.choose(heading, name)


def test_unknown_headings_lead_to_the_page(asked):
    page = asked.upload_columns.page
    assert page.isVisible()
    assert "odd.csv" in asked.message_bar.sentence
    assert "no heading is known" in page.state.text()
    assert not page.use_button.isEnabled()
    assert not page.save_button.isEnabled()
    (tab,) = page.sheet_tabs
    assert [tab.typed.item(row, 0).text() for row in range(4)] == ["Ort", "Weite", "Zeiger", "Dicke"]
    assert tab.typed.item(1, 2).text() == "3,5;  7,25;  x"
    assert [choice.value for choice in tab.choices] == [""] * 4


def test_first_rows_are_shown_as_understood_while_choosing(asked):
    page = asked.upload_columns.page
    _say(page, SAID)
    (tab,) = page.sheet_tabs
    assert [choice.value for choice in tab.choices] == list(SAID.values())
    titles = [tab.rows.horizontalHeaderItem(column).text() for column in range(tab.rows.columnCount())]
    assert titles == ["plot", "distance (m)", "azimuth", "dbh (cm)", "Position from the centre"]
    assert [tab.rows.item(0, column).text() for column in range(4)] == ["A1", "3.5", "90", "24.1"]
    assert tab.rows.item(0, 4).text() == "0.00 m north, 3.50 m east"
    assert tab.rows.item(2, 1).text() == "not understood"
    assert tab.rows.item(2, 4).text() == ""
    assert page.state.text() == "Everything that a map needs has its column."


def test_a_choice_by_the_keyboard_is_taken(qtbot, asked):
    choice = asked.upload_columns.page.sheet_tabs[0].choices[1]
    choice.setFocus()
    choice.setCurrentIndex(choice.findData("distance_m") - 1)
    qtbot.keyClick(choice, Qt.Key.Key_Down)
    assert choice.value == "distance_m"
    assert "plot, azimuth" in asked.upload_columns.page.state.text()


def test_using_the_columns_opens_the_survey_and_keeps_them(qtbot, asked, settled, odd):
    page = asked.upload_columns.page
    _say(page, SAID)
    qtbot.mouseClick(page.use_button, Qt.MouseButton.LeftButton)
    settled()
    survey = asked.session.workup.survey
    assert dict(survey.settings.columns) == {name: heading for heading, name in SAID.items()}
    assert survey.stems.records.columns["distance_m"].numbers[1] == 7.25
    assert asked.panels.map_panel.isVisible()
    assert dict(recent_surveys()[0].columns) == {name: heading for heading, name in SAID.items()}


def test_saved_mapping_opens_the_next_upload_by_itself(qtbot, asked, settled, odd, monkeypatch):
    target = odd.parent / "settings.toml"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *rest: (str(target), "Settings (*.toml)"))
    page = asked.upload_columns.page
    _say(page, SAID)
    qtbot.mouseClick(page.save_button, Qt.MouseButton.LeftButton)
    settled()
    assert read_settings(target).columns["azimuth"] == "Zeiger"
    assert str(target) in asked.message_bar.sentence
    asked.uploads.open([odd])
    settled()
    assert asked.session.workup is not None
    assert asked.panels.map_panel.isVisible()


def test_back_leads_to_the_start_page_and_changes_nothing(qtbot, asked):
    qtbot.mouseClick(asked.upload_columns.page.back_button, Qt.MouseButton.LeftButton)
    assert asked.start_page.isVisible()
    assert asked.session.workup is None


def test_page_is_reached_from_the_menu_and_keeps_settings_changed_since(asked, settled, qtbot):
    _say(asked.upload_columns.page, SAID)
    asked.upload_columns.page.use_button.click()
    settled()
    asked.session.edit("measurement.azimuth_unit", "gon")
    settled()
    asked.actions_by_name["upload-columns"].trigger()
    settled()
    page = asked.upload_columns.page
    assert page.isVisible()
    assert [choice.value for choice in page.sheet_tabs[0].choices] == list(SAID.values())
    page.choose("Dicke", "dbh_mm")
    page.use_button.click()
    settled()
    settings = asked.session.settings
    assert settings.measurement.azimuth_unit == "gon"
    assert "dbh_mm" in settings.columns
    assert "dbh_cm" not in settings.columns


def test_sample_survey_shows_its_columns(window, settled):
    window.uploads.open_sample()
    settled()
    window.actions_by_name["upload-columns"].trigger()
    settled()
    assert [tab.sheet.source for tab in window.upload_columns.page.sheet_tabs] == ["plots.csv", "stems.csv"]


def test_a_survey_that_was_open_stays_behind_the_page(opened, settled, odd):
    before = opened.session.workup
    opened.uploads.open([odd])
    settled()
    assert opened.upload_columns.page.isVisible()
    assert opened.session.workup is before
    opened.upload_columns.page.back_button.click()
    assert opened.panels.map_panel.isVisible()


def test_stems_whose_azimuth_is_not_understood_open_with_the_page(window, settled, tmp_path):
    path = tmp_path / "half.csv"
    path.write_text("plot;distance;Zeiger\n1;3;10\n", "utf-8")
    window.uploads.open([path])
    settled()
    assert window.session.workup is not None
    assert window.upload_columns.page.isVisible()
    window.upload_columns.page.use_button.click()
    settled()
    assert not window.upload_columns.page.isVisible()


def test_one_known_heading_among_many_unknown_is_not_enough(window, settled, tmp_path):
    path = tmp_path / "stems.csv"
    path.write_text("Ort;Weite;Zeiger;Notiz\n1;3;10;\n", "utf-8")
    window.uploads.open([path])
    settled()
    assert window.upload_columns.page.isVisible()


def test_a_file_left_out_for_its_headings_is_asked_about(window, settled, tmp_path):
    (tmp_path / "plots.csv").write_text(PLOTS, "utf-8")
    (tmp_path / "stems.csv").write_text("plot,azimuth,distance,dbh\nA1,10,3,20\n", "utf-8")
    window.uploads.open([tmp_path / "plots.csv", tmp_path / "stems.csv"])
    settled()
    assert window.session.workup is not None
    assert window.upload_columns.page.tabs.currentIndex() == 0
    assert not any(dock.isVisible() for dock in window.panels.docks.values())
    window.upload_columns.page.back_button.click()
    assert window.panels.docks["findings"].isVisible()


def test_the_round_begins_on_the_map(opened, settled):
    opened.uploads.open_sample()
    settled()
    opened.upload_columns.ask()
    settled()
    assert opened.upload_columns.page.isVisible()
    opened.actions_by_name["round"].trigger()
    assert opened.panels.map_panel.isVisible()


def test_a_list_of_diameters_is_no_riddle(window, settled, tmp_path):
    path = tmp_path / "list.csv"
    path.write_text("plot;dbh;Sorte\n1;30;B\n", "utf-8")
    window.uploads.open([path])
    settled()
    assert window.panels.map_panel.isVisible()


def test_known_heading_cannot_be_left_while_nothing_takes_its_field(window, settled, tmp_path):
    path = tmp_path / "stems.csv"
    path.write_text("plot,azimuth,distance,bearing2\n1,10,3,20\n", "utf-8")
    window.uploads.open([path])
    settled()
    window.upload_columns.ask()
    settled()
    page = window.upload_columns.page
    page.choose("azimuth", "")
    assert page.sheet_tabs[0].choices[1].value == "azimuth"
    assert "known word for azimuth" in page.state.text()
    page.choose("bearing2", "azimuth")
    assert [choice.value for choice in page.sheet_tabs[0].choices] == ["plot", "", "distance_m", "azimuth"]


def test_several_tables_stand_side_by_side_with_unusable_files_named(window, settled, odd):
    plots = odd.parent / "plots odd.csv"
    plots.write_text(PLOTS, "utf-8")
    picture = odd.parent / "map.csv"
    picture.write_bytes(b"\x89PNG\r\n")
    window.uploads.open([plots, odd, picture])
    settled()
    page = window.upload_columns.page
    assert [page.tabs.tabText(place) for place in range(page.tabs.count())] == ["plots odd.csv", "odd.csv"]
    assert "map.csv is a picture" in page.state.text()
    _say(page, {"Ort": "plot", "Mitte Ost": "easting", "Mitte Nord": "northing"})
    assert page.sheet_tabs[0].lacks == ""
    assert "No table has stems yet" in page.state.text()
    page.choose("Weite", "distance_m")
    assert "odd.csv: no column for azimuth yet." in page.state.text()


def test_fields_that_a_heading_looks_like_are_proposed_first():
    names = [name for name, _ in field_choices("Azimutt")]
    assert names[:2] == ["", "azimuth"]
    assert len(names) == len(set(names))


def test_fields_are_told_in_words_with_their_unit():
    assert field_label("distance_m") == "distance (m)"
    assert field_label("dbh_mm") == "dbh (mm)"
    assert field_label("declination_deg") == "declination (°)"
    assert field_label("plot") == "plot"


def test_very_many_columns_are_cut_to_what_can_be_listed(window, settled, tmp_path):
    path = tmp_path / "wide.csv"
    path.write_text(",".join(f"q{number}x" for number in range(200)) + "\n" + ",".join("1" * 200) + "\n", "utf-8")
    window.uploads.open([path])
    settled()
    assert len(window.upload_columns.page.sheet_tabs[0].choices) == MOST_COLUMNS


def test_every_control_of_the_page_has_a_name(asked):
    page = asked.upload_columns.page
    assert all(choice.accessibleName() for choice in page.sheet_tabs[0].choices)
    assert page.tabs.accessibleName()
    assert page.sheet_tabs[0].rows.accessibleName()


def test_wrong_input_says_that_the_open_survey_stays(opened, settled, tmp_path):
    opened.uploads.open([tmp_path / "none.csv"])
    settled()
    assert opened.message_bar.sentence.endswith("What was open stays as it was.")


def test_focus_goes_from_choice_to_choice(asked):
    page = asked.upload_columns.page
    chain, widget = [], page.sheet_tabs[0].choices[0]
    while widget is not page.back_button:
        chain.append(widget)
        widget = widget.nextInFocusChain()
    reached = [widget for widget in chain if widget in page.sheet_tabs[0].choices]
    assert reached == page.sheet_tabs[0].choices
