"""What a simulated survey tells of how it was measured."""

import json

import numpy as np
import pytest

from stemmap import checks
from stemmap.checks.evidence import fieldwork as module
from stemmap.checks.evidence.fieldwork import fieldwork
from stemmap.survey.measured import measure
from stemmap.survey.registry import Case, run_checks
from tests.uploads import survey

PLOTS, STEMS, RADIUS_M = 60, 20, 10.0
DESIGN = {"kind": "fixed", "radius_m": RADIUS_M}


def columns_of(seed=3, *, wrong=0.0, heaped=False, order="clockwise", plots=PLOTS):
    """Plots at random; of every second plot, crew "two", a share of azimuths is off by half a circle."""
    rng = np.random.default_rng(seed)
    columns = {name: [] for name in ("plot", "crew", "date", "stem", "azimuth", "distance_m", "dbh_cm")}
    for plot in range(plots):
        crew = ("one", "two")[plot % 2]
        azimuth = np.sort(rng.uniform(0, 360, STEMS))
        azimuth = {"clockwise": azimuth, "counter": azimuth[::-1], "none": rng.permutation(azimuth)}[order]
        distance = RADIUS_M * np.sqrt(rng.uniform(0.02, 0.99, STEMS))
        dbh = np.exp(rng.normal(3.0, 0.4, STEMS)).round(1)
        if heaped and crew == "two":
            dbh = np.where(rng.random(STEMS) < 0.4, np.round(dbh), dbh)
        off = (rng.random(STEMS) < wrong) & (crew == "two")
        for stem in range(STEMS):
            seen = round(azimuth[stem] + 180.0 * off[stem]) % 360
            far, thick = f"{distance[stem]:.2f}", f"{dbh[stem]:.1f}"
            cells = (plot, crew, f"2026-05-{11 + plot % 3}", stem + 1, seen, far, thick)
            for name, cell in zip(columns, cells, strict=True):
                columns[name].append(f"{cell}")
    return columns


def told(columns, **settings):
    checks.load()
    crews = dict(zip(columns["plot"], columns.pop("crew"), strict=True))
    plots = {"plot": list(crews), "crew": list(crews.values())}
    made = survey(columns, plots, settings={"design": DESIGN, **settings})
    case = Case(made, measure(made))
    return {(row["by"], row["name"]): row for row in fieldwork(case, run_checks(case))}


@pytest.fixture(scope="module")
def usual():
    return told(columns_of(wrong=0.04, heaped=True))


def test_groups_are_those_of_which_there_are_several(usual):
    names = [("survey", None), ("crew", "one"), ("crew", "two"), *(("day", f"2026-05-{day}") for day in (11, 12, 13))]
    assert list(usual) == names


def test_all_of_it_can_be_written_as_json(usual):
    json.dumps(list(usual.values()), allow_nan=False)


@pytest.mark.parametrize("by", ["crew", "day"])
def test_groups_add_up_to_the_survey(usual, by):
    whole, parts = usual["survey", None], [row for row in usual.values() if row["by"] == by]
    for name in ("plots", "stems"):
        assert sum(row[name] for row in parts) == whole[name]
    assert sum(row["findings"]["typing"] for row in parts) == whole["findings"]["typing"] > 0
    assert sum(row["missed_stems"]["expected"] for row in parts) == pytest.approx(whole["missed_stems"]["expected"])
    cases = [row["slips"]["azimuth"]["cases"] for row in parts]
    assert sum(cases) == pytest.approx(whole["slips"]["azimuth"]["cases"])


def test_the_crew_that_mistypes_is_told_from_the_one_that_does_not(usual):
    careful, hasty = (usual["crew", name]["slips"]["azimuth"] for name in ("one", "two"))
    assert careful["rate_per_1000"] < usual["survey", None]["slips"]["azimuth"]["rate_per_1000"]
    assert careful["high_per_1000"] < hasty["low_per_1000"]
    assert hasty["low_per_1000"] < 40.0 < hasty["high_per_1000"]


def test_the_kind_of_slip_is_told(usual):
    kinds = usual["survey", None]["slip_kinds"]
    assert max(kinds, key=lambda name: kinds[name]["cases"]) == "back bearing"


def test_the_crew_that_rounds_diameters_is_told(usual):
    one, two = (usual["crew", name]["last_digits"] for name in ("one", "two"))
    assert one["p"] > 0.01
    assert two["p"] < 1e-6
    assert two["most"] == 0


@pytest.mark.parametrize(
    ("order", "word"), [("clockwise", "clockwise"), ("counter", "counter-clockwise"), ("none", "no order")]
)
def test_the_habit_of_numbering_is_told(order, word):
    counts = told(columns_of(order=order))["survey", None]["order_of_numbers"]
    assert counts[word] >= 0.95 * PLOTS
    assert sum(counts.values()) == PLOTS


def test_careful_records_are_expected_to_have_few_slips():
    made = told(columns_of(5))["survey", None]["slips"]["azimuth"]
    assert made["rate_per_1000"] < 4.0


def test_nothing_is_hidden_where_stems_were_measured_at_the_stem():
    row = told(columns_of(plots=6), measurement={"method": "at_stem"})["survey", None]
    assert row["missed_stems"] is None
    assert "at the stem" in row["missed_stems_reason"]


def test_a_survey_without_stems_tells_why_nothing_is_known():
    made = survey(None, {"plot": ["A", "B"]}, settings={"design": DESIGN})
    case = Case(made, measure(made))
    (row,) = fieldwork(case, run_checks(case))
    assert (row["plots"], row["stems"]) == (2, 0)
    assert row["slips"] is None
    assert row["slips_reason"]


def test_slips_that_are_next_to_impossible_tell_nothing(monkeypatch):
    # Two records of one number that nothing else has in common made 4e-202 of a record entered twice.
    def impossible(_case):
        cases = np.full((len(module._COUNTED), 6), 1e-202)
        return module.Slips(cases, cases, np.full(6, STEMS))

    monkeypatch.setattr(module, "slips", impossible)
    rows = told(columns_of(plots=6))
    assert {row["slips"]["entered twice"]["high_per_1000"] < 10.0 for row in rows.values()} == {True}


def test_a_check_that_stops_takes_only_its_own_part_along(monkeypatch):
    def broken(_case):
        raise ZeroDivisionError

    monkeypatch.setattr(module, "posterior", broken)
    row = told(columns_of(plots=6))["survey", None]
    assert row["slips"] is None
    assert "fault" in row["slips_reason"]
    assert row["missed_stems"]["expected"] > 0.0
