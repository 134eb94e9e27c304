"""Azimuths that no compass shows."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check
from stemmap.units import FULL_CIRCLE


@check("azimuth-outside-circle", family="import", severity="error", needs=("azimuth",))
def azimuth_outside_circle(case: Case) -> Iterator[Batch]:
    """An azimuth is below zero or beyond the full circle.

    What: the azimuth cannot be read off an instrument in the survey's azimuth unit.
    Why: a digit too many, or another unit (gon for degrees).
    What to do: look the value up, or set the azimuth unit; until then the stem has no place on the map.
    """
    unit = case.survey.settings.measurement.azimuth_unit
    full = FULL_CIRCLE[unit]
    azimuth = case.survey.stems.numbers("azimuth")
    rows = np.flatnonzero((azimuth < 0.0) | (azimuth > full))
    evidence = case.cells(case.survey.stems.records, rows, "azimuth") | {"azimuth": azimuth[rows]}
    yield case.about_stems(
        rows,
        f"No. {{stem}}: the azimuth {{text}} lies outside the full circle of 0 to {full:g} ({unit}); "
        "the stem was not placed.",
        field="azimuth",
        evidence=evidence,
    )
