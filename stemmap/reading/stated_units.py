"""Units that headings or cells name, held against the settings."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check


@check("heading-unit-contradicts", family="import", severity="warning")
def heading_unit_contradicts(case: Case) -> Iterator[Batch]:
    """A heading or its cells name another unit than the one that is reckoned with.

    What: the unit in the heading, in the line below it or behind the numbers is not the unit of the settings.
    Why: all values of the column are read in the unit of the settings, and would all be wrong.
    What to do: correct the unit in the settings, or the heading if it is the heading that is wrong.
    """
    measurement = case.survey.settings.measurement
    for stated in case.survey.upload.units:
        expected = measurement.unit_of(stated.field)
        if expected in ("", stated.unit) or (stated.unit == "mil" and expected.startswith("mil")):
            continue
        message = "Column {column} of {file} is said to be in {stated}, but its values are read in {expected}."
        evidence = {"file": stated.file, "column": stated.column, "stated": stated.unit, "expected": expected}
        yield case.about_files(
            1,
            message,
            field=stated.field,
            evidence={name: np.array([text], dtype=object) for name, text in evidence.items()},
        )
