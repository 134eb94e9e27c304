"""Every check fires where it should and is silent where it should be; the cases are data, one file a check.

A case holds columns of stems, plots, stations and rows brought back as typed, settings, and for `fires` the sentence
(or `messages`) and whatever else of the finding is to be held. `times` repeats the stems.
"""

import json
import re
import tomllib
from pathlib import Path

import pytest

from stemmap import checks
from stemmap.survey.fields import FIELDS
from stemmap.survey.registry import catalogue
from tests.uploads import findings, survey

CASES = Path(__file__).parent / "cases"
checks.load()
#: Reading brings checks of its own, which are tested with it.
RUNNING = {
    slug: made
    for slug, made in catalogue().items()
    if made.run is not None and made.run.__module__.startswith("stemmap.checks.")
}


def cases(kind):
    return [
        pytest.param(file.stem, case, id=f"{file.stem}: {case['title']}")
        for file in sorted(CASES.glob("*.toml"))
        for case in tomllib.loads(file.read_text("utf-8"))[kind]
    ]


def findings_of(slug, case):
    stems = {name: cells * case.get("times", 1) for name, cells in case.get("stems", {}).items()}
    tables = [case.get(name) for name in ("plots", "stations", "settings", "returned")]
    told = list(findings(survey(stems, *tables, blind=case.get("blind", False))))
    assert [finding.message for finding in told if finding.check == "check-failed"] == []
    return [finding for finding in told if finding.check == slug]


def test_every_check_has_its_cases():
    assert {file.stem for file in CASES.glob("*.toml")} == set(RUNNING)
    for file in CASES.glob("*.toml"):
        kinds = tomllib.loads(file.read_text("utf-8"))
        assert set(kinds) == {"fires", "silent"}, file.stem
        assert all(kinds.values()), file.stem


@pytest.mark.parametrize(("slug", "case"), cases("fires"))
def test_check_fires(slug, case):
    told = findings_of(slug, case)
    assert [finding.message for finding in told] == case.get("messages", [case.get("message")])
    first = told[0]
    for name in ("field", "severity", "plot", "visit"):
        if name in case:
            assert getattr(first, name) == case[name], name
    assert first.family == RUNNING[slug].family
    assert first.evidence | case.get("evidence", {}) == first.evidence
    json.dumps([finding.as_json() for finding in told], allow_nan=False)


@pytest.mark.parametrize(("slug", "case"), cases("silent"))
def test_check_is_silent(slug, case):
    assert [finding.message for finding in findings_of(slug, case)] == []


# The catalogue


@pytest.mark.parametrize("slug", list(RUNNING))
def test_check_explains_what_why_and_what_to_do(slug):
    lines = RUNNING[slug].explanation.splitlines()
    assert lines[0].endswith(".")
    assert lines[1] == ""
    starts = [line.partition(":")[0] for line in lines if re.match(r"(What|Why|What to do|Source):", line)]
    assert starts[:3] == ["What", "Why", "What to do"]


@pytest.mark.parametrize("slug", list(RUNNING))
def test_check_stands_in_a_file_of_its_own(slug):
    run = RUNNING[slug].run
    assert [other for other, made in RUNNING.items() if made.run.__module__ == run.__module__] == [slug]
    assert run.__name__ == slug.replace("-", "_")


def test_every_field_that_a_check_needs_is_one():
    assert {name for made in RUNNING.values() for name in made.needs} <= set(FIELDS)
