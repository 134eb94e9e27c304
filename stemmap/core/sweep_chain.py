"""The hidden sweep of a crew round a plot, followed from stem to stem: where it stands before and after each."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

#: Steps of the circle on which the sweep of the crew is followed; finer than a compass is read and steadied.
STEPS: Final = 180
STEP_DEG: Final = 360.0 / STEPS
#: Share of azimuths that tell nothing of their place in the order, mistyped or numbered out of turn.
_ASTRAY: Final = 0.02
#: The same of stems whose choices are given.
_OUT_OF_TURN: Final = 0.003
#: Chance that the crew began a second sweep somewhere in a plot.
_RESTART: Final = 0.1
#: Steps from each step on to each other one.
_ONWARD: Final = (np.arange(STEPS)[:, None] - np.arange(STEPS)) % STEPS
#: Plots followed at once: their arrays stay small.
_AT_ONCE: Final = 128


@dataclass(frozen=True)
class Choices:
    """What the azimuths of some stems may have been meant to be, by everything but the order; shape (choices,).

    Parameters
    ----------
    stem
        Stem of each choice, among those given in order.
    azimuth_deg
        What it may have been.
    probability
        Of that; what the choices of a stem lack to 1 is anything at all.
    """

    stem: NDArray[np.int64]
    azimuth_deg: Floats
    probability: Floats

    def take(self, kept: NDArray[np.bool_]) -> Choices:
        """Some of the choices."""
        return Choices(self.stem[kept], self.azimuth_deg[kept], self.probability[kept])


def batches(
    first: NDArray[np.int64], asked: NDArray[np.bool_]
) -> Iterator[tuple[NDArray[np.int64], NDArray[np.int64]]]:
    """Plots followed at once, and the stem of each place and plot, -1 beyond the last; shape (places, plots)."""
    count = np.diff(first)
    by_count = np.argsort(count, kind="stable")
    by_count = by_count[asked[by_count]]
    for begin in range(0, len(by_count), _AT_ONCE):
        chosen = by_count[begin : begin + _AT_ONCE]
        place = np.arange(int(count[chosen[-1]]))
        yield chosen, np.where(place[:, None] < count[chosen], first[chosen] + place[:, None], -1)


def likely_steps(
    stem: NDArray[np.int64], turned: Floats, special: NDArray[np.int64], likely: NDArray[np.float32], sd_deg: float
) -> NDArray[np.float32]:
    """Likelihood of what is known of each stem at each step of the sweep."""
    seen = _seen(np.where(stem >= 0, turned[stem], np.nan), sd_deg)
    if len(likely):
        of_choice = np.where(stem >= 0, special[stem], -1)
        seen[of_choice >= 0] = likely[of_choice[of_choice >= 0]]
    return seen


def along(azimuth_deg: Floats, start_deg: Floats, clockwise: NDArray[np.bool_]) -> Floats:
    """Degrees from the start in the direction of the sweep, in [0, 360)."""
    turned: Floats = np.where(clockwise, azimuth_deg - start_deg, start_deg - azimuth_deg) % 360.0
    return turned


def _seen(turned: Floats, sd_deg: float) -> NDArray[np.float32]:
    """Likelihood of each azimuth at each step of the sweep, relative to a uniform one; 1 where it is not known."""
    middle = ((np.arange(STEPS) + 0.5) * STEP_DEG).astype(np.float32)
    apart = np.abs(np.nan_to_num(turned, nan=0.0).astype(np.float32)[..., None] - middle)
    apart = np.minimum(apart, np.float32(360.0) - apart) / np.float32(math.hypot(sd_deg, STEP_DEG / 3.5))
    seen: NDArray[np.float32] = np.exp(np.float32(-0.5) * np.minimum(apart, np.float32(12.0)) ** 2)
    seen *= np.float32(1.0 - _ASTRAY) * STEPS / seen.sum(axis=-1, keepdims=True)
    seen += np.float32(_ASTRAY)
    seen[~np.isfinite(turned)] = 1.0
    return seen


def chosen_steps(
    choices: Choices | None,
    turned: Floats,
    start: Floats,
    clockwise: NDArray[np.bool_],
    *,
    plot: NDArray[np.int64],
    sd_deg: float,
) -> tuple[NDArray[np.int64], NDArray[np.float32]]:
    """For each stem its row among those with choices (-1: none), and the likelihoods of these at each step."""
    row = np.full(len(turned), -1, np.int64)
    if choices is None or not len(choices.stem):
        return row, np.zeros((0, STEPS), np.float32)
    stems, owner = np.unique(choices.stem, return_inverse=True)
    # A stem left out of the order (NaN) stays out.
    row[stems] = np.where(np.isfinite(turned[stems]), np.arange(len(stems)), -1)
    of_plot = plot[choices.stem]
    at = along(choices.azimuth_deg, start[of_plot], clockwise[of_plot])
    known = np.isfinite(at)
    step = np.minimum((np.where(known, at, 0.0) / STEP_DEG).astype(np.int64), STEPS - 1)
    weight = np.where(known, choices.probability, 0.0)
    share = np.bincount(owner * STEPS + step, weight, minlength=len(stems) * STEPS).reshape(-1, STEPS)
    around = np.arange(STEPS) * STEP_DEG
    around = np.minimum(around, 360.0 - around) / math.hypot(sd_deg, STEP_DEG / 3.5)
    smear = np.exp(-0.5 * around**2)
    smear *= STEPS / smear.sum()
    kernel = smear[_ONWARD]
    anything = 1.0 - np.bincount(owner, weight, minlength=len(stems))[:, None]
    likely = (1.0 - _OUT_OF_TURN) * (share @ kernel + anything.clip(0.0)) + _OUT_OF_TURN
    return row, likely.astype(np.float32)


def followed(
    seen: NDArray[np.float32], count: NDArray[np.int64], *, back: bool = True
) -> tuple[NDArray[np.float32], NDArray[np.float32], Floats]:
    """Where the sweep stands before and after each stem, and the logarithm of what order explains better than none.

    Parameters
    ----------
    seen
        Likelihoods, shape (places, plots, steps).
    count
        Stems of each plot.
    back
        Whether to follow it back too; the first and the last result do without.
    """
    from scipy.special import gammaln

    places, plots, steps = seen.shape
    before, after = np.ones_like(seen), np.ones_like(seen)
    evidence = np.zeros(plots)
    begin = _restarts(places, count)
    state = np.ones((plots, steps), np.float32)
    for place in range(places):
        before[place] = state
        passed = np.cumsum(state * seen[place], axis=1)
        evidence += np.where(place < count, np.log(passed[:, -1] / np.float32(steps)), 0.0)
        state = passed / passed[:, -1:] + begin[place + 1][:, None]
    state = np.ones((plots, steps), np.float32)
    for place in range(places - 1 if back else -1, -1, -1):
        after[place] = state
        passed = np.cumsum((state * seen[place])[:, ::-1], axis=1)[:, ::-1]
        state = passed / passed[:, :1] + begin[place][:, None]
        state[place >= count] = 1.0
    # Of all ways n stems can stand, so many are in order.
    ways = gammaln(steps + count) - math.lgamma(steps) - gammaln(count + 1)
    return before, after, evidence - ways + count * math.log(steps)


def _restarts(places: int, count: NDArray[np.int64]) -> NDArray[np.float32]:
    """Weight of a second sweep that begins at each place, shape (places + 1, plots).

    Two sweeps of k and n - k stems explain n! / (k! (n - k)!) times as many orders as one does.
    """
    place = np.arange(places + 1)[:, None]
    factorial = np.array([math.lgamma(n + 1.0) for n in range(places + 2)])
    rest = np.maximum(count - place, 0)
    choices = factorial[count] - factorial[place] - factorial[rest]
    shares = np.where(place < count, _RESTART / count * np.exp(np.minimum(-choices, 0.0)), 0.0)
    weight: NDArray[np.float32] = shares.astype(np.float32)
    return weight
