"""From sums over plots to indices and curves of spatial structure, each with the sentence that it bears out."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from functools import cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.core.neighbours import FEWEST_STEMS
from stemmap.survey.curves import SIGNIFICANT, TOO_MANY, Curve, against_chance, counted, ground, simulated_p

Floats = NDArray[np.float64]

_NONE_CERTAIN = "no stem has its four neighbours, with species and dbh, nearer than the edge"
_NO_DBH = "on no plot do all stems of the pattern have a dbh"
_ONE_DBH = "on no plot do all stems of the pattern have a dbh, and different ones"
_NO_DIFFERENCE = "no difference is shown"
_NO_TEST = "this form has no test of its own"
_UNCERTAIN_EDGE = "no stem is nearer to its neighbour than to the edge"
_EDGE = "only stems whose fourth neighbour is nearer than the edge"
_FEW_TO_JUDGE = "these are too few to judge by"
_TOO_FEW = "too few stems on every plot"


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
        if name not in sums:
            reasons[key] = TOO_MANY
            continue
        indices[key] = _index(sums, name, title, higher, lower)
        if indices[key]["value"] is None:
            reasons[key] = _NONE_CERTAIN
        elif indices[key]["p"] is None:
            reasons[f"{key}.p"] = TOO_MANY
    return indices, reasons


def _index(sums: Mapping[str, Any], name: str, title: str, higher: str, lower: str) -> dict[str, Any]:
    total, count = np.asarray(sums[name]), np.asarray(sums[f"{name}_n"])
    values = np.divide(total, count, out=np.full(len(total), np.nan), where=count > 0)
    simulated = values[1:][np.isfinite(values[1:])]
    value = float(values[0]) if np.isfinite(values[0]) else None
    chance = float(simulated.mean()) if len(simulated) else None
    p = simulated_p(np.append(values[0], simulated))
    stems = int(count[0])
    if value is None:
        sentence = f"{title} is not known: {_NONE_CERTAIN}."
    elif chance is None or p is None:
        sentence = f"{title} is {value:.2f}; not compared with chance: {TOO_MANY}; {counted(stems, 1)}."
    else:
        shows = p < SIGNIFICANT and value != chance
        verdict = (higher if value > chance else lower) if shows else _NO_DIFFERENCE
        if stems < FEWEST_STEMS:
            verdict = _FEW_TO_JUDGE
        told = f"{title} is {value:.2f}, {chance:.2f} by chance"
        sentence = "; ".join([told, ground(p, stems), verdict]) + "."
    return {"value": value, "chance": chance, "p": p, "n": stems, "edge": _EDGE, "sentence": sentence}


def _clark_evans(sums: Mapping[str, Any], reasons: dict[str, str]) -> dict[str, Any]:
    nearest = np.asarray(sums["nearest"])
    stems, plots = int(sums["stems"]), int(sums["plots"])
    simulated = simulated_p(nearest)
    made: dict[str, Any] = {"n": stems, "p_simulated": simulated}
    for form in ("donnelly", "none", "cdf"):
        observed, expected, variance = (
            float(sums.get(f"{form}_{part}", math.nan)) for part in ("observed", "expected", "variance")
        )
        z = (observed - expected) / math.sqrt(variance) if variance > 0.0 else math.nan
        told = math.isfinite(z)
        made[form] = {
            "r": observed / expected if math.isfinite(observed) else None,
            "z": z if told else None,
            "p": math.erfc(abs(z) / math.sqrt(2.0)) if told else None,
        }
        if made[form]["r"] is None:
            reasons[f"clark_evans.{form}"] = _TOO_FEW
        elif not told:
            reasons[f"clark_evans.{form}.p"] = _NO_TEST
    if simulated is None:
        # With hundreds of stems the normal deviate is as good.
        reasons["clark_evans.p_simulated"] = TOO_MANY
        p, chance = made["donnelly"]["p"], float(sums["donnelly_expected"])
    else:
        p, chance = simulated, float(nearest[1:].mean())
    begins = f"The nearest stem is {nearest[0] / stems:.2f} m away on average, {chance / stems:.2f} m by chance"
    kind = "farther apart than by chance" if nearest[0] > chance else "closer together than by chance"
    verdict = kind if p < SIGNIFICANT else _NO_DIFFERENCE
    made["sentence"] = "; ".join([begins, ground(p, stems, plots), verdict]) + "."
    return made


def curves_of(sums: Mapping[str, Any], r: Floats) -> tuple[dict[str, Curve], dict[str, str]]:
    """The curves by name, and why one, or its test, is missing."""
    stems, plots = int(sums["stems"]), int(sums["plots"])
    k = np.asarray(sums["k"]) / sums["pairs"]
    found: dict[str, tuple[Curve | None, str]] = {
        "l_minus_r": (
            against_chance(
                r,
                np.sqrt(k / math.pi) - r,
                chance=_none(len(r)),
                stems=stems,
                plots=plots,
                above=lambda at: f"Clumped: more neighbours than by chance within a radius of {at} m",
                below=lambda at: f"Regular: fewer neighbours than by chance within a radius of {at} m",
                neither=f"Neither clumping nor regularity is shown up to {r[-1]:g} m",
            ),
            "",
        ),
        "g": (
            against_chance(
                r,
                np.asarray(sums["g"]) / sums["pairs"],
                chance=_one(len(r)),
                stems=stems,
                plots=plots,
                above=lambda at: f"More pairs of stems than by chance stand {at} m apart",
                below=lambda at: f"Fewer pairs of stems than by chance stand {at} m apart",
                neither="No distance is shown at which pairs of stems stand more or less often than by chance",
            ),
            "",
        ),
        "nearest": (
            against_chance(
                r,
                _over(sums["near_within"], np.asarray(sums["near_all"])[:, None]),
                stems=int(sums["near_counted"]),
                plots=plots,
                above=lambda at: f"More stems than by chance have their nearest neighbour nearer than {at} m",
                below=lambda at: f"Fewer stems than by chance have their nearest neighbour nearer than {at} m",
                neither="Distances to the nearest stem are not shown to differ from chance",
            ),
            _UNCERTAIN_EDGE,
        ),
        "mark_correlation": (
            _of_marks(
                sums,
                "mark",
                r,
                above=lambda at: f"Thicker than average are stems that have another at {at} m",
                below=lambda at: f"Thinner than average are stems that have another at {at} m",
                neither="No relation between dbh and the distance to other stems is shown",
            ),
            _NO_DBH,
        ),
        "mark_variogram": (
            _of_marks(
                sums,
                "vario",
                r,
                above=lambda at: f"Stems {at} m apart differ more in dbh than by chance",
                below=lambda at: f"Stems {at} m apart are more alike in dbh than by chance",
                neither="Stems near each other are not shown to be more alike or less alike in dbh than others",
            ),
            _ONE_DBH,
        ),
    }
    reasons = {}
    for name, (curve, why) in found.items():
        compared = len(k) > 1
        if curve is None:
            reasons[name] = why if compared or name == "nearest" else TOO_MANY
        elif not compared:
            reasons[f"{name}.p"] = TOO_MANY
    return {name: curve for name, (curve, _) in found.items() if curve is not None}, reasons


@cache
def _none(count: int) -> Floats:
    """No difference at so many distances, shared by all curves."""
    return np.zeros(count)


@cache
def _one(count: int) -> Floats:
    """As often as by chance at so many distances, shared by all curves."""
    return np.ones(count)


def _over(above: Any, below: Any) -> Floats:
    """The ratio; NaN where nothing stands below."""
    top, bottom = np.broadcast_arrays(np.asarray(above, dtype=np.float64), np.asarray(below, dtype=np.float64))
    return np.asarray(np.divide(top, bottom, out=np.full(top.shape, np.nan), where=bottom > 0.0))


def _of_marks(
    sums: Mapping[str, Any],
    name: str,
    r: Floats,
    *,
    above: Callable[[str], str],
    below: Callable[[str], str],
    neither: str,
) -> Curve | None:
    """A curve of marks, which is 1 by chance; None where no plot has them."""
    if name not in sums:
        return None
    return against_chance(
        r,
        _over(sums[name], sums[f"{name}_below"]),
        chance=_one(len(r)),
        stems=int(sums[f"{name}_stems"]),
        plots=int(sums[f"{name}_plots"]),
        above=above,
        below=below,
        neither=neither,
    )
