"""The user's own ground under a map: thin lines, small rings for points, and pictures."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stemmap.drawing.palette import Theme
from stemmap.drawing.scene import Discs, Floats, Image, Paths, Shape, Stroke
from stemmap.survey.background import Background, Outlines, Picture

#: Corners drawn of a layer at once; where more are in sight only every second, third ... is drawn.
MOST_CORNERS: Final = 12_000
#: Pixels along a side of a picture under one plot.
_SIDE: Final = 500
_POINT_MM: Final = 0.6
#: Pictures are faint, so that marks and numbers over them stay legible.
_OPACITY: Final = 0.4


def ground_of_plot(
    backgrounds: Sequence[Background], centre: Floats, to_system: Floats, reach_m: float, theme: Theme
) -> list[Shape]:
    """What lies within the dial of one plot.

    Parameters
    ----------
    backgrounds
        All in one coordinate system.
    centre
        Projected place of the plot centre, shape (2,).
    to_system
        From grid east and north in metres to projected coordinates, shape (2, 2).
    reach_m
        Radius of the dial.
    """
    import shapely

    to_ground = np.linalg.inv(to_system)
    dial = shapely.Point(0.0, 0.0).buffer(reach_m, quad_segs=64)
    half = reach_m * float(np.abs(to_system).sum(axis=1).max())
    shapes: list[Shape] = []
    for background in backgrounds:
        if isinstance(background, Picture):
            shapes += _picture_of_plot(background, centre, to_system, reach_m)
            continue
        seen, first = _in_sight(background, centre - half, centre + half)
        local = (seen - centre) @ to_ground.T
        count = np.diff(first)
        single = count == 1
        index = np.repeat(np.arange(len(count)), count)
        lines = shapely.linestrings(local[~single[index]], indices=_renumbered(index[~single[index]]))
        kept = shapely.get_parts(shapely.intersection(lines, dial))
        kept = kept[shapely.get_type_id(kept) == shapely.GeometryType.LINESTRING]
        points, line = shapely.get_coordinates(kept, return_index=True)
        starts = np.append(np.searchsorted(line, np.arange(len(kept))), len(points))
        shapes += _drawn(points, starts, theme)
        alone = local[single[index]]
        shapes += _points(alone[np.hypot(alone[:, 0], alone[:, 1]) <= reach_m], theme)
    return shapes


def ground_of_survey(
    backgrounds: Sequence[Background],
    base: Floats,
    metres: float,
    *,
    low: tuple[float, float],
    high: tuple[float, float],
    theme: Theme,
) -> list[Shape]:
    """What lies in sight on the map of all plots.

    Parameters
    ----------
    backgrounds
        In the system of the map.
    base
        Projected coordinates of the map's point (0, 0), metres.
    metres
        Metres in a unit of the system.
    low, high
        Corners of what is in sight, metres from the base.
    """
    shapes: list[Shape] = []
    for background in backgrounds:
        if isinstance(background, Picture):
            rows, columns = background.pixels.shape[:2]
            west, north = np.array([background.west, background.north]) * metres - base
            east = west + columns * background.pixel_width * metres
            south = north - rows * background.pixel_height * metres
            if west < high[0] and east > low[0] and south < high[1] and north > low[1]:
                corners = (float(west), float(south)), (float(east), float(north))
                shapes.append(Image(background.pixels, *corners, _OPACITY))
            continue
        seen, first = _in_sight(background, (np.array(low) + base) / metres, (np.array(high) + base) / metres)
        local = seen * metres - base
        single = np.diff(first) == 1
        shapes += _drawn(local, first, theme)
        shapes += _points(local[first[:-1][single]], theme)
    return shapes


def _in_sight(layer: Outlines, low: Floats, high: Floats) -> tuple[Floats, NDArray[np.int64]]:
    """Corners and first rows of the outlines that may be seen between two corners, thinned out where they are many."""
    first = layer.first
    if len(first) < 2:
        return np.zeros((0, 2)), np.zeros(1, np.int64)
    least = np.minimum.reduceat(layer.points, first[:-1], axis=0)
    most = np.maximum.reduceat(layer.points, first[:-1], axis=0)
    seen: NDArray[np.bool_] = np.all((least <= high) & (most >= low), axis=1)
    count = np.where(seen, np.diff(first), 0)
    line = np.repeat(np.arange(len(count)), np.diff(first))
    points, line = layer.points[seen[line]], line[seen[line]]
    step = -(-len(points) // MOST_CORNERS)
    if step > 1:
        ends = np.append(True, np.diff(line) != 0)
        ends |= np.append(ends[1:], True)
        kept = ends | (np.arange(len(points)) % step == 0)
        points, line = points[kept], line[kept]
    starts = np.flatnonzero(np.append(True, np.diff(line) != 0)) if len(line) else np.zeros(0, np.int64)
    return points, np.append(starts, len(points)).astype(np.int64)


def _renumbered(index: NDArray[np.int64]) -> NDArray[np.int64]:
    """The same runs of equal numbers, counted from 0."""
    return np.cumsum(np.append(False, np.diff(index) != 0)) if len(index) else index


def _drawn(points: Floats, first: NDArray[np.int64], theme: Theme) -> list[Shape]:
    return [Paths(points, first, Stroke(theme.soft, 0.2), closed=False)] if len(points) else []


def _points(places: Floats, theme: Theme) -> list[Shape]:
    return [Discs(places, radius_mm=_POINT_MM, stroke=Stroke(theme.soft, 0.2))] if len(places) else []


def _picture_of_plot(picture: Picture, centre: Floats, to_system: Floats, reach_m: float) -> list[Shape]:
    """The picture as seen in the dial, clear outside it."""
    along = (np.arange(_SIDE) + 0.5) / _SIDE * 2.0 * reach_m - reach_m
    x, y = np.meshgrid(along, -along)
    east = centre[0] + to_system[0, 0] * x + to_system[0, 1] * y
    north = centre[1] + to_system[1, 0] * x + to_system[1, 1] * y
    column = np.floor((east - picture.west) / picture.pixel_width).astype(np.int64)
    row = np.floor((picture.north - north) / picture.pixel_height).astype(np.int64)
    rows, columns = picture.pixels.shape[:2]
    seen = (column >= 0) & (column < columns) & (row >= 0) & (row < rows) & (x * x + y * y <= reach_m**2)
    if not seen.any():
        return []
    pixels = np.zeros((_SIDE, _SIDE, 4), np.uint8)
    pixels[seen] = picture.pixels[row[seen], column[seen]]
    return [Image(pixels, (-reach_m, -reach_m), (reach_m, reach_m), _OPACITY)]
