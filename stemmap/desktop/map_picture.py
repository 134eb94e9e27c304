"""The kept picture of the map: painted once with a margin around the widget, then moved and stretched."""

from __future__ import annotations

from collections.abc import Callable
from time import perf_counter
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QSize, Signal
from PySide6.QtGui import QColor, QImage, QPainter, QPixmap
from PySide6.QtWidgets import QWidget

from stemmap.desktop.jobs import Jobs

if TYPE_CHECKING:
    from stemmap.drawing.scene import Scene, View
    from stemmap.progress import Progress

#: A full painting that takes longer than this, in seconds, is put off while the map moves.
_QUICK = 0.012
#: Scenes with more stems are painted off the GUI thread.
_MANY_STEMS = 4000
#: Ground kept ready on each side for dragging, as a share of the widget.
_MARGIN = 0.25

#: What a picture is of; compared part by part for being the same objects.
Subject = tuple[object, ...]


class MapPicture(QObject):
    """Keeps what was painted last.

    Signals
    -------
    renewed
        A picture that was painted elsewhere is there.
    """

    renewed = Signal()

    def __init__(self, jobs: Jobs, widget: QWidget) -> None:
        super().__init__(widget)
        self._jobs, self._widget = jobs, widget
        self._pixmap = QPixmap()
        self._subject: Subject = ()
        self._view: View | None = None
        self._background = QColor()
        self._awaited: tuple[Subject, View, QSize] | None = None
        self._margins = (0, 0)
        self._cost = 0.0

    def paint(
        self,
        painter: QPainter,
        view: View,
        subject: Subject,
        describe: Callable[[View, QSize], Scene],
        *,
        moving: bool,
    ) -> None:
        """Paint the map on the widget: anew if that is quick or the map stands still, else what there is of it.

        Parameters
        ----------
        painter, view
            Open on the widget, and how the ground lies on it.
        subject
            What is shown; as long as it is the same, a picture that covers the widget is only moved.
        describe
            Makes the scene for a view and a size in units of the window, both with the margin.
        moving
            Whether the map is being moved.
        """
        known = _same(self._subject, subject)
        # While it is zoomed every picture is soon outdated: none gets a margin, and a slow one is not made at all.
        zoomed = moving and self._view is not None and self._view.per_metre != view.per_metre
        if not (known and (self._covers(view) or (zoomed and self._cost > _QUICK))):
            share = 0.0 if zoomed else _MARGIN
            self._margins = round(share * self._widget.width()), round(share * self._widget.height())
            wide, room = view.moved(*self._margins), self._room
            began = perf_counter()
            scene = describe(wide, room)
            self._background = QColor(scene.background)
            if scene.stems is not None and len(scene.stems.row) > _MANY_STEMS:
                self._paint_elsewhere(scene, wide, subject)
            else:
                image = painted(scene, wide, room * self._ratio, self._ratio)
                self._cost = perf_counter() - began
                self._keep(image, wide, subject)
        self._paint_kept(painter, view)

    @property
    def _ratio(self) -> float:
        return self._widget.devicePixelRatioF()

    @property
    def _room(self) -> QSize:
        """Size of the widget with its margin, units of the window."""
        across, down = self._margins
        return QSize(self._widget.width() + 2 * across, self._widget.height() + 2 * down)

    def _covers(self, view: View) -> bool:
        """Whether the kept picture shows the ground of a view at its scale, all over the widget."""
        kept, (across, down) = self._view, self._margins
        if kept is None or self._pixmap.size() != self._room * self._ratio:
            return False
        alike = (kept.per_metre, kept.per_millimetre) == (view.per_metre, view.per_millimetre)
        x, y = view.origin_x - kept.origin_x, view.origin_y - kept.origin_y
        return alike and -2 * across <= x <= 0 and -2 * down <= y <= 0

    def _keep(self, image: QImage, view: View, subject: Subject) -> None:
        self._pixmap = QPixmap.fromImage(image)
        self._view, self._subject = view, subject

    def _paint_elsewhere(self, scene: Scene, view: View, subject: Subject) -> None:
        room, ratio = self._room, self._ratio
        if self._awaited is not None and _same(self._awaited[0], subject) and self._awaited[1:] == (view, room):
            return
        self._awaited = (subject, view, room)

        def apply(image: QImage) -> None:
            self._awaited = None
            self._keep(image, view, subject)
            self.renewed.emit()

        def work(_progress: Progress) -> QImage:
            return painted(scene, view, room * ratio, ratio)

        self._jobs.start("picture", work, apply=apply, shown=False)

    def _paint_kept(self, painter: QPainter, view: View) -> None:
        """The kept picture, moved and stretched as the view asks."""
        if not self._covers(view):
            painter.fillRect(self._widget.rect(), self._background)
        if self._view is None:
            return
        factor = view.per_metre / self._view.per_metre
        painter.save()
        painter.translate(view.origin_x - factor * self._view.origin_x, view.origin_y - factor * self._view.origin_y)
        painter.scale(factor, factor)
        painter.drawPixmap(0, 0, self._pixmap)
        painter.restore()


def _same(one: Subject, other: Subject) -> bool:
    return len(one) == len(other) and all(a is b for a, b in zip(one, other, strict=True))


def painted(scene: Scene, view: View, size: QSize, ratio: float) -> QImage:
    """A scene as an image at the screen's own resolution.

    Parameters
    ----------
    scene, view
        What is painted, in units of the window.
    size
        Pixels.
    ratio
        Pixels in a unit of the window.
    """
    from stemmap.drawing.painter import paint

    image = QImage(size, QImage.Format.Format_RGB32)
    image.setDevicePixelRatio(ratio)
    image.fill(QColor(scene.background))
    painter = QPainter(image)
    paint(scene, painter, view)
    painter.end()
    return image
