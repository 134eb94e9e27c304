"""A table with a line above it to filter by typing; its columns are chosen, its rows copied to a spreadsheet."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import (
    QCoreApplication,
    QEvent,
    QItemSelectionModel,
    QModelIndex,
    QPersistentModelIndex,
    QPoint,
    QSettings,
    Qt,
    QTimer,
    Signal,
    Slot,
)
from PySide6.QtGui import QGuiApplication, QKeyEvent, QKeySequence, QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QLineEdit,
    QMenu,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from stemmap.desktop.columns import Arrangement, TableColumn
from stemmap.desktop.jobs import Jobs
from stemmap.desktop.table_model import GAP, MANY, TableModel

if TYPE_CHECKING:
    from stemmap.progress import Progress

_tr = QCoreApplication.translate
#: Rows from which on they are made into text off the GUI thread.
_LONG_TEXT = 2000
_TYPING_MS = 200
#: Width of a column beside its text, pixels.
_BESIDE = 18


class NumberDelegate(QStyledItemDelegate):
    """Keeps numbers, which are set to the right, apart from the column beside them."""

    def initStyleOption(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> None:
        """Say what a cell shows, with a gap after a number.

        Qt's own way would ask the model for seven things of each cell, of which it has two.
        """
        option.text = str(index.data() or "").replace("\n", "\u2028")  # a line within the cell, as Qt has it
        if not option.text:
            return
        option.features |= QStyleOptionViewItem.ViewItemFeature.HasDisplay
        option.displayAlignment = index.data(Qt.ItemDataRole.TextAlignmentRole)
        if option.displayAlignment & Qt.AlignmentFlag.AlignRight:
            option.text += GAP


class Table(QTableView):
    """The rows of a `TableModel`.

    Signals
    -------
    copy_wanted
        The selected rows are wanted in the clipboard.
    """

    copy_wanted = Signal()

    def __init__(self, model: TableModel, heading: QHeaderView, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        #: What is said below the last row.
        self.words = ""
        self.setModel(model)
        self.setHorizontalHeader(heading)
        heading.setSectionsClickable(True)
        heading.setHighlightSections(False)
        heading.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        heading.setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
        heading.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        heading.setSortIndicatorShown(True)
        heading.setSortIndicatorClearable(True)
        heading.setSortIndicator(-1, Qt.SortOrder.AscendingOrder)
        self.setSortingEnabled(True)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setTabKeyNavigation(False)
        self.setAlternatingRowColors(True)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setItemDelegate(NumberDelegate(self))
        self.verticalHeader().hide()
        self.verticalHeader().setDefaultSectionSize(self.fontMetrics().height() + 6)

    def show_row(self, place: int) -> None:
        """Make a row the current one and bring it into sight; -1: none."""
        model = self.model()
        if place < 0:
            self.clearSelection()
            self.setCurrentIndex(QModelIndex())
            return
        self.executeDelayedItemsLayout()  # another plot's rows may not have been laid out yet
        column = self.currentIndex().column()
        if column < 0 or self.isColumnHidden(column):
            column = next((one for one in range(model.columnCount()) if not self.isColumnHidden(one)), 0)
        if place != self.currentIndex().row():
            # Alone, whatever keys are held: with Ctrl or Shift down a view would mark it beside the others.
            alone = QItemSelectionModel.SelectionFlag.ClearAndSelect | QItemSelectionModel.SelectionFlag.Rows
            self.selectionModel().setCurrentIndex(model.index(place, column), alone)
        self.scrollTo(model.index(place, column))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Say in the free room why nothing is found."""
        super().paintEvent(event)
        if self.words:
            room, model = self.viewport().rect(), self.model()
            room.setTop(self.rowViewportPosition(model.rowCount() - 1) + self.rowHeight(0) if model.rowCount() else 0)
            painter = QPainter(self.viewport())
            painter.setPen(self.palette().color(QPalette.ColorRole.Text))
            painter.drawText(
                room.adjusted(12, 8, -12, -8), Qt.AlignmentFlag.AlignHCenter | Qt.TextFlag.TextWordWrap, self.words
            )

    def event(self, event: QEvent) -> bool:
        """Keep the page keys for scrolling and the key for copying; elsewhere they mean the map."""
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent):
            pages = event.key() in (Qt.Key.Key_PageDown, Qt.Key.Key_PageUp) and not event.modifiers()
            if pages or event.matches(QKeySequence.StandardKey.Copy):
                event.accept()
                return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Copy, or go from row to row."""
        if event.matches(QKeySequence.StandardKey.Copy):
            self.copy_wanted.emit()
        else:
            super().keyPressEvent(event)


class TablePanel(QWidget):
    """A table, the line to filter it, and how many rows are shown.

    Subclasses fill the model, and say in `_chosen` and `_selected` how its rows go with the session's selection.
    """

    def __init__(self, name: str, jobs: Jobs, heading: QHeaderView | None = None) -> None:
        super().__init__()
        self._name, self._jobs = name, jobs
        self._following = False
        self.model = TableModel(name, jobs, self)
        self.view = Table(self.model, heading or QHeaderView(Qt.Orientation.Horizontal, self))
        self.setFocusProxy(self.view)
        self.filter = QLineEdit()
        self.filter.setPlaceholderText(_tr("table_panel", "Filter by typing"))
        self.filter.setAccessibleName(_tr("table_panel", "Filter"))
        help_ = _tr(
            "table_panel",
            "Rows with all these words are shown; a column's name before a word looks there alone: plot 20 stem 30",
        )
        self.filter.setToolTip(help_)
        self.filter.setWhatsThis(help_)
        self.filter.setClearButtonEnabled(True)
        self.count = QLabel()
        self.count.setMinimumWidth(1)  # it gives way first in a narrow panel
        self.line = QHBoxLayout()
        self.line.setContentsMargins(6, 4, 6, 4)
        self.line.setSpacing(6)
        self.line.addWidget(self.filter, 1)
        self.line.addWidget(self.count)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(0)
        self._column.addLayout(self.line)
        self._column.addWidget(self.view, 1)
        self._typing = QTimer(self, interval=_TYPING_MS, singleShot=True)
        self._typing.timeout.connect(self._on_typed)
        self.filter.textChanged.connect(self._on_typing)
        self.filter.installEventFilter(self)
        self.model.arranged.connect(self._on_arranged)
        self.view.selectionModel().currentRowChanged.connect(self._on_row_chosen)
        self.view.copy_wanted.connect(self.copy_rows)
        self.view.horizontalHeader().customContextMenuRequested.connect(self._on_heading_menu)
        self.view.horizontalHeader().sortIndicatorChanged.connect(self._on_sorted)
        self.view.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        self.view.customContextMenuRequested.connect(self._on_row_menu)

    def add_below(self, row: QHBoxLayout) -> None:
        """Put a row of controls below the table."""
        self._column.addLayout(row)

    # what subclasses say

    def _chosen(self, row: int) -> None:
        """Select in the session what a row stands for."""
        raise NotImplementedError

    def _selected(self) -> int:
        """The row that stands for what is selected in the session."""
        raise NotImplementedError

    # following and leading the session

    def show_selected(self) -> None:
        """Bring the row into sight that is selected in the session."""
        self._following = True
        self.view.show_row(self.model.shown.place_of(self._selected()))
        self._following = False

    @Slot(QModelIndex, QModelIndex)
    def _on_row_chosen(self, current: QModelIndex, _previous: QModelIndex) -> None:
        if current.isValid() and not self._following:
            self._chosen(self.model.shown.row_at(current.row()))

    # filtering

    def look_for(self) -> None:
        """Go to the line to type in."""
        self.filter.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.filter.selectAll()

    @Slot()
    def _on_typing(self) -> None:
        rows = self.model.rows
        if rows.stop - rows.start > MANY:
            self._typing.start()
        else:
            self._on_typed()

    @Slot()
    def _on_typed(self) -> None:
        self._typing.stop()
        self.model.filter(self.filter.text())
        self._tell_count()

    @Slot()
    def _on_arranged(self) -> None:
        self._tell_count()
        self.show_selected()

    def _tell_count(self) -> None:
        wanted = self.model.shown.wanted
        shown, count = self.model.rowCount() - wanted.pinned, wanted.rows.stop - wanted.rows.start - wanted.pinned
        found = shown > 0 or count == 0 or self.model.waiting
        self.view.words = (
            ""
            if found
            else _tr("table_panel", "Nothing here has all these words as they were typed. Esc empties the line.")
        )
        self.view.viewport().update()
        if self.model.waiting:
            self.count.setText(_tr("table_panel", "Searching…"))
        elif shown == count:
            self.count.setText(self.locale().toString(count))
        else:
            words = _tr("table_panel", "{shown} of {count}")
            self.count.setText(words.format(shown=self.locale().toString(shown), count=self.locale().toString(count)))

    def eventFilter(self, watched: object, event: QEvent) -> bool:
        """Enter goes to the first row found, the down key to the table, Esc empties the line."""
        if watched is self.filter and event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
                self._on_typed()
                if self.model.rowCount() and not self.model.waiting:
                    self.view.setFocus()
                    self.view.show_row(0)
                return True
            if event.key() == Qt.Key.Key_Down:
                self.view.setFocus()
                return True
            if event.key() == Qt.Key.Key_Escape:
                self.filter.clear()
                self.view.setFocus()
                return True
        return False

    # columns

    def set_columns(self, columns: Sequence[TableColumn], rows: slice, *, pinned: int = 0) -> None:
        """Show other columns, those chosen last time and as wide as their first cells."""
        before = [column.title for column in self.model.columns]
        was_empty = self.model.rows.start == self.model.rows.stop
        self.model.renew(rows, columns=tuple(columns), pinned=pinned)
        if before == [column.title for column in columns] and not was_empty:
            return
        differing = self.differing()
        for place, column in enumerate(columns):
            self._show_column(place, shown=column.shown != (column.title in differing))

    def _show_column(self, place: int, *, shown: bool) -> None:
        """Show a column, as wide as its first cells, or hide it."""
        heading, measure = self.view.horizontalHeader(), self.fontMetrics().horizontalAdvance
        heading.setSectionHidden(place, not shown)
        if shown:
            cells = range(min(len(self.model.shown), 30))
            texts = [self.model.columns[place].title, *(self.model.text(row, place) for row in cells)]
            heading.resizeSection(place, min(max(measure(text) for text in texts) + _BESIDE, 460))

    @Slot(int)
    def _on_sorted(self, place: int) -> None:
        """Give the heading of the column that is sorted by room for its arrow."""
        heading = self.view.horizontalHeader()
        if 0 <= place < len(self.model.columns) and not heading.isSectionHidden(place):
            needed = self.fontMetrics().horizontalAdvance(self.model.columns[place].title + "    ") + _BESIDE
            heading.resizeSection(place, max(heading.sectionSize(place), needed))

    def differing(self) -> set[str]:
        """Titles of columns that the user shows or hides against their rule."""
        return set(str(QSettings().value(f"tables/{self._name}", "", type=str)).split("\n")) - {""}

    def choose_column(self, place: int, *, shown: bool) -> None:
        """Show or hide a column, now and next time."""
        column, differing = self.model.columns[place], self.differing()
        self._show_column(place, shown=shown)
        differing = differing - {column.title} if shown == column.shown else differing | {column.title}
        QSettings().setValue(f"tables/{self._name}", "\n".join(sorted(differing)))

    def columns_menu(self) -> QMenu:
        """A menu of all columns, those shown ticked."""
        menu = QMenu(self)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        for place, column in enumerate(self.model.columns):
            action = menu.addAction(column.title)
            action.setToolTip(column.meaning)
            action.setCheckable(True)
            action.setChecked(not self.view.isColumnHidden(place))
            action.toggled.connect(lambda shown, place=place: self.choose_column(place, shown=shown))
        menu.setToolTipsVisible(True)
        return menu

    @Slot(QPoint)
    def _on_heading_menu(self, at: QPoint) -> None:
        self.columns_menu().popup(self.view.horizontalHeader().mapToGlobal(at))

    # copying

    @Slot(QPoint)
    def _on_row_menu(self, at: QPoint) -> None:
        menu = QMenu(self)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        menu.addAction(_tr("table_panel", "Copy rows")).triggered.connect(self.copy_rows)
        columns = self.columns_menu()
        columns.setTitle(_tr("table_panel", "Columns"))
        menu.addMenu(columns)
        menu.popup(self.view.viewport().mapToGlobal(at))

    def marked_places(self) -> list[int]:
        """Where the selected rows are shown, from top to bottom."""
        ranges = [(one.top(), one.bottom()) for one in self.view.selectionModel().selection().toList()]
        return sorted({place for first, last in ranges for place in range(first, last + 1)})

    @Slot()
    def copy_rows(self) -> None:
        """Put the selected rows into the clipboard as a spreadsheet reads them: tabs between cells, headings first."""
        places = self.marked_places()
        columns = [column for place, column in enumerate(self.model.columns) if not self.view.isColumnHidden(place)]
        shown = self.model.shown
        if not places:
            return
        if len(places) <= _LONG_TEXT:
            self._put(rows_as_text(columns, shown, places))
            return

        def work(progress: Progress) -> str:
            return rows_as_text(columns, shown, places, progress)

        self._jobs.start("copy", work, apply=self._put)

    @staticmethod
    def _put(text: str) -> None:
        QGuiApplication.clipboard().setText(text)


def rows_as_text(
    columns: Sequence[TableColumn], shown: Arrangement, places: Sequence[int], progress: Progress | None = None
) -> str:
    """Rows with a heading, one in a line, tabs between the cells; what is shown as a dash for nothing is left empty."""
    lines = ["\t".join(_cell(column.title) for column in columns)]
    for number, place in enumerate(places):
        if progress is not None and number % 1000 == 0:
            progress.step("Copying rows", number / len(places))
        row = shown.row_at(place)
        lines.append("\t".join(_cell(column.text(row)) for column in columns))
    return "\n".join(lines) + "\n"


def _cell(text: str) -> str:
    """A cell without what would end it early."""
    return "" if text == "–" else " ".join(text.split())
