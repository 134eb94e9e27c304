"""Several stems or plots at once: taken in a box on the map or in their table, and the same in both."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from PySide6.QtCore import QItemSelection, QItemSelectionModel, QObject, Signal, Slot

from stemmap.desktop.session import Session

if TYPE_CHECKING:
    from stemmap.desktop.table_panel import TablePanel


class MarkedRows(QObject):
    """Rows of the stems, or of the visits, that are marked together.

    Signals
    -------
    changed
        Others are marked, or none.
    """

    changed = Signal()

    def __init__(self, session: Session, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.rows: frozenset[int] = frozenset()
        session.replaced.connect(self.clear)
        session.visit_selected.connect(self.clear)

    def mark(self, rows: Iterable[int]) -> None:
        """Mark these and no others."""
        wanted = frozenset(rows)
        if wanted != self.rows:
            self.rows = wanted
            self.changed.emit()

    @Slot()
    def clear(self) -> None:
        """Mark none."""
        self.mark(())


class MarkedInTable(QObject):
    """Keeps the rows selected in a table and what is marked on the map the same.

    Parameters
    ----------
    marked, table
        Those on the map, and the table.
    first
        Row of the table that stands for row 0 of what is marked.
    """

    def __init__(self, marked: MarkedRows, table: TablePanel, *, first: int = 0) -> None:
        super().__init__(table)
        self._marked, self._table, self._first = marked, table, first
        self._following = False
        marked.changed.connect(self._show)
        table.view.selectionModel().selectionChanged.connect(self._on_selected)

    @Slot()
    def _show(self) -> None:
        if self._following or not self._marked.rows:
            return
        model, places = self._table.model, QItemSelection()
        last = max(model.columnCount() - 1, 0)
        for row in sorted(self._marked.rows):
            place = model.shown.place_of(row + self._first)
            if place >= 0:
                places.select(model.index(place, 0), model.index(place, last))
        self._following = True
        self._table.view.selectionModel().select(places, QItemSelectionModel.SelectionFlag.ClearAndSelect)
        if places.count():
            self._table.view.scrollTo(model.index(min(one.top() for one in places.toList()), 0))
        self._following = False

    @Slot()
    def _on_selected(self) -> None:
        if self._following:
            return
        ranges = [(one.top(), one.bottom()) for one in self._table.view.selectionModel().selection().toList()]
        places = [place for first, last in ranges for place in range(first, last + 1)]
        self._following = True
        rows = [self._table.model.shown.row_at(place) - self._first for place in places]
        self._marked.mark(row for row in rows if row >= 0 and len(rows) > 1)
        self._following = False
