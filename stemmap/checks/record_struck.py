"""Stem records that were struck where they were typed."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check


@check("record-struck", family="import", severity="note", of_survey=True)
def record_struck(case: Case) -> Iterator[Batch]:
    """A status strikes its record.

    What: records of a file carry a status such as "entered twice", as listed in the settings under [status] struck.
    They are kept and are no stems: they are counted nowhere and not looked for at other visits. Records that a
    decision struck are not told here; the journal has them.
    Why: the crew struck them itself, or the word means something else here.
    What to do: look whether that is what was meant; if not, list the word under another status.
    """
    struck, decided = case.survey.struck, case.survey.decisions.values.get("status", {})
    places = zip(struck.source.tolist(), struck.line.tolist(), strict=True)
    typed = np.flatnonzero(np.array([place not in decided for place in places], bool))
    _, first, count = np.unique(struck.source[typed], return_index=True, return_counts=True)
    yield case.about_files(
        len(first),
        "{file}, line {line}: the status '{text}' strikes its record, which is kept and counted nowhere (records "
        "struck in this file: {records}).",
        field="status",
        evidence=case.cells(struck, typed[first], "status") | {"records": count},
    )
