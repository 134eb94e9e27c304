"""Azimuths: units of the circle, the norths they are counted from, and the angles between these norths."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from stemmap.errors import InputError
from stemmap.units import FULL_CIRCLE

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray
    from pyproj import CRS

__all__ = ["convergence", "declination", "from_degrees", "grid_azimuth", "to_degrees"]

_FIRST_YEAR: Final = 1900
_LAST_YEAR: Final = 2030
_EPOCH_YEARS: Final = 5
# The field model holds about twenty arrays of 104 coefficients per point.
_POINTS_AT_ONCE: Final = 4096


def to_degrees(azimuth: ArrayLike, unit: str) -> NDArray[np.float64]:
    """Turn angles of any unit of the circle into degrees.

    Parameters
    ----------
    azimuth
        Angles in `unit`, any shape.
    unit
        A key of `stemmap.units.FULL_CIRCLE`.

    Raises
    ------
    InputError
        The unit is unknown.

    Examples
    --------
    >>> to_degrees([50.0, 250.0], "gon")
    array([ 45., 225.])
    >>> to_degrees([], "degree")
    array([], dtype=float64)
    """
    return np.asarray(azimuth, dtype=float) * (360.0 / _full_circle(unit))


def from_degrees(degrees: ArrayLike, unit: str) -> NDArray[np.float64]:
    """Turn degrees into angles of any unit of the circle; the inverse of `to_degrees`.

    Raises
    ------
    InputError
        The unit is unknown.
    """
    return np.asarray(degrees, dtype=float) * (_full_circle(unit) / 360.0)


def grid_azimuth(
    azimuth_deg: ArrayLike, *, declination_deg: ArrayLike, convergence_deg: ArrayLike
) -> NDArray[np.float64]:
    """Count azimuths from grid north.

    Grid azimuth = azimuth + declination - convergence. The declination is 0 for azimuths that are not magnetic,
    the convergence 0 for azimuths that are grid azimuths already. The other way round, true azimuth = grid
    azimuth + convergence.

    Parameters
    ----------
    azimuth_deg
        Azimuths as measured, degrees.
    declination_deg
        Magnetic declination, degrees, east positive.
    convergence_deg
        Meridian convergence, degrees, see `convergence`.

    Returns
    -------
    Degrees in [0, 360); NaN where any of the three is missing.
    """
    turned = np.asarray(azimuth_deg, dtype=float) + np.asarray(declination_deg, dtype=float)
    turned = np.mod(turned - np.asarray(convergence_deg, dtype=float), 360.0)
    # The remainder of a tiny negative number is 360 itself in floating point.
    return np.asarray(np.where(turned >= 360.0, 0.0, turned), dtype=float)


def convergence(lon: ArrayLike, lat: ArrayLike, crs: CRS | str | int) -> NDArray[np.float64]:
    """Meridian convergence: the angle from true north to grid north, clockwise positive.

    In a transverse Mercator grid of the northern hemisphere it is positive east of the central meridian.
    The positions are carried to the datum of the grid first, since a shift of 100 m alone turns the meridian by
    0.001 degrees. In a grid whose axes run west and south, grid north is the direction against the second axis.

    Parameters
    ----------
    lon, lat
        Positions on WGS 84, degrees, same shape.
    crs
        The grid. A geographic system has no grid north: 0.

    Returns
    -------
    Degrees in (-180, 180]; NaN where a position is missing or outside the projection.

    Raises
    ------
    InputError
        The system is neither projected nor geographic.
    """
    from pyproj import CRS, Proj, Transformer

    grid = CRS.from_user_input(crs).to_2d()
    lon, lat = np.broadcast_arrays(np.asarray(lon, dtype=float), np.asarray(lat, dtype=float))
    known = np.isfinite(lon) & np.isfinite(lat)
    angle = np.full(lon.shape, np.nan)
    if grid.is_geographic:
        angle[known] = 0.0
        return angle
    base = grid.geodetic_crs
    if not grid.is_projected or base is None:
        raise InputError(f"Azimuths cannot be counted from the north of {grid.name!r}: choose a projected system.")
    to_base = Transformer.from_crs("EPSG:4326", base, always_xy=True)
    own_lon, own_lat = to_base.transform(lon[known], lat[known])
    degrees = np.degrees(base.axis_info[0].unit_conversion_factor)
    factors = Proj(grid).get_factors(own_lon * degrees, own_lat * degrees)
    found = np.asarray(factors.meridian_convergence, dtype=float)
    angle[known] = np.where(np.isfinite(found), found, np.nan)
    return angle


def declination(lon: ArrayLike, lat: ArrayLike, elevation_m: ArrayLike, date: ArrayLike) -> NDArray[np.float64]:
    """Magnetic declination by the International Geomagnetic Reference Field, 14th generation.

    The model's coefficients, and with them the field's components, run straight between epochs five years apart;
    so the components are taken at both ends of the five years and interpolated to the day.

    Parameters
    ----------
    lon, lat
        Positions on WGS 84, degrees, shape (plots,).
    elevation_m
        Metres above the ellipsoid; NaN counts as 0 (1000 m change the declination by some 0.003 degrees).
    date
        datetime64[D], shape (plots,) or one date.

    Returns
    -------
    Degrees, east positive, shape (plots,); NaN where position or date is missing, or the date is not within
    1900 to 2030.

    References
    ----------
    IAGA Division V-MOD, IGRF-14 (2024), doi 10.5281/zenodo.14012302.
    """
    columns = np.broadcast_arrays(
        np.asarray(lon, dtype=float),
        np.asarray(lat, dtype=float),
        np.asarray(elevation_m, dtype=float),
        np.asarray(date, dtype="datetime64[D]"),
    )
    shape = columns[0].shape
    lon, lat, height, day = (column.ravel() for column in columns)
    angle = np.full(lon.shape, np.nan)
    first, last = (np.datetime64(f"{year}-01-01", "D") for year in (_FIRST_YEAR, _LAST_YEAR))
    known = np.isfinite(lon) & np.isfinite(lat) & (day >= first) & (day <= last)
    year = day.astype("datetime64[Y]").astype(np.int64) + 1970
    epoch = np.minimum((year - _FIRST_YEAR) // _EPOCH_YEARS, (_LAST_YEAR - _FIRST_YEAR) // _EPOCH_YEARS - 1)
    height = np.where(np.isfinite(height), height, 0.0)
    for number in np.unique(epoch[known]):
        plots = np.flatnonzero(known & (epoch == number))
        for part in np.split(plots, range(_POINTS_AT_ONCE, plots.size, _POINTS_AT_ONCE)):
            angle[part] = _declination_between_epochs(
                lon[part], lat[part], height[part], day[part], _FIRST_YEAR + _EPOCH_YEARS * int(number)
            )
    return angle.reshape(shape)


def _declination_between_epochs(
    lon: NDArray[np.float64],
    lat: NDArray[np.float64],
    height: NDArray[np.float64],
    day: NDArray[np.datetime64],
    year: int,
) -> NDArray[np.float64]:
    from datetime import datetime

    import ppigrf

    start, end = (datetime(y, 1, 1) for y in (year, year + _EPOCH_YEARS))
    # At the poles themselves east has no direction and the model divides by zero.
    with np.errstate(invalid="ignore", divide="ignore"):
        east, north, _up = ppigrf.igrf(lon, lat, height / 1000.0, [start, end])
    share = (day - np.datetime64(start, "D")) / (np.datetime64(end, "D") - np.datetime64(start, "D"))
    angle: NDArray[np.float64] = np.degrees(
        np.arctan2(east[0] + share * (east[1] - east[0]), north[0] + share * (north[1] - north[0]))
    )
    return angle


def _full_circle(unit: str) -> float:
    try:
        return FULL_CIRCLE[unit]
    except KeyError:
        raise InputError(f"The azimuth unit {unit!r} is not known: choose one of {', '.join(FULL_CIRCLE)}.") from None
