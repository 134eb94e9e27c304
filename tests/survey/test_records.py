"""Columns keep what was typed and hold the number beside it."""

import numpy as np
import pytest

from stemmap.survey.records import Column, Records
from tests.uploads import column, records


def test_texts_stay_as_typed():
    typed = ["7", " 7 ", "", "Fichte", "07"]
    assert Column.of_texts(typed).texts.tolist() == typed


def test_blank_cells_are_empty():
    made = Column.of_texts(["a", "", "   ", "\t"])
    assert made.filled.tolist() == [True, False, False, False]
    assert made.texts.tolist() == ["a", "", "", ""]


def test_number_stands_beside_its_text():
    made = column("dbh_cm", ["12,5", "31.0", None, "31.0"])
    assert made.texts.tolist() == ["12,5", "31.0", "", "31.0"]
    np.testing.assert_array_equal(made.numbers, [np.nan, 31.0, np.nan, 31.0])
    assert np.isnat(made.dates).all()


def test_dates_are_days():
    made = column("date", ["2026-05-04", "soon", ""])
    assert made.dates[0] == np.datetime64("2026-05-04")
    assert np.isnat(made.dates[1:]).all()
    assert np.isnan(made.numbers).all()


def test_numbers_that_were_never_typed_read_back():
    made = Column.of_numbers([1.5, np.nan, 0.1, 1.5])
    np.testing.assert_array_equal(made.numbers, [1.5, np.nan, 0.1, 1.5])
    assert made.texts.tolist() == ["1.5", "", "0.1", "1.5"]


def test_take_reorders_and_makes_empty_cells_of_minus_one():
    made = column("azimuth", [10, 20, 30]).take(np.array([2, -1, 0]))
    np.testing.assert_array_equal(made.numbers, [30.0, np.nan, 10.0])
    assert made.filled.tolist() == [True, False, True]
    assert made.texts.tolist() == ["30", "", "10"]


def test_alike_folds_labels_and_leaves_empty_cells_out():
    made = Column.of_texts(["Spruce", "spruce ", "", "fir", "Spruce"])
    codes = made.alike(lambda typed: typed.strip().casefold())
    assert codes[0] == codes[1] == codes[4]
    assert codes[2] == -1
    assert codes[3] not in (codes[0], -1)
    assert made.alike()[0] != made.alike(str.upper)[3]


def test_records_take_keeps_lines_and_other_columns():
    made = records("stems", {"plot": ["a", "b"], "Quality": ["x", "y"]}, source=3)
    taken = made.take(np.array([1, -1]))
    assert taken.line.tolist() == [3, -1]
    assert taken.source.tolist() == [3, -1]
    assert taken.texts("plot").tolist() == ["b", ""]
    assert taken.other["Quality"].texts.tolist() == ["y", ""]
    assert len(taken) == 2


def test_missing_column_reads_as_missing_values():
    made = records("stems", {"plot": ["a", "b"]})
    assert not made.has("dbh_cm")
    assert np.isnan(made.numbers("dbh_cm")).tolist() == [True, True]
    assert np.isnat(made.dates("date")).tolist() == [True, True]
    assert made.texts("species").tolist() == ["", ""]


@pytest.mark.parametrize("table", ["plots", "stems", "stations"])
def test_empty_records_have_no_rows(table):
    made = Records.empty(table)
    assert len(made) == 0
    assert made.numbers("azimuth").shape == (0,)
    assert len(made.take(np.zeros(0, np.int64))) == 0
