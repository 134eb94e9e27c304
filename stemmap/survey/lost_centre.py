"""From which stems a crew finds the centre of a plot again when its mark is lost."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stemmap.core.lost_centre import three_around
from stemmap.survey.measured import Measured, Status
from stemmap.survey.survey import Survey
from stemmap.units import FULL_CIRCLE, METRES


@dataclass(frozen=True)
class KnownStems:
    """Three stems and the way from each to the centre, as a crew measures it; shape (3,) each.

    Parameters
    ----------
    rows
        Rows of the stems, clockwise from north.
    azimuth
        From the stem to the centre, in the azimuth unit and against the north of the file.
    distance
        Horizontal, to the middle of the stem, in the length unit of the file.
    sd_m
        Standard deviation of the centre that they give.
    """

    rows: NDArray[np.int64]
    azimuth: NDArray[np.float64]
    distance: NDArray[np.float64]
    sd_m: float


def known_stems(
    survey: Survey, measured: Measured, visit_row: int, *, doubted: Collection[int] = ()
) -> KnownStems | None:
    """Choose three living stems with numbers that nobody doubts, as `three_around` says.

    Parameters
    ----------
    doubted
        Rows of stems that are not to be chosen.

    Returns
    -------
    None where no three stems fix the centre.
    """
    rows = survey.visits.stems(visit_row)
    stem = np.arange(rows.start, rows.stop)
    azimuth, distance = survey.stems.numbers("azimuth")[rows], measured.horizontal_distance_m[rows]
    sure = (measured.status[rows] == Status.LIVING) & (survey.stems.number_code[rows] >= 0)
    sure &= (survey.stems.texts("station")[rows] == "") & ~np.isin(stem, list(doubted))
    full, errors = FULL_CIRCLE[survey.settings.measurement.azimuth_unit], survey.settings.errors
    sd = np.hypot(errors.distance_sd_m, errors.distance_sd_percent / 100.0 * np.nan_to_num(distance))
    chosen = three_around(
        np.where(sure, azimuth * 360.0 / full, np.nan), distance, measured.dbh_cm[rows], np.maximum(sd, 0.01)
    )
    if chosen is None:
        return None
    three = chosen.stems
    return KnownStems(
        rows=stem[three],
        azimuth=(azimuth[three] + full / 2.0) % full,
        distance=distance[three] / METRES[survey.settings.measurement.length_unit],
        sd_m=chosen.sd_m,
    )
