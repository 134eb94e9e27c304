"""The legend of a plot map: only what occurs on it, drawn by the same code as the map itself."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

import numpy as np

from stemmap.drawing.doubts import LETTERS, OUTLINE_GAP_MM, Ghost, badge_shapes, ghost_shapes, last_dot, outline
from stemmap.drawing.ground import Border, borders
from stemmap.drawing.marks import NO_DBH_MM, Stems, stem_shapes, stems_of
from stemmap.drawing.palette import SpeciesMarks, Theme
from stemmap.drawing.scene import Box, Discs, Lines, Scene, Shape, Stroke, Texts
from stemmap.drawing.typeface import SMALL, fitted, widths
from stemmap.survey.findings import SEVERITIES, Family, Finding, Severity
from stemmap.survey.measured import Measured, Status
from stemmap.survey.survey import Survey

#: What the letters stand for.
FAMILY_WORDS: Final[Mapping[Family, str]] = MappingProxyType(
    {
        "import": "record not understood",
        "inclusion": "in or out of the circle",
        "typing": "may be mistyped",
        "diameter": "diameter",
        "revisit": "against the last visit",
        "visibility": "hidden from the centre",
    }
)
#: Words of the severities, as everywhere in the window.
_SEVERITY_WORDS: Final[Mapping[Severity, str]] = MappingProxyType(
    {"error": "error", "warning": "to look at", "note": "note"}
)
#: Height of a line of the legend.
ROW_MM: Final = 4.3
_SYMBOL_MM: Final = 7.0
_DISC_MM: Final = 1.3
_WIDEST_MM: Final = 60.0
_STATUS_WORDS: Final = {Status.DEAD: "dead", Status.CUT: "cut", Status.GONE: "gone"}


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
    species
        As for the map.
    """
    marks = species or SpeciesMarks.of(survey)
    named = _species(survey, visit_row, marks, theme)
    signs = list(_signs(survey, measured, visit_row, findings=findings, marks=marks, theme=theme))
    room = max(most_rows * max(int(width_mm / _column_mm([*named, *signs], width_mm)), 1) - len(signs), 1)
    if len(named) > room:
        named = [*named[: room - 1], Entry((), f"and {len(named) - room + 1} more species")]
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


def _species(survey: Survey, visit_row: int, marks: SpeciesMarks, theme: Theme) -> list[Entry]:
    ranks, counts = np.unique(marks.rank(survey, survey.visits.stems(visit_row)), return_counts=True)
    named = [
        Entry(_stem(theme, species=rank), f"{fitted(marks.names[rank], SMALL, 40.0)}: {count}")
        for rank, count in zip(ranks.tolist(), counts.tolist(), strict=True)
        if rank >= 0
    ]
    without = int(counts[ranks < 0].sum())
    return named + ([Entry(_stem(theme), f"no species: {without}")] if without else [])


def _signs(
    survey: Survey,
    measured: Measured,
    visit_row: int,
    *,
    findings: Sequence[Finding],
    marks: SpeciesMarks,
    theme: Theme,
) -> Iterator[Entry]:
    stems = stems_of(survey, measured, visit_row, species=marks, reach_m=np.inf, millimetres_per_metre=1.0)
    if not stems.inside.all():
        yield Entry(_stem(theme, inside=False), "out (hollow)")
    for status, word in _STATUS_WORDS.items():
        if (stems.status == status).any():
            yield Entry(_stem(theme, status=status), word)
    if stems.no_dbh.any():
        yield Entry(_stem(theme, no_dbh=True), "dbh not known")
    yield from _borders(borders(survey, measured, visit_row), theme)
    yield from _doubts(findings, theme)
    if survey.visits.previous[visit_row] >= 0:
        dot = last_dot(np.array([[2.0, 0.8]]), theme)
        tie = Lines(np.array([[2.0, 0.8]]), np.array([[-1.0, -0.4]]), Stroke(theme.soft, 0.15))
        yield Entry((tie, dot, *_stem(theme, at=(-1.0, -0.4))), "at the last visit")


def _borders(lines: Sequence[Border], theme: Theme) -> Iterator[Entry]:
    if not lines:
        return
    half = np.array([[_SYMBOL_MM / 2.0 - 1.0, 0.0]])
    radii = ", ".join(f"{line.nominal_m:.2f}" for line in lines)
    kind = "circle" if all(line.is_circle for line in lines) else "circle on the slope"
    yield Entry((Lines(-half, half, Stroke(theme.ink, 0.35)),), f"{kind}, radius {radii} m")
    zone = Lines(-half, half, Stroke(theme.zone, 1.8)), Lines(-half, half, Stroke(theme.ink, 0.35))
    yield Entry(zone, f"borderline zone, ± {lines[0].zone_m:.2f} m")


def _doubts(findings: Sequence[Finding], theme: Theme) -> Iterator[Entry]:
    for severity in SEVERITIES:
        if any(finding.severity == severity and finding.stem_row >= 0 for finding in findings):
            ring = Discs(np.zeros((1, 2)), 0.9 + OUTLINE_GAP_MM, stroke=outline(severity, theme))
            yield Entry((*_stem(theme, radius=0.9), ring), _SEVERITY_WORDS[severity])
    for family, letter in LETTERS.items():
        of_family = [finding.severity for finding in findings if finding.family == family]
        if of_family:
            worst = min(of_family, key=SEVERITIES.index)
            at = np.array([[-1.25, 0.0]])
            badge = tuple(badge_shapes(at, np.zeros((1, 2)), [letter], worst, theme))
            yield Entry(badge, FAMILY_WORDS[family])
    if any(finding.proposals for finding in findings):
        ghost = Ghost(0, np.array([1.8, 0.6]), 0.9)
        typed = _one(np.array([[-1.8, -0.6]]), radius=0.9)
        yield Entry((*ghost_shapes([ghost], typed, theme), *stem_shapes(typed, 1.0, theme)), "where it may stand")


def _stem(
    theme: Theme,
    *,
    at: tuple[float, float] = (0.0, 0.0),
    species: int = -1,
    radius: float = _DISC_MM,
    inside: bool = True,
    status: Status = Status.LIVING,
    no_dbh: bool = False,
) -> tuple[Shape, ...]:
    made = _one(np.array([at]), radius=radius, species=species, inside=inside, status=status, no_dbh=no_dbh)
    return tuple(stem_shapes(made, 1.0, theme))


def _one(
    place: np.ndarray[tuple[int, int], np.dtype[np.float64]],
    *,
    radius: float,
    species: int = -1,
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
        species=np.array([species], np.int64),
    )
