"""Plots whose azimuths are counted the other way round than at the last visit."""

from collections.abc import Iterator

import numpy as np

from stemmap.checks.evidence.last_visit import revisit
from stemmap.checks.evidence.readings import MIRRORED
from stemmap.checks.evidence.whole_plots import read_so
from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check


@check("plot-mirrored", family="revisit", severity="warning", needs=("azimuth", "distance_m"))
def plot_mirrored(case: Case) -> Iterator[Batch]:
    """The azimuths of a plot are counted the other way round than those of the last visit.

    What: the map of this visit fits the last one only when it is mirrored (a full circle less the azimuth). Two visits
    cannot say which of them is wrong. Single stems are then not held against the last visit.
    Why: a scale that runs counter-clockwise was read; east and west are then exchanged.
    What to do: look at one stem in the east of the plot; compare the instruments of both visits.
    Source: likelihood of all stems together, as recorded and in each other reading, with the best turn and shift.
    """
    both = case.once(revisit)
    chosen = np.flatnonzero(both.otherwise.reading == MIRRORED)
    yield case.about_visits(
        both.visit[chosen],
        "Plot {plot}: this visit's azimuths fit the last visit's when counted the other way round, a full circle less "
        "each ({pairs} stems found again then, {pairs_as_recorded} as recorded).",
        field="azimuth",
        evidence=both.how_read(chosen),
        meant=read_so(case, chosen),
    )
