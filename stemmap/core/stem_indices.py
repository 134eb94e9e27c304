"""Indices of single stems by their nearest stems: uniform angle, mingling, differences in diameter, competition.

Every index here needs one inclusion rule for all its stems; which stems those are is the caller's choice.
Stems of one tree may share a position: they are then neighbours at distance zero, so hand over one position
for each tree where trees are meant.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from stemmap.core.nearest import FloatArray, Nearest, nearest, pairs_within

#: Neighbours of the uniform angle index and of mingling.
NEIGHBOURS = 4

#: The standard angle 360 / (4 + 1), less a rounding of directions so that exactly 72 degrees is not below it.
STANDARD_ANGLE = math.radians(72.0) - 1e-8


def uniform_angle(xy: ArrayLike) -> FloatArray:
    """Compute the uniform angle index of every stem of one pattern, without edge handling.

    The share of the four angles between successive of its four nearest stems, each the smaller of the two,
    that are below 72 degrees: 0 regular ... 1 clumped, about 0.5 random. A neighbour at the very same position
    has no direction; it is taken to stand north.

    Parameters
    ----------
    xy
        Positions, shape (n, 2), m.

    Returns
    -------
    ndarray
        One value a stem; NaN where it has fewer than four neighbours.

    References
    ----------
    Hui, G. & Gadow, K. v. (2002). Das Winkelmass. Allgemeine Forst- und Jagdzeitung 173, 173-177.

    Examples
    --------
    >>> uniform_angle([[0, 0], [0, 5], [6, 0], [0, -7], [-8, 0]])[0]
    np.float64(0.0)
    """
    position = np.asarray(xy, dtype=np.float64).reshape(-1, 2)
    return angles(position, nearest(position, np.zeros(len(position), dtype=np.int64), NEIGHBOURS))


def angles(position: FloatArray, near: Nearest) -> FloatArray:
    """Uniform angle index of stems whose four nearest are known; NaN where it has fewer.

    Parameters
    ----------
    position
        Shape (n, 2), m.
    near
        Their four nearest stems.
    """
    index = angle_index(position[near.index] - position[:, None, :])
    return np.where(near.index[:, -1] >= 0, index, np.nan)


def angle_index(away: FloatArray) -> FloatArray:
    """Share of the angles between successive neighbours, each the smaller of the two, that are below 72 degrees.

    Parameters
    ----------
    away
        East and north from each stem to its neighbours, shape (n, k, 2), m.
    """
    direction = np.sort(np.arctan2(away[..., 0], away[..., 1]), axis=1)
    gap = np.diff(direction, axis=1, append=direction[:, :1] + 2.0 * math.pi)
    small = np.minimum(gap, 2.0 * math.pi - gap) < STANDARD_ANGLE
    return np.asarray(small.mean(axis=1))


def mingling(near: Nearest, species: ArrayLike) -> FloatArray:
    """Share of each stem's nearest stems that are of another species: 0 among its own kind ... 1 among strangers.

    Parameters
    ----------
    near
        Nearest stems, usually four.
    species
        Codes, shape (..., n), so that many ways to deal them out go at once; negative: unknown.

    Returns
    -------
    ndarray
        Shape (..., n); NaN where a neighbour is missing or a species is unknown.

    References
    ----------
    Gadow, K. v. (1993). Zur Bestandesbeschreibung in der Forsteinrichtung. Forst und Holz 48, 602-606.
    """
    own, other, known = _around(near, species)
    told = known & (own >= 0) & (other >= 0).all(axis=-1)
    return np.asarray(np.where(told, (other != own[..., None]).mean(axis=-1), np.nan))


def weighted_mingling(near: Nearest, species: ArrayLike) -> FloatArray:
    """Mingling times the species among the stem and its k neighbours over k + 1: rich neighbourhoods count more.

    Parameters and results as in `mingling`.

    References
    ----------
    Hui, G., Zhao, X., Zhao, Z. & Gadow, K. v. (2011). Evaluating tree species spatial diversity based on neighborhood
    relationships. Forest Science 57, 292-300.
    """
    own, other, _ = _around(near, species)
    together = np.sort(np.concatenate([own[..., None], other], axis=-1), axis=-1)
    kinds = 1 + (np.diff(together, axis=-1) != 0).sum(axis=-1)
    return np.asarray(mingling(near, species) * kinds / together.shape[-1])


def differentiation(near: Nearest, dbh: ArrayLike) -> FloatArray:
    """Diameter differentiation: mean of 1 - thinner / thicker over each stem's nearest stems; 0 equal ... 1.

    Parameters
    ----------
    near
        Nearest stems; one gives T1, four give T4.
    dbh
        Shape (..., n), any unit; NaN: unknown.

    Returns
    -------
    ndarray
        Shape (..., n); NaN where a neighbour is missing or a dbh is unknown.

    References
    ----------
    Füldner, K. (1995). Strukturbeschreibung von Buchen-Edellaubholz-Mischwäldern. Göttingen.
    """
    own, other, known = _around(near, dbh)
    thicker = np.maximum(own[..., None], other)
    # Two of no thickness are equal.
    unlike = np.divide(thicker - np.minimum(own[..., None], other), thicker, out=thicker * 0.0, where=thicker > 0.0)
    return np.asarray(np.where(known, unlike.mean(axis=-1), np.nan))


def dominance(near: Nearest, dbh: ArrayLike) -> FloatArray:
    """Share of each stem's nearest stems that are thinner than the stem itself: 0 suppressed ... 1 dominant.

    The other convention in use, the share of those that are thicker, is one minus this where no two are equal; equal
    ones count as not thinner. Parameters and results as in `differentiation`.

    References
    ----------
    Hui, G., Albert, M. & Gadow, K. v. (1998). Das Umgebungsmaß als Parameter zur Nachbildung von Bestandesstrukturen.
    Forstwissenschaftliches Centralblatt 117, 258-266.
    """
    own, other, known = _around(near, dbh)
    measured = known & np.isfinite(own) & np.isfinite(other).all(axis=-1)
    return np.where(measured, (other < own[..., None]).mean(axis=-1), np.nan)


def competition(xy: ArrayLike, dbh: ArrayLike, *, radius: float, plot: ArrayLike | None = None) -> FloatArray:
    """Distance-weighted competition: sum of (dbh of the other / own dbh) / distance over stems within a radius, 1/m.

    As Hegyi's index without the metre he adds to each distance; edges are not handled.

    Parameters
    ----------
    xy
        Positions, shape (n, 2), m.
    dbh
        Shape (n,), any unit; NaN: unknown.
    radius
        How far competitors stand at most, m.
    plot
        Number of each stem's plot, shape (n,); None: all stems are of one plot.

    Returns
    -------
    ndarray
        Shape (n,); 0 without competitors, infinite where one shares the position, NaN where the stem has no position,
        its dbh is zero or a dbh is unknown.

    References
    ----------
    Hegyi, F. (1974). A simulation model for managing jack-pine stands. In: Fries, J. (ed.) Growth models for tree and
    stand simulation. Royal College of Forestry, Stockholm, 74-90.

    Examples
    --------
    >>> competition([[0, 0], [0, 3], [5, 0], [-2, 0], [0, 9]], [30, 25, 40, 18, 60], radius=6.0)[0].round(6)
    np.float64(0.844444)
    """
    position, size = np.asarray(xy, dtype=np.float64).reshape(-1, 2), np.asarray(dbh, dtype=np.float64)
    of_plot = np.zeros(len(position), dtype=np.int64) if plot is None else np.asarray(plot, dtype=np.int64)
    one, other, apart = pairs_within(position, of_plot, radius)
    near = np.divide(1.0, apart, out=np.full(len(apart), np.inf), where=apart > 0.0)
    ends, others = np.concatenate([one, other]), np.concatenate([other, one])
    around = np.bincount(ends, size[others] * np.concatenate([near, near]), minlength=len(size))
    compared = (size > 0.0) & np.isfinite(position).all(axis=1)
    return np.asarray(np.divide(around, size, out=np.full(len(size), np.nan), where=compared))


def _around(near: Nearest, marks: ArrayLike) -> tuple[NDArray[Any], NDArray[Any], NDArray[np.bool_]]:
    """Marks of the stems, of their neighbours, and which stems have all neighbours."""
    own = np.asarray(marks)
    return own, own[..., near.index], near.index[:, -1] >= 0
