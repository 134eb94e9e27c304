"""Plots that have stems but no row of their own."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check


@check("plot-not-described", family="import", severity="warning")
def plot_not_described(case: Case) -> Iterator[Batch]:
    """Stems name a plot that the plots table does not know.

    What: there is a plots table, but it has no row for this plot.
    Why: a mistyped plot number files stems under a plot that does not exist, or the plot was forgotten.
    What to do: compare the plot number; without its row the plot has no coordinates.
    """
    visits = case.survey.visits
    if not len(visits.records):
        return
    rows = np.flatnonzero(~visits.described)
    yield case.about_visits(
        rows,
        "Plot {plot} has stems ({stems}) but no row in the plots table; it is mapped without coordinates.",
        field="plot",
        evidence={"stems": visits.stem_count[rows]},
    )
