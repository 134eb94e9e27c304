"""What the plots say per hectare, and the survey with its sampling error; what cannot be known says why."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.core import estimates, neighbours, stand
from stemmap.survey.ground import CARRIED
from stemmap.survey.measured import Measured, Status
from stemmap.survey.patterns import Patterns, circle_patterns, large_patterns
from stemmap.survey.plot_status import PlotStatus, plot_status
from stemmap.survey.settings import sampling_design
from stemmap.survey.survey import Survey
from stemmap.survey.unseen import Unseen, unseen

Floats = NDArray[np.float64]

_NO_RADIUS = "no plot radius was given"
_NO_DESIGN = "the circles or the basal area factor of the design were not given"
_NOT_REACHED = "the plot was not reached"
_NON_FOREST = "the plot is not forest"
_NO_STEMS = "no stems were uploaded and the plot is not said to be empty"
_UNDECIDED = "for some stems it cannot be decided whether they are in (distance, dbh or slope is missing)"
_NO_DBH = "some stems that are in have no dbh"
_TOO_FEW = "too few stems"
_NO_SPECIES = "the species of the stems or of their neighbours is missing"


@dataclass(frozen=True)
class Summary:
    """Values by visit row (shape (visits,)) for living stems that are in; NaN where a reason is given instead.

    Parameters
    ----------
    survey, measured
        What it was computed from.
    status
        `PlotStatus` by visit.
    stems, inside, borderline
        Living stems recorded, in, and borderline.
    living, dead
        Per-hectare values of the stems that are in.
    by_species
        The same of living stems by species; its groups index `species_names`.
    dbh_classes
        Living stems per hectare by 5 cm class.
    near
        Nearest-stem values of the stems that share one inclusion rule.
    clark_evans, clark_evans_plain
        Clark-Evans index with Donnelly's edge correction in the disc, and without correction.
    pattern
        The living stems that share one inclusion rule: those of the circle, or of the inner one.
    large
        The large ones of the outer of concentric circles; None in other designs.
    species_code
        Species of every stem, into `species_names`; -1 where it is missing.
    density_reason
        Why a value is not known, by visit; empty when it is.
    expected_inside
        Expected number of sample trees, where stems outside are recorded to a stated margin; else NaN.
    unseen
        What was not seen from the centre.
    """

    survey: Survey
    measured: Measured
    status: NDArray[np.int8]
    stems: NDArray[np.int64]
    inside: NDArray[np.int64]
    borderline: NDArray[np.int64]
    living: stand.StandValues
    dead: stand.StandValues
    by_species: stand.GroupValues
    species_names: NDArray[np.object_]
    dbh_classes: stand.DbhClasses
    near: neighbours.Neighbourhoods
    clark_evans: neighbours.ClarkEvansByPlot
    clark_evans_plain: neighbours.ClarkEvansByPlot
    pattern: Patterns
    large: Patterns | None
    species_code: NDArray[np.int64]
    density_reason: NDArray[np.object_]
    expected_inside: Floats
    unseen: Unseen

    @cached_property
    def stems_per_ha(self) -> Floats:
        """Living stems per hectare; NaN where `density_reason` says why."""
        return np.where(self.density_reason == "", self.living.stems_per_ha, np.nan)

    @cached_property
    def basal_area_m2_per_ha(self) -> Floats:
        """Basal area of living stems, m²/ha; NaN where it is not known."""
        return np.where(self.density_reason == "", self.living.basal_area, np.nan)

    def plot_json(self, row: int) -> dict[str, Any]:
        """One plot and visit as `stemmap summary --format json` promises it."""
        reason: dict[str, str] = {}
        density, pattern = str(self.density_reason[row]), str(self.pattern.reason[row])

        def known(name: str, value: float, why: str) -> float | None:
            if why or not np.isfinite(value):
                reason[name] = why or "not known"
                return None
            return float(value)

        no_dbh = density or (_NO_DBH if self.living.without_dbh[row] else "")
        visits, ce, plain = self.survey.visits, self.clark_evans, self.clark_evans_plain
        strata, stratum = self._strata_words
        n = int(self.near.stems[row])
        few = pattern or (_TOO_FEW if n < 2 else "")
        few_near = pattern or ("" if self.near.counted[row] else "no stem has its four neighbours nearer than the edge")
        date = visits.date[row]
        values: dict[str, Any] = {
            "plot": visits.plot[row],
            "visit": visits.visit[row] or None,
            "date": None if np.isnat(date) else str(date),
            "stratum": strata[stratum[row]] or None,
            "plot_status": PlotStatus(int(self.status[row])).name.lower().replace("_", "-"),
            "stems": int(self.stems[row]),
            "in": int(self.inside[row]) if not density or density == _UNDECIDED else None,
            "borderline": int(self.borderline[row]) if not density or density == _UNDECIDED else None,
            "without_dbh": int(self.living.without_dbh[row]),
            "stems_per_ha": known("stems_per_ha", self.living.stems_per_ha[row], density),
            "basal_area_m2_per_ha": known("basal_area_m2_per_ha", self.living.basal_area[row], no_dbh),
            "qmd_cm": known("qmd_cm", self.living.qmd[row], no_dbh or ("" if self.inside[row] else "no stems")),
            "mean_nearest_m": known("mean_nearest_m", self.near.mean_nearest[row], few),
            "clark_evans": {
                "r": known("clark_evans.r", ce.r[row], few),
                "z": known("clark_evans.z", ce.z[row], few),
                "p": known("clark_evans.p", ce.p[row], few),
                "correction": ce.correction,
                "n": n,
                "note": _TOO_FEW if n < neighbours.FEWEST_STEMS and not pattern else None,
                "plain": {name: _finite(getattr(plain, name)[row]) if not few else None for name in ("r", "z", "p")},
            },
            "uniform_angle": known("uniform_angle", self.near.uniform_angle[row], few_near),
            "uniform_angle_n": int(self.near.counted[row]),
            "mingling": known(
                "mingling",
                self.near.mingling[row],
                few_near or ("" if self.near.counted_mingling[row] else _NO_SPECIES),
            ),
            "mingling_n": int(self.near.counted_mingling[row]),
            "neighbour_edge": "only stems whose fourth neighbour is nearer than the edge",
            "pattern_stems": self.pattern.words(row),
            **self._unseen_json(row, reason),
            "expected_in": known(
                "expected_in",
                self.expected_inside[row],
                density or ("" if self._outside_recorded else "stems outside the circle are not recorded to a margin"),
            ),
            "dead": {
                "in": int(self.dead.stems[row]) if not density else None,
                "stems_per_ha": _finite(self.dead.stems_per_ha[row]) if not density else None,
                "basal_area_m2_per_ha": _finite(self.dead.basal_area[row]) if not density else None,
            },
            "species": self._species_json(row) if not density else None,
            "dbh_classes": {
                "edges_cm": self.dbh_classes.edges.tolist(),
                "stems_per_ha": self.dbh_classes.stems_per_ha[row].tolist(),
            }
            if not density
            else None,
        }
        for name in ("in", "borderline", "species", "dbh_classes", "dead", "pattern_stems"):
            if values[name] is None or (name == "dead" and density):
                reason[name] = density or pattern
        if (cut := self.measured.stand_edge) is not None:
            values["share_inside"] = known(
                "share_inside", cut.share[row], str(cut.reason[row]) if np.isnan(cut.share[row]) else ""
            )
            values["edge_correction"] = CARRIED[cut.method]
        values["reasons"] = reason
        return values

    def _unseen_json(self, row: int, reason: dict[str, str]) -> dict[str, Any]:
        """Hidden share of the circle and what is expected to be missed, with the interval; reasons are added."""
        why = str(self.density_reason[row]) or str(self.unseen.reason[row])
        values: dict[str, Any] = {"hidden_share": None if why else _finite(self.unseen.ground.share[row])}
        for name, made in (
            ("missed_stems_per_ha", self.unseen.stems_per_ha),
            ("missed_basal_area_m2_per_ha", self.unseen.basal_area_m2_per_ha),
        ):
            for ending, column in (("", made.expected), ("_low", made.low), ("_high", made.high)):
                values[name + ending] = None if why else _finite(column[row])
        if why:
            reason.update(dict.fromkeys(values, why))
        return values

    @cached_property
    def _strata_words(self) -> tuple[list[str], NDArray[np.int64]]:
        return self.survey.visits.words("stratum")

    @property
    def _outside_recorded(self) -> bool:
        return self.survey.settings.design.outside_recorded_to_m is not None

    def _species_json(self, row: int) -> list[dict[str, Any]]:
        first, last = np.searchsorted(self.by_species.plot, [row, row + 1])
        values = self.by_species.values
        return [
            {
                "species": self.species_names[self.by_species.group[place]] or None,
                "in": int(values.stems[place]),
                "stems_per_ha": _finite(values.stems_per_ha[place]),
                "basal_area_m2_per_ha": _finite(values.basal_area[place]),
                "qmd_cm": _finite(values.qmd[place]),
            }
            for place in range(first, last)
        ]

    @cached_property
    def sampled(self) -> NDArray[np.bool_]:
        """Which plots belong to the sample of the stand, by visit: forest, and not outside the stand's edge."""
        cut = self.measured.stand_edge
        forest = self.status != PlotStatus.NON_FOREST
        return np.asarray(forest if cut is None else forest & cut.sampled)

    def strata_json(self) -> list[dict[str, Any]]:
        """Mean, standard error and interval of each stratum and of the survey, visit by visit."""
        return list(self._strata())

    def _strata(self) -> Iterator[dict[str, Any]]:
        words, code = self._strata_words
        present = np.unique(code)
        strata, code = [words[place] for place in present.tolist()], np.searchsorted(present, code)
        several = len(strata) > 1
        for visit, rows in visit_groups(self.survey):
            used = rows[self.sampled[rows]]
            whole = [(None, np.zeros(len(used), np.int64), 1)]
            for names, codes, count in [*whole, *([(strata, code[used], len(strata))] if several else [])]:
                told = {
                    name: estimates.estimate(values[used], stratum=codes, strata=count)
                    for name, values in (
                        ("stems_per_ha", self.stems_per_ha),
                        ("basal_area_m2_per_ha", self.basal_area_m2_per_ha),
                    )
                }
                for place in range(count):
                    yield {
                        "stratum": None if names is None else names[place] or "(none)",
                        "visit": visit,
                        "plots": int(told["stems_per_ha"].n[place]),
                        "method": "simple random sampling",
                        "confidence": 0.95,
                        **{name: _estimate_json(made, place) for name, made in told.items()},
                    }


def _estimate_json(made: estimates.Estimate, place: int) -> dict[str, Any]:
    return {
        "mean": _finite(made.mean[place]),
        "standard_error": _finite(made.standard_error[place]),
        "low": _finite(made.low[place]),
        "high": _finite(made.high[place]),
        "plots": int(made.n[place]),
        "left_out": int(made.left_out[place]),
        "reason": made.reason[place] or None,
    }


def _finite(value: float) -> float | None:
    return float(value) if np.isfinite(value) else None


def visit_groups(survey: Survey) -> Iterator[tuple[str | None, NDArray[np.int64]]]:
    """Visits that are summed up together: those of one name where plots share names, else each plot's last."""
    visits = survey.visits
    names, code = np.unique(visits.visit.astype(str), return_inverse=True)
    if 2 * len(names) <= len(visits):
        for place, name in enumerate(names):
            yield str(name) or None, np.flatnonzero(code == place)
    elif len(visits):
        is_last = np.append(visits.plot[1:] != visits.plot[:-1], True)
        yield None, np.flatnonzero(is_last)


def summarise(survey: Survey, measured: Measured) -> Summary:
    """Summarise all plots at once.

    The neighbour indices take living stems that are in, one position a tree, and need one inclusion rule for all
    of them: in concentric circles all stems within the smallest circle about the centre, in an angle count none.
    """
    visits, stems = survey.visits, survey.stems
    first, count = visits.first_stem, len(visits)
    alive = measured.status == Status.LIVING
    counted = measured.inside & (measured.expansion_per_ha > 0)
    living, dead = counted & alive, counted & (measured.status == Status.DEAD)
    species = stems.records.columns.get("species")
    names = np.append(species.labels, "") if species is not None else np.array([""], dtype=object)
    code = species.alike(_species_name) if species is not None else np.full(len(stems), -1, np.int64)
    group = np.where(code < 0, len(names) - 1, code)

    status = plot_status(survey)
    density_reason = _density_reasons(survey, measured, status)
    pattern = circle_patterns(survey, measured, living=living, reason=density_reason)
    near = neighbours.neighbourhoods(
        np.column_stack([measured.x_m[pattern.rows], measured.y_m[pattern.rows]]),
        pattern.visit,
        plots=count,
        species=code[pattern.rows],
        edge="nearest",
        to_edge=pattern.to_edge_m,
    )
    area, perimeter = pattern.area_m2, pattern.perimeter_m
    outside = survey.settings.design.outside_recorded_to_m
    probability = np.where(alive, np.nan_to_num(measured.inside_probability), 0.0)
    return Summary(
        survey=survey,
        measured=measured,
        status=status,
        stems=stand.sum_by_plot(alive, first).astype(np.int64),
        inside=stand.sum_by_plot(living, first).astype(np.int64),
        borderline=stand.sum_by_plot(measured.borderline & alive, first).astype(np.int64),
        living=stand.stand_values(measured.dbh_cm, measured.expansion_per_ha, first, counted=living),
        dead=stand.stand_values(measured.dbh_cm, measured.expansion_per_ha, first, counted=dead),
        by_species=stand.stand_values_by_group(
            measured.dbh_cm, measured.expansion_per_ha, first, group, counted=living
        ),
        species_names=names,
        dbh_classes=stand.dbh_classes(measured.dbh_cm, measured.expansion_per_ha, first, counted=living),
        near=near,
        clark_evans=neighbours.clark_evans_by_plot(near.mean_nearest, near.stems, area, perimeter),
        clark_evans_plain=neighbours.clark_evans_by_plot(
            near.mean_nearest, near.stems, area, perimeter, correction="none"
        ),
        pattern=pattern,
        large=large_patterns(survey, measured, living=living, reason=density_reason),
        species_code=code,
        density_reason=density_reason,
        expected_inside=stand.sum_by_plot(probability, first) if outside is not None else np.full(count, np.nan),
        unseen=unseen(survey, measured),
    )


def _density_reasons(survey: Survey, measured: Measured, status: NDArray[np.int8]) -> NDArray[np.object_]:
    """Why a plot's density cannot be known; empty where it can."""
    visits = survey.visits
    reason = np.full(len(visits), "", dtype=object)
    alive = measured.status == Status.LIVING
    undecided = stand.sum_by_plot(~measured.inside_known & alive, visits.first_stem) > 0
    reason[undecided] = _UNDECIDED
    if sampling_design(survey.settings) is None:
        reason[status != PlotStatus.EMPTY] = _NO_DESIGN
    elif survey.settings.design.kind == "fixed":
        reason[np.isnan(measured.radius_m) & (status != PlotStatus.EMPTY)] = _NO_RADIUS
    without = visits.stem_count == 0
    reason[without & ((status == PlotStatus.UNKNOWN) | (status == PlotStatus.MEASURED))] = _NO_STEMS
    if measured.stand_edge is not None:
        at_edge = measured.stand_edge.reason
        reason = np.where(at_edge != "", at_edge, reason)
    reason[status == PlotStatus.NOT_REACHED] = _NOT_REACHED
    reason[status == PlotStatus.NON_FOREST] = _NON_FOREST
    return reason


def _species_name(typed: str) -> str:
    """Two spellings that differ in case or space mean one species."""
    return " ".join(typed.split()).casefold()
