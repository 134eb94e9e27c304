"""Distance and grid azimuth between two points of the map, and the line between them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import atan2, degrees, hypot
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPalette, QPen

from stemmap.desktop.sentences import azimuth_unit, number

if TYPE_CHECKING:
    from stemmap.drawing.overview import Overview
    from stemmap.drawing.scene import View
    from stemmap.survey.settings import Settings

_tr = QCoreApplication.translate
#: Half length of the stroke across an end of the line, and free ground around its words, units of the window.
_STROKE = 5.0
_MARGIN = 4.0


@dataclass(frozen=True)
class MeasuredLine:
    """A line on the map.

    Parameters
    ----------
    start, end
        Metres east and north of the plot centre, or of the base of the whole survey.
    plots
        The whole survey, where the line was drawn on it; None on a plot, whose metres are ground metres.
    """

    start: tuple[float, float]
    end: tuple[float, float]
    plots: Overview | None

    def to(self, end: tuple[float, float]) -> MeasuredLine:
        """The same line with another end."""
        return replace(self, end=end)

    @property
    def distance_m(self) -> float:
        """Horizontal distance on the ground; on the whole survey along the ellipsoid WGS 84."""
        if self.plots is None or self.plots.crs is None:
            return hypot(self.end[0] - self.start[0], self.end[1] - self.start[1])
        from pyproj import Geod

        lon, lat = self.plots.geographic([self.start, self.end])
        *_, distance = Geod(ellps="WGS84").inv(lon[0], lat[0], lon[1], lat[1])
        return float(distance)

    @property
    def grid_azimuth_deg(self) -> float:
        """Grid azimuth from start to end."""
        return degrees(atan2(self.end[0] - self.start[0], self.end[1] - self.start[1])) % 360.0

    def sentence(self, settings: Settings) -> str:
        """Distance and grid azimuth in words, the azimuth in the survey's unit."""
        return _tr("measuring", "{distance} m, grid azimuth {azimuth}").format(
            distance=number(self.distance_m, 2), azimuth=azimuth_words(self.grid_azimuth_deg, settings)
        )

    def paint(self, painter: QPainter, palette: QPalette, view: View, words: str) -> None:
        """Paint the line with a stroke across each end and the words beside its middle."""
        import numpy as np

        (x, y), (other_x, other_y) = view.to_device(np.array([self.start, self.end])).tolist()
        length = hypot(other_x - x, other_y - y)
        across = ((other_y - y) / length, -(other_x - x) / length) if length else (1.0, 0.0)
        lines = [QLineF(x, y, other_x, other_y)]
        for at_x, at_y in ((x, y), (other_x, other_y)):
            east, north = _STROKE * across[0], _STROKE * across[1]
            lines.append(QLineF(at_x - east, at_y - north, at_x + east, at_y + north))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for role, width in ((QPalette.ColorRole.Base, 4.0), (QPalette.ColorRole.Highlight, 2.0)):
            painter.setPen(QPen(palette.color(role), width))
            painter.drawLines(lines)
        box = QRectF(painter.fontMetrics().boundingRect(words)).adjusted(-_MARGIN, -_MARGIN, _MARGIN, _MARGIN)
        box.moveCenter(QPointF((x + other_x) / 2.0, (y + other_y) / 2.0 - box.height()))
        painter.fillRect(box, palette.color(QPalette.ColorRole.Base))
        painter.setPen(palette.color(QPalette.ColorRole.Text))
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, words)


def azimuth_words(grid_azimuth_deg: float, settings: Settings) -> str:
    """A grid azimuth in the survey's unit."""
    from stemmap.core.bearings import from_degrees

    value = float(from_degrees(grid_azimuth_deg, settings.measurement.azimuth_unit))
    return f"{number(value, 1)}{azimuth_unit(settings)}"
