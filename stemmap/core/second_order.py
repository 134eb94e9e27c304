"""Second-order structure of a stem pattern: K, L, pair correlation, cross-type K, mark correlation, pooled over plots.

All stems must share one inclusion rule. With pairs (i, j), i ≠ j, at distance d_ij, and edge weights w_ij,

    K(r) = A / (n (n - 1)) Σ w_ij 1(d_ij <= r)            L(r) = √(K(r) / π)
    g(r) = A / (2 π r n (n - 1)) Σ w_ij k_h(r - d_ij)     k_h: Epanechnikov's kernel of half-width h

isotropic weights (Ripley 1976, 10.2307/3212829): one over the share of the circle around i through j that lies inside;
translation weights (Ohser 1983, Statistics 14: 63-71): the window's area over what it shares with itself moved by
j - i.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from stemmap.core.mark_relations import kind_correlation, mark_correlation, mark_variogram
from stemmap.core.pairs import (
    EQUAL,
    Floats,
    Kernel,
    cumulated,
    edge_weights,
    inside_points,
    near_pairs,
    places,
    radii_of,
    ratio,
    weighted_pairs,
)
from stemmap.core.windows import Rectangle, Window
from stemmap.errors import InputError

#: Relations of marks are of the second order too.
__all__ = [
    "Correction",
    "cross_k",
    "farthest",
    "k_function",
    "kind_correlation",
    "l_function",
    "mark_correlation",
    "mark_variogram",
    "pair_correlation",
    "pooled_k",
    "usual_halfwidth",
]

Correction = Literal["isotropic", "translation", "border"]

#: Stoyan's rule of thumb: half-width of the kernel 0.15 / √(stems per m²) (Stoyan and Stoyan 1994).
_STOYAN = 0.15


def k_function(xy: ArrayLike, window: Window, r: ArrayLike, *, correction: Correction = "isotropic") -> Floats:
    """Ripley's K, m²; π r² under complete randomness.

    Parameters
    ----------
    xy
        Stems in the window, shape (n, 2), m.
    window
        Disc or rectangle.
    r
        Distances, shape (k,), m, in any order.
    correction
        "isotropic", "translation", or "border": only stems that lie at least r inside are centres.

    Returns
    -------
    Shape (k,); NaN where no value can be had: fewer than two stems, or, for "border", no stem that far inside.

    Raises
    ------
    InputError
        When a stem lies outside the window or has no position, or the correction is not known.
    """
    points, radii = inside_points(xy, window), radii_of(r)
    n = len(points)
    if n < 2:
        return np.full(radii.shape, np.nan)
    if correction == "border":
        return _border(points, window, radii)
    pairs = weighted_pairs(points, window, float(radii.max(initial=0.0)), correction=correction)
    return cumulated(pairs.distance, pairs.weight, radii) * (window.area / (n * (n - 1)))


def l_function(xy: ArrayLike, window: Window, r: ArrayLike, *, correction: Correction = "isotropic") -> Floats:
    """L = √(K / π), m: r under complete randomness; parameters and errors as in `k_function`."""
    return np.sqrt(k_function(xy, window, r, correction=correction) / math.pi)


def pair_correlation(
    xy: ArrayLike,
    window: Window,
    r: ArrayLike,
    *,
    correction: Literal["isotropic", "translation"] = "isotropic",
    halfwidth: float | None = None,
    divisor: Literal["r", "d"] = "d",
) -> Floats:
    """Pair correlation g; 1 under complete randomness.

    Parameters
    ----------
    halfwidth
        Of the Epanechnikov kernel, m; None: 0.15 / √(n / A).
    divisor
        Whether the ring's length is taken at r or at each pair's own distance (less bias near zero).

    Returns
    -------
    Shape (k,); NaN with fewer than two stems, and at r = 0 with divisor "r".

    Raises
    ------
    InputError
        As in `k_function`.
    """
    points, radii = inside_points(xy, window), radii_of(r)
    n = len(points)
    if n < 2:
        return np.full(radii.shape, np.nan)
    h = usual_halfwidth(n, window) if halfwidth is None else halfwidth
    pairs = weighted_pairs(points, window, float(radii.max(initial=0.0)) + h, correction=correction)
    kernel = Kernel(pairs.distance, h, radii)
    scale = window.area / (2.0 * math.pi * n * (n - 1))
    if divisor == "d":
        over = np.divide(pairs.weight, pairs.distance, out=np.zeros_like(pairs.weight), where=pairs.distance > 0.0)
        return kernel.sums(over) * scale
    return ratio(kernel.sums(pairs.weight) * scale, radii)


def cross_k(
    xy: ArrayLike,
    window: Window,
    r: ArrayLike,
    *,
    of: NDArray[np.bool_],
    to: NDArray[np.bool_],
    correction: Literal["isotropic", "translation"] = "isotropic",
) -> Floats:
    """Cross-type K, m²: stems of one kind around stems of another; π r² where the kinds are independent.

    K_ab(r) = A / (n_a n_b) Σ w_ij 1(d_ij <= r) over i of kind a, j of kind b.

    Parameters
    ----------
    of, to
        Which stems are centres and which are counted around them, shape (n,); no stem may be both.

    Raises
    ------
    InputError
        As in `k_function`, and when a stem is of both kinds.
    """
    points, radii = inside_points(xy, window), radii_of(r)
    if (of & to).any():
        raise InputError("A stem can be of one kind only in a cross-type K.")
    count = int(of.sum()) * int(to.sum())
    if not count:
        return np.full(radii.shape, np.nan)
    pairs = near_pairs(points, float(radii.max(initial=0.0)))
    total = np.zeros(len(pairs[2]))
    for centre, around in ((pairs[0], pairs[1]), (pairs[1], pairs[0])):
        rows = np.flatnonzero(of[centre] & to[around])
        total[rows] += edge_weights(points, window, (centre[rows], around[rows]), pairs[2][rows], correction)
    return cumulated(pairs[2], total, radii) * (window.area / count)


def pooled_k(
    patterns: Sequence[tuple[Floats, Window]], r: ArrayLike, *, correction: Correction = "isotropic"
) -> Floats:
    """K pooled over replicated plots by a ratio estimator: Σ A Σ w 1(d <= r) / Σ n (n - 1), m².

    With equal areas this weighs each plot's K by its number of ordered pairs (Baddeley et al. 1993, 10.2307/2986188);
    with unequal ones each plot's K is weighed so too. Plots with fewer than two stems say nothing.

    Parameters
    ----------
    patterns
        Stems of shape (n, 2) and window of each plot.

    Raises
    ------
    InputError
        As in `k_function`.
    """
    radii = radii_of(r)
    total, weight = np.zeros(radii.shape), np.zeros(radii.shape)
    for xy, window in patterns:
        n = len(xy)
        if n < 2:
            continue
        k = k_function(xy, window, radii, correction=correction)
        known = np.isfinite(k)
        total[known] += n * (n - 1) * k[known]
        weight[known] += n * (n - 1)
    return ratio(total, weight)


def usual_halfwidth(count: int, window: Window) -> float:
    """Half-width of the kernel of g, m: 0.15 / √(stems per m²)."""
    return _STOYAN / math.sqrt(count / window.area)


def farthest(window: Window) -> float:
    """Distance beyond which second-order values of a window say little, m.

    Common practice: a quarter of the shorter side of a rectangle; half the radius of a disc, which is its area over its
    perimeter, and so it is taken for cut discs.
    """
    if isinstance(window, Rectangle):
        return 0.25 * min(window.x1 - window.x0, window.y1 - window.y0)
    return window.area / window.perimeter


def _border(points: Floats, window: Window, radii: Floats) -> Floats:
    """K from stems that lie at least r inside: A / n × mean number of others within r of them."""
    inside = window.to_edge(points)
    one, other, distance = near_pairs(points, float(radii.max(initial=0.0)))
    bound = radii * (1.0 - EQUAL)
    order = np.argsort(radii, kind="stable")
    centres = len(points) - np.searchsorted(np.sort(inside), bound)
    near = np.zeros(len(radii) + 1)
    for centre in (one, other):
        # A pair counts from its own distance on, as long as its centre lies that far inside.
        first = places(radii[order] * (1.0 + EQUAL), distance)
        last = np.searchsorted(bound[order], inside, side="right")[centre]
        counted = first < last
        near += np.bincount(first[counted], minlength=len(near)) - np.bincount(last[counted], minlength=len(near))
    counts = np.empty(len(radii))
    counts[order] = np.cumsum(near)[:-1]
    return ratio(window.area * counts, (len(points) * centres).astype(np.float64))
