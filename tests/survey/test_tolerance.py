"""Tolerances of a second measurement: from the errors, as published, or of one's own."""

import pytest

from stemmap.survey.settings import parse_settings
from stemmap.survey.tolerance import PRESETS, source, tolerances


def tolerated(said, *, distance_m=10.0, dbh_cm=20.0, errors=None):
    settings = parse_settings({"tolerance": said, "errors": errors or {}})
    made = tolerances(settings, distance_m=[distance_m], dbh_cm=[dbh_cm])
    return [float(each[0]) for each in (made.azimuth_deg, made.distance_m, made.dbh_cm)]


def test_nothing_said_follows_from_the_errors():
    """1.96 √2 standard deviations (computed by hand)."""
    errors = {"azimuth_sd_deg": 1.0, "distance_sd_m": 0.03, "distance_sd_percent": 0.4, "dbh_sd_mm": 3.0}
    assert tolerated({}, errors=errors) == pytest.approx([2.7719, 2.7719 * 0.05, 2.7719 * 0.3], rel=1e-4)


def test_published_tolerances_in_metric_units():
    """10° and 0.1 in per 20 in: US Forest Service National Core Field Guide; 1 ft: the same, from memory."""
    thin, thick = (tolerated({"preset": "us_core_field_guide"}, dbh_cm=dbh) for dbh in (30.0, 101.6))
    assert thin == pytest.approx([10.0, 0.3048, 0.254])
    assert thick[2] == pytest.approx(0.508)
    assert tolerated({"preset": "tahoe_protocol"}) == pytest.approx([2.0, 0.03048, 0.254])


def test_a_value_of_ones_own_goes_before_the_preset_and_the_larger_part_holds():
    said = {"preset": "tahoe_protocol", "distance_percent": 1.0, "dbh_mm": 5.0}
    assert tolerated(said, distance_m=12.0, dbh_cm=200.0) == pytest.approx([2.0, 0.12, 0.5])
    assert tolerated({"distance_m": 0.05, "distance_percent": 1.0}, distance_m=3.0)[1] == 0.05


def test_a_value_that_was_not_recorded_leaves_the_constant_part():
    assert tolerated({"distance_m": 0.1, "dbh_mm": 3.0}, distance_m=float("nan"), dbh_cm=float("nan"))[1:] == (
        pytest.approx([0.1, 0.3])
    )


def test_the_source_is_said():
    assert "errors in the settings" in source(parse_settings({}))
    told = source(parse_settings({"tolerance": {"preset": "tahoe_protocol", "dbh_mm": 4.0}}))
    assert told == PRESETS["tahoe_protocol"][1] + "; dbh_mm as set"
