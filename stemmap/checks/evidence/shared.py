"""What the plots of one crew, instrument or day have in common against their last visits."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.distances import ALIKE, SCALED, TO_AXIS, distances
from stemmap.checks.evidence.last_visit import revisit
from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]
Truths = NDArray[np.bool_]

#: How often the plots of a group have something in common, and from which probability on that is told.
_PRIOR, _TOLD = 0.02, 0.95
#: Fewest plots, share of them that must agree, and standard errors within which a plot agrees.
_FEWEST, _AGREE, _WITHIN = 4, 0.9, 3.0
_ROUNDS: Final = 6


@dataclass(frozen=True)
class Grouping:
    """Visits put into groups.

    Parameters
    ----------
    group
        Group of each visit, -1: none; shape (visits,).
    who
        What each group is called.
    """

    group: Integers
    who: tuple[str, ...]


@dataclass(frozen=True)
class Shared:
    """An offset that the plots of a group share.

    Parameters
    ----------
    who
        What the group is called.
    offset, sd
        Mean and its standard error.
    plots, agree
        Plots of the group that were seen before, and those of them that agree.
    chance
        Probability of such an offset.
    """

    who: str
    offset: float
    sd: float
    plots: int
    agree: int
    chance: float


@dataclass(frozen=True)
class InCommon:
    """Turns (degrees) and factors of distances (logarithms) that groups of plots share.

    Parameters
    ----------
    turns, factors
        One for each group that has such an offset.
    turned, scaled
        Whether the turn, the factor of a plot is that of its group; by pair of visits.
    """

    turns: tuple[Shared, ...]
    factors: tuple[Shared, ...]
    turned: Truths
    scaled: Truths


def groupings(case: Case) -> tuple[Grouping, ...]:
    """Visits by name, instrument, crew, and day of a crew, each only where there are several.

    Crews and instruments of different years are different groups: who is compared is this visit's crew.
    """
    return tuple(_groupings(case))


def _groupings(case: Case) -> Iterator[Grouping]:
    visits = case.survey.visits
    year = np.where(np.isnat(visits.date), visits.visit.astype(str), np.datetime_as_string(visits.date, unit="Y"))
    years, of_year = np.unique(year, return_inverse=True)
    day = np.where(np.isnat(visits.date), "", np.datetime_as_string(visits.date, unit="D"))
    days, of_day = np.unique(day, return_inverse=True)
    crews, crew = visits.words("crew")
    instruments, instrument = visits.words("instrument")
    yield Grouping(of_year.astype(np.int64), tuple(f"Visits of {name}" if name else "All visits" for name in years))
    if len(instruments) > 1:
        kinds, group = np.unique(of_year * len(instruments) + instrument, return_inverse=True)
        word = kinds % len(instruments)
        named = tuple(f"Instrument {instruments[place]}" for place in word.tolist())
        yield Grouping(np.where(np.array(instruments)[word][group] == "", -1, group), named)
    if len(crews) > 1:
        kinds, group = np.unique(of_year * len(crews) + crew, return_inverse=True)
        word = kinds % len(crews)
        named = tuple(f"Crew {crews[place]}" for place in word.tolist())
        yield Grouping(np.where(np.array(crews)[word][group] == "", -1, group), named)
    if len(days) > 2:
        kinds, group = np.unique(of_day * len(crews) + crew, return_inverse=True)
        pairs = [(str(days[kind // len(crews)]), crews[kind % len(crews)]) for kind in kinds.tolist()]
        named = tuple(f"Crew {crew} on {day}" if crew else f"Work of {day}" for day, crew in pairs)
        yield Grouping(np.where(days[kinds // len(crews)][group] == "", -1, group), named)


def in_common(case: Case) -> InCommon:
    """Turns and factors of distances that the plots of a group share."""
    both, compared = case.once(revisit), case.once(distances)
    seen = ~both.unlike & np.isfinite(both.free.covariance[:, 0, 0]) & (both.free.pairs >= 5)
    turns, turned = _offsets(
        case, both.free.rotation_deg, both.free.covariance[:, 0, 0], seen, least=0.7, usual=0.25, wide=10.0
    )
    seen = np.isfinite(compared.factor_sd) & (compared.pairs >= 5) & (compared.factor > 0.0)
    seen &= (compared.kind <= TO_AXIS) & ((compared.kind == ALIKE) | (compared.kind == SCALED))
    factor = np.log(np.where(seen, compared.factor, 1.0))
    factors, scaled = _offsets(case, factor, compared.factor_sd**2, seen, least=0.007, usual=0.002, wide=0.05)
    return InCommon(turns, factors, turned, scaled)


def _offsets(
    case: Case, value: Floats, variance: Floats, seen: Truths, *, least: float, usual: float, wide: float
) -> tuple[tuple[Shared, ...], Truths]:
    """Offsets shared by groups, and the pairs of visits that have the offset of their group.

    Parameters
    ----------
    least
        Offset too small to speak of.
    usual, wide
        Standard deviation of offsets that mean nothing, and of those that mean something.
    """
    visit = case.once(revisit).visit
    taken, told = np.zeros(len(value), bool), []
    for each in case.once(groupings):
        group = each.group[visit]
        rows = np.flatnonzero(seen & ~taken & (group >= 0))
        if len(rows) < _FEWEST:
            continue
        count = len(each.who)
        mean, error = _means(value[rows], variance[rows] + (0.5 * usual) ** 2, group[rows], count)
        off = np.abs(value - mean[group])
        agrees = seen & ~taken & (group >= 0) & (off <= np.maximum(_WITHIN * np.sqrt(variance), 3.0 * usual))
        plots, alike = (np.bincount(group[some], minlength=count) for some in (rows, np.flatnonzero(agrees)))
        error = np.minimum(error, wide)
        log_odds = 0.5 * mean**2 * (1.0 / (usual**2 + error**2) - 1.0 / (wide**2 + error**2))
        log_odds += 0.5 * np.log((usual**2 + error**2) / (wide**2 + error**2)) + np.log(_PRIOR / (1.0 - _PRIOR))
        chance = 1.0 / (1.0 + np.exp(-np.clip(log_odds, -500.0, 500.0)))
        shared = (plots >= _FEWEST) & (alike >= _AGREE * plots) & (np.abs(mean) >= least) & (chance >= _TOLD)
        taken |= agrees & shared[group]
        told += [
            Shared(
                each.who[number],
                float(mean[number]),
                float(error[number]),
                int(plots[number]),
                int(alike[number]),
                float(chance[number]),
            )
            for number in np.flatnonzero(shared).tolist()
        ]
    return tuple(told), taken


def _means(value: Floats, variance: Floats, group: Integers, count: int) -> tuple[Floats, Floats]:
    """Robust means by group and their standard errors: from the median on, Student weights."""
    order = np.lexsort((value, group))
    number = np.bincount(group, minlength=count)
    first = np.cumsum(number) - number
    mean = np.zeros(count)
    some = number > 0
    mean[some] = value[order][first[some] + (number[some] - 1) // 2]
    weight = np.zeros(count)
    for _ in range(_ROUNDS):
        share = 4.0 / (3.0 + (value - mean[group]) ** 2 / variance) / variance
        weight = np.bincount(group, share, minlength=count).astype(float)
        total = np.bincount(group, share * value, minlength=count)
        mean = np.divide(total, weight, out=np.zeros(count), where=weight > 0.0)
    return mean, np.sqrt(np.divide(1.0, weight, out=np.full(count, np.inf), where=weight > 0.0))


def about_groups(case: Case, told: Sequence[Shared], message: str, *, field: str, name: str) -> Batch:
    """Findings about groups of plots.

    Parameters
    ----------
    message
        Begins with `{who}`.
    name
        What the offset is called among the evidence.
    """
    who = np.array([each.who for each in told], object)
    return case.about_files(
        len(told),
        message,
        field=field,
        evidence={
            "who": who,
            name: np.array([each.offset for each in told]),
            "size": np.array([abs(each.offset) for each in told]),
            "standard_error": np.array([each.sd for each in told]),
            "plots": np.array([each.plots for each in told]),
            "agree": np.array([each.agree for each in told]),
            "probability": np.array([each.chance for each in told]),
        },
        about=who,
    )
