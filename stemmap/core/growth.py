"""What a survey itself says about ordinary growth: robust limits by group and size."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

#: Fewest values that make limits of their own.
_ENOUGH: Final = 30
#: Quartile of a normal distribution.
_QUARTILE: Final = 0.6745


@dataclass(frozen=True)
class Usual:
    """Usual values, one for each value they were made from; shape (n,) each.

    Parameters
    ----------
    middle
        Median of the like.
    below, above
        Robust standard deviations of the half below and the half above the median: from the quartiles.
    """

    middle: Floats
    below: Floats
    above: Floats


def usual(values: Floats, group: NDArray[np.integer], size: Floats) -> Usual:
    """Median and robust spread of values of the same group and a like size.

    A group (a species) is cut at its terciles of size. Where a third has fewer than 30 values, those of all groups
    in the survey's own third take its place, and where these are too few, all values.

    Parameters
    ----------
    values
        For example growth in cm a year; NaN is left out. Shape (n,).
    group
        Code of the group; shape (n,).
    size
        For example dbh; shape (n,).

    Examples
    --------
    >>> made = usual(np.array([1.0, 2.0, 3.0]), np.zeros(3, int), np.ones(3))
    >>> made.middle
    array([2., 2., 2.])
    """
    known = np.flatnonzero(np.isfinite(values) & np.isfinite(size))
    made = np.full((3, len(values)), np.nan)
    if len(known):
        everything = np.zeros(len(known), np.int64)
        groups = np.unique(group[known], return_inverse=True)[1]
        levels = (
            everything,
            _thirds(size[known], everything),
            groups * 3 + _thirds(size[known], groups),
        )
        for cell in levels:
            enough, spread = _spread(values[known], cell)
            made[:, known[enough]] = spread[:, enough]
    return Usual(*made)


def _thirds(size: Floats, group: NDArray[np.int64]) -> NDArray[np.int64]:
    """Third of its group's sizes in which each value lies: 0, 1 or 2."""
    order = np.lexsort((size, group))
    count = np.bincount(group)
    rank = np.empty(len(size), np.int64)
    rank[order] = np.arange(len(size)) - np.repeat(np.cumsum(count) - count, count)
    return 3 * rank // count[group]


def _spread(values: Floats, cell: NDArray[np.int64]) -> tuple[NDArray[np.bool_], Floats]:
    """Whether each value's cell holds enough (cell 0 of a single one always does), and its median and two spreads."""
    count = np.bincount(cell)
    order = np.lexsort((values, cell))
    start = np.cumsum(count) - count
    ordered = values[order]
    quartiles = []
    for share in (0.25, 0.5, 0.75):
        place = start + share * np.maximum(count - 1, 0)
        lower = np.minimum(place.astype(np.int64), len(values) - 1)
        upper = np.minimum(np.ceil(place).astype(np.int64), len(values) - 1)
        quartiles.append(ordered[lower] + (place - lower) * (ordered[upper] - ordered[lower]))
    first, middle, third = quartiles
    made = np.array([middle, (middle - first) / _QUARTILE, (third - middle) / _QUARTILE])
    enough = (count >= _ENOUGH) | (len(count) == 1)
    return enough[cell], made[:, cell]
