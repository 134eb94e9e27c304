"""Diameters not measured at breast height."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.batches import Batch
from stemmap.survey.measured import Status
from stemmap.survey.registry import Case, check
from stemmap.units import METRES

_SAME_PLACE = 0.05
#: Where more stems than this share are measured elsewhere, it is a rule of the survey and told once.
_EXCEPTIONS = 0.05
#: Heights so many times breast height are centimetres.
_CENTIMETRES = (80.0, 125.0)


@check(
    "measurement-height-unusual", family="diameter", severity="note", needs=("measurement_height_m",), of_survey=True
)
def measurement_height_unusual(case: Case) -> Iterator[Batch]:
    """A diameter was not measured at breast height.

    What: the measuring height differs from breast height by more than 5 %; told once for the survey where more than
    one stem in twenty does, or where the heights look like centimetres.
    Why: such a diameter is no dbh; basal area and the limits of the design take it for one.
    What to do: nothing where a wound, a fork or a buttress asked for it; else measure again at breast height.
    Source: breast height from the settings; 5 % as for a moved measuring place (Condit et al., from memory).
    """
    measurement = case.survey.settings.measurement
    height = case.survey.stems.numbers("measurement_height_m")
    breast = measurement.breast_height_m / METRES[measurement.length_unit]
    known = (height > 0.0) & (case.measured.status <= Status.DEAD) & np.isfinite(case.measured.dbh_cm)
    if not known.any():
        return
    usual = float(np.median(height[known])) / breast
    evidence = {"usual_height_m": np.array([usual * breast]), "breast_height_m": np.array([breast])}
    if _CENTIMETRES[0] <= usual <= _CENTIMETRES[1]:
        message = (
            "The measuring heights look like centimetres: half of them are {usual_height_m:g} or more, and breast "
            "height is {breast_height_m:g}."
        )
        yield case.about_files(1, message, field="measurement_height_m", evidence=evidence)
        return
    other = known & (np.abs(height - breast) > _SAME_PLACE * breast + 1e-9)
    rows = np.flatnonzero(other)
    if len(rows) > _EXCEPTIONS * np.count_nonzero(known):
        yield case.about_files(
            1,
            "{stems} of {measured} diameters were not measured at the breast height of {breast_height_m:g}.",
            field="measurement_height_m",
            evidence=evidence | {"stems": np.array([len(rows)]), "measured": np.array([np.count_nonzero(known)])},
        )
        return
    yield case.about_stems(
        rows,
        "No. {stem}: the diameter was measured at a height of {height_m:g}, not at breast height.",
        field="measurement_height_m",
        evidence={"height_m": height[rows], "dbh_cm": case.measured.dbh_cm[rows]},
    )
