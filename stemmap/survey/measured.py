"""From records as typed to what was measured: SI units, grid azimuth, position around the centre, in or out."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, fields, replace
from enum import IntEnum
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.core import bearings, inclusion, locate
from stemmap.core.design import Membership, membership
from stemmap.survey.ground import StandEdge, stand_edge
from stemmap.survey.north import north
from stemmap.survey.place import Centres, centres, results_crs
from stemmap.survey.records import Column
from stemmap.survey.settings import StatusWords, sampling_design
from stemmap.survey.sight import AT_CENTRE, FromCentre, Sight, diameter, from_centre, lines_of_sight, positive
from stemmap.survey.survey import Stems, Survey
from stemmap.units import METRES

Floats = NDArray[np.float64]


#: What is computed stem by stem.
_OF_STEMS = (
    *("status", "status_known", "dbh_cm", "horizontal_distance_m", "true_azimuth_deg", "grid_azimuth_deg"),
    *("x_m", "y_m", "limiting_distance_m", "compared_distance_m", "circle", "inside", "inside_known"),
    *("inside_probability", "class_change_probability", "expansion_per_ha", "expected_per_ha", "borderline"),
)
#: So many standard deviations of the distance from its limit, a stem's distance is not in doubt.
_CLEAR = 3.0


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
        Stems per hectare that the stem stands for when it is in; 0 when no circle samples it.
    expected_per_ha
        Stems per hectare that it stands for on average over what the record may have been: 0 when it is surely out.
    borderline
        Whether the stem is too close to its limit to be decided from the centre.
    stand_edge
        How the edge of the stand cuts the plots, where the settings name its polygons; its weights are in
        `expansion_per_ha` and `expected_per_ha` already.
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
    expected_per_ha: Floats
    borderline: NDArray[np.bool_]
    stand_edge: StandEdge | None = None

    def with_part(
        self, part: Measured, stems: NDArray[np.int64], came_from: NDArray[np.int64] | None = None
    ) -> Measured:
        """The same with some plots measured anew, whose stems have other values.

        Parameters
        ----------
        part
            What was measured on these plots alone.
        stems
            Rows that the part's stems have in the whole survey.
        came_from
            Row that each stem of the survey has here; -1 for one that is none here yet, which must be of the part.
        """

        def by_stem(whole: Any, renewed: Any, names: Iterable[str]) -> dict[str, Any]:
            values = {name: getattr(whole, name) for name in names}
            values = {name: each.copy() if came_from is None else each[came_from] for name, each in values.items()}
            for name, column in values.items():
                column[stems] = getattr(renewed, name)
            return values

        edge = self.stand_edge
        if edge is not None and part.stand_edge is not None:
            edge = replace(edge, **by_stem(edge, part.stand_edge, ("weight",)))
        names = [each.name for each in fields(self.errors)]
        errors = replace(self.errors, **by_stem(self.errors, part.errors, names))
        return replace(self, errors=errors, stand_edge=edge, **by_stem(self, part, _OF_STEMS))

    @property
    def taken_by_none(self) -> NDArray[np.bool_]:
        """Whether the design has no circle for a stem of this dbh."""
        return np.asarray(self.inside_known & (self.circle < 0))

    @property
    def borderline_by_dbh(self) -> NDArray[np.bool_]:
        """Whether a stem is borderline because of its dbh alone: its distance is clear, its class is not."""
        gap = np.abs(self.compared_distance_m - self.limiting_distance_m)
        doubt = np.minimum(self.inside_probability, 1.0 - self.inside_probability)
        # No circle samples the recorded dbh where the gap is missing, so it is the dbh that is in doubt.
        clear = ~(gap <= _CLEAR * self.errors.radial_sd_m) & (doubt > 0.01)
        return self.borderline & clear & (self.class_change_probability > 0.5 * doubt)


def measure(survey: Survey) -> Measured:
    """Compute everything that follows from the records and the settings, all plots at once.

    A value that cannot be a measurement is taken as missing: an azimuth outside the full circle of its unit, a
    distance or diameter that is zero or negative, a vertical angle of 90 degrees or more.

    Raises
    ------
    InputError
        When the design contradicts itself or the coordinate system of the settings is not known.
    """
    settings, stems = survey.settings, survey.stems
    places = centres(survey)
    crs = results_crs(survey, places)
    turn = north(survey, places, crs)
    dbh = diameter(stems.records, settings)
    sight = lines_of_sight(survey, dbh)
    seen = from_centre(survey, sight)
    row = stems.visit_row
    grid_azimuth = bearings.grid_azimuth(seen.azimuth_deg, declination_deg=turn.to_grid[row], convergence_deg=0.0)
    true_azimuth = bearings.grid_azimuth(seen.azimuth_deg, declination_deg=turn.to_true[row], convergence_deg=0.0)
    x, y = locate.offsets(grid_azimuth, seen.distance_m)
    status, known = stem_status(stems.records.columns.get("status"), len(stems), settings.status)
    member, chance = _membership(survey, seen, dbh, sight=sight)
    cut = None
    if settings.design.stand is not None:
        cut = stand_edge(
            settings,
            survey.ground,
            places,
            crs=crs,
            convergence_deg=turn.convergence_deg,
            radii_m=circle_radii(survey),
            visit=row,
            place=np.column_stack([x, y]),
            limit_m=member.limiting_distance_m,
            circle=member.circle,
            inside=member.inside,
        )
        member = replace(member, expansion_per_ha=member.expansion_per_ha * cut.weight)
        chance = replace(chance, expected_per_ha=chance.expected_per_ha * cut.weight)
    if settings.design.membership == "first_visit":
        member, chance = _as_first_visit(survey, member, chance)
    gap = np.abs(member.compared_distance_m - member.limiting_distance_m)
    level = settings.errors.borderline_probability
    near = (chance.probability > level) & (chance.probability < 1.0 - level)
    return Measured(
        centres=places,
        crs=crs,
        declination_deg=turn.declination_deg,
        convergence_deg=turn.convergence_deg,
        radius_m=largest_radius(survey),
        status=status,
        status_known=known,
        dbh_cm=dbh,
        horizontal_distance_m=seen.distance_m,
        true_azimuth_deg=true_azimuth,
        grid_azimuth_deg=grid_azimuth,
        x_m=x,
        y_m=y,
        errors=_turned(seen.errors, turn.to_grid[row]),
        limiting_distance_m=member.limiting_distance_m,
        compared_distance_m=member.compared_distance_m,
        circle=member.circle,
        inside=member.inside,
        inside_known=member.known,
        inside_probability=chance.probability,
        class_change_probability=chance.class_change,
        expansion_per_ha=member.expansion_per_ha,
        expected_per_ha=chance.expected_per_ha,
        borderline=near | (gap <= settings.errors.borderline_m),
        stand_edge=cut,
    )


def stem_status(column: Column | None, count: int, words: StatusWords) -> tuple[NDArray[np.int8], NDArray[np.bool_]]:
    """Status by stem and whether it was understood; nothing typed, and what is not understood, means living."""
    if column is None:
        return np.zeros(count, np.int8), np.ones(count, bool)
    meaning = {
        word.strip().casefold(): status
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
        own = positive(survey.visits.numbers("radius_m")) * unit
        return np.where(np.isnan(own), radius, own)
    if design.kind == "concentric":
        radius[:] = max((circle.radius_m + circle.offset_m for circle in design.circles), default=np.nan) * unit
    elif design.max_radius_m is not None:
        radius[:] = design.max_radius_m * unit
    return radius


def circle_radii(survey: Survey) -> Floats:
    """Radii of the circles of the design in metres, shape (visits, circles); NaN where the design gives none."""
    design, unit = survey.settings.design, METRES[survey.settings.measurement.length_unit]
    if design.kind == "concentric" and design.circles:
        return np.tile([circle.radius_m * unit for circle in design.circles], (len(survey.visits), 1))
    return largest_radius(survey)[:, None]


def _turned(errors: locate.PositionErrors, degrees: Floats) -> locate.PositionErrors:
    """The same errors with the covariance against a north from which azimuths read larger by these degrees."""
    if not degrees.any():
        return errors
    sine, cosine = np.sin(np.radians(degrees)), np.cos(np.radians(degrees))
    east, north, both = errors.var_east, errors.var_north, errors.cov_east_north
    return replace(
        errors,
        var_east=cosine**2 * east + sine**2 * north + 2.0 * sine * cosine * both,
        var_north=sine**2 * east + cosine**2 * north - 2.0 * sine * cosine * both,
        cov_east_north=sine * cosine * (north - east) + (cosine**2 - sine**2) * both,
    )


def _membership(
    survey: Survey, seen: FromCentre, dbh: Floats, *, sight: Sight
) -> tuple[Membership, inclusion.Inclusion]:
    """In or out, and with which probability; azimuths, aspect and offsets in the north they were typed in."""
    settings, row = survey.settings, survey.stems.visit_row
    design = sampling_design(settings)
    if design is None:
        return _undecided(seen.distance_m)
    visits = survey.visits
    unit = METRES[settings.measurement.length_unit]
    slope_distance = None
    if sight.vertical_angle_deg is not None:
        to_axis = 0.0 if sight.dbh_cm is None else sight.dbh_cm / 200.0
        slope_distance = np.where(sight.station == AT_CENTRE, sight.distance_m + to_axis, np.nan)
    record = {"azimuth_deg": seen.azimuth_deg, "distance_m": seen.distance_m, "dbh_cm": dbh}
    ground = {
        "radius_m": (positive(visits.numbers("radius_m")) * unit)[row],
        "slope_percent": visits.numbers("slope_percent")[row],
        "aspect_deg": visits.numbers("aspect_deg")[row],
    }
    chance = inclusion.probability(
        design,
        **record,
        **ground,
        slope_distance_m=slope_distance,
        tape_sd_m=seen.errors.tape_sd_m,
        tangential_sd_m=seen.errors.tangential_sd_m,
        dbh_sd_cm=locate.dbh_sd(dbh, settings.errors),
        to_face=sight.dbh_cm is not None,
        slope_sd_m=seen.errors.slope_sd_m,
        shift_m=seen.errors.shift_m,
    )
    return membership(design, **record, **ground, slope_distance_m=slope_distance), chance


def _undecided(distance: Floats) -> tuple[Membership, inclusion.Inclusion]:
    """What can be said while the design is not told: nothing."""
    nothing = np.full(len(distance), np.nan)
    no = np.zeros(len(distance), bool)
    member = Membership(nothing, distance, nothing, np.full(len(distance), -1, np.int64), no, no)
    return member, inclusion.Inclusion(nothing, nothing, nothing)


def _as_first_visit(
    survey: Survey, member: Membership, chance: inclusion.Inclusion
) -> tuple[Membership, inclusion.Inclusion]:
    """Where membership is fixed at the first visit: the decision and weight of the stem's first record."""
    first = first_records(survey.stems, survey.visits.previous)
    return (
        Membership(**{each.name: getattr(member, each.name)[first] for each in fields(member)}),
        inclusion.Inclusion(**{each.name: getattr(chance, each.name)[first] for each in fields(chance)}),
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
