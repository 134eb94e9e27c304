"""An azimuth unit that the values contradict."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.findings import Batch
from stemmap.survey.registry import Case, check

#: So many azimuths spread over the full circle almost surely hold some of the last tenth: 0.9 ** 200 is below 1e-9.
_ENOUGH = 200


@check("azimuth-unit-doubtful", family="import", severity="warning", needs=("azimuth",))
def azimuth_unit_doubtful(case: Case) -> Iterator[Batch]:
    """The azimuths do not look like the azimuth unit of the settings.

    What: in gon or mils, no azimuth lies beyond 360 although there are many; in degrees, many lie beyond 360.
    Why: the unit in the settings is not the one on the instrument; then every stem stands in the wrong place.
    What to do: set the azimuth unit. Source: a full circle has 360 degrees or 400 gon; the chance argument is ours.
    """
    measurement = case.survey.settings.measurement
    azimuth = case.survey.stems.numbers("azimuth")
    azimuth = azimuth[np.isfinite(azimuth)]
    beyond = int(np.count_nonzero(azimuth > 360.0))
    evidence = {"azimuths": np.array([len(azimuth)]), "beyond_360": np.array([beyond])}
    if measurement.azimuth_unit != "degree" and len(azimuth) >= _ENOUGH and not (azimuth > 360.0).any():
        message = (
            f"The azimuth unit is {measurement.azimuth_unit}, but none of {{azimuths}} azimuths is above 360: "
            "they look like degrees."
        )
        yield case.about_files(1, message, field="azimuth", evidence=evidence)
    elif measurement.azimuth_unit == "degree" and beyond > max(2, 0.02 * len(azimuth)):
        other = "gon" if np.count_nonzero(azimuth > 400.0) < beyond / 2 else "mils"
        message = (
            "The azimuth unit is degree, but {beyond_360} of {azimuths} azimuths are above 360: "
            f"they look like {other}."
        )
        yield case.about_files(1, message, field="azimuth", evidence=evidence)
