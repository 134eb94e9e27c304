"""How often 95 % intervals of survey totals hold the truth, and for which species they cannot.

Plots of 500 m² in invented forests whose stem numbers follow a gamma mixture of Poisson numbers (density changes from
place to place, little in the even one, much in the patchy one); the common species fills two thirds and the others are
ever rarer.
Run: python -m tests.benchmarks.cover_estimates [surveys]
"""

from __future__ import annotations

import sys

import numpy as np

from stemmap.core import estimates

#: Mean stems per hectare of the species, from common to rare; stems per plot are a twentieth.
SPECIES = (400.0, 120.0, 40.0, 12.0, 4.0)
PLOTS = (20, 50, 100)
#: How even the density is from place to place, and within a stratum its ratio to the mean.
FORESTS = {"even": (25.0, 0.15), "patchy": (6.0, 0.3)}
DESIGNS = ("simple", "stratified", "after", "clusters", "part plots", "double, strata")


def draw(rng: np.random.Generator, plots: int, design: str, forest: str) -> estimates.Estimate:
    """One survey of an invented forest: its total and then each species.

    Parameters
    ----------
    rng
        Where chance comes from.
    plots
        Number of plots.
    design, forest
        Of `DESIGNS` and `FORESTS`.
    """
    even, step = FORESTS[forest]
    stratum = np.arange(plots) % 2
    if design != "stratified":
        stratum = (rng.random(plots) < 0.5).astype(int)
    shape = np.full(plots, even)
    patch = rng.gamma(shape, 1.0 / shape)[:, None] * np.where(stratum == 1, 1.0 + step, 1.0 - step)[:, None]
    if design == "clusters":
        patch = np.repeat(rng.gamma(even, 1.0 / even, plots), 4)[:, None] * rng.gamma(12.0, 1.0 / 12.0, (4 * plots, 1))
    rare = rng.gamma(2.0, 0.5, (len(patch), len(SPECIES)))
    rare[:, 0] = 1.0
    size = np.ones((len(patch), 1))
    if design == "part plots":
        size = np.where(rng.random((plots, 1)) < 0.3, rng.uniform(0.05, 1.0, (plots, 1)), 1.0)
    count = rng.poisson(np.array(SPECIES) / 20.0 * patch * rare * size) * 20.0
    values = np.column_stack([count.sum(axis=1), count])
    if design == "stratified":
        return estimates.stratified(values, stratum, [1.0, 1.0])
    if design == "after":
        return estimates.stratified(values, stratum, [1.0, 1.0], after=True)
    if design == "double, strata":
        points = np.bincount(stratum, minlength=2) + rng.multinomial(9 * plots, [0.5, 0.5])
        return estimates.double_stratified(values, stratum, points)
    if design == "clusters":
        return estimates.clustered(values, np.repeat(np.arange(plots), 4))
    if design == "part plots":
        made = np.column_stack([estimates.ratio_values(column, size[:, 0]) for column in values.T])
        return estimates.stratified(made, np.zeros(plots, int), [1.0])
    return estimates.stratified(values, np.zeros(plots, int), [1.0])


def coverage(plots: int, design: str, *, forest: str, surveys: int, seed: int = 4) -> np.ndarray:
    """Per cent of intervals that hold the truth: of the total and of each species, shape (2, 1 + species).

    First Student's t intervals, then those without skewness.

    Parameters
    ----------
    plots, design, forest
        As in `draw`.
    surveys
        Number of surveys drawn.
    seed
        Of the random numbers.
    """
    rng = np.random.default_rng(seed)
    truth = np.array([sum(SPECIES), *SPECIES])
    held = np.zeros((2, len(truth)))
    for _ in range(surveys):
        made = draw(rng, plots, design, forest)
        held[0] += (made.low <= truth) & (truth <= made.high)
        held[1] += (made.skew_low <= truth) & (truth <= made.skew_high)
    return 100.0 * held / surveys


def coverage_by_presence(*, plots: int, surveys: int, seed: int = 6) -> dict[str, tuple[float, float]]:
    """Per cent of intervals of one species that hold the truth, by the number of plots it is expected on.

    Student's t intervals and those without skewness.

    Parameters
    ----------
    plots, surveys, seed
        As in `coverage`.
    """
    rng = np.random.default_rng(seed)
    made = {}
    for mean in (0.02, 0.05, 0.1, 0.2, 0.4, 0.8, 1.6, 3.2):
        counts = rng.poisson(mean * rng.gamma(1.0, 1.0, (surveys, plots)))
        told = estimates.stratified(counts.T.astype(float), np.zeros(plots, int), [1.0])
        present = (counts > 0).sum(axis=1).mean()
        made[f"{present:.1f} of {plots}"] = tuple(
            100.0 * float(np.mean((low <= mean) & (mean <= high)))
            for low, high in ((told.low, told.high), (told.skew_low, told.skew_high))
        )
    return made


if __name__ == "__main__":
    number = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    for forest in FORESTS:
        print(f"{forest} forest     plots  total   " + "  ".join(f"{mean:5.0f}/ha" for mean in SPECIES))
        for design in DESIGNS:
            for plots in PLOTS:
                held = coverage(plots, design, forest=forest, surveys=number)
                for kind, row in zip(("t", "unskewed"), held, strict=True):
                    told = "  ".join(f"{value:8.1f}" for value in row[1:])
                    print(f"{design:16}{plots:4} {kind:8}  {row[0]:5.1f}   {told}", flush=True)
    for plots in PLOTS:
        print("one species, plots with it:", coverage_by_presence(plots=plots, surveys=number))
