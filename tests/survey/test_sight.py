"""What was typed becomes degrees, metres to the axis and centimetres of dbh."""

import numpy as np
import pytest

from stemmap.survey.measured import measure
from stemmap.survey.settings import parse_settings
from stemmap.survey.sight import AT_CENTRE, UNKNOWN_STATION, diameter, station_rows
from tests.uploads import records, survey

NAN = np.nan


def measured(stems, stations=None, **measurement):
    count = len(next(iter(stems.values())))
    settings = {"measurement": measurement, "design": {"radius_m": 20}}
    return measure(survey({"plot": [1] * count, **stems}, None, stations, settings))


# Units


@pytest.mark.parametrize(
    ("unit", "typed", "degrees"),
    [
        ("degree", [0, 90, 359.9, 360], [0, 90, 359.9, 0]),
        # Computed: 50 gon are 45 degrees, 399.9 gon 359.91.
        ("gon", [50, 100, 250, 399.9, 400], [45, 90, 225, 359.91, 0]),
        ("mil_6400", [1600, 6400], [90, 0]),
        ("mil_6300", [1575, 6300], [90, 0]),
        ("mil_6000", [1500, 6000], [90, 0]),
    ],
)
def test_azimuth_units(unit, typed, degrees):
    made = measured({"azimuth": typed, "distance_m": [5] * len(typed)}, azimuth_unit=unit)
    np.testing.assert_allclose(made.grid_azimuth_deg, degrees, atol=1e-12)


@pytest.mark.parametrize(("unit", "typed"), [("degree", 360.1), ("gon", 400.1), ("gon", -1), ("mil_6000", 6001)])
def test_azimuth_outside_the_circle_is_missing_and_the_distance_stays(unit, typed):
    made = measured({"azimuth": [typed], "distance_m": [5]}, azimuth_unit=unit)
    assert np.isnan(made.grid_azimuth_deg).all()
    assert np.isnan(made.x_m).all()
    assert made.horizontal_distance_m.tolist() == [5.0]
    assert made.inside.tolist() == [True]


@pytest.mark.parametrize("typed", [0, -5, "near", None])
def test_distance_that_cannot_be_is_missing(typed):
    made = measured({"azimuth": [10], "distance_m": [typed]})
    assert np.isnan(made.horizontal_distance_m).all()
    assert made.inside_known.tolist() == [False]
    assert made.inside.tolist() == [False]
    assert made.borderline.tolist() == [False]


def test_feet_are_metres_and_inches_are_centimetres():
    made = measured({"azimuth": [0], "distance_m": [41.4], "dbh_cm": [12], "dbh_mm": [None]}, length_unit="foot")
    assert made.horizontal_distance_m[0] == pytest.approx(41.4 * 0.3048)
    assert made.dbh_cm[0] == pytest.approx(30.48)


# Distances


def test_slope_distance_to_the_face_is_levelled_and_taken_to_the_axis():
    # Computed: 13.40 m at 20 degrees are 12.5919 m, with half a dbh of 30 cm 12.7419 m.
    made = measured(
        {"azimuth": [0], "distance_m": [13.40], "vertical_angle_deg": [20], "dbh_cm": [30]},
        distance="slope",
        distance_to="face",
    )
    assert made.horizontal_distance_m[0] == pytest.approx(12.7419, abs=5e-5)


def test_angles_of_horizontal_distances_are_left_alone():
    made = measured({"azimuth": [0], "distance_m": [13.4], "vertical_angle_deg": [20]})
    assert made.horizontal_distance_m.tolist() == [13.4]


@pytest.mark.parametrize("angle", [None, 90, -90, 120])
def test_slope_distance_without_a_possible_angle_is_unknown(angle):
    made = measured({"azimuth": [0], "distance_m": [13.4], "vertical_angle_deg": [angle]}, distance="slope")
    assert np.isnan(made.horizontal_distance_m).all()
    assert made.inside_known.tolist() == [False]


def test_slope_down_is_as_long_as_slope_up():
    made = measured({"azimuth": [0, 0], "distance_m": [13.4, 13.4], "vertical_angle_deg": [20, -20]}, distance="slope")
    assert made.horizontal_distance_m[0] == made.horizontal_distance_m[1]


def test_distance_to_the_face_of_a_stem_without_dbh_is_unknown():
    made = measured({"azimuth": [0, 0], "distance_m": [5, 5], "dbh_cm": [30, None]}, distance_to="face")
    np.testing.assert_allclose(made.horizontal_distance_m, [5.15, NAN])


# Diameters


@pytest.mark.parametrize(
    ("columns", "unit", "centimetres"),
    [
        ({"dbh_cm": [31.5]}, "metre", 31.5),
        ({"dbh_mm": [315]}, "metre", 31.5),
        ({"girth_cm": [100]}, "metre", 31.830988618379067),
        ({"girth_cm": [40]}, "foot", 40 * 2.54 / np.pi),
        ({"dbh_cm": [12.4]}, "foot", 31.496),
        ({"dbh_mm": [315]}, "foot", 31.5),
        ({"dbh_cm": [30], "dbh_cross_cm": [33]}, "metre", 31.5),
        ({"dbh_mm": [300], "dbh_cross_mm": [330]}, "metre", 31.5),
        ({"dbh_cm": [None], "dbh_cross_cm": [33]}, "metre", 33.0),
        ({"dbh_cm": [30], "dbh_cross_cm": [0]}, "metre", 30.0),
        ({"dbh_cm": [None], "dbh_mm": [315]}, "metre", 31.5),
        ({"dbh_cm": [31.5], "dbh_mm": [999], "girth_cm": [999]}, "metre", 31.5),
        ({"dbh_cm": [0]}, "metre", NAN),
        ({"dbh_cm": [-3]}, "metre", NAN),
        ({"dbh_cm": ["thick"]}, "metre", NAN),
        ({"species": ["oak"]}, "metre", NAN),
    ],
)
def test_diameter(columns, unit, centimetres):
    settings = parse_settings({"measurement": {"length_unit": unit}})
    np.testing.assert_allclose(diameter(records("stems", columns), settings), [centimetres])


# Stations

STATIONS = {"plot": ["1", "", "1"], "station": ["A", "B", "C"], "azimuth": [90, 0, ""], "distance_m": [4, 3, 0]}


def test_stem_measured_from_a_station_stands_at_the_sum_of_both_legs():
    stems = {"station": ["A", "B", "C", ""], "azimuth": [0, 90, 10, 20], "distance_m": [3, 4, 5, 6]}
    made = measured(stems, STATIONS)
    np.testing.assert_allclose(made.x_m[:2], [4.0, 4.0])
    np.testing.assert_allclose(made.y_m[:2], [3.0, 3.0])
    np.testing.assert_allclose(made.horizontal_distance_m, [5.0, 5.0, 5.0, 6.0])
    np.testing.assert_allclose(made.grid_azimuth_deg[2:], [10.0, 20.0])


def test_station_rows_tell_which_leg():
    stems = {"plot": [1, 1, 1, 1, 2, 2], "station": ["A", " B ", "C", "", "A", "B"]}
    assert station_rows(survey(stems, None, STATIONS)).tolist() == [0, 1, AT_CENTRE, AT_CENTRE, UNKNOWN_STATION, 1]


def test_stem_measured_from_an_unknown_station_has_no_place():
    made = measured({"station": ["X", ""], "azimuth": [0, 0], "distance_m": [3, 3]}, STATIONS)
    np.testing.assert_array_equal(made.x_m, [NAN, 0.0])
    assert made.inside_known.tolist() == [False, True]


def test_station_without_usable_leg_places_nothing():
    legs = {"plot": [1, 1], "station": ["A", "B"], "azimuth": ["", 10], "distance_m": [4, -1]}
    made = measured({"station": ["A", "B"], "azimuth": [0, 0], "distance_m": [3, 3]}, legs)
    assert np.isnan(made.horizontal_distance_m).all()


def test_upload_without_stations_knows_none():
    made = measured({"station": ["A"], "azimuth": [0], "distance_m": [3]})
    assert np.isnan(made.x_m).all()


def test_legs_are_in_the_units_of_the_stems():
    stems = {"station": ["A"], "azimuth": [0], "distance_m": [10]}
    legs = {"station": ["A"], "azimuth": [100], "distance_m": [10]}
    made = measured(stems, legs, azimuth_unit="gon", length_unit="foot")
    np.testing.assert_allclose([made.x_m[0], made.y_m[0]], [3.048, 3.048])


# Errors


def test_errors_of_a_station_add_to_those_of_the_stem():
    """Leg and sight in one line: their variances along it add up."""
    stems = {"station": ["A", ""], "azimuth": [90, 90], "distance_m": [4, 4]}
    made = measured(stems, {"station": ["A"], "azimuth": [90], "distance_m": [4]})
    assert made.errors.radial_sd_m[0] == pytest.approx(0.05 * np.sqrt(2))
    assert made.errors.radial_sd_m[1] == pytest.approx(0.05)
    assert made.errors.tangential_sd_m[0] == pytest.approx(4 * np.radians(1.0) * np.sqrt(2))


def test_station_at_the_centre_adds_no_error():
    made = measured({"station": ["C", ""], "azimuth": [40, 40], "distance_m": [4, 4]}, STATIONS)
    for name in ("radial_sd_m", "tangential_sd_m", "var_east", "var_north", "cov_east_north"):
        values = getattr(made.errors, name)
        assert values[0] == values[1], name


def test_covariance_is_in_the_grid_of_the_results():
    """A stem due magnetic north at 10 degrees declination: its long axis of error lies across 10 degrees."""
    stems = {"azimuth": [0], "distance_m": [10]}
    made = measured(stems, north="magnetic", declination_deg=10.0)
    along, across = 0.05**2, (10 * np.radians(1.0)) ** 2
    sine, cosine = np.sin(np.radians(10)), np.cos(np.radians(10))
    assert made.errors.var_east[0] == pytest.approx(along * sine**2 + across * cosine**2)
    assert made.errors.var_north[0] == pytest.approx(along * cosine**2 + across * sine**2)
    assert made.errors.cov_east_north[0] == pytest.approx((along - across) * sine * cosine)


def test_covariance_turns_with_stations_too():
    stems = {"station": ["A", "A"], "azimuth": [0, 135], "distance_m": [3, 4]}
    legs = {"station": ["A"], "azimuth": [90], "distance_m": [4]}
    turned = measured(stems, legs, north="magnetic", declination_deg=30.0)
    shifted = {**stems, "azimuth": [30, 165]}, {**legs, "azimuth": [120]}
    straight = measured(*shifted)
    for name in ("var_east", "var_north", "cov_east_north", "radial_sd_m"):
        np.testing.assert_allclose(getattr(turned.errors, name), getattr(straight.errors, name), atol=1e-12)
