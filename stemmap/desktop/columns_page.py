"""The page on which it is said what the columns of an upload are."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, Final

from PySide6.QtCore import QCoreApplication, Qt, Signal
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QPushButton,
    QTableWidget,
    QTableWidgetItem,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from stemmap.desktop.fields import ChoiceField
from stemmap.desktop.sentences import field_words, number
from stemmap.desktop.wording import worded
from stemmap.survey.fields import FIELDS

if TYPE_CHECKING:
    from stemmap.reading import Understood
    from stemmap.reading.sheet import Sheet
    from stemmap.survey.records import Column
    from stemmap.tasks.columns import ColumnsAsked

#: Columns of a table that can be chosen for; the rest is kept as it is.
MOST_COLUMNS: Final = 60
#: First cells of a column that stand beside its heading.
_CELLS: Final = 4
_tr = QCoreApplication.translate


class ColumnsPage(QWidget):
    """Every table of the upload with its headings as typed and, beside them, what they are understood as.

    Signals
    -------
    used
        Read the upload under these settings, with the columns said.
    saving_wanted
        Save these settings.
    left
        Go back without a change.
    """

    used = Signal(object, object)
    saving_wanted = Signal(object)
    left = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._asked: ColumnsAsked | None = None
        self._columns: dict[str, str] = {}
        heading = QLabel(self.tr("What are these columns?"))
        font = heading.font()
        font.setPointSizeF(font.pointSizeF() * 1.4)
        heading.setFont(font)
        what = QLabel(
            self.tr(
                "Say for each heading which field it is. Below stands what the first rows are then understood as. "
                "The files themselves are not changed."
            )
        )
        what.setWordWrap(True)
        self.tabs = QTabWidget()
        self.tabs.setAccessibleName(self.tr("Tables of the upload"))
        self.state = QLabel()
        self.state.setWordWrap(True)
        self.use_button = QPushButton(self.tr("&Use these columns"))
        self.use_button.setToolTip(self.tr("Read the upload with the columns as they are said here"))
        self.use_button.clicked.connect(self._on_use)
        self.save_button = QPushButton(self.tr("&Save the mapping…"))
        self.save_button.setToolTip(
            self.tr("Write the columns to a settings file; beside the next upload it is found by itself")
        )
        self.save_button.clicked.connect(self._on_save)
        self.back_button = QPushButton(self.tr("&Back"))
        self.back_button.setToolTip(self.tr("Leave everything as it was"))
        self.back_button.clicked.connect(self.left)
        buttons = QHBoxLayout()
        for button in (self.use_button, self.save_button, self.back_button):
            buttons.addWidget(button)
        buttons.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(16, 12, 16, 12)
        for part in (heading, what):
            layout.addWidget(part)
        layout.addWidget(self.tabs, 1)
        layout.addWidget(self.state)
        layout.addLayout(buttons)

    def show_asked(self, asked: ColumnsAsked) -> None:
        """Show the tables of an upload."""
        self._asked, self._columns = asked, dict(asked.columns)
        for tab in self.sheet_tabs:
            self.tabs.removeTab(self.tabs.indexOf(tab))
            tab.deleteLater()
        for sheet in asked.preview.sheets:
            tab = SheetTab(sheet)
            tab.chosen.connect(self.choose)
            self.tabs.addTab(tab, sheet.source)
        self._refresh()
        first = next((place for place, tab in enumerate(self.sheet_tabs) if tab.lacks), 0)
        self.tabs.setCurrentIndex(first)
        if self.sheet_tabs:
            self.sheet_tabs[first].setFocus()

    @property
    def sheet_tabs(self) -> list[SheetTab]:
        """What is shown of each table."""
        pages = [self.tabs.widget(place) for place in range(self.tabs.count())]
        return [page for page in pages if isinstance(page, SheetTab)]

    def choose(self, heading: str, name: str) -> None:
        """Say that a heading is a field; an empty name leaves it as it is."""
        self._columns = {field: said for field, said in self._columns.items() if said != heading}
        if name:
            self._columns[name] = heading
        self._refresh()
        if not name and (taken := self._taken(heading)):
            self.state.setText(
                self.tr("“{heading}” is a known word for {field}. Give {field} to another column to leave this one.")
                .replace("{heading}", heading)
                .replace("{field}", taken)
            )

    def _taken(self, heading: str) -> str:
        """What a heading is understood as by itself, in words; empty when it is left as it is."""
        for tab in self.sheet_tabs:
            if heading in tab.sheet.headings and (name := tab.understood_as(heading)):
                return field_label(name)
        return ""

    def _refresh(self) -> None:
        """Understand the first rows anew; they are few."""
        if self._asked is None:
            return
        from stemmap.reading import understood_as
        from stemmap.tasks.columns import offsets

        settings = self._asked.under(self._columns)
        kinds = []
        for tab in self.sheet_tabs:
            understood = understood_as(tab.sheet, settings.columns)
            tab.show_understood(understood, offsets(understood, settings))
            kinds.append(understood.kind)
        self.state.setText(" ".join((*self._lacking(), *map(worded, self._asked.preview.faults))))
        self.use_button.setEnabled(any(kinds))
        self.save_button.setEnabled(bool(settings.columns))

    def _lacking(self) -> list[str]:
        told = [self.tr("{file}: {what}").format(file=tab.sheet.source, what=tab.lacks) for tab in self.sheet_tabs]
        told = [sentence for sentence, tab in zip(told, self.sheet_tabs, strict=True) if tab.lacks]
        if not told and not any(tab.has_stems for tab in self.sheet_tabs):
            told = [self.tr("No table has stems yet: say which columns are azimuth and distance.")]
        return told or [self.tr("Everything that a map needs has its column.")]

    def _on_use(self) -> None:
        if self._asked is not None:
            self.used.emit(self._asked.under(self._columns), dict(self._columns))

    def _on_save(self) -> None:
        if self._asked is not None:
            self.saving_wanted.emit(self._asked.under(self._columns))


class SheetTab(QWidget):
    """One table: its headings, and its first rows as they are understood.

    Signals
    -------
    chosen
        A heading and the field chosen for it.
    """

    chosen = Signal(str, str)

    def __init__(self, sheet: Sheet) -> None:
        super().__init__()
        self.sheet = sheet
        self.lacks = ""
        self.has_stems = False
        self._fields: tuple[str | None, ...] = ()
        self.places = [place for place, heading in enumerate(sheet.headings) if heading][:MOST_COLUMNS]
        self.choices: list[ChoiceField] = []
        self.typed = _table(self.tr("Headings as typed"))
        self.typed.setColumnCount(3)
        self.typed.setRowCount(len(self.places))
        self.typed.setHorizontalHeaderLabels(
            [self.tr("Heading as typed"), self.tr("Understood as"), self.tr("First cells as typed")]
        )
        for row, place in enumerate(self.places):
            self._fill(row, place)
        header = self.typed.horizontalHeader()
        header.setSectionResizeMode(0, QHeaderView.ResizeMode.ResizeToContents)
        header.setSectionResizeMode(2, QHeaderView.ResizeMode.Stretch)
        if self.choices:
            height = self.choices[0].sizeHint().height() + 4
            self.typed.verticalHeader().setDefaultSectionSize(height)
            self.typed.setColumnWidth(1, max(choice.sizeHint().width() for choice in self.choices) + 8)
        below = QLabel(self.tr("The first rows as understood"))
        self.rows = _table(below.text())
        self.rows.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        self.rows.verticalHeader().setDefaultSectionSize(self.rows.fontMetrics().height() + 6)
        layout = QVBoxLayout(self)
        layout.addWidget(self.typed, 3)
        if left := len(sheet.headings) - len(self.places):
            more = self.tr("{n} more columns, without a heading or too many to list, are kept as they are.")
            layout.addWidget(QLabel(more.format(n=left)))
        layout.addWidget(below)
        layout.addWidget(self.rows, 2)
        self.setFocusProxy(self.choices[0] if self.choices else self.typed)

    def _fill(self, row: int, place: int) -> None:
        heading = self.sheet.headings[place]
        self.typed.setItem(row, 0, QTableWidgetItem(heading))
        cells = [text for text in _texts(self.sheet.columns[place]) if text][:_CELLS]
        self.typed.setItem(row, 2, QTableWidgetItem(";  ".join(cells)))
        choice = ChoiceField(field_choices(heading))
        choice.setMinimumContentsLength(22)
        choice.setAccessibleName(self.tr("What {heading} is understood as").format(heading=heading))
        choice.activated.connect(lambda _index, choice=choice: self.chosen.emit(heading, choice.value))
        self.typed.setCellWidget(row, 1, choice)
        self.choices.append(choice)

    def understood_as(self, heading: str) -> str:
        """The field that a heading is understood as; empty when it is left as it is."""
        return self._fields[self.sheet.headings.index(heading)] or ""

    def show_understood(self, understood: Understood, offsets: tuple[Any, Any] | None) -> None:
        """Show what each heading and the first rows are understood as."""
        self._fields = understood.fields
        for choice, place in zip(self.choices, self.places, strict=True):
            choice.show_value(understood.fields[place] or "")
        placed = [name for name in dict.fromkeys((*understood.fields, *understood.columns)) if name]
        placed = [name for name in placed if name in understood.columns]
        cells = [_read_texts(understood.columns[name]) for name in placed]
        titles = [_title(name, understood.units) for name in placed]
        if offsets is not None:
            titles.append(self.tr("Position from the centre"))
            cells.append([_offset_words(east, north) for east, north in zip(*offsets, strict=True)])
        self.rows.clear()
        self.rows.setColumnCount(len(titles))
        self.rows.setRowCount(len(self.sheet) if titles else 0)
        self.rows.setHorizontalHeaderLabels(titles)
        for column, texts in enumerate(cells):
            for row, text in enumerate(texts):
                self.rows.setItem(row, column, QTableWidgetItem(text))
        self.lacks = self._lack(understood)
        self.has_stems = understood.kind in ("stems", "stems with plots")

    def _lack(self, understood: Understood) -> str:
        """What a map would still need of this table, in words; empty when nothing."""
        if understood.kind is None:
            return self.tr("no heading is known yet; choose at least plot, azimuth and distance.")
        needed = ("plot",) if understood.kind == "plots" else ("plot", "azimuth", "distance_m")
        lacking = [field_label(name) for name in needed if name not in self._fields]
        return self.tr("no column for {fields} yet.").format(fields=", ".join(lacking)) if lacking else ""


def field_label(name: str) -> str:
    """A field in words, with its unit."""
    return _title(name, {})


def field_choices(heading: str) -> tuple[tuple[str, str], ...]:
    """Every field with its words, those that the heading looks like first, after leaving it as it is."""
    from stemmap.reading.headings import likely_fields

    names = dict.fromkeys((*likely_fields(heading), *FIELDS))
    return (("", _tr("columns", "leave as it is")), *((name, field_label(name)) for name in names))


def _title(name: str, units: Mapping[str, str]) -> str:
    unit = units.get(name) or FIELDS[name].unit
    sign = {"degree": "°", "azimuth unit": "", "CRS unit": ""}.get(unit, unit)
    return f"{field_words(name)} ({sign})" if sign else field_words(name)


def _texts(column: Column) -> list[str]:
    """Cells of a column as typed."""
    return [str(column.labels[code]) if code >= 0 else "" for code in column.codes.tolist()]


def _read_texts(column: Column) -> list[str]:
    """Cells of a column as understood; one that is not understood says so."""
    values = column.label_values
    if values is None:
        return _texts(column)
    dated = values.dtype.kind == "M"
    told = [str(value) if dated else _plain(float(value)) for value in values]
    unclear = _tr("columns", "not understood")
    told = [unclear if text in ("NaT", "–") else text for text in told]
    return [told[code] if code >= 0 else "" for code in column.codes.tolist()]


def _plain(value: float) -> str:
    """A number with the decimals it has, up to six."""
    text = f"{value:.6f}".rstrip("0")
    return number(value, len(text.partition(".")[2]))


def _offset_words(east: float, north: float) -> str:
    """How far a stem stands from the centre."""
    if east != east or north != north:  # noqa: PLR0124 - only "not a number" differs from itself
        return ""
    easterly = _tr("columns", "{m} m east") if east >= 0 else _tr("columns", "{m} m west")
    northerly = _tr("columns", "{m} m north") if north >= 0 else _tr("columns", "{m} m south")
    return f"{northerly.format(m=number(abs(north), 2))}, {easterly.format(m=number(abs(east), 2))}"


def _table(name: str) -> QTableWidget:
    made = QTableWidget()
    made.setAccessibleName(name)
    made.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
    made.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)
    made.setTabKeyNavigation(False)
    made.setAlternatingRowColors(True)
    made.setShowGrid(False)
    made.verticalHeader().hide()
    made.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
    made.horizontalHeader().setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
    return made
