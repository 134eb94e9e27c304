"""What a script meets at night: outputs that are inputs, full disks, streams that are closed or not read to the end."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from stemmap.assets import sample_data
from stemmap.cli import main
from stemmap.errors import OutputError
from stemmap.tasks.survey_file import add_uploads

FILES = [str(sample_data("survey") / name) for name in ("plots.csv", "stems.csv", "settings.toml")]
FULL = Path("/dev/full")

full_device = pytest.mark.skipif(not FULL.exists(), reason="the device that is always full is one of Linux")
posix = pytest.mark.skipif(os.name != "posix", reason="closed and broken streams of POSIX shells")


@pytest.fixture(scope="module")
def survey_path(tmp_path_factory):
    path = tmp_path_factory.mktemp("survey") / "wood.gpkg"
    add_uploads(path, list(map(Path, FILES)), who="Ida")
    return path


@pytest.fixture
def run(monkeypatch, tmp_path, capsys, survey_path):
    def run(*arguments: str) -> tuple[int, str, str]:
        monkeypatch.setattr("sys.argv", ["stemmap", *arguments])
        code = main(lambda *_, **__: 0)
        return code, *capsys.readouterr()

    monkeypatch.chdir(tmp_path)
    shutil.copy(survey_path, "wood.gpkg")
    return run


def _shell(line: str, folder: Path) -> subprocess.CompletedProcess[str]:
    python = f"{sys.executable} -m stemmap"
    environment = {**os.environ, "PYTHONPATH": str(Path(__file__).parents[2])}
    return subprocess.run(
        ["bash", "-c", f"set -o pipefail; {line.replace('stemmap', python)}"],
        cwd=folder,
        env=environment,
        capture_output=True,
        text=True,
        check=False,
        timeout=100,
    )


# outputs that are inputs


@pytest.mark.parametrize("verb", ["check", "summary", "export", "recheck", "structure", "journal", "remeasured"])
def test_no_result_is_written_over_a_survey_file(run, tmp_path, verb):
    before = (tmp_path / "wood.gpkg").read_bytes()
    code, out, err = run(verb, "wood.gpkg", "-o", "wood.gpkg")
    assert (code, out) == (3, "")
    assert err == (
        "stemmap: wood.gpkg is a survey file, with records and decisions in it; a result is never written over one. "
        "Choose another name.\n"
    )
    assert (tmp_path / "wood.gpkg").read_bytes() == before


def test_no_result_of_uploads_is_written_over_another_survey_file(run, tmp_path):
    before = (tmp_path / "wood.gpkg").read_bytes()
    assert run("export", *FILES, "-o", "wood.gpkg")[0] == 3
    assert (tmp_path / "wood.gpkg").read_bytes() == before


@pytest.mark.parametrize("verb", ["check", "summary", "export", "recheck", "structure"])
def test_no_result_is_written_over_the_upload_it_is_made_from(run, tmp_path, verb):
    for name in FILES:
        (tmp_path / Path(name).name).write_bytes(Path(name).read_bytes())
    (tmp_path / "link.csv").symlink_to("stems.csv")
    before = (tmp_path / "stems.csv").read_bytes()
    for output in ("stems.csv", "link.csv", "settings.toml"):
        if verb == "export" and output.endswith(".toml"):
            continue
        code, _, err = run(verb, "plots.csv", "stems.csv", "--settings", "settings.toml", "-o", output)
        assert code == 3
        assert err == f"stemmap: {output} is what the result is made from, and stays as it is. Choose another name.\n"
    assert (tmp_path / "stems.csv").read_bytes() == before


# outputs that take nothing


@full_device
@pytest.mark.parametrize("line", ["check wood.gpkg --format json", "journal wood.gpkg", "checks", "summary wood.gpkg"])
def test_a_full_disk_behind_standard_output_is_told_in_a_sentence(run, tmp_path, line):
    done = _shell(f"stemmap {line} > /dev/full", tmp_path)
    assert done.returncode == 3
    assert done.stderr == "stemmap: The output cannot be written: No space left on device.\n"


@posix
@pytest.mark.parametrize("line", ["check wood.gpkg --format json", "checks"])
def test_a_reader_that_stops_early_does_not_look_like_findings(run, tmp_path, line):
    done = _shell(f"stemmap {line} | head -n 1", tmp_path)
    assert (done.returncode, done.stderr) == (0, "")


@posix
def test_findings_are_still_told_to_who_reads_one_line(run, tmp_path):
    done = _shell("stemmap check wood.gpkg --fail-on error | head -n 1", tmp_path)
    assert (done.returncode, done.stderr) == (1, "")


@posix
def test_decisions_whose_answers_nobody_reads_are_stopped(run, tmp_path):
    lines = "\\n".join(["1/2021/1/none/azimuth keep"] * 20)
    done = _shell(f"(printf '{lines}\\n'; sleep 1; printf '{lines}\\n') | stemmap decide wood.gpkg - | true", tmp_path)
    assert done.returncode == 3
    assert done.stderr == ""


@posix
@pytest.mark.parametrize("line", ["decide wood.gpkg - <&-", "journal wood.gpkg >&-", "check wood.gpkg >/dev/null 2>&-"])
def test_closed_streams_are_as_good_as_empty_ones(run, tmp_path, line):
    done = _shell(f"stemmap {line}", tmp_path)
    assert (done.returncode, done.stderr) == (0, "")


# survey files under wrong names


def test_the_name_of_a_new_survey_file_ends_in_gpkg(run, tmp_path):
    code, _, err = run("add", "wood", *FILES)
    assert code == 2
    assert err == "stemmap: wood cannot be a survey file: its name must end in .gpkg. Nothing was made.\n"
    assert not (tmp_path / "wood").exists()


def test_a_survey_file_is_no_upload_for_another_one(run, tmp_path):
    before = (tmp_path / "wood.gpkg").read_bytes()
    for into in ("new.gpkg", "wood.gpkg"):
        code, _, err = run("add", into, "wood.gpkg", "--replace")
        assert code == 2
        assert err == "stemmap: wood.gpkg is a survey file, no upload; add the files that it was made of instead.\n"
    assert not (tmp_path / "new.gpkg").exists()
    assert (tmp_path / "wood.gpkg").read_bytes() == before


def test_a_survey_file_that_was_made_in_vain_is_removed(run, tmp_path, monkeypatch):
    def full(*_arguments, **_options):
        raise OutputError("The disk is full.")

    before = sorted(path.name for path in tmp_path.iterdir())
    monkeypatch.setattr("stemmap.tasks.survey_file.make_layers", full)
    assert run("add", "new.gpkg", *FILES)[0] == 3
    assert sorted(path.name for path in tmp_path.iterdir()) == before


def test_adding_tells_how_much_was_read(run):
    _, _, err = run("add", "new.gpkg", *FILES)
    assert re.fullmatch(r"new\.gpkg holds the upload now; stems: \d{3,}, visits of plots: 48\.\n", err)


def test_a_repaired_survey_file_ends_in_gpkg_too(run, tmp_path):
    code, _, err = run("repair", "wood.gpkg", "-o", "whole")
    assert (code, (tmp_path / "whole").exists()) == (2, False)
    assert "its name must end in .gpkg" in err
    shutil.copy(tmp_path / "wood.gpkg", tmp_path / "wood.bak")
    assert run("repair", "wood.bak")[0] == 0
    assert (tmp_path / "wood-repaired.gpkg").exists()


def test_a_survey_file_is_no_table_that_a_crew_filled_in(run, tmp_path):
    before = (tmp_path / "wood.gpkg").read_bytes()
    code, _, err = run("remeasured", "wood.gpkg", "wood.gpkg")
    assert code == 2
    assert "wood.gpkg is a survey file" in err
    assert (tmp_path / "wood.gpkg").read_bytes() == before


# what cannot be


@pytest.mark.parametrize("verb", [["recheck", "wood.gpkg"], ["packet", "wood.gpkg", "--recheck", "-o", "packet"]])
def test_a_seed_below_zero_is_no_seed(run, verb):
    code, out, err = run(*verb, "--seed", "-1")
    assert (code, out) == (2, "")
    assert "--seed" in err


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="a device of Linux")
@pytest.mark.parametrize(
    "line",
    [
        ["check", "wood.gpkg", "--settings", "/dev/zero"],
        ["check", "/dev/zero"],
        ["remeasured", "wood.gpkg", "/dev/zero"],
        ["add", "wood.gpkg", "/dev/zero"],
    ],
)
def test_a_device_without_an_end_is_not_read(run, line):
    code, out, err = run(*line)
    assert (code, out) == (2, "")
    assert "zero is no ordinary file" in err


def test_a_folder_is_named_where_it_has_no_name_of_its_own(run):
    assert run("check", ".")[2] == "stemmap: . is a folder; give the files in it.\n"
