"""Many patterns of equally many stems in one window at once: what comparisons with chance are made of.

All distances of a pattern are looked at, which for sample plots is quicker than any search; only patterns of more
stems than sample plots have are searched one by one.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from stemmap.core.nearest import nearest as find_nearest
from stemmap.core.neighbours import NEIGHBOURS, angle_index
from stemmap.core.pairs import EQUAL, Pairs, edge_weights, places
from stemmap.core.second_order import k_function, pair_correlation
from stemmap.core.windows import Window

Floats = NDArray[np.float64]
Rows = NDArray[np.int64]

#: So many distances are looked at together; more do not fit the cache.
_TOGETHER = 400_000
#: Of more stems than this not all distances are looked at.
_MANY = 1_500


@dataclass(frozen=True)
class Replicates:
    """What patterns of n stems each show.

    Attributes
    ----------
    k, g
        K, m², and pair correlation at each distance, shape (patterns, k).
    nearest
        Distance of each stem to its nearest stem, m, shape (patterns, n).
    to_edge
        Distance of each stem to the edge of the window, m, shape (patterns, n).
    angle
        Uniform angle index of each stem whose fourth neighbour is nearer than the edge, NaN elsewhere, shape
        (patterns, n).
    """

    k: Floats
    g: Floats
    nearest: Floats
    to_edge: Floats
    angle: Floats


def replicates(points: Floats, window: Window, r: Floats, *, halfwidth: float) -> Replicates:
    """Tell K and g with isotropic correction, nearest distances and angles of many patterns.

    Parameters
    ----------
    points
        Stems in the window, at least two a pattern, shape (patterns, n, 2), m.
    r
        Distances, ascending, shape (k,), m.
    halfwidth
        Of the kernel of g, m; pairs weigh by their own distance, as `pair_correlation` does with divisor "d".
    """
    patterns, n = points.shape[:2]
    if n > _MANY:
        return _one_by_one(points, window, r, halfwidth)
    k, g = np.empty((patterns, len(r))), np.empty((patterns, len(r)))
    to_edge = window.to_edge(points.reshape(-1, 2)).reshape(patterns, n)
    nearest, angle = np.empty((patterns, n)), np.full((patterns, n), np.nan)
    step = max(1, _TOGETHER // (n * n))
    for first in range(0, patterns, step):
        here = slice(first, min(first + step, patterns))
        some = points[here]
        squares = _squares(some)
        fourth = min(NEIGHBOURS, n) - 1
        smallest = np.partition(squares, (0, fourth), axis=-1)
        nearest[here] = np.sqrt(smallest[..., 0])
        # With fewer than five stems the fourth neighbour is infinitely far.
        certain = np.sqrt(smallest[..., fourth]) < to_edge[here]
        if certain.any():
            angle[here][certain] = _angles(some, squares, certain)
        pairs = _near(some, window, squares, float(r[-1]) + halfwidth, "isotropic")
        k[here] = _cumulated(pairs, r, len(some))
        g[here] = _smoothed(pairs, r, halfwidth, len(some))
    scale = window.area / (n * (n - 1))
    return Replicates(k * scale, g * scale / (2.0 * math.pi), nearest, to_edge, angle)


def _one_by_one(points: Floats, window: Window, r: Floats, halfwidth: float) -> Replicates:
    """The same of patterns of very many stems."""
    patterns, n = points.shape[:2]
    flat, pattern = points.reshape(-1, 2), np.repeat(np.arange(patterns), n)
    to_edge = window.to_edge(flat)
    near = find_nearest(flat, pattern, NEIGHBOURS)
    certain = near.distance[:, -1] < to_edge
    angle = np.full(len(flat), np.nan)
    angle[certain] = angle_index(flat[near.index[certain]] - flat[certain][:, None, :])
    shape = (patterns, n)
    return Replicates(
        k=np.array([k_function(xy, window, r) for xy in points]),
        g=np.array([pair_correlation(xy, window, r, halfwidth=halfwidth) for xy in points]),
        nearest=near.distance[:, 0].reshape(shape),
        to_edge=to_edge.reshape(shape),
        angle=angle.reshape(shape),
    )


def weighted_pairs_of(points: Floats, window: Window, reach: float) -> Pairs:
    """Unordered pairs no farther apart than `reach` of many patterns, sorted by pattern, with isotropic weights.

    Parameters
    ----------
    points
        Shape (patterns, n, 2), m; rows of stems count through all patterns.
    """
    n, squares = points.shape[1], _squares(points)
    place = np.flatnonzero((squares <= (reach * (1.0 + 2.0 * EQUAL)) ** 2) & np.triu(np.ones((n, n), bool), 1))
    one = place // n
    other = one // n * n + place - one * n
    distance, flat = np.sqrt(squares.ravel()[place]), points.reshape(-1, 2)
    weight = edge_weights(flat, window, (one, other), distance, "isotropic")
    weight += edge_weights(flat, window, (other, one), distance, "isotropic")
    return Pairs(one, other, distance, weight)


def random_k(
    count: int,
    window: Window,
    r: Floats,
    simulations: int,
    *,
    rng: np.random.Generator,
    correction: Literal["isotropic", "translation"] = "isotropic",
) -> Floats:
    """K of patterns at random with a given number of stems in a window, m², shape (simulations, k).

    Parameters
    ----------
    count
        Stems of each pattern, at least 2.
    r
        Distances, ascending, shape (k,), m.
    """
    total = np.empty((simulations, len(r)))
    step = max(1, _TOGETHER // (count * count))
    for first in range(0, simulations, step):
        some = min(step, simulations - first)
        points = window.random(some * count, rng).reshape(some, count, 2)
        pairs = _near(points, window, _squares(points), float(r[-1]), correction)
        total[first : first + some] = _cumulated(pairs, r, some)
    return total * (window.area / (count * (count - 1)))


@dataclass(frozen=True)
class _Near:
    """Ordered pairs of stems of one pattern: the pattern, how far apart, and the edge weight."""

    pattern: Rows
    distance: Floats
    weight: Floats


def _squares(points: Floats) -> Floats:
    """Squared distances within each pattern, shape (patterns, n, n); infinite of a stem from itself."""
    x, y = np.ascontiguousarray(points[..., 0]), np.ascontiguousarray(points[..., 1])
    away = x[:, :, None] - x[:, None, :]
    squares = away * away
    np.subtract(y[:, :, None], y[:, None, :], out=away)
    squares += np.multiply(away, away, out=away)
    own = np.arange(points.shape[1])
    squares[:, own, own] = np.inf
    return squares


def _near(points: Floats, window: Window, squares: Floats, reach: float, correction: str) -> _Near:
    """Pairs no farther apart than `reach`."""
    n = points.shape[1]
    place = np.flatnonzero(squares.ravel() <= (reach * (1.0 + 2.0 * EQUAL)) ** 2)
    centre = place // n
    pattern = centre // n
    distance = np.sqrt(squares.ravel()[place])
    around = pattern * n + place - centre * n
    return _Near(pattern, distance, edge_weights(points.reshape(-1, 2), window, (centre, around), distance, correction))


def _cumulated(pairs: _Near, r: Floats, patterns: int) -> Floats:
    """Sum of the weights of pairs up to each distance, shape (patterns, k)."""
    width = len(r) + 1
    place = pairs.pattern * width + places(r * (1.0 + EQUAL), pairs.distance)
    binned = np.bincount(place, pairs.weight, minlength=patterns * width).reshape(patterns, width)
    return np.cumsum(binned[:, :-1], axis=1)


def _smoothed(pairs: _Near, r: Floats, halfwidth: float, patterns: int) -> Floats:
    """Sum of Epanechnikov's kernel over pairs, each divided by its distance, shape (patterns, k).

    The kernel is a square in d, 3 / (4h) (1 - r²/h² + 2 r d/h² - d²/h²): sums of 1, d and d² between r - h and r + h.
    """
    edges = np.sort(np.concatenate([r - halfwidth, r + halfwidth]))
    low, high = np.searchsorted(edges, r - halfwidth), np.searchsorted(edges, r + halfwidth)
    width = len(edges) + 1
    place = pairs.pattern * width + places(edges, pairs.distance)
    value = np.divide(pairs.weight, pairs.distance, out=np.zeros(len(place)), where=pairs.distance > 0.0)
    sums = []
    for _ in range(3):
        binned = np.bincount(place, value, minlength=patterns * width).reshape(patterns, width)
        total = np.cumsum(binned, axis=1)
        sums.append(total[:, high] - total[:, low])
        value = value * pairs.distance
    share = 1.0 / halfwidth**2
    inner = (1.0 - share * r * r) * sums[0] + 2.0 * share * r * sums[1] - share * sums[2]
    return np.asarray(np.maximum(0.75 / halfwidth * inner, 0.0))


def _angles(points: Floats, squares: Floats, chosen: NDArray[np.bool_]) -> Floats:
    """Uniform angle index of the chosen stems, shape (chosen,)."""
    pattern, stem = np.nonzero(chosen)
    others = np.argpartition(squares[pattern, stem], NEIGHBOURS - 1, axis=-1)[:, :NEIGHBOURS]
    return angle_index(points[pattern[:, None], others] - points[pattern, stem][:, None, :])
