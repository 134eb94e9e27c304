"""A plot radius that the design has no use for."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check


@check("radius-not-used", family="import", severity="note", of_survey=True)
def radius_not_used(case: Case) -> Iterator[Batch]:
    """A plot radius was given, but the design goes by other limits.

    What: radius_m stands in the settings, the options or the plots table, and the design is concentric or an angle
    count. Its own limits hold.
    Why: a radius given for a fixed circle changes nothing here, which may not be what was meant.
    What to do: leave the radius out, or say kind = "fixed" in the settings.
    """
    design = case.survey.settings.design
    if design.kind == "fixed":
        return
    radius = case.survey.visits.numbers("radius_m")
    given = radius[np.isfinite(radius)] if design.radius_m is None else np.array([design.radius_m])
    if len(given):
        words = {"concentric": "concentric circles", "angle_count": "an angle count"}[design.kind]
        yield case.about_files(
            1,
            f"A plot radius of {{radius_m:g}} was given, but the design is {words}, whose own limits hold.",
            field="radius_m",
            evidence={"radius_m": given[:1]},
        )
