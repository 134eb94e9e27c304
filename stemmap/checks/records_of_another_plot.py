"""Plots whose records show the stems of another plot."""

from collections.abc import Iterator

import numpy as np

from stemmap.checks.evidence.elsewhere import elsewhere
from stemmap.checks.evidence.last_visit import revisit
from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check


@check("records-of-another-plot", family="revisit", severity="error", needs=("azimuth", "distance_m"))
def records_of_another_plot(case: Case) -> Iterator[Batch]:
    """The records of a plot show the stems that another plot had at an earlier visit.

    What: hardly a stem of the plot's own last visit is found again, but those of another plot are.
    Why: records filed under another plot's number, or those of two plots exchanged; both plots then count wrongly.
    What to do: compare plot number, date and route of the crew; file the records under the right plot.
    Source: matching of all stems with those of all other plots; likelihood against chance, divided by the plots asked.
    """
    both, found, visits = case.once(revisit), case.once(elsewhere), case.survey.visits
    filed = (
        "Plot {plot}: the records show the stems of plot {other_plot}, visit {other_visit} ({pairs} of {stems} found "
        "again there, {pairs_here} here): filed under another plot's number?"
    )
    exchanged = (
        "Plot {plot}: the records show the stems of plot {other_plot}, visit {other_visit} ({pairs} of {stems} found "
        "again there, {pairs_here} here), and its records show this plot's: exchanged?"
    )
    for mutual, message in ((False, filed), (True, exchanged)):
        some = np.flatnonzero(found.exchanged == mutual)
        other = found.other[some]
        yield case.about_visits(
            both.visit[found.pair[some]],
            message,
            evidence={
                "other_plot": visits.plot[other],
                "other_visit": visits.visit[other],
                "pairs": found.pairs[some],
                "stems": found.stems[some],
                "pairs_here": both.pairs[found.pair[some]],
                "probability": found.chance[some],
            },
        )
