"""Plots that do not show the stems of their last visit."""

from collections.abc import Iterator

import numpy as np

from stemmap.checks.evidence.elsewhere import elsewhere
from stemmap.checks.evidence.last_visit import revisit
from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check


@check("plot-unlike-last-visit", family="revisit", severity="warning", needs=("azimuth", "distance_m"))
def plot_unlike_last_visit(case: Case) -> Iterator[Batch]:
    """A plot shows other stems than at its last visit.

    What: fewer than half of the stems are found again, however the map is turned or moved. Single stems of the plot
    are then not held against the last visit.
    Why: another plot's number, or the stand was cut and came up anew. Another unit of the circle, azimuths counted the
    other way round, other distances and the stems of other plots have been tried and do not explain it.
    What to do: compare plot number and date of both visits before looking at single stems.
    Source: matching of all stems at once after a robust fit of turn and shift.
    """
    both = case.once(revisit)
    chosen = np.flatnonzero(both.unlike & ~both.otherwise.misread & ~both.exchanged)
    chosen = np.setdiff1d(chosen, case.once(elsewhere).pair)
    yield case.about_visits(
        both.visit[chosen],
        "Plot {plot}: only {pairs} of {stems} stems are found again, however the map is turned or moved: another "
        "plot, or another stand.",
        evidence={"pairs": both.pairs[chosen], "stems": both.fewer[chosen]},
    )
