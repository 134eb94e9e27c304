"""Numbers beside the stems, with the letters of their findings."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stemmap.drawing import labels
from stemmap.drawing.doubts import BADGE_MM, OUTLINE_GAP_MM, Doubt, Ghost, badge_shapes
from stemmap.drawing.ground import BEYOND_MM, Border
from stemmap.drawing.marks import Stems
from stemmap.drawing.palette import Theme
from stemmap.drawing.scene import Floats, Lines, Shape, Stroke, Texts
from stemmap.drawing.typeface import SMALL, widths
from stemmap.survey.findings import SEVERITIES
from stemmap.survey.survey import Survey
from stemmap.units import METRES

#: Between a number and the letters behind it.
GAP_MM: Final = 0.6
_NUMBER_HEIGHT_MM: Final = SMALL * 0.75
_BADGE_HEIGHT_MM: Final = BADGE_MM + 0.25


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
    def of(cls, survey: Survey, stems: Stems, doubts: Mapping[int, Doubt]) -> StemNumbers:
        """Gather them."""
        unit = survey.settings.measurement.length_unit
        order, texts, letters = [], [], []
        drawn = zip(stems.row.tolist(), stems.far.tolist(), stems.distance_m.tolist(), strict=True)
        for number, (row, far, distance) in enumerate(drawn):
            text = survey.stems.label(row)
            if far:
                text = f"{text} at {distance / METRES[unit]:.1f} {'m' if unit == 'metre' else 'ft'}".strip()
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
        ghosts: Sequence[Ghost],
        lines: Sequence[Border],
        reach_m: float,
        millimetres_per_metre: float,
        theme: Theme,
    ) -> list[Shape]:
        """Place them beside their stems, clear of stems, ghosts and each other, and where they can of the borders."""
        if not len(self.order):
            return []
        scale = millimetres_per_metre
        marked = np.isin(stems.row, list(doubts))
        radius = stems.radius_on_paper(scale) + np.where(marked, OUTLINE_GAP_MM + 0.35, 0.0)
        discs = np.column_stack([stems.place * scale, radius])
        others = np.setdiff1d(np.arange(len(discs)), self.order)
        ghost_discs = [[*(ghost.place * scale), ghost.radius[0] * scale + ghost.radius[1]] for ghost in ghosts]
        circles = [[line.x_m, line.y_m, line.across_m] for line in lines if line.is_circle]
        size, behind = self._sizes()
        found = labels.place(
            discs[self.order, :2],
            radius[self.order],
            size,
            discs_mm=np.vstack([discs[self.order], discs[others], np.reshape(ghost_discs, (-1, 3))]),
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
