"""A paragraph of text in a panel, wrapped, whose words can be marked and copied."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QLabel


def paragraph(text: str = "", *, bold: bool = False) -> QLabel:
    """A label for plain text; bold for a heading."""
    label = QLabel(text)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(True)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    if bold:
        font = QFont(label.font())
        font.setBold(True)
        label.setFont(font)
    return label
