"""Stems measured again from field packets: what holds now beside what the last crew measured."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stemmap.core.agreement import turned, within
from stemmap.survey.decided import Decisions, rows_of
from stemmap.survey.matched import Matched, Outcome, match
from stemmap.survey.quantities import MEASURED, difference_sd, measured_values, typed_texts
from stemmap.survey.records import Records
from stemmap.survey.registry import Case
from stemmap.survey.returned import PacketRows, Returned, cells
from stemmap.survey.tolerance import tolerances

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]

#: How often a first and a second measurement are grossly wrong, and a second one by a crew that sees the first:
#: assumptions of ours.
_WRONG_BEFORE, _WRONG_AGAIN, _WRONG_SEEING = 0.02, 0.01, 0.005
#: Gross errors fall anywhere within: degrees, metres, centimetres.
_ANYWHERE = (360.0, 20.0, 60.0)
#: How many times too large or small distances and dbh are where another unit was meant or the decimal point slipped.
_TIMES = ((), (10.0, 100.0), (10.0,))
#: What is left of the probability of such a value where either is usual, and where only the one before is: of twenty
#: uncommon values, one is right (assumptions of ours).
_EITHER, _UNCOMMON = 0.5, 0.05
#: Part of the survey's values that is not usual, at either end.
_TAIL = 0.005


@dataclass(frozen=True)
class Again:
    """Rows that came back and concern stems of the case, shape (n,) each.

    Parameters
    ----------
    matched
        What became of all rows that came back.
    rows, asked
        Those rows as typed, and what the packets asked for.
    row, stem
        A row that was compared or whose stem was not found, and its stem in the case; the last one of each stem.
    now, again
        Values that hold, and as measured again: degrees, metres, centimetres; shape (n, 3).
    difference, tolerance
        Again minus now, and what is allowed; shape (n, 3).
    probability
        That the value measured again is what was meant; shape (n, 3).
    times
        How many times one is the other, where that many make them agree; NaN elsewhere; shape (n, 3).
    """

    matched: Matched
    rows: Records
    asked: PacketRows
    row: Integers
    stem: Integers
    now: Floats
    again: Floats
    difference: Floats
    tolerance: Floats
    probability: Floats
    times: Floats

    @property
    def beyond(self) -> NDArray[np.bool_]:
        """Whether both values are known and further apart than the tolerance, shape (n, 3)."""
        return ~np.isnan(self.difference) & ~within(self.difference, self.tolerance)

    @property
    def confirmed(self) -> NDArray[np.bool_]:
        """Whether both values are known and no further apart than the tolerance, shape (n, 3)."""
        return within(self.difference, self.tolerance)

    @property
    def filled(self) -> NDArray[np.bool_]:
        """Whether a value was measured where none holds, shape (n, 3)."""
        return np.isnan(self.now) & ~np.isnan(self.again)


def matched_rows(case: Case) -> Matched | None:
    """What became of all rows that came back; None where nothing did."""
    survey = case.survey
    return match(survey.upload, survey.settings, survey.decisions.entries)


def again(case: Case) -> Again | None:
    """What came back, laid beside the stems of a case; None where nothing did."""
    survey, returned = case.survey, case.survey.upload.returned
    # What a row is compared with was decided before the packet went out, so later decisions change nothing in it.
    matched = (case.whole or case).once(matched_rows)
    if returned is None or matched is None:
        return None
    rows = np.flatnonzero(np.isin(matched.outcome, (Outcome.COMPARED, Outcome.NOT_FOUND)))
    typed = survey.upload.stems.take(matched.stem[rows])
    stem = rows_of(survey.stems.records, np.column_stack([typed.source, typed.line]))
    rows, stem = rows[stem >= 0], stem[stem >= 0]
    # Several packets may ask for one stem; the last answer holds.
    _, last = np.unique(stem[::-1], return_index=True)
    last = len(stem) - 1 - last
    rows, stem = rows[last], stem[last]
    now = measured_values(survey.stems.records.take(stem), survey.settings)
    new = matched.again[rows]
    difference = new - now
    difference[:, 0] = turned(new[:, 0], now[:, 0])
    allowed = tolerances(survey.settings, distance_m=now[:, 1], dbh_cm=now[:, 2])
    tolerance = np.column_stack([allowed.azimuth_deg, allowed.distance_m, allowed.dbh_cm])
    times = _times(now, new, tolerance)
    likely = _probability(difference, difference_sd(now, survey.settings), blind=matched.blind[rows])
    if not np.isnan(times).all():
        likely *= _left(case, now, new, times)
    return Again(
        matched,
        returned.rows,
        returned.asked,
        rows,
        stem,
        now,
        new,
        difference,
        tolerance,
        likely,
        times,
    )


def _times(now: Floats, new: Floats, tolerance: Floats) -> Floats:
    """How many times one of two values is the other, where they agree but for that."""
    found = np.full(now.shape, np.nan)
    apart = ~within(new - now, tolerance)
    for quantity, each in enumerate(_TIMES):
        for times in each:
            for by in (times, 1.0 / times):
                agrees = within(new[:, quantity] * by - now[:, quantity], tolerance[:, quantity])
                found[apart[:, quantity] & agrees, quantity] = times
    return found


def _left(case: Case, now: Floats, new: Floats, times: Floats) -> Floats:
    """What is left of the probability of values that are so many times the others, by which of both is usual."""
    measured, left = (case.whole or case).measured, np.ones(now.shape)
    for quantity, values in ((1, measured.horizontal_distance_m), (2, measured.dbh_cm)):
        known = values[np.isfinite(values)]
        low, high = np.quantile(known, [_TAIL, 1.0 - _TAIL]) if known.size else (np.nan, np.nan)
        before, after = ((low <= each[:, quantity]) & (each[:, quantity] <= high) for each in (now, new))
        left[:, quantity] = np.select([before & ~after, after & ~before], [_UNCOMMON, 1.0], _EITHER)
    return np.where(np.isnan(times), 1.0, left)


def measured_otherwise(case: Case, decisions: Decisions) -> frozenset[str]:
    """Ids of findings about what came back that were kept, and whose stem was measured again since, otherwise.

    A finding stays away while what it speaks of is as it was, and that is the row that came back too.
    """
    survey, returned = case.survey, case.survey.upload.returned
    kept = [
        entry
        for entry in decisions.standing.values()
        if entry.decision == "keep" and entry.finding.split("/")[-2:-1] == ["remeasured"]
    ]
    matched = (case.whole or case).once(matched_rows) if kept else None
    if returned is None or matched is None:
        return frozenset()
    records = [(-1 if entry.source is None else entry.source, entry.line or 0) for entry in kept]
    answers = np.isin(matched.outcome, (Outcome.COMPARED, Outcome.NOT_FOUND, Outcome.REPEATED))
    otherwise = set()
    for entry, stem in zip(kept, rows_of(survey.upload.stems, records).tolist(), strict=True):
        rows = np.flatnonzero(answers & (matched.stem == stem) & (stem >= 0))
        since = returned.after_entry[rows] >= entry.entry
        said = [_answer(matched, returned, row, entry.field) for row in rows.tolist()]
        before = [one for one, later in zip(said, since, strict=True) if not later]
        if since.any() and said[-1:] != before[-1:]:
            otherwise.add(entry.finding)
    return frozenset(otherwise)


def _answer(matched: Matched, returned: Returned, row: int, field: str | None) -> tuple[str, ...]:
    """What a row that came back says of a field of its stem; where there is no field, on which line it stands."""
    if field is None:
        return tuple(str(cells(returned.rows, name)[row]) for name in ("packet", "row"))
    quantity = next((place for place, names in enumerate(MEASURED) if field in names), None)
    if quantity is None:
        gone = matched.outcome[row] == Outcome.NOT_FOUND
        return "gone" if gone else "", str(cells(returned.rows, field)[row]).casefold()
    value = float(matched.again[row, quantity])
    return (str(typed_texts(returned.rows, quantity)[row]) if np.isnan(value) else repr(value),)


def _probability(difference: Floats, sd: Floats, *, blind: NDArray[np.bool_]) -> Floats:
    """Probability that the first of two measurements is grossly wrong and the second is not.

    Bayes' rule over: both right, with normal differences; the first wrong; the second wrong, each anywhere. Where
    there was no first value, that the second is right.
    """
    wrong_again = np.where(blind, _WRONG_AGAIN, _WRONG_SEEING)[:, None]
    both = (1.0 - _WRONG_BEFORE - wrong_again) * np.exp(-0.5 * np.square(difference / sd)) / (sd * np.sqrt(2.0 * np.pi))
    first, second = (rate / np.array(_ANYWHERE) for rate in (_WRONG_BEFORE, wrong_again))
    return np.where(np.isnan(difference), 1.0 - wrong_again, first / (both + first + second))
