"""Whether a whole curve departs from chance: global rank envelopes, and the patterns at random that they need."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from stemmap.core.pairs import EQUAL, edge_weights, places
from stemmap.core.windows import Window

Floats = NDArray[np.float64]

#: So many pairs are looked at together; more do not fit the cache.
_TOGETHER = 200_000


@dataclass(frozen=True)
class Envelope:
    """A global envelope: under the null, a curve leaves it anywhere with probability 1 - level.

    Attributes
    ----------
    low, high
        Shape (k,).
    p
        Monte-Carlo p-value of the whole curve.
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
    The curves that are least extreme make the envelope.

    Parameters
    ----------
    observed
        Shape (k,), finite.
    simulated
        Shape (s, k), finite.
    level
        Share of the curves that the envelope holds.
    """
    from scipy.stats import rankdata

    curves = np.vstack([observed, simulated])
    count = len(curves)
    upward = rankdata(curves, axis=0)
    words = np.sort(np.minimum(upward, count + 1 - upward), axis=1)
    # Curves with the same word are equally extreme.
    _, extremity = np.unique(words, axis=0, return_inverse=True)
    extremity = extremity.reshape(-1)
    p = float(np.mean(extremity <= extremity[0]))
    inner = curves[extremity >= np.sort(extremity)[math.floor((1.0 - level) * count)]]
    low, high = inner.min(axis=0), inner.max(axis=0)
    leaves = np.where(observed > high, 1, np.where(observed < low, -1, 0)).astype(np.int8)
    return Envelope(low, high, p, leaves)


def random_k(
    count: int,
    window: Window,
    r: Floats,
    simulations: int,
    *,
    rng: np.random.Generator,
    correction: Literal["isotropic", "translation"] = "isotropic",
) -> Floats:
    """K of patterns at random with a given number of stems in a window, m², shape (simulations, k).

    Parameters
    ----------
    count
        Stems of each pattern, at least 2.
    r
        Distances, ascending, shape (k,), m.
    """
    one, other = np.triu_indices(count, 1)
    total = np.zeros((simulations, len(r)))
    chunk = max(1, _TOGETHER // len(one))
    for first in range(0, simulations, chunk):
        some = min(chunk, simulations - first)
        points = window.random(some * count, rng)
        start = np.arange(some)[:, None] * count
        i, j = (start + one).ravel(), (start + other).ravel()
        x, y = points.T
        distance = np.hypot(x[i] - x[j], y[i] - y[j])
        near = np.flatnonzero(distance <= r[-1])
        i, j, distance = i[near], j[near], distance[near]
        weight = edge_weights(points, window, (i, j), distance, correction)
        weight += edge_weights(points, window, (j, i), distance, correction)
        place = near // len(one) * len(r) + places(r * (1.0 + EQUAL), distance)
        binned = np.bincount(place, weight, minlength=some * len(r))
        total[first : first + some] = np.cumsum(binned.reshape(some, -1), axis=1)
    return total * (window.area / (count * (count - 1)))
