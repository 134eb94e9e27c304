"""Kills for the survey file, through its command line; also run by hand in large numbers.

Run from the top of a checkout: python -m tests.store.crash --kills 10000 --forked
With --folder the killed files stay, for other programs to look at.
"""

import argparse
import contextlib
import os
import random
import shutil
import signal
import sqlite3
import sys
import tempfile
import threading
import time
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from stemmap.cli.main import cli
from stemmap.store.decisions import entries
from stemmap.store.repair import readable
from stemmap.tasks.survey_file import add_uploads
from stemmap.tasks.workup import open_uploads
from tests.store.validity import faults

#: So many decisions a process is fed at most; numbers in their reasons never repeat.
_FED = 2_000
#: After so many kills the next one starts with a new file, because reading the journal takes longer and longer.
_KILLS_OF_A_FILE = 50


def make_survey(folder: Path) -> tuple[Path, list[str]]:
    """A small survey file, and ids of findings in it."""
    rows = "".join(
        f"{plot};{stem};{stem * 30};{11 if stem == 8 else 3 + stem % 4},5{stem};{20 + stem}\n"
        for plot in range(5)
        for stem in range(9)
    )
    (folder / "stems.csv").write_text(f"plot;stem;azimuth;distance_m;dbh_cm\n{rows}", "utf-8")
    path = folder / "survey.gpkg"
    add_uploads(path, [folder / "stems.csv"], who="Ida", radius_m=8.0)
    return path, [each.id for each in open_uploads([path]).findings if each.plot]


@dataclass
class Decider:
    """A running `stemmap decide SURVEY -` that is fed decisions as fast as it answers.

    Parameters
    ----------
    survey, findings
        Where and about what.
    first
        Number in the reason of the first decision; each next one is one more.
    forked
        Whether the verb runs in a copy of this process, which starts sooner than a new one.
    count
        So many decisions are asked for; then the process brings the layers up to date.
    """

    survey: Path
    findings: list[str]
    first: int
    forked: bool = False
    count: int = _FED
    answered: list[tuple[int, int]] = field(default_factory=list)
    refused: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        arguments = ["decide", str(self.survey), "-", "--who", "Ida"]
        asked, ask = os.pipe()
        told, tell = os.pipe()
        if self.forked:
            self.pid = os.fork()
            if not self.pid:
                _run_forked(arguments, asked, tell, (ask, told))
        else:
            self.pid = os.posix_spawn(
                sys.executable,
                [sys.executable, "-m", "stemmap", *arguments],
                os.environ,
                file_actions=[
                    (os.POSIX_SPAWN_DUP2, asked, 0),
                    (os.POSIX_SPAWN_DUP2, tell, 1),
                    (os.POSIX_SPAWN_OPEN, 2, os.devnull, os.O_WRONLY, 0),
                ],
            )
        os.close(asked)
        os.close(tell)
        self.ask, self.told = os.fdopen(ask, "w", encoding="utf-8"), os.fdopen(told, encoding="utf-8")
        self.threads = [threading.Thread(target=each) for each in (self._feed, self._read)]
        for thread in self.threads:
            thread.start()

    def _feed(self) -> None:
        try:
            for number in range(self.first, self.first + self.count):
                finding = self.findings[number % len(self.findings)]
                self.ask.write(f"{finding} {('keep', 'recheck')[number % 2]} reason {number}\n")
                self.ask.flush()
            self.ask.close()
        except BrokenPipeError:
            pass

    def _read(self) -> None:
        for line in self.told:
            word, *rest = line.split(" ", 2)
            if line.endswith("\n") and word == "ok":
                self.answered.append((int(rest[0]), self.first + len(self.answered) + len(self.refused)))
            elif line.endswith("\n"):
                self.refused.append(line)

    def kill(self) -> None:
        """End it at once, and read what it had still said."""
        os.kill(self.pid, signal.SIGKILL)
        os.waitpid(self.pid, 0)
        for thread in self.threads:
            thread.join()
        with contextlib.suppress(BrokenPipeError):
            self.ask.close()
        self.told.close()


def _run_forked(arguments: list[str], asked: int, tell: int, others: tuple[int, int]) -> None:
    for each in others:
        os.close(each)
    os.dup2(asked, 0)
    os.dup2(tell, 1)
    sys.stdin, sys.stdout = os.fdopen(0, encoding="utf-8"), os.fdopen(1, "w", encoding="utf-8")
    cli.main(arguments, standalone_mode=False)
    os._exit(0)


def lost(survey: Path, answered: list[tuple[int, int]]) -> int:
    """How many acknowledged decisions (entry, number in the reason) `stemmap journal` would not tell."""
    with readable(survey, lambda _: None) as survey_file:
        held = {entry.entry: entry.why for entry in entries(survey_file)}
    return sum(held.get(entry) != f"reason {number}" for entry, number in answered)


def kill_at_random(
    folder: Path, kills: int, *, seed: int = 1, forked: bool = False, tell: Callable[[Counter[str]], None] | None = None
) -> Counter[str]:
    """Kill a deciding process again and again; what was acknowledged, lost, and found damaged.

    `tell` is called with what is known so far each time that a file was killed often enough.

    A file that is used again was rolled back in between. A copy of the bare file is taken right after each kill: what
    that holds counts too, not only what a rollback journal beside it can still mend.
    """
    dice = random.Random(seed)
    made, findings = make_survey(folder)
    survey, bare = made, folder / "bare.gpkg"
    told: Counter[str] = Counter(kills=0, acknowledged=0, lost=0, lost_in_copy=0, invalid=0, copy_torn=0)
    answered: list[tuple[int, int]] = []
    for kill in range(kills):
        if kill % _KILLS_OF_A_FILE == 0:
            survey = folder / f"killed-{kill // _KILLS_OF_A_FILE:03}.gpkg"
            shutil.copy(made, survey)
            answered = []
        few = dice.random() < 0.2
        decider = Decider(survey, findings, kill * _FED, forked, count=3 if few else _FED)
        deadline = time.monotonic() + 20
        while not decider.answered and time.monotonic() < deadline:
            time.sleep(0.0005)
        time.sleep(dice.random() * (0.3 if few else 0.03))
        decider.kill()
        shutil.copy(survey, bare)
        answered += decider.answered
        told["kills"] += 1
        told["acknowledged"] += len(decider.answered)
        told["lost_in_copy"] += lost(bare, answered)
        told["lost"] += lost(survey, answered)
        told["invalid"] += bool(faults(survey))
        told["copy_torn"] += not is_whole(bare)
        if tell and (kill + 1) % _KILLS_OF_A_FILE == 0:
            tell(told)
    return told


def is_whole(path: Path) -> bool:
    """Whether SQLite finds nothing wrong with a file."""
    connection = sqlite3.connect(path)
    try:
        return bool(connection.execute("PRAGMA integrity_check").fetchone() == ("ok",))
    except sqlite3.DatabaseError:
        return False
    finally:
        connection.close()


def main() -> None:
    """Kill as often as asked and print what came of it."""
    asked = argparse.ArgumentParser()
    asked.add_argument("--kills", type=int, default=10_000)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument(
        "--forked", action="store_true", help="start each process as a copy of this one, which is faster"
    )
    asked.add_argument("--folder", type=Path, help="where the files are killed, and stay")
    options = asked.parse_args()

    def tell(told: Counter[str]) -> None:
        print(dict(told), flush=True)  # noqa: T201 - the result of the script

    with tempfile.TemporaryDirectory() as passing:
        folder = options.folder or Path(passing)
        folder.mkdir(exist_ok=True)
        tell(kill_at_random(folder, options.kills, seed=options.seed, forked=options.forked, tell=tell))


if __name__ == "__main__":
    main()
