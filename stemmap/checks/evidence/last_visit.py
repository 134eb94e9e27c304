"""What the last visit of a plot tells: how its map lies on this one, which stem is which, and how they grew."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.readings import Otherwise, read_otherwise
from stemmap.core.revisit import Map, Matches, RigidFit, matches, placed, rigid_fit, search, squared_distance
from stemmap.survey.measured import Status
from stemmap.survey.registry import Case

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]

#: Growth of dbh that is thought of before the survey has told, and its standard deviation, centimetres.
_GROWTH_CM = (1.5, 3.0)
#: A plot of whose stems so many find their place needs no search for a turned compass or a moved centre.
_LIES_WELL = 0.8
#: Visits that share less than this share of their stems say nothing of one another.
_UNLIKE = 0.45
#: What a turn (one number) and a shift (two) must explain to be believed, in units of chi-square.
_TURN_COST, _SHIFT_COST = 12.0, 16.0
#: Turns (degrees) and shifts (metres) too small to speak of.
_LEAST_TURN, _LEAST_SHIFT = 1.5, 0.2
#: Share of right pairs that lie far apart for their errors before the survey has told, and the pairs that is worth.
_LOOSE, _LOOSE_WORTH = 0.003, 300.0
#: Pairs without which they do not tell.
_ENOUGH_TO_TELL = 20
#: Pairs without which a plot says nothing as a whole.
_ENOUGH_PAIRS = 5
#: How often two visits stand under each other's date, from which probability on that is told, and the squared surplus
#: of growth beyond which a pair says no more.
_EXCHANGED, _EXCHANGED_TOLD, _ODD_GROWTH = 1e-3, 0.95, 12.0


@dataclass(frozen=True)
class Revisit:
    """Two visits of each plot that has two, or of each two that follow one another.

    Parameters
    ----------
    visit
        Row of this visit in the survey, by pair of visits; shape (p,).
    this, last
        Rows of the stems of this and of the last visit; shape (n,) and (m,).
    here, there
        Both maps, this visit's already laid on the last one.
    fit
        Turn and shift of each pair of visits, without those that are not believed.
    free
        The same, whether believed or not.
    turned, moved
        Whether a turn, a shift is believed; shape (p,).
    found
        Which of `this` is which of `last`.
    unlike
        Pairs of visits that do not show the same stems, however turned or moved; their stems are left out; shape (p,).
    exchanged
        Pairs of visits whose stems shrank as others grew: likelier one under the other's date; they are `unlike`;
        shape (p,).
    shrank_cm
        Middle shrinkage of the stems that both visits have; NaN where there are none; shape (p,).
    otherwise
        How the plots that lie badly on their last visit may be read; those that are read otherwise are `unlike`.
    pairs, fewer
        Stems found again, and stems of the visit that has fewer of them; shape (p,).
    added
        Whether a stem got its number on this visit though the plot keeps the numbers of the last one; shape (n,).
    copied
        Whether a stem carries azimuth and distance of the last visit to the last digit, as most of its plot do;
        shape (n,).
    growth_cm
        Growth of dbh and its standard deviation as this survey has them.
    wider, loose
        By which factor pairs lie further apart than the errors of the settings say (1 when they do not), and the
        share that lies three times as far apart again.
    """

    visit: Integers
    this: Integers
    last: Integers
    here: Map
    there: Map
    fit: RigidFit
    free: RigidFit
    turned: NDArray[np.bool_]
    moved: NDArray[np.bool_]
    found: Matches
    unlike: NDArray[np.bool_]
    exchanged: NDArray[np.bool_]
    shrank_cm: Floats
    otherwise: Otherwise
    pairs: Integers
    fewer: Integers
    added: NDArray[np.bool_]
    copied: NDArray[np.bool_]
    growth_cm: tuple[float, float]
    wider: float
    loose: float

    def how_read(self, chosen: Integers) -> dict[str, NDArray[Any]]:
        """Evidence for the likeliest readings of some pairs of visits."""
        told = self.otherwise
        return {
            "pairs": told.pairs[chosen],
            "pairs_as_recorded": self.pairs[chosen],
            "log_likelihood_gain": told.gain[chosen],
            "probability": told.chance[chosen],
        }


def revisit(case: Case) -> Revisit:
    """Lay every visit on the one before it and match the stems of both."""
    visits = case.survey.visits
    visit = np.flatnonzero((visits.previous >= 0) & (visits.stem_count > 0))
    visit = visit[visits.stem_count[visits.previous[visit]] > 0]
    this, here_plot = stems_of_visits(case, visit)
    last, there_plot = stems_of_visits(case, visits.previous[visit])
    standing = case.measured.status[last] <= Status.DEAD
    last, there_plot = last[standing], there_plot[standing]
    here, there = map_of(case, this, here_plot), map_of(case, last, there_plot)
    plots = len(visit)
    found = matches(here, there, growth_cm=_GROWTH_CM)
    learnt = case.whole.once(revisit) if case.whole is not None else None
    growth = _growth(here, there, found) if learnt is None else learnt.growth_cm
    fit = rigid_fit(*_pairs(here, there, found), plots)
    calm = _believed(fit)[0]
    unsettled = _may_be_paired_otherwise(here, there, found, plots)
    unsettled |= (calm.rotation_deg != 0.0) | (calm.shift_east_m != 0.0)
    before, found = found, _matched_anew(placed(here, calm), there, found, unsettled, growth)
    paired_anew = np.bincount(here.plot, found.last != before.last, minlength=plots) > 0
    fit = _fitted_anew(here, there, found, fit, paired_anew)
    # A stem without a place cannot be found again.
    fewer = np.minimum(*(np.bincount(some.plot[np.isfinite(some.x_m)], minlength=plots) for some in (here, there)))
    doubtful = (_score(found, here.plot, plots) < _LIES_WELL * fewer) & (fewer >= 4)
    if doubtful.any():
        fit = _searched(here, there, fit, doubtful, growth)
        again = _matched_anew(placed(here, fit), there, found, doubtful, growth)
        doubtful &= _score(again, here.plot, plots) < _LIES_WELL * fewer
    wider = _wider_than_thought(squared_distance(*_pairs(placed(here, calm), there, found)))
    wider = wider if learnt is None else learnt.wider
    otherwise = read_otherwise(case, this, (here, there), fit, doubtful=doubtful, growth=growth, wider=wider)
    free = _merged(fit, otherwise.fit, otherwise.only_turned)
    free = replace(free, covariance=free.covariance * wider**2)
    fit, turned, moved = _believed(free)
    laid = placed(here, fit)
    changed = (fit.rotation_deg != calm.rotation_deg) | (fit.shift_east_m != calm.shift_east_m)
    found = _matched_anew(laid, there, found, changed, growth)
    pairs = np.bincount(here.plot, found.last >= 0, minlength=plots).astype(np.int64)
    unlike = (_score(found, here.plot, plots) < _UNLIKE * fewer) & (fewer >= _ENOUGH_PAIRS)
    exchanged, shrank = _exchanged(here, there, found, plots, growth)
    unlike |= otherwise.misread | exchanged
    turned, moved = turned & ~unlike, moved & ~unlike
    left, right = np.flatnonzero(~unlike[here.plot]), np.flatnonzero(~unlike[there.plot])
    place = np.full(len(last) + 1, -1, np.int64)
    place[right] = np.arange(len(right))
    this, last, laid, there = this[left], last[right], laid.take(left), there.take(right)
    found = Matches(place[found.last[left]], found.cost[left])
    copied = _copied(case, this, last, found, laid.plot)
    added = _added(case, this, last, found, plot=laid.plot, last_plot=there.plot)
    wider, loose = (learnt.wider, learnt.loose) if learnt else _spread(laid, there, found, copied)
    return Revisit(
        visit,
        this,
        last,
        laid,
        there,
        fit,
        free,
        turned,
        moved,
        found,
        unlike,
        exchanged,
        shrank,
        otherwise,
        pairs,
        fewer,
        added,
        copied,
        growth,
        wider,
        loose,
    )


def _exchanged(
    here: Map, there: Map, found: Matches, plots: int, growth: tuple[float, float]
) -> tuple[NDArray[np.bool_], Floats]:
    """Plots whose stems shrank as those of the survey grew, and by how much the middle one of each plot shrank.

    Each pair is held against the usual growth forth and back, normally distributed about it; a survey that shrinks
    as a whole is held against what is thought of growth before it has told.
    """
    usual, spread = growth if growth[0] > 0.0 else _GROWTH_CM
    pair = np.flatnonzero(found.last >= 0)
    grown = here.dbh_cm[pair] - there.dbh_cm[found.last[pair]]
    pair, grown = pair[np.isfinite(grown)], grown[np.isfinite(grown)]
    plot = here.plot[pair]
    forth, back = (0.5 * np.minimum(((way * grown - usual) / spread) ** 2, _ODD_GROWTH) for way in (1.0, -1.0))
    gain = np.bincount(plot, forth - back, minlength=plots)
    count = np.bincount(plot, minlength=plots)
    told = np.log(_EXCHANGED_TOLD / (1.0 - _EXCHANGED_TOLD)) - np.log(_EXCHANGED)
    shrank = np.full(plots, np.nan)
    order = np.lexsort((grown, plot))
    some = np.flatnonzero(count)
    shrank[some] = -grown[order][(np.cumsum(count) - count + count // 2)[some]]
    return (gain > told) & (count >= _ENOUGH_PAIRS) & (shrank > 0.0), shrank


def _spread(here: Map, there: Map, found: Matches, copied: NDArray[np.bool_]) -> tuple[float, float]:
    """How much wider than thought pairs lie apart, and how many do so by far."""
    matched = np.flatnonzero((found.last >= 0) & ~copied)
    apart = squared_distance(here.take(matched), there.take(found.last[matched]))
    if len(apart) < _ENOUGH_TO_TELL:
        return 1.0, _LOOSE
    wider = _wider_than_thought(apart)
    far = np.count_nonzero(apart > 12.0 * wider**2)
    return wider, float((far + _LOOSE * _LOOSE_WORTH) / (len(apart) + _LOOSE_WORTH))


def _wider_than_thought(apart: Floats) -> float:
    """Factor by which errors are larger than the settings say, from squared distances of pairs in units of them."""
    # The median of a chi-square of two degrees of freedom is 2 ln 2.
    return max(1.0, float(np.sqrt(np.median(apart) / (2.0 * np.log(2.0))))) if len(apart) >= _ENOUGH_TO_TELL else 1.0


def stems_of_visits(case: Case, visit: NDArray[np.integer]) -> tuple[Integers, Integers]:
    """Rows of all stems of some visits, and for each the place of its visit among them."""
    first, count = case.survey.visits.first_stem[visit], case.survey.visits.stem_count[visit]
    plot = np.repeat(np.arange(len(visit)), count)
    begin = np.cumsum(count) - count
    return first[plot] + np.arange(len(plot)) - begin[plot], plot


def map_of(case: Case, rows: Integers, plot: Integers) -> Map:
    """Some stems as they were measured."""
    measured, errors = case.measured, case.measured.errors
    return Map(
        measured.x_m[rows],
        measured.y_m[rows],
        errors.var_east[rows],
        errors.var_north[rows],
        errors.cov_east_north[rows],
        measured.dbh_cm[rows],
        plot,
    )


def _pairs(here: Map, there: Map, found: Matches) -> tuple[Map, Map]:
    matched = np.flatnonzero(found.last >= 0)
    return here.take(matched), there.take(found.last[matched])


def _matched_anew(
    here: Map, there: Map, found: Matches, plots: NDArray[np.bool_], growth: tuple[float, float]
) -> Matches:
    """The matches of some plots made anew, all others kept."""
    left, right = np.flatnonzero(plots[here.plot]), np.flatnonzero(plots[there.plot])
    some = matches(here.take(left), there.take(right), growth_cm=growth)
    last, cost = found.last.copy(), found.cost.copy()
    last[left] = np.where(some.last >= 0, np.append(right, -1)[some.last], -1)
    cost[left] = some.cost
    return Matches(last, cost)


def _may_be_paired_otherwise(here: Map, there: Map, found: Matches, plots: int) -> NDArray[np.bool_]:
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


def _fitted_anew(here: Map, there: Map, found: Matches, fit: RigidFit, plots: NDArray[np.bool_]) -> RigidFit:
    """The fits of some plots made anew from their pairs, all others kept."""
    this, last = _pairs(here, there, found)
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


def _growth(here: Map, there: Map, found: Matches) -> tuple[float, float]:
    """Median growth and its spread among pairs that lie well."""
    matched = np.flatnonzero(found.cost < 9.0)
    grown = here.dbh_cm[matched] - there.dbh_cm[found.last[matched]]
    grown = grown[np.isfinite(grown)]
    if len(grown) < 20:
        return _GROWTH_CM
    low, middle, high = np.quantile(grown, [0.16, 0.5, 0.84])
    return float(middle), float(max((high - low) / 2.0, 0.3))


def _score(found: Matches, plot: Integers, plots: int) -> Floats:
    """Number of stems that find their place, closer ones counting more."""
    return np.bincount(plot, np.where(found.last >= 0, 1.0 - found.cost / 50.0, 0.0), minlength=plots).astype(float)


def _searched(
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
            tried = rigid_fit(*_pairs(this, last, found), len(some))
        found = matches(placed(this, tried), last, growth_cm=growth)
        score = _score(found, this.plot, len(some)) - 1.0 * (number > 0)
        better = score > best_score
        best_score = np.where(better, score, best_score)
        best = _merged(best, tried, better)
    return _filled_in(fit, best, doubtful)


def _merged(first: RigidFit, second: RigidFit, where: NDArray[np.bool_]) -> RigidFit:
    names = RigidFit.__dataclass_fields__
    taken = {}
    for name in names:
        a, b = getattr(first, name), getattr(second, name)
        taken[name] = np.where(where.reshape(-1, *[1] * (a.ndim - 1)), b, a)
    return RigidFit(**taken)


def _believed(fit: RigidFit) -> tuple[RigidFit, NDArray[np.bool_], NDArray[np.bool_]]:
    """The fit with only the turn, only the shift, both or neither, whichever explains most for its cost.

    With the covariance C of the full fit p, leaving out some of p costs p_out' (C_out,out)^-1 p_out; the rest
    becomes p_in - C_in,out (C_out,out)^-1 p_out.
    """
    full = np.stack([fit.rotation_deg, fit.shift_east_m, fit.shift_north_m], axis=1)
    known = np.isfinite(fit.covariance[:, 0, 0]) & (fit.pairs >= _ENOUGH_PAIRS)
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


def _added(
    case: Case, this: Integers, last: Integers, found: Matches, *, plot: Integers, last_plot: Integers
) -> NDArray[np.bool_]:
    """Stems numbered anew on plots most of whose stems keep their number: such numbers follow no order of the plot."""
    code = case.survey.stems.number_code
    width = int(code.max(initial=0)) + 2
    known = np.isin(plot * width + code[this] + 1, last_plot * width + code[last] + 1)
    matched = found.last >= 0
    same = matched.copy()
    same[matched] = code[this[matched]] == code[last[found.last[matched]]]
    size = int(plot.max(initial=-1)) + 1
    share = np.bincount(plot, same, minlength=size) / np.maximum(np.bincount(plot, matched, minlength=size), 1)
    return ~known & (share > 0.6)[plot]


def _copied(case: Case, this: Integers, last: Integers, found: Matches, plot: Integers) -> NDArray[np.bool_]:
    """Stems with azimuth and distance of the last visit to the last digit, on plots where that is no chance."""
    matched = found.last >= 0
    other = last[np.where(matched, found.last, 0)] if len(last) else np.zeros(len(this), np.int64)
    same = matched.copy()
    for name in ("azimuth", "distance_m"):
        typed = case.survey.stems.numbers(name)
        same &= typed[this] == typed[other]
    size = int(plot.max(initial=-1)) + 1
    share = np.bincount(plot, same, minlength=size) / np.maximum(np.bincount(plot, matched, minlength=size), 1)
    return same & (share[plot] > 0.3) & (np.bincount(plot, same, minlength=size)[plot] >= 4)
