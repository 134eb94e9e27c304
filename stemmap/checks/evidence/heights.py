"""What the height of a stem tells of its dbh, and the dbh of its height."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from stemmap.core.heights import Lines, robust_lines
from stemmap.survey.measured import Status
from stemmap.survey.registry import Case
from stemmap.units import METRES

Floats = NDArray[np.float64]

#: No relation of height and dbh is closer than this, in logarithms.
_CLOSEST = 0.08
#: Fewest stems with height and dbh that tell how both belong together.
_ENOUGH = 50


@dataclass(frozen=True)
class Heights:
    """Height against dbh; shape (stems,).

    Parameters
    ----------
    species
        Code of the species, 0 where none is told.
    height_m
        Heights of living stems as far as they are known.
    of_dbh, of_height
        Lines of the logarithm of height over that of dbh, and the reverse, by species; None without heights.
    """

    species: NDArray[np.int64]
    height_m: Floats
    of_dbh: Lines | None
    of_height: Lines | None


def heights(case: Case) -> Heights:
    """Learn how height and dbh belong together in this survey."""
    survey, dbh = case.survey, case.measured.dbh_cm
    column = survey.stems.records.columns.get("species")
    species = np.zeros(len(dbh), np.int64) if column is None else column.alike() + 1
    height = survey.stems.numbers("height_m") * METRES[survey.settings.measurement.length_unit]
    height = np.where((height > 0.0) & (case.measured.status == Status.LIVING), height, np.nan)
    if case.whole is not None:
        return replace(case.whole.once(heights), species=species, height_m=height)
    known = np.isfinite(height) & (dbh > 0.0)
    if np.count_nonzero(known) < _ENOUGH:
        return Heights(species, height, None, None)
    tall, thick = np.log(np.where(known, height, np.nan)), np.log(np.where(known, dbh, np.nan))
    of_dbh, of_height = robust_lines(thick, tall, species), robust_lines(tall, thick, species)
    return Heights(species, height, _not_too_close(of_dbh), _not_too_close(of_height))


def _not_too_close(lines: Lines) -> Lines:
    return Lines(lines.intercept, lines.slope, np.maximum(lines.spread, _CLOSEST))
