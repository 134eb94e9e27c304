"""Crews, instruments and days whose plots are all turned by the same amount against their last visits."""

from collections.abc import Iterator

from stemmap.checks.evidence.shared import about_groups, in_common
from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check


@check("plots-rotated-alike", family="revisit", severity="warning", needs=("azimuth", "distance_m"), of_survey=True)
def plots_rotated_alike(case: Case) -> Iterator[Batch]:
    """The plots of a crew, an instrument or a day are all turned by the same amount against their last visits.

    What: the turns of four plots and more have one mean that is not zero, and nine of ten of them agree with it. It is
    told once for all of them; their own findings are then notes. Two visits cannot say which of them is wrong.
    Why: declination not set or set twice, another north, a compass that was not adjusted.
    What to do: compare compass, declination and north with those of the last visits; correct all plots together.
    Source: mean of the plots' turns with Student weights; probability against turns of 0.25 degrees that mean nothing.
    """
    turns = case.once(in_common).turns
    larger = "{who}: azimuths are {size:.1f} degrees larger than at the last visits, on {agree} of {plots} plots."
    smaller = "{who}: azimuths are {size:.1f} degrees smaller than at the last visits, on {agree} of {plots} plots."
    for positive, message in ((True, larger), (False, smaller)):
        told = tuple(each for each in turns if (each.offset > 0.0) == positive)
        yield about_groups(case, told, message, field="azimuth", name="rotation_deg")
