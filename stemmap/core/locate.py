"""From polar records to places: axis distance, offsets, projected coordinates, and how sure they are."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Final, NamedTuple

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray
    from pyproj import CRS, Transformer

__all__ = [
    "HALF_DBH",
    "PositionErrors",
    "Precision",
    "dbh_sd",
    "geographic",
    "horizontal_distance",
    "offsets",
    "polar",
    "polar_errors",
    "position_errors",
    "project",
]

#: A stem's axis is half a dbh behind its face: metres of distance per centimetre of dbh.
HALF_DBH: Final = 1.0 / 200.0
# Where the short series ends and the exact geodesic begins; the series is good to 0.001 mm inside.
_SERIES_REACH_M: Final = 60.0
_SERIES_LATITUDE: Final = 85.0
# Blocks that stay in the processor's cache.
_STEMS_AT_ONCE: Final = 1 << 16


@dataclass(frozen=True)
class Precision:
    """Standard deviations of what a crew measures; the defaults are the program's.

    Parameters
    ----------
    azimuth_sd_deg
        Azimuth, degrees.
    distance_sd_m, distance_sd_percent
        Distance: a constant part in metres and a part of the distance in percent, added in squares.
    vertical_angle_sd_deg
        Vertical angle, degrees; matters for slope distances only.
    dbh_sd_percent, dbh_sd_mm
        Dbh: a part of the dbh in percent and a constant part in millimetres, added in squares.
    """

    azimuth_sd_deg: float = 1.0
    distance_sd_m: float = 0.05
    distance_sd_percent: float = 0.0
    vertical_angle_sd_deg: float = 0.5
    dbh_sd_percent: float = 0.0
    dbh_sd_mm: float = 3.0


@dataclass(frozen=True)
class PositionErrors:
    """How sure positions are; arrays of one shape.

    Parameters
    ----------
    radial_sd_m
        Along the line of sight, horizontal, metres.
    tape_sd_m
        The share of `radial_sd_m` without the half diameter: distance and vertical angle alone.
    slope_sd_m
        Of the distance as it was measured, before the vertical angle: metres.
    tangential_sd_m
        Across the line of sight, metres.
    shift_m
        Expected minus computed horizontal distance, metres: an uncertain vertical angle makes distances come out too
        long. 0 for horizontal distances.
    var_east, var_north, cov_east_north
        The covariance in the grid, square metres.
    """

    radial_sd_m: NDArray[np.float64]
    tape_sd_m: NDArray[np.float64]
    slope_sd_m: NDArray[np.float64]
    tangential_sd_m: NDArray[np.float64]
    shift_m: NDArray[np.float64]
    var_east: NDArray[np.float64]
    var_north: NDArray[np.float64]
    cov_east_north: NDArray[np.float64]


def horizontal_distance(
    distance_m: ArrayLike, *, vertical_angle_deg: ArrayLike | None = None, dbh_cm: ArrayLike | None = None
) -> NDArray[np.float64]:
    """Horizontal distance from the point of measurement to the stem's axis.

    D = s cos(v) + dbh / 200, where the second term stands only for distances taken to the face.

    Parameters
    ----------
    distance_m
        Distance as measured, metres.
    vertical_angle_deg
        Given when the distance is a slope distance: degrees from the horizontal.
    dbh_cm
        Given when the distance was taken to the face of the stem: centimetres.

    Examples
    --------
    >>> horizontal_distance([13.40, 12.5], vertical_angle_deg=[20.0, 0.0], dbh_cm=30.0).round(4)
    array([12.7419, 12.65  ])
    """
    distance = np.asarray(distance_m, dtype=float)
    if vertical_angle_deg is not None:
        distance = distance * np.cos(np.radians(vertical_angle_deg))
    if dbh_cm is not None:
        distance = distance + np.asarray(dbh_cm, dtype=float) * HALF_DBH
    return distance


def offsets(grid_azimuth_deg: ArrayLike, distance_m: ArrayLike) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Ground metres east and north (x, y) of the point a polar record was measured from.

    Counted in the north the azimuth is counted in: grid azimuths give grid east and grid north.
    """
    angle = np.radians(np.asarray(grid_azimuth_deg, dtype=float))
    distance = np.asarray(distance_m, dtype=float)
    return distance * np.sin(angle), distance * np.cos(angle)


def polar(x_m: ArrayLike, y_m: ArrayLike) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Azimuth (degrees in [0, 360)) and distance (metres) of offsets; the inverse of `offsets`.

    A stem measured from a station stands at the station's offsets plus its own; what `project`, the design and the
    probability of being in need is the azimuth and distance of that sum.
    """
    x, y = np.asarray(x_m, dtype=float), np.asarray(y_m, dtype=float)
    angle = np.mod(np.degrees(np.arctan2(x, y)), 360.0)
    return np.where(angle >= 360.0, 0.0, angle), np.hypot(x, y)


def dbh_sd(dbh_cm: ArrayLike, precision: Precision) -> NDArray[np.float64]:
    """Standard deviation of dbh, centimetres."""
    relative = np.asarray(dbh_cm, dtype=float) * (precision.dbh_sd_percent / 100.0)
    return np.hypot(relative, precision.dbh_sd_mm / 10.0) + 0.0 * relative


def position_errors(
    grid_azimuth_deg: ArrayLike,
    distance_m: ArrayLike,
    precision: Precision,
    *,
    vertical_angle_deg: ArrayLike | None = None,
    dbh_cm: ArrayLike | None = None,
) -> PositionErrors:
    """Carry the standard deviations of the measurements to the stem's position.

    Across the line of sight (D sd(azimuth))^2; along it the variance of s cos(v), by the exact moments of the cosine of
    a normal angle, E cos(v) = cos(v) exp(-var(v) / 2) and E cos(v)^2 = (1 + cos(2v) exp(-2 var(v))) / 2, and
    var(dbh) / 200^2. To first order that is cos(v)^2 var(s) + (s sin(v))^2 var(v) + var(dbh) / 200^2.

    Parameters
    ----------
    grid_azimuth_deg
        Direction of the line of sight in the grid, degrees.
    distance_m, vertical_angle_deg, dbh_cm
        As in `horizontal_distance`: the angle only for slope distances, the dbh only for distances to the face.
    precision
        The standard deviations.
    """
    measured = np.asarray(distance_m, dtype=float)
    horizontal = horizontal_distance(measured, vertical_angle_deg=vertical_angle_deg, dbh_cm=dbh_cm)
    slope_sd = np.hypot(measured * (precision.distance_sd_percent / 100.0), precision.distance_sd_m) + 0.0 * measured
    tape_sd, shift = slope_sd, np.zeros(slope_sd.shape)
    if vertical_angle_deg is not None:
        angle = np.radians(np.asarray(vertical_angle_deg, dtype=float))
        spread = np.radians(precision.vertical_angle_sd_deg) ** 2
        cosine, square = (
            np.exp(-spread / 2.0) * np.cos(angle),
            (1.0 + np.exp(-2.0 * spread) * np.cos(2.0 * angle)) / 2.0,
        )
        # Of level angles the difference of squares may fall below 0 by the last digit.
        tape_sd = np.sqrt(square * slope_sd**2 + np.maximum(square - cosine**2, 0.0) * measured**2)
        shift = measured * (cosine - np.cos(angle))
    radial_sd = tape_sd
    if dbh_cm is not None:
        radial_sd = np.hypot(tape_sd, dbh_sd(dbh_cm, precision) * HALF_DBH)
    tangential_sd = np.abs(horizontal) * np.radians(precision.azimuth_sd_deg)
    east, north = offsets(grid_azimuth_deg, 1.0)
    along, across = radial_sd**2, tangential_sd**2
    return PositionErrors(
        radial_sd_m=radial_sd,
        tape_sd_m=tape_sd,
        slope_sd_m=slope_sd,
        tangential_sd_m=tangential_sd,
        shift_m=shift,
        var_east=along * east**2 + across * north**2,
        var_north=along * north**2 + across * east**2,
        cov_east_north=(along - across) * east * north,
    )


def polar_errors(
    azimuth_deg: ArrayLike, var_east: ArrayLike, var_north: ArrayLike, cov_east_north: ArrayLike
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Standard deviations (metres) along and across another line of sight than the measured one.

    For stems measured from a station: give the azimuth in which the plot centre sees the stem.
    """
    sine, cosine = offsets(azimuth_deg, 1.0)
    east, north, both = (np.asarray(a, dtype=float) for a in (var_east, var_north, cov_east_north))
    along = east * sine**2 + north * cosine**2 + 2.0 * both * sine * cosine
    across = east * cosine**2 + north * sine**2 - 2.0 * both * sine * cosine
    return np.sqrt(np.maximum(along, 0.0)), np.sqrt(np.maximum(across, 0.0))


def geographic(x: ArrayLike, y: ArrayLike, crs: CRS | str | int) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Longitude and latitude on WGS 84 (degrees) of positions in any system; NaN where there is none."""
    from pyproj import CRS

    to_wgs84 = _transformer(CRS.from_user_input(crs), CRS.from_epsg(4326))
    return _finite(*to_wgs84.transform(np.asarray(x, dtype=float), np.asarray(y, dtype=float)))


def project(
    centre_x: ArrayLike,
    centre_y: ArrayLike,
    centre_crs: CRS | str | int,
    *,
    plot_of_stem: ArrayLike,
    true_azimuth_deg: ArrayLike,
    distance_m: ArrayLike,
    target_crs: CRS | str | int,
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Projected positions of stems from their plot centres.

    A stem is the end of the geodesic that leaves the plot centre at the true azimuth, on the ellipsoid of the
    centre's system, and is then transformed to `target_crs`. Distances are ground distances, so on the map they
    are scaled as the projection scales. True azimuth = grid azimuth + convergence. In a grid that does not keep
    angles the stem's direction on the map differs a little from its grid azimuth.

    Up to 60 m and 85 degrees of latitude the geodesic is Legendre's series to the second order, whose first
    neglected term is s^3 (1 + 3 tan^2 lat) / (6 N^2), 0.001 mm at worst; beyond, the exact solution is used.

    Parameters
    ----------
    centre_x, centre_y
        Plot centres, shape (plots,), in the unit of `centre_crs`: longitude and latitude or easting and northing.
    centre_crs
        System of the centres, geographic or projected.
    plot_of_stem
        Number of each stem's plot, integers, shape (stems,).
    true_azimuth_deg
        Degrees from true north, shape (stems,).
    distance_m
        Horizontal ground distance, metres, shape (stems,).
    target_crs
        System of the result.

    Returns
    -------
    The first and second coordinate in visualisation order (easting, northing; a system whose axes run west and
    south gives westing and southing), shape (stems,). NaN where anything is missing or outside the projection.
    """
    from pyproj import CRS

    source, target = CRS.from_user_input(centre_crs).to_2d(), CRS.from_user_input(target_crs).to_2d()
    base = _geographic_base(source)
    lon, lat = np.asarray(centre_x, dtype=float), np.asarray(centre_y, dtype=float)
    if not source.is_geographic:
        lon, lat = _finite(*_transformer(source, base).transform(lon, lat))
    unit = np.degrees(base.axis_info[0].unit_conversion_factor)
    ends = _Geodesics(lon * unit, lat * unit, base)
    to_target = _transformer(base, target)

    plot = np.asarray(plot_of_stem)
    azimuth, distance = np.asarray(true_azimuth_deg, dtype=float), np.asarray(distance_m, dtype=float)
    x, y = np.empty(plot.shape), np.empty(plot.shape)
    for start in range(0, plot.size, _STEMS_AT_ONCE):
        part = slice(start, start + _STEMS_AT_ONCE)
        end_lon, end_lat = ends.reach(plot[part], azimuth[part], distance[part])
        end_lon /= unit
        end_lat /= unit
        x[part], y[part] = _finite(*to_target.transform(end_lon, end_lat, inplace=True))
    return x, y


class _Series(NamedTuple):
    """Per plot: degrees per metre east and north, tan(lat)/N and 3 eta^2 tan(lat)/(2N) per metre."""

    east: NDArray[np.float64]
    north: NDArray[np.float64]
    bend: NDArray[np.float64]
    flattening: NDArray[np.float64]


class _Geodesics:
    """Short geodesics from the plot centres."""

    def __init__(self, lon: NDArray[np.float64], lat: NDArray[np.float64], crs: CRS) -> None:
        geod = crs.get_geod()
        assert geod is not None
        self._geod, self._lon, self._lat = geod, lon, lat
        # Outside the series' reach the figures are not used, but must not warn.
        angle = np.radians(np.clip(lat, -_SERIES_LATITUDE, _SERIES_LATITUDE))
        tangent = np.tan(angle)
        prime_vertical = geod.a / np.sqrt(1.0 - geod.es * np.sin(angle) ** 2)
        eta2 = geod.es / (1.0 - geod.es) * np.cos(angle) ** 2
        self._series = _Series(
            east=np.degrees(1.0 / (prime_vertical * np.cos(angle))),
            north=np.degrees((1.0 + eta2) / prime_vertical),
            bend=tangent / prime_vertical,
            flattening=1.5 * eta2 * tangent / prime_vertical,
        )

    def reach(
        self, plot: NDArray[np.int_], azimuth: NDArray[np.float64], distance: NDArray[np.float64]
    ) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Longitude and latitude (degrees) of the ends."""
        lon, lat = self._lon[plot], self._lat[plot]
        series = self._series
        east, north = offsets(azimuth, distance)
        bend = series.bend[plot]
        # An infinite distance may meet itself in a difference; it has no end.
        with np.errstate(invalid="ignore"):
            end_lon = lon + series.east[plot] * east * (1.0 + bend * north)
            end_lat = lat + series.north[plot] * (north - 0.5 * bend * east**2 - series.flattening[plot] * north**2)
        far = (np.abs(distance) > _SERIES_REACH_M) | (np.abs(lat) > _SERIES_LATITUDE)
        far &= np.isfinite(end_lon + end_lat)
        if far.any():
            end_lon[far], end_lat[far], _back = self._geod.fwd(lon[far], lat[far], azimuth[far], distance[far])
        return end_lon, end_lat


@lru_cache(maxsize=32)
def _transformer(source: CRS, target: CRS) -> Transformer:
    """Finding the way from system to system takes longer than transforming 100,000 points."""
    from pyproj import Transformer

    return Transformer.from_crs(source, target, always_xy=True)


def _geographic_base(crs: CRS) -> CRS:
    """Return the geographic system a system is built on, with its own way to WGS 84 where it carries one."""
    from pyproj.crs import BoundCRS

    if crs.is_geographic:
        return crs
    base = crs.geodetic_crs
    assert base is not None
    if crs.is_bound and not base.is_bound:
        return BoundCRS(base, crs.target_crs, crs.coordinate_operation)
    return base


def _finite(x: NDArray[np.float64], y: NDArray[np.float64]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Turn positions that a transformation refused (infinite) into missing ones."""
    good = np.isfinite(x) & np.isfinite(y)
    return np.where(good, x, np.nan), np.where(good, y, np.nan)
