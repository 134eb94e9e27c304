"""Paints the map of the window: one plot or the whole survey, north arrow, scale bar and legend, rings and cross."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF
from PySide6.QtGui import QPainter, QRegion
from PySide6.QtWidgets import QWidget

from stemmap.desktop.jobs import Jobs
from stemmap.desktop.map_marks import Corners, paint_cross, paint_ring, paint_survey_grid, words_near
from stemmap.desktop.map_picture import MapPicture
from stemmap.desktop.map_request import DescribedMap, legend_room, theme_of
from stemmap.desktop.palettes import is_dark
from stemmap.desktop.survey_map import SurveyMap, describe_survey

if TYPE_CHECKING:
    from stemmap.drawing.layers import Layers
    from stemmap.drawing.overview import Overview
    from stemmap.drawing.scene import Scene, View
    from stemmap.survey.background import Background

#: Pen of a ring with the line that sets it off, pixels.
_RING_WIDTH = 5.0


class MapPainting:
    """Paints on a widget and keeps what was painted, as long as it is the same.

    Parameters
    ----------
    jobs
        Who paints what takes long.
    widget
        Painted anew when that is ready.
    """

    def __init__(self, jobs: Jobs, widget: QWidget) -> None:
        self._widget = widget
        self._picture = MapPicture(jobs, widget)
        self._picture.renewed.connect(widget.update)
        self._corners = Corners()

    def plot(
        self,
        painter: QPainter,
        shown: DescribedMap,
        view: View,
        *,
        rings: Iterable[tuple[QPointF, float, bool]],
        moving: bool,
    ) -> None:
        """Paint one plot.

        Parameters
        ----------
        painter
            Open on the widget.
        shown, view
            The plot, and how its ground lies on the widget.
        rings
            Middle and radius of the rings around stems, and whether each is a strong one.
        moving
            Whether the map is being moved.
        """
        self._picture.paint(painter, view, (shown.scene,), lambda _view, _room: shown.scene, moving=moving)
        self._paint_corners(
            painter,
            view,
            shown.north,
            shown.legend,
            dark=shown.request.dark,
            length_unit=shown.request.workup.survey.settings.measurement.length_unit,
        )
        for place, radius, strong in rings:
            # A number beside a stem stays legible: the ring leaves it out.
            painter.setClipRegion(
                QRegion(self._widget.rect()) - words_near(shown.scene, view, place, radius + _RING_WIDTH)
            )
            paint_ring(painter, self._widget.palette(), place, radius, strong=strong)
        painter.setClipping(False)

    def survey(
        self,
        painter: QPainter,
        survey: SurveyMap,
        plots: Overview,
        view: View,
        *,
        layers: Layers,
        backgrounds: tuple[Background, ...],
        length_unit: str,
        visit: int,
        pin: tuple[float, float] | None,
        moving: bool,
    ) -> None:
        """Paint all plots.

        Parameters
        ----------
        painter
            Open on the widget.
        survey, plots, view
            The plots, and how their ground lies on the widget.
        layers, backgrounds, length_unit
            What is drawn, the user's own ground below it, and the unit of the scale bar.
        visit
            The selected visit, whose plot gets a ring.
        pin
            A place that gets a cross.
        moving
            Whether the map is being moved.
        """
        dark = is_dark(self._widget.palette())
        self._picture.paint(
            painter,
            view,
            (plots, dark, layers, backgrounds),
            lambda wide, room: describe_survey(plots, wide, room, dark=dark, layers=layers, backgrounds=backgrounds),
            moving=moving,
        )
        if layers.projected_grid:
            paint_survey_grid(painter, self._widget.rect(), view, plots, theme_of(dark=dark))
        corners = survey.corners(dark=dark)
        if corners is not None:
            north, legend = corners
            self._paint_corners(
                painter,
                view,
                north,
                legend if legend_room(layers, self._widget.width(), view.per_millimetre) else None,
                dark=dark,
                length_unit=length_unit,
            )
        mark = survey.mark_of(view, visit)
        if mark is not None:
            paint_ring(painter, self._widget.palette(), mark[0], mark[1] + 4.0, strong=True)
        if pin is not None:
            east, north_m = pin
            at = QPointF(view.origin_x + east * view.per_metre, view.origin_y - north_m * view.per_metre)
            paint_cross(painter, self._widget.palette(), at)

    def _paint_corners(
        self,
        painter: QPainter,
        view: View,
        north: Scene,
        legend: Scene | None,
        *,
        dark: bool,
        length_unit: str,
    ) -> None:
        self._corners.paint(
            painter,
            self._widget.rect(),
            view,
            north=north,
            legend=legend,
            theme=theme_of(dark=dark),
            length_unit=length_unit,
        )
