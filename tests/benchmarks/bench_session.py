"""A session as somebody has it: the event loop never stands still, memory stays, one selection reaches all panels.

Run with: python -m tests.benchmarks.bench_session
"""

from __future__ import annotations

import gc
import statistics
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import numpy as np
from PySide6.QtCore import QCoreApplication, QSettings, Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from tests.uploads import survey

SWITCHES = 1000
PLOTS, EACH = 40_000, 25


def memory_mb() -> float:
    """Memory of this process that is in use; NaN where the system does not tell it in the same way."""
    status = Path("/proc/self/status")
    if not status.exists():
        return float("nan")
    return next(int(line.split()[1]) for line in status.read_text().splitlines() if line.startswith("VmRSS")) / 1024


@contextmanager
def watchdog() -> Iterator[list[float]]:
    """Seconds between two turns of the event loop, which is asked every five milliseconds."""
    gaps: list[float] = []
    last = time.perf_counter()

    def tick() -> None:
        nonlocal last
        now = time.perf_counter()
        gaps.append(now - last)
        last = now

    clock = QTimer(interval=5)
    clock.timeout.connect(tick)
    clock.start()
    yield gaps
    clock.stop()


def large_survey() -> object:
    """A survey of a million stems."""
    from stemmap.tasks.workup import work_up

    rng = np.random.default_rng(1)
    columns = {
        "plot": np.repeat(np.arange(PLOTS), EACH),
        "stem": np.tile(np.arange(1, EACH + 1), PLOTS),
        "azimuth": rng.integers(0, 361, PLOTS * EACH),
        "distance_m": (12.7 * np.sqrt(rng.random(PLOTS * EACH))).round(2),
        "dbh_cm": rng.integers(7, 70, PLOTS * EACH),
        "species": rng.choice(["beech", "oak", "fir"], PLOTS * EACH),
    }
    return work_up(survey(columns, {"plot": list(range(PLOTS))}, settings={"design": {"radius_m": 12.62}}))


class Session:
    """The window and hands on its keys."""

    def __init__(self) -> None:
        from stemmap.desktop.program import Collector, make_window
        from stemmap.drawing.application import application

        self.running = application(lambda: QApplication, offscreen=True)
        QSettings.setPath(QSettings.Format.NativeFormat, QSettings.Scope.UserScope, tempfile.mkdtemp())
        self.window = make_window(self.running)
        self._collector = Collector(self.window)
        self.window.resize(1280, 800)
        self.window.show()

    def settle(self) -> None:
        """Wait until everything begun is shown."""
        window, canvas = self.window, self.window.panels.map_panel.canvas
        tables = [window.panels.stems_table, window.panels.findings_table, window.panels.plots_panel]
        while (
            window.jobs.busy
            or window.jobs.runs("map")
            or canvas.moving
            or any(table.model.waiting for table in tables)
        ):
            QCoreApplication.processEvents()
            time.sleep(0.001)
        QCoreApplication.processEvents()

    def press(self, key: Qt.Key) -> None:
        """Press a key and wait for what it does."""
        QTest.keyClick(self.window, key)
        self.settle()

    def script(self) -> None:
        """What somebody does in an hour, without the pauses."""
        panels, session = self.window.panels, self.window.session
        steps: list[Callable[[], object]] = [
            lambda: self.press(Qt.Key.Key_N),
            lambda: self.press(Qt.Key.Key_PageDown),
            lambda: self.press(Qt.Key.Key_Plus),
            lambda: self.press(Qt.Key.Key_0),
            lambda: self.press(Qt.Key.Key_V),
            lambda: session.select_stem(int(session.workup.survey.visits.first_stem[session.visit])),
        ]
        for _ in range(20):
            for step in steps:
                step()
                self.settle()
        self.press(Qt.Key.Key_F8)
        for _ in range(40):
            self.press(Qt.Key.Key_Space)
        self.press(Qt.Key.Key_Escape)
        panels.bring_forward("all-findings")
        panels.findings_table.filter.setText("borderline")
        self.settle()
        panels.findings_table.view.sortByColumn(6, Qt.SortOrder.DescendingOrder)
        self.settle()
        panels.bring_forward("stems")
        panels.stems_table.find_stem()
        for words in ("beech", "beech borderline", "plot 20 stem 5"):
            panels.stems_table.filter.setText(words)
            QTest.qWait(300)  # the time in which somebody may type on
            self.settle()
        panels.stems_table.filter.clear()
        panels.stems_table.all_plots.setChecked(False)
        panels.findings_table.filter.clear()
        self.settle()


def report(name: str, gaps: list[float]) -> None:
    """Print how long the event loop stood still."""
    worst = sorted(gaps)[-3:]
    told = ", ".join(f"{1e3 * gap:.0f}" for gap in worst[::-1])
    usual = 1e3 * statistics.median(gaps)
    print(f"{name}: longest stand-stills of the event loop {told} ms (limit 100), median {usual:.1f} ms")


def selecting(hands: Session) -> list[float]:
    """Seconds from a selection until map, tables and findings have shown it."""
    session = hands.window.session
    rows = range(*session.workup.survey.visits.stems(session.visit).indices(sys.maxsize))
    times = []
    for row in list(rows) * 5:
        began = time.perf_counter()
        session.select_stem(row)
        QCoreApplication.sendPostedEvents()
        QCoreApplication.processEvents()
        times.append(time.perf_counter() - began)
    return times


def main() -> None:
    """Run all."""
    from stemmap.desktop.session import prepare
    from stemmap.tasks.demo import sample_files

    hands = Session()
    files, settings = sample_files()
    window = hands.window
    with watchdog() as gaps:
        QTest.qWait(1500)
    report("panels made after the first painting", gaps)
    with watchdog() as gaps:
        window.uploads.open(files, settings=settings)
        while window.session.workup is None:
            QCoreApplication.processEvents()
        hands.settle()
    report("sample survey opened", gaps)
    with watchdog() as gaps:
        hands.script()
    report("scripted session, sample survey", gaps)
    times = selecting(hands)
    print(
        f"selection to all panels: median {1e3 * statistics.median(times):.1f} ms, "
        f"95th percentile {1e3 * float(np.percentile(times, 95)):.1f} ms (limit 50)"
    )
    used = []
    count = len(window.session.workup.survey.visits)
    for number in range(SWITCHES):
        window.session.select_visit(number % count)
        hands.settle()
        if number % 100 == 99:
            gc.collect()
            used.append(memory_mb())
    print(f"memory after each 100 of {SWITCHES} plot switches: {', '.join(f'{mb:.0f}' for mb in used)} MB")
    print(f"growth from the 200th to the last: {used[-1] - used[1]:.1f} MB")

    made = large_survey()
    with watchdog() as gaps:
        window.jobs.start("survey", lambda _progress: prepare(made), apply=window.show_opened)
        hands.settle()
    report("10^6 stems shown", gaps)
    with watchdog() as gaps:
        hands.script()
    report("scripted session, 10^6 stems", gaps)
    scrolling = []
    panels = window.panels
    panels.stems_table.all_plots.setChecked(True)
    hands.settle()
    bar = panels.stems_table.view.verticalScrollBar()
    for place in np.linspace(0, bar.maximum(), 200).astype(int).tolist():
        began = time.perf_counter()
        bar.setValue(place)
        panels.stems_table.view.viewport().repaint()
        scrolling.append(time.perf_counter() - began)
    print(
        f"10^6 rows scrolled: median {1e3 * statistics.median(scrolling):.1f} ms a frame, "
        f"95th percentile {1e3 * float(np.percentile(scrolling, 95)):.1f} ms (limit 16)"
    )
    window.close()


if __name__ == "__main__":
    main()
