"""Stems measured from a point that nobody described."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check
from stemmap.survey.sight import AT_CENTRE, station_legs, station_rows

#: On more visits than this it is one missing table and told once.
_MANY = 20


@check("station-unknown", family="import", severity="warning", needs=("station",), of_survey=True)
def station_unknown(case: Case) -> Iterator[Batch]:
    """Stems were measured from a station whose position is not known.

    What: the station named with the stem stands in no stations table, or without a usable azimuth and distance; told
    once for the survey where it is so on more than twenty visits.
    Why: azimuth and distance mean nothing without the point they were measured from; the stems are not placed.
    What to do: give a stations table (plot, station, azimuth and distance from the centre); the centre itself is a
    station at distance 0, and a row without plot holds for all plots.
    """
    station = station_rows(case.survey)
    azimuth, distance = station_legs(case.survey)
    elsewhere = np.flatnonzero(station != AT_CENTRE)
    # The last row of the legs, unknown, is that of stations nobody described.
    rows = elsewhere[np.isnan(azimuth + distance)[station[elsewhere]]]
    visits, first, count = np.unique(case.survey.stems.visit_row[rows], return_index=True, return_counts=True)
    if len(visits) > _MANY:
        yield case.about_files(
            1,
            "{stems} stems on {visits} visits were measured from stations (such as {station}) whose azimuth and "
            "distance from the centre no stations table gives; they are not placed.",
            field="station",
            evidence={
                "stems": np.array([len(rows)]),
                "visits": np.array([len(visits)]),
                "station": case.survey.stems.texts("station")[rows[:1]],
            },
        )
        return
    yield case.about_visits(
        visits,
        "Plot {plot}: stems were measured from a station (such as {station}) whose azimuth and distance from the "
        "centre no stations table gives; they are not placed ({stems}).",
        field="station",
        evidence={"stems": count, "station": case.survey.stems.texts("station")[rows[first]]},
    )
