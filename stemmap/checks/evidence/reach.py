"""How far from the centre stems are recorded: by the design where it fits the records, else as the survey has it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stemmap.core.design import RESOLUTION
from stemmap.survey.measured import Status
from stemmap.survey.registry import Case
from stemmap.units import METRES

Floats = NDArray[np.float64]

#: A design that more than this share of the stems, and so many of them, lie beyond does not fit the records.
_SHARE, _STEMS = 0.1, 10
#: Plots of so many stems are asked, and so many of them must be there; most of them must have a stem beyond.
_PLOT_STEMS, _PLOTS = 4, 3
#: Without a circle that fits, stems reach this much further than 95 of 100 of them stand, where there are so many.
_FURTHER, _ENOUGH = 1.1, 20


@dataclass(frozen=True)
class Reach:
    """How far stems are recorded.

    Parameters
    ----------
    fits
        Whether the design fits the records; single stems beyond it are worth a word only then.
    beyond, stems
        Standing stems clearly beyond their limiting distance, and all that have one.
    plots_beyond, plots
        Visits that have such stems, and all that were asked.
    within_m
        Distance within which 95 of 100 stems stand; NaN where too few stems tell.
    """

    fits: bool
    beyond: int
    stems: int
    plots_beyond: int
    plots: int
    within_m: float

    @property
    def own_m(self) -> float:
        """How far the survey itself goes, metres."""
        return _FURTHER * self.within_m

    def limit_m(self, limiting_distance_m: Floats) -> Floats:
        """Limiting distances as far as they are known and fit; the survey's own reach elsewhere."""
        known = np.isfinite(limiting_distance_m) & self.fits
        limit: Floats = np.where(known, limiting_distance_m, self.own_m)
        return limit


def reach(case: Case) -> Reach:
    """Hold the design against all records at once."""
    if case.whole is not None:
        return case.whole.once(reach)
    survey, measured = case.survey, case.measured
    margin = (survey.settings.design.outside_recorded_to_m or 0.0) * METRES[survey.settings.measurement.length_unit]
    past = measured.compared_distance_m - measured.limiting_distance_m
    known = measured.inside_known & (measured.status <= Status.DEAD) & np.isfinite(past)
    out = known & ~measured.inside & ~measured.borderline & (past > margin + RESOLUTION)
    visit, visits = survey.stems.visit_row, len(survey.visits)
    asked = np.bincount(visit[known], minlength=visits) >= _PLOT_STEMS
    having = asked & (np.bincount(visit[out], minlength=visits) > 0)
    stems, beyond = int(np.count_nonzero(known)), int(np.count_nonzero(out))
    plots, plots_beyond = int(np.count_nonzero(asked)), int(np.count_nonzero(having))
    misfit = beyond >= _STEMS and beyond > _SHARE * stems and plots >= _PLOTS and plots_beyond > 0.5 * plots
    distance = measured.horizontal_distance_m[np.isfinite(measured.horizontal_distance_m)]
    within = float(np.quantile(distance, 0.95)) if len(distance) >= _ENOUGH else np.nan
    return Reach(not misfit, beyond, stems, plots_beyond, plots, within)
