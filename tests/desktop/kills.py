"""Kills for the window on a survey file: whatever it has said is stored must be there; also run by hand.

Run from the top of a checkout, with a display: python -m tests.desktop.kills --kills 100
"""

import argparse
import os
import random
import shutil
import signal
import subprocess
import sys
import tempfile
import threading
import time
from collections import Counter
from pathlib import Path

from stemmap.store.decisions import entries
from stemmap.store.repair import readable
from tests.store.crash import is_whole, make_survey
from tests.store.validity import faults

#: Presses keys in the real window and says on standard output what its status bar says is stored.
DRIVER = """
import os, random, sys
from pathlib import Path
from PySide6.QtCore import QSettings, Qt, QTimer
from PySide6.QtTest import QTest
from stemmap.desktop import run
import stemmap.desktop.program as program
from stemmap.survey.journal import to_undo

dice, made = random.Random(int(sys.argv[2])), program.make_window
KEYS = {"keep": Qt.Key.Key_K, "recheck": Qt.Key.Key_R, "correct": Qt.Key.Key_C}

def watched(application):
    window = made(application)
    QSettings().setValue("survey/who", "Ida")
    asked = [""]

    def ready():
        window.activateWindow()
        return window.isActiveWindow() and window.session.workup is not None

    def press():
        if not ready():
            QTimer.singleShot(20, press)
            return
        if dice.random() < 0.15 and window.deciding.following.journal:
            try:
                meant = to_undo(window.deciding.following.journal)
            except Exception:
                pass
            else:
                asked[0] = f"undo {meant.finding}"
                QTest.keyClick(window, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
                return
        QTest.keyClick(window, Qt.Key.Key_N)
        chosen = window.session.selected_finding
        if chosen is None:
            window.session.select_visit(-1)
            QTimer.singleShot(0, press)
            return
        word = dice.choice(["keep", "recheck", "correct"] if chosen.proposals else ["keep", "recheck"])
        asked[0] = f"{word} {chosen.id}"
        QTest.keyClick(window, KEYS[word])

    def said(text):
        if text.startswith(("Stored", "Undone")):
            os.write(1, f"ok {asked[0]}\\n".encode())
            QTimer.singleShot(dice.randrange(30), press)

    def refused(text):
        os.write(1, f"refused {asked[0]} {text}\\n".encode())
        QTimer.singleShot(dice.randrange(30), press)

    window.statusBar().messageChanged.connect(said)
    window.deciding.told.connect(refused)
    QTimer.singleShot(50, press)
    return window

program.make_window = watched
sys.exit(run([Path(sys.argv[1])]))
"""


def kill_at_random(folder: Path, kills: int, *, screen: dict[str, str], seed: int = 1) -> Counter[str]:
    """Kill the window again and again while keys decide in it.

    Returns
    -------
    How many decisions its status bar said were stored; how many of them the file, or a copy of the bare file taken
    right after the kill, lacks or has otherwise; how often the file was no valid one; how often a copy was torn.
    """
    dice = random.Random(seed)
    made, _ = make_survey(folder)
    survey, bare = folder / "killed.gpkg", folder / "bare.gpkg"
    shutil.copy(made, survey)
    told: Counter[str] = Counter(kills=0, acknowledged=0, refused=0, lost=0, lost_in_copy=0, invalid=0, copy_torn=0)
    before: list[str] = []
    for kill in range(kills):
        window = subprocess.Popen(
            [sys.executable, "-c", DRIVER, str(survey), str(seed * 1000 + kill)],
            env={**screen, "XDG_CONFIG_HOME": str(folder)},
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            text=True,
        )
        said: list[str] = []
        reader = threading.Thread(target=lambda said=said, window=window: said.extend(window.stdout))
        reader.start()
        deadline = time.monotonic() + 90
        while window.poll() is None and not said and time.monotonic() < deadline:
            time.sleep(0.001)
        time.sleep(dice.choice([0.02, 0.3, 1.5, 5.0]) * dice.random())
        window.send_signal(signal.SIGKILL)
        window.wait()
        reader.join()
        window.stdout.close()
        shutil.copy(survey, bare)
        stored = [line[3:].strip() for line in said if line.startswith("ok ") and line.endswith("\n")]
        told["kills"] += 1
        told["acknowledged"] += len(stored)
        told["refused"] += sum(line.startswith("refused") for line in said)
        told["lost_in_copy"] += _lost(bare, [*before, *stored])
        told["lost"] += _lost(survey, [*before, *stored])
        told["invalid"] += bool(faults(survey)) or not is_whole(survey)
        told["copy_torn"] += not is_whole(bare)
        before = _held(survey)
        if kill % 10 == 9:
            sys.stderr.write(f"{dict(told)}\n")
    return told


def _held(survey: Path) -> list[str]:
    with readable(survey, lambda _: None) as survey_file:
        return [f"{entry.decision} {entry.finding}" for entry in entries(survey_file)]


def _lost(survey: Path, wanted: list[str]) -> int:
    """How many of the decisions wanted are not at their place in the journal."""
    held = _held(survey)
    return sum(place >= len(held) or held[place] != each for place, each in enumerate(wanted))


def main() -> None:
    """Kill as often as asked and print what came of it."""
    asked = argparse.ArgumentParser()
    asked.add_argument("--kills", type=int, default=100)
    asked.add_argument("--seed", type=int, default=1)
    options = asked.parse_args()
    if not os.environ.get("DISPLAY"):
        asked.error("There is no display; run it under xvfb-run.")
    with tempfile.TemporaryDirectory() as folder:
        told = kill_at_random(Path(folder), options.kills, screen=dict(os.environ), seed=options.seed)
    print(dict(told))  # noqa: T201 - the result of the script


if __name__ == "__main__":
    main()
