"""The window as somebody uses it."""

import csv
from pathlib import Path
from threading import Event

import numpy as np
import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QAction, QDropEvent, QFont, QKeySequence
from PySide6.QtWidgets import QAbstractButton, QFileDialog, QLineEdit, QWidget

from stemmap.assets import sample_data
from stemmap.desktop.palettes import is_dark
from stemmap.desktop.session import WHOLE_SURVEY
from stemmap.errors import InputError

BROKEN = sample_data("broken")


def press(qtbot, window, key, modifier=Qt.KeyboardModifier.NoModifier):
    qtbot.keyClick(window, key, modifier)


def drawn_stem(window):
    """A stem of the plot that can be seen on the map, and its place."""
    canvas = window.panels.map_panel.canvas
    row = int(canvas.shown.scene.stems.row[3])
    return row, canvas.place_of(row).toPoint()


# opening


def test_empty_window_says_what_to_do(window):
    assert window.start_page.open_button.isVisible()
    assert window.start_page.sample_button.isVisible()
    assert not any(dock.isVisible() for dock in window.panels.docks.values())
    assert not window.actions_by_name["export"].isEnabled()


def test_sample_survey_opens_at_a_click(qtbot, window, settled):
    qtbot.mouseClick(window.start_page.sample_button, Qt.MouseButton.LeftButton)
    settled()
    assert window.session.workup is not None
    assert window.panels.map_panel.canvas.isVisible()
    assert all(window.panels.docks[name].isVisible() for name in ("plots", "findings"))
    assert window.windowTitle().startswith("Ottmarshag town forest")


def test_dropped_files_are_opened(window, settled):
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(BROKEN / name)) for name in ("plots.csv", "stems.csv")])
    event = QDropEvent(
        QPointF(9, 9),
        Qt.DropAction.CopyAction,
        data,
        Qt.MouseButton.LeftButton,
        Qt.KeyboardModifier.NoModifier,
    )
    window.dropEvent(event)
    settled()
    assert window.session.workup is not None


def test_files_are_chosen_in_a_dialog(window, settled, monkeypatch):
    chosen = [str(BROKEN / "plots.csv"), str(BROKEN / "stems.csv")]
    monkeypatch.setattr(QFileDialog, "getOpenFileNames", lambda *rest: (chosen, ""))
    window.actions_by_name["open"].trigger()
    settled()
    assert window.session.workup.survey.upload.sources


def test_wrong_input_is_told_in_a_sentence_and_the_page_stays(window, settled, tmp_path):
    wrong = tmp_path / "notes.csv"
    wrong.write_text("nothing of use\n", "utf-8")
    window.uploads.open([wrong])
    settled()
    assert "notes.csv" in window.message_bar.sentence
    assert "Traceback" not in window.message_bar.sentence
    assert window.start_page.open_button.isVisible()


def test_wrong_input_keeps_the_survey_that_was_open(opened, settled, tmp_path):
    before = opened.session.workup
    opened.uploads.open([tmp_path / "not there.csv"])
    settled()
    assert "not there.csv" in opened.message_bar.sentence
    assert opened.session.workup is before
    assert opened.panels.settings_panel.isEnabled()


def test_reading_can_be_cancelled(qtbot, window, monkeypatch):
    begun = Event()

    def endless(paths, *, progress, **rest):
        while True:
            progress.step("Reading stems.csv", 0.5)
            begun.set()

    monkeypatch.setattr("stemmap.tasks.workup.open_uploads", endless)
    window.uploads.open([Path("stems.csv")])
    qtbot.waitUntil(begun.is_set)
    qtbot.waitUntil(window.start_page.cancel_button.isVisible)
    qtbot.mouseClick(window.start_page.cancel_button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: not window.jobs.busy)
    qtbot.waitUntil(window.start_page.open_button.isVisible)
    assert window.session.workup is None
    assert window.message_bar.sentence == ""


def test_internal_fault_is_a_sentence_and_a_log_file(window, settled, monkeypatch, tmp_path):
    def broken(paths, **rest):
        raise ZeroDivisionError("1 / 0")

    monkeypatch.setattr("stemmap.tasks.workup.open_uploads", broken)
    monkeypatch.setattr("stemmap.desktop.faults.log_path", lambda: tmp_path / "stemmap.log")
    window.uploads.open([Path("stems.csv")])
    settled()
    assert "ZeroDivisionError" in window.message_bar.sentence
    assert "Traceback" not in window.message_bar.sentence
    assert "Traceback" in (tmp_path / "stemmap.log").read_text("utf-8")


# one selection


def test_click_on_a_stem_selects_it_in_the_table_and_the_reverse(qtbot, opened):
    canvas, table = opened.panels.map_panel.canvas, opened.panels.stems_table.view
    row, place = drawn_stem(opened)
    qtbot.mouseClick(canvas, Qt.MouseButton.LeftButton, pos=place)
    assert opened.session.stem == row
    assert table.model().shown.row_at(table.currentIndex().row()) == row
    table.setCurrentIndex(table.model().index(0, 2))
    assert opened.session.stem == table.model().shown.row_at(0)


def test_click_beside_all_stems_clears_the_selection(qtbot, opened):
    opened.session.select_stem(drawn_stem(opened)[0])
    qtbot.mouseClick(opened.panels.map_panel.canvas, Qt.MouseButton.LeftButton, pos=QPoint(3, 200))
    assert opened.session.stem == -1
    assert not opened.panels.stems_table.view.selectionModel().hasSelection()


def test_list_of_plots_leads_and_follows(opened, settled):
    opened.panels.plots_panel.view.setCurrentIndex(opened.panels.plots_panel.model.index(7, 2))
    settled()
    assert opened.session.visit == 6
    assert opened.panels.map_panel.canvas.shown.request.visit == 6
    opened.session.select_visit(2)
    assert opened.panels.plots_panel.view.currentIndex().row() == 3


def test_finding_leads_to_its_stem(opened, settled):
    place = next(place for place, told in enumerate(opened.session.findings) if told.stem_row >= 0)
    opened.panels.findings_panel.list.setCurrentIndex(opened.panels.findings_panel.list.model().index(place))
    assert opened.session.stem == opened.session.findings[place].stem_row


def test_keys_go_from_finding_to_finding_and_plot_to_plot(qtbot, opened):
    press(qtbot, opened, Qt.Key.Key_N)
    first = opened.session.selected_finding.id
    press(qtbot, opened, Qt.Key.Key_N)
    assert opened.session.selected_finding.id != first
    press(qtbot, opened, Qt.Key.Key_N, Qt.KeyboardModifier.ShiftModifier)
    assert opened.session.selected_finding.id == first
    visit = opened.session.visit
    press(qtbot, opened, Qt.Key.Key_PageDown)
    assert opened.session.visit == visit + 1
    press(qtbot, opened, Qt.Key.Key_PageUp)
    assert opened.session.visit == visit


def test_page_keys_scroll_the_table_of_stems(qtbot, opened):
    visit = opened.session.visit
    table = opened.panels.stems_table.view
    table.setFocus()
    table.setCurrentIndex(table.model().index(0, 2))
    qtbot.keyClick(table, Qt.Key.Key_PageDown)
    assert opened.session.visit == visit
    assert table.currentIndex().row() > 0


def test_end_of_findings_is_said(qtbot, opened):
    opened.session.select_visit(len(opened.session.workup.survey.visits) - 1)
    while opened.session.step_finding(1):
        pass
    press(qtbot, opened, Qt.Key.Key_N)
    assert "no further" in opened.statusBar().currentMessage()


# map


def test_arrow_keys_go_round_the_stems(qtbot, opened):
    canvas = opened.panels.map_panel.canvas
    stems = canvas.shown.scene.stems
    seen = []
    for _ in range(len(stems.row)):
        qtbot.keyClick(canvas, Qt.Key.Key_Right)
        seen.append(opened.session.stem)
    assert sorted(seen) == stems.row.tolist()
    x, y = opened.session.workup.measured.x_m[seen], opened.session.workup.measured.y_m[seen]
    assert (np.diff(np.arctan2(x, y) % (2 * np.pi)) >= 0).all()


def test_pointer_tells_the_stem_in_words(qtbot, opened):
    row, place = drawn_stem(opened)
    with qtbot.waitSignal(opened.panels.map_panel.canvas.pointed) as pointed:
        qtbot.mouseMove(opened.panels.map_panel.canvas, place)
    label = opened.session.workup.survey.stems.label(row)
    sentence = pointed.args[0]
    assert sentence.startswith(f"Stem {label}, ")
    for word in ("dbh", "azimuth", "distance"):
        assert word in sentence
    assert sentence.endswith((" in", " out", " borderline", "whether in"))


def test_wheel_zooms_at_the_pointer(qtbot, opened, settled):
    canvas = opened.panels.map_panel.canvas
    at = QPointF(200.0, 150.0)
    before, scale = canvas.view.to_metres(at.x(), at.y()), canvas.view.per_metre
    canvas.zoom(1.5, at)
    assert canvas.view.per_metre == pytest.approx(1.5 * scale)
    assert canvas.view.to_metres(at.x(), at.y()) == pytest.approx(before)
    settled()
    assert canvas.shown.view.per_metre == pytest.approx(1.5 * scale)


def test_zoom_keys_and_whole_plot(qtbot, opened, settled):
    canvas = opened.panels.map_panel.canvas
    whole = canvas.view.per_metre
    press(qtbot, opened, Qt.Key.Key_Plus)
    assert canvas.view.per_metre > whole
    press(qtbot, opened, Qt.Key.Key_Minus)
    assert canvas.view.per_metre == pytest.approx(whole)
    canvas.pan(50.0, 20.0)
    press(qtbot, opened, Qt.Key.Key_0)
    assert canvas.view.per_metre == pytest.approx(whole)


@pytest.mark.parametrize("button", [Qt.MouseButton.MiddleButton, Qt.MouseButton.LeftButton])
def test_dragging_pans(qtbot, opened, button):
    canvas = opened.panels.map_panel.canvas
    canvas.setFocus()
    before = (canvas.view.origin_x, canvas.view.origin_y)
    if button == Qt.MouseButton.LeftButton:
        qtbot.keyPress(canvas, Qt.Key.Key_Space)
    qtbot.mousePress(canvas, button, pos=QPoint(100, 100))
    qtbot.mouseMove(canvas, QPoint(130, 90))
    qtbot.mouseRelease(canvas, button, pos=QPoint(130, 90))
    qtbot.keyRelease(canvas, Qt.Key.Key_Space)
    assert (canvas.view.origin_x - before[0], canvas.view.origin_y - before[1]) == (30.0, -10.0)
    assert opened.session.stem == -1


def test_selected_stem_is_brought_into_sight(opened, settled):
    canvas = opened.panels.map_panel.canvas
    row = int(canvas.shown.scene.stems.row[0])
    canvas.zoom(8.0, QPointF(canvas.width(), canvas.height()))
    assert not canvas.rect().contains(canvas.place_of(row).toPoint())
    opened.session.select_stem(row)
    assert canvas.rect().contains(canvas.place_of(row).toPoint())


def test_legend_gives_its_room_to_the_map(qtbot, opened, settled):
    canvas = opened.panels.map_panel.canvas
    assert canvas.shown.legend is not None
    middle = canvas.view.origin_x
    press(qtbot, opened, Qt.Key.Key_L)
    settled()
    assert canvas.shown.legend is None
    assert canvas.view.origin_x > middle


# settings


def test_gon_changes_map_findings_and_summary(qtbot, opened, settled):
    canvas, field = opened.panels.map_panel.canvas, opened.panels.settings_panel.fields["measurement.azimuth_unit"]
    opened.panels.docks["summary"].raise_()
    before = canvas.shown.scene.stems.place.copy()
    field.setCurrentIndex(field.findData("gon"))
    field.activated.emit(field.currentIndex())
    qtbot.waitUntil(lambda: opened.session.workup.survey.settings.measurement.azimuth_unit == "gon")
    settled()
    after = canvas.shown.scene.stems.place
    assert np.hypot(*(after - before).T).max() > 1.0
    assert opened.session.findings == opened.session.workup.findings.of_visit(opened.session.visit)
    assert opened.panels.stems_table.model.columns[3].title == "azimuth, gon"


def test_setting_back_to_what_was_opened(qtbot, opened, settled):
    panel = opened.panels.settings_panel
    opened.panels.docks["settings"].raise_()
    assert not panel.back_button.isEnabled()
    field = panel.fields["errors.distance_sd_m"]
    field.setValue(0.2)
    settled()
    assert opened.session.workup.survey.settings.errors.distance_sd_m == 0.2
    qtbot.mouseClick(panel.back_button, Qt.MouseButton.LeftButton)
    settled()
    assert opened.session.workup.survey.settings == opened.session.settings_at_opening
    assert field.value() == pytest.approx(0.05)


def test_only_the_fields_of_the_design_are_shown(opened, settled):
    panel = opened.panels.settings_panel
    opened.panels.docks["settings"].raise_()
    assert panel.fields["design.circles"].isVisibleTo(panel)
    assert not panel.fields["design.basal_area_factor"].isVisibleTo(panel)
    opened.session.edit("design.kind", "angle_count")
    assert not panel.fields["design.circles"].isVisibleTo(panel)
    assert panel.fields["design.basal_area_factor"].isVisibleTo(panel)
    settled()


def test_circles_are_edited_in_their_table(opened, settled):
    circles = opened.panels.settings_panel.fields["design.circles"]
    circles.item(0, 0).setText("8,5")
    settled()
    assert [circle.radius_m for circle in opened.session.workup.survey.settings.design.circles] == [8.5, 13.0]
    circles.item(0, 0).setText("wide")
    assert "'wide'" in opened.message_bar.sentence
    assert circles.item(0, 0).text() == "8.5"


def test_settings_that_contradict_themselves_are_given_up(opened, settled, monkeypatch):
    def refuse(*_):
        raise InputError("[design] contradicts itself.")

    monkeypatch.setattr("stemmap.tasks.workup.relocate", refuse)
    before = opened.session.workup.survey.settings
    opened.session.edit("measurement.north", "true")
    settled()
    assert opened.message_bar.sentence == "[design] contradicts itself. What was open stays as it was."
    assert opened.session.settings == before
    assert opened.panels.settings_panel.fields["measurement.north"].value == "grid"


def test_settings_are_saved_to_a_file_of_their_own(qtbot, opened, settled, monkeypatch, tmp_path):
    target = tmp_path / "mine.toml"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *rest: (str(target), "Settings (*.toml)"))
    opened.session.edit("measurement.azimuth_unit", "gon")
    settled()
    opened.actions_by_name["save-settings"].trigger()
    settled()
    assert 'azimuth_unit = "gon"' in target.read_text("utf-8")
    assert str(target) in opened.message_bar.sentence


# writing


def test_stems_are_exported(opened, settled, monkeypatch, tmp_path):
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *rest: (str(tmp_path / "out"), "CSV (*.csv)"))
    opened.actions_by_name["export"].trigger()
    settled()
    with (tmp_path / "out.csv").open(encoding="utf-8", newline="") as file:
        assert len(list(csv.DictReader(file))) == len(opened.session.workup.survey.stems)
    assert "EPSG:25832" in opened.message_bar.sentence
    assert opened.actions_by_name["export"].isEnabled()


def test_nothing_is_written_without_a_name(opened, monkeypatch):
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *rest: ("", ""))
    opened.actions_by_name["export"].trigger()
    assert not opened.jobs.busy


# states


def states(window):
    model = window.panels.plots_panel.model
    return [model.index(row, 2).data() for row in range(model.rowCount())]


def test_states_are_told_in_words(show):
    window = show(
        {"plot": ["A", "B", "C"], "azimuth": [10, 20, 30], "distance_m": [5, 9.98, 3], "dbh_cm": [20, 20, 20]},
        {"plot": ["A", "B", "D", "E", "F", "G"], "plot_status": ["", "", "empty", "not reached", "non-forest", ""]},
        {"design": {"kind": "fixed", "radius_m": 10.0}},
    )
    told = dict(zip(window.session.workup.survey.visits.plot, states(window)[1:], strict=True))
    assert told["D"].startswith("empty plot")
    assert told["E"].startswith("not reached")
    assert told["F"].startswith("non-forest")
    assert told["G"].startswith("no stems")
    assert told["C"].startswith("no plot data")
    assert "to look at" in told["B"]


def test_plot_without_stems_says_so(show):
    window = show({}, {"plot": ["A"], "plot_status": ["empty"]}, {"design": {"radius_m": 10}})
    window.session.select_visit(0)
    assert "No stems were recorded" in window.panels.map_panel.notes.text()


def test_plot_without_radius_or_coordinates_says_so(show):
    window = show({"plot": ["A", "A"], "azimuth": [10, 99], "distance_m": [5, 7], "dbh_cm": [20, 30]})
    window.session.select_visit(0)
    assert "radius is not known" in window.panels.map_panel.notes.text()
    assert window.panels.summary_panel.values["stems_per_ha"].text() == "not known"
    assert "no plot radius" in window.panels.summary_panel.reasons.text()


def test_whole_survey_shows_its_strata(opened):
    opened.session.select_visit(WHOLE_SURVEY)
    table = opened.panels.summary_panel.strata
    names = {table.item(row, 0).text() for row in range(table.rowCount())}
    assert {"all", "plateau", "slope"} <= names
    assert opened.panels.stems_table.model.rowCount() == len(opened.session.workup.survey.stems)


def test_summary_shows_what_the_summary_tells(opened, qtbot):
    told = opened.session.workup.summary.plot_json(opened.session.visit)
    values = opened.panels.summary_panel.values
    assert values["stems_per_ha"].text() == f"{told['stems_per_ha']:.0f}"
    assert values["basal_area_m2_per_ha"].text() == f"{told['basal_area_m2_per_ha']:.2f} m²/ha"
    assert values["clark_evans"].text().startswith(f"{told['clark_evans']['r']:.2f} (z ")
    opened.panels.docks["summary"].raise_()
    qtbot.waitUntil(lambda: opened.panels.summary_panel.histogram.image is not None, timeout=20_000)


# conventions


def test_every_control_has_a_name_and_can_be_reached(opened):
    for panel in [*opened.panels.docks.values(), opened.panels.map_panel]:
        for widget in panel.findChildren(QWidget):
            own = widget.window() is opened and not isinstance(widget, QLineEdit)  # no list of a closed choice
            if own and widget.focusPolicy() & Qt.FocusPolicy.TabFocus:
                name = widget.accessibleName() or (widget.text() if isinstance(widget, QAbstractButton) else "")
                assert name or widget.objectName().startswith("qt_"), f"{widget} in {panel} has no name"


def test_actions_have_keys_and_no_key_is_given_twice(window):
    keys = [key for action in window.actions_by_name.values() for key in action.shortcuts()]
    assert len(keys) == len({key.toString() for key in keys})
    for name, key in (("quit", "Ctrl+Q"), ("preferences", "Ctrl+,"), ("open", "Ctrl+O"), ("full-screen", "F11")):
        assert QKeySequence(key) in window.actions_by_name[name].shortcuts()
    for action in window.actions_by_name.values():
        assert action.statusTip(), action.objectName()


def test_dark_and_light_are_chosen_in_the_menu(qtbot, opened, settled):
    light = opened.panels.map_panel.canvas.shown.scene.background
    opened.findChild(QAction, "colours-dark").trigger()
    qtbot.waitUntil(lambda: is_dark(opened.palette()))
    settled()
    assert opened.panels.map_panel.canvas.shown.scene.background != light
    opened.findChild(QAction, "colours-system").trigger()
    qtbot.waitUntil(lambda: not is_dark(opened.palette()))


def test_window_fits_a_small_screen_with_large_letters(qapp, opened):
    before = qapp.font()
    assert opened.minimumSizeHint().width() <= 1280
    opened.resize(1280, 720)
    assert (opened.width(), opened.height()) == (1280, 720)
    larger = QFont(before)
    larger.setPointSizeF(before.pointSizeF() * 1.5)
    qapp.setFont(larger)
    opened.resize(1280, 720)
    assert opened.width() <= 1280
    qapp.setFont(before)


def test_about_names_licences_and_caution(window, qtbot):
    window.actions_by_name["about"].trigger()
    box = window.findChild(QWidget, "about")
    assert "LGPL" in box.text()
    assert "no legal survey" in box.text()
    assert "local safety rules" in box.text()
    box.close()


def test_full_screen_and_back(window):
    window.actions_by_name["full-screen"].trigger()
    assert window.isFullScreen()
    window.actions_by_name["full-screen"].trigger()
    assert not window.isFullScreen()
