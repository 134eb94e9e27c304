"""Light and dark colours of the window. Signal colours are from the Okabe-Ito set and never stand alone."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QGuiApplication, QPalette
from PySide6.QtWidgets import QApplication


@dataclass(frozen=True)
class Colours:
    """Colours by what they are for."""

    window: str
    base: str
    alternate: str
    text: str
    faint_text: str
    edge: str
    field_edge: str
    button: str
    selection: str
    on_selection: str
    link: str


LIGHT = Colours(
    window="#f1f0ec",
    base="#fcfbf9",
    alternate="#f4f3ef",
    text="#1d211e",
    faint_text="#5b625d",
    edge="#c4c3bc",
    field_edge="#868680",
    button="#e7e6e0",
    selection="#0072b2",
    on_selection="#ffffff",
    link="#005b8e",
)
DARK = Colours(
    window="#24282a",
    base="#1a1d1f",
    alternate="#202426",
    text="#e7e5df",
    faint_text="#a7aca7",
    edge="#474d50",
    field_edge="#7f868a",
    button="#33393c",
    selection="#56b4e9",
    on_selection="#0d1113",
    link="#7cc6f0",
)

#: Colour of a severity's sign; its letter and word always stand beside it.
SEVERITY = {
    "light": {"error": "#b33c00", "warning": "#8a5a00", "note": "#005b8e"},
    "dark": {"error": "#ff8a4c", "warning": "#f0b429", "note": "#7cc6f0"},
}


def is_dark(palette: QPalette) -> bool:
    """Whether a palette writes light on dark."""
    return palette.color(QPalette.ColorRole.Window).lightness() < 128


def severity_colour(severity: str, palette: QPalette) -> QColor:
    """Colour of a severity's sign on this palette."""
    return QColor(SEVERITY["dark" if is_dark(palette) else "light"][severity])


def system_is_dark() -> bool:
    """Whether the system asks for dark windows."""
    return QGuiApplication.styleHints().colorScheme() == Qt.ColorScheme.Dark


def give_colours(*, dark: bool) -> None:
    """Give the running program its colours.

    The style draws the edge of fields and boxes 1.4 times as dark as the window around them, on a dark window too,
    where it cannot be seen. So fields and boxes, which paint no window of their own, are told of one that suits.
    """
    made = palette(dark=dark)
    QApplication.setPalette(made)
    made.setColor(QPalette.ColorRole.Window, QColor((DARK if dark else LIGHT).field_edge).lighter(140))
    for kind in ("QLineEdit", "QAbstractSpinBox", "QCheckBox", "QRadioButton"):
        QApplication.setPalette(made, kind)  # type: ignore[arg-type]  # takes a text, whatever its stub says
    for window in QApplication.topLevelWidgets():
        window.setPalette(QPalette())  # what it has none of its own for it takes anew from the program


def palette(*, dark: bool) -> QPalette:
    """The window's palette."""
    colours = DARK if dark else LIGHT
    role, group = QPalette.ColorRole, QPalette.ColorGroup
    made = QPalette()
    for roles, colour in (
        ((role.Window,), colours.window),
        ((role.Base,), colours.base),
        ((role.AlternateBase,), colours.alternate),
        ((role.ToolTipBase,), colours.base),
        ((role.Button,), colours.button),
        ((role.WindowText, role.Text, role.ButtonText, role.ToolTipText, role.BrightText), colours.text),
        ((role.PlaceholderText,), colours.faint_text),
        ((role.Highlight, role.Accent), colours.selection),
        ((role.HighlightedText,), colours.on_selection),
        ((role.Link, role.LinkVisited), colours.link),
        ((role.Mid, role.Midlight), colours.edge),
        ((role.Light,), colours.base),
        ((role.Dark, role.Shadow), colours.edge),
    ):
        for one in roles:
            made.setColor(one, QColor(colour))
    for one in (role.WindowText, role.Text, role.ButtonText):
        made.setColor(group.Disabled, one, QColor(colours.faint_text))
    made.setColor(group.Disabled, role.Highlight, QColor(colours.edge))
    return made
