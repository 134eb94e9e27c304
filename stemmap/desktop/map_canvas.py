"""The map: paints the described plot, zooms, pans, and tells and selects the stem under the pointer."""

from __future__ import annotations

from time import perf_counter
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, QTimer, Signal, Slot
from PySide6.QtGui import (
    QColor,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPalette,
    QPen,
    QPixmap,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QToolTip, QWidget

from stemmap.desktop.jobs import Jobs
from stemmap.desktop.map_request import LEGEND_MM, DescribedMap, MapRequest, describe_map, theme_of
from stemmap.desktop.palettes import is_dark
from stemmap.desktop.sentences import number, stem_sentence
from stemmap.desktop.session import WHOLE_SURVEY, Session

if TYPE_CHECKING:
    from stemmap.drawing.scene import View

#: Millimetres of the letter body that are as high as the window's own letters.
_WORDS_MM = 3.0
#: A full painting that takes longer than this, in seconds, is put off while the map moves.
_QUICK = 0.025
_STEP = 1.25
_MOST_ZOOM = 60.0
_LEAST_ZOOM = 0.3


class MapCanvas(QWidget):
    """Shows the session's plot and its selected stem.

    Signals
    -------
    pointed
        What lies under the pointer, in words; empty when the pointer has left.
    described
        Another scene is shown.
    """

    pointed = Signal(str)
    described = Signal()

    def __init__(self, session: Session, jobs: Jobs, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self._jobs = session, jobs
        self._shown: DescribedMap | None = None
        self._view: View | None = None
        self._fitted = True
        self._legend = True
        self._pixmap = QPixmap()
        self._pixmap_view: View | None = None
        self._cost = 0.0
        self._hovered = -1
        self._grip: QPointF | None = None
        self._pressed: QPointF | None = None
        self._space = False
        self._wait = QTimer(self, interval=60, singleShot=True)
        self._wait.timeout.connect(self._on_settled)
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setMinimumSize(240, 180)
        self.setAccessibleName(self.tr("Map of the plot"))
        self.setAccessibleDescription(
            self.tr(
                "Left and right arrow keys go from stem to stem clockwise; the table of stems shows the same."
            )
        )
        session.replaced.connect(self._on_replaced)
        session.visit_selected.connect(self._on_visit_selected)
        session.stem_selected.connect(self._on_stem_selected)

    # what the window asks for

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
        self._zoom(_STEP, QPointF(self.rect().center()))

    @Slot()
    def zoom_out(self) -> None:
        """Reduce the map around its middle."""
        self._zoom(1.0 / _STEP, QPointF(self.rect().center()))

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

    # following the session

    @Slot()
    def _on_replaced(self) -> None:
        if self._shown is not None and self._session.visit != self._shown.request.visit:
            self._fitted = True
        self._request()

    @Slot()
    def _on_visit_selected(self) -> None:
        self._fitted = True
        self._hovered = -1
        self._request()

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
            self._shown = self._view = self._pixmap_view = None
            self.update()
            self.described.emit()
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
        self._pixmap_view = None
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

    def _zoom(self, factor: float, at: QPointF) -> None:
        if self._shown is None or self._view is None:
            return
        whole = self._fitting(self._shown).per_metre
        wanted = min(max(self._view.per_metre * factor, whole * _LEAST_ZOOM), whole * _MOST_ZOOM)
        self._fitted = False
        self._set_view(self._view.zoomed(wanted / self._view.per_metre, at.x(), at.y()))

    def _pan(self, x: float, y: float) -> None:
        if self._view is not None:
            self._fitted = False
            self._set_view(self._view.moved(x, y))

    @Slot()
    def _on_settled(self) -> None:
        """Once the map stands still, numbers are placed anew when its scale has changed."""
        self._pixmap_view = None
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

    def _paint_pixmap(self) -> None:
        """Paint the scene into the kept picture at the screen's own resolution."""
        from stemmap.drawing.painter import paint

        if self._shown is None or self._view is None:
            return
        ratio = self.devicePixelRatioF()
        size = QSize(round(self.width() * ratio), round(self.height() * ratio))
        if self._pixmap.size() != size or self._pixmap.devicePixelRatio() != ratio:
            self._pixmap = QPixmap(size)
            self._pixmap.setDevicePixelRatio(ratio)
        began = perf_counter()
        self._pixmap.fill(QColor(self._shown.scene.background))
        painter = QPainter(self._pixmap)
        paint(self._shown.scene, painter, self._view)
        painter.end()
        self._pixmap_view = self._view
        self._cost = perf_counter() - began

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the map, its corners and the rings around stems."""
        painter = QPainter(self)
        if self._shown is None or self._view is None:
            self._paint_words(painter)
            return
        stale = (
            self._pixmap_view != self._view or self._pixmap.deviceIndependentSize().toSize() != self.size()
        )
        moving = self._wait.isActive() and self._pixmap_view is not None
        if stale and not (moving and self._cost > _QUICK):
            self._paint_pixmap()
        self._paint_kept(painter)
        self._paint_corners(painter)
        self._paint_stem(painter, self._hovered, strong=False)
        self._paint_stem(painter, self._session.stem, strong=True)
        if self.hasFocus():
            pen = QPen(self.palette().color(QPalette.ColorRole.Highlight), 1.0)
            painter.setPen(pen)
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5))

    def _paint_kept(self, painter: QPainter) -> None:
        """The kept picture, moved and stretched when it is older than the view."""
        if self._shown is None or self._view is None or self._pixmap_view is None:
            return
        if self._pixmap_view == self._view:
            painter.drawPixmap(0, 0, self._pixmap)
            return
        painter.fillRect(self.rect(), QColor(self._shown.scene.background))
        factor = self._view.per_metre / self._pixmap_view.per_metre
        painter.save()
        painter.translate(
            self._view.origin_x - factor * self._pixmap_view.origin_x,
            self._view.origin_y - factor * self._pixmap_view.origin_y,
        )
        painter.scale(factor, factor)
        painter.drawPixmap(0, 0, self._pixmap)
        painter.restore()

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
        reach = radius + (7.0 if strong else 4.0)
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
            self.tr("Drawing the map…") if waiting else self.tr("Choose a plot in the list to see its map.")
        )
        painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, words)

    # pointer and keys

    def _stem_at(self, place: QPointF) -> int:
        if self._shown is None or self._view is None:
            return -1
        return self._shown.scene.stem_at(self._view, place.x(), place.y())

    def _hover(self, place: QPointF) -> None:
        workup = self._session.workup
        if workup is None or self._shown is None or self._view is None:
            return
        stem = self._stem_at(place)
        if stem != self._hovered:
            self._hovered = stem
            self.update()
            if stem < 0:
                QToolTip.hideText()
        if stem >= 0:
            sentence = stem_sentence(workup, stem)
            QToolTip.showText(self.mapToGlobal(place.toPoint()), sentence, self)
            self.pointed.emit(sentence)
            return
        from math import atan2, degrees, hypot

        east, north = self._view.to_metres(place.x(), place.y())
        self.pointed.emit(
            self.tr("{distance} m from the centre, grid azimuth {azimuth}°").format(
                distance=number(hypot(east, north), 2), azimuth=number(degrees(atan2(east, north)) % 360.0, 1)
            )
        )

    def _leave_stem(self) -> None:
        if self._hovered >= 0:
            self._hovered = -1
            self.update()
        self.pointed.emit("")

    def _step_stem(self, step: int) -> None:
        """Select the next stem clockwise (1) or counter-clockwise (-1)."""
        stems = None if self._shown is None else self._shown.scene.stems
        if stems is None or not len(stems.row):
            return
        import numpy as np

        azimuth = np.arctan2(stems.place[:, 0], stems.place[:, 1]) % (2.0 * np.pi)
        clockwise = stems.row[np.argsort(azimuth, kind="stable")]
        here = np.flatnonzero(clockwise == self._session.stem)
        place = (int(here[0]) + step) % len(clockwise) if len(here) else (0 if step > 0 else -1)
        self._session.select_stem(int(clockwise[place]))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of the map, or begin a click."""
        drags = event.button() == Qt.MouseButton.MiddleButton
        if drags or (event.button() == Qt.MouseButton.LeftButton and self._space):
            self._grip = event.position()
            self.setCursor(Qt.CursorShape.ClosedHandCursor)
        elif event.button() == Qt.MouseButton.LeftButton:
            self._pressed = event.position()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Drag the map, or tell what lies under the pointer."""
        if self._grip is not None:
            moved = event.position() - self._grip
            self._grip = event.position()
            self._pan(moved.x(), moved.y())
        else:
            self._hover(event.position())

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let go of the map, or select what was clicked."""
        if self._grip is not None:
            self._grip = None
            self.setCursor(Qt.CursorShape.OpenHandCursor if self._space else Qt.CursorShape.ArrowCursor)
        elif self._pressed is not None:
            if (event.position() - self._pressed).manhattanLength() < 6:
                self._session.select_stem(self._stem_at(event.position()))
            self._pressed = None

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Show the whole plot."""
        if event.button() == Qt.MouseButton.LeftButton:
            self.fit()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom at the pointer."""
        self._zoom(_STEP ** (event.angleDelta().y() / 120.0), event.position())
        event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Go from stem to stem, pan, or hold the space bar to drag."""
        key, shift = event.key(), bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
        pans = {
            Qt.Key.Key_Left: (60.0, 0.0),
            Qt.Key.Key_Right: (-60.0, 0.0),
            Qt.Key.Key_Up: (0.0, 60.0),
            Qt.Key.Key_Down: (0.0, -60.0),
        }
        if key == Qt.Key.Key_Space:
            if not event.isAutoRepeat():
                self._space = True
                self.setCursor(Qt.CursorShape.OpenHandCursor)
        elif key in (Qt.Key.Key_Left, Qt.Key.Key_Right) and not shift:
            self._step_stem(1 if key == Qt.Key.Key_Right else -1)
        elif key in pans:
            self._pan(*pans[Qt.Key(key)])
        elif key == Qt.Key.Key_Escape:
            self._session.select_stem(-1)
        else:
            super().keyPressEvent(event)

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        """Let the space bar go."""
        if event.key() == Qt.Key.Key_Space and not event.isAutoRepeat():
            self._space = False
            if self._grip is None:
                self.unsetCursor()
        else:
            super().keyReleaseEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Forget a space bar that is let go elsewhere."""
        self._space = False
        self.unsetCursor()
        super().focusOutEvent(event)

    def leaveEvent(self, event: QEvent) -> None:
        """Tell that nothing lies under the pointer."""
        self._leave_stem()
        super().leaveEvent(event)

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
