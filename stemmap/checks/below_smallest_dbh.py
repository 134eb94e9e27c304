"""Stems thinner than the design takes."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.batches import Batch
from stemmap.survey.measured import Status
from stemmap.survey.registry import Case, check


@check("below-smallest-dbh", family="inclusion", severity="note")
def below_smallest_dbh(case: Case) -> Iterator[Batch]:
    """A stem is thinner than any circle of the design takes.

    What: its dbh lies below the smallest dbh of the design, or between two classes. It is not counted.
    Why: recorded although it is too thin, or a mistyped dbh.
    What to do: nothing, unless the dbh is wrong.
    """
    measured = case.measured
    counted_nowhere = measured.taken_by_none & (measured.status <= Status.DEAD)
    rows = np.flatnonzero(counted_nowhere)
    yield case.about_stems(
        rows,
        "No. {stem}: the design takes no stem of {dbh_cm:.1f} cm; it is not counted.",
        field="dbh_cm",
        evidence={"dbh_cm": measured.dbh_cm[rows]},
    )
