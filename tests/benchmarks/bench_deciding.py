"""From a decision on the disk to what it changes on the screen: findings and map of its plot.

Run with: python -m tests.benchmarks.bench_deciding [PLOTS]
"""

from __future__ import annotations

import statistics
import sys
import tempfile
import time
from contextlib import nullcontext
from pathlib import Path

import numpy as np
from PySide6.QtCore import QCoreApplication, QEvent, QEventLoop, QObject, QSettings, QTimer
from PySide6.QtWidgets import QApplication

from tests.benchmarks.bench_session import watchdog

#: Decisions that are measured, after a few that load what is used for the first time, and those that are watched.
DECISIONS, FIRST, WATCHED = 30, 4, 10


class Painted(QObject):
    """Notes when a widget is painted, and that the loop wakes up now and then as it does in the real window."""

    def __init__(self, widget: QObject) -> None:
        super().__init__(widget)
        self.times = 0
        widget.installEventFilter(self)
        self._wake = QTimer(self, interval=100)
        self._wake.start()

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
        self.times += event.type() == QEvent.Type.Paint
        return False


def turn() -> None:
    """One turn of the event loop, which waits for something to do as it does in the real window."""
    QCoreApplication.processEvents(QEventLoop.ProcessEventsFlag.WaitForMoreEvents)


def make_survey(folder: Path, plots: int) -> list[Path]:
    """Files of a survey: the sample, or plots at random with 22 stems each, among them circles left too late."""
    from stemmap.assets import sample_data

    if not plots:
        return [sample_data("survey") / name for name in ("plots.csv", "stems.csv")]
    rng = np.random.default_rng(1)
    distance = np.where(np.arange(22) == 8, 15.1, 12.6 * np.sqrt(rng.random((plots, 22))))
    rows = [
        f"{plot};{stem};{rng.integers(0, 360)};{distance[plot, stem]:.2f};{rng.integers(7, 70)}"
        for plot in range(plots)
        for stem in range(22)
    ]
    (folder / "stems.csv").write_text("plot;stem;azimuth;distance_m;dbh_cm\n" + "\n".join(rows) + "\n", "utf-8")
    return [folder / "stems.csv"]


def main() -> None:
    """Decide again and again in the real window, without a screen, and print what it took."""
    plots = int(sys.argv[1]) if len(sys.argv) > 1 else 0
    from stemmap.desktop.program import Collector, make_window
    from stemmap.drawing.application import application
    from stemmap.tasks.survey_file import add_uploads

    running = application(lambda: QApplication, offscreen=True)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        QSettings.setPath(QSettings.Format.NativeFormat, QSettings.Scope.UserScope, name)
        path = folder / "survey.gpkg"
        settings = None if plots else make_survey(folder, 0)[0].parent / "settings.toml"
        add_uploads(path, make_survey(folder, plots), who="Ida", settings=settings, radius_m=12.62 if plots else None)
        window = make_window(running)
        QSettings().setValue("survey/who", "Ida")
        _collector = Collector(window)
        window.resize(1280, 800)
        window.show()
        window.uploads.open([path])
        following, canvas, jobs = window.deciding.following, window.panels.map_panel.canvas, window.jobs
        painted = Painted(canvas)
        stored, replaced, mapped, before = [0.0, 0.0], [0.0], [0.0], [window.session.workup]
        took, update = following.took, window.session.update

        def on_stored(entries: object) -> None:
            stored[:] = time.perf_counter(), time.process_time()
            took(entries)

        def on_worked_out(opened: object) -> None:
            update(opened)
            replaced[0] = time.perf_counter()

        def on_described() -> None:
            if canvas.shown is not None and canvas.shown.request.workup is not before[0]:
                mapped[0], painted.times = time.perf_counter(), 0

        following.took, window.session.update = on_stored, on_worked_out
        canvas.described.connect(on_described)

        def settle(seconds: float) -> None:
            until = time.perf_counter() + seconds
            while time.perf_counter() < until or jobs.busy or jobs.runs("survey") or jobs.runs("map") or canvas.moving:
                turn()

        settle(0.5)
        findings, made, on_map, work, gaps = [], [], [], [], []
        for number in range(FIRST + DECISIONS + WATCHED):
            window.session.step_finding(1)
            chosen = window.session.selected_finding
            settle(0.2)
            decision = "correct" if chosen is not None and chosen.proposals else ("keep", "recheck")[number % 2]
            watched = number >= DECISIONS + FIRST  # apart, since the watching wakes the loop all the time
            mapped[0] = replaced[0] = 0.0
            before[0] = window.session.workup
            with watchdog() if watched else nullcontext([]) as turns:
                window.deciding.decide(decision)
                deadline = time.perf_counter() + 3
                while not (mapped[0] and replaced[0] and painted.times) and time.perf_counter() < deadline:
                    turn()
            shown = time.perf_counter(), time.process_time()
            if watched:
                gaps.append(1000 * max(gap for gap, _ in turns))
            elif number >= FIRST and mapped[0] and replaced[0] and painted.times:
                findings.append(1000 * (replaced[0] - stored[0]))
                made.append(1000 * (mapped[0] - stored[0]))
                on_map.append(1000 * (shown[0] - stored[0]))
                work.append(1000 * (shown[1] - stored[1]))
            settle(0.6)
        print(f"{len(on_map)} decisions, and {len(gaps)} watched")
        for title, times in (
            ("findings", findings),
            ("map described", made),
            ("map painted", on_map),
            ("work of the processor until then", work),
            ("longest stand-still", gaps),
        ):
            print(
                f"{title}: median {statistics.median(times):.1f} ms, 95 % {np.percentile(times, 95):.1f} ms, "
                f"longest {max(times):.1f} ms"
            )
        window.close()


if __name__ == "__main__":
    main()
