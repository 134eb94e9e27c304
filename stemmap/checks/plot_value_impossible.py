"""Plot values that cannot be."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check

#: Least and greatest value of a field, whether the least itself can be, and what happens to others.
_RANGES = (
    ("radius_m", 0.0, np.inf, False, "the radius of the design holds"),
    ("slope_percent", 0.0, np.inf, True, "it was used all the same"),
    ("aspect_deg", 0.0, 360.0, True, "it was used all the same"),
    ("declination_deg", -180.0, 180.0, True, "it was used all the same"),
)


@check("plot-value-impossible", family="import", severity="error")
def plot_value_impossible(case: Case) -> Iterator[Batch]:
    """A radius, slope, aspect or declination of a plot cannot be.

    What: a radius that is zero or negative, a slope below zero, an aspect outside the full circle, a declination
    beyond half a circle.
    Why: a field left at its default, a sign or a digit too many; a wrong radius changes every value per hectare.
    What to do: look the value up. A slope has no sign; the aspect says where the ground falls.
    """
    plots = case.survey.upload.plots
    for name, least, greatest, with_least, effect in _RANGES:
        numbers = plots.numbers(name)
        rows = np.flatnonzero((numbers < least) | (numbers > greatest) | ((numbers == least) & (not with_least)))
        if not len(rows):
            continue
        yield case.about_visits(
            case.survey.visits.of_record[rows],
            f"{{file}}, line {{line}}: '{{text}}' in the column {name} cannot be; {effect}.",
            field=name,
            evidence=case.cells(plots, rows, name),
        )
