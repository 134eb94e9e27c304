"""Distributions of nearest distances in small windows: from stem to stem (G), from place to stem (F), and their J.

    G(r) = share of stems whose nearest stem is within r          1 - exp(-λ π r²) at random
    F(r) = share of places whose nearest stem is within r         1 - exp(-λ π r²) at random
    J(r) = (1 - G(r)) / (1 - F(r))                                1 at random, below clumped, above regular

A distance d is known only where the edge, b away, is not nearer. Kaplan-Meier [1]_ takes the others as censored at b:
1 - Π (1 - ended at d / still at risk at d). Hanisch [2]_ takes only those with d <= b, each weighing 1 over the area
of the window less a margin of d, for so much ground lets such a distance be known.

References
----------
.. [1] Baddeley, A. & Gill, R. D. (1997). Kaplan-Meier estimators of distance distributions for spatial point processes.
   Annals of Statistics 25, 263-292.
.. [2] Hanisch, K.-H. (1984). Some remarks on estimators of the distribution function of nearest neighbour distance in
   stationary spatial point processes. Statistics 15, 409-412.
.. [3] van Lieshout, M. N. M. & Baddeley, A. J. (1996). A nonparametric measure of spatial interaction in point
   patterns. Statistica Neerlandica 50, 344-361.
"""

from __future__ import annotations

from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from stemmap.core.nearest import FloatArray, nearest
from stemmap.core.windows import CutDisc, Rectangle, Window
from stemmap.errors import InputError

Distribution = Literal["kaplan_meier", "hanisch", "none"]

#: Ground that a distance is seen from is at least this, for a stem in the very middle whose nearest is on the edge.
_LEAST_GROUND_M2 = 1e-12
#: Rows and columns of the places that stand for all places of a window.
PLACES = 128


def g_function(xy: ArrayLike, window: Window, r: ArrayLike, *, correction: Distribution = "kaplan_meier") -> FloatArray:
    """Distribution of the distance from a stem to its nearest stem.

    Parameters
    ----------
    xy
        Stems in the window, shape (n, 2), m.
    window
        The ground in which all stems were recorded.
    r
        Distances, shape (k,), m, in any order.
    correction
        "kaplan_meier", "hanisch", or "none": plain shares.

    Returns
    -------
    ndarray
        Shape (k,), 0 to 1; NaN with fewer than two stems, or where no distance is known.

    Raises
    ------
    InputError
        When a stem lies outside the window or has no position, or the correction is not known.
    """
    stems = _inside(xy, window)
    distance = nearest(stems, np.zeros(len(stems), dtype=np.int64), 1).distance[:, 0]
    return _distribution(distance, window.to_edge(stems), window, r, correction)


def f_function(xy: ArrayLike, window: Window, r: ArrayLike, *, correction: Distribution = "kaplan_meier") -> FloatArray:
    """Distribution of the distance from a place of the window to its nearest stem, over a fine grid of places.

    Parameters, result and errors as in `g_function`.
    """
    from scipy.spatial import cKDTree

    stems, places = _inside(xy, window), _places(window)
    if not len(stems):
        return np.full(np.shape(np.atleast_1d(r)), np.nan)
    distance = np.asarray(cKDTree(stems).query(places)[0])
    return _distribution(distance, window.to_edge(places), window, r, correction)


def j_function(xy: ArrayLike, window: Window, r: ArrayLike, *, correction: Distribution = "kaplan_meier") -> FloatArray:
    """Compute J [3]_; NaN where F is 1. Parameters and errors as in `g_function`."""
    above = 1.0 - g_function(xy, window, r, correction=correction)
    below = 1.0 - f_function(xy, window, r, correction=correction)
    return np.asarray(np.divide(above, below, out=np.full(above.shape, np.nan), where=below > 0.0))


def hanisch_weights(distance: FloatArray, margin: FloatArray, window: Window) -> FloatArray:
    """What each distance weighs in Hanisch's estimate [2]_, 1/m²; 0 where the edge is nearer.

    Sums of the weights up to r and of all of them may be added over plots before they are divided.

    Parameters
    ----------
    distance
        To the nearest stem, m, any shape.
    margin
        To the edge, m, the same shape.
    window
        The ground.
    """
    weight = np.zeros(distance.shape)
    seen = distance <= margin
    weight[seen] = 1.0 / np.maximum(window.eroded_area(distance[seen]), _LEAST_GROUND_M2)
    return weight


def _distribution(
    distance: FloatArray, margin: FloatArray, window: Window, r: ArrayLike, correction: Distribution
) -> FloatArray:
    """Share of distances up to each r, corrected for those that the edge hides."""
    radii = np.atleast_1d(np.asarray(r, dtype=np.float64))
    seen = distance <= margin
    if correction == "none":
        made = np.full(len(distance), 1.0 / max(len(distance), 1))
        at = distance
    elif correction == "hanisch":
        at = distance[seen]
        made = hanisch_weights(distance, margin, window)[seen]
        made = made / made.sum()
    elif correction == "kaplan_meier":
        until = np.minimum(distance, np.maximum(margin, 0.0))
        at, ended = np.unique(distance[seen], return_counts=True)
        left = np.cumprod(1.0 - ended / (len(until) - np.searchsorted(np.sort(until), at)))
        made = -np.diff(left, prepend=1.0)
    else:
        raise InputError(f"The edge correction {correction!r} is not known; say kaplan_meier, hanisch or none.")
    if not np.isfinite(at).all() or not len(at):
        return np.full(radii.shape, np.nan)
    order = np.argsort(at)
    shares = np.append(0.0, np.cumsum(made[order]))
    return shares[np.searchsorted(at[order], radii * (1.0 + 1e-9), side="right")]


def _places(window: Window) -> FloatArray:
    """Grid of places in the window."""
    if isinstance(window, Rectangle):
        low, high = np.array([window.x0, window.y0]), np.array([window.x1, window.y1])
    else:
        whole = window.disc if isinstance(window, CutDisc) else window
        low, high = np.asarray(whole.centre) - whole.radius, np.asarray(whole.centre) + whole.radius
    steps = (np.arange(PLACES) + 0.5) / PLACES
    x, y = np.meshgrid(*(low[:, None] + (high - low)[:, None] * steps))
    places = np.column_stack([x.ravel(), y.ravel()])
    return places[window.inside(places)]


def _inside(xy: ArrayLike, window: Window) -> FloatArray:
    stems = np.asarray(xy, dtype=np.float64).reshape(-1, 2)
    if not window.inside(stems).all():
        raise InputError("Distances need all stems inside the window, each with a position.")
    return stems
