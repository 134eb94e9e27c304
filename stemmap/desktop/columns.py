"""Columns of a table, and which rows it shows in which order: arrays in, arrays out, on any thread."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal, TypeVar

from PySide6.QtCore import QLocale

from stemmap.desktop.sentences import number

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Labels = Sequence[str] | NDArray[np.object_]

T = TypeVar("T")


@dataclass(frozen=True)
class TableColumn:
    """One column of a table.

    Parameters
    ----------
    title, meaning
        Heading and tool tip.
    text
        Text of a cell by row, made when it is looked at.
    order
        Sort keys of some rows, numbers; NaN is sorted last.
    matches
        Which of some rows hold a word: somewhere, or as the whole cell.
    group
        Typed in the forest or derived, where a table tells them apart.
    numeric
        Whether it is set to the right.
    shown
        Whether it is shown until the user chooses.
    """

    title: str
    meaning: str
    text: Callable[[int], str]
    order: Callable[[slice], NDArray[Any]]
    matches: Callable[[str, slice, bool], NDArray[np.bool_]]
    group: Literal["typed", "derived", ""] = ""
    numeric: bool = False
    shown: bool = True


def given(value: T) -> Callable[[], T]:
    """What is at hand already, where something to be called is asked for."""
    return lambda: value


def coded_column(
    title: str,
    meaning: str,
    codes: Callable[[], NDArray[np.integer]],
    labels: Callable[[], Labels],
    *,
    values: Callable[[], NDArray[np.float64]] | None = None,
    natural: bool = True,
    **rest: Any,
) -> TableColumn:
    """A column of texts that occur many times.

    Parameters
    ----------
    title, meaning, rest
        As in `TableColumn`.
    codes
        Gives for each row the number of its text, -1 for an empty cell, shape (n,).
    labels
        Gives the texts.
    values
        Gives the numbers typed, shape (n,), when the texts are numbers: what it is sorted by.
    natural
        Whether texts are sorted by their letters and the numbers in them, or in the order of the labels.
    """

    def text(row: int) -> str:
        code = codes()[row]
        return "" if code < 0 else str(labels()[code])

    def order(rows: slice) -> NDArray[Any]:
        if values is not None:
            return values()[rows]
        return _ranks(codes()[rows], labels(), natural=natural)

    def matches(word: str, rows: slice, whole: bool) -> NDArray[np.bool_]:  # noqa: FBT001 - always given
        import numpy as np

        coded, names = codes()[rows], labels()
        few = len(names) <= len(coded)
        used, place = (np.arange(len(names)), coded) if few else np.unique(coded, return_inverse=True)
        told = (str(names[code]).casefold().strip() if code >= 0 else "" for code in used.tolist())
        return np.array([*(_holds(name, word, whole, values is not None) for name in told), False])[place]

    return TableColumn(title, meaning, text, order, matches, numeric=values is not None, **rest)


def text_column(title: str, meaning: str, texts: Sequence[str], **rest: Any) -> TableColumn:
    """A column of texts that seldom occur twice; `rest` as in `coded_column`."""
    import numpy as np

    return coded_column(title, meaning, given(np.arange(len(texts))), given(texts), **rest)


def _holds(cell: str, word: str, whole: bool, numeric: bool) -> bool:  # noqa: FBT001 - always given
    """Whether a cell holds a word: a number begins with it, a text has it somewhere."""
    if whole:
        return cell == word or (numeric and cell.startswith((f"{word}.", f"{word},")))
    return cell.startswith(word) if numeric else word in cell


def number_column(
    title: str, meaning: str, values: Callable[[], NDArray[np.floating]], decimals: int, **rest: Any
) -> TableColumn:
    """A column of numbers shown with some decimals; a number typed as a filter finds those that begin with it."""

    def matches(word: str, rows: slice, _whole: bool) -> NDArray[np.bool_]:  # noqa: FBT001 - always given
        import numpy as np

        shown = np.round(np.asarray(values()[rows], np.float64), decimals)
        wanted, places = _typed_number(word)
        if wanted is None or places > decimals:
            return np.zeros(len(shown), bool)
        scale = 10.0**places
        found: NDArray[np.bool_] = np.trunc(np.round(shown * scale, 6)) == round(wanted * scale)
        return found

    return TableColumn(
        title,
        meaning,
        lambda row: number(float(values()[row]), decimals),
        lambda rows: values()[rows],
        matches,
        numeric=True,
        **rest,
    )


def _typed_number(word: str) -> tuple[float | None, int]:
    """A number typed with point or comma, and how many decimals it has."""
    plain = word.replace(",", ".")
    if not re.fullmatch(r"-?\d*\.?\d+|-?\d+\.", plain):
        known, understood = QLocale().toDouble(word)
        return (known, 0) if understood else (None, 0)
    return float(plain), len(plain.partition(".")[2])


def _ranks(codes: NDArray[np.integer], labels: Labels, *, natural: bool) -> NDArray[np.float64]:
    """Ranks of texts with the numbers inside them sorted as numbers; empty cells last."""
    import numpy as np

    used, place = np.unique(codes, return_inverse=True)
    rank = np.arange(len(used), dtype=np.float64)
    if natural:
        keys = [natural_key(str(labels[code])) if code >= 0 else [] for code in used.tolist()]
        rank[sorted(range(len(used)), key=lambda one: keys[one])] = np.arange(len(used))
    rank[used < 0] = np.nan
    return rank[place]


def natural_key(label: str) -> list[tuple[int, int, str]]:
    """Sort key of a text in which numbers count as numbers."""
    return [
        (0, int(part), "") if part.isdecimal() else (1, 0, part.casefold())
        for part in re.findall(r"\d+|\D+", label)
    ]


@dataclass(frozen=True)
class Wanted:
    """What a table is to show.

    Parameters
    ----------
    rows
        The rows in question.
    words
        What was typed as a filter.
    column
        Number of the column to sort by; -1: the rows' own order.
    descending
        Whether the largest come first.
    pinned
        How many of the first rows stay in their place whatever is typed or sorted.
    """

    rows: slice
    words: str = ""
    column: int = -1
    descending: bool = False
    pinned: int = 0


@dataclass(frozen=True)
class Arrangement:
    """The rows a table shows.

    Parameters
    ----------
    wanted
        What was asked for.
    order
        Rows from the first one in question on, as they are shown; None: all, in their own order.
    place
        Where each of them is shown, -1: not; None as before.
    """

    wanted: Wanted
    order: NDArray[np.int64] | None = None
    place: NDArray[np.int64] | None = None

    def __len__(self) -> int:
        rows = self.wanted.rows
        return rows.stop - rows.start if self.order is None else len(self.order)

    def row_at(self, shown: int) -> int:
        """Row of what is shown at a place."""
        return int(self.wanted.rows.start + (shown if self.order is None else self.order[shown]))

    def place_of(self, row: int) -> int:
        """Where a row is shown; -1 when it is not."""
        rows = self.wanted.rows
        if not rows.start <= row < rows.stop:
            return -1
        return int(row - rows.start if self.place is None else self.place[row - rows.start])


def arrange(columns: Sequence[TableColumn], wanted: Wanted) -> Arrangement:
    """Filter and sort rows.

    Words are found in any column, all of them in the same row. A word that is the name of a column belongs to the
    one after it, which must then be what the cell of that column says: ``plot 20 stem 30``.
    """
    count = wanted.rows.stop - wanted.rows.start
    if (not wanted.words.strip() and wanted.column < 0) or not count:
        return Arrangement(wanted)
    import numpy as np

    order = np.arange(count)
    if wanted.column >= 0:
        keys = np.asarray(columns[wanted.column].order(wanted.rows), np.float64)
        order = np.argsort(-keys if wanted.descending else keys, kind="stable")  # NaN stays last both ways
    if wanted.words.strip():
        order = order[_found(columns, wanted)[order]]
    if wanted.pinned:
        order = np.concatenate([np.arange(wanted.pinned), order[order >= wanted.pinned]])
    place = np.full(count, -1, np.int64)
    place[order] = np.arange(len(order))
    return Arrangement(wanted, order, place)


def _found(columns: Sequence[TableColumn], wanted: Wanted) -> NDArray[np.bool_]:
    import numpy as np

    words = wanted.words.casefold().split()
    named = {column.title.casefold().partition(",")[0]: column for column in columns[::-1]}
    found = np.ones(wanted.rows.stop - wanted.rows.start, bool)
    place = 0
    while place < len(words):
        column = named.get(words[place]) if place + 1 < len(words) else None
        if column is not None:
            found &= column.matches(words[place + 1], wanted.rows, True)  # noqa: FBT003 - as the cell says
            place += 2
            continue
        somewhere = np.zeros(len(found), bool)
        for one in columns:
            somewhere |= one.matches(words[place], wanted.rows, False)  # noqa: FBT003 - anywhere in the cell
        found &= somewhere
        place += 1
    return found
