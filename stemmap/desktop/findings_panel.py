"""The selected plot's findings as sentences."""

from __future__ import annotations

from functools import lru_cache
from math import ceil
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import (
    QAbstractListModel,
    QModelIndex,
    QPersistentModelIndex,
    QPoint,
    QPointF,
    QRect,
    QSize,
    Qt,
    Slot,
)
from PySide6.QtGui import QColor, QFont, QPainter, QPalette, QTextLayout, QTextOption
from PySide6.QtWidgets import (
    QAbstractItemView,
    QLabel,
    QListView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QVBoxLayout,
    QWidget,
)

from stemmap.desktop.decided_list import DecidedList
from stemmap.desktop.decision_words import decision_sentence
from stemmap.desktop.palettes import severity_colour
from stemmap.desktop.sentences import finding_place, finding_remainder, severity_word, visit_name, visit_state
from stemmap.desktop.session import Session

if TYPE_CHECKING:
    from stemmap.desktop.session import Opened
    from stemmap.survey.finding import Finding

_Index = QModelIndex | QPersistentModelIndex
_NO_PARENT = QModelIndex()
_FINDING, _DECISION = Qt.ItemDataRole.UserRole, Qt.ItemDataRole.UserRole + 1
_MARGIN = 8
_SIGN = 20


class FindingsModel(QAbstractListModel):
    """Findings of the selected visit, as the session held them when it was last renewed."""

    def __init__(self, session: Session, parent: QWidget) -> None:
        super().__init__(parent)
        self._session = session
        self._findings: list[Finding] = []

    def renew(self) -> None:
        """Show what the session holds now."""
        self.beginResetModel()
        self._findings = self._session.findings
        self.endResetModel()

    def rowCount(self, parent: _Index = _NO_PARENT) -> int:
        """Number of rows."""
        return 0 if parent.isValid() else len(self._findings)

    def data(self, index: _Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """What a cell shows or says."""
        if not index.isValid() or index.row() >= len(self._findings):
            return None
        told = self._findings[index.row()]
        if role == _FINDING:
            return told
        if role == _DECISION:
            return self._decision(told)
        if role == Qt.ItemDataRole.DisplayRole:
            return told.message
        if role == Qt.ItemDataRole.AccessibleTextRole:
            heading = f"{severity_word(told.severity)}, {finding_place(told)}."
            return " ".join([heading, told.message, finding_remainder(told), self._decision(told)])
        return None

    def _decision(self, told: Finding) -> str:
        """What was decided on a finding that is there all the same; empty where nothing was."""
        workup = self._session.workup
        entry = None if workup is None else workup.survey.decisions.standing.get(told.id)
        return "" if entry is None else decision_sentence(entry)


class SentenceDelegate(QStyledItemDelegate):
    """Paints a finding: sign and word of its severity, what it speaks of, the sentence, and what it is worth."""

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: _Index) -> None:
        """Paint one finding."""
        told: Finding = index.data(_FINDING)
        selected = bool(option.state & QStyle.StateFlag.State_Selected)
        palette = option.palette
        painter.save()
        background = QPalette.ColorRole.Highlight if selected else QPalette.ColorRole.Base
        painter.fillRect(option.rect, palette.color(background))
        ink = palette.color(QPalette.ColorRole.HighlightedText if selected else QPalette.ColorRole.Text)
        inner = option.rect.adjusted(_MARGIN, _MARGIN - 2, -_MARGIN, -_MARGIN + 2)
        self._paint_sign(painter, inner.topLeft(), told, option, ink if selected else None)
        painter.setPen(ink)
        inner.setLeft(inner.left() + _SIGN)
        for text, font in _paragraphs(told, index.data(_DECISION), option.font):
            lines = _lines(text, font, inner.width())
            lines.draw(painter, QPointF(inner.topLeft()))
            inner.setTop(inner.top() + _height(lines))
        if not selected:
            painter.setPen(palette.color(QPalette.ColorRole.Mid))
            painter.drawLine(option.rect.bottomLeft(), option.rect.bottomRight())
        elif option.state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(ink)
            painter.drawRect(option.rect.adjusted(1, 1, -2, -2))
        painter.restore()

    def _paint_sign(
        self, painter: QPainter, corner: QPoint, told: Finding, option: QStyleOptionViewItem, ink: QColor | None
    ) -> None:
        """The letter of the family as on the map: in a full square for an error, an open one for the rest."""
        from stemmap.drawing.doubts import LETTERS

        box = QRect(corner.x(), corner.y() + 1, 15, 15)
        colour = ink or severity_colour(told.severity, option.palette)
        font = QFont(option.font)
        font.setBold(True)
        font.setPixelSize(11)
        painter.setFont(font)
        painter.setPen(colour)
        if told.severity == "error":
            painter.fillRect(box, colour)
            under = QPalette.ColorRole.Highlight if ink else QPalette.ColorRole.Base
            painter.setPen(option.palette.color(under))
        else:
            painter.drawRect(box)
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, LETTERS[told.family])

    def sizeHint(self, option: QStyleOptionViewItem, index: _Index) -> QSize:
        """Size that suits the content."""
        told: Finding = index.data(_FINDING)
        view = option.widget
        width = (view.viewport().width() if isinstance(view, QListView) else 300) - 2 * _MARGIN - _SIGN
        paragraphs = _paragraphs(told, index.data(_DECISION), option.font)
        height = sum(_height_of(text, font.toString(), width) for text, font in paragraphs)
        return QSize(width, height + 2 * _MARGIN - 2)


def _paragraphs(told: Finding, decision: str, font: QFont) -> list[tuple[str, QFont]]:
    strong, slanted = QFont(font), QFont(font)
    strong.setBold(True)
    slanted.setItalic(True)
    heading = f"{severity_word(told.severity)} · {finding_place(told)}"
    parts = [(heading, strong), (told.message, font), (finding_remainder(told), font), (decision, slanted)]
    return [(text, one) for text, one in parts if text]


def _lines(text: str, font: QFont, width: int) -> QTextLayout:
    """A text broken into lines between words, or within a word that is longer than a line."""
    layout = QTextLayout(text, font)
    option = QTextOption()
    option.setWrapMode(QTextOption.WrapMode.WrapAtWordBoundaryOrAnywhere)
    layout.setTextOption(option)
    layout.beginLayout()
    top = 0.0
    while (line := layout.createLine()).isValid():
        line.setLineWidth(max(width, 60))
        line.setPosition(QPointF(0.0, top))
        top += line.height()
    layout.endLayout()
    return layout


@lru_cache(maxsize=4000)
def _height_of(text: str, font: str, width: int) -> int:
    """Height of a text in a font that is given in words; Qt asks for it several times when the findings change."""
    made = QFont()
    made.fromString(font)
    return _height(_lines(text, made, width))


def _height(lines: QTextLayout) -> int:
    return ceil(lines.boundingRect().height()) + 2


class FindingsPanel(QWidget):
    """Follows and leads the selected finding."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._heading = QLabel()
        self._heading.setWordWrap(True)
        self._heading.setContentsMargins(_MARGIN, 6, _MARGIN, 6)
        self.list = QListView()
        self._model = FindingsModel(session, self.list)
        self.list.setModel(self._model)
        self.list.setItemDelegate(SentenceDelegate(self.list))
        self.list.setAccessibleName(self.tr("Findings of the plot"))
        self.list.setAccessibleDescription(self.tr("Choosing a finding selects the stem it speaks of."))
        self.list.setLayoutMode(QListView.LayoutMode.Batched)
        self.list.setBatchSize(40)
        self.list.setResizeMode(QListView.ResizeMode.Adjust)
        self.list.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)
        self.list.selectionModel().currentChanged.connect(self._on_row_chosen)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        self._nothing = QLabel()
        self._nothing.setWordWrap(True)
        self._nothing.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)
        self._nothing.setContentsMargins(_MARGIN, 6, _MARGIN, 6)
        layout.addWidget(self._heading)
        layout.addWidget(self._nothing, 1)
        layout.addWidget(self.list, 1)
        layout.addWidget(DecidedList(session))
        session.replaced.connect(self._on_visit_selected)
        session.visit_selected.connect(self._on_visit_selected)
        session.finding_selected.connect(self._on_finding_selected)

    @Slot()
    def _on_visit_selected(self) -> None:
        self._model.renew()
        opened = self._session.opened
        if opened is not None:
            visit = self._session.visit
            words, shown = visit_state(opened, visit), len(self._session.findings)
            if shown < opened.count(visit):
                words += self.tr(" (the first {n} are shown)").format(n=shown)
            self._heading.setText(f"{visit_name(opened.workup, visit)}: {words}")
            if not opened.checked:
                self._heading.setText(self.tr("Findings under the settings before; they are being worked out anew…"))
            self._nothing.setText(self._nothing_found(opened))
            self._nothing.setVisible(not shown)
            self.list.setVisible(bool(shown))
        self._on_finding_selected()

    def _nothing_found(self, opened: Opened) -> str:
        """What is said where a plot has no findings, and where to go on."""
        if int((opened.errors + opened.warnings).sum()):
            return self.tr("No check found anything here. N goes on to what needs a look on other plots.")
        return self.tr("No check found anything here, and nothing on the other plots needs a look.")

    @Slot()
    def _on_finding_selected(self) -> None:
        place = self._session.finding
        if place < 0:
            self.list.clearSelection()
            self.list.setCurrentIndex(QModelIndex())
        elif place != self.list.currentIndex().row():
            self.list.setCurrentIndex(self._model.index(place))
            self.list.scrollTo(self._model.index(place))

    @Slot(QModelIndex, QModelIndex)
    def _on_row_chosen(self, current: QModelIndex, _previous: QModelIndex) -> None:
        if current.isValid():
            self._session.select_finding(current.row())
