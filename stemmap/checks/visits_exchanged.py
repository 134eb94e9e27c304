"""Plots of which two visits stand under each other's date."""

from collections.abc import Iterator

import numpy as np

from stemmap.checks.evidence.last_visit import revisit
from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check


@check("visits-exchanged", family="revisit", severity="warning", needs=("azimuth", "distance_m"))
def visits_exchanged(case: Case) -> Iterator[Batch]:
    """The stems of a plot shrank since the last visit as those of other plots grew.

    What: all stems found again are held against the usual growth of the survey, forth and back; back is at least 19
    times as likely after one plot in a thousand is thought to be so. Single stems are then not held against the
    last visit.
    Why: records of two visits were filed under each other's date, or two uploads under each other's name.
    What to do: compare the dates of both uploads with the crews' diaries; a tape read on another scale shrinks stems
    too.
    Source: likelihood of all stems together under the growth that the survey itself shows.
    """
    both, survey = case.once(revisit), case.survey
    chosen = np.flatnonzero(both.exchanged)
    visit = both.visit[chosen]
    yield case.about_visits(
        visit,
        "Plot {plot}: the stems shrank since visit {last_visit}, the middle one of {pairs} by {shrank_cm:.1f} cm; the "
        "two visits may stand under each other's date.",
        evidence={
            "last_visit": survey.visits.visit[survey.visits.previous[visit]],
            "pairs": both.pairs[chosen],
            "shrank_cm": both.shrank_cm[chosen],
        },
    )
