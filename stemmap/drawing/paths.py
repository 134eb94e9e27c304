"""Ground that could not be seen from the centre, hatched, and the order of numbers as a path from stem to stem."""

from __future__ import annotations

from typing import Final

import numpy as np

from stemmap.core.visibility import HiddenGround
from stemmap.drawing.marks import Stems
from stemmap.drawing.palette import Theme
from stemmap.drawing.scene import Discs, Floats, Lines, Shape, Stroke
from stemmap.survey.numbering import in_order
from stemmap.survey.survey import Survey

#: Between two lines of the hatching, and most lines that are drawn.
_HATCH_MM: Final = 1.4
_MOST_LINES: Final = 400
_HATCH_WIDTH_MM: Final = 0.1
#: Corners of a sector's arc stand no further apart than this.
_ARC_DEG: Final = 3.0
_DIAGONAL: Final = np.full(2, np.sqrt(0.5))
#: Radius of the patch in the legend, of the ring where the numbers begin, and width of their path.
_PATCH_MM: Final = 1.9
_BEGIN_MM: Final = 1.6
_PATH_WIDTH_MM: Final = 0.2


def hidden_shapes(ground: HiddenGround, millimetres_per_metre: float, theme: Theme, *, radius_m: float) -> list[Shape]:
    """Hatching of the sectors that could not be seen, out to the border.

    The lines keep their distance on paper; where that would take too many of them, they stand further apart.

    Parameters
    ----------
    ground
        Sectors of this plot alone.
    millimetres_per_metre, theme
        As for the map.
    radius_m
        Of the circle.
    """
    if not len(ground.plot):
        return []
    import shapely

    sectors = shapely.union_all(
        [
            shapely.Polygon(_outline(start, end, beyond, radius_m))
            for start, end, beyond in zip(ground.start_deg, ground.end_deg, ground.beyond_m, strict=True)
        ]
    )
    # Where much is hidden, the hatching leaves the numbers more room.
    spacing = _HATCH_MM * (1.0 + float(ground.share[0]))
    step = max(spacing / millimetres_per_metre, 2.0 * radius_m / _MOST_LINES)
    lines = shapely.linestrings(_diamonds(step, radius_m))
    kept = shapely.get_parts(shapely.intersection(lines, sectors))
    kept = kept[(shapely.get_type_id(kept) == shapely.GeometryType.LINESTRING) & ~shapely.is_empty(kept)]
    ends = shapely.get_coordinates(kept).reshape(-1, 2, 2)
    return [_hatching(ends, theme)] if len(ends) else []


def hatched(theme: Theme) -> list[Shape]:
    """A patch of the hatching for the legend, a metre counted as a millimetre."""
    across = np.arange(-1.0, 2.0) * _HATCH_MM
    half = np.sqrt(_PATCH_MM**2 - across**2)
    return [_hatching(_diagonals(across, half), theme)]


def _hatching(ends: Floats, theme: Theme) -> Lines:
    return Lines(ends[:, 0], ends[:, 1], Stroke(theme.hatch, _HATCH_WIDTH_MM))


def _diagonals(across: Floats, half: Floats) -> Floats:
    """Lines from south-west to north-east, some way to the south-east of the origin, shape (n, 2, 2)."""
    middle, along = across[:, None] * (_DIAGONAL * (1.0, -1.0)), half[:, None] * _DIAGONAL
    return np.stack([middle - along, middle + along], axis=1)


def _diamonds(step: float, radius: float) -> Floats:
    """Sides of squares that stand on their corner around the origin, out to a circle; shape (n, 2, 2).

    So no line runs along a line of sight, and the hatching of a narrow sector is not taken for a single line.
    """
    across = np.arange(1.0, np.floor(radius / step) + 1.0) * step
    half = np.minimum(across, np.sqrt(np.maximum(radius**2 - across**2, 0.0)))
    side = _diagonals(across, half)
    return np.concatenate([side, -side, side[..., ::-1] * (1.0, -1.0), side[..., ::-1] * (-1.0, 1.0)])


def _outline(start_deg: float, end_deg: float, beyond_m: float, radius_m: float) -> Floats:
    """Corners of a sector from a distance out to the border, shape (n, 2)."""
    angle = np.radians(np.linspace(start_deg, end_deg, int((end_deg - start_deg) / _ARC_DEG) + 2))
    arc = np.column_stack([np.sin(angle), np.cos(angle)])
    return np.vstack([beyond_m * arc, radius_m * arc[::-1]])


def order_shapes(survey: Survey, stems: Stems, theme: Theme) -> list[Shape]:
    """A thin path from stem to stem by number, a ring around the first one."""
    if not len(stems.row):
        return []
    order = np.searchsorted(stems.row, in_order(survey, stems.row))
    return order_line(stems.place[order], theme, radius_m=float(stems.radius_m[order[0]]))


def order_line(place: Floats, theme: Theme, *, radius_m: float = 0.0) -> list[Shape]:
    """The path through some places, shape (n, 2), and the ring around the first stem of a radius."""
    stroke = Stroke(theme.ghost, _PATH_WIDTH_MM)
    ring = Discs(place[:1], radius_m, radius_mm=_BEGIN_MM, stroke=stroke)
    return [Lines(place[:-1], place[1:], stroke), ring]
