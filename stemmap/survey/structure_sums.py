"""Sums over the stems of plots that tell the spatial structure, observed first and then one for each simulation.

Sums may be added over plots before they are divided (ratio estimators). Plots with equally many stems on the same
ground are worked on together.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from stemmap.core import neighbours
from stemmap.core.clark_evans import censored_mean, clark_evans_by_plot
from stemmap.core.distances import hanisch_weights
from stemmap.core.labelling import kind_sums, labellings, mark_sums, near_marks
from stemmap.core.pairs import Pairs
from stemmap.core.replicates import Replicates, replicates, weighted_pairs_of
from stemmap.core.second_order import usual_halfwidth
from stemmap.core.windows import CutDisc, Disc

Floats = NDArray[np.float64]
Rows = NDArray[np.int64]
Sums = dict[Any, Any]

#: Half-width of the kernel of mark correlation and variogram, m.
MARK_HALFWIDTH_M = 1.0
#: The edge correction of Clark and Evans's index was worked out and tried for no fewer stems.
_FEWEST_CLARK_EVANS = 5
#: Names of the size classes: the stems above the median dbh of their plot, and the others.
SIZES = ("thin", "thick")
#: Indices of the marks of the four nearest stems.
MARK_INDICES = ("mingling", "differentiation", "dominance", "competition")


@dataclass(frozen=True)
class Batch:
    """Plots with equally many stems on the same ground.

    Parameters
    ----------
    window
        The ground, m east and north of the plot centre.
    xy
        Places of the stems, shape (plots, n, 2), m.
    species
        Codes, negative: unknown, shape (plots, n).
    dbh
        cm, NaN: unknown, shape (plots, n).
    """

    window: Disc | CutDisc
    xy: Floats
    species: Rows
    dbh: Floats


def batch_sums(
    batch: Batch,
    r: Floats,
    rngs: Sequence[np.random.Generator],
    *,
    simulations: int,
    species_names: Sequence[str] | None,
    by_size: bool,
) -> list[Sums]:
    """All sums of each plot.

    Parameters
    ----------
    r
        Distances of the curves, ascending, shape (k,), m.
    rngs
        Random numbers of each plot.
    simulations
        0: nothing is compared with chance, and what the marks tell is left out.
    species_names
        By code; None: species are not told apart.
    by_size
        Whether thick and thin stems are told apart.
    """
    plots, n = batch.xy.shape[:2]
    order = np.hstack([labellings(n, simulations, rng) + n * plot for plot, rng in enumerate(rngs)])
    points = np.empty((plots, simulations + 1, n, 2))
    points[:, 0] = batch.xy
    for plot, rng in enumerate(rngs):
        points[plot, 1:] = batch.window.random(simulations * n, rng).reshape(simulations, n, 2)
    halfwidth = usual_halfwidth(n, batch.window)
    made = replicates(points.reshape(-1, n, 2), batch.window, r, halfwidth=halfwidth)
    columns = _place_sums(made, batch.window, plots, r) | _clark_evans_sums(made, batch.window, plots)
    if simulations:
        columns |= _mark_index_sums(batch, made, order)
    sums = [Sums(stems=n, plots=1, pairs=n * (n - 1)) for _ in range(plots)]
    for plot, own in enumerate(sums):
        own |= {name: column[plot] for name, column in columns.items()}
    if simulations:
        _add_pair_sums(sums, batch, r, order, species_names=species_names, by_size=by_size)
    return sums


def _place_sums(made: Replicates, window: Disc | CutDisc, plots: int, r: Floats) -> Sums:
    """What the places alone tell, under complete randomness on the same ground; shape (plots, simulations + 1, …)."""
    n = made.nearest.shape[1]
    pairs = n * (n - 1)
    weight = hanisch_weights(made.nearest, made.to_edge, window)
    counted = np.isfinite(made.angle)
    columns = {
        "k": pairs * made.k,
        "g": pairs * made.g,
        "near_within": _up_to(made.nearest, weight, r),
        "near_all": weight.sum(axis=1),
        "nearest": made.nearest.sum(axis=1),
        "angle": np.where(counted, made.angle, 0.0).sum(axis=1),
        "angle_n": counted.sum(axis=1),
    }
    by_plot = {name: column.reshape(plots, -1, *column.shape[1:]) for name, column in columns.items()}
    by_plot["near_counted"] = (weight.reshape(plots, -1, n)[:, 0] > 0.0).sum(axis=1)
    return by_plot


def _up_to(distance: Floats, weight: Floats, r: Floats) -> Floats:
    """Sum of the weights of distances up to each r, shape (patterns, k)."""
    patterns, width = len(distance), len(r) + 1
    place = np.searchsorted(r, distance.ravel()).reshape(distance.shape) + np.arange(patterns)[:, None] * width
    binned = np.bincount(place.ravel(), weight.ravel(), minlength=patterns * width).reshape(patterns, width)
    return np.asarray(np.cumsum(binned[:, :-1], axis=1))


def _clark_evans_sums(made: Replicates, window: Disc | CutDisc, plots: int) -> Sums:
    """Observed and expected sum of the nearest distances, and the variance of the observed one, by form."""
    n = made.nearest.shape[1]
    if n < _FEWEST_CLARK_EVANS:
        return {}
    each = len(made.nearest) // plots
    nearest, to_edge = made.nearest[::each], made.to_edge[::each]
    mean = nearest.mean(axis=1)
    censored = [censored_mean(*one, window) for one in zip(nearest, to_edge, strict=True)]
    sums: Sums = {}
    forms: tuple[tuple[Literal["none", "donnelly", "cdf"], Floats], ...]
    forms = (("donnelly", mean), ("none", mean), ("cdf", np.array(censored)))
    for form, observed in forms:
        index = clark_evans_by_plot(observed, np.full(plots, n), window.area, window.perimeter, correction=form)
        # Where the two agree to the last digit there is no error to be had; that has a probability of nought.
        error = np.divide(observed - index.expected, index.z, out=np.zeros(plots), where=index.z != 0.0)
        sums |= {
            f"{form}_observed": n * observed,
            f"{form}_expected": n * index.expected,
            f"{form}_variance": (n * error) ** 2,
        }
    return sums


def _mark_index_sums(batch: Batch, made: Replicates, order: Rows) -> Sums:
    """Sums of the indices of marks over the stems whose four nearest are certain, under every labelling."""
    plots, n = batch.xy.shape[:2]
    near = neighbours.nearest(batch.xy.reshape(-1, 2), np.repeat(np.arange(plots), n), neighbours.NEIGHBOURS)
    certain = near.distance[:, -1] < made.to_edge.reshape(plots, -1, n)[:, 0].ravel()
    told = near_marks(near, order, species=batch.species.ravel(), dbh=batch.dbh.ravel())
    sums: Sums = {}
    for name in MARK_INDICES:
        values = getattr(told, name)
        known = np.isfinite(values) & certain
        for column, summed in ((name, np.where(known, values, 0.0)), (f"{name}_n", known)):
            sums[column] = summed.reshape(-1, plots, n).sum(axis=2).T
    return sums


def _add_pair_sums(
    sums: list[Sums],
    batch: Batch,
    r: Floats,
    order: Rows,
    *,
    species_names: Sequence[str] | None,
    by_size: bool,
) -> None:
    """Add what the marks of pairs of stems tell, under every labelling."""
    plots, n = batch.xy.shape[:2]
    pairs = weighted_pairs_of(batch.xy, batch.window, float(r[-1]) + MARK_HALFWIDTH_M)
    area = batch.window.area
    bounds = np.searchsorted(pairs.one, n * np.arange(plots + 1))
    for plot, own in enumerate(sums):
        here = slice(bounds[plot], bounds[plot + 1])
        first = n * plot
        near = Pairs(pairs.one[here] - first, pairs.other[here] - first, pairs.distance[here], pairs.weight[here])
        dealt = order[:, first : first + n] - first
        dbh = batch.dbh[plot]
        if np.isfinite(dbh).all():
            told = mark_sums(near, dealt, dbh, r, halfwidth=MARK_HALFWIDTH_M)
            own |= {"mark": told.products, "mark_below": told.weights, "mark_stems": n, "mark_plots": 1}
            if dbh.min() < dbh.max():
                own |= {"vario": told.differences, "vario_below": told.weights, "vario_stems": n, "vario_plots": 1}
                if by_size:
                    thick = (dbh > np.median(dbh)).astype(np.int64)
                    _add_kinds(own, "size", near, dealt, kind=thick, names=SIZES, r=r, area=area)
        if species_names is not None:
            codes, kind = np.unique(batch.species[plot], return_inverse=True)
            unknown = int((codes < 0).sum())
            names = [species_names[code] for code in codes[unknown:].tolist()]
            _add_kinds(own, "species", near, dealt, kind=kind - unknown, names=names, r=r, area=area)


def _add_kinds(
    own: Sums,
    what: str,
    near: Pairs,
    dealt: Rows,
    *,
    kind: Rows,
    names: Sequence[str],
    r: Floats,
    area: float,
) -> None:
    """Add K of each kind and between each two; of a plot of one kind only chance could say nothing else."""
    count = np.bincount(kind[kind >= 0], minlength=len(names))
    if len(names) < 1 or count.max() == len(kind):
        return
    within = area * kind_sums(near, dealt, kind, len(names), r)
    for a, (name, stems) in enumerate(zip(names, count.tolist(), strict=True)):
        if stems > 1:
            _add_kind(own, (what, name), within[:, a, a], stems * (stems - 1), stems)
        for b in range(a + 1, len(names)):
            (one, first), (other, second) = sorted(((name, stems), (names[b], int(count[b]))))
            _add_kind(own, (what, one, other), within[:, a, b], 2 * first * second, np.array([first, second]))


def _add_kind(own: Sums, key: tuple[str, ...], within: Floats, pairs: int, stems: Any) -> None:
    own[("within", *key)] = within
    own[("pairs", *key)] = pairs
    own[("stems", *key)] = stems
    own[("plots", *key)] = 1
