"""The one state of the window."""

import numpy as np
import pytest

from stemmap.desktop.session import WHOLE_SURVEY, Session, prepare
from stemmap.errors import InputError
from stemmap.tasks.workup import work_up


@pytest.fixture
def told(session):
    """Names of the signals that the session sends, in order."""
    names = []
    for name in ("replaced", "visit_selected", "stem_selected", "finding_selected", "settings_edited"):
        getattr(session, name).connect(lambda name=name: names.append(name))
    return names


def test_counts_agree_with_the_findings(sample):
    opened = prepare(sample)
    told = list(sample.findings)
    for severity, counts in (("error", opened.errors), ("warning", opened.warnings), ("note", opened.notes)):
        rows = np.array([finding.visit_row for finding in told if finding.severity == severity], int)
        assert counts.tolist() == [int((rows == row).sum()) for row in [*range(len(counts) - 1), WHOLE_SURVEY]]


def test_very_many_findings_are_told_in_part(qapp, monkeypatch, sample):
    monkeypatch.setattr("stemmap.desktop.session.MOST_TOLD", 2)
    opened = prepare(sample)
    for row in range(WHOLE_SURVEY, len(sample.survey.visits)):
        assert [told.id for told in opened.findings(row)] == [told.id for told in sample.findings.of_visit(row)[:2]]
        assert opened.count(row) == len(sample.findings.of_visit(row))


def test_opening_selects_the_first_plot_with_something_to_look_at(session):
    doubtful = session.opened.errors + session.opened.warnings
    assert doubtful[session.visit]
    assert not doubtful[: session.visit].any()


def test_selecting_a_stem_brings_its_plot_and_finding(session, told):
    chosen = next(finding for finding in session.workup.findings if finding.stem_row >= 0 and finding.visit_row > 5)
    session.select_stem(chosen.stem_row)
    assert session.visit == chosen.visit_row
    assert session.selected_finding.stem_row == chosen.stem_row
    assert told == ["visit_selected", "stem_selected", "finding_selected"]


def test_selecting_a_finding_brings_its_stem(session):
    place = next(place for place, finding in enumerate(session.findings) if finding.stem_row >= 0)
    session.select_finding(place)
    assert session.stem == session.findings[place].stem_row


def test_selecting_again_tells_nothing(session, told):
    session.select_visit(session.visit)
    session.select_stem(session.stem)
    session.select_finding(session.finding)
    assert told == []


def test_another_plot_clears_stem_and_finding(session):
    session.select_finding(0)
    session.step_visit(1)
    assert (session.stem, session.finding) == (-1, -1)


def test_plots_end_at_the_whole_survey_and_at_the_last_visit(session):
    session.select_visit(0)
    session.step_visit(-1)
    session.step_visit(-1)
    assert session.visit == WHOLE_SURVEY
    last = len(session.workup.survey.visits) - 1
    session.select_visit(last)
    session.step_visit(1)
    assert session.visit == last


def test_next_finding_goes_through_every_error_and_warning_once(session):
    wanted = [finding.id for finding in session.workup.findings if finding.severity != "note"]
    session.select_visit(WHOLE_SURVEY)
    seen = []
    while session.step_finding(1):
        seen.append(session.selected_finding.id)
    assert seen == wanted
    back = [session.selected_finding.id]
    while session.step_finding(-1):
        back.append(session.selected_finding.id)
    assert back == wanted[::-1]


def test_other_settings_keep_the_selection(session):
    place = next(place for place, finding in enumerate(session.findings) if finding.stem_row >= 0)
    session.select_finding(place)
    before = (session.visit, session.stem, session.selected_finding.id)
    settings = session.settings.having("errors.azimuth_sd_deg", 2.0)
    session.update(prepare(work_up(session.workup.survey.under(settings))))
    assert (session.visit, session.stem, session.selected_finding.id) == before


def test_refused_setting_changes_nothing(session, told):
    before = session.settings
    with pytest.raises(InputError, match="radius_m"):
        session.edit("design.radius_m", -1.0)
    assert session.settings is before
    assert told == []


def test_settings_that_could_not_be_computed_are_given_up(session):
    shown = session.settings
    session.edit("measurement.azimuth_unit", "gon")
    session.keep_settings()
    assert session.settings is shown


def test_empty_session_ignores_selection(qapp):
    empty = Session()
    empty.select_visit(3)
    empty.select_stem(3)
    assert not empty.step_finding(1)
    assert (empty.visit, empty.stem) == (WHOLE_SURVEY, -1)
