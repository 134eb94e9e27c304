"""The first rows of an upload and what they are understood as."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.testing import assert_allclose

from stemmap.errors import HeadingsUnknown, InputError
from stemmap.reading import preview_upload, read_upload, understood_as

ODD = "Ort;Weite;Zeiger;Dicke\nA1;3,5;120;24,1\nA1;7,25;300;31\n"
ASKED = {"plot": "Ort", "distance_m": "Weite", "azimuth": "Zeiger", "dbh_cm": "Dicke"}


@pytest.fixture
def odd(tmp_path):
    """A file with no known heading."""
    path = tmp_path / "odd.csv"
    path.write_text(ODD, "utf-8")
    return path


def test_unknown_headings_are_a_fault_of_their_own(odd):
    with pytest.raises(HeadingsUnknown, match="Columns of the upload"):
        read_upload([odd])


def test_no_file_of_records_is_no_matter_of_headings(tmp_path):
    with pytest.raises(InputError) as fault:
        read_upload([tmp_path / "none.csv"])
    assert not isinstance(fault.value, HeadingsUnknown)


def test_unknown_headings_are_shown_as_typed(odd):
    (sheet,) = preview_upload([odd], {}).sheets
    assert sheet.headings == ("Ort", "Weite", "Zeiger", "Dicke")
    assert list(sheet.columns[1].labels) == ["3,5", "7,25"]
    understood = understood_as(sheet, {})
    assert understood.kind is None
    assert understood.fields == (None,) * 4


def test_first_rows_are_read_as_the_whole_upload_would_be(odd):
    (sheet,) = preview_upload([odd], ASKED).sheets
    understood = understood_as(sheet, ASKED)
    assert understood.kind == "stems"
    assert understood.fields == ("plot", "distance_m", "azimuth", "dbh_cm")
    upload = read_upload([odd], columns=ASKED)
    for name in ("distance_m", "azimuth", "dbh_cm"):
        assert_allclose(understood.columns[name].numbers, upload.stems.columns[name].numbers)


def test_units_of_the_headings_are_told(tmp_path):
    path = tmp_path / "stems.csv"
    path.write_text("plot,azimuth (gon),distance,dbh_mm\n1,100,3,240\n", "utf-8")
    (sheet,) = preview_upload([path], {}).sheets
    assert understood_as(sheet, {}).units["azimuth"] == "gon"


def test_only_the_wanted_rows_are_kept(tmp_path):
    path = tmp_path / "long.csv"
    path.write_text("plot,azimuth,distance,dbh\n" + "1,10,2,30\n" * 500, "utf-8")
    (sheet,) = preview_upload([path], {}, rows=7).sheets
    assert len(sheet) == 7


@pytest.mark.parametrize("encoding", ["utf-8", "utf-16"])
def test_a_long_file_is_previewed_like_a_short_one(tmp_path, encoding):
    path = tmp_path / "long.csv"
    path.write_text("plot,azimuth,distance,dbh\n" + "1,10,2.5,30\n" * 200_000, encoding)
    (sheet,) = preview_upload([path], {}).sheets
    assert sheet.headings == ("plot", "azimuth", "distance", "dbh")
    assert_allclose(understood_as(sheet, {}).columns["distance_m"].numbers, np.full(20, 2.5))


def test_only_the_top_of_a_text_file_is_read(tmp_path):
    path = tmp_path / "long.csv"
    path.write_bytes(b"plot,azimuth,distance,dbh\n" + b"1,10,2.5,30\n" * 200_000 + b"\0")
    assert len(preview_upload([path], {}).sheets) == 1
    with pytest.raises(InputError, match="NUL"):
        read_upload([path])


def test_workbook_and_layer_are_previewed(tmp_path):
    import geopandas
    import xlsxwriter
    from shapely import Point

    with xlsxwriter.Workbook(str(tmp_path / "book.xlsx")) as book:
        sheet = book.add_worksheet()
        for row in range(300):
            sheet.write_row(row, 0, (f"P{row}", row / 2) if row else ("Ort", "Weite"))
    points = [Point(11 + number / 1000, 48) for number in range(300)]
    frame = geopandas.GeoDataFrame({"plot": range(300)}, geometry=points, crs=4326)
    frame.to_file(tmp_path / "plots.gpkg", engine="pyogrio")
    sheets = preview_upload([tmp_path / "book.xlsx", tmp_path / "plots.gpkg"], {}).sheets
    assert [len(sheet) for sheet in sheets] == [20, 20]
    assert "lon" in understood_as(sheets[1], {}).columns


def test_files_without_a_table_are_named(odd, tmp_path):
    empty = tmp_path / "empty.csv"
    empty.touch()
    preview = preview_upload([odd, empty, tmp_path / "settings.toml"], {})
    assert len(preview.sheets) == 1
    assert len(preview.faults) == 1
    assert "empty.csv is empty" in preview.faults[0]


def test_mapping_to_no_field_is_refused(odd):
    with pytest.raises(InputError, match="no field"):
        preview_upload([odd], {"azimutt": "Zeiger"})
