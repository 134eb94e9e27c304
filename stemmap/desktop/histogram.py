"""The distribution of dbh as a picture, drawn by matplotlib off the GUI thread."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from PySide6.QtGui import QImage

from stemmap.progress import Progress


@dataclass(frozen=True)
class HistogramRequest:
    """What to draw.

    Parameters
    ----------
    edges_cm
        Limits of the dbh classes, one more than classes.
    stems_per_ha
        Living stems per hectare by class.
    ink, fill
        Colours of axes and bars, "#rrggbb".
    width, height
        Size in units of the window.
    pixel_ratio
        Device pixels in one of them.
    font_pixels
        Height of the letters.
    x_label, y_label
        Words at the axes.
    """

    edges_cm: tuple[float, ...]
    stems_per_ha: tuple[float, ...]
    ink: str
    fill: str
    width: int
    height: int
    pixel_ratio: float
    font_pixels: float
    x_label: str
    y_label: str


def draw_histogram(request: HistogramRequest, _progress: Progress | None = None) -> QImage:
    """Draw the histogram on a transparent ground."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure
    from matplotlib.ticker import MaxNLocator

    dpi = 72.0 * request.pixel_ratio  # so that a point is one unit of the window
    figure = Figure(figsize=(request.width / 72.0, request.height / 72.0), dpi=dpi, layout="constrained")
    canvas = FigureCanvasAgg(figure)
    figure.patch.set_alpha(0.0)
    axes = figure.add_subplot()
    axes.patch.set_alpha(0.0)
    edges = request.edges_cm
    steps = [upper - lower for lower, upper in pairwise(edges)]
    axes.bar(edges[:-1], request.stems_per_ha, width=[0.9 * step for step in steps], align="edge", color=request.fill)
    axes.set_xlim(edges[0], edges[-1])
    axes.set_xlabel(request.x_label, color=request.ink, fontsize=request.font_pixels)
    axes.set_ylabel(request.y_label, color=request.ink, fontsize=request.font_pixels)
    axes.tick_params(colors=request.ink, labelsize=request.font_pixels, length=3)
    axes.xaxis.set_major_locator(MaxNLocator(6, steps=[1, 2, 5, 10]))
    axes.yaxis.set_major_locator(MaxNLocator(4, steps=[1, 2, 5, 10]))
    for side in ("top", "right"):
        axes.spines[side].set_visible(False)
    for side in ("left", "bottom"):
        axes.spines[side].set_color(request.ink)
    canvas.draw()  # type: ignore[no-untyped-call]  # matplotlib gives no types for its canvases
    buffer = canvas.buffer_rgba()  # type: ignore[no-untyped-call]  # as above
    height, width = buffer.shape[:2]
    image = QImage(buffer, width, height, 4 * width, QImage.Format.Format_RGBA8888).copy()
    image.setDevicePixelRatio(request.pixel_ratio)
    return image
