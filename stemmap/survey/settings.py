"""Settings of a survey: units, sampling design, errors, instrument, status words. Read once, checked, then frozen."""

from __future__ import annotations

import types
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, fields, replace
from difflib import get_close_matches
from functools import cache
from types import MappingProxyType
from typing import Any, Literal, get_args, get_origin, get_type_hints

from stemmap.core.design import Circle, Design
from stemmap.core.locate import Precision
from stemmap.errors import InputError
from stemmap.survey.fields import FIELDS, STRUCK
from stemmap.units import DBH_CENTIMETRES, FULL_CIRCLE, METRES, SQUARE_FEET_PER_ACRE


@dataclass(frozen=True)
class Measurement:
    """How the stems were measured and written."""

    azimuth_unit: Literal["degree", "gon", "mil_6400", "mil_6300", "mil_6000"] = "degree"
    north: Literal["grid", "true", "magnetic"] = "grid"
    declination_deg: float | None = None  # for all plots that state none of their own; None: computed
    distance: Literal["horizontal", "slope"] = "horizontal"
    distance_to: Literal["axis", "face"] = "axis"
    method: Literal["from_centre", "at_stem"] = "from_centre"
    breast_height_m: float = 1.3
    length_unit: Literal["metre", "foot"] = "metre"

    def unit_of(self, field: str) -> str:
        """Unit in which the values of a field are read; empty where every unit is possible."""
        own = FIELDS[field].unit
        if own == "azimuth unit":
            return self.azimuth_unit
        if own == "CRS unit":
            return ""
        return {"m": "ft", "cm": "in"}.get(own, own) if self.length_unit == "foot" else own


@dataclass(frozen=True)
class CircleSettings:
    """One of several concentric circles, in the file's own units."""

    radius_m: float
    min_dbh_cm: float | None = None
    max_dbh_cm: float | None = None
    offset_azimuth: float = 0.0
    offset_m: float = 0.0


@dataclass(frozen=True)
class DesignSettings:
    """The sampling design, in the file's own units."""

    kind: Literal["fixed", "concentric", "angle_count"] = "fixed"
    radius_m: float | None = None
    circles: tuple[CircleSettings, ...] = ()
    basal_area_factor: float | None = None
    max_radius_m: float | None = None
    slope: Literal["horizontal", "same_radius_on_slope", "enlarged_radius_on_slope"] = "horizontal"
    min_dbh_cm: float | None = None
    membership: Literal["each_visit", "first_visit"] = "each_visit"
    outside_recorded_to_m: float | None = None
    stand: str | None = None  # file of the stand's polygons, beside the settings or the uploads
    edge: Literal["area_weight", "mirage", "walkthrough", "part_plot", "none"] = "area_weight"


@dataclass(frozen=True)
class StratumSettings:
    """Size of a stratum: its area, or the points of a first, larger sample that fell in it."""

    name: str
    area_ha: float | None = None
    points: float | None = None


@dataclass(frozen=True)
class SampleSettings:
    """How the plots were drawn from the survey's area."""

    layout: Literal["random", "systematic"] = "random"
    area_ha: float | None = None
    strata: tuple[StratumSettings, ...] = ()
    auxiliary_mean: float | None = None  # of a first, larger sample, and the number of its points
    auxiliary_points: float | None = None


@dataclass(frozen=True)
class Errors(Precision):
    """Standard deviations of the measurements, what counts as borderline, and how stems taper."""

    borderline_probability: float = 0.025
    borderline_m: float = 0.0
    breast_height_sd_m: float = 0.1  # how far off breast height is judged from the centre
    taper_cm_per_m: float = 1.0  # how much thinner a stem is one metre further up


@dataclass(frozen=True)
class Instrument:
    """Reach of the instruments; None where it is not known."""

    max_dbh_cm: float | None = None
    min_distance_m: float | None = None
    max_distance_m: float | None = None


@dataclass(frozen=True)
class Recheck:
    """What going back costs a crew, minutes, and what a wrong place is worth: own assumptions, made to be replaced."""

    minutes_to_plot: float = 30.0
    minutes_to_set_up: float = 5.0
    minutes_per_stem: float = 2.0
    minutes_to_search: float = 10.0
    misplaced_share: float = 0.1


@dataclass(frozen=True)
class Tolerance:
    """How far a value measured again may lie from the recorded one; a value of its own goes before the preset's.

    The larger of a constant part and a part of the value holds. The presets stand in `survey.tolerance`.
    """

    preset: Literal["errors", "us_core_field_guide", "tahoe_protocol"] = "errors"
    azimuth_deg: float | None = None
    distance_m: float | None = None
    distance_percent: float | None = None
    dbh_mm: float | None = None
    dbh_percent: float | None = None


@dataclass(frozen=True)
class StatusWords:
    """Words and codes of a stem's status, as typed, compared without regard to case. Common practice.

    A record that is struck was entered by mistake, such as one stem entered twice: it is kept and no stem.
    """

    living: tuple[str, ...] = (
        *("living", "live", "alive", "l", "a", "1", "lebend", "lebendig", "vivant", "vif", "vivo", "vive"),
        *("elävä", "levande", "ingrowth", "healthy", "ok", "standing live"),
    )
    dead: tuple[str, ...] = (
        *("dead", "d", "2", "standing dead", "snag", "tot", "dürr", "dürrständer", "mort", "muerto"),
        *("kuollut", "död", "dying"),
    )
    cut: tuple[str, ...] = (
        *("cut", "c", "3", "removed", "harvested", "felled", "stump", "entnommen", "gefällt", "coupé"),
        *("cortado", "kaadettu", "hakattu", "avverkad", "fälld"),
    )
    gone: tuple[str, ...] = (
        *("gone", "missing", "not found", "g", "9", "lost", "fallen", "verschwunden", "fehlt"),
        *("disparu", "desaparecido", "hävinnyt", "kadonnut", "försvunnen"),
    )
    struck: tuple[str, ...] = (STRUCK, "entered twice", "gestrichen", "doppelt erfasst")

    def strikes(self, status: str) -> bool:
        """Whether a status, as typed or decided, strikes its record."""
        word = status.strip().casefold()
        return word == STRUCK or word in (each.strip().casefold() for each in self.struck)


@dataclass(frozen=True)
class Settings:
    """All settings of a survey.

    Parameters
    ----------
    name
        The survey's name, for titles.
    crs
        Coordinate system of the results; None: the UTM zone of the plots.
    measurement, design, sample, errors, instrument, recheck, tolerance, status
        See there.
    columns
        Canonical field to the heading used in the files.
    said
        Dotted keys that were given; everything else was assumed.
    """

    name: str = ""
    crs: str | None = None
    measurement: Measurement = Measurement()
    design: DesignSettings = DesignSettings()
    sample: SampleSettings = SampleSettings()
    errors: Errors = Errors()
    instrument: Instrument = Instrument()
    recheck: Recheck = Recheck()
    tolerance: Tolerance = Tolerance()
    status: StatusWords = StatusWords()
    columns: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    said: frozenset[str] = frozenset()

    def with_columns(self, columns: Mapping[str, str]) -> Settings:
        """The same settings with another mapping of columns, from canonical field to heading."""
        said = {dotted for dotted in self.said if not dotted.startswith("columns.")}
        said |= {f"columns.{name}" for name in columns}
        return replace(self, columns=MappingProxyType(dict(columns)), said=frozenset(said))

    def having(self, dotted: str, value: Any) -> Settings:
        """The same settings with one key said anew, for example ``having("measurement.azimuth_unit", "gon")``.

        Raises
        ------
        InputError
            When there is no such key or the value does not fit it.
        """
        section, _, key = dotted.partition(".")
        said = self.said | {dotted}
        if section == "survey":
            return replace(self, **_checked(_SURVEY_KEYS, section, {key: value}), said=said)
        part = getattr(self, section, None) if section in _SECTIONS else None
        if part is None:
            raise InputError(f"There is no setting {dotted!r}.")
        return replace(self, **{section: _section(section, type(part), {key: value}, base=part)}, said=said)


_SECTIONS = ("measurement", "design", "sample", "errors", "instrument", "recheck", "tolerance", "status")
_SURVEY_KEYS: Mapping[str, Any] = MappingProxyType({"name": str, "crs": str | None})
#: Lists of tables: what an item is called and the key that it needs.
_ITEMS: Mapping[Any, tuple[str, str]] = MappingProxyType(
    {CircleSettings: ("circle", "radius_m"), StratumSettings: ("stratum", "name")}
)
#: Numbers that may be below zero.
_SIGNED = frozenset({"declination_deg", "auxiliary_mean"})
#: Numbers that may be zero; all other numbers of the settings must be above zero.
_ZERO_ALLOWED = frozenset(
    {
        *("azimuth_sd_deg", "distance_sd_m", "distance_sd_percent", "vertical_angle_sd_deg", "dbh_sd_percent"),
        *("dbh_sd_mm", "borderline_probability", "borderline_m", "min_dbh_cm", "offset_azimuth", "offset_m"),
        *("min_distance_m", "outside_recorded_to_m", "minutes_to_plot", "minutes_to_set_up", "misplaced_share"),
        *("breast_height_sd_m", "taper_cm_per_m", "azimuth_deg", "distance_m", "distance_percent", "dbh_mm"),
        "dbh_percent",
    }
)


def columns_above(columns: Mapping[str, str], others: Mapping[str, str]) -> dict[str, str]:
    """A mapping of columns laid over another one, where no heading stands for two fields."""
    asked = set(columns.values())
    return {name: heading for name, heading in others.items() if heading not in asked} | dict(columns)


def sampling_design(settings: Settings) -> Design | None:
    """The sampling design in metres, centimetres and m²/ha; None while it lacks what its kind needs.

    Raises
    ------
    InputError
        When its figures contradict each other.
    """
    said, measurement = settings.design, settings.measurement
    if (said.kind == "concentric" and not said.circles) or (
        said.kind == "angle_count" and said.basal_area_factor is None
    ):
        return None
    metres, centimetres = METRES[measurement.length_unit], DBH_CENTIMETRES[measurement.length_unit]
    factor = 1.0 if measurement.length_unit == "metre" else SQUARE_FEET_PER_ACRE

    def scaled(value: float | None, unit: float) -> float | None:
        return None if value is None else value * unit

    circles = [
        Circle(
            radius_m=circle.radius_m * metres,
            min_dbh_cm=scaled(circle.min_dbh_cm, centimetres),
            max_dbh_cm=scaled(circle.max_dbh_cm, centimetres),
            offset_azimuth_deg=circle.offset_azimuth * 360.0 / FULL_CIRCLE[measurement.azimuth_unit],
            offset_m=circle.offset_m * metres,
        )
        for circle in said.circles
    ]
    return Design(
        kind=said.kind,
        radius_m=scaled(said.radius_m, metres),
        circles=tuple(circles) if said.kind == "concentric" else (),
        basal_area_factor=scaled(said.basal_area_factor, factor),
        max_radius_m=scaled(said.max_radius_m, metres),
        slope=said.slope,
        min_dbh_cm=scaled(said.min_dbh_cm, centimetres) or None,
    )


#: Types of the keys of a section, made from the texts of its annotations.
_hints = cache(get_type_hints)


def parse_settings(table: Mapping[str, Any]) -> Settings:
    """Settings from the tables of a TOML file.

    Raises
    ------
    InputError
        With the section, the key, what stood there and what is allowed.
    """
    known = ("survey", *_SECTIONS, "columns")
    for section, content in table.items():
        if section not in known:
            raise InputError(f"The settings have a section [{section}] that is not known{_nearest(section, known)}.")
        if not isinstance(content, Mapping):
            raise InputError(f"{section!r} in the settings must be a section with keys: [{section}].")
    values: dict[str, Any] = _checked(_SURVEY_KEYS, "survey", table.get("survey", {}))
    hints = _hints(Settings)
    for section in _SECTIONS:
        values[section] = _section(section, hints[section], table.get(section, {}))
    columns = {str(name): str(heading) for name, heading in table.get("columns", {}).items()}
    return Settings(**values, columns=MappingProxyType(columns), said=frozenset(_said(table)))


def _said(table: Mapping[str, Any]) -> Iterator[str]:
    for section, content in table.items():
        for key in content:
            yield f"{section}.{key}"


def _section(section: str, kind: type, content: Mapping[str, Any], base: Any = None) -> Any:
    values = _checked(_hints(kind), section, content)
    made = kind(**values) if base is None else replace(base, **values)
    if isinstance(made, DesignSettings):
        _check_design(made)
    if isinstance(made, SampleSettings):
        _check_sample(made)
    if isinstance(made, StatusWords):
        made = _without_claimed(made, values)
    if isinstance(made, Errors) and made.borderline_probability >= 0.5:
        raise InputError("[errors] borderline_probability must be below 0.5.")
    return made


def _without_claimed(words: StatusWords, said: Mapping[str, tuple[str, ...]]) -> StatusWords:
    """The words, each only where it was said: a code that is said for one status is no default of another."""
    claimed: dict[str, str] = {}
    for status, listed in said.items():
        for word in listed:
            if claimed.setdefault(word.strip().casefold(), status) != status:
                raise InputError(f"[status] {word!r} stands under {claimed[word.strip().casefold()]} and {status}.")
    left = {
        each.name: tuple(word for word in getattr(words, each.name) if word.strip().casefold() not in claimed)
        for each in fields(words)
        if each.name not in said
    }
    return replace(words, **left)


def _check_design(design: DesignSettings) -> None:
    for circle in design.circles:
        if circle.max_dbh_cm is not None and circle.max_dbh_cm <= (circle.min_dbh_cm or 0.0):
            raise InputError("[design] circles: max_dbh_cm must be above min_dbh_cm.")


def _check_sample(sample: SampleSettings) -> None:
    """Strata are named once and weighed by one kind of size."""
    names = [stratum.name for stratum in sample.strata]
    if len(set(names)) < len(names):
        raise InputError("[sample] strata: each stratum must have its own name.")
    sizes = {(stratum.area_ha is None, stratum.points is None) for stratum in sample.strata}
    if sizes - {(False, True)} and sizes - {(True, False)}:
        raise InputError("[sample] strata: give each stratum its area_ha, or each the points of the first sample.")


def _checked(hints: Mapping[str, Any], section: str, content: Mapping[str, Any]) -> dict[str, Any]:
    values = {}
    for key, value in content.items():
        if key not in hints:
            raise InputError(f"[{section}] has a key {key!r} that is not known{_nearest(key, hints)}.")
        values[key] = _value(hints[key], f"[{section}] {key}", value)
    return values


def _value(hint: Any, place: str, value: Any) -> Any:
    """A value of the settings as the type its key asks for."""
    if isinstance(hint, types.UnionType):
        if value is None:
            return None
        hint = next(option for option in get_args(hint) if option is not type(None))
    if get_origin(hint) is Literal:
        if value not in get_args(hint):
            allowed = ", ".join(map(repr, get_args(hint)))
            raise InputError(f"{place} is {value!r}, but must be one of {allowed}.")
        return value
    if hint is float:
        return _number(place, value)
    if get_origin(hint) is tuple:
        return _items(get_args(hint)[0], place, value)
    if not isinstance(value, hint):
        raise InputError(f"{place} is {value!r}, but must be text.")
    return value


def _items(kind: Any, place: str, value: Any) -> tuple[Any, ...]:
    if not isinstance(value, list | tuple):
        raise InputError(f"{place} must be a list.")
    if kind not in _ITEMS:
        return tuple(str(item) for item in value)
    word, needed = _ITEMS[kind]
    section = place.partition("]")[0].lstrip("[")
    made = []
    for item in value:
        if isinstance(item, kind):
            made.append(item)
            continue
        if not isinstance(item, Mapping) or needed not in item:
            raise InputError(f"{place}: each {word} needs at least {needed}.")
        made.append(kind(**_checked(_hints(kind), section, item)))
    return tuple(made)


#: No quantity of a survey comes near it, and a whole number beyond is none that can be reckoned with.
_TOO_LARGE = 1e300


def _number(place: str, value: Any) -> float:
    key = place.rsplit(" ", 1)[-1]
    if isinstance(value, bool) or not isinstance(value, int | float) or not abs(value) < _TOO_LARGE:
        raise InputError(f"{place} is {value!r}, but must be a number.")
    if key not in _SIGNED and (value < 0 or (value == 0 and key not in _ZERO_ALLOWED)):
        least = "must not be below zero" if key in _ZERO_ALLOWED else "must be above zero"
        raise InputError(f"{place} is {value}, but {least}.")
    return float(value)


def _nearest(word: str, known: Any) -> str:
    near = get_close_matches(word, list(known), n=2)
    return f"; near it: {', '.join(near)}" if near else f"; known are {', '.join(known)}"


def assumed(settings: Settings) -> dict[str, Any]:
    """The settings that decide about a result and were not said, with the value that holds instead."""
    watched = {
        "measurement.azimuth_unit": settings.measurement.azimuth_unit,
        "measurement.north": settings.measurement.north,
        "measurement.distance": settings.measurement.distance,
        "measurement.distance_to": settings.measurement.distance_to,
        "measurement.method": settings.measurement.method,
        "design.kind": settings.design.kind,
        "errors.azimuth_sd_deg": settings.errors.azimuth_sd_deg,
        "errors.distance_sd_m": settings.errors.distance_sd_m,
    }
    return {key: value for key, value in watched.items() if key not in settings.said}


def said_values(settings: Settings) -> dict[str, dict[str, Any]]:
    """The settings that were said, as the tables of a TOML file."""
    tables: dict[str, dict[str, Any]] = {}
    for dotted in sorted(settings.said):
        section, _, key = dotted.partition(".")
        if section == "survey":
            value = getattr(settings, key)
        elif section == "columns":
            value = settings.columns[key]
        else:
            value = getattr(getattr(settings, section), key)
        if isinstance(value, tuple):
            value = [_as_table(item) if type(item) in _ITEMS else item for item in value]
        if value is not None:
            tables.setdefault(section, {})[key] = value
    return tables


def _as_table(one: CircleSettings | StratumSettings) -> dict[str, Any]:
    values = {item.name: (getattr(one, item.name), item.default) for item in fields(one)}
    return {key: value for key, (value, default) in values.items() if value != default}
