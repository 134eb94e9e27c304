"""A session as somebody has it: the event loop never stands still, memory stays, one selection reaches all panels.

Run with: python -m tests.benchmarks.bench_session
"""

from __future__ import annotations

import gc
import statistics
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import numpy as np
from PySide6.QtCore import QCoreApplication, QPointF, QSettings, Qt, QTimer
from PySide6.QtGui import QAction
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QInputDialog

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
def watchdog() -> Iterator[list[tuple[float, float]]]:
    """Seconds between two turns of the event loop, asked every five milliseconds, and those the thread worked in them.

    The second are what the program itself takes: on a machine with other work going on the first are longer.
    """
    gaps: list[tuple[float, float]] = []
    last = time.perf_counter(), time.thread_time()

    def tick() -> None:
        nonlocal last
        now = time.perf_counter(), time.thread_time()
        gaps.append((now[0] - last[0], now[1] - last[1]))
        last = now

    clock = QTimer(interval=5)
    clock.timeout.connect(tick)
    clock.start()
    yield gaps
    tick()
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
        # Nobody is there to answer.
        for name in ("getOpenFileName", "getOpenFileNames", "getSaveFileName"):
            setattr(QFileDialog, name, lambda *_asked, **_more: ("", ""))
        QFileDialog.getExistingDirectory = lambda *_asked, **_more: ""
        QInputDialog.getText = lambda *_asked, **_more: ("", False)

    def settle(self) -> None:
        """Wait until everything begun is shown."""
        window, canvas = self.window, self.window.panels.map_panel.canvas
        tables = [window.panels.stems_table, window.panels.findings_table, window.panels.plots_panel]
        while (
            window.jobs.busy or window.jobs.runs("map") or canvas.moving or any(table.model.waiting for table in tables)
        ):
            QCoreApplication.processEvents()
            time.sleep(0.001)
        QCoreApplication.processEvents()

    def press(self, key: Qt.Key) -> None:
        """Press a key and wait for what it does."""
        QTest.keyClick(self.window, key)
        self.settle()

    def act(self, name: str) -> None:
        """Trigger an action, settle, and close whatever it opened."""
        self.window.actions_by_name[name].trigger()
        self.settle()
        for top in QApplication.topLevelWidgets():
            if top is not self.window and top.isVisible() and top.isWindow():
                top.close()
        self.settle()

    def going(self) -> None:
        """From finding to finding, plot to plot, visit to visit; the map enlarged, dragged and fitted."""
        session, canvas = self.window.session, self.window.panels.map_panel.canvas
        keys = (Qt.Key.Key_N, Qt.Key.Key_PageDown, Qt.Key.Key_Plus, Qt.Key.Key_0, Qt.Key.Key_V)
        for _ in range(20):
            for key in keys:
                self.press(key)
            session.select_stem(int(session.workup.survey.visits.first_stem[session.visit]))
            self.settle()
        for factor in (1.25, 0.8):
            for _ in range(25):
                canvas.zoom(factor, QPointF(200, 150))
                QCoreApplication.processEvents()
        for _ in range(40):
            canvas.pan(9, -6)
            QCoreApplication.processEvents()
        self.settle()

    def round(self) -> None:
        """Through the findings with one key, and back."""
        self.press(Qt.Key.Key_F8)
        for _ in range(40):
            self.press(Qt.Key.Key_Space)
        for _ in range(10):
            self.press(Qt.Key.Key_Backspace)
        self.press(Qt.Key.Key_Escape)

    def tables(self) -> None:
        """Filter, sort, copy, choose columns."""
        panels = self.window.panels
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
        panels.stems_table.view.selectAll()
        panels.stems_table.copy_rows()
        panels.stems_table.filter.clear()
        panels.stems_table.all_plots.setChecked(False)
        panels.findings_table.filter.clear()
        self.settle()
        panels.stems_table.view.sortByColumn(4, Qt.SortOrder.AscendingOrder)
        self.settle()

    def settings(self) -> None:
        """Another unit, another north, and back."""
        for value in ("gon", "degree"):
            self.window.session.edit("measurement.azimuth_unit", value)
            self.settle()
        for panel in ("settings", "summary", "survey", "layers", "plots", "findings"):
            if panel in self.window.panels.docks:
                self.window.panels.bring_forward(panel)
                self.settle()

    def structure(self) -> None:
        """The spatial structure of some plots and of the whole survey, each with all its diagrams drawn."""
        session, panels = self.window.session, self.window.panels
        panels.bring_forward("structure")
        for visit in (2, 3, 8, -1, 5):
            session.select_visit(visit)
            self.settle()
            while self.window.jobs.runs("structure") or self.window.jobs.runs("structure-pictures"):
                QCoreApplication.processEvents()
                time.sleep(0.001)
        panels.bring_forward("findings")
        self.settle()

    def printing(self) -> None:
        """The dialog of sheets, the preview and a copied map."""
        outputs = self.window.outputs
        outputs.choose_sheets()
        self.settle()
        printing = outputs.printing
        printing.preview()
        self.settle()
        QTest.qWait(300)
        for top in QApplication.topLevelWidgets():
            if top is not self.window and top.isVisible():
                top.close()
        QTest.qWait(50)
        outputs.copy_map()
        self.settle()

    def table_of_commands(self) -> None:
        """Every action of the menus but those that ask the system for a file name, open something else or leave."""
        asking = {"open", "sample", "report", "export", "save-map", "save-settings", "sheets", "add-background"}
        apart = {"quit", "whats-this", "full-screen", "stop"}
        for name, action in self.window.actions_by_name.items():
            if name not in asking | apart and action.isEnabled():
                self.act(name)
        self.press(Qt.Key.Key_Escape)
        self.act("reset-layout")
        for name in ("layers", "colours"):
            for action in self.window.findChildren(QAction):
                if action.objectName().startswith(f"{name}-"):
                    action.trigger()
                    self.settle()

    def hour(self) -> None:
        """What somebody does in an hour, without the pauses; the longest stand-still of each part."""
        for part in (
            self.going,
            self.round,
            self.tables,
            self.settings,
            self.structure,
            self.printing,
            self.table_of_commands,
        ):
            with watchdog() as gaps:
                part()
            report(f"  {part.__name__.replace('_', ' ')}", gaps)


def report(name: str, gaps: list[tuple[float, float]]) -> None:
    """Print how long the event loop stood still."""
    passed, worked = (", ".join(f"{1e3 * gap:.0f}" for gap in sorted(each)[:-4:-1]) for each in zip(*gaps, strict=True))
    print(f"{name}: longest stand-stills {passed} ms (limit 100), of which the program worked {worked} ms", flush=True)


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
    for turn in ("first", "second"):
        print(f"scripted hour, sample survey, {turn} time:")
        hands.hour()
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
    print("scripted hour, 10^6 stems:")
    hands.hour()
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
