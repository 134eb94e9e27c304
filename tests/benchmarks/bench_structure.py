"""Second-order values against general libraries, in one run.

python -m tests.benchmarks.bench_structure [PYTHON]

K of 3,604 stems at 513 distances against R spatstat (needs Rscript with spatstat.explore); 999 simulations of a plot of
40 stems with isotropic correction and their envelope against 99 of pointpats without correction (needs the path of a
python that has it; left out when none is given).
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np

from stemmap.core.envelopes import global_envelope
from stemmap.core.replicates import random_k
from stemmap.core.second_order import farthest, k_function
from stemmap.core.windows import Disc, Rectangle

R_SCRIPT = """
suppressPackageStartupMessages(library(spatstat.explore))
p <- read.csv("{file}", header = FALSE)
X <- ppp(p$V1, p$V2, window = owin(c(0, 1000), c(0, 500)))
r <- seq(0, 125, length.out = 513)
seconds <- replicate(7, system.time(Kest(X, r = r, correction = "isotropic"))[["elapsed"]])
k <- Kest(X, r = r, correction = "isotropic")
cat(min(seconds), format(k$iso[c(100, 513)], digits = 15))
"""

POINTPATS = """
import time, numpy as np
from pointpats import k_test
rng = np.random.default_rng(1)
a, d = 2 * np.pi * rng.random(40), 12.62 * np.sqrt(rng.random(40))
xy = np.column_stack([d * np.sin(a), d * np.cos(a)])
begin = time.perf_counter()
k_test(xy, support=np.linspace(0.25, 6.31, 25), keep_simulations=True, n_simulations=99, edge_correction=None)
print(time.perf_counter() - begin)
"""


def best(work: Callable[[], object]) -> float:
    """Shortest of a few runs, seconds."""
    seconds = []
    for _ in range(7):
        begin = time.perf_counter()
        work()
        seconds.append(time.perf_counter() - begin)
    return min(seconds)


def main() -> None:
    """Print the seconds and the ratios."""
    rng = np.random.default_rng(1)
    window, radii = Rectangle(0.0, 0.0, 1000.0, 500.0), np.linspace(0.0, 125.0, 513)
    xy = window.random(3604, rng)
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "stems.csv"
        np.savetxt(file, xy, delimiter=",", fmt="%.17g")
        script = Path(folder) / "kest.R"
        script.write_text(R_SCRIPT.format(file=file), "utf-8")
        answer = subprocess.run(["Rscript", str(script)], capture_output=True, text=True, check=True).stdout.split()
    library = float(answer[0])
    own = best(lambda: k_function(xy, window, radii))
    print(f"K, R spatstat {library:.3f} s, own {own:.3f} s, ratio {own / library:.2f}")
    difference = np.abs(k_function(xy, window, radii)[[99, 512]] / np.array(answer[1:], dtype=float) - 1.0)
    print(f"largest relative difference {difference.max():.1e}")

    disc = Disc((0.0, 0.0), 12.62)
    r = np.linspace(0.25, farthest(disc), 25)
    stems = disc.random(40, rng)

    def envelope() -> None:
        global_envelope(k_function(stems, disc, r), random_k(40, disc, r, 999, rng=rng))

    own = best(envelope)
    print(f"999 simulations and their envelope {own:.3f} s")
    for python in sys.argv[1:]:
        answer = subprocess.run([python, "-c", POINTPATS], capture_output=True, text=True, check=True).stdout.split()
        print(f"99 of pointpats {float(answer[-1]):.3f} s, ratio {own / float(answer[-1]):.4f}")


if __name__ == "__main__":
    main()
