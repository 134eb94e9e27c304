"""Plots whose distances are all longer or shorter than at the last visit."""

from collections.abc import Iterator
from itertools import product

import numpy as np

from stemmap.checks.evidence import distances as kinds
from stemmap.checks.evidence.distances import as_last, distances
from stemmap.checks.evidence.last_visit import revisit
from stemmap.checks.evidence.shared import in_common
from stemmap.survey.batches import Batch, Severity
from stemmap.survey.registry import Case, check

#: A factor that all plots of a crew, an instrument or a day share is told for them together.
_SEVERITIES: tuple[Severity, ...] = ("warning", "note")
_LONGER = "Plot {plot}: this visit's distances are {percent:.1f} % longer than the last visit's ({pairs} stems)."
_SHORTER = "Plot {plot}: this visit's distances are {percent:.1f} % shorter than the last visit's ({pairs} stems)."
_FEET = "Plot {plot}: this visit's distances fit the last visit's when taken as feet beside metres ({pairs} stems)."
_METRES = "Plot {plot}: this visit's distances fit the last visit's when taken as metres beside feet ({pairs} stems)."
_FACE = (
    "Plot {plot}: this visit's distances are shorter than the last visit's by half the dbh of each stem, as if "
    "measured to the face beside the axis ({pairs} stems)."
)
_AXIS = (
    "Plot {plot}: this visit's distances are longer than the last visit's by half the dbh of each stem, as if "
    "measured to the axis beside the face ({pairs} stems)."
)
_NOW = (
    "Plot {plot}: this visit's distances fit the last visit's when taken as measured along the slope ({pairs} stems)."
)
_THEN = (
    "Plot {plot}: this visit's distances fit the last visit's when those are taken as measured along the slope "
    "({pairs} stems)."
)


@check("distances-unlike-last-visit", family="revisit", severity="warning", needs=("azimuth", "distance_m"))
def distances_unlike_last_visit(case: Case) -> Iterator[Batch]:
    """All distances of a plot are longer or shorter than at the last visit.

    What: by one factor (from 1.5 % on), by half the dbh of each stem, or as distances along the known slope are longer
    than horizontal ones. Two visits cannot say which of them is wrong.
    Why: feet written as metres, distances along the slope written as horizontal, to the face of the stem instead of its
    axis, an instrument that was not calibrated; stems near the border are then in or out by mistake.
    What to do: measure one distance with a tape; compare what both visits measured to.
    Source: likelihood of all stems found again, with Student errors, after the turn and shift that fit best.
    """
    both, compared = case.once(revisit), case.once(distances)
    longer = compared.factor > 1.0
    scaled = compared.kind == kinds.SCALED
    alike = case.once(in_common).scaled
    kinds_told = (
        (scaled & longer, _LONGER),
        (scaled & ~longer, _SHORTER),
        (compared.kind == kinds.FEET, _FEET),
        (compared.kind == kinds.METRES, _METRES),
        (compared.kind == kinds.TO_FACE, _FACE),
        (compared.kind == kinds.TO_AXIS, _AXIS),
        (compared.kind == kinds.SLOPE_NOW, _NOW),
        (compared.kind == kinds.SLOPE_THEN, _THEN),
    )
    for (told, message), severity in product(kinds_told, _SEVERITIES):
        chosen = np.flatnonzero(told & (alike == (severity == "note")))
        if not len(chosen):
            continue
        yield case.about_visits(
            both.visit[chosen],
            message,
            field="distance_m",
            evidence={
                "distance_factor": compared.factor[chosen],
                "percent": 100.0 * np.abs(compared.factor[chosen] - 1.0),
                "pairs": compared.pairs[chosen],
                "log_likelihood_gain": compared.gain[chosen],
                "probability": compared.chance[chosen],
            },
            meant=as_last(case, chosen),
            severity=severity,
        )
