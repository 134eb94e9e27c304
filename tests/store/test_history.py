"""Undoing everything gives the survey before; as of an entry it is what a replay up to there gives."""

import shutil

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stemmap.errors import InputError
from stemmap.store.decisions import Request, decide, entries, turn
from stemmap.store.survey_file import opened
from stemmap.tasks.stored import load_path
from tests.store.crash import make_survey

STEPS = st.lists(
    st.tuples(
        st.integers(0, 3),
        st.sampled_from(
            ("correct", "keep", "recheck", "value=4.25", "value=7", "undo", "redo", "undo one", "redo one")
        ),
    ),
    max_size=12,
)


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    return make_survey(tmp_path_factory.mktemp("made"))


def state(survey):
    """What holds now, or as of an entry for (file, entry): all distances, and the decisions without their times."""
    held = load_path(*survey) if isinstance(survey, tuple) else load_path(survey)
    standing = {
        finding: (entry.decision, entry.new, entry.changes) for finding, entry in held.decisions.standing.items()
    }
    return np.array(held.stems.numbers("distance_m")).tolist(), standing


def take(survey_file, findings, step):
    """Take one step; one that is refused changes nothing."""
    number, what = step
    try:
        if what.startswith(("undo", "redo")):
            entry = number + 1 if what.endswith("one") else None
            turn(survey_file, what[:4], entry, who="Ida")
        else:
            decide(survey_file, Request(findings[number % len(findings)], what, "", "Ida"))
    except InputError:
        pass


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(steps=STEPS)
def test_as_of_is_a_replay_and_undoing_all_gives_the_state_before(made, tmp_path, steps):
    pristine, findings = made
    survey = tmp_path / "survey.gpkg"
    shutil.copy(pristine, survey)
    states = [state(survey)]
    with opened(survey, write=True) as survey_file:
        for step in steps:
            before = len(entries(survey_file))
            take(survey_file, findings, step)
            if len(entries(survey_file)) > before:
                states.append(state(survey))
        for number, was in enumerate(states):
            assert state((survey, str(number))) == was
        while True:
            try:
                turn(survey_file, "undo", who="Ida")
            except InputError:
                break
    assert state(survey) == states[0]
