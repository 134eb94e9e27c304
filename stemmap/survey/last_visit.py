"""The record of the same stem on the last visit, where numbers are kept from visit to visit."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from stemmap.survey.measured import Measured
from stemmap.survey.survey import Survey

#: Positions of one stem on two visits agree within this and three standard deviations of both.
_NEAR_M = 0.1


def last_records(survey: Survey, measured: Measured) -> NDArray[np.int64]:
    """Row of the same tree and stem number on the plot's visit before, -1 for none; shape (stems,).

    A number that occurs twice on a visit names no stem, and neither does one that stands elsewhere now. Where that is
    so for two numbers of a plot and more, and for over a fifth of them, numbers were given anew, and none is taken.
    """
    stems, previous = survey.stems, survey.visits.previous
    code, visit = stems.number_code, stems.visit_row
    width = int(code.max(initial=0)) + 1
    key = np.where(code >= 0, visit * width + code, -1)
    order = np.argsort(key, kind="stable")
    ordered = key[order]
    alone = np.append(True, ordered[1:] != ordered[:-1])[: len(key)]
    alone &= np.append(alone[1:], True)[: len(key)]
    names, rows = ordered[alone & (ordered >= 0)], order[alone & (ordered >= 0)]
    single = np.zeros(len(key), bool)
    single[rows] = True
    wanted = np.where(single & (previous[visit] >= 0), previous[visit] * width + code, -1)
    found = np.full(len(key), -1, np.int64)
    if len(names):
        place = np.minimum(np.searchsorted(names, wanted), len(names) - 1)
        found = np.where((names[place] == wanted) & (wanted >= 0), rows[place], -1)
    kept = np.flatnonzero(found >= 0)
    apart = np.hypot(*(axis[kept] - axis[found[kept]] for axis in (measured.x_m, measured.y_m)))
    errors = measured.errors
    variance = sum(part[kept] + part[found[kept]] for part in (errors.var_east, errors.var_north))
    elsewhere = apart > _NEAR_M + 3.0 * np.sqrt(variance)
    compared = np.bincount(visit[kept][np.isfinite(apart)], minlength=len(previous))
    moved = np.bincount(visit[kept][elsewhere], minlength=len(previous))
    anew = (moved >= 2) & (moved > 0.2 * compared)
    found[kept[elsewhere]] = -1
    found[anew[visit]] = -1
    return found
