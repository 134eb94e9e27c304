"""A sentence above the map that stays until it is read: what happened, what was kept, what to do."""

from __future__ import annotations

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QToolButton, QWidget

from stemmap.desktop.palettes import severity_colour


class MessageBar(QFrame):
    """Shows one message at a time and takes no focus; hidden when there is none."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFrameShape(QFrame.Shape.StyledPanel)
        self.setAutoFillBackground(True)
        self._label = QLabel()
        self._label.setWordWrap(True)
        self._label.setTextFormat(Qt.TextFormat.PlainText)
        self._label.setTextInteractionFlags(
            Qt.TextInteractionFlag.TextSelectableByMouse | Qt.TextInteractionFlag.TextSelectableByKeyboard
        )
        self._close = QToolButton()
        self._close.setText(self.tr("Dismiss"))
        self._close.setToolTip(self.tr("Hide this message"))
        self._close.setAccessibleName(self.tr("Dismiss the message"))
        self._close.clicked.connect(self.hide)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(14, 6, 6, 6)
        layout.addWidget(self._label, 1)
        layout.addWidget(self._close, 0, Qt.AlignmentFlag.AlignTop)
        self.hide()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint a firm edge, so that the message is not taken for a part of the page."""
        super().paintEvent(event)
        edge = QRect(0, 0, 5, self.height())
        QPainter(self).fillRect(edge, severity_colour("warning", self.palette()))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep room for all lines: rather the map and the tables give way than the last line of a message."""
        super().resizeEvent(event)
        self._make_room()

    def _make_room(self) -> None:
        self._label.setMinimumHeight(max(self._label.heightForWidth(self._label.width()), 0))

    @property
    def sentence(self) -> str:
        """What is shown; empty when nothing is."""
        return "" if self.isHidden() else self._label.text()

    def tell(self, sentence: str) -> None:
        """Show a sentence in place of the one before."""
        self._label.setText(sentence)
        self._make_room()
        self.setAccessibleName(self.tr("Message"))
        self.setAccessibleDescription(sentence)
        self.show()
