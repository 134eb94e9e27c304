"""Distances that the instrument cannot measure."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.batches import Batch
from stemmap.survey.measured import Status
from stemmap.survey.registry import Case, check


@check("distance-beyond-instrument", family="import", severity="warning", needs=("distance_m",))
def distance_beyond_instrument(case: Case) -> Iterator[Batch]:
    """A distance is shorter or longer than the instrument can measure.

    What: the distance as typed lies outside the instrument's shortest and longest distance in the settings.
    Why: it was mistyped, paced or guessed.
    What to do: check the record; measure so short a distance with a tape.
    Source: the reach of the instrument, from the settings.
    """
    instrument = case.survey.settings.instrument
    distance = case.survey.stems.numbers("distance_m")
    standing = (distance > 0.0) & (case.measured.status <= Status.DEAD)
    for limit, beyond, words in (
        (instrument.min_distance_m, -1.0, "shorter than the instrument measures, which begins"),
        (instrument.max_distance_m, 1.0, "longer than the instrument measures, which ends"),
    ):
        if limit is None:
            continue
        rows = np.flatnonzero(standing & (beyond * (distance - limit) > 1e-9))
        yield case.about_stems(
            rows,
            f"No. {{stem}}: the distance of {{distance:g}} is {words} at {{limit:g}}.",
            field="distance_m",
            evidence={"distance": distance[rows], "limit": np.full(len(rows), limit)},
            **case.worth(rows),
        )
