"""Status words that nobody knows."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check

#: Beyond so many texts the column is something else than a status.
_TOLD_APART = 50


@check("status-unknown", family="import", severity="warning", needs=("status",), of_survey=True)
def status_unknown(case: Case) -> Iterator[Batch]:
    """A status is no known word or code.

    What: the stem is counted as living.
    Why: the survey uses codes of its own, or the word is mistyped.
    What to do: list the code in the settings under [status], or correct it.
    """
    rows = np.flatnonzero(~case.measured.status_known)
    column = case.survey.stems.records.columns["status"]
    labels, first, count = np.unique(column.codes[rows], return_index=True, return_counts=True)
    if len(labels) <= _TOLD_APART:
        yield case.about_files(
            len(labels),
            "The status '{text}' (first in {file}, line {line}; stems: {stems}) is not known; counted as living.",
            field="status",
            evidence=case.cells(case.survey.stems.records, rows[first], "status") | {"stems": count},
            about=column.labels[labels],
        )
    else:
        yield case.about_files(
            1,
            "{texts} different status texts of {stems} stems are not known; they are counted as living.",
            field="status",
            evidence={"texts": np.array([len(labels)]), "stems": np.array([len(rows)])},
        )
