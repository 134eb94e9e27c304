"""The ground of the stand, the plots that its edge cuts, and which method carries the correction."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stemmap.core import edge
from stemmap.survey.place import Centres, coordinate_system, project_points, utm_zone
from stemmap.survey.settings import Settings
from stemmap.survey.survey import StandGround

Floats = NDArray[np.float64]

NOT_READ = "the polygons of the stand were not found"
NO_PLACE = "it is not known whether the stand edge cuts the plot, for its centre is not known"
OUTSIDE = "the plot centre lies outside the stand"
NOTHING_INSIDE = "no part of the circle lies inside the stand"
_MIRAGE_BENT = "the stand edge bends within reach of the plot, where the mirage is not exact; take another correction"
_NO_RADIUS = "the circle has no radius, so that no share of it can be told"
_PART_COUNT = "an angle count has no circle that could be taken in part; take another correction"
_ON_SLOPE = "the circle was laid out on the slope, and a stand edge cuts it; that is not corrected"
_APART = "a circle of the design lies apart from the centre, and a stand edge cuts the plot; that is not corrected"
_UNPLACED = "stems that are in have no place, and a stand edge cuts the plot"

#: What carries the correction, said once in every summary.
CARRIED = {
    "area_weight": "the stems: each weighs 1 / share of its own inclusion zone inside the stand",
    "mirage": "the stems: each counts once more for every reflected plot centre that reaches it",
    "walkthrough": "the stems: each counts twice when as far again behind it is outside, over the share so covered",
    "part_plot": "the area: the part of the circle inside, and the ratio of means for the survey",
    "none": "nothing: stems inside the stand weigh as they are",
}
#: The same as a sentence.
CARRIED_SENTENCES = {
    method: "Plots at the stand edge are not corrected: stems inside the stand weigh as they are."
    if method == "none"
    else f"Plots at the stand edge are corrected by {carrier}. Nothing else is corrected for it."
    for method, carrier in CARRIED.items()
}


@dataclass(frozen=True)
class StandEdge:
    """How the stand edge cuts the plots.

    Parameters
    ----------
    method
        What carries the correction: the setting `design.edge`.
    share
        Share of the largest circle inside the stand, by visit; NaN where it cannot be told.
    shares
        The same of every circle of the design, shape (visits, circles).
    weight
        What a stem's expansion factor is multiplied by; 0 outside the stand, NaN where it cannot be told.
    cut
        Whether the edge comes within reach of a plot, by visit.
    centre_inside
        Whether the plot centre lies inside, by visit.
    reason
        Why a plot's values cannot be told, by visit; empty where they can.
    outline
        The stand about each plot that is cut, m east and north of the centre; None elsewhere.
    """

    method: str
    share: Floats
    shares: Floats
    weight: Floats
    cut: NDArray[np.bool_]
    centre_inside: NDArray[np.bool_]
    reason: NDArray[np.object_]
    outline: NDArray[np.object_]

    @property
    def sampled(self) -> NDArray[np.bool_]:
        """Which plots the sample of the stand holds: centre inside, or in part plots any ground inside."""
        return np.asarray((self.reason != OUTSIDE) & (self.reason != NOTHING_INSIDE))


@dataclass(frozen=True)
class _Stems:
    """What is needed of the stems: their visit, place, own radius and circle, and whether they are in."""

    visit: NDArray[np.int64]
    place: Floats
    limit: Floats
    circle: NDArray[np.int64]
    inside: NDArray[np.bool_]


def stand_edge(
    settings: Settings,
    ground: StandGround | None,
    places: Centres,
    *,
    crs: str | None,
    convergence_deg: Floats,
    radii_m: Floats,
    visit: NDArray[np.int64],
    place: Floats,
    limit_m: Floats,
    circle: NDArray[np.int64],
    inside: NDArray[np.bool_],
) -> StandEdge:
    """Cut the plots by the stand edge and weigh their stems.

    Parameters
    ----------
    settings
        `design.edge` says which method carries the correction.
    ground
        The stand; None when its polygons were not found.
    places, crs, convergence_deg
        Plot centres, system of the results, meridian convergence there by visit.
    radii_m
        Radii of the circles of the design, shape (visits, circles); NaN without one.
    visit, place, limit_m, circle, inside
        Of the stems: visit row, m east and north of the centre, limiting distance, circle, and whether they are in.
    """
    count, design = len(places.x), settings.design
    stems = _Stems(visit, place, limit_m, circle, inside)
    reason = np.full(count, "", dtype=object)
    outline = np.full(count, None, dtype=object)
    cut, within = np.zeros(count, bool), np.zeros(count, bool)
    shares = np.full(radii_m.shape, np.nan)
    weight = np.full(len(visit), np.nan)
    system = crs if crs is not None and coordinate_system(crs).is_projected else utm_zone(places)
    located = np.isfinite(places.lon)
    reason[~located] = NO_PLACE
    if ground is None or system is None:
        reason[:] = NOT_READ if ground is None else NO_PLACE
        return StandEdge(design.edge, shares.max(axis=1), shares, weight, cut, within, reason, outline)

    reach = _reach(radii_m, stems, count)
    rows = np.flatnonzero(located)
    cut[rows], within[rows], outline[rows] = _about(
        ground, places, system, rows=rows, reach=reach[rows], convergence_deg=convergence_deg[rows]
    )
    shares[rows] = np.where(within[rows, None], 1.0, 0.0) + 0.0 * radii_m[rows]
    weight[:] = np.where(within, 1.0, np.where(located, 0.0, np.nan))[visit]
    at_edge = np.flatnonzero(cut)
    if len(at_edge):
        border = edge.boundary(outline[at_edge])
        number = np.full(count, -1, np.int64)
        number[at_edge] = np.arange(len(at_edge))
        for column in range(radii_m.shape[1]):
            origin = np.zeros((len(at_edge), 2))
            radius = radii_m[at_edge, column]
            shares[at_edge, column] = edge.share_inside(border, origin, radius, plot=np.arange(len(at_edge)))
        chosen = np.flatnonzero(cut[visit] & inside)
        weight[cut[visit] & ~inside] = 1.0
        _weigh(weight, reason, design.edge, border=border, outline=outline, stems=stems, chosen=chosen, number=number,
               shares=shares, reach=reach)  # fmt: skip
        _refuse(reason, settings, at_edge)
        unplaced = np.unique(visit[chosen][~np.isfinite(place[chosen]).all(axis=1)])
        reason[unplaced[reason[unplaced] == ""]] = _UNPLACED
    share = shares[np.arange(count), np.argmax(np.nan_to_num(radii_m, nan=-1.0), axis=1)]
    if design.edge == "part_plot":
        reason[(share == 0.0) & (reason == "")] = NOTHING_INSIDE
        reason[np.isnan(share) & cut & (reason == "")] = _PART_COUNT if design.kind == "angle_count" else _NO_RADIUS
    else:
        reason[located & ~within] = OUTSIDE
    weight[(reason != "")[visit] & (weight != 0.0)] = np.nan
    return StandEdge(design.edge, share, shares, weight, cut, within, reason, outline)


def _weigh(
    weight: Floats,
    reason: NDArray[np.object_],
    method: str,
    *,
    border: edge.Boundary,
    outline: NDArray[np.object_],
    stems: _Stems,
    chosen: NDArray[np.int64],
    number: NDArray[np.int64],
    shares: Floats,
    reach: Floats,
) -> None:
    """Weigh the stems that are in on plots at the edge; `reason` says where the mirage cannot."""
    plot, seen, limit = number[stems.visit[chosen]], stems.place[chosen], stems.limit[chosen]
    at_edge = np.flatnonzero(number >= 0)
    if method == "area_weight":
        weight[chosen] = edge.area_weight(border, seen, limit, plot=plot)
    elif method == "walkthrough":
        covered = edge.walkthrough_share(outline[at_edge], seen, limit, plot=plot)
        twice = edge.walkthrough(border, seen, plot=plot)
        weight[chosen] = np.divide(twice, covered, out=np.zeros(len(twice)), where=covered > 0.0)
    elif method == "mirage":
        made = edge.mirage(border, seen, limit, plot=plot, reach=reach[at_edge])
        weight[chosen] = made.times
        reason[at_edge[~made.possible]] = _MIRAGE_BENT
    else:
        there = edge.inside(border, seen, plot=plot).astype(np.float64)
        own = shares[stems.visit[chosen], np.maximum(stems.circle[chosen], 0)] if method == "part_plot" else there
        weight[chosen] = np.divide(there, own, out=np.zeros(len(there)), where=(own > 0.0) & (there > 0.0))


def _refuse(reason: NDArray[np.object_], settings: Settings, at_edge: NDArray[np.int64]) -> None:
    """Say where an edge cannot be corrected."""
    design = settings.design
    if any(circle.offset_m for circle in design.circles) and design.edge != "none":
        reason[at_edge] = _APART
    if design.slope != "horizontal" and design.kind != "angle_count" and design.edge != "none":
        reason[at_edge] = _ON_SLOPE
    if design.kind == "angle_count" and design.edge == "part_plot":
        reason[at_edge] = _PART_COUNT


def _reach(radii_m: Floats, stems: _Stems, count: int) -> Floats:
    """How far a plot reaches: its largest circle, or the largest limiting distance of its stems."""
    reach: Floats = np.nanmax(np.column_stack([np.zeros(count), radii_m]), axis=1)
    used = np.flatnonzero(stems.inside & np.isfinite(stems.limit))
    np.maximum.at(reach, stems.visit[used], stems.limit[used])
    return reach


def _about(
    ground: StandGround,
    places: Centres,
    system: str,
    *,
    rows: NDArray[np.int64],
    reach: Floats,
    convergence_deg: Floats,
) -> tuple[NDArray[np.bool_], NDArray[np.bool_], NDArray[np.object_]]:
    """Which plots the edge comes near, whether their centres are inside, and the stand about those at the edge."""
    import shapely
    from pyproj import Transformer

    turn = Transformer.from_crs(coordinate_system(ground.crs), coordinate_system(system), always_xy=True)
    stand = shapely.transform(ground.polygons, lambda xy: np.column_stack(turn.transform(xy[:, 0], xy[:, 1])))
    easting, northing = project_points(
        places, system, np.tile(rows, 2), np.zeros(2 * len(rows)), np.repeat([0.0, 10.0], len(rows))
    )
    point = easting + 1j * northing
    centre, north = point[: len(rows)], point[len(rows) :] - point[: len(rows)]
    metre = np.abs(north) / 10.0
    # A second zone's width beyond the plot, for stems near its rim reach as far again.
    width = 2.0 * reach + 1.0
    line = shapely.boundary(stand)
    for shape in (line, stand):
        shapely.prepare(shape)
    spots = shapely.points(centre.real, centre.imag)
    near = shapely.dwithin(line, spots, width * metre)
    inside = shapely.contains_properly(stand, spots)
    outline = np.full(len(rows), None, dtype=object)
    here = np.flatnonzero(near)
    span = width[here] * metre[here] * 1.5
    x, y = centre.real[here], centre.imag[here]
    pieces = shapely.intersection(stand, shapely.box(x - span, y - span, x + span, y + span))
    corners, piece = shapely.get_coordinates(pieces, return_index=True)
    # True north lies at -convergence in the frame of the plot and where it was projected to in the system.
    towards = np.radians(-convergence_deg[here]) - np.angle(north[here].imag + 1j * north[here].real)
    local = (corners[:, 0] + 1j * corners[:, 1] - centre[here][piece]) / metre[here][piece]
    local = local * np.exp(-1j * towards)[piece]
    outline[here] = shapely.set_coordinates(pieces, np.column_stack([local.real, local.imag]))
    return near, inside, outline
