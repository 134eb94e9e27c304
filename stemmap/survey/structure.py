"""Spatial structure of each plot visit, and pooled: indices and curves against chance, each with a sentence.

Everything is kept as sums that may be added over plots before they are divided (ratio estimators), observed first and
then one for each simulation, so that a stratum is tested by the same simulated plots as each plot of it. Chance means
complete randomness in the same circle with the same number of stems; for marks, that they are dealt out anew among
the stems of their plot. So neither a density nor a mixture that differs from plot to plot is mistaken for a pattern.
"""

from __future__ import annotations

import zlib
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.core import neighbours, second_order
from stemmap.core.labelling import kind_sums, labellings, mark_sums, near_marks
from stemmap.core.pairs import weighted_pairs
from stemmap.core.replicates import random_k
from stemmap.core.windows import Disc
from stemmap.progress import Progress
from stemmap.survey.curves import Curve
from stemmap.survey.structure_words import curves_of, indices_of, species_of
from stemmap.survey.summary import Summary

Floats = NDArray[np.float64]
Sums = dict[str, Any]

#: Simulations when nobody says how many: p comes in steps of 0.005.
SIMULATIONS = 199
#: Distances are half the radius at most, in steps of this, m.
STEP_M = 0.25
#: Half-width of the kernel of the mark correlation, m.
MARK_HALFWIDTH_M = 1.0

#: More stems than this on one plot are not compared with chance: it would take minutes, and no sample plot has them.
MOST_STEMS = 600

TOO_FEW = "too few stems"
TOO_MANY = "more than 600 stems; comparing them with chance would take too long"
NOTHING = "no plot has enough stems under one inclusion rule"
CAUTION = (
    "Of a hundred sentences about plots at random about five tell of a pattern by chance alone: "
    "believe the pooled result before that of a single plot."
)


@dataclass(frozen=True)
class Structure:
    """Spatial structure of one plot visit, a stratum or the survey.

    Parameters
    ----------
    heading
        What it is of: plot, visit and stratum as they come into JSON.
    stems, plots
        Stems behind it, and plots that have enough of them.
    inclusion
        Which stems these are; None where there are none.
    reason
        Why nothing is told; empty where something is.
    indices
        By name: value, what chance gives, p, number of stems and sentence.
    curves
        By name: l_minus_r, g, mark_correlation, nearest.
    species
        By species, random labelling: its own curve.
    reasons
        Why a single value or curve is missing.
    """

    heading: Mapping[str, Any]
    stems: int
    plots: int
    inclusion: str | None
    reason: str
    indices: Mapping[str, Any]
    curves: Mapping[str, Curve]
    species: Mapping[str, Curve]
    reasons: Mapping[str, str]

    def sentences(self) -> list[str]:
        """All that it says, curves first; the reason where it says nothing."""
        told = [curve.sentence for curve in (*self.curves.values(), *self.species.values())]
        told += [index["sentence"] for index in self.indices.values()]
        return [f"Nothing is told: {self.reason}."] if self.reason else told

    def json(self) -> dict[str, Any]:
        """As `stemmap structure` writes it."""
        return {
            **self.heading,
            "n": self.stems,
            "plots": self.plots,
            "inclusion": self.inclusion,
            "reason": self.reason or None,
            "indices": dict(self.indices) or None,
            "curves": {name: curve.json() for name, curve in self.curves.items()} or None,
            "species": {name: curve.json() for name, curve in self.species.items()} or None,
            "reasons": dict(self.reasons),
        }


@dataclass(frozen=True)
class SurveyStructure:
    """Spatial structure of all plots: each visit; the last visits pooled over the survey and its strata."""

    plots: tuple[Structure, ...]
    strata: tuple[Structure, ...]
    pooled: Structure
    simulations: int
    seed: int

    def rest_json(self) -> dict[str, Any]:
        """Everything but the plots."""
        return {
            "pooled": self.pooled.json(),
            "strata": [stratum.json() for stratum in self.strata],
            "simulations": self.simulations,
            "seed": self.seed,
            "caution": CAUTION,
        }


def structure(
    summary: Summary,
    *,
    by_species: bool = False,
    simulations: int = SIMULATIONS,
    seed: int = 1,
    rows: Collection[int] | None = None,
    progress: Progress | None = None,
) -> SurveyStructure:
    """Tell the spatial structure of each plot visit, and pooled over the last visits.

    Parameters
    ----------
    by_species
        Also each species with eight stems or more against random labelling.
    simulations
        Of each plot.
    seed
        Each plot has its own random numbers from it and its name, so that no plot changes those of another.
    rows
        Rows of the visits wanted, which are also those pooled; None: all.

    Raises
    ------
    Cancelled
        When `progress` says so.
    """
    progress = progress or Progress()
    visits = summary.survey.visits
    words, code = visits.words("stratum")
    last = np.isin(np.arange(len(visits)), last_visits(summary))
    r = _distances(summary)
    of_plot = summary.survey.stems.visit_row[summary.pattern_rows]
    plots, whole, strata = [], Sums(), {int(place): Sums() for place in np.unique(code)}
    wanted = range(len(visits)) if rows is None else sorted(rows)
    for place, row in enumerate(wanted):
        progress.step("Comparing with chance", place / len(wanted))
        heading = {
            "plot": visits.plot[row],
            "visit": visits.visit[row] or None,
            "stratum": words[code[row]] or None,
        }
        chosen = summary.pattern_rows[of_plot == row]
        chosen = chosen[np.isfinite(summary.measured.x_m[chosen] + summary.measured.y_m[chosen])]
        reason = str(summary.pattern_reason[row])
        if not reason and len(chosen) < neighbours.FEWEST_STEMS:
            reason = TOO_FEW
        if not reason and len(chosen) > MOST_STEMS:
            reason = TOO_MANY
        sums: Sums = {}
        if not reason:
            key = zlib.crc32(f"{visits.plot[row]}\0{visits.visit[row]}".encode())
            rng = np.random.default_rng([seed, key])
            sums = _plot_sums(summary, row, chosen, r, simulations=simulations, by_species=by_species, rng=rng)
        if last[row]:
            _add(whole, sums)
            _add(strata[int(code[row])], sums)
        plots.append(_told(heading, sums, r, reason=reason, inclusion=summary.pattern_words(row), stems=len(chosen)))
    pooled_words = "living stems under one inclusion rule on each plot's last visit, one position a tree"
    by_stratum = strata.items() if len(strata) > 1 else ()
    return SurveyStructure(
        plots=tuple(plots),
        strata=tuple(
            _told({"stratum": words[place] or None}, sums, r, reason="" if sums else NOTHING, inclusion=pooled_words)
            for place, sums in by_stratum
        ),
        pooled=_told({}, whole, r, reason="" if whole else NOTHING, inclusion=pooled_words),
        simulations=simulations,
        seed=seed,
    )


def last_visits(summary: Summary) -> list[int]:
    """Rows of the last visit of each plot."""
    visits = summary.survey.visits
    rows: list[int] = np.flatnonzero(np.append(visits.plot[1:] != visits.plot[:-1], True)[: len(visits)]).tolist()
    return rows


def _distances(summary: Summary) -> Floats:
    """Distances of all curves, m: up to half the smallest radius, beyond which a circle says little."""
    radius = summary.pattern_radius_m[(summary.near.stems >= neighbours.FEWEST_STEMS) & (summary.pattern_reason == "")]
    smallest = float(radius.min()) if len(radius) else STEP_M
    return np.asarray(np.arange(1, max(2, int(0.5 * smallest / STEP_M + 1e-9) + 1)) * STEP_M, dtype=np.float64)


def _told(
    heading: Mapping[str, Any], sums: Sums, r: Floats, *, reason: str, inclusion: str | None, stems: int = 0
) -> Structure:
    curves: dict[str, Curve] = {}
    indices: dict[str, Any] = {}
    reasons: dict[str, str] = {}
    if not reason:
        indices, reasons = indices_of(sums)
        curves, missing = curves_of(sums, r)
        reasons |= missing
    return Structure(
        heading=heading,
        stems=int(sums.get("stems", stems)),
        plots=int(sums.get("plots", 0)),
        inclusion=inclusion,
        reason=reason,
        indices=indices,
        curves=curves,
        species=species_of(sums, r),
        reasons=reasons,
    )


def _add(total: Sums, sums: Sums) -> None:
    for name, value in sums.items():
        total[name] = total[name] + value if name in total else value


def _plot_sums(
    summary: Summary,
    row: int,
    chosen: NDArray[np.int64],
    r: Floats,
    *,
    simulations: int,
    by_species: bool,
    rng: np.random.Generator,
) -> Sums:
    """All sums of one plot visit with eight stems or more."""
    measured = summary.measured
    disc = Disc((0.0, 0.0), float(summary.pattern_radius_m[row]))
    xy = np.column_stack([measured.x_m[chosen], measured.y_m[chosen]])
    # A record on the very edge may lie outside by its rounding.
    xy *= np.minimum(1.0, disc.radius / np.maximum(np.hypot(*xy.T), 1e-12))[:, None]
    species, dbh = summary.species_code[chosen], measured.dbh_cm[chosen]
    order = labellings(len(chosen), simulations, rng)
    sums = _place_sums(xy, disc, r, simulations=simulations, rng=rng)
    sums |= _mark_index_sums(xy, disc, order, species=species, dbh=dbh)
    pairs = weighted_pairs(xy, disc, float(r[-1]) + MARK_HALFWIDTH_M, correction="isotropic")
    if np.isfinite(dbh).all():
        sums["mark"], sums["mark_below"] = mark_sums(pairs, order, dbh / dbh.mean(), r, halfwidth=MARK_HALFWIDTH_M)
        sums["mark_stems"], sums["mark_plots"] = len(chosen), 1
    if by_species:
        for code in np.unique(species[species >= 0]).tolist():
            member = species == code
            count = int(member.sum())
            if count >= neighbours.FEWEST_STEMS and count < len(chosen):
                name = str(summary.species_names[code])
                sums[f"kind {name}"] = disc.area * kind_sums(pairs, order, member, r)
                sums[f"kind_pairs {name}"] = count * (count - 1)
                sums[f"kind_stems {name}"], sums[f"kind_plots {name}"] = count, 1
    return sums


def _place_sums(xy: Floats, disc: Disc, r: Floats, *, simulations: int, rng: np.random.Generator) -> Sums:
    """Sums of what the places alone tell, under complete randomness in the same circle."""
    n = len(xy)
    pairs = n * (n - 1)
    k = np.vstack([second_order.k_function(xy, disc, r), random_k(n, disc, r, simulations, rng=rng)])
    points = np.vstack([xy, disc.random(simulations * n, rng)])
    pattern = np.repeat(np.arange(simulations + 1), n)
    near = neighbours.nearest(points, pattern, neighbours.NEIGHBOURS)
    to_edge = disc.to_edge(points)
    nearest = near.distance[:, 0].reshape(-1, n)
    ground = np.pi * np.maximum(disc.radius - nearest, 1e-9) ** 2
    seen = np.where(nearest <= to_edge.reshape(-1, n), 1.0 / ground, 0.0)
    angle = neighbours.neighbourhoods(
        points,
        pattern,
        plots=simulations + 1,
        species=np.zeros(len(points), dtype=np.int64),
        edge="nearest",
        to_edge=to_edge,
    )
    forms = (
        neighbours.clark_evans(xy, disc, correction="donnelly"),
        neighbours.clark_evans(xy, disc, correction="none"),
        neighbours.clark_evans(xy, disc, correction="cdf"),
    )
    return {
        "stems": n,
        "plots": 1,
        "pairs": pairs,
        "k": pairs * k,
        "g": pairs * second_order.pair_correlation(xy, disc, r),
        "near_within": np.stack([(seen * (nearest <= distance)).sum(axis=1) for distance in r], axis=1),
        "near_all": seen.sum(axis=1),
        "near_counted": int((seen[0] > 0.0).sum()),
        "nearest": nearest.sum(axis=1),
        "angle": np.nan_to_num(angle.uniform_angle) * angle.counted,
        "angle_n": angle.counted,
    } | _clark_evans_sums(n, forms)


def _clark_evans_sums(n: int, forms: Iterable[neighbours.ClarkEvans]) -> Sums:
    """Observed and expected sum of the nearest distances, and the variance of the observed one."""
    sums: Sums = {}
    for made in forms:
        form = made.correction
        error = (made.mean_nearest - made.expected) / made.z if made.z else 0.0
        sums |= {
            f"{form}_observed": n * made.mean_nearest,
            f"{form}_expected": n * made.expected,
            f"{form}_variance": (n * error) ** 2,
        }
    return sums


def _mark_index_sums(
    xy: Floats, disc: Disc, order: NDArray[np.int64], *, species: NDArray[np.int64], dbh: Floats
) -> Sums:
    """Sums of the indices of marks over the stems whose four nearest are certain, under every labelling."""
    near = neighbours.nearest(xy, np.zeros(len(xy), dtype=np.int64), neighbours.NEIGHBOURS)
    certain = near.distance[:, -1] < disc.to_edge(xy)
    made = near_marks(near, order, species=species, dbh=dbh)
    sums: Sums = {}
    for name in ("mingling", "differentiation", "dominance", "competition"):
        values = getattr(made, name)[:, certain]
        known = np.isfinite(values)
        sums[name] = np.where(known, values, 0.0).sum(axis=1)
        sums[f"{name}_n"] = known.sum(axis=1)
    return sums
