"""Cells that hold no number or date."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.batches import Batch
from stemmap.survey.fields import FIELDS
from stemmap.survey.registry import Case, check


@check("value-not-understood", family="import", severity="error")
def value_not_understood(case: Case) -> Iterator[Batch]:
    """A cell holds something that is no number or date.

    What: a number or a date was expected, and the text in the cell is neither, or the number is without end.
    Why: the value counts as missing, so the stem may be missing on the map or in the basal area.
    What to do: look the value up in the field book, or ask the crew.
    """
    survey = case.survey
    for records in (survey.stems.records, survey.upload.plots, survey.stations):
        for name, column in records.columns.items():
            field = FIELDS[name]
            if field.kind == "text" or column.label_values is None:
                continue
            unread = np.isnat(column.label_values) if field.kind == "date" else ~np.isfinite(column.label_values)
            if not unread.any():
                continue
            rows = np.flatnonzero(np.append(unread, False)[column.codes])
            message = f"{{file}}, line {{line}}: '{{text}}' in the column {name} is no {field.kind}; it was left out."
            evidence = case.cells(records, rows, name)
            if records is survey.stems.records:
                yield case.about_stems(rows, message, field=name, evidence=evidence)
            elif records is survey.upload.plots:
                visit = survey.visits.of_record[rows]
                yield case.about_visits(visit, message, field=name, evidence=evidence)
            else:
                yield case.about_files(len(rows), message, field=name, evidence=evidence)
