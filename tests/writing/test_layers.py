"""Layers read back as they were written, in every format, wherever a value is missing."""

import csv
import json

import geopandas
import numpy as np
import pandas as pd
import pytest

from stemmap.core.locate import geographic
from stemmap.errors import EnvironmentFault, InputError, OutputError
from stemmap.survey.measured import measure
from stemmap.survey.place import project_points
from stemmap.writing import layers
from stemmap.writing.layers import write_stems
from stemmap.writing.stems import stem_columns

CRS = "EPSG:32632"


@pytest.fixture
def exported(written):
    """Columns of the export and the same positions on WGS 84."""
    measured = measure(written)
    easting, northing = project_points(
        measured.centres, CRS, written.stems.visit_row, measured.true_azimuth_deg, measured.horizontal_distance_m
    )
    return stem_columns(written, measured, easting, northing), np.column_stack(geographic(easting, northing, CRS))


def plain(value):
    """A value as every format can hold it; None for missing."""
    if pd.isna(value) or value == "":
        return None
    if isinstance(value, bool | np.bool_):
        return bool(value)
    return (
        float(value)
        if isinstance(value, int | float | np.number)
        else str(value)[:10]
        if _is_day(value)
        else str(value)
    )


def _is_day(value):
    return hasattr(value, "year") or isinstance(value, np.datetime64)


def values(columns):
    return {name: [plain(value) for value in column] for name, column in columns.items()}


NAMES = {"fid": "fid_2", "GEOM": "GEOM_2", "geometry": "geometry_2"}


@pytest.mark.parametrize("suffix", [".gpkg", ".parquet"])
def test_layer_reads_back_column_by_column(exported, tmp_path, suffix):
    columns, lonlat = exported
    path = tmp_path / f"stems{suffix}"
    write_stems(path, columns, CRS, lonlat)
    frame = geopandas.read_file(path) if suffix == ".gpkg" else geopandas.read_parquet(path)
    assert frame.crs == CRS
    read = values({name: frame[name].tolist() for name in frame.columns if name != "geometry"})
    wanted = {NAMES.get(name, name): column for name, column in values(columns).items()}
    assert list(read) == list(wanted)
    for name, column in wanted.items():
        assert read[name] == column, name
    np.testing.assert_array_equal(frame.geometry.x.to_numpy()[:2], columns["easting"][:2])
    np.testing.assert_array_equal(frame.geometry.y.to_numpy()[:2], columns["northing"][:2])
    assert [point is None for point in frame.geometry] == [False, False, True, True, True]
    assert [entry.name for entry in tmp_path.iterdir()] == [path.name]


def test_geopackage_has_one_layer_of_points(exported, tmp_path):
    write_stems(tmp_path / "a.gpkg", exported[0], CRS, exported[1])
    assert geopandas.list_layers(tmp_path / "a.gpkg").to_numpy().tolist() == [["stems", "Point"]]


def test_geojson_is_strict_and_reads_back(exported, tmp_path):
    columns, lonlat = exported
    path = tmp_path / "stems.geojson"
    write_stems(path, columns, CRS, lonlat)

    def refuse(constant):
        raise AssertionError(f"{constant} is no JSON")

    told = json.loads(path.read_text("utf-8"), parse_constant=refuse)
    # RFC 7946: no member "crs", positions are longitude and latitude, a missing position is a null geometry.
    assert list(told) == ["type", "features"]
    assert told["type"] == "FeatureCollection"
    assert [set(feature) for feature in told["features"]] == [{"type", "geometry", "properties"}] * 5
    assert [feature["geometry"] is None for feature in told["features"]] == [False, False, True, True, True]
    for feature, place in zip(told["features"][:2], lonlat, strict=False):
        assert feature["geometry"] == {"type": "Point", "coordinates": place.tolist()}
        assert feature["geometry"]["coordinates"][0] == pytest.approx(9.0, abs=1e-3)
        assert feature["geometry"]["coordinates"][1] == pytest.approx(47.0, abs=1e-3)
    read = {name: [feature["properties"][name] for feature in told["features"]] for name in columns}
    for name, column in values(columns).items():
        assert [plain(value) for value in read[name]] == column, name
        assert "" not in read[name], name


def test_csv_reads_back_column_by_column(exported, tmp_path):
    columns, lonlat = exported
    path = tmp_path / "stems.csv"
    write_stems(path, columns, CRS, lonlat)
    with path.open(encoding="utf-8", newline="") as stream:
        rows = list(csv.DictReader(stream))
    for name, column in columns.items():
        for row, value in zip(rows, column.tolist(), strict=True):
            wanted = plain(value)
            if wanted is None:
                assert row[name] == "", name
            elif isinstance(wanted, bool):
                assert row[name] == str(wanted).lower(), name
            elif isinstance(wanted, float):
                assert float(row[name]) == wanted, name
            else:
                # An apostrophe stands before what a spreadsheet would take for a formula.
                assert row[name] in (wanted, f"'{wanted}"), name
                assert row[name][0] not in "=@", name


@pytest.mark.parametrize("suffix", [".gpkg", ".geojson", ".csv", ".parquet"])
def test_survey_without_places_is_written_without_points(exported, tmp_path, suffix):
    columns, lonlat = exported
    nowhere = np.full(len(lonlat), np.nan)
    path = tmp_path / f"stems{suffix}"
    write_stems(path, columns | {"easting": nowhere, "northing": nowhere}, None, np.full_like(lonlat, np.nan))
    if suffix == ".parquet":
        frame = geopandas.read_parquet(path)
    elif suffix != ".csv":
        frame = geopandas.read_file(path)
    else:
        return
    assert len(frame) == 5
    assert frame.geometry.isna().all()


@pytest.mark.parametrize("suffix", [".gpkg", ".geojson", ".csv", ".parquet"])
def test_no_stems_are_an_empty_layer(exported, tmp_path, suffix):
    columns, _ = exported
    none = {name: column[:0] for name, column in columns.items()}
    write_stems(tmp_path / f"stems{suffix}", none, CRS, np.zeros((0, 2)))
    assert (tmp_path / f"stems{suffix}").stat().st_size > 0


@pytest.mark.parametrize("suffix", [".gpkg", ".geojson", ".csv", ".parquet"])
def test_file_that_is_there_is_replaced(exported, tmp_path, suffix):
    path = tmp_path / f"stems{suffix}"
    path.write_text("something else")
    write_stems(path, *exported[:1], CRS, exported[1])
    assert b"something else" not in path.read_bytes()
    assert [entry.name for entry in tmp_path.iterdir()] == [path.name]


@pytest.mark.parametrize("suffix", [".gpkg", ".geojson", ".csv", ".parquet"])
def test_folder_that_is_not_there_is_told(exported, tmp_path, suffix):
    with pytest.raises(OutputError, match="cannot be written"):
        write_stems(tmp_path / "none" / f"stems{suffix}", exported[0], CRS, exported[1])


@pytest.mark.parametrize("suffix", [".gpkg", ".parquet"])
def test_nothing_is_left_behind_when_a_library_fails(exported, tmp_path, suffix, monkeypatch):
    def fail(self, path, **_):
        path.write_text("half")
        raise ValueError("the library gave up")

    monkeypatch.setattr(geopandas.GeoDataFrame, "to_file" if suffix == ".gpkg" else "to_parquet", fail)
    with pytest.raises(OutputError, match="the library gave up"):
        write_stems(tmp_path / f"stems{suffix}", exported[0], CRS, exported[1])
    assert list(tmp_path.iterdir()) == []


def test_ending_tells_the_format_whatever_its_case(exported, tmp_path):
    write_stems(tmp_path / "stems.CSV", exported[0], CRS, exported[1])
    assert (tmp_path / "stems.CSV").read_text("utf-8").startswith("plot,visit,stem,easting,northing")


@pytest.mark.parametrize("name", ["stems", "stems.shp", "stems.gpkg.txt"])
def test_other_endings_are_refused_with_those_that_are_known(exported, tmp_path, name):
    with pytest.raises(InputError, match=r"\.gpkg, \.geojson, \.csv, \.parquet"):
        write_stems(tmp_path / name, exported[0], CRS, exported[1])


def test_parquet_without_its_library_says_how_to_get_it(exported, tmp_path, monkeypatch):
    monkeypatch.setitem(__import__("sys").modules, "pyarrow", None)
    with pytest.raises(EnvironmentFault, match=r"stemmap\[parquet\]"):
        write_stems(tmp_path / "stems.parquet", exported[0], CRS, exported[1])


def test_every_format_is_tried_here():
    assert set(layers._WRITERS) == {".gpkg", ".geojson", ".csv", ".parquet"}
