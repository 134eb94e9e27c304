"""A map described once: lines, discs, polygons and text, placed in metres and shaped in millimetres.

Every place is a point in ground metres (x grid east, y grid north of the plot centre) plus an offset in millimetres on
the paper or screen (x right, y up). A `View` says how many device units a metre and a millimetre are; nothing else
differs between the screen, PDF, PNG and SVG.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

#: The place of everything that stands on paper alone.
ORIGIN: Floats = np.zeros((1, 2))
ORIGIN.flags.writeable = False
#: No offset in millimetres.
NO_OFFSET: tuple[float, float] = (0.0, 0.0)


@dataclass(frozen=True)
class Stroke:
    """How a line is drawn.

    Parameters
    ----------
    colour
        "#rrggbb".
    width_mm
        Width.
    dash_mm
        Lengths of dash, gap, dash ...; empty: a firm line.
    """

    colour: str
    width_mm: float = 0.2
    dash_mm: tuple[float, ...] = ()


@dataclass(frozen=True)
class Lines:
    """Straight lines, n of them.

    Parameters
    ----------
    start, end
        Metres, shape (n, 2).
    stroke
        One for all.
    start_mm, end_mm
        Offsets, shape (n, 2) or (2,).
    """

    start: Floats
    end: Floats
    stroke: Stroke
    start_mm: Floats | tuple[float, float] = NO_OFFSET
    end_mm: Floats | tuple[float, float] = NO_OFFSET


@dataclass(frozen=True)
class Discs:
    """Circles, n of them.

    Parameters
    ----------
    centre
        Metres, shape (n, 2).
    radius_m
        Radius to scale, shape (n,) or one for all.
    radius_mm
        Added to it.
    least_mm
        A smaller disc is drawn with this radius, so that a thin stem is still seen.
    fill
        "#rrggbb", or None for a hollow circle.
    stroke
        The outline, or None.
    centre_mm
        Offset, shape (n, 2) or (2,).
    """

    centre: Floats
    radius_m: Floats | float = 0.0
    radius_mm: float = 0.0
    least_mm: float = 0.0
    fill: str | None = None
    stroke: Stroke | None = None
    centre_mm: Floats | tuple[float, float] = NO_OFFSET


@dataclass(frozen=True)
class Polygons:
    """One outline, drawn at n places.

    Parameters
    ----------
    place
        Metres, shape (n, 2).
    outline_m, outline_mm
        The corners around a place, shape (k, 2), the sum of both; (2,) where one of them plays no part.
    fill, stroke
        As for `Discs`.
    """

    place: Floats
    outline_m: Floats | tuple[float, float] = (0.0, 0.0)
    outline_mm: Floats | tuple[float, float] = (0.0, 0.0)
    fill: str | None = None
    stroke: Stroke | None = None


@dataclass(frozen=True)
class Texts:
    """Single lines of text, n of them.

    Parameters
    ----------
    place
        Metres, shape (n, 2).
    texts
        n strings.
    size_mm
        Height of the letter body (em).
    colour
        "#rrggbb".
    offset_mm
        Shape (n, 2) or (2,).
    align
        Share of the text's width that lies left of the place: 0 begins there, 0.5 is centred, 1 ends there.
        The middle of the capitals lies at the height of the place.
    """

    place: Floats
    texts: tuple[str, ...]
    size_mm: float
    colour: str
    offset_mm: Floats | tuple[float, float] = NO_OFFSET
    align: float = 0.5


@dataclass(frozen=True)
class Paths:
    """Outlines, n of them, each with corners of its own.

    Parameters
    ----------
    points
        Corners of all of them one after the other, metres, shape (m, 2).
    first
        Corners of outline i are rows first[i] to first[i + 1]; shape (n + 1,).
    stroke
        One for all.
    closed
        Whether the last corner of each is tied to its first.
    offset_mm
        Shape (2,).
    """

    points: Floats
    first: NDArray[np.int64]
    stroke: Stroke
    closed: bool = True
    offset_mm: Floats | tuple[float, float] = NO_OFFSET


@dataclass(frozen=True, eq=False)
class Image:
    """A picture with north up.

    Parameters
    ----------
    pixels
        Red, green, blue and opacity from the upper left on, shape (rows, columns, 4).
    low, high
        South-west and north-east corner, metres.
    opacity
        1 covers what is under it, 0 is not seen.
    """

    pixels: NDArray[np.uint8]
    low: tuple[float, float]
    high: tuple[float, float]
    opacity: float = 1.0


Shape = Lines | Discs | Polygons | Texts | Paths | Image


@dataclass(frozen=True)
class Box:
    """What must be seen: a rectangle whose corners are metres plus millimetres.

    Parameters
    ----------
    low, high
        South-west and north-east corner, metres.
    low_mm, high_mm
        Offsets of these corners.
    """

    low: tuple[float, float] = (0.0, 0.0)
    high: tuple[float, float] = (0.0, 0.0)
    low_mm: tuple[float, float] = (0.0, 0.0)
    high_mm: tuple[float, float] = (0.0, 0.0)

    @classmethod
    def around_centre(cls, reach_m: float, margin_mm: float) -> Box:
        """Square around the plot centre."""
        return cls((-reach_m, -reach_m), (reach_m, reach_m), (-margin_mm, -margin_mm), (margin_mm, margin_mm))

    def size_mm(self, millimetres_per_metre: float) -> tuple[float, float]:
        """Width and height on paper."""
        width, height = (
            (self.high[i] - self.low[i]) * millimetres_per_metre + self.high_mm[i] - self.low_mm[i] for i in (0, 1)
        )
        return width, height


@dataclass(frozen=True)
class StemPlaces:
    """Where the stems of a scene are drawn, for whoever points at them.

    Parameters
    ----------
    row
        Row of the stem in the survey, shape (n,).
    place
        Metres, shape (n, 2).
    radius_m, radius_mm
        Radius of its mark, the sum of both, shape (n,).
    """

    row: NDArray[np.int64]
    place: Floats
    radius_m: Floats
    radius_mm: Floats


@dataclass(frozen=True)
class Scene:
    """A picture, painted in the order of its shapes.

    Parameters
    ----------
    shapes
        Lines, discs, polygons and text.
    box
        What must be seen.
    background
        Colour of the sheet or window under it.
    stems
        Where the stems are; None when the scene has none.
    notes
        Sentences for the reader of the map that are not drawn on it.
    """

    shapes: tuple[Shape, ...]
    box: Box
    background: str
    stems: StemPlaces | None = None
    notes: tuple[str, ...] = ()

    def at(self, place: tuple[float, float], offset_mm: tuple[float, float]) -> tuple[Shape, ...]:
        """Shapes of a scene that stands on paper alone, moved to a place of another one."""
        return tuple(_moved(shape, np.array([place]), np.asarray(offset_mm)) for shape in self.shapes)

    def stem_at(self, view: View, x: float, y: float, *, within_mm: float = 1.5) -> int:
        """Row of the stem under a point of the device, or the nearest one within some millimetres; -1: none."""
        if self.stems is None or not len(self.stems.row):
            return -1
        places = view.to_device(self.stems.place)
        radius = self.stems.radius_m * view.per_metre + self.stems.radius_mm * view.per_millimetre
        gap = np.hypot(places[:, 0] - x, places[:, 1] - y) - radius
        nearest = int(np.argmin(gap))
        return int(self.stems.row[nearest]) if gap[nearest] <= within_mm * view.per_millimetre else -1


def _moved(shape: Shape, place: Floats, offset_mm: Floats) -> Shape:
    match shape:
        case Lines():
            return replace(
                shape,
                start=shape.start + place,
                end=shape.end + place,
                start_mm=shape.start_mm + offset_mm,
                end_mm=shape.end_mm + offset_mm,
            )
        case Discs():
            return replace(shape, centre=shape.centre + place, centre_mm=shape.centre_mm + offset_mm)
        case Polygons():
            return replace(shape, place=shape.place + place, outline_mm=shape.outline_mm + offset_mm)
        case Texts():
            return replace(shape, place=shape.place + place, offset_mm=shape.offset_mm + offset_mm)
        case Paths():
            return replace(shape, points=shape.points + place, offset_mm=shape.offset_mm + offset_mm)
        case Image():
            east, north = place[0].tolist()
            low, high = ((x + east, y + north) for x, y in (shape.low, shape.high))
            return replace(shape, low=low, high=high)


@dataclass(frozen=True)
class View:
    """How metres and millimetres become the units of a device, whose y runs downwards.

    Parameters
    ----------
    origin_x, origin_y
        Device place of the plot centre.
    per_metre
        Device units per ground metre.
    per_millimetre
        Device units per millimetre.
    """

    origin_x: float
    origin_y: float
    per_metre: float
    per_millimetre: float

    @classmethod
    def fitting(cls, box: Box, width: float, height: float, per_millimetre: float) -> View:
        """The view in which a box just fits a device of the given size, centred."""
        (west, south), (east, north) = box.low, box.high
        (left, bottom), (right, top) = box.low_mm, box.high_mm
        free_width = max(width - (right - left) * per_millimetre, 1.0)
        free_height = max(height - (top - bottom) * per_millimetre, 1.0)
        spans = [free / span for free, span in ((free_width, east - west), (free_height, north - south)) if span > 0.0]
        per_metre = min(spans, default=per_millimetre)
        return cls(
            origin_x=width / 2.0 - (west + east) / 2.0 * per_metre - (left + right) / 2.0 * per_millimetre,
            origin_y=height / 2.0 + (south + north) / 2.0 * per_metre + (bottom + top) / 2.0 * per_millimetre,
            per_metre=per_metre,
            per_millimetre=per_millimetre,
        )

    @property
    def millimetres_per_metre(self) -> float:
        """Scale of the map: 10 at 1:100."""
        return self.per_metre / self.per_millimetre

    def to_device(self, place: Floats, offset_mm: Floats | tuple[float, float] = NO_OFFSET) -> Floats:
        """Device places of points in metres with offsets in millimetres, shape (n, 2)."""
        metre, millimetre, origin = self._factors
        device: Floats = place * metre + origin
        return device if offset_mm is NO_OFFSET else device + offset_mm * millimetre

    @cached_property
    def _factors(self) -> tuple[Floats, Floats, Floats]:
        up = np.array([1.0, -1.0])
        return self.per_metre * up, self.per_millimetre * up, np.array([self.origin_x, self.origin_y])

    def to_metres(self, x: float, y: float) -> tuple[float, float]:
        """Ground metres east and north of the plot centre of a point of the device."""
        return (x - self.origin_x) / self.per_metre, (self.origin_y - y) / self.per_metre

    def zoomed(self, factor: float, x: float, y: float) -> View:
        """Larger by a factor, the ground under a point of the device staying where it is."""
        return replace(
            self,
            origin_x=x + (self.origin_x - x) * factor,
            origin_y=y + (self.origin_y - y) * factor,
            per_metre=self.per_metre * factor,
        )

    def moved(self, x: float, y: float) -> View:
        """The same, moved by device units."""
        return replace(self, origin_x=self.origin_x + x, origin_y=self.origin_y + y)
