"""Decisions laid over the records: the values that hold, beside what was typed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from types import MappingProxyType
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from stemmap.survey.fields import typed_number
from stemmap.survey.journal import Entry, standing
from stemmap.survey.records import Column, Records

if TYPE_CHECKING:
    from stemmap.survey.survey import Survey


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

    def kept(self, survey: Survey) -> tuple[frozenset[str], frozenset[int]]:
        """Ids of the findings that were kept as recorded, and the visit rows they may stand at (-1: about files).

        A finding is kept while its record stands as it was typed; one about a whole plot until the plot's visit
        is uploaded again.
        """
        ids, where = set(), set()
        kept = [entry for entry in self.standing.values() if entry.decision == "keep"]
        records = [(entry.source, entry.line) for entry in kept if entry.source is not None and entry.line is not None]
        stems = survey.stems.records
        there = dict(zip(records, rows_of(stems, records).tolist(), strict=True))
        for entry in kept:
            if entry.source is not None and entry.line is not None:
                row = there.get((entry.source, entry.line), -1)
                visit_row = int(survey.stems.visit_row[row]) if row >= 0 else None
            else:
                visit_row = -1 if entry.plot is None else self._unchanged_visit(survey, entry)
            if visit_row is not None:
                ids.add(entry.finding)
                where.add(visit_row)
        return frozenset(ids), frozenset(where)

    @staticmethod
    def _unchanged_visit(survey: Survey, entry: Entry) -> int | None:
        """Visit row of an entry about a whole plot, if no later upload has a record of it."""
        visit_row = survey.visit_row(entry.plot or "", entry.visit or "")
        unchanged = visit_row >= 0 and newest_upload(survey, visit_row) == entry.upload
        return visit_row if unchanged else None

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


def newest_upload(survey: Survey, visit_row: int) -> int | None:
    """Number of the newest upload that has a record of a visit; None where uploads are not numbered."""
    uploads = survey.upload.upload_of_source
    sources = set(survey.stems.records.source[survey.visits.stems(visit_row)].tolist())
    rows = [int(row) for row in (survey.visits.special[visit_row], survey.visits.general[visit_row]) if row >= 0]
    sources |= set(survey.visits.records.source[rows].tolist())
    return max((uploads[source] for source in sources), default=None) if uploads else None


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
