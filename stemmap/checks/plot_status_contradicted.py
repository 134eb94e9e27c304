"""Plot statuses that the stems contradict."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.batches import Batch
from stemmap.survey.plot_status import PlotStatus, plot_status
from stemmap.survey.registry import Case, check


@check("plot-status-contradicted", family="import", severity="warning")
def plot_status_contradicted(case: Case) -> Iterator[Batch]:
    """A plot is said to be empty, non-forest or not reached, and has stems.

    What: the plots table says that nothing was measured, but stem records name the plot on this visit.
    Why: the status is wrong, or the stems belong to another plot or visit.
    What to do: correct plot_status, or the plot of the stems.
    """
    visits = case.survey.visits
    status = plot_status(case.survey)
    rows = np.flatnonzero((status >= PlotStatus.EMPTY) & (visits.stem_count > 0))
    yield case.about_visits(
        rows,
        "Plot {plot} is said to be {plot_status}, but stems were recorded on it ({stems}).",
        field="plot_status",
        evidence={"plot_status": visits.texts("plot_status")[rows], "stems": visits.stem_count[rows]},
    )
