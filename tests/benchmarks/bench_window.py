"""First painted window from process start against a bare QMainWindow; selecting, settings, large surveys and uploads.

Run with: python -m tests.benchmarks.bench_window
"""

from __future__ import annotations

import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import numpy as np
import pandas as pd

from tests.uploads import survey

RUNS = 9

BARE = """
import time
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication, QMainWindow

class Window(QMainWindow):
    def paintEvent(self, event):
        print(time.monotonic(), flush=True)
        QTimer.singleShot(0, application.quit)

application = QApplication([])
window = Window()
window.resize(1280, 800)
window.show()
application.exec()
"""

OURS = """
import sys, time
from stemmap.__main__ import main
import stemmap.desktop.program as program

made = program.make_window

def watched(application):
    window = made(application)
    window.painted.connect(lambda: (print(time.monotonic(), flush=True), application.quit()))
    return window

program.make_window = watched
sys.argv = ["stemmap"]
main()
"""


@contextmanager
def virtual_screen() -> Iterator[dict[str, str]]:
    """Environment with a display of its own where Xvfb is installed, else without a screen."""
    if not shutil.which("Xvfb"):
        yield {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
        return
    reader, writer = os.pipe()
    command = ["Xvfb", "-displayfd", str(writer), "-screen", "0", "1600x1000x24", "-nolisten", "tcp", "-noreset"]
    with subprocess.Popen(command, pass_fds=[writer], stderr=subprocess.DEVNULL) as server:
        os.close(writer)
        with os.fdopen(reader) as answer:
            number = answer.readline().strip()
        yield {**os.environ, "DISPLAY": f":{number}", "QT_QPA_PLATFORM": "xcb"}
        server.terminate()


def first_paint(program: str, environment: dict[str, str]) -> float:
    """Seconds from the start of a process until its window is painted."""
    began = time.monotonic()
    ended = subprocess.run(
        [sys.executable, "-c", program], env=environment, capture_output=True, text=True, check=True
    )
    return float(ended.stdout.split()[0]) - began


def starting() -> None:
    """First paint of both, in turns."""
    with virtual_screen() as environment:
        first_paint(BARE, environment), first_paint(OURS, environment)  # the first run of each fills the file cache
        pairs = [(first_paint(BARE, environment), first_paint(OURS, environment)) for _ in range(RUNS)]
    bare, ours = (statistics.median(times) for times in zip(*pairs, strict=True))
    ratio = statistics.median(own / plain for plain, own in pairs)
    print(f"first paint on {environment['QT_QPA_PLATFORM']}: bare {1e3 * bare:.0f} ms, stemmap {1e3 * ours:.0f} ms")
    print(f"ratio {ratio:.2f} (limit 3)")


def working() -> None:
    """Selecting a plot, changing a setting, and the longest stand-still of the event loop with 10^6 stems."""
    from PySide6.QtCore import QTimer
    from PySide6.QtWidgets import QApplication

    from stemmap.desktop.program import Collector
    from stemmap.desktop.session import prepare
    from stemmap.desktop.window import MainWindow
    from stemmap.drawing.application import application
    from stemmap.tasks.demo import sample_files
    from stemmap.tasks.workup import open_uploads, work_up

    running = application(lambda: QApplication, offscreen=True)
    window = MainWindow()
    _collector = Collector(window)
    window.show()

    def settle() -> None:
        while window.jobs.busy or window.jobs.runs("map") or window.panels.map_panel.canvas.moving:
            running.processEvents()
        running.processEvents()

    def timed(change: object, *arguments: object) -> float:
        began = time.perf_counter()
        change(*arguments)  # type: ignore[operator]  # any bound method
        settle()
        return time.perf_counter() - began

    files, settings = sample_files()
    window.show_opened(prepare(open_uploads(files, settings=settings)))
    settle()
    selecting = [timed(window.session.step_visit, 1) for _ in range(30)]
    units = ["gon", "degree"] * 5
    moved, shown = [], window.panels.map_panel.canvas
    changing = []
    for unit in units:
        before, began = shown.shown, time.perf_counter()
        window.session.edit("measurement.azimuth_unit", unit)
        while shown.shown is before:
            running.processEvents()
        running.processEvents()
        moved.append(time.perf_counter() - began)
        settle()
        changing.append(time.perf_counter() - began)
    print(f"next plot, map and all panels: median {1e3 * statistics.median(selecting):.0f} ms")
    print(
        f"gon for degree: map and summary after {1e3 * statistics.median(moved):.0f} ms (limit 300), "
        f"findings after {1e3 * statistics.median(changing):.0f} ms"
    )

    rng = np.random.default_rng(1)
    plots, each = 40_000, 25
    columns = {
        "plot": np.repeat(np.arange(plots), each),
        "azimuth": rng.integers(0, 360, plots * each),
        "distance_m": (12.6 * np.sqrt(rng.random(plots * each))).round(2),
        "dbh_cm": rng.integers(7, 70, plots * each),
    }
    made = survey(columns, {"plot": list(range(plots))}, settings={"design": {"radius_m": 12.62}})
    upload = Path(tempfile.mkdtemp()) / "stems.csv"
    pd.DataFrame(columns).to_csv(upload, index=False)
    gaps: list[float] = []
    last = time.perf_counter()

    def tick() -> None:
        nonlocal last
        gaps.append(time.perf_counter() - last)
        last += gaps[-1]

    clock = QTimer(interval=5)
    clock.timeout.connect(tick)
    clock.start()
    last = time.perf_counter()
    window.jobs.start("survey", lambda progress: prepare(work_up(made, progress)), apply=window.show_opened)
    settle()
    for _ in range(50):
        timed(window.session.step_visit, 1)
    print(f"10^6 stems worked up and 50 plots gone through: longest stand-still {1e3 * max(gaps):.0f} ms (limit 100)")
    gaps.clear()
    last = began = time.perf_counter()
    window.uploads.open([upload], radius_m=12.62)
    settle()
    clock.stop()
    seconds = time.perf_counter() - began
    print(f"10^6 stems read from CSV in {seconds:.1f} s: longest stand-still {1e3 * max(gaps):.0f} ms (limit 100)")
    shutil.rmtree(upload.parent)
    window.close()


if __name__ == "__main__":
    starting()
    working()
