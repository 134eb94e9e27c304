"""The edge of the stand on the map of a plot that it cuts."""

from __future__ import annotations

import numpy as np

from stemmap.drawing.palette import Theme
from stemmap.drawing.scene import Lines, Shape, Stroke
from stemmap.survey.measured import Measured

_DASH_MM = (3.0, 0.8, 0.5, 0.8)


def stand_edge_shapes(measured: Measured, visit_row: int, reach_m: float, theme: Theme) -> list[Shape]:
    """The stand's edge as far as the map shows the ground; nothing where none comes near.

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
    return [Lines(points[joined], points[joined + 1], Stroke(theme.ink, 0.3, dash_mm=_DASH_MM))]
