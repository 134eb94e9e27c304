"""Decisions laid over the records: the values that hold, beside what was typed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from stemmap.survey.fields import typed_number
from stemmap.survey.journal import Entry, standing
from stemmap.survey.records import Column, Records


@dataclass(frozen=True)
class Decisions:
    """What the journal says, as of one entry.

    Parameters
    ----------
    entries
        The journal up to that entry.
    """

    entries: tuple[Entry, ...] = ()

    @cached_property
    def standing(self) -> dict[str, Entry]:
        """The decision that holds for each decided finding, by the finding's id."""
        return standing(self.entries)

    @cached_property
    def values(self) -> dict[str, dict[tuple[int, int], str]]:
        """Decided texts by field and record (source, line)."""
        values: dict[str, dict[tuple[int, int], str]] = {}
        for entry in self.standing.values():
            for change in entry.changes:
                values.setdefault(change.field, {})[change.source, change.line] = change.new
        return values

    def lay_over(self, stems: Records, brought: Records | None = None) -> Records:
        """The stem records with the decided values in place of those typed; records that are gone are skipped.

        Parameters
        ----------
        brought
            Rows that came back from field packets: one of them that something is decided about is a stem from then on.
        """
        if not self.values or not (len(stems) or brought):
            return stems
        if brought:
            records = list(dict.fromkeys(record for decided in self.values.values() for record in decided))
            rows = rows_of(brought, records)
            # A column that the stems lack would change how visits are grouped and stems are named.
            known = {name: column for name, column in brought.columns.items() if not len(stems) or stems.has(name)}
            added = replace(brought, columns=MappingProxyType(known))
            stems = stems.followed_by(added.take(rows[rows >= 0])) if (rows >= 0).any() else stems
        columns = dict(stems.columns)
        for field, decided in self.values.items():
            rows = rows_of(stems, list(decided))
            there = np.flatnonzero(rows >= 0)
            texts = [text for text, row in zip(decided.values(), rows.tolist(), strict=True) if row >= 0]
            if len(there):
                columns[field] = _with_values(columns.get(field), len(stems), rows[there], texts)
        return replace(stems, columns=MappingProxyType(columns))


NOTHING_DECIDED = Decisions()


def rows_of(records: Records, wanted: Sequence[tuple[int, int]] | NDArray[np.integer]) -> NDArray[np.int64]:
    """Row of each (source, line), pairs or an array of shape (n, 2); -1 where there is none."""
    if not len(records) or not len(wanted):
        return np.full(len(wanted), -1, np.int64)
    source, line = np.asarray(wanted, np.int64).T
    key = records.source.astype(np.int64) << 32 | records.line.astype(np.int64)
    order = np.argsort(key, kind="stable")
    asked = source << 32 | line
    place = np.minimum(np.searchsorted(key, asked, sorter=order), len(key) - 1)
    rows = order[place]
    found: NDArray[np.int64] = np.where(key[rows] == asked, rows, -1)
    return found


def _with_values(column: Column | None, count: int, rows: NDArray[np.int64], texts: list[str]) -> Column:
    """A column with other texts in some rows; numbers are written with a decimal point."""
    if column is None:
        column = Column(np.zeros(0, object), np.full(count, -1, np.int32), np.zeros(0))
    codes = column.codes.copy()
    codes[rows] = len(column.labels) + np.arange(len(texts))
    labels = np.concatenate([column.labels, np.array(texts, dtype=object)])
    values = column.label_values
    if values is not None and values.dtype.kind == "f":
        values = np.concatenate([values, numbers_of(texts)])
    return Column(labels, codes, values)


def numbers_of(texts: Iterable[str]) -> NDArray[np.float64]:
    """Numbers that decided texts mean; NaN where one means none."""
    numbers = [typed_number(str(text)) for text in texts]
    return np.array([np.nan if number is None else number for number in numbers])
