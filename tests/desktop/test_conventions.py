"""What people expect of any program: places and choices are kept, every action is found and has a name."""

from pathlib import Path

import pytest
from PySide6.QtCore import QLocale, QSettings, Qt
from PySide6.QtWidgets import QDialog, QMenu, QWhatsThis

from stemmap.desktop.command_search import actions_of, keys_of, plain
from stemmap.desktop.crs_chooser import known_systems
from stemmap.desktop.fields import NumberField
from stemmap.desktop.preferences import chosen_scheme
from stemmap.desktop.recent import MOST, Recent, forget_surveys, recent_surveys, remember_survey
from stemmap.desktop.session import prepare
from stemmap.desktop.window import MainWindow


@pytest.fixture
def second(qtbot, opened, sample):
    """A window opened after the first one was closed."""

    def made():
        opened.close()
        window = MainWindow()
        qtbot.addWidget(window)
        with qtbot.waitSignal(window.painted):
            window.show()
        window.show_opened(prepare(sample))
        return window

    return made


# places and choices


def test_panels_moved_come_back_at_the_next_start(opened, second):
    opened.panels.docks["summary"].close()
    opened.addDockWidget(Qt.DockWidgetArea.LeftDockWidgetArea, opened.panels.docks["findings"])
    again = second()
    assert not again.panels.docks["summary"].isVisible()
    area = again.dockWidgetArea(again.panels.docks["findings"])
    assert area == Qt.DockWidgetArea.LeftDockWidgetArea
    again.actions_by_name["reset-layout"].trigger()
    assert not again.panels.docks["summary"].isHidden()
    area = again.dockWidgetArea(again.panels.docks["findings"])
    assert area == Qt.DockWidgetArea.RightDockWidgetArea
    again.jobs.close()


def test_a_window_closed_in_the_round_comes_back_with_its_panels(opened, second):
    opened.actions_by_name["round"].trigger()
    again = second()
    assert again.panels.docks["plots"].isVisible()
    again.jobs.close()


def test_a_layout_of_another_version_is_not_restored(opened, second):
    opened.panels.docks["summary"].close()
    opened.panels.remember = lambda: QSettings().setValue("window/layout", opened.saveState(99))
    again = second()
    assert not again.panels.docks["summary"].isHidden()
    again.jobs.close()


def test_colours_are_kept_and_shown_alike_in_menu_and_preferences(opened, qtbot, settled):
    opened.actions_by_name["preferences"].trigger()
    page = opened.findChild(QDialog, "preferences")
    page.colours.setCurrentIndex(page.colours.findData("dark"))
    page.colours.activated.emit(page.colours.currentIndex())
    settled()
    assert chosen_scheme() == "dark"
    assert opened.palette().color(opened.backgroundRole()).lightness() < 128
    ticked = [one.data() for one in opened.schemes.group.actions() if one.isChecked()]
    assert ticked == ["dark"]
    opened.schemes.group.actions()[0].trigger()
    assert chosen_scheme() == "system"
    assert not page.isModal()
    page.close()


# recent surveys


def test_surveys_opened_are_offered_again_the_last_one_first(window, settled, tmp_path):
    first, second = tmp_path / "a.csv", tmp_path / "b.csv"
    for path in (first, second):
        path.write_text("plot,azimuth,distance_m\nA,10,5\n", "utf-8")
        window.uploads.open([path], radius_m=12.62)
        settled()
    assert [one.paths for one in recent_surveys()] == [(second,), (first,)]
    assert recent_surveys()[0].radius_m == 12.62
    first.unlink()
    menu = window.findChild(QMenu, "recent")
    menu.fill()
    assert [action.isEnabled() for action in menu.actions()[:2]] == [True, False]
    menu.actions()[0].trigger()
    settled()
    assert window.session.workup.survey.settings.design.radius_m == 12.62
    forget_surveys()
    assert recent_surveys() == []


def test_wrong_input_is_not_offered_again(window, settled, tmp_path):
    window.uploads.open([tmp_path / "not there.csv"])
    settled()
    assert recent_surveys() == []


def test_no_more_than_ten_surveys_are_kept(window):
    for number in range(MOST + 3):
        remember_survey(Recent((Path(f"/forest/{number}.csv"),)))
    remember_survey(Recent((Path("/forest/5.csv"),)))
    kept = [one.paths[0].name for one in recent_surveys()]
    assert len(kept) == MOST
    assert kept[:2] == ["5.csv", "12.csv"]
    assert len(set(kept)) == MOST


@pytest.mark.parametrize("kept", ["", "no json", "{}", "[1]", '[{"paths": 5}]'])
def test_a_damaged_list_of_recent_surveys_is_empty(window, kept):
    QSettings().setValue("recent/surveys", kept)
    assert recent_surveys() == []


# finding the way


def test_every_action_stands_in_a_menu_and_is_found_by_typing(opened):
    found = {action.objectName() for _, action in actions_of(opened.menuBar())}
    assert set(opened.actions_by_name) <= found


def test_command_search_does_what_is_marked(qtbot, opened, settled):
    opened.actions_by_name["command-search"].trigger()
    search = opened.findChild(QDialog, "command-search")
    assert not search.isModal()
    qtbot.keyClicks(search.line, "full scr")
    assert search.shown == ["Full screen"]
    qtbot.keyClick(search.line, Qt.Key.Key_Return)
    assert opened.isFullScreen()
    opened.actions_by_name["full-screen"].trigger()


def test_overview_tells_the_keys_of_all_actions(opened):
    for _, action in actions_of(opened.menuBar()):
        assert plain(action)
        if action.objectName() in ("round", "find-stem", "quit"):
            assert keys_of(action)


def test_the_main_parts_say_what_they_are_for(opened):
    for part in (opened.panels.map_panel, *opened.panels.docks.values()):
        if part.objectName() != "dock-layers":
            assert len(part.whatsThis()) > 40, part.objectName()
    opened.actions_by_name["whats-this"].trigger()
    assert QWhatsThis.inWhatsThisMode()
    QWhatsThis.leaveWhatsThisMode()


# coordinate systems


def test_a_coordinate_system_is_found_by_words_and_used(qtbot, opened, settled):
    opened.actions_by_name["crs"].trigger()
    chooser = opened.findChild(QDialog, "crs-chooser")
    assert not chooser.isModal()
    qtbot.waitUntil(lambda: chooser.table.model.rowCount() > 0, timeout=20_000)
    here = chooser.table.model.rowCount()
    chooser.here.setChecked(False)
    assert chooser.table.model.rowCount() > 5 * here
    qtbot.keyClicks(chooser.table.filter, "lcc europe 3034")
    assert chooser.table.model.rowCount() == 1
    qtbot.keyClick(chooser.table.filter, Qt.Key.Key_Return)
    qtbot.mouseClick(chooser.use_button, Qt.MouseButton.LeftButton)
    settled()
    assert opened.session.workup.measured.crs == "EPSG:3034"


def test_the_program_chooses_a_coordinate_system_again(qtbot, opened, settled):
    before = opened.session.workup.measured.crs
    for code in ("EPSG:3035", None):
        opened.session.edit("survey.crs", code)
        settled()
    assert opened.session.workup.measured.crs == before or opened.session.workup.survey.settings.crs is None


# numbers


@pytest.mark.parametrize("country", ["de_DE", "en_GB"])
@pytest.mark.parametrize("typed", ["12,62", "12.62"])
def test_both_decimal_marks_are_understood(qtbot, country, typed):
    field = NumberField(decimals=2, step=0.1, largest=100.0, unit="m")
    field.setLocale(QLocale(country))
    qtbot.addWidget(field)
    field.selectAll()
    qtbot.keyClicks(field, typed)
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert field.value() == 12.62
    assert field.text() == ("12,62 m" if country == "de_DE" else "12.62 m")


def test_each_coordinate_system_stands_once_in_the_list(qapp):
    systems = known_systems()
    assert len(set(systems.codes)) == len(systems.codes) > 5000
    here = systems.at((9.0, 48.0))
    assert "EPSG:25832" in here.codes
    assert "EPSG:26917" not in here.codes  # the east of North America
    assert "EPSG:3832" in systems.at((-179.0, 0.0)).codes  # its area lies on both sides of 180 degrees
