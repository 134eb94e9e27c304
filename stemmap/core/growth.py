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


@dataclass(frozen=True)
class Limits:
    """Usual values by group and third of its sizes; the last row is that of all groups together.

    Parameters
    ----------
    cuts
        Sizes at which the second and the last third of each group begin, shape (groups + 1, 2).
    limits
        As in `Usual`, by group and third; NaN where too few tell; shape (3, groups + 1, 3).
    whole
        The same of all values, shape (3,).
    """

    cuts: Floats
    limits: Floats
    whole: Floats

    def of(self, group: NDArray[np.integer], size: Floats) -> Usual:
        """What is usual for a group and size; of a group nobody told of, for all groups; shape (n,) each."""
        last = len(self.cuts) - 1
        row = np.where((group >= 0) & (group < last), group, last)
        made: Floats = np.repeat(self.whole[:, None], len(size), axis=1)
        for rows in (np.full(len(size), last), row):
            own = self.limits[:, rows, _third(size, self.cuts[rows])]
            made = np.where(np.isfinite(own[0]), own, made)
        return Usual(*made)


def limits(values: Floats, group: NDArray[np.integer], size: Floats) -> Limits:
    """Learn median and robust spread of values by group and size.

    A group (a species) is cut at its terciles of size. Where a third has fewer than 30 values, those of all groups
    in the survey's own third take its place, and where these are too few, all values.

    Parameters
    ----------
    values
        For example growth in cm a year; one that is not finite, or has no finite size, is left out. Shape (n,).
    group
        Code of the group, -1: none; shape (n,).
    size
        For example dbh; shape (n,).
    """
    known = np.flatnonzero(np.isfinite(values) & np.isfinite(size))
    values, size, group = values[known], size[known], group[known]
    groups = int(group.max(initial=-1)) + 1
    cuts, table = np.full((groups + 1, 2), np.nan), np.full((3, groups + 1, 3), np.nan)
    whole = np.full(3, np.nan)
    if len(values):
        whole = _spread(values, np.zeros(len(values), np.int64), 1)[1][:, 0]
        of_group = np.flatnonzero(group >= 0)
        cuts[:groups] = _terciles(size[of_group], group[of_group], groups)
        cuts[groups] = _terciles(size, np.zeros(len(size), np.int64), 1)[0]
        for rows, row in ((of_group, group[of_group]), (np.arange(len(size)), np.full(len(size), groups))):
            cell = 3 * row + _third(size[rows], cuts[row])
            count, spread = _spread(values[rows], cell, 3 * (groups + 1))
            enough = (count >= _ENOUGH).reshape(groups + 1, 3)
            table = np.where(enough, spread.reshape(3, groups + 1, 3), table)
    return Limits(cuts, table, whole)


def usual(values: Floats, group: NDArray[np.integer], size: Floats) -> Usual:
    """What is usual for the like of each value, by `limits` learnt from the same values; NaN for one that is left out.

    Examples
    --------
    >>> made = usual(np.array([1.0, 2.0, 3.0]), np.zeros(3, int), np.ones(3))
    >>> made.middle
    array([2., 2., 2.])
    """
    known = np.isfinite(values) & np.isfinite(size)
    told = limits(values, group, size).of(group, size)
    return Usual(*(np.where(known, each, np.nan) for each in (told.middle, told.below, told.above)))


def _terciles(size: Floats, group: NDArray[np.integer], groups: int) -> Floats:
    """Sizes at which the second and the last third of each group begin; NaN for a group without sizes."""
    count = np.bincount(group, minlength=groups)
    ordered = size[np.lexsort((size, group))]
    begin = np.cumsum(count) - count
    cuts = np.full((groups, 2), np.nan)
    some = np.flatnonzero(count)
    for column in (0, 1):
        place = -((-(column + 1) * count) // 3)
        cuts[some, column] = ordered[(begin + np.minimum(place, count - 1))[some]]
    return cuts


def _third(size: Floats, cuts: Floats) -> NDArray[np.int64]:
    """Third of its group's sizes in which each size lies: 0, 1 or 2."""
    third: NDArray[np.int64] = (size[:, None] >= cuts).sum(axis=1)
    return third


def _spread(values: Floats, cell: NDArray[np.int64], cells: int) -> tuple[NDArray[np.int64], Floats]:
    """How many values each cell holds, and their median and two spreads, shape (3, cells); NaN for an empty cell."""
    count = np.bincount(cell, minlength=cells)
    if not len(values):
        return count, np.full((3, cells), np.nan)
    start = np.cumsum(count) - count
    ordered = values[np.lexsort((values, cell))]
    quartiles = []
    for share in (0.25, 0.5, 0.75):
        place = start + share * np.maximum(count - 1, 0)
        lower = np.minimum(place.astype(np.int64), len(values) - 1)
        upper = np.minimum(np.ceil(place).astype(np.int64), len(values) - 1)
        quartiles.append(ordered[lower] + (place - lower) * (ordered[upper] - ordered[lower]))
    first, middle, third = quartiles
    made = np.array([middle, (middle - first) / _QUARTILE, (third - middle) / _QUARTILE])
    return count, np.where(count > 0, made, np.nan)
