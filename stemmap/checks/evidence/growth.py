"""How the diameters of this survey grow: what is usual, and how often they do otherwise."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.last_visit import revisit
from stemmap.checks.evidence.numbers import same_number
from stemmap.checks.evidence.typed import typed
from stemmap.core.growth import Limits, limits
from stemmap.survey.registry import Case

Truths = NDArray[np.bool_]
Floats = NDArray[np.float64]
Integers = NDArray[np.int64]

#: Share of right pairs that grew in each of two odd ways before the survey has told, the pairs that is worth, how far
#: the odder ones scatter, centimetres, and the rounds in which it is learnt.
_ODD, _ODD_WORTH, _ODD_SPREAD_CM, _ROUNDS = 0.001, 400.0, 8.0, 10
#: Density of a change that a slip made, per centimetre: anything between the thinnest and a thick stem.
_ANYWHERE = 1.0 / 60.0
#: The share for a dbh that the visits before and after agree against.
_PEAK = 1e-4
#: Growth further than so many spreads from the usual is odd.
_FAR = 3.0
#: What lies further off than this, centimetres, was mistyped and tells nothing of growth.
_SLIP_CM = 20.0
#: Two measuring heights that differ by this share are two places on the stem.
_SAME_PLACE = 0.05
#: Odd pairs that tell how far they scatter, and pairs that tell how stems grow.
_ENOUGH = 20
#: No two visits tell a growth more closely than this, centimetres.
_LEAST_SPREAD_CM = 0.3


@dataclass(frozen=True)
class Growth:
    """Growth of dbh between two visits, centimetres.

    Parameters
    ----------
    limits
        Usual growth a year, or between two visits where they have no dates, by species and size on the earlier visit.
    species, years
        Species of each stem of the survey; years from the visit before, by visit.
    odd, odder
        Shares of right pairs that grew otherwise: measured at another height, bark off, a stem that was another one.
    odd_spread
        How far the odd ones scatter; the odder ones do so by 8 cm.
    before
        For each stem its row on the last visit: of the stem that it is there, or where it has no place, of its number;
        -1 for none.
    before_cm
        Its dbh then; NaN where it was measured at another height.
    moved
        Stems measured at another height than on the last visit: what they changed by is no growth.
    cleared, peak
        By stem: its dbh agrees with the visit before the last one, though not with the last; and the dbh between two
        such visits. Nothing grows to and fro: a peak is no odd growth.
    """

    limits: Limits
    species: Integers
    years: Floats
    odd: float
    odder: float
    odd_spread: float
    before: Integers
    before_cm: Floats
    moved: Truths
    cleared: Truths
    peak: Truths

    def off(self, case: Case, stem: Integers, before: Integers, grown_cm: Floats) -> tuple[Floats, Floats]:
        """By how much growth passes the usual one of stems, and the spread on that side.

        Parameters
        ----------
        stem, before
            Rows on this visit and on the one before, shape (n,); -1 for a stem that is not known then.
        grown_cm
            Shape (n,).
        """
        years = self.years[case.survey.stems.visit_row[stem]]
        told = self.limits.of(self.species[before], case.measured.dbh_cm[before])
        off = grown_cm - told.middle * years
        spread = np.where(off < 0.0, told.below, told.above) * years
        return off, np.maximum(spread, _LEAST_SPREAD_CM)

    def log_density(self, case: Case, stem: Integers, before: Integers, grown_cm: Floats) -> Floats:
        """Logarithm of the density of a growth, per centimetre; a growth that is not known tells nothing.

        Parameters as in `off`.
        """
        off, spread = self.off(case, stem, before, grown_cm)
        few = np.where(self.peak[stem], _PEAK / (self.odd + self.odder), 1.0)
        odd, odder = few * self.odd, few * self.odder
        total = (1.0 - odd - odder) * _normal(off, spread) + 1e-12
        total += odd * _normal(off, self.odd_spread) + odder * _normal(off, _ODD_SPREAD_CM)
        found: Floats = np.where(np.isfinite(grown_cm) & ~self.moved[stem], np.log(total), np.log(0.05))
        return found


def growth(case: Case) -> Growth:
    """Learn the growth of the survey from the stems that are known on the visit before."""
    both, survey = case.once(revisit), case.survey
    column = survey.stems.records.columns.get("species")
    species = np.full(len(survey.stems), -1, np.int64) if column is None else column.alike()
    years = _years(case)
    moved = _moved(case)
    before = _before(case)
    before_cm = np.where((before >= 0) & ~moved, case.measured.dbh_cm[before], np.nan)
    learnt = case.whole.once(growth) if case.whole is not None else None
    grown = case.measured.dbh_cm - before_cm
    this = np.flatnonzero(np.abs(grown) <= _SLIP_CM)
    last, grown = before[this], grown[this]
    made = Growth(
        _limits(case, last, grown / years[survey.stems.visit_row[this]], species) if learnt is None else learnt.limits,
        species,
        years,
        *((_ODD, _ODD) if learnt is None else (learnt.odd, learnt.odder)),
        _ODD_SPREAD_CM if learnt is None else learnt.odd_spread,
        before,
        before_cm,
        moved,
        *_to_and_fro(case, both.growth_cm[0], _FAR * both.growth_cm[1]),
    )
    if learnt is not None:
        return made
    off, spread = made.off(case, this, last, grown)
    far = np.abs(off[np.abs(off) > _FAR * spread])
    odd_spread = float(np.median(far)) if len(far) >= _ENOUGH else _ODD_SPREAD_CM
    odd, odder = _shares(off, spread, odd_spread)
    return replace(made, odd=odd, odder=odder, odd_spread=odd_spread)


def _shares(off: Floats, spread: Floats, odd_spread: float) -> tuple[float, float]:
    """Shares of odd and odder growth (expectation and maximisation), drawn to what was thought before.

    What was mistyped lies anywhere, and is no growth.
    """
    density = np.stack(
        [*(_normal(off, sd) for sd in (spread, odd_spread, _ODD_SPREAD_CM)), np.full(len(off), _ANYWHERE)]
    )
    thought = np.array([1.0 - 3.0 * _ODD, _ODD, _ODD, _ODD])
    share = thought
    for _ in range(_ROUNDS):
        part = share[:, None] * density
        part /= part.sum(axis=0)
        share = (part.sum(axis=1) + thought * _ODD_WORTH) / (len(off) + _ODD_WORTH)
    return float(share[1]), float(share[2])


def _normal(off: Floats, sd: Floats | float) -> Floats:
    density: Floats = np.exp(-0.5 * np.minimum((off / sd) ** 2, 200.0)) / (sd * np.sqrt(2.0 * np.pi))
    return density


def _limits(case: Case, last: Integers, rate: Floats, species: Integers) -> Limits:
    """Usual growth by what stems are on the last visit."""
    if len(rate) >= _ENOUGH:
        return limits(rate, species[last], case.measured.dbh_cm[last])
    # Of few pairs it is what the fit of the maps took it for.
    both = case.once(revisit)
    between = float(np.median(_years(case)[both.visit])) if len(both.visit) else 1.0
    middle, spread = np.array(both.growth_cm) / between
    return Limits(np.full((1, 2), np.nan), np.full((3, 1, 3), np.nan), np.array([middle, spread, spread]))


def _years(case: Case) -> Floats:
    """Years from the visit before, by visit; 1 where a date is missing."""
    date, previous = case.survey.visits.date, case.survey.visits.previous
    days = (date - date[previous]) / np.timedelta64(1, "D")
    return np.where((previous >= 0) & (days > 0.0), days / 365.25, 1.0)


def _moved(case: Case) -> Truths:
    last, height = case.once(same_number), case.survey.stems.numbers("measurement_height_m")
    moved: Truths = (last >= 0) & (np.abs(height - height[last]) > _SAME_PLACE * height[last])
    return moved


def _before(case: Case) -> Integers:
    """Row of each stem on the last visit, -1 for none."""
    both = case.once(revisit)
    last = np.where(case.once(typed).doubted, -1, case.once(same_number))
    matched = np.flatnonzero(both.found.last >= 0)
    last[both.this[matched]] = both.last[both.found.last[matched]]
    return last


def _to_and_fro(case: Case, usual: float, room: float) -> tuple[Truths, Truths]:
    """Stems whose dbh agrees with the visit before the last but not with the last, and those of that last visit."""
    last, dbh = case.once(same_number), case.measured.dbh_cm
    before = np.where(last >= 0, last[last], -1)
    apart = np.abs(dbh - dbh[last] - usual) > room
    cleared = (before >= 0) & apart & (np.abs(dbh - dbh[before] - 2.0 * usual) <= np.sqrt(2.0) * room)
    peak = np.zeros(len(dbh), bool)
    peak[last[cleared]] = True
    return cleared, peak
