"""Invented stands whose truth is known: stems at random or in groups, and which of them the centre sees."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Stand:
    """All stems of circular plots, shape (n,) each: degrees, metres, centimetres, row of the plot."""

    azimuth: Floats
    distance: Floats
    dbh: Floats
    plot: NDArray[np.int64]

    def take(self, chosen: NDArray[np.bool_]) -> Stand:
        """Some of the stems."""
        return Stand(self.azimuth[chosen], self.distance[chosen], self.dbh[chosen], self.plot[chosen])

    @property
    def records(self) -> tuple[Floats, Floats, Floats, NDArray[np.int64]]:
        """Azimuth, distance, dbh and plot."""
        return self.azimuth, self.distance, self.dbh, self.plot


def random_places(
    rng: np.random.Generator, *, per_ha: float, radius: float, plots: int
) -> tuple[Floats, Floats, NDArray[np.int64]]:
    """Places at random in discs: azimuth, distance, plot."""
    count = rng.poisson(per_ha * math.pi * radius**2 / 1e4, plots)
    n = count.sum()
    return rng.uniform(0, 360, n), radius * np.sqrt(rng.random(n)), np.repeat(np.arange(plots), count)


def grouped_places(
    rng: np.random.Generator, *, per_ha: float, radius: float, plots: int, of: float, spread: float
) -> tuple[Floats, Floats, NDArray[np.int64]]:
    """Places in Gaussian groups of `of` stems on average: azimuth, distance, plot."""
    half = radius + 4 * spread
    groups = rng.poisson(per_ha / of * 4 * half**2 / 1e4, plots)
    members = rng.poisson(of, groups.sum())
    centre = np.repeat(rng.uniform(-half, half, (groups.sum(), 2)), members, axis=0)
    xy = centre + rng.normal(0, spread, centre.shape)
    plot = np.repeat(np.repeat(np.arange(plots), groups), members)
    distance = np.hypot(*xy.T)
    within = distance < radius
    azimuth = np.degrees(np.arctan2(xy[:, 0], xy[:, 1])) % 360
    return azimuth[within], distance[within], plot[within]


def with_diameters(rng: np.random.Generator, places: tuple[Floats, Floats, NDArray[np.int64]]) -> Stand:
    """Stems of 7 cm and more, 20 cm on average, at places; none in which the crew would stand."""
    azimuth, distance, plot = places
    dbh = np.maximum(7.0, rng.gamma(6.0, 20.0 / 6.0, len(plot)))
    return Stand(azimuth, distance, dbh, plot).take(distance > dbh / 200)


def seen_from_centre(stand: Stand) -> NDArray[np.bool_]:
    """Which stems can be seen, found stem by stem: a stem is missed when nearer ones cover its whole silhouette."""
    seen = np.ones(len(stand.plot), bool)
    hidden: dict[int, list[tuple[float, float]]] = {}
    half = np.degrees(np.arcsin(stand.dbh / 200 / stand.distance)).tolist()
    azimuth, plot = stand.azimuth.tolist(), stand.plot.tolist()
    for i in np.lexsort((stand.distance, stand.plot)).tolist():
        covered = hidden.setdefault(plot[i], [])
        seen[i] = not any(a <= azimuth[i] - half[i] and azimuth[i] + half[i] <= b for a, b in covered)
        for turn in (-360, 0, 360) if seen[i] else ():
            start, end = azimuth[i] - half[i] + turn, azimuth[i] + half[i] + turn
            touching = [(a, b) for a, b in covered if a <= end and b >= start]
            covered[:] = [piece for piece in covered if piece not in touching]
            covered.append((min([start, *(a for a, _ in touching)]), max([end, *(b for _, b in touching)])))
    return seen
