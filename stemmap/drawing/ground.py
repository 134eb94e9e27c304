"""The ground of a plot map: borders of the plot, borderline zone, azimuth ticks, north, scale bar."""

from __future__ import annotations

from dataclasses import dataclass
from math import floor, hypot, log10
from typing import Final

import numpy as np

from stemmap.core.bearings import grid_azimuth, to_degrees
from stemmap.core.design import ground_ellipse
from stemmap.core.locate import offsets
from stemmap.drawing.decimals import Decimal
from stemmap.drawing.palette import Theme
from stemmap.drawing.scene import ORIGIN, Box, Discs, Floats, Lines, Polygons, Scene, Shape, Stroke, Texts
from stemmap.drawing.typeface import SMALL, widths
from stemmap.survey.measured import Measured
from stemmap.survey.survey import Survey
from stemmap.units import METRES

#: Room outside the dial for ticks and their figures.
RIM_MM: Final = 8.0
#: Ground shown beyond the plot's border, as a share of its radius, and at least in millimetres.
BEYOND: Final = 0.05
BEYOND_MM: Final = 1.5
#: Half width of the borderline zone in standard deviations of the distance.
ZONE_SD: Final = 2.0

_CORNERS: Final = 360
#: Steps of ticks and of their figures, in the unit of the azimuths.
_TICKS: Final = {
    "degree": (10, 30),
    "gon": (10, 50),
    "mil_6400": (100, 800),
    "mil_6300": (100, 700),
    "mil_6000": (100, 500),
}
#: Steps of the ticks that carry figures.
LABELLED_TICKS: Final = {unit: labelled for unit, (_, labelled) in _TICKS.items()}
_FULL: Final = {"degree": 360, "gon": 400, "mil_6400": 6400, "mil_6300": 6300, "mil_6000": 6000}


@dataclass(frozen=True)
class Border:
    """The border of a plot, or of one of its concentric circles, on the map.

    Parameters
    ----------
    x_m, y_m
        Its middle.
    along_m, across_m
        Half axes along and across the aspect; equal for a circle.
    aspect_deg
        Grid azimuth of the first.
    zone_m
        Half width of the borderline zone.
    nominal_m
        Radius as the design states it.
    """

    x_m: float
    y_m: float
    along_m: float
    across_m: float
    aspect_deg: float
    zone_m: float
    nominal_m: float

    @property
    def reach_m(self) -> float:
        """Distance from the plot centre that the border and its zone never pass."""
        return hypot(self.x_m, self.y_m) + max(self.along_m, self.across_m) + self.zone_m

    @property
    def is_circle(self) -> bool:
        """Whether no slope makes it an ellipse."""
        return self.along_m == self.across_m

    def drawn(self, *, grown_m: float = 0.0, fill: str | None = None, stroke: Stroke | None = None) -> Shape:
        """Return the border, or one as far outside it as it is grown, as a shape."""
        place = np.array([[self.x_m, self.y_m]])
        along_m, across_m = max(self.along_m + grown_m, 0.0), max(self.across_m + grown_m, 0.0)
        if self.is_circle:
            return Discs(place, across_m, fill=fill, stroke=stroke)
        angle = np.linspace(0.0, 2.0 * np.pi, _CORNERS, endpoint=False)
        along, across = along_m * np.cos(angle), across_m * np.sin(angle)
        east, north = offsets(self.aspect_deg, 1.0)
        outline = np.column_stack([along * east + across * north, along * north - across * east])
        return Polygons(place, outline, fill=fill, stroke=stroke)


def borders(survey: Survey, measured: Measured, visit_row: int) -> tuple[Border, ...]:
    """Borders of a plot, the largest first; none where the design draws none or the radius is not known.

    A circle laid out on the slope is an ellipse on the map when slope and aspect are known, else its nominal circle.
    """
    settings, visits = survey.settings, survey.visits
    design, metres = settings.design, METRES[settings.measurement.length_unit]
    if design.kind == "concentric":
        circles = [(item.radius_m * metres, item.offset_azimuth, item.offset_m * metres) for item in design.circles]
    else:
        radius = float(measured.radius_m[visit_row])
        circles = [(radius, 0.0, 0.0)] if np.isfinite(radius) else []
    slope = float(visits.numbers("slope_percent")[visit_row])
    aspect = float(to_grid(survey, measured, visit_row, visits.numbers("aspect_deg")[visit_row]))
    rule = design.slope if design.kind != "angle_count" and np.isfinite(slope + aspect) else "horizontal"
    made = []
    for radius, offset_azimuth, offset_m in circles:
        axes = ground_ellipse(radius, slope, rule)
        azimuth = to_degrees(offset_azimuth, settings.measurement.azimuth_unit)
        x, y = offsets(to_grid(survey, measured, visit_row, azimuth), offset_m) if offset_m else (0.0, 0.0)
        zone = ZONE_SD * hypot(settings.errors.distance_sd_m, settings.errors.distance_sd_percent / 100.0 * radius)
        made.append(
            Border(
                x_m=float(x),
                y_m=float(y),
                along_m=float(axes.along_m),
                across_m=float(axes.across_m),
                aspect_deg=aspect,
                zone_m=max(zone, settings.errors.borderline_m),
                nominal_m=radius,
            )
        )
    return tuple(sorted(made, key=lambda border: -border.across_m))


def to_grid(survey: Survey, measured: Measured, visit_row: int, azimuth_deg: Floats | float) -> Floats:
    """Grid azimuths of a visit's azimuths, in degrees of the survey's own north; a turn not known counts as 0."""
    convergence = 0.0 if survey.settings.measurement.north == "grid" else measured.convergence_deg[visit_row]
    return grid_azimuth(
        azimuth_deg,
        declination_deg=np.nan_to_num(measured.declination_deg[visit_row]),
        convergence_deg=np.nan_to_num(convergence),
    )


def ground_shapes(lines: tuple[Border, ...], reach_m: float, theme: Theme, *, zones: bool = True) -> list[Shape]:
    """Ground outside and inside, borderline zones if wanted."""
    outside = theme.outside if lines else theme.inside
    shapes: list[Shape] = [Discs(ORIGIN, reach_m, fill=outside, stroke=Stroke(theme.soft, 0.15))]
    for border in lines:  # the largest first, so that the ring of a nested one is left standing
        if zones:
            shapes.append(border.drawn(grown_m=border.zone_m, fill=theme.zone))
        shapes.append(border.drawn(grown_m=-border.zone_m if zones else 0.0, fill=theme.inside))
    return shapes


def border_shapes(lines: tuple[Border, ...], theme: Theme, *, circles: bool = True) -> list[Shape]:
    """Borders if wanted, and the centre mark."""
    shapes = [border.drawn(stroke=Stroke(theme.ink, 0.35)) for border in lines] if circles else []
    arms = np.array([[-1.6, 0.0], [1.6, 0.0], [0.0, -1.6], [0.0, 1.6]])
    shapes.append(Lines(np.zeros((4, 2)), np.zeros((4, 2)), Stroke(theme.ink, 0.25), start_mm=arms, end_mm=0.35 * arms))
    return shapes


def tick_shapes(survey: Survey, measured: Measured, visit_row: int, reach_m: float, theme: Theme) -> list[Shape]:
    """Azimuth ticks around the dial, in the survey's own unit and counted from its own north."""
    unit = survey.settings.measurement.azimuth_unit
    step, labelled = _TICKS[unit]
    azimuth = np.arange(0, _FULL[unit], step)
    angle = to_grid(survey, measured, visit_row, to_degrees(azimuth, unit))
    direction = np.column_stack(offsets(angle, 1.0))
    long = azimuth % labelled == 0
    rim = reach_m * direction
    length = np.where(long, 2.2, 1.2)[:, None]
    figures = tuple(str(value) for value in azimuth[long].tolist())
    return [
        Lines(rim, rim, Stroke(theme.soft, 0.2), end_mm=length * direction),
        Texts(rim[long], figures, SMALL, theme.soft, offset_mm=direction[long] * _away_mm(figures, direction[long])),
    ]


def _away_mm(figures: tuple[str, ...], direction: Floats) -> Floats:
    """Distance from the rim at which the middle of each figure clears the ticks, shape (n, 1)."""
    half = np.column_stack([widths(figures) * SMALL / 2.0, np.full(len(figures), SMALL * 0.36)])
    away: Floats = 2.8 + (np.abs(direction) * half).sum(axis=1, keepdims=True)
    return away


def scale_bar(
    millimetres_per_metre: float, theme: Theme, *, length_unit: str = "metre", longest_mm: float = 30.0
) -> Scene:
    """A bar of a round length (1, 2 or 5 times a power of ten), its left end at the origin."""
    per_unit = millimetres_per_metre * METRES[length_unit]
    length = round_step(longest_mm / per_unit)
    along = np.array([0.0, 0.5, 1.0]) * length * per_unit
    ends = np.column_stack([along, np.zeros(3)])
    text = f"{Decimal(length):g} {'m' if length_unit == 'metre' else 'ft'}"
    stroke = Stroke(theme.ink, 0.3)
    none = np.zeros((3, 2))
    heights = np.array([[0.0, 1.6], [0.0, 0.9], [0.0, 1.6]])
    shapes: tuple[Shape, ...] = (
        Lines(none[:1], none[:1], stroke, start_mm=ends[:1], end_mm=ends[2:]),
        Lines(none, none, stroke, start_mm=ends, end_mm=ends + heights),
        Texts(none[:2], ("0", text), SMALL, theme.ink, offset_mm=ends[[0, 2]] + (0.0, 3.0)),
    )
    return Scene(shapes, Box(low_mm=(-1.0, -0.5), high_mm=(float(along[2]) + 4.0, 4.5)), theme.page)


def round_step(longest: float) -> float:
    """Largest of 1, 2 and 5 times a power of ten that does not pass a length."""
    power = 10.0 ** floor(log10(longest))
    return float(max(step * power for step in (1.0, 2.0, 5.0) if step * power <= longest * (1.0 + 1e-9)))


def north_mark(word: str, theme: Theme) -> Scene:
    """An arrow upwards with the north that is up, its foot at the origin."""
    blade = np.array([[0.0, 9.0], [-1.5, 4.6], [0.0, 5.4], [1.5, 4.6]])
    none = np.zeros((1, 2))
    shapes: tuple[Shape, ...] = (
        Lines(none, none, Stroke(theme.ink, 0.3), start_mm=(0.0, 0.0), end_mm=(0.0, 6.0)),
        Polygons(none, outline_mm=blade, fill=theme.ink),
        Texts(none, (word,), SMALL, theme.ink, offset_mm=(0.0, -1.8)),
    )
    half = float(widths((word,))[0]) * SMALL / 2.0
    return Scene(shapes, Box(low_mm=(-half, -3.0), high_mm=(half, 9.0)), theme.page)
