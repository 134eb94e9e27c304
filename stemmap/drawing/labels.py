"""Places for the numbers of stems: none on another, none on a stem, the same every time.

Each number is tried in 16 directions, first beside its stem and then further and further out, where a hair line ties it
to the stem. Those with the fewest free places choose first; each takes the cheapest place that is still free.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

_DIRECTIONS: Final = 16
#: Gaps in millimetres between the edge of the mark and the number; from the third on with a hair line.
_GAPS_MM: Final = (0.5, 1.3, 2.6, 4.4, 6.8, 9.6)
_TIED_FROM: Final = 2
#: Clear space around a number.
_CLEAR_MM: Final = 0.25
#: Points of a hair line, as shares of its length, that must stay free of stems and numbers.
_HAIR_POINTS: Final = (0.35, 0.65, 0.9)
_COST_OF_RING: Final = 1.0
_COST_OF_CROSSING: Final = 1.7


@dataclass(frozen=True)
class Placement:
    """Where numbers go; arrays of shape (n,) and (n, 2).

    Parameters
    ----------
    offset_mm
        Middle of the number as seen from its stem; NaN where no place was free.
    placed
        Whether a place was free.
    tied
        Whether a hair line is needed.
    """

    offset_mm: Floats
    placed: NDArray[np.bool_]
    tied: NDArray[np.bool_]


def place(
    anchor_mm: Floats,
    radius_mm: Floats,
    size_mm: Floats,
    *,
    discs_mm: Floats,
    rings_mm: Floats,
    reach_mm: float,
) -> Placement:
    """Find a place for each number.

    Parameters
    ----------
    anchor_mm
        Places of the stems that have a number, x right and y up, shape (n, 2).
    radius_mm
        Radius of their marks, shape (n,).
    size_mm
        Width and height of the numbers, shape (n, 2).
    discs_mm
        What must not be covered: x, y, radius, shape (m, 3), m >= n; the first n are the stems of the numbers.
    rings_mm
        Lines that are better not crossed, circles x, y, radius, shape (k, 3).
    reach_mm
        Numbers stay within this distance of the point (0, 0).
    """
    count = len(anchor_mm)
    offset, ring = _candidates(radius_mm, size_mm)
    half = (size_mm / 2.0 + _CLEAR_MM)[:, None, :]
    middle = anchor_mm[:, None, :] + offset
    free = np.hypot(*np.moveaxis(np.abs(middle) + half, -1, 0)) <= reach_mm
    free &= ~_covers_discs(middle, half, discs_mm)
    tied = ring >= _TIED_FROM
    for share in _HAIR_POINTS:
        free &= ~(tied & _covers_discs(anchor_mm[:, None, :] + share * offset, 0.0 * half, discs_mm, own=count))
    cost = ring * _COST_OF_RING + np.linspace(0.0, 0.5, _DIRECTIONS)[np.arange(len(ring)) % _DIRECTIONS]
    crossing = np.zeros(middle.shape[:2], bool)
    for x, y, radius in rings_mm:
        gap = np.abs(middle - (x, y))
        nearest, furthest = (
            np.hypot(*np.moveaxis(np.maximum(gap - half, 0.0), -1, 0)),
            np.hypot(*np.moveaxis(gap + half, -1, 0)),
        )
        crossing |= (nearest < radius) & (radius < furthest)
    return _choose(anchor_mm, offset, half, free=free, cost=cost + _COST_OF_CROSSING * crossing, tied=tied)


def _candidates(radius_mm: Floats, size_mm: Floats) -> tuple[Floats, NDArray[np.int64]]:
    """Offsets (n, rings * directions, 2) of the middle of the number, and the ring of each candidate.

    East comes first, then by turns above and below it, so that numbers tend to stand to the right.
    """
    turns = np.arange(_DIRECTIONS)
    angle = (turns + 1) // 2 * np.where(turns % 2 == 1, 1.0, -1.0) * (2.0 * np.pi / _DIRECTIONS)
    direction = np.column_stack([np.cos(angle), np.sin(angle)])
    gap = np.repeat(_GAPS_MM, _DIRECTIONS)
    direction = np.tile(direction, (len(_GAPS_MM), 1))
    away = (radius_mm[:, None] + gap)[..., None] * direction
    # Beside means edge to edge: the box is pushed out by the part of it that points back to the stem.
    return away + direction * size_mm[:, None, :] / 2.0, np.repeat(np.arange(len(_GAPS_MM)), _DIRECTIONS)


def _covers_discs(middle: Floats, half: Floats, discs: Floats, *, own: int = 0) -> NDArray[np.bool_]:
    """Whether boxes (n, c) touch any disc; the first `own` discs are those of the boxes' own stems, not counted."""
    covered = np.zeros(middle.shape[:2], bool)
    if not len(discs) or not len(middle):
        return covered
    centre = middle.mean(axis=1)
    span = np.hypot(*np.moveaxis(np.abs(middle - centre[:, None, :]) + half, -1, 0)).max(axis=1)
    near = np.hypot(centre[:, None, 0] - discs[:, 0], centre[:, None, 1] - discs[:, 1]) < span[:, None] + discs[:, 2]
    if own:
        near[np.arange(len(middle)), np.arange(len(middle))] = False
    box, disc = np.nonzero(near)
    gap = np.maximum(np.abs(middle[box] - discs[disc, None, :2]) - half[box], 0.0)
    touch = gap[..., 0] ** 2 + gap[..., 1] ** 2 < discs[disc, None, 2] ** 2
    # The pairs come sorted by box, so each box is one run of rows.
    first = np.flatnonzero(np.append(True, np.diff(box) != 0)) if len(box) else np.zeros(0, np.int64)
    if len(first):
        covered[box[first]] = np.logical_or.reduceat(touch, first, axis=0)
    return covered


def _choose(
    anchor: Floats,
    offset: Floats,
    half: Floats,
    *,
    free: NDArray[np.bool_],
    cost: Floats,
    tied: NDArray[np.bool_],
) -> Placement:
    """Let one number after the other take its cheapest free place."""
    count = len(anchor)
    best = np.full(count, -1)
    boxes, taken = np.zeros((count, 4)), 0  # x, y, half width, half height
    hairs, strung = np.zeros((count * len(_HAIR_POINTS), 2)), 0
    for number in np.lexsort((np.arange(count), free.sum(axis=1))).tolist():
        options = np.flatnonzero(free[number])
        options = options[np.argsort(cost[number, options], kind="stable")]
        if not len(options):
            continue
        middle = anchor[number] + offset[number, options]
        size = half[number, 0]
        reach = np.abs(offset[number, options]).max(axis=0) + size
        near = boxes[:taken][(np.abs(boxes[:taken, :2] - anchor[number]) < boxes[:taken, 2:] + reach).all(axis=1)]
        strings = hairs[:strung][(np.abs(hairs[:strung] - anchor[number]) < reach).all(axis=1)]
        first = 0
        if len(near) or len(strings):
            clear = ~_meets(middle, size, near)
            clear &= ~_meets(middle, size, np.hstack([strings, 0.0 * strings]))
            for share in _HAIR_POINTS:
                points = anchor[number] + share * offset[number, options]
                clear &= ~(tied[options] & _meets(points, 0.0 * size, near))
            if not clear.any():
                continue
            first = int(np.argmax(clear))
        best[number] = options[first]
        boxes[taken] = (*middle[first], *size)
        taken += 1
        if tied[options[first]]:
            for share in _HAIR_POINTS:
                hairs[strung] = anchor[number] + share * offset[number, options[first]]
                strung += 1
    placed = best >= 0
    chosen = np.where(placed[:, None], offset[np.arange(count), best], np.nan)
    return Placement(chosen, placed, placed & tied[best] if count else placed)


def _meets(points: Floats, half: Floats, boxes: Floats) -> NDArray[np.bool_]:
    """Whether boxes of half size `half` around points (c, 2) meet any of the boxes (b, 4); shape (c,)."""
    if not len(boxes):
        return np.zeros(len(points), bool)
    meets: NDArray[np.bool_] = (np.abs(points[:, None, 0] - boxes[:, 0]) < boxes[:, 2] + half[0]) & (
        np.abs(points[:, None, 1] - boxes[:, 1]) < boxes[:, 3] + half[1]
    )
    any_of: NDArray[np.bool_] = np.any(meets, axis=1)
    return any_of
