"""The journal beside the window: every decision, searched by typing."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtCore import (
    QAbstractTableModel,
    QModelIndex,
    QPersistentModelIndex,
    QSortFilterProxyModel,
    Qt,
    Slot,
)
from PySide6.QtWidgets import QAbstractItemView, QLabel, QLineEdit, QTableView, QVBoxLayout, QWidget

from stemmap.desktop.sentences import field_words

if TYPE_CHECKING:
    from stemmap.desktop.window import MainWindow
    from stemmap.survey.journal import Entry

_Index = QModelIndex | QPersistentModelIndex


class _JournalModel(QAbstractTableModel):
    """Entries as rows, the last one first."""

    NAMES = ("entry", "time", "who", "plot", "visit", "stem", "decision", "field", "old", "new", "why")

    def __init__(self, entries: tuple[Entry, ...], headings: tuple[str, ...], words: dict[str, str]) -> None:
        super().__init__()
        self.entries, self._headings, self._words = entries[::-1], headings, words

    def rowCount(self, parent: _Index = QModelIndex()) -> int:  # noqa: B008 - Qt's own default
        return 0 if parent.isValid() else len(self.entries)

    def columnCount(self, parent: _Index = QModelIndex()) -> int:  # noqa: B008 - Qt's own default
        return 0 if parent.isValid() else len(self.NAMES)

    def data(self, index: _Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if role not in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole):
            return None
        value = getattr(self.entries[index.row()], self.NAMES[index.column()])
        name = self.NAMES[index.column()]
        if name == "time":
            return str(value)[:16].replace("T", " ")
        if name == "decision":
            return self._words[str(value)]
        if name == "field" and value:
            return field_words(str(value))
        return "" if value is None else str(value)

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if role == Qt.ItemDataRole.DisplayRole and orientation == Qt.Orientation.Horizontal:
            return self._headings[section]
        return None


class JournalWindow(QWidget):
    """A window of its own with a filter line above the table; a click goes to the stem."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window, Qt.WindowType.Window)
        self.setWindowTitle(self.tr("Journal – stemmap"))
        self.resize(980, 460)
        self._window = window
        self.filter_line, self.table, self._empty = QLineEdit(), QTableView(), QLabel()
        self.filter_line.setPlaceholderText(self.tr("Filter by typing"))
        self.filter_line.setAccessibleName(self.tr("Filter of the journal"))
        self.filter_line.setClearButtonEnabled(True)
        self.table.setAccessibleName(self.tr("Journal"))
        self.table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.table.setAlternatingRowColors(True)
        self.table.verticalHeader().hide()
        self.table.horizontalHeader().setStretchLastSection(True)
        self._empty.setWordWrap(True)
        self._found = QSortFilterProxyModel(self)
        self._found.setFilterKeyColumn(-1)
        self._found.setFilterCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        self.table.setModel(self._found)
        self.filter_line.textChanged.connect(self._found.setFilterFixedString)
        self.table.clicked.connect(self._on_clicked)
        column = QVBoxLayout(self)
        for part in (self.filter_line, self._empty, self.table):
            column.addWidget(part)
        self._model: _JournalModel | None = None
        window.deciding.decided.connect(self.read)
        window.session.replaced.connect(self.read)
        self.read()

    @Slot()
    def read(self) -> None:
        """Read the journal anew from the disk."""
        from stemmap.errors import StemmapError
        from stemmap.store.decisions import entries
        from stemmap.store.survey_file import opened

        told: tuple[Entry, ...] = ()
        path = self._window.deciding.survey_path
        sentence = self.tr("Uploads have no journal. Keep them as a survey file first: File, Keep as survey file.")
        if path is not None:
            sentence = self.tr("Nothing was decided yet.")
            try:
                with opened(path) as survey_file:
                    told = entries(survey_file)
            except StemmapError as fault:
                sentence = str(fault)
        headings = (
            *(self.tr("entry"), self.tr("time (UTC)"), self.tr("who"), self.tr("plot"), self.tr("visit")),
            *(self.tr("stem"), self.tr("decision"), self.tr("field"), self.tr("old"), self.tr("new"), self.tr("why")),
        )
        words = {
            "correct": self.tr("corrected as proposed"),
            "value": self.tr("another value"),
            "keep": self.tr("kept as recorded"),
            "recheck": self.tr("measure again"),
            "undo": self.tr("undone"),
            "redo": self.tr("done again"),
            "lost": self.tr("lost in a damaged file"),
        }
        self._model = _JournalModel(told, headings, words)
        self._found.setSourceModel(self._model)
        letter = self.table.fontMetrics().averageCharWidth()
        for column, letters in enumerate((8, 19, 14, 10, 10, 8, 24, 14, 12, 12)):
            self.table.setColumnWidth(column, letters * letter)
        self._empty.setText(sentence)
        self._empty.setVisible(not told)
        self.table.setVisible(bool(told))

    @Slot(QModelIndex)
    def _on_clicked(self, index: QModelIndex) -> None:
        """Go to the stem or plot of an entry."""
        workup = self._window.session.workup
        if self._model is None or workup is None:
            return
        entry = self._model.entries[self._found.mapToSource(index).row()]
        if entry.plot is None:
            return
        visit = workup.survey.visit_row(entry.plot, entry.visit or "")
        self._window.session.select_visit(visit)
        rows = range(*workup.survey.visits.stems(visit).indices(len(workup.survey.stems)))
        records = workup.survey.stems.records
        same = [row for row in rows if (records.source[row], records.line[row]) == (entry.source, entry.line)]
        if same:
            self._window.session.select_stem(same[0])
