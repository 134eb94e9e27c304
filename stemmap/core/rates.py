"""How often something happens, from cases that are themselves uncertain."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Rate:
    """Cases by number of chances, with an interval; all of one shape.

    Parameters
    ----------
    rate
        Expected rate.
    low, high
        Interval of the true rate.
    """

    rate: Floats
    low: Floats
    high: Floats


def event_rate(
    cases: ArrayLike,
    chances: ArrayLike,
    *,
    thought: ArrayLike,
    worth: float,
    spread: ArrayLike = 0.0,
    confidence: float = 0.95,
) -> Rate:
    """Estimate a rate of rare cases with what was thought of it before.

    Cases follow Poisson's law, the rate a gamma distribution: before, of mean `thought` and shape `thought` * `worth`,
    after, of mean (cases + thought * worth) / (chances + worth). Where it is not sure which cases are real, the
    variance of their number is added, and the interval is that of the gamma distribution with this mean and variance.

    Parameters
    ----------
    cases
        Expected number of cases, shape (n,).
    chances
        How often there could have been one, shape (n,).
    thought
        Rate thought of before.
    worth
        Chances that this is worth.
    spread
        Variance of the number of cases: the sum of p (1 - p) over cases of probability p.
    confidence
        Of the interval.

    Examples
    --------
    >>> event_rate([3.0], [1600.0], thought=0.002, worth=400.0).rate
    array([0.0019])
    """
    from scipy.special import gammaincinv

    whole = np.asarray(cases, dtype=np.float64) + np.asarray(thought, dtype=np.float64) * worth
    over = np.asarray(chances, dtype=np.float64) + worth
    # Gamma: variance of the rate is (whole + spread) / over²; shape mean² / variance, scale variance / mean.
    widened = 1.0 + np.asarray(spread, dtype=np.float64) / whole
    shape, scale = whole / widened, widened / over
    tail = 0.5 * (1.0 - confidence)
    low, high = (np.asarray(gammaincinv(shape, share) * scale, np.float64) for share in (tail, 1.0 - tail))
    return Rate(whole / over, low, high)
