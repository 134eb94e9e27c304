"""What was not seen from the plot centres: hidden ground, and the stems that may stand on it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from stemmap.core import visibility
from stemmap.core.design import RESOLUTION
from stemmap.core.missed import Missed, missed
from stemmap.core.visibility import HiddenGround
from stemmap.survey.measured import Measured, Status
from stemmap.survey.sight import AT_CENTRE, station_rows
from stemmap.survey.survey import Survey

Floats = NDArray[np.float64]

_AT_STEM = "the stems were measured at the stem, not from the centre"
_ANGLE_COUNT = "an angle count has no circle whose ground could be hidden"
_APART = "a circle of the design lies apart from the centre"
_ON_SLOPE = "the circle was laid out on the slope; on the map it is no circle"
_NO_RADIUS = "no plot radius was given"
_OTHER_STATION = "stems were measured from other points too"
_NOT_PLACED = "some standing stems have no place or no dbh"


@dataclass(frozen=True)
class Unseen:
    """What stems hide from the centre, and what may be missed for it, by visit.

    Parameters
    ----------
    survey, measured
        What it is computed from.
    reason
        Why it cannot be known, by visit; empty where it can. Shape (visits,).
    as_told
        What was told of the same visits before a few records changed. Missed stems are estimated from all plots
        together, so they are still those of then; what is hidden is that of now.
    """

    survey: Survey
    measured: Measured
    reason: NDArray[np.object_]
    as_told: Unseen | None = None

    @cached_property
    def ground(self) -> HiddenGround:
        """Hidden share (NaN with a reason) and sectors of the largest circle; azimuths against grid north."""
        rows = self.hiding
        return visibility.hidden_ground(
            *self.sight(rows), self.survey.stems.visit_row[rows], radius_m=self._radius(self.measured.radius_m)
        )

    def ground_of(self, visit_row: int) -> HiddenGround:
        """The same of one visit alone, as its only plot; stems without place or dbh are taken to hide nothing."""
        told = self.reason[visit_row] in ("", _NOT_PLACED)
        stems = self.survey.visits.stems(visit_row)
        hides = (self.measured.status[stems] <= Status.DEAD) & np.isfinite(self.measured.dbh_cm[stems])
        rows = np.flatnonzero(hides & told) + stems.start
        radius = np.where(told, self.measured.radius_m[[visit_row]], np.nan)
        return visibility.hidden_ground(*self.sight(rows), np.zeros(len(rows), np.int64), radius_m=radius)

    def missed_stems(self, group: NDArray[np.integer], *, groups: int) -> Missed:
        """Expected number of living stems that were missed, by groups of visits; visits of group -1 are left out.

        Parameters
        ----------
        group
            Group of each visit, shape (visits,).
        groups
            Number of groups.
        """
        chance, grouped = self._chances
        row, visits = self.survey.stems.visit_row[self.seen], len(self.survey.visits)
        return missed(chance, row, plots=visits, grouped=grouped, into=np.asarray(group), groups=groups)

    @cached_property
    def hiding(self) -> NDArray[np.int64]:
        """Rows of the stems that hide: standing, living or dead, with place and dbh, whether they are in or not."""
        known = self.reason[self.survey.stems.visit_row] == ""
        return np.flatnonzero(known & (self.measured.status <= Status.DEAD) & np.isfinite(self.measured.dbh_cm))

    @cached_property
    def seen(self) -> NDArray[np.int64]:
        """Rows of the stems that were seen and count: living and in."""
        measured = self.measured
        known = self.reason[self.survey.stems.visit_row] == ""
        counts = measured.inside & (measured.expansion_per_ha > 0.0) & (measured.status == Status.LIVING)
        return np.flatnonzero(known & counts & np.isfinite(measured.dbh_cm))

    @cached_property
    def stems(self) -> Missed:
        """Expected number of living stems that were missed on the plot."""
        return self.as_told.stems if self.as_told else self._missed(np.ones(len(self.seen)))

    @cached_property
    def stems_per_ha(self) -> Missed:
        """Expected number of living stems per hectare that were missed."""
        return self.as_told.stems_per_ha if self.as_told else self._missed(self.measured.expansion_per_ha[self.seen])

    @cached_property
    def basal_area_m2_per_ha(self) -> Missed:
        """Expected basal area per hectare of living stems that were missed."""
        if self.as_told:
            return self.as_told.basal_area_m2_per_ha
        rows = self.seen
        area = np.pi * (self.measured.dbh_cm[rows] / 200.0) ** 2
        return self._missed(self.measured.expansion_per_ha[rows] * area)

    def sight(self, rows: NDArray[np.int64]) -> tuple[Floats, Floats, Floats]:
        """Grid azimuth, distance and dbh of stems."""
        measured = self.measured
        return measured.grid_azimuth_deg[rows], measured.horizontal_distance_m[rows], measured.dbh_cm[rows]

    @property
    def probability(self) -> Floats:
        """Probability of each stem of `seen` of being seen at a random place of its circle."""
        return self._chances[0]

    @cached_property
    def _chances(self) -> tuple[Floats, visibility.Grouping]:
        """`probability`, and how stems are grouped; circle by circle, for each has its own stems."""
        visits = len(self.survey.visits)
        # A stem alone on its plot is hidden by nobody.
        alone = np.bincount(self.survey.stems.visit_row[self.hiding], minlength=visits) < 2
        rows = self.hiding[~alone[self.survey.stems.visit_row[self.hiding]]]
        row, sight = self.survey.stems.visit_row[rows], self.sight(rows)
        limit = self.measured.limiting_distance_m
        of_all = np.ones(len(self.survey.stems))
        observed, expected = np.zeros(visits), np.zeros(visits)
        member = np.zeros(len(self.survey.stems), bool)
        member[self.seen] = True
        for circle in np.unique(self.measured.circle[self.seen]):
            here = member[rows] & (self.measured.circle[rows] == circle)
            radius = np.full(visits, np.nan)
            radius[row[here]] = limit[rows[here]]
            chance = visibility.seen_probability(*sight, row, radius_m=radius)
            chance[~here] = np.nan
            grouped = visibility.grouping(*sight, row, radius_m=radius, probability=chance)
            of_all[rows[here]] = chance[here]
            observed += grouped.observed
            expected += grouped.expected
        return of_all[self.seen], visibility.Grouping(observed, expected)

    def _missed(self, weight: Floats) -> Missed:
        chance, grouped = self._chances
        row, visits = self.survey.stems.visit_row[self.seen], len(self.survey.visits)
        made = missed(chance, row, plots=visits, weight=weight, grouped=grouped)
        return made.where(self.reason == "")

    def _radius(self, radius: Floats) -> Floats:
        return np.where(self.reason == "", radius, np.nan)


def unseen(survey: Survey, measured: Measured) -> Unseen:
    """What was not seen, of all plots at once, or why that cannot be known."""
    settings, stems = survey.settings, survey.stems
    reason = np.full(len(survey.visits), "", dtype=object)

    def because(text: str, where: NDArray[np.bool_]) -> None:
        reason[(reason == "") & where] = text

    apart = settings.design.kind == "concentric" and any(circle.offset_m for circle in settings.design.circles)
    because(_AT_STEM, np.array(settings.measurement.method == "at_stem"))
    because(_ANGLE_COUNT, np.array(settings.design.kind == "angle_count"))
    because(_APART, np.array(apart))
    if settings.design.slope != "horizontal":
        because(_ON_SLOPE, ~(survey.visits.numbers("slope_percent") == 0))
    because(_NO_RADIUS, np.isnan(measured.radius_m))
    standing = measured.status <= Status.DEAD
    elsewhere = standing & (station_rows(survey) != AT_CENTRE)
    because(_OTHER_STATION, _any_by_visit(survey, elsewhere))
    beyond = measured.horizontal_distance_m > measured.radius_m[stems.visit_row] + RESOLUTION
    lacking = np.isnan(measured.dbh_cm) | np.isnan(measured.horizontal_distance_m) | np.isnan(measured.x_m)
    because(_NOT_PLACED, _any_by_visit(survey, standing & ~beyond & lacking))
    return Unseen(survey, measured, reason)


def _any_by_visit(survey: Survey, stems: NDArray[np.bool_]) -> NDArray[np.bool_]:
    return np.bincount(survey.stems.visit_row[stems], minlength=len(survey.visits)) > 0
