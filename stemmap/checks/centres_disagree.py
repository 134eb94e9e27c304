"""Two pairs of coordinates for one plot centre."""

from collections.abc import Iterator

import numpy as np

from stemmap.core.locate import geographic
from stemmap.survey.batches import Batch
from stemmap.survey.place import coordinate_system, stated_systems
from stemmap.survey.registry import Case, check

#: Metres by which two pairs of coordinates of one centre may differ (rounded degrees; common practice).
_TOLERANCE_M = 2.0


@check("centres-disagree", family="import", severity="warning")
def centres_disagree(case: Case) -> Iterator[Batch]:
    """Longitude and latitude of a plot centre do not agree with its easting and northing.

    What: the two pairs lie more than two metres apart. Longitude and latitude are used.
    Why: one pair belongs to another plot, another zone or another datum.
    What to do: find out which pair is right and delete the other.
    """
    visits, places = case.survey.visits, case.measured.centres
    easting, northing = visits.numbers("easting"), visits.numbers("northing")
    both = (places.system == 0) & np.isfinite(easting) & np.isfinite(northing)
    texts, code = stated_systems(case.survey)
    for number, text in enumerate(texts):
        rows = np.flatnonzero(both & (code == number))
        if not len(rows) or not text or text in places.unusable:
            continue
        lon, lat = geographic(easting[rows], northing[rows], coordinate_system(text))
        apart = 111_195.0 * np.hypot(
            (lon - places.lon[rows]) * np.cos(np.radians(places.lat[rows])), lat - places.lat[rows]
        )
        off = apart > _TOLERANCE_M
        yield case.about_visits(
            rows[off],
            "Plot {plot}: longitude and latitude lie {apart_m:.0f} m from easting and northing; the former are used.",
            field="lon",
            evidence={"apart_m": apart[off]},
        )
