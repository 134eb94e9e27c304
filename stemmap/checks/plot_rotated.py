"""Plots whose azimuths are turned against the last visit."""

from collections.abc import Iterator

import numpy as np

from stemmap.checks.evidence.last_visit import revisit
from stemmap.survey.findings import Batch
from stemmap.survey.registry import Case, check


@check("plot-rotated", family="revisit", severity="warning", needs=("azimuth", "distance_m"))
def plot_rotated(case: Case) -> Iterator[Batch]:
    """All azimuths of a plot are turned against those of the last visit.

    What: the map of this visit fits the last one only when it is turned as a whole. Two visits cannot say which of
    them is wrong.
    Why: declination not set or set twice, another north, iron near the compass; every stem then stands in the wrong
    place, though none looks wrong alone.
    What to do: compare compass, declination and north of both visits; measure two stems again with another compass.
    Source: least squares with Student weights over matched stems; the turn must explain 12 units of chi-square.
    """
    both = case.once(revisit)
    plots = np.flatnonzero(both.turned)
    fit = both.fit
    for sense, word in ((fit.rotation_deg[plots] > 0, "larger"), (fit.rotation_deg[plots] < 0, "smaller")):
        chosen = plots[sense]
        yield case.about_visits(
            both.visit[chosen],
            f"Plot {{plot}}: this visit's azimuths are {{turn_deg:.1f}} degrees {word} than the last visit's "
            "({pairs} stems found again, standard error {standard_error_deg:.1f}).",
            field="azimuth",
            evidence={
                "rotation_deg": fit.rotation_deg[chosen],
                "turn_deg": np.abs(fit.rotation_deg[chosen]),
                "standard_error_deg": np.sqrt(fit.covariance[chosen, 0, 0]),
                "pairs": fit.pairs[chosen],
            },
        )
