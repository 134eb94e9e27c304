"""Crews whose records thin out just inside the edge of the circle."""

from collections.abc import Iterator

import numpy as np

from stemmap.checks.evidence.edge import at_edge, edge_test
from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check

#: Probability of such a deficit by chance, over all crews together.
_CHANCE = 0.01


@check("stems-missing-at-edge", family="visibility", severity="note", needs=("azimuth", "distance_m"), of_survey=True)
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
    words, crew = case.survey.visits.words("crew")
    found, wanted, chance = edge_test(case.once(at_edge), crew, groups=len(words))
    tested = np.isfinite(chance)
    rows = np.flatnonzero(tested & (np.nan_to_num(chance, nan=1.0) < _CHANCE / max(int(tested.sum()), 1)))
    names = np.array([words[row] or "(no name)" for row in rows.tolist()], object)
    yield case.about_files(
        len(rows),
        "Crew {crew}: {found:.0f} stems stand in the outermost half metre of their circles, where {expected:.0f} were "
        "expected.",
        field="distance_m",
        evidence={"crew": names, "found": found[rows], "expected": wanted[rows], "p": chance[rows]},
        about=names,
    )
