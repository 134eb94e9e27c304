"""A lost plot centre found again from stems whose places are known: which three to choose."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]

#: Three stems are chosen among so many of the thickest, which a crew finds soonest and which still stand.
THICKEST = 12


@dataclass(frozen=True)
class ThreeStems:
    """Three stems around a centre.

    Parameters
    ----------
    stems
        Their places among those given, clockwise from north, shape (3,).
    widest_gap_deg
        Widest angle at the centre between two neighbours of them; 120 at best.
    sd_m
        Standard deviation of the centre that their distances give, the root of the sum over both axes.
    """

    stems: NDArray[np.intp]
    widest_gap_deg: float
    sd_m: float


def three_around(
    azimuth_deg: ArrayLike, distance_m: ArrayLike, dbh_cm: ArrayLike, distance_sd_m: ArrayLike
) -> ThreeStems | None:
    """Choose three stems from which a centre is found again by their distances (resection).

    A distance r with standard deviation s holds the centre on a circle around the stem: it adds u u' / s^2 to the
    information on the place of the centre, where u is the unit vector towards the stem; the inverse of the sum is the
    centre's covariance (least squares; Mikhail and Ackermann 1976, from memory). With equal s its trace is 4/3 s^2,
    the least that three can give, where they stand 120 degrees apart. Chosen is the least trace among the triples
    around the centre, since from three on one side a second, wrong place fits nearly as well; where no triple stands
    around it, the triple with the narrowest gap.

    Parameters
    ----------
    azimuth_deg, distance_m
        From the centre to each stem, shape (n,); NaN where not known. A stem without them is not chosen.
    dbh_cm
        Thickness, shape (n,): among the `THICKEST` stems the three are chosen; NaN counts as thin.
    distance_sd_m
        Standard deviation of each distance, above 0, shape (n,).

    Returns
    -------
    None where fewer than three stems can be used or all lie in one line with the centre.

    Examples
    --------
    >>> three_around([0.0, 90.0, 120.0, 240.0], [5.0, 5.0, 5.0, 5.0], 30.0, 0.05).stems
    array([0, 2, 3])
    """
    azimuth, distance, dbh, sd = np.broadcast_arrays(
        *(np.asarray(values, dtype=np.float64) for values in (azimuth_deg, distance_m, dbh_cm, distance_sd_m))
    )
    usable = np.flatnonzero(np.isfinite(azimuth) & (distance > 0.0))
    thick = usable[np.argsort(-np.nan_to_num(dbh[usable]), kind="stable")][:THICKEST]
    if len(thick) < 3:
        return None
    triples = thick[np.array(list(combinations(range(len(thick)), 3)))]
    around = np.sort(azimuth[triples] % 360.0, axis=1)
    gap = np.diff(around, axis=1, append=around[:, :1] + 360.0).max(axis=1)
    trace = _trace(np.radians(azimuth[triples]), 1.0 / np.square(sd[triples]))
    possible = np.isfinite(trace)
    if not possible.any():
        return None
    closed = possible & (gap < 180.0)
    best = np.argmin(np.where(closed, trace, np.inf)) if closed.any() else np.argmin(np.where(possible, gap, np.inf))
    stems = triples[best]
    return ThreeStems(
        stems[np.argsort(azimuth[stems] % 360.0)].astype(np.intp), float(gap[best]), float(np.sqrt(trace[best]))
    )


def _trace(azimuth: Floats, weight: Floats) -> Floats:
    """Trace of the centre's covariance by triple; infinite where the stems lie in one line with it."""
    east, north = np.sin(azimuth), np.cos(azimuth)
    a = (weight * east * east).sum(axis=1)
    b = (weight * north * north).sum(axis=1)
    c = (weight * east * north).sum(axis=1)
    determinant = a * b - c * c
    flat = determinant <= 1e-9 * np.square(a + b)
    return np.where(flat, np.inf, (a + b) / np.where(flat, 1.0, determinant))
