"""What the plots say of the survey: means, totals, species, dbh classes and density."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.core import stand
from stemmap.survey.ground import CARRIED, CARRIED_SENTENCES
from stemmap.survey.measured import Status
from stemmap.survey.sample import FEW_PLOTS, Sample, estimate_json, sample_of
from stemmap.survey.summary import Summary, visit_groups

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]

_RARE = "on so few plots a t interval holds the truth less often than it says; skew_low and skew_high are nearer"
#: On fewer plots the interval without skewness is no better than Student's.
_FEWEST_PLOTS = 3
_RAREST = "on one or two plots no interval holds the truth as often as it says"


def estimates_json(summary: Summary) -> list[dict[str, Any]]:
    """Means of the survey with standard errors, t intervals and those without skewness, visit by visit."""
    return [_estimates(summary, visit, sample) for visit, sample in samples(summary)]


def samples(summary: Summary) -> Iterator[tuple[str | None, Sample]]:
    """The plots of each visit that belong to the sample."""
    for visit, rows in visit_groups(summary.survey):
        used = rows[summary.sampled[rows]]
        if len(used):
            yield visit, sample_of(summary.survey, used)


def plot_values(summary: Summary, sample: Sample, quantity: Floats, group: Integers, groups: int) -> Floats:
    """Values per hectare of the living stems of each plot by group, shape (plots of the sample, groups).

    In part plots they are values whose mean is the ratio of means, circle by circle.

    Parameters
    ----------
    summary, sample
        The survey and which plots are asked for.
    quantity
        What one stem adds: 1, basal area; shape (stems,).
    group
        Group of each stem, -1: none; shape (stems,).
    groups
        Number of groups.
    """
    measured, visit = summary.measured, summary.survey.stems.visit_row
    visits = len(summary.survey.visits)
    number = np.full(visits, -1, np.int64)
    number[sample.rows] = np.arange(len(sample.rows))
    counts = measured.inside & (measured.expansion_per_ha > 0.0) & (measured.status == Status.LIVING)
    stems = np.flatnonzero(counts & (number[visit] >= 0) & (group >= 0))
    value = measured.expansion_per_ha[stems] * quantity[stems]
    place = number[visit[stems]] * groups + group[stems]
    size = len(sample.rows) * groups
    known = summary.density_reason[sample.rows] == ""
    cut = measured.stand_edge
    if cut is None or cut.method != "part_plot":
        made = np.bincount(place, weights=value, minlength=size).reshape(-1, groups)
    else:
        shares = cut.shares[sample.rows]
        circle = np.maximum(measured.circle[stems], 0)
        found = np.zeros((size, shares.shape[1]))
        np.add.at(found, (place, circle), value * cut.shares[visit[stems], circle])
        parts = np.where(known[:, None, None], found.reshape(len(sample.rows), groups, -1), np.nan)
        made = np.column_stack([sample.ratio(parts[:, each], shares) for each in range(groups)])
    return np.where(known[:, None], made, np.nan)


def _estimates(summary: Summary, visit: str | None, sample: Sample) -> dict[str, Any]:
    measured = summary.measured
    names = summary.species_names
    species = np.where(summary.species_code < 0, len(names) - 1, summary.species_code)
    area = np.pi * (measured.dbh_cm / 200.0) ** 2
    ones, whole = np.ones(len(area)), np.zeros(len(area), np.int64)
    stems = sample.estimate(plot_values(summary, sample, ones, whole, 1))
    basal = sample.estimate(plot_values(summary, sample, area, whole, 1))
    by_stems = plot_values(summary, sample, ones, species, len(names))
    by_area = sample.estimate(plot_values(summary, sample, area, species, len(names)))
    present = (np.nan_to_num(by_stems) != 0.0).sum(axis=0)
    of_species = sample.estimate(by_stems)
    edges = summary.dbh_classes.edges
    number = np.floor(np.nan_to_num(measured.dbh_cm, nan=-1.0) / edges[1] + 1e-9).astype(np.int64)
    classes = sample.estimate(plot_values(summary, sample, ones, np.where(number >= 0, number, -1), len(edges) - 1))
    made: dict[str, Any] = {
        "visit": visit,
        "method": sample.method,
        "cautions": list(sample.cautions),
        "plots": len(sample.rows),
        "confidence": stems.confidence,
        "stems_per_ha": estimate_json(stems),
        "basal_area_m2_per_ha": estimate_json(basal),
        "species": [
            {
                "species": names[place] or None,
                "plots_with_it": int(present[place]),
                "stems_per_ha": estimate_json(of_species, place),
                "basal_area_m2_per_ha": estimate_json(by_area, place),
                "note": _note(int(present[place])),
            }
            for place in np.flatnonzero(present).tolist()
        ],
        "dbh_classes": [
            {"from_cm": float(edges[place]), "to_cm": float(edges[place + 1]),
             "stems_per_ha": estimate_json(classes, place)}
            for place in range(len(edges) - 1)
        ],
        "density": _density(summary, sample, float(stems.mean[0]), float(basal.mean[0])),
    }  # fmt: skip
    if measured.stand_edge is not None:
        method = measured.stand_edge.method
        made["edge_correction"], made["edge_sentence"] = CARRIED[method], CARRIED_SENTENCES[method]
    hectares = _hectares(summary)
    if hectares is not None:
        made["area_ha"] = hectares
        made["totals"] = {"stems": _times(made["stems_per_ha"], hectares),
                          "basal_area_m2": _times(made["basal_area_m2_per_ha"], hectares)}  # fmt: skip
    return made


def _note(plots: int) -> str | None:
    """What the intervals of a species on so many plots are worth (simulated)."""
    if plots < _FEWEST_PLOTS:
        return _RAREST
    return _RARE if plots < FEW_PLOTS else None


def _density(summary: Summary, sample: Sample, stems: float, basal_area: float) -> dict[str, Any]:
    """Indices of stand density of the whole survey; the summed one has a sampling error."""
    each = (summary.measured.dbh_cm / 25.4) ** 1.605
    summed = sample.estimate(plot_values(summary, sample, each, np.zeros(len(each), np.int64), 1))
    known = np.isfinite(basal_area) and stems > 0.0 and basal_area > 0.0
    qmd = 200.0 * np.sqrt(basal_area / (np.pi * stems)) if known else np.nan
    return {
        "qmd_cm": float(qmd) if known else None,
        "reineke_per_ha": float(stand.reineke(stems, qmd)) if known else None,
        "reineke_summed_per_ha": estimate_json(summed),
        "reineke_reference_cm": 25.4,
        "relative_density": float(stand.relative_density(basal_area, qmd)) if known else None,
    }


def _hectares(summary: Summary) -> float | None:
    """Area of the survey: said, else the sum of its strata."""
    said = summary.survey.settings.sample
    if said.area_ha is not None:
        return said.area_ha
    areas = [stratum.area_ha for stratum in said.strata if stratum.area_ha is not None]
    return float(sum(areas)) if areas and len(areas) == len(said.strata) else None


def _times(told: dict[str, Any], hectares: float) -> dict[str, Any]:
    """A mean per hectare as a total."""
    named = {"mean": "total", **{each: each for each in ("standard_error", "low", "high", "skew_low", "skew_high")}}
    return {new: None if told[old] is None else told[old] * hectares for old, new in named.items()}
