"""Workbooks: values as they are shown, several sheets, and what stands between the records."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, datetime
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import xlsxwriter
from numpy.testing import assert_array_equal

from stemmap.errors import InputError
from stemmap.reading import read_upload
from stemmap.reading.workbook import shown

_HEADINGS = ("plot", "date", "tree", "azimuth", "distance", "dbh")


def _write(path: Path, sheets: Mapping[str, Sequence[Sequence[Any]]], *, hidden: Sequence[str] = ()) -> Path:
    with xlsxwriter.Workbook(str(path)) as workbook:
        days = workbook.add_format({"num_format": "dd.mm.yyyy"})
        for name, rows in sheets.items():
            sheet = workbook.add_worksheet(name)
            if name in hidden:
                sheet.hide()
            for number, row in enumerate(rows):
                for place, value in enumerate(row):
                    if isinstance(value, date | datetime):
                        sheet.write_datetime(number, place, value, days)
                    elif isinstance(value, str) and not value.startswith("="):
                        sheet.write_string(number, place, value)
                    elif value is not None:
                        sheet.write(number, place, value)
    return path


def _slugs(upload):
    return [remark.check for remark in upload.remarks]


def test_values_are_read_as_shown(tmp_path: Path):
    rows = [
        _HEADINGS,
        (7.0, date(2024, 5, 3), "007", 12.5, 4, "31,2"),
        ("P1", datetime(2024, 5, 3, 14, 5), 8, 0.1 + 0.2, 1e11, True),
    ]
    stems = read_upload([_write(tmp_path / "s.xlsx", {"Stems": rows})]).stems
    assert_array_equal(stems.texts("plot"), ["7", "P1"])
    assert_array_equal(stems.texts("tree"), ["007", "8"])
    assert_array_equal(stems.texts("date"), ["2024-05-03", "2024-05-03 14:05:00"])
    assert_array_equal(stems.dates("date"), np.array(["2024-05-03"] * 2, "M8[D]"))
    assert_array_equal(stems.texts("azimuth"), ["12.5", "0.3"])
    assert_array_equal(stems.numbers("distance_m"), [4, 1e11])
    assert_array_equal(stems.texts("dbh_cm"), ["31,2", "TRUE"])
    assert stems.numbers("dbh_cm")[0] == 31.2
    assert_array_equal(stems.line, [2, 3])


def test_whole_number_and_the_same_text_are_one_name(tmp_path: Path):
    rows = [_HEADINGS, (7.0, None, 1, 1, 1, 1), ("7", None, 2, 1, 1, 1)]
    column = read_upload([_write(tmp_path / "s.xlsx", {"S": rows})]).stems.columns["plot"]
    assert_array_equal(column.labels, ["7"])
    assert_array_equal(column.codes, [0, 0])


def test_plots_and_stems_on_two_sheets(tmp_path: Path):
    sheets = {
        "Probekreise": [("Probekreis", "Rechtswert", "Hochwert"), (1, 500000, 5600000)],
        "Bäume": [("Probekreis", "Baum-Nr.", "Azimut", "Entfernung", "BHD"), (1, 1, 12, 4, 31), (1, 2, 13, 5, 32)],
    }
    upload = read_upload([_write(tmp_path / "aufnahme.xlsx", sheets)])
    assert len(upload.plots) == 1
    assert len(upload.stems) == 2
    assert upload.sources == ("aufnahme.xlsx, sheet Probekreise", "aufnahme.xlsx, sheet Bäume")


def test_one_sheet_a_plot(tmp_path: Path):
    sheet = [("tree", "azimuth", "distance"), (1, 12, 4)]
    upload = read_upload([_write(tmp_path / "s.xlsx", {"A1": sheet, "A2": sheet})])
    assert_array_equal(upload.stems.texts("plot"), ["A1", "A2"])


def test_hidden_empty_and_foreign_sheets_are_ignored_and_named(tmp_path: Path):
    stems = [_HEADINGS, (1, None, 1, 12, 4, 31)]
    sheets = {"Stems": stems, "Old": stems, "Empty": [], "Codes": [("code", "meaning"), ("x", "y")]}
    upload = read_upload([_write(tmp_path / "s.xlsx", sheets, hidden=["Old"])])
    assert len(upload.stems) == 1
    assert {remark.file for remark in upload.remarks} == {f"s.xlsx, sheet {name}" for name in ("Old", "Empty", "Codes")}
    assert set(_slugs(upload)) == {"sheet-ignored"}


def test_records_may_begin_anywhere_on_the_sheet(tmp_path: Path):
    rows = [
        (),
        ("Survey 2026",),
        (),
        (None, *_HEADINGS),
        (None, 1, None, 1, 12, 4, 31),
        (),
        (None, 1, None, 2, 13, 5, 32),
    ]
    upload = read_upload([_write(tmp_path / "s.xlsx", {"S": rows})])
    assert_array_equal(upload.stems.line, [5, 7])
    assert _slugs(upload) == ["lines-before-headings"]


def test_day_numbers_are_read_as_days_and_said(tmp_path: Path):
    upload = read_upload([_write(tmp_path / "s.xlsx", {"S": [_HEADINGS, (1, 45415, 1, 12, 4, 31)]})])
    assert upload.stems.dates("date")[0] == np.datetime64("2024-05-03")
    assert _slugs(upload) == ["date-serial"]


def test_formula_errors_are_said(tmp_path: Path):
    path = tmp_path / "s.xlsx"
    with xlsxwriter.Workbook(str(path)) as workbook:
        sheet = workbook.add_worksheet()
        sheet.write_row(0, 0, _HEADINGS)
        sheet.write_row(1, 0, ("P1", None, 1, 12, 4))
        sheet.write_formula(1, 5, "=1/0", None, "#DIV/0!")
    upload = read_upload([path])
    assert _slugs(upload) == ["formula-errors"]
    assert "F2" in upload.remarks[0].sentence
    assert np.isnan(upload.stems.numbers("dbh_cm")[0])


def test_texts_that_look_like_places_of_cells_do_no_harm(tmp_path: Path):
    path = tmp_path / "s.xlsx"
    with xlsxwriter.Workbook(str(path), {"constant_memory": True}) as workbook:
        sheet = workbook.add_worksheet()
        sheet.write_row(0, 0, (*_HEADINGS, "remark"))
        sheet.write_row(1, 0, ("P1", None, 1, 12, 4, 30, "core r = 5 cm, r broken & split"))
        sheet.write_formula(2, 6, '="a r="&A2', None, "a r=P1")
    assert read_upload([path]).stems.texts("remark")[0] == "core r = 5 cm, r broken & split"


def test_values_of_formulas_are_read(tmp_path: Path):
    path = tmp_path / "s.xlsx"
    with xlsxwriter.Workbook(str(path)) as workbook:
        sheet = workbook.add_worksheet()
        sheet.write_row(0, 0, _HEADINGS)
        sheet.write_row(1, 0, ("P1", None, 1, 12, 4))
        sheet.write_formula(1, 5, "=15*2", None, 30)
    assert read_upload([path]).stems.numbers("dbh_cm")[0] == 30


def test_workbook_by_another_name_is_read_as_one(tmp_path: Path):
    path = _write(tmp_path / "s.xlsx", {"S": [_HEADINGS, (1, None, 1, 12, 4, 31)]})
    renamed = path.rename(tmp_path / "s.csv")
    assert len(read_upload([renamed]).stems) == 1


def test_headings_alone_are_an_error(tmp_path: Path):
    with pytest.raises(InputError, match="headings only"):
        read_upload([_write(tmp_path / "s.xlsx", {"S": [_HEADINGS]})])


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (7.0, "7"),
        (7.25, "7.25"),
        (-0.0, "0"),
        (1e20, "1e+20"),
        (float("nan"), ""),
        (None, ""),
        (False, "FALSE"),
        (3, "3"),
        (date(2024, 5, 3), "2024-05-03"),
        (datetime(2024, 5, 3), "2024-05-03"),
        (" x ", " x "),
    ],
)
def test_value_as_a_person_sees_it(value: Any, text: str):
    assert shown(value) == text
