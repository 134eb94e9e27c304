"""Stems whose height and dbh cannot belong together."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.diameters import diameters
from stemmap.checks.evidence.heights import heights
from stemmap.checks.evidence.numbers import same_number
from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check

Floats = NDArray[np.float64]

#: So many spreads from the usual height of such a dbh, and from the usual dbh of such a height, are a doubt; so many
#: a clear one.
_ODD, _CLEARLY = 5.0, 8.0
#: Which of both is meant is said when it is so many times as far off as the other.
_LIKELIER = 1.5
#: Change since the last visit, in logarithms, below which both figures of it agree.
_SAME = 0.15


@check("height-unlike-dbh", family="diameter", severity="note", needs=("height_m",))
def height_unlike_dbh(case: Case) -> Iterator[Batch]:
    """Height and dbh of a stem can hardly belong together.

    What: the height lies more than five robust standard deviations from what stems of the species with such a dbh
    have in this survey, and the dbh as far from what stems of such a height have; from eight on it is a warning.
    A pair that the last visit had alike is told there only.
    Which of both is likelier wrong follows from the last visit, or from which is further from what is usual.
    Why: a digit, a point or a unit is wrong in one of them, or the top is broken.
    What to do: look both values up; a broken top or a stump sprout explains itself in the remark.
    Source: robust lines of the logarithms by species, from the survey itself.
    """
    told = case.once(heights)
    if told.of_dbh is None or told.of_height is None:
        return
    dbh = case.measured.dbh_cm
    known = np.isfinite(told.height_m) & (dbh > 0.0)
    tall, thick = np.log(np.where(known, told.height_m, np.nan)), np.log(np.where(known, dbh, np.nan))
    species = told.species
    off = np.minimum(np.abs(told.of_dbh.off(thick, tall, species)), np.abs(told.of_height.off(tall, thick, species)))
    # What the last visit found alike was told there.
    last = case.once(same_number)
    off[(last >= 0) & (np.abs(tall - tall[last]) < _SAME) & (np.abs(thick - thick[last]) < _SAME)] = 0.0
    usual = np.exp(told.of_dbh.intercept[species] + told.of_dbh.slope[species] * thick)
    likelier = _likelier(case, tall, thick)
    for severity, chosen in (("note", (off > _ODD) & (off <= _CLEARLY)), ("warning", off > _CLEARLY)):
        for which, words in enumerate(("", "; the height is likelier wrong", "; the dbh is likelier wrong")):
            rows = np.flatnonzero(chosen & (likelier == which))
            yield case.about_stems(
                rows,
                f"No. {{stem}}: a height of {{height_m:.1f}} m and a dbh of {{dbh_cm:.1f}} cm hardly belong together; "
                f"stems so thick are about {{usual_height_m:.1f}} m high here{words}.",
                field="dbh_cm" if which == 2 else "height_m",
                evidence={
                    "height_m": told.height_m[rows],
                    "dbh_cm": dbh[rows],
                    "usual_height_m": usual[rows],
                    "spreads": off[rows],
                },
                severity=severity,
                **case.worth(rows),
            )


def _likelier(case: Case, tall: Floats, thick: Floats) -> NDArray[np.int64]:
    """Which of both is likelier wrong, by stem: 1 height, 2 dbh, 0 cannot be told."""
    last, usual = case.once(same_number), case.once(diameters)
    before = last >= 0
    taller, thicker = np.abs(tall - tall[last]), np.abs(thick - thick[last])
    by_last = np.where(thicker < _SAME, 1, 2) * ((taller < _SAME) != (thicker < _SAME)) * before
    off_thick = np.abs(thick - usual.middle[usual.species]) / usual.spread[usual.species]
    centre, spread = (np.nan, np.nan)
    known = np.sort(tall[np.isfinite(tall)])
    if len(known):
        low, centre, high = np.quantile(known, [0.16, 0.5, 0.84])
        spread = max((high - low) / 2.0, 0.1)
    off_tall = np.abs(tall - centre) / spread
    by_usual = np.where(off_tall > _LIKELIER * off_thick, 1, np.where(off_thick > _LIKELIER * off_tall, 2, 0))
    found: NDArray[np.int64] = np.where(before & np.isfinite(taller + thicker), by_last, by_usual)
    return found
