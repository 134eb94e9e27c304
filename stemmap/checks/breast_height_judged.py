"""What it costs that breast height is judged from the centre."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.batches import Batch
from stemmap.survey.measured import Status
from stemmap.survey.registry import Case, check

#: Keys of which one must be said: nobody is told about a habit that was only assumed.
_SAID = ("measurement.method", "errors.breast_height_sd_m", "errors.taper_cm_per_m")


@check("breast-height-judged", family="diameter", severity="note")
def breast_height_judged(case: Case) -> Iterator[Batch]:
    """Breast height is judged from the centre, and what that costs in dbh and basal area.

    What: diameters measured from the centre are taken where breast height seems to be; the settings say how far off
    that is (errors.breast_height_sd_m) and how a stem tapers there (errors.taper_cm_per_m). Told once for the survey,
    where the settings say how stems were measured; no stem is accused of it.
    Why: a crew that judges the height too low measures every stem too thick.
    What to do: mark breast height with a pole on some stems of each plot and compare.
    Source: dbh changes by taper times height, basal area by its square; a taper of 1 cm per m and an error of 0.1 m
    are common practice.
    """
    settings = case.survey.settings
    if settings.measurement.method != "from_centre" or not settings.said.intersection(_SAID):
        return
    measured, errors = case.measured, settings.errors
    counted = np.isfinite(measured.dbh_cm) & (measured.status == Status.LIVING)
    counted &= measured.inside | ~measured.inside_known
    if not counted.any():
        return
    dbh = measured.dbh_cm[counted]
    weight = np.where(measured.inside_known, measured.expansion_per_ha, 1.0)[counted]
    off = errors.taper_cm_per_m * errors.breast_height_sd_m
    more = float(np.sum(weight * (dbh + off) ** 2) / np.sum(weight * dbh**2) - 1.0)
    yield case.about_files(
        1,
        "Breast height is judged from the centre: {height_m:g} m too low makes a dbh {dbh_cm:.2g} cm too thick at "
        "a taper of {taper_cm_per_m:g} cm per m; if a crew always does so, its basal area is {percent:.1f} % "
        "too large.",
        evidence={
            "height_m": np.array([errors.breast_height_sd_m]),
            "taper_cm_per_m": np.array([errors.taper_cm_per_m]),
            "dbh_cm": np.array([off]),
            "percent": np.array([100.0 * more]),
        },
    )
