"""The one painter of scenes, for the screen, print preview, PDF, PNG and SVG alike."""

from __future__ import annotations

from itertools import pairwise
from math import ceil
from typing import Final

import numpy as np
from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QImage, QPaintEngine, QPainter, QPen, QPolygonF

from stemmap.drawing.page import Page
from stemmap.drawing.scene import Discs, Floats, Image, Lines, Paths, Polygons, Scene, Stroke, Texts, View
from stemmap.drawing.typeface import CAPITALS, font, widths

#: From this many on, equal discs on a screen or picture are painted once and stamped.
_MANY: Final = 48


def paint(scene: Scene, painter: QPainter, view: View) -> None:
    """Paint a scene on whatever device the painter is open on.

    Parameters
    ----------
    scene
        What is painted; its background is left to the caller.
    painter
        Open; its pen, brush, font and antialiasing are changed.
    view
        How metres and millimetres become units of the device.
    """
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    for shape in scene.shapes:
        match shape:
            case Lines():
                _paint_lines(shape, painter, view)
            case Discs():
                _paint_discs(shape, painter, view)
            case Polygons():
                _paint_polygons(shape, painter, view)
            case Texts():
                _paint_texts(shape, painter, view)
            case Paths():
                _paint_paths(shape, painter, view)
            case Image():
                _paint_image(shape, painter, view)


def paint_page(page: Page, painter: QPainter, per_millimetre: float) -> None:
    """Paint the scenes of a page true to scale; the page's colour is left to the caller."""
    for part in page.parts:
        view = View(
            origin_x=part.x_mm * per_millimetre,
            origin_y=part.y_mm * per_millimetre,
            per_metre=part.millimetres_per_metre * per_millimetre,
            per_millimetre=per_millimetre,
        )
        paint(part.scene, painter, view)


def _pen(stroke: Stroke | None, view: View) -> QPen:
    if stroke is None:
        return QPen(Qt.PenStyle.NoPen)
    # Thinner than one unit a line would fade on a screen; on paper a unit is far below any width used.
    width = max(stroke.width_mm * view.per_millimetre, 1.0)
    pen = QPen(QColor(stroke.colour), width)
    pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    if stroke.dash_mm:
        pen.setDashPattern([length * view.per_millimetre / width for length in stroke.dash_mm])
    return pen


def _brush(fill: str | None) -> QBrush:
    return QBrush(Qt.BrushStyle.NoBrush) if fill is None else QBrush(QColor(fill))


def _paint_lines(lines: Lines, painter: QPainter, view: View) -> None:
    ends = np.hstack([view.to_device(lines.start, lines.start_mm), view.to_device(lines.end, lines.end_mm)])
    painter.setPen(_pen(lines.stroke, view))
    painter.drawLines([QLineF(*line) for line in ends.tolist()])


def _paint_discs(discs: Discs, painter: QPainter, view: View) -> None:
    places = view.to_device(discs.centre, discs.centre_mm)
    radius = np.asarray(discs.radius_m, dtype=float) * view.per_metre + discs.radius_mm * view.per_millimetre
    radius = np.broadcast_to(np.maximum(radius, discs.least_mm * view.per_millimetre), len(places))
    painter.setPen(_pen(discs.stroke, view))
    painter.setBrush(_brush(discs.fill))
    alike = len(places) >= _MANY and np.ptp(radius) == 0.0
    if alike and painter.paintEngine().type() == QPaintEngine.Type.Raster:
        _stamp_discs(places, float(radius[0]), painter)
        return
    for x, y, r in np.column_stack([places, radius]).tolist():
        painter.drawEllipse(QPointF(x, y), r, r)


def _stamp_discs(places: Floats, radius: float, painter: QPainter) -> None:
    """Paint one disc with the painter's pen and brush and put its picture at every place, to the nearest pixel."""
    ratio = painter.device().devicePixelRatioF()
    half = ceil(radius + painter.pen().widthF()) + 1
    stamp = QImage(ceil(2 * half * ratio), ceil(2 * half * ratio), QImage.Format.Format_ARGB32_Premultiplied)
    stamp.setDevicePixelRatio(ratio)
    stamp.fill(Qt.GlobalColor.transparent)
    once = QPainter(stamp)
    once.setRenderHint(QPainter.RenderHint.Antialiasing)
    once.setPen(painter.pen())
    once.setBrush(painter.brush())
    once.drawEllipse(QPointF(half, half), radius, radius)
    once.end()
    for x, y in (places - half).tolist():
        painter.drawImage(QPointF(x, y), stamp)


def _paint_polygons(polygons: Polygons, painter: QPainter, view: View) -> None:
    outline = np.asarray(polygons.outline_m, dtype=float) * view.per_metre
    outline = (outline + np.asarray(polygons.outline_mm, dtype=float) * view.per_millimetre) * (1.0, -1.0)
    painter.setPen(_pen(polygons.stroke, view))
    painter.setBrush(_brush(polygons.fill))
    for place in view.to_device(polygons.place):
        painter.drawPolygon(QPolygonF([QPointF(x, y) for x, y in (place + outline).tolist()]))


def _paint_texts(texts: Texts, painter: QPainter, view: View) -> None:
    size = texts.size_mm * view.per_millimetre
    places = view.to_device(texts.place, texts.offset_mm)
    left = places[:, 0] - widths(texts.texts) * size * texts.align
    baseline = places[:, 1] + size * CAPITALS / 2.0
    painter.setPen(QColor(texts.colour))
    painter.setFont(font(size))
    for x, y, text in zip(left.tolist(), baseline.tolist(), texts.texts, strict=True):
        painter.drawText(QPointF(x, y), text)


def _paint_paths(paths: Paths, painter: QPainter, view: View) -> None:
    points = [QPointF(x, y) for x, y in view.to_device(paths.points, paths.offset_mm).tolist()]
    painter.setPen(_pen(paths.stroke, view))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    draw = painter.drawPolygon if paths.closed else painter.drawPolyline
    first = paths.first.tolist()
    for start, stop in pairwise(first):
        draw(QPolygonF(points[start:stop]))


def _paint_image(image: Image, painter: QPainter, view: View) -> None:
    rows, columns = image.pixels.shape[:2]
    # The picture reads the array's own memory, which outlives it here.
    picture = QImage(image.pixels.data, columns, rows, 4 * columns, QImage.Format.Format_RGBA8888)
    corners = view.to_device(np.array([image.low, image.high]))
    (left, bottom), (right, top) = corners.tolist()
    painter.setOpacity(image.opacity)
    painter.drawImage(QRectF(QPointF(left, top), QPointF(right, bottom)), picture)
    painter.setOpacity(1.0)
