"""Numbers as typed: no mark is reinterpreted in silence."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.testing import assert_array_equal

from stemmap.reading.numbers import NumbersRead, decide, plain_numbers, scan_numbers


def _read(
    texts: Sequence[str], *, name: str = "distance_m", own_unit: str = "m", separator: str | None = ";", elsewhere=()
) -> NumbersRead:
    scan = scan_numbers(np.array(texts, dtype=object), own_unit=own_unit)
    marks = frozenset({*scan.decimal, *elsewhere})
    return decide(scan, name=name, separator=separator, marks=marks)


def test_plain_numbers_are_read_at_once():
    assert_array_equal(
        plain_numbers(np.array(["12.5", "-3", "1e3", ".5", "7.", "+2"], object)), [12.5, -3, 1000, 0.5, 7, 2]
    )


@pytest.mark.parametrize("text", ["nan", "inf", "-Infinity", "1_000", "1e400", "12,5", "n/a", "٣", "", "0x10"])
def test_anything_else_is_not_read_at_once(text: str):
    assert plain_numbers(np.array(["12.5", text], object)) is None


@pytest.mark.parametrize(
    "text",
    [
        *("nan", "inf", "-inf", "Infinity", "1e400", "1_000", "n/a", "zwölf", "ca. 30", "12..5", "1,2,3", "--5", "5-"),
        *("12 5", "1 2", ".", ",", "-", "12.5.1", "1,23,456", "0x10", "1e", "e5", "12,5,", "1.5cm2", "²"),
    ],
)
def test_what_is_no_number_stays_text(text: str):
    assert np.isnan(_read([text]).values[0])


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("12.5", 12.5),
        ("12,5", 12.5),
        ("12,50", 12.5),
        (",5", 0.5),
        ("7,", 7.0),
        ("\u22123,5", -3.5),
        ("  4,5 ", 4.5),
        ("4,5\u00a0", 4.5),
        ("0,125", 0.125),
        ("1234,567", 1234.567),
        ("1.234,5", 1234.5),
        ("1,234.5", 1234.5),
        ("1.234.567", 1234567.0),
        ("1,234,567", 1234567.0),
        ("1 234,5", 1234.5),
        ("5\u202f559\u202f400", 5559400.0),
        ("1,5e2", 150.0),
        ("12,3 m", 12.3),
        ("12.3m", 12.3),
    ],
)
def test_number_whose_marks_explain_themselves(text: str, number: float):
    read = _read([text])
    assert read.values[0] == number
    assert not read.ambiguous


def test_mixed_marks_are_read_cell_by_cell_and_said():
    read = _read(["12.5", "13,25", "7"])
    assert_array_equal(read.values, [12.5, 13.25, 7.0])
    assert (read.points, read.commas) == ("12.5", "13,25")


def test_decimal_commas_of_the_column_settle_a_lone_comma():
    read = _read(["12,5", "1,234"])
    assert_array_equal(read.values, [12.5, 1.234])
    assert not read.ambiguous


def test_lone_comma_is_ambiguous_when_nothing_settles_it():
    read = _read(["1,234", "2,345"])
    assert_array_equal(read.values, [1.234, 2.345])
    assert read.ambiguous == "1,234"
    assert not read.assumed_thousands


def test_lone_comma_is_ambiguous_when_the_file_uses_both_marks():
    read = _read(["12,5", "1,234"], elsewhere={"."})
    assert_array_equal(read.values, [12.5, 1.234])
    assert read.ambiguous == "1,234"


def test_lone_comma_in_a_file_of_commas_marks_thousands_only_where_values_are_large():
    assert _read(["1,234"], name="elevation_m", separator=",").values[0] == 1234.0
    assert _read(["1,234"], name="elevation_m", separator=",").ambiguous
    assert _read(["1,234"], name="distance_m", separator=",").values[0] == 1.234
    assert _read(["1,234"], name="distance_m", separator=",").ambiguous


def test_lone_point_is_a_decimal_point_unless_others_write_commas():
    assert _read(["1.234"]).values[0] == 1.234
    assert not _read(["1.234"]).ambiguous
    thousands = _read(["1.234"], name="elevation_m", elsewhere={","})
    assert (thousands.values[0], thousands.ambiguous, thousands.assumed_thousands) == (1234.0, "1.234", True)


def test_certain_thousands_mark_settles_a_lone_one():
    read = _read(["1.234.567", "5.559"], name="northing", own_unit="CRS unit")
    assert_array_equal(read.values, [1234567.0, 5559.0])
    assert not read.ambiguous
    assert read.thousands == "1.234.567"


def test_column_that_contradicts_itself_is_ambiguous():
    read = _read(["1,234,567", "12,5", "1,234"], name="easting")
    assert read.values[2] == 1.234
    assert read.ambiguous == "1,234"


def test_unit_of_the_field_is_left_out_and_said():
    read = _read(["218°", "12 °", "7"], name="azimuth", own_unit="azimuth unit")
    assert_array_equal(read.values, [218.0, 12.0, 7.0])
    assert (read.unit, read.with_unit) == ("degree", "218°")


def test_other_units_make_it_no_number():
    assert np.isnan(_read(["31 mm"], name="dbh_cm", own_unit="cm").values[0])
    assert np.isnan(_read(["5 gon"], name="distance_m").values[0])
    mixed = _read(["218°", "240 gon"], name="azimuth", own_unit="azimuth unit").values
    assert mixed[0] == 218.0
    assert np.isnan(mixed[1])


@given(st.decimals(-9999, 9999, places=2, allow_nan=False, allow_infinity=False))
def test_decimal_mark_does_not_change_a_number(number):
    text = f"{number:.2f}"
    assert_array_equal(_read([text, text.replace(".", ",")]).values, [float(text)] * 2)


@given(st.text(max_size=12))
def test_any_text_is_a_finite_number_or_none(text: str):
    value = _read([text]).values[0]
    assert np.isnan(value) or np.isfinite(value)
