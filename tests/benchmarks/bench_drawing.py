"""Redraw of a labelled plot against a bare loop of the same circles and texts; describing.

Run with: python -m tests.benchmarks.bench_drawing
"""

from __future__ import annotations

from collections.abc import Callable
from time import perf_counter

import numpy as np
from PySide6.QtCore import QPointF
from PySide6.QtGui import QBrush, QColor, QFont, QImage, QPainter, QPen

from stemmap.drawing.application import application
from stemmap.drawing.painter import paint
from stemmap.drawing.plot_map import describe_plot, frame_of
from stemmap.drawing.scene import View
from stemmap.drawing.typeface import SMALL, font
from stemmap.survey.measured import Measured, measure
from stemmap.survey.survey import Survey
from tests.uploads import survey

WIDTH, HEIGHT, PER_MILLIMETRE = 1200, 900, 96.0 / 25.4
RUNS = 40


def plot(count: int) -> Survey:
    """A plot of many stems of five species."""
    rng = np.random.default_rng(1)
    columns = {
        "plot": ["A"] * count,
        "stem": list(range(1, count + 1)),
        "azimuth": rng.integers(0, 360, count).tolist(),
        "distance_m": np.maximum(12.62 * np.sqrt(rng.random(count)), 0.3).round(2).tolist(),
        "dbh_cm": np.clip(rng.lognormal(3.0, 0.4, count), 7.0, 90.0).round(1).tolist(),
        "species": rng.choice(["spruce", "beech", "pine", "oak", "birch"], count).tolist(),
    }
    return survey(columns, {"plot": ["A"]}, settings={"design": {"radius_m": 12.62}})


def bare(painter: QPainter, places: list[list[float]], names: list[str]) -> None:
    """The least anybody would write: circles, then their numbers."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(QColor("#1d2321"), 1.0))
    painter.setBrush(QBrush(QColor("#009e73")))
    for x, y, radius in places:
        painter.drawEllipse(QPointF(x, y), radius, radius)
    painter.setFont(QFont(font(SMALL * PER_MILLIMETRE)))
    for (x, y, radius), name in zip(places, names, strict=True):
        painter.drawText(QPointF(x + radius + 2.0, y + 3.0), name)


def on_image(draw: Callable[[QPainter], None]) -> Callable[[], None]:
    """A full redraw of an image."""

    def run() -> None:
        image = QImage(WIDTH, HEIGHT, QImage.Format.Format_RGB32)
        image.fill(QColor("#ffffff"))
        painter = QPainter(image)
        draw(painter)
        painter.end()

    return run


def best(*works: Callable[[], object]) -> list[float]:
    """Best time of each in milliseconds, taken by turns."""
    times = np.full(len(works), np.inf)
    for _ in range(RUNS):
        for number, work in enumerate(works):
            started = perf_counter()
            work()
            times[number] = min(times[number], perf_counter() - started)
    return (1000.0 * times).tolist()


def compare(made: Survey, measured: Measured) -> None:
    """Print the figures for one plot."""
    view = View.fitting(frame_of(made, measured, 0), WIDTH, HEIGHT, PER_MILLIMETRE)
    scale = view.millimetres_per_metre
    scene = describe_plot(made, measured, 0, millimetres_per_metre=scale)
    assert scene.stems is not None
    radius = scene.stems.radius_m * view.per_metre
    places = np.column_stack([view.to_device(scene.stems.place), radius]).tolist()
    names = [made.stems.label(row) for row in scene.stems.row.tolist()]
    loop, full, describing = best(
        on_image(lambda painter: bare(painter, places, names)),
        on_image(lambda painter: paint(scene, painter, view)),
        lambda: describe_plot(made, measured, 0, millimetres_per_metre=scale),
    )
    print(
        f"{len(names):4d} stems: bare loop {loop:5.2f} ms, full redraw {full:5.2f} ms, ratio {full / loop:4.2f};"
        f" describing, numbers placed {describing:5.1f} ms"
    )


def main() -> None:
    """Print all figures."""
    application(offscreen=True)
    for count in (100, 200, 300):
        made = plot(count)
        compare(made, measure(made))


if __name__ == "__main__":
    main()
