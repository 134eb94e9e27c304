"""A disk that fails at one call, for each verb that writes; also run by hand over every call.

Run from the top of a checkout: python -m tests.store.failing
"""

import argparse
import itertools
import json
import os
import re
import shutil
import sqlite3
import subprocess
import sys
import tempfile
import traceback
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Self

from stemmap.cli.main import main as main_of_cli
from stemmap.errors import StemmapError
from stemmap.store.decisions import Request, decide, entries
from stemmap.store.pages import PAGE_SIZE
from stemmap.store.repair import readable
from stemmap.store.survey_file import opened
from stemmap.tasks.workup import open_uploads
from tests.store.crash import make_survey
from tests.store.validity import faults

#: Calls that store something, and how a failing disk answers them.
FAILING = (
    ("pwrite64", "ENOSPC"),
    ("pwrite64", "EIO"),
    ("fsync", "EIO"),
    ("fdatasync", "EIO"),
    ("unlink", "EIO"),
    ("ftruncate", "EIO"),
    ("openat", "EIO"),
    ("openat", "EMFILE"),
    ("rename", "EIO"),
)


@dataclass(frozen=True)
class Verb:
    """A command that writes into a survey file.

    Parameters
    ----------
    arguments
        Of the command line, run in a folder that `make_ground` filled.
    lines
        What it is told on standard input.
    written
        The file that it writes.
    """

    arguments: tuple[str, ...]
    lines: str = ""
    written: str = "survey.gpkg"


def make_ground(folder: Path) -> dict[str, Verb]:
    """Fill a folder with a survey file, further uploads, settings and a damaged file; the verbs to be tried on them."""
    survey, findings = make_survey(folder)
    rows = "".join(f"{plot};{stem};{stem * 30};{3 + stem % 4},5;{20 + stem}\n" for plot in (7, 8) for stem in range(9))
    (folder / "more.csv").write_text(f"plot;stem;azimuth;distance_m;dbh_cm\n{rows}", "utf-8")
    (folder / "others.toml").write_text('[measurement]\nazimuth_unit = "gon"\n[design]\nradius_m = 9.0\n', "utf-8")
    known = [each for each in open_uploads([survey]).findings if each.plot]
    told = next(each.id for each in known if each.field and each.stem)
    with opened(survey, write=True) as survey_file:
        for number in range(3):
            decide(survey_file, Request(findings[number], "keep", f"reason {number}", "Ida"))
    # Its layers lag: a value was changed that they do not know.
    shutil.copy(survey, folder / "lagging.gpkg")
    with opened(folder / "lagging.gpkg", write=True) as survey_file:
        decide(survey_file, Request(told, "value=4", "", "Ida"))
    content = bytearray(survey.read_bytes())
    content[PAGE_SIZE : 2 * PAGE_SIZE] = bytes(PAGE_SIZE)
    (folder / "damaged.gpkg").write_bytes(content)
    # Its layers are made anew at the end.
    words = zip([told, *findings], ("value=4", "keep", "recheck", "keep"), strict=False)
    batch = "".join(f"{finding} {word} why\n" for finding, word in words)
    who = ("--who", "Ida")
    return {
        "decide": Verb(("decide", "survey.gpkg", "-", *who), batch),
        "undo": Verb(("decide", "survey.gpkg", "undo", *who)),
        "layers": Verb(("decide", "lagging.gpkg", findings[0], "keep", *who), written="lagging.gpkg"),
        "add": Verb(("add", "survey.gpkg", "more.csv", *who)),
        "add to a new file": Verb(("add", "new.gpkg", "more.csv", "--radius", "8", *who), written="new.gpkg"),
        "settings": Verb(("add", "survey.gpkg", "stems.csv", "--settings", "others.toml", *who)),
        "repair": Verb(("repair", "damaged.gpkg", "-o", "whole.gpkg"), written="whole.gpkg"),
    }


@dataclass(frozen=True)
class Outcome:
    """What came of a run.

    Parameters
    ----------
    hit
        Whether the call that was to fail was made at all.
    code
        The exit code.
    said
        All that was printed.
    wrong
        What must not be; nothing when all is well.
    """

    hit: bool
    code: int
    said: str
    wrong: tuple[str, ...]


class FailingDisk:
    """Runs a verb again and again, each time in a fresh copy of the ground and with another call failing.

    strace counts the calls of each process by themselves and lets the one of a fixed number fail. So each run first
    makes as many such calls for nothing as bring the wanted one to that number; then one strace does for all runs, and
    each is a copy of a process that has loaded everything. Only calls on the file that is written, on its rollback
    journal and on their folder count.
    """

    def __init__(self, ground: Path, folder: Path, verb: Verb, failing: tuple[str, str], *, most: int = 50) -> None:
        self._ground, self._folder, self._verb, self._most = ground, folder, verb, most
        self._log = folder.with_name("trace")
        self._log.write_bytes(b"")
        self._calls = failing[0]
        paths = [str(folder / f"{verb.written}{end}") for end in ("", "-journal")] + [str(folder)]
        command = [
            *("strace", "-f", "--seccomp-bpf", "-y", "-o", str(self._log), "-e", f"trace={failing[0]}"),
            *(part for path in paths for part in ("-P", path)),
            *("-e", f"inject={failing[0]}:error={failing[1]}:when={most + 1}"),
            *(sys.executable, "-m", "tests.store.failing", "--serve", str(folder)),
        ]
        self._server = subprocess.Popen(
            command, cwd=_TOP, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True
        )

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self._server.communicate()

    def run(self, when: int) -> Outcome:
        """Run the verb with the call of that number failing, counted from 1 and no more than `most`."""
        assert when <= self._most
        shutil.rmtree(self._folder, ignore_errors=True)
        shutil.copytree(self._ground, self._folder)
        streams = [str(self._folder.with_name(name)) for name in ("asked", "told", "errors")]
        Path(streams[0]).write_text(self._verb.lines, "utf-8")
        before = self._log.stat().st_size
        ask = {
            "arguments": self._verb.arguments,
            "streams": streams,
            "calls": self._calls,
            "idle": self._most + 1 - when,
        }
        self._server.stdin.write(f"{json.dumps(ask)}\n")
        self._server.stdin.flush()
        code = int(self._server.stdout.readline())
        with self._log.open("rb") as log:
            log.seek(before)
            hit = b"(INJECTED)" in log.read()
        told, errors = (Path(each).read_text("utf-8") for each in streams[1:])
        run = subprocess.CompletedProcess(self._verb.arguments, code, told, errors)
        return Outcome(hit, code, told + errors, tuple(_wrong(self._ground, self._folder, self._verb, run)))


_TOP = Path(__file__).parents[2]


def serve(folder: Path) -> None:
    """Run verbs as asked on standard input, one a line, each in a copy of this process; tells their exit codes."""
    with tempfile.TemporaryDirectory() as name:
        make_ground(Path(name))  # everything is loaded by that
    for line in sys.stdin:
        ask = json.loads(line)
        pid = os.fork()
        if not pid:
            os._exit(_run_copy(folder, **ask))
        print(os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1]), flush=True)  # noqa: T201 - the answer


def _run_copy(folder: Path, arguments: list[str], streams: list[str], calls: str, idle: int) -> int:
    os.chdir(folder)
    for number, path in enumerate(streams):
        os.dup2(os.open(path, os.O_RDONLY if number == 0 else os.O_WRONLY | os.O_CREAT | os.O_TRUNC), number)
    sys.stdin, sys.stdout, sys.stderr = os.fdopen(0), os.fdopen(1, "w"), os.fdopen(2, "w")
    sys.argv = ["stemmap", *arguments]
    here = os.open(folder, os.O_RDONLY)
    # Calls that do nothing, or are refused; opening the folder was one of its kind.
    call = {
        "pwrite64": lambda: os.pwrite(here, b"", 0),
        "fsync": lambda: os.fsync(here),
        "fdatasync": lambda: os.fdatasync(here),
        "unlink": folder.unlink,
        "ftruncate": lambda: os.ftruncate(here, 0),
        "openat": lambda: os.close(os.open(folder, os.O_RDONLY)),
        "rename": lambda: folder.rename(folder / "x"),
    }[calls]
    for _ in range(idle - (calls == "openat")):
        with suppress(OSError):
            call()
    try:
        code = main_of_cli(lambda *_, **__: 0)
    except BaseException:  # what the interpreter would do
        traceback.print_exc()
        code = 1
    sys.stdout.flush()
    sys.stderr.flush()
    return code


def run_on_full_disk(ground: Path, folder: Path, verb: Verb, spare: int) -> Outcome:
    """Run a verb in a folder on a disk of its own that has so many bytes to spare; needs the rights of root."""
    with _mounted(folder, ground, spare):
        run = _run(folder, verb)
        wrong = tuple(_wrong(ground, folder, verb, run))
        return Outcome(run.returncode != 0, run.returncode, run.stdout + run.stderr, wrong)


@contextmanager
def _mounted(folder: Path, ground: Path, spare: int) -> Iterator[None]:
    pages = sum(-(-path.stat().st_size // 4096) for path in ground.iterdir())
    folder.mkdir(exist_ok=True)
    size = f"size={pages * 4096 + spare},nr_inodes=100"
    subprocess.run(["mount", "-t", "tmpfs", "-o", size, "tmpfs", folder], check=True)
    try:
        shutil.copytree(ground, folder, dirs_exist_ok=True)
        yield
    finally:
        subprocess.run(["umount", folder], check=True)


def _run(folder: Path, verb: Verb) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        # Python itself shall not look for modules in the folder.
        [sys.executable, "-P", "-m", "stemmap", *verb.arguments],
        check=False,
        input=verb.lines,
        capture_output=True,
        text=True,
        timeout=120,
        cwd=folder,
        env={**os.environ, "PYTHONDONTWRITEBYTECODE": "1", "PYTHONPATH": str(_TOP)},
    )


def _wrong(ground: Path, folder: Path, verb: Verb, run: subprocess.CompletedProcess[str]) -> Iterator[str]:
    """Everything that must not be after a run."""
    yield from _wrongly_said(verb, run)
    before, after = ground / verb.written, folder / verb.written
    if verb.arguments[0] == "repair":
        if (ground / "damaged.gpkg").read_bytes() != (folder / "damaged.gpkg").read_bytes():
            yield "the damaged file was changed"
        if run.returncode and after.exists():
            yield "an unfinished repair is left"
    if before.exists() or not run.returncode:
        yield from _wrongly_held(before, after, verb, run)


def _wrongly_said(verb: Verb, run: subprocess.CompletedProcess[str]) -> Iterator[str]:
    if "Traceback" in run.stderr:
        yield f"traceback: {run.stderr.strip().splitlines()[-1]}"
    refused = [line for line in run.stdout.splitlines() if line.startswith("error ")]
    answered = len(refused) + len(_acknowledged(run))
    if verb.lines and run.returncode in (0, 2) and answered != verb.lines.count("\n"):
        yield f"{answered} lines answered"
    if run.returncode not in (0, 2, 3):
        yield f"exit {run.returncode}"
    if run.returncode and not re.search(r"\w{3}.*\w{3}.*[.!]", "\n".join([run.stderr, *refused])):
        yield f"exit {run.returncode} without a sentence"


def _acknowledged(run: subprocess.CompletedProcess[str]) -> set[int]:
    return {int(line.split()[1]) for line in run.stdout.splitlines() if line.startswith("ok ")}


def _wrongly_held(before: Path, after: Path, verb: Verb, run: subprocess.CompletedProcess[str]) -> Iterator[str]:
    """What a file that was there before, or was told to be there now, lacks or has too much."""
    try:
        held, *sets = contents(after)
    except (StemmapError, sqlite3.Error) as fault:
        yield f"cannot be read: {fault}"
        return
    old, *old_sets = contents(before) if before.exists() else ([], 0, 0)
    numbers = [number for number, _ in held]
    if held[: len(old)] != old or not _acknowledged(run) <= set(numbers):
        yield "lost"
    if numbers != list(range(1, len(held) + 1)):
        yield "gaps"
    unsure = "may be stored or not" in run.stderr
    if verb.arguments[0] == "add" and not unsure and (run.returncode == 0) == (sets == old_sets):
        yield "told as added, but not there, or the other way round"
    yield from faults(after)


def contents(path: Path) -> tuple[list[tuple[int, str]], int, int]:
    """Entries with their reasons, number of uploads, number of settings."""
    with readable(path, lambda _: None) as survey_file:
        counts = [
            survey_file.connection.execute(f"SELECT count(*) FROM {table}").fetchone()[0]
            for table in ("uploads", "settings")
        ]
        return [(entry.entry, entry.why) for entry in entries(survey_file)], counts[0], counts[1]


def every_call(ground: Path, folder: Path, verb: Verb, failing: tuple[str, str]) -> Iterator[tuple[int, Outcome]]:
    """Let each of the calls fail in turn, until there is none left."""
    block = 40
    for first in itertools.count(1, block):
        with FailingDisk(ground, folder, verb, failing, most=first + block - 1) as disk:
            for when in range(first, first + block):
                outcome = disk.run(when)
                if not outcome.hit:
                    return
                yield when, outcome


def every_size(ground: Path, folder: Path, verb: Verb) -> Iterator[tuple[int, Outcome]]:
    """Let the disk be full, with a page more to spare each time, until it was large enough three times."""
    gone_well, spare = 0, 0
    while gone_well < 3:
        outcome = run_on_full_disk(ground, folder, verb, spare)
        yield spare, outcome
        gone_well += not outcome.code
        spare += PAGE_SIZE


def main() -> None:
    """Let every call of every verb fail, then every size of a full disk, and print a table."""
    asked = argparse.ArgumentParser()
    asked.add_argument("--verbs", default="", help="some of them, with commas between; all when not given")
    asked.add_argument("--serve", type=Path, help=argparse.SUPPRESS)
    options = asked.parse_args()
    if options.serve:
        serve(options.serve)
        return
    with tempfile.TemporaryDirectory() as name:
        ground, folder = Path(name) / "ground", Path(name) / "run"
        ground.mkdir()
        verbs = make_ground(ground)
        for called in options.verbs.split(",") if options.verbs else verbs:
            verb = verbs[called]
            for failing in FAILING:
                _tell(f"{called:18} {failing[0]:26} {failing[1]:7}", every_call(ground, folder, verb, failing))
            if os.geteuid() == 0:
                _tell(f"{called:18} {'full disk':34}", every_size(ground, folder, verb))


def _tell(title: str, outcomes: Iterator[tuple[int, Outcome]]) -> None:
    """Print how many calls failed, how many of the runs were refused, and what was wrong."""
    told: Counter[str] = Counter(tried=0, refused=0, wrong=0)
    for when, outcome in outcomes:
        told.update(tried=1, refused=outcome.code != 0, wrong=bool(outcome.wrong))
        for each in outcome.wrong:
            print(f"    at {when}: {each}: {outcome.said[-300:]!r}", flush=True)  # noqa: T201 - the result
    print(title, dict(told), flush=True)  # noqa: T201 - the result of the script


if __name__ == "__main__":
    main()
