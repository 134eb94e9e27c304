"""Findings keep their names, their order and their numbers, and are told as strict JSON."""

import json
import random

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stemmap import checks
from stemmap.survey.batches import Batch, Proposal
from stemmap.survey.findings import Findings
from stemmap.survey.registry import Case, catalogue
from tests.uploads import findings, found, survey

checks.load()
CHECK = catalogue()["stem-number-twice"]

#: Three plots with doubts of many kinds.
STEMS = {
    "plot": ["b", "b", "b", "a", "a", "a", "a", "", "c/1 d"],
    "stem": ["1", "1", "2", "1", "", "", "7~2", "4", "-"],
    "azimuth": ["10", "20", "400", "30", "x", "", "50", "60", "370"],
    "distance_m": ["3", "4", "5", "", "0", "6", "9.98", "8", "-1"],
    "dbh_cm": ["20", "", "30", "0", "thick", "25", "31", "20", "12"],
    "status": ["", "", "q", "", "", "living", "", "", ""],
}
PLOTS = {
    "plot": ["b", "a", "b", "b", "e"],
    "radius_m": ["10", "10", "12", "ten", "-3"],
    "lat": ["", "95", "", "", ""],
    "lon": ["", "8", "", "", ""],
}


def case():
    made = survey(STEMS, PLOTS, settings={"design": {"radius_m": 10}})
    return findings(made)


def batch(rows, message="doubt", *, field="azimuth", made=None, **rest):
    made = made or survey({"plot": [1] * 3, "stem": [1, 2, 3]})
    rows = np.array(rows)
    return Findings(made, ((CHECK, Batch(message, made.stems.visit_row[rows], rows, field=field, **rest)),))


# Ids


def test_ids_are_unique_and_without_white_space():
    ids = [finding.id for finding in case()]
    assert len(ids) > 15
    assert len(set(ids)) == len(ids)
    assert [name for name in ids if len(name.split()) != 1] == []


def ids_of(stems, plots=PLOTS):
    return {finding.id for finding in findings(survey(stems, plots, settings={"design": {"radius_m": 10}}))}


def test_ids_do_not_follow_the_order_of_the_rows():
    """Stems with the same number, without number or without plot are told apart by their order alone."""
    clear = [0, 2, 3, 6, 8]
    stems = {name: [cells[place] for place in clear] for name, cells in STEMS.items()}
    before = ids_of(stems)
    order = list(range(len(clear)))
    random.Random(3).shuffle(order)
    assert ids_of({name: [cells[place] for place in order] for name, cells in stems.items()}) == before


def test_ids_do_not_follow_the_values():
    def made(azimuth, distance):
        stems = {"plot": [1, 1], "stem": [1, 2], "azimuth": [azimuth, 10], "distance_m": [distance, 3]}
        return ids_of(stems, {"plot": [1]})

    assert made(400, 0) == made(-3, -7)


def test_ids_do_not_follow_other_findings():
    stems = {"plot": [1, 1], "stem": [1, 2], "azimuth": [10, 400], "distance_m": [3, 3]}
    (alone,) = [finding.id for finding in found(survey(stems), "azimuth-outside-circle")]
    stems = {name: [*cells, cells[1]] for name, cells in stems.items()} | {"stem": [1, 2, 3]}
    assert alone in {finding.id for finding in found(survey(stems), "azimuth-outside-circle")}


def test_stem_number_twice_makes_two_ids():
    stems = {"plot": [1, 1], "stem": [5, 5], "azimuth": [400, 400], "distance_m": [3, 3]}
    first, second = (finding.id for finding in found(survey(stems), "azimuth-outside-circle"))
    assert first == "1/-/5/azimuth-outside-circle/azimuth"
    assert second == "1/-/5~2/azimuth-outside-circle/azimuth"


def test_rows_of_a_plot_that_is_there_three_times_make_two_ids():
    ids = [finding.id for finding in found(survey(plots={"plot": [1, 1, 1]}), "plot-row-twice")]
    assert ids == ["1/-/plot-row-twice/plot", "1/-/plot-row-twice/plot~2"]


def test_unknown_status_keeps_its_id_wherever_it_stands():
    def made(status):
        stems = {"plot": [1] * 3, "stem": [1, 2, 3], "status": status}
        return {finding.id for finding in found(survey(stems), "status-unknown")}

    assert made(["q", "w", ""]) == made(["", "w", "q"])
    assert len(made(["q", "w", "q"])) == 2


def test_names_that_look_like_nothing_stay_apart():
    """An empty name and a typed dash, a slash inside a name and one between names."""
    stems = {"plot": ["-", "a/b", "a"], "visit": ["", "", "b"], "stem": ["", "-", "-"], "azimuth": [400] * 3}
    ids = {finding.id for finding in found(survey(stems), "azimuth-outside-circle")}
    assert len(ids) == 3
    assert all(name.count("/") == 4 for name in ids)


NAME = st.text(st.sampled_from("1aé-/.~% "), max_size=3)


@given(st.lists(st.tuples(st.sampled_from(["1", "2 ", "-"]), NAME, NAME, NAME), max_size=8))
def test_ids_are_unique_whatever_the_names(rows):
    columns = dict(zip(("plot", "visit", "tree", "stem"), map(list, zip(*rows, strict=True)), strict=False))
    made = survey({**columns, "azimuth": [400] * len(rows), "distance_m": [0] * len(rows)})
    ids = [finding.id for finding in findings(made)]
    assert len(set(ids)) == len(ids)
    assert [name for name in ids if len(name.split()) != 1] == []


# Order and numbers


def test_findings_about_files_come_first_then_plot_by_plot():
    made = case()
    told = list(made)
    assert [finding.visit_row for finding in told] == sorted(finding.visit_row for finding in told)
    assert told[0].plot is None
    for visit_row in range(-1, len(made.survey.visits)):
        of_visit = made.of_visit(visit_row)
        assert of_visit == [finding for finding in told if finding.visit_row == visit_row]
        assert [finding.stem_row for finding in of_visit] == sorted(finding.stem_row for finding in of_visit)
        assert made.of_visit(visit_row, 2) == of_visit[:2]
    assert [made.tell(place) for place in range(len(made))] == told
    assert made.of_visit(99) == []


def test_numbers_agree_with_what_is_told():
    made = case()
    told = list(made)
    assert len(made) == len(told) == sum(made.counts.values())
    assert list(made.counts) == ["error", "warning", "note"]
    for severity, count in made.counts.items():
        assert count == sum(finding.severity == severity for finding in told)
        by_visit = made.count_by_visit(severity)
        for row in range(len(made.survey.visits)):
            assert by_visit[row] == sum(f.severity == severity and f.visit_row == row for f in told)


def test_worst_of_a_stem_is_the_worst_that_is_told():
    made = case()
    rank = {"note": 1, "warning": 2, "error": 3}
    worst = [0] * len(made.survey.stems)
    for finding in made:
        if finding.stem_row >= 0:
            worst[finding.stem_row] = max(worst[finding.stem_row], rank[finding.severity])
    assert made.worst_of_stem.tolist() == worst
    assert {2, 3} <= set(worst)


def test_nothing_found_is_nothing_told():
    made = Findings(survey(), ())
    assert list(made) == []
    assert made.of_visit(-1) == []
    assert made.counts == {"error": 0, "warning": 0, "note": 0}
    assert made.worst_of_stem.shape == (0,)


# Sentences


def test_numbers_that_are_not_known_read_as_a_dash():
    (told,) = batch([0], "{much:.2f} m and {little:.1f}", evidence={"much": np.array([np.nan]), "little": np.ones(1)})
    assert told.message == "– m and 1.0"


def test_braces_in_what_was_typed_stay():
    (told,) = batch([0], "{text}", evidence={"text": np.array(["{0}{plot}"], object)})
    assert told.message == "{0}{plot}"


def test_stem_without_number_is_named_by_its_line():
    made = survey({"plot": [1, 1], "stem": ["", "7"]})
    told = list(batch([0, 1], "No. {stem} of plot {plot}.", made=made))
    assert [finding.message for finding in told] == ["No. ? (line 2) of plot 1.", "No. 7 of plot 1."]
    assert [finding.stem for finding in told] == ["", "7"]


# JSON


def test_json_is_strict_and_whole():
    for finding in case():
        told = json.loads(json.dumps(finding.as_json(), allow_nan=False))
        assert list(told) == [
            *("id", "plot", "visit", "stem", "check", "severity", "family", "field", "message", "evidence"),
            *("proposals", "effect"),
        ]
        assert list(told["effect"]) == ["stems_per_ha", "basal_area_m2_per_ha"]


def test_evidence_becomes_plain_values():
    evidence = {
        "number": np.array([np.nan]),
        "endless": np.array([np.inf]),
        "count": np.array([3]),
        "truth": np.array([True]),
        "day": np.array(["2026-05-01"], "M8[D]"),
        "no_day": np.array(["NaT"], "M8[D]"),
        "text": np.array(["x"], object),
        "nothing": np.array([None], object),
    }
    (told,) = batch([0], evidence=evidence)
    assert told.evidence == {
        "number": None,
        "endless": None,
        "count": 3,
        "truth": True,
        "day": "2026-05-01",
        "no_day": None,
        "text": "x",
        "nothing": None,
    }
    json.dumps(told.as_json(), allow_nan=False)


def test_proposal_stands_only_where_there_is_one():
    proposals = (
        Proposal("azimuth", np.array([120.0, np.nan]), np.array([0.8, np.nan])),
        Proposal("azimuth", np.array([np.nan, 12.0]), np.array([np.nan, 0.5])),
    )
    first, second = batch([0, 1], proposals=proposals)
    assert first.proposals == [{"field": "azimuth", "value": 120.0, "probability": 0.8}]
    assert second.proposals == [{"field": "azimuth", "value": 12.0, "probability": 0.5}]


def test_effect_is_null_where_it_is_not_known():
    (told,) = batch([0], stems_per_ha=np.array([20.0]), basal_area_m2_per_ha=np.array([np.nan]))
    assert told.effect == {"stems_per_ha": 20.0, "basal_area_m2_per_ha": None}
    (told,) = batch([0])
    assert told.effect == {"stems_per_ha": None, "basal_area_m2_per_ha": None}


@pytest.mark.parametrize("severity", [None, "error", "note"])
def test_batch_may_have_a_severity_of_its_own(severity):
    (told,) = batch([0], severity=severity)
    assert told.severity == (severity or CHECK.severity)


def test_worth_of_a_stem_is_its_weight():
    made = survey(
        {"plot": [1], "stem": [1], "distance_m": [9.99], "azimuth": [0], "dbh_cm": [40]},
        settings={"design": {"radius_m": 10}},
    )
    (told,) = found(made, "borderline")
    assert told.effect["stems_per_ha"] == pytest.approx(10_000 / (np.pi * 100))
    assert told.effect["basal_area_m2_per_ha"] == pytest.approx(10_000 / (np.pi * 100) * np.pi * 0.2**2)


def test_case_of_a_missing_text_is_an_empty_cell():
    made = survey({"plot": [1]})
    cells = Case(made, None).cells(made.stems.records, np.array([0]), "dbh_cm")
    assert {name: value[0] for name, value in cells.items()} == {
        "file": "stems.csv",
        "line": 2,
        "column": "dbh_cm",
        "text": "",
    }
