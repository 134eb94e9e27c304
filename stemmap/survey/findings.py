"""Findings: what checks report, kept as columns and told one by one only when somebody reads them."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Collection, Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from math import isfinite
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

import numpy as np
from numpy.typing import NDArray

from stemmap.survey.batches import SEVERITIES, Batch, Severity
from stemmap.survey.finding import Finding, filled

if TYPE_CHECKING:
    from stemmap.survey.registry import Check
    from stemmap.survey.survey import Survey

Integers = NDArray[np.int64]
Telling = Callable[[str, dict[str, Any]], str]

#: So many findings are made from their columns at once.
_TOLD_AT_ONCE = 10_000

#: The evidence that names a cell.
_CELL = ("file", "line", "column")


def _id_part(part: Any) -> str:
    """One part of a finding's id: no white space, no slash; a dash stands for nothing, so a typed dash is escaped."""
    if part in (None, ""):
        return "-"
    if type(part) is str and part.isascii() and part.isalnum():
        return part
    return "%2D" if part == "-" else quote(str(part), safe="~", errors="surrogatepass")


def _plain(value: Any) -> Any:
    """A numpy scalar as the Python value JSON knows; what is not finite or no date becomes None."""
    if isinstance(value, np.generic):
        value = value.item()
    if isinstance(value, float):
        return value if isfinite(value) else None
    return str(value) if isinstance(value, date) else value


def _plain_values(values: NDArray[Any]) -> list[Any]:
    """A column as Python values that JSON knows."""
    listed: list[Any] = values.tolist()
    if values.dtype.kind in "iubU":
        return listed
    if values.dtype.kind == "f":
        return [value if isfinite(value) else None for value in listed]
    return [_plain(value) for value in listed]


@dataclass(frozen=True)
class Order:
    """Findings in the order of the plots, as columns of shape (findings,).

    Parameters
    ----------
    visit, stem
        Row of the visit (-1: about files) and of the stem (-1: about the plot or files).
    batch, row
        Number of the batch, and row in it.
    """

    visit: NDArray[np.int64]
    stem: NDArray[np.int64]
    batch: NDArray[np.int64]
    row: NDArray[np.int64]


@dataclass(frozen=True)
class Findings:
    """All findings of a survey, in the order of the plots.

    Parameters
    ----------
    survey
        The survey they speak of.
    batches
        Each with the check that made it.
    telling
        Makes the sentence of a finding from its message and the values in it.
    """

    survey: Survey
    batches: tuple[tuple[Check, Batch], ...]
    telling: Telling = filled

    @cached_property
    def order(self) -> Order:
        """Where each finding stands: files first, then plot by plot, stem by stem."""
        if not self.batches:
            nothing = np.zeros(0, np.int64)
            return Order(nothing, nothing, nothing, nothing)
        visit = np.concatenate([batch.visit for _, batch in self.batches]).astype(np.int64)
        stem = np.concatenate([batch.stem for _, batch in self.batches]).astype(np.int64)
        number = np.repeat(np.arange(len(self.batches)), [len(batch) for _, batch in self.batches])
        row = np.concatenate([np.arange(len(batch)) for _, batch in self.batches])
        order = np.lexsort((number, stem, visit))
        return Order(visit[order], stem[order], number[order], row[order])

    @cached_property
    def _again(self) -> NDArray[np.int64]:
        """1 for the first finding of a check about one record and field, 2 for the second, and so on; in order."""
        if self.batches and all(batch.again is not None for _, batch in self.batches):
            told = [np.ones(0, np.int64) if batch.again is None else batch.again for _, batch in self.batches]
            starts = np.cumsum([0, *(len(again) for again in told)])
            counted: NDArray[np.int64] = np.concatenate(told)[starts[self.order.batch] + self.order.row]
            return counted
        visit, stem, number, row = self.order.visit, self.order.stem, self.order.batch, self.order.row
        kinds: dict[tuple[str, str | None], int] = {}
        kind = [kinds.setdefault((check.slug, batch.field), len(kinds)) for check, batch in self.batches]
        about = np.where(stem >= 0, len(self.survey.visits) + stem, visit)
        named = np.array([batch.about is not None for _, batch in self.batches])
        files = np.flatnonzero((visit < 0) | ((stem < 0) & named[number]))
        if len(files):
            cells = [(visit[i], *self._cell(int(number[i]), int(row[i]))) for i in files]
            known: dict[tuple[Any, ...], int] = {}
            about[files] = [-1 - known.setdefault(cell, len(known)) for cell in cells]
        key = about * max(len(kinds), 1) + np.array(kind, np.int64)[number]
        order = np.argsort(key, kind="stable")
        rank = np.arange(len(key))
        fresh = np.append(True, np.diff(key[order]) != 0)[: len(key)]
        again = np.empty(len(key), np.int64)
        again[order] = rank - np.maximum.accumulate(np.where(fresh, rank, 0)) + 1
        return again

    def without(self, ids: Collection[str], visit_rows: Iterable[int]) -> Findings:
        """The findings without those that carry one of the ids; the others keep theirs.

        Parameters
        ----------
        visit_rows
            Where they may stand; -1: about files.
        """
        gone = [
            place
            for visit_row in sorted(set(visit_rows))
            for place in self.places_of(visit_row)
            if self.tell(place).id in ids
        ]
        if not gone:
            return self
        batches = []
        for number, (check, batch) in enumerate(self.batches):
            here = self.order.batch == number
            again = np.ones(len(batch), np.int64)
            again[self.order.row[here]] = self._again[here]
            keep = np.ones(len(batch), bool)
            keep[[int(self.order.row[place]) for place in gone if self.order.batch[place] == number]] = False
            batches.append((check, dataclasses.replace(batch, again=again).take(np.flatnonzero(keep))))
        return dataclasses.replace(self, batches=tuple(item for item in batches if len(item[1])))

    def with_part(
        self, survey: Survey, made: Findings, *, visits: Integers, stems: Integers, came_from: Integers | None = None
    ) -> Findings:
        """The findings about some plots made anew, all others and what concerns the survey as a whole kept.

        Parameters
        ----------
        survey
            The survey as it is now.
        made
            Findings about the part alone.
        visits, stems
            Rows that the part's visits and stems have in the whole survey.
        came_from
            Row that each stem of the survey had before, -1 for one that was none; None: the same.
        """
        renewed = np.zeros(len(survey.visits) + 1, bool)
        renewed[visits] = True
        batches = []
        for check, batch in self.batches:
            kept = np.flatnonzero(~renewed[batch.visit])
            whole = check.of_survey or len(kept) == len(batch)
            batches.append((check, batch if whole else batch.take(kept)))
        if came_from is not None:
            batches = [(check, batch.moved(came_from)) for check, batch in batches]
        for check, batch in made.batches:
            here = batch.take(np.flatnonzero(batch.visit >= 0))
            rows = np.append(stems, -1)[here.stem]
            batches.append((check, dataclasses.replace(here, visit=visits[here.visit], stem=rows)))
        # In the order in which the checks run, those that reading raised first.
        batches.sort(key=lambda item: item[0].slug if item[0].run is not None else "")
        return dataclasses.replace(self, survey=survey, batches=tuple(item for item in batches if len(item[1])))

    def __len__(self) -> int:
        return sum(len(batch) for _, batch in self.batches)

    def __iter__(self) -> Iterator[Finding]:
        for first in range(0, len(self), _TOLD_AT_ONCE):
            yield from self.told(slice(first, first + _TOLD_AT_ONCE))

    def told(self, places: slice) -> list[Finding]:
        """The findings at some places of the order."""
        number, row, again = self.order.batch[places], self.order.row[places], self._again[places]
        made: dict[int, Finding] = {}
        for each in np.unique(number).tolist():
            here = np.flatnonzero(number == each)
            made.update(zip(here.tolist(), self._told_of(each, row[here], again[here]), strict=True))
        return [made[place] for place in range(len(number))]

    @cached_property
    def gravity(self) -> NDArray[np.int8]:
        """1 (note), 2 (warning) or 3 (error) for each finding in order; shape (findings,)."""
        of_batch = [3 - SEVERITIES.index(self.severity_of(number)) for number in range(len(self.batches))]
        return np.array(of_batch, np.int8)[self.order.batch]

    def tell(self, place: int) -> Finding:
        """The finding at a place of the order."""
        again = self._again[place : place + 1]
        return next(self._told_of(int(self.order.batch[place]), self.order.row[place : place + 1], again))

    def places_of(self, visit_row: int) -> range:
        """Places of the findings of one visit; -1 gives those about files."""
        first, last = np.searchsorted(self.order.visit, [visit_row, visit_row + 1])
        return range(int(first), int(last))

    def of_visit(self, visit_row: int, most: int | None = None) -> list[Finding]:
        """Findings of one visit, plot first, then stem by stem, and no more than `most`; -1 gives those about files."""
        return [self.tell(place) for place in self.places_of(visit_row)[:most]]

    def severity_of(self, batch: int) -> Severity:
        """Severity of a batch."""
        check, rows = self.batches[batch]
        return rows.severity or check.severity

    @cached_property
    def counts(self) -> dict[str, int]:
        """Number of findings by severity."""
        counts = dict.fromkeys(SEVERITIES, 0)
        for number, (_, batch) in enumerate(self.batches):
            counts[self.severity_of(number)] += len(batch)
        return {str(name): count for name, count in counts.items()}

    def count_by_visit(self, severity: Severity) -> NDArray[np.int64]:
        """Number of findings of one severity for each visit row; shape (visits,)."""
        total = np.zeros(len(self.survey.visits), np.int64)
        for number, (_, batch) in enumerate(self.batches):
            if self.severity_of(number) == severity:
                rows = batch.visit[batch.visit >= 0]
                total += np.bincount(rows, minlength=len(total))
        return total

    @cached_property
    def worst_of_stem(self) -> NDArray[np.int8]:
        """For each stem 0 (no finding), 1 (note), 2 (warning) or 3 (error); shape (stems,)."""
        worst = np.zeros(len(self.survey.stems), np.int8)
        for number, (_, batch) in enumerate(self.batches):
            rank = 3 - SEVERITIES.index(self.severity_of(number))
            rows = batch.stem[batch.stem >= 0]
            np.maximum.at(worst, rows, np.int8(rank))
        return worst

    def _cell(self, number: int, row: int) -> tuple[Any, ...]:
        """What a finding about files speaks of: a cell, or what its batch says."""
        _, batch = self.batches[number]
        if batch.about is not None:
            return (batch.about[row],)
        return tuple(_plain(batch.evidence[name][row]) if name in batch.evidence else None for name in _CELL)

    def _told_of(self, number: int, rows: Integers, again: Integers) -> Iterator[Finding]:
        """Findings of one batch."""
        check, whole = self.batches[number]
        batch, severity = whole.take(rows), self.severity_of(number)
        visits, stems = self.survey.visits, self.survey.stems
        evidence = {name: _plain_values(values) for name, values in batch.evidence.items()}
        proposed = [
            (proposal.field, _plain_values(proposal.values), _plain_values(proposal.probability))
            for proposal in batch.proposals
        ]
        stems_per_ha, area = (
            [None] * len(batch) if values is None else _plain_values(values)
            for values in (batch.stems_per_ha, batch.basal_area_m2_per_ha)
        )
        name = f"{check.slug}/{batch.field or '-'}"
        for row, (visit_row, stem_row, time) in enumerate(
            zip(batch.visit.tolist(), batch.stem.tolist(), again.tolist(), strict=True)
        ):
            said = {key: values[row] for key, values in evidence.items()}
            plot = visits.plot[visit_row] if visit_row >= 0 else None
            visit = visits.visit[visit_row] or None if visit_row >= 0 else None
            stem = stems.label(stem_row) if stem_row >= 0 else None
            called = (stem or "").strip() or (f"? (line {stems.records.line[stem_row]})" if stem_row >= 0 else None)
            if visit_row < 0:
                place = "/".join(_id_part(part) for part in ("file", *self._cell(number, int(rows[row]))))
            else:
                place = f"{_id_part(plot)}/{_id_part(visit)}" + (f"/{stems.key(stem_row)}" if stem_row >= 0 else "")
                place += f"/{_id_part(batch.about[row])}" if stem_row < 0 and batch.about is not None else ""
            meant = batch.meant.of_row(row) if batch.meant else ()
            yield Finding(
                id=f"{place}/{name}~{time}" if time > 1 else f"{place}/{name}",
                plot=plot,
                visit=visit,
                stem=stem,
                check=check.slug,
                severity=severity,
                family=check.family,
                field=batch.field,
                message=self.telling(batch.message, {"plot": plot or "", "stem": called or ""} | said),
                evidence=said,
                proposals=[
                    {"field": field, "value": values[row], "probability": probability[row]}
                    for field, values, probability in proposed
                    if values[row] is not None
                ],
                effect={"stems_per_ha": stems_per_ha[row], "basal_area_m2_per_ha": area[row]},
                visit_row=visit_row,
                stem_row=stem_row,
                meant=meant,
                meant_stems=tuple(stems.label(each.row) for each in meant),
                brought=None if batch.brought is None else (int(batch.brought[row, 0]), int(batch.brought[row, 1])),
            )
