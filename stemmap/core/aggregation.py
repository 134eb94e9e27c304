"""Pielou's index and that of Hopkins and Skellam: nearest distances of all places of a window and of its stems.

All stems of a pattern must share one inclusion rule.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from stemmap.core.arcs import Circles, second_moment
from stemmap.core.clark_evans import extreme_share
from stemmap.core.edge import boundary
from stemmap.core.nearest import FloatArray, nearest
from stemmap.core.windows import CutDisc, Rectangle, Window


@dataclass(frozen=True)
class Aggregation:
    """An index of aggregation of one pattern.

    Attributes
    ----------
    value
        The index: 1 random.
    p
        Two-sided share of patterns at random that are as extreme; NaN without simulations.
    n
        Number of stems with a position.
    simulations
        Patterns at random in the same window that it was compared with.
    """

    value: float
    p: float
    n: int
    simulations: int


def pielou(
    xy: ArrayLike, window: Window, *, simulations: int = 99, rng: np.random.Generator | None = None
) -> Aggregation:
    """Pielou's index: π × stems per m² × mean squared distance from the places of the window to their nearest stem.

    1 random, above clumped (large gaps), below regular. The mean is taken over all places, exactly, not over a sample;
    near the edge a nearer stem beyond it is not known, which makes the index a little too large; p knows of that.

    Parameters
    ----------
    xy
        Positions, shape (n, 2), m; missing positions are left out.
    window
        The ground in which all stems were recorded.
    simulations, rng
        As in `clark_evans`; None: no p.

    References
    ----------
    Pielou, E. C. (1959). The use of point-to-plant distances in the study of the pattern of plant populations.
    Journal of Ecology 47, 607-613.
    """
    return _compared(_pielou, xy, window, simulations=simulations, rng=rng)


def hopkins_skellam(
    xy: ArrayLike, window: Window, *, simulations: int = 99, rng: np.random.Generator | None = None
) -> Aggregation:
    """Index of Hopkins and Skellam: mean squared distance of stems over that of places to their nearest stem.

    1 random, below clumped, above regular. All stems and all places are taken, exactly, not a sample of each; this is
    what the index by sampling tends to. Parameters as in `pielou`.

    References
    ----------
    Hopkins, B. & Skellam, J. G. (1954). A new method for determining the type of distribution of plant individuals.
    Annals of Botany 18, 213-227.
    """
    return _compared(_hopkins_skellam, xy, window, simulations=simulations, rng=rng)


def _compared(
    index: Callable[[FloatArray, Window], float],
    xy: ArrayLike,
    window: Window,
    *,
    simulations: int,
    rng: np.random.Generator | None,
) -> Aggregation:
    """Compute an index and its p among patterns at random."""
    position = np.asarray(xy, dtype=np.float64).reshape(-1, 2)
    position = position[np.isfinite(position).all(axis=1)]
    n = len(position)
    if n < 2:
        return Aggregation(value=math.nan, p=math.nan, n=n, simulations=0)
    value = index(position, window)
    if rng is None:
        return Aggregation(value=value, p=math.nan, n=n, simulations=0)
    chance = np.array([index(window.random(n, rng), window) for _ in range(simulations)])
    return Aggregation(value=value, p=extreme_share(value, chance), n=n, simulations=simulations)


def _pielou(position: FloatArray, window: Window) -> float:
    return math.pi * len(position) / window.area * mean_squared_gap(position, window)


def _hopkins_skellam(position: FloatArray, window: Window) -> float:
    distance = nearest(position, np.zeros(len(position), dtype=np.int64), 1).distance[:, 0]
    return float(np.mean(distance**2)) / mean_squared_gap(position, window)


def mean_squared_gap(xy: ArrayLike, window: Window) -> float:
    """Mean squared distance from the places of a window to their nearest stem, m², exactly over the stems' cells.

    Parameters
    ----------
    xy
        Positions in the window, at least one, shape (n, 2), m.
    window
        The ground.
    """
    import shapely
    from scipy.spatial import Voronoi

    given = np.unique(np.asarray(xy, dtype=np.float64).reshape(-1, 2), axis=0)
    middle = given[0]
    stems = given - middle
    # Four places so far off that nobody in the window is nearer to them bound all cells.
    far = 20.0 * window.half_diagonal * np.array([[1.0, 1.0], [1.0, -1.0], [-1.0, 1.0], [-1.0, -1.0]])
    drawn = Voronoi(np.vstack([stems, far]))
    corners = [drawn.vertices[drawn.regions[region]] for region in drawn.point_region[: len(stems)]]
    cells = shapely.convex_hull(np.array([shapely.MultiPoint(own) for own in corners], dtype=np.object_))
    stand = None
    if isinstance(window, Rectangle):
        stand = np.array([shapely.box(window.x0, window.y0, window.x1, window.y1)], dtype=np.object_)
    elif isinstance(window, CutDisc):
        stand = np.array([window.polygon], dtype=np.object_)
    if stand is not None:
        cells = shapely.intersection(cells, shapely.transform(stand, lambda corner: corner - middle))
    discs = []
    if not isinstance(window, Rectangle):
        disc = window.disc if isinstance(window, CutDisc) else window
        centre = np.tile(np.asarray(disc.centre) - middle, (len(stems), 1))
        discs.append(Circles(centre, np.full(len(stems), disc.radius)))
    total = second_moment(discs, boundary(cells), np.arange(len(stems)), stems)
    return float(total.sum()) / window.area
