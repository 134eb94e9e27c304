"""The list of plots: each visit with its state in words."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt, Slot
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView, QWidget

from stemmap.desktop.round import Round
from stemmap.desktop.sentences import visit_name, visit_state
from stemmap.desktop.session import WHOLE_SURVEY, Opened, Session

_Index = QModelIndex | QPersistentModelIndex
_NO_PARENT = QModelIndex()


class PlotsModel(QAbstractTableModel):
    """The whole survey in the first row, then one row for each visit; words are made for the rows in sight only."""

    def __init__(self, session: Session, going: Round, parent: QWidget) -> None:
        super().__init__(parent)
        self._session, self._round = session, going
        going.changed.connect(self._on_looked)
        self._strong = QFont(parent.font())
        self._strong.setBold(True)
        self._headings = (self.tr("Plot"), self.tr("Visit"), self.tr("State"))

    def _text(self, opened: Opened, visit: int, column: int) -> str:
        if column == 2:
            return visit_state(opened, visit, self._round.looked_at(visit))
        if visit == WHOLE_SURVEY:
            return self.tr("all") if column == 0 else ""
        visits = opened.workup.survey.visits
        return str((visits.plot if column == 0 else visits.visit)[visit])

    @Slot()
    def _on_looked(self) -> None:
        row = self.row_of(self._session.visit)
        if row < self.rowCount():
            self.dataChanged.emit(self.index(row, 2), self.index(row, 2))

    def renew(self) -> None:
        """Show what the session holds now."""
        self.beginResetModel()
        self.endResetModel()

    def row_of(self, visit: int) -> int:
        """Row of the list for a visit row."""
        return visit - WHOLE_SURVEY

    def visit_of(self, row: int) -> int:
        """Visit row of a row of the list."""
        return row + WHOLE_SURVEY

    def rowCount(self, parent: _Index = _NO_PARENT) -> int:
        """Number of rows."""
        workup = self._session.workup
        return 0 if parent.isValid() or workup is None else len(workup.survey.visits) + 1

    def columnCount(self, parent: _Index = _NO_PARENT) -> int:
        """Number of columns."""
        return 0 if parent.isValid() else len(self._headings)

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """Heading of a column."""
        if orientation == Qt.Orientation.Horizontal and role == Qt.ItemDataRole.DisplayRole:
            return self._headings[section]
        return None

    def data(self, index: _Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """What a cell shows or says."""
        opened = self._session.opened
        if opened is None or not index.isValid():
            return None
        visit = self.visit_of(index.row())
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole):
            return self._text(opened, visit, index.column())
        if role == Qt.ItemDataRole.FontRole and opened.errors[visit] and index.column() == 2:
            return self._strong
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{visit_name(opened.workup, visit)}: {visit_state(opened, visit)}"
        return None


class PlotsPanel(QTableView):
    """Follows and leads the selected visit."""

    def __init__(self, session: Session, going: Round, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._model = PlotsModel(session, going, self)
        self.setModel(self._model)
        self.setAccessibleName(self.tr("Plots"))
        self.setAccessibleDescription(self.tr("Each plot and visit with its state; arrow keys choose one."))
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.setAlternatingRowColors(True)
        self.setWordWrap(False)
        self.verticalHeader().hide()
        self.verticalHeader().setDefaultSectionSize(self.fontMetrics().height() + 8)
        heading = self.horizontalHeader()
        heading.setHighlightSections(False)
        heading.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        heading.setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
        heading.setStretchLastSection(True)
        width = self.fontMetrics().horizontalAdvance("0000000")
        self.setColumnWidth(0, width)
        self.setColumnWidth(1, width)
        self.selectionModel().currentRowChanged.connect(self._on_row_chosen)
        session.replaced.connect(self._on_replaced)
        session.visit_selected.connect(self._on_visit_selected)

    @Slot()
    def _on_replaced(self) -> None:
        self._model.renew()
        workup = self._session.workup
        self.setColumnHidden(1, workup is not None and not any(workup.survey.visits.visit[:1000]))
        self._on_visit_selected()

    @Slot()
    def _on_visit_selected(self) -> None:
        row = self._model.row_of(self._session.visit)
        if row != self.currentIndex().row() and row < self._model.rowCount():
            self.setCurrentIndex(self._model.index(row, 2))

    @Slot(QModelIndex, QModelIndex)
    def _on_row_chosen(self, current: QModelIndex, _previous: QModelIndex) -> None:
        if current.isValid():
            self._session.select_visit(self._model.visit_of(current.row()))
