"""Spatial structure of each plot visit, and pooled: indices and curves against chance, each with a sentence.

Everything is kept as sums that may be added over plots before they are divided (ratio estimators), observed first and
then one for each simulation, so that a stratum is tested by the same simulated plots as each plot of it. Chance means
complete randomness on the same ground with the same number of stems; for marks, that they are dealt out anew among
the stems of their plot. So neither a density nor a mixture that differs from plot to plot is mistaken for a pattern.
A circle that the stand edge cuts is taken for the part of it inside.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.core import neighbours
from stemmap.progress import Progress
from stemmap.survey.curves import Curve
from stemmap.survey.patterns import Patterns
from stemmap.survey.structure_batches import MOST_STEMS, MOST_TOLD, Asked, all_sums, distances_of, stems_of
from stemmap.survey.structure_kinds import sizes_of, species_of
from stemmap.survey.structure_sums import Sums
from stemmap.survey.structure_words import curves_of, indices_of
from stemmap.survey.summary import Summary

Floats = NDArray[np.float64]
Rows = NDArray[np.int64]

#: Simulations when nobody says how many: p comes in steps of 0.005.
SIMULATIONS = 199

TOO_FEW = "too few stems"
TOO_MANY = "more than 5000 stems on one plot"
NOTHING = "no plot has enough stems under one inclusion rule"
CAUTION = (
    "Of a hundred sentences about plots at random up to five tell of a pattern by chance alone: "
    "believe the pooled result before that of a single plot."
)


@dataclass(frozen=True)
class Structure:
    """Spatial structure of one plot visit, a stratum or the survey.

    Parameters
    ----------
    heading
        What it is of: plot, visit and stratum as they come into JSON.
    stems, plots
        Stems behind it, and plots that have enough of them.
    inclusion
        Which stems these are; None where there are none.
    reason
        Why nothing is told; empty where something is.
    indices
        By name: value, what chance gives, p, number of stems and sentence.
    curves
        By name: l_minus_r, g, nearest, mark_correlation, mark_variogram.
    species
        By species, "oak", its own L(r) - r, and by two, "beech × oak", that of the one around the other, under random
        labelling.
    sizes
        The same of "thick" and "thin" stems, and "thick × thin": those above the median dbh of their plot, and the
        others.
    reasons
        Why a single value or curve is missing.
    """

    heading: Mapping[str, Any]
    stems: int
    plots: int
    inclusion: str | None
    reason: str
    indices: Mapping[str, Any]
    curves: Mapping[str, Curve]
    species: Mapping[str, Curve]
    sizes: Mapping[str, Curve]
    reasons: Mapping[str, str]

    def sentences(self) -> list[str]:
        """All that it says, curves first; the reason where it says nothing."""
        told = [curve.sentence for curve in (*self.curves.values(), *self.species.values(), *self.sizes.values())]
        told += [index["sentence"] for index in self.indices.values()]
        return [f"Nothing is told: {self.reason}."] if self.reason else told

    def json(self) -> dict[str, Any]:
        """As `stemmap structure` writes it."""
        return {
            **self.heading,
            "n": self.stems,
            "plots": self.plots,
            "inclusion": self.inclusion,
            "reason": self.reason or None,
            "indices": dict(self.indices) or None,
            "curves": {name: curve.json() for name, curve in self.curves.items()} or None,
            "species": {name: curve.json() for name, curve in self.species.items()} or None,
            "sizes": {name: curve.json() for name, curve in self.sizes.items()} or None,
            "reasons": dict(self.reasons),
        }


@dataclass(frozen=True)
class SurveyStructure:
    """Spatial structure of all plots.

    Parameters
    ----------
    plots
        Each visit.
    strata, pooled
        The last visits pooled over the strata, where there are several, and over the survey.
    simulations, seed
        Of each plot.
    large
        The same of the large stems of the outer of concentric circles; None in other designs.
    """

    plots: tuple[Structure, ...]
    strata: tuple[Structure, ...]
    pooled: Structure
    simulations: int
    seed: int
    large: SurveyStructure | None = None

    def rest_json(self) -> dict[str, Any]:
        """Everything but the plots; those of the large stems come one by one, for a survey has many."""
        return {
            **self._pooled_json(),
            "large_stems": None
            if self.large is None
            else {"plots": (plot.json() for plot in self.large.plots), **self.large._pooled_json()},
            "simulations": self.simulations,
            "seed": self.seed,
            "caution": CAUTION,
        }

    def _pooled_json(self) -> dict[str, Any]:
        return {"pooled": self.pooled.json(), "strata": [stratum.json() for stratum in self.strata]}


def structure(
    summary: Summary,
    *,
    by_species: bool = False,
    by_size: bool = False,
    simulations: int = SIMULATIONS,
    seed: int = 1,
    rows: Collection[int] | None = None,
    progress: Progress | None = None,
) -> SurveyStructure:
    """Tell the spatial structure of each plot visit, and pooled over the last visits.

    A single plot is told of from eight stems on; of the pooled ones, plots with two stems or more are a part.

    Parameters
    ----------
    by_species
        Also each species, and each two of them, against random labelling.
    by_size
        The same of the thick and the thin stems of each plot.
    simulations
        Of each plot.
    seed
        Each plot has its own random numbers from it and its name, so that no plot changes those of another.
    rows
        Rows of the visits wanted, which are also those pooled; None: all.

    Raises
    ------
    Cancelled
        When `progress` says so.
    """
    wanted = np.arange(len(summary.survey.visits)) if rows is None else np.array(sorted(rows), dtype=np.int64)
    asked = Asked(
        summary,
        wanted,
        simulations=simulations,
        seed=seed,
        by_species=by_species,
        by_size=by_size,
        progress=progress or Progress(),
    )
    made = _survey_structure(asked, summary.pattern)
    return made if summary.large is None else replace(made, large=_survey_structure(asked, summary.large))


def last_visits(summary: Summary) -> list[int]:
    """Rows of the last visit of each plot."""
    visits = summary.survey.visits
    rows: list[int] = np.flatnonzero(np.append(visits.plot[1:] != visits.plot[:-1], True)[: len(visits)]).tolist()
    return rows


def _survey_structure(asked: Asked, pattern: Patterns) -> SurveyStructure:
    """All that is told of one kind of patterns."""
    summary, visits = asked.summary, asked.summary.survey.visits
    words, code = visits.words("stratum")
    last = np.isin(np.arange(len(visits)), last_visits(summary))
    stems = stems_of(summary, pattern)
    count, r = stems.count, distances_of(pattern, stems.count)
    levels = {place: Sums() for place in [-1, *np.unique(code).tolist()]}
    told: dict[int, Structure] = {}
    for members, sums in all_sums(asked, pattern, stems, r):
        for row, own in zip(members, sums, strict=True):
            if last[row] and count[row] <= MOST_STEMS:
                _add(levels[-1], own)
                _add(levels[int(code[row])], own)
            if count[row] >= neighbours.FEWEST_STEMS:
                told[row] = _told(_heading(visits, row, words[code[row]]), own, r, inclusion=pattern.words(row))
    plots = []
    for row in asked.wanted.tolist():
        reason = str(pattern.reason[row]) or (TOO_MANY if count[row] > MOST_TOLD else TOO_FEW)
        heading = _heading(visits, row, words[code[row]])
        plots.append(told.get(row) or _nothing(heading, reason, int(count[row]), inclusion=pattern.words(row)))
    inclusion = pattern.pooled_words
    pooled = {}
    for place, own in levels.items():
        heading = {} if place < 0 else {"stratum": words[place] or None}
        enough = own.get("stems", 0) >= neighbours.FEWEST_STEMS
        pooled[place] = (
            _told(heading, own, r, inclusion=inclusion)
            if enough
            else _nothing(heading, NOTHING, 0, inclusion=inclusion)
        )
    return SurveyStructure(
        plots=tuple(plots),
        strata=tuple(one for place, one in pooled.items() if place >= 0) if len(pooled) > 2 else (),
        pooled=pooled[-1],
        simulations=asked.simulations,
        seed=asked.seed,
    )


def _add(total: Sums, sums: Sums) -> None:
    """Add those of a plot."""
    for name, value in sums.items():
        total[name] = total[name] + value if name in total else value


def _heading(visits: Any, row: int, stratum: str) -> dict[str, Any]:
    return {"plot": visits.plot[row], "visit": visits.visit[row] or None, "stratum": stratum or None}


def _nothing(heading: Mapping[str, Any], reason: str, stems: int, *, inclusion: str | None) -> Structure:
    """Why nothing is told."""
    return Structure(heading, stems, 0, inclusion, reason, {}, {}, {}, {}, {})


def _told(heading: Mapping[str, Any], sums: Sums, r: Floats, *, inclusion: str | None) -> Structure:
    """What the sums say."""
    indices, reasons = indices_of(sums)
    curves, missing = curves_of(sums, r)
    return Structure(
        heading=heading,
        stems=int(sums["stems"]),
        plots=int(sums["plots"]),
        inclusion=inclusion,
        reason="",
        indices=indices,
        curves=curves,
        species=species_of(sums, r),
        sizes=sizes_of(sums, r),
        reasons=reasons | missing,
    )
