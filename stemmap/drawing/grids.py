"""Lines to read places from: rings and rays around the plot centre, eastings and northings, ellipses of uncertainty."""

from __future__ import annotations

from math import floor, log10
from typing import Final

import numpy as np

from stemmap.core import locate
from stemmap.core.bearings import to_degrees
from stemmap.drawing.decimals import Decimal
from stemmap.drawing.ground import LABELLED_TICKS, round_step, to_grid
from stemmap.drawing.marks import Stems
from stemmap.drawing.palette import Theme
from stemmap.drawing.scene import Discs, Floats, Lines, Paths, Shape, Stroke, Texts
from stemmap.drawing.typeface import SMALL
from stemmap.survey.measured import Measured
from stemmap.survey.place import coordinate_system
from stemmap.survey.survey import Survey
from stemmap.units import FULL_CIRCLE, METRES

#: Standard deviations that an ellipse of uncertainty reaches.
ELLIPSE_SD: Final = 2.0
_CORNERS: Final = 48
_RINGS: Final = 4
_GRID_LINES: Final = 5
#: Length over which the projection is taken as straight, metres; a plot is smaller.
_STRAIGHT_M: Final = 100.0
_GRID_DASH_MM: Final = (1.6, 0.8)


def ellipse(along: float, across: float) -> Floats:
    """Corners of an ellipse around the origin, its first half axis to the east, shape (k, 2)."""
    angle = np.linspace(0.0, 2.0 * np.pi, _CORNERS, endpoint=False)
    return np.column_stack([along * np.cos(angle), across * np.sin(angle)])


def uncertainty_shapes(measured: Measured, stems: Stems, theme: Theme) -> list[Shape]:
    """An ellipse of two standard deviations around each stem whose errors are known.

    The factor L of the covariance, L L' = C, turns a circle of that radius into the ellipse.
    """
    errors, row = measured.errors, stems.row
    east, north, both = errors.var_east[row], errors.var_north[row], errors.cov_east_north[row]
    known = np.isfinite(east + north + both) & (east > 0.0) & ~stems.far
    if not known.any():
        return []
    east, north, both = east[known], north[known], both[known]
    first = np.sqrt(east)
    slant = both / first
    second = np.sqrt(np.maximum(north - slant**2, 0.0))
    around = ellipse(ELLIPSE_SD, ELLIPSE_SD)
    x = first[:, None] * around[:, 0]
    y = slant[:, None] * around[:, 0] + second[:, None] * around[:, 1]
    corners = stems.place[known][:, None, :] + np.stack([x, y], axis=-1)
    starts = np.arange(len(east) + 1) * _CORNERS
    return [Paths(corners.reshape(-1, 2), starts, Stroke(theme.soft, 0.15))]


def polar_grid(survey: Survey, measured: Measured, visit_row: int, reach_m: float, theme: Theme) -> list[Shape]:
    """Rings at round distances with their figures, and a ray for each labelled tick."""
    unit = survey.settings.measurement.azimuth_unit
    length_unit = survey.settings.measurement.length_unit
    per_unit = METRES[length_unit]
    step = round_step(reach_m / per_unit / _RINGS)
    radii = np.arange(step, reach_m / per_unit, step)
    azimuth = np.arange(0.0, FULL_CIRCLE[unit], LABELLED_TICKS[unit])
    angle = to_grid(survey, measured, visit_row, to_degrees(azimuth, unit))
    direction = np.column_stack(locate.offsets(angle, 1.0))
    rings = np.zeros((len(radii), 2))
    stroke = Stroke(theme.soft, 0.1)
    sign = "m" if length_unit == "metre" else "ft"
    figures = tuple(f"{radius:g} {sign}" for radius in map(Decimal, radii.tolist()))
    return [
        Discs(rings, radii * per_unit, stroke=stroke),
        Lines(step * per_unit * direction, reach_m * direction, stroke),
        Texts(np.outer(radii * per_unit, direction[0]), figures, SMALL, theme.soft, (0.6, 1.3), align=0.0),
    ]


def projected_grid(measured: Measured, visit_row: int, reach_m: float, theme: Theme) -> list[Shape]:
    """Lines of round easting and northing in the system of the results; none where the plot has no coordinates."""
    found = None if measured.crs is None else projection(measured, visit_row, measured.crs)
    if found is None:
        return []
    centre, to_system = found
    to_ground = np.linalg.inv(to_system)
    step = round_step(2.0 * reach_m * float(np.abs(to_system).max()) / _GRID_LINES)
    decimals = max(-floor(log10(step) + 1e-9), 0)
    shapes: list[Shape] = []
    starts, ends = [], []
    for axis in (0, 1):
        normal = to_system[axis]
        size = float(np.hypot(*normal))
        low, high = centre[axis] - reach_m * size, centre[axis] + reach_m * size
        values = np.arange(np.ceil(low / step), np.floor(high / step) + 1.0) * step
        away = (values - centre[axis]) / size
        along = to_ground[:, 1 - axis] / np.hypot(*to_ground[:, 1 - axis])
        half = np.sqrt(np.maximum(reach_m**2 - away**2, 0.0))
        foot = away[:, None] * normal / size
        starts.append(foot - half[:, None] * along)
        ends.append(foot + half[:, None] * along)
        # Figures stand at the southern and western ends, clear of the rim, where the chord is long enough and those of
        # the other axis do not end as well, which they do in the south-west.
        long = (half > 0.45 * reach_m) & (away > -0.66 * reach_m)
        figures = tuple(
            f"{value:.{decimals}f}{' N' if axis else ' E'}" for value in map(Decimal, values[long].tolist())
        )
        offset = (1.5, 1.3) if axis else (0.6, 1.0 + SMALL)
        shapes.append(Texts(starts[-1][long], figures, SMALL, theme.soft, offset, align=0.0))
    lines = Lines(np.vstack(starts), np.vstack(ends), Stroke(theme.soft, 0.12, _GRID_DASH_MM))
    return [lines, *shapes]


def projection(measured: Measured, visit_row: int, crs: str) -> tuple[Floats, Floats] | None:
    """Place of a plot centre in a system, and the affine from grid east and north in metres to its coordinates.

    None where the plot has no coordinates.
    """
    places = measured.centres
    if places.system[visit_row] < 0:
        return None
    turn = float(np.nan_to_num(measured.convergence_deg[visit_row]))
    east, north = locate.project(
        places.x[[visit_row]],
        places.y[[visit_row]],
        coordinate_system(places.systems[places.system[visit_row]]),
        plot_of_stem=np.zeros(3, np.int64),
        true_azimuth_deg=np.array([0.0, 90.0, 0.0]) + turn,
        distance_m=np.array([0.0, _STRAIGHT_M, _STRAIGHT_M]),
        target_crs=coordinate_system(crs),
    )
    if not np.isfinite(east + north).all():
        return None
    points = np.array([east, north])
    return points[:, 0], (points[:, 1:] - points[:, :1]) / _STRAIGHT_M
