"""The view of the map: the whole survey or one plot, as far as it is zoomed; knows nothing of pointer and keys."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, QEvent, QPointF, QSize, Qt, QTimer, Signal, Slot
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QWidget

from stemmap.desktop.jobs import Jobs
from stemmap.desktop.map_backgrounds import MapBackgrounds
from stemmap.desktop.map_layers import MapLayers
from stemmap.desktop.map_marks import Corners, paint_cross, paint_frame, paint_ring, paint_survey_grid, paint_words
from stemmap.desktop.map_picture import MapPicture
from stemmap.desktop.map_request import LEGEND_MM, DescribedMap, MapRequest, describe_map, theme_of
from stemmap.desktop.palettes import is_dark
from stemmap.desktop.session import WHOLE_SURVEY, Session
from stemmap.desktop.survey_map import SurveyMap, describe_survey

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from stemmap.drawing.scene import Box, View

_tr = QCoreApplication.translate
#: Millimetres of the letter body that are as high as the window's own letters.
_WORDS_MM = 3.0
#: Milliseconds for which the map of another plot is still shown while the new one is being described.
_PATIENCE = 200
#: Free ground between a selected stem and its ring.
_RING = 7.0
STEP = 1.25
_MOST_ZOOM = 60.0
#: Below this share of the scale at which a plot fits, the whole survey comes into sight.
_LEAST_ZOOM = 0.3
#: Largest scale of the whole survey, millimetres per metre, and how far it can be reduced below fitting.
_MOST_MM = 40.0
_LEAST_SHARE = 0.5
#: Ground shown around coordinates that were asked for.
_AROUND_M = 250.0


class MapView(QWidget):
    """Shows the session's plot and its selected stem, or all plots at their places.

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
        self.backgrounds = MapBackgrounds(session, jobs, self.survey, self)
        self._shown: DescribedMap | None = None
        self._view: View | None = None
        self._fitted = True
        self._is_far = self._far_wanted = False
        self._selecting = False
        self._picture = MapPicture(jobs, self)
        self._corners = Corners()
        self._picture.renewed.connect(self.update)
        self.hovered = -1
        self.pin: tuple[float, float] | None = None
        self._wait = QTimer(self, interval=60, singleShot=True)
        self._wait.timeout.connect(self._on_settled)
        self._late = QTimer(self, interval=_PATIENCE, singleShot=True)
        self._late.timeout.connect(self._on_late)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setMinimumSize(240, 180)
        session.replaced.connect(self._on_replaced)
        session.visit_selected.connect(self._on_visit_selected)
        session.stem_selected.connect(self._on_stem_selected)
        self.survey.made.connect(self._on_plots_made)
        self.layers.changed.connect(self._on_layers_changed)
        self.backgrounds.changed.connect(self._on_layers_changed)

    # what the window asks for

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
        self._late.stop()
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

    @property
    def scale(self) -> float:
        """Denominator of the scale on this screen, by its physical size; 0 without a map."""
        return 1000.0 * self._per_true_millimetre / self._view.per_metre if self._view is not None else 0.0

    def set_scale(self, denominator: int) -> None:
        """Show the map true to scale on this screen, around its middle."""
        if self._view is not None:
            self.zoom(self.scale / denominator, QPointF(self.rect().center()))

    @property
    def _per_true_millimetre(self) -> float:
        screen = self.screen()
        dots = screen.physicalDotsPerInchX()
        # Screens that do not know their size tell nonsense.
        return (dots if 40.0 <= dots <= 800.0 else screen.logicalDotsPerInchX()) / 25.4

    def place_of(self, stem: int) -> QPointF | None:
        """Where a stem is on the widget; None when it is not drawn."""
        return self._mark(stem)[0]

    def reach_of(self, stem: int) -> float:
        """Radius of the ring around a stem that is selected."""
        return self._mark(stem)[1] + _RING

    def to_device(self, east_north_m: NDArray[np.float64]) -> NDArray[np.float64]:
        """Places on the ground, metres from the centre, as places on the widget; shape (n, 2)."""
        return self._view.to_device(east_north_m) if self._view is not None else east_north_m

    # following the session

    @Slot()
    def _on_replaced(self) -> None:
        workup, shown = self._session.workup, self._shown
        if (
            shown is None
            or workup is None
            or shown.request.visit != self._session.visit
            or workup.survey.upload is not shown.request.workup.survey.upload
        ):
            self._on_visit_selected()
        else:
            self._request()

    @Slot()
    def _on_visit_selected(self) -> None:
        self.hovered = -1
        if self._selecting:
            self.update()
            return
        if self._session.workup is None:
            self._on_late()
        elif self._session.visit == WHOLE_SURVEY:
            self.show_survey()
        else:
            self._fitted, self._far_wanted = True, False
            self._late.start()
            self._request()

    def select_here(self, visit: int) -> None:
        """Select a plot while the map stays where it is."""
        self._selecting = True
        self._session.select_visit(visit)
        self._selecting = False

    @Slot()
    def _on_late(self) -> None:
        """Show no other plot's map any longer; the one wanted takes its time."""
        self._shown = self._view = None
        self._is_far = False
        self.update()
        self.described.emit()

    @Slot()
    def _on_stem_selected(self) -> None:
        if self._is_far and self._session.stem >= 0 and not self._selecting and self._far_wanted:
            self.show_plot()
        place, _ = self._mark(self._session.stem)
        if place is not None and self._view is not None and not self.rect().contains(place.toPoint()):
            middle = QPointF(self.rect().center())
            self._set_view(self._view.moved(middle.x() - place.x(), middle.y() - place.y()))
        self.update()

    @Slot()
    def _on_plots_made(self) -> None:
        if self._is_far:
            if self._fitted or self._view is None:
                self._fit_survey()
            self.update()
            self.described.emit()

    @Slot()
    def _on_layers_changed(self) -> None:
        if self._is_far:
            self.fit() if self._fitted else self.update()
        self._request()

    def _request(self) -> None:
        """Have the map described for the present plot, colours and scale."""
        workup, visit = self._session.workup, self._session.visit
        if workup is None or visit == WHOLE_SURVEY or self._far_wanted:
            return
        view = self._view
        if self._is_far and view is not None:
            view = self.survey.near(view, visit)
        request = MapRequest(
            workup=workup,
            visit=visit,
            findings=tuple(self._session.findings),
            dark=is_dark(self.palette()),
            width=self.width(),
            height=self.height(),
            per_millimetre=self._per_millimetre,
            view=None if self._fitted else view,
            layers=self.layers.value,
            backgrounds=self.backgrounds.shown,
        )
        self._jobs.start(
            "map", lambda progress: describe_map(request, progress), apply=self._show, shown=False
        )

    @property
    def _per_millimetre(self) -> float:
        """Units of the window in a millimetre, such that words on the map are as high as those of the window."""
        return self.fontInfo().pixelSize() / _WORDS_MM

    def _show(self, described: DescribedMap) -> None:
        if self._far_wanted:
            return
        another = self._shown is None or self._shown.request.visit != described.request.visit
        view = self._view
        if self._is_far and view is not None:
            # The plot was zoomed into; its ground lies where it lay among the others.
            view, another = self.survey.near(view, described.request.visit), False
        self._shown, self._is_far = described, False
        self._late.stop()
        self._view = self._fitting(described) if self._fitted or another or view is None else view
        self.update()
        self.described.emit()
        self.moved.emit()

    def _fitting(self, described: DescribedMap) -> View:
        return described.fitting(self.width(), self.height())

    def _far_fitting(self, box: Box) -> View:
        from stemmap.drawing.scene import View

        free = self.width() - (LEGEND_MM * self._per_millimetre if self.layers.value.legend else 0.0)
        return View.fitting(box, max(free, 1.0), self.height(), self._per_millimetre)

    def _fit_survey(self) -> None:
        box = self.survey.box
        if box is None:
            self._view = None
            self.update()
        else:
            self._set_view(self._far_fitting(box))

    # moving

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

    # painting

    def _mark(self, stem: int) -> tuple[QPointF | None, float]:
        """Place and radius of a stem's mark on the widget."""
        stems = None if self.shown is None else self.shown.scene.stems
        if stem < 0 or stems is None or self._view is None:
            return None, 0.0
        import numpy as np

        found = np.searchsorted(stems.row, stem)
        if found == len(stems.row) or stems.row[found] != stem:
            return None, 0.0
        x, y = self._view.to_device(stems.place[found : found + 1])[0].tolist()
        radius = float(
            stems.radius_m[found] * self._view.per_metre + stems.radius_mm[found] * self._view.per_millimetre
        )
        return QPointF(x, y), radius

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the map, its corners and the rings around stems."""
        painter = QPainter(self)
        if self._is_far and self._view is not None:
            self._paint_survey(painter, self._view)
        elif self._shown is not None and self._view is not None:
            self._paint_plot(painter, self._shown, self._view)
        else:
            paint_words(painter, self.palette(), self.rect(), self._words)
            return
        self.paint_tools(painter)
        if self.hasFocus():
            paint_frame(painter, self.palette(), self.rect())

    def paint_tools(self, painter: QPainter) -> None:
        """Paint what the pointer is at; nothing here."""

    def _paint_plot(self, painter: QPainter, shown: DescribedMap, view: View) -> None:
        self._picture.paint(
            painter, view, (shown.scene,), lambda _view, _room: shown.scene, moving=self.moving
        )
        self._corners.paint(
            painter,
            self.rect(),
            view,
            north=shown.north,
            legend=shown.legend,
            theme=theme_of(dark=shown.request.dark),
            length_unit=shown.request.workup.survey.settings.measurement.length_unit,
        )
        for stem, strong in ((self.hovered, False), (self._session.stem, True)):
            place, radius = self._mark(stem)
            if place is not None:
                paint_ring(painter, self.palette(), place, radius + (_RING if strong else 4.0), strong=strong)

    def _paint_survey(self, painter: QPainter, view: View) -> None:
        dark, layers = is_dark(self.palette()), self.layers.value
        plots, corners, workup = self.survey.plots, self.survey.corners(dark=dark), self._session.workup
        if plots is None or plots.crs is None or corners is None or workup is None:
            paint_words(painter, self.palette(), self.rect(), self._words)
            return
        backgrounds = self.backgrounds.shown
        self._picture.paint(
            painter,
            view,
            (plots, dark, layers, backgrounds),
            lambda wide, room: describe_survey(
                plots, wide, room, dark=dark, layers=layers, backgrounds=backgrounds
            ),
            moving=self.moving,
        )
        if layers.projected_grid:
            paint_survey_grid(painter, self.rect(), view, plots, theme_of(dark=dark))
        self._corners.paint(
            painter,
            self.rect(),
            view,
            north=corners[0],
            legend=corners[1] if layers.legend else None,
            theme=theme_of(dark=dark),
            length_unit=workup.survey.settings.measurement.length_unit,
        )
        mark = self.survey.mark_of(view, self._session.visit)
        if mark is not None:
            paint_ring(painter, self.palette(), mark[0], mark[1] + 4.0, strong=True)
        if self.pin is not None:
            east, north = self.pin
            at = QPointF(view.origin_x + east * view.per_metre, view.origin_y - north * view.per_metre)
            paint_cross(painter, self.palette(), at)

    @property
    def _words(self) -> str:
        """What is said where there is no map."""
        if self._is_far and self.survey.plots is not None:
            return " ".join(
                [*self.survey.plots.notes, _tr("map_view", "Choose a plot in the list to see its map.")]
            )
        if self._session.workup is None:
            return _tr("map_view", "Choose a plot in the list to see its map.")
        return _tr("map_view", "Drawing the map…")

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Suit the picture to the new size."""
        super().resizeEvent(event)
        if self._fitted:
            self.fit()
        elif self._view is not None:
            old = event.oldSize()
            self._set_view(
                self._view.moved((self.width() - old.width()) / 2.0, (self.height() - old.height()) / 2.0)
            )

    def changeEvent(self, event: QEvent) -> None:
        """Suit the picture to other colours or letters."""
        super().changeEvent(event)
        if (
            event.type() in (QEvent.Type.PaletteChange, QEvent.Type.FontChange)
            and self._session.workup is not None
        ):
            if self._is_far and self._view is not None:
                self._set_view(replace(self._view, per_millimetre=self._per_millimetre))
            self._request()

    def sizeHint(self) -> QSize:
        """Size that suits the content."""
        return QSize(640, 480)
