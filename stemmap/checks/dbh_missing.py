"""Standing stems without a usable diameter."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from stemmap.survey.batches import Batch
from stemmap.survey.measured import Status
from stemmap.survey.registry import Case, check
from stemmap.survey.settings import sampling_design

#: So many stems without dbh, and this share of the survey, are a habit and told plot by plot.
_MANY, _COMMON = 50, 0.02
_DIAMETERS = ("dbh_cm", "dbh_mm", "girth_cm")


@check("dbh-missing", family="import", severity="warning", of_survey=True)
def dbh_missing(case: Case) -> Iterator[Batch]:
    """A standing stem has no dbh, or one that is zero or negative.

    What: no diameter and no girth above zero was recorded; told once for each plot where that holds for more than one
    stem in fifty and for fifty and more.
    Why: its basal area is missing from the plot; in nested circles and angle counts it cannot be said to be in.
    What to do: look the value up or measure again.
    """
    stems = case.survey.stems
    named = [name for name in _DIAMETERS if stems.records.has(name)]
    if not named:
        return
    missing = np.isnan(case.measured.dbh_cm) & (case.measured.status <= Status.DEAD)
    for column in named:
        missing &= ~(stems.records.columns[column].filled & np.isnan(stems.numbers(column)))
    design = sampling_design(case.survey.settings)
    effect = "it is not known whether it is in" if design and design.needs_dbh else "its basal area is not known"
    for name in named:
        typed = missing & stems.records.columns[name].filled
        missing &= ~typed
        rows = np.flatnonzero(typed)
        yield case.about_stems(
            rows,
            f"No. {{stem}}: the diameter {{text}} is not above zero; {effect}.",
            field=name,
            evidence=case.cells(stems.records, rows, name),
        )
    rows = np.flatnonzero(missing)
    if len(rows) >= _MANY and len(rows) > _COMMON * len(stems):
        visits, first, count = np.unique(stems.visit_row[rows], return_index=True, return_counts=True)
        yield case.about_visits(
            visits,
            "Plot {plot}: {missing} of {stems} stems have no dbh (such as No. {number}); what depends on it is not "
            "known for them.",
            field=named[0],
            evidence={
                "missing": count,
                "stems": case.survey.visits.stem_count[visits],
                "number": _number(case)[rows[first]],
            },
        )
        return
    yield case.about_stems(
        rows,
        f"No. {{stem}} has no dbh (line {{line}}); {effect}.",
        field=named[0],
        evidence=case.cells(stems.records, rows, named[0]),
    )


def _number(case: Case) -> NDArray[np.object_]:
    records = case.survey.stems.records
    name = "stem" if records.has("stem") else "tree"
    return records.texts(name) if records.has(name) else np.full(len(records), "?", object)
