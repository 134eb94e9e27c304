"""Stems in the outermost half metre of the circles against those further in."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.hidden import hidden
from stemmap.core.visibility import wholly_hidden
from stemmap.survey.registry import Case
from stemmap.survey.unseen import Unseen

Floats = NDArray[np.float64]

_RING_M = 0.5
#: Fewest stems expected in the ring for a test.
_ENOUGH = 10.0


def at_edge(case: Case) -> tuple[Floats, Floats, Floats]:
    """Stems within the outermost ring by visit: found, expected, and the variance of the number; (visits,) each."""
    made = case.once(hidden)
    measured, visits = made.measured, len(made.survey.visits)
    rows = made.seen
    limit, row = measured.limiting_distance_m[rows], made.survey.stems.visit_row[rows]
    ring = 1.0 - np.maximum(1.0 - _RING_M / limit, 0.0) ** 2
    visible = _visible_part(made, rows, limit - 0.5 * _RING_M)
    chance = np.clip(ring * visible, 0.0, 1.0)
    inside = (measured.horizontal_distance_m[rows] > limit - _RING_M).astype(np.float64)

    def total(values: Floats) -> Floats:
        return np.bincount(row, values, minlength=visits).astype(np.float64)

    return total(inside), total(chance), total(chance * (1.0 - chance))


def edge_test(
    edge: tuple[Floats, Floats, Floats], group: NDArray[np.integer], *, groups: int
) -> tuple[Floats, Floats, Floats]:
    """Stems found and expected at the edge by groups of visits, and the chance of so few; NaN where few are expected.

    Parameters
    ----------
    edge
        As `at_edge` tells.
    group
        Group of each visit, shape (visits,).
    groups
        Number of groups.
    """
    from scipy.special import ndtr

    observed, expected, binomial = edge
    found, wanted, spread, excess = (
        np.bincount(group, values, minlength=groups).astype(np.float64)
        for values in (observed, expected, binomial, (observed - expected) ** 2)
    )
    tested = wanted >= _ENOUGH
    score = np.divide(found - wanted, np.sqrt(np.maximum(spread, excess)), out=np.zeros(groups), where=tested)
    return found, wanted, np.where(tested, ndtr(score), np.nan)


def _visible_part(made: Unseen, rows: NDArray[np.int64], at_m: Floats) -> Floats:
    """How much better stems of the usual size are seen in the ring than in their circle, for each of the rows."""
    visits, row = len(made.survey.visits), made.survey.stems.visit_row
    part = np.ones(len(rows))
    usual = np.array([np.median(made.measured.dbh_cm[rows])]) if len(rows) else np.ones(1)
    for circle in np.unique(made.measured.circle[rows]):
        here = np.flatnonzero(made.measured.circle[rows] == circle)
        ring = np.zeros(visits)
        ring[row[rows[here]]] = at_m[here]
        hiding = made.sight(made.hiding)
        hidden = wholly_hidden(*hiding, row[made.hiding], at_m=ring, sizes_cm=usual)[:, 0]
        part[here] = (1.0 - hidden[row[rows[here]]]) / made.probability[here]
    return part
