"""Whether a stem of the last visit that nobody else is stands where a record may have been meant."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.ground import place_sd
from stemmap.checks.evidence.growth import growth
from stemmap.checks.evidence.last_visit import Revisit, revisit
from stemmap.checks.evidence.meanings import Meanings
from stemmap.checks.evidence.reach import reach
from stemmap.checks.evidence.typed import typed
from stemmap.core.design import membership
from stemmap.survey.registry import Case
from stemmap.survey.settings import sampling_design

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]


def own_places(case: Case) -> Integers:
    """Place of each stem of the survey among those of the later visits, -1: not there; shape (stems,)."""
    both, place = case.once(revisit), np.full(len(case.survey.stems), -1, np.int64)
    place[both.this] = np.arange(len(both.this))
    return place


def nobodys(case: Case) -> Integers:
    """Places of the stems of the last visits that nobody is matched with."""
    both = case.once(revisit)
    free = np.ones(len(both.last), bool)
    free[both.found.last[both.found.last >= 0]] = False
    return np.flatnonzero(free)


def found_again(case: Case, stem: Integers, meant: Meanings, *, log_dbh: Floats) -> tuple[Floats, Floats]:
    """How well each meaning is a stem of the last visit that nobody else is, and whether none could be seen there.

    The first is the logarithm of the density of place and dbh summed over those stems, per square metre and
    centimetre; the second 1 where the last visit's circle did not reach, or where there was none.

    Parameters
    ----------
    stem
        Row of the record of each meaning.
    log_dbh
        Logarithm of the density of each meaning's dbh alone, for stems whose growth cannot be known.
    """
    from scipy.special import ndtr

    both = case.once(revisit)
    again, edge = np.full(len(log_dbh), -np.inf), np.ones(len(log_dbh))
    mine = case.once(own_places)[stem]
    row = np.flatnonzero(mine >= 0)
    if not len(row):
        return again, edge
    own = mine[row]
    plot = both.here.plot[own]
    turn = np.radians(both.fit.rotation_deg)[plot]
    angle = np.radians(meant.azimuth_deg[row]) - turn
    there_x = meant.distance_m[row] * np.sin(angle) + both.fit.shift_east_m[plot]
    there_y = meant.distance_m[row] * np.cos(angle) + both.fit.shift_north_m[plot]
    fits = case.once(reach).fits
    then = _reach_then(case, both, plot, meant.dbh_cm[row]) if fits else np.full(len(row), np.inf)
    sd = place_sd(case, meant.distance_m[row])
    seen = ndtr((np.where(np.isfinite(then), then, np.inf) - np.hypot(there_x, there_y)) / np.maximum(1.5 * sd, 0.03))
    edge[row] = np.where(np.isfinite(seen), 1.0 - seen, 1.0)

    state, other = _candidates(both, own, case.once(nobodys))
    if not len(state):
        return again, edge
    log_near, radial = _log_near(
        case, both, (there_x, there_y), (angle, meant.distance_m[row]), state=state, other=other
    )
    # Copied places say nothing of the place: any meaning of azimuth and distance is as good.
    copied = both.copied[own[state]]
    log_near = np.where(copied, 0.0, log_near)
    grown = case.once(growth).log_density(
        case, both.this[own[state]], both.last[other], meant.dbh_cm[row][state] - both.there.dbh_cm[other]
    )
    grown = np.where(np.isfinite(meant.dbh_cm[row][state]), grown, log_dbh[row][state])
    # A stem of the last visit that this circle does not reach would not be missed.
    back_x = both.there.x_m[other] - both.fit.shift_east_m[plot[state]]
    back_y = both.there.y_m[other] - both.fit.shift_north_m[plot[state]]
    now = case.measured.radius_m[both.visit[plot[state]]] if fits else np.full(len(state), np.inf)
    within = ndtr((np.where(np.isfinite(now), now, np.inf) - np.hypot(back_x, back_y)) / (1.5 * np.sqrt(radial)))
    log_density = np.nan_to_num(log_near + grown + np.log(np.maximum(within, 0.02)), nan=-300.0)
    top = np.full(len(row), -np.inf)
    np.maximum.at(top, state, log_density)
    total = np.bincount(state, np.exp(log_density - top[state]), minlength=len(row))
    with np.errstate(divide="ignore"):
        again[row] = np.where(total > 0.0, top + np.log(total), -np.inf)
    return again, edge


def log_by_number(case: Case, stem: Integers, meant: Meanings) -> Floats:
    """The same for stems that have no place of their own and are known by their number; NaN for all others."""
    told = case.once(growth)
    grown = meant.dbh_cm - told.before_cm[stem]
    found = np.full(len(stem), np.nan)
    known = np.flatnonzero(np.isfinite(grown) & ~case.once(typed).doubted[stem])
    found[known] = told.log_density(case, stem[known], told.before[stem[known]], grown[known])
    return found


def _reach_then(case: Case, both: Revisit, plot: Integers, dbh_cm: Floats) -> Floats:
    """Distance up to which the last visit recorded such stems, thinner by the usual growth; 0: it took none so thin."""
    previous = case.survey.visits.previous[both.visit[plot]]
    radius = case.measured.radius_m[previous]
    design = sampling_design(case.survey.settings)
    if design is None:
        return radius
    # One spread more than the usual growth: who may have been too thin cannot be missed.
    member = membership(
        design,
        azimuth_deg=np.zeros(len(plot)),
        distance_m=np.zeros(len(plot)),
        dbh_cm=np.where(np.isfinite(dbh_cm), dbh_cm - sum(both.growth_cm), 1e6),
        radius_m=radius,
        slope_percent=np.zeros(len(plot)),
    )
    return np.where(
        member.circle < 0, 0.0, np.where(np.isfinite(member.limiting_distance_m), member.limiting_distance_m, radius)
    )


def _candidates(both: Revisit, own: Integers, free: Integers) -> tuple[Integers, Integers]:
    """Meanings and the stems of the last visit they may be: those that are nobody's, and the record's own match."""
    plot = both.here.plot[own]
    first = np.searchsorted(both.there.plot[free], plot)
    number = np.searchsorted(both.there.plot[free], plot, side="right") - first
    state = np.repeat(np.arange(len(own)), number)
    other = free[np.arange(len(state)) - np.repeat(np.cumsum(number) - number, number) + np.repeat(first, number)]
    found = both.found.last[own]
    has = np.flatnonzero(found >= 0)
    return np.concatenate([state, has]), np.concatenate([other, found[has]])


def _log_near(
    case: Case,
    both: Revisit,
    at: tuple[Floats, Floats],
    seen: tuple[Floats, Floats],
    *,
    state: Integers,
    other: Integers,
) -> tuple[Floats, Floats]:
    """Logarithm of the density of a place about a stem of the last visit, and the variance along the line of sight.

    `at` is east and north of each meaning in the last visit's map, `seen` its azimuth (radians) and distance.
    """
    angle, distance = seen
    errors = case.survey.settings.errors
    off_x, off_y = both.there.x_m[other] - at[0][state], both.there.y_m[other] - at[1][state]
    sine, cosine = np.sin(angle[state]), np.cos(angle[state])
    east, north, cross = both.there.var_east[other], both.there.var_north[other], both.there.cov_east_north[other]
    apart = np.maximum(distance[state], 0.0)
    radial_sd = errors.distance_sd_m + apart * errors.distance_sd_percent / 100.0
    radial = sine**2 * east + cosine**2 * north + 2 * sine * cosine * cross + radial_sd**2 + 4e-4
    across = cosine**2 * east + sine**2 * north - 2 * sine * cosine * cross + 4e-4
    across += (apart * np.radians(errors.azimuth_sd_deg)) ** 2
    along = (off_x * sine + off_y * cosine) ** 2 / radial + (off_x * cosine - off_y * sine) ** 2 / across
    along /= both.wider**2
    near = np.exp(-0.5 * np.minimum(along, 400.0)) * (1.0 - both.loose)
    near += both.loose / 9.0 * np.exp(-np.minimum(along, 4000.0) / 18.0)
    log_near = np.log(near + 1e-300) - np.log(2.0 * np.pi * np.sqrt(radial * across))
    return log_near, radial
