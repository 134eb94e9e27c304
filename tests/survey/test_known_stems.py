"""Stems from which a lost centre is found: sure ones, told in the crew's own units."""

import numpy as np
import pytest

from stemmap.survey.lost_centre import known_stems
from stemmap.survey.measured import measure
from tests.uploads import survey

STEMS = {
    "plot": ["A"] * 7,
    "stem": ["1", "2", "3", "4", "5", "6", ""],
    "azimuth": [10, 150, 260, 140, 270, 20, 15],
    "distance_m": [5, 6, 7, 5, 7, 5, 5],
    "dbh_cm": [30, 31, 32, 33, 34, 35, 36],
    "status": ["living", "living", "living", "dead", "living", "cut", "living"],
}


def test_only_living_stems_with_a_number_that_nobody_doubts_are_chosen():
    whole = survey(STEMS, settings={"design": {"radius_m": 12.0}})
    found = known_stems(whole, measure(whole), 0, doubted=[4])
    assert found.rows.tolist() == [0, 1, 2]
    assert found.azimuth.tolist() == [190.0, 330.0, 80.0]
    assert found.distance == pytest.approx([5.0, 6.0, 7.0])


def test_stems_measured_from_another_point_are_not_chosen():
    whole = survey(STEMS | {"station": ["", "", "S", "", "", "", ""]}, settings={"design": {"radius_m": 12.0}})
    assert known_stems(whole, measure(whole), 0).rows.tolist() == [0, 1, 4]


def test_directions_and_distances_are_in_the_units_of_the_file():
    """Back over half a circle of 400 gon; 20 ft along the ground that is level."""
    units = {"design": {"radius_m": 40.0}, "measurement": {"azimuth_unit": "gon", "length_unit": "foot"}}
    stems = {name: values[:3] for name, values in STEMS.items()} | {"distance_m": [20, 20, 20]}
    whole = survey(stems, settings=units)
    found = known_stems(whole, measure(whole), 0)
    assert found.azimuth == pytest.approx([210.0, 350.0, 60.0])
    assert found.distance == pytest.approx(20.0)


def test_where_no_three_are_left_nothing_is_said():
    whole = survey(STEMS, settings={"design": {"radius_m": 12.0}})
    assert known_stems(whole, measure(whole), 0, doubted=[0, 1]) is None
    assert np.isfinite(measure(whole).x_m).all()
