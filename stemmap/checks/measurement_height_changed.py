"""Diameters measured at another height than before."""

from collections.abc import Iterator

import numpy as np

from stemmap.checks.evidence.numbers import same_number
from stemmap.survey.batches import Batch
from stemmap.survey.measured import Status
from stemmap.survey.registry import Case, check

_SAME_PLACE = 0.05
#: More of them on one visit than this are told once.
_MANY = 2


@check("measurement-height-changed", family="diameter", severity="note", needs=("measurement_height_m",))
def measurement_height_changed(case: Case) -> Iterator[Batch]:
    """The diameter of a stem was measured at another height than on the last visit.

    What: the measuring heights of the two visits differ by more than 5 %; told once for the visit where that is so for
    more than two stems.
    Why: a stem tapers; the difference of the two diameters is no growth.
    What to do: measure at the height of the last visit, or note why it was moved (a wound, a buttress) and leave the
    stem out of growth.
    Source: a change of more than 5 % ends a series of diameters on tropical plots (Condit et al., from memory).
    """
    last = case.once(same_number)
    height = case.survey.stems.numbers("measurement_height_m")
    before = np.where(last >= 0, height[last], np.nan)
    differs = np.abs(height - before) > _SAME_PLACE * before + 1e-9
    rows = np.flatnonzero(differs & (height > 0.0) & (before > 0.0) & (case.measured.status <= Status.DEAD))
    visits, first, count = np.unique(case.survey.stems.visit_row[rows], return_index=True, return_counts=True)
    several = count > _MANY
    shown = rows[first[several]]
    yield case.about_visits(
        visits[several],
        "Plot {plot}: {stems} diameters were measured at another height than on the last visit, such as at "
        "{height_m:g} after {last_height_m:g}; what they changed by is no growth.",
        field="measurement_height_m",
        evidence={"stems": count[several], "height_m": height[shown], "last_height_m": before[shown]},
    )
    rows = rows[~np.isin(case.survey.stems.visit_row[rows], visits[several])]
    yield case.about_stems(
        rows,
        "No. {stem}: the diameter was measured at a height of {height_m:g}, on the last visit at {last_height_m:g}.",
        field="measurement_height_m",
        evidence={"height_m": height[rows], "last_height_m": before[rows], "dbh_cm": case.measured.dbh_cm[rows]},
    )
