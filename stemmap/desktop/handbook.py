"""The handbook in a window of its own, beside the work and without a network."""

from __future__ import annotations

from PySide6.QtCore import QUrl
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton, QTextBrowser, QVBoxLayout, QWidget

from stemmap.assets import resource


class HandbookWindow(QWidget):
    """Shows ``resources/handbook/handbook.html``, with a field to search it."""

    def __init__(self) -> None:
        super().__init__()
        self.setWindowTitle(self.tr("Handbook of stemmap"))
        self.resize(820, 760)
        self.back = QPushButton(self.tr("&Contents"))
        self.back.setToolTip(self.tr("Back to the top of the handbook"))
        self.words = QLineEdit()
        self.words.setPlaceholderText(self.tr("Search the handbook"))
        self.words.setAccessibleName(self.tr("Search the handbook"))
        self.words.setClearButtonEnabled(True)
        self.next = QPushButton(self.tr("&Next place"))
        self.next.setToolTip(self.tr("Go to the next place with these words (Enter)"))
        self.text = QTextBrowser()
        self.text.setAccessibleName(self.tr("Text of the handbook"))
        self.text.setOpenExternalLinks(False)
        self.text.setSource(QUrl.fromLocalFile(str(resource("handbook/handbook.html"))))
        row = QHBoxLayout()
        for part in (self.back, self.words, self.next):
            row.addWidget(part)
        column = QVBoxLayout(self)
        column.addLayout(row)
        column.addWidget(self.text, 1)
        self.back.clicked.connect(self._on_back)
        self.next.clicked.connect(self.find_next)
        self.words.returnPressed.connect(self.find_next)
        QShortcut(QKeySequence("Ctrl+F"), self, self.words.setFocus)
        QShortcut(QKeySequence("Escape"), self, self.close)

    def find_next(self) -> None:
        """Go to the next place with the words searched for, from the top again after the last one."""
        words = self.words.text()
        if words and not self.text.find(words):
            self.text.moveCursor(self.text.textCursor().MoveOperation.Start)
            self.text.find(words)

    def _on_back(self) -> None:
        self.text.scrollToAnchor("contents")
