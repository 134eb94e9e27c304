"""Slope distances without their angle."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check


@check("vertical-angle-missing", family="import", severity="warning", needs=("distance_m",))
def vertical_angle_missing(case: Case) -> Iterator[Batch]:
    """A slope distance has no vertical angle, or one that points up or down the stem.

    What: the settings say that distances were measured along the slope, and the angle of this one is missing, or 90
    degrees and more.
    Why: its horizontal distance is not known, so neither is its place nor whether it is in.
    What to do: look the angle up, or say distance = "horizontal" in the settings.
    """
    if case.survey.settings.measurement.distance != "slope":
        return
    stems = case.survey.stems
    angle = stems.numbers("vertical_angle_deg")
    distance = stems.numbers("distance_m")
    steep = np.flatnonzero((np.abs(angle) >= 90.0) & (distance > 0.0))
    yield case.about_stems(
        steep,
        "No. {stem}: a vertical angle of {text} degrees cannot be; it is not known whether the stem is in.",
        field="vertical_angle_deg",
        evidence=case.cells(stems.records, steep, "vertical_angle_deg"),
        severity="error",
    )
    rows = np.flatnonzero(np.isnan(angle) & (distance > 0.0))
    yield case.about_stems(
        rows,
        "No. {stem}: the slope distance {distance_m:g} has no vertical angle; it is not known whether the stem is in.",
        field="vertical_angle_deg",
        evidence=case.cells(stems.records, rows, "vertical_angle_deg") | {"distance_m": distance[rows]},
    )
