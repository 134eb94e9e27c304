"""One plot checked again by what the whole survey has told."""

from dataclasses import replace
from types import MappingProxyType

import numpy as np
import pytest

from stemmap.assets import sample_data
from stemmap.survey.part import part_of
from stemmap.survey.survey import Stems
from stemmap.tasks.workup import check_plots, open_uploads


@pytest.fixture(scope="module")
def workup():
    return open_uploads([sample_data("survey") / name for name in ("plots.csv", "stems.csv")])


def told(findings, visit_row):
    return {
        finding.id: (finding.message, finding.evidence.get("probability_wrong"))
        for finding in findings.of_visit(visit_row)
    }


def with_value(survey, row, name, text, number):
    column = survey.stems.records.columns[name]
    codes = column.codes.copy()
    codes[row] = len(column.labels)
    edited = replace(
        column,
        codes=codes,
        labels=np.append(column.labels, text),
        label_values=np.append(column.label_values, number),
    )
    columns = MappingProxyType(dict(survey.stems.records.columns) | {name: edited})
    return replace(survey, stems=Stems(replace(survey.stems.records, columns=columns), survey.stems.visit_row))


def test_plot_checked_alone_gives_the_findings_that_checking_all_gives(workup):
    for visit_row in range(len(workup.survey.visits)):
        again = check_plots(workup, workup.survey, np.array([visit_row]))
        assert len(again) == len(workup.findings)
        before, after = told(workup.findings, visit_row), told(again, visit_row)
        assert before.keys() == after.keys()
        for name, (_, wrong) in before.items():
            assert after[name][1] == (None if wrong is None else pytest.approx(wrong, abs=0.01))


def test_value_that_was_meant_ends_the_doubt_and_leaves_all_other_plots_alone(workup):
    doubts = [
        finding
        for finding in workup.findings
        if finding.check == "mistyped" and finding.proposes_number and finding.evidence["probability_wrong"] > 0.95
    ]
    finding = next(each for each in doubts if each.field)
    best = finding.proposals[0]
    edited = with_value(workup.survey, finding.stem_row, best["field"], f"{best['value']:g}", best["value"])
    again = check_plots(workup, edited, np.array([finding.visit_row]))
    assert finding.id not in told(again, finding.visit_row)
    part = set(part_of(edited, np.array([finding.visit_row])).visits.tolist())
    for visit_row in set(range(-1, len(workup.survey.visits))) - part:
        assert told(again, visit_row) == told(workup.findings, visit_row)


def test_part_keeps_all_visits_of_its_plots_and_only_their_texts(workup):
    survey = workup.survey
    part = part_of(survey, np.array([len(survey.visits) - 1]))
    visits = part.survey.visits
    assert set(visits.plot) == {survey.visits.plot[-1]}
    assert list(visits.plot) == list(survey.visits.plot[part.visits])
    assert list(part.survey.stems.texts("azimuth")) == list(survey.stems.texts("azimuth")[part.stems])
    assert len(part.survey.stems.records.columns["azimuth"].labels) <= len(part.stems)
    assert np.array_equal(visits.numbers("radius_m"), survey.visits.numbers("radius_m")[part.visits], equal_nan=True)
