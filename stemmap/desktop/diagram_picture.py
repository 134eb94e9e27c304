"""The picture of one diagram: reached by Tab, saved from its menu or with Enter."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QAction, QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QFrame, QLabel, QWidget

if TYPE_CHECKING:
    from stemmap.drawing.diagrams import Diagram


class DiagramPicture(QLabel):
    """Shows a diagram, with its sentence for who does not see it.

    Signals
    -------
    save_wanted
        The user wants this diagram in a file.
    """

    save_wanted = Signal()

    def __init__(self, diagram: Diagram, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.diagram = diagram
        self.setAccessibleName(diagram.title)
        self.setAccessibleDescription(diagram.sentence)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.ActionsContextMenu)
        self.save_action = QAction(self.tr("Save this diagram…"), self)
        self.save_action.triggered.connect(self.save_wanted)
        self.addAction(self.save_action)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter saves."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.save_wanted.emit()
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Show which diagram the keys mean."""
        super().focusInEvent(event)
        self.setFrameShape(QFrame.Shape.Box)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Show that the keys mean another."""
        super().focusOutEvent(event)
        self.setFrameShape(QFrame.Shape.NoFrame)
