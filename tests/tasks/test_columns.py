"""Columns of an upload said by the user."""

from __future__ import annotations

import pytest
from numpy.testing import assert_allclose

from stemmap.reading import read_settings, understood_as
from stemmap.tasks.columns import look_at_columns, offsets
from stemmap.tasks.workup import open_uploads, save_settings

MAPPED = {"plot": "Ort", "distance_m": "Weite", "azimuth": "Zeiger", "dbh_cm": "Dicke"}


@pytest.fixture
def odd(tmp_path):
    """A file with no known heading, in a folder of its own."""
    path = tmp_path / "odd.csv"
    path.write_text("Ort;Weite;Zeiger;Dicke\nA1;10;100;24,1\nA1;20;300;31\n", "utf-8")
    return path


def test_columns_said_are_part_of_the_settings(odd):
    settings = open_uploads([odd], columns=MAPPED).survey.settings
    assert dict(settings.columns) == MAPPED
    assert {f"columns.{name}" for name in MAPPED} <= settings.said


def test_saved_settings_read_the_upload_without_a_mapping(odd):
    save_settings(open_uploads([odd], columns=MAPPED).survey.settings, odd.parent / "settings.toml")
    assert dict(read_settings(odd.parent / "settings.toml").columns) == MAPPED
    assert len(open_uploads([odd]).survey.stems) == 2


def test_columns_of_the_settings_file_are_told_from_those_said_since(odd):
    (odd.parent / "settings.toml").write_text('[columns]\nplot = "Ort"\nazimuth = "Weite"\n', "utf-8")
    asked = look_at_columns([odd], columns={"distance_m": "Weite"})
    assert dict(asked.settings.columns) == {"plot": "Ort", "azimuth": "Weite"}
    assert dict(asked.columns) == {"distance_m": "Weite"}
    assert dict(asked.under(asked.columns).columns) == {"plot": "Ort", "distance_m": "Weite"}


def test_settings_changed_since_opening_are_kept(odd):
    survey = open_uploads([odd], columns=MAPPED).survey
    now = survey.settings.having("measurement.azimuth_unit", "gon")
    asked = look_at_columns([odd], columns=MAPPED, now=now)
    assert asked.settings.measurement.azimuth_unit == "gon"
    assert dict(asked.settings.columns) == {}
    assert asked.under(MAPPED).columns == survey.settings.columns


def test_offsets_follow_the_azimuth_unit_and_the_length_unit(odd):
    (odd.parent / "settings.toml").write_text('[measurement]\nazimuth_unit = "gon"\nlength_unit = "foot"\n', "utf-8")
    asked = look_at_columns([odd], columns=MAPPED)
    understood = understood_as(asked.preview.sheets[0], MAPPED)
    east, north = offsets(understood, asked.settings)
    assert_allclose(east, [3.048, -6.096])
    assert_allclose(north, [0.0, 0.0], atol=1e-12)


def test_no_offsets_without_azimuth(odd):
    asked = look_at_columns([odd], columns={"distance_m": "Weite"})
    assert offsets(understood_as(asked.preview.sheets[0], {"distance_m": "Weite"}), asked.settings) is None
