"""A survey without the values of some visits, for whoever measures them without knowing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from types import MappingProxyType

import numpy as np

from stemmap.survey.records import Column
from stemmap.survey.survey import Stems, Survey

#: What a blind check may know of a stem beside its plot and visit: the numbers that it may bear.
_NUMBERS = ("tree", "stem")
_TOLD = ("plot", "visit", "date", *_NUMBERS)


def by_number(survey: Survey, visit_row: int) -> list[int]:
    """Rows of the stems of a visit in the order of their numbers, which tells nothing about where they stand."""
    rows = survey.visits.stems(visit_row)
    numbers = [survey.stems.records.take(np.arange(rows.start, rows.stop)).texts(name).tolist() for name in _NUMBERS]
    keys = list(zip(*([_natural(text.strip()) for text in texts] for texts in numbers), strict=True))
    return sorted(range(rows.start, rows.stop), key=lambda row: keys[row - rows.start])


def without_values(survey: Survey, visits: Sequence[int]) -> Survey:
    """The survey as if of some visits only the numbers of their stems had been recorded, and no visit before them.

    The numbers stand in their order, so they no longer belong to the rows of their records.
    """
    blind = np.isin(survey.stems.visit_row, np.asarray(visits, np.int64))
    order = np.arange(len(survey.stems))
    for visit_row in visits:
        order[survey.visits.stems(visit_row)] = by_number(survey, visit_row)

    def withheld(name: str, column: Column) -> Column:
        if name in _NUMBERS:
            return replace(column, codes=column.codes[order])
        return column if name in _TOLD else replace(column, codes=np.where(blind, np.int32(-1), column.codes))

    records = survey.stems.records
    columns = {name: withheld(name, column) for name, column in records.columns.items()}
    other = {name: withheld("", column) for name, column in records.other.items()}
    previous = survey.visits.previous.copy()
    previous[list(visits)] = -1
    stems = replace(records, columns=MappingProxyType(columns), other=MappingProxyType(other))
    return replace(
        survey,
        visits=replace(survey.visits, previous=previous),
        stems=Stems(stems, survey.stems.visit_row),
    )


def _natural(text: str) -> tuple[float, str]:
    """Whole numbers in their order, other texts after them."""
    return (float(text), text) if text.isascii() and text.isdecimal() else (float("inf"), text)
