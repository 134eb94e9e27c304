"""Stems too close to their limiting distance."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.findings import Batch
from stemmap.survey.measured import Status
from stemmap.survey.registry import Case, check

#: From this probability that in or out is decided wrongly a borderline stem is worth a look, not just a note.
_WORTH_A_LOOK = 0.2


@check("borderline", family="inclusion", severity="note", needs=("distance_m",))
def borderline(case: Case) -> Iterator[Batch]:
    """A stem stands so close to its limiting distance that it must be taped.

    What: within the errors of measurement the stem may be in or out; just outside is as doubtful as just inside.
    Why: each such stem moves the plot by its whole weight.
    What to do: tape the distance to the axis of the stem at the next visit; until then the recorded distance decides.
    Source: the normal probability of distance minus limit, from the errors in the settings.
    """
    measured = case.measured
    standing = measured.status <= Status.DEAD
    wrong = np.where(measured.inside, 1.0 - measured.inside_probability, measured.inside_probability)
    for doubtful, severity in ((wrong < _WORTH_A_LOOK, None), (wrong >= _WORTH_A_LOOK, "warning")):
        for inside, verdict in ((True, "in"), (False, "out")):
            rows = np.flatnonzero(measured.borderline & standing & doubtful & (measured.inside == inside))
            yield case.about_stems(
                rows,
                f"No. {{stem}} is borderline: {{distance_m:.2f}} m against a limiting distance of "
                f"{{limiting_distance_m:.2f}} m; counted as {verdict}, in with probability {{inside_probability:.2f}}.",
                field="distance_m",
                evidence={
                    "distance_m": measured.compared_distance_m[rows],
                    "limiting_distance_m": measured.limiting_distance_m[rows],
                    "inside_probability": measured.inside_probability[rows],
                },
                severity=severity,
                **case.worth(rows),
            )
