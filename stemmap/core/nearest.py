"""The nearest stems of every stem within its plot, all plots at once."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]

_FEW_POINTS = 5_000


@dataclass(frozen=True)
class Nearest:
    """The nearest stems of every stem within its plot.

    Attributes
    ----------
    index
        Rows of the neighbours, nearest first, shape (n, k); -1 where the plot has no further stem.
    distance
        Distances to them, m, shape (n, k); infinite where the plot has no further stem.
    """

    index: IntArray
    distance: FloatArray


def threads(points: int) -> int:
    """Threads in which so many points ask a k-d tree: for few points starting them takes longer than the answers."""
    return -1 if points > _FEW_POINTS else 1


def nearest(xy: ArrayLike, plot: ArrayLike, k: int) -> Nearest:
    """Find the k nearest stems of every stem within its plot.

    One k-d tree serves all plots: they are moved apart along a third axis by more than any of them is wide.
    Of stems at equal distances any may come first.

    Parameters
    ----------
    xy
        Positions, shape (n, 2), m. A stem without a position has no neighbours and is nobody's neighbour.
    plot
        Number of each stem's plot, shape (n,), in any order.
    k
        How many neighbours.

    Examples
    --------
    >>> nearest([[0, 0], [3, 0], [0, 8]], [5, 5, 6], 1).distance
    array([[ 3.],
           [ 3.],
           [inf]])
    """
    from scipy.spatial import cKDTree

    position = np.asarray(xy, dtype=np.float64).reshape(-1, 2)
    index = np.full((len(position), k), -1, dtype=np.int64)
    distance = np.full((len(position), k), np.inf)
    rows = np.flatnonzero(np.isfinite(position).all(axis=1))
    if not len(rows):
        return Nearest(index, distance)
    space, widest = _plots_apart(position[rows], np.asarray(plot)[rows])
    # Plots of a few dozen stems: an unbalanced tree is built faster and answers as fast.
    tree = cKDTree(space, balanced_tree=False, compact_nodes=False)
    reached, found = tree.query(
        space, k=np.arange(1, k + 2), distance_upper_bound=1.5 * widest, workers=threads(len(space))
    )
    others, distance[rows] = _without_self(np.asarray(found, dtype=np.int64), np.asarray(reached))
    index[rows] = np.append(rows, -1)[others]
    return Nearest(index, distance)


def pairs_within(xy: ArrayLike, plot: ArrayLike, radius: float) -> tuple[IntArray, IntArray, FloatArray]:
    """Rows of the unordered pairs of stems of one plot no farther apart than a radius, and their distances, m.

    Parameters
    ----------
    xy, plot
        As in `nearest`.
    radius
        m; pairs at just the radius are taken, whatever the last binary digit says.
    """
    from scipy.spatial import cKDTree

    position = np.asarray(xy, dtype=np.float64).reshape(-1, 2)
    rows = np.flatnonzero(np.isfinite(position).all(axis=1))
    if not len(rows):
        return np.zeros(0, np.int64), np.zeros(0, np.int64), np.zeros(0)
    reach = radius * (1.0 + 1e-9)
    space, _ = _plots_apart(position[rows], np.asarray(plot)[rows], at_least=reach)
    pairs = rows[cKDTree(space, balanced_tree=False, compact_nodes=False).query_pairs(reach, output_type="ndarray")]
    one, other = np.ascontiguousarray(pairs[:, 0]), np.ascontiguousarray(pairs[:, 1])
    x, y = np.ascontiguousarray(position.T)
    return one, other, np.hypot(x[one] - x[other], y[one] - y[other])


def _plots_apart(position: FloatArray, plot: IntArray, *, at_least: float = 1.0) -> tuple[FloatArray, float]:
    """Give positions in three dimensions, each plot on its own level, and the widest extent of any plot."""
    _, first, level = np.unique(plot, return_index=True, return_inverse=True)
    local = position - position[first][level]
    widest = max(2.0 * float(np.hypot(*np.abs(local).max(axis=0))), at_least)
    return np.column_stack([local, 2.0 * widest * level]), widest


def _without_self(found: IntArray, distance: FloatArray) -> tuple[IntArray, FloatArray]:
    """Take each stem out of its own k + 1 nearest; coincident stems may come before it or crowd it out."""
    own = found == np.arange(len(found))[:, None]
    if own[:, 0].all():
        return found[:, 1:], distance[:, 1:]
    own[~own.any(axis=1), -1] = True
    shape = (len(found), found.shape[1] - 1)
    return found[~own].reshape(shape), distance[~own].reshape(shape)


def plot_mean(
    value: FloatArray, plot: IntArray, *, plots: int, weight: FloatArray | None = None
) -> tuple[FloatArray, IntArray]:
    """Weighted mean over the stems of each plot that have a finite value and a weight, and how many these are."""
    known = np.isfinite(value)
    if weight is not None:
        known &= weight > 0.0
    of, kept = plot[known], value[known]
    count = np.bincount(of, minlength=plots)
    if weight is None:
        whole, total = count, np.bincount(of, weights=kept, minlength=plots)
    else:
        whole = np.bincount(of, weights=weight[known], minlength=plots)
        total = np.bincount(of, weights=weight[known] * kept, minlength=plots)
    return np.divide(total, whole, out=np.full(plots, np.nan), where=count > 0), count
