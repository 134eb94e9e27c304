"""How the diameters of this survey grow: what is usual, and how often they do otherwise."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.last_visit import revisit
from stemmap.checks.evidence.numbers import same_number
from stemmap.checks.evidence.typed import typed
from stemmap.survey.registry import Case

Truths = NDArray[np.bool_]
Floats = NDArray[np.float64]

#: Share of right pairs that grew in no usual way before the survey has told, the pairs that is worth, and how far they
#: scatter, centimetres.
_ODD, _ODD_WORTH, _ODD_SPREAD_CM = 0.002, 400.0, 8.0
#: The share for a dbh that the visits before and after agree against.
_PEAK = 1e-4
#: Growth further than so many spreads from the usual is odd; so many of a normal distribution lie there.
_FAR, _NORMAL_FAR = 3.0, 0.0027
#: What lies further off than this, centimetres, was mistyped and tells nothing of growth.
_SLIP_CM = 20.0
#: Two measuring heights that differ by this share are two places on the stem.
_SAME_PLACE = 0.05
#: Odd pairs that tell how far they scatter.
_ENOUGH = 20


@dataclass(frozen=True)
class Growth:
    """Growth of dbh between two visits, centimetres.

    Parameters
    ----------
    usual, spread
        Of most stems.
    odd
        Share of right pairs that grew otherwise: measured at another height, bark off, a stem that was another one.
    odd_spread
        How far those scatter.
    before_cm
        Dbh of each stem on the last visit: of the stem that it is there, or where it has no place, of its number; NaN
        where it was measured at another height.
    moved
        Stems measured at another height than on the last visit: what they changed by is no growth.
    cleared, peak
        By stem: its dbh agrees with the visit before the last one, though not with the last; and the dbh between two
        such visits. Nothing grows to and fro: a peak is no odd growth.
    """

    usual: float
    spread: float
    odd: float
    odd_spread: float
    before_cm: Floats
    moved: Truths
    cleared: Truths
    peak: Truths

    def log_density(self, stem: NDArray[np.integer], grown_cm: Floats) -> Floats:
        """Logarithm of the density of a growth, per centimetre; a growth that is not known tells nothing."""
        off = grown_cm - self.usual
        odd = np.where(self.peak[stem], _PEAK, self.odd)
        total = np.full(np.shape(grown_cm), 1e-12)
        for share, sd in (
            (1.0 - odd, self.spread),
            (0.5 * odd, self.odd_spread),
            (0.5 * odd, _ODD_SPREAD_CM),
        ):
            total = total + share * np.exp(-0.5 * np.minimum((off / sd) ** 2, 200.0)) / (sd * np.sqrt(2.0 * np.pi))
        found: Floats = np.where(np.isfinite(grown_cm) & ~self.moved[stem], np.log(total), np.log(0.05))
        return found


def growth(case: Case) -> Growth:
    """Learn the growth of the survey from the pairs that were found again."""
    both = case.once(revisit)
    usual, spread = both.growth_cm
    matched = np.flatnonzero(both.found.last >= 0)
    off = np.abs(both.here.dbh_cm[matched] - both.there.dbh_cm[both.found.last[matched]] - usual)
    off = off[off <= _SLIP_CM]
    far = off[off > _FAR * spread]
    odd = (max(len(far) - _NORMAL_FAR * len(off), 0.0) + _ODD * _ODD_WORTH) / (len(off) + _ODD_WORTH)
    cleared, peak = _to_and_fro(case, usual, _FAR * spread)
    moved = _moved(case)
    before = _before(case, moved)
    if case.whole is not None:
        return replace(case.whole.once(growth), before_cm=before, moved=moved, cleared=cleared, peak=peak)
    odd_spread = float(np.median(far)) if len(far) >= _ENOUGH else _ODD_SPREAD_CM
    return Growth(usual, spread, odd, odd_spread, before, moved, cleared, peak)


def _moved(case: Case) -> Truths:
    last, height = case.once(same_number), case.survey.stems.numbers("measurement_height_m")
    moved: Truths = (last >= 0) & (np.abs(height - height[last]) > _SAME_PLACE * height[last])
    return moved


def _before(case: Case, moved: Truths) -> Floats:
    both, dbh = case.once(revisit), case.measured.dbh_cm
    last = np.where(case.once(typed).doubted, -1, case.once(same_number))
    matched = np.flatnonzero(both.found.last >= 0)
    last[both.this[matched]] = both.last[both.found.last[matched]]
    return np.where((last >= 0) & ~moved, dbh[last], np.nan)


def _to_and_fro(case: Case, usual: float, room: float) -> tuple[Truths, Truths]:
    """Stems whose dbh agrees with the visit before the last but not with the last, and those of that last visit."""
    last, dbh = case.once(same_number), case.measured.dbh_cm
    before = np.where(last >= 0, last[last], -1)
    apart = np.abs(dbh - dbh[last] - usual) > room
    cleared = (before >= 0) & apart & (np.abs(dbh - dbh[before] - 2.0 * usual) <= np.sqrt(2.0) * room)
    peak = np.zeros(len(dbh), bool)
    peak[last[cleared]] = True
    return cleared, peak
