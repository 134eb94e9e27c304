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


@dataclass(frozen=True)
class MarkSums:
    """Sums over pairs near each distance, by labelling: they can be added over plots before they are divided.

    Attributes
    ----------
    products
        Of two marks, each over their mean, shape (labellings, k).
    differences
        Half the squared difference of two marks over their variance, shape (labellings, k).
    weights
        Of the pairs, shape (k,).
    """

    products: Floats
    differences: Floats
    weights: Floats


def mark_sums(pairs: Pairs, order: Rows, marks: Floats, r: Floats, *, halfwidth: float) -> MarkSums:
    """Sums of the mark correlation and of the mark variogram of one plot, under every labelling.

    Parameters
    ----------
    pairs
        With their edge weights, as far as r and `halfwidth` reach.
    marks
        For example dbh, shape (n,), known of every stem and not zero on average.
    r
        Shape (k,), m.
    halfwidth
        Of Epanechnikov's kernel, m.
    """
    u = (r - pairs.distance[:, None]) / halfwidth
    weight = np.maximum(1.0 - u * u, 0.0) * (0.75 / halfwidth) * pairs.weight[:, None]
    mean, variance = float(marks.mean()), float(marks.var(ddof=1))
    dealt = marks[order] / mean
    one, other = dealt[:, pairs.one], dealt[:, pairs.other]
    # Of stems of one thickness none differs from another.
    scale = 0.5 * mean**2 / variance if variance > 0.0 else 0.0
    return MarkSums((one * other) @ weight, scale * ((one - other) ** 2 @ weight), weight.sum(axis=0))


def kind_sums(pairs: Pairs, order: Rows, kind: Rows, kinds: int, r: Floats) -> Floats:
    """Weighted number of pairs within r of stems of two kinds, by labelling; shape (labellings, kinds, kinds, k).

    Of kinds a and b it stands at [:, a, b] with a <= b. Times the area over n (n - 1) it is the K of one kind, times
    the area over 2 n_a n_b the mean of the cross-type K from a to b and from b to a.

    Parameters
    ----------
    kind
        Code of each stem, shape (n,); negative: unknown.
    kinds
        Number of kinds.
    """
    codes = np.where(kind < 0, kinds, kind)[order]
    one, other = codes[:, pairs.one], codes[:, pairs.other]
    width = len(r) + 1
    near = np.searchsorted(r * (1.0 + EQUAL), pairs.distance)
    place = (np.minimum(one, other) * (kinds + 1) + np.maximum(one, other)) * width + near
    place += np.arange(len(order))[:, None] * ((kinds + 1) ** 2 * width)
    size = len(order) * (kinds + 1) ** 2 * width
    weight = np.broadcast_to(pairs.weight, place.shape).ravel()
    binned = np.bincount(place.ravel(), weight, minlength=size).reshape(len(order), kinds + 1, kinds + 1, width)
    return np.asarray(np.cumsum(binned[:, :kinds, :kinds, :-1], axis=-1))
