"""Where stems stood as typed that were decided to stand elsewhere: faint, with a line to the place that holds."""

from __future__ import annotations

import numpy as np

from stemmap.drawing.doubts import place_under
from stemmap.drawing.marks import LEAST_MM, Stems
from stemmap.drawing.palette import Theme
from stemmap.drawing.scene import Discs, Floats, Lines, Shape, Stroke
from stemmap.survey.decided import rows_of
from stemmap.survey.measured import Measured
from stemmap.survey.survey import Survey

#: Fields that say where a stem stands.
_PLACING = ("azimuth", "distance_m", "vertical_angle_deg")
#: Nearer than this to the place that holds, the place as typed is not drawn, metres.
_APART_M = 0.02


def places_as_typed(survey: Survey, measured: Measured, visit_row: int, *, turn_deg: float) -> dict[int, Floats]:
    """Where the stems of a visit that were decided to stand elsewhere would stand as typed, by row.

    Parameters
    ----------
    turn_deg
        Grid azimuth of the survey's own north at the plot.
    """
    stems = survey.visits.stems(visit_row)
    records = survey.stems.records
    keys = list(zip(records.source[stems].tolist(), records.line[stems].tolist(), strict=True))
    typed: dict[int, dict[str, float]] = {}
    for field in _PLACING:
        decided = survey.decisions.values.get(field, {})
        here = [place for place, key in enumerate(keys) if key in decided]
        rows = rows_of(survey.upload.stems, [keys[place] for place in here])
        numbers = np.append(survey.upload.stems.numbers(field), np.nan)[rows]
        for place, number in zip(here, numbers.tolist(), strict=True):
            typed.setdefault(stems.start + place, {})[field] = number
    places = {row: place_under(survey, measured, row, values, turn_deg=turn_deg)[0] for row, values in typed.items()}
    return {row: place for row, place in places.items() if np.isfinite(place).all()}


def as_typed_shapes(
    survey: Survey,
    measured: Measured,
    visit_row: int,
    stems: Stems,
    *,
    turn_deg: float,
    reach_m: float,
    theme: Theme,
) -> list[Shape]:
    """Dotted discs at the places as typed, each tied to its stem."""
    if not survey.decisions.values:
        return []
    shapes: list[Shape] = []
    for row, place in places_as_typed(survey, measured, visit_row, turn_deg=turn_deg).items():
        drawn = stems.row == row
        held = stems.place[drawn]
        if len(held) and np.hypot(*place) <= reach_m and np.hypot(*(place - held[0])) > _APART_M:
            radii = stems.radius_m[drawn], float(stems.radius_mm[drawn][0])
            shapes += typed_place(place[None, :], held, *radii, theme=theme)
    return shapes


def typed_place(
    typed: Floats, held: Floats, radius_m: Floats | float, radius_mm: float, *, theme: Theme
) -> list[Shape]:
    """A place as typed and the line to the place that holds."""
    stroke = Stroke(theme.soft, 0.2, dash_mm=(0.35, 0.55))
    return [
        Lines(typed, held, Stroke(theme.soft, 0.15)),
        Discs(typed, radius_m, radius_mm=radius_mm, least_mm=LEAST_MM, stroke=stroke),
    ]
