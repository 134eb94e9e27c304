"""Reading, locating and deciding on 10^6 stems, against pandas reading the file and one k-d tree query of 4 neighbours.

Run: python tests/benchmarks/bench_main_job.py [stems]
Each part runs in a process of its own, so that peak memory is its own; ratios are of one run.
"""

from __future__ import annotations

import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import numpy as np

STEMS = int(sys.argv[1]) if len(sys.argv) > 1 and sys.argv[1].isdecimal() else 1_000_000
REPEATS = 3


def write_upload(folder: Path, stems: int) -> None:
    """An upload of random stems in one plot of 12.62 m for every 25 of them."""
    rng = np.random.default_rng(20)
    plots = max(1, stems // 25)
    plot = np.sort(rng.integers(0, plots, stems))
    azimuth = rng.integers(0, 360, stems)
    distance = 12.62 * np.sqrt(rng.random(stems))
    dbh = rng.gamma(6.0, 4.0, stems) + 7.0
    species = rng.choice(["spruce", "beech", "pine", "oak"], stems)
    with (folder / "stems.csv").open("w", encoding="utf-8") as stream:
        stream.write("plot,stem,azimuth,distance_m,dbh_cm,species\n")
        rows = zip(plot, np.arange(stems) % 60, azimuth, distance, dbh, species, strict=True)
        stream.writelines(f"P{p},{n},{a},{s:.2f},{d:.1f},{t}\n" for p, n, a, s, d, t in rows)
    lon, lat = rng.uniform(7.0, 13.0, plots), rng.uniform(47.0, 54.0, plots)
    with (folder / "plots.csv").open("w", encoding="utf-8") as stream:
        stream.write("plot,lon,lat\n")
        stream.writelines(f"P{number},{x:.6f},{y:.6f}\n" for number, (x, y) in enumerate(zip(lon, lat, strict=True)))


def baseline(folder: Path) -> None:
    """What general libraries need for reading and one neighbour query."""
    import pandas as pd
    from scipy.spatial import cKDTree

    table = pd.read_csv(folder / "stems.csv")
    angle = np.radians(table["azimuth"].to_numpy())
    distance = table["distance_m"].to_numpy()
    plot = pd.factorize(table["plot"])[0] * 1000.0
    points = np.column_stack([distance * np.sin(angle), distance * np.cos(angle), plot])
    cKDTree(points).query(points, k=5)


def main_job(folder: Path) -> None:
    """Read, measure, place in a projected system, decide in or out with probability."""
    from stemmap.progress import Progress
    from stemmap.reading import read_upload
    from stemmap.survey.measured import measure
    from stemmap.survey.place import project_points
    from stemmap.survey.settings import parse_settings
    from stemmap.survey.survey import assemble

    upload = read_upload([folder / "plots.csv", folder / "stems.csv"], progress=Progress())
    settings = {"survey": {"crs": "EPSG:25832"}, "design": {"radius_m": 12.62}}
    survey = assemble(upload, parse_settings(settings))
    measured = measure(survey)
    azimuth, distance = measured.true_azimuth_deg, measured.horizontal_distance_m
    project_points(measured.centres, "EPSG:25832", survey.stems.visit_row, azimuth, distance)


def everything(folder: Path) -> None:
    """The whole of `stemmap check` and `stemmap summary`, findings counted and not written."""
    from stemmap.survey.settings import parse_settings
    from stemmap.tasks.workup import open_uploads

    settings = parse_settings({"survey": {"crs": "EPSG:25832"}, "design": {"radius_m": 12.62}})
    open_uploads([folder / "plots.csv", folder / "stems.csv"], settings=settings)


PARTS = {part.__name__: part for part in (baseline, main_job, everything)}


def run(part: str, folder: Path) -> tuple[float, float]:
    """Seconds and peak GiB of one part in a fresh process."""
    done = subprocess.run(
        [sys.executable, __file__, part, str(folder)], capture_output=True, text=True, check=True
    ).stdout.split()
    return float(done[0]), float(done[1])


if __name__ == "__main__":
    if len(sys.argv) == 3:
        began = time.perf_counter()
        PARTS[sys.argv[1]](Path(sys.argv[2]))
        peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 2**20
        print(time.perf_counter() - began, peak)
    else:
        with tempfile.TemporaryDirectory() as name:
            write_upload(Path(name), STEMS)
            figures = {part: [run(part, Path(name)) for _ in range(REPEATS)] for part in PARTS}
        median = {part: sorted(each)[REPEATS // 2] for part, each in figures.items()}
        for part, (seconds, peak) in median.items():
            print(f"{part:12} {seconds:6.2f} s  {peak:5.2f} GiB  {seconds / median['baseline'][0]:5.2f} x baseline")
