"""Indices of 10^6 stems in 40,000 plots against one k-d tree query of the same stems, in one run.

python tests/benchmarks/bench_neighbours.py
"""

from __future__ import annotations

import math
import time
from collections.abc import Callable

import numpy as np
from scipy.spatial import cKDTree

from stemmap.core.neighbours import clark_evans_by_plot, neighbourhoods
from stemmap.core.windows import Disc

STEMS, PLOTS, RADIUS, REPEATS = 1_000_000, 40_000, 12.62, 3


def best(work: Callable[[], object]) -> float:
    """Shortest of a few runs, seconds."""
    seconds = []
    for _ in range(REPEATS):
        begin = time.perf_counter()
        work()
        seconds.append(time.perf_counter() - begin)
    return min(seconds)


def main() -> None:
    """Print the seconds and the ratio."""
    rng = np.random.default_rng(1)
    plot = np.sort(rng.integers(0, PLOTS, STEMS))
    distance, azimuth = RADIUS * np.sqrt(rng.random(STEMS)), 2.0 * math.pi * rng.random(STEMS)
    centre = rng.uniform(0.0, 100_000.0, (PLOTS, 2))
    xy = centre[plot] + np.column_stack([distance * np.sin(azimuth), distance * np.cos(azimuth)])
    species = rng.integers(0, 6, STEMS)
    disc = Disc((0.0, 0.0), RADIUS)

    def query() -> None:
        cKDTree(xy).query(xy, k=5, workers=-1)

    def indices() -> None:
        around = neighbourhoods(xy, plot, plots=PLOTS, species=species, edge="nearest", to_edge=RADIUS - distance)
        for correction in ("none", "donnelly"):
            clark_evans_by_plot(around.mean_nearest, around.stems, disc.area, disc.perimeter, correction=correction)

    yardstick, own = best(query), best(indices)
    print(f"k-d tree built and asked for 5 stems, all cores  {yardstick:6.2f} s")
    print(f"Clark-Evans, uniform angle, mingling             {own:6.2f} s   ratio {own / yardstick:.2f}")


if __name__ == "__main__":
    main()
