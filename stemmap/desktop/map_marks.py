"""What the window itself paints over the map: scale bar, north arrow and legend in the corners, rings, words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QLineF, QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPalette, QPen

from stemmap.desktop.map_request import LEGEND_MM

if TYPE_CHECKING:
    from stemmap.drawing.palette import Theme
    from stemmap.drawing.scene import Scene, View


def paint_corners(
    painter: QPainter,
    room: QRect,
    view: View,
    *,
    north: Scene,
    legend: Scene | None,
    theme: Theme,
    length_unit: str,
) -> None:
    """Scale bar, north arrow and legend stay in their corners."""
    from stemmap.drawing.ground import scale_bar
    from stemmap.drawing.painter import paint
    from stemmap.drawing.scene import View

    bar = scale_bar(view.millimetres_per_metre, theme, length_unit=length_unit)
    per_mm, width, height = view.per_millimetre, room.width(), room.height()
    paint(bar, painter, View(2.5 * per_mm, height - 2.5 * per_mm, per_mm, per_mm))
    if legend is not None:
        left, tall = width - LEGEND_MM * per_mm, -legend.box.low[1] * per_mm
        ground = QColor(theme.page)
        ground.setAlphaF(0.85)
        painter.fillRect(QRectF(left - per_mm, height - tall - 2.0 * per_mm, width, tall + 2.0 * per_mm), ground)
        paint(legend, painter, View(left, height - tall - per_mm, per_mm, per_mm))
    half = north.box.high_mm[0]
    paint(north, painter, View((half + 2.0) * per_mm, 12.0 * per_mm, per_mm, per_mm))


def paint_ring(painter: QPainter, palette: QPalette, place: QPointF, reach: float, *, strong: bool) -> None:
    """A ring around a mark, kept apart from its ground by a second one in the colour of the ground."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for role, width in ((QPalette.ColorRole.Base, 5.0), (QPalette.ColorRole.Highlight, 3.0)):
        painter.setPen(QPen(palette.color(role), width if strong else width - 1.5))
        painter.drawEllipse(place, reach, reach)


def paint_cross(painter: QPainter, palette: QPalette, place: QPointF) -> None:
    """A cross at a place that was asked for."""
    x, y = place.x(), place.y()
    arms = [QLineF(x - 12.0, y, x + 12.0, y), QLineF(x, y - 12.0, x, y + 12.0)]
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    for role, width in ((QPalette.ColorRole.Base, 5.0), (QPalette.ColorRole.Highlight, 2.5)):
        painter.setPen(QPen(palette.color(role), width))
        painter.drawLines(arms)


def paint_frame(painter: QPainter, palette: QPalette, room: QRect) -> None:
    """A line around the map that has the focus."""
    painter.setPen(QPen(palette.color(QPalette.ColorRole.Highlight), 1.0))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(QRectF(room).adjusted(0.5, 0.5, -0.5, -0.5))


def paint_words(painter: QPainter, palette: QPalette, room: QRect, words: str) -> None:
    """A sentence in place of a map."""
    painter.fillRect(room, palette.color(QPalette.ColorRole.Window))
    painter.setPen(palette.color(QPalette.ColorRole.WindowText))
    inner = room.adjusted(20, 20, -20, -20)
    painter.drawText(inner, Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap, words)
