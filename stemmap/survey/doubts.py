"""Doubts as numbers: how probable it is that a record or a plot is wrong, and by how much that would move its values.

Doubts about the same thing are taken for independent, and what they move is added up.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from stemmap.core.design import membership
from stemmap.survey.batches import Batch
from stemmap.survey.findings import Findings
from stemmap.survey.measured import Measured, Status
from stemmap.survey.settings import sampling_design
from stemmap.survey.sight import positive
from stemmap.survey.summary import Summary
from stemmap.units import METRES

if TYPE_CHECKING:
    from stemmap.survey.registry import Check

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]

#: Probability that something is wrong where a check gives none, by severity; an assumption of ours.
_ASSUMED = {"error": 0.9, "warning": 0.5, "note": 0.05}
#: Checks about a diameter that give no probability.
_DIAMETERS = frozenset(
    {"dbh-change", "crosswise-diameters-disagree", "form-quotient-unlikely", "dbh-beyond-instrument"}
)
#: Checks that say that a plot was perhaps not recorded at all.
_WHOLE = frozenset({"plot-without-stems", "plot-status-contradicted"})
#: A probability below this is none.
_NONE = 1e-3


class Tally:
    """Gathers doubts about stems, or about plots; shape (n,) each.

    `right` is the probability that nothing is wrong. `stems` and `area` are the expected changes per hectare,
    `lost_stems` and `lost_area` the expected weight, per hectare, of what stands in a wrong place.
    """

    def __init__(self, count: int) -> None:
        self.right = np.ones(count)
        self.stems, self.area = np.zeros(count), np.zeros(count)
        self.lost_stems, self.lost_area = np.zeros(count), np.zeros(count)

    def add(self, rows: Integers, probability: Floats, stems: Floats | float, area: Floats | float) -> None:
        """Add a doubt: with this probability the values per hectare change by so much."""
        chance = np.clip(np.nan_to_num(probability), 0.0, 1.0)
        np.multiply.at(self.right, rows, 1.0 - chance)
        np.add.at(self.stems, rows, chance * np.nan_to_num(np.abs(stems)))
        np.add.at(self.area, rows, chance * np.nan_to_num(np.abs(area)))

    def misplace(self, rows: Integers, probability: Floats, stems: Floats, area: Floats) -> None:
        """Add that with this probability so much stands in a wrong place."""
        np.add.at(self.lost_stems, rows, np.nan_to_num(probability * stems))
        np.add.at(self.lost_area, rows, np.nan_to_num(probability * area))


@dataclass(frozen=True)
class _Weights:
    """What stems add per hectare, shape (stems,): now, and where they would be in; and what is usual."""

    stems: Floats
    area: Floats
    if_in: Floats
    usual_stems: float
    usual_area_m2: float


def stem_doubts(summary: Summary, findings: Findings) -> Tally:
    """Doubts about stems.

    - In or out, and the circle: the probability of the other side, and the weight there.
    - Mistyped: the probability of each proposal, and what the plot would be with it. A wrong distance that is not
      proposed anew brings a stem in that is recorded as out, and leaves one in that is recorded as in, since crews
      record what is in; a wrong diameter is an ordinary one.
    - A record entered twice: its weight.
    - A missing distance or diameter: the weight of an ordinary stem.
    - Other doubts about a diameter: the basal area against that of the ordinary range, with a probability by severity.
    """
    measured = summary.measured
    tally, weights = Tally(len(measured.dbh_cm)), _weights(measured)
    _add_inclusion(tally, summary, weights)
    _add_missing(tally, measured, weights)
    judged = np.zeros(len(measured.dbh_cm), bool)
    for check, batch in findings.batches:
        if check.slug == "mistyped":
            _add_mistyped(tally, summary, weights, batch)
            judged[batch.stem] |= batch.field not in ("azimuth", "distance_m")
    for check, batch in findings.batches:
        if check.slug in _DIAMETERS:
            # A diameter is doubted once, by whatever gives a probability first.
            fresh = np.asarray(batch.stem, np.int64)[~judged[batch.stem]]
            _add_diameter(
                tally, measured, weights, batch, rows=fresh, assumed=_ASSUMED[batch.severity or check.severity]
            )
            judged[batch.stem] = True
    return tally


def plot_doubts(summary: Summary, findings: Findings) -> Tally:
    """Doubts about plots.

    - Stems that may have been missed behind others: their expected number and basal area.
    - A plot that may not have been recorded at all: an ordinary plot.
    - A plot that as a whole does not lie as it did at the last visit: all of it stands in a wrong place, with the
      probability that the check gives, else with one by severity.
    """
    visits = len(summary.survey.visits)
    tally = Tally(visits)
    number, per_ha, area = (
        np.nan_to_num(made.expected)
        for made in (summary.unseen.stems, summary.unseen.stems_per_ha, summary.unseen.basal_area_m2_per_ha)
    )
    some = np.flatnonzero(number > _NONE)
    chance = -np.expm1(-number[some])
    tally.add(some, chance, per_ha[some] / chance, area[some] / chance)
    stems, basal = summary.living.stems_per_ha, summary.living.basal_area
    usual = [float(np.mean(values[values > 0.0])) if (values > 0.0).any() else 0.0 for values in (stems, basal)]
    for check, batch in findings.batches:
        rows = np.asarray(batch.visit[(batch.stem < 0) & (batch.visit >= 0)], np.int64)
        if not weighs_plot(check, batch) or not len(rows):
            continue
        chance = np.full(len(rows), _ASSUMED[batch.severity or check.severity])
        if check.slug in _WHOLE:
            tally.add(rows, chance, usual[0], usual[1])
        else:
            if "probability" in batch.evidence:
                chance = np.asarray(batch.evidence["probability"], np.float64)
            tally.add(rows, chance, 0.0, 0.0)
            tally.misplace(rows, chance, stems[rows], np.nan_to_num(basal[rows]))
    return tally


def weighs_plot(check: Check, batch: Batch) -> bool:
    """Whether a finding about a plot is a reason to go there."""
    of_place = check.family == "revisit" and (batch.severity or check.severity) != "note"
    return of_place or check.slug in _WHOLE


def _weights(measured: Measured) -> _Weights:
    counted = measured.inside & (measured.status == Status.LIVING)
    stems = np.where(counted, np.nan_to_num(measured.expansion_per_ha), 0.0)
    each = _area(measured.dbh_cm)
    chance = np.nan_to_num(measured.inside_probability)
    some = ~measured.inside & (chance > _NONE)
    if_in = np.divide(measured.expected_per_ha, chance, out=np.nan_to_num(measured.expansion_per_ha), where=some)
    present = counted & (stems > 0.0)
    thick = each[present & np.isfinite(each)]
    return _Weights(
        stems=stems,
        area=stems * np.nan_to_num(each),
        if_in=if_in,
        usual_stems=float(stems[present].mean()) if present.any() else 0.0,
        usual_area_m2=float(np.median(thick)) if len(thick) else 0.0,
    )


def _add_inclusion(tally: Tally, summary: Summary, weights: _Weights) -> None:
    measured, level = summary.measured, summary.survey.settings.errors.borderline_probability
    living = (measured.status == Status.LIVING) & measured.inside_known
    chance, change = np.nan_to_num(measured.inside_probability), np.nan_to_num(measured.class_change_probability)
    wrong = np.where(measured.inside, 1.0 - chance, chance)
    each = np.nan_to_num(_area(measured.dbh_cm))
    rows = np.flatnonzero(living & measured.borderline & (wrong > _NONE))
    weight = np.where(measured.inside, weights.stems, weights.if_in)[rows]
    tally.add(rows, wrong[rows], weight, weight * each[rows])
    rows = np.flatnonzero(living & measured.inside & (change > level) & ~measured.borderline)
    step = np.abs(measured.expected_per_ha[rows] - measured.expansion_per_ha[rows]) / change[rows]
    tally.add(rows, change[rows], step, step * each[rows])


def _add_missing(tally: Tally, measured: Measured, weights: _Weights) -> None:
    unknown = np.flatnonzero((measured.status == Status.LIVING) & ~measured.inside_known)
    usual = weights.usual_stems
    tally.add(unknown, np.ones(len(unknown)), usual, usual * weights.usual_area_m2)
    bare = np.flatnonzero((weights.stems > 0.0) & np.isnan(measured.dbh_cm))
    tally.add(bare, np.ones(len(bare)), 0.0, weights.stems[bare] * weights.usual_area_m2)


def _add_mistyped(tally: Tally, summary: Summary, weights: _Weights, batch: Batch) -> None:
    measured, stems = summary.measured, summary.survey.stems
    rows = np.asarray(batch.stem, np.int64)
    living = measured.status[rows] == Status.LIVING
    wrong = np.where(living, np.asarray(batch.evidence["probability_wrong"], np.float64), 0.0)
    now = weights.stems[rows], weights.area[rows]
    if batch.field is None:
        tally.add(rows, wrong, *now)
        return
    left, moved = wrong.copy(), np.zeros((2, len(rows)))
    for proposal in batch.proposals:
        if proposal.field == "status":  # struck, it weighs nothing
            chance = np.where(living, np.nan_to_num(proposal.probability), 0.0)
            moved += chance * np.stack(now)
            left = np.maximum(left - chance, 0.0)
            continue
        ratio = proposal.values / positive(stems.numbers(proposal.field))[rows]
        chance = np.where(living & np.isfinite(ratio), np.nan_to_num(proposal.probability), 0.0)
        then = _otherwise(summary, rows, proposal.field, np.where(chance > 0.0, ratio, 1.0))
        moved += chance * np.abs(np.nan_to_num(then) - np.stack(now))
        left = np.maximum(left - chance, 0.0)
    weight = np.where(now[0] > 0.0, now[0], weights.if_in[rows])
    area = weight * np.nan_to_num(_area(measured.dbh_cm[rows]))
    if batch.field == "distance_m":
        moved[0] += left * (weight - now[0])
        moved[1] += left * (area - now[1])
    elif batch.field != "azimuth":
        moved[1] += left * np.abs(now[1] - now[0] * weights.usual_area_m2)
    if batch.field in ("azimuth", "distance_m"):
        tally.misplace(rows, wrong, weight, area)
    scale = np.maximum(wrong, _NONE)
    tally.add(rows, wrong, moved[0] / scale, moved[1] / scale)


def _otherwise(summary: Summary, rows: Integers, field: str, ratio: Floats) -> tuple[Floats, Floats]:
    """Weights per hectare, stems and basal area, that stems would have with a field so many times as large."""
    measured, survey = summary.measured, summary.survey
    distance, dbh = measured.horizontal_distance_m[rows], measured.dbh_cm[rows]
    if field == "distance_m":
        distance = distance * ratio
    elif field != "azimuth":
        dbh = dbh * ratio
    stems, inside = np.nan_to_num(measured.expansion_per_ha[rows]), measured.inside[rows]
    design = sampling_design(survey.settings)
    first = survey.visits.previous[survey.stems.visit_row[rows]] < 0
    if design is not None and field != "azimuth":
        visit = survey.stems.visit_row[rows]
        unit = METRES[survey.settings.measurement.length_unit]
        made = membership(
            design,
            azimuth_deg=measured.grid_azimuth_deg[rows],
            distance_m=distance,
            dbh_cm=dbh,
            radius_m=(positive(survey.visits.numbers("radius_m")) * unit)[visit],
            slope_percent=survey.visits.numbers("slope_percent")[visit],
            aspect_deg=survey.visits.numbers("aspect_deg")[visit],
        )
        # Where the first visit decided, a later one changes no membership.
        decides = made.known & (first | (survey.settings.design.membership == "each_visit"))
        stems = np.where(decides, np.nan_to_num(made.expansion_per_ha), stems)
        inside = np.where(decides, made.inside, inside)
    stems = np.where(inside, stems, 0.0)
    return stems, stems * _area(dbh)


def _add_diameter(
    tally: Tally, measured: Measured, weights: _Weights, batch: Batch, *, rows: Integers, assumed: float
) -> None:
    """Add a doubt about the diameters of some stems of a batch."""
    ordinary = np.full(len(rows), weights.usual_area_m2)
    if {"low_cm", "high_cm"} <= batch.evidence.keys():
        chosen = np.isin(batch.stem, rows)
        low, high = (np.asarray(batch.evidence[name], np.float64)[chosen] for name in ("low_cm", "high_cm"))
        ordinary = _area(np.clip(measured.dbh_cm[rows], low, high))
    moved = np.abs(weights.area[rows] - weights.stems[rows] * ordinary)
    tally.add(rows, np.where(weights.stems[rows] > 0.0, assumed, 0.0), 0.0, moved)


def _area(dbh_cm: Floats) -> Floats:
    """Basal area of a stem in m²."""
    area: Floats = np.pi * (dbh_cm / 200.0) ** 2
    return area
