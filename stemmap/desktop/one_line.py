"""A label of one line that gives way: what has no room ends in dots and stands in the tool tip."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QSize, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QLabel, QWidget


class OneLine(QLabel):
    """Shows as much of its sentence as there is room for; `text` is what can be seen."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._sentence = ""

    @property
    def sentence(self) -> str:
        """What is said in full."""
        return self._sentence

    def say(self, sentence: str) -> None:
        """Show another sentence."""
        self._sentence = sentence
        self.setAccessibleName(sentence)
        self._shorten()

    def _shorten(self) -> None:
        room = self.contentsRect().width()
        shown = self.fontMetrics().elidedText(self._sentence, Qt.TextElideMode.ElideRight, room)
        if shown != self.text():
            self.setText(shown)
        self.setToolTip(self._sentence if shown != self._sentence else "")

    def sizeHint(self) -> QSize:
        """Room for the whole sentence."""
        margins = self.contentsMargins()
        width = self.fontMetrics().horizontalAdvance(self._sentence) + margins.left() + margins.right() + 2
        return QSize(width, super().sizeHint().height())

    def minimumSizeHint(self) -> QSize:
        """Room for a word."""
        return QSize(min(self.sizeHint().width(), self.fontMetrics().averageCharWidth() * 12), self.sizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Suit the sentence to the room."""
        super().resizeEvent(event)
        self._shorten()

    def changeEvent(self, event: QEvent) -> None:
        """Suit the sentence to other letters."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self._shorten()
