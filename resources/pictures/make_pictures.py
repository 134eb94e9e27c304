"""Makes the pictures of the README from the real window and a real sheet of the sample survey.

Run from the top of a checkout: python resources/pictures/make_pictures.py
"""

from __future__ import annotations

import os
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtGui import QGuiApplication

from stemmap.drawing.application import application
from stemmap.drawing.targets import write_png
from stemmap.progress import Progress
from stemmap.tasks.demo import sample_files
from stemmap.tasks.sheets import document

HERE = Path(__file__).resolve().parent
PLOT, VISIT, STEM = "20", "2026", "30"
SECONDS = 60.0


def _widgets() -> type[QGuiApplication]:
    from PySide6.QtWidgets import QApplication

    return QApplication


def _until(ready: Callable[[], bool]) -> None:
    end = time.monotonic() + SECONDS
    while not ready():
        QCoreApplication.processEvents()
        time.sleep(0.01)
        if time.monotonic() > end:
            raise SystemExit("The window did not get ready; no picture was made.")


def _settle(seconds: float) -> None:
    end = time.monotonic() + seconds
    _until(lambda: time.monotonic() > end)


def main() -> None:
    """Open the sample survey at a plot with findings, and take the pictures."""
    # The window of somebody who opens it for the first time, not with this user's own layout and language.
    os.environ["XDG_CONFIG_HOME"] = tempfile.mkdtemp(prefix="stemmap-pictures-")
    os.environ["LANG"] = os.environ["LC_ALL"] = "C.UTF-8"
    running = application(_widgets, offscreen=True)
    from stemmap.desktop.program import make_window

    window = make_window(running)
    window.resize(1280, 800)
    window.show()
    files, settings = sample_files()
    window.uploads.open(files, settings=settings)
    _until(lambda: window.session.workup is not None)
    workup = window.session.workup
    window.session.select_visit(workup.survey.visit_row(PLOT, VISIT))
    wanted = [place for place, finding in enumerate(window.session.findings) if finding.stem == STEM]
    window.session.select_finding(wanted[0])
    window.setFocus(Qt.FocusReason.OtherFocusReason)
    _settle(2.0)
    window.grab().save(str(HERE / "window.png"))
    window.close()
    sheet = document(workup, [workup.survey.visit_row(PLOT)], progress=Progress())
    write_png(next(sheet), HERE / "sheet.png")


if __name__ == "__main__":
    main()
