"""What is shown while no survey is open: what to do, or how far reading is."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPalette, QPen
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QProgressBar,
    QPushButton,
    QScrollArea,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from stemmap.desktop.recent import Recent, recent_surveys

#: Surveys opened lately that the page names; the menu has them all.
_NAMED: Final = 5
#: Width of the page's column in letters, as is good to read.
_LETTERS: Final = 76


class StartPage(QWidget):
    """The empty window.

    Signals
    -------
    open_wanted, sample_wanted, cancel_wanted
        A button was pressed.
    recent_wanted
        A survey opened lately was chosen.
    """

    open_wanted = Signal()
    sample_wanted = Signal()
    cancel_wanted = Signal()
    recent_wanted = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._pages = QStackedWidget()
        self._pages.addWidget(self._empty())
        self._pages.addWidget(self._reading())
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self._pages)

    def _empty(self) -> QWidget:
        heading = QLabel(self.tr("Which plots can be trusted?"))
        font = heading.font()
        font.setPointSizeF(font.pointSizeF() * 1.7)
        heading.setFont(font)
        job = QLabel(
            self.tr(
                "stemmap reads azimuth, distance and dbh as the crew typed them, maps every stem, and shows which "
                "records are doubtful and what they change per hectare."
            )
        )
        what = QLabel(
            self.tr(
                "Open the files of one survey together, or drop them here: plots and stems as CSV, XLSX, GeoJSON or "
                "GeoPackage, with a settings file if there is one. Uploads are only read."
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
        self._drop_area = _DropArea(_column(what, buttons))
        self._recent_title = QLabel(self.tr("Opened lately"))
        self._recent = QVBoxLayout()
        self._recent.setSpacing(2)
        self.recent_buttons: list[QPushButton] = []
        self._fill_recent()
        page = QScrollArea()  # with large letters and many surveys a small window does not hold it all
        page.setFrameShape(QFrame.Shape.NoFrame)
        page.setWidgetResizable(True)
        page.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # every control in it can be reached, which scrolls
        page.setWidget(_centred(heading, job, self._drop_area, self._recent_title, self._recent))
        return page

    def _fill_recent(self) -> None:
        """Name what was opened lately; surveys whose files are gone are greyed."""
        for button in self.recent_buttons:
            self._recent.removeWidget(button)
            button.deleteLater()
        surveys = recent_surveys()[:_NAMED]
        self.recent_buttons = [self._recent_button(survey) for survey in surveys]
        for button in self.recent_buttons:
            self._recent.addWidget(button)
        self._recent_title.setVisible(bool(surveys))

    def _recent_button(self, survey: Recent) -> QPushButton:
        button = QPushButton()
        shown = button.fontMetrics().elidedText(survey.title, Qt.TextElideMode.ElideMiddle, _width(button) - 40)
        button.setText(shown.replace("&", "&&"))
        button.setFlat(True)
        button.setAccessibleName(survey.title)
        button.setEnabled(not survey.missing)
        files = "\n".join(map(str, survey.paths))
        gone = self.tr("A file of it is no longer where it was:")
        button.setToolTip(f"{gone}\n{files}" if survey.missing else files)
        button.clicked.connect(lambda: self.recent_wanted.emit(survey))
        return button

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
        self._fill_recent()
        self._pages.setCurrentIndex(0)

    def invite(self, *, dragged: bool) -> None:
        """Show that files can be dropped, stronger while some are dragged over the window."""
        self._drop_area.lit = dragged
        self._drop_area.update()

    def show_progress(self, sentence: str, share: float) -> None:
        """Say how far the work is; a share below zero is not known."""
        self._pages.setCurrentIndex(1)
        self._sentence.setText(sentence)
        self._bar.setRange(0, 0 if share < 0 else 100)
        self._bar.setValue(round(100 * max(share, 0.0)))


class _DropArea(QFrame):
    """A dashed frame around what is said about opening; files may be dropped anywhere in the window."""

    def __init__(self, content: QVBoxLayout) -> None:
        super().__init__()
        self.lit = False
        content.setContentsMargins(24, 18, 24, 18)
        self.setLayout(content)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the frame."""
        super().paintEvent(event)
        roles = QPalette.ColorRole
        colour = self.palette().color(roles.Highlight if self.lit else roles.PlaceholderText)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(colour, 3.0 if self.lit else 1.2, Qt.PenStyle.DashLine))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(2, 2, -2, -2), 6, 6)


def _column(*parts: QWidget | QHBoxLayout | QVBoxLayout) -> QVBoxLayout:
    """Parts below each other, texts wrapped and centred."""
    column = QVBoxLayout()
    column.setSpacing(14)
    for part in parts:
        if isinstance(part, QWidget):
            column.addWidget(part)
        else:
            column.addLayout(part)
        if isinstance(part, QLabel):
            part.setWordWrap(True)
            part.setAlignment(Qt.AlignmentFlag.AlignHCenter)
    return column


def _centred(*parts: QWidget | QHBoxLayout | QVBoxLayout) -> QWidget:
    """A column of parts in the middle of the page, no wider than is good to read."""
    page = QWidget()
    inner = QWidget()
    inner.setLayout(_column(*parts))
    inner.setFixedWidth(_width(inner))
    outer = QGridLayout(page)
    for place, share in ((0, 2), (2, 3)):
        outer.setRowStretch(place, share)
        outer.setColumnStretch(place, 1)
    outer.addWidget(inner, 1, 1)
    return page


def _width(widget: QWidget) -> int:
    """Width of the page's column in pixels."""
    return _LETTERS * widget.fontMetrics().averageCharWidth()
