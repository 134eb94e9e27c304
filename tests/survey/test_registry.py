"""Checks are entered once, with their reasons; one that crashes stops no other."""

import numpy as np
import pytest

from stemmap import checks
from stemmap.errors import Cancelled
from stemmap.progress import Progress
from stemmap.survey import registry
from stemmap.survey.measured import measure
from stemmap.survey.records import Remark, Upload
from stemmap.survey.registry import Case, catalogue, check, declare, run_checks
from stemmap.survey.settings import Settings
from stemmap.survey.survey import assemble
from tests.uploads import records, survey

WHY = "A doubt.\n\nWhat: x.\nWhy: y.\nWhat to do: z.\n"


@pytest.fixture
def alone(monkeypatch):
    """A registry with no check but the one for checks that crash."""
    kept = {"check-failed": catalogue()["check-failed"]}
    monkeypatch.setattr(registry, "_CHECKS", kept)
    return kept


def case(stems=None):
    made = survey(stems or {"plot": [1], "azimuth": [10]})
    return Case(made, measure(made))


def enter(slug, run, *, needs=()):
    declare(slug, family="typing", severity="warning", explanation=WHY, needs=needs, run=run)


# Entering


def test_docstring_of_a_check_is_its_explanation(alone):
    @check("some-doubt", family="typing", severity="note")
    def some_doubt(case):
        """A title.

        What: x.
        Why: y.
        What to do: z.
        """

    made = catalogue()["some-doubt"]
    assert made.title == "A title."
    assert made.explanation.splitlines()[2] == "What: x."
    assert made.run is some_doubt


def test_slug_is_taken_once(alone):
    enter("doubt", None)
    with pytest.raises(ValueError, match="twice"):
        enter("doubt", None)


@pytest.mark.parametrize("slug", ["", "Doubt", "a doubt", "doubt_one", "-doubt", "doubt-", "döubt", "9-lives", "a--b"])
def test_malformed_slug_is_refused(alone, slug):
    with pytest.raises(ValueError, match="lower case"):
        enter(slug, None)
    assert set(alone) == {"check-failed"}


@pytest.mark.parametrize("explanation", ["", "A doubt.", "A doubt.\n\n"])
def test_missing_explanation_is_refused(alone, explanation):
    with pytest.raises(ValueError, match="explain"):
        declare("doubt", family="typing", severity="note", explanation=explanation)


@pytest.mark.parametrize(("family", "severity"), [("guess", "note"), ("typing", "fatal")])
def test_unknown_family_or_severity_is_refused(alone, family, severity):
    with pytest.raises(ValueError, match="family or severity"):
        declare("doubt", family=family, severity=severity, explanation=WHY)


def test_catalogue_is_sorted_and_cannot_be_changed():
    checks.load()
    slugs = list(catalogue())
    assert slugs == sorted(slugs)
    with pytest.raises(TypeError):
        catalogue()["new"] = None  # type: ignore[index]


# Running


def test_check_runs_only_where_its_columns_are(alone):
    ran = []
    enter("one", lambda case: ran.append("one") or [], needs=("azimuth",))
    enter("two", lambda case: ran.append("two") or [], needs=("azimuth", "height_m"))
    run_checks(case())
    assert ran == ["one"]


@pytest.mark.parametrize(
    "fault", [ValueError("odd"), KeyError("gone"), ZeroDivisionError(), AssertionError(), OSError()]
)
def test_crashing_check_becomes_a_note_and_the_others_go_on(alone, fault):
    def crash(case):
        yield case.about_stems(np.array([0]), "half done", field="azimuth")
        raise fault

    enter("a-crashing", crash)
    enter("b-sound", lambda case: [case.about_stems(np.array([0]), "sound", field="azimuth")])
    told = list(run_checks(case()))
    assert [(finding.check, finding.severity) for finding in told] == [("check-failed", "note"), ("b-sound", "warning")]
    assert "a-crashing" in told[0].message
    assert type(fault).__name__ in told[0].message


def test_two_crashing_checks_have_two_ids(alone):
    def crash(case):
        raise ValueError

    enter("a", crash)
    enter("b", crash)
    assert len({finding.id for finding in run_checks(case())}) == 2


@pytest.mark.parametrize("stop", [Cancelled("stop"), MemoryError()])
def test_what_is_no_fault_of_the_check_is_passed_on(alone, stop):
    def halt(case):
        raise stop

    enter("halting", halt)
    with pytest.raises(type(stop)):
        run_checks(case())


def test_progress_names_each_check_and_can_stop(alone):
    enter("one", lambda case: [])
    sentences = []
    run_checks(case(), Progress(lambda sentence, share: sentences.append((sentence, share))))
    assert sentences == [("A doubt.", 0.0)]
    progress = Progress()
    progress.stop.set()
    with pytest.raises(Cancelled):
        run_checks(case(), progress)


def test_empty_batches_are_dropped(alone):
    enter("one", lambda case: [case.about_stems(np.zeros(0, np.int64), "none")])
    assert run_checks(case()).batches == ()


def test_remarks_of_reading_become_import_findings(alone):
    declare("file-odd", family="import", severity="warning", explanation=WHY)
    remarks = (
        Remark("file-odd", "Line 3 is {odd}.", "stems.csv", line=3, column="dbh", text="{x}"),
        Remark("file-odd", "So is the file.", "plots.csv"),
        Remark("file-odd", "And again.", "plots.csv"),
    )
    upload = Upload(records("plots", {}), records("stems", {}), records("stations", {}), remarks=remarks)
    made = assemble(upload, Settings())
    told = list(run_checks(Case(made, measure(made))))
    assert [finding.message for finding in told] == ["Line 3 is {odd}.", "So is the file.", "And again."]
    assert told[0].evidence | {"sentence": ""} == {
        "file": "stems.csv",
        "line": 3,
        "column": "dbh",
        "text": "{x}",
        "sentence": "",
    }
    assert [finding.id for finding in told] == [
        "file/stems.csv/3/dbh/file-odd/-",
        "file/plots.csv/-/-/file-odd/-",
        "file/plots.csv/-/-/file-odd/-~2",
    ]
    assert {finding.plot for finding in told} == {None}


def test_empty_survey_passes_all_checks():
    made = survey()
    checks.load()
    told = list(run_checks(Case(made, measure(made))))
    assert {finding.check for finding in told} == {"settings-assumed"}
