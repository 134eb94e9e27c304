"""Ground hidden behind stems, seen from the plot centre, and the stems that may stand there unseen.

A stem of diameter d at distance D hides the sector of half-angle asin(d / 2D) beyond it. A stem is missed only when
its whole silhouette lies behind nearer stems. A stem so missed hides nothing more, so that the recorded stems alone
tell what is hidden.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

from stemmap.core.blocks import blocks, side_by_side

Floats = NDArray[np.float64]

#: Rings of equal area in which the chance of standing unseen is computed, and diameters for which it is.
_RINGS: Final = 16
_SIZES: Final = 7
#: So much thicker stems mark the ground beside and behind the real ones.
_WIDER: Final = 3.0


@dataclass(frozen=True)
class HiddenGround:
    """What cannot be seen from the centres of plots.

    Parameters
    ----------
    share
        Hidden share of the circle's area, shape (plots,); NaN without a radius.
    plot, start_deg, end_deg, beyond_m
        Hidden sectors, sorted by plot and azimuth: clockwise from start to end nothing is seen beyond the distance;
        a sector across north is given in two parts. Shape (sectors,).
    """

    share: Floats
    plot: NDArray[np.int64]
    start_deg: Floats
    end_deg: Floats
    beyond_m: Floats


@dataclass(frozen=True)
class Grouping:
    """Stems beside and behind others, by plot; shape (plots,) each.

    Parameters
    ----------
    observed
        Number of counted stems recorded there.
    expected
        Number expected there if stems stood at random.
    """

    observed: Floats
    expected: Floats


@dataclass(frozen=True)
class _Sectors:
    """Sectors of hiding stems in turns from the start of their plot, where plot p begins at p; sorted by start."""

    start: Floats
    end: Floats
    distance: Floats
    plot: NDArray[np.int64]


def hidden_ground(
    azimuth_deg: ArrayLike, distance_m: ArrayLike, dbh_cm: ArrayLike, plot: NDArray[np.integer], *, radius_m: ArrayLike
) -> HiddenGround:
    """Hidden share and hidden sectors of all plots, exactly.

    share = integral over azimuth of (R² - D(azimuth)²) / 2, over pi R², where D is the distance of the nearest stem
    that hides the azimuth.

    Parameters
    ----------
    azimuth_deg, distance_m, dbh_cm
        All stems that hide, shape (n,): degrees, metres to the axis, centimetres. One that lacks a value, or in which
        the centre lies, hides nothing.
    plot
        Row of the plot of each stem, shape (n,).
    radius_m
        Radius of each plot's circle, metres, shape (plots,).

    Examples
    --------
    >>> hidden_ground([90.0], [5.0], [100.0], np.array([0]), radius_m=[10.0]).share.round(6)
    array([0.023913])
    """
    radius = np.asarray(radius_m, dtype=np.float64)
    edges, nearest = _skyline(_sectors(azimuth_deg, distance_m, dbh_cm, plot), len(radius))
    row = np.minimum(edges[:-1].astype(np.int64), len(radius) - 1)
    hides = (nearest < radius[row]) & (edges[1:] > edges[:-1])
    share = _hidden_share(edges, nearest, radius)
    row, start, end, nearest = row[hides], edges[:-1][hides], edges[1:][hides], nearest[hides]
    fresh = np.append(True, (start[1:] > end[:-1]) | (nearest[1:] != nearest[:-1]) | (row[1:] != row[:-1]))[: len(row)]
    last = np.append(fresh[1:], True)[: len(row)]
    kept = row[fresh]
    return HiddenGround(
        share=share,
        plot=kept,
        start_deg=360.0 * (start[fresh] - kept),
        end_deg=360.0 * (end[last] - kept),
        beyond_m=nearest[fresh],
    )


def wholly_hidden(
    azimuth_deg: ArrayLike,
    distance_m: ArrayLike,
    dbh_cm: ArrayLike,
    plot: NDArray[np.integer],
    *,
    at_m: ArrayLike,
    sizes_cm: ArrayLike,
) -> Floats:
    """Share of a ring around each centre where a stem of a given size would be wholly hidden; shape (plots, sizes).

    Nearer stems hide the union of their sectors; a stem of diameter d at distance D fits unseen behind a part of
    width w of that union in the share (w - 2 asin(d / 2D)) / 2 pi of all azimuths.

    Parameters
    ----------
    azimuth_deg, distance_m, dbh_cm, plot
        All stems that hide, as in `hidden_ground`.
    at_m
        Radius of the ring, metres, shape (plots,).
    sizes_cm
        Diameters, centimetres, shape (sizes,).

    Examples
    --------
    >>> wholly_hidden([90.0], [2.0], [40.0], np.array([0]), at_m=[8.0], sizes_cm=[10.0]).round(4)
    array([[0.0299]])
    """
    sectors = _sectors(azimuth_deg, distance_m, dbh_cm, plot)
    at, sizes = np.asarray(at_m, dtype=np.float64), np.asarray(sizes_cm, dtype=np.float64)
    shares: Floats = _covered(sectors, at[None], sizes)[0]
    return shares


def seen_probability(
    azimuth_deg: ArrayLike,
    distance_m: ArrayLike,
    dbh_cm: ArrayLike,
    plot: NDArray[np.integer],
    *,
    radius_m: ArrayLike,
) -> Floats:
    """Probability of being seen at a random place of the circle, for each stem's size and given the other stems.

    The share of the circle where such a stem would not be wholly hidden, from 16 rings of equal area and for seven
    diameters between which it is interpolated. What the stem itself hides is taken out by its share in the sum of
    the shadows of its plot. NaN for a stem that lacks a value.

    Parameters
    ----------
    azimuth_deg, distance_m, dbh_cm, plot, radius_m
        As in `hidden_ground`.
    """
    radius, rows = np.asarray(radius_m, dtype=np.float64), np.asarray(plot)
    distance, dbh = np.asarray(distance_m, dtype=np.float64), np.asarray(dbh_cm, dtype=np.float64)
    known = np.isfinite(distance) & (dbh > 0.0) & np.isfinite(np.asarray(azimuth_deg, dtype=np.float64))
    if not known.any():
        return np.full(len(rows), np.nan)
    sizes = np.geomspace(dbh[known].min(), dbh[known].max() * (1.0 + 1e-9), _SIZES)
    sectors = _sectors(azimuth_deg, distance, dbh, rows)
    rings = (radius[:, None] * np.sqrt((np.arange(_RINGS) + 0.5) / _RINGS)).T
    parts = blocks(_RINGS, width=len(sectors.start))
    table = np.mean(np.concatenate(side_by_side(lambda some: _covered(sectors, rings[some], sizes), parts)), axis=0)

    size = np.where(known, dbh, sizes[0])
    place = np.clip(np.searchsorted(sizes, size, side="right") - 1, 0, _SIZES - 2)
    part = (size - sizes[place]) / np.maximum(sizes[place + 1] - sizes[place], 1e-12)
    hidden = table[rows, place] * (1.0 - part) + table[rows, place + 1] * part
    own = _own_part(distance, dbh, rows, radius)
    return np.where(known & (radius[rows] > 0.0), 1.0 - hidden * (1.0 - own), np.nan)


def grouping(
    azimuth_deg: ArrayLike,
    distance_m: ArrayLike,
    dbh_cm: ArrayLike,
    plot: NDArray[np.integer],
    *,
    radius_m: ArrayLike,
    probability: Floats,
) -> Grouping:
    """How dense stems stand beside and behind others, where hidden ones are likely, against all ground that is seen.

    If every stem was three times as thick, it would hide ground that is seen now. The stems recorded there are
    compared with those expected there: the sum over the counted stems of that ground, without the stem's own part,
    over the ground seen.

    Parameters
    ----------
    azimuth_deg, distance_m, dbh_cm, plot, radius_m
        As in `hidden_ground`.
    probability
        Of being seen, as `seen_probability` gives it, of stems that count; NaN for others. Shape (n,).
    """
    radius, rows = np.asarray(radius_m, dtype=np.float64), np.asarray(plot)
    distance, dbh = np.asarray(distance_m, dtype=np.float64), np.asarray(dbh_cm, dtype=np.float64)
    wide = np.where(dbh < 200.0 * distance, np.minimum(_WIDER * dbh, 199.0 * distance), np.nan)
    edges, nearest = _skyline(_sectors(azimuth_deg, distance, wide, rows), len(radius))
    counted = np.flatnonzero(np.isfinite(probability))
    turn = rows[counted] + np.mod(np.asarray(azimuth_deg, dtype=np.float64)[counted] / 360.0, 1.0)
    beside = nearest[np.searchsorted(edges, turn, side="right") - 1] < distance[counted]
    share = _hidden_share(edges, nearest, radius)[rows] * (1.0 - _own_part(distance, dbh, rows, radius))
    chance = probability[counted]
    expected = (share[counted] - (1.0 - chance)) / chance
    return Grouping(
        observed=_total(rows[counted], beside, len(radius)),
        expected=_total(rows[counted], np.nan_to_num(expected), len(radius)),
    )


def _total(plot: NDArray[np.integer], values: NDArray[np.floating] | NDArray[np.bool_], plots: int) -> Floats:
    """Sum of the values by plot."""
    return np.bincount(plot, values, minlength=plots).astype(np.float64)


def _half_turns(distance: Floats, dbh: Floats) -> Floats:
    """Half the sector that a stem hides, in turns: asin(d / 2D); NaN where the centre lies within the stem."""
    with np.errstate(invalid="ignore", divide="ignore"):
        half: Floats = np.arcsin(dbh / 200.0 / distance) / (2.0 * np.pi)
    return half


def _own_part(distance: Floats, dbh: Floats, plot: NDArray[np.integer], radius: Floats) -> Floats:
    """Each stem's part in the sum of the shadows of its plot."""
    shadow = np.nan_to_num(_half_turns(distance, dbh) * np.maximum(radius[plot] ** 2 - distance**2, 0.0))
    total = _total(plot, shadow, len(radius))[plot]
    own: Floats = np.divide(shadow, total, out=np.zeros(len(plot)), where=total > 0.0)
    return own


def _sectors(azimuth_deg: ArrayLike, distance_m: ArrayLike, dbh_cm: ArrayLike, plot: NDArray[np.integer]) -> _Sectors:
    """Sectors sorted by plot and start; one across north is parted in two."""
    distance, dbh = np.asarray(distance_m, dtype=np.float64), np.asarray(dbh_cm, dtype=np.float64)
    half = _half_turns(distance, dbh)
    middle = np.mod(np.asarray(azimuth_deg, dtype=np.float64) / 360.0, 1.0)
    used = np.flatnonzero(np.isfinite(half + middle) & (half > 0.0) & (distance > 0.0))
    half, middle, distance, row = half[used], middle[used], distance[used], np.asarray(plot, np.int64)[used]
    below, above = middle - half < 0.0, middle + half > 1.0
    start = np.concatenate([np.maximum(middle - half, 0.0), (middle - half)[below] + 1.0, np.zeros(above.sum())])
    end = np.concatenate([np.minimum(middle + half, 1.0), np.ones(below.sum()), (middle + half)[above] - 1.0])
    rows = np.concatenate([row, row[below], row[above]])
    distances = np.concatenate([distance, distance[below], distance[above]])
    start, end = start + rows, end + rows
    order = np.argsort(start, kind="stable")
    return _Sectors(start[order], end[order], distances[order], rows[order])


def _skyline(sectors: _Sectors, plots: int) -> tuple[Floats, Floats]:
    """Edges of all sectors in order, and between each two of them the nearest stem that hides; infinity for none.

    Each sector spans some of the steps between edges. The least distance over each step is found by powers of two: a
    span is two blocks that overlap, and a block hands its least down to its halves.
    """
    count = len(sectors.start)
    cuts = np.concatenate([sectors.start, sectors.end, np.arange(plots + 1, dtype=np.float64)])
    order = np.argsort(cuts, kind="stable")
    place = np.empty(len(cuts), np.int64)
    place[order] = np.arange(len(cuts))
    first, last = place[:count], place[count : 2 * count]
    level = np.frexp(np.maximum(last - first, 1))[1] - 1
    least = np.full(len(cuts), np.inf)
    for power in range(int(level.max(initial=0)), -1, -1):
        block = 1 << power
        own = np.flatnonzero((level == power) & (last > first))
        for begin in (first[own], last[own] - block):
            np.minimum.at(least, begin, sectors.distance[own])
        half = block // 2
        if half:
            least[half:] = np.minimum(least[half:], least[:-half])
    return cuts[order], least[:-1]


def _hidden_share(edges: Floats, nearest: Floats, radius: Floats) -> Floats:
    """Hidden share of each circle, from the edges and nearest stems of `_skyline`; NaN without a radius."""
    row = np.minimum(edges[:-1].astype(np.int64), len(radius) - 1)
    seen = np.minimum(nearest / radius[row], 1.0) ** 2
    share = _total(row, np.diff(edges) * (1.0 - seen), len(radius))
    return np.where(radius > 0.0, share, np.nan)


def _covered(sectors: _Sectors, at: Floats, sizes: Floats) -> Floats:
    """As `wholly_hidden`, from sectors, on several rings; `at` has shape (rings, plots), the result (.., sizes)."""
    rings, plots = at.shape
    nearer = sectors.distance < at.take(sectors.plot, axis=1)
    shares = np.zeros((rings * plots, len(sizes)))
    if not nearer.any():
        return shares.reshape(rings, plots, -1)
    count = np.count_nonzero(nearer, axis=1)
    ring = np.repeat(np.arange(rings), count)
    sector = np.flatnonzero(nearer) - ring * len(sectors.start)
    of_rings = np.split(sectors.end[sector], np.cumsum(count)[:-1])
    end = np.concatenate([np.maximum.accumulate(each) for each in of_rings])
    start, row = sectors.start[sector], sectors.plot[sector]
    # From here on each ring has its own plots.
    plot = ring * plots + row
    fresh = np.append(True, (start[1:] > end[:-1]) | (plot[1:] != plot[:-1]))
    begins = np.flatnonzero(fresh)
    begin, finish, row, plot = start[begins], end[np.append(begins[1:], len(end)) - 1], row[begins], plot[begins]
    width = finish - begin
    # North parts a piece of the union in two: what begins there takes what ends there.
    at_north, to_north = np.flatnonzero(begin == row), np.flatnonzero(finish == row + 1.0)
    if len(at_north) and len(to_north):
        _, left, right = np.intersect1d(plot[at_north], plot[to_north], return_indices=True)
        ahead, behind = at_north[left], to_north[right]
        parted = ahead != behind
        width[ahead[parted]] += width[behind[parted]]
        width[behind[parted]] = 0.0
    fits = 2.0 * np.nan_to_num(_half_turns(at.reshape(-1, 1), sizes), nan=1.0)
    # Smaller stems first: what they do not fit behind hides no thicker one.
    for number in np.argsort(sizes):
        fitting = (width > fits[plot, number]) | (width >= 1.0)
        if not fitting.any():
            break
        width, plot = width[fitting], plot[fitting]
        room = np.where(width >= 1.0, 1.0, width - fits[plot, number])
        shares[:, number] = _total(plot, room, len(shares))
    return shares.reshape(rings, plots, -1)
