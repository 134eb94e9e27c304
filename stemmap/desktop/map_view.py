"""The map of the session: follows what is open and selected, has it described off the GUI thread, and paints it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, QEvent, QPointF, QSize, Qt, QTimer, Slot
from PySide6.QtGui import QPainter, QPaintEvent, QRegion
from PySide6.QtWidgets import QWidget

from stemmap.desktop.jobs import Jobs
from stemmap.desktop.map_backgrounds import MapBackgrounds
from stemmap.desktop.map_marks import paint_frame, paint_words, words_near
from stemmap.desktop.map_painting import MapPainting
from stemmap.desktop.map_request import DescribedMap, MapRequest, describe_map
from stemmap.desktop.map_sight import MapSight
from stemmap.desktop.palettes import is_dark
from stemmap.desktop.session import WHOLE_SURVEY, Opened, Session

if TYPE_CHECKING:
    from stemmap.drawing.layers import Layers

_tr = QCoreApplication.translate
#: Milliseconds for which the map of another plot is still shown while the new one is being described.
_PATIENCE = 200
#: A plot of more stems is not described ahead.
_MANY_STEMS = 400
#: Free ground between a stem and its ring: one that is selected, and one under the pointer.
_RING, _THIN_RING = 7.0, 4.0


class MapView(MapSight):
    """Shows the session's plot and its selected stem, or all plots at their places; knows no pointer and no keys."""

    def __init__(self, session: Session, jobs: Jobs, parent: QWidget | None = None) -> None:
        super().__init__(session, jobs, parent)
        self.backgrounds = MapBackgrounds(session, jobs, self.survey, self)
        self._painting = MapPainting(jobs, self)
        self._asked: Layers | None = None
        self._made: DescribedMap | None = None
        self._late = QTimer(self, interval=_PATIENCE, singleShot=True)
        self._late.timeout.connect(self._on_late)
        self.described.connect(self._late.stop)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setMinimumSize(240, 180)
        session.replaced.connect(self._on_replaced)
        session.visit_selected.connect(self._on_visit_selected)
        session.stem_selected.connect(self._on_stem_selected)
        session.finding_selected.connect(self._on_finding_selected)
        self.survey.made.connect(self._on_plots_made)
        self.layers.changed.connect(self._on_layers_changed)
        self.backgrounds.changed.connect(self._on_layers_changed)

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
    def _on_finding_selected(self) -> None:
        if self._asked is not None and self._asked != self._wanted_layers:
            self._request()

    @property
    def _wanted_layers(self) -> Layers:
        """The layers that are ticked, and the order of numbers while a finding is selected for which it tells."""
        ticked, chosen = self.layers.value, self._session.selected_finding
        return replace(ticked, order=True) if chosen is not None and chosen.told_by_order else ticked

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
        """Have the map described for the present plot, colours and scale, if it is not there already."""
        request = self._wanted()
        if request is None:
            return
        self._asked = request.layers
        made, self._made = self._made, None
        if made is not None and made is self._shown and made.request.is_that(request):
            self._jobs.drop("map")
            return
        self._jobs.start("map", lambda progress: describe_map(request, progress), apply=self._show, shown=False)

    def _wanted(self) -> MapRequest | None:
        """The map of the present plot, colours and scale; None where none is wanted."""
        opened, visit = self._session.opened, self._session.visit
        if opened is None or visit == WHOLE_SURVEY or self._far_wanted:
            return None
        view = self._view
        if self._is_far and view is not None:
            view = self.survey.near(view, visit)
        return MapRequest(
            workup=opened.workup,
            visit=visit,
            findings=tuple(self._session.findings) if opened.checked else (),
            dark=is_dark(self.palette()),
            width=self.width(),
            height=self.height(),
            per_millimetre=self._per_millimetre,
            view=None if self._fitted else view,
            layers=self._wanted_layers,
            backgrounds=self.backgrounds.shown,
        )

    def ahead(self) -> Callable[[Opened], DescribedMap | None]:
        """How the map shown would be described of the same survey decided otherwise; to be called off the GUI thread.

        A plot of very many stems is left to be described when everything else is shown, and so is one whose visit
        is another row then.
        """
        wanted = self._wanted()

        def describe(opened: Opened) -> DescribedMap | None:
            if wanted is None:
                return None
            row, before, visits = wanted.visit, wanted.workup.survey.visits, opened.workup.survey.visits
            same = row < len(visits) and (before.plot[row], before.visit[row]) == (visits.plot[row], visits.visit[row])
            if not same or visits.stem_count[row] > _MANY_STEMS:
                return None
            findings = tuple(opened.findings(wanted.visit)) if opened.checked else ()
            return describe_map(replace(wanted, workup=opened.workup, findings=findings))

        return describe

    def take(self, described: DescribedMap | None) -> None:
        """Show a map that was described ahead, before the session has the survey that it is of.

        It is painted now: together with the panels it would take as long again.
        """
        self._made = described
        if described is not None and described.request.visit == self._session.visit and not self._far_wanted:
            self._show(described)
            self.repaint()

    def _show(self, described: DescribedMap) -> None:
        if self._far_wanted:
            return
        another = self._shown is None or self._shown.request.visit != described.request.visit
        view = self._view
        if self._is_far and view is not None:
            # The plot was zoomed into; its ground lies where it lay among the others.
            view, another = self.survey.near(view, described.request.visit), False
        self._shown, self._is_far = described, False
        self._view = self._fitting(described) if self._fitted or another or view is None else view
        self.update()
        self.described.emit()
        self.moved.emit()

    # painting

    def place_of(self, stem: int) -> QPointF | None:
        """Where a stem is on the widget; None when it is not drawn."""
        return self._mark(stem)[0]

    def reach_of(self, stem: int) -> float:
        """Radius of the ring around a stem that is selected."""
        return self._mark(stem)[1] + _RING

    def words_near(self, place: QPointF, reach: float) -> QRegion:
        """The ground under numbers and letters of the map of a plot, around a place."""
        if self.shown is None or self._view is None:
            return QRegion()
        return words_near(self.shown.scene, self._view, place, reach)

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
        if not self._paint_map(painter):
            paint_words(painter, self.palette(), self.rect(), self._words)
            return
        self.paint_tools(painter)
        if self.hasFocus():
            paint_frame(painter, self.palette(), self.rect())

    def paint_tools(self, painter: QPainter) -> None:
        """Paint what the pointer is at; nothing here."""

    def _paint_map(self, painter: QPainter) -> bool:
        """Paint the plot or all plots; whether there was anything to paint."""
        view, workup = self._view, self._session.workup
        if view is None:
            return False
        if not self._is_far:
            if self._shown is not None:
                self._painting.plot(painter, self._shown, view, rings=self._rings(), moving=self.moving)
            return self._shown is not None
        plots = self.survey.plots
        if plots is None or plots.crs is None or workup is None:
            return False
        self._painting.survey(
            painter,
            self.survey,
            plots,
            view,
            layers=self.layers.value,
            backgrounds=self.backgrounds.shown,
            length_unit=workup.survey.settings.measurement.length_unit,
            visit=self._session.visit,
            pin=self.pin,
            moving=self.moving,
        )
        return True

    def _rings(self) -> Iterator[tuple[QPointF, float, bool]]:
        """Middle and radius of the rings around the stem under the pointer and the selected one, which is strong."""
        for stem, strong in ((self.hovered, False), (self._session.stem, True)):
            place, radius = self._mark(stem)
            if place is not None:
                yield place, radius + (_RING if strong else _THIN_RING), strong

    @property
    def _words(self) -> str:
        """What is said where there is no map."""
        if self._is_far and self.survey.plots is not None:
            return " ".join([*self.survey.plots.notes, _tr("map_view", "Choose a plot in the list to see its map.")])
        if self._session.workup is None:
            return _tr("map_view", "Choose a plot in the list to see its map.")
        return _tr("map_view", "Drawing the map…")

    def changeEvent(self, event: QEvent) -> None:
        """Suit the picture to other colours or letters."""
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.FontChange) and self._session.workup is not None:
            if self._is_far and self._view is not None:
                self._set_view(replace(self._view, per_millimetre=self._per_millimetre))
            self._request()

    def sizeHint(self) -> QSize:
        """Size that suits the content."""
        return QSize(640, 480)
