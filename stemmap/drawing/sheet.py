"""The plot sheet: a map at its true scale with all that a crew needs, and the list of stems to measure again."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType
from typing import Final

import numpy as np
from PySide6.QtCore import QCoreApplication

from stemmap.drawing.ground import BEYOND, BEYOND_MM, RIM_MM, borders
from stemmap.drawing.layers import USUAL, Layers
from stemmap.drawing.legend import ROW_MM, describe_legend
from stemmap.drawing.page import Page, Placed
from stemmap.drawing.palette import PAPER, SpeciesMarks
from stemmap.drawing.plot_map import describe_plot, reach_of
from stemmap.drawing.scene import Scene
from stemmap.drawing.sheet_parts import HEAD_MM, head, list_foot, map_foot, plot_name
from stemmap.drawing.sheet_words import SheetWords
from stemmap.drawing.stem_list import HEADING_MM, StemList
from stemmap.drawing.stem_list import ROW_MM as LIST_ROW_MM
from stemmap.errors import InputError
from stemmap.survey.finding import Finding
from stemmap.survey.lost_centre import KnownStems
from stemmap.survey.measured import Measured
from stemmap.survey.survey import Survey
from stemmap.survey.unseen import Unseen, unseen

_tr = QCoreApplication.translate

#: Width and height of the papers in millimetres (ISO 216; ANSI/ASME Y14.1).
PAPERS: Final[Mapping[str, tuple[float, float]]] = MappingProxyType(
    {"A4": (210.0, 297.0), "A3": (297.0, 420.0), "Letter": (215.9, 279.4)}
)
#: Scales tried when none is asked for, the largest first; the last ones are for plots of uncommon size.
SCALES: Final = (100, 150, 200, 250, 500, 1000, 2000, 5000, 10_000)
#: Room between the edge of the paper and everything on it; a printer may leave no wider margin white.
MARGIN_MM: Final = 10.0

#: What a map shows to those who measure without knowing.
_BLIND: Final = Layers(stems=False, last_visit=False, unseen=False)

_FOOT_MM: Final = 30.0
_LEAST_LEGEND_MM: Final = 26.0
_GAP_MM: Final = 3.0
#: Fewer rows of the list than this are not begun under a map.
_LEAST_ROWS: Final = 4
_LEAST_LIST_MM: Final = HEADING_MM + _LEAST_ROWS * LIST_ROW_MM


@dataclass(frozen=True)
class SheetStyle:
    """What all sheets of one print share.

    Parameters
    ----------
    survey, measured
        The records and what was computed from them.
    words
        Words of the sheets.
    species
        Marks of the species.
    unseen
        What was not seen from the centres.
    paper
        A key of `PAPERS`.
    scale
        Denominator of the scale; None: the largest that fits each plot.
    printed
        Day of printing; None: it is not said.
    packet
        Name of the field packet to which the sheets belong; empty: none.
    """

    survey: Survey
    measured: Measured
    words: SheetWords
    species: SpeciesMarks
    unseen: Unseen
    paper: str = "A4"
    scale: int | None = None
    printed: date | None = None
    packet: str = ""

    @classmethod
    def of(
        cls,
        survey: Survey,
        measured: Measured,
        *,
        paper: str = "A4",
        scale: int | None = None,
        printed: date | None = None,
        packet: str = "",
    ) -> SheetStyle:
        """Work out what all sheets share.

        Raises
        ------
        InputError
            When the paper is not known.
        """
        paper_size(paper)
        return cls(
            survey=survey,
            measured=measured,
            words=SheetWords.of(survey, measured),
            species=SpeciesMarks.of(survey),
            unseen=unseen(survey, measured),
            paper=paper,
            scale=scale,
            printed=printed,
            packet=packet,
        )


def paper_size(paper: str) -> tuple[float, float]:
    """Width and height of a paper in millimetres.

    Raises
    ------
    InputError
        When it is not known.
    """
    if paper not in PAPERS:
        raise InputError(f"The paper {paper!r} is not known: choose one of {', '.join(PAPERS)}.")
    return PAPERS[paper]


def fitting_scale(survey: Survey, measured: Measured, visit_row: int, *, paper: str = "A4") -> int:
    """Denominator of the largest of the usual scales at which the plot fits a paper, 100 for 1:100.

    Raises
    ------
    InputError
        When the paper is not known, or the plot fits at no scale.
    """
    needed, room = _needed_m(survey, measured, visit_row), _room_mm(paper)
    for scale in SCALES:
        if _side_mm(needed, scale) <= room:
            return scale
    raise InputError(f"A plot that reaches {needed:.0f} m from its centre fits on {paper} at no scale.")


def describe_sheet(
    style: SheetStyle,
    visit_row: int,
    *,
    findings: Sequence[Finding] = (),
    again: Sequence[int] = (),
    known: KnownStems | None = None,
    blind: bool = False,
    first_number: int | None = None,
) -> tuple[Page, ...]:
    """Describe the sheet of one plot at one visit: the map, then the list of stems on as many pages as it takes.

    Parameters
    ----------
    style
        What all sheets share.
    visit_row
        Row of the visit.
    findings
        Findings of this visit.
    again
        Rows of the stems that a re-check list asks for; -1: to look for hidden ones. Said above the list of stems.
    known
        Stems from which a lost centre is found; None: it is not said.
    blind
        Whether all stems are measured without knowing what was recorded; the survey must not have it. The map then
        shows the ground without stems, and the list their numbers.
    first_number
        Number of the first page in a document of many; None: pages bear no such number.

    Raises
    ------
    InputError
        When the plot does not fit at the scale.
    """
    words, scale = style.words, sheet_scale(style, visit_row)
    width, height = paper_size(style.paper)
    inner, end = width - 2.0 * MARGIN_MM, height - MARGIN_MM
    layers = _BLIND if blind else USUAL
    plot_map = _map(style, visit_row, findings, scale, layers)
    side = plot_map.box.size_mm(1000.0 / scale)[1]
    below = MARGIN_MM + HEAD_MM + side + _GAP_MM
    under_map = [words.design(visit_row), words.errors(), *plot_map.notes]
    over_list: list[str] = []
    foot = map_foot(words, visit_row, under_map, inner)
    free = end - _height(foot) - below
    legend = _legend(style, visit_row, findings, free_mm=free, width_mm=inner, layers=layers)
    while under_map and below + _height(legend) + _height(foot) > end:
        over_list.insert(0, under_map.pop())
        foot = map_foot(words, visit_row, under_map, inner)
    under = below + _height(legend) + _GAP_MM
    other_foot = list_foot(inner)
    rooms = end - _height(foot) - _GAP_MM - under, end - _height(other_foot) - _GAP_MM - MARGIN_MM - HEAD_MM
    notes = [*words.again(again), *([words.blind()] if blind else []), *words.lost_centre(known)]
    notes += over_list
    stems = StemList.of(style.survey, visit_row, findings=findings, width_mm=inner, notes=notes, blind=blind)
    cuts = _cuts(stems, *rooms)
    name = plot_name(style.survey, visit_row)
    pages = []
    for number, cut in enumerate(cuts):
        is_map = number == 0
        title = head(
            words,
            visit_row,
            scale=scale if is_map else None,
            pages=_which_page(number, len(cuts), first_number),
            printed=style.printed,
            packet=style.packet,
            width_mm=inner,
        )
        parts = [Placed(title, MARGIN_MM, MARGIN_MM), Placed(foot if is_map else other_foot, MARGIN_MM, end)]
        if is_map:
            parts.append(Placed(plot_map, width / 2.0, MARGIN_MM + HEAD_MM + side / 2.0, 1000.0 / scale))
            parts.append(Placed(legend, MARGIN_MM, below))
        if cut is not None:
            top = under if is_map else MARGIN_MM + HEAD_MM
            parts.append(Placed(stems.describe(*cut, rooms[0 if is_map else 1]), MARGIN_MM, top))
        pages.append(Page(width, height, tuple(parts), PAPER.page, name, name if is_map else ""))
    return tuple(pages)


def _which_page(number: int, count: int, first_number: int | None) -> str:
    """Page of the plot, and of the document where it has numbers."""
    of_plot = _tr("sheet", "page {page} of {pages} of this plot").format(page=number + 1, pages=count)
    if first_number is None:
        return of_plot
    return _tr("sheet", "page {number} · {of_plot}").format(number=first_number + number, of_plot=of_plot)


def _cuts(stems: StemList, under_map_mm: float, on_page_mm: float) -> list[tuple[int, int] | None]:
    """First and last row of the list on each page, the map's first; None where there is no room under the map."""
    fits = stems.fitting(0, under_map_mm)
    first = fits if fits >= min(_LEAST_ROWS, len(stems)) and under_map_mm >= _LEAST_LIST_MM else 0
    begun = first > 0 or (not len(stems) and under_map_mm >= _LEAST_LIST_MM)
    cuts: list[tuple[int, int] | None] = [(0, first) if begun else None]
    while first < len(stems) or cuts == [None]:
        last = min(first + max(stems.fitting(first, on_page_mm), 1), len(stems))
        cuts.append((first, last))
        first = last
    return cuts


def sheet_scale(style: SheetStyle, visit_row: int) -> int:
    """Denominator of the scale of a sheet.

    Raises
    ------
    InputError
        When the plot does not fit at the scale that is asked for.
    """
    best = fitting_scale(style.survey, style.measured, visit_row, paper=style.paper)
    if style.scale is None:
        return best
    side = _side_mm(_needed_m(style.survey, style.measured, visit_row), style.scale) if style.scale > 0 else np.inf
    if side > _room_mm(style.paper):
        raise InputError(
            f"Plot {style.survey.visits.plot[visit_row]} does not fit on {style.paper} at 1:{style.scale};"
            f" 1:{best} is the largest scale that does."
        )
    return style.scale


def describe_picture(
    style: SheetStyle, visit_row: int, *, findings: Sequence[Finding] = (), layers: Layers = USUAL
) -> Page:
    """Describe the map with its legend alone, as a page that they just fill.

    Parameters
    ----------
    style, visit_row, findings
        As for the sheet.
    layers
        What is drawn.
    """
    scale = sheet_scale(style, visit_row)
    plot_map = _map(style, visit_row, findings, scale, layers)
    width, side = plot_map.box.size_mm(1000.0 / scale)
    legend = _legend(style, visit_row, findings, free_mm=side, width_mm=width, layers=layers)
    parts = (Placed(plot_map, width / 2.0, side / 2.0, 1000.0 / scale), Placed(legend, 0.0, side + _GAP_MM))
    name = plot_name(style.survey, visit_row)
    return Page(width, side + 2.0 * _GAP_MM + _height(legend), parts, PAPER.page, name)


def _map(style: SheetStyle, visit_row: int, findings: Sequence[Finding], scale: int, layers: Layers = USUAL) -> Scene:
    millimetres_per_metre = 1000.0 / scale
    room = (_room_mm(style.paper) / 2.0 - RIM_MM) / millimetres_per_metre
    return describe_plot(
        style.survey,
        style.measured,
        visit_row,
        findings=findings,
        theme=PAPER,
        millimetres_per_metre=millimetres_per_metre,
        reach_m=min(reach_of(style.survey, style.measured, visit_row), room),
        species=style.species,
        layers=layers,
        unseen=style.unseen,
    )


def _legend(
    style: SheetStyle,
    visit_row: int,
    findings: Sequence[Finding],
    *,
    free_mm: float,
    width_mm: float,
    layers: Layers = USUAL,
) -> Scene:
    return describe_legend(
        style.survey,
        style.measured,
        visit_row,
        findings=findings,
        theme=PAPER,
        width_mm=width_mm,
        most_rows=max(int(free_mm / ROW_MM), 1),
        species=style.species,
        layers=layers,
        unseen=style.unseen,
    )


def _height(scene: Scene) -> float:
    """Height of a scene that stands on paper alone."""
    return scene.box.size_mm(1.0)[1]


def _needed_m(survey: Survey, measured: Measured, visit_row: int) -> float:
    """Radius of the ground that must not be cut off: the borders, or where there are none the stems."""
    lines = borders(survey, measured, visit_row)
    if lines:
        return max(line.reach_m for line in lines)
    return reach_of(survey, measured, visit_row) / (1.0 + BEYOND)


def _side_mm(needed_m: float, scale: int) -> float:
    """Side of the map with a narrow strip of ground and the ticks around what is needed."""
    return 2.0 * (needed_m * 1000.0 / scale + BEYOND_MM + RIM_MM)


def _room_mm(paper: str) -> float:
    """Side of the largest map on a paper.

    Raises
    ------
    InputError
        When the paper is not known.
    """
    width, height = paper_size(paper)
    return min(width - 2.0 * MARGIN_MM, height - 2.0 * MARGIN_MM - HEAD_MM - _FOOT_MM - _LEAST_LEGEND_MM)
