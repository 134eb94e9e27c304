"""Two visits of the same plots: which stem is which, and how one map is turned and moved against the other."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from stemmap.core.nearest import threads

__all__ = [
    "Map",
    "Matches",
    "RigidFit",
    "matches",
    "placed",
    "rigid_fit",
    "search",
    "search_shift",
    "search_turn",
    "squared_distance",
    "worth_of_pairs",
]

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]

#: Degrees of freedom of the errors' tails: a pair far off hardly pulls at the fit.
_TAIL: Final = 3.0
_ROUNDS: Final = 8
#: Keeps the fit of a plot with too few pairs solvable.
_RIDGE: Final = np.diag([1e-9, 1e-9, 1e-9])
#: A fit that turns (radians) and shifts (metres) by less than this in a round stands still.
_STILL: Final = 3e-4
#: Metres between the levels on which plots are laid so that one k-d tree serves them all.
_APART: Final = 1.0e4
#: Turns that are tried when two maps do not lie on one another, degrees.
_TURNS: Final = np.arange(-45.0, 45.1, 1.5)
#: Shifts that are tried reach so far, metres.
_REACH: Final = 3.0
#: How close a turned or moved stem must come to count, metres.
_NEAR: Final = 0.45
#: Centimetres over which diameters of a stand spread, and share of stems that are found again.
_DBH_SPREAD_CM: Final = 25.0
_FOUND_AGAIN: Final = 0.9


@dataclass(frozen=True)
class Map:
    """Stems of several plots around their centres; arrays of shape (stems,).

    Parameters
    ----------
    x_m, y_m
        East and north of the plot centre.
    var_east, var_north, cov_east_north
        Their errors, square metres.
    dbh_cm
        Diameters; NaN where not known.
    plot
        Number of the plot, equal in both maps.
    """

    x_m: Floats
    y_m: Floats
    var_east: Floats
    var_north: Floats
    cov_east_north: Floats
    dbh_cm: Floats
    plot: Integers

    def take(self, rows: NDArray[np.integer]) -> Map:
        """Some stems."""
        return Map(
            self.x_m[rows],
            self.y_m[rows],
            self.var_east[rows],
            self.var_north[rows],
            self.cov_east_north[rows],
            self.dbh_cm[rows],
            self.plot[rows],
        )


@dataclass(frozen=True)
class RigidFit:
    """How this visit's maps lie on the last ones, by plot; arrays of shape (plots,).

    Parameters
    ----------
    rotation_deg
        By so much this visit's azimuths are larger.
    shift_east_m, shift_north_m
        This visit's centre minus the last one's, in the last visit's north.
    covariance
        Of the three (degrees, metres, metres), shape (plots, 3, 3); infinite where nothing could be fitted.
    pairs
        Number of pairs the fit rests on.
    """

    rotation_deg: Floats
    shift_east_m: Floats
    shift_north_m: Floats
    covariance: Floats
    pairs: Integers


@dataclass(frozen=True)
class Matches:
    """Which stem of this visit is which of the last.

    Parameters
    ----------
    last
        For each stem of this visit the row of the last visit's, -1: none; shape (this,).
    cost
        Squared distance of each pair in units of its errors, with that of its growth; NaN where there is none.
    """

    last: Integers
    cost: Floats


def squared_distance(this: Map, last: Map) -> Floats:
    """Squared distance of pairs, row by row, in units of their combined errors."""
    xx, yy, xy = _precision(this, last, np.zeros(1), np.ones(1))
    off_x, off_y = last.x_m - this.x_m, last.y_m - this.y_m
    apart: Floats = xx * off_x**2 + yy * off_y**2 + 2.0 * xy * off_x * off_y
    return apart


def rigid_fit(this: Map, last: Map, plots: int) -> RigidFit:
    """Fit a turn and a shift that lay this visit's stems on the last visit's, pair by pair and plot by plot.

    Gauss-Newton with the covariance of each pair and the weights of a Student distribution, so that mistyped stems
    and wrong pairs hardly count.

    Parameters
    ----------
    this, last
        The pairs, row by row; a plot's number says which fit a pair belongs to.
    plots
        Number of plots.
    """
    if not len(this.plot):
        return _no_fit(plots)
    turn, shift, normal = np.zeros(plots), np.zeros((plots, 2)), np.zeros((plots, 3, 3))
    pairs = np.bincount(this.plot, minlength=plots)
    moving = np.flatnonzero(pairs)
    place = np.zeros(plots, np.int64)
    for _ in range(_ROUNDS):
        place[moving] = np.arange(len(moving))
        group = place[this.plot]
        normal[moving], step = _step(this, last, group, turn=turn[moving], shift=shift[moving])
        turn[moving] += np.clip(step[:, 0], -0.3, 0.3)
        shift[moving] += step[:, 1:]
        still = np.abs(step).max(axis=1, initial=0.0) < _STILL
        if still.all():
            break
        # Most plots stand still after a few rounds; only the others are followed.
        if np.count_nonzero(still) > 0.3 * len(still):
            moving, rows = moving[~still], np.flatnonzero(~still[group])
            this, last = this.take(rows), last.take(rows)
    scale = np.array([np.degrees(1.0), 1.0, 1.0])
    solved = np.linalg.inv(normal + _RIDGE) * scale[:, None] * scale
    covariance = np.where((pairs >= 2)[:, None, None], solved, np.inf)
    return RigidFit(np.degrees(turn), shift[:, 0], shift[:, 1], covariance, pairs)


def _step(this: Map, last: Map, group: Integers, *, turn: Floats, shift: Floats) -> tuple[Floats, Floats]:
    """Normal matrices of the groups of pairs, shape (groups, 3, 3), and by how much each fit turns and shifts on."""
    groups = len(turn)
    sine, cosine = np.sin(turn)[group], np.cos(turn)[group]
    x, y = cosine * this.x_m - sine * this.y_m, sine * this.x_m + cosine * this.y_m
    off_x, off_y = last.x_m - x - shift[group, 0], last.y_m - y - shift[group, 1]
    xx, yy, xy = _precision(this, last, sine, cosine)
    pull_x, pull_y = xx * off_x + xy * off_y, xy * off_x + yy * off_y
    weight = (_TAIL + 2.0) / (_TAIL + off_x * pull_x + off_y * pull_y)
    # By the turn a stem moves across its direction: by -y to the east and by x to the north.
    across_x, across_y = xy * x - xx * y, yy * x - xy * y
    terms = {
        (0, 0): x * across_y - y * across_x,
        (0, 1): across_x,
        (0, 2): across_y,
        (1, 1): xx,
        (1, 2): xy,
        (2, 2): yy,
    }
    normal = np.empty((groups, 3, 3))
    for (row, column), term in terms.items():
        normal[:, row, column] = normal[:, column, row] = np.bincount(group, weight * term, minlength=groups)
    pulls = (x * pull_y - y * pull_x, pull_x, pull_y)
    right = np.stack([np.bincount(group, weight * pull, minlength=groups) for pull in pulls], axis=1)
    step = np.linalg.solve(normal + _RIDGE, right[..., None])[..., 0]
    return normal, step.astype(np.float64, copy=False)


def placed(this: Map, fit: RigidFit) -> Map:
    """Stems of one visit where the one before would see them, turned and moved as fitted, errors with them."""
    angle = np.radians(fit.rotation_deg)[this.plot]
    sine, cosine = np.sin(angle), np.cos(angle)
    east, north, both = _turned(this, sine, cosine)
    return replace(
        this,
        x_m=cosine * this.x_m - sine * this.y_m + fit.shift_east_m[this.plot],
        y_m=sine * this.x_m + cosine * this.y_m + fit.shift_north_m[this.plot],
        var_east=east,
        var_north=north,
        cov_east_north=both,
    )


def matches(this: Map, last: Map, *, growth_cm: tuple[float, float], farthest: float = 25.0) -> Matches:
    """Match all stems of two visits at once, each with one other at most, best pairs first.

    A pair costs its squared distance in units of the combined errors and the squared surplus of its growth; of a
    stem without dbh only the distance counts. Pairs that are each other's best are matched, then the rest anew.

    Parameters
    ----------
    this, last
        Stems of both visits, already laid on one another.
    growth_cm
        Usual growth of dbh between the visits and its standard deviation.
    farthest
        Cost above which two stems are not the same.
    """
    from scipy.spatial import cKDTree

    found = Matches(np.full(len(this.x_m), -1, np.int64), np.full(len(this.x_m), np.nan))
    here, there = np.flatnonzero(np.isfinite(this.x_m)), np.flatnonzero(np.isfinite(last.x_m))
    if not len(here) or not len(there):
        return found
    nearest = min(4, len(there))
    variance = np.maximum(this.var_east + this.var_north, 1e-4)[here]
    reach = float(np.sqrt(farthest * 2.0 * np.quantile(variance, 0.99)))
    tree = cKDTree(_levels(last.take(there)), balanced_tree=False, compact_nodes=False)
    _, other = tree.query(_levels(this.take(here)), k=nearest, distance_upper_bound=reach, workers=threads(len(here)))
    other = other.reshape(len(here), nearest)
    place, column = np.nonzero(other < len(there))
    left, right = here[place], there[other[place, column]]
    cost = _cost(this.take(left), last.take(right), growth_cm)
    good = cost <= farthest
    left, right, cost = left[good], right[good], cost[good]
    taken = np.zeros(len(last.x_m), bool)
    while len(left):
        best_left, best_right = np.full(len(this.x_m), np.inf), np.full(len(last.x_m), np.inf)
        np.minimum.at(best_left, left, cost)
        np.minimum.at(best_right, right, cost)
        mutual = (cost == best_left[left]) & (cost == best_right[right])
        # Of two equal costs the first counts.
        chosen = np.flatnonzero(mutual)
        chosen = chosen[np.unique(left[chosen], return_index=True)[1]]
        chosen = chosen[np.unique(right[chosen], return_index=True)[1]]
        found.last[left[chosen]], found.cost[left[chosen]] = right[chosen], cost[chosen]
        taken[right[chosen]] = True
        rest = (found.last[left] < 0) & ~taken[right]
        left, right, cost = left[rest], right[rest], cost[rest]
    return found


def search(this: Map, last: Map, plots: int, *, growth_cm: tuple[float, float]) -> tuple[RigidFit, RigidFit]:
    """Turns, and shifts, that bring most stems of this visit near stems of the last with a dbh that fits.

    For plots whose maps do not lie on one another as they are; the first result only turns, the second only moves.
    """
    return search_turn(this, last, plots, growth_cm=growth_cm), search_shift(this, last, plots, growth_cm=growth_cm)


def search_turn(
    this: Map, last: Map, plots: int, *, growth_cm: tuple[float, float], turns_deg: Floats = _TURNS
) -> RigidFit:
    """The turn of each plot, among those tried, that brings most of its stems near stems of the last visit."""
    from scipy.spatial import cKDTree

    none = _no_fit(plots)
    this, last = _with_place(this), _with_place(last)
    if not len(this.x_m) or not len(last.x_m):
        return none
    tree: Any = cKDTree(_levels(last))
    hits = np.zeros((len(turns_deg), plots))
    for number, turn in enumerate(turns_deg):
        at = placed(this, replace(none, rotation_deg=np.full(plots, turn)))
        apart, other = tree.query(_levels(at), distance_upper_bound=_NEAR)
        near = np.flatnonzero(other < len(last.x_m))
        fits = _grown(this.dbh_cm[near], last.dbh_cm[other[near]], growth_cm)
        worth = fits * (1.0 - 0.5 * apart[near] / _NEAR)
        hits[number] = np.bincount(this.plot[near], worth, minlength=plots)
    return replace(none, rotation_deg=turns_deg[hits.argmax(axis=0)])


def search_shift(this: Map, last: Map, plots: int, *, growth_cm: tuple[float, float]) -> RigidFit:
    """The shift of each plot that most of its stems ask for."""
    from scipy.spatial import cKDTree

    none = _no_fit(plots)
    this, last = _with_place(this), _with_place(last)
    if not len(this.x_m) or not len(last.x_m):
        return none
    pairs = cKDTree(_levels(this)).query_ball_tree(cKDTree(_levels(last)), _REACH)
    left = np.repeat(np.arange(len(pairs)), [len(each) for each in pairs])
    right = np.array([each for some in pairs for each in some], np.int64)
    fits = _grown(this.dbh_cm[left], last.dbh_cm[right], growth_cm)
    left, right = left[fits], right[fits]
    if not len(left):
        return none
    off_x, off_y = last.x_m[right] - this.x_m[left], last.y_m[right] - this.y_m[left]
    offs = np.column_stack([off_x, off_y, this.plot[left] * _APART])
    votes = np.asarray(cKDTree(offs).query_ball_point(offs, _NEAR, return_length=True))
    order = np.lexsort((-votes, this.plot[left]))
    plot, first = np.unique(this.plot[left][order], return_index=True)
    east, north = np.zeros(plots), np.zeros(plots)
    east[plot], north[plot] = off_x[order][first], off_y[order][first]
    return replace(none, shift_east_m=east, shift_north_m=north)


def worth_of_pairs(this: Map, last: Map, found: Matches, plots: int, *, growth_cm: tuple[float, float]) -> Floats:
    """By how much the matched stems of each plot are likelier as the same stems than as strangers, in logarithms.

    A stranger stands anywhere in a disc as wide as the survey's plots, with any dbh; the same stem stands where one
    of the last visit's n stems stood, within the errors, and has grown as usual. Shape (plots,).
    """
    pair = np.flatnonzero(found.last >= 0)
    if not len(pair):
        return np.zeros(plots)
    here, there = this.take(pair), last.take(found.last[pair])
    xx, yy, xy = _precision(here, there, np.zeros(1), np.ones(1))
    # Half of the stems of a disc stand within the square root of a half of its radius.
    squared = last.x_m**2 + last.y_m**2
    known = squared[np.isfinite(squared)]
    disc = 2.0 * np.pi * float(np.median(known)) if len(known) else np.nan
    count = np.bincount(last.plot, minlength=plots)[here.plot]
    gain = np.log(disc / np.maximum(count, 1)) + 0.5 * np.log(xx * yy - xy**2) - np.log(2.0 * np.pi)
    gain += np.log(_FOUND_AGAIN / (1.0 - _FOUND_AGAIN))
    gain += np.where(
        np.isfinite(here.dbh_cm - there.dbh_cm), np.log(_DBH_SPREAD_CM / (growth_cm[1] * np.sqrt(2.0 * np.pi))), 0.5
    )
    return np.bincount(here.plot, gain - 0.5 * found.cost[pair], minlength=plots).astype(float)


def _no_fit(plots: int) -> RigidFit:
    nothing = np.zeros(plots)
    return RigidFit(nothing, nothing, nothing, np.full((plots, 3, 3), np.inf), np.zeros(plots, np.int64))


def _with_place(some: Map) -> Map:
    return some.take(np.flatnonzero(np.isfinite(some.x_m)))


def _levels(some: Map) -> Floats:
    return np.column_stack([some.x_m, some.y_m, some.plot * _APART])


def _turned(some: Map, sine: Floats, cosine: Floats) -> tuple[Floats, Floats, Floats]:
    """Variances and covariance after a counter-clockwise turn."""
    east, north, both = some.var_east, some.var_north, some.cov_east_north
    return (
        cosine**2 * east + sine**2 * north - 2.0 * sine * cosine * both,
        sine**2 * east + cosine**2 * north + 2.0 * sine * cosine * both,
        sine * cosine * (east - north) + (cosine**2 - sine**2) * both,
    )


def _precision(this: Map, last: Map, sine: Floats, cosine: Floats) -> tuple[Floats, Floats, Floats]:
    """Inverse of the combined covariance of pairs: its two diagonal elements and the other one."""
    east, north, both = _turned(this, sine, cosine)
    east, north, both = east + last.var_east, north + last.var_north, both + last.cov_east_north
    # A finger's breadth for what was not measured: which side of the stem, a leaning stem.
    east, north = east + 4e-4, north + 4e-4
    determinant = east * north - both**2
    return north / determinant, east / determinant, -both / determinant


def _cost(this: Map, last: Map, growth_cm: tuple[float, float]) -> Floats:
    surplus = (this.dbh_cm - last.dbh_cm - growth_cm[0]) / growth_cm[1]
    # A mistyped dbh must not part a pair that lies well.
    grown = np.minimum(np.nan_to_num(surplus, nan=1.0) ** 2, 12.0)
    return squared_distance(this, last) + grown


def _grown(this_cm: Floats, last_cm: Floats, growth_cm: tuple[float, float]) -> NDArray[np.bool_]:
    """Whether the growth is a usual one, or not known."""
    fits: NDArray[np.bool_] = ~(np.abs(this_cm - last_cm - growth_cm[0]) > 3.5 * growth_cm[1])
    return fits
