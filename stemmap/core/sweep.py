"""The order in which stems were numbered: how much it tells of an azimuth, learnt plot by plot."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stemmap.core.blocks import side_by_side
from stemmap.core.sweep_chain import STEP_DEG, STEPS, Choices, along, batches, chosen_steps, followed, likely_steps

__all__ = ["Sweep", "order_of_numbers", "steadiness"]

Floats = NDArray[np.float64]

#: Chance of a plot numbered in no order before its azimuths are seen.
_NO_ORDER: Final = 0.3
#: Plots that this is worth.
_PLOTS_WORTH: Final = 5.0
#: Stems without which a plot has no order.
_FEWEST: Final = 4
#: Below this a mean density is no longer exact in single precision.
_FAINT: Final = 1e-30
#: Multiples of the first guess at the standard deviation that are tried, on how many plots, and on how many at least.
_STEADY: Final = np.array([0.9, 1.15, 1.5, 1.9, 2.5])
_SAMPLE: Final = 128
_SAMPLE_FEWEST: Final = 20
#: Nodes and weights that smear a density by a normal error (Gauss-Hermite, five nodes).
_NODES: Final = np.array([-2.856970, -1.355626, 0.0, 1.355626, 2.856970])
_WEIGHTS: Final = np.array([0.011257, 0.222076, 0.533333, 0.222076, 0.011257])


@dataclass(frozen=True)
class Sweep:
    """What the order of numbers tells.

    Parameters
    ----------
    clockwise
        Whether the numbers run clockwise rather than counter-clockwise, by plot; means nothing where nothing is told.
    start_deg
        Azimuth at which the numbers begin, by plot.
    tells
        Probability that the plot was numbered in order, by plot; shape (plots,).
    density
        For each wanted stem the density of its true azimuth given those of all others, relative to a uniform one,
        at steps of the sweep; shape (wanted, steps).
    row, plot
        Place of each stem among the wanted (-1: not wanted) and its plot; shape (stems,).
    sd_deg
        Standard deviation of an azimuth about the order.
    """

    clockwise: NDArray[np.bool_]
    start_deg: Floats
    tells: Floats
    density: NDArray[np.float32]
    row: NDArray[np.int64]
    plot: NDArray[np.int64]
    sd_deg: float

    def relative_density(self, stem: NDArray[np.integer], azimuth_deg: Floats) -> Floats:
        """Density of azimuths for given stems, if their plot was numbered in order, relative to a uniform one.

        Parameters
        ----------
        stem
            Stems, all of them wanted; shape (n,).
        azimuth_deg
            Azimuths they may have; 1 where NaN; shape (n,).
        """
        plot = self.plot[stem]
        turned = along(azimuth_deg, self.start_deg[plot], self.clockwise[plot])
        row = self.row[stem]
        # Between two steps a density is a straight line, which spreads it already.
        smear = math.sqrt(max(self.sd_deg**2 - STEP_DEG**2 / 6.0, 0.0))
        total = np.zeros(len(stem))
        known = np.isfinite(turned)
        for node, weight in zip(_NODES, _WEIGHTS, strict=True):
            place = (np.where(known, turned, 0.0) + node * smear) / STEP_DEG - 0.5
            below = np.floor(place)
            share = place - below
            left = below.astype(np.int64) % STEPS
            total += weight * ((1.0 - share) * self.density[row, left] + share * self.density[row, (left + 1) % STEPS])
        return np.where(known, total, 1.0)

    def along(self, stem: NDArray[np.integer], azimuth_deg: Floats) -> Floats:
        """Degrees from where the numbers of the stem's plot begin, in their direction."""
        plot = self.plot[stem]
        return along(azimuth_deg, self.start_deg[plot], self.clockwise[plot])


def order_of_numbers(
    azimuth_deg: Floats,
    first: NDArray[np.integer],
    *,
    sd_deg: float,
    wanted: NDArray[np.bool_] | None = None,
    choices: Choices | None = None,
) -> Sweep:
    """Learn from the azimuths of each plot, in the order of their numbers, how far that order tells of them.

    A hidden sweep runs round the circle once, may seldom begin anew, and each stem was seen where the sweep stood,
    or, seldom, anywhere. Its place at each stem follows from all stems before and all after it (the forward and
    backward sums of a hidden Markov chain), so that several wrong azimuths do not mislead one another.

    Parameters
    ----------
    azimuth_deg
        Azimuths in the order of numbers, plot after plot; NaN where unknown; shape (stems,).
    first
        Stems of plot i are rows first[i] to first[i + 1]; shape (plots + 1,).
    sd_deg
        Standard deviation of an azimuth about the order: of measuring, of rounding, and of what the crew takes for
        the next stem.
    wanted
        Stems whose densities are kept; None: all. Plots without any are not looked at.
    choices
        For stems in doubt what they may have been; for all others the azimuth as given, or, seldom, anything.
    """
    begin = first.astype(np.int64)
    count = np.diff(begin)
    plot = np.repeat(np.arange(len(count)), count)
    wanted = np.ones(len(plot), bool) if wanted is None else wanted
    row = np.where(wanted, np.cumsum(wanted) - 1, -1)
    asked = (np.bincount(plot, wanted, minlength=len(count)) > 0) & (count >= _FEWEST)
    density = np.ones((int(wanted.sum()), STEPS), np.float32)
    if not asked.any():
        nothing = np.zeros(len(count))
        return Sweep(np.ones(len(count), bool), nothing, nothing, density, row, plot, sd_deg)
    start, clockwise = _starts(np.where(asked[plot], azimuth_deg, np.nan), plot, len(count))
    start, clockwise = _best_starts(azimuth_deg, begin, start, clockwise, asked=asked, sd_deg=sd_deg, choices=choices)
    turned = along(azimuth_deg, start[plot], clockwise[plot])
    special, likely = chosen_steps(choices, turned, start, clockwise, plot=plot, sd_deg=sd_deg)
    evidence = np.zeros(len(count))

    def follow(batch: tuple[NDArray[np.int64], NDArray[np.int64]]) -> None:
        chosen, stem = batch
        before, after, evidence[chosen] = followed(likely_steps(stem, turned, special, likely, sd_deg), count[chosen])
        inside = wanted[stem] & (stem >= 0)
        both = before[inside] * after[inside]
        mean = both.mean(axis=1, keepdims=True)
        # Stems in no order leave one another so little room that single precision holds none of it.
        faint = mean[:, 0] < _FAINT
        if faint.any():
            both[faint] = _shared(before[inside][faint], after[inside][faint])
            mean[faint] = 1.0
        density[row[stem[inside]]] = both / mean

    side_by_side(follow, list(batches(begin, asked)))
    tells = np.zeros(len(count))
    tells[asked] = _tells(evidence[asked], start[asked], clockwise[asked])
    return Sweep(clockwise, start, tells, density, row, plot, sd_deg)


def _shared(before: NDArray[np.float32], after: NDArray[np.float32]) -> NDArray[np.float64]:
    """Product of two densities with mean 1, in double precision; 1 where they have nothing in common."""
    both = before.astype(np.float64) * after
    mean = both.mean(axis=1, keepdims=True)
    shared: NDArray[np.float64] = np.divide(both, mean, out=np.ones_like(both), where=mean > 0.0)
    return shared


def steadiness(azimuth_deg: Floats, first: NDArray[np.integer], *, sd_deg: float) -> float:
    """Standard deviation of azimuths about the order of numbers, as some of the plots speak for it.

    The one of a few multiples of a first guess under which the plots as a whole are likeliest (maximum likelihood).

    Parameters
    ----------
    azimuth_deg, first
        As for `order_of_numbers`.
    sd_deg
        The guess; returned where too few plots tell.
    """
    begin = first.astype(np.int64)
    count = np.diff(begin)
    able = np.flatnonzero(count >= 2 * _FEWEST)
    if len(able) < _SAMPLE_FEWEST:
        return sd_deg
    asked = np.zeros(len(count), bool)
    asked[able[:: max(1, len(able) // _SAMPLE)]] = True
    plot = np.repeat(np.arange(len(count)), count)
    start, clockwise = _starts(azimuth_deg, plot, len(count))
    turned = along(azimuth_deg, start[plot], clockwise[plot])
    none = np.full(len(turned), -1, np.int64)
    total = np.zeros(len(_STEADY))
    for number, factor in enumerate(_STEADY):
        for chosen, stem in batches(begin, asked):
            seen = likely_steps(stem, turned, none, np.zeros((0, STEPS), np.float32), factor * sd_deg)
            odds = followed(seen, count[chosen], back=False)[2] - math.log(2.0 * STEPS)
            # Plots without an order do not tell how well one is kept.
            total[number] += np.logaddexp(odds, 0.0).sum()
    return float(_STEADY[total.argmax()]) * sd_deg


def _best_starts(
    azimuth_deg: Floats,
    first: NDArray[np.int64],
    start: Floats,
    clockwise: NDArray[np.bool_],
    *,
    asked: NDArray[np.bool_],
    sd_deg: float,
    choices: Choices | None,
) -> tuple[Floats, NDArray[np.bool_]]:
    """The likeliest start of each plot: as found, at its first stem, after its last, between them, or the usual one.

    Where one of the first or last azimuths is wrong, the start found from all may lie beyond a stem that is right.
    """
    count = np.diff(first)
    plot = np.repeat(np.arange(len(count)), count)
    turned = along(azimuth_deg, start[plot], clockwise[plot])
    some = np.flatnonzero(asked)
    if not len(some):
        return start, clockwise
    begins, ends = first[some], first[some + 1] - 1
    most = np.full(len(count), -np.inf)
    known = np.flatnonzero(np.isfinite(turned))
    np.maximum.at(most, plot[known], turned[known])
    least = np.full(len(count), np.inf)
    np.minimum.at(least, plot[known], turned[known])
    near = 3.0 * sd_deg
    odd = ~(turned[begins] <= least[some] + near) | ~(turned[ends] >= most[some] - near)
    some, begins, ends = some[odd], begins[odd], ends[odd]
    if not len(some):
        return start, clockwise
    sense = np.where(clockwise[some], 1.0, -1.0)
    usual, usually, turning = _usual_start(start[asked], clockwise[asked])
    between = azimuth_deg[ends] + 0.5 * ((azimuth_deg[begins] - azimuth_deg[ends] + 180.0) % 360.0 - 180.0)
    options = [
        (start[some], clockwise[some]),
        (azimuth_deg[begins] - sense * near, clockwise[some]),
        (azimuth_deg[ends] + sense * near, clockwise[some]),
        (between, clockwise[some]),
    ]
    if usually:
        options.append((np.full(len(some), usual), np.full(len(some), turning)))
    best = np.full(len(count), -np.inf)
    found, way = start.copy(), clockwise.copy()
    again = np.zeros(len(count), bool)
    again[some] = True
    choices = None if choices is None else choices.take(again[plot[choices.stem]])
    for number, (option, sense_of) in enumerate(options):
        tried, turns = start.copy(), clockwise.copy()
        tried[some] = np.where(np.isfinite(option), option, start[some]) % 360.0
        turns[some] = sense_of
        turned = along(azimuth_deg, tried[plot], turns[plot])
        special, likely = chosen_steps(choices, turned, tried, turns, plot=plot, sd_deg=sd_deg)
        for chosen, stem in batches(first, again):
            log_evidence = followed(likely_steps(stem, turned, special, likely, sd_deg), count[chosen], back=False)[2]
            log_evidence = log_evidence - 0.5 * (number > 0)
            better = chosen[log_evidence > best[chosen]]
            found[better], way[better] = tried[better], turns[better]
            best[chosen] = np.maximum(best[chosen], log_evidence)
    return found, way


def _usual_start(start_deg: Floats, clockwise: NDArray[np.bool_]) -> tuple[float, bool, bool]:
    """Where most plots begin, whether they do, and whether they run clockwise."""
    turning = bool(clockwise.mean() > 0.5)
    angle = np.radians(start_deg[clockwise == turning])
    mean = complex(np.exp(1j * angle).sum()) / max(len(start_deg), 1)
    return float(np.degrees(np.angle(mean))) % 360.0, abs(mean) > 0.5 and len(start_deg) >= _SAMPLE_FEWEST, turning


def _tells(evidence: Floats, start_deg: Floats, clockwise: NDArray[np.bool_]) -> Floats:
    """Probability that each plot is in order, when it is as usual for these plots as they are themselves.

    An order is one of two directions and begins anywhere; how often plots are in order, and which way and from where
    they mostly run, is learnt from all of them (expectation and maximisation).
    """
    sectors = 12
    kind = (start_deg / (360.0 / sectors)).astype(np.int64) % sectors + sectors * clockwise
    share, no_order = np.full(2 * sectors, 0.5 / sectors), _NO_ORDER
    tells = np.zeros(len(evidence))
    for _ in range(5):
        odds = evidence - math.log(STEPS / sectors) + np.log(share[kind]) + math.log((1.0 - no_order) / no_order)
        tells = 1.0 / (1.0 + np.exp(-np.clip(odds, -50.0, 50.0)))
        share = np.bincount(kind, tells, minlength=2 * sectors) + 0.5
        share /= share.sum()
        no_order = (_NO_ORDER * _PLOTS_WORTH + float((1.0 - tells).sum())) / (_PLOTS_WORTH + len(tells))
    return tells


def _starts(azimuth_deg: Floats, plot: NDArray[np.int64], plots: int) -> tuple[Floats, NDArray[np.bool_]]:
    """Where each plot's numbers begin, and whether they run clockwise.

    The start is where number and azimuth, counted from there, go together best. With w the place in the order less
    its mean, the sum of w times azimuth grows by 360 times the w of every azimuth that the start passes; it is held
    against the sum that the same azimuths would reach in perfect order.
    """
    known = np.flatnonzero(np.isfinite(azimuth_deg))
    of_plot, angle = plot[known], azimuth_deg[known]
    count = np.bincount(of_plot, minlength=plots)
    begin = np.append(0, np.cumsum(count))
    first, size = begin[of_plot], count[of_plot]
    place = np.arange(len(known)) - first
    weight = (place - (size - 1) / 2.0).astype(float)

    def passed(values: Floats) -> Floats:
        """Sum over those of the plot that come before."""
        total = np.append(0.0, np.cumsum(values))
        before: Floats = total[:-1] - total[first]
        return before

    def whole(values: Floats) -> Floats:
        summed: Floats = np.bincount(of_plot, values, minlength=plots).astype(float)[of_plot]
        return summed

    best = np.full((2, plots), -np.inf)
    start = np.zeros((2, plots))
    for turn, sense in enumerate((1.0, -1.0)):
        seen = (sense * angle) % 360.0
        order = np.lexsort((seen, of_plot))
        sorted_seen, sorted_weight = seen[order], weight[order]
        reached = whole(weight * seen) + 360.0 * passed(sorted_weight)
        lower = passed(sorted_seen)
        perfect = whole(weight * sorted_seen) - place * (whole(seen) - lower) + (size - place) * lower
        perfect += 360.0 * (passed(weight) + (size - place) * place)
        agreement = reached / np.maximum(perfect, 1e-6)
        ranked = np.lexsort((-agreement, of_plot))
        group, top = np.unique(of_plot[ranked], return_index=True)
        chosen = ranked[top]
        previous = np.where(chosen > first[chosen], chosen - 1, first[chosen] + size[chosen] - 1)
        gap = (sorted_seen[chosen] - sorted_seen[previous]) % 360.0
        gap = np.where(size[chosen] == 1, 360.0, gap)
        # Half way into the gap, but no further from the first stem than a sweep would begin before it.
        start[turn, group] = sense * (sorted_seen[chosen] - np.minimum(gap / 2.0, 20.0))
        best[turn, group] = agreement[chosen]
    clockwise = best[0] >= best[1]
    return np.where(clockwise, start[0], start[1]) % 360.0, clockwise
