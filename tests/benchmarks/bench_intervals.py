"""How often 95 % intervals of missed stems hold, over stands of many kinds and densities.

python -m tests.benchmarks.bench_intervals [plots]
"""

import sys

import numpy as np

from stemmap.core.missed import missed
from stemmap.core.visibility import grouping, seen_probability
from tests.stands import grouped_places, random_places, seen_from_centre, with_diameters

#: Stems a hectare, radius; for groups also how many stems on average, and their spread in metres.
STANDS = [
    (None, 400, 12.62),
    (None, 800, 12.62),
    (None, 1200, 12.62),
    (None, 2000, 10.0),
    ((4, 1.5), 400, 12.62),
    ((4, 1.5), 800, 12.62),
    ((6, 2.5), 600, 12.62),
    ((6, 2.5), 1200, 12.62),
    ((10, 1.5), 600, 12.62),
    ((10, 4.0), 600, 12.62),
    ((10, 4.0), 1200, 10.0),
    ((20, 3.0), 1000, 12.62),
    ((3, 0.8), 700, 12.62),
    ((5, 3.0), 900, 12.62),
    ((8, 2.0), 500, 15.0),
    ((15, 6.0), 800, 12.62),
    ((30, 5.0), 900, 9.0),
]


def main() -> None:
    """Print coverage, bias and width for each kind of stand, and the share of plots on which nothing was missed."""
    plots = int(sys.argv[1]) if len(sys.argv) > 1 else 2000
    print("groups      per ha  radius   held   below  above   expected/true  missed a plot  none missed  width")
    held = []
    for number, (of, per_ha, radius) in enumerate(STANDS):
        rng = np.random.default_rng(100 + number)
        where = {"per_ha": per_ha, "radius": radius, "plots": plots}
        places = random_places(rng, **where) if of is None else grouped_places(rng, **where, of=of[0], spread=of[1])
        stand = with_diameters(rng, places)
        seen = seen_from_centre(stand)
        true = np.bincount(stand.plot, ~seen, minlength=plots)
        records = stand.take(seen).records
        radii = np.full(plots, radius)
        chance = seen_probability(*records, radius_m=radii)
        grouped = grouping(*records, radius_m=radii, probability=chance)
        made = missed(chance, records[3], plots=plots, grouped=grouped)
        below, above = np.mean(true < made.low), np.mean(true > made.high)
        held.append(1.0 - below - above)
        name = "at random" if of is None else f"{of[0]} in {of[1]} m"
        print(
            f"{name:10} {per_ha:7} {radius:7} {held[-1]:7.3f} {below:7.3f} {above:6.3f}"
            f" {made.expected.sum() / true.sum():12.3f} {true.mean():14.2f} {np.mean(true == 0):12.2f}"
            f" {np.mean(made.high - made.low):8.2f}",
            flush=True,
        )
    print(f"held in {min(held):.3f} to {max(held):.3f} of all plots")


if __name__ == "__main__":
    main()
