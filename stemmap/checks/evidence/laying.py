"""The maps of two visits laid on one another: pairs matched anew, fits searched for, and which of them are believed."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from stemmap.core.revisit import Map, Matches, RigidFit, matches, placed, rigid_fit, search

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]

#: Pairs without which a plot says nothing as a whole.
ENOUGH_PAIRS = 5
#: What a turn (one number) and a shift (two) must explain to be believed, in units of chi-square.
_TURN_COST, _SHIFT_COST = 12.0, 16.0
#: Turns (degrees) and shifts (metres) too small to speak of.
_LEAST_TURN, _LEAST_SHIFT = 1.5, 0.2


def pairs_of(here: Map, there: Map, found: Matches) -> tuple[Map, Map]:
    """The pairs, row by row, in both maps."""
    matched = np.flatnonzero(found.last >= 0)
    return here.take(matched), there.take(found.last[matched])


def matched_anew(
    here: Map, there: Map, found: Matches, plots: NDArray[np.bool_], growth: tuple[float, float]
) -> Matches:
    """The matches of some plots made anew, all others kept."""
    if not plots.any():
        return found
    left, right = np.flatnonzero(plots[here.plot]), np.flatnonzero(plots[there.plot])
    some = matches(here.take(left), there.take(right), growth_cm=growth)
    last, cost = found.last.copy(), found.cost.copy()
    last[left] = np.where(some.last >= 0, np.append(right, -1)[some.last], -1)
    cost[left] = some.cost
    return Matches(last, cost)


def may_be_paired_otherwise(here: Map, there: Map, found: Matches, plots: int) -> NDArray[np.bool_]:
    """Plots with a pair that lies badly, or with stems of both visits that nobody is matched with."""
    badly = np.bincount(here.plot, found.cost >= 9.0, minlength=plots) > 0
    nobody = np.ones(len(there.plot), bool)
    nobody[found.last[found.last >= 0]] = False
    left, right = (
        np.bincount(some.plot, alone & np.isfinite(some.x_m), minlength=plots) > 0
        for some, alone in ((here, found.last < 0), (there, nobody))
    )
    unsettled: NDArray[np.bool_] = badly | (left & right)
    return unsettled


def fitted_anew(here: Map, there: Map, found: Matches, fit: RigidFit, plots: NDArray[np.bool_]) -> RigidFit:
    """The fits of some plots made anew from their pairs, all others kept."""
    if not plots.any():
        return fit
    this, last = pairs_of(here, there, found)
    rows = np.flatnonzero(plots[this.plot])
    place = np.cumsum(plots) - 1
    this, last = replace(this.take(rows), plot=place[this.plot[rows]]), last.take(rows)
    return _filled_in(fit, rigid_fit(this, last, int(np.count_nonzero(plots))), plots)


def _filled_in(fit: RigidFit, some: RigidFit, plots: NDArray[np.bool_]) -> RigidFit:
    """All fits, with those of some plots in their place."""
    whole = {}
    for name in RigidFit.__dataclass_fields__:
        values = getattr(fit, name).copy()
        values[plots] = getattr(some, name)
        whole[name] = values
    return RigidFit(**whole)


def score_of(found: Matches, plot: Integers, plots: int) -> Floats:
    """Number of stems that find their place, closer ones counting more."""
    return np.bincount(plot, np.where(found.last >= 0, 1.0 - found.cost / 50.0, 0.0), minlength=plots).astype(float)


def searched(
    here: Map, there: Map, fit: RigidFit, doubtful: NDArray[np.bool_], growth: tuple[float, float]
) -> RigidFit:
    """The fits of doubtful plots tried anew from a turned and from a moved map; the one that matches most stays."""
    some = np.flatnonzero(doubtful)
    place = np.cumsum(doubtful) - 1
    left, right = np.flatnonzero(doubtful[here.plot]), np.flatnonzero(doubtful[there.plot])
    this, last = here.take(left), there.take(right)
    this, last = replace(this, plot=place[this.plot]), replace(last, plot=place[last.plot])
    own = RigidFit(*(getattr(fit, name)[some] for name in RigidFit.__dataclass_fields__))
    best, best_score = own, np.full(len(some), -np.inf)
    for number, begin in enumerate((own, *search(this, last, len(some), growth_cm=growth))):
        tried = begin
        for _ in range(3):
            found = matches(placed(this, tried), last, growth_cm=growth)
            tried = rigid_fit(*pairs_of(this, last, found), len(some))
        found = matches(placed(this, tried), last, growth_cm=growth)
        score = score_of(found, this.plot, len(some)) - 1.0 * (number > 0)
        better = score > best_score
        best_score = np.where(better, score, best_score)
        best = merged(best, tried, better)
    return _filled_in(fit, best, doubtful)


def merged(first: RigidFit, second: RigidFit, where: NDArray[np.bool_]) -> RigidFit:
    """The second fits where said, by plot, the first elsewhere."""
    names = RigidFit.__dataclass_fields__
    taken = {}
    for name in names:
        a, b = getattr(first, name), getattr(second, name)
        taken[name] = np.where(where.reshape(-1, *[1] * (a.ndim - 1)), b, a)
    return RigidFit(**taken)


def believed(fit: RigidFit) -> tuple[RigidFit, NDArray[np.bool_], NDArray[np.bool_]]:
    """The fit with only the turn, only the shift, both or neither, whichever explains most for its cost.

    With the covariance C of the full fit p, leaving out some of p costs p_out' (C_out,out)^-1 p_out; the rest
    becomes p_in - C_in,out (C_out,out)^-1 p_out.
    """
    full = np.stack([fit.rotation_deg, fit.shift_east_m, fit.shift_north_m], axis=1)
    known = np.isfinite(fit.covariance[:, 0, 0]) & (fit.pairs >= ENOUGH_PAIRS)
    if not known.any():
        zero, none = np.zeros(len(full)), np.zeros(len(full), bool)
        return replace(fit, rotation_deg=zero, shift_east_m=zero, shift_north_m=zero), none, none
    covariance = np.where(known[:, None, None], fit.covariance, np.eye(3))
    best = np.zeros_like(full)
    best_cost = np.full(len(full), np.inf)
    turned, moved = np.zeros(len(full), bool), np.zeros(len(full), bool)
    for turn, shift in ((False, False), (True, False), (False, True), (True, True)):
        kept = np.array([turn, shift, shift])
        out = np.flatnonzero(~kept)
        cost = np.full(len(full), _TURN_COST * turn + _SHIFT_COST * shift)
        rest = full.copy()
        if len(out):
            pull = np.linalg.solve(covariance[:, out[:, None], out], full[:, out, None])
            cost += (full[:, None, out] @ pull)[:, 0, 0]
            rest -= (covariance[:, :, out] @ pull)[..., 0]
        small = (np.abs(rest[:, 0]) < _LEAST_TURN) & turn
        small |= (np.hypot(rest[:, 1], rest[:, 2]) < _LEAST_SHIFT) & shift
        better = (cost < best_cost) & known & ~small
        best_cost = np.where(better, cost, best_cost)
        best = np.where(better[:, None], np.where(kept, rest, 0.0), best)
        turned, moved = np.where(better, turn, turned), np.where(better, shift, moved)
    believed = replace(fit, rotation_deg=best[:, 0], shift_east_m=best[:, 1], shift_north_m=best[:, 2])
    return believed, turned, moved
