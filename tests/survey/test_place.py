"""Plot centres in any system, and the system of the results."""

import numpy as np
import pytest

from stemmap.errors import InputError
from stemmap.survey.measured import measure
from stemmap.survey.place import centres, coordinate_system, project_points, results_crs
from tests.uploads import survey

#: lat 47.3769, lon 8.5417 in UTM zone 32 north, computed with the series of Krüger; metres.
ZURICH = (8.5417, 47.3769, 465403.2845, 5247150.8394)


def plots(**columns):
    return {"plot": list(range(1, len(next(iter(columns.values()))) + 1)), **columns}


def crs_of(made):
    return results_crs(made, centres(made))


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("EPSG:25832", 25832),
        ("epsg:25832", 25832),
        ("25832", 25832),
        (" 25832.0 ", 25832),
        ("33N", 32633),
        ("UTM 33 N", 32633),
        ("utm19s", 32719),
        ("60n", 32660),
        ("EPSG:4326", 4326),
    ],
)
def test_system_is_known_by_any_usual_text(text, code):
    assert coordinate_system(text).to_epsg() == code


@pytest.mark.parametrize("text", ["61N", "0N", "Gauss", "EPSG:1", "99999", "EPSG:4978", "EPSG:5703"])
def test_text_that_is_no_system_is_refused(text):
    with pytest.raises(InputError, match=r"coordinate system"):
        coordinate_system(text)


def test_longitude_and_latitude_stand_above_easting_and_northing():
    made = centres(survey(plots=plots(lon=[8.5417], lat=[47.3769], easting=[1], northing=[2], crs=["EPSG:32632"])))
    assert (made.lon[0], made.lat[0], made.system[0]) == (8.5417, 47.3769, 0)


def test_easting_and_northing_take_the_plots_own_system():
    made = centres(
        survey(
            plots=plots(easting=[ZURICH[2]], northing=[ZURICH[3]], crs=["32632"]),
            settings={"survey": {"crs": "EPSG:2056"}},
        )
    )
    np.testing.assert_allclose([made.lon[0], made.lat[0]], ZURICH[:2], atol=1e-9)


@pytest.mark.parametrize("own", [None, [""], ["  "]])
def test_easting_and_northing_take_the_system_of_the_settings(own):
    """Whatever the length of its text beside those of the plots."""
    columns = {"easting": [ZURICH[2]], "northing": [ZURICH[3]]} | ({} if own is None else {"crs": own})
    made = centres(survey(plots=plots(**columns), settings={"survey": {"crs": "EPSG:32632"}}))
    np.testing.assert_allclose([made.lon[0], made.lat[0]], ZURICH[:2], atol=1e-9)


def test_system_of_the_settings_may_be_longer_than_those_of_the_plots():
    text = "+proj=utm +zone=32 +datum=WGS84 +units=m +no_defs +type=crs"
    made = centres(
        survey(
            plots=plots(easting=[ZURICH[2]] * 2, northing=[ZURICH[3]] * 2, crs=["32N", ""]),
            settings={"survey": {"crs": text}},
        )
    )
    np.testing.assert_allclose(made.lon, [ZURICH[0]] * 2, atol=1e-9)


def test_easting_without_system_gives_no_place():
    made = centres(survey(plots=plots(easting=[ZURICH[2]], northing=[ZURICH[3]])))
    assert made.system.tolist() == [-1]
    assert np.isnan([made.x[0], made.y[0], made.lon[0], made.lat[0]]).all()
    assert made.unusable == ()


def test_unknown_system_is_named_and_the_others_are_placed():
    made = centres(survey(plots=plots(easting=[ZURICH[2]] * 2, northing=[ZURICH[3]] * 2, crs=["32N", "Gauss"])))
    assert made.unusable == ("Gauss",)
    assert np.isfinite(made.lon).tolist() == [True, False]


@pytest.mark.parametrize(("lon", "lat"), [(8.5, 95.0), (400.0, 47.0), (8.5, None), (None, 47.0)])
def test_place_that_is_not_on_earth_is_none(lon, lat):
    assert np.isnan(centres(survey(plots=plots(lon=[lon], lat=[lat]))).lon).all()


# System of the results


def test_results_are_in_the_system_of_the_settings():
    made = survey(plots=plots(lon=[8.5], lat=[47.4]), settings={"survey": {"crs": "EPSG:2056"}})
    assert crs_of(made) == "EPSG:2056"


def test_unknown_system_of_the_settings_is_refused():
    with pytest.raises(InputError, match="Gauss"):
        measure(survey(plots=plots(lon=[8.5], lat=[47.4]), settings={"survey": {"crs": "Gauss"}}))


def test_results_are_in_the_one_system_of_the_plots():
    made = survey(plots=plots(easting=[465403, 465500], northing=[5247150, 5247150], crs=["EPSG:25832", "25832"]))
    assert coordinate_system(crs_of(made)).to_epsg() == 25832


@pytest.mark.parametrize(
    ("lon", "lat", "crs"),
    [
        ([8.5], [47.4], "EPSG:32632"),
        ([13.8, 14.1, 9.0], [52.8, 52.9, 52.8], "EPSG:32633"),
        ([-70.6], [-33.4], "EPSG:32719"),
        ([179.9], [-17.0], "EPSG:32760"),
        ([-180.0], [-17.0], "EPSG:32701"),
        ([36.8], [0.0], "EPSG:32637"),
    ],
)
def test_results_are_in_the_utm_zone_of_most_plots(lon, lat, crs):
    assert crs_of(survey(plots=plots(lon=lon, lat=lat))) == crs


def test_several_zones_are_brought_together():
    """One point in two zones: lat 45, lon 12 (computed)."""
    made = survey(
        {"plot": [1, 2], "azimuth": [0, 0], "distance_m": [10, 10]},
        plots(
            easting=[736446.0261, 263553.9739],
            northing=[4987329.5047, 4987329.5047],
            crs=["32N", "33N"],
        ),
        settings={"measurement": {"north": "true"}},
    )
    measured = measure(made)
    assert measured.crs == "EPSG:32633"
    easting, northing = projected(made, measured.crs)
    np.testing.assert_allclose(easting[0], easting[1], atol=2e-4)
    np.testing.assert_allclose(northing[0], northing[1], atol=2e-4)


def test_survey_without_places_has_no_system():
    assert crs_of(survey({"plot": [1]}, plots(radius_m=[10]))) is None
    assert crs_of(survey()) is None


def projected(made, crs):
    measured = measure(made)
    azimuth, distance = measured.true_azimuth_deg, measured.horizontal_distance_m
    return project_points(measured.centres, crs, made.stems.visit_row, azimuth, distance)


def test_stems_are_projected_where_centre_and_record_are_known():
    made = survey(
        {"plot": [1, 1, 2], "azimuth": [90, "", 90], "distance_m": [10, 10, 10]},
        plots(lon=[9.0, None], lat=[47.0, None]),
    )
    easting, northing = projected(made, "EPSG:32632")
    # On the central meridian grid east is true east and the scale is 0.9996.
    assert easting[0] == pytest.approx(500_000 + 10 * 0.9996, abs=1e-4)
    assert np.isnan([easting[1], easting[2], northing[1], northing[2]]).all()


def test_projecting_to_an_unknown_system_is_refused():
    made = survey({"plot": [1]}, plots(lon=[9.0], lat=[47.0]))
    with pytest.raises(InputError):
        projected(made, "nowhere")
