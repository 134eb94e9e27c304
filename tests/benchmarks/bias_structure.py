"""Structure of patterns at random: bias of the corrections, and how often a test says more than there is.

python -m tests.benchmarks.bias_structure [donnelly] [second_order] [envelope] [sentences]

Every figure has its standard error beside it.
"""

from __future__ import annotations

import math
import sys

import numpy as np
import shapely

from stemmap.core.distances import hanisch_weights
from stemmap.core.envelopes import global_envelope
from stemmap.core.neighbours import clark_evans_by_plot, nearest
from stemmap.core.pairs import Kernel, cumulated, weighted_pairs
from stemmap.core.replicates import random_k, replicates
from stemmap.core.second_order import farthest
from stemmap.core.windows import CutDisc, Disc
from stemmap.survey.curves import SIGNIFICANT, against_chance, simulated_p

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
            for _ in range(runs // batch // (1 if name == "disc" else 5)):
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
        count = runs if name == "disc" else 3 * runs // 10
        _means(name, "translation", *_translated(window, radii, count=count, stems=stems, rng=rng), radii)


def _translated(
    window: Disc | CutDisc, radii: np.ndarray, *, count: int, stems: int, rng: np.random.Generator
) -> tuple[np.ndarray, np.ndarray]:
    """K and g with translation correction from the same pairs, as `k_function` and `pair_correlation` make them."""
    halfwidth, pairs = 0.15 / math.sqrt(stems / window.area), stems * (stems - 1)
    k, g = np.empty((count, len(radii))), np.empty((count, len(radii)))
    for row in range(count):
        xy = window.random(stems, rng)
        near = weighted_pairs(xy, window, float(radii[-1]) + halfwidth, correction="translation")
        k[row] = cumulated(near.distance, near.weight, radii) * window.area / pairs
        g[row] = Kernel(near.distance, halfwidth, radii).sums(near.weight / near.distance)
        g[row] *= window.area / (2.0 * math.pi * pairs)
    return k, g


def _means(name: str, correction: str, k: np.ndarray, g: np.ndarray, radii: np.ndarray) -> None:
    for what, values in (("K", k / (math.pi * radii**2)), ("g", g)):
        mean, error = values.mean(axis=0), values.std(axis=0) / math.sqrt(len(values))
        print(f"{what} {correction}, {name}, {len(values)} plots, r {radii}: {mean.round(4)} ({error.round(4)})")
    mean = (k / (math.pi * radii**2)).mean(axis=0)
    print(f"L {correction}, {name}, of the pooled K: {np.sqrt(mean).round(4)}", flush=True)


def envelope(runs: int = 8_000, simulations: int = 499) -> None:
    """How often a pattern at random leaves its global envelope of 95 %; each has simulations of its own."""
    rng, r = np.random.default_rng(3), np.linspace(0.25, farthest(DISC), 25)
    for stems in (10, 25, 60):
        left = []
        for _ in range(runs):
            curves = np.sqrt(random_k(stems, DISC, r, simulations + 1, rng=rng) / math.pi) - r
            left.append(bool(global_envelope(curves[0], curves[1:]).leaves.any()))
        print(
            f"Envelope, {stems} stems, {runs} runs of {simulations} simulations: outside in {_share(left)}", flush=True
        )


def sentences(runs: int = 20_000, simulations: int = 199) -> None:
    """How often the sentences about plots at random tell of a pattern; each plot has simulations of its own."""
    rng, r = np.random.default_rng(4), np.arange(1, 26) * 0.25
    for stems in (8, 15, 40):
        said: dict[str, list[bool]] = {name: [] for name in ("L", "g", "G", "nearest", "angle")}
        halfwidth = 0.15 / math.sqrt(stems / DISC.area)
        for _ in range(runs):
            points = DISC.random((simulations + 1) * stems, rng).reshape(-1, stems, 2)
            made = replicates(points, DISC, r, halfwidth=halfwidth)
            weight = hanisch_weights(made.nearest, made.to_edge, DISC)
            near = np.stack([(weight * (made.nearest <= distance)).sum(axis=1) for distance in r], axis=1)
            for name, curves in (
                ("L", np.sqrt(made.k / math.pi) - r),
                ("g", made.g),
                ("G", near[weight.any(axis=1)] / weight[weight.any(axis=1)].sum(axis=1, keepdims=True)),
            ):
                curve = against_chance(
                    r, curves, stems=stems, plots=1, above="more at {}".format, below="fewer at {}".format, neither="no"
                )
                # Where the observed stems are all too near the edge nothing is told of G.
                told = curve is not None and (name != "G" or bool(weight[0].any()))
                said[name].append(told and not curve.sentence.startswith("no"))
            known = np.isfinite(made.angle)
            counted = known.any(axis=1)
            angle = np.nansum(made.angle[counted], axis=1) / known[counted].sum(axis=1)
            for name, values in (("nearest", made.nearest.sum(axis=1)), ("angle", angle)):
                p = simulated_p(values) if known[0].any() or name == "nearest" else None
                said[name].append(p is not None and p < SIGNIFICANT)
        for name, every in said.items():
            print(f"Sentence of {name}, {stems} stems, {runs} plots at random: {_share(every)}", flush=True)


def _share(said: list[bool]) -> str:
    """Per cent with a 95 % interval."""
    share = float(np.mean(said))
    error = 1.96 * math.sqrt(share * (1.0 - share) / len(said))
    return f"{100 * share:.2f} % ({100 * (share - error):.2f} to {100 * (share + error):.2f})"


if __name__ == "__main__":
    parts = {"donnelly": donnelly, "second_order": second_order, "envelope": envelope, "sentences": sentences}
    for part in sys.argv[1:] or list(parts):
        parts[part]()
