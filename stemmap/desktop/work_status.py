"""The right end of the status bar: what is being done, how far it is, and a way to stop it."""

from __future__ import annotations

from PySide6.QtCore import Slot
from PySide6.QtWidgets import QHBoxLayout, QLabel, QProgressBar, QPushButton, QWidget

from stemmap.desktop.jobs import Jobs


class WorkStatus(QWidget):
    """Hidden while nothing is being done."""

    def __init__(self, jobs: Jobs, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._sentence = QLabel()
        self._bar = QProgressBar()
        self._bar.setTextVisible(False)
        self._bar.setFixedWidth(140)
        self._bar.setAccessibleName(self.tr("Progress"))
        self.cancel_button = QPushButton(self.tr("Cancel"))
        self.cancel_button.setToolTip(self.tr("Stop what is being done; nothing is changed"))
        self.cancel_button.clicked.connect(jobs.cancel)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        for part in (self._sentence, self._bar, self.cancel_button):
            layout.addWidget(part)
        jobs.progressed.connect(self._on_progressed)
        jobs.idled.connect(self.hide)
        self.hide()

    @Slot(str, float)
    def _on_progressed(self, sentence: str, share: float) -> None:
        self._sentence.setText(sentence)
        self._bar.setRange(0, 0 if share < 0 else 100)
        self._bar.setValue(round(100 * max(share, 0.0)))
        self.show()
