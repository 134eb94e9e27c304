"""What is usual for a diameter, by species."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.heights import Heights, heights
from stemmap.survey.registry import Case

Floats = NDArray[np.float64]

#: Degrees of freedom of the Student distribution of log dbh: big trees happen.
_TAIL = 6.0
#: No stem is thicker than this, centimetres.
_THICKEST_CM = 300.0
#: Share of heights that tell nothing of the dbh: mistyped, or a broken top.
_HEIGHT_WRONG = 0.02
#: Spreads from which a diameter is worth a look: from what is usual, and from what the height says.
_FAR, _FAR_OF_HEIGHT = 3.0, 5.0


@dataclass(frozen=True)
class Diameters:
    """Middle and spread of the logarithm of dbh, by species.

    Parameters
    ----------
    species
        Code of each stem's species, shape (stems,).
    middle, spread
        By species.
    heights
        What the heights of the stems tell of their diameters.
    """

    species: NDArray[np.int64]
    middle: Floats
    spread: Floats
    heights: Heights

    def log_density(self, stem: NDArray[np.integer], dbh_cm: Floats, most_cm: float | None = None) -> Floats:
        """Logarithm of the density of diameters per centimetre for given stems; 0 where the diameter is not known."""
        code = self.species[stem]
        log_dbh = np.log(np.maximum(dbh_cm, 1e-3))
        density = _student((log_dbh - self.middle[code]) / self.spread[code], self.spread[code])
        line = self.heights.of_height
        if line is not None:
            off = line.off(np.log(self.heights.height_m[stem]), log_dbh, self.heights.species[stem])
            fitting = _student(off, line.spread[self.heights.species[stem]]) + np.log1p(-_HEIGHT_WRONG)
            mixed = np.logaddexp(np.nan_to_num(fitting), np.nan_to_num(density) + np.log(_HEIGHT_WRONG))
            density = np.where(np.isfinite(fitting) & np.isfinite(density), mixed, density)
        density = density - log_dbh - 8.0 * (dbh_cm > (most_cm or _THICKEST_CM))
        found: Floats = np.where(np.isfinite(dbh_cm), density, 0.0)
        return found

    def unlike(self, dbh_cm: Floats) -> NDArray[np.bool_]:
        """Diameters of all stems far from what is usual, or from what their heights say; shape (stems,)."""
        log_dbh = np.log(dbh_cm)
        far = np.abs(log_dbh - self.middle[self.species]) > _FAR * self.spread[self.species]
        line = self.heights.of_height
        if line is not None:
            told = line.off(np.log(self.heights.height_m), log_dbh, self.heights.species)
            far |= np.abs(told) > _FAR_OF_HEIGHT
        return far


def _student(off: Floats, spread: Floats) -> Floats:
    density: Floats = -0.5 * (_TAIL + 1.0) * np.log1p(off**2 / _TAIL) - np.log(2.6 * spread)
    return density


def diameters(case: Case) -> Diameters:
    """Learn the survey's diameters; species with few stems follow all stems."""
    column = case.survey.stems.records.columns.get("species")
    dbh = case.measured.dbh_cm
    code = np.zeros(len(dbh), np.int64) if column is None else column.alike() + 1
    if case.whole is not None:
        return replace(case.whole.once(diameters), species=code, heights=case.once(heights))
    known = np.flatnonzero(np.isfinite(dbh))
    log_dbh = np.log(dbh[known])
    size = int(code.max(initial=0)) + 1
    count = np.bincount(code[known], minlength=size)
    all_middle, all_spread = _middle_and_spread(np.sort(log_dbh))
    middle, spread = np.full(size, all_middle), np.full(size, all_spread)
    order = np.lexsort((log_dbh, code[known]))
    begin = np.cumsum(count) - count
    for each in np.flatnonzero(count >= 30):
        middle[each], spread[each] = _middle_and_spread(log_dbh[order[begin[each] : begin[each] + count[each]]])
    return Diameters(code, middle, spread, case.once(heights))


def _middle_and_spread(ordered: Floats) -> tuple[float, float]:
    if not len(ordered):
        return np.log(25.0), 0.5
    low, middle, high = np.quantile(ordered, [0.16, 0.5, 0.84])
    return float(middle), float(max((high - low) / 2.0, 0.15))
