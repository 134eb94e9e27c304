"""Records as typed: what stood in each cell of an upload, and beside it the number or date read from it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from stemmap.survey.fields import Table

if TYPE_CHECKING:
    from stemmap.survey.returned import Returned


@dataclass(frozen=True)
class Column:
    """One column of an upload, each distinct text stored once.

    Parameters
    ----------
    labels
        The distinct texts exactly as typed, shape (k,), dtype object.
    codes
        For each row the index of its text in `labels`, -1 where the cell is empty; shape (n,), integer.
    label_values
        What was read from each distinct text, shape (k,): float64 with NaN where it is no number, datetime64[D]
        with NaT where it is no date, or None for a column of text.
    """

    labels: NDArray[np.object_]
    codes: NDArray[np.integer]
    label_values: NDArray[np.float64] | NDArray[np.datetime64] | None = None

    @classmethod
    def of_texts(cls, texts: Sequence[str]) -> Column:
        """Column of text from one string a row; an empty string is an empty cell."""
        labels, codes = np.unique(np.asarray(texts, dtype=object), return_inverse=True)
        column = cls(labels, codes.astype(np.int32))
        return column.without_empty()

    @classmethod
    def of_numbers(cls, numbers: Sequence[float] | NDArray[np.float64]) -> Column:
        """Column of numbers that were never typed; NaN is an empty cell."""
        values, codes = np.unique(np.asarray(numbers, dtype=np.float64), return_inverse=True, equal_nan=True)
        labels = np.array([repr(float(value)) for value in values], dtype=object)
        codes = np.where(np.isnan(values)[codes], -1, codes).astype(np.int32)
        return cls(labels, codes, values)

    def without_empty(self) -> Column:
        """The same column with blank texts counted as empty cells."""
        blank = np.array([not str(label).strip() for label in self.labels], dtype=bool)
        if not blank.any():
            return self
        codes = np.where((self.codes >= 0) & blank[self.codes], -1, self.codes)
        return Column(self.labels, codes, self.label_values)

    def __len__(self) -> int:
        return len(self.codes)

    @cached_property
    def filled(self) -> NDArray[np.bool_]:
        """Whether something was typed, by row."""
        return self.codes >= 0

    @cached_property
    def numbers(self) -> NDArray[np.float64]:
        """Number by row; NaN where the cell is empty or no number."""
        if self.label_values is None or self.label_values.dtype.kind != "f":
            return np.full(len(self.codes), np.nan)
        numbers: NDArray[np.float64] = np.append(self.label_values, np.nan)[self.codes]
        return numbers

    @cached_property
    def dates(self) -> NDArray[np.datetime64]:
        """Date by row; NaT where the cell is empty or no date."""
        missing = np.datetime64("NaT", "D")
        if self.label_values is None or self.label_values.dtype.kind != "M":
            return np.full(len(self.codes), missing)
        dates: NDArray[np.datetime64] = np.append(self.label_values, missing)[self.codes]
        return dates

    @cached_property
    def texts(self) -> NDArray[np.object_]:
        """Text by row exactly as typed; an empty string where the cell is empty."""
        texts: NDArray[np.object_] = np.append(self.labels, "")[self.codes]
        return texts

    def alike(self, fold: Callable[[str], str] = str.strip) -> NDArray[np.int64]:
        """For each row the index of the first label that `fold` makes the same text; -1 where the cell is empty."""
        first: dict[str, int] = {}
        labels = [first.setdefault(fold(str(label)), place) for place, label in enumerate(self.labels)]
        codes: NDArray[np.int64] = np.array([*labels, -1], np.int64)[self.codes]
        return codes

    def take(self, rows: NDArray[np.integer]) -> Column:
        """The column with the given rows; a row of -1 becomes an empty cell."""
        codes = np.append(self.codes, np.int32(-1))[rows]
        return Column(self.labels, codes, self.label_values)

    def followed_by(self, other: Column) -> Column:
        """The column and below it another one of the same kind; a text of both stands twice among the labels."""
        codes = np.where(other.codes >= 0, other.codes + len(self.labels), -1)
        values: Any = None
        if self.label_values is not None and other.label_values is not None:
            values = np.concatenate([self.label_values, other.label_values])
        return Column(
            np.concatenate([self.labels, other.labels]),
            np.concatenate([self.codes, codes]).astype(np.int32),
            values,
        )


@dataclass(frozen=True)
class Records:
    """The rows of one table, from one or several files.

    Parameters
    ----------
    table
        Which table: plots, stems, stations or stems measured again.
    columns
        Canonical name to column; all of one length.
    source
        For each row the index of its file or sheet in the upload's `sources`; shape (n,).
    line
        For each row its line in the file or row in the sheet as a person counts them, from 1; shape (n,).
    other
        Columns that have no canonical name, by their heading; kept and exported, not interpreted.
    """

    table: Table
    columns: Mapping[str, Column]
    source: NDArray[np.int32]
    line: NDArray[np.int32]
    other: Mapping[str, Column] = field(default_factory=lambda: MappingProxyType({}))

    @classmethod
    def empty(cls, table: Table) -> Records:
        """No rows."""
        return cls(table, MappingProxyType({}), np.zeros(0, np.int32), np.zeros(0, np.int32))

    def __len__(self) -> int:
        return len(self.line)

    def has(self, name: str) -> bool:
        """Whether the upload has this column."""
        return name in self.columns

    def numbers(self, name: str) -> NDArray[np.float64]:
        """Numbers of a column by row; all NaN when the upload has no such column."""
        column = self.columns.get(name)
        return np.full(len(self), np.nan) if column is None else column.numbers

    def dates(self, name: str) -> NDArray[np.datetime64]:
        """Dates of a column by row; all NaT when the upload has no such column."""
        column = self.columns.get(name)
        return np.full(len(self), np.datetime64("NaT", "D")) if column is None else column.dates

    def texts(self, name: str) -> NDArray[np.object_]:
        """Texts of a column by row as typed; all empty when the upload has no such column."""
        column = self.columns.get(name)
        return np.full(len(self), "", dtype=object) if column is None else column.texts

    def take(self, rows: NDArray[np.integer]) -> Records:
        """The given rows in the given order; a row of -1 becomes a row of empty cells (source and line -1)."""

        def placed(numbers: NDArray[np.int32]) -> NDArray[np.int32]:
            taken: NDArray[np.int32] = np.append(numbers, np.int32(-1))[rows]
            return taken

        return Records(
            self.table,
            MappingProxyType({name: column.take(rows) for name, column in self.columns.items()}),
            placed(self.source),
            placed(self.line),
            MappingProxyType({name: column.take(rows) for name, column in self.other.items()}),
        )

    def followed_by(self, others: Records) -> Records:
        """These rows and below them others; where one of both lacks a canonical column its cells are empty."""

        def joined(name: str) -> Column:
            own, theirs = self.columns.get(name), others.columns.get(name)
            own = _empty(len(self), theirs) if own is None else own
            return own.followed_by(_empty(len(others), own) if theirs is None else theirs)

        names = dict.fromkeys([*self.columns, *others.columns])
        return Records(
            self.table,
            MappingProxyType({name: joined(name) for name in names}),
            np.concatenate([self.source, others.source]),
            np.concatenate([self.line, others.line]),
            MappingProxyType(
                {name: column.followed_by(_empty(len(others), column)) for name, column in self.other.items()}
            ),
        )


def _empty(count: int, like: Column | None) -> Column:
    values = None if like is None or like.label_values is None else like.label_values[:0]
    return Column(np.zeros(0, object), np.full(count, -1, np.int32), values)


@dataclass(frozen=True)
class Remark:
    """What reading has to say about a file, a line, a column or a cell; it becomes an `import` finding.

    Parameters
    ----------
    check
        Slug of the doubt, as declared in the registry.
    sentence
        What happened, what was kept, what to do.
    file
        The file as named by the user, with the sheet or layer where there are several.
    line, column, text
        Where, and what stood there, when that can be said.
    """

    check: str
    sentence: str
    file: str
    line: int | None = None
    column: str | None = None
    text: str | None = None


@dataclass(frozen=True)
class StatedUnit:
    """A unit that a heading or the cells below it name, to be held against the settings.

    Parameters
    ----------
    field
        Canonical field.
    unit
        m, dm, cm, mm, ft, in, degree, gon, mil or %.
    file, column
        Where it stands.
    """

    field: str
    unit: str
    file: str
    column: str


@dataclass(frozen=True)
class Upload:
    """All that was read from the files of one upload.

    Parameters
    ----------
    plots, stems, stations
        The records, possibly without rows.
    sources
        Names of the files, sheets and layers, indexed by `Records.source`.
    remarks
        What reading had to say.
    units
        Units that headings or cells name.
    upload_of_source
        Number of the upload that each source came with; empty where there is only one.
    returned
        Rows of field packets that crews brought back; None where there are none.
    """

    plots: Records
    stems: Records
    stations: Records
    sources: tuple[str, ...] = ()
    remarks: tuple[Remark, ...] = ()
    units: tuple[StatedUnit, ...] = ()
    upload_of_source: tuple[int, ...] = ()
    returned: Returned | None = None
