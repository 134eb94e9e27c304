"""Stem records that name no plot."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check


@check("stem-without-plot", family="import", severity="error", of_survey=True)
def stem_without_plot(case: Case) -> Iterator[Batch]:
    """A stem record names no plot.

    What: the plot cell of the record is empty.
    Why: nobody can tell where the stem belongs, so it is counted nowhere.
    What to do: enter the plot; the record is kept as it is.
    """
    unplaced = case.survey.unplaced
    rows = np.arange(len(unplaced))
    yield case.about_files(
        len(rows),
        "{file}, line {line}: a stem record names no plot; it is kept and counted nowhere.",
        field="plot",
        evidence=case.cells(unplaced, rows, "plot"),
    )
