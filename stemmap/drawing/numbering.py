"""Numbers beside the stems, with the letters of their findings."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QCoreApplication

from stemmap.drawing import labels
from stemmap.drawing.decimals import Decimal
from stemmap.drawing.doubts import BADGE_MM, OUTLINE_GAP_MM, Doubt, badge_shapes
from stemmap.drawing.ground import BEYOND_MM, Border
from stemmap.drawing.marks import Stems
from stemmap.drawing.palette import Theme
from stemmap.drawing.scene import Discs, Floats, Lines, Shape, Stroke, Texts
from stemmap.drawing.typeface import SMALL, shortened, widths
from stemmap.survey.batches import SEVERITIES
from stemmap.survey.survey import Survey
from stemmap.units import METRES

_tr = QCoreApplication.translate
#: Between a number and the letters behind it.
GAP_MM: Final = 0.6
#: Characters of the longest number drawn in full.
_LONGEST: Final = 12
#: Beyond this many stems only those with findings get a number, and no more than this.
MOST_NUMBERS: Final = 600
#: Beyond this many stems none gets one: each number is tried against all stems, and there is no room anyway.
MOST_STEMS: Final = 5000
_NUMBER_HEIGHT_MM: Final = SMALL * 0.75
_BADGE_HEIGHT_MM: Final = BADGE_MM + 0.25
#: A line that numbers keep clear of is taken as points this far apart, each with this radius.
_LINE_STEP_MM: Final = 1.2
_LINE_CLEAR_MM: Final = 0.1


@dataclass(frozen=True)
class StemNumbers:
    """Numbers and letters of the stems that have either; arrays of shape (n,).

    Parameters
    ----------
    order
        Index of the stem among those drawn.
    texts, letters
        What is written beside it.
    """

    order: NDArray[np.int64]
    texts: tuple[str, ...]
    letters: tuple[str, ...]

    @classmethod
    def of(
        cls,
        survey: Survey,
        stems: Stems,
        doubts: Mapping[int, Doubt],
        *,
        numbers: bool = True,
        species: bool = False,
    ) -> StemNumbers:
        """Gather them: stem numbers, names of species, or only the letters of findings."""
        if len(stems.row) > MOST_STEMS:
            return cls(np.zeros(0, np.int64), (), ())
        unit = survey.settings.measurement.length_unit
        order: list[int] = []
        texts: list[str] = []
        letters: list[str] = []
        crowded = len(stems.row) > MOST_NUMBERS
        drawn = zip(stems.row.tolist(), stems.far.tolist(), stems.distance_m.tolist(), strict=True)
        for number, (row, far, distance) in enumerate(drawn):
            if crowded and (row not in doubts or len(order) == MOST_NUMBERS):
                continue
            words = [survey.stems.label(row)] if numbers else []
            words += [_species(survey, row)] if species else []
            text = " ".join(shortened(word, _LONGEST) for word in words).strip()
            if far:
                away = f"{Decimal(distance / METRES[unit]):.1f} {'m' if unit == 'metre' else 'ft'}"
                text = _tr("map", "{text} at {distance}").format(text=text, distance=away).strip()
            found = doubts[row].letters if row in doubts else ""
            if text or found:
                order.append(number)
                texts.append(text)
                letters.append(found)
        return cls(np.array(order, dtype=np.int64), tuple(texts), tuple(letters))

    def shapes(
        self,
        stems: Stems,
        doubts: Mapping[int, Doubt],
        *,
        clear_of: Sequence[Shape],
        lines: Sequence[Border],
        reach_m: float,
        millimetres_per_metre: float,
        theme: Theme,
    ) -> list[Shape]:
        """Place them beside their stems, clear of stems, of some shapes and each other, and if possible of borders."""
        if not len(self.order):
            return []
        scale = millimetres_per_metre
        marked = np.isin(stems.row, list(doubts))
        radius = stems.clear_on_paper(scale) + np.where(marked, OUTLINE_GAP_MM + 0.35, 0.0)
        discs = np.column_stack([stems.place * scale, radius])
        others = np.setdiff1d(np.arange(len(discs)), self.order)
        circles = [[line.x_m, line.y_m, line.across_m] for line in lines if line.is_circle]
        size, behind = self._sizes()
        found = labels.place(
            discs[self.order, :2],
            radius[self.order],
            size,
            discs_mm=np.vstack([discs[self.order], discs[others], *_in_the_way(clear_of, scale)]),
            rings_mm=np.reshape(circles, (-1, 3)) * scale,
            reach_mm=reach_m * scale + BEYOND_MM,
        )
        place = stems.place[self.order]
        start = found.offset_mm - size * (0.5, 0.0)
        put = np.flatnonzero(found.placed)
        shapes: list[Shape] = [
            _hair_lines(found, place, size=size, radius=radius[self.order], theme=theme),
            Texts(place[put], tuple(self.texts[number] for number in put), SMALL, theme.ink, start[put], align=0.0),
        ]
        for severity in SEVERITIES:
            rows = stems.row[self.order].tolist()
            chosen = [
                number
                for number in put.tolist()
                if rows[number] in doubts and doubts[rows[number]].severity == severity
            ]
            offset = start[chosen] + np.column_stack([behind[chosen], np.zeros(len(chosen))])
            shapes += badge_shapes(place[chosen], offset, [self.letters[number] for number in chosen], severity, theme)
        return shapes

    def _sizes(self) -> tuple[Floats, Floats]:
        """Width and height of number and letters together, and how far behind its left end the letters begin."""
        word = widths(self.texts) * SMALL
        badge = np.array([len(letters) for letters in self.letters]) * BADGE_MM
        behind = word + np.where((word > 0.0) & (badge > 0.0), GAP_MM, 0.0)
        height = np.where(badge > 0.0, _BADGE_HEIGHT_MM, _NUMBER_HEIGHT_MM)
        return np.column_stack([behind + badge, height]), behind


def _species(survey: Survey, row: int) -> str:
    column = survey.stems.records.columns.get("species")
    return "" if column is None or column.codes[row] < 0 else str(column.labels[column.codes[row]])


def _in_the_way(shapes: Sequence[Shape], scale: float) -> Iterator[Floats]:
    """Discs and lines as discs that numbers keep clear of: x, y, radius in millimetres, shape (n, 3)."""
    for shape in shapes:
        match shape:
            case Discs():
                radius = np.asarray(shape.radius_m, dtype=float) * scale + shape.radius_mm
                yield np.column_stack([shape.centre * scale, np.broadcast_to(radius, len(shape.centre))])
            case Lines():
                along = shape.end - shape.start
                steps = (np.hypot(*along.T) * scale / _LINE_STEP_MM).astype(np.int64) + 2
                line = np.repeat(np.arange(len(steps)), steps)
                share = (np.arange(len(line)) - np.repeat(np.cumsum(steps) - steps, steps)) / (steps[line] - 1)
                points = (shape.start[line] + share[:, None] * along[line]) * scale
                yield np.column_stack([points, np.full(len(points), _LINE_CLEAR_MM)])


def _hair_lines(found: labels.Placement, place: Floats, *, size: Floats, radius: Floats, theme: Theme) -> Lines:
    """Lines from the edge of each mark to the edge of its number, where it is not beside it."""
    tied = found.tied
    middle = found.offset_mm[tied]
    direction = middle / np.hypot(middle[:, 0], middle[:, 1])[:, None]
    inner = np.min(size[tied] / 2.0 / np.maximum(np.abs(direction), 1e-9), axis=1) + 0.2
    return Lines(
        place[tied],
        place[tied],
        Stroke(theme.soft, 0.12),
        start_mm=direction * radius[tied, None],
        end_mm=middle - direction * inner[:, None],
    )
