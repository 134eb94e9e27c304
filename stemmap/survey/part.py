"""Some plots of a survey, as a survey of their own that is small whatever the whole one holds."""

from __future__ import annotations

from dataclasses import dataclass, replace
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from stemmap.survey.records import Column, Records
from stemmap.survey.survey import Stems, Survey, Visits

Integers = NDArray[np.int64]

#: Columns that keep the codes of their texts: what the whole survey told is told by these.
_SAME_CODES = ("species",)


@dataclass(frozen=True)
class Part:
    """Plots of a survey with all their visits.

    Parameters
    ----------
    survey
        The survey of these plots alone; remarks and records without a plot stay with the whole.
    visits, stems
        Rows that its visits and stems have in the whole survey.
    """

    survey: Survey
    visits: Integers
    stems: Integers


def part_of(survey: Survey, visits: NDArray[np.integer]) -> Part:
    """The plots that some visits belong to.

    Parameters
    ----------
    survey
        The whole survey.
    visits
        Rows of visits, shape (n,); all visits of their plots are taken.
    """
    whole = survey.visits
    # Visits of a plot follow one another.
    plot = np.cumsum(whole.previous < 0)
    wanted = np.zeros(int(plot[-1]) + 1 if len(plot) else 1, bool)
    wanted[plot[visits]] = True
    rows = np.flatnonzero(wanted[plot])
    count = whole.stem_count[rows]
    first = np.append(0, np.cumsum(count))
    stems = np.arange(first[-1]) + np.repeat(whole.first_stem[rows] - first[:-1], count)
    described = np.unique(np.concatenate([whole.special[rows], whole.general[rows]]))
    described = described[described >= 0]

    def here(records: Integers) -> Integers:
        """Where rows of the plot records stand among those kept."""
        return np.where(records >= 0, np.searchsorted(described, records), -1)

    plots = _few(whole.records.take(described))
    part = replace(
        survey,
        visits=Visits(
            plot=whole.plot[rows],
            visit=whole.visit[rows],
            date=whole.date[rows],
            first_stem=first,
            previous=np.where(whole.previous[rows] >= 0, np.arange(len(rows)) - 1, -1),
            special=here(whole.special[rows]),
            general=here(whole.general[rows]),
            records=plots,
        ),
        stems=Stems(_few(survey.stems.records.take(stems)), np.repeat(np.arange(len(rows)), count)),
        unplaced=Records.empty("stems"),
        struck=Records.empty("stems"),
        upload=replace(survey.upload, plots=plots, remarks=()),
    )
    return Part(part, rows, stems)


def _few(records: Records) -> Records:
    """The records without texts that none of them has."""
    columns = {
        name: column if name in _SAME_CODES else _of_few_texts(column) for name, column in records.columns.items()
    }
    return replace(records, columns=MappingProxyType(columns), other=MappingProxyType({}))


def _of_few_texts(column: Column) -> Column:
    used = np.unique(column.codes[column.codes >= 0])
    codes = np.where(column.codes >= 0, np.searchsorted(used, column.codes), -1).astype(np.int32)
    values = column.label_values
    return Column(column.labels[used], codes, None if values is None else values[used])
