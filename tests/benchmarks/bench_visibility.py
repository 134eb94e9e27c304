"""Hidden ground and missed stems of a million stems on 40,000 plots.

python tests/benchmarks/bench_visibility.py
"""

from time import perf_counter

import numpy as np

from stemmap.core.missed import missed
from stemmap.core.visibility import grouping, hidden_ground, seen_probability


def main() -> None:
    """Print the seconds."""
    rng = np.random.default_rng(1)
    stems, plots = 1_000_000, 40_000
    plot = np.sort(rng.integers(0, plots, stems))
    records = rng.uniform(0, 360, stems), 12.62 * np.sqrt(rng.random(stems)), 7 + rng.gamma(6, 4, stems), plot
    radius = np.full(plots, 12.62)

    began = perf_counter()
    ground = hidden_ground(*records, radius_m=radius)
    print(f"hidden ground          {perf_counter() - began:6.2f} s   {len(ground.plot)} sectors")
    began = perf_counter()
    chance = seen_probability(*records, radius_m=radius)
    print(f"probability to be seen {perf_counter() - began:6.2f} s")
    began = perf_counter()
    grouped = grouping(*records, radius_m=radius, probability=chance)
    print(f"grouping               {perf_counter() - began:6.2f} s")
    began = perf_counter()
    made = missed(chance, plot, plots=plots, grouped=grouped)
    print(f"missed stems           {perf_counter() - began:6.2f} s   {made.expected.mean():.2f} a plot")


if __name__ == "__main__":
    main()
