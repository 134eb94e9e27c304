"""Azimuths and distances that were carried over from the last visit."""

from collections.abc import Iterator

import numpy as np

from stemmap.checks.evidence.copied import copied
from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check

#: From so many visits on it is a rule of the survey and told once.
_RULE = 10


@check("coordinates-copied", family="revisit", severity="note", needs=("azimuth", "distance_m"), of_survey=True)
def coordinates_copied(case: Case) -> Iterator[Batch]:
    """Azimuths and distances are those of the last visit to the last digit.

    What: most stems of a visit, four at least, or most of the survey's, carry azimuth and distance of the last visit;
    told once for the survey where that is so on ten visits and more.
    Why: they were not measured again: they neither confirm the last visit nor speak against anything, and no azimuth
    or distance among them is doubted a second time.
    What to do: nothing, if that is how the survey is kept; the first visit of a plot is the one to check.
    """
    rows = np.flatnonzero(case.once(copied))
    visits, count = np.unique(case.survey.stems.visit_row[rows], return_counts=True)
    stems = case.survey.visits.stem_count[visits]
    if len(visits) >= _RULE:
        yield case.about_files(
            1,
            "{copied} of {stems} stems on {visits} visits carry azimuth and distance of the last visit to the last "
            "digit; they were not measured again.",
            field="azimuth",
            evidence={
                "copied": np.array([count.sum()]),
                "stems": np.array([stems.sum()]),
                "visits": np.array([len(visits)]),
            },
        )
        return
    yield case.about_visits(
        visits,
        "Plot {plot}: {copied} of {stems} stems carry azimuth and distance of the last visit to the last digit; they "
        "were not measured again.",
        field="azimuth",
        evidence={"copied": count, "stems": stems},
    )
