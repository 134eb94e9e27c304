"""Whether a whole curve departs from chance: global rank envelopes."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

#: Far below the steps of p.
_ROUNDING = 1e-9


@dataclass(frozen=True)
class Envelope:
    """A global envelope: under the null, a curve leaves it anywhere with probability 1 - level at most.

    Attributes
    ----------
    low, high
        Shape (k,).
    p
        Monte-Carlo p-value of the whole curve; the curve leaves the envelope only where p < 1 - level.
    leaves
        1 where the observed curve is above it, -1 where below, else 0; shape (k,).
    """

    low: Floats
    high: Floats
    p: float
    leaves: NDArray[np.int8]


def global_envelope(observed: Floats, simulated: Floats, *, level: float = 0.95) -> Envelope:
    """Global rank envelope by extreme rank length (Myllymäki et al. 2017, 10.1111/rssb.12172).

    At each distance a curve has a two-sided rank among all; its ranks, sorted, are compared as words in a dictionary.
    p is the share of all curves, the observed one among them, whose word is no greater than that of the observed one:
    under the null p < α has a probability of less than α for any number of simulations, also where curves are equal.
    The curves with p >= 1 - level make the envelope.

    Parameters
    ----------
    observed
        Shape (k,), finite.
    simulated
        Shape (s, k), finite.
    level
        Share of the curves that the envelope holds.
    """
    curves = np.vstack([observed, simulated])
    count = len(curves)
    upward = _twice_ranks(np.ascontiguousarray(curves.T)).T
    words = np.sort(np.minimum(upward, 2 * (count + 1) - upward), axis=1)
    # Numbers of equal length, high byte first, are in order as bytes are.
    letters = words.astype(">u4", order="C").view(f"S{4 * words.shape[1]}").ravel()
    _, extremity, equal = np.unique(letters, return_inverse=True, return_counts=True)
    p = (np.cumsum(equal) / count)[extremity]
    inner = curves[p >= 1.0 - level - _ROUNDING]
    low, high = inner.min(axis=0), inner.max(axis=0)
    leaves = np.where(observed > high, 1, np.where(observed < low, -1, 0)).astype(np.int8)
    return Envelope(low, high, float(p[0]), leaves)


def _twice_ranks(values: Floats) -> NDArray[np.int64]:
    """Twice the rank of each value in its row, from 2 on; equal ones share the mean of their ranks."""
    order = np.argsort(values, axis=1)
    ascending = np.take_along_axis(values, order, axis=1)
    place = np.arange(1, values.shape[1] + 1)
    step = ascending[:, 1:] != ascending[:, :-1]
    ends = np.ones((len(values), 1), dtype=bool)
    first = np.maximum.accumulate(np.where(np.hstack([ends, step]), place, 0), axis=1)
    last = np.minimum.accumulate(np.where(np.hstack([step, ends]), place, len(place))[:, ::-1], axis=1)[:, ::-1]
    ranks = np.empty(values.shape, dtype=np.int64)
    np.put_along_axis(ranks, order, first + last, axis=1)
    return ranks
