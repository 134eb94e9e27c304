"""Units in headings and cells are held against the settings."""

from __future__ import annotations

import pytest

from stemmap.reading.stated_units import heading_unit_contradicts
from stemmap.survey.measured import measure
from stemmap.survey.registry import Case, catalogue
from stemmap.survey.settings import Settings
from stemmap.survey.survey import assemble


def _contradictions(upload, settings: Settings) -> list[str]:
    survey = assemble(upload, settings)
    batches = heading_unit_contradicts(Case(survey, measure(survey)))
    return [str(batch.field) for batch in batches]


@pytest.mark.parametrize(
    ("headings", "setting", "value", "fields"),
    [
        ("azimuth (gon),distance (m),dbh (cm)", "azimuth_unit", "gon", []),
        ("azimuth (gon),distance (m),dbh (cm)", "azimuth_unit", "degree", ["azimuth"]),
        ("azimuth (°),distance (ft),dbh (in)", "length_unit", "foot", []),
        ("azimuth (°),distance (ft),dbh (in)", "length_unit", "metre", ["distance_m", "dbh_cm"]),
        ("azimuth (mil),distance,dbh (mm)", "azimuth_unit", "mil_6400", []),
        ("azimuth (Grad),distance_m,dbh_cm", "length_unit", "foot", []),
        ("azimuth,distance (cm),dbh", "length_unit", "metre", ["distance_m"]),
    ],
)
def test_contradiction_is_reported(read, headings: str, setting: str, value: str, fields: list[str]):
    upload = read({"s.csv": f"plot,{headings}\nP1,1,2,3\n"})
    assert _contradictions(upload, Settings().having(f"measurement.{setting}", value)) == fields


@pytest.mark.parametrize(
    ("below", "skipped"),
    [
        ("-,gon,m,cm,", True),
        ("Nr,[gon],[m],[cm],Kürzel", True),
        ("Nr,[gon],,,frei", True),
        ("A,,,,m", False),  # a record with a species of one letter
        ("1,[gon],[m],[cm],Kürzel", False),
        ("A,B,C,D,E", False),
    ],
)
def test_line_of_units_below_the_headings_is_no_record(read, below: str, skipped: bool):
    upload = read({"s.csv": f"plot,azimuth,distance,dbh,species\n{below}\nP1,1,2,3,oak\n"})
    assert len(upload.stems) == (1 if skipped else 2)


def test_check_is_in_the_catalogue():
    assert "heading-unit-contradicts" in catalogue()
