"""Magnetic azimuths without a declination."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check


@check("declination-unknown", family="import", severity="warning", of_survey=True)
def declination_unknown(case: Case) -> Iterator[Batch]:
    """Azimuths are magnetic, but the declination is neither given nor computable.

    What: the plot has no declination of its own, and place or date to compute it from is missing.
    Why: the map stays turned by the declination, several degrees in many countries.
    What to do: give declination_deg in the plots table or the settings, or coordinates and date.
    """
    rows = np.flatnonzero(np.isnan(case.measured.declination_deg))
    yield case.about_visits(
        rows,
        "Plot {plot}: the magnetic declination is not known (no place or no date); the map is turned by it.",
        field="declination_deg",
    )
