"""Stems recorded beyond their limiting distance."""

from collections.abc import Iterator

import numpy as np

from stemmap.checks.evidence.reach import reach
from stemmap.core.design import RESOLUTION
from stemmap.survey.batches import Batch
from stemmap.survey.measured import Status
from stemmap.survey.registry import Case, check
from stemmap.units import METRES


@check("outside-circle", family="inclusion", severity="warning", needs=("distance_m",))
def outside_circle(case: Case) -> Iterator[Batch]:
    """A stem was recorded beyond its limiting distance.

    What: the distance that decides passes the limiting distance by more than the errors of measurement explain.
    Why: a mistyped distance or dbh, a wrong circle, or a stem recorded although it is out. It is not counted.
    What to do: check distance and dbh; what the stem would add if it was in stands beside.
    Where the circle does not fit the records at all, that is said once instead.
    Source: in if the distance does not pass the limit, equality is in (common practice).
    """
    if not case.once(reach).fits:
        return
    measured, design = case.measured, case.survey.settings.design
    beyond = measured.compared_distance_m - measured.limiting_distance_m
    out = measured.inside_known & ~measured.inside & ~measured.borderline & (measured.status <= Status.DEAD)
    out &= beyond > 0.0
    if design.outside_recorded_to_m is not None:
        # Recording stems outside is the rule here; only those past its margin are a surprise.
        unit = METRES[case.survey.settings.measurement.length_unit]
        out &= beyond > design.outside_recorded_to_m * unit + RESOLUTION
    larger = measured.radius_m[case.survey.stems.visit_row]
    nested = (measured.compared_distance_m <= larger) & (design.kind == "concentric")
    for rows, message in (
        (
            np.flatnonzero(out & ~nested),
            "No. {stem} stands {beyond_m:.2f} m outside its limiting distance of {limiting_distance_m:.2f} m "
            "(distance {distance_m:.2f} m); it is not counted.",
        ),
        (
            np.flatnonzero(out & nested),
            "No. {stem}: with a dbh of {dbh_cm:.1f} cm its circle ends at {limiting_distance_m:.2f} m, but it "
            "stands at {distance_m:.2f} m, in a circle that its dbh does not reach; it is not counted.",
        ),
    ):
        yield case.about_stems(
            rows,
            message,
            field="distance_m",
            evidence={
                "distance_m": measured.compared_distance_m[rows],
                "limiting_distance_m": measured.limiting_distance_m[rows],
                "beyond_m": beyond[rows],
                "dbh_cm": measured.dbh_cm[rows],
                "inside_probability": measured.inside_probability[rows],
            },
            **case.worth(rows),
        )
