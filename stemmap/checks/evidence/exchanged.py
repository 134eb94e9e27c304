"""What the order of numbers tells of two azimuths exchanged: both records are judged at once."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.meanings import Meanings
from stemmap.checks.evidence.suspects import Suspects
from stemmap.core.sweep import order_of_numbers
from stemmap.core.sweep_chain import Choices
from stemmap.survey.registry import Case

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]


def _copied(choices: Choices | None, row: Integers) -> Choices | None:
    """The choices of stems of which there are several copies; `row` names the stem of each."""
    if choices is None or not len(choices.stem):
        return None
    order = np.argsort(row, kind="stable")
    ordered = row[order]
    first = np.searchsorted(ordered, choices.stem)
    count = np.searchsorted(ordered, choices.stem, side="right") - first
    choice = np.repeat(np.arange(len(count)), count)
    place = np.arange(len(choice)) - np.repeat(np.cumsum(count) - count, count) + np.repeat(first, count)
    return Choices(order[place], choices.azimuth_deg[choice], choices.probability[choice])


def log_gain(case: Case, doubted: Suspects, meant: Meanings, *, astray: float, choices: Choices | None) -> Floats:
    """Logarithm of what exchanging two azimuths back gains in order, for each meaning that is an exchange.

    Two stems out of order may be one stem out of order and its neighbour seen from there. So each of the two is
    held against the order of all stems but the other, and which of the two comes first counts once for both.
    """
    from scipy.special import ndtr

    swap = np.flatnonzero(meant.partner >= 0)
    gain = np.zeros(len(meant.owner))
    own, other = doubted.rows[meant.owner[swap]], doubted.rows[meant.owner[meant.partner[swap]]]
    place, other_place = doubted.place[own], doubted.place[other]
    sweep = doubted.sweep
    ordered = np.flatnonzero((place >= 0) & (other_place >= 0))
    ordered = ordered[sweep.tells[sweep.plot[place[ordered]]] > 0.01]
    if not len(ordered):
        return gain
    swap, own, other = swap[ordered], own[ordered], other[ordered]
    place, other_place = place[ordered], other_place[ordered]
    angle = case.measured.grid_azimuth_deg
    mine, theirs = angle[own], angle[other]

    # One copy of the plot for each stem that is left out.
    stems = np.full(len(sweep.plot), -1, np.int64)
    held = np.flatnonzero(doubted.place >= 0)
    stems[doubted.place[held]] = held
    out, copy = np.unique(other_place, return_inverse=True)
    first = np.searchsorted(sweep.plot, sweep.plot[out])
    count = np.searchsorted(sweep.plot, sweep.plot[out], side="right") - first
    begin = np.append(0, np.cumsum(count))
    row = np.arange(begin[-1]) - np.repeat(begin[:-1], count) + np.repeat(first, count)
    seen = angle[stems[row]]
    seen[begin[:-1] + out - first] = np.nan
    at = begin[copy] + place - first[copy]
    wanted = np.zeros(len(row), bool)
    wanted[at] = True
    without = order_of_numbers(seen, begin, sd_deg=sweep.sd_deg, wanted=wanted, choices=_copied(choices, row))
    tells = without.tells[without.plot[at]]

    def mixed(density: Floats) -> Floats:
        found: Floats = np.log(tells * ((1.0 - astray) * density + astray) + 1.0 - tells)
        return found

    half = mixed(without.relative_density(at, theirs)) - mixed(without.relative_density(at, mine))
    apart = (without.along(at, theirs) - without.along(at, mine)) * np.sign(other_place - place)
    first_comes_first = ndtr(apart / (np.sqrt(2.0) * sweep.sd_deg))
    turn = np.log(astray + 1.0 - first_comes_first) - np.log(astray + first_comes_first)
    gain[swap] = half
    both = gain[swap] + gain[meant.partner[swap]] + tells * turn
    gain[swap] = both
    return gain
