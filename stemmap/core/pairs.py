"""Pairs of stems with their edge weights, and sums over them: what all second-order values are made of."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from stemmap.core.windows import Window
from stemmap.errors import InputError

Floats = NDArray[np.float64]
Rows = NDArray[np.int64]

#: No pair weighs more than this: a stem in a corner must not outweigh a plot (common practice).
_HEAVIEST = 100.0
#: Distances count as equal within this share: records are rounded, sums of them are not.
EQUAL = 1e-9


@dataclass(frozen=True)
class Pairs:
    """Unordered pairs of stems that are near enough, nearest in no order.

    Attributes
    ----------
    one, other
        Rows of the two stems, shape (p,).
    distance
        Between them, m, shape (p,).
    weight
        Sum of the edge weights of both orders, shape (p,).
    """

    one: Rows
    other: Rows
    distance: Floats
    weight: Floats


def weighted_pairs(
    points: Floats, window: Window, reach: float, *, correction: Literal["isotropic", "translation"]
) -> Pairs:
    """Pairs of stems no farther apart than `reach`, with their edge weights.

    Raises
    ------
    InputError
        When the correction is not known.
    """
    one, other, distance = near_pairs(points, reach)
    if correction == "translation":
        weight = 2.0 * edge_weights(points, window, (one, other), distance, correction)
    else:
        weight = edge_weights(points, window, (one, other), distance, correction)
        weight += edge_weights(points, window, (other, one), distance, correction)
    return Pairs(one, other, distance, weight)


def edge_weights(points: Floats, window: Window, pairs: tuple[Rows, Rows], distance: Floats, correction: str) -> Floats:
    """Edge weight of each ordered pair, shape (p,), at most 100.

    Parameters
    ----------
    pairs, distance
        Rows of the centres and of the stems seen from them, and how far apart they are, shape (p,) each.

    Raises
    ------
    InputError
        When the correction is neither "isotropic" nor "translation".
    """
    centre, around = pairs
    if correction == "translation":
        move = points[around] - points[centre]
        shared = window.set_covariance(move[:, 0], move[:, 1])
        with np.errstate(divide="ignore"):
            return np.asarray(np.minimum(window.area / shared, _HEAVIEST))
    if correction != "isotropic":
        raise InputError(f"The edge correction {correction!r} is not known; say isotropic, translation or border.")
    weight = np.ones(len(distance))
    # Circles that lie wholly inside weigh 1; the costly ones are those that the edge cuts.
    cut = np.flatnonzero(distance > window.to_edge(points)[centre])
    share = window.arc_fraction(points[centre[cut]], distance[cut])
    with np.errstate(divide="ignore"):
        weight[cut] = np.minimum(1.0 / share, _HEAVIEST)
    return weight


def near_pairs(points: Floats, reach: float) -> tuple[Rows, Rows, Floats]:
    """Rows of unordered pairs no farther apart than `reach`, and their distances."""
    from scipy.spatial import cKDTree

    pairs = cKDTree(points).query_pairs(reach * (1.0 + 2.0 * EQUAL) + 1e-12, output_type="ndarray")
    one, other = np.ascontiguousarray(pairs[:, 0]), np.ascontiguousarray(pairs[:, 1])
    x, y = np.ascontiguousarray(points.T)
    return one, other, np.hypot(x[one] - x[other], y[one] - y[other])


def ratio(above: Floats, below: Floats) -> Floats:
    """The ratio; NaN where nothing stands below."""
    return np.asarray(np.divide(above, below, out=np.full(below.shape, np.nan), where=below > 0.0))


def inside_points(xy: ArrayLike, window: Window) -> Floats:
    """Stems as points, shape (n, 2), m.

    Raises
    ------
    InputError
        When one lies outside the window or has no position.
    """
    points = np.asarray(xy, dtype=np.float64).reshape(-1, 2)
    if not window.inside(points).all():
        raise InputError("Second-order values need all stems inside the window, each with a position.")
    return points


def radii_of(r: ArrayLike) -> Floats:
    """Distances as an array, shape (k,)."""
    return np.atleast_1d(np.asarray(r, dtype=np.float64))


def cumulated(distance: Floats, weight: Floats, radii: Floats) -> Floats:
    """Sum of the weights of all pairs no farther apart than each radius."""
    order = np.argsort(radii, kind="stable")
    place = places(radii[order] * (1.0 + EQUAL), distance)
    sums = np.cumsum(np.bincount(place, weight, minlength=len(radii) + 1)[: len(radii)])
    result = np.empty(len(radii))
    result[order] = sums
    return result


def places(edges: Floats, values: Floats) -> Rows:
    """Place of the first sorted edge that is not below each value; `numpy.searchsorted`, quick for many values."""
    cells = 4 * len(edges)
    width = float(edges[-1]) / cells if len(edges) else 0.0
    if width <= 0.0 or len(values) < 1000:
        return np.searchsorted(edges, values)
    # Each cell of a fine even grid knows where its search begins; what lies farther is reached step by step.
    start = np.append(np.searchsorted(edges, np.arange(cells) * width), len(edges))
    place = start[np.minimum((values / width).astype(np.int64), cells)]
    bounded = np.append(edges, np.inf)
    below = bounded[place] < values
    while below.any():
        place += below
        below = bounded[place] < values
    return place


class Kernel:
    """Sums over pairs of Epanechnikov's kernel 3 / (4h) (1 - ((r - d) / h)²), at many r."""

    def __init__(self, distance: Floats, halfwidth: float, radii: Floats) -> None:
        self._h, self._radii = halfwidth, radii
        self._order = np.argsort(distance, kind="stable")
        self._sorted = distance[self._order]
        self._first = np.searchsorted(self._sorted, radii - halfwidth)
        self._last = np.searchsorted(self._sorted, radii + halfwidth)

    def sums(self, values: Floats) -> Floats:
        """Kernel-weighted sum of the pairs' values at each r, shape (k,)."""
        sorted_values = values[self._order]
        result = np.zeros(len(self._radii))
        for place, (radius, first, last) in enumerate(zip(self._radii, self._first, self._last, strict=True)):
            u = (radius - self._sorted[first:last]) / self._h
            result[place] = 0.75 / self._h * float(np.dot(1.0 - u * u, sorted_values[first:last]))
        return result
