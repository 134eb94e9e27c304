"""How long `project` takes against one plain transformation of the same points.

Run: python tests/benchmarks/bench_locate.py
"""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable

import numpy as np
from pyproj import Transformer

from stemmap.core.locate import project

PLOTS, STEMS, RUNS = 40_000, 1_000_000, 7
SYSTEMS = {
    "EPSG:32632": (6, 12, 47, 54),
    "EPSG:3035": (6, 12, 47, 54),
    "EPSG:2056": (6, 10, 46, 47.7),
    "EPSG:27700": (-5, 1, 50, 58),
    "EPSG:3857": (6, 12, 47, 54),
}


def seconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def main() -> None:
    rng = np.random.default_rng(1)
    plot = np.sort(rng.integers(PLOTS, size=STEMS))
    azimuth, distance = rng.uniform(0, 360, STEMS), 17.84 * np.sqrt(rng.uniform(0, 1, STEMS))
    for crs, (west, east, south, north) in SYSTEMS.items():
        lon, lat = rng.uniform(west, east, PLOTS), rng.uniform(south, north, PLOTS)
        transformer = Transformer.from_crs("EPSG:4326", crs, always_xy=True)
        # The same points: where the stems stand, as longitude and latitude.
        stems = {"plot_of_stem": plot, "true_azimuth_deg": azimuth, "distance_m": distance}
        stem_lon, stem_lat = project(lon, lat, "EPSG:4326", **stems, target_crs="EPSG:4326")
        transformer.transform(9.0, 50.0)
        ratios, times = [], []
        for _ in range(RUNS):
            plain = seconds(lambda t=transformer, a=stem_lon, b=stem_lat: t.transform(a, b))
            ours = seconds(lambda c=crs, s=stems, a=lon, b=lat: project(a, b, "EPSG:4326", **s, target_crs=c))
            ratios.append(ours / plain)
            times.append(ours)
        print(
            f"{crs:12} {STEMS:,} stems on {PLOTS:,} plots: {statistics.median(times):.2f} s, "
            f"{statistics.median(ratios):.2f} x one transformation"
        )


if __name__ == "__main__":
    main()
