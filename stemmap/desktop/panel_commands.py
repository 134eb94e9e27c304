"""What the window can be told to do with its tables and panels, and with itself."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication
from PySide6.QtGui import QAction, QCursor, QKeySequence
from PySide6.QtWidgets import QApplication, QWhatsThis

from stemmap.desktop.actions import SEPARATOR, Entry

if TYPE_CHECKING:
    from stemmap.desktop.table_panel import TablePanel
    from stemmap.desktop.window import MainWindow

_tr = QCoreApplication.translate
_Key = QKeySequence.StandardKey

FIND_MENU = ("other-visit", "find-stem", "find-finding", SEPARATOR, "settings", "crs")
PANEL_MENU = ("columns", "reset-layout")
ORIENTATION_MENU = ("command-search", "whats-this")


def panel_commands(window: MainWindow) -> tuple[Entry, ...]:
    """Everything that can be done with tables and panels."""
    return (*_of_finding(window), *_of_panels(window))


def _find(window: MainWindow, name: str) -> None:
    """Bring a table forward and go to its filter line."""
    window.panels.bring_forward(name)
    if name == "stems":
        window.panels.stems_table.find_stem()
    else:
        window.panels.findings_table.look_for()


def _choose_columns(window: MainWindow) -> None:
    """Show the columns of the table that has the focus, otherwise of the stems."""
    from stemmap.desktop.table_panel import TablePanel

    widget = QApplication.focusWidget()
    while widget is not None and not isinstance(widget, TablePanel):
        widget = widget.parentWidget()
    table: TablePanel = widget or window.panels.stems_table
    table.columns_menu().popup(QCursor.pos())


def _choose_crs(window: MainWindow) -> None:
    from stemmap.desktop.crs_chooser import CrsChooser

    workup = window.session.workup
    if workup is not None:
        chooser = CrsChooser(window, window.jobs, workup)
        chooser.wanted.connect(lambda code: window.session.edit("survey.crs", code or None))
        chooser.show()


def _search_commands(window: MainWindow) -> None:
    from stemmap.desktop.command_search import CommandSearch

    search = CommandSearch(window, window.menuBar())
    search.show()
    search.activateWindow()


def _show_preferences(window: MainWindow) -> None:
    from stemmap.desktop.preferences import Preferences

    Preferences(window, window.schemes.apply).show()


def _of_finding(window: MainWindow) -> tuple[Entry, ...]:
    return (
        Entry(
            "other-visit",
            _tr("commands", "Other &visit"),
            _tr("commands", "Show the visit before of the same plot and stem, and at the first one the last"),
            window.session.select_other_visit,
            ("V",),
            "survey",
        ),
        Entry(
            "find-stem",
            _tr("commands", "Find a ste&m"),
            _tr("commands", "Look for stems in all plots by number, species or any word, such as plot 20 stem 30"),
            lambda: _find(window, "stems"),
            (_Key.Find, "Ctrl+F"),
            "survey",
        ),
        Entry(
            "find-finding",
            _tr("commands", "Find fin&dings"),
            _tr("commands", "Look for findings of the whole survey by any word"),
            lambda: _find(window, "all-findings"),
            ("Ctrl+Shift+F",),
            "survey",
        ),
        Entry(
            "crs",
            _tr("commands", "&Coordinate system…"),
            _tr("commands", "Choose the coordinate system of results by name, code or area of use"),
            lambda: _choose_crs(window),
            needs="survey",
        ),
    )


def _of_panels(window: MainWindow) -> tuple[Entry, ...]:
    return (
        Entry(
            "columns",
            _tr("commands", "Col&umns of the table"),
            _tr("commands", "Choose what the table with the focus shows; its headings have the same menu"),
            lambda: _choose_columns(window),
            needs="survey",
        ),
        Entry(
            "reset-layout",
            _tr("commands", "&Reset the panels"),
            _tr("commands", "Put all panels back where they were at first"),
            lambda: window.panels.reset(),  # noqa: PLW0108 - there are no panels yet
            needs="survey",
        ),
        Entry(
            "command-search",
            _tr("commands", "All &commands and keys"),
            _tr("commands", "Find a command by typing, with the key for it"),
            lambda: _search_commands(window),
            ("Ctrl+K", "Ctrl+F1"),
        ),
        Entry(
            "whats-this",
            _tr("commands", "&What is this?"),
            _tr("commands", "Click on a part of the window to be told what it is for"),
            QWhatsThis.enterWhatsThisMode,
            (_Key.WhatsThis, "Shift+F1"),
        ),
        Entry(
            "preferences",
            _tr("commands", "Pre&ferences…"),
            _tr("commands", "Language and colours of the program"),
            lambda: _show_preferences(window),
            (_Key.Preferences, "Ctrl+,"),
            role=QAction.MenuRole.PreferencesRole,
        ),
    )
