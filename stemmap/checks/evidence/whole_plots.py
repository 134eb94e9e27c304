"""What all stems of a plot may have been meant to be, when the plot as a whole is turned, moved or read otherwise."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.last_visit import revisit
from stemmap.checks.evidence.readings import READINGS, north_of_plots
from stemmap.core.bearings import from_degrees
from stemmap.core.locate import polar
from stemmap.core.revisit import Map, placed
from stemmap.survey.batches import Meant
from stemmap.survey.registry import Case
from stemmap.survey.sight import AT_CENTRE, station_rows
from stemmap.units import FULL_CIRCLE, METRES

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]

#: Two visits cannot say which of them is wrong.
EITHER = 0.5


def laid_on_last(case: Case, chosen: Integers) -> Meant:
    """Azimuths, and distances of moved plots, that lay this visit's maps on the last ones.

    Parameters
    ----------
    chosen
        Places among the pairs of visits.
    """
    both, measured = case.once(revisit), case.measured
    rows, plot, first = stems_of(case, both.visit[chosen])
    nothing = np.zeros(len(rows))
    here = Map(measured.x_m[rows], measured.y_m[rows], nothing, nothing, nothing, nothing, chosen[plot])
    at = placed(here, both.fit)
    azimuth, distance = polar(at.x_m, at.y_m)
    visit = both.visit[chosen][plot]
    unit = case.survey.settings.measurement.azimuth_unit
    typed = np.mod(from_degrees(azimuth - case.once(north_of_plots)[visit], unit), FULL_CIRCLE[unit])
    moved = both.moved[chosen][plot]
    values = {"azimuth": typed, "distance_m": np.where(moved, _typed_distance(case, rows, distance), np.nan)}
    return Meant(rows, first, values, np.full(len(chosen), EITHER))


def read_so(case: Case, chosen: Integers) -> Meant:
    """Azimuths as the likeliest readings of the plots have them.

    Parameters
    ----------
    chosen
        Places among the pairs of visits.
    """
    both = case.once(revisit)
    rows, plot, first = stems_of(case, both.visit[chosen])
    reading = both.otherwise.reading[chosen][plot]
    unit = case.survey.settings.measurement.azimuth_unit
    factor = np.array([each.azimuth_factor for each in READINGS])[reading]
    azimuth = np.mod(case.survey.stems.numbers("azimuth")[rows] * factor, FULL_CIRCLE[unit])
    return Meant(rows, first, {"azimuth": azimuth}, EITHER * both.otherwise.chance[chosen])


def longer(case: Case, rows: Integers, *, factor: Floats, radii_added: Floats) -> Floats:
    """Distances as typed, when horizontal ones are multiplied and radii of stems added; NaN where nothing changes."""
    horizontal = case.measured.horizontal_distance_m[rows] * factor
    horizontal = horizontal + np.where(radii_added != 0.0, radii_added * case.measured.dbh_cm[rows] / 200.0, 0.0)
    changed = (factor != 1.0) | (radii_added != 0.0)
    return np.where(changed, _typed_distance(case, rows, horizontal), np.nan)


def stems_of(case: Case, visit: Integers) -> tuple[Integers, Integers, Integers]:
    """Rows of the stems measured from the centre, the place of the visit of each, and where visits begin among them."""
    first, count = case.survey.visits.first_stem[visit], case.survey.visits.stem_count[visit]
    plot = np.repeat(np.arange(len(visit)), count)
    rows = first[plot] + np.arange(len(plot)) - (np.cumsum(count) - count)[plot]
    kept = station_rows(case.survey)[rows] == AT_CENTRE
    rows, plot = rows[kept], plot[kept]
    return rows, plot, np.searchsorted(plot, np.arange(len(visit) + 1))


def _typed_distance(case: Case, rows: Integers, horizontal_m: Floats) -> Floats:
    """The distance that would have been typed for a horizontal distance to the axis."""
    settings = case.survey.settings.measurement
    typed = horizontal_m
    if settings.distance_to == "face":
        typed = typed - np.nan_to_num(case.measured.dbh_cm[rows]) / 200.0
    if settings.distance == "slope":
        angle = case.survey.stems.numbers("vertical_angle_deg")[rows]
        typed = typed / np.cos(np.radians(np.where(np.abs(angle) < 90.0, angle, np.nan)))
    return typed / METRES[settings.length_unit]
