"""Marks of the stems of one visit: discs filled by kind, in or out, dead or cut, without dbh, too far out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stemmap.drawing.colouring import Colouring
from stemmap.drawing.palette import Theme, readable_on
from stemmap.drawing.scene import Discs, Floats, Lines, Polygons, Shape, StemPlaces, Stroke
from stemmap.survey.measured import Measured, Status
from stemmap.survey.survey import Survey

#: Radius of the thinnest disc drawn, of the mark of a stem without dbh, and of one at the rim.
LEAST_MM: Final = 0.25
NO_DBH_MM: Final = 1.0
RIM_MARK_MM: Final = 1.6
_OUTLINE_MM: Final = 0.18
#: Stems thicker than this lie under all others.
_THICK_M: Final = 1.0
_HOLLOW: Final = -2
#: How far the strokes of dead and cut stems reach beyond the mark.
_STROKE_BEYOND_MM: Final = 0.6

DIAMOND: Final = NO_DBH_MM * np.array([[0.0, 1.0], [1.0, 0.0], [0.0, -1.0], [-1.0, 0.0]])
_ARROW: Final = np.array([[0.0, 1.4], [1.1, -0.9], [0.0, -0.3], [-1.1, -0.9]])


@dataclass(frozen=True)
class Stems:
    """The stems of one visit that can be drawn, in the order of the survey; arrays of shape (n,).

    Parameters
    ----------
    row
        Row in the survey.
    place
        Where the mark stands, metres, shape (n, 2); at the rim when the stem is too far out.
    distance_m
        Horizontal distance of the stem itself.
    radius_m, radius_mm
        Radius of the mark, the sum of both.
    inside
        In, or not known to be out.
    status
        `Status`.
    no_dbh, far
        Drawn as a diamond; drawn as an arrow at the rim.
    kind
        Kind of its fill, -1 unknown.
    """

    row: NDArray[np.int64]
    place: Floats
    distance_m: Floats
    radius_m: Floats
    radius_mm: Floats
    inside: NDArray[np.bool_]
    status: NDArray[np.int8]
    no_dbh: NDArray[np.bool_]
    far: NDArray[np.bool_]
    kind: NDArray[np.int64]

    @property
    def places(self) -> StemPlaces:
        """Where the marks are, for whoever points at them."""
        return StemPlaces(self.row, self.place, self.radius_m, self.radius_mm)

    def radius_on_paper(self, millimetres_per_metre: float) -> Floats:
        """Radius of the marks in millimetres."""
        return self.radius_m * millimetres_per_metre + self.radius_mm

    def clear_on_paper(self, millimetres_per_metre: float) -> Floats:
        """Radius that a number keeps clear of, strokes of the status included, in millimetres."""
        struck = (self.status == Status.DEAD) | (self.status == Status.CUT)
        return self.radius_on_paper(millimetres_per_metre) + np.where(struck, _STROKE_BEYOND_MM * 0.7, 0.0)


def stems_of(
    survey: Survey,
    measured: Measured,
    visit_row: int,
    *,
    colours: Colouring,
    reach_m: float,
    millimetres_per_metre: float,
    symbol_factor: float = 1.0,
) -> Stems:
    """Gather what is drawn of the stems of a visit; those without a position are left out."""
    rows = survey.visits.stems(visit_row)
    x, y = measured.x_m[rows], measured.y_m[rows]
    drawn = np.isfinite(x + y)
    place = np.column_stack([x, y])[drawn]
    distance = np.hypot(place[:, 0], place[:, 1])
    dbh = measured.dbh_cm[rows][drawn]
    no_dbh = ~(dbh > 0.0)
    far = distance > reach_m
    rim = np.maximum(reach_m - 2.0 * RIM_MARK_MM / millimetres_per_metre, 0.0)
    place = place * np.where(far, rim / np.maximum(distance, 1e-9), 1.0)[:, None]
    to_scale = ~(no_dbh | far)
    radius_m = np.where(to_scale, symbol_factor * dbh / 200.0, 0.0)
    least = np.maximum(LEAST_MM - radius_m * millimetres_per_metre, 0.0)
    return Stems(
        row=np.flatnonzero(drawn) + rows.start,
        place=place,
        distance_m=distance,
        radius_m=radius_m,
        radius_mm=np.where(far, RIM_MARK_MM, np.where(no_dbh, NO_DBH_MM, least)),
        inside=(measured.inside[rows] | ~measured.inside_known[rows])[drawn],
        status=measured.status[rows][drawn],
        no_dbh=no_dbh & ~far,
        far=far,
        kind=colours.kind[drawn],
    )


def stem_shapes(stems: Stems, colours: Colouring, millimetres_per_metre: float, theme: Theme) -> list[Shape]:
    """Discs, diamonds and arrows of the stems, with the spots of their kind and the strokes of their status.

    A stem that is out is hollow, a dead one crossed through, a cut one struck through once, one that is gone
    dashed. One so thick that it is hardly true, as with a point lost from its dbh, lies under all others.
    """
    shapes: list[Shape] = []
    outline = Stroke(theme.ink, _OUTLINE_MM)
    gone = Stroke(theme.ink, _OUTLINE_MM, dash_mm=(0.6, 0.5))
    filled = stems.inside & (stems.status != Status.GONE)
    mark = np.where(filled, np.where(stems.kind >= 0, stems.kind % len(colours.fills), -1), _HOLLOW)
    thick = stems.radius_m > _THICK_M
    marks_of: dict[str, list[int]] = {}
    for number in np.unique(mark).tolist():
        marks_of.setdefault(theme.inside if number == _HOLLOW else colours.fill_of(number, theme), []).append(number)
    for chosen in (thick, ~thick) if thick.any() else (~thick,):
        for fill, numbers in marks_of.items():
            alike = np.isin(mark, numbers) & chosen
            shapes += _marks(stems, alike & (stems.status != Status.GONE), fill, outline)
            shapes += _marks(stems, alike & (stems.status == Status.GONE), fill, gone)
        shapes += _spots(
            stems,
            filled,
            drawn=chosen,
            colours=colours,
            millimetres_per_metre=millimetres_per_metre,
            theme=theme,
        )
    return shapes + _status_strokes(stems, millimetres_per_metre, theme)


def _marks(stems: Stems, chosen: NDArray[np.bool_], fill: str, stroke: Stroke) -> list[Shape]:
    shapes: list[Shape] = []
    discs = chosen & ~(stems.no_dbh | stems.far)
    if discs.any():
        shapes.append(Discs(stems.place[discs], stems.radius_m[discs], least_mm=LEAST_MM, fill=fill, stroke=stroke))
    diamonds = chosen & stems.no_dbh
    if diamonds.any():
        shapes.append(Polygons(stems.place[diamonds], outline_mm=DIAMOND, fill=fill, stroke=stroke))
    shapes += [
        Polygons(place[None, :], outline_mm=_arrow_along(place), fill=fill, stroke=stroke)
        for place in stems.place[chosen & stems.far]
    ]
    return shapes


def _arrow_along(place: Floats) -> Floats:
    east, north = place / max(float(np.hypot(*place)), 1e-9)
    turned: Floats = _ARROW @ np.array([[north, -east], [east, north]])
    return turned


def _spots(
    stems: Stems,
    filled: NDArray[np.bool_],
    *,
    drawn: NDArray[np.bool_],
    colours: Colouring,
    millimetres_per_metre: float,
    theme: Theme,
) -> list[Shape]:
    """Spots of the kinds, the dark ones and the light ones each as one shape."""
    paper = stems.radius_on_paper(millimetres_per_metre)
    discs = drawn & ~(stems.no_dbh | stems.far)
    centres: dict[str, list[Floats]] = {}
    radii: dict[str, list[Floats]] = {}
    kind = np.where(stems.kind >= 0, stems.kind % len(colours.spots), -1)
    for number in np.unique(kind[discs]).tolist():
        for full in (True, False):
            spots = colours.spots_of(number)
            seen = paper * min((size for *_, size in spots), default=0.0) >= theme.finest_mm
            chosen = discs & seen & (kind == number) & (filled == full)
            colour = readable_on(colours.fill_of(number, theme) if full else theme.inside)
            radius = stems.radius_m[chosen]
            for east, north, size in spots:
                centres.setdefault(colour, []).append(stems.place[chosen] + radius[:, None] * (east, north))
                radii.setdefault(colour, []).append(radius * size)
    return [Discs(np.vstack(centres[colour]), np.concatenate(radii[colour]), fill=colour) for colour in centres]


def _status_strokes(stems: Stems, millimetres_per_metre: float, theme: Theme) -> list[Shape]:
    shapes: list[Shape] = []
    radius = stems.radius_on_paper(millimetres_per_metre) + _STROKE_BEYOND_MM
    for status, directions in (
        (Status.DEAD, ((1.0, 1.0), (1.0, -1.0))),
        (Status.CUT, ((1.0, 1.0),)),
    ):
        chosen = stems.status == status
        if not chosen.any():
            continue
        for direction in directions:
            half = radius[chosen, None] * np.array(direction) / np.sqrt(2.0)
            place = stems.place[chosen]
            shapes.append(Lines(place, place, Stroke(theme.ink, 0.3), start_mm=-half, end_mm=half))
    return shapes
