"""What the error of the survey's means is made of, and what a further plot or a better instrument would buy."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.core.estimates import Estimate
from stemmap.survey.estimates import plot_values, samples
from stemmap.survey.measured import Measured, Status, measure
from stemmap.survey.sample import Sample
from stemmap.survey.summary import Summary

Floats = NDArray[np.float64]

#: How much smaller the standard deviation of a better instrument is.
_BETTER = 0.5
NOTES = {
    "sampling_error": "standard error of the mean; what plots differ by holds the doubts below already",
    "inclusion_doubt": "standard error from stems that may be in or out, by the errors of the settings",
    "not_visible": "expected to be missed behind other stems: a bias, not in the sampling error",
    "a_further_plot": "change of the sampling error with one more plot (or cluster) drawn alike",
    "a_better_compass": "change of the sampling error with half the standard deviation of azimuths",
    "a_better_distance": "change of the sampling error with half the standard deviation of distances",
    "a_second_stand_point": "change of what is missed if everything hidden is seen from there: at most this",
}


def error_budget_json(summary: Summary) -> list[dict[str, Any]]:
    """What the error of the survey's means is made of, and what would make it smaller, visit by visit."""
    told = list(samples(summary))
    if not told:
        return []
    settings = summary.survey.settings
    better = {
        word: measure(summary.survey.under(settings.having(f"errors.{key}", getattr(settings.errors, key) * _BETTER)))
        for word, key in (("compass", "azimuth_sd_deg"), ("distance", "distance_sd_m"))
    }
    return [_budget(summary, visit, sample, better) for visit, sample in told]


def _budget(summary: Summary, visit: str | None, sample: Sample, better: dict[str, Measured]) -> dict[str, Any]:
    area = np.pi * (summary.measured.dbh_cm / 200.0) ** 2
    seen = (summary.unseen.reason[sample.rows] == "") & (summary.density_reason[sample.rows] == "")
    lines = {}
    for name, quantity, unseen in (
        ("stems_per_ha", np.ones(len(area)), summary.unseen.stems_per_ha),
        ("basal_area_m2_per_ha", area, summary.unseen.basal_area_m2_per_ha),
    ):
        made = sample.estimate(plot_values(summary, sample, quantity, np.zeros(len(area), np.int64), 1))
        error = float(made.standard_error[0])
        doubt = _inclusion_error(summary, sample, quantity, summary.measured)
        hidden = None
        if seen.any():
            hidden = _finite(float(np.average(unseen.expected[sample.rows[seen]], weights=sample.weights[seen])))
        lines[name] = {
            "sampling_error": _finite(error),
            "inclusion_doubt": _finite(doubt),
            "not_visible": hidden,
            "a_further_plot": _finite(_with_more(made, 1) - error),
            "plots_for_half_the_error": _for_half(made),
            **{
                f"a_better_{word}": _finite(
                    _with_doubt(error, doubt, _inclusion_error(summary, sample, quantity, again)) - error
                )
                for word, again in better.items()
            },
            "a_second_stand_point": None if hidden is None else -hidden,
        }
    return {
        "visit": visit,
        "units": "clusters" if sample.cluster is not None else "plots",
        "plots": len(sample.rows),
        "at_stand_edge": _at_edge(summary, sample),
        **lines,
        "plots_with_visibility_known": int(np.count_nonzero(seen)),
        "notes": NOTES,
    }


def _at_edge(summary: Summary, sample: Sample) -> int:
    """Number of plots that the stand edge cuts."""
    cut = summary.measured.stand_edge
    return 0 if cut is None else int(np.count_nonzero(cut.cut[sample.rows]))


def _with_more(made: Estimate, more: int) -> float:
    """Standard error with more plots drawn alike; that of a first sample stays."""
    n = int(made.n[0])
    if n < 2:
        return float("nan")
    lasting = float(made.lasting[0])
    return float(np.sqrt((made.standard_error[0] ** 2 - lasting) * n / (n + more) + lasting))


def _for_half(made: Estimate) -> int | None:
    """Number of plots that the half standard error needs; None where it is out of reach."""
    variance, lasting, n = float(made.standard_error[0]) ** 2, float(made.lasting[0]), int(made.n[0])
    if n < 2 or not variance / 4.0 > lasting:
        return None
    return int(np.ceil(n * (variance - lasting) / (variance / 4.0 - lasting) - 1e-9))


def _with_doubt(error: float, doubt: float, less: float) -> float:
    """Standard error when the doubt that it holds becomes less."""
    return float(np.sqrt(max(error**2 - doubt**2 + less**2, min(less, error) ** 2)))


def _inclusion_error(summary: Summary, sample: Sample, quantity: Floats, measured: Measured) -> float:
    """Standard error of the mean from stems that may be in or out: √Σ w² f² q² p (1 - p)."""
    visits = len(summary.survey.visits)
    weight = np.zeros(visits)
    weight[sample.rows] = sample.weights
    weight[summary.density_reason != ""] = 0.0
    chance = measured.inside_probability
    each = weight[summary.survey.stems.visit_row] * measured.expansion_per_ha * quantity
    alive = measured.status == Status.LIVING
    return float(np.sqrt(np.nansum(np.where(alive, each**2 * chance * (1.0 - chance), 0.0))))


def _finite(value: float) -> float | None:
    return float(value) if np.isfinite(value) else None
