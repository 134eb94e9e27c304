"""Plots whose maps lie on the last visit's only when all their azimuths or distances are read otherwise."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stemmap.core.bearings import to_degrees
from stemmap.core.locate import offsets
from stemmap.core.revisit import (
    Map,
    RigidFit,
    matches,
    placed,
    rigid_fit,
    search_shift,
    search_turn,
    worth_of_pairs,
)
from stemmap.survey.registry import Case
from stemmap.survey.sight import AT_CENTRE, station_rows

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]


@dataclass(frozen=True)
class Reading:
    """One way to read all records of a plot.

    Parameters
    ----------
    azimuth_factor
        Azimuths are multiplied by this; -1: counted the other way round.
    distance_factors
        Distances are multiplied by one of these.
    radii_added
        So many radii of the stem are added to distances.
    turns_deg
        The map is turned by one of these before it is fitted.
    prior
        How often a plot that does not lie on its last visit is meant so.
    """

    azimuth_factor: float = 1.0
    distance_factors: tuple[float, ...] = (1.0,)
    radii_added: float = 0.0
    turns_deg: tuple[float, ...] = (0.0,)
    prior: float = 1e-3


READINGS: Final = (
    Reading(prior=1.0),
    Reading(azimuth_factor=0.9),
    Reading(azimuth_factor=1.0 / 0.9),
    Reading(azimuth_factor=-1.0),
    Reading(distance_factors=(0.3048,)),
    Reading(distance_factors=(1.0 / 0.3048,)),
    Reading(distance_factors=tuple(np.exp(np.arange(-0.24, 0.241, 0.02)).tolist()), prior=1e-4),
    Reading(radii_added=1.0),
    Reading(radii_added=-1.0),
    Reading(turns_deg=(180.0,)),
    Reading(turns_deg=tuple(np.arange(42.0, 319.0, 1.5).tolist()), prior=1e-5),
)
AS_RECORDED, TIMES_0_9, BY_0_9, MIRRORED, FEET, METRES, SCALED = range(7)
TO_FACE, TO_AXIS, HALF_TURN, ANY_TURN = range(7, len(READINGS))
#: A factor of distances that is closer to 1 than this is no other way to read them.
LEAST_FACTOR: Final = 0.015
#: From this probability on a reading is told, when it finds so many stems again, and this share of the fewer ones.
_TOLD, _ENOUGH, _SHARE = 0.95, 5, 0.5
#: Readings that are quickly tried; one that finds this share of the stems again needs no other to be tried.
_QUICK: Final = (TIMES_0_9, BY_0_9, MIRRORED, FEET, METRES, HALF_TURN)
_CLEARLY: Final = 0.8
#: Readings that leave stems about where they are; where so large a share lies well as recorded, no other can be meant.
_NEARBY: Final = (SCALED, TO_FACE, TO_AXIS)
_LIES_THERE: Final = 0.7
_FILLED: Final = ("reading", "distance_factor", "pairs", "gain", "chance")


@dataclass(frozen=True)
class Otherwise:
    """The likeliest reading of each plot; arrays of shape (plots,).

    Parameters
    ----------
    reading
        Place in `READINGS`; 0 where nothing speaks against the records, or nothing explains them.
    distance_factor
        What distances are multiplied by in that reading.
    fit
        How the map lies on the last visit's when it is read so.
    pairs
        Stems found again.
    gain
        By how much the reading is likelier than the records as they are, in logarithms.
    chance
        Probability of the reading.
    """

    reading: NDArray[np.int8]
    distance_factor: Floats
    fit: RigidFit
    pairs: Integers
    gain: Floats
    chance: Floats

    @property
    def only_turned(self) -> NDArray[np.bool_]:
        """Whether the map is only turned, by more than is searched for elsewhere."""
        return self.reading >= HALF_TURN

    @property
    def misread(self) -> NDArray[np.bool_]:
        """Whether azimuths or distances are meant otherwise, so that single stems cannot be compared."""
        return (self.reading > AS_RECORDED) & ~self.only_turned


@dataclass(frozen=True)
class _Plots:
    """Doubtful plots: their places among all, rows of this visit's stems, both maps, stems of the smaller one."""

    case: Case
    places: Integers
    rows: Integers
    here: Map
    last: Map
    fewer: Integers
    growth: tuple[float, float]
    wider: float

    @classmethod
    def of(
        cls,
        case: Case,
        this: Integers,
        maps: tuple[Map, Map],
        doubtful: NDArray[np.bool_],
        *,
        growth: tuple[float, float],
        wider: float,
    ) -> _Plots:
        """The doubtful ones among all plots."""
        place = np.cumsum(doubtful) - 1
        rows = [np.flatnonzero(doubtful[some.plot]) for some in maps]
        here, last = (
            replace(some.take(taken), plot=place[some.plot[taken]]) for some, taken in zip(maps, rows, strict=True)
        )
        places = np.flatnonzero(doubtful)
        fewer = np.minimum(*(np.bincount(some.plot, minlength=len(places)) for some in (here, last)))
        return cls(case, places, this[rows[0]], here, last, fewer, growth, wider)

    @property
    def count(self) -> int:
        """Number of plots."""
        return len(self.places)

    @property
    def plot(self) -> Integers:
        """Plot of each stem of this visit."""
        return self.here.plot

    def read(self, reading: Reading, factor: Floats) -> Map:
        """Their map in another reading, errors as wide as the survey has them."""
        added = reading.radii_added
        made = read_map(
            self.case,
            self.rows,
            self.plot,
            azimuth_factor=reading.azimuth_factor,
            distance_factor=factor,
            radii_added=added,
        )
        return _widened(made, self.wider)

    def fitted(self, here: Map, begin: RigidFit, *, rounds: int = 3) -> tuple[RigidFit, Floats, Integers]:
        """The fit that follows from a first one, how likely it is, and how many stems it finds again."""
        tried = begin
        for _ in range(rounds):
            found = matches(placed(here, tried), self.last, growth_cm=self.growth)
            pair = np.flatnonzero(found.last >= 0)
            tried = rigid_fit(here.take(pair), self.last.take(found.last[pair]), self.count)
        laid = placed(here, tried)
        found = matches(laid, self.last, growth_cm=self.growth)
        pairs = np.bincount(self.plot, found.last >= 0, minlength=self.count).astype(np.int64)
        return tried, worth_of_pairs(laid, self.last, found, self.count, growth_cm=self.growth), pairs


def read_otherwise(
    case: Case,
    this: Integers,
    maps: tuple[Map, Map],
    fit: RigidFit,
    *,
    doubtful: NDArray[np.bool_],
    growth: tuple[float, float],
    wider: float,
) -> Otherwise:
    """Try all readings on the doubtful plots.

    Parameters
    ----------
    this
        Rows of this visit's stems.
    maps, fit
        This visit's map as recorded and the last one's, and how they lie on one another.
    wider
        By which factor errors are larger than the settings say.
    """
    maps = _widened(maps[0], wider), _widened(maps[1], wider)
    plots = len(fit.pairs)
    told = Otherwise(np.zeros(plots, np.int8), np.ones(plots), fit, fit.pairs, np.zeros(plots), np.zeros(plots))
    fewer = np.minimum(*(np.bincount(some.plot, minlength=plots) for some in maps))
    lies_there = fit.pairs >= _LIES_THERE * fewer
    for numbers, share, asked in (
        (_NEARBY, _SHARE, lies_there),
        (_QUICK, _CLEARLY, ~lies_there),
        (tuple(range(1, len(READINGS))), _SHARE, ~lies_there),
    ):
        some = doubtful & asked & (told.reading == AS_RECORDED)
        if some.any():
            those = _Plots.of(case, this, maps, some, growth=growth, wider=wider)
            told = _weighed(those, told, numbers, share)
    return told


def _weighed(those: _Plots, so_far: Otherwise, numbers: tuple[int, ...], least_share: float) -> Otherwise:
    """The likeliest of some readings, or as recorded, filled in for the doubtful plots."""
    some = those.places
    recorded = RigidFit(*(getattr(so_far.fit, each.name)[some] for each in fields(RigidFit)))
    tried = [(np.ones(len(some)), *those.fitted(those.here, recorded, rounds=0))]
    tried += [_tried(those, READINGS[number]) for number in numbers]
    factor, score, pairs = (np.array([each[place] for each in tried]) for place in (0, 2, 3))
    gain = score - score[0]
    weight = gain + np.log([[READINGS[number].prior] for number in (AS_RECORDED, *numbers)])
    weight[1:][(pairs[1:] < _ENOUGH) | (pairs[1:] < least_share * those.fewer)] = -np.inf
    weight[(np.array((AS_RECORDED, *numbers)) == SCALED)[:, None] & (np.abs(factor - 1.0) < LEAST_FACTOR)] = -np.inf
    share = np.exp(weight - weight.max(axis=0))
    share /= share.sum(axis=0)
    best = np.where(share.max(axis=0) >= _TOLD, share.argmax(axis=0), AS_RECORDED)
    column = np.arange(len(some))
    parts = {}
    for each in fields(RigidFit):
        parts[each.name] = getattr(so_far.fit, each.name).copy()
        parts[each.name][some] = np.stack([getattr(one[1], each.name) for one in tried])[best, column]
    made = replace(so_far, fit=RigidFit(**parts), **{name: getattr(so_far, name).copy() for name in _FILLED})
    made.reading[some] = np.array((AS_RECORDED, *numbers))[best]
    made.distance_factor[some] = factor[best, column]
    made.pairs[some], made.gain[some] = pairs[best, column], gain[best, column]
    made.chance[some] = share[best, column]
    return made


def _tried(those: _Plots, reading: Reading) -> tuple[Floats, RigidFit, Floats, Integers]:
    """Factor of the distances, fit, likelihood and pairs of one reading."""
    factor = np.full(those.count, reading.distance_factors[0])
    if len(reading.distance_factors) > 1:
        factor = _factor(those, reading)
    here = those.read(reading, factor)
    nothing = np.zeros(those.count)
    begin = RigidFit(nothing, nothing, nothing, np.full((those.count, 3, 3), np.inf), np.zeros(those.count, np.int64))
    if reading.turns_deg != (0.0,):
        turns = np.array(reading.turns_deg)
        turned = search_turn(here, those.last, those.count, growth_cm=those.growth, turns_deg=turns)
        fit, score, pairs = those.fitted(placed(here, turned), begin)
        whole = (fit.rotation_deg + turned.rotation_deg + 180.0) % 360.0 - 180.0
        return factor, replace(fit, rotation_deg=whole), score, pairs
    still = those.fitted(here, begin)
    moved = those.fitted(here, search_shift(here, those.last, those.count, growth_cm=those.growth))
    better = moved[1] > still[1] + 2.0
    fit = RigidFit(
        **{
            each.name: np.where(
                better.reshape(-1, *[1] * (getattr(still[0], each.name).ndim - 1)),
                getattr(moved[0], each.name),
                getattr(still[0], each.name),
            )
            for each in fields(RigidFit)
        }
    )
    return factor, fit, np.where(better, moved[1], still[1]), np.where(better, moved[2], still[2])


def _factor(those: _Plots, reading: Reading) -> Floats:
    """The factor of the distances that finds most stems again, made exact by the pairs it finds."""
    count = len(reading.distance_factors)
    score = np.zeros((count, those.count))
    for number, each in enumerate(reading.distance_factors):
        here = those.read(reading, np.full(those.count, each))
        found = matches(here, those.last, growth_cm=those.growth)
        score[number] = worth_of_pairs(here, those.last, found, those.count, growth_cm=those.growth)
    factor: Floats = np.array(reading.distance_factors)[score.argmax(axis=0)]
    for _ in range(3):
        here = those.read(reading, factor)
        found = matches(here, those.last, growth_cm=those.growth)
        pair = np.flatnonzero(found.last >= 0)
        far, then = (np.hypot(some.x_m, some.y_m) for some in (here.take(pair), those.last.take(found.last[pair])))
        plot = those.plot[pair]
        squares = np.bincount(plot, far**2, minlength=those.count)
        both = np.bincount(plot, far * then, minlength=those.count)
        factor *= np.divide(both, squares, out=np.ones(those.count), where=squares > 0.0)
    return factor


def north_of_plots(case: Case) -> Floats:
    """Grid azimuth of the north that azimuths were counted from, by visit; 0 where no stem tells; shape (visits,)."""
    stems, unit = case.survey.stems, case.survey.settings.measurement.azimuth_unit
    turn = case.measured.grid_azimuth_deg - to_degrees(stems.numbers("azimuth"), unit)
    rows = np.flatnonzero(np.isfinite(turn) & (station_rows(case.survey) == AT_CENTRE))
    visit, first = np.unique(stems.visit_row[rows], return_index=True)
    north = np.zeros(len(case.survey.visits))
    north[visit] = (turn[rows[first]] + 180.0) % 360.0 - 180.0
    return north


def _widened(some: Map, wider: float) -> Map:
    return replace(
        some,
        var_east=some.var_east * wider**2,
        var_north=some.var_north * wider**2,
        cov_east_north=some.cov_east_north * wider**2,
    )


def read_map(
    case: Case,
    rows: Integers,
    plot: Integers,
    *,
    azimuth_factor: float,
    distance_factor: Floats,
    radii_added: float,
) -> Map:
    """Stems where they stand when all records of their plots are read so; those measured from stations nowhere.

    Parameters
    ----------
    distance_factor
        By plot.
    """
    survey, measured, factor = case.survey, case.measured, distance_factor[plot]
    typed = to_degrees(survey.stems.numbers("azimuth")[rows], survey.settings.measurement.azimuth_unit)
    azimuth = typed * azimuth_factor
    good = (np.abs(azimuth) <= 360.0) & (typed >= 0.0) & (station_rows(survey)[rows] == AT_CENTRE)
    azimuth = np.where(good, azimuth, np.nan) + case.once(north_of_plots)[survey.stems.visit_row[rows]]
    distance = measured.horizontal_distance_m[rows] * factor
    if radii_added:
        distance = distance + radii_added * measured.dbh_cm[rows] / 200.0
    x, y = offsets(azimuth, distance)
    along = (measured.errors.radial_sd_m[rows] * factor) ** 2
    across = (measured.errors.tangential_sd_m[rows] * factor) ** 2
    east, north = offsets(azimuth, 1.0)
    return Map(
        x,
        y,
        along * east**2 + across * north**2,
        along * north**2 + across * east**2,
        (along - across) * east * north,
        measured.dbh_cm[rows],
        plot,
    )
