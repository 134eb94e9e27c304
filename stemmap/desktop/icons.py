"""The program's own icons, drawn in the colours of the window: one file for each action that has one."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QColor, QIcon, QPainter, QPalette, QPixmap

from stemmap.assets import resource

#: Sides in pixels for usual and for fine screens.
_SIDES: Final = (16, 24, 32, 48)
_INK: Final = b"currentColor"


def program_icon() -> QIcon:
    """The icon of the program itself, in its own colours."""
    return _drawn({QIcon.Mode.Normal: resource("icons/stemmap.svg").read_bytes()}, (*_SIDES, 64, 128))


def icon(name: str, colours: QPalette) -> QIcon:
    """An icon in the colours of a palette; an empty one where none was drawn."""
    path = resource("icons") / f"{name}.svg"
    if not path.exists():
        return QIcon()
    drawing = path.read_bytes()
    modes = {
        QIcon.Mode.Normal: colours.color(QPalette.ColorGroup.Active, QPalette.ColorRole.ButtonText),
        QIcon.Mode.Disabled: colours.color(QPalette.ColorGroup.Disabled, QPalette.ColorRole.ButtonText),
        QIcon.Mode.Selected: colours.color(QPalette.ColorGroup.Active, QPalette.ColorRole.HighlightedText),
    }
    return _drawn({mode: drawing.replace(_INK, _name(ink)) for mode, ink in modes.items()}, _SIDES)


def dress(actions: Mapping[str, QAction], colours: QPalette) -> None:
    """Give each action the icon of its name."""
    for name, action in actions.items():
        action.setIcon(icon(name, colours))


def _name(ink: QColor) -> bytes:
    return ink.name().encode()


def _drawn(drawings: Mapping[QIcon.Mode, bytes], sides: tuple[int, ...]) -> QIcon:
    from PySide6.QtSvg import QSvgRenderer

    made = QIcon()
    for mode, drawing in drawings.items():
        renderer = QSvgRenderer(drawing)
        for side in sides:
            picture = QPixmap(side, side)
            picture.fill(Qt.GlobalColor.transparent)
            painter = QPainter(picture)
            renderer.render(painter)
            painter.end()
            made.addPixmap(picture, mode)
    return made
