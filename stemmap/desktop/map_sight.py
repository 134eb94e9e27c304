"""Which ground is in sight on the map: one plot or the whole survey, how far it is zoomed and where it lies."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QTimer, Signal, Slot
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QWidget

from stemmap.desktop.jobs import Jobs
from stemmap.desktop.map_layers import MapLayers
from stemmap.desktop.map_request import DescribedMap, legend_room
from stemmap.desktop.session import WHOLE_SURVEY, Session
from stemmap.desktop.survey_map import SurveyMap

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from stemmap.drawing.scene import Box, View

#: Millimetres of the letter body that are as high as the window's own letters.
_WORDS_MM = 3.0
STEP = 1.25
_MOST_ZOOM = 60.0
#: Below this share of the scale at which a plot fits, the whole survey comes into sight.
_LEAST_ZOOM = 0.3
#: Largest scale of the whole survey, millimetres per metre, and how far it can be reduced below fitting.
_MOST_MM = 40.0
_LEAST_SHARE = 0.5
#: Ground shown around coordinates that were asked for.
_AROUND_M = 250.0
#: Room of the north arrow with its word left of all plots, millimetres.
_NORTH_MM = 16.0


class MapSight(QWidget):
    """Moves and zooms over one plot or all of them, and passes over from one to the other.

    Signals
    -------
    described
        Another scene is shown.
    moved
        The ground lies elsewhere on the widget.
    """

    described = Signal()
    moved = Signal()

    def __init__(self, session: Session, jobs: Jobs, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self._jobs = session, jobs
        self.survey = SurveyMap(session, jobs, self)
        self.layers = MapLayers(self)
        self._shown: DescribedMap | None = None
        self._view: View | None = None
        self._fitted = True
        self._is_far = self._far_wanted = False
        self._selecting = False
        self.hovered = -1
        self.pin: tuple[float, float] | None = None
        self._wait = QTimer(self, interval=60, singleShot=True)
        self._wait.timeout.connect(self._on_settled)

    def _request(self) -> None:
        """Have the map described for the present plot, colours and scale."""
        raise NotImplementedError

    @property
    def moving(self) -> bool:
        """Whether the map has not come to rest since it was zoomed, moved or resized."""
        return self._wait.isActive()

    @property
    def is_far(self) -> bool:
        """Whether the whole survey is shown, not one plot."""
        return self._is_far

    @property
    def shown(self) -> DescribedMap | None:
        """The plot shown; None before the first one is ready, and while the whole survey is shown."""
        return None if self._is_far else self._shown

    @property
    def view(self) -> View | None:
        """How the ground lies on the widget."""
        return self._view

    @property
    def scale(self) -> float:
        """Denominator of the scale on this screen, by its physical size; 0 without a map."""
        return 1000.0 * self._per_true_millimetre / self._view.per_metre if self._view is not None else 0.0

    @property
    def _per_true_millimetre(self) -> float:
        screen = self.screen()
        dots = screen.physicalDotsPerInchX()
        # Screens that do not know their size tell nonsense.
        return (dots if 40.0 <= dots <= 800.0 else screen.logicalDotsPerInchX()) / 25.4

    @property
    def _per_millimetre(self) -> float:
        """Units of the window in a millimetre, such that words on the map are as high as those of the window."""
        return self.fontInfo().pixelSize() / _WORDS_MM

    def to_device(self, east_north_m: NDArray[np.float64]) -> NDArray[np.float64]:
        """Places on the ground, metres from the centre, as places on the widget; shape (n, 2)."""
        return self._view.to_device(east_north_m) if self._view is not None else east_north_m

    # what the window asks for

    @Slot()
    def zoom_in(self) -> None:
        """Enlarge the map around its middle."""
        self.zoom(STEP, QPointF(self.rect().center()))

    @Slot()
    def zoom_out(self) -> None:
        """Reduce the map around its middle."""
        self.zoom(1.0 / STEP, QPointF(self.rect().center()))

    @Slot()
    def fit(self) -> None:
        """Show the whole plot, or all plots."""
        self._fitted = True
        if self._is_far:
            self._fit_survey()
        elif self._shown is not None:
            self._set_view(self._fitting(self._shown))

    @Slot()
    def show_survey(self) -> None:
        """Show all plots at their places; the selected one keeps its ring."""
        self._is_far = self._far_wanted = self._fitted = True
        self._fit_survey()
        self.described.emit()

    @Slot()
    def show_plot(self) -> None:
        """Show the selected plot as large as it fits."""
        if self._session.visit != WHOLE_SURVEY:
            self._far_wanted, self._fitted = False, True
            self._request()
            if not self._is_far:
                self.fit()

    def show_box(self, box: Box) -> None:
        """Show a part of the whole survey."""
        if self._is_far:
            self._fitted = False
            self._set_view(self._far_fitting(box))

    def show_place(self, place: tuple[float, float] | None) -> None:
        """Bring a place among all plots into the middle and mark it with a cross; None takes the cross away."""
        from stemmap.drawing.scene import Box

        self.pin = place
        self.update()
        if place is not None:
            self.show_survey()
            east, north = place
            self.show_box(Box((east - _AROUND_M, north - _AROUND_M), (east + _AROUND_M, north + _AROUND_M)))

    def set_scale(self, denominator: int) -> None:
        """Show the map true to scale on this screen, around its middle."""
        if self._view is not None:
            self.zoom(self.scale / denominator, QPointF(self.rect().center()))

    def select_here(self, visit: int) -> None:
        """Select a plot while the map stays where it is."""
        self._selecting = True
        self._session.select_visit(visit)
        self._selecting = False

    # moving

    def _fitting(self, described: DescribedMap) -> View:
        return described.fitting(self.width(), self.height())

    def _far_fitting(self, box: Box) -> View:
        from stemmap.drawing.scene import View

        free = self.width() - legend_room(self.layers.value, self.width(), self._per_millimetre)
        (left, bottom) = box.low_mm
        beside = replace(box, low_mm=(min(left, -_NORTH_MM), bottom))
        return View.fitting(beside, max(free, 1.0), self.height(), self._per_millimetre)

    def _fit_survey(self) -> None:
        box = self.survey.box
        if box is None:
            self._view = None
            self.update()
        else:
            self._set_view(self._far_fitting(box))

    def _set_view(self, view: View) -> None:
        self._view = view
        self._wait.start()
        self.update()
        self.moved.emit()

    def zoom(self, factor: float, at: QPointF) -> None:
        """Enlarge by a factor, the ground under a point staying where it is; over from one plot to all and back."""
        if self._view is None:
            return
        here = self._view.per_metre
        if self._is_far:
            box = self.survey.box
            if box is not None:
                least = _LEAST_SHARE * self._far_fitting(box).per_metre
                most = max(_MOST_MM * self._view.per_millimetre, here)
                self._far_to(self._view, min(max(here * factor, min(least, here)), most), at)
                self._enter(at)
        elif self._shown is not None:
            whole = self._fitting(self._shown).per_metre
            far = self.survey.far(self._view, self._shown.request.visit)
            if factor < 1.0 and here * factor < whole * _LEAST_ZOOM and far is not None:
                self._leave(far)
                self._far_to(far, here * factor, at)
                return
            wanted = min(max(here * factor, whole * _LEAST_ZOOM), whole * _MOST_ZOOM)
            self._fitted = False
            self._set_view(self._view.zoomed(wanted / here, at.x(), at.y()))

    def _far_to(self, view: View, per_metre: float, at: QPointF) -> None:
        self._fitted = False
        self._set_view(view.zoomed(per_metre / view.per_metre, at.x(), at.y()))

    def _leave(self, far: View) -> None:
        """Go over from a plot to all of them."""
        self._is_far = self._far_wanted = True
        self._fitted = False
        self.hovered = -1
        self._set_view(far)
        self.described.emit()

    def _enter(self, at: QPointF) -> None:
        """Go over into the plot at a point when the map is large enough."""
        if self._view is None or not self._far_wanted:
            return
        visit = self.survey.entered(self._view, at, min(self.width(), self.height()))
        if visit >= 0:
            self._far_wanted = False
            self.select_here(visit)
            self._request()

    def pan(self, x: float, y: float) -> None:
        """Move the map by units of the window; past the rim of a plot the others come into sight."""
        if self._view is None:
            return
        self._fitted = False
        self._set_view(self._view.moved(x, y))
        if not self._is_far and self._shown is not None:
            view, reach = self._view, self._shown.frame.high[0] * self._view.per_metre
            beyond = not -reach < view.origin_x < self.width() + reach
            if beyond or not -reach < view.origin_y < self.height() + reach:
                far = self.survey.far(view, self._shown.request.visit)
                if far is not None:
                    self._leave(far)

    @Slot()
    def _on_settled(self) -> None:
        """Once the map stands still, numbers are placed anew when its scale has changed."""
        self.update()
        if self._is_far:
            self._enter(QPointF(self.rect().center()))
        elif (
            self._shown is not None
            and self._view is not None
            and abs(self._view.per_metre / self._shown.view.per_metre - 1.0) > 1e-6
        ):
            self._request()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Suit the picture to the new size."""
        super().resizeEvent(event)
        if self._fitted:
            self.fit()
        elif self._view is not None:
            old = event.oldSize()
            self._set_view(self._view.moved((self.width() - old.width()) / 2.0, (self.height() - old.height()) / 2.0))
