"""How well measuring again agrees with what was recorded: share within tolerance, bias and standard deviation."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray


@dataclass(frozen=True)
class Agreement:
    """Agreement of pairs of measurements, each figure with the ends of its interval.

    Parameters
    ----------
    pairs
        Number of pairs that have both values.
    within, within_low, within_high
        Share of pairs whose difference is not beyond the tolerance; NaN without pairs.
    bias, bias_low, bias_high
        Mean difference, again minus before; the interval is NaN with fewer than two pairs.
    spread, spread_low, spread_high
        Standard deviation of the differences; NaN with fewer than two pairs.
    """

    pairs: int
    within: float
    within_low: float
    within_high: float
    bias: float
    bias_low: float
    bias_high: float
    spread: float
    spread_low: float
    spread_high: float


def agreement(differences: ArrayLike, *, tolerance: ArrayLike, confidence: float = 0.95) -> Agreement:
    """Describe differences of measurements that were made twice, the second time without knowing the first.

    The interval of the share is Wilson's (1927, J. Am. Stat. Assoc. 22: 209-212), of the bias Student's, of the
    standard deviation that of chi-square; the last two take the differences as normally distributed.

    Parameters
    ----------
    differences
        Again minus before, shape (n,), in the unit of the field; NaN where one of both is missing.
    tolerance
        Largest difference that counts as the same, in the same unit, one for all or shape (n,).
    confidence
        Of the intervals.

    Examples
    --------
    >>> agreement([0.1, -0.1, 0.3, 0.1], tolerance=0.2).within
    0.75
    """
    from scipy.special import chdtri, ndtri, stdtrit

    given = np.asarray(differences, dtype=np.float64)
    known = ~np.isnan(given)
    inside = within(given, tolerance)[known]
    given = given[known]
    pairs, nan = given.size, float("nan")
    if not pairs:
        return Agreement(0, *[nan] * 9)
    tail = 0.5 * (1.0 - confidence)
    share = float(inside.mean())
    quantile = float(ndtri(1.0 - tail))
    over = 1.0 + quantile**2 / pairs
    middle = (share + quantile**2 / (2 * pairs)) / over
    half = quantile / over * float(np.sqrt(share * (1.0 - share) / pairs + quantile**2 / (4 * pairs**2)))
    shares = (share, max(0.0, middle - half), min(1.0, middle + half))
    bias = float(given.mean())
    if pairs == 1:
        return Agreement(1, *shares, bias, *[nan] * 5)
    spread, free = float(given.std(ddof=1)), pairs - 1
    reach = float(stdtrit(free, 1.0 - tail)) * spread / float(np.sqrt(pairs))
    low, high = (spread * float(np.sqrt(free / chdtri(free, upper))) for upper in (tail, 1.0 - tail))
    return Agreement(pairs, *shares, bias, bias - reach, bias + reach, spread, low, high)


def within(differences: ArrayLike, tolerance: ArrayLike) -> NDArray[np.bool_]:
    """Whether differences are not beyond the tolerance, of the shape of both; false where either is NaN.

    Differences of decimals end in binary dust; one that is exactly the tolerance counts as within.
    """
    inside: NDArray[np.bool_] = np.abs(differences) <= np.asarray(tolerance, dtype=np.float64) * (1.0 + 1e-9) + 1e-12
    return inside


def turned(again: ArrayLike, before: ArrayLike, *, full_circle: float = 360.0) -> NDArray[np.float64]:
    """Difference of two azimuths the shorter way round, again minus before, above -half and up to half a circle.

    Parameters
    ----------
    again, before
        Azimuths in one unit, shapes that go together.
    full_circle
        The whole circle in that unit.

    Examples
    --------
    >>> turned([1.0, 359.0], [359.0, 1.0]).tolist()
    [2.0, -2.0]
    """
    half = 0.5 * full_circle
    difference = np.asarray(again, dtype=np.float64) - np.asarray(before, dtype=np.float64)
    return half - (half - difference) % full_circle
