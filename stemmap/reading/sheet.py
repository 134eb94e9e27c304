"""A sheet: one table as it stands in a file, before anything is made of it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from stemmap.errors import InputError
from stemmap.reading.headings import fold, known_count, meaning_of, unit_of
from stemmap.reading.remarks import HEADINGS_LATE, SECOND_HEADING_LINE, some_lines
from stemmap.survey.records import Column, Remark

#: Lines at the top of a file among which the headings are looked for.
TOP_LINES = 30
MOST_COLUMNS = 1_000
#: Cells of a table, at most: 10^7 stems of six columns.
MOST_CELLS = 60_000_000
#: Cells of a table that is read cell by cell, at most.
MOST_SINGLE_CELLS = 20_000_000
#: What a line of totals begins with, folded. From memory.
_TOTALS = frozenset(
    {
        *("sum", "sums", "total", "totals", "grandtotal", "mean", "average", "count", "summe", "summen", "gesamt"),
        *("gesamtsumme", "mittel", "mittelwert", "durchschnitt", "anzahl", "somme", "moyenne", "suma", "media"),
    }
)
_A_NUMBER = re.compile(r"[+-]?[\d.,]*\d[\d.,]*")


@dataclass(frozen=True)
class Points:
    """Points of a layer.

    Parameters
    ----------
    x, y
        Coordinates, NaN where a record has no point; shape (n,).
    crs
        Coordinate system as text, empty when the layer does not say.
    """

    x: NDArray[np.float64]
    y: NDArray[np.float64]
    crs: str


@dataclass(frozen=True)
class Sheet:
    """One table of a file.

    Parameters
    ----------
    source
        The file, with the sheet or layer where there are several.
    name
        File, sheet or layer without folder and ending; names the plot where no column does.
    headings
        As typed.
    columns
        Texts as typed, one column a heading; nothing is read from them yet.
    line
        Line of each row as a person counts them, shape (n,).
    units
        Units from a line below the headings, by column; empty where there is none.
    separator
        What separates the cells of a text file; None for other files.
    points
        Points of a layer.
    remarks
        What reading had to say so far.
    """

    source: str
    name: str
    headings: tuple[str, ...]
    columns: tuple[Column, ...]
    line: NDArray[np.int32]
    units: tuple[str, ...] = ()
    separator: str | None = None
    points: Points | None = None
    remarks: tuple[Remark, ...] = ()

    def __len__(self) -> int:
        return len(self.line)

    def take(self, rows: NDArray[np.integer]) -> Sheet:
        """The given rows."""
        points = self.points
        if points is not None:
            points = Points(points.x[rows], points.y[rows], points.crs)
        columns = tuple(column.take(rows) for column in self.columns)
        return replace(self, columns=columns, line=self.line[rows], points=points)


@dataclass(frozen=True)
class Top:
    """Where the headings of a table stand.

    Parameters
    ----------
    first, past
        Index of the line of headings, and of the first line of records.
    headings, units
        Cells of the line of headings, and units from lines below it.
    """

    first: int
    past: int
    headings: tuple[str, ...]
    units: tuple[str, ...]


def find_top(rows: Sequence[Sequence[str]], asked: frozenset[str]) -> Top | None:
    """The line of headings among the first lines of a table: the one with most known headings.

    Parameters
    ----------
    rows
        Cells of the first lines.
    asked
        Folded headings that a mapping asks for.

    Returns
    -------
    Top | None
        None when every line is blank. When no heading is known at all, the first line that is not blank.
    """
    filled = [place for place, row in enumerate(rows) if any(cell.strip() for cell in row)]
    if not filled:
        return None
    counts = {place: 0 if _has_number(rows[place]) else known_count(rows[place], asked) for place in filled}
    first = max(filled, key=lambda place: (counts[place], -place))
    headings = tuple(cell.strip() for cell in rows[first])
    units = [""] * len(headings)
    past = first + 1
    while past < len(rows) and _is_heading_line(rows[past], headings):
        for place, cell in enumerate(rows[past][: len(headings)]):
            units[place] = units[place] or _unit_in(cell) or ""
        past += 1
    return Top(first, past, headings, tuple(units))


def check_extent(columns: int, rows: int, source: str, *, most_cells: int = MOST_CELLS) -> None:
    """Refuse a table that is far too wide to be one of records, or that would fill the memory.

    Raises
    ------
    InputError
        With the number of columns and rows.
    """
    if columns > MOST_COLUMNS:
        raise InputError(
            f"{source} has {columns:,} columns; a table of records has a few dozen, so this is another kind of file "
            "or its delimiter was lost."
        )
    if columns * rows > most_cells:
        raise InputError(
            f"{source} has {rows:,} rows of {columns:,} columns, more than can be read at once; remove columns without "
            "records, lone cells far from the records, or split it."
        )


def _has_number(row: Sequence[str]) -> bool:
    """Whether a cell is a bare number, as in a record, never in headings."""
    return any(_A_NUMBER.fullmatch(cell.strip()) for cell in row)


def _is_heading_line(row: Sequence[str], headings: Sequence[str]) -> bool:
    """Whether a line below the headings holds units, or the same headings once more, instead of a record.

    Other words may stand beside them, as long as nothing in the line has a digit: a record always has one.
    """
    said = [(cell.strip(), above) for cell, above in zip(row, headings, strict=False) if cell.strip(" -–")]
    known = [cell for cell, above in said if _unit_in(cell) is not None or _mean_the_same(cell, above)]
    if not known or len(known) == len(said):
        return bool(known)
    has_digit = any(letter.isdigit() for cell in row for letter in cell)
    return not has_digit and (len(known) > 1 or known[0][0] in "([")


def _unit_in(cell: str) -> str | None:
    """The unit that a cell names, in brackets or without; as `unit_of`."""
    return unit_of(cell.strip(" []()"))


def _mean_the_same(heading: str, other: str) -> bool:
    one, two = meaning_of(heading), meaning_of(other)
    return one is not None and two is not None and not set(one.fields).isdisjoint(two.fields)


def top_remarks(top: Top, lines: Sequence[int], source: str) -> list[Remark]:
    """What to say about the lines around the headings.

    Parameters
    ----------
    top
        Where the headings are.
    lines
        Line number of each of the first rows.
    source
        The file or sheet.
    """
    remarks = []
    if top.first > 0:
        sentence = f"The headings stand in line {lines[top.first]}; what stands above them was skipped."
        remarks.append(Remark(HEADINGS_LATE, sentence, source, line=lines[top.first]))
    if top.past > top.first + 1:
        below = [lines[place] for place in range(top.first + 1, top.past)]
        sentence = f"{some_lines(below).capitalize()} below the headings holds units or headings and was skipped."
        remarks.append(Remark(SECOND_HEADING_LINE, sentence, source, line=below[0]))
    return remarks


def without_blank_labels(labels: NDArray[np.object_], codes: NDArray[np.integer]) -> Column:
    """A column of texts in which blank cells are empty and no blank text is left."""
    filled = np.fromiter((bool(text) and not text.isspace() for text in labels.tolist()), bool, len(labels))
    if filled.all():
        return Column(labels, codes.astype(np.int32, copy=False))
    kept = np.append(np.where(filled, np.cumsum(filled) - 1, -1), -1).astype(np.int32)
    return Column(labels[filled], kept[codes])


def column_of(texts: Sequence[str] | NDArray[np.object_]) -> Column:
    """A column from one text a row, distinct texts in the order in which they appear."""
    import pandas as pd

    codes, labels = pd.factorize(np.asarray(texts, dtype=object))
    return without_blank_labels(np.asarray(labels, dtype=object), codes)


def repeated_headings(sheet: Sheet) -> NDArray[np.bool_]:
    """Rows whose filled cells all repeat the headings, shape (n,)."""
    repeats = np.ones(len(sheet), dtype=bool)
    seen = np.zeros(len(sheet), dtype=bool)
    for heading, column in zip(sheet.headings, sheet.columns, strict=True):
        if heading:
            here = np.isin(column.codes, np.flatnonzero(column.labels == heading))
            repeats &= here | ~column.filled
            seen |= here
        if not repeats.any():
            break
    return repeats & seen


def totals(sheet: Sheet) -> NDArray[np.bool_]:
    """Rows that sum up the others: they begin with a word for it and are mostly empty, shape (n,)."""
    filled = np.zeros(len(sheet), np.int64)
    for column in sheet.columns:
        filled += column.filled
    open_yet = (filled > 0) & (2 * filled <= len(sheet.columns))
    says = np.zeros(len(sheet), dtype=bool)
    for column in sheet.columns:
        if not open_yet.any():
            break
        here = np.flatnonzero(open_yet & column.filled)
        open_yet[here] = False
        codes, place = np.unique(column.codes[here], return_inverse=True)
        words = np.array([fold(str(column.labels[code])) in _TOTALS for code in codes.tolist()], bool)
        says[here] = words[place]
    return says


def without_blank_rows(sheet: Sheet) -> Sheet:
    """The sheet without rows that are blank from end to end."""
    filled = np.zeros(len(sheet), dtype=bool)
    for column in sheet.columns:
        filled |= column.filled
        if filled.all():
            return sheet
    return sheet.take(np.flatnonzero(filled))
