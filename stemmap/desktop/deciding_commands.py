"""What the window can be told to decide."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication
from PySide6.QtGui import QKeySequence

from stemmap.desktop.actions import SEPARATOR, Entry

if TYPE_CHECKING:
    from stemmap.desktop.window import MainWindow

_tr = QCoreApplication.translate
_Key = QKeySequence.StandardKey

DECIDE_MENU = (
    *("correct", "correct-2", "correct-3", "other-value", "keep-finding", "recheck-finding", SEPARATOR),
    *("reason", SEPARATOR, "undo", "redo", SEPARATOR, "journal", "who"),
)


def deciding_commands(window: MainWindow) -> tuple[Entry, ...]:
    """Decisions on the selected finding, and the journal."""
    deciding = window.deciding
    return (
        Entry(
            "survey-file",
            _tr("commands", "&Keep as survey file…"),
            _tr("commands", "Put the uploads into one file that keeps every decision and opens in any GIS"),
            deciding.choose_survey_file,
            ("Ctrl+Shift+S",),
            "output",
        ),
        Entry(
            "add-uploads",
            _tr("commands", "&Add uploads…"),
            _tr("commands", "Add files of plots and stems to the open survey file; you are asked about what differs"),
            window.adding.choose,
            ("Ctrl+Shift+A",),
            "file",
        ),
        Entry(
            "watch-folder",
            _tr("commands", "&Watch a folder for uploads…"),
            _tr("commands", "Files that come into a folder are offered for the survey file; ticked while that is so"),
            window.watching.switch,
            needs="file",
            checkable=True,
        ),
        Entry(
            "correct",
            _tr("commands", "&Correct as proposed"),
            _tr("commands", "The most probable proposal was meant; what was typed stays in the records"),
            lambda: deciding.decide("correct"),
            ("C",),
            "now",
            once=True,
        ),
        Entry(
            "correct-2",
            _tr("commands", "Correct: &second proposal"),
            _tr("commands", "The second proposal was meant"),
            lambda: deciding.decide("correct=2"),
            ("2",),
            "now",
            once=True,
        ),
        Entry(
            "correct-3",
            _tr("commands", "Correct: &third proposal"),
            _tr("commands", "The third proposal was meant"),
            lambda: deciding.decide("correct=3"),
            ("3",),
            "now",
            once=True,
        ),
        Entry(
            "other-value",
            _tr("commands", "&Other value…"),
            _tr("commands", "Another value than the proposed ones holds"),
            window.ask_value,
            ("E",),
            "now",
            once=True,
        ),
        Entry(
            "keep-finding",
            _tr("commands", "&Keep as recorded"),
            _tr("commands", "The record is right; the finding stays away until the record changes"),
            lambda: deciding.decide("keep"),
            ("K",),
            "now",
            once=True,
        ),
        Entry(
            "recheck-finding",
            _tr("commands", "Measure a&gain"),
            _tr("commands", "Send the crew"),
            lambda: deciding.decide("recheck"),
            ("R",),
            "now",
            once=True,
        ),
        Entry(
            "reason",
            _tr("commands", "Reason o&f the next decision…"),
            _tr("commands", "Say why before you decide; decisions without a reason are stored as well"),
            window.reason_line.ask,
            ("W",),
            "now",
        ),
        Entry(
            "undo",
            _tr("commands", "&Undo"),
            _tr("commands", "Undo the last decision; the journal keeps both"),
            deciding.undo,
            (_Key.Undo, "Ctrl+Z"),
            "now",
        ),
        Entry(
            "redo",
            _tr("commands", "&Redo"),
            _tr("commands", "Let the decision that was undone last hold again"),
            deciding.redo,
            (_Key.Redo, "Ctrl+Shift+Z", "Ctrl+Y"),
            "now",
        ),
        Entry(
            "journal",
            _tr("commands", "&Journal"),
            _tr("commands", "All decisions: who, when, what, why"),
            window.show_journal,
            ("Ctrl+J",),
            "survey",
        ),
        Entry(
            "who",
            _tr("commands", "&Who decides…"),
            _tr("commands", "The name that stands in the journal"),
            deciding.ask_who,
        ),
    )
