"""The kept picture of the map: painted once for a view, moved and stretched while a newer one is not there yet."""

from __future__ import annotations

from time import perf_counter
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QSize, Signal
from PySide6.QtGui import QColor, QImage, QPainter, QPixmap
from PySide6.QtWidgets import QWidget

from stemmap.desktop.jobs import Jobs

if TYPE_CHECKING:
    from stemmap.drawing.scene import Scene, View

#: A full painting that takes longer than this, in seconds, is put off while the map moves.
_QUICK = 0.012
#: Scenes with more stems are painted off the GUI thread.
_MANY_STEMS = 4000


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
        self._scene: Scene | None = None
        self._view: View | None = None
        self._awaited: tuple[Scene, View, QSize] | None = None
        self._cost = 0.0

    def paint(self, painter: QPainter, scene: Scene, view: View, *, moving: bool) -> None:
        """Paint a scene on the widget, anew if that is quick or the map stands still."""
        if self._is_stale(scene, view):
            if scene.stems is not None and len(scene.stems.row) > _MANY_STEMS:
                self._paint_elsewhere(scene, view)
            elif self._scene is not scene or not moving or self._cost < _QUICK:
                began = perf_counter()
                image = painted(scene, view, self._size, self._ratio)
                self._cost = perf_counter() - began
                self._keep(image, scene, view)
        self._paint_kept(painter, scene, view)

    @property
    def _ratio(self) -> float:
        return self._widget.devicePixelRatioF()

    @property
    def _size(self) -> QSize:
        """Size in pixels of the screen."""
        return QSize(round(self._widget.width() * self._ratio), round(self._widget.height() * self._ratio))

    def _is_stale(self, scene: Scene, view: View) -> bool:
        return self._scene is not scene or self._view != view or self._pixmap.size() != self._size

    def _keep(self, image: QImage, scene: Scene, view: View) -> None:
        self._pixmap = QPixmap.fromImage(image)
        self._scene, self._view = scene, view

    def _paint_elsewhere(self, scene: Scene, view: View) -> None:
        size, ratio = self._size, self._ratio
        if self._awaited is not None and self._awaited[0] is scene and self._awaited[1:] == (view, size):
            return
        self._awaited = (scene, view, size)

        def apply(image: QImage) -> None:
            self._awaited = None
            self._keep(image, scene, view)
            self.renewed.emit()

        self._jobs.start("picture", lambda _progress: painted(scene, view, size, ratio), apply=apply, shown=False)

    def _paint_kept(self, painter: QPainter, scene: Scene, view: View) -> None:
        """The kept picture, moved and stretched when it is older than the view."""
        if self._view == view and self._pixmap.size() == self._size:
            painter.drawPixmap(0, 0, self._pixmap)
            return
        painter.fillRect(self._widget.rect(), QColor(scene.background))
        if self._view is None:
            return
        factor = view.per_metre / self._view.per_metre
        painter.save()
        painter.translate(view.origin_x - factor * self._view.origin_x, view.origin_y - factor * self._view.origin_y)
        painter.scale(factor, factor)
        painter.drawPixmap(0, 0, self._pixmap)
        painter.restore()


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
