"""Change between the visits of the same plots: what grew, came in, died, was cut and was not found again."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.core import change
from stemmap.core.change import Fate
from stemmap.core.design import RESOLUTION
from stemmap.survey.estimates import samples
from stemmap.survey.last_visit import last_records
from stemmap.survey.measured import Measured, Status
from stemmap.survey.sample import estimate_json, sample_of
from stemmap.survey.settings import sampling_design
from stemmap.survey.summary import Summary

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]

PARTS = ("net", "growth", "weight", "ingrowth", "ongrowth", "mortality", "removals", "not_found")
MEANING = {
    "net": "second visit less first",
    "growth": "of stems in and living both times, at the weight of the first visit",
    "weight": "survivors that another circle samples now, or whose place to the stand edge was measured anew",
    "ingrowth": "new stems where they would have been in already at the smallest dbh",
    "ongrowth": "new stems that came in because their own circle has grown to reach them",
    "mortality": "stems that died, as a loss",
    "removals": "stems that were cut, as a loss",
    "not_found": "stems no longer in or not recorded again, as a loss; numbers tell which stem is which",
}


def change_json(summary: Summary) -> list[dict[str, Any]]:
    """Change per hectare of plots that were measured twice, paired, visit by visit."""
    survey = summary.survey
    if not (survey.visits.previous >= 0).any():
        return []
    fate, first, second, row = _fates(summary)
    dbh = summary.measured.dbh_cm
    area = np.append(np.pi * (dbh / 200.0) ** 2, np.nan)
    factor = np.append(summary.measured.expansion_per_ha, 0.0)
    count = len(survey.visits)
    parts = {
        name: change.change(
            fate, row, first=quantity[first], second=quantity[second], first_factor=factor[first],
            second_factor=factor[second], plots=count,
        )
        for name, quantity in (("stems_per_ha", np.ones(len(area))), ("basal_area_m2_per_ha", area))
    }  # fmt: skip
    previous = survey.visits.previous
    known = (previous >= 0) & (summary.density_reason == "") & (summary.density_reason[previous] == "")
    made = []
    for visit, whole in samples(summary):
        twice = whole.rows[previous[whole.rows] >= 0]
        used = twice[known[twice]]
        if not len(used):
            continue
        sample = sample_of(survey, used)
        told: dict[str, Any] = {}
        for name, part in parts.items():
            values = sample.estimate(np.column_stack([getattr(part, each)[used] for each in PARTS]))
            told[name] = {each: estimate_json(values, place) for place, each in enumerate(PARTS)}
        years = _years(summary, used)
        made.append(
            {
                "from_visit": _one_name(survey.visits.visit[previous[used]]),
                "to_visit": visit or _one_name(survey.visits.visit[used]),
                "plots": len(used),
                "left_out": len(twice) - len(used),
                "years": years,
                "method": sample.method,
                "cautions": [*sample.cautions, *_cautions(summary)],
                **told,
                "meaning": MEANING,
            }
        )
    return made


def _fates(summary: Summary) -> tuple[Integers, Integers, Integers, Integers]:
    """Fate of every stem that was counted on a visit or the one before: its records then and now, and the visit row.

    A record that does not exist is -1.
    """
    survey, measured = summary.survey, summary.measured
    visit, previous = survey.stems.visit_row, survey.visits.previous
    last = last_records(survey, measured)
    alive = measured.status == Status.LIVING
    counts = measured.inside & (measured.expansion_per_ha > 0.0) & alive
    here = np.flatnonzero(previous[visit] >= 0)
    now = here[counts[here]]
    before = (last[now] >= 0) & counts[last[now]]
    fresh = np.where(_at_smallest(summary, now), Fate.INGROWTH, Fate.ONGROWTH)
    fate_now = np.where(before, Fate.SURVIVED, fresh)

    following = np.full(len(survey.visits) + 1, -1, np.int64)
    rows = np.flatnonzero(previous >= 0)
    following[previous[rows]] = rows
    again = np.full(len(visit), -1, np.int64)
    again[last[here[last[here] >= 0]]] = here[last[here] >= 0]
    then = np.flatnonzero(counts & (following[visit] >= 0))
    lost = then[(again[then] < 0) | ~counts[again[then]]]
    status = np.where(again[lost] >= 0, measured.status[again[lost]], -1)
    fate_lost = np.select([status == Status.DEAD, status == Status.CUT], [Fate.DIED, Fate.CUT], Fate.NOT_FOUND)
    none = np.full(len(lost), -1, np.int64)
    return (
        np.concatenate([fate_now, fate_lost]).astype(np.int64),
        np.concatenate([np.where(before, last[now], -1), lost]),
        np.concatenate([now, none]),
        np.concatenate([visit[now], following[visit[lost]]]),
    )


def _at_smallest(summary: Summary, rows: Integers) -> NDArray[np.bool_]:
    """Whether stems stand where they would be in already at the smallest dbh that the design takes."""
    measured: Measured = summary.measured
    distance = measured.compared_distance_m[rows]
    design = sampling_design(summary.survey.settings)
    if design is None or design.kind == "fixed":
        return np.ones(len(rows), bool)
    if design.kind == "angle_count":
        reach = 0.5 * (design.min_dbh_cm or 0.0) / np.sqrt(design.basal_area_factor or np.inf)
    else:
        thin = min(design.circles, key=lambda circle: (circle.min_dbh_cm or 0.0, -circle.radius_m))
        reach = thin.radius_m
    return np.asarray(distance <= reach + RESOLUTION)


def _cautions(summary: Summary) -> list[str]:
    cut = summary.measured.stand_edge
    if cut is None or cut.method != "part_plot":
        return []
    return ["part plots weigh like whole ones in the change"]


def _years(summary: Summary, rows: Integers) -> float | None:
    """Mean time between the visits, years; unknown where a plot has no date."""
    visits = summary.survey.visits
    days = (visits.date[rows] - visits.date[visits.previous[rows]]).astype("timedelta64[D]")
    return None if np.isnat(days).any() else float(days.astype(np.int64).mean() / 365.25)


def _one_name(names: NDArray[np.object_]) -> str | None:
    """The name that all visits share, else None."""
    several = set(names.tolist())
    return str(names[0]) or None if len(several) == 1 else None
