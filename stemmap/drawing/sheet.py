"""The plot sheet: a plot map at its true scale on a sheet of paper, with all that a reader in the forest needs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Final

import numpy as np

from stemmap.drawing.ground import BEYOND, BEYOND_MM, RIM_MM, borders
from stemmap.drawing.legend import ROW_MM, describe_legend
from stemmap.drawing.page import Page, Placed
from stemmap.drawing.palette import PAPER, SpeciesMarks
from stemmap.drawing.plot_map import describe_plot, north_word, reach_of
from stemmap.drawing.scene import ORIGIN, Box, Lines, Scene, Shape, Stroke, Texts
from stemmap.drawing.typeface import SMALL, TITLE, WORDS, fitted, wrapped
from stemmap.errors import InputError
from stemmap.survey.findings import Finding
from stemmap.survey.measured import Measured
from stemmap.survey.survey import Survey

#: Width and height of the papers in millimetres (ISO 216; ANSI/ASME Y14.1).
PAPERS: Final[Mapping[str, tuple[float, float]]] = MappingProxyType(
    {"A4": (210.0, 297.0), "A3": (297.0, 420.0), "Letter": (215.9, 279.4)}
)
#: Scales tried when none is asked for, the largest first; the last ones are for plots of uncommon size.
SCALES: Final = (100, 150, 200, 250, 500, 1000, 2000, 5000, 10_000)

_MARGIN_MM: Final = 10.0
_HEAD_MM: Final = 14.0
_FOOT_MM: Final = 24.0
_LEAST_LEGEND_MM: Final = 26.0
_LINE_MM: Final = 3.5
_CHECK_MM: Final = 100.0

CAUTION: Final = (
    "Safety first: look out for dead trees, hanging branches, steep or wet ground and weather, and do not work alone."
    " The rules of your employer and of the place come before this sheet. This map is no legal survey."
)
_UNIT_WORDS: Final = {
    "degree": "degrees",
    "gon": "gon",
    "mil_6400": "mils (6400 to the circle)",
    "mil_6300": "mils (6300 to the circle)",
    "mil_6000": "mils (6000 to the circle)",
}


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
    survey: Survey,
    measured: Measured,
    visit_row: int,
    *,
    findings: Sequence[Finding] = (),
    scale: int | None = None,
    paper: str = "A4",
    species: SpeciesMarks | None = None,
) -> Page:
    """Describe the sheet of one plot at one visit.

    Parameters
    ----------
    survey, measured, visit_row, findings, species
        As for the map.
    scale
        Denominator of the scale; None: the largest that fits.
    paper
        A key of `PAPERS`.

    Raises
    ------
    InputError
        When the paper is not known or the plot does not fit at the scale.
    """
    best = fitting_scale(survey, measured, visit_row, paper=paper)
    chosen = best if scale is None else scale
    needed, room = _needed_m(survey, measured, visit_row), _room_mm(paper)
    if chosen <= 0 or _side_mm(needed, chosen) > room:
        raise InputError(
            f"Plot {survey.visits.plot[visit_row]} does not fit on {paper} at 1:{chosen};"
            f" 1:{best} is the largest scale that does."
        )
    marks = species or SpeciesMarks.of(survey)
    width, height = PAPERS[paper]
    millimetres_per_metre = 1000.0 / chosen
    reach = min(reach_of(survey, measured, visit_row), (room / 2.0 - RIM_MM) / millimetres_per_metre)
    plot_map = describe_plot(
        survey,
        measured,
        visit_row,
        findings=findings,
        theme=PAPER,
        millimetres_per_metre=millimetres_per_metre,
        reach_m=reach,
        species=marks,
    )
    side = plot_map.box.size_mm(millimetres_per_metre)[1]
    below = _MARGIN_MM + _HEAD_MM + side + 3.0
    free = height - _MARGIN_MM - _FOOT_MM - _LINE_MM * len(plot_map.notes) - below
    legend = describe_legend(
        survey,
        measured,
        visit_row,
        findings=findings,
        theme=PAPER,
        width_mm=width - 2.0 * _MARGIN_MM,
        most_rows=max(int(free / ROW_MM), 1),
        species=marks,
    )
    parts = (
        Placed(_head(survey, visit_row, chosen, width - 2.0 * _MARGIN_MM), _MARGIN_MM, _MARGIN_MM),
        Placed(plot_map, width / 2.0, _MARGIN_MM + _HEAD_MM + side / 2.0, millimetres_per_metre),
        Placed(legend, _MARGIN_MM, below),
        Placed(_foot(survey, measured, visit_row, plot_map, width - 2.0 * _MARGIN_MM), _MARGIN_MM, height - _MARGIN_MM),
    )
    return Page(width, height, parts, PAPER.page, " ".join(_names(survey, visit_row)))


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
    if paper not in PAPERS:
        raise InputError(f"The paper {paper!r} is not known: choose one of {', '.join(PAPERS)}.")
    width, height = PAPERS[paper]
    return min(width - 2.0 * _MARGIN_MM, height - 2.0 * _MARGIN_MM - _HEAD_MM - _FOOT_MM - _LEAST_LEGEND_MM)


def _names(survey: Survey, visit_row: int) -> list[str]:
    """Plot and visit in words."""
    visits = survey.visits
    visit = str(visits.visit[visit_row])
    return [f"Plot {visits.plot[visit_row]}", *([f"visit {visit}"] if visit else [])]


def _head(survey: Survey, visit_row: int, scale: int, width_mm: float) -> Scene:
    """Title and scale; the upper left corner is the origin."""
    visits = survey.visits
    date = visits.date[visit_row]
    stratum = str(visits.texts("stratum")[visit_row])
    lesser = [
        survey.settings.name,
        f"stratum {stratum}" if stratum else "",
        "" if np.isnat(date) or str(date) == visits.visit[visit_row] else f"measured {date}",
    ]
    title = fitted(", ".join(_names(survey, visit_row)), TITLE, width_mm - 30.0)
    second = fitted(" · ".join(part for part in lesser if part), WORDS, width_mm - 30.0)
    shapes: tuple[Shape, ...] = (
        Texts(ORIGIN, (title,), TITLE, PAPER.ink, offset_mm=(0.0, -3.0), align=0.0),
        Texts(ORIGIN, (second,), WORDS, PAPER.soft, offset_mm=(0.0, -8.5), align=0.0),
        Texts(ORIGIN, (f"1:{scale}",), TITLE, PAPER.ink, offset_mm=(width_mm, -3.0), align=1.0),
    )
    return Scene(shapes, Box(low=(0.0, -_HEAD_MM), high=(width_mm, 0.0)), PAPER.page)


def _foot(survey: Survey, measured: Measured, visit_row: int, plot_map: Scene, width_mm: float) -> Scene:
    """Notes, check bar, how to read the azimuths, caution; the lower left corner is the origin."""
    caution = wrapped(CAUTION, SMALL, width_mm)
    lines = [
        *plot_map.notes,
        *wrapped(_azimuths(survey, measured, visit_row), SMALL, width_mm),
        *caution,
    ]
    shapes: list[Shape] = [
        Texts(
            ORIGIN,
            (fitted(line, SMALL, width_mm),),
            SMALL,
            PAPER.ink,
            offset_mm=(0.0, (len(lines) - number - 0.5) * _LINE_MM),
            align=0.0,
        )
        for number, line in enumerate(lines)
    ]
    shapes += _check_bar().at((0.0, 0.0), (0.0, len(lines) * _LINE_MM + 3.0))
    return Scene(tuple(shapes), Box(high=(width_mm, len(lines) * _LINE_MM + 6.0)), PAPER.page)


def _check_bar() -> Scene:
    """A bar to hold a ruler against; its left end is the origin."""
    ends = np.array([[0.0, 0.0], [_CHECK_MM, 0.0]])
    none, tip = np.zeros((2, 2)), np.array([0.0, 1.0])
    stroke = Stroke(PAPER.ink, 0.25)
    shapes: tuple[Shape, ...] = (
        Lines(none[:1], none[:1], stroke, start_mm=ends[:1], end_mm=ends[1:]),
        Lines(none, none, stroke, start_mm=ends - tip, end_mm=ends + tip),
        Texts(
            ORIGIN,
            ("This bar is 100 mm long when printed at 100 % (actual size).",),
            SMALL,
            PAPER.ink,
            offset_mm=(_CHECK_MM + 2.5, 0.0),
            align=0.0,
        ),
    )
    return Scene(shapes, Box(low_mm=(0.0, -1.0), high_mm=(_CHECK_MM, 1.0)), PAPER.page)


def _azimuths(survey: Survey, measured: Measured, visit_row: int) -> str:
    """Which unit and north the ticks count in, and which north is up."""
    measurement = survey.settings.measurement
    turn = measured.declination_deg[visit_row]
    used = f" (declination {turn:+.1f}°)" if measurement.north == "magnetic" and np.isfinite(turn) else ""
    up = {"grid N": "grid north", "true N": "true north", "magnetic N": "magnetic north"}
    north = up[north_word(survey, measured, visit_row)]
    system = f" of {measured.crs}" if north == "grid north" and measured.crs else ""
    return (
        f"Azimuth ticks: {_UNIT_WORDS[measurement.azimuth_unit]}, clockwise from {measurement.north} north{used}."
        f" Up on the map is {north}{system}."
    )
