"""Stems too close to their limiting distance."""

from collections.abc import Iterator
from itertools import product

import numpy as np

from stemmap.checks.evidence.reach import reach
from stemmap.survey.batches import Batch
from stemmap.survey.measured import Status
from stemmap.survey.registry import Case, check

#: From this probability that in or out is decided wrongly a borderline stem is worth a look, not just a note.
_WORTH_A_LOOK = 0.2


@check("borderline", family="inclusion", severity="note", needs=("distance_m",))
def borderline(case: Case) -> Iterator[Batch]:
    """A stem stands so close to its limiting distance that it must be taped.

    What: within the errors of measurement the stem may be in or out; just outside is as doubtful as just inside. Where
    the distance is clear, it is the dbh that decides which circle the stem belongs to.
    Why: each such stem moves the plot by its whole weight.
    What to do: tape the distance to the axis of the stem at the next visit, or measure its dbh again; until then the
    record decides.
    Source: the normal probability of distance minus limit, from the errors in the settings.
    """
    if not case.once(reach).fits:
        return
    measured = case.measured
    standing = measured.status <= Status.DEAD
    wrong = np.where(measured.inside, 1.0 - measured.inside_probability, measured.inside_probability)
    by_dbh = measured.borderline_by_dbh
    wheres = (
        (~by_dbh, "distance_m", "{distance_m:.2f} m against a limiting distance of {limiting_distance_m:.2f} m"),
        (by_dbh, "dbh_cm", "at {distance_m:.2f} m its dbh of {dbh_cm:.1f} cm, close to a class limit, decides"),
    )
    for (where, field, words), inside, looked_at in product(wheres, (True, False), (True, False)):
        chosen = measured.borderline & standing & where & (measured.inside == inside)
        rows = np.flatnonzero(chosen & ((wrong >= _WORTH_A_LOOK) == looked_at))
        if not len(rows):
            continue
        yield case.about_stems(
            rows,
            f"No. {{stem}} is borderline: {words}; counted as {'in' if inside else 'out'}, in with probability "
            "{inside_probability:.2f}.",
            field=field,
            evidence={
                "distance_m": measured.compared_distance_m[rows],
                "limiting_distance_m": measured.limiting_distance_m[rows],
                "dbh_cm": measured.dbh_cm[rows],
                "inside_probability": measured.inside_probability[rows],
            },
            severity="warning" if looked_at else None,
            **case.worth(rows),
        )
