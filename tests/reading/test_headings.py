"""Every heading of the table is understood, however it is written."""

from __future__ import annotations

import pytest

from stemmap.reading.headings import fold, known_count, meaning_of, nearest, unit_of, words
from stemmap.survey.fields import FIELDS

_EVERY = [(language, field, text) for language, of in words().items() for field, texts in of.items() for text in texts]


def _holds(heading: str, field: str) -> bool:
    meaning = meaning_of(heading)
    return meaning is not None and field in meaning.fields


@pytest.mark.parametrize(("language", "field", "heading"), _EVERY)
def test_heading_is_understood_in_any_case_and_with_any_separator(language: str, field: str, heading: str):
    for written in (heading, heading.upper(), heading.replace(" ", "_"), f" {heading.replace(' ', '-')}: "):
        assert _holds(written, field)


@pytest.mark.parametrize("language", ["english", "german", "french", "spanish", "finnish", "swedish"])
def test_each_language_has_at_least_forty_headings_of_its_own_table(language: str):
    assert len({fold(heading) for headings in words()[language].values() for heading in headings}) >= 40


def test_words_stand_under_fields_that_exist():
    assert {field for of in words().values() for field in of} <= set(FIELDS)


@pytest.mark.parametrize("name", list(FIELDS))
def test_canonical_names_are_headings(name: str):
    meaning = meaning_of(name)
    assert meaning is not None
    assert meaning.fields[0] == name


@pytest.mark.parametrize(
    ("heading", "field", "unit"),
    [
        ("BHD [cm]", "dbh_cm", "cm"),
        ("BHD [mm]", "dbh_mm", "mm"),
        ("diameter mm", "dbh_mm", "mm"),
        ("BHDmm", "dbh_mm", "mm"),
        ("dbh_mm", "dbh_mm", ""),
        ("d2_mm", "dbh_cross_mm", "mm"),
        ("Azimut (gon)", "azimuth", "gon"),
        ("azimuth_deg", "azimuth", "degree"),
        ("Azimut [°]", "azimuth", "degree"),
        ("Azimuth °", "azimuth", "degree"),
        ("Azimut (Grad)", "azimuth", ""),
        ("Distance (ft)", "distance_m", "ft"),
        ("dist_m", "distance_m", "m"),
        ("Slope %", "slope_percent", "%"),
        ("Trädhöjd (dm)", "height_m", "dm"),
        ("Circonférence (cm)", "girth_cm", "cm"),
        ("DBH (over bark)", "dbh_cm", ""),
        ("Baum-Nr.", "tree", ""),
        ("TREE #", "tree", ""),
        ("n° placette", "plot", ""),
        ("HOEHE", "height_m", ""),
        ("hohe", "height_m", ""),
        ("Entfernung  [ m ]", "distance_m", "m"),
    ],
)
def test_unit_in_a_heading_is_noted(heading: str, field: str, unit: str):
    meaning = meaning_of(heading)
    assert meaning is not None
    assert meaning.fields[0] == field
    assert meaning.unit == unit


@pytest.mark.parametrize("heading", ["", "Güte", "crown class", "12.5", "x" * 500, "(gon)", "°"])
def test_other_texts_are_no_headings(heading: str):
    assert meaning_of(heading) is None


def test_unit_must_suit_the_field():
    assert meaning_of("azimuth_cm") is None
    assert meaning_of("plot m") is None


def test_nearest_heading_is_named_with_its_field():
    assert nearest("Azimutt")[0] == "Azimut (azimuth)"
    assert nearest("distence_m")[0] == "distance_m"
    assert nearest("qqqqqqqq") == ()


def test_headings_that_were_asked_for_count_as_known():
    cells = ["Güte", "Plot", "", "xyz"]
    assert known_count(cells) == 1
    assert known_count(cells, frozenset({fold("guete"), fold("XYZ")})) == 2


def test_unit_words_are_told_from_other_words():
    assert unit_of(" cm ") == "cm"
    assert unit_of("Grad") == ""
    assert unit_of("tree") is None
