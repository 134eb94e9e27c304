"""Text files of every usual make."""

from __future__ import annotations

import codecs
import csv
import io
from pathlib import Path

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from numpy.testing import assert_array_equal

from stemmap.errors import InputError
from stemmap.progress import Progress
from stemmap.reading.text import SURPLUS, read_text

_PLAIN = "plot,stem,azimuth,distance_m,dbh_cm,species\nP1,1,12.5,4.35,31.2,Rotbuche\nP1,2,58,7.80,24.6,Kiefer\n"
_GERMAN = "Probekreis;Baum-Nr.;Azimut (gon);Entfernung [m];BHD [cm];Baumart\n"
_GERMAN += "P1;1;12,5;4,35;31,2;Lärche\nP1;2;58;7,80;24,6;Föhre\n"


def _slugs(upload):
    return [remark.check for remark in upload.remarks]


def _line_of(upload, slug):
    return next(remark.line for remark in upload.remarks if remark.check == slug)


def test_cells_are_kept_as_typed_with_numbers_beside_them(read):
    stems = read({"stems.csv": _PLAIN}).stems
    assert_array_equal(stems.texts("distance_m"), ["4.35", "7.80"])
    assert_array_equal(stems.numbers("distance_m"), [4.35, 7.8])
    assert_array_equal(stems.line, [2, 3])


def test_numbers_keep_leading_zeros_as_text(read):
    stems = read({"s.csv": "plot,tree,azimuth,distance\n007,01,1,2\n007,1,1,2\n"}).stems
    assert_array_equal(stems.texts("plot"), ["007", "007"])
    assert_array_equal(stems.texts("tree"), ["01", "1"])


@pytest.mark.parametrize("separator", [",", ";", "\t", "|"])
def test_separator_is_found(read, separator: str):
    stems = read({"s.csv": _PLAIN.replace(",", separator)}).stems
    assert_array_equal(stems.numbers("dbh_cm"), [31.2, 24.6])


def test_separator_said_in_the_first_line_is_used(read):
    stems = read({"s.csv": "sep=;\n" + _GERMAN}).stems
    assert_array_equal(stems.numbers("dbh_cm"), [31.2, 24.6])
    assert_array_equal(stems.line, [3, 4])


def test_decimal_commas_do_not_pass_for_separators(read):
    stems = read({"s.txt": _GERMAN}).stems
    assert_array_equal(stems.numbers("distance_m"), [4.35, 7.8])
    assert_array_equal(stems.texts("species"), ["Lärche", "Föhre"])


@pytest.mark.parametrize(
    "encoded",
    [
        _GERMAN.encode(),
        codecs.BOM_UTF8 + _GERMAN.encode(),
        codecs.BOM_UTF16_LE + _GERMAN.encode("utf-16-le"),
        codecs.BOM_UTF16_BE + _GERMAN.encode("utf-16-be"),
        _GERMAN.encode("utf-16-le"),
        _GERMAN.encode("utf-16-be"),
        codecs.BOM_UTF32_LE + _GERMAN.encode("utf-32-le"),
    ],
)
def test_unicode_is_read_without_a_word(read, encoded: bytes):
    upload = read({"s.csv": encoded})
    assert_array_equal(upload.stems.texts("species"), ["Lärche", "Föhre"])
    assert _slugs(upload) == []


def test_windows_letters_are_read_and_said(read):
    upload = read({"s.csv": _GERMAN.encode("cp1252")})
    assert_array_equal(upload.stems.texts("species"), ["Lärche", "Föhre"])
    assert _slugs(upload) == ["encoding-assumed"]
    assert _line_of(upload, "encoding-assumed") == 2
    assert "Lärche" in upload.remarks[0].sentence


@pytest.mark.parametrize("ends", ["\n", "\r\n", "\r"])
def test_any_line_ends(read, ends: str):
    stems = read({"s.csv": _PLAIN.replace("\n", ends)}).stems
    assert_array_equal(stems.texts("species"), ["Rotbuche", "Kiefer"])
    assert_array_equal(stems.line, [2, 3])


def test_last_line_needs_no_end(read):
    assert len(read({"s.csv": _PLAIN.rstrip("\n")}).stems) == 2


def test_quoted_cells_hold_separators_quotes_and_line_breaks(read):
    text = "plot,stem,azimuth,distance_m,remark\n"
    text += '"P1",1,"12,5",4.35,"crooked, ""fork""\nat 3 m"\nP1,2,58,7.80,\nP2,1,3,4,x\n'
    stems = read({"s.csv": text}).stems
    assert_array_equal(stems.texts("remark"), ['crooked, "fork"\nat 3 m', "", "x"])
    assert_array_equal(stems.numbers("azimuth"), [12.5, 58, 3])
    assert_array_equal(stems.line, [2, 4, 5])


def test_quotation_mark_inside_a_cell_is_a_letter(read):
    text = 'plot,stem,azimuth,distance_m,remark\nP1,1,12,4.35,12" branch\nP1,2,58,7.80,5" scar\nP1,3,6,7,\n'
    upload = read({"s.csv": text})
    assert_array_equal(upload.stems.texts("remark"), ['12" branch', '5" scar', ""])
    assert_array_equal(upload.stems.line, [2, 3, 4])


def test_open_quotation_mark_swallows_no_lines(read):
    text = (
        'plot,stem,azimuth,distance_m,remark\nP1,1,12,4.35,fine\nP1,2,58,7.80,"open\nP1,3,90,3,fine\nP1,4,91,3,fine\n'
    )
    upload = read({"s.csv": text})
    assert_array_equal(upload.stems.numbers("azimuth"), [12, 58, 90, 91])
    assert _line_of(upload, "quote-unclosed") == 3


def test_lines_with_too_few_cells_are_filled_up_and_named(read):
    upload = read({"s.csv": "plot,stem,azimuth,distance_m,dbh_cm\nP1,1,12,4,30\nP1,2,58\nP1\n\nP1,3,90,3,20\n"})
    assert_array_equal(upload.stems.line, [2, 3, 4, 6])
    assert np.isnan(upload.stems.numbers("distance_m")[1])
    assert _line_of(upload, "lines-ragged") == 3
    assert "lines 3, 4" in upload.remarks[0].sentence


def test_surplus_cells_are_kept_beside_the_record_and_named(read):
    upload = read({"s.csv": "plot,stem,azimuth,distance_m\nP1,1,12,4\nP1,2,58,7,80,5\nP1,3,90,3,\n"})
    assert_array_equal(upload.stems.other[SURPLUS].texts, ["", "80,5", ""])
    assert_array_equal(upload.stems.numbers("distance_m"), [4, 7, 3])
    assert _line_of(upload, "lines-ragged") == 3
    assert _slugs(upload) == ["lines-ragged"]


def test_surplus_separators_alone_are_not_worth_a_word(read):
    upload = read({"s.csv": "plot,stem,azimuth,distance_m\nP1,1,12,4,,\nP1,2,58,7,,\n"})
    assert _slugs(upload) == []
    assert len(upload.stems) == 2


def test_title_and_blank_lines_before_the_headings_are_skipped(read):
    upload = read({"s.csv": "Inventory of the town forest\n\nBasel;2026;;\n" + _GERMAN})
    assert_array_equal(upload.stems.line, [5, 6])
    assert _line_of(upload, "lines-before-headings") == 4


def test_line_of_units_below_the_headings_is_skipped_and_used(read):
    upload = read({"s.csv": "plot,tree,azimuth,distance,dbh\n-,,gon,m,[mm]\nP1,1,12,4,312\n"})
    assert_array_equal(upload.stems.numbers("dbh_mm"), [312])
    assert _line_of(upload, "second-heading-line") == 2
    assert {(unit.field, unit.unit) for unit in upload.units} >= {("azimuth", "gon"), ("dbh_mm", "mm")}


def test_second_line_of_headings_in_another_language_is_skipped(read):
    upload = read({"s.csv": "plot,tree,azimuth,distance\nProbekreis,Baum,Azimut,Entfernung\nP1,1,12,4\n"})
    assert_array_equal(upload.stems.line, [3])
    assert [remark.check for remark in upload.remarks] == ["second-heading-line"]


def test_record_of_words_that_are_headings_elsewhere_is_a_record(read):
    assert_array_equal(read({"s.csv": "plot,stratum\nx,y\nnorth,east\n"}).plots.texts("plot"), ["x", "north"])


def test_headings_repeated_among_the_records_are_skipped(read):
    upload = read({"s.csv": _PLAIN + _PLAIN})
    assert_array_equal(upload.stems.line, [2, 3, 5, 6])
    assert "headings-repeated" in _slugs(upload)


def test_blank_lines_are_no_records(read):
    upload = read({"s.csv": _PLAIN.replace("\nP1,2", "\n\n,,,,,\n   \nP1,2")})
    assert_array_equal(upload.stems.line, [2, 6])


def test_blank_cells_are_empty(read):
    stems = read({"s.csv": "plot,stem,azimuth,distance_m\nP1,1, ,4\nP1,2,,\n"}).stems
    assert_array_equal(stems.columns["azimuth"].filled, [False, False])
    assert_array_equal(stems.columns["distance_m"].filled, [True, False])


def test_words_that_programs_take_for_missing_stay_text(read):
    stems = read({"s.csv": "plot,stem,azimuth,distance_m,species\nNA,null,nan,NULL,None\n"}).stems
    assert_array_equal(stems.texts("plot"), ["NA"])
    assert_array_equal(stems.texts("azimuth"), ["nan"])
    assert np.isnan(stems.numbers("azimuth")[0])
    assert_array_equal(stems.texts("species"), ["None"])


def test_one_column_is_a_table_too(read):
    plots = read({"s.csv": "plot\nP1\nP2\n"}).plots
    assert_array_equal(plots.texts("plot"), ["P1", "P2"])


def test_file_with_a_false_mark_is_refused(read):
    with pytest.raises(InputError, match="is marked as UTF-8"):
        read({"s.csv": codecs.BOM_UTF8 + _GERMAN.encode("cp1252")})


_CELLS = st.text(alphabet='ab1,;"\n ä', max_size=6)


@given(
    rows=st.lists(st.lists(_CELLS, min_size=3, max_size=3), min_size=1, max_size=8), separator=st.sampled_from(",;\t")
)
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_what_was_written_is_read_with_its_line(tmp_path: Path, rows: list[list[str]], separator: str):
    rows = [[f"P{number}", *row] for number, row in enumerate(rows)]
    text = io.StringIO()
    writer = csv.writer(text, delimiter=separator, lineterminator="\n")
    writer.writerow(["plot", "species", "remark", "status"])
    lines = []
    for row in rows:
        lines.append(text.getvalue().count("\n") + 1)
        writer.writerow(row)
    path = tmp_path / "s.csv"
    path.write_text(text.getvalue(), "utf-8", newline="")
    sheet = read_text(path, source="s.csv", asked=frozenset(), progress=Progress())
    assert_array_equal(sheet.line, lines)
    for place, column in enumerate(sheet.columns):
        assert_array_equal(column.texts, [row[place] if row[place].strip() else "" for row in rows])


@given(content=st.binary(max_size=60))
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_any_bytes_are_a_table_or_a_sentence(tmp_path: Path, content: bytes):
    path = tmp_path / "s.csv"
    path.write_bytes(b"plot,tree\n" + content)
    try:
        sheet = read_text(path, source="s.csv", asked=frozenset(), progress=Progress())
    except InputError:
        return
    assert all(len(column) == len(sheet) for column in sheet.columns)
