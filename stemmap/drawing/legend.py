"""The legend of a plot map: only what occurs on it, drawn by the same code as the map itself."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

import numpy as np
from PySide6.QtCore import QCoreApplication

from stemmap.drawing.as_typed import places_as_typed, typed_place
from stemmap.drawing.colouring import Colouring, Spots, colouring
from stemmap.drawing.decimals import Decimal
from stemmap.drawing.doubts import LETTERS, OUTLINE_GAP_MM, Ghost, badge_shapes, ghost_shapes, last_dot, outline
from stemmap.drawing.grids import ellipse
from stemmap.drawing.ground import Border, borders
from stemmap.drawing.layers import USUAL, Layers
from stemmap.drawing.marks import NO_DBH_MM, Stems, stem_shapes, stems_of
from stemmap.drawing.palette import SpeciesMarks, Theme
from stemmap.drawing.paths import hatched, order_line
from stemmap.drawing.scene import Box, Discs, Lines, Polygons, Scene, Shape, Stroke, Texts
from stemmap.drawing.typeface import SMALL, fitted, widths
from stemmap.survey.batches import SEVERITIES, Family, Severity
from stemmap.survey.finding import Finding
from stemmap.survey.measured import Measured, Status
from stemmap.survey.survey import Survey
from stemmap.survey.unseen import Unseen

_tr = QCoreApplication.translate
#: Height of a line of the legend.
ROW_MM: Final = 4.3
_SYMBOL_MM: Final = 7.0
_DISC_MM: Final = 1.3
_WIDEST_MM: Final = 60.0


@dataclass(frozen=True)
class Entry:
    """A line of the legend.

    Parameters
    ----------
    shapes
        Symbol around the origin, a metre counted as a millimetre.
    text
        What it means.
    """

    shapes: tuple[Shape, ...]
    text: str


def family_words() -> Mapping[Family, str]:
    """What the letters of the findings stand for."""
    return {
        "import": _tr("map", "record not understood"),
        "inclusion": _tr("map", "in or out of the circle"),
        "typing": _tr("map", "may be mistyped"),
        "diameter": _tr("map", "diameter"),
        "revisit": _tr("map", "against another measurement"),
        "visibility": _tr("map", "hidden from the centre"),
    }


def _severity_words() -> Mapping[Severity, str]:
    """Words of the severities, as everywhere in the window."""
    return {"error": _tr("map", "error"), "warning": _tr("map", "to look at"), "note": _tr("map", "note")}


def _status_words() -> Mapping[Status, str]:
    return {Status.DEAD: _tr("map", "dead"), Status.CUT: _tr("map", "cut"), Status.GONE: _tr("map", "gone")}


def describe_legend(
    survey: Survey,
    measured: Measured,
    visit_row: int,
    *,
    findings: Sequence[Finding] = (),
    theme: Theme,
    width_mm: float,
    most_rows: int = 12,
    species: SpeciesMarks | None = None,
    layers: Layers = USUAL,
    unseen: Unseen | None = None,
) -> Scene:
    """Describe the legend of a plot map in columns, on paper alone, its upper left corner at the origin.

    Parameters
    ----------
    survey, measured, visit_row, findings, theme
        As for the map.
    width_mm
        Room for the columns.
    most_rows
        Where it would be longer, the rarest species give way to a count of them.
    species, layers, unseen
        As for the map.
    """
    found = findings if layers.findings else ()
    colours = colouring(survey, measured, visit_row, by=layers.colour_by, findings=findings, species=species)
    named = _kinds(colours, theme) if layers.stems else []
    signs = list(_signs(survey, measured, visit_row, findings=found, colours=colours, layers=layers, theme=theme))
    if layers.unseen and unseen is not None and len(unseen.ground_of(visit_row).plot):
        signs.append(Entry(tuple(hatched(theme)), _tr("map", "not seen from the centre")))
    if layers.order and survey.visits.stem_count[visit_row] > 1:
        path = order_line(np.array([[-1.6, -0.4], [2.6, 0.8]]), theme)
        signs.append(Entry(tuple(path), _tr("map", "order of numbers, from the ring")))
    room = max(most_rows * max(int(width_mm / _column_mm([*named, *signs], width_mm)), 1) - len(signs), 1)
    if len(named) > room and layers.colour_by == "species":
        more = _tr("map", "and {count} more species").format(count=len(named) - room + 1)
        named = [*named[: room - 1], Entry((), more)]
    entries = [*named, *signs]
    column = _column_mm(entries, width_mm)
    columns = max(int(width_mm / column), 1)
    rows = max(-(-len(entries) // columns), 1)
    shapes: list[Shape] = []
    for number, entry in enumerate(entries):
        x, y = number // rows * column, -(number % rows + 0.5) * ROW_MM
        symbol = Scene(entry.shapes, Box(), theme.page)
        shapes += symbol.at((x + _SYMBOL_MM / 2.0 - 0.5, y), (0.0, 0.0))
        text = fitted(entry.text, SMALL, column - _SYMBOL_MM - 2.0)
        shapes.append(Texts(np.array([[x + _SYMBOL_MM, y]]), (text,), SMALL, theme.ink, align=0.0))
    return Scene(tuple(shapes), Box(low=(0.0, -rows * ROW_MM), high=(width_mm, 0.0)), theme.page)


def _column_mm(entries: Sequence[Entry], width_mm: float) -> float:
    """Width of a column: the widest text, but never more than a share of the page."""
    widest = float(widths(tuple(entry.text for entry in entries)).max(initial=0.0)) * SMALL
    return min(widest, _WIDEST_MM, width_mm - _SYMBOL_MM) + _SYMBOL_MM + 2.5


def _kinds(colours: Colouring, theme: Theme) -> list[Entry]:
    """What the fills mean, with the number of stems of each kind."""
    kinds, counts = np.unique(colours.kind, return_counts=True)
    named = [
        Entry(_stem(theme, colours, kind=kind), f"{fitted(colours.names[kind], SMALL, 40.0)}: {count}")
        for kind, count in zip(kinds.tolist(), counts.tolist(), strict=True)
        if kind >= 0
    ]
    without = int(counts[kinds < 0].sum())
    return named + ([Entry(_stem(theme, colours), f"{colours.unknown}: {without}")] if without else [])


def _signs(
    survey: Survey,
    measured: Measured,
    visit_row: int,
    *,
    findings: Sequence[Finding],
    colours: Colouring,
    layers: Layers,
    theme: Theme,
) -> Iterator[Entry]:
    stems = stems_of(survey, measured, visit_row, colours=colours, reach_m=np.inf, millimetres_per_metre=1.0)
    if layers.stems:
        if not stems.inside.all():
            yield Entry(_stem(theme, colours, inside=False), _tr("map", "out (hollow)"))
        for status, word in _status_words().items():
            if (stems.status == status).any():
                yield Entry(_stem(theme, colours, status=status), word)
        if stems.no_dbh.any():
            yield Entry(_stem(theme, colours, no_dbh=True), _tr("map", "dbh not known"))
    yield from _borders(borders(survey, measured, visit_row), layers, theme)
    yield from _doubts(findings, colours, theme)
    if layers.stems:
        yield from _decided(survey, measured, visit_row, colours, theme)
    if layers.last_visit and survey.visits.previous[visit_row] >= 0:
        dot = last_dot(np.array([[2.0, 0.8]]), theme)
        tie = Lines(np.array([[2.0, 0.8]]), np.array([[-1.0, -0.4]]), Stroke(theme.soft, 0.15))
        yield Entry((tie, dot, *_stem(theme, colours, at=(-1.0, -0.4))), _tr("map", "at the last visit"))
    if layers.uncertainty:
        outline_mm = ellipse(2.6, 1.3)
        around = Polygons(np.zeros((1, 2)), outline_m=outline_mm, stroke=Stroke(theme.soft, 0.2))
        yield Entry((around, *_stem(theme, colours, radius=0.7)), _tr("map", "position, 2 standard deviations"))


def _borders(lines: Sequence[Border], layers: Layers, theme: Theme) -> Iterator[Entry]:
    if not lines:
        return
    half = np.array([[_SYMBOL_MM / 2.0 - 1.0, 0.0]])
    radii = ", ".join(f"{Decimal(line.nominal_m):.2f}" for line in lines)
    level = all(line.is_circle for line in lines)
    circle = _tr("map", "circle, radius {radii} m") if level else _tr("map", "circle on the slope, radius {radii} m")
    line = (Lines(-half, half, Stroke(theme.ink, 0.35)),) if layers.circles else ()
    if layers.circles:
        yield Entry(line, circle.format(radii=radii))
    if layers.borderline_zone:
        zone = Lines(-half, half, Stroke(theme.zone, 1.8))
        yield Entry(
            (zone, *line), _tr("map", "borderline zone, ± {width:.2f} m").format(width=Decimal(lines[0].zone_m))
        )


def _doubts(findings: Sequence[Finding], colours: Colouring, theme: Theme) -> Iterator[Entry]:
    for severity in SEVERITIES:
        if any(finding.severity == severity and finding.stem_row >= 0 for finding in findings):
            ring = Discs(np.zeros((1, 2)), 0.9 + OUTLINE_GAP_MM, stroke=outline(severity, theme))
            yield Entry((*_stem(theme, colours, radius=0.9), ring), _severity_words()[severity])
    for family, letter in LETTERS.items():
        of_family = [finding.severity for finding in findings if finding.family == family]
        if of_family:
            worst = min(of_family, key=SEVERITIES.index)
            at = np.array([[-1.25, 0.0]])
            badge = tuple(badge_shapes(at, np.zeros((1, 2)), [letter], worst, theme))
            yield Entry(badge, family_words()[family])
    if any(finding.proposes_number for finding in findings):
        ghost = Ghost(0, np.array([1.8, 0.6]), 0.9)
        typed = _one(np.array([[-1.8, -0.6]]), radius=0.9)
        both = (*ghost_shapes([ghost], typed, theme), *stem_shapes(typed, colours, 1.0, theme))
        yield Entry(both, _tr("map", "where it may stand"))


def _decided(survey: Survey, measured: Measured, visit_row: int, colours: Colouring, theme: Theme) -> Iterator[Entry]:
    if survey.decisions.values and places_as_typed(survey, measured, visit_row, turn_deg=0.0):
        typed, held = np.array([[1.8, 0.6]]), np.array([[-1.8, -0.6]])
        faint = typed_place(typed, held, 0.9, 0.0, theme=theme)
        stem = _stem(theme, colours, at=(-1.8, -0.6), radius=0.9)
        yield Entry((*faint, *stem), _tr("map", "as typed, before it was decided"))


def _stem(
    theme: Theme,
    colours: Colouring,
    *,
    at: tuple[float, float] = (0.0, 0.0),
    kind: int = -1,
    radius: float = _DISC_MM,
    inside: bool = True,
    status: Status = Status.LIVING,
    no_dbh: bool = False,
) -> tuple[Shape, ...]:
    marks = colours.fills, colours.spots
    return _symbol(theme, *marks, at=at, kind=kind, radius=radius, inside=inside, status=status, no_dbh=no_dbh)


@lru_cache(maxsize=1024)
def _symbol(
    theme: Theme,
    fills: tuple[str, ...],
    spots: tuple[Spots, ...],
    *,
    at: tuple[float, float],
    kind: int,
    radius: float,
    inside: bool,
    status: Status,
    no_dbh: bool,
) -> tuple[Shape, ...]:
    """A stem as the map draws it; the legends of a document show the same ones again and again."""
    made = _one(np.array([at]), radius=radius, kind=kind, inside=inside, status=status, no_dbh=no_dbh)
    return tuple(stem_shapes(made, Colouring((), fills, spots, made.kind, ""), 1.0, theme))


def _one(
    place: np.ndarray[tuple[int, int], np.dtype[np.float64]],
    *,
    radius: float,
    kind: int = -1,
    inside: bool = True,
    status: Status = Status.LIVING,
    no_dbh: bool = False,
) -> Stems:
    """One stem as the map's own code draws it."""
    return Stems(
        row=np.zeros(1, np.int64),
        place=place,
        distance_m=np.zeros(1),
        radius_m=np.array([0.0 if no_dbh else radius]),
        radius_mm=np.array([NO_DBH_MM if no_dbh else 0.0]),
        inside=np.array([inside]),
        status=np.array([status], np.int8),
        no_dbh=np.array([no_dbh]),
        far=np.array([False]),
        kind=np.array([kind], np.int64),
    )
