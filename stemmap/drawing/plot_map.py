"""The map of one plot at one visit: what lies on the ground, how sure it is, and what speaks against it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, Literal

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QCoreApplication

from stemmap.drawing.as_typed import as_typed_shapes
from stemmap.drawing.backgrounds import ground_of_plot
from stemmap.drawing.colouring import colouring
from stemmap.drawing.decimals import Decimal
from stemmap.drawing.doubts import (
    BADGE_MM,
    Doubt,
    badge_shapes,
    doubts_of,
    ghost_shapes,
    ghosts_of,
    last_visit_shapes,
    outline_shapes,
)
from stemmap.drawing.grids import polar_grid, projected_grid, projection, uncertainty_shapes
from stemmap.drawing.ground import (
    BEYOND,
    RIM_MM,
    Border,
    border_shapes,
    borders,
    ground_shapes,
    north_mark,
    scale_bar,
    tick_shapes,
    to_grid,
)
from stemmap.drawing.layers import USUAL, Layers
from stemmap.drawing.marks import Stems, stem_shapes, stems_of
from stemmap.drawing.numbering import GAP_MM, MOST_NUMBERS, MOST_STEMS, StemNumbers
from stemmap.drawing.palette import LIGHT, SpeciesMarks, Theme
from stemmap.drawing.paths import hidden_shapes, order_shapes
from stemmap.drawing.scene import Box, Scene, Shape, Texts
from stemmap.drawing.stand_edge import stand_edge_shapes, stand_edge_words
from stemmap.drawing.typeface import SMALL, shortened
from stemmap.survey.background import Background
from stemmap.survey.finding import Finding
from stemmap.survey.measured import Measured
from stemmap.survey.survey import Survey
from stemmap.survey.unseen import Unseen

_tr = QCoreApplication.translate
#: Stems this many plot radii out still widen the map; those beyond stand at its rim.
_WIDENS_TO: Final = 1.25
#: Where no border is known, this many times the middle distance of the stems.
_WIDENS_TO_MIDDLE: Final = 3.0
_EMPTY_REACH_M: Final = 10.0
_LEAST_REACH_M: Final = 0.5


def reach_of(survey: Survey, measured: Measured, visit_row: int) -> float:
    """Radius of the ground that a map of the plot shows, metres: its borders, and stems not too far outside."""
    rows = survey.visits.stems(visit_row)
    distance = np.hypot(measured.x_m[rows], measured.y_m[rows]) + np.nan_to_num(measured.dbh_cm[rows]) / 200.0
    distance = distance[np.isfinite(distance)]
    border = max((line.reach_m for line in borders(survey, measured, visit_row)), default=0.0)
    if border:
        reach = max(border, float(distance[distance <= _WIDENS_TO * border].max(initial=0.0)))
    elif len(distance):
        reach = float(distance[distance <= _WIDENS_TO_MIDDLE * np.median(distance)].max())
    else:
        reach = _EMPTY_REACH_M
    return max(reach * (1.0 + BEYOND), _LEAST_REACH_M)


def frame_of(survey: Survey, measured: Measured, visit_row: int) -> Box:
    """What a map of the plot must show, ticks and their figures included; for `View.fitting` before describing."""
    return Box.around_centre(reach_of(survey, measured, visit_row), RIM_MM)


def describe_plot(
    survey: Survey,
    measured: Measured,
    visit_row: int,
    *,
    findings: Sequence[Finding] = (),
    theme: Theme = LIGHT,
    millimetres_per_metre: float,
    reach_m: float | None = None,
    corners: bool = True,
    species: SpeciesMarks | None = None,
    layers: Layers = USUAL,
    unseen: Unseen | None = None,
    backgrounds: Sequence[Background] = (),
) -> Scene:
    """Describe the map of a plot.

    Parameters
    ----------
    survey, measured
        The records and what was computed from them.
    visit_row
        Row of the visit.
    findings
        Findings of this visit.
    theme
        Colours.
    millimetres_per_metre
        Scale for which numbers are placed: 10 at 1:100, on a screen `View.millimetres_per_metre`. The scene may be
        painted at another scale, then the numbers are no longer sure to keep clear of each other.
    reach_m
        Radius of the ground shown; stems beyond it stand at the rim. None: as `reach_of` says.
    corners
        Whether north arrow and scale bar stand in the corners of the map; a window puts them elsewhere.
    species
        Marks of the survey's species, for who draws many plots; None: worked out here.
    layers
        What is drawn, and what the fills of the stems mean.
    unseen
        What was not seen from the centres; None: no ground is hatched.
    backgrounds
        The user's own ground, all in one coordinate system.
    """
    reach = reach_of(survey, measured, visit_row) if reach_m is None else reach_m
    lines = borders(survey, measured, visit_row)
    told = findings if layers.findings and layers.stems else ()
    colours = colouring(survey, measured, visit_row, by=layers.colour_by, findings=findings, species=species)
    stems = stems_of(
        survey,
        measured,
        visit_row,
        colours=colours,
        reach_m=reach,
        millimetres_per_metre=millimetres_per_metre,
        symbol_factor=layers.symbol_factor,
    )
    doubts = doubts_of(told)
    turn = float(to_grid(survey, measured, visit_row, 0.0))
    proposed = ghosts_of(survey, measured, told, turn_deg=turn, reach_m=reach, symbol_factor=layers.symbol_factor)
    ghosts = ghost_shapes(proposed, stems, theme)
    last = []
    if layers.last_visit:
        last = last_visit_shapes(survey, measured, visit_row, stems, reach_m=reach, theme=theme)
    typed = as_typed_shapes(survey, measured, visit_row, stems, turn_deg=turn, reach_m=reach, theme=theme)
    grid = projected_grid(measured, visit_row, reach, theme) if layers.projected_grid else []
    shapes = [
        *ground_shapes(lines, reach, theme, zones=layers.borderline_zone),
        *(_own_ground(measured, visit_row, reach, backgrounds, theme) if layers.backgrounds and backgrounds else ()),
        *(_hidden(measured, visit_row, unseen, millimetres_per_metre, theme) if layers.unseen and unseen else ()),
        *(polar_grid(survey, measured, visit_row, reach, theme) if layers.polar_grid else ()),
        *grid,
        *border_shapes(lines, theme, circles=layers.circles),
        *(edge := stand_edge_shapes(measured, visit_row, reach, theme)),
        *tick_shapes(survey, measured, visit_row, reach, theme),
        *(uncertainty_shapes(measured, stems, theme) if layers.uncertainty else ()),
        *last,
        *(order_shapes(survey, stems, theme) if layers.order else ()),
    ]
    if layers.stems:
        shapes += [
            *typed,
            *stem_shapes(stems, colours, millimetres_per_metre, theme),
            *outline_shapes(stems, doubts, theme),
            *ghosts,
            *StemNumbers.of(survey, stems, doubts, numbers=layers.numbers, species=layers.species).shapes(
                stems,
                doubts,
                clear_of=[*last, *typed, *ghosts],
                lines=lines if layers.circles else (),
                reach_m=reach,
                millimetres_per_metre=millimetres_per_metre,
                theme=theme,
            ),
        ]
    box = Box.around_centre(reach, RIM_MM)
    if corners:
        bar = scale_bar(millimetres_per_metre, theme, length_unit=survey.settings.measurement.length_unit)
        shapes += bar.at((-reach, -reach), (-RIM_MM + 1.0, -RIM_MM + 0.5))
        shapes += north_mark(north_word(survey, measured, visit_row), theme).at((-reach, reach), (-2.0, RIM_MM - 9.5))
    if -1 in doubts:
        shapes += _plot_doubt(doubts[-1], reach, theme)
    notes = [*_notes(survey, visit_row, stems, lines, drawn=layers.stems)]
    if edge:
        notes += stand_edge_words(measured, visit_row)
    if layers.projected_grid and not grid:
        notes.append(_tr("map", "The plot has no coordinates, so no projected grid is drawn."))
    if layers.symbol_factor != 1.0:
        notes.append(
            _tr("map", "Stems are drawn {factor:g} times as thick as they are.").format(
                factor=Decimal(layers.symbol_factor)
            )
        )
    places = stems.places if layers.stems else None
    return Scene(tuple(shapes), box, theme.page, places, tuple(notes))


def north_up(survey: Survey, measured: Measured, visit_row: int) -> Literal["grid", "true", "magnetic"]:
    """Which north is up on the map."""
    north = survey.settings.measurement.north
    if north == "magnetic" and np.isnan(measured.declination_deg[visit_row]):
        return "magnetic"
    located = measured.crs is not None and np.isfinite(measured.centres.lon[visit_row])
    return "grid" if located or north == "grid" else "true"


def _own_ground(
    measured: Measured, visit_row: int, reach_m: float, backgrounds: Sequence[Background], theme: Theme
) -> list[Shape]:
    found = projection(measured, visit_row, backgrounds[0].crs)
    return [] if found is None else ground_of_plot(backgrounds, *found, reach_m, theme)


def _hidden(
    measured: Measured, visit_row: int, unseen: Unseen, millimetres_per_metre: float, theme: Theme
) -> list[Shape]:
    radius = float(measured.radius_m[visit_row])
    return hidden_shapes(unseen.ground_of(visit_row), millimetres_per_metre, theme, radius_m=radius)


def north_word(survey: Survey, measured: Measured, visit_row: int) -> str:
    """Word at the north arrow."""
    words = {"grid": _tr("map", "grid N"), "true": _tr("map", "true N"), "magnetic": _tr("map", "magnetic N")}
    return words[north_up(survey, measured, visit_row)]


def _plot_doubt(doubt: Doubt, reach_m: float, theme: Theme) -> list[Shape]:
    """Letters of findings about the whole plot, in the north-east corner."""
    corner = np.array([[reach_m, reach_m]])
    word = _tr("map", "whole plot")
    offset = np.array([[RIM_MM - 0.5 - BADGE_MM * len(doubt.letters), RIM_MM - 2.5]])
    return [
        Texts(corner, (word,), SMALL, theme.ink, offset_mm=offset - (GAP_MM + 0.2, 0.0), align=1.0),
        *badge_shapes(corner, offset, [doubt.letters], doubt.severity, theme),
    ]


def _notes(survey: Survey, visit_row: int, stems: Stems, lines: Sequence[Border], *, drawn: bool) -> tuple[str, ...]:
    """Sentences on what the map cannot show."""
    notes = []
    rows = survey.visits.stems(visit_row)
    missing = np.setdiff1d(np.arange(rows.start, rows.stop), stems.row)
    if len(missing) and drawn:
        names = _names(survey, missing)
        notes.append(_tr("map", "Not drawn, since azimuth or distance is not known: {names}.").format(names=names))
    if len(stems.row) > MOST_STEMS:
        notes.append(_tr("map", "The plot has more than {most} stems, so none is numbered.").format(most=MOST_STEMS))
    elif len(stems.row) > MOST_NUMBERS:
        told = _tr("map", "The plot has more than {most} stems, so only those with findings are numbered.")
        notes.append(told.format(most=MOST_NUMBERS))
    if stems.far.any():
        names = _names(survey, stems.row[stems.far])
        notes.append(_tr("map", "Too far out for this map, an arrow at the rim: {names}.").format(names=names))
    design = survey.settings.design
    if not lines and design.kind == "angle_count":
        notes.append(_tr("map", "Angle count: each stem has its own limiting distance, so no circle is drawn."))
    elif not lines:
        notes.append(_tr("map", "The plot radius is not known, so no circle is drawn."))
    slope = survey.visits.numbers("slope_percent")[visit_row]
    aspect = survey.visits.numbers("aspect_deg")[visit_row]
    if lines and design.kind != "angle_count" and design.slope != "horizontal" and np.isnan(slope + aspect):
        notes.append(_tr("map", "Slope or aspect is not known, so the circle is drawn as on level ground."))
    return tuple(notes)


def _names(survey: Survey, rows: NDArray[np.integer]) -> str:
    """Numbers of stems, the first of them where there are many."""
    unnamed = _tr("map", "without number")
    names = ", ".join(shortened(survey.stems.label(int(row)), 12) or unnamed for row in rows[:12])
    if len(rows) > 12:
        names = _tr("map", "{names} and {count} more").format(names=names, count=len(rows) - 12)
    return names
