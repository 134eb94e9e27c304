"""The same stem number twice on one visit."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.findings import Batch
from stemmap.survey.registry import Case, check


@check("stem-number-twice", family="import", severity="warning")
def stem_number_twice(case: Case) -> Iterator[Batch]:
    """A stem number stands twice on one visit of a plot.

    What: two records carry the same tree and stem number. Both are counted.
    Why: a stem entered twice, or a mistyped number.
    What to do: compare the two records; delete one or correct its number.
    """
    stems = case.survey.stems
    rows = np.flatnonzero((stems.occurrence > 1) & (stems.number_code >= 0))
    yield case.about_stems(
        rows,
        "No. {stem} stands on this visit again (line {line}); both records are counted.",
        field="stem" if stems.records.has("stem") else "tree",
        evidence={
            "line": stems.records.line[rows],
            "occurrence": stems.occurrence[rows],
        },
        **case.worth(rows),
    )
