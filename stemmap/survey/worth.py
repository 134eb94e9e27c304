"""What settling each doubt is worth: the probability that the present value is wrong, times what it moves."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from stemmap.survey.doubts import plot_doubts, stem_doubts, weighs_plot
from stemmap.survey.findings import Findings
from stemmap.survey.plot_status import PlotStatus
from stemmap.survey.summary import Summary

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]

#: A doubt of less probability is none.
_LEAST = 1e-3
#: Families of the findings that speak of what a stem adds to the result.
_OF_STEMS = ("inclusion", "typing", "diameter")


@dataclass(frozen=True)
class Result:
    """The survey's result on the last visits: what a doubt is measured against.

    Parameters
    ----------
    stems_per_ha, basal_area_m2_per_ha
        Mean over the plots; NaN where none is known.
    plots
        Number of plots that count, each alike.
    """

    stems_per_ha: float
    basal_area_m2_per_ha: float
    plots: int

    def share(self, stems_per_ha: Floats, basal_area_m2_per_ha: Floats) -> Floats:
        """Changes on one plot in percent of an average plot: the mean of both quantities, or the one that is known."""
        changes = ((stems_per_ha, self.stems_per_ha), (basal_area_m2_per_ha, self.basal_area_m2_per_ha))
        parts = [100.0 * change / mean for change, mean in changes if mean > 0.0]
        shares: Floats = np.mean(parts, axis=0) if parts else np.zeros(len(stems_per_ha))
        return shares


@dataclass(frozen=True)
class Doubts:
    """Stems and plots in doubt on the last visits, shape (n,) each.

    Parameters
    ----------
    visit, stem
        Row of the visit and of the stem; -1: the doubt is about the plot, and what is hidden there.
    probability
        Probability that something about it is wrong.
    stems_per_ha, basal_area_m2_per_ha
        By how much the values of the plot change if it is wrong, on average.
    worth
        Expected change in percent of an average plot; the survey's result moves by this over the number of plots.
    """

    visit: Integers
    stem: Integers
    probability: Floats
    stems_per_ha: Floats
    basal_area_m2_per_ha: Floats
    worth: Floats

    def __len__(self) -> int:
        return len(self.visit)


@dataclass(frozen=True)
class Worth:
    """What settling the doubts of a survey is worth.

    Stems and basal area per hectare count alike: the expected change of each is taken in percent of its mean over
    the plots, and the mean of both is the worth. What stands in a wrong place changes neither today, but stands in
    the way of the next visit; the settings say what share of its weight that counts.

    Parameters
    ----------
    summary, findings
        What it is computed from.
    """

    summary: Summary
    findings: Findings

    @cached_property
    def last(self) -> NDArray[np.bool_]:
        """Whether a visit is its plot's last one and counts: an earlier one cannot be measured again."""
        visits, status = self.summary.survey.visits, self.summary.status
        last = np.ones(len(visits), bool)
        last[visits.previous[visits.previous >= 0]] = False
        counts: NDArray[np.bool_] = last & (status != PlotStatus.NON_FOREST) & (status != PlotStatus.NOT_REACHED)
        return counts

    @cached_property
    def result(self) -> Result:
        """Means of the last visits."""
        means = []
        for values in (self.summary.living.stems_per_ha, self.summary.living.basal_area):
            known = values[self.last & (self.summary.density_reason == "") & np.isfinite(values)]
            means.append(float(known.mean()) if len(known) else np.nan)
        return Result(means[0], means[1], int(self.last.sum()))

    @cached_property
    def doubts(self) -> Doubts:
        """All doubts about stems, then those about plots."""
        survey = self.summary.survey
        share = survey.settings.recheck.misplaced_share
        parts = []
        for tally, visit, of_stems in (
            (stem_doubts(self.summary, self.findings), survey.stems.visit_row, True),
            (plot_doubts(self.summary, self.findings), np.arange(len(survey.visits)), False),
        ):
            chance = 1.0 - tally.right
            moved = self.result.share(tally.stems + share * tally.lost_stems, tally.area + share * tally.lost_area)
            rows = np.flatnonzero((chance > _LEAST) & (moved > 0.0) & self.last[visit])
            stem = rows if of_stems else np.full(len(rows), -1)
            effect = tally.stems[rows] / chance[rows], tally.area[rows] / chance[rows]
            parts.append((visit[rows], stem, chance[rows], *effect, moved[rows]))
        return Doubts(*(np.concatenate(columns) for columns in zip(*parts, strict=True)))

    @cached_property
    def of_findings(self) -> Floats:
        """Expected change with the record or plot of each finding, percent of an average plot; in their order.

        NaN where a finding moves nothing, or speaks of files or of an earlier visit.
        """
        survey, doubts, order = self.summary.survey, self.doubts, self.findings.order
        of_stem, of_visit = np.full(len(survey.stems) + 1, np.nan), np.full(len(survey.visits) + 1, np.nan)
        about = doubts.stem >= 0
        of_stem[doubts.stem[about]] = doubts.worth[about]
        of_visit[doubts.visit[~about]] = doubts.worth[~about]
        values: Floats = np.where(order.stem >= 0, of_stem[order.stem], of_visit[order.visit])
        return values

    def reasons(self, visit: int, stem: int) -> Iterator[str]:
        """Why a stem is in doubt, or with -1 its plot, in words."""
        findings, order = self.findings, self.findings.order
        for place in findings.places_of(visit):
            batch = int(order.batch[place])
            check, rows = findings.batches[batch]
            grave = check.family in _OF_STEMS or findings.severity_of(batch) != "note"
            if int(order.stem[place]) == stem and (grave if stem >= 0 else weighs_plot(check, rows)):
                yield findings.tell(place).message
        if stem < 0:
            yield from self._hidden(visit)
        elif not self.summary.measured.inside_known[stem]:
            yield "It cannot be decided whether the stem is in: its distance, dbh or slope is missing."

    def _hidden(self, visit: int) -> Iterator[str]:
        unseen = self.summary.unseen
        if unseen.reason[visit] == "" and unseen.stems.expected[visit] > _LEAST:
            number = [float(values[visit]) for values in (unseen.stems.expected, unseen.stems.low, unseen.stems.high)]
            yield (
                f"{100.0 * float(unseen.ground.share[visit]):.0f} % of the ground is hidden from the centre; "
                f"{number[0]:.1f} living stems ({number[1]:.1f} to {number[2]:.1f}) may stand unseen: "
                "look from a second point."
            )
