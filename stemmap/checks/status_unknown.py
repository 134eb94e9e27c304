"""Status words that nobody knows."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.findings import Batch
from stemmap.survey.registry import Case, check


@check("status-unknown", family="import", severity="warning", needs=("status",))
def status_unknown(case: Case) -> Iterator[Batch]:
    """A status is no known word or code.

    What: the stem is counted as living.
    Why: the survey uses codes of its own, or the word is mistyped.
    What to do: list the code in the settings under [status], or correct it.
    """
    rows = np.flatnonzero(~case.measured.status_known)
    column = case.survey.stems.records.columns["status"]
    labels, first, count = np.unique(column.codes[rows], return_index=True, return_counts=True)
    many = len(labels) <= 50
    if many:
        yield case.about_files(
            len(labels),
            "The status {text} ({stems} stems) is not known; they are counted as living.",
            field="status",
            evidence={
                "file": np.array([*case.survey.upload.sources, "?"], object)[
                    case.survey.stems.records.source[rows[first]]
                ],
                "line": case.survey.stems.records.line[rows[first]],
                "column": np.full(len(labels), "status", object),
                "text": column.labels[labels],
                "stems": count,
            },
        )
    else:
        yield case.about_files(
            1,
            "{texts} different status texts of {stems} stems are not known; they are counted as living.",
            field="status",
            evidence={"texts": np.array([len(labels)]), "stems": np.array([len(rows)])},
        )
