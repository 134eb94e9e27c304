"""Nothing acknowledged is lost by a kill, a failing disk or many writers at once."""

import shutil
import sqlite3
import subprocess
import sys

import pytest

from stemmap.store.decisions import Request, decide, entries
from stemmap.store.pages import PAGE_SIZE
from stemmap.store.repair import readable
from stemmap.store.survey_file import opened
from stemmap.tasks.survey_file import refresh_layers
from tests.store.crash import kill_at_random, make_survey
from tests.store.failing import FailingDisk, make_ground
from tests.store.validity import faults


@pytest.fixture
def made(tmp_path):
    return make_survey(tmp_path)


def test_a_survey_file_is_a_valid_geopackage(made):
    assert not faults(made[0])


def test_a_table_that_is_not_listed_is_a_fault(made):
    with sqlite3.connect(made[0]) as connection:
        connection.execute("CREATE TABLE stray (id INTEGER)")
    assert faults(made[0]) == ["stray is not listed"]


@pytest.mark.skipif(sys.platform == "win32", reason="needs signals and pipes as on Unix")
def test_kills_lose_nothing_that_was_acknowledged(tmp_path):
    told = kill_at_random(tmp_path, 50, seed=4)
    assert (told["kills"], told["lost"], told["lost_in_copy"], told["invalid"]) == (50, 0, 0, 0)
    assert told["acknowledged"] > 25


def torn_copies(before, after):
    """What a copy taken between two page writes of a commit can be: SQLite writes changed pages in ascending order."""
    content = bytearray(before)
    for start in range(0, len(after), PAGE_SIZE):
        page = after[start : start + PAGE_SIZE]
        if content[start : start + PAGE_SIZE] != page:
            # What lies between the old end and a page further on is a hole until it is written.
            content.extend(bytes(max(0, start - len(content))))
            content[start : start + PAGE_SIZE] = page
            yield bytes(content)


def test_a_copy_taken_between_any_two_page_writes_holds_all_acknowledged_decisions(made, tmp_path):
    survey, findings = made
    copy = tmp_path / "copy.gpkg"
    copies = 0
    with opened(survey, write=True) as survey_file:
        for number in range(1, 131):
            before = survey.read_bytes()
            why = "long " * 1500 if number % 40 == 7 else f"reason {number}"
            decide(survey_file, Request(findings[number % len(findings)], "keep", why, "Ida"))
            for content in torn_copies(before, survey.read_bytes()):
                copy.write_bytes(content)
                with readable(copy, lambda _: None) as held:
                    assert [each.entry for each in entries(held)] in (
                        list(range(1, number)),
                        list(range(1, number + 1)),
                    )
                copies += 1
    assert copies > 260


def test_a_copy_taken_while_layers_are_made_anew_holds_all_decisions(made, tmp_path):
    survey, findings = made
    copy = tmp_path / "copy.gpkg"
    with opened(survey, write=True) as survey_file:
        for number in range(30):
            decide(survey_file, Request(findings[number % len(findings)], "keep", "", "Ida"))
    before = survey.read_bytes()
    refresh_layers(survey)
    for content in torn_copies(before, survey.read_bytes()):
        copy.write_bytes(content)
        with readable(copy, lambda _: None) as held:
            assert len(entries(held)) == 30


def test_decisions_of_several_processes_are_all_there(made):
    survey, findings = made
    lines = "".join(f"{findings[number % len(findings)]} keep reason {number}\n" for number in range(60))
    command = [sys.executable, "-m", "stemmap", "decide", survey, "-", "--who", "Ida"]
    piped = {"stdin": subprocess.PIPE, "stdout": subprocess.PIPE, "stderr": subprocess.PIPE, "text": True}
    running = [subprocess.Popen(command, **piped) for _ in range(4)]
    for each in running:
        each.stdin.write(lines)
        each.stdin.close()
        each.stdin = None
    said = [each.communicate() for each in running]
    assert [(each.returncode, errors) for each, (_, errors) in zip(running, said, strict=True)] == [(0, "")] * 4
    numbers = sorted(int(line.split()[1]) for out, _ in said for line in out.splitlines())
    assert numbers == list(range(1, 4 * 60 + 1))
    with opened(survey) as survey_file:
        assert [entry.entry for entry in entries(survey_file)] == numbers


def can_trace():
    strace = shutil.which("strace")
    return strace and subprocess.run([strace, "-f", "true"], check=False, capture_output=True).returncode == 0


@pytest.mark.skipif(not can_trace(), reason="needs strace and the right to use it")
@pytest.mark.parametrize("verb", ["decide", "add", "settings", "repair"])
def test_a_failing_call_is_told_and_loses_nothing(tmp_path, verb):
    """A few of the calls; `python -m tests.store.failing` lets each of them fail, for more verbs."""
    ground = tmp_path / "ground"
    ground.mkdir()
    made = make_ground(ground)[verb]
    for calls, error, when in [("pwrite64", "ENOSPC", 9), ("fdatasync", "EIO", 1), ("unlink", "EIO", 1)]:
        with FailingDisk(ground, tmp_path / "run", made, (calls, error)) as disk:
            outcome = disk.run(when)
        assert outcome.hit
        assert not outcome.wrong, outcome.said


LAYERS = ("plots", "plot_centres", "stems", "findings")


def layers_of(survey):
    with sqlite3.connect(survey) as connection:
        return {
            name: sorted(row[1:] for row in connection.execute(f"SELECT * FROM {name}"))
            if name != "findings"
            else sorted(connection.execute("SELECT id, geom, message, open, decision FROM findings").fetchall())
            for name in LAYERS
        }


@pytest.mark.parametrize("decisions", [["keep"], ["recheck"], ["recheck", "keep", "keep"], ["keep", "recheck"]])
def test_layers_that_are_only_marked_are_those_made_anew(made, decisions):
    survey, findings = made
    with opened(survey, write=True) as survey_file:
        for number, decision in enumerate(decisions * 2):
            decide(survey_file, Request(findings[number % 2], decision, "", "Ida"))
    refresh_layers(survey)
    marked = layers_of(survey)
    with sqlite3.connect(survey) as connection:
        connection.execute("UPDATE survey_file SET layers_at = NULL")
    refresh_layers(survey)
    assert marked == layers_of(survey)


def test_a_layer_that_another_program_changed_is_kept_beside(made):
    import pyogrio

    survey, findings = made
    frame = pyogrio.read_dataframe(survey, layer="findings")
    frame.loc[0, "message"] = "my own words"
    pyogrio.write_dataframe(frame, survey, layer="findings")
    with opened(survey, write=True) as survey_file:
        decide(survey_file, Request(findings[0], "keep", "", "Ida"))
    assert refresh_layers(survey).kept == ["findings_edited_1"]
    assert pyogrio.read_dataframe(survey, layer="findings_edited_1").message[0] == "my own words"
    assert "my own words" not in set(pyogrio.read_dataframe(survey, layer="findings").message)
    assert not faults(survey)
    with opened(survey, write=True) as survey_file:
        decide(survey_file, Request(findings[0], "recheck", "", "Ida"))
    assert not refresh_layers(survey).kept
