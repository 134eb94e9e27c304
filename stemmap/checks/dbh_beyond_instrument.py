"""Diameters that the instrument cannot measure."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.batches import Batch
from stemmap.survey.measured import Status
from stemmap.survey.registry import Case, check
from stemmap.units import DBH_CENTIMETRES


@check("dbh-beyond-instrument", family="diameter", severity="warning")
def dbh_beyond_instrument(case: Case) -> Iterator[Batch]:
    """A dbh is larger than the instrument can measure.

    What: the dbh lies above the instrument's largest diameter in the settings.
    Why: it was mistyped, is a girth, or was not measured with this instrument.
    What to do: check the record; note where another instrument was used.
    Source: the reach of the instrument, from the settings.
    """
    settings = case.survey.settings
    if settings.instrument.max_dbh_cm is None:
        return
    most = settings.instrument.max_dbh_cm * DBH_CENTIMETRES[settings.measurement.length_unit]
    dbh = case.measured.dbh_cm
    rows = np.flatnonzero((dbh > most + 1e-9) & (case.measured.status <= Status.DEAD))
    yield case.about_stems(
        rows,
        "No. {stem}: the dbh of {dbh_cm:.1f} cm is beyond the instrument, which ends at {max_dbh_cm:.1f} cm.",
        field="dbh_cm",
        evidence={"dbh_cm": dbh[rows], "max_dbh_cm": np.full(len(rows), most)},
        **case.worth(rows),
    )
