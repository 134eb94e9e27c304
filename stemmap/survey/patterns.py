"""Which stems of a plot visit make a pattern, and on which ground: all stems of it under one inclusion rule."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stemmap.core import edge
from stemmap.core.arcs import Circles, shared
from stemmap.core.design import RESOLUTION
from stemmap.core.windows import CutDisc, Disc
from stemmap.survey.measured import Measured
from stemmap.survey.settings import CircleSettings
from stemmap.survey.survey import Survey
from stemmap.units import METRES

Floats = NDArray[np.float64]
Rows = NDArray[np.int64]

_ANGLE_COUNT = "an angle count has no one inclusion rule for all its stems"
_ON_SLOPE = "the circle was laid out on the slope; on the map it is no circle"
_BROKEN_EDGE = "the stand edge crosses itself"
#: A circle that lacks no more than this share of its area is whole.
_WHOLE = 1e-9


@dataclass(frozen=True)
class Patterns:
    """The stems of each visit that share one inclusion rule, one position a tree, and the ground they stand on.

    Parameters
    ----------
    which
        Which stems these are, in words.
    rows
        Rows of the stems, ascending.
    visit
        Visit row of each of them.
    to_edge_m
        How far each of them lies from the edge of its ground.
    radius_m
        Radius of the circle, by visit; NaN where there is none.
    area_m2, perimeter_m
        Of the ground, by visit.
    outline
        The stand about each plot whose circle the stand edge cuts, m east and north of the centre; None elsewhere.
    reason
        Why there is no pattern, by visit; empty where there is one.
    """

    which: str
    rows: Rows
    visit: Rows
    to_edge_m: Floats
    radius_m: Floats
    area_m2: Floats
    perimeter_m: Floats
    outline: NDArray[np.object_]
    reason: NDArray[np.object_]

    def window(self, visit: int) -> Disc | CutDisc:
        """The ground of one visit, m east and north of the plot centre."""
        disc = Disc((0.0, 0.0), float(self.radius_m[visit]))
        return disc if self.outline[visit] is None else CutDisc(disc, self.outline[visit])

    @property
    def pooled_words(self) -> str:
        """Which stems of all plots these are."""
        return f"{self.which} under one inclusion rule on each plot's last visit, one position a tree"

    def words(self, visit: int) -> str | None:
        """Which stems of a visit these are; None where there is no pattern."""
        radius = self.radius_m[visit]
        if self.reason[visit] or not np.isfinite(radius):
            return None
        if self.outline[visit] is None:
            return f"{self.which} within {radius:g} m, one position a tree"
        return f"{self.which} within {radius:g} m and inside the stand, one position a tree"


def circle_patterns(
    survey: Survey, measured: Measured, *, living: NDArray[np.bool_], reason: NDArray[np.object_]
) -> Patterns:
    """The stems of the whole circle; in concentric circles those of the inner one; in an angle count none.

    Parameters
    ----------
    living
        Living stems that are in, shape (stems,).
    reason
        Why a plot's values cannot be known, by visit; empty where they can.
    """
    design = survey.settings.design
    radius = measured.radius_m.copy()
    reason = reason.copy()
    which = "living stems"
    of_centre = np.ones(len(survey.stems), bool)
    if design.kind == "angle_count":
        reason[reason == ""] = _ANGLE_COUNT
        radius[:] = np.nan
    if design.kind == "concentric":
        which = "living stems of the inner circle"
        radius[:] = min((circle.radius_m for circle in _centred(survey)), default=np.nan) * _unit(survey)
        # Stems sampled by a circle that lies apart from the centre stand there by chance.
        of_centre = np.array([not circle.offset_m for circle in design.circles] + [False])[measured.circle]
    within = measured.horizontal_distance_m <= radius[survey.stems.visit_row] + RESOLUTION
    return _patterns(survey, measured, which, chosen=living & within & of_centre, radius=radius, reason=reason)


def large_patterns(
    survey: Survey, measured: Measured, *, living: NDArray[np.bool_], reason: NDArray[np.object_]
) -> Patterns | None:
    """The large stems of concentric circles, all those of the outer one; None in other designs.

    Parameters are those of `circle_patterns`.
    """
    design, centred = survey.settings.design, _centred(survey)
    if design.kind != "concentric" or len({circle.radius_m for circle in centred}) < 2:
        return None
    outer = max(centred, key=lambda circle: circle.radius_m)
    radius = np.full(len(survey.visits), outer.radius_m * _unit(survey))
    chosen = living & (measured.circle == design.circles.index(outer))
    return _patterns(survey, measured, _large_words(survey, outer), chosen=chosen, radius=radius, reason=reason.copy())


def _patterns(
    survey: Survey,
    measured: Measured,
    which: str,
    *,
    chosen: NDArray[np.bool_],
    radius: Floats,
    reason: NDArray[np.object_],
) -> Patterns:
    if survey.settings.design.slope != "horizontal":
        sloping = ~(survey.visits.numbers("slope_percent") == 0)
        reason[sloping & (reason == "")] = _ON_SLOPE
    rows = np.flatnonzero(chosen & _first_of_tree(survey))
    visit = survey.stems.visit_row[rows]
    to_edge = radius[visit] - measured.horizontal_distance_m[rows]
    area, perimeter = np.pi * radius**2, 2.0 * np.pi * radius
    outline = np.full(len(radius), None, dtype=object)
    cut = measured.stand_edge
    if cut is not None:
        _cut(cut.outline, radius, area=area, perimeter=perimeter, outline=outline, reason=reason)
        at_edge = np.flatnonzero([one is not None for one in outline])
        number = np.full(len(radius), -1, np.int64)
        number[at_edge] = np.arange(len(at_edge))
        here = np.flatnonzero(number[visit] >= 0)
        place = np.column_stack([measured.x_m[rows[here]], measured.y_m[rows[here]]])
        border = edge.to_border(edge.boundary(outline[at_edge]), place, plot=number[visit[here]])
        to_edge[here] = np.minimum(to_edge[here], border)
    return Patterns(which, rows, visit, to_edge, radius, area, perimeter, outline, reason)


def _cut(
    stands: NDArray[np.object_],
    radius: Floats,
    *,
    area: Floats,
    perimeter: Floats,
    outline: NDArray[np.object_],
    reason: NDArray[np.object_],
) -> None:
    """Take from circles what the stand edge cuts off."""
    import shapely

    rows = np.flatnonzero((reason == "") & np.isfinite(radius) & [stand is not None for stand in stands])
    if not len(rows):
        return
    valid = shapely.is_valid(stands[rows])
    reason[rows[~valid]] = _BROKEN_EDGE
    rows = rows[valid]
    discs = Circles(np.zeros((len(rows), 2)), radius[rows])
    left, length = shared([discs], edge.boundary(stands[rows]), np.arange(len(rows)))
    less = left < (1.0 - _WHOLE) * area[rows]
    area[rows[less]], perimeter[rows[less]], outline[rows[less]] = left[less], length[less], stands[rows[less]]


def _centred(survey: Survey) -> list[CircleSettings]:
    """Circles of the design about the plot centre."""
    return [circle for circle in survey.settings.design.circles if not circle.offset_m]


def _unit(survey: Survey) -> float:
    return METRES[survey.settings.measurement.length_unit]


def _large_words(survey: Survey, outer: CircleSettings) -> str:
    unit = "in" if survey.settings.measurement.length_unit == "foot" else "cm"
    least, most = outer.min_dbh_cm, outer.max_dbh_cm
    if least is None:
        return "living stems of the outer circle"
    if most is None:
        return f"living stems of {least:g} {unit} and more in the outer circle"
    return f"living stems of {least:g} to {most:g} {unit} in the outer circle"


def _first_of_tree(survey: Survey) -> NDArray[np.bool_]:
    """Whether a stem is the first of its tree on its visit; stems without a tree number stand for themselves."""
    stems = survey.stems
    tree = stems.records.columns.get("tree")
    first = np.ones(len(stems), bool)
    if tree is None or not stems.records.has("stem"):
        return first
    rows = np.flatnonzero(tree.filled)
    key = stems.visit_row[rows] * len(tree.labels) + tree.alike()[rows]
    _, kept = np.unique(key, return_index=True)
    first[rows] = False
    first[rows[kept]] = True
    return first
