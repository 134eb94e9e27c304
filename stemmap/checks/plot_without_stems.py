"""Plots that are said to be there, but nothing was recorded."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.batches import Batch
from stemmap.survey.plot_status import PlotStatus, plot_status
from stemmap.survey.registry import Case, check


@check("plot-without-stems", family="import", severity="warning")
def plot_without_stems(case: Case) -> Iterator[Batch]:
    """A plot has no stems and is not said to be empty, non-forest or not reached.

    What: the plots table names the plot, no stem record does, and its status does not tell why.
    Why: an empty plot is a valid zero, a lost upload is not; which of the two it is cannot be known.
    What to do: set plot_status (empty, non-forest, not reached) or send the stems. Until then it counts nowhere.
    """
    visits = case.survey.visits
    status = plot_status(case.survey)
    silent = (status == PlotStatus.UNKNOWN) | (status == PlotStatus.MEASURED)
    rows = np.flatnonzero(silent & (visits.stem_count == 0))
    yield case.about_visits(
        rows, "Plot {plot} has no stems and no status that says why; it counts nowhere.", field="plot_status"
    )
