"""Surveys whose records do not keep to the circle of the settings."""

from collections.abc import Iterator

import numpy as np

from stemmap.checks.evidence.reach import reach
from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check


@check("circle-does-not-fit", family="inclusion", severity="warning", needs=("distance_m",), of_survey=True)
def circle_does_not_fit(case: Case) -> Iterator[Batch]:
    """The circle of the settings does not fit the records.

    What: more than one stem in ten, and some in most plots, stands clearly beyond its limiting distance. It is said
    once; single stems are then not called outside or borderline, and no mistyped value is suspected from the limit.
    Why: another radius, another design or another unit of length holds, or stems outside are recorded on purpose; what
    is counted, and all figures per hectare, follow the wrong circle.
    What to do: set the radius or design that the crews used, or outside_recorded_to_m if they record stems beyond it.
    """
    found = case.once(reach)
    if found.fits:
        return
    yield case.about_files(
        1,
        "The limiting distance does not fit these records: {beyond} of {stems} stems stand beyond it, in "
        "{plots_beyond} of {plots} plots and visits. Set the radius or design that was used; nineteen of twenty stems "
        "stand within {within_m:.1f} m.",
        field="radius_m",
        evidence={
            "beyond": np.array([found.beyond]),
            "stems": np.array([found.stems]),
            "plots_beyond": np.array([found.plots_beyond]),
            "plots": np.array([found.plots]),
            "within_m": np.array([found.within_m]),
        },
    )
