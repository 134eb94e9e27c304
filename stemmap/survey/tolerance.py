"""Tolerances: how far a value measured again may lie from the recorded one, of one's own or as published."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from math import nan, sqrt
from types import MappingProxyType

import numpy as np
from numpy.typing import ArrayLike, NDArray

from stemmap.core.locate import dbh_sd
from stemmap.survey.settings import Settings, Tolerance

Floats = NDArray[np.float64]

#: A difference of two measurements stays within this many of its standard deviations 95 times of 100.
_USUAL = 1.96

_INCH_MM, _FOOT_M = 25.4, 0.3048

#: Dbh of both: 0.1 in for each 20 in of dbh, taken as the larger of 0.1 in and 0.5 %.
_DBH_MM, _DBH_PERCENT = 0.1 * _INCH_MM, 0.5


def _preset(azimuth_deg: float, distance_m: float) -> Tolerance:
    return Tolerance(azimuth_deg=azimuth_deg, distance_m=distance_m, dbh_mm=_DBH_MM, dbh_percent=_DBH_PERCENT)


#: Published tolerances, each with its source.
PRESETS: Mapping[str, tuple[Tolerance, str]] = MappingProxyType(
    {
        "us_core_field_guide": (
            _preset(10.0, _FOOT_M),
            "US Forest Service, Forest Inventory and Analysis National Core Field Guide, volume I, tree data: azimuth "
            "10°, dbh 0.1 in for each 20 in, distance 1 ft (0.2 ft within a foot of the plot's limit, which is not "
            "looked at here); from memory",
        ),
        "tahoe_protocol": (
            _preset(2.0, 0.1 * _FOOT_M),
            "Tahoe forest-health plot protocol, version 1.0, draft of 2026, sections 4.1 and 4.2: azimuth 2°, distance "
            "0.1 ft, dbh 0.1 in for each 20 in",
        ),
    }
)

#: Where the tolerances come from when no preset is named.
FROM_ERRORS = "1.96 standard deviations of the difference of two measurements, from the errors in the settings"


@dataclass(frozen=True)
class Tolerances:
    """Tolerance of each pair of measurements, shape (n,) each.

    Parameters
    ----------
    azimuth_deg, distance_m, dbh_cm
        In degrees, metres and centimetres.
    """

    azimuth_deg: Floats
    distance_m: Floats
    dbh_cm: Floats


def tolerances(settings: Settings, *, distance_m: ArrayLike, dbh_cm: ArrayLike) -> Tolerances:
    """Tolerances under settings.

    Parameters
    ----------
    distance_m, dbh_cm
        Recorded values, shape (n,); where one is NaN its constant part holds.
    """
    distance = np.nan_to_num(np.asarray(distance_m, dtype=np.float64))
    dbh = np.nan_to_num(np.asarray(dbh_cm, dtype=np.float64))
    said, errors = _held(settings.tolerance), settings.errors
    twice = _USUAL * sqrt(2.0)

    def larger(constant: float, percent: float, value: Floats, otherwise: Floats) -> Floats:
        if np.isnan(constant) and np.isnan(percent):
            return otherwise
        held: Floats = np.maximum(np.nan_to_num(constant), np.nan_to_num(percent) / 100.0 * value)
        return held

    distance_sd = np.hypot(errors.distance_sd_m, errors.distance_sd_percent / 100.0 * distance)
    return Tolerances(
        larger(said["azimuth_deg"], nan, distance, np.full(distance.shape, twice * errors.azimuth_sd_deg)),
        larger(said["distance_m"], said["distance_percent"], distance, twice * distance_sd),
        larger(said["dbh_mm"] / 10.0, said["dbh_percent"], dbh, twice * dbh_sd(dbh, errors)),
    )


def source(settings: Settings) -> str:
    """Where the tolerances come from, in words."""
    given = settings.tolerance
    text = FROM_ERRORS if given.preset == "errors" else PRESETS[given.preset][1]
    own = [each.name for each in fields(given) if each.name != "preset" and getattr(given, each.name) is not None]
    return f"{text}; {', '.join(own)} as set" if own else text


def _held(given: Tolerance) -> dict[str, float]:
    """Each part of the tolerances: that which is said, else the preset's; NaN where neither says it.

    Of a quantity for which something is said the preset says nothing more.
    """
    base = PRESETS[given.preset][0] if given.preset in PRESETS else Tolerance()
    for parts in (("azimuth_deg",), ("distance_m", "distance_percent"), ("dbh_mm", "dbh_percent")):
        own = {name: getattr(given, name) for name in parts}
        if any(value is not None for value in own.values()):
            base = replace(base, **own)
    values = {each.name: getattr(base, each.name) for each in fields(base) if each.name != "preset"}
    return {name: nan if value is None else value for name, value in values.items()}
