"""Units of the circle, norths and the angles between them."""

import math
from datetime import datetime

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.testing import assert_allclose, assert_array_equal
from pyproj import CRS, Transformer

from stemmap.core.bearings import convergence, declination, from_degrees, grid_azimuth, to_degrees
from stemmap.errors import InputError
from stemmap.units import FULL_CIRCLE


def degrees(whole: float, minutes: float, seconds: float) -> float:
    return math.copysign(abs(whole) + minutes / 60 + seconds / 3600, whole)


# -- units ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("gon", "degree"), [(50, 45), (100, 90), (250, 225), (399.9, 359.91)])
def test_400_gon_are_a_full_circle(gon, degree):
    # Computed: 1 gon = 0.9 degrees.
    assert_allclose(to_degrees(gon, "gon"), degree, rtol=1e-15)


@pytest.mark.parametrize(("unit", "right_angle"), [("mil_6400", 1600), ("mil_6300", 1575), ("mil_6000", 1500)])
def test_every_mil_has_its_own_circle(unit, right_angle):
    assert to_degrees(right_angle, unit) == 90.0


@given(st.floats(-1e4, 1e4), st.sampled_from(sorted(FULL_CIRCLE)))
def test_turning_into_degrees_and_back_changes_nothing(angle, unit):
    assert_allclose(from_degrees(to_degrees(angle, unit), unit), angle, rtol=1e-14, atol=1e-12)


def test_a_missing_azimuth_stays_missing():
    assert_array_equal(to_degrees([np.nan, 100.0], "gon"), [np.nan, 90.0])


def test_an_unknown_unit_is_refused_with_the_known_ones():
    with pytest.raises(InputError, match=r"'grad'.*degree, gon, mil_6400"):
        to_degrees(1.0, "grad")


# -- north ------------------------------------------------------------------------------------------------------


def test_declination_turns_forward_and_convergence_back():
    found = grid_azimuth([10.0, 359.0, 1.0], declination_deg=[3.0, 3.0, 0.0], convergence_deg=[0.5, 0.0, 2.0])
    assert_allclose(found, [12.5, 2.0, 359.0])


@pytest.mark.parametrize("azimuth", [0.0, 360.0, 720.0, -1e-16, -360.0])
def test_grid_azimuths_lie_from_0_to_under_360(azimuth):
    assert 0.0 <= grid_azimuth(azimuth, declination_deg=0.0, convergence_deg=0.0) < 360.0


def test_a_grid_azimuth_without_its_declination_is_missing():
    assert np.isnan(grid_azimuth(10.0, declination_deg=np.nan, convergence_deg=0.0))


def on_wgs84(crs: str, lon: float, lat: float) -> tuple[float, float]:
    """Carry a position given on the datum of a grid to WGS 84."""
    return Transformer.from_crs(CRS(crs).geodetic_crs, "EPSG:4326", always_xy=True).transform(lon, lat)


@pytest.mark.parametrize(
    ("crs", "lon", "lat", "gamma", "tolerance"),
    [
        # EPSG Guidance Note 7-2, transverse Mercator (method 9807), worked example; its convergence is computed
        # (1 55 46.42) with the printed scale factor, which does not enter it.
        ("EPSG:27700", 0.5, 50.5, 1.929560856, 2e-8),
        # Ordnance Survey, A guide to coordinate systems in Great Britain, annex C, Caister (from memory).
        (
            "EPSG:27700",
            degrees(1, 43, 4.5177),
            degrees(52, 39, 27.2531),
            degrees(2, 57, 26.556),
            degrees(0, 0, 0.0006),
        ),
        # ICSM, Geocentric Datum of Australia technical manual, Flinders Peak and Buninyong (from memory; the manual
        # gives the opposite sign since it adds the convergence to azimuths).
        (
            "EPSG:28355",
            degrees(144, 25, 29.52440),
            degrees(-37, 57, 3.72030),
            degrees(1, 35, 3.65),
            degrees(0, 0, 0.006),
        ),
        (
            "EPSG:28355",
            degrees(143, 55, 35.38390),
            degrees(-37, 39, 10.15610),
            degrees(1, 52, 43.22),
            degrees(0, 0, 0.006),
        ),
        # Computed: UTM on WGS 84.
        ("EPSG:32632", 8.5417, 47.3769, -0.3372315, 1e-7),
        ("EPSG:32635", 24.94, 60.17, -1.7872520, 1e-7),
        ("EPSG:32633", 13.82, 52.83, -0.9403276, 1e-7),
        ("EPSG:32632", 12.0, 45.0, 2.1222997, 1e-7),
        ("EPSG:32633", 18.0, 60.0, 2.5986727, 1e-7),
    ],
)
def test_convergence_agrees_with_worked_examples(crs, lon, lat, gamma, tolerance):
    assert_allclose(convergence(*on_wgs84(crs, lon, lat), crs), gamma, rtol=0, atol=tolerance)


@pytest.mark.parametrize(
    ("crs", "lon", "lat"),
    [
        ("EPSG:32632", 11.3, 47.0),
        ("EPSG:32733", 12.4, -22.0),
        ("EPSG:3035", 4.6, 48.7),
        ("EPSG:27700", -5.2, 57.1),
        ("EPSG:3413", 20.0, 71.0),
        ("EPSG:5041", 100.0, 85.0),
        ("EPSG:3031", -60.0, -75.0),
        ("EPSG:2263", -72.5, 40.8),
        ("EPSG:2056", 9.8, 46.8),
        ("EPSG:3857", 25.0, 68.0),
        ("EPSG:31467", 8.1, 50.0),
        ("EPSG:27572", 4.5, 46.0),  # meridian of Paris, base system in gon
        ("EPSG:5514", 17.3, 49.1),
        ("EPSG:28992", 6.5, 52.2),
        ("EPSG:7415", 6.5, 52.2),  # compound: the same grid with heights
    ],
)
def test_convergence_is_the_direction_of_the_meridian_in_the_grid(crs, lon, lat):
    grid = CRS(crs).to_2d()
    base = grid.geodetic_crs
    unit = math.degrees(base.axis_info[0].unit_conversion_factor)
    own_lon, own_lat = Transformer.from_crs("EPSG:4326", base, always_xy=True).transform(lon, lat)
    # Half a second of latitude to either side, on the grid's own datum.
    x, y = Transformer.from_crs(base, grid, always_xy=True).transform(
        [own_lon, own_lon], [own_lat - 1e-4 / unit, own_lat + 1e-4 / unit]
    )
    meridian = math.degrees(math.atan2(x[1] - x[0], y[1] - y[0]))
    assert_allclose(convergence(lon, lat, crs), -meridian, rtol=0, atol=2e-8)


def test_in_a_south_orientated_grid_north_is_against_the_second_axis():
    lon, lat = 28.0, -25.0
    west, south = Transformer.from_crs("EPSG:4148", "EPSG:2053", always_xy=True).transform(
        [lon, lon], [lat - 1e-4, lat + 1e-4]
    )
    meridian = math.degrees(math.atan2(-(west[1] - west[0]), -(south[1] - south[0])))
    assert_allclose(convergence(*on_wgs84("EPSG:2053", lon, lat), "EPSG:2053"), -meridian, atol=2e-8)


def test_the_datum_of_the_grid_is_heeded():
    # On WGS 84 the same figures lie some 120 m away, which turns the meridian.
    own = convergence(*on_wgs84("EPSG:27700", 0.5, 50.5), "EPSG:27700")
    assert 5e-4 < abs(float(own - convergence(0.5, 50.5, "EPSG:27700"))) < 5e-3


def test_a_geographic_system_has_no_convergence():
    assert_array_equal(convergence([9.0, np.nan], [47.0, 47.0], "EPSG:4258"), [0.0, np.nan])


def test_convergence_of_a_missing_or_impossible_position_is_missing():
    found = convergence([np.nan, 9.0, 9.0, 9.0], [47.0, np.nan, 95.0, 47.0], "EPSG:32632")
    assert_array_equal(np.isnan(found), [True, True, True, False])


def test_a_system_without_a_north_is_refused():
    with pytest.raises(InputError, match="choose a projected system"):
        convergence(9.0, 47.0, "EPSG:4978")


# -- declination ------------------------------------------------------------------------------------------------

# NOAA NCEI / British Geological Survey, World Magnetic Model 2025, test values (WMM2025_TEST_VALUES.txt and
# WMM2025_TestValues.txt): decimal year, height km, lat, lon, declination.
WMM2025 = """
2025.0   0  80    0    1.28
2025.0   0   0  120   -0.16
2025.0   0 -80  240   68.78
2025.0 100  80    0    0.85
2025.0 100   0  120   -0.15
2025.0 100 -80  240   68.21
2027.5   0  80    0    2.59
2027.5   0   0  120   -0.24
2027.5   0 -80  240   68.49
2027.5 100  80    0    2.16
2027.5 100   0  120   -0.23
2027.5 100 -80  240   67.93
2025.0  28  89 -121  -99.77
2025.0  48  80  -96  -29.91
2025.0  65  43   93    0.50
2025.0  51 -33  109   -5.49
2025.0  18   0   21    1.29
2025.5   6 -36 -137   20.28
2025.5   8 -66   17  -33.14
2026.0  74 -57    3  -22.51
2026.0  62 -14   99   -1.43
2026.5  14   0   80   -3.10
2027.0  37 -66   -5  -17.22
2027.5  73 -72   95 -102.64
"""


def calendar(year: float) -> np.datetime64:
    start, end = (np.datetime64(f"{int(year) + i}-01-01", "D") for i in (0, 1))
    return start + np.timedelta64(round((year % 1) * int((end - start).astype(int))), "D")


def midnight(date: np.datetime64) -> datetime:
    return date.astype("datetime64[s]").item()


def horizontal_intensity(lon: float, lat: float, km: float, date: np.datetime64) -> float:
    import ppigrf

    east, north, _up = ppigrf.igrf(lon, lat, km, midnight(date))
    return float(np.hypot(east, north).item())


def test_declination_agrees_with_the_other_world_model_where_a_compass_works():
    """The two models are fitted by different groups to different data.

    Their fields differ by some 10 nT, and a difference of 15 nT turns the needle by atan(15 nT / H): 0.14 degrees
    where the horizontal field H is 6000 nT, under which a compass is of little use, and 0.04 at 20,000 nT.
    """
    rows = np.array([line.split() for line in WMM2025.strip().splitlines()], dtype=float)
    year, km, lat, lon, printed = rows.T
    dates = np.array([calendar(y) for y in year])
    intensity = np.array([horizontal_intensity(*row) for row in zip(lon, lat, km, dates, strict=True)])
    usable = intensity > 6000.0
    assert usable.sum() >= 14
    found = declination(lon, lat, km * 1000.0, dates)
    allowed = np.degrees(np.arctan(15.0 / intensity)) + 0.005  # the values are printed to 0.01
    assert_array_equal(np.abs(found - printed)[usable] <= allowed[usable], True)


def test_declination_agrees_with_plausible_values_of_2026():
    # Computed by an independent evaluation of the World Magnetic Model 2025: Zurich, Helsinki, Eberswalde.
    found = declination([8.54, 24.94, 13.82], [47.38, 60.17, 52.83], 100.0, np.datetime64("2026-01-01"))
    assert_allclose(found, [3.546, 10.353, 5.220], atol=0.1)


def test_interpolation_to_the_day_equals_the_model_of_the_day():
    import ppigrf

    dates = np.array(["1903-06-15", "1965-01-01", "2001-12-31", "2029-02-03"], dtype="datetime64[D]")
    found = declination(8.5, 47.4, 500.0, dates)
    for angle, date in zip(found, dates, strict=True):
        east, north, _up = ppigrf.igrf(8.5, 47.4, 0.5, midnight(date))
        assert_allclose(angle, np.degrees(np.arctan2(east, north)).item(), atol=1e-9)


def test_plots_and_dates_in_any_order_get_their_own_declination():
    rng = np.random.default_rng(3)
    lon, lat = rng.uniform(5, 15, 20), rng.uniform(45, 55, 20)
    dates = np.datetime64("1988-01-01") + rng.integers(0, 14_000, 20).astype("timedelta64[D]")
    alone = [declination(lon[i : i + 1], lat[i : i + 1], 0.0, dates[i : i + 1])[0] for i in range(20)]
    assert_allclose(declination(lon, lat, 0.0, dates), alone, rtol=1e-12)


def test_many_plots_are_taken_in_parts():
    found = declination(np.full(9000, 8.5), np.linspace(46, 47, 9000), 0.0, np.datetime64("2020-05-01"))
    assert np.isfinite(found).all()
    assert (np.abs(np.diff(found)) < 1e-3).all()


def test_declination_without_date_or_position_or_outside_the_model_is_missing():
    dates = np.array(["NaT", "1899-12-31", "2030-01-02", "2030-01-01", "1900-01-01", "2020-01-01"], "datetime64[D]")
    found = declination([8.5] * 5 + [np.nan], 47.0, np.nan, dates)
    assert_array_equal(np.isnan(found), [True, True, True, False, False, True])


def test_missing_elevation_counts_as_sea_level():
    date = np.datetime64("2020-01-01")
    assert declination(8.5, 47.0, np.nan, date) == declination(8.5, 47.0, 0.0, date)


def test_no_plots_have_no_declination():
    assert declination([], [], [], np.array([], "datetime64[D]")).shape == (0,)
