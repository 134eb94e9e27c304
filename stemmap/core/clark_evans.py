"""The index of Clark and Evans: how far stems stand from their nearest, against what chance gives.

All stems of a pattern must share one inclusion rule.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from stemmap.core.nearest import FloatArray, IntArray, nearest, plot_mean
from stemmap.core.windows import Window
from stemmap.errors import InputError

Correction = Literal["none", "donnelly", "cdf"]

#: Below this number of stems a Clark-Evans index says little: results carry ``too_few``.
FEWEST_STEMS = 8

#: Steps in which the cumulative-distribution form counts distances.
CDF_STEPS = 512


@dataclass(frozen=True)
class ClarkEvans:
    """Clark-Evans index of one pattern.

    Attributes
    ----------
    r
        Observed over expected mean distance to the nearest stem: 1 random, below clumped, above regular.
    z, p
        Standard normal deviate and two-sided probability under randomness; NaN for "cdf": no such test. With
        simulations p is their share, which holds for every correction, window and number of stems.
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
    simulations
        Patterns at random that p comes from; 0: p is that of the normal deviate.
    """

    r: float
    z: float
    p: float
    n: int
    expected: float
    correction: Correction
    mean_nearest: float
    too_few: bool
    simulations: int = 0


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


def clark_evans(
    xy: ArrayLike,
    window: Window,
    *,
    correction: Correction = "none",
    simulations: int = 999,
    rng: np.random.Generator | None = None,
) -> ClarkEvans:
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
    simulations
        How many patterns of as many stems at random in the window make p.
    rng
        Source of these patterns; None: p is that of the normal deviate.

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
    mean = _nearest_means(position, window, patterns=1, correction=correction)
    result = clark_evans_by_plot(mean, np.array([len(position)]), window.area, window.perimeter, correction=correction)
    p, made = float(result.p[0]), 0
    if rng is not None and len(position) >= 2:
        points = window.random(simulations * len(position), rng)
        p = extreme_share(mean[0], _nearest_means(points, window, patterns=simulations, correction=correction))
        made = simulations
    return ClarkEvans(
        r=float(result.r[0]),
        z=float(result.z[0]),
        p=p,
        n=len(position),
        expected=float(result.expected[0]),
        correction=correction,
        mean_nearest=float(mean[0]),
        too_few=bool(result.too_few[0]),
        simulations=made,
    )


def _nearest_means(points: FloatArray, window: Window, *, patterns: int, correction: Correction) -> FloatArray:
    """Mean nearest distance of patterns of equal size that follow one another, corrected where "cdf" asks for it."""
    plot = np.repeat(np.arange(patterns), len(points) // patterns)
    distance = nearest(points, plot, 1).distance[:, 0]
    if correction != "cdf" or not len(points):
        return plot_mean(distance, plot, plots=patterns)[0]
    shape, margin = (patterns, -1), window.to_edge(points)
    pairs = zip(distance.reshape(shape), margin.reshape(shape), strict=True)
    return np.array([censored_mean(own, edge, window) for own, edge in pairs])


def extreme_share(observed: float, simulated: FloatArray) -> float:
    """Two-sided Monte-Carlo p: twice the smaller tail, the observed value among the others; NaN are left out.

    Parameters
    ----------
    observed
        Of the pattern.
    simulated
        Of patterns at random, shape (simulations,).
    """
    known = simulated[np.isfinite(simulated)]
    if not math.isfinite(observed):
        return math.nan
    tail = 1 + min(int((known <= observed).sum()), int((known >= observed).sum()))
    return min(1.0, 2.0 * tail / (len(known) + 1))


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


def censored_mean(distance: FloatArray, to_edge: FloatArray, window: Window) -> float:
    """Mean of the Kaplan-Meier distribution of nearest distances that the edge censors, as for "cdf", m.

    Parameters
    ----------
    distance, to_edge
        Of each stem to its nearest and to the edge, shape (n,), m.
    window
        The ground.
    """
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
