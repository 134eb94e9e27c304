"""How steep the ground is in the direction of each stem."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from stemmap.survey.registry import Case

Floats = NDArray[np.float64]


def slope_to(case: Case, visit: NDArray[np.integer], stem: NDArray[np.integer]) -> Floats:
    """Rise over run from the centre to stems by slope and aspect of the plot; NaN where they are not known.

    Parameters
    ----------
    visit, stem
        Rows of the visits whose slope holds, and of the stems; shape (n,).
    """
    visits = case.survey.visits
    slope, aspect = visits.numbers("slope_percent")[visit], visits.numbers("aspect_deg")[visit]
    rise: Floats = slope / 100.0 * np.cos(np.radians(case.measured.grid_azimuth_deg[stem] - aspect))
    return rise


def level_to(case: Case, stem: NDArray[np.integer]) -> Floats:
    """Horizontal over slope distance of stems: by their vertical angle, or by the slope of their plot; shape (n,).

    1 where neither is known.
    """
    angle = case.survey.stems.numbers("vertical_angle_deg")[stem]
    rise = slope_to(case, case.survey.stems.visit_row[stem], stem)
    level = np.where(np.abs(angle) < 90.0, np.cos(np.radians(angle)), 1.0 / np.sqrt(1.0 + rise**2))
    return np.where(np.isfinite(level), level, 1.0)
