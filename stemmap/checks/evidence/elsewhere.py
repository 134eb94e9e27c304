"""Which other plot's stems a visit shows that does not show its own plot's."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.last_visit import map_of, revisit, stems_of_visits
from stemmap.core.nearest import threads
from stemmap.core.revisit import Map, matches, placed, rigid_fit, worth_of_pairs
from stemmap.survey.measured import Status
from stemmap.survey.registry import Case

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]

#: How near a stem of the other plot must stand (metres) and how far its growth may be from the usual one (spreads).
_NEAR_M, _GROWTH_SPREADS = 0.5, 3.0
#: So many stems of the doubtful plots may stand there at once.
_ABOUT = 8
#: Where more plots than this are unlike their last visit, the survey is wrong as a whole, not single plots.
_MOST = 1000
#: How often such a plot shows another one of the survey, and from which probability on that is told, with so many
#: stems found again, and this share of the smaller visit.
_PRIOR, _TOLD, _ENOUGH, _SHARE = 0.1, 0.95, 5, 0.5


@dataclass(frozen=True)
class Elsewhere:
    """Other plots that some visits show.

    Parameters
    ----------
    pair
        Places among the pairs of visits, shape (n,).
    other
        Row of the visit of another plot whose stems it shows, shape (n,).
    exchanged
        Whether that plot shows this plot's stems in turn, shape (n,).
    pairs, stems
        Stems found again there, and stems of the smaller visit.
    chance
        Probability.
    """

    pair: Integers
    other: Integers
    exchanged: NDArray[np.bool_]
    pairs: Integers
    stems: Integers
    chance: Floats


def elsewhere(case: Case) -> Elsewhere:
    """Hold the visits that are unlike their last one against all visits of other plots."""
    both = case.once(revisit)
    unlike = np.flatnonzero(both.unlike & ~both.otherwise.misread & ~both.exchanged)
    nothing = np.zeros(0, np.int64)
    none = Elsewhere(nothing, nothing, nothing.astype(bool), nothing, nothing, np.zeros(0))
    if not len(unlike) or len(unlike) > _MOST:
        return none
    rows, plot = stems_of_visits(case, both.visit[unlike])
    here = map_of(case, rows, plot)
    candidates = _candidates(case, both.visit[unlike])
    known, of_visit = stems_of_visits(case, candidates)
    standing = case.measured.status[known] <= Status.DEAD
    known, of_visit = known[standing], candidates[of_visit[standing]]
    there = map_of(case, known, of_visit)
    best, asked = _most_alike(here, there, both.growth_cm, _plot_of(case), own=both.visit[unlike])
    chosen = np.flatnonzero(best >= 0)
    if not len(chosen):
        return none
    # Each doubtful visit against its candidate, as if that were its last visit.
    place = np.full(len(unlike), -1, np.int64)
    place[chosen] = np.arange(len(chosen))
    left = np.flatnonzero(place[here.plot] >= 0)
    here = replace(here.take(left), plot=place[here.plot[left]])
    last_rows, last_plot = stems_of_visits(case, best[chosen])
    last = map_of(case, last_rows, last_plot)
    fit = rigid_fit(here.take(nothing), last.take(nothing), len(chosen))
    for _ in range(3):
        found = matches(placed(here, fit), last, growth_cm=both.growth_cm)
        pair = np.flatnonzero(found.last >= 0)
        fit = rigid_fit(here.take(pair), last.take(found.last[pair]), len(chosen))
    laid = placed(here, fit)
    found = matches(laid, last, growth_cm=both.growth_cm)
    pairs = np.bincount(here.plot, found.last >= 0, minlength=len(chosen)).astype(np.int64)
    sizes = [np.bincount(some.plot, np.isfinite(some.x_m), minlength=len(chosen)) for some in (here, last)]
    stems = np.minimum(*sizes).astype(np.int64)
    gain = worth_of_pairs(laid, last, found, len(chosen), growth_cm=both.growth_cm)
    odds = gain + np.log(_PRIOR / np.maximum(asked, 1))
    chance = 1.0 / (1.0 + np.exp(-np.clip(odds, -500.0, 500.0)))
    told = (chance >= _TOLD) & (pairs >= _ENOUGH) & (pairs >= _SHARE * stems)
    pair, other = unlike[chosen][told], best[chosen][told]
    plots = _plot_of(case)
    mine, theirs = plots[both.visit[pair]], plots[other]
    exchanged = np.isin(mine * len(plots) + theirs, theirs * len(plots) + mine)
    return Elsewhere(pair, other, exchanged, pairs[told], stems[told], chance[told])


def _plot_of(case: Case) -> Integers:
    """Number of the plot of each visit."""
    return np.cumsum(case.survey.visits.previous < 0) - 1


def _candidates(case: Case, doubtful: Integers) -> Integers:
    """Visits with stems that do not carry the name of a doubtful visit."""
    visits = case.survey.visits
    names = visits.visit.astype(str)
    return np.flatnonzero((visits.stem_count > 0) & ~np.isin(names, np.unique(names[doubtful])))


def _most_alike(
    here: Map, there: Map, growth_cm: tuple[float, float], plot_of: Integers, *, own: Integers
) -> tuple[Integers, int]:
    """For each doubtful visit the visit of another plot that has most stems where its own stand; -1: none has two.

    Also returns how many visits were asked.
    """
    from scipy.spatial import cKDTree

    scale = np.array([_NEAR_M, _NEAR_M, _GROWTH_SPREADS * growth_cm[1]])
    known = [np.flatnonzero(np.isfinite(some.x_m) & np.isfinite(some.dbh_cm)) for some in (here, there)]
    best = np.full(len(own), -1, np.int64)
    if not len(known[0]) or not len(known[1]):
        return best, 0
    here, there = here.take(known[0]), there.take(known[1])
    tree = cKDTree(np.column_stack([here.x_m, here.y_m, here.dbh_cm - growth_cm[0]]) / scale)
    points = np.column_stack([there.x_m, there.y_m, there.dbh_cm]) / scale
    _, near = tree.query(points, k=min(_ABOUT, tree.n), distance_upper_bound=1.0, workers=threads(len(points)))
    last, column = np.nonzero(near.reshape(len(points), -1) < tree.n)
    this = near.reshape(len(points), -1)[last, column]
    # A stem that has several about it counts once.
    visits = len(plot_of)
    key = np.unique(this.astype(np.int64) * visits + there.plot[last])
    this, visit = key // visits, key % visits
    other = plot_of[visit] != plot_of[own[here.plot[this]]]
    pair, votes = np.unique(here.plot[this[other]] * visits + visit[other], return_counts=True)
    order = np.argsort(votes, kind="stable")
    pair = pair[order[votes[order] >= 2]]
    best[pair // visits] = pair % visits
    return best, len(np.unique(there.plot))
