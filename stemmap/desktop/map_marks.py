"""What the window itself paints over the map: scale bar, north arrow and legend in the corners, rings, words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QLineF, QPointF, QRect, QRectF, QSizeF, Qt
from PySide6.QtGui import QColor, QPainter, QPalette, QPen, QPixmap, QRegion

from stemmap.desktop.map_request import LEGEND_MM

if TYPE_CHECKING:
    from stemmap.drawing.overview import Overview
    from stemmap.drawing.palette import Theme
    from stemmap.drawing.scene import Scene, View


class Corners:
    """Scale bar, north arrow and legend, which stay in their corners; the last two are kept as pictures."""

    def __init__(self) -> None:
        self._kept: dict[str, tuple[Scene, tuple[float, float], QPixmap]] = {}
        self._ratio = 1.0

    def paint(
        self,
        painter: QPainter,
        room: QRect,
        view: View,
        *,
        north: Scene,
        legend: Scene | None,
        theme: Theme,
        length_unit: str,
    ) -> None:
        """Paint them over a map."""
        from stemmap.drawing.ground import scale_bar
        from stemmap.drawing.painter import paint
        from stemmap.drawing.scene import View

        self._ratio = painter.device().devicePixelRatioF()
        bar = scale_bar(view.millimetres_per_metre, theme, length_unit=length_unit)
        per_mm, width, height = view.per_millimetre, room.width(), room.height()
        paint(bar, painter, View(2.5 * per_mm, height - 2.5 * per_mm, per_mm, per_mm))
        half = north.box.high_mm[0] + 2.0
        arrow = self._picture(
            "north",
            north,
            QSizeF(2.0 * half, 16.0),
            origin_mm=(half, 12.0),
            per_mm=per_mm,
            ground=QColor(Qt.GlobalColor.transparent),
        )
        painter.drawPixmap(QPointF(0.0, 0.0), arrow)
        if legend is not None:
            ground = QColor(theme.page)
            ground.setAlphaF(0.85)
            size = QSizeF(LEGEND_MM + 1.0, 2.0 - legend.box.low[1])
            at = QPointF(width - size.width() * per_mm, height - size.height() * per_mm)
            picture = self._picture("legend", legend, size, origin_mm=(1.0, 1.0), per_mm=per_mm, ground=ground)
            painter.drawPixmap(at, picture)

    def _picture(
        self,
        name: str,
        scene: Scene,
        size_mm: QSizeF,
        *,
        origin_mm: tuple[float, float],
        per_mm: float,
        ground: QColor,
    ) -> QPixmap:
        """The kept picture of a scene whose origin lies some millimetres right of and below its corner."""
        from stemmap.drawing.painter import paint
        from stemmap.drawing.scene import View

        kept = self._kept.get(name)
        if kept is None or kept[0] is not scene or kept[1] != (per_mm, self._ratio):
            picture = QPixmap((size_mm * per_mm * self._ratio).toSize())
            picture.setDevicePixelRatio(self._ratio)
            picture.fill(ground)
            inner = QPainter(picture)
            paint(scene, inner, View(origin_mm[0] * per_mm, origin_mm[1] * per_mm, per_mm, per_mm))
            inner.end()
            kept = self._kept[name] = (scene, (per_mm, self._ratio), picture)
        return kept[2]


def paint_survey_grid(painter: QPainter, room: QRect, view: View, plots: Overview, theme: Theme) -> None:
    """Lines of round easting and northing over all plots, their figures at the rim of the map."""
    from stemmap.drawing.overview_map import describe_grid
    from stemmap.drawing.painter import paint

    paint(describe_grid(plots, view, room.width(), room.height(), theme=theme), painter, view)


def paint_ring(painter: QPainter, palette: QPalette, place: QPointF, reach: float, *, strong: bool) -> None:
    """A ring around a mark, kept apart from its ground by a second one in the colour of the ground."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for role, width in ((QPalette.ColorRole.Base, 5.0), (QPalette.ColorRole.Highlight, 3.0)):
        painter.setPen(QPen(palette.color(role), width if strong else width - 1.5))
        painter.drawEllipse(place, reach, reach)


def words_near(scene: Scene, view: View, place: QPointF, reach: float) -> QRegion:
    """The ground under numbers and letters of a map that a ring would run through."""
    from stemmap.drawing.scene import Texts
    from stemmap.drawing.typeface import widths

    found = QRegion()
    for shape in scene.shapes:
        if not isinstance(shape, Texts) or not shape.texts:
            continue
        high = shape.size_mm * view.per_millimetre
        places = view.to_device(shape.place, shape.offset_mm)
        wide = widths(shape.texts) * high
        left = places[:, 0] - wide * shape.align
        near = (left < place.x() + reach) & (left + wide > place.x() - reach)
        near &= abs(places[:, 1] - place.y()) < reach + high / 2.0
        for x, y, width in zip(left[near].tolist(), places[near, 1].tolist(), wide[near].tolist(), strict=True):
            found += QRectF(x - 1.5, y - high / 2.0, width + 3.0, high).toAlignedRect()
    return found


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
