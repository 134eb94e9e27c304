"""Records that carry the number of another record of the visit: entered twice, forks, or measured on two dates."""

from __future__ import annotations

import re
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stemmap.core.locate import dbh_sd
from stemmap.survey.records import Column, Records
from stemmap.survey.registry import Case

Truths = NDArray[np.bool_]
Integers = NDArray[np.int64]

#: Two diameters of one stem differ by no more than so many standard deviations, and this much for rounding, cm.
_SAME_DBH, _ROUNDING_CM = 5.0, 0.1
#: A letter behind a number tells the stems of one tree apart.
_LETTER = re.compile(r"(?<=\d)[\s._/-]?[^\W\d_]$")


@dataclass(frozen=True)
class Repeats:
    """Records whose number stands on the visit before them; shape (n,) each.

    Parameters
    ----------
    rows, first
        Rows of the records, and of the first one with the same number.
    other_date
        Whether they carry another date than the first.
    fork
        Whether they stand at its place to the last digit with clearly another dbh, on the same date.
    """

    rows: Integers
    first: Integers
    other_date: Truths
    fork: Truths


def repeats(case: Case) -> Repeats:
    """Find the records whose number is not theirs alone and say what they are."""
    stems, dbh = case.survey.stems, case.measured.dbh_cm
    rows = np.flatnonzero((stems.occurrence > 1) & (stems.number_code >= 0))
    width = int(stems.number_code.max(initial=0)) + 1
    wanted = stems.visit_row[rows] * width + stems.number_code[rows]
    there = np.isin(stems.visit_row, stems.visit_row[rows])
    alone = np.flatnonzero(there & (stems.occurrence == 1) & (stems.number_code >= 0))
    key = stems.visit_row[alone] * width + stems.number_code[alone]
    order = np.argsort(key, kind="stable")
    first = alone[order][np.searchsorted(key[order], wanted)] if len(rows) else rows
    other = np.zeros(len(rows), bool)
    if stems.records.has("date"):
        date = stems.records.dates("date")
        other = (date[rows] != date[first]) & ~np.isnat(date[rows]) & ~np.isnat(date[first])
    place = np.ones(len(rows), bool)
    for name in ("azimuth", "distance_m"):
        numbers = stems.numbers(name)
        place &= numbers[rows] == numbers[first]
    apart = np.abs(dbh[rows] - dbh[first])
    another = apart > _SAME_DBH * np.hypot(*(dbh_sd(dbh[some], case.survey.settings.errors) for some in (rows, first)))
    return Repeats(rows, first, other, place & another & (apart > _ROUNDING_CM) & ~other)


def emptier(records: Records, rows: Integers, others: Integers) -> Truths:
    """Whether records say nothing that others do not say: each value of theirs is the other's too; shape (n,).

    Free text, and columns that are no fields, are left out: they often number the records.
    """
    nothing = np.ones(len(rows), bool)
    for name, column in records.columns.items():
        if name == "remark":
            continue
        mine, theirs = (_cells(column, some) for some in (rows, others))
        nothing &= np.array([one in ("", other) for one, other in zip(mine, theirs, strict=True)], bool)
    return nothing


def _cells(column: Column, rows: Integers) -> list[str]:
    codes = column.codes[rows].tolist()
    return [str(column.labels[code]).strip() if code >= 0 else "" for code in codes]


def tree_codes(case: Case) -> Integers:
    """A number for each stem that is the same for the stems of one tree of a visit; -1: not told; shape (stems,).

    Stems of one tree share the tree's number, or its number with a letter behind. A record entered again is no
    second stem of its tree.
    """
    stems = case.survey.stems
    both = all(stems.records.has(name) for name in ("tree", "stem"))
    column = stems.records.columns.get("stem" if stems.records.has("stem") and not both else "tree")
    if column is None:
        return np.full(len(stems), -1, np.int64)
    code = column.alike() if both else column.alike(lambda text: _LETTER.sub("", text.strip()))
    again = case.once(repeats)
    code[again.rows[~again.fork & ~again.other_date]] = -1
    return code
