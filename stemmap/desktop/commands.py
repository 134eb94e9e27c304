"""The table of everything the window can be told to do, and the menus it stands in."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication
from PySide6.QtGui import QAction, QKeySequence

from stemmap.desktop.about import show_about
from stemmap.desktop.actions import SEPARATOR, Entry
from stemmap.desktop.deciding_commands import deciding_commands
from stemmap.desktop.field_packet import packet_commands
from stemmap.desktop.map_commands import MAP_MENU, map_commands
from stemmap.desktop.panel_commands import FIND_MENU, ORIENTATION_MENU, PANEL_MENU, panel_commands
from stemmap.desktop.remeasurements import remeasurement_commands

if TYPE_CHECKING:
    from stemmap.desktop.window import MainWindow

_tr = QCoreApplication.translate
_Key = QKeySequence.StandardKey
_Role = QAction.MenuRole

FILE_MENU = (
    *("open", "sample", "upload-columns", SEPARATOR, "survey-file", "add-uploads", "watch-folder", SEPARATOR),
    *("sheets", "field-packet", "remeasurements", "copy-map", "save-map", SEPARATOR),
    *("report", "export", "save-settings", SEPARATOR),
    *("preferences", SEPARATOR, "stop", SEPARATOR, "quit"),
)
VIEW_MENU = (*MAP_MENU, SEPARATOR, *PANEL_MENU, "full-screen")
GO_MENU = (
    *("round", "go-on", "go-back", "end-round", "round-notes", SEPARATOR),
    *("next-plot", "previous-plot", SEPARATOR, "next-finding", "previous-finding"),
    *(SEPARATOR, *FIND_MENU),
)
HELP_MENU = ("handbook", *ORIENTATION_MENU, SEPARATOR, "about")


def window_commands(window: MainWindow) -> tuple[Entry, ...]:
    """Everything the window can be told to do."""
    return (
        *_of_files(window),
        *map_commands(window),
        *_of_round(window),
        *deciding_commands(window),
        *packet_commands(window),
        *remeasurement_commands(window),
        *_of_going(window),
        *panel_commands(window),
        *_of_window(window),
    )


def _of_files(window: MainWindow) -> tuple[Entry, ...]:
    outputs = window.outputs
    return (
        Entry(
            "open",
            _tr("commands", "&Open uploads…"),
            _tr("commands", "Choose the files of plots and stems"),
            window.uploads.choose,
            (_Key.Open, "Ctrl+O"),
        ),
        Entry(
            "sample",
            _tr("commands", "Open the &sample survey"),
            _tr("commands", "An invented forest with planted recording errors"),
            window.uploads.open_sample,
        ),
        Entry(
            "upload-columns",
            _tr("commands", "Columns of the &upload…"),
            _tr("commands", "Say which column of the files is which field, and see the first rows as understood"),
            window.upload_columns.ask,
            needs="survey",
        ),
        Entry(
            "export",
            _tr("commands", "&Export stems…"),
            _tr("commands", "Write all stems with their coordinates for a GIS or a spreadsheet"),
            outputs.choose_stems,
            ("Ctrl+E",),
            "output",
        ),
        Entry(
            "report",
            _tr("commands", "Wr&ite report…"),
            _tr("commands", "Write the results of the survey with diagrams, methods and settings, as HTML or PDF"),
            outputs.choose_report,
            ("Ctrl+Shift+R",),
            "output",
        ),
        Entry(
            "sheets",
            _tr("commands", "&Print plot sheets…"),
            _tr("commands", "Maps at true scale with lists of stems to measure again: on a printer or as PDF"),
            outputs.choose_sheets,
            (_Key.Print, "Ctrl+P"),
            "output",
        ),
        Entry(
            "copy-map",
            _tr("commands", "&Copy map"),
            _tr("commands", "Put the map of the plot shown on the clipboard, and its stems as a table"),
            outputs.copy_map,
            ("Ctrl+Shift+C",),
            "checked",
        ),
        Entry(
            "save-map",
            _tr("commands", "Save &map as a picture…"),
            _tr("commands", "Write the map of the plot shown as PNG or SVG"),
            outputs.choose_picture,
            ("Ctrl+Shift+M",),
            "output",
        ),
        Entry(
            "save-settings",
            _tr("commands", "Sa&ve settings…"),
            _tr("commands", "Write the settings in force to a file of their own"),
            outputs.choose_settings,
            (_Key.Save, "Ctrl+S"),
            "output",
        ),
        Entry(
            "stop",
            _tr("commands", "S&top"),
            _tr("commands", "Stop what is being done; nothing is changed"),
            window.jobs.cancel,
            ("Ctrl+.",),
            "work",
        ),
        Entry(
            "quit",
            _tr("commands", "&Quit"),
            _tr("commands", "Close the program; your files are as they were"),
            window.close,
            (_Key.Quit, "Ctrl+Q"),
            role=_Role.QuitRole,
        ),
    )


def _of_round(window: MainWindow) -> tuple[Entry, ...]:
    return (
        Entry(
            "round",
            _tr("commands", "Start the &round"),
            _tr("commands", "Go through what needs a look, plot after plot, with the map as large as the window"),
            lambda: window.panels.round.start(),  # noqa: PLW0108 - there is no round yet
            ("F8",),
            "checked",
        ),
        Entry(
            "go-on",
            _tr("commands", "Go &on"),
            _tr("commands", "Go to the next finding of the round"),
            lambda: window.panels.round.go(1),
            ("Space",),
            "round",
        ),
        Entry(
            "go-back",
            _tr("commands", "Go &back"),
            _tr("commands", "Go back to the finding before"),
            lambda: window.panels.round.go(-1),
            ("Backspace",),
            "round",
        ),
        Entry(
            "end-round",
            _tr("commands", "&End the round"),
            _tr("commands", "Show all panels again, at the finding reached"),
            lambda: window.panels.round.end(),  # noqa: PLW0108 - there is no round yet
            ("Esc",),
            "round",
        ),
        Entry(
            "round-notes",
            _tr("commands", "Notes &too"),
            _tr("commands", "Let the round go through the notes as well, or leave them out again"),
            lambda: window.panels.round.switch_notes(),  # noqa: PLW0108 - there is no round yet
            ("Shift+F8",),
            "survey",
        ),
    )


def _of_going(window: MainWindow) -> tuple[Entry, ...]:
    session = window.session
    return (
        Entry(
            "next-plot",
            _tr("commands", "&Next plot"),
            _tr("commands", "Go to the next plot and visit"),
            lambda: session.step_visit(1),
            ("PgDown",),
            "survey",
        ),
        Entry(
            "previous-plot",
            _tr("commands", "&Previous plot"),
            _tr("commands", "Go to the plot and visit before"),
            lambda: session.step_visit(-1),
            ("PgUp",),
            "survey",
        ),
        Entry(
            "next-finding",
            _tr("commands", "Next &finding"),
            _tr("commands", "Go to the next error or thing to look at, over to other plots"),
            lambda: window.step_finding(1),
            ("N",),
            "survey",
        ),
        Entry(
            "previous-finding",
            _tr("commands", "Previous f&inding"),
            _tr("commands", "Go to the error or thing to look at before"),
            lambda: window.step_finding(-1),
            ("Shift+N",),
            "survey",
        ),
        Entry(
            "settings",
            _tr("commands", "&Settings"),
            _tr("commands", "Units, north, design and errors of the open survey"),
            window.show_settings,
            ("Alt+Return",),
            "survey",
        ),
    )


def _of_window(window: MainWindow) -> tuple[Entry, ...]:
    return (
        Entry(
            "full-screen",
            _tr("commands", "&Full screen"),
            _tr("commands", "Give the window the whole screen, and back"),
            window.toggle_full_screen,
            ("F11", _Key.FullScreen),
        ),
        Entry(
            "handbook",
            _tr("commands", "&Handbook"),
            _tr("commands", "First steps, keys, formats, formulas with their sources, all checks"),
            window.show_handbook,
            (_Key.HelpContents, "F1"),
        ),
        Entry(
            "about",
            _tr("commands", "&About stemmap"),
            _tr("commands", "Version, licences, and what the maps are not"),
            lambda: show_about(window),
            role=_Role.AboutRole,
        ),
    )
