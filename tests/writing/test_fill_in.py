"""The fill-in table: the same rows as CSV and workbook, lists and limits, texts that stay texts."""

import csv
import zipfile
from xml.etree import ElementTree

import pytest
from python_calamine import CalamineWorkbook, SheetVisibleEnum

from stemmap.reading import read_upload
from stemmap.survey.packet import PacketRow
from stemmap.writing.fill_in import FillInTable, write_fill_in_csv, write_fill_in_workbook

ROWS = (
    PacketRow(
        1, "cold", "=1+1", "2026", None, "007", 0, 2, 1, {"azimuth": "12,5", "distance_m": "3.40", "dbh_mm": "215"}
    ),
    PacketRow(2, "cold", "=1+1", "2026", None, None, None, None, None, {}),
    PacketRow(3, "blind", "B", None, "4", "1", 0, 3, 1, {"azimuth": "99.5", "distance_m": "3.33", "dbh_mm": "333"}),
)
TABLE = FillInTable(
    "BCDFGH",
    ROWS,
    {"azimuth": (0.0, 400.0), "distance_m": (0.0, 15.0), "dbh_mm": (0.0, 900.0)},
    ["beech", "oak, red"],
    ["living", "dead"],
)
HEADINGS = (
    *("packet", "row", "plot", "visit", "tree", "stem", "look", "former_azimuth", "former_distance_m", "former_dbh_mm"),
    *("found", "azimuth", "distance_m", "dbh_mm", "species", "status", "remark"),
)


#: Namespace of ECMA-376-1, Annex A.2.
MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"


@pytest.fixture
def path(tmp_path):
    write_fill_in_workbook(TABLE, tmp_path / "fill_in.xlsx", about=["Read this.", "And this."])
    return tmp_path / "fill_in.xlsx"


def part(path, name):
    with zipfile.ZipFile(path) as archive:
        return ElementTree.fromstring(archive.read(name))


def test_the_csv_begins_with_a_byte_order_mark_and_has_the_rows(tmp_path):
    write_fill_in_csv(TABLE, tmp_path / "fill_in.csv")
    content = (tmp_path / "fill_in.csv").read_bytes()
    assert content.startswith(b"\xef\xbb\xbfpacket,row,")
    rows = list(csv.reader(content.decode("utf-8-sig").splitlines()))
    assert tuple(rows[0]) == HEADINGS
    assert rows[1][:10] == ["BCDFGH", "1", "'=1+1", "2026", "", "007", "cold", "12,5", "3.40", "215"]
    assert rows[2][:10] == ["BCDFGH", "2", "'=1+1", "2026", "", "", "cold", "", "", ""]
    assert rows[3][:10] == ["BCDFGH", "3", "B", "", "4", "1", "blind", "", "", ""]
    assert all(row[10:] == [""] * 7 for row in rows[1:])


def test_the_workbook_has_the_same_rows_with_numbers_as_numbers_and_names_as_texts(path):
    workbook = CalamineWorkbook.from_path(str(path))
    rows = workbook.get_sheet_by_name("Fill in").to_python(skip_empty_area=False)
    assert tuple(rows[0]) == HEADINGS
    assert rows[1][:10] == ["BCDFGH", 1.0, "=1+1", "2026", "", "007", "cold", 12.5, 3.4, 215.0]
    assert rows[3][6:] == ["blind", *[""] * 10]
    assert workbook.get_sheet_by_name("Read me first").to_python() == [["Read this."], ["And this."]]
    visible = {sheet.name: sheet.visible == SheetVisibleEnum.Visible for sheet in workbook.sheets_metadata}
    assert visible == {"Fill in": True, "Read me first": True, "lists": False}


def test_the_workbook_offers_lists_and_limits(path):
    sheet = part(path, "xl/worksheets/sheet1.xml")
    rules = {}
    for rule in sheet.iter(f"{MAIN}dataValidation"):
        column = rule.get("sqref")[0]
        assert rule.get("sqref") == f"{column}2:{column}4"
        formulas = [rule.findtext(f"{MAIN}formula{number}") for number in (1, 2)]
        rules[HEADINGS["ABCDEFGHIJKLMNOPQ".index(column)]] = (rule.get("type"), rule.get("errorStyle"), formulas)
    assert rules == {
        "found": ("list", None, ["lists!$A$1:$A$3", None]),
        "azimuth": ("decimal", None, ["0.0", "400.0"]),
        "distance_m": ("decimal", "warning", ["0.0", "15.0"]),
        "dbh_mm": ("decimal", "warning", ["0.0", "900.0"]),
        "species": ("list", "warning", ["lists!$B$1:$B$2", None]),
        "status": ("list", "warning", ["lists!$C$1:$C$2", None]),
    }
    words = CalamineWorkbook.from_path(str(path)).get_sheet_by_name("lists").to_python()
    assert words == [["yes", "beech", "living"], ["no", "oak, red", "dead"], ["new", "", ""]]


def test_headings_stay_and_only_what_a_crew_fills_in_is_unlocked(path):
    sheet = part(path, "xl/worksheets/sheet1.xml")
    assert sheet.find(f".//{MAIN}pane").get("topLeftCell") == "G2"
    assert sheet.find(f"{MAIN}sheetProtection").get("sheet") == "1"
    assert "do not work alone" in sheet.findtext(f"{MAIN}headerFooter/{MAIN}oddFooter")
    formats = part(path, "xl/styles.xml").find(f"{MAIN}cellXfs")
    open_ = [style.find(f"{MAIN}protection[@locked='0']") is not None for style in formats]
    cells = {cell.get("r"): open_[int(cell.get("s", "0"))] for cell in sheet.iter(f"{MAIN}c")}
    assert {cell for cell, free in cells.items() if free} == {
        *(f"{column}{row}" for column in "KLMNOPQ" for row in (2, 3, 4)),
        *("E3", "F3"),
    }


def test_the_workbook_says_no_time_of_its_own(path):
    created = part(path, "docProps/core.xml").findtext("{http://purl.org/dc/terms/}created")
    assert created == "2000-01-01T00:00:00Z"


@pytest.mark.parametrize("name", ["fill_in.csv", "fill_in.xlsx"])
def test_a_filled_in_table_is_read_like_an_upload(tmp_path, name):
    write_fill_in_csv(TABLE, tmp_path / "fill_in.csv")
    write_fill_in_workbook(TABLE, tmp_path / "fill_in.xlsx", about=["Read this."])
    upload = read_upload([tmp_path / name])
    assert len(upload.stems) == 3
    assert {"plot", "visit", "tree", "stem", "azimuth", "distance_m", "dbh_mm", "species", "status", "remark"} >= {
        *upload.stems.columns
    }
    assert upload.stems.texts("stem").tolist() == ["007", "", "1"]
    assert {"packet", "row", "look", "found"} <= {*upload.stems.other}
