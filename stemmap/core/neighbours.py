"""Nearest stems and what they tell of a plot: Clark-Evans, uniform angle, mingling; all plots at once.

Every index here needs one inclusion rule for all its stems; which stems those are is the caller's choice.
Stems of one tree may share a position: they are then neighbours at distance zero, so hand over one position
for each tree where trees are meant.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from stemmap.core.windows import Disc, Rectangle
from stemmap.errors import InputError

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]
Correction = Literal["none", "donnelly", "cdf"]
Edge = Literal["none", "nearest"]

#: Below this number of stems a Clark-Evans index says little: results carry ``too_few``.
FEWEST_STEMS = 8

#: Neighbours of the uniform angle index and of mingling.
NEIGHBOURS = 4

#: The standard angle 360 / (4 + 1), less a rounding of directions so that exactly 72 degrees is not below it.
STANDARD_ANGLE = math.radians(72.0) - 1e-8

#: Steps in which the cumulative-distribution form counts distances.
CDF_STEPS = 512

_FEW_POINTS = 5_000


@dataclass(frozen=True)
class Nearest:
    """The nearest stems of every stem within its plot.

    Attributes
    ----------
    index
        Rows of the neighbours, nearest first, shape (n, k); -1 where the plot has no further stem.
    distance
        Distances to them, m, shape (n, k); infinite where the plot has no further stem.
    """

    index: IntArray
    distance: FloatArray


@dataclass(frozen=True)
class ClarkEvans:
    """Clark-Evans index of one pattern.

    Attributes
    ----------
    r
        Observed over expected mean distance to the nearest stem: 1 random, below clumped, above regular.
    z, p
        Standard normal deviate and two-sided probability under randomness; NaN for "cdf": no such test.
    n
        Number of stems with a position.
    expected
        Mean distance expected under randomness, m.
    correction
        Edge correction that was used.
    mean_nearest
        Observed mean distance, m (for "cdf" the one of the corrected distribution).
    too_few
        Whether there are fewer than eight stems.
    """

    r: float
    z: float
    p: float
    n: int
    expected: float
    correction: Correction
    mean_nearest: float
    too_few: bool


@dataclass(frozen=True)
class ClarkEvansByPlot:
    """Clark-Evans indices of many plots: the columns of `ClarkEvans`, one value a plot."""

    r: FloatArray
    z: FloatArray
    p: FloatArray
    n: IntArray
    expected: FloatArray
    correction: Correction
    too_few: NDArray[np.bool_]


@dataclass(frozen=True)
class Neighbourhoods:
    """What the nearest stems tell of each plot.

    Attributes
    ----------
    stems
        Number of stems with a position, one value a plot.
    mean_nearest
        Mean distance to the nearest stem, m; NaN with fewer than two stems.
    uniform_angle
        Mean uniform angle index over the stems that count; NaN where none does.
    mingling
        Mean mingling over the stems that count and whose species, and whose neighbours' species, are known.
    counted
        Number of stems that count for `uniform_angle`.
    counted_mingling
        Number of stems that count for `mingling`.
    edge
        Edge handling that was used.
    """

    stems: IntArray
    mean_nearest: FloatArray
    uniform_angle: FloatArray
    mingling: FloatArray
    counted: IntArray
    counted_mingling: IntArray
    edge: Edge


def threads(points: int) -> int:
    """Threads in which so many points ask a k-d tree: for few points starting them takes longer than the answers."""
    return -1 if points > _FEW_POINTS else 1


def nearest(xy: ArrayLike, plot: ArrayLike, k: int) -> Nearest:
    """Find the k nearest stems of every stem within its plot.

    One k-d tree serves all plots: they are moved apart along a third axis by more than any of them is wide.
    Of stems at equal distances any may come first.

    Parameters
    ----------
    xy
        Positions, shape (n, 2), m. A stem without a position has no neighbours and is nobody's neighbour.
    plot
        Number of each stem's plot, shape (n,), in any order.
    k
        How many neighbours.

    Examples
    --------
    >>> nearest([[0, 0], [3, 0], [0, 8]], [5, 5, 6], 1).distance
    array([[ 3.],
           [ 3.],
           [inf]])
    """
    from scipy.spatial import cKDTree

    position = np.asarray(xy, dtype=np.float64).reshape(-1, 2)
    index = np.full((len(position), k), -1, dtype=np.int64)
    distance = np.full((len(position), k), np.inf)
    rows = np.flatnonzero(np.isfinite(position).all(axis=1))
    if not len(rows):
        return Nearest(index, distance)
    space, widest = _plots_apart(position[rows], np.asarray(plot)[rows])
    # Plots of a few dozen stems: an unbalanced tree is built faster and answers as fast.
    tree = cKDTree(space, balanced_tree=False, compact_nodes=False)
    reached, found = tree.query(
        space, k=np.arange(1, k + 2), distance_upper_bound=1.5 * widest, workers=threads(len(space))
    )
    others, distance[rows] = _without_self(np.asarray(found, dtype=np.int64), np.asarray(reached))
    index[rows] = np.append(rows, -1)[others]
    return Nearest(index, distance)


def _plots_apart(position: FloatArray, plot: NDArray[np.int64]) -> tuple[FloatArray, float]:
    """Give positions in three dimensions, each plot on its own level, and the widest extent of any plot."""
    _, first, level = np.unique(plot, return_index=True, return_inverse=True)
    local = position - position[first][level]
    widest = max(2.0 * float(np.hypot(*np.abs(local).max(axis=0))), 1.0)
    return np.column_stack([local, 2.0 * widest * level]), widest


def _without_self(found: IntArray, distance: FloatArray) -> tuple[IntArray, FloatArray]:
    """Take each stem out of its own k + 1 nearest; coincident stems may come before it or crowd it out."""
    own = found == np.arange(len(found))[:, None]
    if own[:, 0].all():
        return found[:, 1:], distance[:, 1:]
    own[~own.any(axis=1), -1] = True
    shape = (len(found), found.shape[1] - 1)
    return found[~own].reshape(shape), distance[~own].reshape(shape)


def clark_evans(xy: ArrayLike, window: Disc | Rectangle, *, correction: Correction = "none") -> ClarkEvans:
    """Compute the Clark-Evans aggregation index of one pattern.

    "none" is the index as published: expected distance 1 / (2 √λ), standard error √((4 - π) / (4 π n λ)) with
    λ = n / A [1]_; the edge makes it too large.

    "donnelly" expects 0.5 √(A/n) + (0.0514 + 0.041/√n) P/n with variance 0.0703 A/n² + 0.037 P √(A/n⁵) [2]_,
    P the length of the edge, here in discs too. 0.041 is the constant as printed; general statistics
    libraries use 0.0412.

    "cdf" puts in place of the observed mean that of the Kaplan-Meier estimate of the distribution of nearest
    distances, where the edge censors a stem nearer to it than to its neighbour [3]_. As in general statistics
    libraries it is counted in 512 steps up to min(√(ln 10⁵ / (π λ)), half the diagonal of the frame), each
    distance at the lower end of its step.

    Parameters
    ----------
    xy
        Positions, shape (n, 2), m; missing positions are left out.
    window
        The ground in which all stems were recorded.
    correction
        Edge correction.

    Raises
    ------
    InputError
        When the correction is none of the three.

    References
    ----------
    .. [1] Clark, P. J. & Evans, F. C. (1954). Distance to nearest neighbor as a measure of spatial
       relationships in populations. Ecology 35, 445-453.
    .. [2] Donnelly, K. P. (1978). Simulations to determine the variance and edge effect of total
       nearest-neighbour distance. In: Hodder, I. (ed.) Simulation studies in archaeology. Cambridge
       University Press, 91-95.
    .. [3] Baddeley, A. & Gill, R. D. (1997). Kaplan-Meier estimators of distance distributions for spatial
       point processes. Annals of Statistics 25, 263-292.

    Examples
    --------
    >>> four = clark_evans([[0, 0], [3, 0], [0, 8], [-6, -6]], Disc((0.0, 0.0), 10.0), correction="none")
    >>> round(four.r, 6), four.too_few
    (1.268596, True)
    >>> clark_evans([], Disc((0.0, 0.0), 10.0)).r
    nan
    """
    position = np.asarray(xy, dtype=np.float64).reshape(-1, 2)
    position = position[np.isfinite(position).all(axis=1)]
    plot = np.zeros(len(position), dtype=np.int64)
    distance = nearest(position, plot, 1).distance[:, 0]
    mean = _plot_mean(distance, plot, plots=1)[0]
    if correction == "cdf":
        mean[0] = _censored_mean(distance, window.to_edge(position), window)
    result = clark_evans_by_plot(mean, np.array([len(position)]), window.area, window.perimeter, correction=correction)
    return ClarkEvans(
        r=float(result.r[0]),
        z=float(result.z[0]),
        p=float(result.p[0]),
        n=len(position),
        expected=float(result.expected[0]),
        correction=correction,
        mean_nearest=float(mean[0]),
        too_few=bool(result.too_few[0]),
    )


def clark_evans_by_plot(
    mean_nearest: ArrayLike,
    n: ArrayLike,
    area: ArrayLike,
    perimeter: ArrayLike,
    *,
    correction: Correction = "donnelly",
) -> ClarkEvansByPlot:
    """Compute Clark-Evans indices of many plots from their mean nearest distances, as `clark_evans` does.

    Parameters
    ----------
    mean_nearest
        Mean distance to the nearest stem, m, one value a plot (with "cdf" the corrected mean).
    n
        Number of stems, one value a plot.
    area, perimeter
        Of the plot, m² and m; one value for all or one a plot.
    correction
        Edge correction.

    Raises
    ------
    InputError
        When the correction is none of the three.
    """
    if correction not in {"none", "donnelly", "cdf"}:
        raise InputError(f'The edge correction "{correction}" is not known; use "none", "donnelly" or "cdf".')
    from scipy.special import erfc

    stems = np.asarray(n, dtype=np.int64)
    size = np.where(stems >= 2, stems, np.nan)
    ground, edge = np.asarray(area, dtype=np.float64), np.asarray(perimeter, dtype=np.float64)
    expected = 0.5 * np.sqrt(ground / size)
    variance = (4.0 - math.pi) / (4.0 * math.pi) * ground / size**2
    if correction == "donnelly":
        expected = expected + (0.0514 + 0.041 / np.sqrt(size)) * edge / size
        variance = 0.0703 * ground / size**2 + 0.037 * edge * np.sqrt(ground / size**5)
    elif correction == "cdf":
        variance = np.full_like(expected, np.nan)
    observed = np.asarray(mean_nearest, dtype=np.float64)
    z = (observed - expected) / np.sqrt(variance)
    return ClarkEvansByPlot(
        r=observed / expected,
        z=z,
        p=np.asarray(erfc(np.abs(z) / math.sqrt(2.0))),
        n=stems,
        expected=expected,
        correction=correction,
        too_few=stems < FEWEST_STEMS,
    )


def _censored_mean(distance: FloatArray, to_edge: FloatArray, window: Disc | Rectangle) -> float:
    """Mean of the Kaplan-Meier distribution of nearest distances that the edge censors."""
    if len(distance) < 2:
        return math.nan
    intensity = len(distance) / window.area
    longest = min(math.sqrt(math.log(1e5) / (math.pi * intensity)), window.half_diagonal)
    steps = np.arange(CDF_STEPS + 1) * (longest / CDF_STEPS)
    seen = np.minimum(distance, np.maximum(to_edge, 0.0))
    step = np.searchsorted(steps, seen, side="right") - 1
    step[seen == longest] = CDF_STEPS - 1
    ended = np.bincount(step[distance <= to_edge], minlength=CDF_STEPS + 1)[:CDF_STEPS]
    at_risk = len(seen) - np.searchsorted(np.sort(step), np.arange(CDF_STEPS), side="left")
    survival = np.cumprod(1.0 - ended / np.maximum(at_risk, 1))
    share = -np.diff(survival, prepend=1.0)
    total = share.sum()
    return float((steps[:-1] * share).sum() / total) if total > 0.0 else math.nan


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
    return _uniform_angle(position, nearest(position, np.zeros(len(position), dtype=np.int64), NEIGHBOURS))


def _uniform_angle(position: FloatArray, near: Nearest) -> FloatArray:
    away = position[near.index] - position[:, None, :]
    direction = np.sort(np.arctan2(away[..., 0], away[..., 1]), axis=1)
    gap = np.diff(direction, axis=1, append=direction[:, :1] + 2.0 * math.pi)
    small = np.minimum(gap, 2.0 * math.pi - gap) < STANDARD_ANGLE
    return np.where(near.index[:, -1] >= 0, small.mean(axis=1), np.nan)


def _mingling(species: IntArray, near: Nearest) -> FloatArray:
    other = species[near.index]
    known = (near.index[:, -1] >= 0) & (species >= 0) & (other >= 0).all(axis=1)
    return np.where(known, (other != species[:, None]).mean(axis=1), np.nan)


def neighbourhoods(
    xy: ArrayLike,
    plot: ArrayLike,
    *,
    plots: int,
    species: ArrayLike,
    edge: Edge = "none",
    to_edge: ArrayLike | None = None,
) -> Neighbourhoods:
    """Compute the nearest-stem values of all plots at once.

    Uniform angle index as in `uniform_angle`; mingling is the share of the four nearest stems that are of
    another species (Gadow 1993; Füldner 1995). With "nearest" a stem counts for these two only if its fourth
    neighbour is nearer than the edge of the plot, so that nobody nearer can have been missed; the mean
    nearest distance always takes every stem, because its correction is made in the Clark-Evans index.

    Parameters
    ----------
    xy
        Positions, shape (n, 2), m.
    plot
        Number of each stem's plot, 0 to `plots` - 1, shape (n,), in any order.
    plots
        Number of plots, empty ones too.
    species
        Species code of each stem, shape (n,); negative: unknown.
    edge
        Edge handling: "none", every stem counts, or "nearest".
    to_edge
        Distance of each stem to the edge of its plot, m, shape (n,), in a circle R - distance; for "nearest".

    Raises
    ------
    InputError
        When "nearest" is asked for without distances to the edge, or the edge handling is not known.
    """
    position = np.asarray(xy, dtype=np.float64).reshape(-1, 2)
    of_plot = np.asarray(plot, dtype=np.int64)
    near = nearest(position, of_plot, NEIGHBOURS)
    counts = _counting(near, edge, to_edge)
    angle = np.where(counts, _uniform_angle(position, near), np.nan)
    mixed = np.where(counts, _mingling(np.asarray(species, dtype=np.int64), near), np.nan)
    mean_nearest, _ = _plot_mean(near.distance[:, 0], of_plot, plots=plots)
    mean_angle, counted = _plot_mean(angle, of_plot, plots=plots)
    mean_mingling, counted_mingling = _plot_mean(mixed, of_plot, plots=plots)
    placed = np.isfinite(position).all(axis=1)
    return Neighbourhoods(
        stems=np.bincount(of_plot[placed], minlength=plots),
        mean_nearest=mean_nearest,
        uniform_angle=mean_angle,
        mingling=mean_mingling,
        counted=counted,
        counted_mingling=counted_mingling,
        edge=edge,
    )


def _counting(near: Nearest, edge: Edge, to_edge: ArrayLike | None) -> NDArray[np.bool_]:
    """Tell which stems count under the edge handling."""
    if edge == "none":
        return np.ones(len(near.index), dtype=np.bool_)
    if edge != "nearest" or to_edge is None:
        raise InputError(f'Edge handling "{edge}" cannot be done; use "none", or "nearest" with distances to the edge.')
    return np.asarray(near.distance[:, -1] < np.asarray(to_edge, dtype=np.float64))


def _plot_mean(value: FloatArray, plot: IntArray, *, plots: int) -> tuple[FloatArray, IntArray]:
    """Mean over the stems of each plot that have a value, and how many have one."""
    known = np.isfinite(value)
    count = np.bincount(plot[known], minlength=plots)
    total = np.bincount(plot[known], weights=value[known], minlength=plots)
    return np.divide(total, count, out=np.full(plots, np.nan), where=count > 0), count
