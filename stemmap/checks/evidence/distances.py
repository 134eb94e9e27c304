"""Whether the distances of a plot are all longer or shorter than at the last visit, and in which way."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence import readings
from stemmap.checks.evidence.last_visit import revisit
from stemmap.checks.evidence.level import slope_to
from stemmap.checks.evidence.whole_plots import EITHER, longer, stems_of
from stemmap.survey.batches import Meant
from stemmap.survey.registry import Case
from stemmap.survey.sight import AT_CENTRE, station_rows

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]

#: Ways in which distances differ: not, by a factor, by half a dbh shorter or longer, as measured along the slope on
#: this visit or on the last one, as feet beside metres, as metres beside feet.
ALIKE, SCALED, TO_FACE, TO_AXIS, SLOPE_NOW, SLOPE_THEN, FEET, METRES = range(8)
#: The same for plots that lie badly on their last visit otherwise.
_OF_READING: Final = (
    (readings.SCALED, SCALED),
    (readings.TO_FACE, TO_FACE),
    (readings.TO_AXIS, TO_AXIS),
    (readings.FEET, FEET),
    (readings.METRES, METRES),
)
#: How often each is so.
_PRIORS: Final = np.array([1.0, 1e-4, 3e-4, 3e-4, 3e-4, 3e-4])
#: From this probability on, and with so many pairs, it is told; slopes below this percentage change too little.
_TOLD, _ENOUGH, _STEEP = 0.95, 8, 15.0
#: Share of that probability that one way must have to be named.
_CLEAR = 0.8
_ROUNDS: Final = 6


@dataclass(frozen=True)
class Distances:
    """How the distances of each pair of visits compare; arrays of shape (pairs of visits,).

    Parameters
    ----------
    kind
        `ALIKE` to `METRES`.
    factor, factor_sd
        This visit's distances over the last one's, and its standard error; NaN and infinite without pairs.
    pairs
        Stems compared.
    gain
        By how much the kind is likelier than alike, in logarithms.
    chance
        Probability of the kind.
    """

    kind: Integers
    factor: Floats
    factor_sd: Floats
    pairs: Integers
    gain: Floats
    chance: Floats


def distances(case: Case) -> Distances:
    """Compare the distances of stems found again, after the turn and shift that fit best.

    Errors are Student's with three degrees of freedom, as wide as the plot itself has them.
    """
    both, measured = case.once(revisit), case.measured
    plots = len(both.visit)
    at_centre = station_rows(case.survey)[both.this] == AT_CENTRE
    pair = np.flatnonzero((both.found.last >= 0) & ~both.copied & at_centre)
    this, other = both.this[pair], both.found.last[pair]
    plot = both.here.plot[pair]
    now = measured.horizontal_distance_m[this]
    # The last visit's stems as this visit's centre sees them.
    east = both.there.x_m[other] - both.free.shift_east_m[plot]
    north = both.there.y_m[other] - both.free.shift_north_m[plot]
    then = np.hypot(east, north)
    variance = measured.errors.radial_sd_m[this] ** 2 + measured.errors.radial_sd_m[both.last[other]] ** 2 + 4e-4
    variance *= both.wider**2
    across = np.column_stack([east, north]) / np.maximum(then, 1e-6)[:, None]
    free = _Shifted(across, variance, plot, plots)
    factor, weight, spread = _factor(now, then, free)
    variance *= spread[plot]
    count = np.bincount(plot, minlength=plots)
    half_dbh = np.nan_to_num(measured.dbh_cm[this]) / 200.0
    level, steep = _level(case, both.visit[plot], this)
    off = [now - then, now - factor[plot] * then, now + half_dbh - then, now - half_dbh - then]
    off += [now * level - then, now - then * level]
    # A pair far off hardly tells.
    ones = np.ones(len(plot))
    told = np.array([free.total(-2.0 * np.log1p(free.rest(each, ones) ** 2 / (3.0 * variance))) for each in off])
    gain = told - told[ALIKE]
    weight_of = gain + np.log(_PRIORS)[:, None]
    weight_of[SCALED, np.abs(factor - 1.0) < readings.LEAST_FACTOR] = -np.inf
    slope = np.bincount(plot, steep, minlength=plots) > 0
    weight_of[SLOPE_NOW:, ~slope] = -np.inf
    chance = np.exp(weight_of - weight_of.max(axis=0))
    chance /= chance.sum(axis=0)
    likeliest = 1 + chance[1:].argmax(axis=0)
    # Where several ways explain it, only by how much is told.
    clear = chance[likeliest, np.arange(plots)] >= _CLEAR * (1.0 - chance[ALIKE])
    differ = (1.0 - chance[ALIKE] >= _TOLD) & (count >= _ENOUGH)
    best = np.where(differ, np.where(clear, likeliest, SCALED), ALIKE).astype(np.int64)
    column = np.arange(plots)
    sd = np.sqrt(np.divide(spread, weight, out=np.full(plots, np.inf), where=weight > 0.0))
    made = Distances(best, factor, sd, count, gain[best, column], chance[best, column])
    for reading, kind in _OF_READING:
        read = both.otherwise.reading == reading
        made.kind[read], made.factor[read] = kind, 1.0 / both.otherwise.distance_factor[read]
        made.pairs[read], made.gain[read] = both.otherwise.pairs[read], both.otherwise.gain[read]
        made.chance[read] = both.otherwise.chance[read]
    return made


def as_last(case: Case, chosen: Integers) -> Meant:
    """Distances of some pairs of visits as they are when the last visit's are right."""
    made, both = case.once(distances), case.once(revisit)
    rows, plot, first = stems_of(case, both.visit[chosen])
    kind = made.kind[chosen][plot]
    level, _ = _level(case, both.visit[chosen][plot], rows)
    factor = np.where(np.isin(kind, (SCALED, FEET, METRES)), 1.0 / made.factor[chosen][plot], 1.0)
    factor = np.where(kind == SLOPE_NOW, level, np.where(kind == SLOPE_THEN, 1.0 / level, factor))
    added = np.where(kind == TO_FACE, 1.0, np.where(kind == TO_AXIS, -1.0, 0.0))
    values = {"distance_m": longer(case, rows, factor=factor, radii_added=added)}
    return Meant(rows, first, values, EITHER * made.chance[chosen])


@dataclass(frozen=True)
class _Shifted:
    """Distances whose centre may lie a little elsewhere than the fit has it.

    Parameters
    ----------
    across
        Directions to the stems as unit vectors, shape (pairs, 2).
    variance, plot, plots
        Of the differences; the plot of each, and their number.
    """

    across: Floats
    variance: Floats
    plot: Integers
    plots: int

    def total(self, values: Floats) -> Floats:
        """Sums by plot."""
        return np.bincount(self.plot, values, minlength=self.plots).astype(float)

    def rest(self, values: Floats, share: Floats) -> Floats:
        """What is left of differences when the centre is shifted so that least is left, plot by plot."""
        weight = share / self.variance
        x, y = self.across.T
        # A shift of 0.1 m is nothing unusual, one of metres would have been found.
        xx, yy = (self.total(weight * axis**2) + 1.0 / 0.1**2 for axis in (x, y))
        xy, right_x, right_y = (
            self.total(weight * x * y),
            self.total(weight * x * values),
            self.total(weight * y * values),
        )
        determinant = xx * yy - xy**2
        east = (yy * right_x - xy * right_y) / determinant
        north = (xx * right_y - xy * right_x) / determinant
        left: Floats = values - east[self.plot] * x - north[self.plot] * y
        return left


def _factor(now: Floats, then: Floats, free: _Shifted) -> tuple[Floats, Floats, Floats]:
    """Robust factor of this visit's distances, the inverse of its variance, and how much wider errors are than said."""
    more, wide, share = np.zeros(free.plots), np.ones(free.plots), np.ones(len(now))
    squares, count = np.zeros(free.plots), free.total(share)
    for _ in range(_ROUNDS):
        longer_by, length = free.rest(now - then, share), free.rest(then, share)
        weight = share / free.variance
        squares = free.total(weight * length**2)
        more = np.divide(
            free.total(weight * length * longer_by), squares, out=np.zeros(free.plots), where=squares > 0.0
        )
        far = (longer_by - more[free.plot] * length) ** 2 / free.variance
        share = 5.0 / (3.0 + far / wide[free.plot])
        wide = np.maximum(free.total(share * far) / np.maximum(count - 3.0, 1.0), 1.0)
    return 1.0 + more, squares, wide


def _level(case: Case, visit: Integers, stem: Integers) -> tuple[Floats, NDArray[np.bool_]]:
    """Cosine of the slope in the direction of each stem, and whether the ground is known to be steep."""
    rise, slope = slope_to(case, visit, stem), case.survey.visits.numbers("slope_percent")[visit]
    horizontal = case.survey.settings.measurement.distance == "horizontal"
    steep = np.isfinite(rise) & (slope >= _STEEP) & horizontal
    return 1.0 / np.sqrt(1.0 + np.where(steep, rise, 0.0) ** 2), steep
