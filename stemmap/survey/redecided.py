"""A survey decided otherwise on some plots, without putting it together anew."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from stemmap.survey.decided import Decisions, numbers_of, rows_of
from stemmap.survey.records import Column
from stemmap.survey.survey import Survey, assemble

#: Fields that say which plot, visit and stem a record is about, and whether it is one.
_PLACING = frozenset(("plot", "visit", "date", "tree", "stem", "status"))


@dataclass(frozen=True)
class Redecided:
    """A survey with other decisions, with the same visits as before.

    Parameters
    ----------
    survey
        The survey as decided now.
    visits
        Rows of the visits that are decided otherwise than before.
    came_from
        Row that each stem had before, -1 for one that was none, shape (stems,); None where all rows are the same.
    """

    survey: Survey
    visits: NDArray[np.int64]
    came_from: NDArray[np.int64] | None = None


def redecided(survey: Survey, decisions: Decisions) -> Redecided | None:
    """The survey with other decisions; None where its visits are others then, or a decision is about no visit."""
    before, after = survey.decisions, decisions
    differing = [
        entry
        for one, other in ((before.standing, after.standing), (after.standing, before.standing))
        for finding, entry in one.items()
        if other.get(finding) != entry
    ]
    places = {(entry.plot, entry.visit or "") for entry in differing}
    visits = np.array([-1 if plot is None else survey.visit_row(plot, visit) for plot, visit in places], np.int64)
    if (visits < 0).any():
        return None
    columns = dict[str, Column]()
    for field in {*before.values, *after.values}:
        was, now = before.values.get(field, {}), after.values.get(field, {})
        records = [record for record in {**was, **now} if was.get(record) != now.get(record)]
        if not records:
            continue
        typed, here = survey.upload.stems, survey.stems.records
        rows, typed_rows = rows_of(here, records), rows_of(typed, records)
        if field in _PLACING or not (typed.has(field) and here.has(field)) or (np.minimum(rows, typed_rows) < 0).any():
            return _put_together(survey, decisions, visits)
        as_typed = typed.columns[field].take(typed_rows)
        columns[field] = _with_cells(here.columns[field], rows, [now.get(record) for record in records], as_typed)
    stems = survey.stems
    if columns:
        stems = stems.having(MappingProxyType({**stems.records.columns, **columns}))
    return Redecided(replace(survey, stems=stems, decisions=decisions), np.unique(visits))


def _put_together(survey: Survey, decisions: Decisions, visits: NDArray[np.int64]) -> Redecided | None:
    """The survey put together anew, because stems come, go or move to another visit."""
    made = replace(assemble(survey.upload, survey.settings, decisions), ground=survey.ground)
    old, new = survey.visits, made.visits
    if len(old) != len(new) or not (np.array_equal(old.plot, new.plot) and np.array_equal(old.visit, new.visit)):
        return None
    if not np.array_equal(old.date, new.date, equal_nan=True):
        return None
    records = made.stems.records
    came_from = rows_of(survey.stems.records, np.column_stack([records.source, records.line]))
    moved = (came_from < 0) | (np.append(survey.stems.visit_row, -1)[came_from] != made.stems.visit_row)
    left = np.ones(len(survey.stems) + 1, bool)
    left[came_from[~moved]] = False
    concerned = [visits, made.stems.visit_row[moved], survey.stems.visit_row[left[:-1]]]
    return Redecided(made, np.unique(np.concatenate(concerned)), came_from)


def _with_cells(column: Column, rows: NDArray[np.int64], texts: Sequence[str | None], typed: Column) -> Column:
    """A column with other texts in some rows; where the text is None, with what was typed, row by row in `typed`."""
    decided = Column(np.array([text for text in texts if text is not None], object), np.zeros(0, np.int32))
    labels = np.concatenate([typed.labels, decided.labels])
    code = typed.codes.copy()
    given = [place for place, text in enumerate(texts) if text is not None]
    code[given] = len(typed.labels) + np.arange(len(given))
    codes = column.codes.copy()
    codes[rows] = np.where(code >= 0, code + len(column.labels), -1)
    values = column.label_values
    if values is not None and typed.label_values is not None and values.dtype.kind == "f":
        values = np.concatenate([values, typed.label_values, numbers_of(decided.labels)])
    return Column(np.concatenate([column.labels, labels]), codes, values)
