"""Kills, full disks and failing disks for the survey file, through its command line; also run by hand in large numbers.

Run from the top of a checkout: python -m tests.store.crash --kills 10000
"""

import argparse
import random
import shutil
import signal
import sqlite3
import subprocess
import sys
import threading
import time
from dataclasses import dataclass, field
from pathlib import Path

from stemmap.store.decisions import entries
from stemmap.store.survey_file import opened
from stemmap.tasks.survey_file import add_uploads
from stemmap.tasks.workup import open_uploads

STEMMAP = (sys.executable, "-m", "stemmap")


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
    """

    survey: Path
    findings: list[str]
    first: int
    answered: list[tuple[int, int]] = field(default_factory=list)
    said: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.process = subprocess.Popen(
            [*STEMMAP, "decide", str(self.survey), "-", "--who", "Ida"],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            text=True,
        )
        self.reader = threading.Thread(target=self._read)
        self.reader.start()

    def feed(self, count: int) -> None:
        """Write decisions; what was acknowledged is read beside it."""
        assert self.process.stdin is not None
        try:
            for number in range(self.first, self.first + count):
                finding = self.findings[number % len(self.findings)]
                self.process.stdin.write(f"{finding} {('keep', 'recheck')[number % 2]} reason {number}\n")
                self.process.stdin.flush()
            self.process.stdin.close()
        except (BrokenPipeError, OSError):
            pass

    def _read(self) -> None:
        assert self.process.stdout is not None
        for line in self.process.stdout:
            word, *rest = line.split(" ", 2)
            if line.endswith("\n") and word == "ok":
                self.answered.append((int(rest[0]), self.first + len(self.answered) + len(self.said)))
            elif line.endswith("\n"):
                self.said.append(line)

    def end(self, sign: int | None = None) -> None:
        """Wait for the end, after a signal if one is given."""
        if sign is not None:
            self.process.send_signal(sign)
        self.process.wait()
        self.reader.join()


def lost(survey: Path, answered: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """Acknowledged decisions (entry, number in the reason) that the file does not hold."""
    with opened(survey) as survey_file:
        held = {entry.entry: entry.why for entry in entries(survey_file)}
    return [(entry, number) for entry, number in answered if held.get(entry) != f"reason {number}"]


def is_sound(survey: Path) -> bool:
    """Whether SQLite finds the file whole."""
    with sqlite3.connect(survey) as connection:
        sound = connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    connection.close()
    return sound


def kill_at_random(survey: Path, findings: list[str], kills: int, seed: int = 1) -> dict[str, int]:
    """Kill a deciding process again and again; what was acknowledged, lost, and found damaged."""
    dice = random.Random(seed)
    told = {"kills": 0, "acknowledged": 0, "lost": 0, "damaged": 0}
    copy = survey.with_name("copy.gpkg")
    first = 0
    for _ in range(kills):
        decider = Decider(survey, findings, first)
        feeder = threading.Thread(target=decider.feed, args=(100_000,))
        feeder.start()
        if dice.random() < 0.9:
            # Mostly while decisions are stored, sometimes before the first.
            while not decider.answered and decider.process.poll() is None:
                time.sleep(0.001)
            time.sleep(dice.random() * 0.02)
        else:
            time.sleep(dice.random() * 0.3)
        decider.end(signal.SIGKILL)
        feeder.join()
        # What a copy of the bare file holds counts, not what a rollback journal beside it could still mend.
        shutil.copy(survey, copy)
        told["kills"] += 1
        told["acknowledged"] += len(decider.answered)
        told["lost"] += len(lost(survey, decider.answered))
        first += 100_000
        if True:
            told["damaged"] += (not is_sound(survey)) + (not is_sound(copy))
            told["lost"] += len(lost(copy, decider.answered))
    return told


def main() -> None:
    """Kill as often as asked and print what came of it."""
    import tempfile

    asked = argparse.ArgumentParser()
    asked.add_argument("--kills", type=int, default=10_000)
    asked.add_argument("--seed", type=int, default=1)
    options = asked.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        survey, findings = make_survey(Path(folder))
        print(kill_at_random(survey, findings, options.kills, options.seed))  # noqa: T201 - the result of the script


if __name__ == "__main__":
    main()
