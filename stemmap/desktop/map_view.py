"""The view of the map: follows the session, zooms, pans and paints; knows nothing of pointer and keys."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, QEvent, QPointF, QRectF, QSize, Qt, QTimer, Signal, Slot
from PySide6.QtGui import (
    QColor,
    QPainter,
    QPaintEvent,
    QPalette,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import QWidget

from stemmap.desktop.jobs import Jobs
from stemmap.desktop.map_picture import MapPicture
from stemmap.desktop.map_request import LEGEND_MM, DescribedMap, MapRequest, describe_map, theme_of
from stemmap.desktop.palettes import is_dark
from stemmap.desktop.session import WHOLE_SURVEY, Session

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from stemmap.drawing.scene import View

_tr = QCoreApplication.translate
#: Millimetres of the letter body that are as high as the window's own letters.
_WORDS_MM = 3.0
#: Milliseconds for which the map of another plot is still shown while the new one is being described.
_PATIENCE = 200
#: Free ground between a selected stem and its ring.
_RING = 7.0
STEP = 1.25
_MOST_ZOOM = 60.0
_LEAST_ZOOM = 0.3


class MapView(QWidget):
    """Shows the session's plot and its selected stem.

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
        self._shown: DescribedMap | None = None
        self._view: View | None = None
        self._fitted = True
        self._legend = True
        self._picture = MapPicture(jobs, self)
        self._picture.renewed.connect(self.update)
        self.hovered = -1
        self._wait = QTimer(self, interval=60, singleShot=True)
        self._wait.timeout.connect(self._on_settled)
        self._late = QTimer(self, interval=_PATIENCE, singleShot=True)
        self._late.timeout.connect(self._on_late)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setMinimumSize(240, 180)
        session.replaced.connect(self._on_replaced)
        session.visit_selected.connect(self._on_visit_selected)
        session.stem_selected.connect(self._on_stem_selected)

    # what the window asks for

    @property
    def moving(self) -> bool:
        """Whether the map has not come to rest since it was zoomed, moved or resized."""
        return self._wait.isActive()

    @property
    def shown(self) -> DescribedMap | None:
        """The map shown; None before the first one is ready."""
        return self._shown

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
        """Show the whole plot."""
        self._fitted = True
        if self._shown is not None:
            self._set_view(self._fitting(self._shown))

    @Slot()
    def toggle_legend(self) -> None:
        """Show what the marks mean, or give its room to the map."""
        self._legend = not self._legend
        self._request()

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
        self._fitted = True
        self.hovered = -1
        self._late.start()
        self._request()

    @Slot()
    def _on_late(self) -> None:
        """Show no other plot's map any longer; the one wanted takes its time."""
        self._shown = self._view = None
        self.update()
        self.described.emit()

    @Slot()
    def _on_stem_selected(self) -> None:
        place, _ = self._mark(self._session.stem)
        if place is not None and self._view is not None and not self.rect().contains(place.toPoint()):
            middle = QPointF(self.rect().center())
            self._set_view(self._view.moved(middle.x() - place.x(), middle.y() - place.y()))
        self.update()

    def _request(self) -> None:
        """Have the map described for the present plot, colours and scale."""
        workup, visit = self._session.workup, self._session.visit
        if workup is None or visit == WHOLE_SURVEY:
            self._late.stop()
            self._on_late()
            return
        request = MapRequest(
            workup=workup,
            visit=visit,
            findings=tuple(self._session.findings),
            dark=is_dark(self.palette()),
            width=self.width(),
            height=self.height(),
            per_millimetre=self._per_millimetre,
            view=None if self._fitted else self._view,
            legend=self._legend,
        )
        self._jobs.start(
            "map", lambda progress: describe_map(request, progress), apply=self._show, shown=False
        )

    @property
    def _per_millimetre(self) -> float:
        """Units of the window in a millimetre, such that words on the map are as high as those of the window."""
        return self.fontInfo().pixelSize() / _WORDS_MM

    def _show(self, described: DescribedMap) -> None:
        another = self._shown is None or self._shown.request.visit != described.request.visit
        self._shown = described
        self._late.stop()
        if self._fitted or another or self._view is None:
            self._view = self._fitting(described)
        self.update()
        self.described.emit()

    def _fitting(self, described: DescribedMap) -> View:
        return described.fitting(self.width(), self.height())

    # moving

    def _set_view(self, view: View) -> None:
        self._view = view
        self._wait.start()
        self.update()
        self.moved.emit()

    def zoom(self, factor: float, at: QPointF) -> None:
        """Enlarge by a factor, the ground under a point staying where it is."""
        if self._shown is None or self._view is None:
            return
        whole = self._fitting(self._shown).per_metre
        wanted = min(max(self._view.per_metre * factor, whole * _LEAST_ZOOM), whole * _MOST_ZOOM)
        self._fitted = False
        self._set_view(self._view.zoomed(wanted / self._view.per_metre, at.x(), at.y()))

    def pan(self, x: float, y: float) -> None:
        """Move the map by units of the window."""
        if self._view is not None:
            self._fitted = False
            self._set_view(self._view.moved(x, y))

    @Slot()
    def _on_settled(self) -> None:
        """Once the map stands still, numbers are placed anew when its scale has changed."""
        self.update()
        if self._shown is None or self._view is None:
            return
        if abs(self._view.per_metre / self._shown.view.per_metre - 1.0) > 1e-6:
            self._request()

    # painting

    def _mark(self, stem: int) -> tuple[QPointF | None, float]:
        """Place and radius of a stem's mark on the widget."""
        stems = None if self._shown is None else self._shown.scene.stems
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
        if self._shown is None or self._view is None:
            self._paint_words(painter)
            return
        self._picture.paint(painter, self._shown.scene, self._view, moving=self.moving)
        self._paint_corners(painter)
        self._paint_stem(painter, self.hovered, strong=False)
        self._paint_stem(painter, self._session.stem, strong=True)
        if self.hasFocus():
            pen = QPen(self.palette().color(QPalette.ColorRole.Highlight), 1.0)
            painter.setPen(pen)
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5))

    def _paint_corners(self, painter: QPainter) -> None:
        """Scale bar, north arrow and legend stay in their corners."""
        from stemmap.drawing.ground import scale_bar
        from stemmap.drawing.painter import paint
        from stemmap.drawing.scene import View

        if self._shown is None or self._view is None:
            return
        unit = self._shown.request.workup.survey.settings.measurement.length_unit
        theme = theme_of(dark=self._shown.request.dark)
        bar = scale_bar(self._view.millimetres_per_metre, theme, length_unit=unit)
        per_mm = self._view.per_millimetre
        paint(bar, painter, View(2.5 * per_mm, self.height() - 2.5 * per_mm, per_mm, per_mm))
        legend = self._shown.legend
        if legend is not None:
            left, height = self.width() - LEGEND_MM * per_mm, -legend.box.low[1] * per_mm
            ground = QColor(self._shown.scene.background)
            ground.setAlphaF(0.85)
            painter.fillRect(
                QRectF(
                    left - per_mm, self.height() - height - 2.0 * per_mm, self.width(), height + 2.0 * per_mm
                ),
                ground,
            )
            paint(legend, painter, View(left, self.height() - height - per_mm, per_mm, per_mm))
        half = self._shown.north.box.high_mm[0]
        paint(self._shown.north, painter, View((half + 2.0) * per_mm, 12.0 * per_mm, per_mm, per_mm))

    def _paint_stem(self, painter: QPainter, stem: int, *, strong: bool) -> None:
        """A ring around a stem, kept apart from its ground by a second one in the colour of the ground."""
        place, radius = self._mark(stem)
        if place is None:
            return
        reach = radius + (_RING if strong else 4.0)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for role, width in ((QPalette.ColorRole.Base, 5.0), (QPalette.ColorRole.Highlight, 3.0)):
            painter.setPen(QPen(self.palette().color(role), width if strong else width - 1.5))
            painter.drawEllipse(place, reach, reach)

    def _paint_words(self, painter: QPainter) -> None:
        painter.fillRect(self.rect(), self.palette().color(QPalette.ColorRole.Window))
        painter.setPen(self.palette().color(QPalette.ColorRole.WindowText))
        waiting = self._session.workup is not None and self._session.visit != WHOLE_SURVEY
        words = (
            _tr("map_view", "Drawing the map…")
            if waiting
            else _tr("map_view", "Choose a plot in the list to see its map.")
        )
        painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, words)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Suit the picture to the new size."""
        super().resizeEvent(event)
        if self._shown is not None and self._view is not None:
            if self._fitted:
                self._set_view(self._fitting(self._shown))
            else:
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
            self._request()

    def sizeHint(self) -> QSize:
        """Size that suits the content."""
        return QSize(640, 480)
