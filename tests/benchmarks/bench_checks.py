"""All checks on 10^6 records of 40,000 plots and two visits, and one plot checked again alone.

Run: python -m tests.benchmarks.bench_checks [records]
All checks are held against pandas reading the file and one k-d tree query of 4 neighbours. Each part runs in a process
of its own, so that peak memory is its own; ratios are of one run.
"""

from __future__ import annotations

import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from stemmap.tasks.workup import Workup

RECORDS = int(sys.argv[1]) if len(sys.argv) > 1 and sys.argv[1].isdecimal() else 1_000_000
PER_PLOT = 25
RADIUS_M = 12.62
WRONG = 0.003
REPEATS = 3


def write_upload(folder: Path, records: int) -> None:
    """Plots of two visits that kept their numbers; 3 of 1,000 records wrong, half of them read from the other end."""
    import pandas as pd
    from scipy.spatial import cKDTree

    rng = np.random.default_rng(4)
    plots = max(1, records // PER_PLOT)
    trees = int(0.55 * records)
    plot = rng.integers(0, plots, trees)
    angle, distance = rng.uniform(0.0, 360.0, trees), RADIUS_M * np.sqrt(rng.random(trees))
    x, y = distance * np.sin(np.radians(angle)), distance * np.cos(np.radians(angle))
    # No tree stands in another one.
    close = cKDTree(np.column_stack([x, y, plot * 100.0])).query_pairs(0.8, output_type="ndarray")
    stands = np.ones(trees, bool)
    stands[close.max(axis=1)] = False
    plot, angle, distance = plot[stands], angle[stands], distance[stands]
    order = np.lexsort((angle, plot))
    plot, angle, distance = plot[order], angle[order], distance[order]
    first = np.searchsorted(plot, plot)
    trees = len(plot)
    dbh = rng.gamma(6.0, 4.0, trees) + 7.0
    species = rng.choice(["spruce", "beech", "pine", "oak"], trees)
    number = np.arange(trees) - first + 1
    # Those that came get the next numbers of their plot.
    came = rng.random(trees) < 0.05
    number = number + came * 60
    tables, planted = [], None
    for visit, here in (("2016-06-01", ~came), ("2026-06-01", came | (rng.random(trees) < 0.95))):
        rows = np.flatnonzero(here)
        azimuth = np.round(angle[rows] + rng.normal(0.0, 1.0, len(rows))) % 360.0
        reach = np.round(np.maximum(distance[rows] + rng.normal(0.0, 0.05, len(rows)), 0.3), 2)
        grown = dbh[rows] + (rng.normal(3.0, 1.5, len(rows)) if visit > "2020" else 0.0)
        thick = np.round(np.maximum(grown, 7.0), 1)
        if visit > "2020":
            wrong = rng.permutation(len(rows))[: int(WRONG * len(rows))]
            back, near, thin = np.split(wrong, [len(wrong) // 2, 3 * len(wrong) // 4])
            azimuth[back] = (azimuth[back] + 180.0) % 360.0
            reach[near] = np.round(reach[near] / 10.0, 2)
            thick[thin] = np.round(thick[thin] * 10.0, 1)
            far = back[reach[back] > 1.0]
            planted = pd.DataFrame({"plot": plot[rows[far]], "stem": number[rows[far]]})
        tables.append(
            pd.DataFrame(
                {
                    "plot": plot[rows],
                    "visit": visit,
                    "stem": number[rows],
                    "azimuth": azimuth.astype(int),
                    "distance_m": reach,
                    "dbh_cm": thick,
                    "species": species[rows],
                }
            )
        )
    assert planted is not None
    table = pd.concat(tables)
    table = table.iloc[np.lexsort((table["stem"], table["visit"], table["plot"]))]
    table["plot"] = "P" + table["plot"].astype(str)
    planted["plot"] = "P" + planted["plot"].astype(str)
    table.to_csv(folder / "stems.csv", index=False)
    planted.to_csv(folder / "planted.csv", index=False)


def baseline(folder: Path) -> str:
    """What general libraries need for reading and one neighbour query."""
    import pandas as pd
    from scipy.spatial import cKDTree

    table = pd.read_csv(folder / "stems.csv")
    angle = np.radians(table["azimuth"].to_numpy())
    distance = table["distance_m"].to_numpy()
    level = pd.factorize(table["plot"] + table["visit"])[0] * 1000.0
    points = np.column_stack([distance * np.sin(angle), distance * np.cos(angle), level])
    cKDTree(points).query(points, k=5)
    return ""


def everything(folder: Path) -> str:
    """The whole of `stemmap check`, findings counted and not written."""
    _work_up(folder)
    return ""


def again(folder: Path) -> str:
    """Median milliseconds of one plot checked again, and shares of planted errors found and of right records told."""
    from stemmap.survey.decided import Decisions
    from stemmap.survey.journal import Change, Entry
    from stemmap.tasks.workup import decide_again

    workup = _work_up(folder)
    visits, records = workup.survey.visits, workup.survey.stems.records
    times = []
    for visit in np.random.default_rng(1).integers(0, len(visits), 30):
        row = visits.first_stem[visit]
        change = Change(int(records.source[row]), int(records.line[row]), "dbh_cm", None, "21.5")
        value = Entry(
            *(1, "2026-11-25T12:00:00.000Z", "Ida", "-", visits.plot[visit], visits.visit[visit], None, "value"),
            *("dbh_cm", None, "21.5", "", change.source, change.line, 1, None, (change,)),
        )
        began = time.perf_counter()
        decide_again(workup, Decisions((value,)))
        times.append(1000.0 * (time.perf_counter() - began))
    return f"{np.median(times)} {_found(folder, workup)}"


def _work_up(folder: Path) -> Workup:
    from stemmap.survey.settings import parse_settings
    from stemmap.tasks.workup import open_uploads

    settings = parse_settings({"design": {"radius_m": RADIUS_M, "min_dbh_cm": 7.0}})
    return open_uploads([folder / "stems.csv"], settings=settings)


def _found(folder: Path, workup: Workup) -> float:
    """Share of the planted back bearings that are told as a warning or an error."""
    import pandas as pd

    survey, findings = workup.survey, workup.findings
    planted = pd.read_csv(folder / "planted.csv", dtype=str)
    wanted = set(zip(planted["plot"], planted["stem"], strict=True))
    told = set()
    for number, (check, batch) in enumerate(findings.batches):
        if check.slug == "mistyped" and findings.severity_of(number) != "note":
            plots = survey.visits.plot[batch.visit].tolist()
            told |= set(zip(plots, (survey.stems.label(int(stem)) for stem in batch.stem), strict=True))
    return len(wanted & told) / len(wanted)


PARTS = {part.__name__: part for part in (baseline, everything, again)}


def run(part: str, folder: Path) -> list[float]:
    """Seconds, peak GiB and what else one part tells, in a fresh process."""
    command = [sys.executable, "-m", "tests.benchmarks.bench_checks", part, str(folder)]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    return [float(text) for text in done.stdout.split()]


if __name__ == "__main__":
    if len(sys.argv) == 3:
        began = time.perf_counter()
        rest = PARTS[sys.argv[1]](Path(sys.argv[2]))
        peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 2**20
        print(time.perf_counter() - began, peak, rest)
    else:
        with tempfile.TemporaryDirectory() as name:
            write_upload(Path(name), RECORDS)
            figures = [[run(part, Path(name)) for part in ("baseline", "everything")] for _ in range(REPEATS)]
            _, _, milliseconds, found = run("again", Path(name))
        ratios = sorted(checked[0] / plain[0] for plain, checked in figures)
        plain, checked = sorted(figures, key=lambda pair: pair[1][0])[REPEATS // 2]
        print(f"baseline {plain[0]:.2f} s, all checks {checked[0]:.2f} s and {checked[1]:.2f} GiB")
        print(f"ratio {ratios[REPEATS // 2]:.2f} ({ratios[0]:.2f} to {ratios[-1]:.2f})")
        print(f"planted back bearings found {found:.4f}; one plot again {milliseconds:.0f} ms")
