"""Living and dead stems without azimuth or distance."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.batches import Batch
from stemmap.survey.measured import Status
from stemmap.survey.registry import Case, check


@check("measurement-missing", family="import", severity="warning")
def measurement_missing(case: Case) -> Iterator[Batch]:
    """A standing stem has no azimuth or no distance.

    What: the cell is empty, or there is no such column. Stems that are cut or gone need none and are not mentioned.
    Why: without distance it is not known whether the stem is in; without azimuth it has no place on the map.
    What to do: look the value up or measure again.
    """
    stems = case.survey.stems
    standing = case.measured.status <= Status.DEAD
    for name, lacking, effect, without in (
        ("azimuth", "azimuth", "it has no place on the map", "the place is known"),
        ("distance_m", "distance", "it is not known whether it is in", "it is known whether it is in"),
    ):
        column = stems.records.columns.get(name)
        if column is None:
            if standing.any():
                yield case.about_files(1, f"No file has a column for the {lacking}: of no stem {without}.", field=name)
            continue
        rows = np.flatnonzero(~column.filled & standing)
        yield case.about_stems(
            rows,
            f"No. {{stem}} has no {lacking} (line {{line}}): {effect}.",
            field=name,
            evidence=case.cells(stems.records, rows, name),
        )
