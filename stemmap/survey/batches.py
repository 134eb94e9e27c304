"""What checks report: one kind of doubt about many records, as columns."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass
from math import isfinite
from types import MappingProxyType
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

Severity = Literal["error", "warning", "note"]
Family = Literal["import", "inclusion", "typing", "diameter", "revisit", "visibility"]

SEVERITIES: tuple[Severity, ...] = ("error", "warning", "note")


@dataclass(frozen=True)
class Proposal:
    """What may have been meant, for each row of a batch.

    Parameters
    ----------
    field
        Canonical field the value belongs to.
    values
        Proposed value in the file's own unit and north, shape (n,); NaN where this row has no such proposal. Texts for
        a field of text, None where there is none.
    probability
        Probability that this was meant, shape (n,).
    """

    field: str
    values: NDArray[Any]
    probability: NDArray[np.float64]


@dataclass(frozen=True)
class Meant:
    """How all stems of a plot may have been meant, for each row of a batch about plots.

    Parameters
    ----------
    stem
        Rows of the stems, plot by plot, shape (s,).
    first
        Those of row i are first[i] to first[i + 1]; shape (n + 1,).
    values
        By canonical field, in the file's own unit and north, shape (s,) each; NaN where nothing is proposed. Texts for
        a field of text.
    probability
        Probability that the plot was meant so, shape (n,).
    """

    stem: NDArray[np.int64]
    first: NDArray[np.int64]
    values: Mapping[str, NDArray[Any]]
    probability: NDArray[np.float64]

    def take(self, rows: NDArray[np.integer]) -> Meant:
        """The given rows."""
        counts = np.diff(self.first)[rows]
        first = np.append(0, np.cumsum(counts))
        stems = np.repeat(self.first[rows] - first[:-1], counts) + np.arange(first[-1])
        values = {name: column[stems] for name, column in self.values.items()}
        return Meant(self.stem[stems], first, values, self.probability[rows])

    def of_row(self, row: int) -> tuple[StemMeant, ...]:
        """What each stem of one row may have been meant to be."""
        part = slice(int(self.first[row]), int(self.first[row + 1]))
        columns = {name: values[part].tolist() for name, values in self.values.items()}
        chance = float(self.probability[row])
        made = []
        for place, stem in enumerate(self.stem[part].tolist()):
            values = {name: column[place] for name, column in columns.items() if _is_known(column[place])}
            if values:
                made.append(StemMeant(stem, values, chance))
        return tuple(made)


def _is_known(value: float | str) -> bool:
    return isinstance(value, str) or isfinite(value)


@dataclass(frozen=True)
class StemMeant:
    """What the record of one stem may have been meant to be: values by canonical field, and how probable they are."""

    row: int
    values: Mapping[str, float | str]
    probability: float

    @property
    def numbers(self) -> dict[str, float]:
        """Those of the values that are numbers."""
        return {name: value for name, value in self.values.items() if not isinstance(value, str)}


@dataclass(frozen=True)
class Batch:
    """One kind of doubt about many records.

    Parameters
    ----------
    message
        Sentence with `{name}` or `{name:.2f}` places that are filled from `evidence`; `{stem}` and `{plot}` are known.
    visit
        Row of the visit, -1 when the doubt is about a file; shape (n,).
    stem
        Row of the stem, -1 when the doubt is about the plot or a file; shape (n,).
    field
        Canonical field in doubt, or None.
    evidence
        Name to numbers or texts, shape (n,) each.
    proposals
        Up to three.
    meant
        Of doubts about whole plots: how all their stems may have been meant.
    stems_per_ha, basal_area_m2_per_ha
        What the doubt is worth per hectare, shape (n,); None when it cannot be said.
    severity
        Overrides the check's own, for all rows of the batch.
    about
        What a finding about no stem speaks of, where that is no cell and not the plot: part of its id; shape (n,).
    brought
        Of doubts about rows that crews brought back: source and line of each, shape (n, 2). Their proposals are the
        values with which such a row would be a stem.
    again
        1 for the first finding of the check about a record and field, 2 for the second; None: counted. Shape (n,).
    """

    message: str
    visit: NDArray[np.integer]
    stem: NDArray[np.integer]
    field: str | None = None
    evidence: Mapping[str, NDArray[Any]] = dataclasses.field(default_factory=lambda: MappingProxyType({}))
    proposals: tuple[Proposal, ...] = ()
    meant: Meant | None = None
    stems_per_ha: NDArray[np.float64] | None = None
    basal_area_m2_per_ha: NDArray[np.float64] | None = None
    severity: Severity | None = None
    about: NDArray[np.object_] | None = None
    brought: NDArray[np.int64] | None = None
    again: NDArray[np.int64] | None = None

    def __len__(self) -> int:
        return len(self.visit)

    def take(self, rows: NDArray[np.integer]) -> Batch:
        """The batch with the given rows."""

        def taken(values: NDArray[Any] | None) -> Any:
            return None if values is None else values[rows]

        return dataclasses.replace(
            self,
            visit=self.visit[rows],
            stem=self.stem[rows],
            evidence={name: values[rows] for name, values in self.evidence.items()},
            proposals=tuple(Proposal(each.field, each.values[rows], each.probability[rows]) for each in self.proposals),
            stems_per_ha=taken(self.stems_per_ha),
            basal_area_m2_per_ha=taken(self.basal_area_m2_per_ha),
            about=taken(self.about),
            brought=taken(self.brought),
            meant=None if self.meant is None else self.meant.take(rows),
            again=taken(self.again),
        )


    def moved(self, came_from: NDArray[np.int64]) -> Batch:
        """The batch in a survey whose stems have other rows, without doubts about stems that are none any more.

        Parameters
        ----------
        came_from
            Row that each stem there has here, -1 for one that is none here.
        """
        known = came_from >= 0
        size = max(int(came_from.max(initial=-1)), int(self.stem.max(initial=-1))) + 1
        now = np.full(size + 1, -1, np.int64)
        now[came_from[known]] = np.flatnonzero(known)
        there = dataclasses.replace(self, stem=now[self.stem])
        if self.meant is not None:
            there = dataclasses.replace(there, meant=dataclasses.replace(self.meant, stem=now[self.meant.stem]))
        return there.take(np.flatnonzero((self.stem < 0) | (there.stem >= 0)))
