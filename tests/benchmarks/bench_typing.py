"""Typing findings on invented plots with known errors: found, proposed right, false alarms, and calibration.

Run: python -m tests.benchmarks.bench_typing [plots] [seed] [part of a variant's name]
"""

from __future__ import annotations

import sys

import numpy as np
from numpy.typing import NDArray
from scipy.stats import binom

from stemmap.checks.evidence.posterior import posterior
from stemmap.checks.evidence.proposals import proposed
from stemmap.survey.measured import measure
from stemmap.survey.registry import Case
from tests.benchmarks.mistyped_plots import Plots, Recipe, simulate, variants
from tests.benchmarks.typing_ceiling import wrong_by_the_recipe
from tests.uploads import survey

TOLERANCE = (3.0, 0.15, 0.5)
CUTS = (0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95)


class Judged:
    """By record of the visit to check: probability of being wrong, best proposal, and the truth."""

    def __init__(self, made: Plots, recipe: Recipe) -> None:
        settings = {"errors": {"dbh_sd_mm": 2}, "design": {"kind": "fixed", "min_dbh_cm": 5}}
        plots = {"plot": list(made.radius), "radius_m": [str(each) for each in made.radius.values()]}
        case = Case(loaded := survey(made.columns, plots=plots, settings=settings), measure(loaded))
        found, best = case.once(posterior), case.once(proposed)
        stems = loaded.stems
        column = {name: stems.records.columns[name] for name in ("plot", "visit", "stem")}
        self.keys = [
            (str(column["plot"].labels[p]), str(column["stem"].labels[s]))
            for p, s in zip(column["plot"].codes, column["stem"].codes, strict=True)
        ]
        self.now = np.array([str(column["visit"].labels[code]) == "2026-09-01" for code in column["visit"].codes])
        self.wrong = np.zeros(len(self.keys))
        self.wrong[found.doubted.rows] = 1.0 - found.right
        self.said, self.right = np.zeros(len(self.keys)), np.zeros(len(self.keys), bool)
        truth = [made.truth.get(key) if now else None for key, now in zip(self.keys, self.now, strict=True)]
        for place, row in enumerate(found.doubted.rows):
            meaning = best.meaning[place, 0]
            self.said[row] = best.probability[place, 0]
            if meaning >= 0 and (told := truth[row]) is not None:
                quantity = found.meant.quantity[meaning]
                off = abs(found.meant.value[meaning] - float(told[2]))
                off = min(off, 360.0 - off) if quantity == 0 else off
                self.right[row] = bool(quantity == told[1] and off <= TOLERANCE[quantity])
        twins = {key for key, told in made.truth.items() if told[0] == "duplicate_record"}
        self.beside = np.array([now and key in made.twins for key, now in zip(self.keys, self.now, strict=True)])
        self.is_wrong = np.array([told is not None for told in truth])
        self.kind = np.array(["" if told is None else told[0] for told in truth])
        self.moved = np.array([0.0 if told is None else told[3] for told in truth]) * np.array(
            [key not in twins for key in self.keys]
        )


def curve(name: str, chance: NDArray[np.float64], judged: Judged) -> None:
    """Found against false alarms at several cuts."""
    big, clean = judged.moved > 1.0, judged.now & ~judged.is_wrong & ~judged.beside
    line = [f"{cut:g}: {(chance[big] > cut).mean():.3f}/{100 * (chance[clean] > cut).mean():.2f}%" for cut in CUTS]
    print(f"  {name}: cut: found/false  " + "  ".join(line))


def tenths(name: str, chance: NDArray[np.float64], true: NDArray[np.bool_]) -> None:
    """Whether probabilities hold, tenth by tenth with 100 cases or more."""
    words = []
    for low in np.arange(10) / 10.0:
        some = (chance > max(low, 0.02)) & (chance <= low + 0.1)
        if some.sum() >= 100:
            lowest, highest = binom.interval(0.99, some.sum(), chance[some].mean())
            mark = "" if lowest <= true[some].sum() <= highest else " OUT"
            words.append(f"{chance[some].mean():.2f}->{true[some].mean():.2f} ({some.sum()}){mark}")
    print(f"  {name}: " + "  ".join(words))


def main() -> None:
    plots = int(sys.argv[1]) if len(sys.argv) > 1 else 400
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    only = sys.argv[3] if len(sys.argv) > 3 else ""
    for number, (name, recipe) in enumerate(variants(plots).items()):
        if only not in name:
            continue
        made = simulate(np.random.default_rng((seed, number)), recipe)
        judged = Judged(made, recipe)
        told, big, clean = judged.wrong > 0.5, judged.moved > 1.0, judged.now & ~judged.is_wrong & ~judged.beside
        found = told[big].mean() if big.any() else np.nan
        right = (told & judged.right)[big].mean() if big.any() else np.nan
        print(f"{name}: {big.sum()} errors > 1 m, found {found:.3f}, right {right:.3f}, "
              f"false {100 * told[clean].mean():.3f}%; warnings {(told & judged.now).sum()}, "
              f"real {(told & judged.is_wrong).sum()}; plots {plots}, "
              f"clean plots with a warning {_clean_plots_told(judged, told)}")
        if recipe.errors:
            curve("ours", judged.wrong, judged)
            tenths("probability wrong", judged.wrong[judged.now], judged.is_wrong[judged.now])
            some = judged.now & (judged.said > 0.0)
            tenths("best proposal", judged.said[some], judged.right[some])
            if recipe.numbering == "clockwise" and not recipe.last_visit:
                ideal = wrong_by_the_recipe(made, recipe, judged.keys)
                curve("knowing the recipe", ideal, judged)
                tenths("knowing the recipe", ideal[judged.now], judged.is_wrong[judged.now])
                for kind in np.unique(judged.kind[big]):
                    of = big & (judged.kind == kind)
                    print(f"    {kind}: {of.sum()}, ours {told[of].mean():.3f}, knowing the recipe "
                          f"{(ideal[of] > 0.5).mean():.3f}")


def _clean_plots_told(judged: Judged, told: NDArray[np.bool_]) -> str:
    plot = np.array([key[0] for key in judged.keys])
    wrong = set(plot[judged.is_wrong])
    clean = {each for each in plot if each not in wrong}
    return f"{len(set(plot[told & judged.now]) & clean)} of {len(clean)}"


if __name__ == "__main__":
    main()
