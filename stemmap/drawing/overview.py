"""The survey as a whole: plots at their projected places, gathered into clusters where they crowd."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from math import ceil, log2
from typing import Final

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QCoreApplication

from stemmap.core import locate
from stemmap.drawing.scene import Box, Floats, View
from stemmap.survey.measured import Measured
from stemmap.survey.place import WGS84, coordinate_system, utm_zone
from stemmap.survey.survey import Survey

_tr = QCoreApplication.translate
Integers = NDArray[np.int64]

#: States of a plot, the gravest first.
ERROR, TO_LOOK_AT, CLEAR, NO_STEMS = range(4)

#: Side of the smallest cells, metres; on the map a cell is at least so many millimetres wide.
_CELL_M: Final = 8.0
_CELL_MM: Final = 10.0
#: Bits of a cell's number along one axis; enough for the whole earth.
_BITS: Final = 24
_EMPTY_REACH_M: Final = 100.0


@dataclass(frozen=True, eq=False)
class Clusters:
    """Plots gathered by the cells of one size; arrays of shape (c,).

    Parameters
    ----------
    place
        Middle of the plots of each, metres from the base, shape (c, 2).
    low, high
        South-west and north-east corner of their centres, shape (c, 2).
    count
        Number of plots.
    state
        The gravest state among them.
    first
        A plot of each; the only one where the count is 1.
    """

    place: Floats
    low: Floats
    high: Floats
    count: Integers
    state: Integers
    first: Integers


@dataclass(frozen=True, eq=False)
class Overview:
    """Every plot that has coordinates; arrays of shape (p,), neighbours next to each other.

    Parameters
    ----------
    crs
        Coordinate system of the places; None when no plot has any.
    base
        Projected coordinates of the point (0, 0), in metres.
    visit
        Row of the last visit of each plot.
    place
        Metres east and north of the base, shape (p, 2).
    radius_m
        Radius of the plot, NaN when it is not known.
    state
        `ERROR`, `TO_LOOK_AT`, `CLEAR` or `NO_STEMS`.
    names
        Plots as typed.
    plot_of_visit
        Index of the plot of each visit of the survey, -1 without coordinates; shape (visits,).
    levels
        Clusters in cells of 8 m, 16 m, 32 m ...; the last one is a single cell.
    adrift
        Rows of the last visits of plots without coordinates.
    notes
        Sentences on what the map cannot show.
    """

    crs: str | None
    base: Floats
    visit: Integers
    place: Floats
    radius_m: Floats
    state: Integers
    names: NDArray[np.object_]
    plot_of_visit: Integers
    levels: tuple[Clusters, ...]
    adrift: Integers
    notes: tuple[str, ...]

    @cached_property
    def single(self) -> Clusters:
        """Each plot by itself."""
        count = np.ones(len(self.visit), np.int64)
        return Clusters(self.place, self.place, self.place, count, self.state, np.arange(len(self.visit)))

    @cached_property
    def box(self) -> Box:
        """What a map of the whole survey must show."""
        if not len(self.place):
            return Box((-_EMPTY_REACH_M, -_EMPTY_REACH_M), (_EMPTY_REACH_M, _EMPTY_REACH_M))
        return self.around(self.place.min(axis=0), self.place.max(axis=0))

    def around(self, low: Floats, high: Floats) -> Box:
        """A box that shows the plots between two corners."""
        margin = 2.0 * float(np.nan_to_num(self.radius_m, nan=10.0).max(initial=10.0))
        west, south = (low - margin).tolist()
        east, north = (high + margin).tolist()
        return Box((west, south), (east, north), (-8.0, -8.0), (8.0, 8.0))

    def clusters(self, millimetres_per_metre: float) -> Clusters:
        """Clusters for a scale: cells as small as they may be without their marks lying on each other."""
        level = ceil(log2(_CELL_MM / (millimetres_per_metre * _CELL_M)))
        if level < 0 or not self.levels:
            return self.single
        return self.levels[min(level, len(self.levels) - 1)]

    @property
    def metres(self) -> float:
        """Metres in a unit of the system."""
        return 1.0 if self.crs is None else float(coordinate_system(self.crs).axis_info[0].unit_conversion_factor)

    def geographic(self, places_m: Sequence[tuple[float, float]]) -> tuple[Floats, Floats]:
        """Longitude and latitude (WGS 84) of points in metres from the base; NaN without a system."""
        points = np.asarray(places_m, dtype=float) + self.base
        if self.crs is None:
            return np.full(len(points), np.nan), np.full(len(points), np.nan)
        system = coordinate_system(self.crs)
        points /= self.metres
        return locate.geographic(points[:, 0], points[:, 1], system)

    def projected(self, lon: float, lat: float) -> tuple[float, float] | None:
        """Metres from the base of a place on WGS 84; None where it cannot be projected."""
        if self.crs is None:
            return None
        place = _from_system(WGS84, np.array([lon]), np.array([lat]), self.crs)[0] - self.base
        return (float(place[0]), float(place[1])) if np.isfinite(place).all() else None

    def near(self, x: float, y: float) -> int:
        """Plot nearest to a point in metres; -1 when there is none."""
        if not len(self.place):
            return -1
        return int(np.argmin(np.hypot(self.place[:, 0] - x, self.place[:, 1] - y)))

    def cluster_at(self, view: View, x: float, y: float, *, within_mm: float) -> int:
        """Place of the cluster under a point of the device among those of its scale; -1: none."""
        clusters = self.clusters(view.millimetres_per_metre)
        if not len(clusters.count):
            return -1
        east, north = view.to_metres(x, y)
        away = np.hypot(clusters.place[:, 0] - east, clusters.place[:, 1] - north)
        reach = np.maximum(
            np.where(clusters.count == 1, np.nan_to_num(self.radius_m[clusters.first]), 0.0),
            within_mm / view.millimetres_per_metre,
        )
        nearest = int(np.argmin(away - reach))
        return nearest if away[nearest] <= reach[nearest] else -1


def overview(survey: Survey, measured: Measured, gravest: Integers) -> Overview:
    """Put all plots on one map.

    Parameters
    ----------
    survey, measured
        The records and what was computed from them.
    gravest
        `ERROR`, `TO_LOOK_AT` or `CLEAR` by visit, shape (visits,).
    """
    visits = survey.visits
    first = np.flatnonzero(visits.previous < 0)
    last = np.append(first[1:], len(visits))[: len(first)] - 1
    plot = np.cumsum(visits.previous < 0) - 1
    state = np.minimum.reduceat(gravest, first) if len(first) else np.zeros(0, np.int64)
    stems = np.add.reduceat(visits.stem_count, first) if len(first) else np.zeros(0, np.int64)
    state = np.where((state == CLEAR) & (stems == 0), NO_STEMS, state).astype(np.int64)
    crs = _metric(measured)
    place = _projected(measured, last, crs)
    known = np.isfinite(place).all(axis=1)
    base = np.round(np.median(place[known], axis=0), -3) if known.any() else np.zeros(2)
    place = place - base
    code = _cell_code(place[known])
    order = np.flatnonzero(known)[np.argsort(code, kind="stable")]
    number = np.full(len(last), -1, np.int64)
    number[order] = np.arange(len(order))
    return Overview(
        crs=crs if known.any() else None,
        base=base,
        visit=last[order],
        place=place[order],
        radius_m=measured.radius_m[last[order]],
        state=state[order],
        names=visits.plot[last[order]],
        plot_of_visit=number[plot],
        levels=_levels(place[order], np.sort(code), state[order]),
        adrift=last[~known],
        notes=tuple(_notes(survey, measured, crs, last[~known])),
    )


def _metric(measured: Measured) -> str | None:
    """The system of the results, or the UTM zone where that one counts in degrees."""
    if measured.crs is not None and coordinate_system(measured.crs).is_projected:
        return measured.crs
    return utm_zone(measured.centres)


def _projected(measured: Measured, visit: Integers, crs: str | None) -> Floats:
    """Projected places of the centres of some visits in metres, NaN without coordinates; shape (n, 2)."""
    place = np.full((len(visit), 2), np.nan)
    if crs is None:
        return place
    centres = measured.centres
    for system in np.unique(centres.system[visit]).tolist():
        if system < 0:
            continue
        rows = np.flatnonzero(centres.system[visit] == system)
        chosen = visit[rows]
        place[rows] = _from_system(centres.systems[system], centres.x[chosen], centres.y[chosen], crs)
    return place


def _from_system(system: str, x: Floats, y: Floats, crs: str) -> Floats:
    """Projected places in metres of points in another system, shape (n, 2)."""
    target, none = coordinate_system(crs), np.zeros(len(x))
    metres = float(target.axis_info[0].unit_conversion_factor)
    return metres * np.column_stack(
        locate.project(
            x,
            y,
            coordinate_system(system),
            plot_of_stem=np.arange(len(x)),
            true_azimuth_deg=none,
            distance_m=none,
            target_crs=target,
        )
    )


def _cell_code(place: Floats) -> Integers:
    """Number of the smallest cell of each place, counted from the south-west, the bits of both axes by turns.

    In this order (G. M. Morton, 1966) the plots of every larger cell follow each other, so one sorting serves all.
    """
    corner = place.min(axis=0, initial=np.inf)
    cell = np.minimum((place - corner) / _CELL_M, (1 << _BITS) - 1).astype(np.uint64)
    for shift, mask in (
        (16, 0x0000FFFF0000FFFF),
        (8, 0x00FF00FF00FF00FF),
        (4, 0x0F0F0F0F0F0F0F0F),
        (2, 0x3333333333333333),
        (1, 0x5555555555555555),
    ):
        cell = (cell | (cell << np.uint64(shift))) & np.uint64(mask)
    code: Integers = (cell[:, 0] | (cell[:, 1] << np.uint64(1))).astype(np.int64)
    return code


def _levels(place: Floats, code: Integers, state: Integers) -> tuple[Clusters, ...]:
    made: list[Clusters] = []
    if not len(place):
        return ()
    for level in range(_BITS):
        cell = code >> (2 * level)
        first = np.flatnonzero(np.append(True, cell[1:] != cell[:-1]))
        count = np.diff(np.append(first, len(place)))
        made.append(
            Clusters(
                place=np.add.reduceat(place, first, axis=0) / count[:, None],
                low=np.minimum.reduceat(place, first, axis=0),
                high=np.maximum.reduceat(place, first, axis=0),
                count=count,
                state=np.minimum.reduceat(state, first),
                first=first,
            )
        )
        if len(first) == 1:
            break
    return tuple(made)


def _notes(survey: Survey, measured: Measured, crs: str | None, adrift: Integers) -> list[str]:
    notes = []
    if crs is not None and crs != measured.crs:
        notes.append(
            _tr("map", "{given} counts in degrees, so the plots are shown in {crs}.").format(
                given=measured.crs, crs=crs
            )
        )
    if crs is None:
        notes.append(
            _tr(
                "map",
                "The coordinate system of the plots is not known, so there is no map of the whole survey; choose it "
                "under Settings.",
            )
            if np.isfinite(survey.visits.numbers("easting")).any()
            else _tr("map", "No plot has coordinates, so there is no map of the whole survey.")
        )
    elif len(adrift):
        names = ", ".join(str(name) for name in survey.visits.plot[adrift[:12]])
        if len(adrift) > 12:
            names = _tr("map", "{names} and {count} more").format(names=names, count=len(adrift) - 12)
        notes.append(_tr("map", "Without coordinates, so not on the map: {names}.").format(names=names))
    return notes
