"""Plot rows that say different things about one plot."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check


@check("plot-row-twice", family="import", severity="warning", of_survey=True)
def plot_row_twice(case: Case) -> Iterator[Batch]:
    """A plot has more than one row in the plots table for the same visit.

    What: the first row is used, the others are kept and not used.
    Why: the same plot was entered twice, or one of the plot numbers is mistyped.
    What to do: compare the rows and delete the wrong one.
    """
    plots, visits = case.survey.upload.plots, case.survey.visits
    named = plots.columns["plot"].filled if plots.has("plot") else np.zeros(len(plots), bool)
    unused = named.copy()
    for used in (visits.special, visits.general):
        unused[used[used >= 0]] = False
    rows = np.flatnonzero(unused)
    if not len(rows):
        return
    names = [str(name).strip() for name in plots.texts("plot")[rows]]
    own = [str(name).strip() for name in plots.texts("visit")[rows]]
    row_of = {(plot, ""): row for row, plot in reversed(list(enumerate(visits.plot.tolist())))}
    row_of |= {key: row for row, key in enumerate(zip(visits.plot.tolist(), visits.visit.tolist(), strict=True))}
    visit = np.array([row_of[key] for key in zip(names, own, strict=True)], np.int64)
    yield case.about_visits(
        visit,
        "{file}, line {line}: plot {plot} stands in the plots table again; the first row is used.",
        field="plot",
        evidence=case.cells(plots, rows, "plot"),
    )
