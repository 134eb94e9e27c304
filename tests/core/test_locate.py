"""From polar records to places."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.testing import assert_allclose, assert_array_equal
from pyproj import CRS, Transformer

from stemmap.core.bearings import convergence, declination, grid_azimuth, to_degrees
from stemmap.core.locate import (
    Precision,
    dbh_sd,
    geographic,
    horizontal_distance,
    offsets,
    polar,
    polar_errors,
    position_errors,
    project,
)

WGS84 = "EPSG:4326"

#: Systems of every kind, with a rectangle of longitude and latitude to put plots in.
SYSTEMS = {
    "EPSG:32632": (6.0, 12.0, 40.0, 70.0),
    "EPSG:32733": (12.0, 18.0, -35.0, -5.0),
    "EPSG:3035": (-8.0, 30.0, 38.0, 68.0),
    "EPSG:27700": (-6.0, 1.5, 50.0, 59.0),
    "EPSG:3413": (-180.0, 180.0, 62.0, 84.0),
    "EPSG:5041": (-180.0, 180.0, 84.0, 89.9),
    "EPSG:2263": (-74.2, -72.0, 40.5, 41.2),
    "EPSG:2056": (6.0, 10.4, 45.9, 47.7),
    "EPSG:3857": (20.0, 30.0, 60.0, 71.0),
    "EPSG:31467": (7.6, 10.4, 47.5, 55.0),
    "EPSG:27572": (-4.0, 8.0, 44.0, 48.0),
    "EPSG:2053": (28.0, 30.0, -28.0, -22.5),
}


def true_ends(centres, crs, target, *, plot, azimuth, distance):
    """Ends of the geodesics by pyproj alone: system's ellipsoid, own geographic base, transformation."""
    source = CRS(crs)
    base = source.geodetic_crs
    unit = math.degrees(base.axis_info[0].unit_conversion_factor)
    lon, lat = (np.asarray(a, float) for a in centres)
    if source.is_projected:
        lon, lat = Transformer.from_crs(source, base, always_xy=True).transform(lon, lat)
    end_lon, end_lat, _back = source.get_geod().fwd(lon[plot] * unit, lat[plot] * unit, azimuth, distance)
    return Transformer.from_crs(base, target, always_xy=True).transform(end_lon / unit, end_lat / unit)


def apart_mm(crs, found, expected):
    metres = CRS(crs).axis_info[0].unit_conversion_factor
    return np.hypot(found[0] - expected[0], found[1] - expected[1]) * metres * 1000.0


def plots_in(crs, rng, number):
    west, east, south, north = SYSTEMS[crs]
    return rng.uniform(west, east, number), rng.uniform(south, north, number)


# -- distance, offsets ------------------------------------------------------------------------------------------


def test_half_the_dbh_lies_behind_the_face():
    # Computed: 12.50 m to the face of a stem of 30 cm.
    assert_allclose(horizontal_distance(12.50, dbh_cm=30.0), 12.65)


def test_the_slope_is_taken_before_the_half_diameter():
    # Computed: 13.40 m at 20 degrees are 12.5919 m, and 0.15 m more to the axis.
    assert_allclose(horizontal_distance(13.40, vertical_angle_deg=-20.0), 12.5919, atol=5e-5)
    assert_allclose(horizontal_distance(13.40, vertical_angle_deg=20.0, dbh_cm=30.0), 12.7419, atol=5e-5)


@pytest.mark.parametrize(
    ("percent", "cosine"),
    [(10, 0.9950), (20, 0.9806), (30, 0.9578), (40, 0.9285), (50, 0.8944), (60, 0.8575), (100, 0.7071)],
)
def test_slope_distances_shrink_by_the_cosine(percent, cosine):
    # Computed to four digits.
    angle = math.degrees(math.atan(percent / 100.0))
    assert_allclose(horizontal_distance(1.0, vertical_angle_deg=angle), cosine, atol=5e-5)


def test_missing_angle_or_dbh_leaves_the_distance_missing():
    assert np.isnan(horizontal_distance(10.0, vertical_angle_deg=np.nan))
    assert np.isnan(horizontal_distance(10.0, dbh_cm=np.nan))
    assert_array_equal(horizontal_distance([np.nan, 3.0]), [np.nan, 3.0])


@pytest.mark.parametrize(
    ("azimuth", "distance", "turn", "east", "north"),
    [(45, 12.62, 3.2, 9.4079, 8.4116), (350, 8.4, -1.5, -1.6747, 8.2314), (225, 7.32, 0, -5.1760, -5.1760)],
)
def test_offsets_run_east_and_north(azimuth, distance, turn, east, north):
    # Computed to 0.1 mm.
    found = offsets(grid_azimuth(azimuth, declination_deg=turn, convergence_deg=0.0), distance)
    assert_allclose(found, (east, north), atol=5e-5)


@given(st.floats(0.0, 359.999), st.floats(0.01, 100.0))
def test_polar_undoes_offsets(azimuth, distance):
    back_azimuth, back_distance = polar(*offsets(azimuth, distance))
    assert_allclose(back_distance, distance, rtol=1e-12)
    assert abs((back_azimuth - azimuth + 180.0) % 360.0 - 180.0) < 1e-9


def test_a_stem_seen_from_a_station_stands_at_the_sum_of_both_legs():
    station, leg = offsets(90.0, 3.0), offsets(0.0, 4.0)
    azimuth, distance = polar(station[0] + leg[0], station[1] + leg[1])
    assert_allclose((azimuth, distance), (math.degrees(math.atan2(3.0, 4.0)), 5.0))


# -- errors -----------------------------------------------------------------------------------------------------


def test_position_errors_are_those_of_drawn_measurements():
    rng = np.random.default_rng(7)
    number, precision = 400_000, Precision(2.0, 0.04, 0.8, 1.5, 4.0, 6.0)
    azimuth, slope, angle, dbh = 115.0, 14.0, 25.0, 42.0
    drawn_distance = horizontal_distance(
        slope + rng.normal(size=number) * math.hypot(0.04, 0.008 * slope),
        vertical_angle_deg=angle + rng.normal(size=number) * 1.5,
        dbh_cm=dbh + rng.normal(size=number) * math.hypot(0.6, 0.04 * dbh),
    )
    east, north = offsets(azimuth + rng.normal(size=number) * 2.0, drawn_distance)
    found = position_errors(azimuth, slope, precision, vertical_angle_deg=angle, dbh_cm=dbh)
    drawn = np.cov(east, north)
    assert_allclose([found.var_east, found.var_north, found.cov_east_north], drawn[[0, 1, 0], [0, 1, 1]], rtol=0.01)
    assert_allclose(found.radial_sd_m, drawn_distance.std(), rtol=0.01)
    assert_allclose(found.slope_sd_m, math.hypot(0.04, 0.008 * slope))
    assert found.slope_sd_m < found.tape_sd_m < found.radial_sd_m


def test_the_position_budget_of_a_compass_at_the_border():
    # Computed: at 12.62 m one degree is 0.22 m, three degrees 0.66 m.
    for degrees, metres in ((1.0, 0.22), (3.0, 0.66)):
        found = position_errors(0.0, 12.62, Precision(azimuth_sd_deg=degrees))
        assert_allclose(found.tangential_sd_m, metres, atol=5e-3)
        assert_allclose([found.var_east, found.var_north, found.cov_east_north], [metres**2, 0.05**2, 0], atol=7e-3)


def test_horizontal_distances_to_the_axis_carry_neither_angle_nor_dbh():
    found = position_errors(30.0, 10.0, Precision())
    assert found.radial_sd_m == found.tape_sd_m == found.slope_sd_m == 0.05


def test_another_line_of_sight_sees_the_same_ellipse_from_its_side():
    found = position_errors(30.0, 10.0, Precision())
    covariance = (found.var_east, found.var_north, found.cov_east_north)
    assert_allclose(polar_errors(30.0, *covariance), (found.radial_sd_m, found.tangential_sd_m))
    assert_allclose(polar_errors(300.0, *covariance), (found.tangential_sd_m, found.radial_sd_m))


def test_missing_records_have_no_errors():
    found = position_errors([np.nan, 10.0, 10.0], [5.0, np.nan, 5.0], Precision(), dbh_cm=[20.0, 20.0, np.nan])
    assert np.isnan([found.var_east, found.var_north, found.cov_east_north]).all()
    assert_array_equal(np.isnan(found.radial_sd_m), [False, True, True])
    assert_array_equal(dbh_sd([np.nan, 30.0], Precision(dbh_sd_percent=1.0, dbh_sd_mm=4.0)), [np.nan, 0.5])


# -- projection -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("crs", SYSTEMS)
def test_stems_stand_at_the_ends_of_their_geodesics(crs):
    rng = np.random.default_rng(11)
    lon, lat = plots_in(crs, rng, 60)
    plot = rng.integers(60, size=2000)  # unsorted, and some plots without stems would do no harm
    azimuth, distance = rng.uniform(0, 360, 2000), rng.uniform(0, 50, 2000)
    stems = {"plot_of_stem": plot, "true_azimuth_deg": azimuth, "distance_m": distance, "target_crs": crs}
    found = project(lon, lat, WGS84, **stems)
    assert (
        apart_mm(crs, found, true_ends((lon, lat), WGS84, crs, plot=plot, azimuth=azimuth, distance=distance)).max()
        < 0.01
    )
    x, y = Transformer.from_crs(WGS84, crs, always_xy=True).transform(lon, lat)
    found = project(x, y, crs, **stems)
    assert apart_mm(crs, found, true_ends((x, y), crs, crs, plot=plot, azimuth=azimuth, distance=distance)).max() < 0.01


@pytest.mark.parametrize(("source", "target"), [("EPSG:31467", "EPSG:25832"), ("EPSG:27700", "EPSG:3035")])
def test_centres_of_another_datum_are_carried_over_after_the_geodesic(source, target):
    rng = np.random.default_rng(12)
    x, y = Transformer.from_crs(WGS84, source, always_xy=True).transform(*plots_in(source, rng, 30))
    plot, azimuth, distance = np.arange(30), rng.uniform(0, 360, 30), rng.uniform(0, 50, 30)
    found = project(x, y, source, plot_of_stem=plot, true_azimuth_deg=azimuth, distance_m=distance, target_crs=target)
    assert (
        apart_mm(target, found, true_ends((x, y), source, target, plot=plot, azimuth=azimuth, distance=distance)).max()
        < 0.01
    )


def test_a_system_with_its_own_way_to_wgs84_goes_that_way():
    local = CRS(
        "+proj=tmerc +lon_0=9 +x_0=3500000 +ellps=bessel +towgs84=598.1,73.7,418.2,0.202,0.045,-2.455,6.7 +type=crs"
    )
    x, y = np.array([3_530_000.0]), np.array([5_600_000.0])
    rest = {"plot_of_stem": [0], "true_azimuth_deg": [0.0], "distance_m": [0.0]}
    found = project(x, y, local, **rest, target_crs="EPSG:32632")
    expected = Transformer.from_crs(local, "EPSG:32632", always_xy=True).transform(x, y)
    assert apart_mm("EPSG:32632", found, expected).max() < 0.01
    assert_allclose(project(x, y, local, **rest, target_crs=local), (x, y), atol=1e-6)


@pytest.mark.parametrize("crs", SYSTEMS)
def test_records_in_gon_from_magnetic_north_on_slopes_to_the_face_find_their_place(crs):
    """The whole way from the record to the place, against a place reached by the geodesic alone."""
    rng = np.random.default_rng(13)
    lon, lat = plots_in(crs, rng, 20)
    date = np.datetime64("2024-08-15")
    stems = 600
    plot = rng.integers(20, size=stems)
    gon, slope, angle, dbh = (rng.uniform(*ends, stems) for ends in ((0, 400), (1, 40), (-35, 35), (7, 90)))
    turn = declination(lon, lat, 300.0, date)
    gamma = convergence(lon, lat, crs)
    in_grid = grid_azimuth(to_degrees(gon, "gon"), declination_deg=turn[plot], convergence_deg=gamma[plot])
    horizontal = horizontal_distance(slope, vertical_angle_deg=angle, dbh_cm=dbh)
    found = project(
        lon,
        lat,
        WGS84,
        plot_of_stem=plot,
        true_azimuth_deg=in_grid + gamma[plot],
        distance_m=horizontal,
        target_crs=crs,
    )
    expected = true_ends(
        (lon, lat),
        WGS84,
        crs,
        plot=plot,
        azimuth=gon * 0.9 + turn[plot],
        distance=slope * np.cos(np.radians(angle)) + dbh / 200.0,
    )
    assert apart_mm(crs, found, expected).max() < 0.1


@pytest.mark.parametrize("crs", ["EPSG:32632", "EPSG:27700", "EPSG:2056", "EPSG:31467", "EPSG:5041"])
def test_in_a_grid_that_keeps_angles_stems_lie_in_their_grid_azimuth(crs):
    rng = np.random.default_rng(14)
    x, y = Transformer.from_crs(WGS84, crs, always_xy=True).transform(*plots_in(crs, rng, 40))
    plot, azimuth, distance = np.arange(40), rng.uniform(0, 360, 40), np.full(40, 50.0)
    gamma = convergence(*geographic(x, y, crs), crs)
    found = project(x, y, crs, plot_of_stem=plot, true_azimuth_deg=azimuth + gamma, distance_m=distance, target_crs=crs)
    on_map, _length = polar(found[0] - x, found[1] - y)
    across_mm = np.radians((on_map - azimuth + 180.0) % 360.0 - 180.0) * 50_000.0
    assert np.abs(across_mm).max() < 0.1


@pytest.mark.parametrize("latitude", [-85.0, 85.0, 85.001, 89.9999, 90.0, -90.0])
@pytest.mark.parametrize("reach", [60.0, 61.0, 3000.0])
def test_far_stems_and_plots_near_a_pole_are_exact(latitude, reach):
    rng = np.random.default_rng(15)
    crs = "EPSG:5041" if latitude > 0 else "EPSG:5042"
    azimuth = rng.uniform(0, 360, 50)
    distance = np.full(50, reach)
    plot = np.zeros(50, dtype=int)
    found = project(
        [33.0], [latitude], WGS84, plot_of_stem=plot, true_azimuth_deg=azimuth, distance_m=distance, target_crs=crs
    )
    expected = true_ends(([33.0], [latitude]), WGS84, crs, plot=plot, azimuth=azimuth, distance=distance)
    assert apart_mm(crs, found, expected).max() < 0.001


def test_plots_on_the_date_line_reach_over_it():
    azimuth, distance, plot = np.array([90.0, 270.0]), np.array([40.0, 40.0]), np.array([0, 1])
    centres = ([179.9999, -179.9999], [-17.0, -17.0])
    found = project(
        *centres, WGS84, plot_of_stem=plot, true_azimuth_deg=azimuth, distance_m=distance, target_crs="EPSG:3832"
    )
    expected = true_ends(centres, WGS84, "EPSG:3832", plot=plot, azimuth=azimuth, distance=distance)
    assert apart_mm("EPSG:3832", found, expected).max() < 0.01


def test_missing_centres_and_records_have_no_place():
    x, y = project(
        [9.0, np.nan, 9.0, 9.0],
        [50.0, 50.0, np.nan, 95.0],
        WGS84,
        plot_of_stem=[0, 1, 2, 3, 0, 0, 0],
        true_azimuth_deg=[1.0, 1.0, 1.0, 1.0, np.nan, 1.0, 1.0],
        distance_m=[1.0, 1.0, 1.0, 1.0, 1.0, np.nan, np.inf],
        target_crs="EPSG:32632",
    )
    assert_array_equal(np.isfinite(x), [True] + [False] * 6)
    assert_array_equal(np.isfinite(y), [True] + [False] * 6)


def test_a_projected_centre_outside_its_system_has_no_place():
    x, _y = project(
        [1e12, 500_000.0],
        [1e12, 5_500_000.0],
        "EPSG:32632",
        plot_of_stem=[0, 1],
        true_azimuth_deg=0.0 * np.ones(2),
        distance_m=np.ones(2),
        target_crs="EPSG:32632",
    )
    assert_array_equal(np.isfinite(x), [False, True])


def test_no_stems_have_no_places():
    x, y = project([9.0], [50.0], WGS84, plot_of_stem=[], true_azimuth_deg=[], distance_m=[], target_crs="EPSG:32632")
    assert x.shape == y.shape == (0,)


def test_more_stems_than_one_block_are_placed_alike():
    rng = np.random.default_rng(16)
    azimuth = rng.uniform(0, 360, 150_000)
    rest = {"true_azimuth_deg": azimuth, "distance_m": np.full(150_000, 9.0), "target_crs": "EPSG:32632"}
    x, y = project([9.5], [50.0], WGS84, plot_of_stem=np.zeros(150_000, dtype=int), **rest)
    x0, y0 = Transformer.from_crs(WGS84, "EPSG:32632", always_xy=True).transform(9.5, 50.0)
    assert_allclose(np.hypot(x - x0, y - y0), 9.0 * 0.9996, rtol=1e-4)


def degrees(whole: float, minutes: float, seconds: float) -> float:
    return math.copysign(abs(whole) + minutes / 60 + seconds / 3600, whole)


AIRY_AS_PRINTED = (
    "+proj=tmerc +lat_0=49 +lon_0=-2 +k=0.9996013 +x_0=400000 +y_0=-100000 +a=6377563.396 +rf=299.32496 +type=crs"
)


@pytest.mark.parametrize(
    ("crs", "position", "expected", "tolerance"),
    [
        # EPSG Guidance Note 7-2, method 9807, worked example with the constants it prints.
        (AIRY_AS_PRINTED, (0.5, 50.5), (577274.99, 69740.50), 0.01),
        # The same with the exact scale factor of the grid, some 7 mm away.
        ("EPSG:27700", (0.5, 50.5), (577274.99, 69740.50), 0.02),
        # Ordnance Survey, A guide to coordinate systems in Great Britain, annex C, Caister (from memory).
        ("EPSG:27700", (degrees(1, 43, 4.5177), degrees(52, 39, 27.2531)), (651409.903, 313177.270), 0.001),
        # ICSM, Geocentric Datum of Australia technical manual, Flinders Peak and Buninyong (from memory).
        ("EPSG:28355", (degrees(144, 25, 29.5244), degrees(-37, 57, 3.7203)), (273741.297, 5796489.777), 0.001),
        ("EPSG:28355", (degrees(143, 55, 35.3839), degrees(-37, 39, 10.1561)), (228854.051, 5828259.038), 0.001),
        # Computed: UTM on WGS 84.
        ("EPSG:32632", (8.5417, 47.3769), (465403.2845, 5247150.8394), 1e-4),
        ("EPSG:32635", (24.94, 60.17), (385700.4214, 6672126.7431), 1e-4),
        ("EPSG:32633", (13.82, 52.83), (420500.5803, 5854012.0723), 1e-4),
        ("EPSG:32632", (12.0, 45.0), (736446.0261, 4987329.5047), 1e-4),
        ("EPSG:32633", (18.0, 60.0), (667294.8211, 6655205.4836), 1e-4),
    ],
)
def test_centres_stand_where_worked_examples_put_them(crs, position, expected, tolerance):
    lon, lat = position
    base = CRS(crs).geodetic_crs
    found = project([lon], [lat], base, plot_of_stem=[0], true_azimuth_deg=[0.0], distance_m=[0.0], target_crs=crs)
    assert_allclose(np.concatenate(found), expected, rtol=0, atol=tolerance)


@pytest.mark.parametrize(
    ("crs", "lon", "lat", "scale"),
    [
        # Computed, beside the worked examples above.
        ("EPSG:32632", 8.5417, 47.3769, 0.99961471),
        ("EPSG:32632", 12.0, 45.0, 1.00028750),
        ("EPSG:32633", 18.0, 60.0, 0.99994300),
    ],
)
def test_ground_distances_are_scaled_as_the_projection_scales(crs, lon, lat, scale):
    stems = {"plot_of_stem": [0, 0], "true_azimuth_deg": [77.0, 77.0], "distance_m": [0.0, 10.0]}
    x, y = project([lon], [lat], WGS84, **stems, target_crs=crs)
    assert_allclose(np.hypot(x[1] - x[0], y[1] - y[0]), 10.0 * scale, atol=1e-6)


def test_geographic_positions_of_impossible_coordinates_are_missing():
    lon, lat = geographic([500_000.0, np.nan, 1e12], [5_500_000.0, 0.0, 1e12], "EPSG:32632")
    assert_allclose(lon[0], 9.0)
    assert_array_equal(np.isnan(lat), [False, True, True])
