"""The edge of the stand on the map of a plot that it cuts."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QCoreApplication

from stemmap.drawing.palette import Theme
from stemmap.drawing.scene import Lines, Shape, Stroke
from stemmap.survey.measured import Measured

Floats = NDArray[np.float64]
_tr = QCoreApplication.translate

_DASH_MM = (3.0, 0.8, 0.5, 0.8)
#: Metres from one tick of the edge to the next, and their length; they point out of the stand.
_TICK_STEP_M, _TICK_M = 2.0, 0.6
#: Metres beside the edge at which it is asked what lies there.
_BESIDE_M = 0.05


def stand_edge_shapes(measured: Measured, visit_row: int, reach_m: float, theme: Theme) -> list[Shape]:
    """The stand's edge as far as the map shows the ground, with ticks outwards; nothing where none comes near.

    Parameters
    ----------
    measured
        What was computed of the plots.
    visit_row
        Row of the visit.
    reach_m
        Radius of the ground shown.
    theme
        Colours.
    """
    cut = measured.stand_edge
    if cut is None or cut.outline[visit_row] is None:
        return []
    import shapely

    shown = shapely.buffer(shapely.Point(0.0, 0.0), reach_m, quad_segs=64)
    pieces = shapely.get_parts(shapely.intersection(shapely.boundary(cut.outline[visit_row]), shown))
    points, line = shapely.get_coordinates(pieces, return_index=True)
    joined = np.flatnonzero(line[1:] == line[:-1])
    if not len(joined):
        return []
    start, end = points[joined], points[joined + 1]
    return [
        Lines(start, end, Stroke(theme.ink, 0.3, dash_mm=_DASH_MM)),
        _ticks(cut.outline[visit_row], start, end, theme),
    ]


def _ticks(stand: Any, start: Floats, end: Floats, theme: Theme) -> Lines:
    """Short lines across the edge on its outer side."""
    import shapely

    along = end - start
    length = np.hypot(along[:, 0], along[:, 1])
    count = np.maximum(np.floor(length / _TICK_STEP_M).astype(np.int64), 1)
    piece = np.repeat(np.arange(len(start)), count)
    place = np.arange(len(piece)) - np.repeat(np.cumsum(count) - count, count)
    at = start[piece] + along[piece] * ((place + 0.5) / count[piece])[:, None]
    normal = np.column_stack([along[:, 1], -along[:, 0]])[piece] / np.maximum(length[piece], 1e-9)[:, None]
    inside = shapely.contains_xy(stand, *(at + _BESIDE_M * normal).T)
    outwards = np.where(inside[:, None], -normal, normal)
    return Lines(at, at + _TICK_M * outwards, Stroke(theme.ink, 0.25))


def stand_edge_words(measured: Measured, visit_row: int) -> list[str]:
    """What is told of the edge beside the map."""
    cut = measured.stand_edge
    if cut is None:
        return []
    words = [_tr("map", "The line of dashes and dots is the edge of the stand; its ticks point out of it.")]
    if not cut.centre_inside[visit_row]:
        words.append(_tr("map", "The plot centre lies outside the stand."))
    share = cut.share[visit_row]
    if cut.method == "part_plot" and np.isfinite(share):
        told = _tr("map", "{percent:.0f} % of the circle lie in the stand; the part stands for itself.")
        words.append(told.format(percent=100.0 * share))
    return words
