"""Distances that cannot be."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check


@check("distance-not-positive", family="import", severity="error", needs=("distance_m",))
def distance_not_positive(case: Case) -> Iterator[Batch]:
    """A distance is zero or negative.

    What: the stem would stand in the plot centre or behind it.
    Why: a field left at its default, or a sign typed for a separator.
    What to do: look the value up or measure again; until then it is not known whether the stem is in.
    """
    distance = case.survey.stems.numbers("distance_m")
    rows = np.flatnonzero(distance <= 0.0)
    yield case.about_stems(
        rows,
        "No. {stem}: the distance {text} is not above zero; it is not known whether the stem is in.",
        field="distance_m",
        evidence=case.cells(case.survey.stems.records, rows, "distance_m") | {"distance_m": distance[rows]},
    )
