"""Why a record is doubted and what it may mean, in plain words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.ground import Ground, ground
from stemmap.checks.evidence.growth import growth
from stemmap.checks.evidence.last_visit import revisit
from stemmap.checks.evidence.meanings import LINE_ABOVE
from stemmap.checks.evidence.posterior import Posterior, posterior
from stemmap.checks.evidence.proposals import proposed
from stemmap.checks.evidence.reach import reach
from stemmap.checks.evidence.typed import typed
from stemmap.core.keystrokes import SLIPS
from stemmap.survey.registry import Case

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]

_WORDS = ("azimuth", "distance", "dbh")
#: How a value came about, as it is told.
_MEANING = {
    "transposed": "{meant} is {typed} with two digits exchanged",
    "neighbouring key": "{meant} is {typed} with the key beside",
    "digit missing": "{meant} is {typed} with the digit that was left out",
    "digit doubled": "{meant} is {typed} without the doubled digit",
    "digit added": "{meant} is {typed} without a digit too many",
    "decimal point": "{meant} is {typed} with the point where it belongs",
    "back bearing": "{meant} is {typed} read from the other end",
    "mirrored": "{meant} is {typed} counted the other way round",
    "quadrant": "{meant} is {typed} a quarter of the circle on",
    "gon and degree": "{meant} is {typed} taken for the other unit of the circle",
    "other unit": "{meant} is {typed} taken for another unit",
    "girth": "{meant} is the dbh of a stem with a girth of {typed}",
    "along the slope": "{meant} is {typed} made horizontal, or along the slope, as the other distances are",
    "two columns": "{meant} and {typed} stand each in the column of the other",
    "exchanged": "{meant} stands with another stem, which has {typed} in its turn",
}
#: Kinds of slips as they are told, by number: a girth is a slip of its own only here.
_TOLD_SLIPS = (*SLIPS, "girth")
_OTHER_UNIT, _GIRTH = SLIPS.index("other unit"), len(SLIPS)
_NOTHING = "What was meant cannot be told."
#: Reasons, in the order they are told; at most two are.
_REASONS = (
    "there is no azimuth {typed}",
    "the line above has the same",
    "it breaks the order of the numbers: {typed} stands between {before} and {after}",
    "at {distance_m:.2f} m it lies beyond the limiting distance of {limit_m:.2f} m",
    "the design takes no stem of {dbh_cm:g} cm",
    "it would stand in No. {neighbour}",
    "the last visit has no stem there",
    "its dbh changed by {grown_cm:+.1f} cm since the last visit",
    "a dbh of {dbh_cm:g} cm is far from what is usual",
    "{typed} is not written as the other values are",
    "at {distance_m:.2f} m it stands farther out than the stems of this survey do",
)
_BREAKS_ORDER = 2
_FITS = ("the order", "free ground", "the last visit")
_PROPOSED = 0.1
#: Instead of a reason: place of the other record, but not its dbh; its number; both.
_REPEATED, _SAME_NUMBER, _REPEATED_NUMBER = range(len(_REASONS), len(_REASONS) + 3)
#: Part of the doubt from which the line above is named.
_ABOVE = 0.3


@dataclass(frozen=True)
class Reasons:
    """Reasons of the suspects.

    Parameters
    ----------
    code
        Equal rows are told in the same words; shape (suspects, words).
    quantity
        Quantity in doubt; -1: the whole record.
    evidence
        What the sentences speak of, shape (suspects,) each.
    """

    code: NDArray[np.int64]
    quantity: Integers
    evidence: Mapping[str, NDArray[Any]]

    def sentence(self, row: int) -> str:
        """The words for one suspect, with places for its figures."""
        quantity, first, second, slip, fits = (int(each) for each in self.code[row])
        if quantity < 0:
            if first == _REPEATED_NUMBER:
                return (
                    "No. {stem} is there twice with the same azimuth and distance, but a dbh of {dbh_cm:g} cm against "
                    "{twin_dbh_cm:g} cm: the line above repeated, two stems of one tree, or one entered again."
                )
            if first == _SAME_NUMBER:
                return "No. {stem} is there twice and looks entered again: {apart_m:.2f} m apart, dbh {dbh_cm:g} cm."
            if first == _REPEATED:
                return (
                    "No. {stem} has azimuth and distance of No. {twin} to the last digit, but a dbh of {dbh_cm:g} cm "
                    "against {twin_dbh_cm:g} cm: the line above repeated, two stems of one tree, or one entered again."
                )
            return "No. {stem} looks like No. {twin} entered again: {apart_m:.2f} m apart, dbh {dbh_cm:g} cm."
        told = [_REASONS[reason] for reason in (first, second) if reason >= 0]
        why = f"No. {{stem}}: the {_WORDS[quantity]} {{typed}} is in doubt" + (
            f"; {', and '.join(told)}." if told else "."
        )
        if slip == -2:
            return f"{why} {_NOTHING}"
        what = _MEANING[_TOLD_SLIPS[slip]]
        good = [word for number, word in enumerate(_FITS) if fits >> number & 1]
        fit = "; it fits " + (", ".join(good[:-1]) + " and " if len(good) > 1 else "") + good[-1] if good else ""
        return f"{why} {what}{fit}."


def reasons(case: Case) -> Reasons:
    """Reasons and figures of all suspects."""
    found, free, both = case.once(posterior), case.once(ground), case.once(revisit)
    best, as_typed = case.once(proposed), case.once(typed)
    rows, meant, told = found.doubted.rows, found.meant, found.told
    count = len(rows)
    measured = case.measured
    known = meant.quantity >= 0
    by_quantity = np.stack(
        [
            np.bincount(meant.owner[meant.quantity == each], found.weight[meant.quantity == each], minlength=count)
            for each in range(3)
        ]
    )
    quantity = np.where(found.twice > 0.5 * (1.0 - found.right), -1, by_quantity.argmax(axis=0))
    first = best.meaning[:, 0]
    fitting = (first >= 0) & (best.probability[:, 0] >= _PROPOSED) & known[first]
    fitting &= meant.quantity[first] == quantity
    slip = np.where(fitting, meant.slip[first], -2)
    # Other units only make a diameter larger.
    girth = (slip == _OTHER_UNIT) & (quantity == 2) & (meant.value[first] < measured.dbh_cm[rows])
    slip = np.where(girth, _GIRTH, slip)

    place = np.full(len(case.survey.stems), -1, np.int64)
    place[both.this] = np.arange(len(both.this))
    mine = place[rows]
    last = np.where(mine >= 0, np.append(both.found.last, -1)[mine], -1)
    grown = measured.dbh_cm[rows] - case.once(growth).before_cm[rows]
    off, grows = case.once(growth).off(case, rows, case.once(growth).before[rows], grown)
    neighbour = _neighbour(case, free, rows)
    before, after = _beside(case, found)
    distance, limit = measured.compared_distance_m[rows], measured.limiting_distance_m[rows]
    farthest = case.once(reach)
    above = np.bincount(meant.owner, found.weight * (meant.slip == LINE_ABOVE), minlength=count)
    spelt = np.zeros(count, bool)
    for number, written in enumerate(found.doubted.spellings):
        if written is not None:
            spelt |= (quantity == number) & written.odd(written.places[rows])
    fit_order = np.log(told.tells * (told.order + 0.003) + 1.0 - told.tells)
    typed_order, typed_free = fit_order[:count], told.free[:count]
    texts = [case.survey.stems.texts(name) if name is not None else None for name in as_typed.columns]
    text = np.full(count, "", dtype=object)
    for number, cells in enumerate(texts):
        if cells is not None:
            text = np.where(quantity == number, cells[rows], text)
    holds = np.stack(
        [
            (quantity == 0) & np.isnan(measured.grid_azimuth_deg[rows]),
            above > _ABOVE * (1.0 - found.right),
            (quantity == 0) & (typed_order < -0.5) & (before != "") & (after != ""),
            (quantity == 1) & (distance > limit) & farthest.fits,
            (quantity == 2) & measured.taken_by_none[rows],
            (quantity != 2) & (typed_free < -1.5) & (neighbour >= 0),
            (quantity != 2) & (mine >= 0) & (last < 0),
            (quantity == 2) & (np.abs(off) > 3.0 * grows),
            (quantity == 2) & np.isnan(grown),
            spelt,
            (quantity == 1) & (distance > farthest.own_m) & ~(np.isfinite(limit) & farthest.fits),
        ],
        axis=1,
    )
    order = np.argsort(~holds, axis=1, kind="stable")[:, :2]
    two = np.where(np.take_along_axis(holds, order, axis=1), order, -1)
    chosen = np.where(fitting, first, 0)
    fits = (
        1 * (fitting & (quantity == 0) & (fit_order[chosen] > typed_order + 1.0) & (fit_order[chosen] > 0.0))
        + 2 * (fitting & (quantity != 2) & (told.free[chosen] > -0.5))
        + 4 * (fitting & (mine >= 0) & (told.again[chosen] > told.again[:count] + 2.0))
    )
    twin = np.where(found.twin >= 0, found.twin, rows)
    again = (quantity < 0) & (measured.dbh_cm[rows] != measured.dbh_cm[twin])
    for name in ("azimuth", "distance_m"):
        typed_numbers = case.survey.stems.numbers(name)
        again &= typed_numbers[rows] == typed_numbers[twin]
    labels = _labels(case)
    same = (labels(rows) == labels(twin)) & ~np.isin(labels(rows), ("", "?"))
    of_two = np.where(again, np.where(same, _REPEATED_NUMBER, _REPEATED), np.where(same, _SAME_NUMBER, -1))
    two[:, 0] = np.where(quantity < 0, of_two, two[:, 0])
    code = np.stack([quantity, two[:, 0], two[:, 1], slip, np.where(slip == -2, 0, fits)], axis=1)
    evidence = {
        "typed": text,
        "meant": np.array([f"{value:g}" for value in np.where(fitting, meant.value[chosen], np.nan)], dtype=object),
        "before": before,
        "after": after,
        "distance_m": distance,
        "limit_m": limit,
        "dbh_cm": measured.dbh_cm[rows],
        "grown_cm": grown,
        "neighbour": np.where(neighbour >= 0, labels(neighbour), ""),
        "twin": labels(twin),
        "twin_dbh_cm": measured.dbh_cm[twin],
        "told_by_order": (code[:, 1:3] == _BREAKS_ORDER).any(axis=1) | ((code[:, 4] & 1) > 0),
        "apart_m": np.hypot(measured.x_m[rows] - measured.x_m[twin], measured.y_m[rows] - measured.y_m[twin]),
    }
    return Reasons(code, quantity, evidence)


def _labels(case: Case) -> Any:
    """A function from rows to stem numbers as typed."""
    records = case.survey.stems.records
    name = "stem" if records.has("stem") else "tree"
    column = records.columns.get(name)

    def of(rows: Integers) -> NDArray[np.object_]:
        if column is None:
            return np.full(len(rows), "?", dtype=object)
        texts: NDArray[np.object_] = np.append(column.labels, "?")[column.codes[rows]]
        return texts

    return of


def _neighbour(case: Case, free: Ground, rows: Integers) -> Integers:
    """Row of the stem that each suspect overlaps most, -1: none."""
    measured = case.measured
    deepest = np.zeros(len(case.survey.stems))
    other = np.full(len(case.survey.stems), -1, np.int64)
    early, late = free.pairs[:, 0], free.pairs[:, 1]
    apart = np.hypot(measured.x_m[early] - measured.x_m[late], measured.y_m[early] - measured.y_m[late])
    overlap = free.radius_m[early] + free.radius_m[late] - apart
    order = np.argsort(overlap)
    for left, right in ((early, late), (late, early)):
        deeper = order[overlap[order] > deepest[left[order]]]
        # Later assignments win, and those are the deeper ones.
        deepest[left[deeper]], other[left[deeper]] = overlap[deeper], right[deeper]
    return other[rows]


def _beside(case: Case, found: Posterior) -> tuple[NDArray[np.object_], NDArray[np.object_]]:
    """Azimuths as typed before and after each suspect in the order of numbers, those in doubt passed over."""
    sweep, place, rows = found.doubted.sweep, found.doubted.place, found.doubted.rows
    column = case.survey.stems.records.columns.get("azimuth")
    none = np.full(len(rows), "", dtype=object)
    if column is None or not len(sweep.plot):
        return none, none.copy()
    stem = np.full(len(sweep.plot), -1, np.int64)
    held = np.flatnonzero(place >= 0)
    stem[place[held]] = held
    doubtful = np.zeros(len(case.survey.stems), bool)
    doubtful[rows[found.right < 0.5]] = True
    calm = np.flatnonzero(~doubtful[stem] & np.isfinite(case.measured.grid_azimuth_deg[stem]))
    texts = np.append(column.labels, "")
    beside = []
    at = place[rows]
    after = np.searchsorted(calm, at, side="right")
    before = np.searchsorted(calm, at) - 1
    for number in (before, after):
        inside = (number >= 0) & (number < len(calm)) & (at >= 0)
        near = calm[np.clip(number, 0, max(len(calm) - 1, 0))] if len(calm) else np.zeros(len(rows), np.int64)
        inside &= sweep.plot[near] == sweep.plot[np.maximum(at, 0)]
        beside.append(np.where(inside, texts[column.codes[stem[near]]], ""))
    return beside[0], beside[1]
