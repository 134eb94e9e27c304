"""The same stem number twice on one visit."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.repeats import emptier, repeats
from stemmap.survey.batches import Batch, Meant, Proposal
from stemmap.survey.fields import STRUCK
from stemmap.survey.registry import Case, check

Integers = NDArray[np.int64]

#: More such records on one visit than this are told once.
_MANY = 5
#: How likely a record that says nothing new is one entered twice: an assumption of ours.
_ENTERED_TWICE = 0.9


@check("stem-number-twice", family="import", severity="warning")
def stem_number_twice(case: Case) -> Iterator[Batch]:
    """A stem number stands twice on one visit of a plot.

    What: two records carry the same tree and stem number. Both are counted. Records of two dates within one visit,
    stems at one place to the last digit with clearly different dbh (forks), and more than five such records of a
    visit are told once for the plot.
    Why: a stem entered twice, a mistyped number, a second measurement taken for the same visit, or forks.
    What to do: compare the two records; strike the one that is told, as proposed, or correct its number; give the
    second measurement a visit of its own; give forks a stem number each.
    """
    survey, again = case.survey, case.once(repeats)
    stems = survey.stems
    if not len(again.rows):
        return
    field = "stem" if stems.records.has("stem") else "tree"
    plain = ~again.other_date & ~again.fork
    yield from _pairs(case, again.rows[plain], again.first[plain], field)
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


def _pairs(case: Case, rows: Integers, first: Integers, field: str) -> Iterator[Batch]:
    """Two records under one number, told at the one that says nothing new, else at the later one."""
    records = case.survey.stems.records
    swapped = emptier(records, first, rows) & ~emptier(records, rows, first)
    told, other = np.where(swapped, first, rows), np.where(swapped, rows, first)
    # An empty first record stands against all others under its number, and is told once.
    told, once = np.unique(told, return_index=True)
    other = other[once]
    nothing = emptier(records, told, other)
    yield from _alike(case, told[nothing], other[nothing], field)
    yield from _different(case, told[~nothing], other[~nothing], field)


def _alike(case: Case, rows: Integers, other: Integers, field: str) -> Iterator[Batch]:
    """Records that say nothing which the other under their number does not say."""
    stems = case.survey.stems
    visits, at, count = np.unique(stems.visit_row[rows], return_index=True, return_counts=True)
    many = count > _MANY
    of_many = np.isin(stems.visit_row[rows], visits[many])
    yield case.about_visits(
        visits[many],
        "Plot {plot}: {records} records say nothing that others under their numbers do not say (such as line {line} "
        "after line {other_line}): entered twice; all are counted.",
        field=field,
        about=np.full(np.count_nonzero(many), "entered-twice", object),
        evidence={
            "records": count[many],
            "line": stems.records.line[rows[at[many]]],
            "other_line": stems.records.line[other[at[many]]],
        },
        meant=Meant(
            rows[of_many],
            np.append(0, np.cumsum(count[many])),
            {"status": np.full(np.count_nonzero(of_many), STRUCK, object)},
            np.full(np.count_nonzero(many), _ENTERED_TWICE),
        ),
    )
    yield _pair(
        case,
        rows[~of_many],
        other[~of_many],
        "No. {stem} stands on this visit twice, and line {line} says nothing that line {other_line} does not say; both "
        "records are counted.",
        field=field,
        probability=_ENTERED_TWICE,
    )


def _different(case: Case, rows: Integers, other: Integers, field: str) -> Iterator[Batch]:
    """Records with other values than the other under their number."""
    stems = case.survey.stems
    visits, at, count = np.unique(stems.visit_row[rows], return_index=True, return_counts=True)
    many = count > _MANY
    yield case.about_visits(
        visits[many],
        "Plot {plot}: {records} records carry the number of another one of this visit (such as No. {number}): several "
        "stems of one tree without numbers of their own, or entered twice; all are counted.",
        field=field,
        evidence={"records": count[many], "number": stems.records.texts(field)[rows[at[many]]]},
    )
    few = ~np.isin(stems.visit_row[rows], visits[many])
    yield _pair(
        case,
        rows[few],
        other[few],
        "No. {stem} stands on this visit twice, with other values in line {line} than in line {other_line}; both "
        "records are counted.",
        field=field,
        probability=np.nan,
    )


def _pair(case: Case, rows: Integers, other: Integers, message: str, *, field: str, probability: float) -> Batch:
    records = case.survey.stems.records
    return case.about_stems(
        rows,
        message,
        field=field,
        evidence={
            "line": records.line[rows],
            "other_line": records.line[other],
            "occurrence": case.survey.stems.occurrence[rows],
        },
        proposals=(Proposal("status", np.full(len(rows), STRUCK, object), np.full(len(rows), probability)),),
        **case.worth(rows),
    )


def _dates(
    case: Case, first: NDArray[np.int64], second: NDArray[np.int64]
) -> dict[str, NDArray[np.object_]]:
    if not len(first):
        return {}
    texts = case.survey.stems.records.texts("date")
    return {"date": texts[first], "other_date": texts[second]}
