"""A survey without the values of some visits, for whoever measures them without knowing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from types import MappingProxyType

import numpy as np

from stemmap.survey.records import Column
from stemmap.survey.survey import Stems, Survey

#: What a blind check may know of a stem: where to look for it and the number that it may bear.
_TOLD = ("plot", "visit", "date", "tree", "stem")


def without_values(survey: Survey, visits: Sequence[int]) -> Survey:
    """The survey as if of some visits only the numbers of their stems had been recorded, and no visit before them."""
    blind = np.isin(survey.stems.visit_row, np.asarray(visits, np.int64))

    def emptied(column: Column) -> Column:
        return replace(column, codes=np.where(blind, np.int32(-1), column.codes))

    records = survey.stems.records
    columns = {name: column if name in _TOLD else emptied(column) for name, column in records.columns.items()}
    other = {name: emptied(column) for name, column in records.other.items()}
    previous = survey.visits.previous.copy()
    previous[list(visits)] = -1
    return replace(
        survey,
        visits=replace(survey.visits, previous=previous),
        stems=Stems(
            replace(records, columns=MappingProxyType(columns), other=MappingProxyType(other)), survey.stems.visit_row
        ),
    )
