"""A survey decided otherwise on some plots is what putting it together anew gives."""

from dataclasses import replace

import numpy as np
import pytest

from stemmap.assets import sample_data
from stemmap.survey.decided import Decisions
from stemmap.survey.journal import Change, Entry
from stemmap.survey.survey import assemble
from stemmap.tasks.workup import decide_again, open_uploads, work_up


@pytest.fixture(scope="module")
def workup():
    return open_uploads([sample_data("survey") / name for name in ("plots.csv", "stems.csv")])


def entry_on(workup, finding, number, decision, *, field=None, new=None):
    records = workup.survey.stems.records
    source, line = int(records.source[finding.stem_row]), int(records.line[finding.stem_row])
    changes = () if field is None else (Change(source, line, field, None, new),)
    return Entry(
        *(number, "2026-11-25T12:00:00.000Z", "Ida", finding.id, finding.plot, finding.visit, finding.stem, decision),
        *(field, None, new, "", source, line, 1, None, changes),
    )


def strikes(finding):
    return any(each["field"] == "status" for each in finding.proposals)


@pytest.fixture(scope="module")
def journal(workup):
    """Proposals taken, records kept and sent to the crew, on several plots, some of it undone."""
    doubts = [one for one in workup.findings if one.stem_row >= 0 and one.severity != "note" and not strikes(one)][:9]
    entries = []
    for number, told in enumerate(doubts, start=1):
        if told.proposals and number % 3:
            best = told.proposals[0]
            entries.append(entry_on(workup, told, number, "correct", field=best["field"], new=f"{best['value']:g}"))
        else:
            entries.append(entry_on(workup, told, number, "keep" if number % 2 else "recheck"))
    undone = [replace(entries[place], entry=10 + place, decision="undo", of=place + 1, changes=()) for place in (0, 2)]
    return (*entries, *undone)


def same(one, other):
    for name in ("azimuth", "distance_m", "dbh_cm"):
        assert list(one.survey.stems.texts(name)) == list(other.survey.stems.texts(name))
        np.testing.assert_array_equal(one.survey.stems.numbers(name), other.survey.stems.numbers(name))
    np.testing.assert_array_equal(one.survey.stems.records.line, other.survey.stems.records.line)
    for name in ("x_m", "dbh_cm", "inside", "borderline", "expected_per_ha"):
        np.testing.assert_array_equal(getattr(one.measured, name), getattr(other.measured, name))
    np.testing.assert_array_equal(one.measured.errors.var_east, other.measured.errors.var_east)
    np.testing.assert_array_equal(one.summary.stems_per_ha, other.summary.stems_per_ha)
    # What the whole survey teaches moves a little with each correction; whether something is in doubt seldom does.
    ids = [{each.id for each in made.findings} for made in (one, other)]
    assert len(ids[0] ^ ids[1]) <= 2


def told(findings, visit_row):
    return {one.id: (one.message, one.evidence.get("probability_wrong")) for one in findings.of_visit(visit_row)}


def test_a_plot_checked_alone_has_the_findings_that_checking_all_gives(workup):
    survey = workup.survey
    for visit_row in np.flatnonzero(survey.visits.stem_count):
        row = int(survey.visits.first_stem[visit_row])
        plot, visit = survey.visits.plot[visit_row], survey.visits.visit[visit_row]
        # The value that was typed, decided once more.
        change = Change(
            *(int(survey.stems.records.source[row]), int(survey.stems.records.line[row])),
            *("azimuth", None, str(survey.stems.texts("azimuth")[row])),
        )
        entry = Entry(
            *(1, "2026-11-25T12:00:00.000Z", "Ida", "-", plot, visit, None, "value", "azimuth", None, change.new, ""),
            *(change.source, change.line, 1, None, (change,)),
        )
        again = decide_again(workup, Decisions((entry,))).findings
        assert len(again) == len(workup.findings)
        before, after = told(workup.findings, visit_row), told(again, visit_row)
        assert before.keys() == after.keys()
        for name, (_, wrong) in before.items():
            assert after[name][1] == (None if wrong is None else pytest.approx(wrong, abs=0.01))


def test_a_value_that_was_meant_ends_the_doubt_and_leaves_all_other_plots_alone(workup):
    finding = next(
        one
        for one in workup.findings
        if one.check == "mistyped" and one.field and one.proposals and one.evidence["probability_wrong"] > 0.95
    )
    best = finding.proposals[0]
    entry = entry_on(workup, finding, 1, "correct", field=best["field"], new=f"{best['value']:g}")
    again = decide_again(workup, Decisions((entry,))).findings
    assert finding.id not in told(again, finding.visit_row)
    others = np.flatnonzero(workup.survey.visits.plot != finding.plot)
    for visit_row in (-1, *others):
        assert told(again, visit_row) == told(workup.findings, visit_row)


def test_step_by_step_and_back_it_is_the_survey_put_together_anew(workup, journal):
    now = workup
    for last in (*range(len(journal) + 1), *range(len(journal), -1, -2), 0):
        decisions = Decisions(journal[:last])
        now = decide_again(now, decisions)
        anew = work_up(assemble(workup.survey.upload, workup.survey.settings, decisions))
        same(now, anew)
    same(now, workup)


def test_many_plots_at_once(workup, journal):
    same(
        decide_again(workup, Decisions(journal)),
        work_up(assemble(workup.survey.upload, workup.survey.settings, Decisions(journal))),
    )


def test_a_stem_under_another_number(workup):
    told = next(one for one in workup.findings if one.stem_row >= 0)
    decisions = Decisions((entry_on(workup, told, 1, "value", field="stem", new="99"),))
    now = decide_again(workup, decisions)
    same(now, work_up(assemble(workup.survey.upload, workup.survey.settings, decisions)))
    same(decide_again(now, Decisions()), workup)


def test_a_struck_record_and_back(workup, journal):
    told = next(one for one in workup.findings if strikes(one))
    struck = entry_on(workup, told, 1, "correct", field="status", new="struck")
    now = workup
    others = [replace(each, entry=each.entry + 1, of=None if each.of is None else each.of + 1) for each in journal]
    for entries in ((struck,), (struck, *others[:3]), (struck, *others), others[:4], ()):
        decisions = Decisions(tuple(entries))
        now = decide_again(now, decisions)
        same(now, work_up(assemble(workup.survey.upload, workup.survey.settings, decisions)))
    rows = {one.id: one.stem_row for one in workup.findings}
    assert all(rows.get(one.id, one.stem_row) == one.stem_row for one in now.findings)


def test_a_stem_of_another_plot(workup):
    told = next(one for one in workup.findings if one.stem_row >= 0)
    plots = workup.survey.visits.plot
    other = next(plot for plot in plots if plot != told.plot)
    decisions = Decisions((entry_on(workup, told, 1, "value", field="plot", new=other),))
    now = decide_again(workup, decisions)
    same(now, work_up(assemble(workup.survey.upload, workup.survey.settings, decisions)))
    same(decide_again(now, Decisions()), workup)


def test_another_visit_needs_the_survey_put_together_anew(workup):
    told = next(one for one in workup.findings if one.stem_row >= 0)
    assert decide_again(workup, Decisions((entry_on(workup, told, 1, "value", field="plot", new="new"),))) is None


def test_hidden_ground_is_that_of_now_and_missed_stems_are_those_told_of_the_whole(workup):
    row = int(workup.summary.unseen.hiding[0])
    about = next(each for each in workup.findings if each.stem_row >= 0)
    records = workup.survey.stems.records
    cell = int(records.source[row]), int(records.line[row])
    entry = entry_on(workup, replace(about, stem_row=row), 1, "value", field="azimuth", new="77")
    decisions = Decisions((replace(entry, changes=(Change(*cell, "azimuth", None, "77"),)),))
    again = decide_again(workup, decisions)
    anew = work_up(assemble(workup.survey.upload, workup.survey.settings, decisions))
    seen, told, of_now = again.summary.unseen, workup.summary.unseen, anew.summary.unseen
    np.testing.assert_array_equal(seen.ground.start_deg, of_now.ground.start_deg)
    assert not np.array_equal(seen.ground.start_deg, told.ground.start_deg)
    for name in ("stems", "stems_per_ha", "basal_area_m2_per_ha"):
        assert getattr(seen, name) is getattr(told, name)
    assert again.worth.of_findings.shape == (len(again.findings),)
