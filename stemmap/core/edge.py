"""Plots that a stand edge cuts: how much of a circle lies inside, and what each stem near the edge stands for.

Four ways to correct for what a plot lacks beyond the edge; a sample is corrected by one of them, never by two.

- Area weight: a stem's own inclusion zone is the circle about the stem in which a plot centre finds it. A stem whose
  zone the edge cuts is found more seldom and weighs more: 1 / share of the zone inside. Exact on any edge.
- Mirage: the plot centre is reflected in the edge, and stems within reach of the reflected centre count once more.
  Exact on straight edges and in right-angled corners, where all reflections are taken.
- Walkthrough: who walks from the centre to the stem and as far again, and ends outside, counts it twice. Exact where
  no two opposite places of the stem's zone are both outside; `walkthrough_share` tells how much is covered elsewhere.
- Part plot: the circle is taken for the part of it that lies inside, and the survey is estimated by the ratio of means.

Lengths are metres. The ground is given as polygons, one a plot, and stays with its plot through `plot`, a row number.

References
----------
Schmid, P. (1969). Stichproben am Waldrand. Mitt. Schweiz. Anst. forstl. Versuchswesen 45(3), 234-303 (mirage; from
memory).
Beers, T. W. (1966). The direct-weight procedure for eliminating bias from boundary-line slopover. Purdue Univ. Res.
Prog. Rep. 224 (from memory).
Ducey, M. J., Gove, J. H., Valentine, H. T. (2004). A walkthrough solution to the boundary overlap problem.
Forest Science 50(4), 427-435.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]

#: So much of a right angle may be missing in a corner that is taken as one (0.1 degree, in radians).
_SQUARE = 0.0018
#: Metres by which a line may be passed for float noise.
_ROUNDING = 1e-9
#: Metres beside a corner at which it is asked what lies there.
_NUDGE = 1e-3


@dataclass(frozen=True)
class Boundary:
    """Borders of the ground of several plots as straight pieces with the ground on their left.

    Attributes
    ----------
    start, end
        Shape (pieces, 2), sorted by plot.
    offsets
        First piece of each plot and the number of pieces at the end, shape (plots + 1,).
    """

    start: Floats
    end: Floats
    offsets: Integers

    def pairs(self, plot: Integers) -> tuple[Integers, Integers]:
        """Row of each item once for every piece of its plot, and those pieces."""
        count = np.diff(self.offsets)[plot]
        item = np.repeat(np.arange(len(plot)), count)
        within = np.arange(len(item)) - np.repeat(np.cumsum(count) - count, count)
        return item, self.offsets[plot][item] + within


@dataclass(frozen=True)
class Mirage:
    """How often stems count by the mirage.

    Attributes
    ----------
    times
        1 and one more for every reflected centre that reaches the stem, shape (stems,).
    possible
        Whether the mirage is exact in a plot: no edge, one straight edge, or a right-angled corner within reach.
    """

    times: Floats
    possible: NDArray[np.bool_]


def boundary(polygons: ArrayLike) -> Boundary:
    """Take the borders of polygons apart into straight pieces.

    Parameters
    ----------
    polygons
        One shapely polygon, multipolygon or empty geometry a plot, shape (plots,); parts must not overlap.
    """
    import shapely

    shapes = np.atleast_1d(np.asarray(polygons, dtype=object))
    parts, plot = shapely.get_parts(shapes, return_index=True)
    areas = shapely.get_type_id(parts) == shapely.GeometryType.POLYGON
    parts, plot = parts[areas], plot[areas]
    parts = shapely.orient_polygons(parts) if len(parts) else parts
    rings, part = shapely.get_rings(parts, return_index=True)
    corners, ring = shapely.get_coordinates(rings, return_index=True)
    joined = np.flatnonzero(ring[1:] == ring[:-1])
    joined = joined[(corners[joined] != corners[joined + 1]).any(axis=1)]
    of_plot = plot[part[ring[joined]]] if len(joined) else np.zeros(0, np.int64)
    return Boundary(
        start=corners[joined].reshape(-1, 2),
        end=corners[joined + 1].reshape(-1, 2),
        offsets=np.searchsorted(of_plot, np.arange(len(shapes) + 1)).astype(np.int64),
    )


def inside(ground: Boundary, points: ArrayLike, *, plot: ArrayLike) -> NDArray[np.bool_]:
    """Tell which points lie on the ground of their plot.

    Parameters
    ----------
    ground
        Of all plots.
    points
        Shape (n, 2).
    plot
        Plot of each point, shape (n,).
    """
    place = np.asarray(points, dtype=np.float64).reshape(-1, 2)
    item, piece = ground.pairs(np.asarray(plot, dtype=np.int64))
    p, q, at = ground.start[piece], ground.end[piece], place[item]
    above = (p[:, 1] > at[:, 1]) != (q[:, 1] > at[:, 1])
    left = _cross(q - p, at - p) > 0.0
    # A piece that rises past the point and has it on its left is crossed by the ray to the right.
    crossed = above & (left == (q[:, 1] > p[:, 1]))
    return np.asarray(np.bincount(item[crossed], minlength=len(place)) % 2 == 1)


def to_border(ground: Boundary, points: ArrayLike, *, plot: ArrayLike) -> Floats:
    """How far points lie from the border of the ground of their plot, m, infinite without one; as in `inside`."""
    place = np.asarray(points, dtype=np.float64).reshape(-1, 2)
    item, piece = ground.pairs(np.asarray(plot, dtype=np.int64))
    gap = _from_origin(ground.start[piece] - place[item], ground.end[piece] - place[item])
    nearest = np.full(len(place), np.inf)
    first = np.flatnonzero(np.append(True, item[1:] != item[:-1])[: len(item)])
    nearest[item[first]] = np.minimum.reduceat(gap, first) if len(first) else gap
    return nearest


def area_inside(ground: Boundary, centres: ArrayLike, radius: ArrayLike, *, plot: ArrayLike) -> Floats:
    """Area of circles on the ground of their plots, m², exact with arcs and chords.

    Summed over the pieces of the border is the signed area that circle and triangle (centre, start, end) share:
    a triangle between the places where the piece cuts the circle, sectors before and after.

    Parameters
    ----------
    ground
        Of all plots.
    centres
        Shape (n, 2); they may lie outside.
    radius
        Shape (n,).
    plot
        Plot of each circle, shape (n,).

    Examples
    --------
    >>> import shapely
    >>> half = boundary([shapely.box(-5.0, -50.0, 50.0, 50.0)])
    >>> (500.3438 - area_inside(half, [[0.0, 0.0]], [12.62], plot=[0])).round(3)
    array([127.356])
    """
    middle = np.asarray(centres, dtype=np.float64).reshape(-1, 2)
    reach = np.asarray(radius, dtype=np.float64)
    item, piece = ground.pairs(np.asarray(plot, dtype=np.int64))
    p, q, r = ground.start[piece] - middle[item], ground.end[piece] - middle[item], reach[item]
    d = q - p
    length2, towards = (d * d).sum(axis=1), (p * d).sum(axis=1)
    root2 = towards**2 - length2 * ((p * p).sum(axis=1) - r**2)
    root = np.sqrt(np.maximum(root2, 0.0))
    first = np.clip((-towards - root) / length2, 0.0, 1.0)
    last = np.clip((-towards + root) / length2, 0.0, 1.0)
    enters, leaves = p + first[:, None] * d, p + last[:, None] * d
    shared = 0.5 * _cross(enters, leaves) + 0.5 * r**2 * (_angle(p, enters) + _angle(leaves, q))
    total = np.bincount(item, weights=shared, minlength=len(middle))
    return np.clip(total, 0.0, np.pi * reach**2)


def share_inside(ground: Boundary, centres: ArrayLike, radius: ArrayLike, *, plot: ArrayLike) -> Floats:
    """Share of circles that lies on the ground of their plots, 0 to 1; parameters as in `area_inside`."""
    reach = np.asarray(radius, dtype=np.float64)
    return area_inside(ground, centres, reach, plot=plot) / (np.pi * reach**2)


def area_weight(ground: Boundary, stems: ArrayLike, radius: ArrayLike, *, plot: ArrayLike) -> Floats:
    """What a stem weighs for the part of its own inclusion zone outside: 1 / share inside; 0 for a stem outside.

    Parameters
    ----------
    ground
        Of all plots, about their centres.
    stems
        Positions, shape (n, 2).
    radius
        Radius of each stem's own circle: that of the plot, of its circle in concentric ones, of its limiting distance
        in an angle count; shape (n,).
    plot
        Plot of each stem, shape (n,).
    """
    share = share_inside(ground, stems, radius, plot=plot)
    there = inside(ground, stems, plot=plot)
    return np.divide(1.0, share, out=np.zeros(len(share)), where=there & (share > 0.0))


def walkthrough(ground: Boundary, stems: ArrayLike, *, plot: ArrayLike) -> Floats:
    """How often a stem counts by the walkthrough: 2 when as far again behind it is outside; 0 for a stem outside.

    Parameters
    ----------
    ground
        Of all plots; positions are counted from the plot centre.
    stems
        Positions seen from the plot centre, shape (n, 2).
    plot
        Plot of each stem, shape (n,).
    """
    place = np.asarray(stems, dtype=np.float64).reshape(-1, 2)
    behind = inside(ground, 2.0 * place, plot=plot)
    return np.where(inside(ground, place, plot=plot), np.where(behind, 1.0, 2.0), 0.0)


def walkthrough_share(polygons: ArrayLike, stems: ArrayLike, radius: ArrayLike, *, plot: ArrayLike) -> Floats:
    """Share of a stem's inclusion zone that the walkthrough accounts for: 1 where it is exact.

    A place of the zone is covered when it or the opposite one lies inside; Z the zone, A the ground, A' the ground
    turned half about the stem: (2 |Z ∩ A| - |Z ∩ A ∩ A'|) / |Z|. Divided by it, the walkthrough is exact on any edge.
    NaN for a stem without a place.

    Parameters
    ----------
    polygons
        One shapely polygon a plot, shape (plots,).
    stems, radius, plot
        As in `area_weight`.
    """
    import shapely

    everywhere = np.asarray(stems, dtype=np.float64).reshape(-1, 2)
    known = np.isfinite(everywhere).all(axis=1)
    place, number = everywhere[known], np.asarray(plot, dtype=np.int64)[known]
    ground = np.atleast_1d(np.asarray(polygons, dtype=object))[number]
    points, item = shapely.get_coordinates(ground, return_index=True)
    turned = shapely.set_coordinates(ground.copy(), 2.0 * place[item] - points)
    own, reach = np.arange(len(place)), np.asarray(radius, dtype=np.float64)[known]
    once = share_inside(boundary(ground), place, reach, plot=own)
    twice = share_inside(boundary(shapely.intersection(ground, turned)), place, reach, plot=own)
    share = np.full(len(everywhere), np.nan)
    share[known] = 2.0 * once - twice
    return share


def mirage(ground: Boundary, stems: ArrayLike, limit: ArrayLike, *, plot: ArrayLike, reach: ArrayLike) -> Mirage:
    """Count stems again from the plot centre reflected in the stand edge.

    Parameters
    ----------
    ground
        Of all plots; positions are counted from the plot centre.
    stems
        Positions seen from the plot centre, shape (n, 2); all that stand within their limit of it.
    limit
        Limiting distance of each stem, shape (n,).
    plot
        Plot of each stem, shape (n,).
    reach
        How far a plot reaches: the largest limiting distance, shape (plots,).
    """
    place = np.asarray(stems, dtype=np.float64).reshape(-1, 2)
    far, number = np.asarray(limit, dtype=np.float64), np.asarray(plot, dtype=np.int64)
    furthest = np.asarray(reach, dtype=np.float64)
    plots = len(furthest)
    owner = np.repeat(np.arange(plots), np.diff(ground.offsets))
    within = np.flatnonzero(_from_origin(ground.start, ground.end) < furthest[owner] - _ROUNDING)
    owner = owner[within]
    along = ground.end[within] - ground.start[within]
    along /= np.hypot(along[:, 0], along[:, 1])[:, None]
    normal = np.column_stack([along[:, 1], -along[:, 0]])
    image = 2.0 * (normal * ground.start[within]).sum(axis=1)[:, None] * normal
    # Pieces of one line are one edge.
    key = np.round(np.column_stack([owner, image, normal]), 6)
    kept = np.unique(key, axis=0, return_index=True)[1]
    kept.sort()
    owner, image, normal = owner[kept], image[kept], normal[kept]
    lines = np.bincount(owner, minlength=plots)
    first = np.searchsorted(owner, np.arange(plots))
    corner = np.flatnonzero(lines == 2)
    one, two = first[corner], first[corner] + 1
    square = np.abs((normal[one] * normal[two]).sum(axis=1)) < _SQUARE
    corner, one, two = corner[square], one[square], two[square]
    # Where an outward right angle lies, the ground is within both edges, and neither beyond the one nor the other.
    meet, outwards = 0.5 * (image[one] + image[two]), _NUDGE * np.array([normal[one], normal[two]])
    outward = inside(ground, meet - outwards.sum(axis=0), plot=corner)
    outward &= ~inside(ground, meet + outwards[0] - outwards[1], plot=corner)
    outward &= ~inside(ground, meet - outwards[0] + outwards[1], plot=corner)
    corner, one, two = corner[outward], one[outward], two[outward]
    possible = lines <= 1
    possible[corner] = True
    possible &= inside(ground, np.zeros((plots, 2)), plot=np.arange(plots))
    at = np.concatenate([owner, corner])
    image = np.concatenate([image, image[one] + image[two]])
    order = np.argsort(at, kind="stable")
    mirrors = Boundary(image[order], image[order], np.searchsorted(at[order], np.arange(plots + 1)).astype(np.int64))
    item, piece = mirrors.pairs(number)
    gap = place[item] - mirrors.start[piece]
    again = np.hypot(gap[:, 0], gap[:, 1]) <= far[item] + _ROUNDING
    times = 1.0 + np.bincount(item[again], minlength=len(place))
    return Mirage(times=np.where(inside(ground, place, plot=number), times, 0.0), possible=possible)


def _from_origin(start: Floats, end: Floats) -> Floats:
    """How far straight pieces lie from the origin."""
    d = end - start
    share = np.clip(-(start * d).sum(axis=1) / (d * d).sum(axis=1), 0.0, 1.0)
    nearest = start + share[:, None] * d
    return np.asarray(np.hypot(nearest[:, 0], nearest[:, 1]))


def _cross(a: Floats, b: Floats) -> Floats:
    return np.asarray(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0])


def _angle(a: Floats, b: Floats) -> Floats:
    """Signed angle from one direction to another."""
    return np.asarray(np.arctan2(_cross(a, b), (a * b).sum(axis=1)))
