"""How height and dbh belong together: robust lines on logarithmic scales, by species."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

__all__ = ["Lines", "robust_lines"]

Floats = NDArray[np.float64]

#: Fewest pairs that make a line of their own, and pairs that are enough to make all lines.
_ENOUGH: Final = 30
_MOST: Final = 50_000
#: Residuals beyond so many robust standard deviations count for nothing (Tukey's biweight).
_BIWEIGHT: Final = 4.685
#: Median of absolute residuals to standard deviation, normal distribution.
_MAD: Final = 1.4826
_ROUNDS: Final = 8


@dataclass(frozen=True)
class Lines:
    """Lines y = intercept + slope x, one for each group; shape (groups,) each.

    Parameters
    ----------
    intercept, slope
        Of the line.
    spread
        Robust standard deviation about it; NaN where not even all groups together make a line.
    """

    intercept: Floats
    slope: Floats
    spread: Floats

    def off(self, x: Floats, y: Floats, group: NDArray[np.integer]) -> Floats:
        """Distance of values from the line of their group, in spreads."""
        found: Floats = (y - self.intercept[group] - self.slope[group] * x) / self.spread[group]
        return found


def robust_lines(x: Floats, y: Floats, group: NDArray[np.integer]) -> Lines:
    """Fit a line to each group, so that single wrong values do not move it.

    Groups with fewer than 30 pairs follow the line of all.

    Parameters
    ----------
    x, y
        Values; pairs with NaN are left out. Shape (n,).
    group
        Code of the group, 0 and above; shape (n,).

    Notes
    -----
    Iteratively reweighted least squares with Tukey's biweight (Beaton and Tukey 1974, from memory), the scale from
    the median of absolute residuals.

    Examples
    --------
    >>> x = np.arange(40.0)
    >>> y = np.where(x == 7.0, 99.0, 1.0 + 2.0 * x)
    >>> made = robust_lines(x, y, np.zeros(40, int))
    >>> round(float(made.slope[0]), 6)
    2.0
    """
    groups = int(group.max(initial=0)) + 1
    known = np.flatnonzero(np.isfinite(x) & np.isfinite(y))
    known = known[:: len(known) // _MOST + 1]
    x, y, group = x[known], y[known], group[known]
    count = np.bincount(group, minlength=groups)
    whole = _fitted(x, y, np.zeros(len(x), np.int64), 1)
    own = _fitted(x, y, group, groups)
    enough = count >= _ENOUGH
    intercept, slope, spread = (np.where(enough, mine, all_[0]) for mine, all_ in zip(own, whole, strict=True))
    return Lines(intercept, slope, spread)


def _fitted(x: Floats, y: Floats, group: NDArray[np.integer], groups: int) -> tuple[Floats, Floats, Floats]:
    weight = np.ones(len(x))
    intercept, slope, spread = (np.full(groups, np.nan) for _ in range(3))
    count = np.bincount(group, minlength=groups)
    middle = np.cumsum(count) - count + np.maximum(count - 1, 0) // 2
    for _ in range(_ROUNDS):

        def mean(values: Floats, weight: Floats = weight) -> Floats:
            total = np.bincount(group, weight, minlength=groups)
            summed = np.bincount(group, weight * values, minlength=groups)
            made: Floats = np.divide(summed, total, out=np.full(groups, np.nan), where=total > 0.0)
            return made

        mean_x, mean_y = mean(x), mean(y)
        off_x, off_y = x - mean_x[group], y - mean_y[group]
        along, square = mean(off_x * off_y), mean(off_x**2)
        slope = np.divide(along, square, out=np.zeros(groups), where=square > 1e-12)
        intercept = mean_y - slope * mean_x
        left = np.abs(y - intercept[group] - slope[group] * x)
        ordered = left[np.lexsort((left, group))]
        spread = np.where(count >= _ENOUGH, _MAD * np.append(ordered, np.nan)[np.minimum(middle, len(ordered))], np.nan)
        spread = np.maximum(spread, 1e-6)
        ratio = left / (_BIWEIGHT * spread[group])
        weight = np.where(ratio < 1.0, (1.0 - np.minimum(ratio, 1.0) ** 2) ** 2, 0.0)
        weight = np.where(np.isfinite(ratio), weight, 1.0)
    return intercept, slope, spread
