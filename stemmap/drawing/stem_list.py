"""The list of stems on a plot sheet: what was recorded, what is doubtful and why, and room for what is measured again.

Everything is shown as typed. A doubtful stem carries the letters of its findings, and why stands under its row.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np
from PySide6.QtCore import QCoreApplication

from stemmap.drawing.doubts import BADGE_MM, LETTERS, Doubt, badge_shapes, doubts_of
from stemmap.drawing.palette import PAPER
from stemmap.drawing.scene import ORIGIN, Box, Floats, Lines, Scene, Shape, Stroke, Texts
from stemmap.drawing.typeface import SMALL, WORDS, fitted, widths, wrapped
from stemmap.survey.batches import SEVERITIES
from stemmap.survey.finding import Finding
from stemmap.survey.settings import Settings
from stemmap.survey.survey import Survey

_tr = QCoreApplication.translate

#: Height of a row, enough to write into by hand; of the headings; of a line that says why.
ROW_MM: Final = 6.0
HEADING_MM: Final = 8.5
REASON_MM: Final = 3.0
#: Rows without a record, for stems that the record lacks.
BLANK_ROWS: Final = 4
_GAP_MM: Final = 1.0
_ROUNDING_MM: Final = 0.01
#: Width of a column to write into; more where there is room.
_WRITING_MM: Final = (17.0, 24.0)
#: Width of a box to tick.
_TICK_MM: Final = 9.0
_REMARK_MM: Final = 32.0
_MOST_REASONS: Final = 6
_NOTHING: Final = "–"


@dataclass(frozen=True)
class _Column:
    """A column of the list: its heading, its texts row by row, where its left edge lies and how wide it is."""

    heading: str
    texts: tuple[str, ...]
    left_mm: float
    width_mm: float
    align: float

    @property
    def anchor_mm(self) -> float:
        return self.left_mm + _GAP_MM + self.align * (self.width_mm - 2.0 * _GAP_MM)


@dataclass(frozen=True)
class StemList:
    """The list of one visit, ready to be cut into pages.

    Parameters
    ----------
    width_mm
        Its width.
    recorded, again
        Columns of what was recorded, and headings of what is measured again.
    ticks
        Boxes to tick whether a stem was found; only where all are measured without knowing what was recorded.
    letters_mm
        Left edge of the letters of the findings.
    doubts
        Doubt of each stem, None for those without.
    reasons
        Lines under each row, shape (n,).
    about_plot
        Lines above the first row: what is doubtful about the whole plot.
    """

    width_mm: float
    recorded: tuple[_Column, ...]
    again: tuple[_Column, ...]
    ticks: tuple[_Column, ...]
    letters_mm: float
    doubts: tuple[Doubt | None, ...]
    reasons: tuple[tuple[str, ...], ...]
    about_plot: tuple[str, ...]

    @classmethod
    def of(
        cls,
        survey: Survey,
        visit_row: int,
        *,
        findings: Sequence[Finding] = (),
        width_mm: float,
        notes: Sequence[str] = (),
        blind: bool = False,
    ) -> StemList:
        """List of the stems of a visit, in the order of the records.

        Parameters
        ----------
        findings
            Findings of this visit.
        width_mm
            Room.
        notes
            Further sentences to stand above the first row.
        blind
            Whether only the numbers of the stems are shown, it is ticked which of them were found, and the species
            is written down anew too.
        """
        rows = survey.visits.stems(visit_row)
        by_stem: dict[int, list[Finding]] = {}
        for finding in sorted(findings, key=lambda finding: SEVERITIES.index(finding.severity)):
            by_stem.setdefault(finding.stem_row, []).append(finding)
        doubts = doubts_of(findings)
        of_stem = tuple(doubts.get(row) for row in range(rows.start, rows.stop))
        most = max((len(doubt.letters) for doubt in of_stem if doubt), default=1)
        letters_mm = max(most * BADGE_MM, float(widths((_doubtful(),))[0]) * SMALL) + 2.0 * _GAP_MM
        letters_mm = 0.0 if blind else letters_mm
        angle = "vertical_angle_deg" in survey.stems.records.columns
        count = 3 + angle + blind
        ticked = _TICK_MM * len(_found()) if blind else 0.0
        recorded = _recorded(survey, rows, width_mm - count * _WRITING_MM[0] - letters_mm - ticked, blind=blind)
        used = recorded[-2].left_mm + recorded[-2].width_mm
        free = (width_mm - used - letters_mm - ticked - _REMARK_MM) / count
        each = min(max(free, _WRITING_MM[0]), _WRITING_MM[1])
        ticks = _columns(_found(), used, _TICK_MM) if blind else ()
        again = _again(survey.settings, used + letters_mm + ticked, each, with_angle=angle, with_species=blind)
        remark = recorded[-1]
        left = again[-1].left_mm + again[-1].width_mm
        remarks = _Column(
            remark.heading,
            tuple(fitted(text, SMALL, width_mm - left - 2.0 * _GAP_MM) for text in remark.texts),
            left,
            width_mm - left,
            0.0,
        )
        said = [*notes, *(f"{LETTERS[each.family]}: {each.message}" for each in by_stem.get(-1, ()))]
        return cls(
            width_mm,
            (*recorded[:-1], remarks),
            again,
            ticks,
            used,
            of_stem,
            tuple(_reasons(by_stem.get(row, ()), width_mm) for row in range(rows.start, rows.stop)),
            _lines(said, width_mm, 3 * _MOST_REASONS),
        )

    def __len__(self) -> int:
        return len(self.doubts)

    @cached_property
    def heights_mm(self) -> Floats:
        """Height of each row with the lines under it, shape (n,)."""
        lines = np.array([len(reasons) for reasons in self.reasons], dtype=float)
        return ROW_MM + np.where(lines > 0.0, lines * REASON_MM + 0.6, 0.0)

    @property
    def before_mm(self) -> float:
        """Height of the lines above the first row."""
        return len(self.about_plot) * REASON_MM + (1.5 if self.about_plot else 0.0)

    def fitting(self, first: int, height_mm: float) -> int:
        """Number of rows, from a first one on, that fit a height with the headings."""
        room = height_mm - HEADING_MM - (self.before_mm if first == 0 else 0.0)
        return int(np.searchsorted(np.cumsum(self.heights_mm[first:]), room + 1e-6, side="right"))

    def describe(self, first: int, last: int, height_mm: float) -> Scene:
        """Describe rows `first` up to but not `last`; the upper left corner is the origin.

        After the last stem come rows without a record, as far as they fit the height.
        """
        shapes: list[Shape] = []
        top = 0.0
        if first == 0:
            for number, line in enumerate(self.about_plot):
                shapes.append(_text(line, SMALL, 0.0, -(number + 0.5) * REASON_MM))
            top = -self.before_mm
        shapes += self._headings(top)
        top -= HEADING_MM
        heights = self.heights_mm[first:last]
        tops = top - np.append(0.0, np.cumsum(heights))
        end = float(tops[-1])
        blank = min(BLANK_ROWS, int((height_mm + end) / ROW_MM + 1e-6)) if last == len(self) else 0
        rows = np.append(tops[:-1], end - ROW_MM * np.arange(blank))
        shapes += self._cells(first, last, tops)
        shapes += self._grid(rows, np.append(tops, end - ROW_MM * np.arange(1, blank + 1)))
        bottom = end - blank * ROW_MM
        return Scene(tuple(shapes), Box(low=(0.0, bottom), high=(self.width_mm, 0.0)), PAPER.page)

    def _headings(self, top: float) -> Iterator[Shape]:
        upper, lower = top - 2.2, top - 6.0
        again = self.again[0].left_mm
        yield _text(_tr("sheet", "measured again"), SMALL, again + _GAP_MM, upper)
        if self.ticks:
            yield _text(_tr("sheet", "found"), SMALL, self.ticks[0].left_mm + _GAP_MM, upper)
            yield _level(np.array([top - 3.9]), self.ticks[0].left_mm + 0.6, again - 0.6, 0.15)
        elif self.letters_mm < again:
            yield _text(_tr("sheet", "as recorded"), SMALL, _GAP_MM, upper)
            yield _text(_doubtful(), SMALL, self.letters_mm + _GAP_MM, lower)
        for column in (*self.recorded, *self.ticks, *self.again):
            yield _text(column.heading, SMALL, column.anchor_mm, lower, align=column.align)
        yield _level(np.array([top - 3.9]), again + 0.6, self.again[-1].left_mm + self.again[-1].width_mm - 0.6, 0.15)
        yield _level(np.array([top - HEADING_MM]), 0.0, self.width_mm, 0.35)

    def _cells(self, first: int, last: int, tops: Floats) -> Iterator[Shape]:
        count = last - first
        middle = tops[:-1] - ROW_MM / 2.0
        place = np.zeros((count, 2))
        for column in self.recorded:
            offset = np.column_stack([np.full(count, column.anchor_mm), middle])
            size = WORDS if column is not self.recorded[-1] else SMALL
            yield Texts(place, column.texts[first:last], size, PAPER.ink, offset_mm=offset, align=column.align)
        for severity in SEVERITIES:
            chosen = [
                (number, doubt)
                for number, doubt in enumerate(self.doubts[first:last])
                if doubt is not None and doubt.severity == severity
            ]
            if chosen:
                at = np.array([[self.letters_mm + _GAP_MM, middle[number]] for number, _ in chosen])
                yield from badge_shapes(
                    np.zeros((len(chosen), 2)), at, [doubt.letters for _, doubt in chosen], severity, PAPER
                )
        said = [
            (line, tops[number] - ROW_MM - 0.2 - (place_of + 0.5) * REASON_MM)
            for number, lines in enumerate(self.reasons[first:last])
            for place_of, line in enumerate(lines)
        ]
        if said:
            offset = np.array([[3.0, y] for _, y in said])
            texts = tuple(line for line, _ in said)
            yield Texts(np.zeros((len(said), 2)), texts, SMALL, PAPER.ink, offset_mm=offset, align=0.0)

    def _grid(self, rows: Floats, lines: Floats) -> Iterator[Shape]:
        """Lines between the rows, and boxes to write into."""
        yield _level(lines, 0.0, self.width_mm, 0.12)
        boxes = (*self.ticks, *self.again)
        edges = [column.left_mm for column in boxes] + [boxes[-1].left_mm + boxes[-1].width_mm]
        if len(rows):
            x, y = (grid.ravel() for grid in np.meshgrid(edges, rows))
            none = np.zeros((len(x), 2))
            start = np.column_stack([x, y])
            yield Lines(none, none, Stroke(PAPER.ink, 0.12), start_mm=start, end_mm=start - np.array([0.0, ROW_MM]))
            box = np.column_stack([np.full(len(rows), edges[0]), rows - ROW_MM])
            none = np.zeros((len(rows), 2))
            across = box + np.array([edges[-1] - edges[0], 0.0])
            yield Lines(none, none, Stroke(PAPER.ink, 0.12), start_mm=box, end_mm=across)

    def as_text(self) -> str:
        """The stems as tab-separated text with their headings, for a spreadsheet."""
        columns = [*self.recorded[:-1]]
        letters = [doubt.letters if doubt else "" for doubt in self.doubts]
        lines = ["\t".join([*(column.heading for column in columns), _doubtful()])]
        lines += [
            "\t".join([*("" if text == _NOTHING else text for text in texts), letter])
            for *texts, letter in zip(*(column.texts for column in columns), letters, strict=True)
        ]
        return "\n".join(lines) + "\n"


def _doubtful() -> str:
    return _tr("sheet", "doubt")


def _recorded(survey: Survey, rows: slice, width_mm: float, *, blind: bool) -> tuple[_Column, ...]:
    """Columns of what was recorded, from the left, as wide as their texts within bounds; the last one is the remark."""
    made: list[_Column] = []
    left = 0.0
    for heading, texts, align, most in _numbers(survey, rows) if blind else _contents(survey, rows):
        words = (heading, *texts)
        sizes = np.append(SMALL, np.full(len(texts), WORDS))
        width = min(float((widths(words) * sizes).max()) + _ROUNDING_MM, most) + 2.0 * _GAP_MM
        width = max(min(width, width_mm - left), 2.0 * _GAP_MM)
        cut = tuple(fitted(text, WORDS, width - 2.0 * _GAP_MM) for text in texts)
        made.append(_Column(heading, cut, left, width, align))
        left += width
    remark = tuple(_typed(survey, rows, "remark", nothing=""))
    return (*made, _Column(_tr("sheet", "remark"), remark, left, 0.0, 0.0))


def _numbers(survey: Survey, rows: slice) -> Iterator[tuple[str, list[str], float, float]]:
    """Heading, texts, alignment and greatest width of the columns of numbers."""
    columns = survey.stems.records.columns
    has_tree = "tree" in columns
    if has_tree:
        yield _tr("sheet", "tree"), _typed(survey, rows, "tree"), 1.0, 14.0
    if "stem" in columns or not has_tree:
        yield _tr("sheet", "stem"), _typed(survey, rows, "stem"), 1.0, 14.0


def _contents(survey: Survey, rows: slice) -> Iterator[tuple[str, list[str], float, float]]:
    """Heading, texts, alignment and greatest width of each column."""
    columns = survey.stems.records.columns
    length, thick, angle = _units(survey.settings)
    yield from _numbers(survey, rows)
    if "station" in columns:
        yield _tr("sheet", "station"), _typed(survey, rows, "station"), 0.0, 12.0
    yield _tr("sheet", "azimuth {unit}").format(unit=angle), _typed(survey, rows, "azimuth"), 1.0, 16.0
    yield _tr("sheet", "distance {unit}").format(unit=length), _typed(survey, rows, "distance_m"), 1.0, 16.0
    if "vertical_angle_deg" in columns:
        yield _tr("sheet", "vertical °"), _typed(survey, rows, "vertical_angle_deg"), 1.0, 12.0
    sizes = {
        "dbh_cm": _tr("sheet", "dbh {unit}").format(unit=thick),
        "dbh_mm": _tr("sheet", "dbh mm"),
        "girth_cm": _tr("sheet", "girth {unit}").format(unit=thick),
    }
    present = [name for name in sizes if name in columns] or ["dbh_cm"]
    for name in present:
        yield sizes[name], _typed(survey, rows, name), 1.0, 14.0
    yield _tr("sheet", "species"), _typed(survey, rows, "species"), 0.0, 24.0
    yield _tr("sheet", "status"), _typed(survey, rows, "status", nothing=""), 0.0, 16.0


def _units(settings: Settings) -> tuple[str, str, str]:
    """Signs of the units of distance, dbh and azimuth."""
    metric = settings.measurement.length_unit == "metre"
    angle = {"degree": "°", "gon": "gon"}.get(settings.measurement.azimuth_unit, "mil")
    return ("m" if metric else "ft"), ("cm" if metric else "in"), angle


def _again(
    settings: Settings, left_mm: float, each_mm: float, *, with_angle: bool, with_species: bool
) -> tuple[_Column, ...]:
    """Columns to write into."""
    length, thick, angle = _units(settings)
    headings = [
        _tr("sheet", "azimuth {unit}").format(unit=angle),
        _tr("sheet", "distance {unit}").format(unit=length),
        *([_tr("sheet", "vertical °")] if with_angle else []),
        _tr("sheet", "dbh {unit}").format(unit=thick),
        *([_tr("sheet", "species")] if with_species else []),
    ]
    return _columns(headings, left_mm, each_mm)


def _found() -> tuple[str, ...]:
    """What can be ticked of a stem, in the words of the table to fill in."""
    return _tr("sheet", "yes"), _tr("sheet", "no"), _tr("sheet", "new")


def _columns(headings: Sequence[str], left_mm: float, each_mm: float) -> tuple[_Column, ...]:
    """Empty columns side by side."""
    return tuple(
        _Column(heading, (), left_mm + number * each_mm, each_mm, 0.0) for number, heading in enumerate(headings)
    )


def _typed(survey: Survey, rows: slice, name: str, *, nothing: str = _NOTHING) -> list[str]:
    """Texts of a column as typed, on one line."""
    column = survey.stems.records.columns.get(name)
    if column is None:
        return [nothing] * (rows.stop - rows.start)
    codes = column.codes[rows].tolist()
    labels = {code: " ".join(str(column.labels[code])[:200].split()) for code in set(codes) if code >= 0}
    return [labels.get(code, nothing) for code in codes]


def _reasons(findings: Sequence[Finding], width_mm: float) -> tuple[str, ...]:
    return _lines([f"{LETTERS[each.family]}: {each.message}" for each in findings], width_mm - 3.0, _MOST_REASONS)


def _lines(sentences: Sequence[str], width_mm: float, most: int) -> tuple[str, ...]:
    """Sentences in lines that fit a width; what would be too many lines is counted."""
    lines: list[str] = []
    for number, sentence in enumerate(sentences):
        more = [fitted(line, SMALL, width_mm) for line in wrapped(sentence, SMALL, width_mm)]
        if len(lines) + len(more) > most - (number < len(sentences) - 1):
            left = len(sentences) - number
            return (*lines, _tr("sheet", "and {count} more, see the window").format(count=left))
        lines += more
    return tuple(lines)


def _text(text: str, size: float, x: float, y: float, *, align: float = 0.0) -> Texts:
    return Texts(ORIGIN, (text,), size, PAPER.ink, offset_mm=(x, y), align=align)


def _level(heights: Floats, left: float, right: float, width_mm: float) -> Lines:
    """Level lines from left to right."""
    none = np.zeros((len(heights), 2))
    start, end = (np.column_stack([np.full(len(heights), x), heights]) for x in (left, right))
    return Lines(none, none, Stroke(PAPER.ink, width_mm), start_mm=start, end_mm=end)
