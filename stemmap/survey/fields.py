"""Every field of an upload, once: its name, where it belongs, what kind of value it holds and what it means."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

Kind = Literal["text", "number", "date"]
#: Stems that a crew measured again come back with the fields of stems.
Table = Literal["plots", "stems", "stations", "remeasured"]

#: The status by which a decision strikes a record, whatever words the survey has for it.
STRUCK = "struck"
#: Nobody measures more than this of anything, in any unit.
LARGEST = 1e12


@dataclass(frozen=True)
class Field:
    """A canonical column.

    Parameters
    ----------
    name
        The canonical heading, with its unit where units can differ.
    tables
        The tables in which it may stand.
    kind
        What a cell holds.
    unit
        Unit shown to people; empty for text, dates and counts. Lengths are in the file's own length unit.
    meaning
        One phrase for tool tips and documentation.
    """

    name: str
    tables: tuple[Table, ...]
    kind: Kind
    unit: str
    meaning: str


_PLOTS: tuple[Table, ...] = ("plots",)
_STEMS: tuple[Table, ...] = ("stems",)
_BOTH: tuple[Table, ...] = ("plots", "stems")
_ALL: tuple[Table, ...] = ("plots", "stems", "stations")

_FIELDS = (
    Field("plot", _ALL, "text", "", "name or number of the sample plot"),
    Field("visit", _BOTH, "text", "", "one measurement of one plot, named as typed: a date, a year, a cycle"),
    Field("date", _BOTH, "date", "", "day of the measurement"),
    Field("lon", _PLOTS, "number", "degree", "longitude of the plot centre, WGS 84"),
    Field("lat", _PLOTS, "number", "degree", "latitude of the plot centre, WGS 84"),
    Field("easting", _PLOTS, "number", "CRS unit", "easting of the plot centre in its coordinate system"),
    Field("northing", _PLOTS, "number", "CRS unit", "northing of the plot centre in its coordinate system"),
    Field("crs", _PLOTS, "text", "", "coordinate system of easting and northing"),
    Field("elevation_m", _PLOTS, "number", "m", "elevation of the plot centre"),
    Field("stratum", _PLOTS, "text", "", "stratum to which the plot belongs"),
    Field("cluster", _PLOTS, "text", "", "cluster to which the plot belongs"),
    Field("auxiliary", _PLOTS, "number", "own unit", "what a larger first sample tells of the plot too"),
    Field("declination_deg", _PLOTS, "number", "degree", "magnetic declination, east positive"),
    Field("slope_percent", _PLOTS, "number", "%", "slope of the ground"),
    Field("aspect_deg", _PLOTS, "number", "degree", "direction in which the ground falls"),
    Field("radius_m", _PLOTS, "number", "m", "radius of this plot's circle"),
    Field("plot_status", _PLOTS, "text", "", "measured, empty, non-forest or not reached"),
    Field("crew", _PLOTS, "text", "", "who measured"),
    Field("instrument", _PLOTS, "text", "", "instrument used"),
    Field("tree", _STEMS, "text", "", "number of the tree; stems of one tree may share a position"),
    Field("stem", _STEMS, "text", "", "number of the stem"),
    Field("azimuth", ("stems", "stations"), "number", "azimuth unit", "direction from the plot centre"),
    Field("distance_m", ("stems", "stations"), "number", "m", "distance from the plot centre"),
    Field("vertical_angle_deg", _STEMS, "number", "degree", "vertical angle of a slope distance, up positive"),
    Field("dbh_cm", _STEMS, "number", "cm", "diameter at breast height"),
    Field("dbh_mm", _STEMS, "number", "mm", "diameter at breast height in millimetres"),
    Field("girth_cm", _STEMS, "number", "cm", "girth at breast height"),
    Field("dbh_cross_cm", _STEMS, "number", "cm", "second diameter, measured crosswise"),
    Field("dbh_cross_mm", _STEMS, "number", "mm", "second diameter, measured crosswise, in millimetres"),
    Field("measurement_height_m", _STEMS, "number", "m", "height at which the diameter was measured"),
    Field("species", _STEMS, "text", "", "tree species, as typed"),
    Field("status", _STEMS, "text", "", "living, dead, cut, gone or struck, as typed"),
    Field("upper_diameter_cm", _STEMS, "number", "cm", "diameter higher up the stem"),
    Field("upper_height_m", _STEMS, "number", "m", "height of the upper diameter"),
    Field("height_m", _STEMS, "number", "m", "height of the tree"),
    Field("remark", _STEMS, "text", "", "free text"),
    Field("station", ("stems", "stations"), "text", "", "point from which the stem was measured"),
)

#: All fields by name.
FIELDS = MappingProxyType({field.name: field for field in _FIELDS})


def fields_of(table: Table) -> tuple[Field, ...]:
    """Fields that may stand in a table, in their canonical order."""
    held = "stems" if table == "remeasured" else table
    return tuple(field for field in _FIELDS if held in field.tables)


def typed_number(text: str) -> float | None:
    """The number that a person typed, with a decimal point or comma; None where it is none that can be measured.

    Examples
    --------
    >>> typed_number("34,2"), typed_number("7o"), typed_number("nan")
    (34.2, None, None)
    """
    try:
        number = float(text.replace(",", ".") if "." not in text else text)
    except ValueError:
        return None
    return number if abs(number) <= LARGEST else None
