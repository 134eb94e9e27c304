"""What is shown while no survey is open: what to do, or how far reading is."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QProgressBar, QPushButton, QStackedWidget, QVBoxLayout, QWidget


class StartPage(QWidget):
    """The empty window.

    Signals
    -------
    open_wanted, sample_wanted, cancel_wanted
        A button was pressed.
    """

    open_wanted = Signal()
    sample_wanted = Signal()
    cancel_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._pages = QStackedWidget()
        self._pages.addWidget(self._empty())
        self._pages.addWidget(self._reading())
        layout = QVBoxLayout(self)
        layout.addStretch(2)
        layout.addWidget(self._pages)
        layout.addStretch(3)

    def _empty(self) -> QWidget:
        heading = QLabel(self.tr("Which plots can be trusted?"))
        font = heading.font()
        font.setPointSizeF(font.pointSizeF() * 1.7)
        heading.setFont(font)
        what = QLabel(
            self.tr(
                "Open the files of one survey: plots and stems as CSV, XLSX, GeoJSON or GeoPackage, with a "
                "settings file if there is one. Or drop them here. Your files are only read."
            )
        )
        self.open_button = QPushButton(self.tr("Open uploads…"))
        self.open_button.setDefault(True)
        self.open_button.setToolTip(self.tr("Choose the files of plots and stems (Ctrl+O)"))
        self.sample_button = QPushButton(self.tr("Open the sample survey"))
        self.sample_button.setToolTip(self.tr("An invented forest with planted recording errors"))
        self.open_button.clicked.connect(self.open_wanted)
        self.sample_button.clicked.connect(self.sample_wanted)
        buttons = QHBoxLayout()
        buttons.addStretch(1)
        buttons.addWidget(self.open_button)
        buttons.addWidget(self.sample_button)
        buttons.addStretch(1)
        return _centred(heading, what, buttons)

    def _reading(self) -> QWidget:
        self._sentence = QLabel(self.tr("Reading…"))
        self._bar = QProgressBar()
        self._bar.setTextVisible(False)
        self._bar.setAccessibleName(self.tr("Progress"))
        self.cancel_button = QPushButton(self.tr("Cancel"))
        self.cancel_button.setToolTip(self.tr("Stop reading; nothing is changed"))
        self.cancel_button.clicked.connect(self.cancel_wanted)
        buttons = QHBoxLayout()
        buttons.addStretch(1)
        buttons.addWidget(self.cancel_button)
        buttons.addStretch(1)
        return _centred(self._sentence, self._bar, buttons)

    def show_empty(self) -> None:
        """Say what to do."""
        self._pages.setCurrentIndex(0)

    def show_progress(self, sentence: str, share: float) -> None:
        """Say how far the work is; a share below zero is not known."""
        self._pages.setCurrentIndex(1)
        self._sentence.setText(sentence)
        self._bar.setRange(0, 0 if share < 0 else 100)
        self._bar.setValue(round(100 * max(share, 0.0)))


def _centred(*parts: QWidget | QHBoxLayout) -> QWidget:
    """A column of parts in the middle of the page, no wider than is good to read."""
    page = QWidget()
    column = QVBoxLayout()
    column.setSpacing(14)
    for part in parts:
        if isinstance(part, QHBoxLayout):
            column.addLayout(part)
            continue
        if isinstance(part, QLabel):
            part.setWordWrap(True)
            part.setAlignment(Qt.AlignmentFlag.AlignHCenter)
            part.setMinimumWidth(420)
        column.addWidget(part)
    outer = QHBoxLayout(page)
    outer.addStretch(1)
    outer.addLayout(column)
    outer.addStretch(1)
    return page
