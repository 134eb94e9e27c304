"""The menu that chooses light or dark, and the colours of the program that follow from it."""

from __future__ import annotations

from PySide6.QtCore import Signal, Slot
from PySide6.QtGui import QAction, QActionGroup, QGuiApplication
from PySide6.QtWidgets import QMenu, QWidget

from stemmap.desktop.palettes import give_colours, system_is_dark
from stemmap.desktop.preferences import SCHEMES, choose_scheme, chosen_scheme


class SchemeMenu(QMenu):
    """One entry for each choice; it holds at once.

    Signals
    -------
    recoloured
        The program has other colours.
    """

    recoloured = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setTitle(self.tr("&Colours"))
        self.group = QActionGroup(self)
        for scheme, text in (
            (SCHEMES[0], self.tr("Like the &system")),
            (SCHEMES[1], self.tr("&Light")),
            (SCHEMES[2], self.tr("&Dark")),
        ):
            action = self.addAction(text)
            action.setCheckable(True)
            action.setChecked(scheme == chosen_scheme())
            action.setData(scheme)
            action.setObjectName(f"colours-{scheme}")
            self.group.addAction(action)
        self.group.triggered.connect(self._on_chosen)
        QGuiApplication.styleHints().colorSchemeChanged.connect(self.apply)

    @Slot(QAction)
    def _on_chosen(self, action: QAction) -> None:
        choose_scheme(str(action.data()))
        self.apply()

    @Slot()
    def apply(self) -> None:
        """Colour the program light or dark, as chosen or as the system asks."""
        scheme = chosen_scheme()
        for action in self.group.actions():
            action.setChecked(action.data() == scheme)
        dark = scheme == "dark" or (scheme == "system" and system_is_dark())
        give_colours(dark=dark)
        self.recoloured.emit()
