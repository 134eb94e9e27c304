"""Last digits: people round to what is easy to say, instruments do not."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class DigitTest:
    """Test of equal last digits, by group; shape (groups,) each.

    Parameters
    ----------
    numbers
        How many numbers there are.
    p
        Probability of digits at least so unequal by chance; NaN below 50 numbers.
    effect
        How unequal they are: the root of chi-square over n; 0 for equal digits, 3 when all are the same.
    """

    numbers: NDArray[np.int64]
    p: Floats
    effect: Floats


def digit_test(counts: NDArray[np.integer]) -> DigitTest:
    """Test whether the ten last digits are equally frequent (Pearson's chi-square, from memory).

    Parameters
    ----------
    counts
        Number of each last digit, shape (groups, 10).

    Examples
    --------
    >>> digit_test(np.array([[40, 6, 6, 6, 6, 20, 4, 4, 4, 4]])).effect.round(2)
    array([1.1])
    """
    from scipy.special import chdtrc

    numbers = counts.sum(axis=1)
    expected = numbers[:, None] / 10.0
    terms = np.divide((counts - expected) ** 2, expected, out=np.zeros(counts.shape), where=expected > 0.0)
    chi_square = terms.sum(axis=1)
    effect = np.sqrt(np.divide(chi_square, numbers, out=np.zeros(len(numbers)), where=numbers > 0))
    return DigitTest(numbers, np.where(numbers >= 50, chdtrc(9.0, chi_square), np.nan), effect)
