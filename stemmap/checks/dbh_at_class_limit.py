"""Diameters too close to a class limit of the design."""

from collections.abc import Iterator

import numpy as np

from stemmap.core.design import dbh_classes
from stemmap.survey.batches import Batch
from stemmap.survey.measured import Status
from stemmap.survey.registry import Case, check
from stemmap.survey.settings import sampling_design

_WORTH_A_LOOK = 0.2


@check("dbh-at-class-limit", family="inclusion", severity="note")
def dbh_at_class_limit(case: Case) -> Iterator[Batch]:
    """A dbh lies so close to a class limit of the design that the circle of the stem is in doubt.

    What: with the errors of dbh the stem may belong to another circle, which changes its weight. Where that alone
    decides whether it is in, it is reported as borderline.
    Why: at such a limit a few millimetres decide between, for example, 50 and 20 stems per hectare.
    What to do: measure the dbh again where it matters.
    Source: the normal probability of the dbh on the other side of the limit, from the errors in the settings.
    """
    design = sampling_design(case.survey.settings)
    if design is None or not design.needs_dbh:
        return
    limits = np.array([each.lower_cm for each in dbh_classes(design)[1:]])
    if not len(limits):
        return
    measured = case.measured
    change = measured.class_change_probability
    reach = measured.radius_m[case.survey.stems.visit_row]
    within = ~(measured.horizontal_distance_m > reach + 3.0 * measured.errors.radial_sd_m)
    doubtful = (change > case.survey.settings.errors.borderline_probability) & within
    doubtful &= (measured.status <= Status.DEAD) & ~measured.borderline_by_dbh
    for chosen, severity in ((change < _WORTH_A_LOOK, None), (change >= _WORTH_A_LOOK, "warning")):
        rows = np.flatnonzero(doubtful & chosen)
        dbh = measured.dbh_cm[rows]
        nearest = limits[np.abs(dbh[:, None] - limits).argmin(axis=1)] if len(rows) else dbh
        # The expected weight is a mean over both sides of the limit; what is in doubt is the step between them.
        step = np.abs(measured.expected_per_ha[rows] - measured.expansion_per_ha[rows]) / change[rows]
        yield case.about_stems(
            rows,
            "No. {stem}: the dbh of {dbh_cm:.1f} cm lies at the class limit of {class_limit_cm:g} cm; with probability "
            "{class_change_probability:.2f} it belongs to the other side.",
            field="dbh_cm",
            evidence={
                "dbh_cm": dbh,
                "class_limit_cm": nearest,
                "class_change_probability": change[rows],
                "inside_probability": measured.inside_probability[rows],
            },
            severity=severity,
            **case.effects(rows, step),
        )
