"""Indices of 10^6 stems in 40,000 plots against one k-d tree query of the same stems, in one run; growth with size.

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

SIZES, STEMS_A_PLOT, RADIUS, REPEATS = (10_000, 100_000, 1_000_000), 25, 12.62, 3


def best(work: Callable[[], object]) -> float:
    """Shortest of a few runs, seconds."""
    seconds = []
    for _ in range(REPEATS):
        begin = time.perf_counter()
        work()
        seconds.append(time.perf_counter() - begin)
    return min(seconds)


def survey(stems: int) -> tuple[Callable[[], object], Callable[[], object]]:
    """Give the yardstick, a query of a tree on one core, and the indices of a survey of so many stems."""
    rng = np.random.default_rng(1)
    plots = stems // STEMS_A_PLOT
    plot = np.sort(rng.integers(0, plots, stems))
    distance, azimuth = RADIUS * np.sqrt(rng.random(stems)), 2.0 * math.pi * rng.random(stems)
    centre = rng.uniform(0.0, 100_000.0, (plots, 2))
    xy = centre[plot] + np.column_stack([distance * np.sin(azimuth), distance * np.cos(azimuth)])
    species, dbh = rng.integers(0, 6, stems), rng.uniform(7.0, 60.0, stems)
    disc = Disc((0.0, 0.0), RADIUS)

    def query() -> None:
        tree = cKDTree(xy)
        tree.query(xy, k=5)

    def indices() -> None:
        around = neighbourhoods(
            xy, plot, plots=plots, species=species, dbh=dbh, edge="nearest", to_edge=RADIUS - distance
        )
        for correction in ("none", "donnelly"):
            clark_evans_by_plot(around.mean_nearest, around.stems, disc.area, disc.perimeter, correction=correction)

    return query, indices


def main() -> None:
    """Print the seconds, the ratio and the exponent."""
    seconds = {}
    for stems in SIZES:
        query, indices = survey(stems)
        yardstick, seconds[stems] = best(query), best(indices)
        print(f"{stems:8d} stems: k-d tree built and asked for 5 stems, one core       {yardstick:6.3f} s")
        print(f"    Clark-Evans, uniform angle, mingling, differentiation, dominance {seconds[stems]:6.3f} s")
        print(f"    ratio {seconds[stems] / yardstick:.2f}")
    slope = np.polyfit(np.log(SIZES), np.log([seconds[stems] for stems in SIZES]), 1)[0]
    print(f"exponent of growth {slope:.3f}")


if __name__ == "__main__":
    main()
