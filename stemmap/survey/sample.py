"""How the plots of a survey were drawn, and what follows for its means and their errors."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.core import estimates
from stemmap.core.estimates import Estimate
from stemmap.survey.survey import Survey

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]

SYSTEMATIC = (
    "the plots lie on a grid and are computed as if drawn at random: the error is mostly told too large, "
    "and too small where the grid follows a pattern of the ground"
)
#: On fewer plots a t interval of a rare thing holds the truth clearly less often than it says (simulated).
FEW_PLOTS = 10


@dataclass(frozen=True)
class Sample:
    """The plots of one visit as a sample.

    Parameters
    ----------
    rows
        Visit rows of the plots.
    method
        What was computed, in words.
    cautions
        What is to be known beside.
    stratum, sizes, points
        Stratum of each plot, its area or the points of a first sample; sizes None: one stratum.
    cluster
        Cluster of each plot; None: single plots.
    after
        Whether the strata were told after the plots were laid out.
    auxiliary
        What a larger first sample tells of each plot too; None: no such sample.
    first_mean, first_points
        Mean of that in the first sample, and the number of its points.
    """

    rows: Integers
    method: str
    cautions: tuple[str, ...]
    stratum: Integers
    sizes: Floats | None
    points: bool
    cluster: Integers | None
    after: bool
    auxiliary: Floats | None = None
    first_mean: float = 0.0
    first_points: float = 0.0

    def estimate(self, values: Floats) -> Estimate:
        """Estimate the means of columns of plot values, shape (plots of the sample, quantities)."""
        if self.cluster is not None:
            return estimates.clustered(values, self.cluster, stratum=self.stratum, weights=self.sizes)
        if self.auxiliary is not None:
            return estimates.double_regression(
                values, self.auxiliary, first_mean=self.first_mean, points=self.first_points
            )
        if self.sizes is None:
            return estimates.stratified(values, self.stratum, [1.0])
        if self.points:
            return estimates.double_stratified(values, self.stratum, self.sizes)
        return estimates.stratified(values, self.stratum, self.sizes, after=self.after)

    def ratio(self, found: Floats, sizes: Floats) -> Floats:
        """Values whose mean is the ratio of means within each stratum; shapes (plots,) or (plots, parts)."""
        made = np.full(len(self.rows), np.nan)
        for code in np.unique(self.stratum):
            here = self.stratum == code
            made[here] = estimates.ratio_values(found[here], sizes[here])
        return made

    @property
    def weights(self) -> Floats:
        """What each plot weighs in the mean, shape (plots,)."""
        sizes = np.ones(1) if self.sizes is None else self.sizes
        count = np.bincount(self.stratum, minlength=len(sizes))
        return np.asarray((sizes / sizes.sum() / np.maximum(count, 1))[self.stratum])


def sample_of(survey: Survey, rows: Integers) -> Sample:
    """The sample that some plots make under the settings [sample].

    Parameters
    ----------
    survey
        The survey.
    rows
        Visit rows of the plots of one visit, shape (plots,).
    """
    said = survey.settings.sample
    systematic = said.layout == "systematic"
    cautions = [SYSTEMATIC] if systematic else []
    words, code = survey.visits.words("stratum")
    names = [stratum.name.strip() for stratum in said.strata]
    place = {name: number for number, name in enumerate(names)}
    stratum = np.array([place.get(word, -1) for word in words], np.int64)[code[rows]]
    strangers = sorted({words[each] or "(none)" for each in np.unique(code[rows][stratum < 0]).tolist()})
    empty = [name for number, name in enumerate(names) if not (stratum == number).any()]
    sizes = None
    points = bool(said.strata) and said.strata[0].points is not None
    if names and (strangers or empty):
        which = f"{strangers[0]} is not among [sample] strata" if strangers else f"{empty[0]} has no plot"
        cautions.append(f"stratum {which}, so that the plots were taken as one sample")
    elif names:
        sizes = np.array([each.points if points else each.area_ha for each in said.strata], np.float64)
    if sizes is None:
        stratum = np.zeros(len(rows), np.int64)
    cluster = _clusters(survey, rows)
    if cluster is not None and points and sizes is not None:
        cautions.append("that the sizes of strata are a sample too is not in the error of clusters")
    auxiliary, why = _auxiliary(survey, rows, alone=sizes is None and cluster is None)
    if why:
        cautions.append(f"the auxiliary value was not used: {why}")
    method = _words(strata=sizes is not None, points=points, clustered=cluster is not None, systematic=systematic)
    return Sample(
        rows=rows,
        method=method if auxiliary is None else "double sampling with regression on the auxiliary value",
        cautions=tuple(cautions),
        stratum=stratum,
        sizes=sizes,
        points=points,
        cluster=cluster,
        after=systematic,
        auxiliary=auxiliary,
        first_mean=said.auxiliary_mean or 0.0,
        first_points=said.auxiliary_points or 0.0,
    )


def _auxiliary(survey: Survey, rows: Integers, *, alone: bool) -> tuple[Floats | None, str]:
    """What a first sample tells of each plot, or None and why it cannot help though it was asked for."""
    said = survey.settings.sample
    if said.auxiliary_mean is None and said.auxiliary_points is None:
        return None, ""
    if said.auxiliary_mean is None or said.auxiliary_points is None:
        return None, "auxiliary_mean and auxiliary_points belong together, and only one of them was said"
    told = survey.visits.numbers("auxiliary")[rows]
    known = told[np.isfinite(told)]
    if not alone:
        return None, "the plots are weighed by strata or taken in clusters already"
    if len(known) < 3 or np.ptp(known) <= 0.0:
        return None, "it is needed on three plots or more, and not the same on all of them"
    if said.auxiliary_points < len(known):
        return (
            None,
            f"a first sample of {said.auxiliary_points:g} points cannot hold the {len(known)} plots that have it",
        )
    return told, ""


def _clusters(survey: Survey, rows: Integers) -> Integers | None:
    """Cluster of each plot; None where no cluster holds two plots. A plot without one is its own."""
    words, code = survey.visits.words("cluster")
    mine = code[rows].astype(np.int64)
    nameless = np.array([not word for word in words])[mine]
    mine = np.where(nameless, len(words) + np.arange(len(rows)), mine)
    return mine if len(np.unique(mine)) < len(mine) else None


def _words(*, strata: bool, points: bool, clustered: bool, systematic: bool) -> str:
    layout = "systematic" if systematic else "random"
    if clustered:
        return f"clusters, {layout}, ratio of means" + (" over strata" if strata else "")
    if not strata:
        return "systematic sampling, computed as simple random" if systematic else "simple random sampling"
    if points:
        return "double sampling for stratification"
    return "stratified after sampling" if systematic else "stratified sampling"


def estimate_json(made: Estimate, place: int = 0) -> dict[str, Any]:
    """One quantity of an estimate as JSON has it: unknown is null."""
    values = {
        "mean": made.mean[place],
        "standard_error": made.standard_error[place],
        "low": made.low[place],
        "high": made.high[place],
        "skew_low": made.skew_low[place],
        "skew_high": made.skew_high[place],
        "design_effect": made.design_effect[place],
        "degrees_of_freedom": made.freedom[place],
    }
    known = {name: float(value) if np.isfinite(value) else None for name, value in values.items()}
    return {**known, "plots": int(made.n[place]), "left_out": int(made.left_out[place]),
            "reason": made.reason[place] or None}  # fmt: skip
