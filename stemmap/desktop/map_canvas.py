"""The map under pointer and keys: tells and selects stems, drags, zooms at the pointer."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPointF, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QMouseEvent, QWheelEvent
from PySide6.QtWidgets import QToolTip, QWidget

from stemmap.desktop.jobs import Jobs
from stemmap.desktop.map_view import STEP, MapView
from stemmap.desktop.sentences import number, stem_sentence
from stemmap.desktop.session import Session


class MapCanvas(MapView):
    """Shows the session's plot and leads its selected stem.

    Signals
    -------
    pointed
        What lies under the pointer, in words; empty when the pointer has left.
    """

    pointed = Signal(str)

    def __init__(self, session: Session, jobs: Jobs, parent: QWidget | None = None) -> None:
        super().__init__(session, jobs, parent)
        self._grip: QPointF | None = None
        self._pressed: QPointF | None = None
        self._space = False
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(self.tr("Map of the plot"))
        self.setAccessibleDescription(
            self.tr(
                "Left and right arrow keys go from stem to stem clockwise; the table of stems shows the same."
            )
        )

    def _stem_at(self, place: QPointF) -> int:
        if self.shown is None or self.view is None:
            return -1
        return self.shown.scene.stem_at(self.view, place.x(), place.y())

    def _hover(self, place: QPointF) -> None:
        workup = self._session.workup
        if workup is None or self.shown is None or self.view is None:
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
        from math import atan2, degrees, hypot

        east, north = self.view.to_metres(place.x(), place.y())
        self.pointed.emit(
            self.tr("{distance} m from the centre, grid azimuth {azimuth}°").format(
                distance=number(hypot(east, north), 2), azimuth=number(degrees(atan2(east, north)) % 360.0, 1)
            )
        )

    def _leave_stem(self) -> None:
        if self.hovered >= 0:
            self.hovered = -1
            self.update()
        self.pointed.emit("")

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
            self.pan(moved.x(), moved.y())
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
        self.zoom(STEP ** (event.angleDelta().y() / 120.0), event.position())
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
            self.pan(*pans[Qt.Key(key)])
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
