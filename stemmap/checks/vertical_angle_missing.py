"""Slope distances without their angle."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.findings import Batch
from stemmap.survey.registry import Case, check


@check("vertical-angle-missing", family="import", severity="warning", needs=("distance_m",))
def vertical_angle_missing(case: Case) -> Iterator[Batch]:
    """A slope distance has no vertical angle.

    What: the settings say that distances were measured along the slope, and the angle of this one is missing.
    Why: its horizontal distance is not known, so neither is its place nor whether it is in.
    What to do: look the angle up, or say distance = "horizontal" in the settings.
    """
    if case.survey.settings.measurement.distance != "slope":
        return
    stems = case.survey.stems
    angle = stems.numbers("vertical_angle_deg")
    rows = np.flatnonzero(np.isnan(angle) & (stems.numbers("distance_m") > 0.0))
    yield case.about_stems(
        rows,
        "No. {stem}: the slope distance {distance_m:g} has no vertical angle; it is not known whether the stem is in.",
        field="vertical_angle_deg",
        evidence={"distance_m": stems.numbers("distance_m")[rows]},
    )
