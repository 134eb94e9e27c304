"""Records as typed, ready to be doubted: polar values, how they were written, and the order of numbers."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stemmap.core.keystrokes import Quantity
from stemmap.survey.numbering import in_order
from stemmap.survey.registry import Case
from stemmap.survey.sight import AT_CENTRE, station_rows
from stemmap.units import DBH_CENTIMETRES, FULL_CIRCLE, METRES

Floats = NDArray[np.float64]

#: A plot of one or two stems has neither order nor neighbours to tell what was meant, and one of thousands is no plot
#: that a crew measures from its centre.
_FEWEST, _MOST = 3, 1000

#: Quantities that are doubted, with the columns each may stand in; the first that the upload has is taken.
QUANTITIES: tuple[Quantity, ...] = ("azimuth", "distance", "diameter")
_COLUMNS = (("azimuth",), ("distance_m",), ("dbh_cm", "dbh_mm", "girth_cm"))


@dataclass(frozen=True)
class Typed:
    """Columns of the doubted quantities and how a typed number becomes a place and a diameter.

    Parameters
    ----------
    columns
        Canonical name of each of `QUANTITIES`; None where the upload has none.
    numbers
        As typed, by quantity; shape (3, stems).
    turn_deg
        Added to an azimuth in degrees gives a grid azimuth, by stem.
    per_metre
        Horizontal metres by unit of typed distance, by stem: the unit and the cosine of the vertical angle.
    to_axis_m
        Metres from where the distance was taken to the axis, by stem.
    per_centimetre
        Centimetres of dbh by unit of the typed diameter.
    degrees
        Degrees by unit of the typed azimuth.
    doubted
        Stems whose place follows from these numbers alone, measured from the centre, on visits that can be judged;
        shape (stems,).
    order
        Stem rows in the order of their numbers, visit by visit; shape (stems,).
    """

    columns: tuple[str | None, ...]
    numbers: Floats
    turn_deg: Floats
    per_metre: Floats
    to_axis_m: Floats
    per_centimetre: float
    degrees: float
    doubted: NDArray[np.bool_]
    order: NDArray[np.int64]


def judged_visits(case: Case) -> NDArray[np.bool_]:
    """Whether the stems of a visit are few and many enough to be judged against each other; shape (visits,)."""
    count = case.survey.visits.stem_count
    return (count >= _FEWEST) & (count <= _MOST)


def typed(case: Case) -> Typed:
    """Columns of the doubted quantities of a survey."""
    survey, measured = case.survey, case.measured
    records, settings = survey.stems.records, survey.settings
    columns = tuple(next((name for name in names if records.has(name)), None) for names in _COLUMNS)
    numbers = np.stack([np.full(len(records), np.nan) if name is None else records.numbers(name) for name in columns])
    unit = settings.measurement.azimuth_unit
    degrees = 360.0 / FULL_CIRCLE[unit]
    metre = METRES[settings.measurement.length_unit]
    slope = settings.measurement.distance == "slope"
    angle = records.numbers("vertical_angle_deg") if slope else np.zeros(len(records))
    per_metre = metre * np.cos(np.radians(np.where(np.abs(angle) < 90.0, angle, np.nan)))
    to_axis = measured.horizontal_distance_m - numbers[1] * per_metre
    centimetre = DBH_CENTIMETRES[settings.measurement.length_unit]
    factor = {"dbh_mm": 0.1, "girth_cm": centimetre / np.pi}.get(columns[2] or "", centimetre)
    turned = (measured.grid_azimuth_deg - numbers[0] * degrees + 180.0) % 360.0 - 180.0
    return Typed(
        columns,
        numbers,
        _of_visit(turned, survey.stems.visit_row, len(survey.visits)),
        per_metre,
        np.where(np.isfinite(to_axis) & (numbers[1] > 0.0), to_axis, 0.0),
        factor,
        degrees,
        (station_rows(survey) == AT_CENTRE) & judged_visits(case)[survey.stems.visit_row],
        in_order(survey, np.arange(len(records))),
    )


def _of_visit(turned: Floats, visit_row: NDArray[np.int64], visits: int) -> Floats:
    """One turn for all stems of a visit: that of its first stem that has one."""
    known = np.flatnonzero(np.isfinite(turned))[::-1]
    of_visit = np.zeros(visits)
    of_visit[visit_row[known]] = turned[known]
    return of_visit[visit_row]
