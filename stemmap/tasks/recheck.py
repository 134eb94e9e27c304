"""The re-check list: what a crew is sent back for, in the order in which it pays, with blind checks beside it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from math import ceil
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.core.recheck import drawn, ranked
from stemmap.errors import InputError
from stemmap.survey.measured import Status
from stemmap.survey.settings import Recheck
from stemmap.tasks.workup import Workup

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]

#: Blind checks for each doubt, when nothing is said; an assumption of ours.
BLIND_SHARE = 0.05


@dataclass(frozen=True)
class RecheckList:
    """Doubts in the order in which they pay, then blind checks; columns of shape (lines,).

    Parameters
    ----------
    workup
        What it is made from.
    visit, stem
        Row of the visit and of the stem; -1: the plot as a whole, to look for stems that others hide.
    doubt
        Place among the doubts; -1: a blind check.
    minutes
        Crew time that each line adds; the first line of a plot carries the walk and setting up.
    rate
        Expected change of the survey's result in percent for each hour, walk included; NaN for a blind check.
    undoubted
        Number of stems from which the blind checks were drawn.
    blind_near
        How many of them had to lie on plots that are visited anyway, because the budget had no more walks.
    budget_hours, blind_share, seed
        What was asked for.
    """

    workup: Workup
    visit: Integers
    stem: Integers
    doubt: Integers
    minutes: Floats
    rate: Floats
    undoubted: int
    blind_near: int
    budget_hours: float | None
    blind_share: float
    seed: int

    def __len__(self) -> int:
        return len(self.visit)

    @property
    def by_visit(self) -> dict[int, list[int]]:
        """Rows of the stems by row of the visit, visits in the order of the list; -1: to look for hidden stems.

        The stems stand in the order of their records, so that a crew cannot tell a blind check from a doubt.
        """
        stems: dict[int, list[int]] = {}
        for visit, stem in zip(self.visit.tolist(), self.stem.tolist(), strict=True):
            stems.setdefault(visit, []).append(stem)
        return {visit: sorted(rows) for visit, rows in stems.items()}

    @cached_property
    def percent(self) -> Floats:
        """Expected change of the survey's result in percent by line; NaN for a blind check."""
        values = np.append(self.workup.worth.doubts.worth / max(self.workup.worth.result.plots, 1), np.nan)[self.doubt]
        return np.where(self.doubt >= 0, values, np.nan)

    def line(self, place: int) -> dict[str, Any]:
        """One line as `stemmap recheck --format json` promises it."""
        survey, doubt = self.workup.survey, int(self.doubt[place])
        visit, stem = int(self.visit[place]), int(self.stem[place])
        return {
            "plot": survey.visits.plot[visit],
            "visit": survey.visits.visit[visit] or None,
            "stem": (survey.stems.label(stem) or None) if stem >= 0 else None,
            "kind": "doubt" if doubt >= 0 else "blind",
            "probability": float(self.workup.worth.doubts.probability[doubt]) if doubt >= 0 else None,
            "effect": self._effect(doubt, stem),
            "worth_percent": _finite(self.percent[place]),
            "worth_percent_per_hour": _finite(self.rate[place]),
            "minutes": float(self.minutes[place]),
            "reasons": self._reasons(doubt, visit, stem),
        }

    def lines(self) -> Iterator[dict[str, Any]]:
        """All lines, made one by one."""
        return map(self.line, range(len(self)))

    def totals(self) -> dict[str, Any]:
        """What the list adds up to, and what it was made under."""
        doubts, result = self.workup.worth.doubts, self.workup.worth.result
        on = self.doubt >= 0
        whole = float(doubts.worth.sum())
        blind = int(np.count_nonzero(~on))
        rules = self.workup.survey.settings.recheck
        return {
            "doubts": int(np.count_nonzero(on)),
            "blind": blind,
            "plots": len(np.unique(self.visit)),
            "minutes": float(self.minutes.sum()),
            "worth_percent": float(np.nansum(self.percent)),
            "share_of_all_doubts": float(doubts.worth[self.doubt[on]].sum()) / whole if whole > 0.0 else None,
            "doubts_left_out": len(doubts) - int(np.count_nonzero(on)),
            "undoubted_stems": self.undoubted,
            "blind_on_visited_plots_only": self.blind_near,
            "error_rate_upper_if_none_wrong": 1.0 - 0.05 ** (1.0 / blind) if blind else None,
            "budget_hours": self.budget_hours,
            "blind_share": self.blind_share,
            "seed": self.seed,
            "result": {
                "plots": result.plots,
                "stems_per_ha": _finite(result.stems_per_ha),
                "basal_area_m2_per_ha": _finite(result.basal_area_m2_per_ha),
                "reason": self._unknown,
            },
            "assumed": {name: getattr(rules, name) for name in Recheck.__dataclass_fields__},
        }

    @property
    def _unknown(self) -> str | None:
        """Why nothing can be ranked, where no plot has a value per hectare."""
        if np.isfinite(self.workup.worth.result.stems_per_ha):
            return None
        reasons = [str(reason) for reason in self.workup.summary.density_reason if reason]
        return reasons[0] if reasons else "no plot has a value per hectare"

    def _effect(self, doubt: int, stem: int) -> dict[str, float | None]:
        """Change of the survey's mean if the line is wrong; of a blind check, if the stem should not count."""
        plots = max(self.workup.worth.result.plots, 1)
        doubts = self.workup.worth.doubts
        if doubt >= 0:
            stems, area = doubts.stems_per_ha[doubt], doubts.basal_area_m2_per_ha[doubt]
        else:
            measured = self.workup.measured
            stems = measured.expansion_per_ha[stem] if measured.inside[stem] else 0.0
            area = stems * np.pi * (measured.dbh_cm[stem] / 200.0) ** 2
        return {"stems_per_ha": _finite(stems / plots), "basal_area_m2_per_ha": _finite(area / plots)}

    def _reasons(self, doubt: int, visit: int, stem: int) -> list[str]:
        if doubt < 0:
            return [
                f"Drawn by chance (seed {self.seed}) from {self.undoubted} stems that are not on the list, to learn "
                "how often nobody doubts what is wrong."
            ]
        return list(self.workup.worth.reasons(visit, stem))


def recheck_list(
    workup: Workup, *, budget_hours: float | None = None, blind_share: float = BLIND_SHARE, seed: int = 1
) -> RecheckList:
    """Rank plots and stems by the expected change of the survey's result for each minute of crew time.

    Parameters
    ----------
    budget_hours
        Crew time; None: no limit. The blind checks have their share of it; where that pays for no more walks, the rest
        of them are drawn on plots that are visited.
    blind_share
        Blind checks for each doubt on the list, from 0 to 1, rounded up: stems drawn by chance from all living stems
        of the last visits that are not on the list.
    seed
        Of the drawing.

    Raises
    ------
    InputError
        When the budget is below zero or the share is no share.
    """
    if budget_hours is not None and not budget_hours >= 0.0:
        raise InputError(f"The budget of {budget_hours:g} hours must not be below zero.")
    if not 0.0 <= blind_share <= 1.0:
        raise InputError(f"The share of blind checks is {blind_share:g}, but must lie between 0 and 1.")
    survey, rules = workup.survey, workup.survey.settings.recheck
    worth = workup.worth
    doubts = worth.doubts
    walk = rules.minutes_to_plot + rules.minutes_to_set_up
    own = np.where(doubts.stem >= 0, rules.minutes_per_stem, rules.minutes_to_search)
    order = ranked(doubts.worth, own, doubts.visit, walk_minutes=walk)
    minutes = np.inf if budget_hours is None else 60.0 * budget_hours
    taken = order.within(minutes if blind_share == 0.0 else (1.0 - blind_share) * minutes)
    chosen = order.order[taken]

    free = worth.last[survey.stems.visit_row] & (workup.measured.status == Status.LIVING)
    free[doubts.stem[chosen][doubts.stem[chosen] >= 0]] = False
    candidates = np.flatnonzero(free)
    row = survey.stems.visit_row[candidates]
    visited = np.zeros(len(survey.visits), bool)
    visited[doubts.visit[chosen]] = True
    drawing = drawn(
        row,
        visited,
        count=ceil(blind_share * len(chosen) - 1e-9),
        minutes_per_stem=rules.minutes_per_stem,
        walk_minutes=walk,
        limit=minutes - float(order.minutes[taken].sum()),
        rng=np.random.default_rng(seed),
    )
    blind = drawing.places
    per_hour = 60.0 / max(worth.result.plots, 1)
    return RecheckList(
        workup=workup,
        visit=np.concatenate([doubts.visit[chosen], row[blind]]),
        stem=np.concatenate([doubts.stem[chosen], candidates[blind]]),
        doubt=np.concatenate([chosen, np.full(len(blind), -1)]),
        minutes=np.concatenate([order.minutes[taken], drawing.minutes]),
        rate=np.concatenate([order.rate[taken] * per_hour, np.full(len(blind), np.nan)]),
        undoubted=len(candidates),
        blind_near=drawing.near,
        budget_hours=budget_hours,
        blind_share=blind_share,
        seed=seed,
    )


def _finite(value: float) -> float | None:
    return float(value) if np.isfinite(value) else None
