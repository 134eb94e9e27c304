"""What is usual for a diameter, by species."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import lgamma, log, pi

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.heights import Heights, heights
from stemmap.survey.registry import Case

Floats = NDArray[np.float64]

#: Degrees of freedom of the Student distribution of log dbh. How often big trees happen is learnt, among these; thin
#: ones the survey tells too little of, for many come with a later visit.
_TAIL, _TAILS = 6.0, (4.0, 6.0, 10.0, 20.0)
#: Diameters asked for that, the fewest that can tell, and the share and density of those that were mistyped.
_ASKED, _ENOUGH, _MISTYPED, _ANYWHERE = 20_000, 500, 0.005, 0.05
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
    tail
        Degrees of freedom of the Student distribution above the middle.
    heights
        What the heights of the stems tell of their diameters.
    """

    species: NDArray[np.int64]
    middle: Floats
    spread: Floats
    tail: float
    heights: Heights

    def log_density(self, stem: NDArray[np.integer], dbh_cm: Floats, most_cm: float | None = None) -> Floats:
        """Logarithm of the density of diameters per centimetre for given stems; 0 where the diameter is not known."""
        code = self.species[stem]
        log_dbh = np.log(np.maximum(dbh_cm, 1e-3))
        off = (log_dbh - self.middle[code]) / self.spread[code]
        density = np.where(off > 0.0, _student(off, self.tail), _student(off, _TAIL)) - np.log(self.spread[code])
        line = self.heights.of_height
        if line is not None:
            told = line.off(np.log(self.heights.height_m[stem]), log_dbh, self.heights.species[stem])
            fitting = _student(told, _TAIL) - np.log(line.spread[self.heights.species[stem]]) + np.log1p(-_HEIGHT_WRONG)
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


def _student(off: Floats, freedom: float) -> Floats:
    """Logarithm of the density of Student's distribution."""
    level = lgamma(0.5 * (freedom + 1.0)) - lgamma(0.5 * freedom) - 0.5 * log(freedom * pi)
    density: Floats = level - 0.5 * (freedom + 1.0) * np.log1p(off**2 / freedom)
    return density


def _tail(off: Floats) -> float:
    """Degrees of freedom under which those above the middle, a few of them mistyped, are likeliest."""
    some = off[off > 0.0]
    some = some[:: max(1, len(some) // _ASKED)]
    if len(some) < _ENOUGH:
        return _TAIL

    def likelihood(freedom: float) -> float:
        right = (1.0 - _MISTYPED) * np.exp(_student(some, freedom))
        return float(np.log(right + _MISTYPED * _ANYWHERE).sum())

    return max(_TAILS, key=likelihood)


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
    tail = _tail((log_dbh - middle[code[known]]) / spread[code[known]])
    return Diameters(code, middle, spread, tail, case.once(heights))


def _middle_and_spread(ordered: Floats) -> tuple[float, float]:
    if not len(ordered):
        return np.log(25.0), 0.5
    low, middle, high = np.quantile(ordered, [0.16, 0.5, 0.84])
    return float(middle), float(max((high - low) / 2.0, 0.15))
