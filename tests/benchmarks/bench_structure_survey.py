"""Spatial structure of a whole survey: 10^6 stems at random in 40,000 plots, each against 199 simulations.

python -m tests.benchmarks.bench_structure_survey [plots]
"""

from __future__ import annotations

import resource
import sys
import tempfile
import time
from pathlib import Path

import numpy as np

from stemmap.survey.settings import Settings
from stemmap.survey.structure import structure
from stemmap.tasks.workup import open_uploads

STEMS_A_PLOT, RADIUS = 25, 12.62


def upload(folder: Path, plots: int) -> Path:
    """Write the survey as a CSV file."""
    import pandas as pd

    rng = np.random.default_rng(1)
    plot = np.repeat(np.arange(plots), rng.poisson(STEMS_A_PLOT, plots))
    stems = len(plot)
    columns = {
        "plot": plot + 1,
        "easting": 400_000 + plot % 200 * 100,
        "northing": 5_500_000 + plot // 200 * 100,
        "crs": "EPSG:25832",
        "tree": np.arange(stems) + 1,
        "azimuth": (rng.random(stems) * 360.0).round(1),
        "distance_m": (RADIUS * np.sqrt(rng.random(stems))).round(2),
        "dbh_cm": rng.uniform(7.0, 60.0, stems).round(1),
        "species": rng.choice(["beech", "oak", "ash", "spruce"], stems),
    }
    path = folder / "stems.csv"
    pd.DataFrame(columns).to_csv(path, index=False)
    return path


def main() -> None:
    """Print seconds and memory."""
    plots = int(sys.argv[1]) if len(sys.argv) > 1 else 40_000
    with tempfile.TemporaryDirectory() as folder:
        path = upload(Path(folder), plots)
        summary = open_uploads([path], settings=Settings().having("design.radius_m", RADIUS)).summary
        wall, cores = time.perf_counter(), time.process_time()
        made = structure(summary)
        wall, cores = time.perf_counter() - wall, time.process_time() - cores
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 2**20
    print(f"{plots} plots, {made.pooled.stems} stems: {wall:.0f} s, {cores:.0f} s of all cores, {memory:.2f} GiB")
    told = sum(not plot.curves["l_minus_r"].sentence.startswith("Neither") for plot in made.plots if plot.curves)
    print(f"said to be clumped or regular: {100.0 * told / sum(bool(plot.curves) for plot in made.plots):.2f} %")


if __name__ == "__main__":
    main()
