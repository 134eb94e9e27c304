"""Two diameters of one stem that do not go together."""

from collections.abc import Iterator

import numpy as np

from stemmap.core.locate import dbh_sd
from stemmap.survey.batches import Batch
from stemmap.survey.measured import Status
from stemmap.survey.registry import Case, check
from stemmap.survey.sight import crosswise_diameters

_ERRORS, _SPREADS = 4.0, 6.0
#: Stems are seldom so far from round.
_OVAL = 0.15
#: Quartile of the absolute value of a normal distribution.
_QUARTILE = 0.6745
_ENOUGH = 30


@check("crosswise-diameters-disagree", family="diameter", severity="warning")
def crosswise_diameters_disagree(case: Case) -> Iterator[Batch]:
    """Two diameters measured crosswise differ more than a stem is oval.

    What: they differ by more than 15 % of their mean, by more than four standard deviations of both, and by more
    than six robust standard deviations of such differences in this survey (of 30 and more).
    Why: one of them was mistyped, or belongs to another stem; the mean that is used is wrong then.
    What to do: look at the record; measure again.
    Source: ovality below 15 % is common practice; the spread is the survey's own.
    """
    survey = case.survey
    first, second = crosswise_diameters(survey.stems.records, survey.settings)
    both = np.isfinite(first) & np.isfinite(second) & (case.measured.status <= Status.DEAD)
    if not both.any():
        return
    mean, apart = 0.5 * (first + second), np.abs(first - second)
    enough = np.count_nonzero(both) >= _ENOUGH
    spread = float(np.median(apart[both] / mean[both])) / _QUARTILE if enough else 0.0
    sd = np.hypot(dbh_sd(first, survey.settings.errors), dbh_sd(second, survey.settings.errors))
    rows = np.flatnonzero(both & (apart > np.maximum(max(_OVAL, _SPREADS * spread) * mean, _ERRORS * sd)))
    yield case.about_stems(
        rows,
        "No. {stem}: the two diameters of {first_cm:.1f} and {second_cm:.1f} cm differ by {apart_percent:.0f} %.",
        field="dbh_cross_cm" if survey.stems.records.has("dbh_cross_cm") else "dbh_cross_mm",
        evidence={
            "first_cm": first[rows],
            "second_cm": second[rows],
            "apart_percent": 100.0 * apart[rows] / mean[rows],
        },
        **case.worth(rows),
    )
