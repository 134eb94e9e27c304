"""Several decisions at once: one entry each, all of them stored or none."""

import pytest

from stemmap.store.decisions import FindingUnknown, Request, decide, decide_all, entries, turn_all
from stemmap.store.survey_file import opened
from tests.store.crash import make_survey


@pytest.fixture
def made(tmp_path):
    return make_survey(tmp_path)


def journal(path):
    with opened(path) as survey_file:
        return [(one.entry, one.finding, one.decision, one.of) for one in entries(survey_file)]


def test_each_is_an_entry_and_those_that_do_not_fit_are_left_out(made):
    path, findings = made
    with opened(path, write=True) as survey_file:
        stored, refused = decide_all(
            survey_file,
            [
                Request(findings[0], "keep", "looked right", "Ida"),
                Request(findings[1], "correct=9", "", "Ida"),
                Request(findings[2], "recheck", "", "Ida"),
            ],
        )
    assert [one.why for one in stored] == ["looked right", ""]
    assert ["no proposal" in str(fault) for fault in refused] == [True]
    assert journal(path) == [(1, findings[0], "keep", None), (2, findings[2], "recheck", None)]


def test_with_an_unknown_finding_nothing_is_stored(made):
    path, findings = made
    with opened(path, write=True) as survey_file, pytest.raises(FindingUnknown):
        decide_all(survey_file, [Request(findings[0], "keep", "", "Ida"), Request("none", "keep", "", "Ida")])
    assert journal(path) == []


def test_undoing_many_passes_over_what_is_undone_already(made):
    path, findings = made
    with opened(path, write=True) as survey_file:
        for finding in findings[:3]:
            decide(survey_file, Request(finding, "keep", "", "Ida"))
        turn_all(survey_file, "undo", [2], who="Bo")
        turn_all(survey_file, "undo", [1, 2, 3], who="Ida")
    assert [(decision, of) for _, _, decision, of in journal(path)[3:]] == [("undo", 2), ("undo", 1), ("undo", 3)]
