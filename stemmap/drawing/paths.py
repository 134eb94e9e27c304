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
    # Where much is hidden, the hatching leaves the numbers more room.
    spacing = _HATCH_MM * (1.0 + float(ground.share[0]))
    step = max(spacing / millimetres_per_metre, 2.0 * radius_m / _MOST_LINES)
    across = np.arange(1.0, np.floor(radius_m / step) + 1.0) * step
    ends = np.concatenate([_sides(ground, across, radius_m, middle) for middle in (45.0, 135.0, 225.0, 315.0)])
    return [_hatching(ends, theme)] if len(ends) else []


def _sides(ground: HiddenGround, across: Floats, radius_m: float, middle_deg: float) -> Floats:
    """What of the sides of squares, which stand on their corner around the centre, lies in the sectors.

    So no line runs along a line of sight, and the hatching of a narrow sector is not taken for a single line. A side
    at distance c from the centre is r = c / cos(a), a counted from its middle: it is beyond a distance d and within
    the circle where arccos(c / d) <= |a| <= arccos(c / radius).

    Parameters
    ----------
    across
        Distances of the sides from the centre, none beyond the circle; shape (n,).
    middle_deg
        Azimuth of their middles.

    Returns
    -------
    Ends of the parts, shape (parts, 2, 2).
    """
    first = np.radians(np.maximum(ground.start_deg - middle_deg, -45.0))[:, None]
    last = np.radians(np.minimum(ground.end_deg - middle_deg, 45.0))[:, None]
    nearest = np.arccos(np.minimum(across / ground.beyond_m[:, None], 1.0))
    farthest = np.arccos(across / radius_m)
    begin = np.stack([np.maximum(first, nearest), np.maximum(first, -farthest)])
    end = np.stack([np.minimum(last, farthest), np.minimum(last, -nearest)])
    kept = np.flatnonzero(end > begin)
    angle = np.stack([begin.ravel()[kept], end.ravel()[kept]], axis=1)
    away = np.broadcast_to(across, begin.shape).ravel()[kept, None] / np.cos(angle)
    azimuth = angle + np.radians(middle_deg)
    return np.stack([away * np.sin(azimuth), away * np.cos(azimuth)], axis=2)


def hatched(theme: Theme) -> list[Shape]:
    """A patch of the hatching for the legend, a metre counted as a millimetre."""
    across = np.arange(-1.0, 2.0) * _HATCH_MM
    half = np.sqrt(_PATCH_MM**2 - across**2)
    middle, along = across[:, None] * (_DIAGONAL * (1.0, -1.0)), half[:, None] * _DIAGONAL
    return [_hatching(np.stack([middle - along, middle + along], axis=1), theme)]


def _hatching(ends: Floats, theme: Theme) -> Lines:
    return Lines(ends[:, 0], ends[:, 1], Stroke(theme.hatch, _HATCH_WIDTH_MM))


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
