"""What the last visit of a plot tells: how its map lies on this one, which stem is which, and how they grew."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.laying import (
    ENOUGH_PAIRS,
    believed,
    fitted_anew,
    matched_anew,
    may_be_paired_otherwise,
    merged,
    pairs_of,
    score_of,
    searched,
)
from stemmap.checks.evidence.readings import Otherwise, read_otherwise
from stemmap.core.revisit import Map, Matches, RigidFit, matches, placed, rigid_fit, squared_distance
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
#: Share of right pairs that lie far apart for their errors before the survey has told, and the pairs that is worth.
_LOOSE, _LOOSE_WORTH = 0.003, 300.0
#: Pairs without which they do not tell.
_ENOUGH_TO_TELL = 20
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
    fit = rigid_fit(*pairs_of(here, there, found), plots)
    calm = believed(fit)[0]
    unsettled = may_be_paired_otherwise(here, there, found, plots)
    unsettled |= (calm.rotation_deg != 0.0) | (calm.shift_east_m != 0.0)
    before, found = found, matched_anew(placed(here, calm), there, found, unsettled, growth)
    paired_anew = np.bincount(here.plot, found.last != before.last, minlength=plots) > 0
    fit = fitted_anew(here, there, found, fit, paired_anew)
    # A stem without a place cannot be found again.
    fewer = np.minimum(*(np.bincount(some.plot[np.isfinite(some.x_m)], minlength=plots) for some in (here, there)))
    doubtful = (score_of(found, here.plot, plots) < _LIES_WELL * fewer) & (fewer >= 4)
    if doubtful.any():
        fit = searched(here, there, fit, doubtful, growth)
        again = matched_anew(placed(here, fit), there, found, doubtful, growth)
        doubtful &= score_of(again, here.plot, plots) < _LIES_WELL * fewer
    wider = _wider_than_thought(squared_distance(*pairs_of(placed(here, calm), there, found)))
    wider = wider if learnt is None else learnt.wider
    otherwise = read_otherwise(case, this, (here, there), fit, doubtful=doubtful, growth=growth, wider=wider)
    free = merged(fit, otherwise.fit, otherwise.only_turned)
    free = replace(free, covariance=free.covariance * wider**2)
    fit, turned, moved = believed(free)
    laid = placed(here, fit)
    changed = (fit.rotation_deg != calm.rotation_deg) | (fit.shift_east_m != calm.shift_east_m)
    found = matched_anew(laid, there, found, changed, growth)
    pairs = np.bincount(here.plot, found.last >= 0, minlength=plots).astype(np.int64)
    unlike = (score_of(found, here.plot, plots) < _UNLIKE * fewer) & (fewer >= ENOUGH_PAIRS)
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
    return (gain > told) & (count >= ENOUGH_PAIRS) & (shrank > 0.0), shrank


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


def _growth(here: Map, there: Map, found: Matches) -> tuple[float, float]:
    """Median growth and its spread among pairs that lie well."""
    matched = np.flatnonzero(found.cost < 9.0)
    grown = here.dbh_cm[matched] - there.dbh_cm[found.last[matched]]
    grown = grown[np.isfinite(grown)]
    if len(grown) < 20:
        return _GROWTH_CM
    low, middle, high = np.quantile(grown, [0.16, 0.5, 0.84])
    return float(middle), float(max((high - low) / 2.0, 0.3))


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
