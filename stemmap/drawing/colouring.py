"""What the fills of stems mean: species, status, dbh, new since the last visit, or findings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QCoreApplication

from stemmap.drawing.layers import ColourBy
from stemmap.drawing.palette import (
    CIVIDIS,
    FINDING_FILLS,
    MARKS,
    SPECIES_FILLS,
    SPOTS,
    STATUS_FILLS,
    VISIT_FILLS,
    SpeciesMarks,
    Theme,
)
from stemmap.survey.batches import SEVERITIES
from stemmap.survey.finding import Finding
from stemmap.survey.measured import Measured
from stemmap.survey.survey import Survey

_tr = QCoreApplication.translate
Spots = tuple[tuple[float, float, float], ...]

#: Limits of the dbh classes in centimetres; a stem on a limit is in the class above it. The same on every map.
DBH_LIMITS_CM: Final = (10.0, 20.0, 30.0, 40.0, 50.0, 60.0)


@dataclass(frozen=True)
class Colouring:
    """Fills and spots of the stems of one visit.

    Parameters
    ----------
    names
        What the kinds of stems are called.
    fills, spots
        Mark of a kind; kinds beyond their number begin again with the first.
    kind
        Kind of each stem, -1 when it is not known; shape (n,).
    unknown
        What -1 is called.
    """

    names: tuple[str, ...]
    fills: tuple[str, ...]
    spots: tuple[Spots, ...]
    kind: NDArray[np.int64]
    unknown: str

    def fill_of(self, kind: int, theme: Theme) -> str:
        """Colour of a kind."""
        return self.fills[kind % len(self.fills)] if kind >= 0 else theme.unknown

    def spots_of(self, kind: int) -> Spots:
        """Spots of a kind."""
        return self.spots[kind % len(self.spots)] if kind >= 0 else ()


def colouring(
    survey: Survey,
    measured: Measured,
    visit_row: int,
    *,
    by: ColourBy = "species",
    findings: Sequence[Finding] = (),
    species: SpeciesMarks | None = None,
) -> Colouring:
    """Kinds of the stems of a visit. No colour stands alone: spots, size, strokes or outlines say the same."""
    rows = survey.visits.stems(visit_row)
    match by:
        case "species":
            marks = species or SpeciesMarks.of(survey)
            fills = tuple(SPECIES_FILLS[number % len(SPECIES_FILLS)] for number in range(MARKS))
            spots = tuple(SPOTS[number % len(SPOTS)] for number in range(MARKS))
            return Colouring(marks.names, fills, spots, marks.rank(survey, rows), _tr("map", "no species"))
        case "status":
            # Strokes through the mark tell the status as well.
            kind = np.where(measured.status_known[rows], measured.status[rows], -1).astype(np.int64)
            names = (_tr("map", "living"), _tr("map", "dead"), _tr("map", "cut"), _tr("map", "gone"))
            return Colouring(names, STATUS_FILLS, _plain(4), kind, _tr("map", "status not understood"))
        case "dbh":
            # The size of the mark tells the dbh as well.
            dbh = measured.dbh_cm[rows]
            kind = np.where(dbh > 0.0, np.digitize(dbh, DBH_LIMITS_CM), -1)
            return Colouring(_dbh_names(), CIVIDIS, _plain(len(CIVIDIS)), kind, _tr("map", "dbh not known"))
        case "visit":
            compared = (_tr("map", "also at the last visit"), _tr("map", "new since the last visit"))
            unknown = _tr("map", "not to be compared")
            return Colouring(compared, VISIT_FILLS, SPOTS[:2], _new_since(survey, visit_row), unknown)
        case "finding":
            worst = np.full(rows.stop - rows.start, len(SEVERITIES))
            told = [(item.stem_row - rows.start, SEVERITIES.index(item.severity)) for item in findings]
            stem, rank = np.array([each for each in told if each[0] >= 0], np.int64).reshape(-1, 2).T
            np.minimum.at(worst, stem, rank)
            gravity = (
                _tr("map", "with an error"),
                _tr("map", "to look at"),
                _tr("map", "with a note"),
                _tr("map", "without findings"),
            )
            return Colouring(gravity, FINDING_FILLS, (SPOTS[3], SPOTS[2], SPOTS[1], ()), worst, "")


def _dbh_names() -> tuple[str, ...]:
    return (
        _tr("map", "dbh below {high:g} cm").format(high=DBH_LIMITS_CM[0]),
        *(
            _tr("map", "dbh {low:g} to below {high:g} cm").format(low=low, high=high)
            for low, high in pairwise(DBH_LIMITS_CM)
        ),
        _tr("map", "dbh {low:g} cm and more").format(low=DBH_LIMITS_CM[-1]),
    )


def _plain(count: int) -> tuple[Spots, ...]:
    return ((),) * count


def _new_since(survey: Survey, visit_row: int) -> NDArray[np.int64]:
    """1 for stems whose number is new since the visit before, 0 for those it had, -1 where that cannot be said."""
    rows = survey.visits.stems(visit_row)
    previous = int(survey.visits.previous[visit_row])
    if previous < 0:
        return np.full(rows.stop - rows.start, -1)
    before = survey.visits.stems(previous)
    code, again = survey.stems.number_code, survey.stems.occurrence
    width = int(max(again[rows].max(initial=0), again[before].max(initial=0))) + 1
    had = np.isin(code[rows] * width + again[rows], code[before] * width + again[before])
    return np.where(code[rows] < 0, -1, np.where(had, 0, 1))
