"""Azimuths are turned from the north they were counted from to the grid of the results."""

import numpy as np
import pytest

from stemmap.core import bearings
from stemmap.survey.measured import measure
from tests.uploads import survey

#: Meridian convergence at these places in their UTM zones, computed from the closed formula; degrees.
ZURICH = {"lon": [8.5417], "lat": [47.3769]}
ZURICH_CONVERGENCE = -0.3372315


def measured(plots, *, north, settings=None, azimuth=45.0):
    tables = {"survey": {}, **(settings or {})}
    tables["measurement"] = {"north": north, **tables.get("measurement", {})}
    count = len(next(iter(plots.values())))
    numbers = list(range(1, count + 1))
    stems = {"plot": numbers, "azimuth": [azimuth] * count, "distance_m": [10.0] * count}
    return measure(survey(stems, {"plot": numbers, **plots}, settings=tables))


def test_grid_azimuths_are_drawn_as_typed():
    made = measured(ZURICH, north="grid")
    assert made.grid_azimuth_deg.tolist() == [45.0]
    assert made.true_azimuth_deg[0] == pytest.approx(45.0 + ZURICH_CONVERGENCE, abs=1e-6)
    assert made.convergence_deg[0] == pytest.approx(ZURICH_CONVERGENCE, abs=1e-6)
    assert made.declination_deg.tolist() == [0.0]


def test_true_azimuths_are_turned_by_the_convergence():
    made = measured(ZURICH, north="true")
    assert made.true_azimuth_deg.tolist() == [45.0]
    assert made.grid_azimuth_deg[0] == pytest.approx(45.0 - ZURICH_CONVERGENCE, abs=1e-6)


def test_plots_own_declination_comes_first():
    made = measured(
        {**ZURICH, "declination_deg": [3.2], "date": ["2026-01-01"]},
        north="magnetic",
        settings={"measurement": {"declination_deg": 10.0}},
    )
    assert made.declination_deg.tolist() == [3.2]
    assert made.true_azimuth_deg[0] == pytest.approx(48.2)
    assert made.grid_azimuth_deg[0] == pytest.approx(48.2 - ZURICH_CONVERGENCE, abs=1e-6)


def test_declination_of_the_settings_comes_second():
    made = measured(
        {**ZURICH, "date": ["2026-01-01"]}, north="magnetic", settings={"measurement": {"declination_deg": 10.0}}
    )
    assert made.declination_deg.tolist() == [10.0]


def test_declination_is_computed_for_place_and_day():
    made = measured({**ZURICH, "date": ["2026-01-01"], "elevation_m": [400]}, north="magnetic")
    wanted = bearings.declination([8.5417], [47.3769], [400.0], np.array(["2026-01-01"], "M8[D]"))
    np.testing.assert_array_equal(made.declination_deg, wanted)
    # The World Magnetic Model 2025 gives 3.546 degrees there (computed); the two models agree to 0.1.
    assert made.declination_deg[0] == pytest.approx(3.546, abs=0.1)


@pytest.mark.parametrize("plots", [ZURICH, {"date": ["2026-01-01"]}])
def test_magnetic_azimuth_without_place_or_day_is_drawn_as_typed_and_never_true(plots):
    made = measured(plots, north="magnetic")
    assert np.isnan(made.declination_deg).all()
    assert np.isnan(made.true_azimuth_deg).all()
    assert made.grid_azimuth_deg[0] == pytest.approx(45.0 - made.convergence_deg[0])


@pytest.mark.parametrize("north", ["grid", "true"])
def test_local_frame_has_one_north(north):
    made = measured({"radius_m": [10]}, north=north)
    assert made.crs is None
    assert made.grid_azimuth_deg.tolist() == made.true_azimuth_deg.tolist() == [45.0]
    assert made.convergence_deg.tolist() == [0.0]


def test_grid_north_is_that_of_the_plots_own_system():
    """Two plots at one place, each in the grid of another zone: their grid norths differ by the convergences."""
    made = measured(
        {
            "easting": [736446.0261, 263553.9739],
            "northing": [4987329.5047, 4987329.5047],
            "crs": ["32632", "32633"],
        },
        north="grid",
        settings={"survey": {"crs": "EPSG:32632"}},
    )
    # lat 45, lon 12, central meridians 9 and 15: +2.1222997 and -2.1222997 degrees (computed).
    assert made.grid_azimuth_deg[0] == 45.0
    assert made.grid_azimuth_deg[1] == pytest.approx(45.0 - 2 * 2.1222997, abs=1e-6)
    np.testing.assert_allclose(made.true_azimuth_deg, [45.0 + 2.1222997, 45.0 - 2.1222997], atol=1e-6)


def test_grid_azimuth_stays_below_the_full_circle():
    made = measured({**ZURICH, "declination_deg": [0.0]}, north="grid", azimuth=360.0)
    assert made.grid_azimuth_deg.tolist() == [0.0]
    assert made.y_m[0] == pytest.approx(10.0)
