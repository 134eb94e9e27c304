"""What a survey tells of the work in the forest: the whole of it, and by visit, crew, instrument and day."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any, get_args

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.digits import last_digits
from stemmap.checks.evidence.edge import at_edge, edge_test
from stemmap.checks.evidence.hidden import hidden
from stemmap.checks.evidence.posterior import RATES, RATES_WORTH, TWICE_RATE, UNSEEN, posterior
from stemmap.checks.evidence.typed import QUANTITIES, typed
from stemmap.core.digits import digit_test
from stemmap.core.keystrokes import SLIPS, slip_shares
from stemmap.core.rates import Rate, event_rate
from stemmap.errors import Cancelled
from stemmap.survey.batches import Family
from stemmap.survey.findings import Findings
from stemmap.survey.measured import Status
from stemmap.survey.registry import Case, Made
from stemmap.survey.survey import Survey

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]
Told = dict[str, Any]

#: What is counted as a slip: one in each quantity, a record entered twice, and each kind of slip in any quantity.
_RECORDS = (*QUANTITIES, "entered twice")
_COUNTED = (*_RECORDS, *SLIPS)
#: How the numbers of a plot may run; the first: that cannot be told.
_ORDERS = ("not told", "clockwise", "counter-clockwise", "no order")
#: Fewest numbered stems that show an order, and probability of an order from which it is said.
_FEWEST_IN_ORDER, _IN_ORDER = 4, 0.5
#: Fewer expected cases in the whole survey are none.
_NO_CASES = 1e-12
_NOT_WEIGHED = "no record could be weighed against others"
_STOPPED = "a check stopped with an internal fault"
_WHOLE_CENTIMETRES = "no diameter is finer than whole centimetres"
_FEW_DIAMETERS = "there are fewer than 50 diameters"
_FEW_AT_EDGE = "fewer than 10 stems are expected there"
_HIDDEN_NOT_KNOWN = "on no plot can it be known what is hidden"


@dataclass(frozen=True)
class Slips:
    """Slips by visit, weighed by how probable each is; shape (`_COUNTED`, visits) but for the last.

    Parameters
    ----------
    cases
        Expected number, those too small to be seen included.
    spread
        Its variance.
    stems
        Number of stems whose records were weighed, shape (visits,).
    """

    cases: Floats
    spread: Floats
    stems: Integers


@dataclass(frozen=True)
class _Rates:
    """Expected cases of each slip by group, and their rate by stem; shape (`_COUNTED`, groups)."""

    cases: Floats
    per_stem: Rate


def fieldwork(case: Case, findings: Findings) -> list[Told]:
    """What each group of plot visits tells, the whole survey first; what cannot be known is None, with its reason.

    Rates of slips are those that the survey itself teaches. A smaller group is held against the whole survey, as if
    400 of its stems had had that rate before.
    """
    told: list[Told] = []
    whole: _Rates | None = None
    by_family = {str(family): _by_visit(findings, family) for family in get_args(Family)}
    for by, names, group in _groupings(case.survey):
        groups = len(names)
        rates = _rates(case, group, groups, whole)
        whole = whole or rates
        plots, stems = np.bincount(group, minlength=groups), _total(group, case.survey.visits.stem_count, groups)
        counted = {family: _total(group, values, groups) for family, values in by_family.items()}
        parts = [_slips(rates, groups), *(part(case, group, groups) for part in (_digits, _unseen, _edge, _order))]
        for number in range(groups):
            told.append(
                {
                    "by": by,
                    "name": names[number],
                    "plots": int(plots[number]),
                    "stems": int(stems[number]),
                    "findings": {family: int(values[number]) for family, values in counted.items()},
                }
            )
            for part in parts:
                told[-1] |= part[number]
    return told


def slips(case: Case) -> Slips:
    """Slips by visit as the survey tells them."""
    found, visits = case.once(posterior), len(case.survey.visits)
    visit = case.survey.stems.visit_row
    cases, spread = np.zeros((2, len(_COUNTED), visits))

    def add(row: int, at: Integers, probability: Floats, unseen: float) -> None:
        cases[row] += _total(at, probability, visits) / (1.0 - unseen)
        spread[row] += _total(at, probability * (1.0 - probability), visits) / (1.0 - unseen) ** 2

    of = visit[found.doubted.rows]
    # Meanings of one record exclude each other: their probabilities are summed before the variance is taken.
    for quantity, unseen in enumerate(UNSEEN.tolist()):
        some = np.flatnonzero(found.meant.quantity == quantity)
        owner, weight = found.meant.owner[some], found.weight[some]
        add(quantity, of, np.minimum(_total(owner, weight, len(of)), 1.0), unseen)
        for kind in np.unique(found.meant.slip[some]).tolist():
            here = found.meant.slip[some] == kind
            add(len(_RECORDS) + kind, of, np.minimum(_total(owner[here], weight[here], len(of)), 1.0), unseen)
    add(len(_RECORDS) - 1, of, found.twice, 0.0)
    weighed = np.bincount(visit[case.once(typed).doubted], minlength=visits)
    return Slips(cases, spread, weighed)


def _thought() -> Floats:
    """Rates that are thought of before the survey has told, shape (`_COUNTED`,)."""
    kinds = sum(rate * slip_shares(name) for name, rate in zip(QUANTITIES, RATES.tolist(), strict=True))
    return np.concatenate([RATES, [TWICE_RATE], kinds])


def _groupings(survey: Survey) -> Iterator[tuple[str, list[str | None], Integers]]:
    """What visits are grouped by, the names of the groups, and the group of each visit; where there are several."""
    visits = survey.visits
    yield "survey", [None], np.zeros(len(visits), np.int64)
    day = np.where(np.isnat(visits.date), "", np.datetime_as_string(visits.date, unit="D"))
    columns = {"visit": visits.visit.astype(str), "day": day}
    for by in ("visit", "crew", "instrument", "day"):
        if by in columns:
            words, code = np.unique(columns[by], return_inverse=True)
        else:
            texts, code = visits.words(by)
            words = np.array(texts)
        present, group = np.unique(code, return_inverse=True)
        names = [str(words[place]) or None for place in present.tolist()]
        # Visits that nearly each plot calls differently are no groups, and those named by their day are told as days.
        own = by != "visit" or (2 * len(names) <= len(visits) and bool((columns["visit"] != day).any()))
        if len(names) > 1 and own:
            yield by, names, group.astype(np.int64)


def _by_visit(findings: Findings, family: Family) -> Integers:
    """Number of findings of a family on each visit."""
    total = np.zeros(len(findings.survey.visits), np.int64)
    for check, batch in findings.batches:
        if check.family == family:
            total += np.bincount(batch.visit[batch.visit >= 0], minlength=len(total))
    return total


def _or_none(case: Case, make: Callable[[Case], Made]) -> Made | None:
    """Evidence, or None where the check that rests on it stopped too, which is told among the findings."""
    try:
        return case.once(make)
    except (Cancelled, MemoryError):
        raise
    except Exception:
        return None


def _rates(case: Case, group: Integers, groups: int, whole: _Rates | None) -> _Rates | None:
    """Rate of each slip by group, NaN where no record was weighed; None where that cannot be told.

    The cases of the groups of a survey are scaled so that together they come to the rate of the whole.
    """
    made = _or_none(case, slips)
    if made is None:
        return None
    cases, spread = (np.stack([_total(group, row, groups) for row in part]) for part in (made.cases, made.spread))
    stems = _total(group, made.stems, groups)
    if whole is None:
        thought, scale = _thought()[:, None], np.ones((len(_COUNTED), 1))
    else:
        thought, all_cases = whole.per_stem.rate, whole.cases
        scale = np.divide(thought * stems.sum(), all_cases, out=np.ones(thought.shape), where=all_cases > _NO_CASES)
    rate = event_rate(
        cases * scale,
        np.where(stems > 0, stems, np.nan),
        thought=thought,
        worth=RATES_WORTH,
        spread=spread * scale**2,
    )
    return _Rates(cases, rate)


def _slips(rates: _Rates | None, groups: int) -> list[Told]:
    if rates is None:
        return [_unknown(("slips", "slip_kinds"), _STOPPED)] * groups
    made = []
    for number in range(groups):
        if not np.isfinite(rates.per_stem.rate[0, number]):
            made.append(_unknown(("slips", "slip_kinds"), _NOT_WEIGHED))
            continue
        each = {name: _rate_json(rates, row, number) for row, name in enumerate(_COUNTED)}
        made.append(
            {"slips": {name: each[name] for name in _RECORDS}, "slip_kinds": {name: each[name] for name in SLIPS}}
        )
    return made


def _rate_json(rates: _Rates, row: int, number: int) -> Told:
    columns = {"rate": rates.per_stem.rate, "low": rates.per_stem.low, "high": rates.per_stem.high}
    cases = {"cases": float(rates.cases[row, number])}
    return cases | {f"{name}_per_1000": 1000.0 * float(values[row, number]) for name, values in columns.items()}


def _digits(case: Case, group: Integers, groups: int) -> list[Told]:
    digit = next(iter(case.once(last_digits).values()), None)
    if digit is None:
        return [_unknown(("last_digits",), _WHOLE_CENTIMETRES)] * groups
    some = np.flatnonzero(digit >= 0)
    place = group[case.survey.stems.visit_row[some]] * 10 + digit[some]
    counts = np.bincount(place, minlength=10 * groups).reshape(-1, 10)
    test = digit_test(counts)
    return [
        {
            "last_digits": {
                "diameters": int(test.numbers[number]),
                "p": float(test.p[number]),
                "most": int(counts[number].argmax()),
                "share": float(counts[number].max() / test.numbers[number]),
            }
        }
        if np.isfinite(test.p[number])
        else _unknown(("last_digits",), _FEW_DIAMETERS)
        for number in range(groups)
    ]


def _unseen(case: Case, group: Integers, groups: int) -> list[Told]:
    made = _or_none(case, hidden)
    if made is None:
        return [_unknown(("hidden_share", "missed_stems"), _STOPPED)] * groups
    known = made.reason == ""
    area = np.where(known, case.measured.radius_m**2, 0.0)
    whole = _total(group, area, groups)
    share = _total(group, np.nan_to_num(made.ground.share) * area, groups) / np.where(whole > 0.0, whole, np.nan)
    missed = made.missed_stems(np.where(known, group, -1), groups=groups)
    seen = _total(group[case.survey.stems.visit_row[made.seen]], np.ones(len(made.seen)), groups)
    reasons = sorted({str(reason) for reason in made.reason if reason}, key=lambda word: -(made.reason == word).sum())
    told = []
    for number in range(groups):
        if not np.isfinite(share[number]):
            here = [reason for reason in reasons if (made.reason[group == number] == reason).any()]
            told.append(_unknown(("hidden_share", "missed_stems"), here[0] if here else _HIDDEN_NOT_KNOWN))
            continue
        told.append(
            {
                "hidden_share": float(share[number]),
                "missed_stems": {
                    "expected": float(missed.expected[number]),
                    "low": float(missed.low[number]),
                    "high": float(missed.high[number]),
                    "recorded": int(seen[number]),
                },
            }
        )
    return told


def _edge(case: Case, group: Integers, groups: int) -> list[Told]:
    made = _or_none(case, at_edge)
    if made is None:
        return [_unknown(("outermost_half_metre",), _STOPPED)] * groups
    found, expected, p = edge_test(made, group, groups=groups)
    return [
        {
            "outermost_half_metre": {
                "found": int(found[number]),
                "expected": float(expected[number]),
                "p": float(p[number]),
            }
        }
        if np.isfinite(p[number])
        else _unknown(("outermost_half_metre",), _FEW_AT_EDGE)
        for number in range(groups)
    ]


def _order(case: Case, group: Integers, groups: int) -> list[Told]:
    order = _or_none(case, orders)
    if order is None:
        return [_unknown(("order_of_numbers",), _STOPPED)] * groups
    counts = np.bincount(group * len(_ORDERS) + order, minlength=groups * len(_ORDERS)).reshape(groups, -1)
    return [{"order_of_numbers": dict(zip(_ORDERS, row, strict=True))} for row in counts.tolist()]


def orders(case: Case) -> Integers:
    """How the numbers of each visit run, as places in `_ORDERS`; shape (visits,)."""
    survey, visits = case.survey, len(case.survey.visits)
    doubted = case.once(posterior).doubted
    angle, rows = case.measured.grid_azimuth_deg, case.once(typed).order
    rows = rows[np.isfinite(angle[rows]) & (case.measured.status[rows] <= Status.DEAD)]
    of = survey.stems.visit_row[rows]
    step = (np.diff(angle[rows]) + 180.0) % 360.0 - 180.0
    within, at = of[1:] == of[:-1], of[1:]
    forth, back = (np.bincount(at[within & turned], minlength=visits) for turned in (step > 0.0, step < 0.0))
    # Where nobody looked closer, all steps but few go one way, or they go both ways alike.
    result = np.where(np.minimum(forth, back) > 0.25 * (forth + back), 3, np.where(forth >= back, 1, 2))
    looked_at = np.flatnonzero(doubted.place >= 0)
    plot = doubted.sweep.plot[doubted.place[looked_at]]
    visit = np.zeros(len(doubted.sweep.tells), np.int64)
    visit[plot] = survey.stems.visit_row[looked_at]
    in_order = np.where(doubted.sweep.clockwise, 1, 2)
    result[visit] = np.where(doubted.sweep.tells > _IN_ORDER, in_order, 3)
    result[np.bincount(of, minlength=visits) < _FEWEST_IN_ORDER] = 0
    return result.astype(np.int64)


def _unknown(names: tuple[str, ...], reason: str) -> Told:
    return {**dict.fromkeys(names), **{f"{name}_reason": reason for name in names}}


def _total(at: Integers, values: NDArray[Any], count: int) -> Floats:
    return np.bincount(at, values, minlength=count).astype(np.float64)
