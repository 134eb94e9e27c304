"""The map under pointer and keys: tells and selects plots and stems, drags, zooms, measures, marks in a box."""

from __future__ import annotations

from enum import Enum, auto

from PySide6.QtCore import QCoreApplication, QEvent, QPointF, QRectF, Qt, Signal, Slot
from PySide6.QtGui import (
    QColor,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QNativeGestureEvent,
    QPainter,
    QPalette,
    QPen,
    QWheelEvent,
)
from PySide6.QtWidgets import QToolTip, QWidget

from stemmap.desktop.jobs import Jobs
from stemmap.desktop.map_marks import paint_ring
from stemmap.desktop.map_sight import STEP
from stemmap.desktop.map_view import MapView
from stemmap.desktop.marked_rows import MarkedRows
from stemmap.desktop.measuring import MeasuredLine, azimuth_words
from stemmap.desktop.sentences import number, stem_sentence
from stemmap.desktop.session import WHOLE_SURVEY, Session

_tr = QCoreApplication.translate
#: A press that moves less than this is a click, units of the window.
_CLICK = 6
_PAN = 60.0
#: Plots that can be marked together; more rings would hide each other.
_MOST_PLOTS = 200


class _Hold(Enum):
    """What a button held down does."""

    NOTHING = auto()
    CLICK = auto()
    GROUND = auto()
    LINE = auto()
    BOX = auto()


class MapCanvas(MapView):
    """Shows the session's plot or all plots, and leads the selected plot and stem.

    Signals
    -------
    pointed
        What lies under the pointer, in words; empty when the pointer has left.
    measuring_changed
        Whether the pointer measures was switched.
    """

    pointed = Signal(str)
    measuring_changed = Signal(bool)

    def __init__(self, session: Session, jobs: Jobs, parent: QWidget | None = None) -> None:
        super().__init__(session, jobs, parent)
        self.marked, self.marked_plots = MarkedRows(session, self), MarkedRows(session, self)
        self.marked.changed.connect(self.update)
        self.marked_plots.changed.connect(self.update)
        self.line: MeasuredLine | None = None
        self.measures = False
        self._hold = _Hold.NOTHING
        self._from = QPointF()
        self._at = QPointF()
        self._space = False
        self._was_far = False
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(_tr("map_canvas", "Map"))
        self.setAccessibleDescription(
            _tr(
                "map_canvas",
                "On a plot, left and right arrow keys go from stem to stem clockwise; Home shows all plots, Enter the"
                " selected one. The tables show the same.",
            )
        )
        self.described.connect(self._on_described)

    # tools

    def switch_measuring(self) -> None:
        """Let the pointer measure between two points, or let it drag and select again."""
        self.measures = not self.measures
        self.line = None
        self._show_cursor()
        self.update()
        self.pointed.emit(
            _tr("map_canvas", "Drag from point to point to measure; M or Esc ends it.") if self.measures else ""
        )
        self.measuring_changed.emit(self.measures)

    @Slot()
    def _on_described(self) -> None:
        if self._was_far != self.is_far:
            self._was_far, self.line = self.is_far, None
            self.pointed.emit("")

    def _ground(self, place: QPointF) -> tuple[float, float]:
        """Metres of a point of the widget; those of the stem or plot under it where there is one."""
        if self.view is None:
            return 0.0, 0.0
        found = self.place_of(self._stem_at(place))
        if found is None and self.is_far:
            mark = self.survey.mark_of(self.view, self.survey.plot_at(self.view, place))
            found = None if mark is None else mark[0]
        at = place if found is None else found
        return self.view.to_metres(at.x(), at.y())

    def paint_tools(self, painter: QPainter) -> None:
        """Paint rings around what is marked, the measured line and the box."""
        for stem in self.marked.rows:
            place = self.place_of(stem)
            if place is not None:
                paint_ring(painter, self.palette(), place, self.reach_of(stem) - 3.0, strong=False)
        for visit in self.marked_plots.rows if self.is_far else ():
            mark = None if self.view is None else self.survey.mark_of(self.view, visit)
            if mark is not None:
                paint_ring(painter, self.palette(), mark[0], mark[1] + 4.0, strong=False)
        workup = self._session.workup
        if self.line is not None and self.view is not None and workup is not None:
            words = self.line.sentence(workup.survey.settings)
            self.line.paint(painter, self.palette(), self.view, words)
        if self._hold is _Hold.BOX:
            colour = QColor(self.palette().color(QPalette.ColorRole.Highlight))
            painter.setPen(QPen(colour, 1.5, Qt.PenStyle.DashLine))
            colour.setAlpha(40)
            painter.setBrush(colour)
            painter.drawRect(QRectF(self._from, self._at).normalized())

    # what is under the pointer

    def _stem_at(self, place: QPointF) -> int:
        if self.shown is None or self.view is None:
            return -1
        return self.shown.scene.stem_at(self.view, place.x(), place.y())

    def _hover(self, place: QPointF) -> None:
        workup = self._session.workup
        if workup is None or self.view is None:
            return
        if self.is_far:
            self._hover_survey(place)
            return
        stem = self._stem_at(place)
        if stem != self.hovered:
            self.hovered = stem
            self.update()
            if stem < 0:
                QToolTip.hideText()
        if stem >= 0:
            sentence = stem_sentence(workup, stem)
            QToolTip.showText(self.mapToGlobal(place.toPoint()), sentence, self)
            self.pointed.emit(sentence)
            return
        here = MeasuredLine((0.0, 0.0), self.view.to_metres(place.x(), place.y()), None)
        self.pointed.emit(
            _tr("map_canvas", "{distance} m from the centre, grid azimuth {azimuth}").format(
                distance=number(here.distance_m, 2),
                azimuth=azimuth_words(here.grid_azimuth_deg, workup.survey.settings),
            )
        )

    def _hover_survey(self, place: QPointF) -> None:
        plots, view = self.survey.plots, self.view
        if plots is None or view is None:
            return
        sentence = self.survey.sentence(view, self.survey.cluster_at(view, place))
        if sentence:
            QToolTip.showText(self.mapToGlobal(place.toPoint()), sentence, self)
        else:
            QToolTip.hideText()
            east, north = view.to_metres(place.x(), place.y())
            sentence = _tr("map_canvas", "easting {easting} m, northing {northing} m ({system})").format(
                easting=number(east + plots.base[0], 0), northing=number(north + plots.base[1], 0), system=plots.crs
            )
        self.pointed.emit(sentence)

    def _leave_stem(self) -> None:
        if self.hovered >= 0:
            self.hovered = -1
            self.update()
        self.pointed.emit("")

    # choosing

    def _click(self, place: QPointF) -> None:
        self.marked.clear()
        self.marked_plots.clear()
        if not self.is_far:
            self._session.select_stem(self._stem_at(place))
        elif self.view is not None:
            visit = self.survey.plot_at(self.view, place)
            if visit >= 0:
                self.select_here(visit)

    def _mark_in_box(self) -> None:
        stems, view = None if self.shown is None else self.shown.scene.stems, self.view
        box = QRectF(self._from, self._at).normalized()
        if self.is_far and view is not None:
            self._mark_plots(self.survey.within(view, box))
        if stems is None or view is None:
            return
        places = view.to_device(stems.place)
        within = (places >= (box.left(), box.top())) & (places <= (box.right(), box.bottom()))
        rows = stems.row[within.all(axis=1)].tolist()
        if len(rows) == 1:
            self._session.select_stem(rows[0])
        self.marked.mark(rows if len(rows) > 1 else ())
        words = _tr("map_canvas", "{count} stems marked; copy them in the table of stems")
        self.pointed.emit(words.format(count=len(rows)))

    def _mark_plots(self, visits: list[int]) -> None:
        if len(visits) == 1:
            self.select_here(visits[0])
        self.marked_plots.mark(visits if 1 < len(visits) <= _MOST_PLOTS else ())
        words = _tr("map_canvas", "{count} plots marked; copy them in the table of plots")
        if len(visits) > _MOST_PLOTS:
            words = _tr("map_canvas", "{count} plots lie in the box; draw a smaller one, up to {most} can be marked")
        self.pointed.emit(words.format(count=len(visits), most=_MOST_PLOTS))

    def _step_stem(self, step: int) -> None:
        """Select the next stem clockwise (1) or counter-clockwise (-1)."""
        stems = None if self.shown is None else self.shown.scene.stems
        if stems is None or not len(stems.row):
            return
        import numpy as np

        azimuth = np.arctan2(stems.place[:, 0], stems.place[:, 1]) % (2.0 * np.pi)
        clockwise = stems.row[np.argsort(azimuth, kind="stable")]
        here = np.flatnonzero(clockwise == self._session.stem)
        place = (int(here[0]) + step) % len(clockwise) if len(here) else (0 if step > 0 else -1)
        self._session.select_stem(int(clockwise[place]))

    # Qt's own

    def _show_cursor(self) -> None:
        if self._hold is _Hold.GROUND:
            self.setCursor(Qt.CursorShape.ClosedHandCursor)
        elif self._space:
            self.setCursor(Qt.CursorShape.OpenHandCursor)
        elif self.measures or self._hold is _Hold.BOX:
            self.setCursor(Qt.CursorShape.CrossCursor)
        else:
            self.unsetCursor()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of the ground, or begin a click, a line or a box."""
        left, place = event.button() == Qt.MouseButton.LeftButton, event.position()
        if event.button() == Qt.MouseButton.MiddleButton or (left and self._space):
            self._hold = _Hold.GROUND
        elif left and self.measures:
            self._hold = _Hold.LINE
            start = self._ground(place)
            self.line = MeasuredLine(start, start, self.survey.plots if self.is_far else None)
        elif left and event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
            self._hold = _Hold.BOX
        elif left:
            self._hold = _Hold.CLICK
        self._from = self._at = place
        self._show_cursor()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Drag the ground, the line or the box, or tell what lies under the pointer."""
        place, before = event.position(), self._at
        self._at = place
        if self._hold is _Hold.CLICK and (place - self._from).manhattanLength() >= _CLICK:
            self._hold, before = _Hold.GROUND, self._from
            self._show_cursor()
        if self._hold is _Hold.GROUND:
            self.pan(place.x() - before.x(), place.y() - before.y())
        elif self._hold is _Hold.LINE and self.line is not None and self._session.workup is not None:
            self.line = self.line.to(self._ground(place))
            self.pointed.emit(self.line.sentence(self._session.workup.survey.settings))
            self.update()
        elif self._hold is _Hold.BOX:
            self.update()
        elif self._hold is _Hold.NOTHING and not (self.measures and self.line is not None):
            self._hover(place)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let go of the ground, end the box, or select what was clicked."""
        hold, self._hold = self._hold, _Hold.NOTHING
        if hold is _Hold.CLICK:
            self._click(event.position())
        elif hold is _Hold.BOX:
            self._mark_in_box()
            self.update()
        self._show_cursor()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Show the whole plot; among all plots the one under the pointer, or those of a cluster."""
        if event.button() != Qt.MouseButton.LeftButton:
            return
        mark = self.survey.cluster_at(self.view, event.position()) if self.is_far and self.view is not None else -1
        if mark < 0 or self.view is None:
            self.fit()
            return
        box = self.survey.around(mark, self.view)
        if box is not None:
            self.show_box(box)
        else:
            self.select_here(self.survey.plot_at(self.view, event.position()))
            self.show_plot()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom at the pointer."""
        self.zoom(STEP ** (event.angleDelta().y() / 120.0), event.position())
        event.accept()

    def event(self, event: QEvent) -> bool:
        """Zoom by spreading two fingers."""
        if (
            isinstance(event, QNativeGestureEvent)
            and event.gestureType() == Qt.NativeGestureType.ZoomNativeGesture
        ):
            self.zoom(1.0 + max(event.value(), -0.5), event.position())
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Go from stem to stem, pan, go up to all plots and down again, or hold the space bar to drag."""
        key, shift = event.key(), bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
        pans = {
            Qt.Key.Key_Left: (_PAN, 0.0),
            Qt.Key.Key_Right: (-_PAN, 0.0),
            Qt.Key.Key_Up: (0.0, _PAN),
            Qt.Key.Key_Down: (0.0, -_PAN),
        }
        if key == Qt.Key.Key_Space:
            if not event.isAutoRepeat():
                self._space = True
                self._show_cursor()
        elif key in (Qt.Key.Key_Left, Qt.Key.Key_Right) and not shift and not self.is_far:
            self._step_stem(1 if key == Qt.Key.Key_Right else -1)
        elif key in pans:
            self.pan(*pans[Qt.Key(key)])
        elif key == Qt.Key.Key_Home:
            self.show_survey()
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self._session.visit != WHOLE_SURVEY:
            self.show_plot()
        elif key == Qt.Key.Key_Escape:
            self._escape()
        else:
            super().keyPressEvent(event)

    def _escape(self) -> None:
        """End measuring, else unmark what is marked, else select no stem."""
        if self.measures:
            self.switch_measuring()
        elif self.marked.rows or self.marked_plots.rows:
            self.marked.clear()
            self.marked_plots.clear()
        else:
            self._session.select_stem(-1)

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        """Let the space bar go."""
        if event.key() == Qt.Key.Key_Space and not event.isAutoRepeat():
            self._space = False
            self._show_cursor()
        else:
            super().keyReleaseEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Forget a space bar that is let go elsewhere."""
        self._space = False
        self._show_cursor()
        super().focusOutEvent(event)

    def leaveEvent(self, event: QEvent) -> None:
        """Tell that nothing lies under the pointer."""
        self._leave_stem()
        super().leaveEvent(event)
