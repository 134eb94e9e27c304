"""Dates as typed, in six languages."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.testing import assert_array_equal

from stemmap.reading.dates import only_years, read_dates


def _read(*texts: str):
    return read_dates(np.array(texts, dtype=object))


@pytest.mark.parametrize(
    "text",
    [
        *("2024-05-03", "2024/05/03", "2024.5.3", "20240503", "03.05.2024", "3.5.24", "3. 5. 2024", "3 May 2024"),
        *("May 3, 2024", "03-May-2024", "3-may-24", "3. Mai 2024", "3 mai 2024", "3 de mayo de 2024", "3 maj 2024"),
        *("3. toukokuuta 2024", "2024-05-03T14:05:00Z", "2024-05-03 14:05", "03.05.2024 14:05:10", "45415"),
        *("2024-05-03T14:05:00.250+02:00", " 2024-05-03 ", "03.05.2024, 14:05"),
    ],
)
def test_day_is_understood(text: str):
    assert str(_read(text).values[0]) == "2024-05-03"


@pytest.mark.parametrize(
    "text", ["31.02.2026", "2024-13-01", "heute", "", "5", "2024", "0.0.2024", "12.5", "99999", "14:05", "2024-05"]
)
def test_what_is_no_day_stays_text(text: str):
    assert np.isnat(_read(text).values[0])


@pytest.mark.parametrize(
    ("text", "month"),
    [
        *[("1 mars 2024", 3), ("1. März 2024", 3), ("1 marraskuuta 2024", 11), ("1 août 2024", 8), ("1 juin 2024", 6)],
        *[("1 juillet 2024", 7), ("1 ene 2024", 1), ("1 dic 2024", 12), ("1 kesäkuuta 2024", 6), ("1 Dez 2024", 12)],
    ],
)
def test_month_names(text: str, month: int):
    assert _read(text).values[0] == np.datetime64(f"2024-{month:02d}-01")


def test_day_first_when_the_column_shows_it():
    read = _read("03/04/2024", "25/04/2024")
    assert_array_equal(read.values, np.array(["2024-04-03", "2024-04-25"], "M8[D]"))
    assert not read.ambiguous


def test_month_first_when_the_column_shows_it():
    read = _read("03/04/2024", "04/25/2024")
    assert_array_equal(read.values, np.array(["2024-03-04", "2024-04-25"], "M8[D]"))
    assert not read.ambiguous


def test_day_first_is_assumed_and_said_when_nothing_shows_it():
    read = _read("03/04/2024", "05/05/2024")
    assert_array_equal(read.values, np.array(["2024-04-03", "2024-05-05"], "M8[D]"))
    assert read.ambiguous == "03/04/2024"


def test_both_orders_in_one_column_are_read_each_by_itself():
    read = _read("25/04/2024", "04/25/2024", "03/04/2024")
    assert_array_equal(read.values, np.array(["2024-04-25", "2024-04-25", "2024-04-03"], "M8[D]"))
    assert read.ambiguous == "03/04/2024"


def test_points_always_put_the_day_first():
    assert not _read("03.04.2024").ambiguous


def test_years_alone_are_told_from_dates():
    assert only_years(np.array(["2021", " 2026 "], object))
    assert not only_years(np.array(["2021", "2026-05-01"], object))
    assert not only_years(np.array([], object))


@given(st.dates())
def test_iso_dates_are_exact(day):
    assert _read(day.isoformat()).values[0] == np.datetime64(day)


@given(st.text(max_size=14))
def test_any_text_is_a_day_or_none(text: str):
    assert _read(text).values.dtype == "M8[D]"
