"""Who is writing is known to those who wait, and a note left behind by a killed process is known for one."""

import os
import signal
import subprocess
import sys
import time

import pytest

from stemmap.store.survey_file import Busy, opened
from stemmap.store.writer import note_of, noted, writer_of
from tests.store.crash import make_survey

HOLDER = """
import sys, time
from pathlib import Path
from stemmap.store.survey_file import opened
with opened(Path(sys.argv[1]), write=True) as survey_file, survey_file.writing("Bo"):
    print("holds", flush=True)
    time.sleep(60)
"""


@pytest.fixture
def survey_path(tmp_path):
    return make_survey(tmp_path)[0]


@pytest.fixture
def holder(survey_path):
    """Another process that writes into the survey file and does not come to an end."""
    process = subprocess.Popen([sys.executable, "-c", HOLDER, str(survey_path)], stdout=subprocess.PIPE, text=True)
    assert process.stdout.readline() == "holds\n"
    yield process
    process.kill()
    process.wait()
    process.stdout.close()


def test_whoever_waits_is_told_who_writes(survey_path, holder):
    began = time.monotonic()
    with (
        pytest.raises(Busy, match=rf"Bo on \S+ \(process {holder.pid}\) has been writing into it since \d\d:\d\d"),
        opened(survey_path, write=True, wait_s=0.05) as survey_file,
        survey_file.writing("Ida"),
    ):
        pass
    assert time.monotonic() - began < 2.0
    assert writer_of(survey_path).who == "Bo"


def test_a_killed_writer_blocks_nobody_and_is_named_no_more(survey_path, holder):
    os.kill(holder.pid, signal.SIGKILL)
    holder.wait()
    assert note_of(survey_path).exists()
    assert writer_of(survey_path) is None
    with opened(survey_path, write=True, wait_s=0.05) as survey_file, survey_file.writing("Ida"):
        assert writer_of(survey_path).who == "Ida"
    assert not note_of(survey_path).exists()


def test_without_a_writer_there_is_no_note(survey_path):
    assert writer_of(survey_path) is None
    with opened(survey_path, write=True) as survey_file, survey_file.writing():
        assert writer_of(survey_path).process == os.getpid()
    assert list(survey_path.parent.glob("*-writer")) == []


def test_a_note_that_says_nothing_or_cannot_be_written_is_done_without(tmp_path):
    note_of(tmp_path / "x.gpkg").write_bytes(b"{")
    assert writer_of(tmp_path / "x.gpkg") is None
    with noted(tmp_path / "none" / "x.gpkg"):
        pass
