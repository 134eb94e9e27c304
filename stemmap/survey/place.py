"""Where the plots are: their centres, the coordinate system of the results, stems as projected coordinates."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from stemmap.core import locate
from stemmap.errors import InputError
from stemmap.survey.survey import Survey

if TYPE_CHECKING:
    from pyproj import CRS

Floats = NDArray[np.float64]

WGS84 = "EPSG:4326"


@dataclass(frozen=True)
class Centres:
    """Plot centres by visit, each in the system it was given in.

    Parameters
    ----------
    x, y
        Longitude and latitude, or easting and northing; NaN without coordinates. Shape (visits,).
    system
        Index of the system of each centre in `systems`, -1 without one.
    systems
        Texts of the coordinate systems that occur.
    lon, lat
        The same centres on WGS 84.
    unusable
        Texts of systems that PROJ does not know.
    """

    x: Floats
    y: Floats
    system: NDArray[np.int64]
    systems: tuple[str, ...]
    lon: Floats
    lat: Floats
    unusable: tuple[str, ...]

    def by_system(self) -> Iterator[tuple[str, NDArray[np.int64]]]:
        """Each system with the visits whose centres are given in it."""
        for place, text in enumerate(self.systems):
            rows = np.flatnonzero(self.system == place)
            if len(rows):
                yield text, rows


@lru_cache(maxsize=64)
def coordinate_system(text: str) -> CRS:
    """Coordinate system from any text PROJ knows, a bare EPSG number, or a UTM zone such as "33N".

    Raises
    ------
    InputError
        When nobody knows the system, or it is neither geographic nor projected.
    """
    from pyproj import CRS
    from pyproj.exceptions import CRSError

    zone = re.fullmatch(r"\s*(?:UTM\s*)?(\d{1,2})\s*([NS])\s*", text, re.IGNORECASE)
    if zone and 1 <= int(zone[1]) <= 60:
        return CRS.from_epsg((32600 if zone[2].upper() == "N" else 32700) + int(zone[1]))
    number = re.fullmatch(r"\s*(\d{4,6})(?:\.0)?\s*", text)
    try:
        crs = CRS.from_epsg(int(number[1])) if number else CRS.from_user_input(text)
    except CRSError:
        raise InputError(
            f"The coordinate system {text!r} is not known; write an EPSG code such as EPSG:25832, or leave it out."
        ) from None
    if not (crs.is_geographic or crs.is_projected):
        raise InputError(f"{text!r} is not a coordinate system for positions on the ground; choose a projected one.")
    return crs


def stated_systems(survey: Survey) -> tuple[list[str], NDArray[np.int64]]:
    """Texts of the systems of easting and northing, and the place of each visit's among them.

    It is the plot's own, else that of the settings; an empty text where nothing was said.
    """
    words, code = survey.visits.words("crs")
    return [word or survey.settings.crs or "" for word in words], code


def centres(survey: Survey) -> Centres:
    """Plot centres: longitude and latitude where they stand, else easting and northing with their system.

    The system is the plot's own `crs`, else that of the settings; easting and northing without either give no place.
    """
    visits = survey.visits
    lon, lat = visits.numbers("lon"), visits.numbers("lat")
    easting, northing = visits.numbers("easting"), visits.numbers("northing")
    on_earth = np.isfinite(lon) & np.isfinite(lat) & (np.abs(lat) <= 90.0) & (np.abs(lon) <= 360.0)
    names, code = stated_systems(survey)
    systems, unusable = [WGS84], []
    number_of_name = np.full(len(names), -1, np.int64)
    for place, name in enumerate(names):
        if not name:
            continue
        try:
            coordinate_system(name)
        except InputError:
            unusable.append(name)
            continue
        number_of_name[place] = len(systems)
        systems.append(name)
    projected = np.isfinite(easting) & np.isfinite(northing)
    system = np.where(on_earth, 0, np.where(projected, number_of_name[code], -1))
    x = np.where(on_earth, lon, np.where(system > 0, easting, np.nan))
    y = np.where(on_earth, lat, np.where(system > 0, northing, np.nan))
    lon, lat = np.where(on_earth, lon, np.nan), np.where(on_earth, lat, np.nan)
    for place in range(1, len(systems)):
        rows = np.flatnonzero(system == place)
        lon[rows], lat[rows] = locate.geographic(x[rows], y[rows], coordinate_system(systems[place]))
    return Centres(x, y, system, tuple(systems), lon, lat, tuple(unusable))


def results_crs(survey: Survey, places: Centres) -> str | None:
    """Coordinate system of the results.

    It is that of the settings, else the one in which all centres are given, else the
    UTM zone (WGS 84) of the plots; None when no plot has coordinates.

    Raises
    ------
    InputError
        When the system of the settings is not known.
    """
    if survey.settings.crs:
        coordinate_system(survey.settings.crs)
        return survey.settings.crs
    used = [text for text, _ in places.by_system()]
    # One system may be written in several ways.
    if len({coordinate_system(text) for text in used}) == 1 and coordinate_system(used[0]).is_projected:
        return used[0]
    return utm_zone(places)


def utm_zone(places: Centres) -> str | None:
    """UTM zone (WGS 84) of the middle of all plots; None when no plot has coordinates."""
    known = np.isfinite(places.lon) & np.isfinite(places.lat)
    if not known.any():
        return None
    lon, lat = float(np.median(places.lon[known])), float(np.median(places.lat[known]))
    zone = int((lon + 180.0) % 360.0 // 6.0) + 1
    return f"EPSG:{(32600 if lat >= 0 else 32700) + zone}"


def project_points(
    places: Centres, crs: str, visit_row: NDArray[np.int64], true_azimuth_deg: Floats, distance_m: Floats
) -> tuple[Floats, Floats]:
    """Easting and northing of points seen from the plot centres; NaN where centre or direction is missing.

    Parameters
    ----------
    visit_row, true_azimuth_deg, distance_m
        From which centre each point is seen, in which direction and how far; shape (n,).

    Raises
    ------
    InputError
        When the system is not known.
    """
    target = coordinate_system(crs)
    easting, northing = np.full(len(visit_row), np.nan), np.full(len(visit_row), np.nan)
    for text, rows in places.by_system():
        number = np.full(len(places.x), -1, np.int64)
        number[rows] = np.arange(len(rows))
        here = number[visit_row]
        chosen = slice(None) if len(rows) == len(places.x) else np.flatnonzero(here >= 0)
        easting[chosen], northing[chosen] = locate.project(
            places.x[rows],
            places.y[rows],
            coordinate_system(text),
            plot_of_stem=here[chosen],
            true_azimuth_deg=true_azimuth_deg[chosen],
            distance_m=distance_m[chosen],
            target_crs=target,
        )
    return easting, northing
