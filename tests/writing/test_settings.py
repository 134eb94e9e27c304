"""Settings that were said are written so that they read back."""

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stemmap.survey.settings import Settings, parse_settings
from stemmap.writing.settings import write_settings

WHOLE = {
    "survey": {"name": 'Forst "Höhe" \\ 7\n\x7f\t', "crs": "EPSG:25832"},
    "measurement": {"azimuth_unit": "gon", "north": "magnetic", "declination_deg": -3.5},
    "design": {
        "kind": "concentric",
        "circles": [{"radius_m": 7.98, "min_dbh_cm": 0.0}, {"radius_m": 12.62, "min_dbh_cm": 36.0, "offset_m": 1e-7}],
        "membership": "first_visit",
    },
    "errors": {"azimuth_sd_deg": 0.0, "dbh_sd_mm": 2.5},
    "status": {"living": ["1", "ü"], "dead": []},
    "columns": {"dbh_cm": "Ø 1,3 m = d"},
}


def read_back(settings, tmp_path):
    path = tmp_path / "settings.toml"
    write_settings(settings, path)
    return parse_settings(tomllib.loads(path.read_text("utf-8")))


def test_settings_read_back(tmp_path):
    settings = parse_settings(WHOLE)
    assert read_back(settings, tmp_path) == settings


def test_nothing_said_writes_nothing(tmp_path):
    write_settings(Settings(), tmp_path / "settings.toml")
    assert (tmp_path / "settings.toml").read_text("utf-8") == ""


def test_setting_changed_in_the_window_reads_back(tmp_path):
    settings = parse_settings(WHOLE).having("measurement.azimuth_unit", "degree").having("survey.crs", None)
    again = read_back(settings, tmp_path)
    assert again.measurement.azimuth_unit == "degree"
    assert again.crs is None


# Any text but lone surrogates, which no file in UTF-8 can hold.
TEXT = st.text(st.characters(exclude_categories=["Cs"]), max_size=20)


@given(name=TEXT, heading=TEXT, words=st.lists(TEXT, max_size=3), radius=st.floats(1e-6, 1e6))
def test_whatever_is_typed_reads_back(tmp_path_factory, name, heading, words, radius):
    table = {
        "survey": {"name": name},
        "columns": {"plot": heading},
        "status": {"gone": words},
        "design": {"radius_m": radius},
    }
    settings = parse_settings(table)
    assert read_back(settings, tmp_path_factory.mktemp("any")) == settings


@pytest.mark.parametrize("key", ["dbh_cm", "a b", "a.b", '"', ""])
def test_keys_of_any_kind_are_quoted_where_they_must_be(tmp_path, key):
    settings = parse_settings({"columns": {key: "x"}})
    path = tmp_path / "settings.toml"
    write_settings(settings, path)
    assert tomllib.loads(path.read_text("utf-8")) == {"columns": {key: "x"}}
