"""From sums over plots to indices and curves of spatial structure, each with the sentence that it bears out."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.survey.curves import SIGNIFICANT, Curve, against_chance, counted, ground, simulated_p

Floats = NDArray[np.float64]

_NONE_CERTAIN = "no stem has its four neighbours, with species and dbh, nearer than the edge"
_NO_DBH = "on no plot do all stems of the pattern have a dbh"
_NO_DIFFERENCE = "no difference is shown"
_NO_TEST = "this form has no test of its own"
_UNCERTAIN_EDGE = "no stem is nearer to its neighbour than to the edge"
_EDGE = "only stems whose fourth neighbour is nearer than the edge"
_NOT_SIMULATED = "no simulations were asked for"


def indices_of(sums: Mapping[str, Any]) -> tuple[dict[str, Any], dict[str, str]]:
    """The indices by name, and why one is missing."""
    reasons: dict[str, str] = {}
    indices: dict[str, Any] = {"clark_evans": _clark_evans(sums, reasons)}
    for name, title, higher, lower in (
        ("angle", "The uniform angle index", "stems stand in groups", "stems stand evenly around each other"),
        (
            "mingling",
            "The share of other species among the four nearest stems",
            "species mix more than by chance",
            "species keep to themselves",
        ),
        (
            "differentiation",
            "The mean difference in dbh to the four nearest stems",
            "neighbours differ more in dbh than by chance",
            "neighbours are more alike in dbh than by chance",
        ),
        (
            "dominance",
            "The share of thinner stems among the four nearest",
            "these stems are thicker than their neighbours",
            "these stems are thinner than their neighbours",
        ),
        (
            "competition",
            "The competition by the four nearest stems",
            "stronger than by chance",
            "weaker than by chance",
        ),
    ):
        key = "uniform_angle" if name == "angle" else name
        indices[key] = _index(sums, name, title, higher, lower)
        if indices[key]["value"] is None:
            reasons[key] = _NONE_CERTAIN
        elif indices[key]["p"] is None:
            reasons[f"{key}.p"] = _NOT_SIMULATED
    return indices, reasons


def _index(sums: Mapping[str, Any], name: str, title: str, higher: str, lower: str) -> dict[str, Any]:
    total, count = np.asarray(sums[name]), np.asarray(sums[f"{name}_n"])
    values = np.divide(total, count, out=np.full(len(total), np.nan), where=count > 0)
    simulated = values[1:][np.isfinite(values[1:])]
    value = float(values[0]) if np.isfinite(values[0]) else None
    chance = float(simulated.mean()) if len(simulated) else None
    p = simulated_p(np.append(values[0], simulated))
    stems = int(count[0])
    if value is None or chance is None or p is None:
        sentence = f"{title} is not known: {_NONE_CERTAIN}."
    else:
        shows = p <= SIGNIFICANT and value != chance
        verdict = (higher if value > chance else lower) if shows else _NO_DIFFERENCE
        told = f"{title} is {value:.2f}, {chance:.2f} by chance"
        sentence = "; ".join([told, ground(p, stems), verdict]) + "."
    return {"value": value, "chance": chance, "p": p, "n": stems, "edge": _EDGE, "sentence": sentence}


def _clark_evans(sums: Mapping[str, Any], reasons: dict[str, str]) -> dict[str, Any]:
    nearest = np.asarray(sums["nearest"])
    stems, plots = int(sums["stems"]), int(sums["plots"])
    made: dict[str, Any] = {"n": stems, "p_simulated": simulated_p(nearest)}
    for form in ("donnelly", "none", "cdf"):
        observed, expected, variance = (float(sums[f"{form}_{part}"]) for part in ("observed", "expected", "variance"))
        z = (observed - expected) / math.sqrt(variance) if variance > 0.0 else math.nan
        told = math.isfinite(z)
        made[form] = {
            "r": observed / expected if math.isfinite(observed) else None,
            "z": z if told else None,
            "p": math.erfc(abs(z) / math.sqrt(2.0)) if told else None,
        }
        if not told:
            reasons[f"clark_evans.{form}.p"] = _NO_TEST
    r, p = made["donnelly"]["r"], made["donnelly"]["p"]
    begins = f"The nearest stem is {nearest[0] / stems:.2f} m away on average, {r:.2f} times what chance gives"
    kind = "farther apart than by chance" if r > 1.0 else "closer together than by chance"
    verdict = kind if p <= SIGNIFICANT else _NO_DIFFERENCE
    made["sentence"] = "; ".join([begins, ground(p, stems, plots), verdict]) + "."
    return made


def curves_of(sums: Mapping[str, Any], r: Floats) -> tuple[dict[str, Curve], dict[str, str]]:
    """The curves by name, and why one is missing."""
    stems, plots = int(sums["stems"]), int(sums["plots"])
    k = np.asarray(sums["k"]) / sums["pairs"]
    nearest_all = np.asarray(sums["near_all"])[:, None]
    found: dict[str, tuple[Curve | None, str]] = {
        "l_minus_r": (
            against_chance(
                r,
                np.sqrt(k / math.pi) - r,
                chance=np.zeros(len(r)),
                stems=stems,
                plots=plots,
                above=lambda at: f"Clumped: more neighbours than by chance within {at} m",
                below=lambda at: f"Regular: fewer neighbours than by chance within {at} m",
                neither=f"Neither clumping nor regularity is shown up to {r[-1]:g} m",
            ),
            _NOT_SIMULATED,
        ),
        "g": (_pair_correlation(np.asarray(sums["g"]) / sums["pairs"], r, stems=stems, plots=plots), _NO_TEST),
        "nearest": (
            against_chance(
                r,
                np.divide(
                    sums["near_within"],
                    nearest_all,
                    out=np.full((len(nearest_all), len(r)), np.nan),
                    where=nearest_all > 0.0,
                ),
                stems=int(sums["near_counted"]),
                plots=plots,
                above=lambda at: f"More stems than by chance have their nearest neighbour within {at} m",
                below=lambda at: f"Fewer stems than by chance have their nearest neighbour within {at} m",
                neither="Distances to the nearest stem are not shown to differ from chance",
            ),
            _UNCERTAIN_EDGE,
        ),
        "mark_correlation": (
            against_chance(
                r,
                np.divide(
                    sums["mark"],
                    sums["mark_below"],
                    out=np.full(np.shape(sums["mark"]), np.nan),
                    where=np.asarray(sums["mark_below"]) > 0.0,
                ),
                chance=np.ones(len(r)),
                stems=int(sums["mark_stems"]),
                plots=int(sums["mark_plots"]),
                above=lambda at: f"Thicker than average are stems that have another at {at} m",
                below=lambda at: f"Thinner than average are stems that have another at {at} m",
                neither="No relation between dbh and the distance to other stems is shown",
            )
            if "mark" in sums
            else None,
            _NO_DBH,
        ),
    }
    return (
        {name: curve for name, (curve, _) in found.items() if curve is not None},
        {name: why for name, (curve, why) in found.items() if curve is None},
    )


def _pair_correlation(g: Floats, r: Floats, *, stems: int, plots: int) -> Curve:
    most, least = int(np.argmax(g)), int(np.argmin(g))
    return Curve(
        r=r,
        value=g,
        chance=np.ones(len(r)),
        low=None,
        high=None,
        p=None,
        stems=stems,
        plots=plots,
        sentence=(
            f"Pairs of stems are most frequent {r[most]:g} m apart, {g[most]:.2f} times as many as by chance; "
            f"least frequent {r[least]:g} m apart, {g[least]:.2f} times; {counted(stems, plots)}. "
            "This curve is not tested: L(r) tells whether there is a pattern."
        ),
    )


def species_of(sums: Mapping[str, Any], r: Floats) -> dict[str, Curve]:
    """L(r) - r of each species against random labelling of the stems."""
    names = sorted(name for kind, _, name in (key.partition(" ") for key in sums) if kind == "kind")
    made = ((name, _of_species(sums, name, r)) for name in names)
    return {name: curve for name, curve in made if curve is not None}


def _of_species(sums: Mapping[str, Any], name: str, r: Floats) -> Curve | None:
    k = np.asarray(sums[f"kind {name}"]) / sums[f"kind_pairs {name}"]
    return against_chance(
        r,
        np.sqrt(k / math.pi) - r,
        stems=int(sums[f"kind_stems {name}"]),
        plots=int(sums[f"kind_plots {name}"]),
        above=lambda at: f"{name} stands in groups among the other stems: more of its own than by chance within {at} m",
        below=lambda at: f"{name} is spread among the other stems: fewer of its own than by chance within {at} m",
        neither=f"{name} is not shown to be grouped or spread among the other stems",
    )
