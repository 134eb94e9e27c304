"""Reading 10^6 records of six columns against pandas reading the same file as text.

Run: ``python -m tests.benchmarks.bench_reading`` from the top of the checkout.
"""

from __future__ import annotations

import resource
import time
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
import pandas as pd

from stemmap.reading import read_upload

RECORDS = 1_000_000
REPEATS = 3


def write_records(path: Path, *, separator: str, decimal: str, rng: np.random.Generator) -> None:
    """Records as a survey of 40,000 plots would have them."""
    plot = np.repeat(np.arange(RECORDS // 25), 25)
    table = pd.DataFrame(
        {
            "plot": np.char.add("P", plot.astype(str)),
            "stem": np.tile(np.arange(1, 26), RECORDS // 25),
            "azimuth": rng.uniform(0.0, 360.0, RECORDS).round(1),
            "distance_m": rng.uniform(0.3, 12.6, RECORDS).round(2),
            "dbh_cm": (7.0 + rng.gamma(3.0, 6.0, RECORDS)).round(1),
            "species": rng.choice(["spruce", "beech", "fir", "sycamore"], RECORDS),
        }
    )
    table.to_csv(path, index=False, sep=separator, decimal=decimal)


def fastest(work: Callable[[], object]) -> float:
    """Shortest time of several runs, in seconds."""
    times = []
    for _ in range(REPEATS):
        began = time.perf_counter()
        work()
        times.append(time.perf_counter() - began)
    return min(times)


def main() -> None:
    """Print the ratios."""
    rng = np.random.default_rng(20260514)
    with TemporaryDirectory() as folder:
        for name, separator, decimal in (("comma, decimal point", ",", "."), ("semicolon, decimal comma", ";", ",")):
            path = Path(folder) / "stems.csv"
            write_records(path, separator=separator, decimal=decimal, rng=rng)
            as_text = fastest(lambda path=path, separator=separator: pd.read_csv(path, sep=separator, dtype=str))
            ours = fastest(lambda path=path: read_upload([path]))
            print(f"{name}: pandas as text {as_text:.2f} s, read_upload {ours:.2f} s, ratio {ours / as_text:.2f}")
    print(f"peak memory {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MiB")


if __name__ == "__main__":
    main()
