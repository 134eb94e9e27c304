"""Which doubts a crew should go back for first: the most change of the result for each minute of its time."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]


@dataclass(frozen=True)
class Ranking:
    """Doubts in the order in which they pay, shape (n,) each.

    Parameters
    ----------
    order
        Place of each doubt among those given, the first one first.
    plot
        Row of the plot, in that order.
    minutes
        Minutes that each adds in that order: the first one of a plot carries the walk.
    rate
        Worth per minute of what is decided together: of the walk with the doubts that pay for it, then of each
        doubt alone. It never rises along the order.
    """

    order: Integers
    plot: Integers
    minutes: Floats
    rate: Floats

    def within(self, minutes: float) -> Integers:
        """Places in the order that fit into so many minutes: the first ones, then what is left on the same plots."""
        first = _fitting(self.minutes, minutes)
        later = first + np.flatnonzero(np.isin(self.plot[first:], self.plot[:first]))
        more = _fitting(self.minutes[later], minutes - float(self.minutes[:first].sum()))
        return np.concatenate([np.arange(first), later[:more]])


def ranked(worth: ArrayLike, minutes: ArrayLike, plot: ArrayLike, *, walk_minutes: float) -> Ranking:
    """Rank doubts by what they bring for each minute, where the walk to a plot is paid once.

    On each plot the doubts are sorted by their own worth per minute. The walk belongs to as many of the first as make
    the worth per minute, walk included, largest; each further one stands for itself, and brings less per minute than
    those before it. Going through these pieces by their worth per minute is greedy, and for the minutes at which a
    piece ends no other choice brings more (the pieces of each plot fall off, so that it is a fractional knapsack,
    Dantzig 1957, from memory).

    Parameters
    ----------
    worth
        What is gained when the doubt is settled, at least 0, shape (n,).
    minutes
        Minutes on the plot for each doubt, above 0, shape (n,).
    plot
        Row of the plot, shape (n,).
    walk_minutes
        Minutes to reach a plot and to set up.

    Examples
    --------
    >>> made = ranked([1.0, 8.0, 3.0], [2.0, 2.0, 2.0], [0, 1, 1], walk_minutes=10.0)
    >>> made.order.tolist(), made.minutes.tolist()
    ([1, 2, 0], [12.0, 2.0, 12.0])
    """
    value, effort, of = np.asarray(worth, np.float64), np.asarray(minutes, np.float64), np.asarray(plot, np.int64)
    count = len(value)
    if not count:
        return Ranking(np.zeros(0, np.int64), np.zeros(0, np.int64), np.zeros(0), np.zeros(0))
    own = value / effort
    by = np.lexsort((-own, of))
    fresh = np.append(True, np.diff(of[by]) != 0)
    first = np.flatnonzero(fresh)
    group = np.cumsum(fresh) - 1
    start = first[group]
    gained, spent = _running(value[by], start), _running(effort[by], start) + walk_minutes
    together = gained / spent
    best = np.maximum.reduceat(together, first)
    # The last of those that reach the best: what adds just as much per minute comes along.
    reaches = np.where(together >= best[group], np.arange(count), -1)
    last = np.maximum.reduceat(reaches, first)
    rate = np.where(np.arange(count) <= last[group], best[group], own[by])
    order = np.lexsort((np.arange(count), group, -rate))
    adds = effort[by] + np.where(fresh, walk_minutes, 0.0)
    return Ranking(by[order], of[by[order]], adds[order], rate[order])


@dataclass(frozen=True)
class Drawing:
    """Stems drawn by chance.

    Parameters
    ----------
    places
        Their places among the candidates, in the order they were drawn, shape (n,).
    minutes
        Minutes that each adds, shape (n,).
    near
        How many of the last ones were drawn on visited plots only.
    """

    places: Integers
    minutes: Floats
    near: int


def drawn(
    plot: ArrayLike,
    visited: NDArray[np.bool_],
    *,
    count: int,
    minutes_per_stem: float,
    walk_minutes: float,
    limit: float,
    rng: np.random.Generator,
) -> Drawing:
    """Draw stems by chance from all candidates, as long as minutes are left.

    When the next one drawn needs more minutes than are left, the rest are drawn from candidates on visited plots.

    Parameters
    ----------
    plot
        Row of the plot of each candidate, shape (n,).
    visited
        Whether a plot is visited anyway, shape (plots,).
    count
        How many are wanted.
    minutes_per_stem, walk_minutes
        Of each stem, and of the first one on a plot that is not visited yet.
    limit
        Minutes that are left.
    rng
        Draws.
    """
    order = rng.permutation(len(np.asarray(plot)))
    row = np.asarray(plot, np.int64)[order]
    next_ = row[:count]
    fresh = np.zeros(len(next_), bool)
    fresh[np.unique(next_, return_index=True)[1]] = True
    adds = minutes_per_stem + np.where(fresh & ~visited[next_], walk_minutes, 0.0)
    first = _fitting(adds, limit)
    reached = visited.copy()
    reached[row[:first]] = True
    later = first + np.flatnonzero(reached[row[first:]])
    left = np.full(len(later), minutes_per_stem)
    more = min(_fitting(left, limit - float(adds[:first].sum())), count - first)
    chosen = np.concatenate([np.arange(first), later[:more]])
    return Drawing(order[chosen], np.append(adds[:first], left[:more]), more)


def _fitting(minutes: Floats, limit: float) -> int:
    """How many of the first fit into a limit, but for the last digit."""
    return int(np.searchsorted(np.cumsum(minutes), limit + 1e-9, side="right"))


def _running(values: Floats, start: Integers) -> Floats:
    """Running sum within groups, each of which begins at the place given for its members."""
    total = np.cumsum(values)
    before: Floats = total - (total - values)[start]
    return before
