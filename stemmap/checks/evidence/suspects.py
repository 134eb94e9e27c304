"""Which records are worth a closer look: those that something speaks against."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import hypot

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.copied import copied
from stemmap.checks.evidence.diameters import diameters
from stemmap.checks.evidence.ground import ground
from stemmap.checks.evidence.growth import growth
from stemmap.checks.evidence.last_visit import revisit
from stemmap.checks.evidence.reach import reach
from stemmap.checks.evidence.repeats import repeats
from stemmap.checks.evidence.spelling import Spelling, spelling
from stemmap.checks.evidence.typed import judged_visits, typed
from stemmap.core.revisit import squared_distance
from stemmap.core.sweep import Sweep, order_of_numbers, steadiness
from stemmap.core.sweep_chain import Choices
from stemmap.survey.decided import rows_of
from stemmap.survey.measured import Status
from stemmap.survey.registry import Case

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]
Truths = NDArray[np.bool_]

#: What the crew takes for the next stem though it stands a little further back, and rounding; degrees.
_TURN_TAKING_DEG = 0.6
#: A step back along the order by more than this is worth a look, degrees.
_STEP_BACK_DEG = 6.0
#: Share of steps back from which numbers follow no order.
_NO_ORDER = 0.25
#: Density of an azimuth in the order, relative to a uniform one, below which it is worth a look.
_OUT_OF_ORDER = 2.0
#: What holds for more than this share of a survey of so many stems is no slip of single records.
_COMMON, _MANY = 0.05, 1000
#: Probability of an order below which it is not followed again.
_SOME_ORDER = 0.01
#: Logarithm of the chance of an overlap below which it is worth a look.
_OVERLAPS = -2.0
#: Squared distance of a match (chi-square of two degrees of freedom) up to which the last visit confirms a place, and
#: the spreads of growth up to which it confirms a diameter.
_CONFIRMED, _GREW = 9.5, 3.0
#: Errors by which a direction or a distance differs from that of another stem.
_ANOTHER = 4.5
#: Surveys up to this size have the order of every plot looked at.
_SMALL = 60_000


@dataclass(frozen=True)
class Suspects:
    """Records worth a closer look.

    Parameters
    ----------
    rows
        Rows of the stems, sorted; shape (n,).
    thickness
        Whether the diameter is worth a look too; shape (n,).
    sweep
        What the order of numbers tells on the visits looked at.
    place
        Place of each stem of the survey in the sweep, -1: its visit was not looked at.
    pairs
        Rows of two records that may be one stem entered twice, the later one first; shape (p, 2).
    spellings
        How the numbers of each quantity are written; None where there is no such column.
    came
        Stems that the last visit has not and that nothing speaks against.
    """

    rows: Integers
    thickness: Truths
    sweep: Sweep
    place: Integers
    pairs: Integers
    spellings: tuple[Spelling | None, ...]
    came: int


def suspects(case: Case) -> Suspects:
    """Find the records that anything speaks against."""
    measured = case.measured
    as_typed, free, both = case.once(typed), case.once(ground), case.once(revisit)
    azimuth, distance, _ = as_typed.numbers
    doubtful = np.isfinite(azimuth) & np.isnan(measured.grid_azimuth_deg)
    doubtful |= np.isfinite(distance) & ~(distance > 0.0)
    farthest = case.once(reach)
    limit = farthest.limit_m(measured.limiting_distance_m)
    doubtful |= _rare(measured.compared_distance_m > limit + 3.0 * free.sd_m)
    too_thin = _rare(measured.taken_by_none & farthest.fits)
    doubtful |= too_thin
    spellings = _spellings(case)
    for written in spellings:
        if written is not None:
            doubtful |= _rare(written.odd(written.places))
    unlike = case.once(diameters).unlike(measured.dbh_cm)
    thickness = unlike.copy()
    matched = np.flatnonzero(both.found.last >= 0)
    lies = squared_distance(both.here.take(matched), both.there.take(both.found.last[matched]))
    confirmed = np.zeros(len(doubtful), bool)
    alike = matched[(lies <= _CONFIRMED * both.wider**2) & ~both.copied[matched]]
    confirmed[both.this[alike]] = confirmed[both.last[both.found.last[alike]]] = True
    oddly = _grew_oddly(case)
    odd_growth = oddly[both.this]
    thickness[both.this[(both.found.last < 0) & ~case.once(growth).cleared[both.this]]] = True
    thickness |= oddly
    thickness |= too_thin
    if spellings[2] is not None:
        thickness |= spellings[2].odd(spellings[2].places)
    doubtful |= unlike
    new = _new(case)
    # Places carried over from the last visit say nothing, neither for nor against.
    carried = case.once(copied)
    doubtful[carried] = thickness[carried]
    doubtful[both.this[(~confirmed[both.this] & ~new & ~carried[both.this]) | odd_growth]] = True
    # What another visit confirms, no order and no neighbour calls in question.
    pairs = _close(case, doubtful, confirmed | carried)
    alive = as_typed.doubted & (measured.status <= Status.DEAD)
    doubtful &= alive
    sweep, place = _order(case, doubtful, confirmed)
    seen = np.flatnonzero((place >= 0) & np.isfinite(measured.grid_azimuth_deg))
    told = sweep.relative_density(place[seen], measured.grid_azimuth_deg[seen])
    told[(confirmed | carried)[seen]] = np.inf
    doubtful[seen[(told < _OUT_OF_ORDER) & (sweep.tells[sweep.plot[place[seen]]] > 0.3)]] = True
    doubtful &= alive & (thickness | ~_misread(case))
    # Of a stem that was not measured from the centre, the dbh alone is doubted.
    standing = judged_visits(case)[case.survey.stems.visit_row] & (measured.status <= Status.DEAD)
    only_dbh = standing & ~as_typed.doubted & (unlike | oddly)
    thickness |= only_dbh
    doubtful |= only_dbh
    rows = np.flatnonzero(doubtful)
    new[~alive[both.this] | doubtful[both.this]] = False
    return Suspects(rows, thickness[rows], sweep, place, pairs, spellings, int(new.sum()))


def _spellings(case: Case) -> tuple[Spelling | None, ...]:
    """How the numbers of each quantity are written, as the whole survey has it."""
    own = [None if name is None else _spelling(case, name) for name in case.once(typed).columns]
    if case.whole is None:
        return tuple(own)
    whole = case.whole.once(suspects).spellings
    return tuple(
        one if one is None or other is None else replace(other, places=one.places)
        for one, other in zip(own, whole, strict=True)
    )


def _spelling(case: Case, name: str) -> Spelling:
    """How the numbers of a column are written; nobody typed those that were decided."""
    records = case.survey.stems.records
    spelt = spelling(records.columns[name])
    decided = rows_of(records, list(case.survey.decisions.values.get(name, ())))
    places = spelt.places.copy()
    places[decided[decided >= 0]] = -1
    return replace(spelt, places=places)


def _grew_oddly(case: Case) -> Truths:
    """Stems whose dbh did not grow as is usual; shape (stems,)."""
    told, oddly = case.once(growth), np.zeros(len(case.survey.stems), bool)
    rows = np.flatnonzero(np.isfinite(told.before_cm) & ~told.cleared)
    off, spread = told.off(case, rows, told.before[rows], (case.measured.dbh_cm - told.before_cm)[rows])
    oddly[rows] = np.abs(off) > _GREW * spread
    return oddly


def _misread(case: Case) -> Truths:
    """Stems of plots that are read otherwise as a whole, where no single place is in doubt; shape (stems,)."""
    both, misread = case.once(revisit), np.zeros(len(case.survey.visits), bool)
    misread[both.visit[both.otherwise.misread]] = True
    return misread[case.survey.stems.visit_row]


def _new(case: Case) -> Truths:
    """Stems of the second of two visits that are none of the first one's, whatever one slip made of them.

    Under one slip either the azimuth or the distance is right: no stem that is nobody's stands in that direction or
    at that distance. Shape as `Revisit.this`.
    """
    errors, both = case.survey.settings.errors, case.once(revisit)
    new = both.found.last < 0
    nobody = np.ones(len(both.last), bool)
    nobody[both.found.last[~new]] = False
    here, there = np.flatnonzero(new), np.flatnonzero(nobody)
    first, last = (
        np.searchsorted(both.there.plot[there], both.here.plot[here], side=side) for side in ("left", "right")
    )
    owner = np.repeat(np.arange(len(here)), last - first)
    other = there[np.arange(len(owner)) - np.repeat(np.cumsum(last - first) - last, last - first)]
    mine, plot = here[owner], both.here.plot[here[owner]]
    east, north = both.fit.shift_east_m[plot], both.fit.shift_north_m[plot]
    x, y = both.here.x_m[mine] - east, both.here.y_m[mine] - north
    other_x, other_y = both.there.x_m[other] - east, both.there.y_m[other] - north
    apart, other_apart = np.hypot(x, y), np.hypot(other_x, other_y)
    reach = _ANOTHER * both.wider * np.sqrt(2.0)
    turned = np.abs((np.arctan2(other_x, other_y) - np.arctan2(x, y) + np.pi) % (2.0 * np.pi) - np.pi)
    near = ~(np.abs(other_apart - apart) > reach * (errors.distance_sd_m + errors.distance_sd_percent / 100.0 * apart))
    near |= turned <= reach * np.hypot(np.radians(errors.azimuth_sd_deg), 0.02 / np.maximum(apart, 0.1))
    new[here[np.bincount(owner, near, minlength=len(here)) > 0]] = False
    return new


def _rare(doubtful: Truths) -> Truths:
    """The same doubt, unless so much of a survey shares it that it is none about single records."""
    common = len(doubtful) > _MANY and np.count_nonzero(doubtful) > _COMMON * len(doubtful)
    return np.zeros(len(doubtful), bool) if common else doubtful


def _close(case: Case, doubtful: Truths, confirmed: Truths) -> Integers:
    """Pairs that may be one stem; marks the stems of pairs that overlap or are alike as doubtful."""
    measured, free = case.measured, case.once(ground)
    early, late = free.pairs[:, 0], free.pairs[:, 1]
    fork = (free.tree_code[early] == free.tree_code[late]) & (free.tree_code[early] >= 0)
    early, late = early[~fork], late[~fork]
    apart = np.hypot(measured.x_m[early] - measured.x_m[late], measured.y_m[early] - measured.y_m[late])
    sd = np.hypot(free.sd_m[early], free.sd_m[late])
    overlap = free.log_apart(apart - 0.9 * (free.radius_m[early] + free.radius_m[late]), sd) < _OVERLAPS
    for side in (early, late):
        doubtful[side[overlap & ~confirmed[side]]] = True
    thicker = np.abs(measured.dbh_cm[early] - measured.dbh_cm[late])
    alike = (apart < 4.0 * sd) & ~(thicker > 5.0 * _dbh_sd(case, late) + 0.1)
    alike &= ~(confirmed[early] & confirmed[late])
    doubtful[early[alike]] = doubtful[late[alike]] = True
    return np.column_stack([late[alike], early[alike]])


def _dbh_sd(case: Case, rows: Integers) -> Floats:
    from stemmap.core.locate import dbh_sd

    found: Floats = np.maximum(dbh_sd(case.measured.dbh_cm[rows], case.survey.settings.errors), 0.1) * np.sqrt(2.0)
    return found


def reordered(case: Case, doubted: Suspects, choices: Choices) -> Suspects:
    """The same suspects held against the order of what all of them may have meant."""
    sweep, place = doubted.sweep, doubted.place
    stem = np.full(len(sweep.plot), -1, np.int64)
    held = np.flatnonzero(place >= 0)
    stem[place[held]] = held
    first = np.searchsorted(sweep.plot, np.arange(len(sweep.tells) + 1))
    # Only suspects are asked for again, and only where there is some order and another suspect.
    wanted = np.zeros(len(sweep.plot), bool)
    asked = place[doubted.rows]
    wanted[asked[asked >= 0]] = True
    several = np.bincount(sweep.plot, wanted, minlength=len(sweep.tells)) > 1
    asked_plots = several & (sweep.tells > _SOME_ORDER)
    wanted &= asked_plots[sweep.plot]
    again = order_of_numbers(
        case.measured.grid_azimuth_deg[stem], first, sd_deg=sweep.sd_deg, wanted=wanted, choices=choices
    )
    # Of the others the first answer holds.
    names = ("tells", "start_deg", "clockwise")
    merged = {name: np.where(asked_plots, getattr(again, name), getattr(sweep, name)) for name in names}
    return replace(doubted, sweep=replace(again, **merged))


def _order(case: Case, doubtful: Truths, confirmed: Truths) -> tuple[Sweep, Integers]:
    """The sweep of all visits worth it, and the place of each stem in it."""
    visits, measured = case.survey.visits, case.measured
    rows = case.once(typed).order
    visit = case.survey.stems.visit_row[rows]
    angle = measured.grid_azimuth_deg[rows]
    looked_at = np.bincount(case.survey.stems.visit_row, doubtful, minlength=len(visits)) > 0
    known = np.flatnonzero(np.isfinite(angle))
    step = (np.diff(angle[known]) + 180.0) % 360.0 - 180.0
    of = visit[known][1:]
    inside = of == visit[known][:-1]
    back = np.bincount(of[inside], step[inside] < -_STEP_BACK_DEG, minlength=len(visits))
    forth = np.bincount(of[inside], step[inside] > _STEP_BACK_DEG, minlength=len(visits))
    against = np.minimum(back, forth)
    judged = judged_visits(case)
    looked_at |= against > 0
    if len(rows) <= _SMALL:
        looked_at[:] = True
    else:
        looked_at &= against <= np.maximum(_NO_ORDER * visits.stem_count, 3)
        looked_at &= np.bincount(case.survey.stems.visit_row, doubtful | ~confirmed, minlength=len(visits)) > 0
    looked_at &= judged
    both = case.once(revisit)
    added = np.zeros(len(case.survey.stems), bool)
    added[both.this[both.added]] = True
    added[case.once(repeats).rows] = True
    chosen = np.flatnonzero(looked_at[visit] & ~added[rows] & case.once(typed).doubted[rows])
    count = np.bincount(visit[chosen], minlength=len(visits))
    count = count[count > 0]
    place = np.full(len(rows), -1, np.int64)
    place[rows[chosen]] = np.arange(len(chosen))
    sd = hypot(case.survey.settings.errors.azimuth_sd_deg, _TURN_TAKING_DEG)
    first = np.append(0, np.cumsum(count))
    sd = steadiness(angle[chosen], first, sd_deg=sd)
    return order_of_numbers(angle[chosen], first, sd_deg=sd), place
