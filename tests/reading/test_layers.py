"""GeoJSON and GeoPackage: attributes as typed, points as plot centres."""

from __future__ import annotations

import json
from pathlib import Path

import geopandas as gpd
import numpy as np
import pandas as pd
import pytest
from numpy.testing import assert_allclose, assert_array_equal
from shapely.geometry import Point, Polygon

from stemmap.errors import InputError
from stemmap.reading import read_upload


def _slugs(upload):
    return [remark.check for remark in upload.remarks]


def _feature(coordinates, **properties):
    geometry = None if coordinates is None else {"type": "Point", "coordinates": coordinates}
    return {"type": "Feature", "geometry": geometry, "properties": properties}


def _collection(*features, **members) -> str:
    return json.dumps({"type": "FeatureCollection", **members, "features": list(features)})


def test_geojson_points_are_centres_in_longitude_and_latitude(read):
    plots = read(
        {"plots.geojson": _collection(_feature([10.5, 50.25], plot="P1"), _feature([10.6, 50.3], plot=7))}
    ).plots
    assert_array_equal(plots.texts("plot"), ["P1", "7"])
    assert_array_equal(plots.numbers("lon"), [10.5, 10.6])
    assert_array_equal(plots.numbers("lat"), [50.25, 50.3])


def test_geojson_numbers_keep_their_digits(read):
    text = '{"type": "FeatureCollection", "features": [{"type": "Feature", "geometry": null, "properties": '
    text += '{"plot": 7.0, "tree": "007", "azimuth": 12.50, "distance": 1e1, "dbh": null, "remark": true}}]}'
    stems = read({"s.json": text}).stems
    assert_array_equal(stems.texts("azimuth"), ["12.50"])
    assert_array_equal(stems.texts("plot"), ["7"])
    assert_array_equal(stems.texts("tree"), ["007"])
    assert_array_equal(stems.numbers("distance_m"), [10])
    assert not stems.columns["dbh_cm"].filled.any()
    assert_array_equal(stems.texts("remark"), ["TRUE"])


def test_older_geojson_may_name_its_coordinate_system(read):
    crs = {"type": "name", "properties": {"name": "urn:ogc:def:crs:EPSG::25832"}}
    plots = read({"p.geojson": _collection(_feature([500000, 5600000], plot="P1"), crs=crs)}).plots
    assert_array_equal(plots.numbers("easting"), [500000])
    assert_array_equal(plots.texts("crs"), ["EPSG:25832"])
    crs["properties"]["name"] = "urn:ogc:def:crs:OGC:1.3:CRS84"
    assert read({"p.geojson": _collection(_feature([10, 50], plot="P1"), crs=crs)}).plots.has("lon")


def test_feature_without_a_point_is_said(read):
    upload = read({"p.geojson": _collection(_feature([10, 50], plot="P1"), _feature(None, plot="P2"))})
    assert_array_equal(upload.plots.columns["lon"].filled, [True, False])
    assert _slugs(upload) == ["geometry-missing"]


def test_columns_of_coordinates_go_before_points(read):
    upload = read({"p.geojson": _collection(_feature([10, 50], plot="P1", lon=11, lat=51))})
    assert_array_equal(upload.plots.numbers("lon"), [11])
    assert_array_equal(upload.plots.other["point x"].texts, ["10.0"])
    assert _slugs(upload) == ["geometry-beside-columns"]


def test_points_of_stems_are_kept_but_not_used(read):
    stems = read({"s.geojson": _collection(_feature([10, 50], plot="P1", tree=1, azimuth=1, distance=2))}).stems
    assert_array_equal(stems.other["point y"].texts, ["50.0"])
    assert not stems.has("lon")


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('{"type": "FeatureCollection",\n "features": [{"type": "Fea', "breaks off or is damaged in line 2"),
        ('{"type": "Topology"}', "no GeoJSON collection"),
        ('{"features": [1, 2]}', "no GeoJSON collection"),
        ('{"features": [{"properties": [1]}]}', "no table"),
        ('{"features": []}', "no features"),
        ("[" * 100_000, "GeoJSON"),
        ('{"a":' * 100_000, "GeoJSON"),
        ("plot,tree\n1,2\n", "is called a GeoJSON file"),
    ],
)
def test_what_is_no_geojson_is_refused(read, text: str, words: str):
    with pytest.raises(InputError, match=words):
        read({"s.geojson": text})


def _geopackage(path: Path) -> Path:
    plots = gpd.GeoDataFrame(
        {"plot": [7.0, 8.0], "measured": pd.to_datetime(["2024-05-03", None])},
        geometry=[Point(500000, 5600000), Point(500100.5, 5600000)],
        crs="EPSG:25832",
    )
    plots.to_file(path, layer="plots", engine="pyogrio")
    stems = pd.DataFrame(
        {"plot": [7, 7, 8], "tree": ["01", "2", "3"], "azimuth": [1.5, np.nan, 3], "distance": ["1,5", "2", ""]}
    )
    gpd.GeoDataFrame(stems, geometry=[None] * 3, crs="EPSG:25832").to_file(path, layer="stems", engine="pyogrio")
    return path


def test_geopackage_layers_are_tables(tmp_path: Path):
    upload = read_upload([_geopackage(tmp_path / "survey.gpkg")])
    assert_array_equal(upload.plots.texts("plot"), ["7", "8"])
    assert_array_equal(upload.plots.numbers("easting"), [500000, 500100.5])
    assert_array_equal(upload.plots.texts("crs"), ["EPSG:25832"] * 2)
    assert_array_equal(upload.stems.texts("plot"), ["7", "7", "8"])
    assert_array_equal(upload.stems.texts("tree"), ["01", "2", "3"])
    assert_allclose(upload.stems.numbers("azimuth"), [1.5, np.nan, 3])
    assert_array_equal(upload.stems.numbers("distance_m"), [1.5, 2, np.nan])
    assert upload.sources == ("survey.gpkg, layer plots", "survey.gpkg, layer stems")


def test_geopackage_days_are_texts_of_days(tmp_path: Path):
    upload = read_upload([_geopackage(tmp_path / "survey.gpkg")])
    assert_array_equal(upload.plots.other["measured"].texts, ["2024-05-03", ""])


def test_geopackage_in_longitude_and_latitude(tmp_path: Path):
    path = tmp_path / "p.gpkg"
    gpd.GeoDataFrame({"plot": ["P1"]}, geometry=[Point(10, 50)], crs="EPSG:4326").to_file(path)
    plots = read_upload([path]).plots
    assert (plots.numbers("lon")[0], plots.numbers("lat")[0]) == (10, 50)


def test_areas_are_no_centres(tmp_path: Path):
    path = tmp_path / "p.gpkg"
    shapes = [Polygon([(0, 0), (1, 0), (1, 1)]), Polygon([(0, 0), (1, 0), (1, 1)])]
    gpd.GeoDataFrame({"plot": ["P1", "P2"]}, geometry=shapes, crs="EPSG:25832").to_file(path)
    upload = read_upload([path])
    assert len(upload.plots) == 2
    assert not upload.plots.has("easting")
    assert _slugs(upload) == ["geometry-missing"]


def test_damaged_geopackage_is_refused(tmp_path: Path):
    path = _geopackage(tmp_path / "survey.gpkg")
    path.write_bytes(path.read_bytes()[:6000])
    with pytest.raises(InputError, match=r"survey\.gpkg"):
        read_upload([path])


def test_half_a_character_in_geojson_reads_as_no_character(read):
    text = '{"type":"FeatureCollection","features":[{"type":"Feature","geometry":null,"properties":{"plot":"\\ud800A",'
    text += '"tree":"\\\\ud800","azimuth":1,"distance":2,"remark":"\\ud83c\\udf33\\udf33"}}]}'
    stems = read({"stems.geojson": text}).stems
    assert [stems.texts(name)[0] for name in ("plot", "tree", "remark")] == ["\ufffdA", "\\ud800", "\U0001f333\ufffd"]
