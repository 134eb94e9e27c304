"""Plots whose centre lies elsewhere than at the last visit."""

from collections.abc import Iterator

import numpy as np

from stemmap.checks.evidence.last_visit import revisit
from stemmap.checks.evidence.whole_plots import laid_on_last
from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check


@check("centre-moved", family="revisit", severity="warning", needs=("azimuth", "distance_m"))
def centre_moved(case: Case) -> Iterator[Batch]:
    """All stems of a plot are moved against the last visit.

    What: the map of this visit fits the last one only when it is moved as a whole. Two visits cannot say which of
    them stood at the peg.
    Why: another point was taken for the centre; stems near the border are then in or out by mistake.
    What to do: look for the mark of the centre; measure two stems from it.
    Source: least squares with Student weights over matched stems; the shift must explain 16 units of chi-square.
    """
    both = case.once(revisit)
    chosen = np.flatnonzero(both.moved)
    if not len(chosen):
        return
    fit = both.fit
    east, north = fit.shift_east_m[chosen], fit.shift_north_m[chosen]
    yield case.about_visits(
        both.visit[chosen],
        "Plot {plot}: this visit's centre lies {shift_m:.2f} m from the last visit's, towards {towards_deg:.0f} "
        "degrees ({pairs} stems found again, standard error {standard_error_m:.2f} m).",
        evidence={
            "shift_east_m": east,
            "shift_north_m": north,
            "shift_m": np.hypot(east, north),
            "towards_deg": np.degrees(np.arctan2(east, north)) % 360.0,
            "standard_error_m": np.sqrt(0.5 * (fit.covariance[chosen, 1, 1] + fit.covariance[chosen, 2, 2])),
            "pairs": fit.pairs[chosen],
        },
        meant=laid_on_last(case, chosen),
    )
