"""Upper diameters that are larger than the dbh below them."""

from collections.abc import Iterator

import numpy as np

from stemmap.core.locate import dbh_sd
from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check
from stemmap.survey.sight import positive
from stemmap.units import DBH_CENTIMETRES, METRES

_CLEARLY = 3.0


@check("upper-diameter-above-dbh", family="diameter", severity="warning", needs=("upper_diameter_cm",))
def upper_diameter_above_dbh(case: Case) -> Iterator[Batch]:
    """A diameter higher up the stem is larger than the dbh.

    What: the upper diameter lies above the dbh by more than three standard deviations of both, or its height is not
    above breast height.
    Why: stems grow thinner upwards; the two were exchanged, or one was mistyped.
    What to do: check both diameters and the height of the upper one.
    Source: taper is common knowledge; the errors stand in the settings.
    """
    survey, dbh = case.survey, case.measured.dbh_cm
    measurement = survey.settings.measurement
    upper = positive(survey.stems.numbers("upper_diameter_cm")) * DBH_CENTIMETRES[measurement.length_unit]
    height = positive(survey.stems.numbers("upper_height_m")) * METRES[measurement.length_unit]
    low = height <= measurement.breast_height_m
    sd = np.hypot(dbh_sd(dbh, survey.settings.errors), dbh_sd(upper, survey.settings.errors))
    for rows, message in (
        (
            np.flatnonzero(~low & (upper - dbh > _CLEARLY * sd)),
            "No. {stem}: the upper diameter of {upper_cm:.1f} cm is larger than the dbh of {dbh_cm:.1f} cm.",
        ),
        (
            np.flatnonzero(low & np.isfinite(upper)),
            "No. {stem}: the upper diameter of {upper_cm:.1f} cm was measured at {height_m:.1f} m, not above breast "
            "height.",
        ),
    ):
        yield case.about_stems(
            rows,
            message,
            field="upper_diameter_cm",
            evidence={"upper_cm": upper[rows], "dbh_cm": dbh[rows], "height_m": height[rows]},
        )
