"""Crews, instruments and days whose distances are all longer or shorter than at the last visits."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from stemmap.checks.evidence.shared import about_groups, in_common
from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check


@check("distances-scaled-alike", family="revisit", severity="warning", needs=("azimuth", "distance_m"), of_survey=True)
def distances_scaled_alike(case: Case) -> Iterator[Batch]:
    """The distances of a crew, an instrument or a day are all longer or shorter than at the last visits.

    What: the factors of four plots and more have one mean that is not one (from 0.7 % on), and nine of ten of them
    agree with it. It is told once for all of them. Two visits cannot say which of them is wrong.
    Why: an instrument that was not calibrated, or measures to another part of the stem.
    What to do: measure a known distance with the instrument; correct all plots together.
    Source: mean of the plots' factors with Student weights; probability against factors of 0.2 % that mean nothing.
    """
    factors = [replace(each, offset=100.0 * np.expm1(each.offset)) for each in case.once(in_common).factors]
    longer = "{who}: distances are {size:.1f} % longer than at the last visits, on {agree} of {plots} plots."
    shorter = "{who}: distances are {size:.1f} % shorter than at the last visits, on {agree} of {plots} plots."
    for positive, message in ((True, longer), (False, shorter)):
        told = tuple(replace(each, sd=100.0 * each.sd) for each in factors if (each.offset > 0.0) == positive)
        yield about_groups(case, told, message, field="distance_m", name="percent")
