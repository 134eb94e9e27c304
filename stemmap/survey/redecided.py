"""A survey decided otherwise on some plots, without putting it together anew."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from stemmap.survey.decided import Decisions, rows_of
from stemmap.survey.records import Column
from stemmap.survey.survey import Survey

#: Fields that say which plot, visit and stem a record is about.
_PLACING = frozenset(("plot", "visit", "date", "tree", "stem"))


def redecided(survey: Survey, decisions: Decisions) -> tuple[Survey, NDArray[np.int64]] | None:
    """The survey with other decisions.

    Returns
    -------
    The survey and the rows of the visits that are decided otherwise than before; None where it must be put together
    anew: a decision on a file or on records that are not there, another plot, visit or number of a stem, a record that
    is struck.
    """
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
            return None
        if field == "status" and any(survey.settings.status.strikes(now.get(record) or "") for record in records):
            return None
        as_typed = typed.columns[field].take(typed_rows)
        columns[field] = _with_cells(here.columns[field], rows, [now.get(record) for record in records], as_typed)
    stems = survey.stems
    if columns:
        stems = stems.having(MappingProxyType({**stems.records.columns, **columns}))
    return replace(survey, stems=stems, decisions=decisions), np.unique(visits)


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
        values = np.concatenate([values, typed.label_values, [_number(text) for text in decided.labels]])
    return Column(np.concatenate([column.labels, labels]), codes, values)


def _number(text: str) -> float:
    try:
        return float(text)
    except ValueError:
        return np.nan
