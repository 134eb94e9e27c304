"""Per-hectare values of plots and what a sample of plots says of the survey; all plots at once.

Stems are columns sorted by plot; the stems of plot i are the rows offsets[i] to offsets[i + 1] - 1.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from stemmap.errors import InputError

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]


@dataclass(frozen=True)
class StandValues:
    """Per-hectare values, one a plot (or one a group of stems).

    Attributes
    ----------
    stems
        Number of stems that count.
    stems_per_ha
        Sum of their expansion factors; NaN where one of them is unknown.
    basal_area
        Basal area, m²/ha; NaN where a stem that counts has no dbh.
    basal_area_measured
        The part of it that the stems with a dbh make up, m²/ha: what it is at least.
    qmd
        Quadratic mean diameter, cm; NaN without stems and where a stem that counts has no dbh.
    without_dbh
        Number of stems that count but have no dbh.
    """

    stems: IntArray
    stems_per_ha: FloatArray
    basal_area: FloatArray
    basal_area_measured: FloatArray
    qmd: FloatArray
    without_dbh: IntArray


@dataclass(frozen=True)
class GroupValues:
    """Values of the stems of one group (species) in one plot, for every pair that occurs.

    Attributes
    ----------
    plot, group
        Plot number and group code of each row, sorted.
    values
        The values of each row.
    """

    plot: IntArray
    group: IntArray
    values: StandValues


@dataclass(frozen=True)
class DbhClasses:
    """Stems per hectare by dbh class.

    Attributes
    ----------
    edges
        Class limits, cm, shape (classes + 1,); a stem on a limit belongs to the class above it.
    stems_per_ha
        Shape (plots, classes).
    without_dbh
        Number of stems that count but fall in no class for want of a dbh, one a plot.
    """

    edges: FloatArray
    stems_per_ha: FloatArray
    without_dbh: IntArray


@dataclass(frozen=True)
class Estimate:
    """What a sample of plots says of the mean, one value a stratum (or a single one for all).

    Attributes
    ----------
    n
        Number of plots the estimate rests on.
    left_out
        Number of plots whose value is unknown; they are left out.
    mean, standard_error
        In the unit of the values; NaN where they cannot be known.
    low, high
        Limits of the confidence interval, Student's t.
    confidence
        Its probability.
    reason
        Why a number is missing, or which plots were left out; empty when nothing is to be said.
    """

    n: IntArray
    left_out: IntArray
    mean: FloatArray
    standard_error: FloatArray
    low: FloatArray
    high: FloatArray
    confidence: float
    reason: tuple[str, ...]


def sum_by_plot(values: ArrayLike, offsets: ArrayLike) -> FloatArray:
    """Sum the values of each plot's stems; an empty plot is zero.

    Parameters
    ----------
    values
        One a stem, shape (n,), sorted by plot.
    offsets
        First row of each plot and the number of stems at the end, shape (plots + 1,).

    Examples
    --------
    >>> sum_by_plot([1.0, 2.0, 4.0], [0, 2, 2, 3])
    array([3., 0., 4.])
    """
    start = np.asarray(offsets, dtype=np.int64)
    total = np.zeros(len(start) - 1)
    filled = np.diff(start) > 0
    if filled.any():
        # reduceat gives a single value, not zero, for an empty piece, so only the filled ones are asked for.
        total[filled] = np.add.reduceat(np.asarray(values, dtype=np.float64), start[:-1][filled])
    return total


def stand_values(
    dbh: ArrayLike, expansion: ArrayLike, offsets: ArrayLike, *, counted: ArrayLike | None = None
) -> StandValues:
    """Compute stems per hectare, basal area and quadratic mean diameter of every plot.

    N = Σ f, G = Σ f π/4 (d/100)², Dq = √(Σ f d² / Σ f), f the expansion factor, d dbh in cm.

    Parameters
    ----------
    dbh
        cm, shape (n,), sorted by plot; NaN: not measured.
    expansion
        Stems per hectare that each stem stands for, shape (n,).
    offsets
        First row of each plot and the number of stems at the end, shape (plots + 1,).
    counted
        Which stems count, shape (n,); all when not given.

    Examples
    --------
    >>> stand_values([20, 25, 30, 35, 40], [20] * 5, [0, 5]).basal_area.round(6)
    array([7.461283])
    """
    diameter = np.asarray(dbh, dtype=np.float64)
    counts = _counts(counted, len(diameter))
    factor = np.where(counts, np.asarray(expansion, dtype=np.float64), 0.0)
    without = counts & np.isnan(diameter)
    per_ha = sum_by_plot(factor, offsets)
    squares = sum_by_plot(np.where(without | ~counts, 0.0, factor * diameter**2), offsets)
    missing = sum_by_plot(without, offsets).astype(np.int64)
    measured = math.pi / 40_000.0 * squares
    mean_square = np.divide(squares, per_ha, out=np.full_like(squares, np.nan), where=per_ha > 0.0)
    return StandValues(
        stems=sum_by_plot(counts, offsets).astype(np.int64),
        stems_per_ha=per_ha,
        basal_area=np.where(missing > 0, np.nan, measured),
        basal_area_measured=measured,
        qmd=np.where(missing > 0, np.nan, np.sqrt(mean_square)),
        without_dbh=missing,
    )


def stand_values_by_group(
    dbh: ArrayLike,
    expansion: ArrayLike,
    offsets: ArrayLike,
    group: ArrayLike,
    *,
    counted: ArrayLike | None = None,
) -> GroupValues:
    """Compute the values of `stand_values` for every group (species) of every plot.

    Only pairs of plot and group that occur among the stems that count get a row, so that forty thousand plots
    and hundreds of species stay small.

    Parameters
    ----------
    dbh, expansion, offsets, counted
        As in `stand_values`.
    group
        Whole number of each stem's group, shape (n,).
    """
    start = np.asarray(offsets, dtype=np.int64)
    plot = np.repeat(np.arange(len(start) - 1), np.diff(start))
    code = np.asarray(group, dtype=np.int64)
    rows = np.flatnonzero(_counts(counted, len(code)))
    rows = rows[np.lexsort((code[rows], plot[rows]))]
    plot, code = plot[rows], code[rows]
    new = np.append(True, (np.diff(plot) != 0) | (np.diff(code) != 0))[: len(rows)]
    first = np.flatnonzero(new)
    return GroupValues(
        plot=plot[first],
        group=code[first],
        values=stand_values(
            np.asarray(dbh, dtype=np.float64)[rows],
            np.asarray(expansion, dtype=np.float64)[rows],
            np.append(first, len(rows)),
        ),
    )


def dbh_classes(
    dbh: ArrayLike,
    expansion: ArrayLike,
    offsets: ArrayLike,
    *,
    width: float = 5.0,
    counted: ArrayLike | None = None,
) -> DbhClasses:
    """Distribute the stems per hectare of every plot over dbh classes of one width, from zero up.

    Parameters
    ----------
    dbh, expansion, offsets, counted
        As in `stand_values`.
    width
        Width of a class, cm.

    Raises
    ------
    InputError
        When the width is not a positive number.
    """
    if not (math.isfinite(width) and width > 0.0):
        raise InputError(f"A dbh class needs a positive width in centimetres, not {width}.")
    start = np.asarray(offsets, dtype=np.int64)
    diameter = np.asarray(dbh, dtype=np.float64)
    counts = _counts(counted, len(diameter))
    known = counts & np.isfinite(diameter)
    plot = np.repeat(np.arange(len(start) - 1), np.diff(start))[known]
    # A billionth of a class keeps 0.3 cm out of the class below 0.3 cm.
    number = np.floor(diameter[known] / width + 1e-9).astype(np.int64)
    classes = int(number.max(initial=0)) + 1
    factor = np.asarray(expansion, dtype=np.float64)[known]
    per_ha = _weighted_count(plot * classes + number, factor, size=(len(start) - 1) * classes)
    return DbhClasses(
        edges=width * np.arange(classes + 1, dtype=np.float64),
        stems_per_ha=per_ha.reshape(-1, classes),
        without_dbh=sum_by_plot(counts & ~known, start).astype(np.int64),
    )


def estimate(
    values: ArrayLike, *, stratum: ArrayLike | None = None, strata: int = 1, confidence: float = 0.95
) -> Estimate:
    """Estimate the mean of each stratum under simple random sampling.

    ȳ = Σ y / n, s² = Σ (y - ȳ)² / (n - 1), standard error s / √n, interval ȳ ± t(n - 1) s / √n. The plots are
    a negligible part of the area, so there is no finite population correction.

    Parameters
    ----------
    values
        One a plot, shape (plots,); empty plots are zeros; NaN: unknown, left out and counted.
    stratum
        Number of each plot's stratum, 0 to `strata` - 1; all plots are one when not given.
    strata
        Number of strata.
    confidence
        Probability of the interval.

    References
    ----------
    Cochran, W. G. (1977). Sampling Techniques, 3rd ed. Wiley. Chapter 2.

    Examples
    --------
    >>> estimate([100.0, 300.0, 200.0]).mean
    array([200.])
    """
    value = np.asarray(values, dtype=np.float64)
    code = np.zeros(len(value), dtype=np.int64) if stratum is None else np.asarray(stratum, dtype=np.int64)
    known = np.isfinite(value)
    n = np.bincount(code[known], minlength=strata)
    left_out = np.bincount(code[~known], minlength=strata)
    mean = _quotient(_weighted_count(code[known], value[known], size=strata), n)
    squares = _weighted_count(code[known], (value - mean[code])[known] ** 2, size=strata)
    error = np.sqrt(_quotient(squares, (n - 1) * n))
    reason = tuple(_reason(int(k), int(out)) for k, out in zip(n, left_out, strict=True))
    return _with_interval(mean, error, n - 1, n=n, left_out=left_out, confidence=confidence, reason=reason)


def post_stratified(strata: Estimate, weights: ArrayLike) -> Estimate:
    """Combine the estimates of strata of known area that a simple random sample fell into.

    ȳ = Σ W ȳ_h, v = Σ W s_h² / n + Σ (1 - W) s_h² / n², W the stratum's share of the area, n all plots.
    Student's t takes n less the number of strata as its degrees of freedom.

    Parameters
    ----------
    strata
        Estimates of the strata.
    weights
        Area of each stratum, in any unit, shape (strata,).

    Raises
    ------
    InputError
        When the areas are not one positive number a stratum.

    References
    ----------
    Cochran, W. G. (1977). Sampling Techniques, 3rd ed. Wiley. Section 5A.9.
    """
    area = np.asarray(weights, dtype=np.float64)
    if area.shape != strata.mean.shape or not (np.isfinite(area) & (area > 0.0)).all():
        raise InputError("Post-stratification needs the area of every stratum, each a positive number.")
    share = area / area.sum()
    n = strata.n.sum(keepdims=True)
    variance = strata.standard_error**2 * strata.n
    mean = (share * strata.mean).sum(keepdims=True)
    error = np.sqrt((share * variance).sum() / n + ((1.0 - share) * variance).sum() / n**2)
    left_out = strata.left_out.sum(keepdims=True)
    reason = "a stratum has fewer than two plots" if (strata.n < 2).any() else _reason(2, int(left_out[0]))
    return _with_interval(
        mean, error, n - len(share), n=n, left_out=left_out, confidence=strata.confidence, reason=(reason,)
    )


def _counts(counted: ArrayLike | None, stems: int) -> NDArray[np.bool_]:
    """Tell which stems count: all when nothing is said."""
    return np.ones(stems, dtype=np.bool_) if counted is None else np.asarray(counted, dtype=np.bool_)


def _weighted_count(code: IntArray, weights: FloatArray, *, size: int) -> FloatArray:
    """Sum the weights of each code; numpy is annotated as if these were whole numbers."""
    return np.asarray(np.bincount(code, weights=weights, minlength=size), dtype=np.float64)


def _with_interval(
    mean: FloatArray,
    error: FloatArray,
    freedom: IntArray,
    *,
    n: IntArray,
    left_out: IntArray,
    confidence: float,
    reason: tuple[str, ...],
) -> Estimate:
    from scipy.special import stdtrit

    reach = error * stdtrit(np.maximum(freedom, 1), 0.5 + 0.5 * confidence)
    return Estimate(
        n=n,
        left_out=left_out,
        mean=mean,
        standard_error=error,
        low=mean - reach,
        high=mean + reach,
        confidence=confidence,
        reason=reason,
    )


def _quotient(above: FloatArray, below: IntArray) -> FloatArray:
    """Divide, and give NaN where there is nothing to divide by."""
    return np.asarray(np.divide(above, below, out=np.full(len(above), np.nan), where=below > 0))


def _reason(n: int, left_out: int) -> str:
    """Say what is missing from an estimate."""
    plots = "plot" if left_out == 1 else "plots"
    without = f"{left_out} {plots} without a known value left out" if left_out else ""
    few = {0: "no plot with a known value", 1: "one plot has no sampling error"}.get(n, "")
    return "; ".join(filter(None, [few, without]))
