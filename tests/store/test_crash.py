"""Kills, torn copies and many at once: what was acknowledged is there."""

import subprocess
from itertools import pairwise

from stemmap.store.decisions import Request, decide, entries
from stemmap.store.pages import PAGE_SIZE
from stemmap.store.repair import readable
from stemmap.store.survey_file import opened
from tests.store.crash import STEMMAP, Decider, is_sound, kill_at_random, lost, make_survey


def test_fifty_kills_lose_nothing_that_was_acknowledged(tmp_path):
    survey, findings = make_survey(tmp_path)
    told = kill_at_random(survey, findings, 50)
    assert told["acknowledged"] >= 40
    assert (told["lost"], told["damaged"]) == (0, 0)


def torn(before: bytes, after: bytes):
    """The file as it is after each page that a commit writes: SQLite writes them in the order of their numbers."""
    pages = [
        page
        for page in range(len(after) // PAGE_SIZE)
        if before[page * PAGE_SIZE : (page + 1) * PAGE_SIZE] != after[page * PAGE_SIZE : (page + 1) * PAGE_SIZE]
    ]
    content = bytearray(before)
    for page in pages[:-1]:
        content += bytes(max(page * PAGE_SIZE - len(content), 0))
        content[page * PAGE_SIZE : (page + 1) * PAGE_SIZE] = after[page * PAGE_SIZE : (page + 1) * PAGE_SIZE]
        yield bytes(content)


def test_a_copy_taken_in_the_middle_of_a_commit_holds_every_decision_before_it(tmp_path):
    survey, findings = make_survey(tmp_path)
    states = [survey.read_bytes()]
    with opened(survey, write=True) as survey_file:
        for number in range(120):
            decide(survey_file, Request(findings[number % len(findings)], "keep", f"reason {number}", "Ida"))
            states.append(survey.read_bytes())
    copy = tmp_path / "copy.gpkg"
    mended = []
    for held, (before, after) in enumerate(pairwise(states)):
        for content in torn(before, after):
            copy.write_bytes(content)
            with readable(copy, mended.append) as survey_file:
                assert len(entries(survey_file)) >= held
    assert mended
    assert "damaged" in mended[0]


def test_several_at_once_lose_nothing_and_leave_no_gap(tmp_path):
    survey, findings = make_survey(tmp_path)
    deciders = [Decider(survey, findings, 1000 * number) for number in range(4)]
    for decider in deciders:
        decider.feed(60)
    for decider in deciders:
        decider.end()
        assert decider.process.returncode == 0
        assert not decider.said
        assert not lost(survey, decider.answered)
    with opened(survey) as survey_file:
        assert [entry.entry for entry in entries(survey_file)] == list(range(1, 241))
    assert is_sound(survey)


def test_a_decision_is_answered_by_a_sentence_where_the_disk_is_full(tmp_path):
    """A limit on the size of files stands for the full disk."""
    survey, findings = make_survey(tmp_path)
    limit = survey.stat().st_size // 1024
    with opened(survey) as survey_file:
        before = entries(survey_file)
    line = f"{findings[0]} keep {'long ' * 4000}\n"
    command = ["bash", "-c", f'ulimit -f {limit}; exec "$@"', "-", *STEMMAP, "decide", str(survey), "-", "--who", "Ida"]
    done = subprocess.run(command, input=line, capture_output=True, text=True, check=False)
    assert "Traceback" not in done.stderr
    assert done.stdout.startswith("error ") or done.returncode
    with opened(survey) as survey_file:
        assert entries(survey_file) == before
