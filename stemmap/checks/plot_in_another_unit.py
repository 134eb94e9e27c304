"""Plots whose azimuths are in another unit of the circle than those of the last visit."""

from collections.abc import Iterator

import numpy as np

from stemmap.checks.evidence.last_visit import revisit
from stemmap.checks.evidence.readings import BY_0_9, TIMES_0_9
from stemmap.checks.evidence.whole_plots import read_so
from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check


@check("plot-in-another-unit", family="revisit", severity="warning", needs=("azimuth", "distance_m"))
def plot_in_another_unit(case: Case) -> Iterator[Batch]:
    """The azimuths of a plot are gon beside the last visit's degrees, or degrees beside its gon.

    What: the map of this visit fits the last one only when all azimuths are multiplied or divided by 0.9. Two visits
    cannot say which of them is in the wrong unit. Single stems are then not held against the last visit.
    Why: an instrument set to another unit; the further round the circle, the further from its place stands a stem.
    What to do: compare the instruments of both visits; look for azimuths above 360 in the field book.
    Source: likelihood of all stems together, as recorded and in each other reading, with the best turn and shift.
    """
    both = case.once(revisit)
    told = both.otherwise
    times = (
        "Plot {plot}: this visit's azimuths fit the last visit's when multiplied by 0.9, as gon beside degrees "
        "({pairs} stems found again then, {pairs_as_recorded} as recorded)."
    )
    divided = (
        "Plot {plot}: this visit's azimuths fit the last visit's when divided by 0.9, as degrees beside gon "
        "({pairs} stems found again then, {pairs_as_recorded} as recorded)."
    )
    for reading, factor, message in ((TIMES_0_9, 0.9, times), (BY_0_9, 1.0 / 0.9, divided)):
        chosen = np.flatnonzero(told.reading == reading)
        yield case.about_visits(
            both.visit[chosen],
            message,
            field="azimuth",
            evidence={"azimuth_factor": np.full(len(chosen), factor), **both.how_read(chosen)},
            meant=read_so(case, chosen),
        )
