"""The table of a plot's stems: what was typed and what is derived, apart; sorted by its own index array."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtCore import (
    QAbstractTableModel,
    QCoreApplication,
    QEvent,
    QModelIndex,
    QPersistentModelIndex,
    QRect,
    QSize,
    Qt,
    Slot,
)
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from stemmap.desktop.sentences import stem_sentence
from stemmap.desktop.session import WHOLE_SURVEY, Session
from stemmap.desktop.stem_columns import StemColumn, stem_columns

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

_tr = QCoreApplication.translate
_Index = QModelIndex | QPersistentModelIndex
_NO_PARENT = QModelIndex()
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
#: An en space, half as wide as the letters are high.
_GAP = "\u2002"
#: Texts from this length on may be cut off in their cell and are repeated in the tool tip.
_LONG = 12
_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter


class StemsModel(QAbstractTableModel):
    """Stems of the selected visit, read from the survey's columns cell by cell as they come into sight."""

    def __init__(self, session: Session, parent: QWidget) -> None:
        super().__init__(parent)
        self._session = session
        self._first, self._count = 0, 0
        self._order: NDArray[np.int64] | None = None
        self._place: NDArray[np.int64] | None = None
        self._sorted: tuple[int, Qt.SortOrder] = (-1, Qt.SortOrder.AscendingOrder)
        self.columns: tuple[StemColumn, ...] = ()

    def renew(self, *, columns: bool) -> None:
        """Show the stems of the session's visit; the columns too when the survey is another one."""
        self.beginResetModel()
        workup, visit = self._session.workup, self._session.visit
        if columns:
            self.columns = () if workup is None else stem_columns(workup)
            if self._sorted[0] >= len(self.columns):
                self._sorted = (-1, Qt.SortOrder.AscendingOrder)
        self._first = self._count = 0
        if workup is not None and visit != WHOLE_SURVEY:
            rows = workup.survey.visits.stems(visit)
            self._first, self._count = rows.start, rows.stop - rows.start
        self._arrange()
        self.endResetModel()

    def stem_at(self, row: int) -> int:
        """Stem row in a row of the table."""
        return self._first + (row if self._order is None else int(self._order[row]))

    def row_of(self, stem: int) -> int:
        """Row of the table for a stem row; -1 when it is of another plot."""
        place = stem - self._first
        if stem < 0 or not 0 <= place < self._count:
            return -1
        return place if self._place is None else int(self._place[place])

    def _arrange(self) -> None:
        column, direction = self._sorted
        self._order = self._place = None
        if column < 0 or not self._count:
            return
        import numpy as np

        keys = np.asarray(self.columns[column].order(slice(self._first, self._first + self._count)))
        if direction == Qt.SortOrder.DescendingOrder:
            keys = -keys  # ranks and numbers only; unknown numbers (NaN) stay last
        self._order = np.argsort(keys, kind="stable")
        self._place = np.argsort(self._order)

    def sort(self, column: int, order: Qt.SortOrder = Qt.SortOrder.AscendingOrder) -> None:
        """Sort by a column; the stems themselves stay where they are."""
        self.layoutAboutToBeChanged.emit()
        self._sorted = (column, order)
        self._arrange()
        self.layoutChanged.emit()

    def rowCount(self, parent: _Index = _NO_PARENT) -> int:
        """Number of rows."""
        return 0 if parent.isValid() else self._count

    def columnCount(self, parent: _Index = _NO_PARENT) -> int:
        """Number of columns."""
        return 0 if parent.isValid() else len(self.columns)

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """Heading of a column."""
        if orientation == Qt.Orientation.Vertical or section >= len(self.columns):
            return None
        column = self.columns[section]
        if role == Qt.ItemDataRole.DisplayRole:
            return column.title + _GAP if column.numeric else column.title
        if role == Qt.ItemDataRole.ToolTipRole:
            return column.meaning
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{group_title(column.group)}: {column.title}"
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return _RIGHT if column.numeric else _LEFT
        return None

    def data(self, index: _Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """What a cell shows or says."""
        if not index.isValid() or index.column() >= len(self.columns):
            return None
        column = self.columns[index.column()]
        if role == Qt.ItemDataRole.DisplayRole:
            return column.text(self.stem_at(index.row()))
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return _RIGHT if column.numeric else _LEFT
        if role == Qt.ItemDataRole.ToolTipRole and self._session.workup is not None:
            row = self.stem_at(index.row())
            sentence, text = stem_sentence(self._session.workup, row), column.text(row)
            return sentence if len(text) < _LONG else f"{text}\n{sentence}"
        return None


def group_title(group: str) -> str:
    """Heading of a group of columns."""
    return _tr("stems_table", "as typed") if group == "typed" else _tr("stems_table", "derived")


class GroupedHeader(QHeaderView):
    """Column headings with a band above them that names the group."""

    def __init__(self, model: StemsModel, parent: QWidget) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self._stems = model
        self.setSectionsClickable(True)
        self.setHighlightSections(False)
        self.setSortIndicatorShown(True)
        self.setSortIndicatorClearable(True)
        self.setSortIndicator(-1, Qt.SortOrder.AscendingOrder)

    @property
    def _band(self) -> int:
        return self.fontMetrics().height() + 4

    def sizeHint(self) -> QSize:
        """Size that suits the content."""
        size = super().sizeHint()
        return QSize(size.width(), self.fontMetrics().height() + 10 + self._band)

    def paintSection(self, painter: QPainter, rect: QRect, logicalIndex: int) -> None:  # noqa: N803 - Qt's own name
        """Paint one heading below the band."""
        super().paintSection(painter, rect.adjusted(0, self._band, 0, 0), logicalIndex)

    def paintEvent(self, e: QPaintEvent) -> None:
        """Paint the headings and the band above them."""
        super().paintEvent(e)
        columns = self._stems.columns
        if not columns:
            return
        painter = QPainter(self.viewport())
        palette, visible = self.palette(), self.viewport().rect()
        for group in ("typed", "derived"):
            members = [place for place, column in enumerate(columns) if column.group == group]
            if not members:
                continue
            left = self.sectionViewportPosition(members[0])
            right = self.sectionViewportPosition(members[-1]) + self.sectionSize(members[-1])
            band = QRect(left, 0, right - left, self._band).intersected(visible)
            role = QPalette.ColorRole.AlternateBase if group == "typed" else QPalette.ColorRole.Button
            painter.fillRect(band, palette.color(role))
            painter.setPen(palette.color(QPalette.ColorRole.Mid))
            painter.drawLine(band.bottomLeft(), band.bottomRight())
            painter.drawLine(right - 1, 0, right - 1, self.height())
            painter.setPen(palette.color(QPalette.ColorRole.WindowText))
            painter.drawText(band.adjusted(6, 0, -4, 0), _LEFT, group_title(group))


class NumberDelegate(QStyledItemDelegate):
    """Keeps numbers, which are set to the right, apart from the column beside them."""

    def initStyleOption(self, option: QStyleOptionViewItem, index: _Index) -> None:
        """Add a gap after a number."""
        super().initStyleOption(option, index)
        if option.displayAlignment & Qt.AlignmentFlag.AlignRight and option.text:
            option.text += _GAP


class StemsTable(QTableView):
    """Follows and leads the selected stem."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._model = StemsModel(session, self)
        self.setModel(self._model)
        self.setHorizontalHeader(GroupedHeader(self._model, self))
        self.setSortingEnabled(True)
        self.setAccessibleName(self.tr("Stems of the plot"))
        self.setAccessibleDescription(
            self.tr("What was typed for each stem and what is derived from it; arrow keys choose a stem.")
        )
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setTabKeyNavigation(False)
        self.setAlternatingRowColors(True)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setItemDelegate(NumberDelegate(self))
        self.verticalHeader().hide()
        self.verticalHeader().setDefaultSectionSize(self.fontMetrics().height() + 6)
        self.selectionModel().currentRowChanged.connect(self._on_row_chosen)
        session.replaced.connect(self._on_replaced)
        session.visit_selected.connect(self._on_visit_selected)
        session.stem_selected.connect(self._on_stem_selected)

    @Slot()
    def _on_replaced(self) -> None:
        titles = [column.title for column in self._model.columns]
        self._model.renew(columns=True)
        if titles != [column.title for column in self._model.columns]:
            self._set_widths()
        self._on_stem_selected()

    def _set_widths(self) -> None:
        """Width of each column from its heading and its first cells only; a long table is never read for it."""
        measure = self.fontMetrics().horizontalAdvance
        for place, column in enumerate(self._model.columns):
            rows = range(min(self._model.rowCount(), 30))
            texts = [column.title + "  ", *(column.text(self._model.stem_at(row)) for row in rows)]
            self.setColumnWidth(place, min(max(measure(text) for text in texts) + 18, 260))

    @Slot()
    def _on_visit_selected(self) -> None:
        self._model.renew(columns=False)
        self.scrollToTop()

    @Slot()
    def _on_stem_selected(self) -> None:
        row = self._model.row_of(self._session.stem)
        if row < 0:
            self.clearSelection()
            self.setCurrentIndex(QModelIndex())
        elif row != self.currentIndex().row():
            column = max(self.currentIndex().column(), 0)
            self.setCurrentIndex(self._model.index(row, column))

    @Slot(QModelIndex, QModelIndex)
    def _on_row_chosen(self, current: QModelIndex, _previous: QModelIndex) -> None:
        if current.isValid():
            self._session.select_stem(self._model.stem_at(current.row()))

    def event(self, event: QEvent) -> bool:
        """Keep the page keys for scrolling; elsewhere they go from plot to plot."""
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent):
            pages = event.key() in (Qt.Key.Key_PageDown, Qt.Key.Key_PageUp)
            if pages and not event.modifiers():
                event.accept()
                return True
        return super().event(event)
