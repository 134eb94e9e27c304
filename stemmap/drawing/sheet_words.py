"""What a plot sheet says in words: where the plot is, which north, which design, how exact, and the caution."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QCoreApplication

from stemmap.core import bearings
from stemmap.core.locate import project
from stemmap.drawing.decimals import Decimal
from stemmap.drawing.plot_map import north_up
from stemmap.drawing.scene import Floats
from stemmap.survey.lost_centre import KnownStems
from stemmap.survey.measured import Measured
from stemmap.survey.place import coordinate_system
from stemmap.survey.survey import Survey

_tr = QCoreApplication.translate


@dataclass(frozen=True)
class SheetWords:
    """Words of the sheets of a survey; what needs all plots at once is worked out once.

    Parameters
    ----------
    survey, measured
        The records and what was computed from them.
    easting, northing
        Plot centres in the coordinate system of the results by visit; NaN where there are none.
    declination_deg
        Magnetic declination at the plot on the day of the visit, also where azimuths are not magnetic; NaN where it
        is not known.
    declination_stated
        Whether it was stated for the plot.
    stratum
        As typed.
    """

    survey: Survey
    measured: Measured
    easting: Floats
    northing: Floats
    declination_deg: Floats
    declination_stated: NDArray[np.bool_]
    stratum: NDArray[np.object_]

    @classmethod
    def of(cls, survey: Survey, measured: Measured) -> SheetWords:
        """Words of the sheets of a survey."""
        places, count = measured.centres, len(survey.visits)
        easting, northing = np.full(count, np.nan), np.full(count, np.nan)
        if measured.crs is not None and coordinate_system(measured.crs).is_projected:
            for text, rows in places.by_system():
                easting[rows], northing[rows] = project(
                    places.x[rows],
                    places.y[rows],
                    coordinate_system(text),
                    plot_of_stem=np.arange(len(rows)),
                    true_azimuth_deg=np.zeros(len(rows)),
                    distance_m=np.zeros(len(rows)),
                    target_crs=coordinate_system(measured.crs),
                )
        declination = survey.visits.numbers("declination_deg")
        silent = np.isnan(declination)
        if survey.settings.measurement.north == "magnetic":
            declination = measured.declination_deg
        elif silent.any():
            declination[silent] = bearings.declination(
                places.lon[silent],
                places.lat[silent],
                survey.visits.numbers("elevation_m")[silent],
                survey.visits.date[silent],
            )
        stratum = survey.visits.texts("stratum")
        return cls(survey, measured, easting, northing, declination, ~silent, stratum)

    def centre(self, visit_row: int) -> str:
        """Where the plot centre is."""
        places, parts = self.measured.centres, []
        if np.isfinite(self.easting[visit_row]) and self.measured.crs is not None:
            crs = coordinate_system(self.measured.crs)
            parts.append(
                _tr("sheet", "easting {easting:.2f}, northing {northing:.2f} in {crs} ({name})").format(
                    easting=Decimal(self.easting[visit_row]),
                    northing=Decimal(self.northing[visit_row]),
                    crs=self.measured.crs,
                    name=crs.name,
                )
            )
        if np.isfinite(places.lon[visit_row]):
            parts.append(
                _tr("sheet", "longitude {lon:.6f}°, latitude {lat:.6f}° (WGS 84)").format(
                    lon=Decimal(places.lon[visit_row]), lat=Decimal(places.lat[visit_row])
                )
            )
        if not parts:
            return _tr("sheet", "Plot centre: no coordinates are known.")
        return _tr("sheet", "Plot centre: {places}.").format(places="; ".join(parts))

    def azimuths(self, visit_row: int) -> str:
        """Which unit and north azimuths count in, how the norths lie to each other, and which is up on the map."""
        measurement, measured = self.survey.settings.measurement, self.measured
        units = {
            "degree": _tr("sheet", "degrees"),
            "gon": _tr("sheet", "gon"),
            "mil_6400": _tr("sheet", "mils (6400 to the circle)"),
            "mil_6300": _tr("sheet", "mils (6300 to the circle)"),
            "mil_6000": _tr("sheet", "mils (6000 to the circle)"),
        }
        norths = {
            "grid": _tr("sheet", "grid north"),
            "true": _tr("sheet", "true north"),
            "magnetic": _tr("sheet", "magnetic north"),
        }
        up = north_up(self.survey, measured, visit_row)
        on_map = norths[up]
        if up == "grid" and measured.crs:
            on_map = _tr("sheet", "{north} of {crs}").format(north=on_map, crs=measured.crs)
        sentences = [
            _tr("sheet", "Azimuths: {unit}, clockwise from {north}; up on the map is {up}.").format(
                unit=units[measurement.azimuth_unit], north=norths[measurement.north], up=on_map
            ),
            self._declination(visit_row),
        ]
        if np.isfinite(measured.centres.lon[visit_row]) and measured.crs is not None:
            sentences.append(
                _tr("sheet", "Convergence {angle:+.2f}° (grid north east of true north).").format(
                    angle=Decimal(measured.convergence_deg[visit_row])
                )
            )
        return " ".join(sentences)

    def _declination(self, visit_row: int) -> str:
        angle, date = self.declination_deg[visit_row], self.survey.visits.date[visit_row]
        if np.isnan(angle):
            return _tr("sheet", "Magnetic declination: not known.")
        said = self.survey.settings.measurement.declination_deg
        if self.declination_stated[visit_row]:
            source = _tr("sheet", "as stated for the plot")
        elif said is not None and angle == said:
            source = _tr("sheet", "as stated in the settings")
        else:
            source = _tr("sheet", "computed by IGRF-14")
        if np.isnat(date):
            return _tr("sheet", "Magnetic declination {angle:+.2f}° ({source}).").format(
                angle=Decimal(angle), source=source
            )
        return _tr("sheet", "Magnetic declination {angle:+.2f}° on {date} ({source}).").format(
            angle=Decimal(angle), date=date, source=source
        )

    def design(self, visit_row: int) -> str:
        """The sampling design and how distances were taken, in the file's own units."""
        design, measurement = self.survey.settings.design, self.survey.settings.measurement
        metric = measurement.length_unit == "metre"
        length, thick = ("m", "cm") if metric else ("ft", "in")
        least = "" if not design.min_dbh_cm else f"{Decimal(design.min_dbh_cm):g} {thick}"
        match design.kind:
            case "concentric":
                circles = ", ".join(
                    f"{Decimal(each.radius_m):g} {length} {_dbh_range(each.min_dbh_cm, each.max_dbh_cm, thick)}".strip()
                    for each in design.circles
                )
                said = _tr("sheet", "concentric circles of radius {circles}").format(circles=circles)
            case "angle_count":
                area = "m²/ha" if metric else "ft²/ac"
                said = _tr("sheet", "angle count with a basal area factor of {factor} {unit}").format(
                    factor="?" if design.basal_area_factor is None else f"{Decimal(design.basal_area_factor):g}",
                    unit=area,
                )
                if design.max_radius_m is not None:
                    said += _tr("sheet", ", up to {radius:g} {unit}").format(
                        radius=Decimal(design.max_radius_m), unit=length
                    )
            case "fixed":
                radius = self.measured.radius_m[visit_row] / (1.0 if metric else 0.3048)
                said = (
                    _tr("sheet", "one circle, its radius not known")
                    if np.isnan(radius)
                    else _tr("sheet", "one circle of radius {radius:.2f} {unit}").format(
                        radius=Decimal(radius), unit=length
                    )
                )
        parts = [said, *([_tr("sheet", "from dbh {dbh}").format(dbh=least)] if least else [])]
        parts.append(
            {
                "horizontal": _tr("sheet", "radius held level"),
                "same_radius_on_slope": _tr("sheet", "radius laid along the slope"),
                "enlarged_radius_on_slope": _tr("sheet", "radius enlarged for the slope"),
            }[design.slope]
        )
        distance = {
            "horizontal": _tr("sheet", "horizontal distances"),
            "slope": _tr("sheet", "slope distances"),
        }[measurement.distance]
        to = {"axis": _tr("sheet", "to the axis of the stem"), "face": _tr("sheet", "to the face of the stem")}
        height = f"{Decimal(measurement.breast_height_m):g} m"
        return _tr("sheet", "Design: {design}; {distance} {to}; dbh at {height}.").format(
            design=", ".join(parts), distance=distance, to=to[measurement.distance_to], height=height
        )

    def errors(self) -> str:
        """Errors of measurement and what counts as borderline."""
        errors = self.survey.settings.errors
        distance = _sum((errors.distance_sd_m, "m"), (errors.distance_sd_percent, "%"))
        dbh = _sum((errors.dbh_sd_mm, "mm"), (errors.dbh_sd_percent, "%"))
        least = errors.borderline_probability
        rule = _tr("sheet", "in with a probability from {low:g} to {high:g}").format(
            low=Decimal(least), high=Decimal(1.0 - least)
        )
        if errors.borderline_m > 0.0:
            rule += _tr("sheet", ", or within {gap:g} m of the limit").format(gap=Decimal(errors.borderline_m))
        return _tr(
            "sheet", "Standard errors: azimuth {azimuth:g}°, distance {distance}, dbh {dbh}. Borderline: {rule}."
        ).format(azimuth=Decimal(errors.azimuth_sd_deg), distance=distance, dbh=dbh, rule=rule)

    def again(self, stems: Sequence[int]) -> list[str]:
        """What a re-check list asks for on a plot, by rows of stems; -1: to look for hidden ones."""
        said = []
        labels = [self.survey.stems.label(row).strip() or "?" for row in stems if row >= 0]
        if labels:
            said.append(_tr("sheet", "Measure again: No. {stems}.").format(stems=", ".join(labels)))
        if len(labels) < len(stems):
            said.append(_tr("sheet", "Look from a second point for stems that others hide from the centre."))
        return said

    def blind(self) -> str:
        """What a crew does that measures a plot without knowing what was recorded."""
        return _tr(
            "sheet",
            "Blind check: measure every stem anew; what was recorded before is left out on purpose. Tick for each"
            " number whether its stem was found, yes or no; write a stem without a number into an empty row and tick"
            " new.",
        )

    def lost_centre(self, known: KnownStems | None) -> list[str]:
        """How a lost centre is found from three stems."""
        if known is None:
            return []
        measurement, stems = self.survey.settings.measurement, self.survey.stems
        length = "m" if measurement.length_unit == "metre" else "ft"
        angle = {"degree": "°", "gon": " gon"}.get(measurement.azimuth_unit, " mil")
        species = stems.texts("species")
        ways = [
            _tr("sheet", "No. {stem}{species}: {azimuth:.0f}{angle}, {distance:.2f} {length}").format(
                stem=stems.label(row).strip(),
                species=f" ({species[row].strip()})" if species[row].strip() else "",
                azimuth=Decimal(azimuth),
                angle=angle,
                distance=Decimal(distance),
                length=length,
            )
            for row, azimuth, distance in zip(
                known.rows.tolist(), known.azimuth.tolist(), known.distance.tolist(), strict=True
            )
        ]
        return [
            _tr(
                "sheet",
                "Is the centre lost? From the middle of each of these stems go so far, level, in this direction:"
                " {ways}. Where the three meet is the centre, to about {sd:.2f} m; distances are surer than azimuths.",
            ).format(ways="; ".join(ways), sd=Decimal(known.sd_m))
        ]


def caution() -> str:
    """The caution of every sheet that goes into the forest."""
    return _tr(
        "sheet",
        "Safety first: look out for storm-damaged and dead trees, hanging branches, steep or wet ground and weather; do"
        " not work alone; never look into the beam of a laser. The rules of your employer and of the place come before"
        " this sheet. This map is no legal survey.",
    )


def _dbh_range(least: float | None, most: float | None, unit: str) -> str:
    if most is not None:
        return _tr("sheet", "for dbh {least:g} to {most:g} {unit}").format(
            least=Decimal(least or 0.0), most=Decimal(most), unit=unit
        )
    return _tr("sheet", "from dbh {least:g} {unit}").format(least=Decimal(least), unit=unit) if least else ""


def _sum(*parts: tuple[float, str]) -> str:
    """Parts of an error that are not zero, as they add up in squares."""
    said = [f"{Decimal(value):g} {unit}" for value, unit in parts if value > 0.0]
    return " + ".join(said) or f"0 {parts[0][1]}"
