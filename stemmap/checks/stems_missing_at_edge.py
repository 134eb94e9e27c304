"""Crews whose records thin out just inside the edge of the circle."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.hidden import hidden
from stemmap.core.visibility import wholly_hidden
from stemmap.survey.findings import Batch
from stemmap.survey.registry import Case, check
from stemmap.survey.unseen import Unseen

_RING_M = 0.5
#: Fewest stems expected in the ring, and probability of such a deficit by chance, over all crews together.
_ENOUGH, _CHANCE = 10.0, 0.01


@check("stems-missing-at-edge", family="visibility", severity="note", needs=("azimuth", "distance_m"))
def stems_missing_at_edge(case: Case) -> Iterator[Batch]:
    """A crew records fewer stems in the outermost half metre than its area should hold.

    What: over all plots of a crew, the stems within half a metre of their limiting distance are too few against the
    stems further in, after what is hidden there; by chance in less than 1 of 100 surveys, over all crews together.
    Why: a habit of leaving out stems near the edge, or a circle laid out too small, biases every plot a little.
    What to do: talk to the crew; measure some plots again together, stems outside the circle too.
    Source: stems per ring in proportion to its area that is seen; binomial variance, or that between plots where it is
    larger; Bonferroni's limit over crews (from memory).
    """
    if case.survey.settings.measurement.method != "from_centre":
        return
    from scipy.special import ndtr

    made = case.once(hidden)
    observed, expected, binomial = _at_edge(made)
    words, crew = case.survey.visits.words("crew")
    found, wanted, spread, excess = (
        np.bincount(crew, values, minlength=len(words))
        for values in (observed, expected, binomial, (observed - expected) ** 2)
    )
    tested = wanted >= _ENOUGH
    score = np.divide(found - wanted, np.sqrt(np.maximum(spread, excess)), out=np.zeros(len(words)), where=tested)
    chance = ndtr(score)
    rows = np.flatnonzero(tested & (chance < _CHANCE / max(int(tested.sum()), 1)))
    names = np.array([words[row] or "(no name)" for row in rows.tolist()], object)
    yield case.about_files(
        len(rows),
        "Crew {crew}: {found:.0f} stems stand in the outermost half metre of their circles, where {expected:.0f} were "
        "expected.",
        field="distance_m",
        evidence={"crew": names, "found": found[rows], "expected": wanted[rows], "p": chance[rows]},
        about=names,
    )


def _at_edge(made: Unseen) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]:
    """Stems within the outermost ring by visit: found, expected, and the variance of the number."""
    measured, visits = made.measured, len(made.survey.visits)
    rows = made.seen
    limit, row = measured.limiting_distance_m[rows], made.survey.stems.visit_row[rows]
    ring = 1.0 - np.maximum(1.0 - _RING_M / limit, 0.0) ** 2
    visible = _visible_part(made, rows, limit - 0.5 * _RING_M)
    chance = np.clip(ring * visible, 0.0, 1.0)
    inside = (measured.horizontal_distance_m[rows] > limit - _RING_M).astype(np.float64)

    def total(values: NDArray[np.float64]) -> NDArray[np.float64]:
        return np.bincount(row, values, minlength=visits).astype(np.float64)

    return total(inside), total(chance), total(chance * (1.0 - chance))


def _visible_part(made: Unseen, rows: NDArray[np.int64], at_m: NDArray[np.float64]) -> NDArray[np.float64]:
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
