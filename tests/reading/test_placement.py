"""Which table a sheet is and which column is which field."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.testing import assert_array_equal

from stemmap.errors import InputError
from stemmap.reading.placement import Placement, place_columns
from stemmap.reading.sheet import Sheet, column_of


def _sheet(*headings: str, units: tuple[str, ...] = ()) -> Sheet:
    columns = tuple(column_of(["1"]) for _ in headings)
    return Sheet("s.csv", "s", headings, columns, np.array([2], np.int32), units)


def _place(*headings: str, units: tuple[str, ...] = (), **columns: str) -> Placement:
    placement = place_columns(_sheet(*headings, units=units), columns)
    assert placement is not None
    return placement


def _slugs(placement: Placement) -> list[str]:
    return [remark.check for remark in placement.remarks]


@pytest.mark.parametrize(
    ("headings", "kind"),
    [
        ("plot tree azimuth distance dbh", "stems"),
        ("plot species dbh", "stems"),
        ("azimuth distance", "stems"),
        ("plot easting northing", "plots"),
        ("plot lon lat date crew status remark height", "plots"),
        ("plot", "plots"),
        ("plot visit", "plots"),
        ("plot station azimuth distance", "stations"),
        ("plot station tree azimuth distance", "stems"),
        ("plot x y radius tree azimuth distance", "stems with plots"),
        ("koeala puu suunta etäisyys läpimitta", "stems"),
        ("Probekreis Rechtswert Hochwert", "plots"),
    ],
)
def test_headings_tell_the_table(headings: str, kind: str):
    assert _place(*headings.split()).kind == kind


def test_no_known_heading_is_no_table():
    assert place_columns(_sheet("foo", "bar"), {}) is None


def test_unplaced_column_is_named_with_the_nearest_headings():
    placement = _place("plot", "Azimutt", "distance")
    assert placement.fields == ("plot", None, "distance_m")
    assert _slugs(placement) == ["column-not-placed"]
    assert "Azimut (azimuth)" in placement.remarks[0].sentence
    assert placement.remarks[0].column == "Azimutt"


def test_first_of_two_columns_for_one_field_is_taken_and_said():
    placement = _place("plot", "dbh", "azimuth", "diameter", "distance")
    assert placement.fields == ("plot", "dbh_cm", "azimuth", None, "distance_m")
    assert _slugs(placement) == ["column-twice"]


def test_short_heading_goes_to_the_meaning_that_is_free():
    assert _place("plot", "dbh", "azimuth", "d").fields == ("plot", "dbh_cm", "azimuth", "distance_m")
    assert _place("plot", "d", "azimuth", "distance").fields == ("plot", "dbh_cm", "azimuth", "distance_m")


def test_short_heading_that_stays_open_is_said():
    placement = _place("plot", "d", "azimuth")
    assert placement.fields == ("plot", "dbh_cm", "azimuth")
    assert _slugs(placement) == ["heading-ambiguous"]
    assert "--map distance_m=d" in placement.remarks[0].sentence


def test_number_is_that_of_the_stem_among_stems_and_that_of_the_plot_among_plots():
    assert _place("nr", "plot", "azimuth", "distance").fields[0] == "stem"
    assert _place("nr", "azimuth", "distance").fields[0] == "stem"
    assert _place("nr", "easting", "northing").fields[0] == "plot"


def test_status_is_that_of_the_stem_among_stems_and_that_of_the_plot_among_plots():
    assert _place("plot", "tree", "azimuth", "Zustand").fields[3] == "status"
    assert _place("plot", "easting", "Zustand").fields[2] == "plot_status"
    assert _slugs(_place("plot", "tree", "azimuth", "status")) == []


def test_asked_heading_wins_over_known_ones():
    placement = _place("plot", "dbh", "field diameter", "azimuth", dbh_cm="field diameter")
    assert placement.fields == ("plot", None, "dbh_cm", "azimuth")
    assert _slugs(placement) == ["column-twice"]


def test_asked_heading_is_found_without_regard_to_case_and_spaces():
    assert _place("plot", "Field Diameter", azimuth="b", dbh_cm="field_diameter").fields == ("plot", "dbh_cm")


def test_asked_heading_alone_makes_a_table():
    assert _place("foo", "bar", azimuth="foo", distance_m="bar").kind == "stems"


def test_mapping_to_a_field_there_is_not_is_refused(read):
    with pytest.raises(InputError, match=r"There is no field 'dbh'.*dbh_cm"):
        read({"s.csv": "a,b\n1,2\n"}, dbh="a")


def test_unit_below_the_heading_decides_the_field():
    placement = _place("plot", "BHD", "Azimut", units=("", "mm", "gon"))
    assert placement.fields == ("plot", "dbh_mm", "azimuth")
    assert placement.units == ("", "mm", "gon")


def test_duplicate_headings_are_told_apart(read):
    upload = read({"s.csv": "plot,azimuth,distance,note x,note x,dbh,dbh\nP1,1,2,a,b,30,31\n"})
    assert_array_equal(upload.stems.numbers("dbh_cm"), [30])
    assert list(upload.stems.other) == ["note x", "note x (2)", "dbh (2)"]
    assert [remark.check for remark in upload.remarks].count("column-twice") == 1


def test_column_without_heading_is_kept_and_said(read):
    upload = read({"s.csv": "plot,azimuth,distance,,\nP1,1,2,extra,\n"})
    assert_array_equal(upload.stems.other["column 4"].texts, ["extra"])
    assert "column 5" not in upload.stems.other
    assert [remark.check for remark in upload.remarks] == ["column-unnamed"]


def test_many_unknown_columns_are_one_remark_that_counts_them():
    placement = _place("plot", *(f"q{n}zz" for n in range(100)))
    assert _slugs(placement) == ["column-not-placed"]
    assert placement.remarks[0].column == "q0zz"
    assert "'q0zz', 'q1zz'" in placement.remarks[0].sentence
    assert "'q11zz' and 88 more are not known" in placement.remarks[0].sentence


def test_headings_of_another_table_and_unknown_ones_are_two_remarks():
    placement = _place("plot", "lon", "lat", "date", "height", "quux", "quuux")
    assert _slugs(placement) == ["column-not-placed", "column-not-placed"]
    assert [remark.column for remark in placement.remarks] == ["height", "quux"]
    assert placement.remarks[0].sentence.startswith("The heading 'height' is not a field of a table of plots.")
    assert placement.remarks[1].sentence.startswith("The headings 'quux', 'quuux' are not known")
