"""Words for states, stems and findings."""

from dataclasses import replace

import numpy as np
import pytest

from stemmap.desktop.sentences import (
    chance,
    count_words,
    evidence_lines,
    finding_remainder,
    inside_words,
    number,
    stem_sentence,
)
from stemmap.tasks.workup import work_up
from tests.uploads import survey


@pytest.mark.parametrize(
    ("counts", "words"),
    [
        ((0, 0, 0), ""),
        ((1, 0, 0), "1 error"),
        ((2, 1, 3), "2 errors, 1 to look at"),
        ((0, 2, 0), "2 to look at"),
        ((0, 0, 1), "1 note"),
        ((0, 0, 4), "4 notes"),
    ],
)
def test_counts_in_words(qapp, counts, words):
    assert count_words(*counts) == words


def test_unknown_number_is_a_dash(qapp):
    assert number(np.nan, 2) == "–"


@pytest.fixture
def workup(qapp):
    stems = {
        "plot": ["A"] * 4,
        "stem": ["1", "2", "", "4"],
        "azimuth": [100, 200, 300, ""],
        "distance_m": [5.0, 9.99, 14.0, ""],
        "dbh_cm": [20, "", 30, 40],
        "species": ["oak", "", "ash", "ash"],
    }
    settings = {"design": {"radius_m": 10.0}, "measurement": {"azimuth_unit": "gon"}}
    return work_up(survey(stems, {"plot": ["A"]}, settings=settings))


@pytest.mark.parametrize(
    ("row", "sentence"),
    [
        (0, "Stem 1, oak, dbh 20.0 cm, azimuth 100 gon, distance 5.00 m, in"),
        (1, "Stem 2, no dbh, azimuth 200 gon, distance 9.99 m, in, borderline"),
        (2, "Stem without number, ash, dbh 30.0 cm, azimuth 300 gon, distance 14.00 m, out"),
        (3, "Stem 4, ash, dbh 40.0 cm, not known whether in"),
    ],
)
def test_stem_in_one_line(workup, row, sentence):
    assert stem_sentence(workup, row) == sentence
    assert sentence.endswith(inside_words(workup, row))


def test_proposals_and_worth_of_a_finding_are_told(workup):
    told = next(finding for finding in workup.findings if finding.check == "borderline")
    assert finding_remainder(told).startswith("Worth 31.8 stems/ha")


@pytest.mark.parametrize(("probability", "words"), [(1.0, "over 99 %"), (0.876, "88 %"), (0.0, "under 1 %")])
def test_no_probability_is_said_to_be_sure(qapp, probability, words):
    assert chance(probability) == words


def test_what_the_sentence_says_does_not_stand_below_it_again(workup):
    told = next(finding for finding in workup.findings if finding.check == "borderline")
    told = replace(told, message="No. 2: at 9.99 m.", evidence={"distance_m": 9.99, "limit_m": 10.0, "line": "2"})

    assert evidence_lines(told) == [("limiting distance, m", "10.00")]


def test_digits_within_another_number_are_no_value(workup):
    told = next(finding for finding in workup.findings if finding.check == "borderline")
    told = replace(told, message="No. 20: at 2.5 m, dbh 12.5 cm.", evidence={"line": "2", "dbh_cm": 2.5})

    assert evidence_lines(told) == [("line", "2")]
