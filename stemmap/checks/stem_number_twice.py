"""The same stem number twice on one visit."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.repeats import repeats
from stemmap.survey.fields import STRUCK
from stemmap.survey.findings import Batch, Proposal
from stemmap.survey.registry import Case, check

#: More such records on one visit than this are told once.
_MANY = 5


@check("stem-number-twice", family="import", severity="warning")
def stem_number_twice(case: Case) -> Iterator[Batch]:
    """A stem number stands twice on one visit of a plot.

    What: two records carry the same tree and stem number. Both are counted. Records of two dates within one visit,
    stems at one place to the last digit with clearly different dbh (forks), and more than five such records of a
    visit are told once for the plot.
    Why: a stem entered twice, a mistyped number, a second measurement taken for the same visit, or forks.
    What to do: compare the two records; strike the second, as proposed, or correct its number; give the second
    measurement a visit of its own; give forks a stem number each.
    """
    survey, again = case.survey, case.once(repeats)
    stems = survey.stems
    if not len(again.rows):
        return
    field = "stem" if stems.records.has("stem") else "tree"
    rows = again.rows[~again.other_date & ~again.fork]
    visits, at, count = np.unique(stems.visit_row[rows], return_index=True, return_counts=True)
    many = count > _MANY
    yield case.about_visits(
        visits[many],
        "Plot {plot}: {records} records carry the number of another one of this visit (such as No. {number}): several "
        "stems of one tree without numbers of their own, or entered twice; all are counted.",
        field=field,
        evidence={"records": count[many], "number": stems.records.texts(field)[rows[at[many]]]},
    )
    rows = rows[~np.isin(stems.visit_row[rows], visits[many])]
    yield case.about_stems(
        rows,
        "No. {stem} stands on this visit again (line {line}); both records are counted.",
        field=field,
        evidence={
            "line": stems.records.line[rows],
            "occurrence": stems.occurrence[rows],
        },
        proposals=(Proposal("status", np.full(len(rows), STRUCK, object), np.full(len(rows), np.nan)),),
        **case.worth(rows),
    )
    rows, first = again.rows[again.other_date], again.first[again.other_date]
    visits, at, count = np.unique(stems.visit_row[rows], return_index=True, return_counts=True)
    yield case.about_visits(
        visits,
        "Plot {plot}: stems were recorded again on another date of this visit ({records} stems, such as on {date} and "
        "{other_date}); both records are counted.",
        field="visit",
        evidence={"records": count} | _dates(case, first[at], rows[at]),
    )
    rows = again.rows[again.fork]
    visits, at, count = np.unique(stems.visit_row[rows], return_index=True, return_counts=True)
    yield case.about_visits(
        visits,
        "Plot {plot}: several dbh stand under one number at one place (such as No. {number}; records: {records}); they "
        "are taken for several stems of one tree, and all are counted.",
        evidence={"records": count, "number": stems.records.texts(field)[rows[at]]},
        severity="note",
    )


def _dates(
    case: Case, first: NDArray[np.int64], second: NDArray[np.int64]
) -> dict[str, NDArray[np.object_]]:
    if not len(first):
        return {}
    texts = case.survey.stems.records.texts("date")
    return {"date": texts[first], "other_date": texts[second]}
