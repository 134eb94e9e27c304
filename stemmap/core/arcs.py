"""Arcs and chords: what of circles lies inside other circles and inside polygons, exactly."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stemmap.core.edge import Boundary, inside

Floats = NDArray[np.float64]
Rows = NDArray[np.int64]

_FULL = 2.0 * np.pi


@dataclass(frozen=True)
class Circles:
    """One circle an item.

    Attributes
    ----------
    centre
        Shape (items, 2), m.
    radius
        Shape (items,), m.
    """

    centre: Floats
    radius: Floats


@dataclass(frozen=True)
class Arcs:
    """Arcs of circles that lie inside; counterclockwise from east, radians.

    Attributes
    ----------
    item
        Row of the circle, ascending, shape (arcs,).
    start, stop
        Directions of the ends seen from its centre, start < stop, shape (arcs,).
    """

    item: Rows
    start: Floats
    stop: Floats


def arcs_within(circles: Circles, others: Sequence[Circles], ground: Boundary, plot: Rows) -> Arcs:
    """Arcs of circles inside all the other circles of their item and on the ground of their plot.

    Where a circle crosses an edge it changes sides; between two crossings its middle tells the side.

    Parameters
    ----------
    circles
        One an item.
    others
        Further circles, each with one an item.
    ground
        Straight borders of all plots.
    plot
        Plot of each item, shape (items,).
    """
    items = np.arange(len(plot))
    item, piece = ground.pairs(plot)
    crossed, angle = _at_pieces(circles, item, ground.start[piece], ground.end[piece])
    rows, angles = [items, crossed], [np.zeros(len(items)), angle]
    for other in others:
        crossed, angle = _at_circles(circles, other)
        rows.append(crossed)
        angles.append(angle)
    of, start = np.concatenate(rows), np.concatenate(angles) % _FULL
    order = np.lexsort((start, of))
    of, start = of[order], start[order]
    stop = np.where(np.append(of[1:] == of[:-1], False), np.append(start[1:], _FULL), _FULL)
    real = stop > start
    of, start, stop = of[real], start[real], stop[real]
    middle = 0.5 * (start + stop)
    point = circles.centre[of] + circles.radius[of, None] * np.column_stack([np.cos(middle), np.sin(middle)])
    within = inside(ground, point, plot=plot[of])
    for other in others:
        gap = point - other.centre[of]
        within &= np.hypot(gap[:, 0], gap[:, 1]) <= other.radius[of]
    return Arcs(of[within], start[within], stop[within])


def second_moment(discs: Sequence[Circles], ground: Boundary, plot: Rows, about: Floats) -> Floats:
    """Integral of the squared distance to a point over what discs and the ground of a plot share, m⁴.

    ¼ ∮ |z|² (x dy - y dx) along chords and arcs, z = (x, y) counted from the point.

    Parameters
    ----------
    discs
        Any number of discs an item, no two of an item the same.
    ground, plot
        As in `arcs_within`.
    about
        The points, shape (items, 2), m.
    """
    item, first, last, p, d = _chords(discs, ground, plot)
    a, b = p + first[:, None] * d - about[item], p + last[:, None] * d - about[item]
    squares = (a * a + a * b + b * b).sum(axis=1) / 3.0
    crossed = np.where(last > first, 0.25 * (a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]) * squares, 0.0)
    total: Floats = np.asarray(np.bincount(item, crossed, minlength=len(plot)), dtype=np.float64)
    for number, disc in enumerate(discs):
        arcs = arcs_within(disc, [*discs[:number], *discs[number + 1 :]], ground, plot)
        r, (x, y) = disc.radius[arcs.item], (disc.centre - about)[arcs.item].T
        turn = arcs.stop - arcs.start
        once = x * (np.sin(arcs.stop) - np.sin(arcs.start)) - y * (np.cos(arcs.stop) - np.cos(arcs.start))
        twice = 0.5 * (x * x + y * y) * turn
        twice += 0.25 * (x * x - y * y) * (np.sin(2.0 * arcs.stop) - np.sin(2.0 * arcs.start))
        twice -= 0.5 * x * y * (np.cos(2.0 * arcs.stop) - np.cos(2.0 * arcs.start))
        both = x * x + y * y + r * r
        along = both * r * r * turn + (both * r + 2.0 * r**3) * once + 2.0 * r * r * twice
        total += np.bincount(arcs.item, 0.25 * along, minlength=len(plot))
    return total


def shared(discs: Sequence[Circles], ground: Boundary, plot: Rows) -> tuple[Floats, Floats]:
    """Area and length of the border of what discs and the ground of a plot share, m² and m, one value an item.

    The area is ½ ∮ x dy - y dx along chords and arcs.

    Parameters
    ----------
    discs
        One or several discs an item, no two of an item the same.
    ground, plot
        As in `arcs_within`.
    """
    item, first, last, p, d = _chords(discs, ground, plot)
    chord = np.maximum(last - first, 0.0)
    crossed = 0.5 * chord * (p[:, 0] * d[:, 1] - p[:, 1] * d[:, 0])
    area: Floats = np.asarray(np.bincount(item, crossed, minlength=len(plot)), dtype=np.float64)
    length: Floats = np.asarray(np.bincount(item, chord * np.hypot(d[:, 0], d[:, 1]), minlength=len(plot)), np.float64)
    for number, disc in enumerate(discs):
        arcs = arcs_within(disc, [*discs[:number], *discs[number + 1 :]], ground, plot)
        radius, (x, y) = disc.radius[arcs.item], disc.centre[arcs.item].T
        turn = arcs.stop - arcs.start
        moved = x * (np.sin(arcs.stop) - np.sin(arcs.start)) - y * (np.cos(arcs.stop) - np.cos(arcs.start))
        area += np.bincount(arcs.item, 0.5 * radius * (radius * turn + moved), minlength=len(plot))
        length += np.bincount(arcs.item, radius * turn, minlength=len(plot))
    return area, length


def _chords(discs: Sequence[Circles], ground: Boundary, plot: Rows) -> tuple[Rows, Floats, Floats, Floats, Floats]:
    """Item, shares of its length between which it lies in all discs, start and way of every straight piece."""
    item, piece = ground.pairs(plot)
    p, d = ground.start[piece], ground.end[piece] - ground.start[piece]
    first, last = np.zeros(len(item)), np.ones(len(item))
    for disc in discs:
        enters, leaves = _inside_share(p - disc.centre[item], d, disc.radius[item])
        first, last = np.maximum(first, enters), np.minimum(last, leaves)
    return item, first, last, p, d


def _inside_share(p: Floats, d: Floats, radius: Floats) -> tuple[Floats, Floats]:
    """From which to which share of its length a piece from p along d lies in a circle about the origin."""
    length2, towards = (d * d).sum(axis=1), (p * d).sum(axis=1)
    root2 = towards**2 - length2 * ((p * p).sum(axis=1) - radius**2)
    root = np.sqrt(np.maximum(root2, 0.0))
    met = root2 > 0.0
    first: Floats = np.where(met, (-towards - root) / length2, 1.0)
    last: Floats = np.where(met, (-towards + root) / length2, 0.0)
    return first, last


def _at_pieces(circles: Circles, item: Rows, start: Floats, end: Floats) -> tuple[Rows, Floats]:
    """Where circles cross straight pieces: rows of the circles and directions."""
    p, d = start - circles.centre[item], end - start
    rows: list[Rows] = []
    angles: list[Floats] = []
    for share in _inside_share(p, d, circles.radius[item]):
        hit = np.flatnonzero((share >= 0.0) & (share <= 1.0))
        at = p[hit] + share[hit, None] * d[hit]
        rows.append(item[hit])
        angles.append(np.arctan2(at[:, 1], at[:, 0]))
    return np.concatenate(rows), np.concatenate(angles)


def _at_circles(circles: Circles, others: Circles) -> tuple[Rows, Floats]:
    """Where circles cross the other circle of their item: rows of the circles and directions."""
    x, y = (others.centre - circles.centre).T
    apart = np.hypot(x, y)
    across = 2.0 * apart * circles.radius
    above = apart**2 + circles.radius**2 - others.radius**2
    cosine = np.divide(above, across, out=np.full(len(apart), 2.0), where=across > 0.0)
    rows = np.flatnonzero(np.abs(cosine) < 1.0)
    towards, half = np.arctan2(y, x)[rows], np.arccos(cosine[rows])
    return np.concatenate([rows, rows]), np.concatenate([towards - half, towards + half])
