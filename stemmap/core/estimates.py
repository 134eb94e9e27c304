"""What a sample of plots says of the survey: means with standard errors, Student's t intervals, design effects.

Plots are a negligible part of the area unless the number of plots that would fill it is given. Values are columns: of
shape (plots,) for one quantity or (plots, quantities) for several at once, such as species or dbh classes; results
have one value a quantity. A value that is unknown in one quantity leaves the plot out of all.

References
----------
Cochran, W. G. (1977). Sampling Techniques, 3rd ed. Wiley. Chapters 2, 5, 6, 7, 9 and 12.
Hall, P. (1992). On the removal of skewness by transformation. Journal of the Royal Statistical Society B 54, 221-228.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import ArrayLike, NDArray

from stemmap.errors import InputError

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]


@dataclass(frozen=True)
class Estimate:
    """What a sample of plots says of the mean: one value a stratum, or one a quantity.

    Attributes
    ----------
    n
        Number of plots (clusters) the estimate rests on.
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
    freedom
        Degrees of freedom of the interval.
    design_effect
        Variance over that of as many plots drawn by simple random sampling; NaN where it cannot be known.
    lasting
        The part of the variance that stays however many plots there are: that of a first sample.
    skew_low, skew_high
        Limits after the skewness of the estimate was taken out, which t intervals of few plots suffer from: with
        γ its third moment over the third power of its standard error and T = (estimate - truth) / standard error, it
        is T + γ T² / 3 + γ² T³ / 27 + γ / 6 that is taken as Student's t (Hall 1992, for means; here γ also comes from
        strata, clusters and residuals). The same as low and high where γ cannot be known.
    """

    n: Integers
    left_out: Integers
    mean: Floats
    standard_error: Floats
    low: Floats
    high: Floats
    confidence: float
    reason: tuple[str, ...]
    freedom: Floats = field(default_factory=lambda: np.zeros(0))
    design_effect: Floats = field(default_factory=lambda: np.zeros(0))
    lasting: Floats = field(default_factory=lambda: np.zeros(0))
    skew_low: Floats = field(default_factory=lambda: np.zeros(0))
    skew_high: Floats = field(default_factory=lambda: np.zeros(0))


def estimate(
    values: ArrayLike, *, stratum: ArrayLike | None = None, strata: int = 1, confidence: float = 0.95
) -> Estimate:
    """Estimate the mean of each stratum under simple random sampling.

    ȳ = Σ y / n, s² = Σ (y - ȳ)² / (n - 1), standard error s / √n, interval ȳ ± t(n - 1) s / √n. Cochran, chapter 2.

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
    mean, variance, third = (part[:, 0] for part in _moments(value[known, None], code[known], n))
    error = np.sqrt(_quotient(variance, n))
    reason = tuple(_reason(int(k), int(out)) for k, out in zip(n, left_out, strict=True))
    return _with_interval(
        mean,
        error**2,
        (n - 1).astype(np.float64),
        third=_quotient(third, n**2),
        n=n,
        left_out=left_out,
        confidence=confidence,
        reason=reason,
    )


def stratified(
    values: ArrayLike,
    stratum: ArrayLike,
    weights: ArrayLike,
    *,
    population: ArrayLike | None = None,
    after: bool = False,
    confidence: float = 0.95,
) -> Estimate:
    """Estimate the mean over strata of known size.

    ȳ = Σ W ȳ_h, v = Σ W² s_h² / n_h, W the stratum's share of the area (Cochran, 5.3), with Satterthwaite's degrees of
    freedom (Cochran, 5.4). When the strata were told only after one sample was drawn over all of them,
    v = Σ W s_h² / n + Σ (1 - W) s_h² / n² (Cochran, 5A.9).

    Parameters
    ----------
    values
        Shape (plots,) or (plots, quantities).
    stratum
        Number of each plot's stratum, shape (plots,).
    weights
        Size of each stratum, in any unit, shape (strata,).
    population
        Number of plots that would fill each stratum; not given: very many.
    after
        Whether the strata were told only after sampling.
    confidence
        Probability of the interval.

    Raises
    ------
    InputError
        When the sizes are not one positive number a stratum.
    """
    share = _shares(weights)
    value, code, left_out = _known(values, np.asarray(stratum, dtype=np.int64))
    n = np.bincount(code, minlength=len(share))
    mean_h, variance_h, third_h = _moments(value, code, n)
    whole = n.sum()
    if after:
        part = (share / whole + (1.0 - share) / whole**2)[:, None] * variance_h
        freedom = np.full(value.shape[1], float(whole - len(share)))
    else:
        left = 1.0 if population is None else 1.0 - n / np.asarray(population, dtype=np.float64)
        part = (share**2 * left)[:, None] * _quotient(variance_h, n[:, None])
        freedom = _satterthwaite(part, (n - 1)[:, None])
    mean = share @ mean_h
    few = "a stratum has no plot" if (n < 1).any() else "a stratum has fewer than two plots"
    reason = few if (n < 2).any() else _reason(2, left_out)
    simple = _simple_variance(value, (share / np.maximum(n, 1))[code], mean)
    return _result(mean, part.sum(axis=0), freedom, simple, third=share**3 @ _quotient(third_h, n[:, None] ** 2),
                   n=int(whole), left_out=left_out, confidence=confidence, reason=reason)  # fmt: skip


def ratio_values(values: ArrayLike, sizes: ArrayLike) -> Floats:
    """Turn a ratio of means into a mean: values whose mean is the ratio and whose spread gives its variance.

    R = Σ y / Σ x, values R + (y - R x) / x̄; their s² / n is the variance of R (Cochran, 6.4: linearised, its bias is of
    the order 1 / n). Several ratios that add up, such as those of nested circles, are summed over the last axis.

    Parameters
    ----------
    values
        What was found on each plot, shape (plots,) or (plots, parts).
    sizes
        Its size (share of the circle inside, number of plots of a cluster), of the same shape.

    Examples
    --------
    >>> ratio_values([10.0, 4.0], [1.0, 0.4]).round(9)
    array([10., 10.])
    """
    found, size = np.asarray(values, dtype=np.float64), np.asarray(sizes, dtype=np.float64)
    known = np.isfinite(found) & np.isfinite(size)
    found, size = np.where(known, found, 0.0), np.where(known, size, 0.0)
    plots = np.maximum(known.sum(axis=0), 1)
    total = size.sum(axis=0)
    ratio = np.divide(found.sum(axis=0), total, out=np.full(total.shape, np.nan), where=total > 0)
    made = ratio + (found - ratio * size) * np.divide(plots, total, out=np.full(total.shape, np.nan), where=total > 0)
    made = np.where(known, made, np.nan)
    return np.asarray(made if made.ndim == 1 else made.sum(axis=-1))


def clustered(
    values: ArrayLike,
    cluster: ArrayLike,
    *,
    sizes: ArrayLike | None = None,
    stratum: ArrayLike | None = None,
    weights: ArrayLike | None = None,
    population: ArrayLike | None = None,
    confidence: float = 0.95,
) -> Estimate:
    """Estimate the mean over plots that were drawn in clusters, by the ratio of means over whole clusters.

    R = Σ y / Σ x over cluster totals, x the number of plots (Cochran, 9A and 6.4); with strata the combined ratio
    Σ W ȳ_h / Σ W x̄_h (Cochran, 6.11), W by the number of clusters in them.

    Parameters
    ----------
    values
        Shape (plots,) or (plots, quantities).
    cluster
        Number of each plot's cluster, shape (plots,).
    sizes
        Size of each plot, shape (plots,); 1 when not given.
    stratum, weights, population
        As in `stratified`, with `weights` in numbers of clusters; one stratum when not given. A cluster lies in the
        stratum of its first plot.
    confidence
        Probability of the interval.

    Raises
    ------
    InputError
        When the sizes of strata are not one positive number each.
    """
    which = np.asarray(cluster, dtype=np.int64)
    own = np.ones(len(which)) if sizes is None else np.asarray(sizes, dtype=np.float64)
    code = np.zeros(len(which), np.int64) if stratum is None else np.asarray(stratum, dtype=np.int64)
    value, rows, left_out = _known(values, np.arange(len(which)))
    which, own, code = which[rows], own[rows], code[rows]
    _, first, number = np.unique(which, return_index=True, return_inverse=True)
    total, size = _sums(value, number, len(first)), np.bincount(number, weights=own, minlength=len(first))
    share = _shares(np.ones(1) if weights is None else weights)
    n = np.bincount(code[first], minlength=len(share))
    each = (share / np.maximum(n, 1))[code[first]]
    mean_size = float(each @ size)
    mean = (each @ total) / mean_size if mean_size > 0.0 else np.full(value.shape[1], np.nan)
    _, variance, third = _moments((total - np.outer(size, mean)) / (mean_size or np.nan), code[first], n)
    left = 1.0 if population is None else 1.0 - n / np.asarray(population, dtype=np.float64)
    part = (share**2 * left)[:, None] * _quotient(variance, n[:, None])
    simple = _simple_variance(value, each[number], mean)
    reason = "fewer than two clusters" if (n < 2).any() else _reason(2, left_out)
    return _result(mean, part.sum(axis=0), _satterthwaite(part, (n - 1)[:, None]), simple,
                   third=share**3 @ _quotient(third, n[:, None] ** 2), n=len(first), left_out=left_out,
                   confidence=confidence, reason=reason)  # fmt: skip


def double_stratified(
    values: ArrayLike, stratum: ArrayLike, points: ArrayLike, *, confidence: float = 0.95
) -> Estimate:
    """Estimate the mean over strata whose sizes are themselves a sample: double sampling for stratification.

    w = n'_h / n', v = Σ w s_h² / n_h (n'_h - 1) / (n' - 1) + Σ w (ȳ_h - ȳ)² / (n' - 1) (Cochran, 12.2, 12.4).

    Parameters
    ----------
    values, stratum
        As in `stratified`.
    points
        Number of points of the first sample that fell in each stratum, shape (strata,).
    confidence
        Probability of the interval.

    Raises
    ------
    InputError
        When the numbers of points are not positive.
    """
    share, number = _shares(points), np.asarray(points, dtype=np.float64)
    value, code, left_out = _known(values, np.asarray(stratum, dtype=np.int64))
    n, more = np.bincount(code, minlength=len(share)), number.sum() - 1.0
    mean_h, variance_h, third_h = _moments(value, code, n)
    mean = share @ mean_h
    within = (share * (number - 1.0) / more)[:, None] * _quotient(variance_h, n[:, None])
    between = share @ (mean_h - mean) ** 2 / more
    part = np.vstack([within, between])
    freedom = _satterthwaite(part, np.append(n - 1, int(more))[:, None])
    reason = "a stratum has fewer than two plots" if (n < 2).any() else _reason(2, left_out)
    simple = _simple_variance(value, (share / np.maximum(n, 1))[code], mean)
    return _result(mean, part.sum(axis=0), freedom, simple, third=share**3 @ _quotient(third_h, n[:, None] ** 2),
                   n=int(n.sum()), left_out=left_out, confidence=confidence, reason=reason,
                   lasting=between)  # fmt: skip


def double_regression(
    values: ArrayLike, auxiliary: ArrayLike, *, first_mean: float, points: float, confidence: float = 0.95
) -> Estimate:
    """Estimate the mean with the help of something that a larger sample tells: double sampling with regression.

    ȳ + b (x̄' - x̄), v = s²_yx (1 / n + (x̄' - x̄)² / Σ (x - x̄)²) + (s_y² - s²_yx) / n', n - 2 degrees of freedom
    (Cochran, 12.6, 12.8).

    Parameters
    ----------
    values
        Shape (plots,) or (plots, quantities).
    auxiliary
        What the larger sample tells too, on the same plots, shape (plots,); a plot without it is left out.
    first_mean, points
        Its mean in the first, larger sample, which holds the plots, and the number of that sample's points.
    confidence
        Probability of the interval.

    Raises
    ------
    InputError
        When the first sample is smaller than the second.
    """
    given = np.asarray(auxiliary, dtype=np.float64)
    value, rows, left_out = _known(np.column_stack([given, np.asarray(values, np.float64)]), np.arange(len(given)))
    x, y, n = value[:, 0], value[:, 1:], len(rows)
    if points < n:
        raise InputError(f"A first sample of {points:g} points cannot hold the {n} plots of the second one.")
    spread = float(((x - x.mean()) ** 2).sum()) if n else 0.0
    if n < 3 or spread <= 0.0:
        unknown = np.full(y.shape[1], np.nan)
        reason = "fewer than three plots" if n < 3 else "the auxiliary value is the same on all plots"
        return _result(unknown, unknown, unknown, unknown, third=unknown, n=n, left_out=left_out,
                       confidence=confidence, reason=reason)  # fmt: skip
    step = first_mean - x.mean()
    centred = y - y.mean(axis=0)
    slope = (x - x.mean()) @ centred / spread
    about = (centred**2).sum(axis=0) / (n - 1)
    residual = centred - np.outer(x - x.mean(), slope)
    rest = (residual**2).sum(axis=0) / (n - 2)
    lasting = np.maximum(about - rest, 0.0) / points
    variance = rest * (1.0 / n + step**2 / spread) + lasting
    third = _moments(residual, np.zeros(n, np.int64), np.array([n]))[2][0] / n**2
    return _result(y.mean(axis=0) + slope * step, variance, np.full(y.shape[1], n - 2.0), about / n, third=third, n=n,
                   left_out=left_out, confidence=confidence, reason=_reason(n, left_out), lasting=lasting)  # fmt: skip


def _shares(weights: ArrayLike) -> Floats:
    size = np.asarray(weights, dtype=np.float64)
    if not (np.isfinite(size) & (size > 0.0)).all():
        raise InputError("Stratification needs the area of every stratum, each a positive number.")
    return np.asarray(size / size.sum())


def _known(values: ArrayLike, code: Integers) -> tuple[Floats, Integers, int]:
    """Values as columns and codes of the plots on which all are known, and the number of the others."""
    value = np.asarray(values, dtype=np.float64)
    value = value[:, None] if value.ndim == 1 else value
    known = np.isfinite(value).all(axis=1)
    return value[known], code[known], int(np.count_nonzero(~known))


def _sums(value: Floats, code: Integers, size: int) -> Floats:
    """Sum columns by code."""
    total = np.zeros((size, value.shape[1]))
    np.add.at(total, code, value)
    return total


def _moments(value: Floats, code: Integers, n: Integers) -> tuple[Floats, Floats, Floats]:
    """Mean, variance and third moment of columns by code, shape (codes, quantities); NaN where there are too few."""
    mean = _quotient(_sums(value, code, len(n)), n[:, None])
    about = value - mean[code]
    third = _quotient(_sums(about**3, code, len(n)) * n[:, None], ((n - 1) * (n - 2))[:, None])
    return mean, _quotient(_sums(about**2, code, len(n)), (n - 1)[:, None]), third


def _simple_variance(value: Floats, weight: Floats, mean: Floats) -> Floats:
    """Variance of the mean of as many plots drawn by simple random sampling from what these plots stand for."""
    n = len(value)
    if n < 2 or not weight.sum() > 0.0:
        return np.full(value.shape[1], np.nan)
    return np.asarray(weight @ (value - mean) ** 2 / weight.sum() / (n - 1))


def _satterthwaite(part: Floats, freedom: Integers) -> Floats:
    """Degrees of freedom of a sum of variances, each with its own."""
    squares = np.nansum(_quotient(part**2, freedom), axis=0)
    total = part.sum(axis=0) ** 2
    all_of_them = np.full(total.shape, float(max(int(freedom.sum()), 0)))
    return np.asarray(np.divide(total, squares, out=all_of_them, where=squares > 0))


def _result(
    mean: Floats,
    variance: Floats,
    freedom: Floats,
    simple: Floats,
    *,
    third: Floats,
    n: int,
    left_out: int,
    confidence: float,
    reason: str,
    lasting: Floats | None = None,
) -> Estimate:
    size = len(mean)
    made = _with_interval(
        mean,
        variance,
        freedom,
        third=third,
        n=np.full(size, n),
        left_out=np.full(size, left_out),
        confidence=confidence,
        reason=(reason,) * size,
    )
    effect = np.divide(variance, simple, out=np.full(size, np.nan), where=simple > 0.0)
    return Estimate(
        **{**vars(made), "design_effect": effect, "lasting": np.zeros(size) if lasting is None else lasting}
    )


def _with_interval(
    mean: Floats,
    variance: Floats,
    freedom: Floats,
    *,
    third: Floats,
    n: Integers,
    left_out: Integers,
    confidence: float,
    reason: tuple[str, ...],
) -> Estimate:
    from scipy.special import stdtrit

    error: Floats = np.asarray(np.sqrt(variance), dtype=np.float64)
    quantile: Floats = np.asarray(stdtrit(np.maximum(freedom, 1.0), 0.5 + 0.5 * confidence))
    reach = error * quantile
    told = (error > 0.0) & np.isfinite(third)
    skew: Floats = np.divide(third, error**3, out=np.zeros(len(mean)), where=told)
    return Estimate(
        n=n,
        left_out=left_out,
        mean=mean,
        standard_error=error,
        low=mean - reach,
        high=mean + reach,
        skew_low=mean - error * _unskewed(quantile, skew),
        skew_high=mean - error * _unskewed(-quantile, skew),
        confidence=confidence,
        reason=reason,
        freedom=freedom,
        design_effect=np.ones(len(mean)),
        lasting=np.zeros(len(mean)),
    )


def _unskewed(quantile: Floats, skew: Floats) -> Floats:
    """Value of T whose transform (Hall 1992) is a quantile of Student's t."""
    # A skewness of a millionth moves nothing, and none at all could not be divided by.
    some = np.where(np.abs(skew) > 1e-6, skew, np.nan)
    made = 3.0 / some * (np.cbrt(1.0 + some * (quantile - some / 6.0)) - 1.0)
    return np.asarray(np.where(np.isnan(some), quantile, made))


def _quotient(above: Floats, below: NDArray[np.integer]) -> Floats:
    """Divide, and give NaN where there is nothing to divide by."""
    shape = np.broadcast_shapes(above.shape, below.shape)
    return np.asarray(np.divide(above, below, out=np.full(shape, np.nan), where=below > 0))


def _reason(n: int, left_out: int) -> str:
    """Say what is missing from an estimate."""
    plots = "plot" if left_out == 1 else "plots"
    without = f"{left_out} {plots} without a known value left out" if left_out else ""
    few = {0: "no plot with a known value", 1: "one plot has no sampling error"}.get(n, "")
    return "; ".join(filter(None, [few, without]))
