"""The contents at the end of a document of plot sheets: plot, visit, state in words, findings, page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from PySide6.QtCore import QCoreApplication

from stemmap.drawing.page import Page, Placed
from stemmap.drawing.palette import PAPER
from stemmap.drawing.scene import ORIGIN, Box, Lines, Scene, Shape, Stroke, Texts
from stemmap.drawing.sheet import MARGIN_MM, paper_size
from stemmap.drawing.sheet_parts import HEAD_MM
from stemmap.drawing.typeface import SMALL, TITLE, WORDS, fitted
from stemmap.survey.plot_status import PlotStatus

_tr = QCoreApplication.translate

_ROW_MM: Final = 5.0
_HEADING_MM: Final = 5.0
#: Right or left edges of the columns as shares of the width, and how they are aligned.
_COLUMNS: Final = ((0.0, 0.0), (0.22, 0.0), (0.40, 0.0), (0.86, 1.0), (1.0, 1.0))
_WIDTHS: Final = (0.21, 0.17, 0.36, 0.1, 0.12)


@dataclass(frozen=True)
class ContentsLine:
    """A line of the contents.

    Parameters
    ----------
    plot, visit
        Names as typed.
    status
        `PlotStatus`.
    stems
        Number of stems recorded.
    errors, warnings, notes
        Number of findings.
    number
        Page on which its sheet begins.
    blind
        Whether the sheet withholds what was recorded.
    """

    plot: str
    visit: str
    status: int
    stems: int
    errors: int
    warnings: int
    notes: int
    number: int
    blind: bool = False

    @property
    def findings(self) -> int:
        """Number of findings of any severity."""
        return self.errors + self.warnings + self.notes

    @property
    def state(self) -> str:
        """State of the plot in words."""
        if self.blind:
            return _tr("sheet", "blind check")
        words = {
            PlotStatus.EMPTY: _tr("sheet", "empty plot"),
            PlotStatus.NON_FOREST: _tr("sheet", "non-forest"),
            PlotStatus.NOT_REACHED: _tr("sheet", "not reached"),
        }
        parts = [words.get(PlotStatus(self.status), "" if self.stems else _tr("sheet", "no stems"))]
        if self.errors:
            parts.append(_tr("sheet", "errors: {count}").format(count=self.errors))
        if self.warnings:
            parts.append(_tr("sheet", "to look at: {count}").format(count=self.warnings))
        if self.notes and not (self.errors or self.warnings):
            parts.append(_tr("sheet", "notes only"))
        if not self.findings:
            parts.append(_tr("sheet", "no findings"))
        return ", ".join(part for part in parts if part)


def describe_contents(
    lines: Sequence[ContentsLine], *, name: str = "", paper: str = "A4", first_number: int = 1
) -> Iterator[Page]:
    """Describe the pages of the contents.

    Parameters
    ----------
    lines
        One for each sheet.
    name
        Of the survey.
    paper
        A key of `PAPERS`.
    first_number
        Number of the first of these pages.
    """
    width, height = paper_size(paper)
    inner = width - 2.0 * MARGIN_MM
    on_page = int((height - 2.0 * MARGIN_MM - HEAD_MM - _HEADING_MM) / _ROW_MM)
    for page, first in enumerate(range(0, len(lines), on_page)):
        title = _tr("sheet", "Contents")
        shapes: tuple[Shape, ...] = (
            Texts(ORIGIN, (title,), TITLE, PAPER.ink, offset_mm=(0.0, -3.0), align=0.0),
            Texts(ORIGIN, (fitted(name, WORDS, inner - 50.0),), WORDS, PAPER.soft, offset_mm=(0.0, -8.5), align=0.0),
            Texts(
                ORIGIN,
                (_tr("sheet", "page {number}").format(number=first_number + page),),
                WORDS,
                PAPER.soft,
                offset_mm=(inner, -8.5),
                align=1.0,
            ),
            *_table(lines[first : first + on_page], inner),
        )
        scene = Scene(shapes, Box(low=(0.0, 2.0 * MARGIN_MM - height), high=(inner, 0.0)), PAPER.page)
        yield Page(width, height, (Placed(scene, MARGIN_MM, MARGIN_MM),), PAPER.page, title, "" if page else title)


def _table(lines: Sequence[ContentsLine], width_mm: float) -> Iterator[Shape]:
    headings = (
        _tr("sheet", "plot"),
        _tr("sheet", "visit"),
        _tr("sheet", "state"),
        _tr("sheet", "findings"),
        _tr("sheet", "page"),
    )
    rows = [
        (line.plot, line.visit, line.state, "" if line.blind else str(line.findings), str(line.number))
        for line in lines
    ]
    top = -HEAD_MM - _HEADING_MM
    middle = top - (np.arange(len(rows)) + 0.5) * _ROW_MM
    place = np.zeros((len(rows), 2))
    for heading, texts, (share, align), room in zip(headings, zip(*rows, strict=True), _COLUMNS, _WIDTHS, strict=True):
        x = share * width_mm
        yield Texts(ORIGIN, (heading,), SMALL, PAPER.ink, offset_mm=(x, top + 2.0), align=align)
        cut = tuple(fitted(text, WORDS, room * width_mm) for text in texts)
        offset = np.column_stack([np.full(len(rows), x), middle])
        yield Texts(place, cut, WORDS, PAPER.ink, offset_mm=offset, align=align)
    levels = np.append(top, top - (np.arange(len(rows)) + 1.0) * _ROW_MM)
    none = np.zeros((len(levels), 2))
    ends = (np.column_stack([np.full(len(levels), x), levels]) for x in (0.0, width_mm))
    start, end = ends
    yield Lines(none, none, Stroke(PAPER.soft, 0.12), start_mm=start, end_mm=end)
