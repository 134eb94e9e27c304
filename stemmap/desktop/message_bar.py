"""A sentence above the map that stays until it is read: what happened, what was kept, what to do."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QToolButton, QWidget


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
        layout.setContentsMargins(10, 6, 6, 6)
        layout.addWidget(self._label, 1)
        layout.addWidget(self._close, 0, Qt.AlignmentFlag.AlignTop)
        self.hide()

    @property
    def sentence(self) -> str:
        """What is shown; empty when nothing is."""
        return "" if self.isHidden() else self._label.text()

    def tell(self, sentence: str) -> None:
        """Show a sentence in place of the one before."""
        self._label.setText(sentence)
        self.setAccessibleName(self.tr("Message"))
        self.setAccessibleDescription(sentence)
        self.show()
