"""Change between two visits of the same plots, taken apart into what grew, came, died, was cut and was not found.

Everything is weighed so that the parts add up to the difference of what the two visits say per hectare:
growth of survivors f1 (v2 - v1), weight change (f2 - f1) v2, ingrowth and ongrowth + f2 v2, losses - f1 v1; f stems per
hectare, v the quantity of a stem (1, basal area), 1 and 2 the visits.

References
----------
Martin, G. L. (1982). A method for estimating ingrowth on permanent horizontal sample points. Forest Science 28(1),
110-114 (ingrowth and ongrowth; from memory).
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]


class Fate(IntEnum):
    """What became of a stem between two visits."""

    SURVIVED = 0
    INGROWTH = 1
    ONGROWTH = 2
    DIED = 3
    CUT = 4
    NOT_FOUND = 5


@dataclass(frozen=True)
class Change:
    """Parts of the change, one value a plot, in the unit of the quantity per hectare.

    Attributes
    ----------
    growth
        Of stems that were in and living both times, at the weight of the first visit.
    weight
        What changes because survivors are sampled by another circle now, or stand otherwise to the edge.
    ingrowth
        New stems that stand where they would have been in already at the smallest dbh.
    ongrowth
        New stems that came in because their own circle has grown to reach them.
    mortality, removals, not_found
        What died, what was cut, and what is no longer in or was not recorded again; all as losses, positive.
    """

    growth: Floats
    weight: Floats
    ingrowth: Floats
    ongrowth: Floats
    mortality: Floats
    removals: Floats
    not_found: Floats

    @property
    def net(self) -> Floats:
        """Second visit less first."""
        return (
            self.growth + self.weight + self.ingrowth + self.ongrowth
            - self.mortality - self.removals - self.not_found
        )  # fmt: skip


def change(
    fate: ArrayLike,
    plot: ArrayLike,
    *,
    first: ArrayLike,
    second: ArrayLike,
    first_factor: ArrayLike,
    second_factor: ArrayLike,
    plots: int,
) -> Change:
    """Take the change of a quantity apart.

    Parameters
    ----------
    fate
        `Fate` of each stem, shape (stems,).
    plot
        Plot of each stem, shape (stems,).
    first, second
        The quantity at the two visits; what a fate does not need may be NaN.
    first_factor, second_factor
        Stems per hectare that the stem stands for at the two visits.
    plots
        Number of plots.

    Examples
    --------
    >>> made = change([0, 1, 4], [0, 0, 0], first=[2, 0, 3], second=[5, 1, 0], first_factor=[10, 0, 10],
    ...               second_factor=[10, 20, 0], plots=1)
    >>> float(made.growth[0]), float(made.ingrowth[0]), float(made.removals[0]), float(made.net[0])
    (30.0, 20.0, 30.0, 20.0)
    """
    what, where = np.asarray(fate, np.int64), np.asarray(plot, np.int64)
    v1, v2 = np.asarray(first, np.float64), np.asarray(second, np.float64)
    f1, f2 = np.asarray(first_factor, np.float64), np.asarray(second_factor, np.float64)

    def total(kind: Fate, values: Floats) -> Floats:
        rows = what == kind
        return np.asarray(np.bincount(where[rows], weights=values[rows], minlength=plots), np.float64)

    return Change(
        growth=total(Fate.SURVIVED, f1 * (v2 - v1)),
        weight=total(Fate.SURVIVED, (f2 - f1) * v2),
        ingrowth=total(Fate.INGROWTH, f2 * v2),
        ongrowth=total(Fate.ONGROWTH, f2 * v2),
        mortality=total(Fate.DIED, f1 * v1),
        removals=total(Fate.CUT, f1 * v1),
        not_found=total(Fate.NOT_FOUND, f1 * v1),
    )
