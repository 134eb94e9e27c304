"""Upper diameters that no stem of this dbh has."""

from collections.abc import Iterator

import numpy as np

from stemmap.core.growth import usual
from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check
from stemmap.survey.sight import positive
from stemmap.units import DBH_CENTIMETRES, METRES

_SPREADS = 5.0
#: Room around the usual quotient that is given even to very regular stems.
_ROOM = 0.12
#: Without enough stems to learn from, a quotient below this is unlikely.
_LEAST = 0.3
_ENOUGH = 30


@check("form-quotient-unlikely", family="diameter", severity="warning", needs=("upper_diameter_cm",))
def form_quotient_unlikely(case: Case) -> Iterator[Batch]:
    """The upper diameter does not go with the dbh: an unlikely form quotient.

    What: upper diameter over dbh lies more than 0.12, and more than five robust standard deviations, off what stems
    with an upper diameter at about this height have in this survey; with few such stems, below 0.3.
    Why: one of the two diameters, or the height of the upper one, was mistyped or read off wrongly.
    What to do: check both; a broken top explains a low quotient.
    Source: the survey's own median and quartiles; the room of 0.12 is about five standard deviations of an optical
    diameter of 1.5 cm on a stem of 60 cm (Stenman et al. 2023, Silva Fennica 57, 23021).
    """
    survey, dbh = case.survey, case.measured.dbh_cm
    unit = survey.settings.measurement.length_unit
    upper = positive(survey.stems.numbers("upper_diameter_cm")) * DBH_CENTIMETRES[unit]
    height = positive(survey.stems.numbers("upper_height_m")) * METRES[unit]
    # Equal or larger than the dbh is told by the check of upper diameters.
    quotient = np.where((upper < dbh) & ~(height <= survey.settings.measurement.breast_height_m), upper / dbh, np.nan)
    at = np.nan_to_num(np.round(height), nan=-1.0).astype(np.int64)
    like = usual(quotient, at, dbh)
    if np.count_nonzero(np.isfinite(quotient)) >= _ENOUGH:
        low = like.middle - np.maximum(_ROOM, _SPREADS * like.below)
        high = like.middle + np.maximum(_ROOM, _SPREADS * like.above)
    else:
        low, high = np.full(len(dbh), _LEAST), np.ones(len(dbh))
    rows = np.flatnonzero((quotient < low) | (quotient > high))
    yield case.about_stems(
        rows,
        "No. {stem}: an upper diameter of {upper_cm:.1f} cm over a dbh of {dbh_cm:.1f} cm is a form quotient of "
        "{quotient:.2f}; {low:.2f} to {high:.2f} would be ordinary.",
        field="upper_diameter_cm",
        evidence={
            "upper_cm": upper[rows],
            "dbh_cm": dbh[rows],
            "quotient": quotient[rows],
            "low": np.maximum(low[rows], 0.0),
            "high": np.minimum(high[rows], 1.0),
        },
    )
