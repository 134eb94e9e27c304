"""The map of the whole survey: marks of plots and clusters, names where there is room, and its legend."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QCoreApplication

from stemmap.drawing.backgrounds import ground_of_survey
from stemmap.drawing.ground import round_step
from stemmap.drawing.layers import USUAL, Layers
from stemmap.drawing.legend import ROW_MM
from stemmap.drawing.overview import CLEAR, ERROR, NO_STEMS, TO_LOOK_AT, Clusters, Overview
from stemmap.drawing.palette import FINDING_FILLS, Theme, readable_on
from stemmap.drawing.scene import Box, Discs, Lines, Scene, Shape, Stroke, Texts, View
from stemmap.drawing.typeface import SMALL, WORDS, shortened, widths
from stemmap.survey.background import Background

_tr = QCoreApplication.translate
#: Radius of the mark of a plot, and of a cluster with the square root of its number of digits.
PLOT_MM: Final = 1.7
CLUSTER_MM: Final = 2.6
#: Sign of a state; together with fill and outline it never leaves a colour alone.
SIGNS: Final = {ERROR: "!", TO_LOOK_AT: "?", CLEAR: "", NO_STEMS: "–"}
_MOST_NAMES: Final = 250
_LONGEST: Final = 14
#: Between a mark and its name; the ring around a selected plot finds its place here.
_NAME_GAP_MM: Final = 1.4
_GRID_LINES: Final = 6


def describe_overview(
    plots: Overview,
    view: View,
    width: float,
    height: float,
    *,
    theme: Theme,
    layers: Layers = USUAL,
    backgrounds: Sequence[Background] = (),
) -> Scene:
    """Describe what a device of a size shows of the survey.

    Parameters
    ----------
    plots
        The plots.
    view
        How metres from their base lie on the device.
    width, height
        Size of the device in its units.
    theme
        Colours.
    layers
        Only the numbers (here the names of plots) and the backgrounds play a part.
    backgrounds
        The user's own ground, in the system of the map.
    """
    low, high = view.to_metres(0.0, height), view.to_metres(width, 0.0)
    clusters = plots.clusters(view.millimetres_per_metre)
    margin = 2.0 * CLUSTER_MM / view.millimetres_per_metre
    reach = margin + np.where(clusters.count == 1, np.nan_to_num(plots.radius_m[clusters.first]), 0.0)
    x, y = clusters.place.T
    seen = np.flatnonzero((x > low[0] - reach) & (x < high[0] + reach) & (y > low[1] - reach) & (y < high[1] + reach))
    one = clusters.count[seen] == 1
    single, crowd = seen[one], seen[~one]
    shapes: list[Shape] = []
    if layers.backgrounds and backgrounds:
        shapes += ground_of_survey(backgrounds, plots.base, plots.metres, low=low, high=high, theme=theme)
    shapes += _plots(plots, clusters, single, view.millimetres_per_metre, theme)
    shapes += _clusters(clusters, crowd, theme)
    if layers.numbers and len(single) <= _MOST_NAMES:
        shapes += _names(plots, clusters, single, crowd, scale=view.millimetres_per_metre, theme=theme)
    return Scene(tuple(shapes), plots.box, theme.outside, None, plots.notes)


def _plots(plots: Overview, clusters: Clusters, chosen: NDArray[np.int64], scale: float, theme: Theme) -> list[Shape]:
    shapes: list[Shape] = []
    place, state = clusters.place[chosen], clusters.state[chosen]
    radius = np.nan_to_num(plots.radius_m[clusters.first[chosen]])
    to_scale = radius * scale > PLOT_MM
    if to_scale.any():
        shapes.append(Discs(place[to_scale], radius[to_scale], fill=theme.inside, stroke=Stroke(theme.ink, 0.25)))
    for kind, sign in SIGNS.items():
        at = place[state == kind]
        if not len(at):
            continue
        fill = _fill(kind, theme)
        shapes.append(Discs(at, radius_mm=PLOT_MM, fill=fill, stroke=_rim(kind, theme)))
        if sign:
            shapes.append(Texts(at, (sign,) * len(at), WORDS, readable_on(fill)))
    return shapes


def _clusters(clusters: Clusters, chosen: NDArray[np.int64], theme: Theme) -> list[Shape]:
    shapes: list[Shape] = []
    for kind in SIGNS:
        rows = chosen[clusters.state[chosen] == kind]
        if not len(rows):
            continue
        counts = tuple(_short(count) for count in clusters.count[rows].tolist())
        radius = np.maximum(CLUSTER_MM, widths(counts) * SMALL / 2.0 + 0.9)
        at, fill = clusters.place[rows], _fill(kind, theme)
        shapes += [
            Discs(at[radius == size], radius_mm=size, fill=theme.inside, stroke=_rim(kind, theme))
            for size in np.unique(radius).tolist()
        ]
        shapes.append(Texts(at, counts, SMALL, theme.ink))
        if SIGNS[kind]:
            tip = 0.78 * radius[:, None] * (1.0, 1.0)
            shapes.append(Discs(at, radius_mm=1.2, fill=fill, centre_mm=tip))
            shapes.append(Texts(at, (SIGNS[kind],) * len(at), SMALL, readable_on(fill), tip))
    return shapes


def _short(count: int) -> str:
    return str(count) if count < 10_000 else f"{count / 1000.0:.0f}k"


def _fill(kind: int, theme: Theme) -> str:
    return {ERROR: theme.accent, TO_LOOK_AT: FINDING_FILLS[1], CLEAR: theme.inside, NO_STEMS: theme.zone}[kind]


def _rim(kind: int, theme: Theme) -> Stroke:
    colour = {ERROR: theme.accent, NO_STEMS: theme.soft}.get(kind, theme.ink)
    return Stroke(colour, 0.5 if kind == ERROR else 0.25)


def _names(
    plots: Overview,
    clusters: Clusters,
    single: NDArray[np.int64],
    crowd: NDArray[np.int64],
    *,
    scale: float,
    theme: Theme,
) -> list[Shape]:
    """Names to the right of their plots, left out where they would lie on another mark or name."""
    if not len(single):
        return []
    names = tuple(shortened(str(name), _LONGEST) for name in plots.names[clusters.first[single]])
    size = widths(names) * SMALL
    at = clusters.place[single] * scale
    beside = np.maximum(np.nan_to_num(plots.radius_m[clusters.first[single]]) * scale, PLOT_MM)
    left = at[:, 0] + beside + _NAME_GAP_MM
    marks = np.vstack([at, clusters.place[crowd] * scale])
    reach = np.append(beside, np.full(len(crowd), CLUSTER_MM + 0.5))
    over = (marks[:, 0] + reach > left[:, None]) & (marks[:, 0] - reach < (left + size)[:, None])
    over &= np.abs(marks[:, 1] - at[:, 1, None]) < reach + SMALL / 2.0
    over[np.arange(len(single)), np.arange(len(single))] = False
    free = ~over.any(axis=1)
    meet = (left[:, None] < left + size) & (left < (left + size)[:, None]) & free[:, None] & free
    meet &= np.abs(at[:, 1, None] - at[:, 1]) < SMALL
    # Of two names that meet the one of the earlier plot stays.
    free &= ~np.tril(meet, -1).any(axis=1)
    kept = np.flatnonzero(free)
    offset = np.column_stack([beside[kept] + _NAME_GAP_MM, np.zeros(len(kept))])
    texts = tuple(names[number] for number in kept.tolist())
    return [Texts(clusters.place[single[kept]], texts, SMALL, theme.ink, offset, align=0.0)]


def describe_grid(plots: Overview, view: View, width: float, height: float, *, theme: Theme) -> Scene:
    """Lines of round easting and northing in metres, their figures at the lower and left edge of a device."""
    low, high = view.to_metres(0.0, height), view.to_metres(width, 0.0)
    step = round_step(max(high[0] - low[0], high[1] - low[1]) / _GRID_LINES)
    stroke = Stroke(theme.soft, 0.12, (1.6, 0.8))
    shapes: list[Shape] = []
    for axis in (0, 1):
        first = np.ceil((low[axis] + plots.base[axis]) / step)
        values = np.arange(first, np.floor((high[axis] + plots.base[axis]) / step) + 1.0) * step
        start, end = np.empty((len(values), 2)), np.empty((len(values), 2))
        start[:, axis] = end[:, axis] = values - plots.base[axis]
        start[:, 1 - axis], end[:, 1 - axis] = low[1 - axis], high[1 - axis]
        figures = tuple(f"{value:.0f}{' N' if axis else ' E'}" for value in values.tolist())
        shapes.append(Lines(start, end, stroke))
        shapes.append(Texts(start, figures, SMALL, theme.soft, (1.0, 1.5), align=0.0))
    return Scene(tuple(shapes), plots.box, theme.outside)


def _state_words() -> dict[int, str]:
    return {
        ERROR: _tr("map", "with errors"),
        TO_LOOK_AT: _tr("map", "to look at"),
        CLEAR: _tr("map", "nothing to look at"),
        NO_STEMS: _tr("map", "without stems"),
    }


def describe_overview_legend(plots: Overview, *, theme: Theme, width_mm: float) -> Scene:
    """The states that occur with the number of plots, and what a cluster is; the upper left corner is the origin."""
    shapes: list[Shape] = []
    row = 0
    for kind, words in _state_words().items():
        count = int((plots.state == kind).sum())
        if not count:
            continue
        at = np.array([[3.0, -(row + 0.5) * ROW_MM]])
        fill = _fill(kind, theme)
        shapes.append(Discs(at, 1.5, fill=fill, stroke=_rim(kind, theme)))
        if SIGNS[kind]:
            shapes.append(Texts(at, (SIGNS[kind],), SMALL, readable_on(fill)))
        shapes.append(Texts(at, (f"{words}: {count}",), SMALL, theme.ink, (4.0, 0.0), align=0.0))
        row += 1
    if len(plots.levels) and len(plots.levels[0].count) > 1:
        at = np.array([[3.0, -(row + 0.5) * ROW_MM]])
        shapes.append(Discs(at, 1.7, fill=theme.inside, stroke=Stroke(theme.ink, 0.2)))
        shapes.append(Texts(at, ("12",), SMALL, theme.ink))
        shapes.append(Texts(at, (_tr("map", "plots close together"),), SMALL, theme.ink, (4.0, 0.0), align=0.0))
        row += 1
    return Scene(tuple(shapes), Box(low=(0.0, -max(row, 1) * ROW_MM), high=(width_mm, 0.0)), theme.page)
