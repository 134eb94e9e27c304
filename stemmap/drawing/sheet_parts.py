"""Head and foot of a plot sheet: title and pages; check bar, where and how it was measured, caution."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Final

import numpy as np
from PySide6.QtCore import QCoreApplication

from stemmap.drawing.palette import PAPER
from stemmap.drawing.scene import ORIGIN, Box, Lines, Scene, Shape, Stroke, Texts
from stemmap.drawing.sheet_words import SheetWords, caution
from stemmap.drawing.typeface import SMALL, TITLE, WORDS, fitted, wrapped
from stemmap.survey.survey import Survey

_tr = QCoreApplication.translate

#: Height of the head.
HEAD_MM: Final = 14.0
_LINE_MM: Final = 3.1
_CHECK_MM: Final = 100.0


def plot_name(survey: Survey, visit_row: int) -> str:
    """Plot and visit in words."""
    visits = survey.visits
    visit = str(visits.visit[visit_row])
    plot = _tr("sheet", "Plot {plot}").format(plot=visits.plot[visit_row])
    return _tr("sheet", "{plot}, visit {visit}").format(plot=plot, visit=visit) if visit else plot


def head(
    words: SheetWords,
    visit_row: int,
    *,
    scale: int | None,
    pages: str,
    printed: date | None,
    packet: str,
    width_mm: float,
) -> Scene:
    """Title, scale where there is a map, and which page it is; the upper left corner is the origin."""
    survey, visits = words.survey, words.survey.visits
    day = visits.unsaid_date(visit_row)
    stratum = str(words.stratum[visit_row])
    lesser = [
        survey.settings.name,
        _tr("sheet", "stratum {stratum}").format(stratum=stratum) if stratum else "",
        _tr("sheet", "measured {date}").format(date=day) if day else "",
        "" if printed is None else _tr("sheet", "printed {date}").format(date=printed),
        _tr("sheet", "field packet {packet}").format(packet=packet) if packet else "",
    ]
    title = fitted(plot_name(survey, visit_row), TITLE, width_mm - 30.0)
    second = fitted(" · ".join(part for part in lesser if part), WORDS, width_mm - 50.0)
    shapes: tuple[Shape, ...] = (
        Texts(ORIGIN, (title,), TITLE, PAPER.ink, offset_mm=(0.0, -3.0), align=0.0),
        Texts(ORIGIN, (second,), WORDS, PAPER.soft, offset_mm=(0.0, -8.5), align=0.0),
        *([] if scale is None else [Texts(ORIGIN, (f"1:{scale}",), TITLE, PAPER.ink, (width_mm, -3.0), align=1.0)]),
        Texts(ORIGIN, (pages,), WORDS, PAPER.soft, offset_mm=(width_mm, -8.5), align=1.0),
    )
    return Scene(shapes, Box(low=(0.0, -HEAD_MM), high=(width_mm, 0.0)), PAPER.page)


def map_foot(words: SheetWords, visit_row: int, others: Sequence[str], width_mm: float) -> Scene:
    """Check bar, where it is and which north, other sentences, caution; the lower left corner is the origin."""
    sentences = (words.centre(visit_row), words.azimuths(visit_row), *others, caution())
    lines = [line for sentence in sentences for line in wrapped(sentence, SMALL, width_mm)]
    height = len(lines) * _LINE_MM
    bar = _check_bar().at((0.0, 0.0), (0.0, height + 2.0))
    return Scene((_lines(lines, width_mm), *bar), Box(high=(width_mm, height + 4.0)), PAPER.page)


def list_foot(width_mm: float) -> Scene:
    """The caution alone; the lower left corner is the origin."""
    lines = wrapped(caution(), SMALL, width_mm)
    return Scene((_lines(lines, width_mm),), Box(high=(width_mm, len(lines) * _LINE_MM)), PAPER.page)


def _lines(lines: Sequence[str], width_mm: float) -> Texts:
    """Lines of small words, the lowest just above the origin."""
    heights = (len(lines) - np.arange(len(lines)) - 0.5) * _LINE_MM
    return Texts(
        np.zeros((len(lines), 2)),
        tuple(fitted(line, SMALL, width_mm) for line in lines),
        SMALL,
        PAPER.ink,
        offset_mm=np.column_stack([np.zeros(len(lines)), heights]),
        align=0.0,
    )


def _check_bar() -> Scene:
    """A bar to hold a ruler against; its left end is the origin."""
    ends = np.array([[0.0, 0.0], [_CHECK_MM, 0.0]])
    none, tip = np.zeros((2, 2)), np.array([0.0, 1.0])
    stroke = Stroke(PAPER.ink, 0.25)
    words = _tr("sheet", "Print at 100 % (actual size): then this bar is 100 mm long.")
    shapes: tuple[Shape, ...] = (
        Lines(none[:1], none[:1], stroke, start_mm=ends[:1], end_mm=ends[1:]),
        Lines(none, none, stroke, start_mm=ends - tip, end_mm=ends + tip),
        Texts(ORIGIN, (words,), SMALL, PAPER.ink, offset_mm=(_CHECK_MM + 2.5, 0.0), align=0.0),
    )
    return Scene(shapes, Box(low_mm=(0.0, -1.0), high_mm=(_CHECK_MM, 1.0)), PAPER.page)
