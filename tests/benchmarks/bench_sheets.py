"""Plot sheets as PDF against a bare loop over QPdfWriter that paints the same circles, lines and texts.

Run with: python -m tests.benchmarks.bench_sheets
"""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from pathlib import Path
from time import perf_counter
from typing import Any

import numpy as np
from PySide6.QtCore import QLineF, QMarginsF, QPointF
from PySide6.QtGui import QBrush, QColor, QFont, QPageSize, QPainter, QPdfWriter, QPen, QPolygonF

from stemmap.drawing.application import application
from stemmap.drawing.page import Page
from stemmap.drawing.scene import Discs, Lines, Polygons, Texts, View
from stemmap.drawing.sheet import SheetStyle, describe_sheet
from stemmap.drawing.targets import write_pdf
from stemmap.drawing.typeface import family, font, widths
from stemmap.survey.findings import Findings
from stemmap.survey.measured import measure
from stemmap.survey.survey import Survey
from tests.uploads import findings, survey

UNIT = 1200 / 25.4
SHEETS, RUNS = 20, 5

Step = tuple[str, Any, Any, Any]


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
    place = {"plot": ["A"], "lon": [10.0], "lat": [50.0], "date": ["2025-06-14"]}
    return survey(columns, place, settings={"design": {"radius_m": 12.62}})


def steps(page: Page) -> list[Step]:
    """What is on a page, in units of the writer, as somebody would have it at hand who paints without scenes."""
    made: list[Step] = []
    for part in page.parts:
        view = View(part.x_mm * UNIT, part.y_mm * UNIT, part.millimetres_per_metre * UNIT, UNIT)
        for shape in part.scene.shapes:
            if isinstance(shape, Texts):
                places = view.to_device(shape.place, shape.offset_mm)
                left = widths(shape.texts) * shape.size_mm * UNIT * shape.align
                places = places - np.column_stack([left, np.zeros(len(left))])
                made.append(("text", shape.size_mm, shape.colour, (places.tolist(), shape.texts)))
                continue
            pen = QPen(QColor(shape.stroke.colour), shape.stroke.width_mm * UNIT) if shape.stroke else None
            if isinstance(shape, Lines):
                ends = [view.to_device(shape.start, shape.start_mm), view.to_device(shape.end, shape.end_mm)]
                made.append(("lines", pen, None, np.hstack(ends).tolist()))
                continue
            brush = QBrush(QColor(shape.fill)) if shape.fill else None
            if isinstance(shape, Discs):
                places = view.to_device(shape.centre, shape.centre_mm)
                radius = np.broadcast_to(
                    np.asarray(shape.radius_m) * view.per_metre + shape.radius_mm * UNIT, len(places)
                )
                made.append(("discs", pen, brush, np.column_stack([places, radius]).tolist()))
            elif isinstance(shape, Polygons):
                outline = np.asarray(shape.outline_m) * view.per_metre + np.asarray(shape.outline_mm) * UNIT
                places = view.to_device(shape.place)
                made.append(("polygons", pen, brush, [(place + outline * [1, -1]).tolist() for place in places]))
    return made


def bare(pages: list[list[Step]], path: Path) -> None:
    """The least anybody would write."""
    writer = QPdfWriter(str(path))
    writer.setResolution(1200)
    writer.setPageSize(QPageSize(QPageSize.PageSizeId.A4))
    writer.setPageMargins(QMarginsF(0, 0, 0, 0))
    painter = QPainter(writer)
    no_pen, no_brush = QPen(QColor(0, 0, 0, 0), 0), QBrush()
    for number, page in enumerate(pages):
        if number:
            writer.newPage()
        for kind, first, second, what in page:
            if kind == "text":
                face = QFont(family())
                face.setPixelSize(round(first * UNIT))
                painter.setFont(face)
                painter.setPen(QColor(second))
                for (x, y), text in zip(*what, strict=True):
                    painter.drawText(QPointF(x, y), text)
                continue
            painter.setPen(first or no_pen)
            painter.setBrush(second or no_brush)
            if kind == "lines":
                painter.drawLines([QLineF(*ends) for ends in what])
            elif kind == "discs":
                for x, y, radius in what:
                    painter.drawEllipse(QPointF(x, y), radius, radius)
            else:
                for outline in what:
                    painter.drawPolygon(QPolygonF([QPointF(x, y) for x, y in outline]))
    painter.end()


def best(*works: Callable[[], object]) -> list[float]:
    """Best time of each in milliseconds, taken by turns."""
    times = np.full(len(works), np.inf)
    for _ in range(RUNS):
        for number, work in enumerate(works):
            started = perf_counter()
            work()
            times[number] = min(times[number], perf_counter() - started)
    return (1000.0 * times).tolist()


def main() -> None:
    """Print all figures."""
    application(offscreen=True)
    font(100.0)
    for count in (10, 30, 60, 150):
        made = plot(count)
        found: Findings = findings(made)
        style = SheetStyle.of(made, measure(made))
        told = found.of_visit(0)
        pages = describe_sheet(style, 0, findings=told)
        ready = [steps(page) for page in pages] * SHEETS
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "a.pdf"

            def whole(style: SheetStyle = style, path: Path = path, told: Any = told) -> None:
                sheets = (page for _ in range(SHEETS) for page in describe_sheet(style, 0, findings=told))
                write_pdf(sheets, path)

            loop, sheet, painting = best(
                lambda ready=ready, path=path: bare(ready, path),
                whole,
                lambda pages=pages, path=path: write_pdf(list(pages) * SHEETS, path),
            )
        each = len(ready)
        print(
            f"{count:4d} stems, {len(pages)} pages, {len(told)} findings: bare loop {loop / each:5.2f} ms a page,"
            f" sheet {sheet / each:5.2f} ms, ratio {sheet / loop:4.2f}; painting alone {painting / loop:4.2f}"
        )


if __name__ == "__main__":
    main()
