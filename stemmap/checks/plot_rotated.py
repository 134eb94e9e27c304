"""Plots whose azimuths are turned against the last visit."""

from collections.abc import Iterator
from itertools import product

import numpy as np

from stemmap.checks.evidence.last_visit import revisit
from stemmap.checks.evidence.shared import in_common
from stemmap.checks.evidence.whole_plots import laid_on_last
from stemmap.survey.batches import Batch, Severity
from stemmap.survey.registry import Case, check

#: A turn that all plots of a crew, an instrument or a day share is told for them together.
_SEVERITIES: tuple[Severity, ...] = ("warning", "note")
#: A turn of more degrees than this is most likely one of 180.
_BACK_BEARING = 165.0


@check("plot-rotated", family="revisit", severity="warning", needs=("azimuth", "distance_m"))
def plot_rotated(case: Case) -> Iterator[Batch]:
    """All azimuths of a plot are turned against those of the last visit.

    What: the map of this visit fits the last one only when it is turned as a whole. Two visits cannot say which of
    them is wrong.
    Why: declination not set or set twice, another north, iron near the compass, or back bearings throughout (a turn
    of 180 degrees); every stem then stands in the wrong place, though none looks wrong alone.
    What to do: compare compass, declination and north of both visits; measure two stems again with another compass.
    Source: least squares with Student weights over matched stems; the turn must explain 12 units of chi-square.
    """
    both = case.once(revisit)
    plots = np.flatnonzero(both.turned)
    fit = both.fit
    turn = fit.rotation_deg[plots]
    back = np.abs(turn) > _BACK_BEARING
    larger = (
        "Plot {plot}: this visit's azimuths are {turn_deg:.1f} degrees larger than the last visit's "
        "({pairs} stems found again, standard error {standard_error_deg:.1f})."
    )
    smaller = (
        "Plot {plot}: this visit's azimuths are {turn_deg:.1f} degrees smaller than the last visit's "
        "({pairs} stems found again, standard error {standard_error_deg:.1f})."
    )
    about = (
        "Plot {plot}: this visit's azimuths lie {turn_deg:.1f} degrees from the last visit's, as back bearings would "
        "({pairs} stems found again, standard error {standard_error_deg:.1f})."
    )
    alike = case.once(in_common).turned[plots]
    senses = (~back & (turn > 0), larger), (~back & (turn < 0), smaller), (back, about)
    for (sense, message), severity in product(senses, _SEVERITIES):
        chosen = plots[sense & (alike == (severity == "note"))]
        if not len(chosen):
            continue
        yield case.about_visits(
            both.visit[chosen],
            message,
            field="azimuth",
            evidence={
                "rotation_deg": fit.rotation_deg[chosen],
                "turn_deg": np.abs(fit.rotation_deg[chosen]),
                "standard_error_deg": np.sqrt(fit.covariance[chosen, 0, 0]),
                "pairs": fit.pairs[chosen],
            },
            meant=laid_on_last(case, chosen),
            severity=severity,
        )
