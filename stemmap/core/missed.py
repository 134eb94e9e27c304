"""How many stems were missed behind others: expected totals and their intervals, from the stems that were seen.

Plots learn from one another. How dense a plot is, how much denser stems stand behind others, and how that goes with
what is hidden, is estimated from all plots of the survey; a plot alone says what it can.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

from stemmap.core.visibility import Grouping

Floats = NDArray[np.float64]

#: So many plots that spread half by chance steady what a few plots say about the spread of their densities.
_PLOTS: Final = 4.0
#: Stems at random that steady what few stems say about the density behind others, and about how it changes.
_AT_RANDOM: Final = 10.0
#: What is hidden lies farther behind than the ground beside stems, and groups thin out: so much of their excess there
#: is left. From simulated stands in groups of 4 to 20 stems.
_LEFT: Final = 0.75
#: Spread of the density behind stems from plot to plot (variance over squared mean) for the share of it that is
#: excess. From the same stands.
_UNEVEN: Final = 0.5
_STEPS: Final = 25


@dataclass(frozen=True)
class Missed:
    """Total of a quantity over the stems that were missed, by plot, with an interval; shape (plots,) each.

    Parameters
    ----------
    expected
        Expected total; NaN where it cannot be known.
    variance
        Of the total.
    number, spread
        Number of missed stems and its variance.
    lumps
        Variance that a Poisson number of parts would have: over the mean it is what one part adds, as a rule, and in
        such units a total is nearly a number.
    confidence
        Of the interval.
    """

    expected: Floats
    variance: Floats
    number: Floats
    spread: Floats
    lumps: Floats
    confidence: float

    @cached_property
    def low(self) -> Floats:
        """Lower end of the interval of the true total, computed when somebody asks."""
        return np.where(self._from_zero, 0.0 * self.expected, self._quantile(0.5 * (1.0 - self.confidence)))

    @cached_property
    def high(self) -> Floats:
        """Upper end of the interval of the true total."""
        return self._quantile(np.where(self._from_zero, self.confidence, 0.5 + 0.5 * self.confidence))

    @property
    def _from_zero(self) -> NDArray[np.bool_]:
        """Whether the chance that none was missed, the zero of a negative binomial, takes the interval down to zero."""
        some = self._some
        more = np.divide(self.spread, self.number, out=np.ones(len(some)), where=some) - 1.0
        more = np.maximum(more, 1e-9)
        none = np.exp(-np.maximum(self.number, 0.0) * np.log1p(more) / more)
        from_zero: NDArray[np.bool_] = none > 1.0 - self.confidence
        return from_zero

    @property
    def _some(self) -> NDArray[np.bool_]:
        return (self.expected > 0.0) & (self.number > 0.0)

    def _quantile(self, share: Floats | float) -> Floats:
        """Quantile of a Pearson III distribution with the total's mean, variance and skewness."""
        from scipy.special import gammaincinv

        some, mean = self._some, self.expected
        unit = np.divide(self.lumps, mean, out=np.ones(len(mean)), where=some)
        sd = np.sqrt(np.where(some, self.variance, 1.0))
        over = np.divide(self.variance, mean * unit, out=np.ones(len(mean)), where=some)
        shape = 4.0 / ((2.0 * np.maximum(over, 1.0) - 1.0) * unit / sd) ** 2
        made: Floats = mean + sd * (gammaincinv(shape, share) - shape) / np.sqrt(shape)
        return np.where(some, np.maximum(made, 0.0), 0.0 * mean)

    def take(self, rows: NDArray[np.integer]) -> Missed:
        """The totals of some plots."""
        return replace(
            self,
            expected=self.expected[rows],
            variance=self.variance[rows],
            number=self.number[rows],
            spread=self.spread[rows],
            lumps=self.lumps[rows],
        )

    def where(self, known: NDArray[np.bool_]) -> Missed:
        """The same, NaN for plots of which it cannot be known."""
        return replace(self, expected=np.where(known, self.expected, np.nan))


def missed(
    probability: Floats,
    plot: NDArray[np.integer],
    *,
    plots: int,
    weight: ArrayLike = 1.0,
    grouped: Grouping | None = None,
    into: NDArray[np.integer] | None = None,
    groups: int = 0,
    confidence: float = 0.95,
) -> Missed:
    """Estimate the total over the missed stems from the probabilities of those that were seen.

    Each seen stem stands for b = 1 / P - 1 missed ones (Horvitz and Thompson 1952, from memory). Three things mend
    what a plot alone would say:

    - A plot with many stems by chance has no more stems hidden for it. The density of each plot is drawn to the mean
      of all, as far as chance explains their spread (empirical Bayes; Efron and Morris 1973, from memory).
    - Stems in groups stand denser behind others, by a ratio r: three quarters of the excess that `grouping` finds.
    - They do so most where little is hidden: stems beside others go with a power of what would be expected, and so
      do missed ones.

    The number missed on a plot is taken as a negative binomial one with variance m + 0.5 (1 - 1 / r) m², since counts
    of groups spread the more the denser they stand; what is not known of the density is added. The interval is that of
    a Pearson III distribution with its mean, variance and skewness; where the chance that none was missed is above
    1 - confidence it reaches down to zero and fails above only. In simulated stands, at random and in groups, intervals
    of 95 % held on 94 to 98 % of the plots of surveys of 20 plots and more; on a plot alone in which stems stand in
    groups, on 84 to 90 %, since nothing tells it of the groups.

    Parameters
    ----------
    probability
        Probability of being seen, of each stem that was seen and counts, shape (n,).
    plot
        Row of the plot of each stem, shape (n,).
    plots
        Number of plots.
    weight
        What each stem adds to the total: 1 for the number, its basal area, either per hectare.
    grouped
        How the stems of the survey are grouped; None: at random.
    into, groups
        Group of each plot, -1 for none, shape (plots,), and their number: totals are then those of the groups.
    confidence
        Of the interval.
    """
    weights = np.broadcast_to(np.asarray(weight, dtype=np.float64), probability.shape)
    # A probability may pass 1 by the last digit.
    behind = np.maximum(1.0 / probability - 1.0, 0.0)

    def total(values: Floats) -> Floats:
        return np.bincount(plot, values, minlength=plots).astype(np.float64)

    seen, hidden = total(np.ones(len(probability))), total(behind)
    drawn, doubt = _drawn_to_mean(seen, hidden)
    factor, uneven = drawn, doubt
    if grouped is not None:
        factor, ratio = _behind_others(grouped, drawn, hidden)
        uneven = doubt + _UNEVEN * max(1.0 - 1.0 / ratio, 0.0)
    first, second = total(weights * behind), total(weights**2 * behind)
    mean = factor * first
    variance = factor * second + uneven * mean**2
    number = factor * hidden
    spread = number + uneven * number**2
    parts = [mean, variance, number, spread, factor * second]
    if into is not None:
        kept = np.asarray(into) >= 0
        parts = [np.bincount(into[kept], part[kept], minlength=groups).astype(np.float64) for part in parts]
    mean, variance, number, spread, lumps = parts
    return Missed(mean, variance, number, spread, lumps, confidence)


def _drawn_to_mean(seen: Floats, hidden: Floats) -> tuple[Floats, Floats]:
    """Factor that draws the density of each plot to the mean of all, and the squared relative error that is left.

    By chance a number of seen stems n, blown up to n + b, has the variance (n + b)² / n.
    """
    some = seen > 0.0
    number = seen + hidden
    if not some.any():
        return np.ones(len(seen)), np.zeros(len(seen))
    mean = float(number[some].mean())
    share = np.divide(hidden, number, out=np.zeros(len(seen)), where=some)
    by_chance = float(np.mean(mean / (1.0 - share[some])))
    spread = float(np.sum((number[some] - mean) ** 2)) + _PLOTS * 2.0 * by_chance
    of_plots = max(spread / (np.count_nonzero(some) + _PLOTS - 1.0) - by_chance, 0.0)
    chance = mean / np.maximum(1.0 - share, 1e-9)
    kept = of_plots / (of_plots + chance)
    drawn = mean + kept * (number - mean)
    factor = np.divide(drawn, number, out=np.ones(len(seen)), where=some)
    return factor, np.divide(kept * chance, drawn**2, out=np.zeros(len(seen)), where=some)


def _behind_others(grouped: Grouping, drawn: Floats, hidden: Floats) -> tuple[Floats, float]:
    """Factor by plot from what each seen stem hides to what is missed, and how much denser stems stand there."""
    expected, observed = drawn * grouped.expected, grouped.observed
    beside = float((observed.sum() + _AT_RANDOM) / (expected.sum() + _AT_RANDOM))
    ratio = 1.0 + _LEFT * (beside - 1.0)
    power = _power(observed, expected)
    alone = drawn * hidden
    some = alone > 0.0
    if not some.any():
        return drawn, ratio
    level = float(np.exp(np.average(np.log(alone[some]), weights=alone[some])))
    bent = np.zeros(len(alone))
    bent[some] = (alone[some] / level) ** power
    bent *= ratio * alone.sum() / bent.sum()
    return np.divide(bent, hidden, out=np.ones(len(hidden)), where=hidden > 0.0), ratio


def _power(observed: Floats, expected: Floats) -> float:
    """Power with which numbers go with what is expected: a Poisson regression on its logarithm, drawn to 1."""
    some = expected > 1e-6
    if np.count_nonzero(some) < 2 or not observed.any():
        return 1.0
    logs, numbers = np.log(expected[some]), observed[some]
    logs = logs - np.average(logs, weights=expected[some])
    level, power = float(np.log(numbers.mean())), 1.0
    for _ in range(_STEPS):
        mean = np.exp(level + power * logs)
        slopes = np.array([np.sum(numbers - mean), np.sum((numbers - mean) * logs) - _AT_RANDOM * (power - 1.0)])
        curve = np.array([[mean.sum(), mean @ logs], [mean @ logs, mean @ logs**2 + _AT_RANDOM]])
        step = np.clip(np.linalg.solve(curve, slopes), -1.0, 1.0)
        level, power = np.array([level, power]) + step
        if np.abs(step).max() < 1e-12:
            break
    return float(np.clip(power, 0.0, 1.5))
