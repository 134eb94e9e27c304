"""Structure of patterns at random: bias of the corrections, and how often a test says more than there is.

python -m tests.benchmarks.bias_structure [donnelly] [second_order] [envelope] [sentences]

Every figure has its standard error beside it.
"""

from __future__ import annotations

import math
import sys

import numpy as np
import shapely

from stemmap.core.envelopes import global_envelope
from stemmap.core.neighbours import clark_evans_by_plot, nearest
from stemmap.core.replicates import random_k, replicates
from stemmap.core.second_order import farthest, k_function, pair_correlation
from stemmap.core.windows import CutDisc, Disc
from stemmap.survey.curves import against_chance

DISC = Disc((0.0, 0.0), 12.62)
#: What the stand edge leaves of the disc.
CUT = {
    "bent": shapely.Polygon([(-40, -40), (5, -40), (-2, -1), (6, 3), (40, 40), (-40, 40)]),
    "half": shapely.box(-40, -40, 0, 40),
    "quarter": shapely.box(-40, -40, 0, 0),
    "tip": shapely.Polygon([(9, 0), (-40, 13), (-40, -13)]),
    "strip": shapely.box(-40, -2, 40, 3),
}
WINDOWS = {"disc": DISC} | {name: CutDisc(DISC, stand) for name, stand in CUT.items()}


def donnelly(runs: int = 200_000, batch: int = 20_000) -> None:
    """Mean R and rejections at 5 % of Clark-Evans with Donnelly's correction, in a disc and in cut ones."""
    rng = np.random.default_rng(1)
    for name, window in WINDOWS.items():
        for stems in (5, 8, 12, 20, 30, 45, 60):
            r, p = [], []
            for _ in range(runs // batch):
                plot = np.repeat(np.arange(batch), stems)
                distance = nearest(window.random(batch * stems, rng), plot, 1).distance[:, 0]
                mean = distance.reshape(batch, stems).mean(axis=1)
                index = clark_evans_by_plot(mean, stems, window.area, window.perimeter)
                r.append(index.r)
                p.append(index.p)
            every, low = np.concatenate(r), np.concatenate(p) < 0.05
            print(
                f"Donnelly, {name}, {stems:2d} stems, {len(every)} runs: R {every.mean():.4f} "
                f"({every.std() / math.sqrt(len(every)):.4f}), rejected {100 * low.mean():.2f} % "
                f"({100 * low.std() / math.sqrt(len(low)):.2f})",
                flush=True,
            )


def second_order(runs: int = 20_000, stems: int = 60) -> None:
    """Mean K over π r² and g at random; L is that of the mean K, as it is when plots are pooled."""
    rng, radii = np.random.default_rng(2), np.array([2.0, 4.0, 6.0])
    for name, window in WINDOWS.items():
        halfwidth = 0.15 / math.sqrt(stems / window.area)
        k, g = [], []
        for _ in range(runs // 1000):
            made = replicates(
                window.random(1000 * stems, rng).reshape(1000, stems, 2), window, radii, halfwidth=halfwidth
            )
            k.append(made.k)
            g.append(made.g)
        _means(name, "isotropic", np.concatenate(k), np.concatenate(g), radii)
        count = runs if name == "disc" else runs // 8
        k, g = [], []
        for _ in range(count):
            xy = window.random(stems, rng)
            k.append(k_function(xy, window, radii, correction="translation"))
            g.append(pair_correlation(xy, window, radii, correction="translation"))
        _means(name, "translation", np.array(k), np.array(g), radii)


def _means(name: str, correction: str, k: np.ndarray, g: np.ndarray, radii: np.ndarray) -> None:
    for what, values in (("K", k / (math.pi * radii**2)), ("g", g)):
        mean, error = values.mean(axis=0), values.std(axis=0) / math.sqrt(len(values))
        print(f"{what} {correction}, {name}, {len(values)} plots, r {radii}: {mean.round(4)} ({error.round(4)})")
    mean = (k / (math.pi * radii**2)).mean(axis=0)
    print(f"L {correction}, {name}, of the pooled K: {np.sqrt(mean).round(4)}", flush=True)


def envelope(runs: int = 4_000, simulations: int = 499) -> None:
    """How often a pattern at random leaves its global envelope of 95 %."""
    rng = np.random.default_rng(3)
    for stems in (10, 25, 60):
        r = np.linspace(0.25, farthest(DISC), 25)
        curves = np.sqrt(random_k(stems, DISC, r, runs * 1, rng=rng) / math.pi) - r
        chance = np.sqrt(random_k(stems, DISC, r, 40 * simulations, rng=rng) / math.pi) - r
        low, said = [], []
        for row, curve in enumerate(curves):
            first = row % 40 * simulations
            made = global_envelope(curve, chance[first : first + simulations])
            low.append(made.p <= 0.05)
            said.append(bool(made.leaves.any()))
        print(
            f"Envelope, {stems} stems, {runs} runs of {simulations} simulations: "
            f"p <= 0.05 in {100 * np.mean(low):.2f} %, "
            f"outside in {100 * np.mean(said):.2f} % ({100 * np.std(low) / math.sqrt(runs):.2f})",
            flush=True,
        )


def sentences(runs: int = 4_000, simulations: int = 199) -> None:
    """How often the sentence under L says clumped or regular of a plot at random."""
    rng, r = np.random.default_rng(4), np.arange(1, 13) * 0.5
    for stems in (8, 15, 40):
        said = 0
        for _ in range(runs):
            curves = np.sqrt(random_k(stems, DISC, r, simulations + 1, rng=rng) / math.pi) - r
            curve = against_chance(
                r,
                curves,
                stems=stems,
                plots=1,
                above="clumped at {}".format,
                below="regular at {}".format,
                neither="no departure from chance",
            )
            said += curve is not None and not curve.sentence.startswith("no departure")
        share = said / runs
        error = math.sqrt(share * (1.0 - share) / runs)
        print(f"Sentences, {stems} stems, {runs} plots at random: {100 * share:.2f} % ({100 * error:.2f})", flush=True)


if __name__ == "__main__":
    parts = {"donnelly": donnelly, "second_order": second_order, "envelope": envelope, "sentences": sentences}
    for part in sys.argv[1:] or list(parts):
        parts[part]()
