"""From records as typed to what was measured: SI units, grid azimuth, position around the centre, in or out."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum

import numpy as np
from numpy.typing import NDArray

from stemmap.core import bearings, inclusion, locate
from stemmap.core.design import Membership, membership
from stemmap.survey.place import Centres, centres, coordinate_system, results_crs
from stemmap.survey.records import Column, Records
from stemmap.survey.settings import Settings, StatusWords, sampling_design
from stemmap.survey.survey import Stems, Survey
from stemmap.units import DBH_CENTIMETRES, FULL_CIRCLE, METRES

Floats = NDArray[np.float64]


class Status(IntEnum):
    """What a stem was found to be; a stem without a status is living."""

    LIVING = 0
    DEAD = 1
    CUT = 2
    GONE = 3


@dataclass(frozen=True)
class Measured:
    """Everything computed from the records stem by stem and visit by visit. Unknown numbers are NaN.

    Parameters
    ----------
    centres
        Where the plots are.
    crs
        Coordinate system whose north the grid azimuths mean; None in a local frame without coordinates.
    declination_deg
        Magnetic declination by visit; 0 when azimuths are not magnetic, NaN when it is needed and not known: then
        azimuths are drawn as typed and true azimuths stay unknown.
    convergence_deg
        Meridian convergence at the plot centre, by visit; 0 in a local frame.
    radius_m
        Radius of the largest circle of the plot, by visit; NaN when the design gives none (angle count without a
        largest radius, or no radius at all).
    status
        `Status` by stem.
    status_known
        Whether the status was typed and understood, or left empty.
    dbh_cm
        Diameter at breast height whatever was typed (dbh, girth, two diameters, millimetres, inches).
    horizontal_distance_m
        Horizontal distance from the plot centre to the axis of the stem.
    true_azimuth_deg, grid_azimuth_deg
        From the plot centre, against true and grid north.
    x_m, y_m
        Grid east and grid north of the plot centre, ground metres.
    errors
        Standard deviations and covariance of the position.
    limiting_distance_m, compared_distance_m
        The stem is in when the compared distance does not pass the limiting distance.
    circle
        Index of the concentric circle that the stem belongs to; 0 in other designs, -1 when unknown or none.
    inside
        Whether the stem is in; False when that is not known.
    inside_known
        Whether `inside` could be decided.
    inside_probability
        Probability that the stem is in, given the errors of measurement.
    class_change_probability
        Probability that the true dbh falls into another class of the design than the recorded one.
    expansion_per_ha
        Stems per hectare that the stem stands for when it is in.
    borderline
        Whether the stem is too close to its limit to be decided from the centre.
    """

    centres: Centres
    crs: str | None
    declination_deg: Floats
    convergence_deg: Floats
    radius_m: Floats
    status: NDArray[np.int8]
    status_known: NDArray[np.bool_]
    dbh_cm: Floats
    horizontal_distance_m: Floats
    true_azimuth_deg: Floats
    grid_azimuth_deg: Floats
    x_m: Floats
    y_m: Floats
    errors: locate.PositionErrors
    limiting_distance_m: Floats
    compared_distance_m: Floats
    circle: NDArray[np.int64]
    inside: NDArray[np.bool_]
    inside_known: NDArray[np.bool_]
    inside_probability: Floats
    class_change_probability: Floats
    expansion_per_ha: Floats
    borderline: NDArray[np.bool_]


def measure(survey: Survey) -> Measured:
    """Compute everything that follows from the records and the settings, all plots at once.

    A value that cannot be a measurement is taken as missing: an azimuth outside the full circle of its unit, a
    distance or diameter that is zero or negative.

    Raises
    ------
    InputError
        When the design contradicts itself or the coordinate system of the settings is not known.
    """
    settings, stems = survey.settings, survey.stems
    places = centres(survey)
    crs = results_crs(survey, places)
    turning = _turning(survey, places, crs)
    dbh = diameter(stems.records, settings)
    sight = _sight(survey, dbh)
    azimuth, distance, errors = _from_centre(survey, sight)
    row = stems.visit_row
    grid_azimuth = np.mod(azimuth + turning.to_grid[row], 360.0)
    x, y = locate.offsets(grid_azimuth, distance)
    status, known = stem_status(stems.records.columns.get("status"), len(stems), settings.status)
    member, chance = _membership(survey, azimuth, distance, dbh, errors=errors, sight=sight)
    member = _as_first_visit(survey, member)
    gap = np.abs(member.compared_distance_m - member.limiting_distance_m)
    level = settings.errors.borderline_probability
    near = (chance.probability > level) & (chance.probability < 1.0 - level)
    return Measured(
        centres=places,
        crs=crs,
        declination_deg=turning.declination,
        convergence_deg=turning.convergence,
        radius_m=largest_radius(survey),
        status=status,
        status_known=known,
        dbh_cm=dbh,
        horizontal_distance_m=distance,
        true_azimuth_deg=np.mod(azimuth + turning.to_true[row], 360.0),
        grid_azimuth_deg=grid_azimuth,
        x_m=x,
        y_m=y,
        errors=errors,
        limiting_distance_m=member.limiting_distance_m,
        compared_distance_m=member.compared_distance_m,
        circle=member.circle,
        inside=member.inside,
        inside_known=member.known,
        inside_probability=chance.probability,
        class_change_probability=chance.class_change,
        expansion_per_ha=member.expansion_per_ha,
        borderline=(near | (gap <= settings.errors.borderline_m)) & np.isfinite(gap),
    )


def diameter(records: Records, settings: Settings) -> Floats:
    """Dbh in centimetres by stem: as typed, from millimetres, from girth; the mean where two were measured crosswise.

    NaN where nothing above zero was typed.
    """
    unit = DBH_CENTIMETRES[settings.measurement.length_unit]
    first = _positive(records.numbers("dbh_cm")) * unit
    for name, factor in (("dbh_mm", 0.1), ("girth_cm", unit / np.pi)):
        if records.has(name):
            first = np.where(np.isnan(first), _positive(records.numbers(name)) * factor, first)
    for name, factor in (("dbh_cross_cm", unit), ("dbh_cross_mm", 0.1)):
        if records.has(name):
            second = _positive(records.numbers(name)) * factor
            first = np.where(np.isnan(second), first, np.where(np.isnan(first), second, 0.5 * (first + second)))
    return first


def stem_status(column: Column | None, count: int, words: StatusWords) -> tuple[NDArray[np.int8], NDArray[np.bool_]]:
    """Status by stem and whether it was understood; nothing typed, and what is not understood, means living."""
    if column is None:
        return np.zeros(count, np.int8), np.ones(count, bool)
    meaning = {
        word.casefold(): status
        for status, listed in zip(Status, (words.living, words.dead, words.cut, words.gone), strict=True)
        for word in listed
    }
    codes = np.array([meaning.get(str(label).strip().casefold(), -1) for label in column.labels] + [0], np.int8)
    status = codes[column.codes]
    return np.maximum(status, 0).astype(np.int8), status >= 0


def largest_radius(survey: Survey) -> Floats:
    """Radius of the largest circle about the plot centre in metres, by visit; NaN where the design gives none."""
    settings = survey.settings
    unit, design = METRES[settings.measurement.length_unit], settings.design
    radius = np.full(len(survey.visits), np.nan)
    if design.kind == "fixed":
        radius[:] = np.nan if design.radius_m is None else design.radius_m * unit
        own = _positive(survey.visits.numbers("radius_m")) * unit
        return np.where(np.isnan(own), radius, own)
    if design.kind == "concentric":
        radius[:] = max((circle.radius_m + circle.offset_m for circle in design.circles), default=np.nan) * unit
    elif design.max_radius_m is not None:
        radius[:] = design.max_radius_m * unit
    return radius


@dataclass(frozen=True)
class _Turning:
    """Degrees to add to an azimuth as typed, by visit, and where they come from."""

    declination: Floats
    convergence: Floats
    to_true: Floats
    to_grid: Floats


def _turning(survey: Survey, places: Centres, crs: str | None) -> _Turning:
    count, measurement = len(survey.visits), survey.settings.measurement
    none = np.zeros(count)
    located = np.isfinite(places.lon)
    target = none.copy()
    if crs is not None and located.any():
        target[located] = bearings.convergence(places.lon[located], places.lat[located], coordinate_system(crs))
    if measurement.north == "grid":
        # Grid north is that of the plot's own system where the centre is given in one.
        own = target.copy()
        for text, rows in places.by_system():
            system = coordinate_system(text)
            if system.is_projected and text != crs:
                own[rows] = bearings.convergence(places.lon[rows], places.lat[rows], system)
        return _Turning(none, target, own, own - target)
    declination = none
    if measurement.north == "magnetic":
        declination = _declination(survey, places)
    drawn = np.where(np.isnan(declination), 0.0, declination)
    return _Turning(declination, target, declination, drawn - target)


def _declination(survey: Survey, places: Centres) -> Floats:
    """Declination by visit: the plot's own, else the settings', else computed for place and day."""
    declination = survey.visits.numbers("declination_deg")
    said = survey.settings.measurement.declination_deg
    if said is not None:
        declination = np.where(np.isnan(declination), said, declination)
    rows = np.flatnonzero(np.isnan(declination) & np.isfinite(places.lon) & ~np.isnat(survey.visits.date))
    if len(rows):
        declination[rows] = bearings.declination(
            places.lon[rows],
            places.lat[rows],
            survey.visits.numbers("elevation_m")[rows],
            survey.visits.date[rows],
        )
    return declination


@dataclass(frozen=True)
class _Sight:
    """Lines of sight as measured: degrees in the north they were typed in, metres; NaN where unusable."""

    azimuth: Floats
    distance: Floats
    vertical_angle: Floats | None
    dbh: Floats | None
    horizontal: Floats


def _sight(survey: Survey, dbh: Floats) -> _Sight:
    measurement, records = survey.settings.measurement, survey.stems.records
    azimuth, distance = _polar_columns(records, survey.settings)
    angle = records.numbers("vertical_angle_deg") if measurement.distance == "slope" else None
    to_face = dbh if measurement.distance_to == "face" else None
    horizontal = locate.horizontal_distance(distance, vertical_angle_deg=angle, dbh_cm=to_face)
    return _Sight(azimuth, distance, angle, to_face, horizontal)


def _polar_columns(records: Records, settings: Settings) -> tuple[Floats, Floats]:
    """Azimuth in degrees and distance in metres as far as they can be measurements."""
    unit = settings.measurement.azimuth_unit
    azimuth = records.numbers("azimuth")
    usable = (azimuth >= 0.0) & (azimuth <= FULL_CIRCLE[unit])
    degrees = bearings.to_degrees(np.where(usable, azimuth, np.nan), unit)
    return degrees, _positive(records.numbers("distance_m")) * METRES[settings.measurement.length_unit]


def _from_centre(survey: Survey, sight: _Sight) -> tuple[Floats, Floats, locate.PositionErrors]:
    """Azimuth and distance from the plot centre, whatever point the stem was measured from, and the errors."""
    error = survey.settings.errors
    precision = locate.Precision(
        azimuth_sd_deg=error.azimuth_sd_deg,
        distance_sd_m=error.distance_sd_m,
        distance_sd_percent=error.distance_sd_percent,
        vertical_angle_sd_deg=error.vertical_angle_sd_deg,
        dbh_sd_percent=error.dbh_sd_percent,
        dbh_sd_mm=error.dbh_sd_mm,
    )
    errors = locate.position_errors(
        sight.azimuth, sight.distance, precision, vertical_angle_deg=sight.vertical_angle, dbh_cm=sight.dbh
    )
    station = station_rows(survey)
    elsewhere = np.flatnonzero(station != AT_CENTRE)
    if not len(elsewhere):
        return sight.azimuth, sight.horizontal, errors
    leg_azimuth, leg = _station_legs(survey)
    leg_errors = locate.position_errors(leg_azimuth, leg, precision)
    place = station[elsewhere]
    x, y = locate.offsets(sight.azimuth[elsewhere], sight.horizontal[elsewhere])
    leg_x, leg_y = locate.offsets(leg_azimuth[place], leg[place])
    known = place != UNKNOWN_STATION
    azimuth, distance = sight.azimuth.copy(), sight.horizontal.copy()
    seen, away = locate.polar(x + leg_x, y + leg_y)
    azimuth[elsewhere], distance[elsewhere] = np.where(known, seen, np.nan), np.where(known, away, np.nan)
    return azimuth, distance, _with_leg(errors, leg_errors, elsewhere, place, azimuth)


def _station_legs(survey: Survey) -> tuple[Floats, Floats]:
    """Azimuth and distance of every station from the centre; a station at distance zero is the centre itself."""
    azimuth, _ = _polar_columns(survey.stations, survey.settings)
    distance = survey.stations.numbers("distance_m") * METRES[survey.settings.measurement.length_unit]
    # One more row, all unknown, for stems whose station nobody described.
    at_centre = distance == 0.0
    return np.append(np.where(at_centre, 0.0, azimuth), np.nan), np.append(distance, np.nan)


def _with_leg(
    errors: locate.PositionErrors,
    leg: locate.PositionErrors,
    rows: NDArray[np.int64],
    place: NDArray[np.int64],
    azimuth: Floats,
) -> locate.PositionErrors:
    """Errors of stems measured from a station: those of the leg added, seen from the centre."""
    east, north, both = errors.var_east.copy(), errors.var_north.copy(), errors.cov_east_north.copy()
    east[rows] += leg.var_east[place]
    north[rows] += leg.var_north[place]
    both[rows] += leg.cov_east_north[place]
    radial, tangential = errors.radial_sd_m.copy(), errors.tangential_sd_m.copy()
    radial[rows], tangential[rows] = locate.polar_errors(azimuth[rows], east[rows], north[rows], both[rows])
    tape = errors.tape_sd_m.copy()
    tape[rows] = radial[rows]
    return locate.PositionErrors(radial, tape, errors.slope_sd_m, tangential, east, north, both)


#: In `station_rows`: the stem was measured from the plot centre.
AT_CENTRE = -2
#: In `station_rows`: the stem names a station that nobody described.
UNKNOWN_STATION = -1


def station_rows(survey: Survey) -> NDArray[np.int64]:
    """Row of each stem's station in the stations table, `AT_CENTRE` or `UNKNOWN_STATION`; shape (stems,).

    A station without a plot holds for all plots. An empty cell means the plot centre.
    """
    stems, stations = survey.stems, survey.stations
    column = stems.records.columns.get("station")
    rows = np.full(len(stems), AT_CENTRE, np.int64)
    if column is None:
        return rows
    described: dict[tuple[str, str], int] = {}
    for row, key in enumerate(zip(stations.texts("plot"), stations.texts("station"), strict=True)):
        described.setdefault((str(key[0]).strip(), str(key[1]).strip()), row)
    used = np.flatnonzero(column.filled)
    pairs, place = np.unique(stems.visit_row[used] * len(column.labels) + column.codes[used], return_inverse=True)
    found = []
    for pair in pairs.tolist():
        plot, label = survey.visits.plot[pair // len(column.labels)], str(column.labels[pair % len(column.labels)])
        found.append(described.get((plot, label.strip()), described.get(("", label.strip()), UNKNOWN_STATION)))
    rows[used] = np.array(found, np.int64)[place] if found else rows[used]
    return rows


def _membership(
    survey: Survey,
    azimuth: Floats,
    distance: Floats,
    dbh: Floats,
    *,
    errors: locate.PositionErrors,
    sight: _Sight,
) -> tuple[Membership, inclusion.Inclusion]:
    """In or out, and with which probability; azimuths, aspect and offsets in the north they were typed in."""
    settings, row = survey.settings, survey.stems.visit_row
    design = sampling_design(settings)
    if design is None:
        return _undecided(distance)
    visits, error = survey.visits, settings.errors
    unit = METRES[settings.measurement.length_unit]
    slope_distance = None
    if sight.vertical_angle is not None:
        from_centre = station_rows(survey) == AT_CENTRE
        to_axis = 0.0 if sight.dbh is None else np.nan_to_num(sight.dbh) / 200.0
        slope_distance = np.where(from_centre, sight.distance + to_axis, np.nan)
    ground = {
        "radius_m": (_positive(visits.numbers("radius_m")) * unit)[row],
        "slope_percent": visits.numbers("slope_percent")[row],
        "aspect_deg": visits.numbers("aspect_deg")[row],
        "slope_distance_m": slope_distance,
    }
    member = membership(design, azimuth_deg=azimuth, distance_m=distance, dbh_cm=dbh, **ground)
    precision = locate.Precision(dbh_sd_percent=error.dbh_sd_percent, dbh_sd_mm=error.dbh_sd_mm)
    chance = inclusion.probability(
        design,
        azimuth_deg=azimuth,
        distance_m=distance,
        dbh_cm=dbh,
        tape_sd_m=errors.tape_sd_m,
        tangential_sd_m=errors.tangential_sd_m,
        dbh_sd_cm=locate.dbh_sd(dbh, precision),
        to_face=sight.dbh is not None,
        slope_sd_m=errors.slope_sd_m,
        **ground,
    )
    return member, chance


def _undecided(distance: Floats) -> tuple[Membership, inclusion.Inclusion]:
    """What can be said while the design is not told: nothing."""
    nothing = np.full(len(distance), np.nan)
    no = np.zeros(len(distance), bool)
    member = Membership(nothing, distance, nothing, np.full(len(distance), -1, np.int64), no, no)
    return member, inclusion.Inclusion(nothing, nothing, nothing)


def _as_first_visit(survey: Survey, member: Membership) -> Membership:
    """Where membership is fixed at the first visit: the decision and weight of the stem's first record."""
    if survey.settings.design.membership != "first_visit":
        return member
    first = first_records(survey.stems, survey.visits.previous)
    return Membership(
        limiting_distance_m=member.limiting_distance_m[first],
        compared_distance_m=member.compared_distance_m[first],
        expansion_per_ha=member.expansion_per_ha[first],
        circle=member.circle[first],
        inside=member.inside[first],
        known=member.known[first],
    )


def first_records(stems: Stems, previous: NDArray[np.int64]) -> NDArray[np.int64]:
    """Row of the earliest record of each stem: the same plot, the same tree and stem number; shape (stems,)."""
    plot = np.cumsum(previous < 0) - 1
    row = np.arange(len(stems))
    code, visit = stems.number_code, stems.visit_row
    of_plot = plot[visit]
    order = np.lexsort((row, code, of_plot))
    same = (np.diff(of_plot[order]) == 0) & (np.diff(code[order]) == 0) & (code[order][1:] >= 0)
    # Two records of one visit are two stems until somebody decides otherwise.
    start = np.maximum.accumulate(np.where(np.append(True, ~same)[: len(order)], np.arange(len(order)), 0))
    first = np.empty(len(stems), np.int64)
    first[order] = order[start]
    return np.where(visit[first] == visit, row, first)


def _positive(numbers: Floats) -> Floats:
    return np.where(numbers > 0.0, numbers, np.nan)
