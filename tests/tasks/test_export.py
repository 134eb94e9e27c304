"""Exported positions against PROJ's own geodesic, from files to files."""

from __future__ import annotations

import csv
import json
import math

import numpy as np
import pytest
from pyproj import CRS, Geod, Proj, Transformer

from stemmap.errors import InputError
from stemmap.survey.settings import parse_settings
from stemmap.tasks.export import export_stems
from stemmap.tasks.workup import open_uploads

TOLERANCE_M = 1e-4

#: System of the result, and a plot centre in its area: longitude, latitude.
SYSTEMS = {
    "EPSG:32632": (10.5, 50.2),  # UTM zone 32 north
    "EPSG:32733": (17.3, -23.4),  # UTM zone 33 south
    "EPSG:3035": (25.1, 62.3),  # LAEA Europe
    "EPSG:27700": (-3.4, 56.9),  # British National Grid, own datum
    "EPSG:3413": (-45.2, 71.0),  # polar stereographic north
    "EPSG:2263": (-73.9, 40.8),  # New York Long Island, US survey feet
    "EPSG:2056": (8.2, 46.9),  # Swiss LV95, own datum
    "EPSG:3067": (26.4, 66.1),  # Finland TM35FIN
    "EPSG:2193": (175.4, -38.6),  # New Zealand TM 2000
    "EPSG:5041": (14.0, 82.0),  # UPS north, axes both to the south
}

WGS84 = Geod(ellps="WGS84")


def _write(path, rows):
    with path.open("w", newline="", encoding="utf-8") as stream:
        writer = csv.DictWriter(stream, rows[0])
        writer.writeheader()
        writer.writerows(rows)


def _exported(path):
    with path.open(encoding="utf-8") as stream:
        return list(csv.DictReader(stream))


@pytest.fixture
def stems():
    rng = np.random.default_rng(7)
    return [
        {
            "plot": "A",
            "stem": number,
            "azimuth": round(float(rng.uniform(0, 360)), 1),
            "distance_m": round(float(rng.uniform(0.3, 50)), 2),
            "vertical_angle_deg": round(float(rng.uniform(-35, 35)), 1),
            "dbh_cm": round(float(rng.uniform(7, 90)), 1),
        }
        for number in range(1, 31)
    ]


def _end(lon, lat, azimuth, distance, crs):
    end_lon, end_lat, _ = WGS84.fwd(lon, lat, azimuth, distance)
    return Transformer.from_crs("EPSG:4326", crs, always_xy=True).transform(end_lon, end_lat)


def _metres(crs):
    return CRS.from_user_input(crs).axis_info[0].unit_conversion_factor


@pytest.mark.parametrize("crs", SYSTEMS)
@pytest.mark.parametrize("case", ["true", "gon", "magnetic", "slope-to-face"])
def test_exported_positions_are_the_ends_of_geodesics(tmp_path, stems, crs, case):
    lon, lat = SYSTEMS[crs]
    plot = {"plot": "A", "lon": lon, "lat": lat, "declination_deg": -7.25}
    measurement = {"north": "true"}
    azimuths = [row["azimuth"] for row in stems]
    distances = [row["distance_m"] for row in stems]
    if case == "gon":
        measurement["azimuth_unit"] = "gon"
        azimuths = [row["azimuth"] * 0.9 for row in stems]
    elif case == "magnetic":
        measurement["north"] = "magnetic"
        azimuths = [row["azimuth"] - 7.25 for row in stems]
    elif case == "slope-to-face":
        measurement |= {"distance": "slope", "distance_to": "face"}
        distances = [
            row["distance_m"] * math.cos(math.radians(row["vertical_angle_deg"])) + row["dbh_cm"] / 200 for row in stems
        ]
    _write(tmp_path / "plots.csv", [plot])
    _write(tmp_path / "stems.csv", stems)
    settings = parse_settings({"measurement": measurement, "design": {"radius_m": 60.0}})

    workup = open_uploads([tmp_path / "plots.csv", tmp_path / "stems.csv"], settings=settings)
    assert export_stems(workup, tmp_path / "out.csv", crs=crs) == crs

    for row, azimuth, distance in zip(_exported(tmp_path / "out.csv"), azimuths, distances, strict=True):
        expected = _end(lon, lat, azimuth, distance, crs)
        got = float(row["easting"]), float(row["northing"])
        assert math.dist(expected, got) * _metres(crs) <= TOLERANCE_M
        assert float(row["horizontal_distance_m"]) == pytest.approx(distance, abs=1e-9)


@pytest.mark.parametrize("crs", ["EPSG:32632", "EPSG:31467", "EPSG:27700"])
def test_grid_azimuths_count_from_the_grid_of_the_centres_own_system(tmp_path, stems, crs):
    system = CRS.from_user_input(crs)
    base = system.geodetic_crs
    lon, lat = {"EPSG:27700": (-3.4, 56.9)}.get(crs, (10.9, 50.2))
    easting, northing = Transformer.from_crs(base, system, always_xy=True).transform(lon, lat)
    turn = Proj(system).get_factors(lon, lat).meridian_convergence
    _write(tmp_path / "all.csv", [{**row, "easting": easting, "northing": northing, "crs": crs} for row in stems])

    workup = open_uploads([tmp_path / "all.csv"], radius_m=60.0)
    assert workup.measured.crs == crs
    export_stems(workup, tmp_path / "out.csv")

    for stem, row in zip(stems, _exported(tmp_path / "out.csv"), strict=True):
        assert float(row["grid_azimuth_deg"]) == pytest.approx(stem["azimuth"], abs=1e-9)
        end = base.get_geod().fwd(lon, lat, stem["azimuth"] + turn, stem["distance_m"])[:2]
        expected = Transformer.from_crs(base, system, always_xy=True).transform(*end)
        assert math.dist(expected, (float(row["easting"]), float(row["northing"]))) <= TOLERANCE_M


def test_geojson_holds_longitude_and_latitude_whatever_the_system(tmp_path, stems):
    lon, lat = SYSTEMS["EPSG:2056"]
    _write(tmp_path / "all.csv", [{**row, "lon": lon, "lat": lat} for row in stems])
    settings = parse_settings({"survey": {"crs": "EPSG:2056"}, "measurement": {"north": "true"}})
    workup = open_uploads([tmp_path / "all.csv"], settings=settings, radius_m=60.0)
    export_stems(workup, tmp_path / "stems.geojson")

    features = json.loads((tmp_path / "stems.geojson").read_text(encoding="utf-8"))["features"]
    for stem, feature in zip(stems, features, strict=True):
        there = feature["geometry"]["coordinates"]
        azimuth, _, distance = WGS84.inv(lon, lat, *there)
        # Back through the national datum costs a few millimetres at most, a tenth of one here.
        assert distance == pytest.approx(stem["distance_m"], abs=2e-3)
        assert abs((azimuth - stem["azimuth"] + 180) % 360 - 180) * stem["distance_m"] < 0.2


def test_without_coordinates_rows_are_written_and_positions_stay_empty(tmp_path, stems):
    _write(tmp_path / "all.csv", stems)
    workup = open_uploads([tmp_path / "all.csv"], radius_m=60.0)
    assert export_stems(workup, tmp_path / "out.csv", crs="EPSG:25832") is None
    rows = _exported(tmp_path / "out.csv")
    assert len(rows) == len(stems)
    assert {row["easting"] for row in rows} == {""}
    assert all(row["local_x_m"] for row in rows)


@pytest.mark.parametrize(("name", "crs", "match"), [("out.csv", "EPSG:1", "not known"), ("out.shx", None, "must end")])
def test_what_cannot_be_written_is_refused_with_a_sentence(tmp_path, stems, name, crs, match):
    _write(tmp_path / "all.csv", stems)
    workup = open_uploads([tmp_path / "all.csv"], radius_m=60.0)
    with pytest.raises(InputError, match=match):
        export_stems(workup, tmp_path / name, crs=crs)
