"""Frames while panning and zooming the map of a survey of 100,000 plots and 2,500,000 stems, down to one plot.

Run with: python -m tests.benchmarks.bench_overview
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from time import perf_counter
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QCoreApplication, QPointF
from PySide6.QtWidgets import QApplication

from stemmap.desktop.jobs import Jobs
from stemmap.desktop.map_canvas import MapCanvas
from stemmap.desktop.session import Session, prepare
from stemmap.drawing.application import application
from stemmap.survey.fields import Table
from stemmap.survey.records import Column, Records, Upload
from stemmap.survey.settings import parse_settings
from stemmap.survey.survey import Survey, assemble
from stemmap.tasks.workup import work_up

PLOTS, STEMS_EACH = 100_000, 25
WIDTH, HEIGHT = 1200, 900
FRAMES = 150


def numbers(values: NDArray[np.float64], decimals: int) -> Column:
    """A column of numbers typed with some decimals."""
    distinct, codes = np.unique(values.round(decimals), return_inverse=True)
    labels = np.array([f"{value:.{decimals}f}" for value in distinct.tolist()], dtype=object)
    return Column(labels, codes.astype(np.int32), distinct)


def words(labels: list[str], codes: NDArray[np.int64]) -> Column:
    """A column of words."""
    return Column(np.array(labels, dtype=object), codes.astype(np.int32), None)


def records(table: Table, columns: dict[str, Column], count: int) -> Records:
    """Records of one file."""
    lines = np.arange(2, count + 2, dtype=np.int32)
    return Records(table, MappingProxyType(columns), np.zeros(count, np.int32), lines, MappingProxyType({}))


def large_survey() -> Survey:
    """Plots in 2,000 clumps over 400 km, 25 stems on each."""
    rng = np.random.default_rng(2)
    names = [str(number) for number in range(1, PLOTS + 1)]
    clump = rng.integers(0, 2000, PLOTS)
    east = rng.uniform(300_000, 700_000, 2000)[clump] + rng.normal(0.0, 2000.0, PLOTS)
    north = rng.uniform(5_200_000, 5_600_000, 2000)[clump] + rng.normal(0.0, 2000.0, PLOTS)
    count = PLOTS * STEMS_EACH
    plots = {
        "plot": words(names, np.arange(PLOTS)),
        "easting": numbers(east, 0),
        "northing": numbers(north, 0),
    }
    stems = {
        "plot": words(names, np.repeat(np.arange(PLOTS), STEMS_EACH)),
        "stem": words([str(number) for number in range(1, STEMS_EACH + 1)], np.tile(np.arange(STEMS_EACH), PLOTS)),
        "azimuth": numbers(rng.uniform(0.0, 359.0, count), 0),
        "distance_m": numbers(np.maximum(12.62 * np.sqrt(rng.random(count)), 0.3), 2),
        "dbh_cm": numbers(np.clip(rng.lognormal(3.0, 0.4, count), 7.0, 90.0), 1),
        "species": words(["spruce", "beech", "pine", "oak", "birch"], rng.integers(0, 5, count)),
    }
    upload = Upload(
        plots=records("plots", plots, PLOTS),
        stems=records("stems", stems, count),
        stations=records("stations", {}, 0),
        sources=("plots", "stems"),
    )
    settings = parse_settings({"survey": {"crs": "EPSG:25833"}, "design": {"kind": "fixed", "radius_m": 12.62}})
    return assemble(upload, settings)


def frames(canvas: MapCanvas, move: Callable[[int], object], count: int = FRAMES) -> NDArray[np.float64]:
    """Milliseconds from each move until it is painted and all events are done."""
    taken = []
    for number in range(count):
        began = perf_counter()
        move(number)
        canvas.repaint()
        QCoreApplication.processEvents()
        taken.append(1000.0 * (perf_counter() - began))
    return np.array(taken)


def until(ready: Callable[[], bool]) -> None:
    """Wait for work on other threads."""
    while not ready():
        QCoreApplication.processEvents()


def main() -> None:
    """Print all figures."""
    running = application(lambda: QApplication, offscreen="--screen" not in sys.argv)
    began = perf_counter()
    opened = prepare(work_up(large_survey()))
    print(f"survey of {PLOTS} plots and {PLOTS * STEMS_EACH} stems worked up in {perf_counter() - began:.0f} s")
    session = Session()
    jobs = Jobs()
    canvas = MapCanvas(session, jobs)
    canvas.resize(WIDTH, HEIGHT)
    canvas.show()
    began = perf_counter()
    session.show(opened)
    canvas.show_survey()
    until(lambda: canvas.survey.plots is not None and canvas.view is not None)
    print(f"overview there after {1000.0 * (perf_counter() - began):.0f} ms")
    middle = QPointF(WIDTH / 2.0, HEIGHT / 2.0)
    every = []
    for name, move in (
        ("whole survey, panning", lambda number: canvas.pan(*((7.0, 3.0) if number % 40 < 20 else (-7.0, -3.0)))),
        ("zooming in and out", lambda number: canvas.zoom(1.08 if number % 100 < 50 else 1.0 / 1.08, middle)),
    ):
        every.append(frames(canvas, move))
        tell(name, every[-1])
    plots = canvas.survey.plots
    assert plots is not None
    for factor in (4.0, 6.0, 8.0):
        assert canvas.view is not None
        at = QPointF(*canvas.view.to_device(plots.place[PLOTS // 2 : PLOTS // 2 + 1])[0].tolist())
        canvas.pan(middle.x() - at.x(), middle.y() - at.y())
        canvas.zoom(factor, middle)
        every.append(
            frames(canvas, lambda number: canvas.pan(*((9.0, -5.0) if number % 60 < 30 else (-9.0, 5.0))))
        )
        tell(f"at 1:{canvas.scale:,.0f}, panning", every[-1])
    tell("all of them", np.concatenate(every))
    canvas.fit()
    at = QPointF(*canvas.view.to_device(plots.place[PLOTS // 2 : PLOTS // 2 + 1])[0].tolist())
    down = frames(canvas, lambda number: canvas.zoom(1.2, at), 90)
    until(lambda: not jobs.runs("map") and not canvas.moving)
    tell(f"down to one plot ({'entered' if not canvas.is_far else 'not entered'})", down)
    canvas.close()
    jobs.close()
    running.quit()


def tell(name: str, taken: NDArray[np.float64]) -> None:
    """Print one line of figures."""
    middle, high = np.percentile(taken, (50, 95))
    print(f"{name:34s} median {middle:5.1f} ms, 95th percentile {high:5.1f} ms, longest {taken.max():5.1f} ms")


if __name__ == "__main__":
    main()
