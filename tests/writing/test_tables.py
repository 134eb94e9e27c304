"""Tables are streamed, unrounded, and no spreadsheet takes a text for a formula."""

import csv
import io
import json

import numpy as np
import pytest

from stemmap.writing.tables import (
    column_rows,
    distinct_names,
    plain_text,
    write_csv,
    write_csv_columns,
    write_json_list,
    write_text_table,
)


def text_of(write, *rest, **named):
    stream = io.StringIO()
    write(stream, *rest, **named)
    return stream.getvalue()


# Formulas


@pytest.mark.parametrize(
    "text",
    ["=1+1", "+1+1", "-1+1", "@SUM(A1)", "\t=1", "\r=1", "\n=1", "-", "+", "--5", "=", "-5 %", "+49 170 123", "@"],
)
def test_text_that_would_be_a_formula_gets_an_apostrophe(text):
    assert plain_text(text) == f"'{text}"


@pytest.mark.parametrize("text", ["", "5", "-5", "-5.25", "+5", "-1e-3", "spruce", "a=1", "1-2", "'=1", " =1"])
def test_numbers_and_other_texts_stay(text):
    assert plain_text(text) == text


# CSV


def test_csv_reads_back():
    rows = [
        ["1", "Eiche, alt", 0.1 + 0.2, None, True],
        ["2", 'a "b"', np.float64(np.nan), np.bool_(False), np.int64(7)],
        ["3", "zwei\nZeilen", np.inf, "", -5],
    ]
    read = list(csv.reader(io.StringIO(text_of(write_csv, ["plot", "=name", "x", "y", "z"], rows), newline="")))
    assert read[0] == ["plot", "'=name", "x", "y", "z"]
    assert read[1] == ["1", "Eiche, alt", "0.30000000000000004", "", "true"]
    assert read[2] == ["2", 'a "b"', "", "false", "7"]
    assert read[3] == ["3", "zwei\nZeilen", "", "", "-5"]


def test_csv_of_columns_reads_back_to_the_last_digit():
    rng = np.random.default_rng(1)
    numbers = rng.normal(size=25_000) * 10.0 ** rng.integers(-8, 8, 25_000)
    columns = {"x": numbers, "name": np.array(["ä"] * 25_000, object)}
    read = list(csv.DictReader(io.StringIO(text_of(write_csv_columns, columns), newline="")))
    assert [float(row["x"]) for row in read] == numbers.tolist()
    assert {row["name"] for row in read} == {"ä"}


def test_csv_of_no_rows_is_its_headings():
    assert text_of(write_csv_columns, {"a": np.zeros(0), "b": np.zeros(0)}) == "a,b\n"


def test_rows_come_a_block_at_a_time():
    rows = column_rows({"day": np.array(["2026-05-01", "NaT"], "M8[D]"), "n": np.array([1, 2])})
    assert [tuple(map(str, row)) for row in rows] == [("2026-05-01", "1"), ("None", "2")]


# JSON


def test_json_list_is_written_item_by_item():
    seen = []

    class Stream(io.StringIO):
        def write(self, text):
            seen.append(text)
            return super().write(text)

    stream = Stream()

    def items():
        for number in range(3):
            yield {"n": number, "ü": None}
            assert f'"n": {number}' in stream.getvalue(), "the item was not written before the next was asked for"

    write_json_list(stream, "items", items(), {"counts": {"error": 0}})
    assert json.loads(stream.getvalue()) == {
        "items": [{"n": 0, "ü": None}, {"n": 1, "ü": None}, {"n": 2, "ü": None}],
        "counts": {"error": 0},
    }
    assert "ü" in stream.getvalue()


def test_empty_json_list_is_one():
    assert json.loads(text_of(write_json_list, "items", [], {})) == {"items": []}


@pytest.mark.parametrize("value", [np.nan, np.inf])
def test_json_refuses_what_json_does_not_know(value):
    with pytest.raises(ValueError, match="JSON"):
        text_of(write_json_list, "items", [{"x": value}], {})


# Tables for people


def test_text_table_lines_up_numbers_to_the_right():
    table = text_of(write_text_table, ["plot", "stems"], [["1", "7"], ["long name", "1250"], ["x", None]])
    assert table.splitlines() == [
        "plot       stems",
        "1              7",
        "long name   1250",
        "x              –",
    ]


def test_text_for_people_commands_no_terminal_and_stays_in_its_line():
    """Reasons and names are kept as typed, and anything can be typed."""
    stream = io.StringIO()
    write_text_table(stream, ["who", "why"], [["Ann\nA", "\x1b[31mred\r\u2028\x9b"], ["Bo", "plain"]])
    assert stream.getvalue() == "who    why\nAnn A   [31mred\nBo     plain\n"


def test_text_table_without_rows_is_its_headings():
    assert text_of(write_text_table, ["plot", "stems"], []) == "plot  stems\n"


# Names


def test_names_of_columns_differ_in_more_than_case():
    names = distinct_names(["Fid", "plot", "Plot", "plot_2", "x"], taken=["fid"])
    assert names == ["Fid_2", "plot", "Plot_2", "plot_2_2", "x"]
    assert len({name.casefold() for name in names}) == len(names)
