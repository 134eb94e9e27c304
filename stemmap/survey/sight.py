"""Lines of sight: azimuths in degrees, distances to the axis in metres, diameters, and where they were taken from."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from stemmap.core import bearings, locate
from stemmap.survey.records import Records
from stemmap.survey.settings import Settings
from stemmap.survey.survey import Survey
from stemmap.units import DBH_CENTIMETRES, FULL_CIRCLE, METRES

Floats = NDArray[np.float64]

#: In `station_rows`: the stem was measured from the plot centre.
AT_CENTRE = -2
#: In `station_rows`: the stem names a station that nobody described.
UNKNOWN_STATION = -1


@dataclass(frozen=True)
class Sight:
    """Lines of sight as measured, one a stem, in the north they were typed in; NaN where unusable.

    Parameters
    ----------
    azimuth_deg, distance_m
        Direction and distance as measured.
    vertical_angle_deg
        Of slope distances; None when distances are horizontal.
    dbh_cm
        Of distances taken to the face of the stem; None when they were taken to the axis.
    horizontal_m
        Horizontal distance to the axis.
    station
        As `station_rows` tells.
    """

    azimuth_deg: Floats
    distance_m: Floats
    vertical_angle_deg: Floats | None
    dbh_cm: Floats | None
    horizontal_m: Floats
    station: NDArray[np.int64]


@dataclass(frozen=True)
class FromCentre:
    """The same stems as the plot centre sees them, in the north they were typed in.

    Parameters
    ----------
    azimuth_deg, distance_m
        Direction and horizontal distance to the axis.
    errors
        Standard deviations and covariance in that north.
    """

    azimuth_deg: Floats
    distance_m: Floats
    errors: locate.PositionErrors


def diameter(records: Records, settings: Settings) -> Floats:
    """Dbh in centimetres by stem: as typed, from millimetres, from girth; the mean where two were measured crosswise.

    NaN where nothing above zero was typed.
    """
    first, second = crosswise_diameters(records, settings)
    return np.where(np.isnan(second), first, np.where(np.isnan(first), second, 0.5 * (first + second)))


def crosswise_diameters(records: Records, settings: Settings) -> tuple[Floats, Floats]:
    """The first dbh, in whatever form it was typed, and the one measured crosswise, in centimetres; NaN for none."""
    unit = DBH_CENTIMETRES[settings.measurement.length_unit]
    first = positive(records.numbers("dbh_cm")) * unit
    for name, factor in (("dbh_mm", 0.1), ("girth_cm", unit / np.pi)):
        if records.has(name):
            first = np.where(np.isnan(first), positive(records.numbers(name)) * factor, first)
    second = positive(records.numbers("dbh_cross_cm")) * unit
    if records.has("dbh_cross_mm"):
        millimetres = positive(records.numbers("dbh_cross_mm")) * 0.1
        second = np.where(np.isnan(millimetres), second, millimetres)
    return first, second


def lines_of_sight(survey: Survey, dbh_cm: Floats) -> Sight:
    """Lines of sight as far as they can be measurements.

    An azimuth outside the full circle of its unit, a distance that is zero or negative and a vertical angle that
    does not point forward are taken as missing.
    """
    measurement, records = survey.settings.measurement, survey.stems.records
    azimuth, distance = _polar_columns(records, survey.settings)
    angle = None
    if measurement.distance == "slope":
        angle = records.numbers("vertical_angle_deg")
        angle = np.where(np.abs(angle) < 90.0, angle, np.nan)
    to_face = dbh_cm if measurement.distance_to == "face" else None
    horizontal = locate.horizontal_distance(distance, vertical_angle_deg=angle, dbh_cm=to_face)
    return Sight(azimuth, distance, angle, to_face, horizontal, station_rows(survey))


def from_centre(survey: Survey, sight: Sight) -> FromCentre:
    """Azimuth and distance from the plot centre, whatever point the stem was measured from, and the errors."""
    precision = survey.settings.errors
    errors = locate.position_errors(
        sight.azimuth_deg,
        sight.distance_m,
        precision,
        vertical_angle_deg=sight.vertical_angle_deg,
        dbh_cm=sight.dbh_cm,
    )
    rows = np.flatnonzero(sight.station != AT_CENTRE)
    if not len(rows):
        return FromCentre(sight.azimuth_deg, sight.horizontal_m, errors)
    leg_azimuth, leg = station_legs(survey)
    leg_errors = locate.position_errors(leg_azimuth, leg, precision)
    place = sight.station[rows]
    x, y = locate.offsets(sight.azimuth_deg[rows], sight.horizontal_m[rows])
    leg_x, leg_y = locate.offsets(leg_azimuth[place], leg[place])
    azimuth, distance = sight.azimuth_deg.copy(), sight.horizontal_m.copy()
    azimuth[rows], distance[rows] = locate.polar(x + leg_x, y + leg_y)
    return FromCentre(azimuth, distance, _with_leg(errors, leg_errors, rows, place, azimuth[rows]))


def station_legs(survey: Survey) -> tuple[Floats, Floats]:
    """Azimuth (degrees) and distance (metres) of every station from the plot centre; NaN where unusable.

    One more row stands at the end, unknown, for stems whose station nobody described.
    """
    azimuth, distance = _polar_columns(survey.stations, survey.settings)
    return np.append(azimuth, np.nan), np.append(distance, np.nan)


def station_rows(survey: Survey) -> NDArray[np.int64]:
    """Row of each stem's station in the stations table, `AT_CENTRE` or `UNKNOWN_STATION`; shape (stems,).

    An empty cell means the plot centre, and so does a station at distance zero. A station without a plot holds
    for all plots.
    """
    stems, stations = survey.stems, survey.stations
    column = stems.records.columns.get("station")
    rows = np.full(len(stems), AT_CENTRE, np.int64)
    if column is None:
        return rows
    at_centre = stations.numbers("distance_m") == 0.0
    described: dict[tuple[str, str], int] = {}
    for row, key in enumerate(zip(stations.texts("plot"), stations.texts("station"), strict=True)):
        described.setdefault((str(key[0]).strip(), str(key[1]).strip()), AT_CENTRE if at_centre[row] else row)
    used = np.flatnonzero(column.filled)
    pairs, place = np.unique(stems.visit_row[used] * len(column.labels) + column.codes[used], return_inverse=True)
    found = np.empty(len(pairs), np.int64)
    for number, pair in enumerate(pairs.tolist()):
        plot, label = survey.visits.plot[pair // len(column.labels)], str(column.labels[pair % len(column.labels)])
        found[number] = described.get((plot, label.strip()), described.get(("", label.strip()), UNKNOWN_STATION))
    rows[used] = found[place]
    return rows


def positive(numbers: Floats) -> Floats:
    """The numbers above zero; NaN for all others."""
    return np.where(numbers > 0.0, numbers, np.nan)


def _polar_columns(records: Records, settings: Settings) -> tuple[Floats, Floats]:
    """Azimuth in degrees and distance in metres as far as they can be measurements."""
    unit = settings.measurement.azimuth_unit
    azimuth = records.numbers("azimuth")
    usable = (azimuth >= 0.0) & (azimuth <= FULL_CIRCLE[unit])
    degrees = bearings.to_degrees(np.where(usable, azimuth, np.nan), unit)
    return degrees, positive(records.numbers("distance_m")) * METRES[settings.measurement.length_unit]


def _with_leg(
    errors: locate.PositionErrors,
    leg: locate.PositionErrors,
    rows: NDArray[np.int64],
    place: NDArray[np.int64],
    azimuth_deg: Floats,
) -> locate.PositionErrors:
    """Errors of stems measured from a station: those of the leg added, seen from the centre."""
    east, north, both = errors.var_east.copy(), errors.var_north.copy(), errors.cov_east_north.copy()
    east[rows] += leg.var_east[place]
    north[rows] += leg.var_north[place]
    both[rows] += leg.cov_east_north[place]
    radial, tangential, tape = errors.radial_sd_m.copy(), errors.tangential_sd_m.copy(), errors.tape_sd_m.copy()
    radial[rows], tangential[rows] = locate.polar_errors(azimuth_deg, east[rows], north[rows], both[rows])
    tape[rows] = radial[rows]
    return replace(
        errors,
        radial_sd_m=radial,
        tape_sd_m=tape,
        tangential_sd_m=tangential,
        var_east=east,
        var_north=north,
        cov_east_north=both,
    )
