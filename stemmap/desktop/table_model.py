"""A table over columns: cells are made as they come into sight, rows are arranged by an index array of its own."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import (
    QAbstractTableModel,
    QCoreApplication,
    QModelIndex,
    QPersistentModelIndex,
    Qt,
    Signal,
)
from PySide6.QtWidgets import QWidget

from stemmap.desktop.columns import Arrangement, TableColumn, Wanted, arrange
from stemmap.desktop.jobs import Jobs

if TYPE_CHECKING:
    from stemmap.progress import Progress

_tr = QCoreApplication.translate
_Index = QModelIndex | QPersistentModelIndex
_NO_PARENT = QModelIndex()
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
#: An en space, half as wide as the letters are high.
GAP = "\u2002"
#: Texts from this length on may be cut off in their cell and are repeated in the tool tip.
_LONG = 12
#: Rows from which on they are sorted and filtered off the GUI thread.
MANY = 100_000


class TableModel(QAbstractTableModel):
    """Rows of columns, sorted and filtered.

    Signals
    -------
    arranged
        Other rows are shown, or in another order.
    """

    arranged = Signal()

    def __init__(self, name: str, jobs: Jobs, parent: QWidget) -> None:
        super().__init__(parent)
        self._name, self._jobs = name, jobs
        self.columns: tuple[TableColumn, ...] = ()
        self.shown = Arrangement(Wanted(slice(0, 0)))
        self._wanted = self.shown.wanted
        self.tip: Callable[[int], str] | None = None
        self.accessible: Callable[[int], str] | None = None

    @property
    def waiting(self) -> bool:
        """Whether what is shown is not yet what was asked for."""
        return self._wanted != self.shown.wanted

    @property
    def rows(self) -> slice:
        """The rows in question, shown or filtered out."""
        return self._wanted.rows

    def renew(self, rows: slice, *, columns: tuple[TableColumn, ...] | None = None, pinned: int = 0) -> None:
        """Show other rows, and other columns where they are given, filtered and sorted as before."""
        wanted = replace(self._wanted, rows=rows, pinned=pinned)
        if columns is not None and len(columns) <= wanted.column:
            wanted = replace(wanted, column=-1)
        self.beginResetModel()
        if columns is not None:
            self.columns = columns
        self.shown = Arrangement(Wanted(rows, pinned=pinned))
        self._wanted = wanted
        if not self._takes_long(wanted):
            self.shown = arrange(self.columns, wanted)
        self.endResetModel()
        if self._takes_long(wanted):
            self._begin()
        self.arranged.emit()

    def sort(self, column: int, order: Qt.SortOrder = Qt.SortOrder.AscendingOrder) -> None:
        """Sort by a column; the records themselves stay where they are."""
        self._want(replace(self._wanted, column=column, descending=order == Qt.SortOrder.DescendingOrder))

    def filter(self, words: str) -> None:
        """Show only rows that hold all words."""
        self._want(replace(self._wanted, words=words))

    def _want(self, wanted: Wanted) -> None:
        if wanted == self._wanted:
            return
        self._wanted = wanted
        if self._takes_long(wanted):
            self._begin()
        else:
            self._show(arrange(self.columns, wanted))

    def _takes_long(self, wanted: Wanted) -> bool:
        plain = wanted.column < 0 and not wanted.words.strip()
        return wanted.rows.stop - wanted.rows.start > MANY and not plain

    def _begin(self) -> None:
        columns, wanted = self.columns, self._wanted

        def work(_progress: Progress) -> Arrangement:
            return arrange(columns, wanted)

        self._jobs.start(f"table-{self._name}", work, apply=self._show, shown=False)

    def _show(self, arrangement: Arrangement) -> None:
        if arrangement.wanted != self._wanted:
            return
        self.beginResetModel()
        self.shown = arrangement
        self.endResetModel()
        self.arranged.emit()

    def text(self, place: int, column: int) -> str:
        """Text of a cell."""
        return self.columns[column].text(self.shown.row_at(place))

    def rowCount(self, parent: _Index = _NO_PARENT) -> int:
        """Number of rows."""
        return 0 if parent.isValid() else len(self.shown)

    def columnCount(self, parent: _Index = _NO_PARENT) -> int:
        """Number of columns."""
        return 0 if parent.isValid() else len(self.columns)

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """Heading of a column."""
        if orientation == Qt.Orientation.Vertical or section >= len(self.columns):
            return None
        column = self.columns[section]
        if role == Qt.ItemDataRole.DisplayRole:
            return column.title + GAP if column.numeric else column.title
        if role == Qt.ItemDataRole.ToolTipRole:
            return column.meaning
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{group_title(column.group)}: {column.title}" if column.group else column.title
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return _RIGHT if column.numeric else _LEFT
        return None

    def data(self, index: _Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """What a cell shows or says."""
        if not index.isValid() or index.column() >= len(self.columns) or index.row() >= len(self.shown):
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return self.text(index.row(), index.column())
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return _RIGHT if self.columns[index.column()].numeric else _LEFT
        if role == Qt.ItemDataRole.ToolTipRole and self.tip is not None:
            sentence, text = self.tip(self.shown.row_at(index.row())), self.text(index.row(), index.column())
            return sentence if len(text) < _LONG or text in sentence else f"{text}\n{sentence}"
        if role == Qt.ItemDataRole.AccessibleTextRole and self.accessible is not None:
            return self.accessible(self.shown.row_at(index.row()))
        return None


def group_title(group: str) -> str:
    """Heading of a group of columns."""
    return _tr("table_model", "as typed") if group == "typed" else _tr("table_model", "derived")
