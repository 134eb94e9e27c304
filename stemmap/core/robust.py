"""Middle and spread of differences that one slip does not move, and which differences are gross."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

#: The standard deviation of a normal distribution is so many times the median of the absolute deviations from its
#: median: 1 / 0.67449, the upper quartile of the standard normal (Hampel 1974, J. Am. Stat. Assoc. 69: 383-393).
NORMAL: Final = 1.482602218505602
#: How often some difference of a normal sample is called gross.
RISK: Final = 0.01
#: At most this share of the differences can be gross, and never more than so many.
_MOST_SHARE, _MOST = 0.25, 200


@dataclass(frozen=True)
class Robust:
    """Figures of differences that gross ones hardly move, each with the ends of its interval.

    Parameters
    ----------
    median, median_low, median_high
        Middle difference; NaN without any, its interval with fewer than six at 95 %.
    spread, spread_low, spread_high
        Standard deviation from the median of the absolute deviations; NaN with fewer than two, its interval likewise.
    """

    median: float
    median_low: float
    median_high: float
    spread: float
    spread_low: float
    spread_high: float


def robust(differences: ArrayLike, *, confidence: float = 0.95) -> Robust:
    """Median and spread of differences with intervals that take no distribution for granted.

    The interval of the median lies between the k-th smallest and the k-th largest value, k the largest for which a
    binomial count with probability 1/2 falls below k in no more than half of what is left to chance (order
    statistics: David and Nagaraja 2003, Order Statistics, 3rd ed., section 7.1). That of the spread is found in the
    same way among the absolute deviations from the median, times `NORMAL`; that the median is estimated too matters
    little where the distribution is symmetric.

    Parameters
    ----------
    differences
        Shape (n,); NaN is left out.
    confidence
        Of the intervals; what they hold is at least that, and more where n is small.

    Examples
    --------
    >>> robust([0.1, 0.0, -0.1, 0.2, 310.5]).median
    0.1
    """
    given = np.asarray(differences, dtype=np.float64)
    given = np.sort(given[~np.isnan(given)])
    nan = float("nan")
    if not given.size:
        return Robust(*[nan] * 6)
    median = float(np.median(given))
    away = np.sort(np.abs(given - median))
    spread = NORMAL * float(np.median(away)) if given.size > 1 else nan
    rank = _rank(given.size, confidence)
    if not rank:
        return Robust(median, nan, nan, spread, nan, nan)
    ends = (float(given[rank - 1]), float(given[-rank]))
    return Robust(median, *ends, spread, NORMAL * float(away[rank - 1]), NORMAL * float(away[-rank]))


def _rank(count: int, confidence: float) -> int:
    """Rank, from either end, of the ends of the interval of a median; 0: there is none."""
    from scipy.special import bdtr

    below = bdtr(np.arange(count // 2, dtype=np.float64), count, 0.5)
    return int(np.count_nonzero(below <= 0.5 * (1.0 - confidence)))


def gross(differences: ArrayLike, *, risk: float = RISK) -> NDArray[np.bool_]:
    """Which differences do not belong to a normal sample, by the generalized extreme studentized deviate.

    One after the other the value farthest from the mean of those left is taken away, R its distance in standard
    deviations. Gross are all those taken away up to the last R above its limit
    t (m - 1) / √((m - 2 + t²) m), m the number left and t the 1 - risk / 2m quantile of Student's t with m - 2
    degrees of freedom (Rosner 1983, Technometrics 25: 165-172). So gross differences do not hide each other.

    Parameters
    ----------
    differences
        Shape (n,); NaN is never gross.
    risk
        Share of normal samples in which some difference is called gross.

    Examples
    --------
    >>> gross([0.1, 0.0, -0.1, 0.2, 0.0, 310.5]).tolist()
    [False, False, False, False, False, True]
    """
    from scipy.special import stdtrit

    given = np.asarray(differences, dtype=np.float64)
    left = np.flatnonzero(~np.isnan(given))
    most = min(max(int(_MOST_SHARE * left.size), 1), _MOST, left.size - 2)
    taken: list[int] = []
    found = 0
    for _ in range(most):
        values = given[left]
        away = np.abs(values - values.mean())
        spread = float(values.std(ddof=1))
        if spread == 0.0:
            break
        place, count = int(away.argmax()), left.size
        quantile = float(stdtrit(count - 2, 1.0 - 0.5 * risk / count))
        limit = quantile * (count - 1) / float(np.sqrt((count - 2 + quantile**2) * count))
        taken.append(int(left[place]))
        if away[place] / spread > limit:
            found = len(taken)
        left = np.delete(left, place)
    flagged = np.zeros(given.shape, dtype=np.bool_)
    flagged[taken[:found]] = True
    return flagged
