"""What the nearest stems tell of plots: means of uniform angle, mingling and differences in diameter.

Every index here needs one inclusion rule for all its stems; which stems those are is the caller's choice.
Stems of one tree may share a position: they are then neighbours at distance zero, so hand over one position
for each tree where trees are meant.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from stemmap.core.clark_evans import (
    FEWEST_STEMS,
    ClarkEvans,
    ClarkEvansByPlot,
    clark_evans,
    clark_evans_by_plot,
)
from stemmap.core.nearest import FloatArray, IntArray, Nearest, nearest, plot_mean
from stemmap.core.stem_indices import (
    NEIGHBOURS,
    angle_index,
    angles,
    competition,
    differentiation,
    dominance,
    mingling,
    uniform_angle,
    weighted_mingling,
)
from stemmap.errors import InputError

#: Clark-Evans, the indices of single stems and the search belong to the neighbours too.
__all__ = [
    "FEWEST_STEMS",
    "NEIGHBOURS",
    "ClarkEvans",
    "ClarkEvansByPlot",
    "Nearest",
    "Neighbourhoods",
    "angle_index",
    "clark_evans",
    "clark_evans_by_plot",
    "competition",
    "differentiation",
    "dominance",
    "mingling",
    "nearest",
    "neighbourhoods",
    "uniform_angle",
    "weighted_mingling",
]

Edge = Literal["none", "nearest", "buffer", "weighted"]


@dataclass(frozen=True)
class Neighbourhoods:
    """What the nearest stems tell of each plot: means over the stems that count, NaN where none does.

    Attributes
    ----------
    stems
        Number of stems with a position, one value a plot.
    mean_nearest
        Mean distance to the nearest stem, m; NaN with fewer than two stems.
    uniform_angle
        Mean uniform angle index.
    mingling
        Mean mingling over the stems whose species, and whose neighbours' species, are known.
    differentiation, dominance
        Mean diameter differentiation and dominance over the stems whose dbh, and whose neighbours' dbh, are known.
    counted
        Number of stems that count for `uniform_angle`.
    counted_mingling
        Number of stems that count for `mingling`.
    counted_dbh
        Number of stems that count for `differentiation` and `dominance`.
    edge
        Edge handling that was used.
    """

    stems: IntArray
    mean_nearest: FloatArray
    uniform_angle: FloatArray
    mingling: FloatArray
    differentiation: FloatArray
    dominance: FloatArray
    counted: IntArray
    counted_mingling: IntArray
    counted_dbh: IntArray
    edge: Edge


def neighbourhoods(
    xy: ArrayLike,
    plot: ArrayLike,
    *,
    plots: int,
    species: ArrayLike,
    dbh: ArrayLike | None = None,
    edge: Edge = "none",
    to_edge: ArrayLike | None = None,
    buffer_m: float | None = None,
    radius: ArrayLike | None = None,
) -> Neighbourhoods:
    """Compute the nearest-stem values of all plots at once.

    Uniform angle index, mingling, differentiation and dominance with the four nearest stems. The mean nearest distance
    always takes every stem, because its correction is made in the Clark-Evans index. Which stems count for the others:

    - "none": every stem;
    - "buffer": stems at least `buffer_m` inside the edge of their plot;
    - "nearest": stems whose fourth neighbour is nearer than the edge, so that nobody nearer can have been missed;
    - "weighted": the same stems, each weighing 1 / (π (R - d)²) with d the distance of its fourth neighbour: stems with
      far neighbours are seldom far enough inside, and those that are speak for the others [1]_. In circular plots.

    Parameters
    ----------
    xy
        Positions, shape (n, 2), m.
    plot
        Number of each stem's plot, 0 to `plots` - 1, shape (n,), in any order.
    plots
        Number of plots, empty ones too.
    species
        Species code of each stem, shape (n,); negative: unknown.
    dbh
        Shape (n,), NaN: unknown; None: no differentiation and dominance.
    edge
        Edge handling.
    to_edge
        Distance of each stem to the edge of its plot, m, shape (n,), in a circle R - distance; not for "none".
    buffer_m
        Width of the buffer, m.
    radius
        Radius of each stem's plot, m, shape (n,); for "weighted".

    Raises
    ------
    InputError
        When distances to the edge, the buffer or the radius are missing, or the edge handling is not known.

    References
    ----------
    .. [1] Pommerening, A. & Stoyan, D. (2006). Edge-correction needs in estimating indices of spatial forest structure.
       Canadian Journal of Forest Research 36, 1723-1739.
    """
    position = np.asarray(xy, dtype=np.float64).reshape(-1, 2)
    of_plot = np.asarray(plot, dtype=np.int64)
    near = nearest(position, of_plot, NEIGHBOURS)
    weight = _weights(near, edge, to_edge, buffer_m, radius)
    unknown = np.full(len(position), np.nan)
    unlike = unknown if dbh is None else differentiation(near, dbh)
    above = unknown if dbh is None else dominance(near, dbh)
    mean_angle, counted = plot_mean(angles(position, near), of_plot, plots=plots, weight=weight)
    mixed, counted_mingling = plot_mean(
        mingling(near, np.asarray(species, dtype=np.int64)), of_plot, plots=plots, weight=weight
    )
    mean_unlike, counted_dbh = plot_mean(unlike, of_plot, plots=plots, weight=weight)
    placed = np.isfinite(position).all(axis=1)
    return Neighbourhoods(
        stems=np.bincount(of_plot[placed], minlength=plots),
        mean_nearest=plot_mean(near.distance[:, 0], of_plot, plots=plots)[0],
        uniform_angle=mean_angle,
        mingling=mixed,
        differentiation=mean_unlike,
        dominance=plot_mean(above, of_plot, plots=plots, weight=weight)[0],
        counted=counted,
        counted_mingling=counted_mingling,
        counted_dbh=counted_dbh,
        edge=edge,
    )


def _weights(
    near: Nearest, edge: Edge, to_edge: ArrayLike | None, buffer_m: float | None, radius: ArrayLike | None
) -> FloatArray | None:
    """Weight of each stem under the edge handling, 0 where it does not count; None: all the same."""
    if edge == "none":
        return None
    margin = None if to_edge is None else np.asarray(to_edge, dtype=np.float64)
    farthest = near.distance[:, -1]
    if edge == "buffer" and margin is not None and buffer_m is not None:
        return (margin >= buffer_m).astype(np.float64)
    if edge == "nearest" and margin is not None:
        return (farthest < margin).astype(np.float64)
    if edge == "weighted" and margin is not None and radius is not None:
        reach = np.asarray(radius, dtype=np.float64)
        left = np.where(farthest < margin, reach - farthest, np.inf)
        return np.asarray(1.0 / (math.pi * left**2))
    raise InputError(
        f'Edge handling "{edge}" cannot be done; use "none", or with distances to the edge "nearest", "buffer" and '
        'its width, or "weighted" and the radii of the plots.'
    )
