"""What a stem pattern would show were its marks dealt out anew: random labelling of species and dbh.

The stems stay where they are and only change their marks, so what the places themselves do cannot be mistaken for a
relation between the marks. All functions take many labellings at once; the first is the one observed.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stemmap.core.nearest import Nearest
from stemmap.core.neighbours import differentiation, dominance, mingling
from stemmap.core.pairs import EQUAL, Pairs

Floats = NDArray[np.float64]
Rows = NDArray[np.int64]


@dataclass(frozen=True)
class NearMarks:
    """What the four nearest stems of each stem are, by labelling; shape (labellings, n), NaN where not known.

    Attributes
    ----------
    mingling
        Share of them of another species.
    differentiation
        Mean of 1 - thinner dbh / thicker dbh.
    dominance
        Share of them that are thinner than the stem.
    competition
        Sum of (their dbh / dbh of the stem) / distance in m.
    """

    mingling: Floats
    differentiation: Floats
    dominance: Floats
    competition: Floats


def labellings(count: int, simulations: int, rng: np.random.Generator) -> Rows:
    """Orders in which marks are dealt out, shape (simulations + 1, count); the first leaves them as they are."""
    order = np.tile(np.arange(count), (simulations + 1, 1))
    order[1:] = rng.permuted(order[1:], axis=1)
    return order


def near_marks(near: Nearest, order: Rows, *, species: Rows, dbh: Floats) -> NearMarks:
    """Compute mingling, differentiation, dominance and competition of every stem under every labelling.

    Parameters
    ----------
    near
        The four nearest stems.
    order
        As from `labellings`.
    species
        Codes, shape (n,); negative: unknown.
    dbh
        Shape (n,), cm; NaN: unknown.

    References
    ----------
    Füldner, K. (1995). Strukturbeschreibung von Buchen-Edellaubholz-Mischwäldern. Göttingen.
    Hegyi, F. (1974). A simulation model for managing jack-pine stands. In: Growth models, 74-90.
    """
    size = dbh[order]
    apart = np.where(near.distance > 0.0, near.distance, np.nan)
    with np.errstate(divide="ignore", invalid="ignore"):
        pressure = (size[:, near.index] / size[:, :, None] / apart).sum(axis=2)
    above = dominance(near, size)
    return NearMarks(
        mingling=mingling(near, species[order]),
        differentiation=differentiation(near, size),
        dominance=above,
        competition=np.where(np.isfinite(above), pressure, np.nan),
    )


def mark_sums(pairs: Pairs, order: Rows, marks: Floats, r: Floats, *, halfwidth: float) -> tuple[Floats, Floats]:
    """Sums of the mark correlation under every labelling: they can be added over plots before they are divided.

    Parameters
    ----------
    pairs
        With their edge weights, as far as r and `halfwidth` reach.
    marks
        For example dbh over its mean, shape (n,).
    r
        Shape (k,), m.
    halfwidth
        Of Epanechnikov's kernel, m.

    Returns
    -------
    Weighted sum of the products of two marks, shape (labellings, k), and sum of the weights, shape (k,).
    """
    u = (r - pairs.distance[:, None]) / halfwidth
    weight = np.maximum(1.0 - u * u, 0.0) * (0.75 / halfwidth) * pairs.weight[:, None]
    dealt = marks[order]
    return (dealt[:, pairs.one] * dealt[:, pairs.other]) @ weight, weight.sum(axis=0)


def kind_sums(pairs: Pairs, order: Rows, member: NDArray[np.bool_], r: Floats) -> Floats:
    """Weighted number of pairs within r of which both stems are of one kind, by labelling; shape (labellings, k).

    Times the area over n (n - 1) of that kind it is its K.

    Parameters
    ----------
    member
        Which stems are of the kind, shape (n,).
    """
    within = (pairs.distance[:, None] <= r * (1.0 + EQUAL)) * pairs.weight[:, None]
    dealt = member[order]
    return np.asarray((dealt[:, pairs.one] & dealt[:, pairs.other]).astype(np.float64) @ within)
