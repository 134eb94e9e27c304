"""What is measured again of a stem, whatever form the file has it in: azimuth, distance and dbh."""

from __future__ import annotations

from math import sqrt

import numpy as np
from numpy.typing import NDArray

from stemmap.core.bearings import to_degrees
from stemmap.core.locate import dbh_sd
from stemmap.survey.records import Records
from stemmap.survey.returned import cells
from stemmap.survey.settings import Settings
from stemmap.survey.sight import crosswise_diameters, positive
from stemmap.units import METRES

Floats = NDArray[np.float64]
Texts = NDArray[np.object_]

#: What is measured again, with the fields that it can stand in.
MEASURED: tuple[tuple[str, ...], ...] = (("azimuth",), ("distance_m",), ("dbh_cm", "dbh_mm", "girth_cm"))

#: Errors are never taken as smaller: degrees, metres, centimetres.
_LEAST_SD = (0.1, 0.01, 0.1)


def measured_values(records: Records, settings: Settings) -> Floats:
    """Azimuth in degrees, distance in metres and dbh in centimetres of records as typed; shape (n, 3)."""
    unit = settings.measurement.azimuth_unit
    azimuth = to_degrees(records.numbers("azimuth"), unit)
    azimuth = np.where((azimuth >= 0.0) & (azimuth <= 360.0), azimuth, np.nan)
    distance = positive(records.numbers("distance_m")) * METRES[settings.measurement.length_unit]
    return np.column_stack([azimuth, distance, crosswise_diameters(records, settings)[0]])


def typed_texts(records: Records, quantity: int) -> Texts:
    """What was typed for a quantity of `MEASURED`, in whichever of its fields; empty where nothing was."""
    texts = np.full(len(records), "", object)
    for name in MEASURED[quantity]:
        texts = np.where(texts == "", cells(records, name), texts)
    return texts


def difference_sd(recorded: Floats, settings: Settings) -> Floats:
    """Standard deviations of the difference of two measurements of azimuth, distance and dbh, shape (..., 3)."""
    errors = settings.errors
    distance, dbh = np.nan_to_num(recorded[..., 1]), np.nan_to_num(recorded[..., 2])
    single = np.stack(
        [
            np.full(distance.shape, errors.azimuth_sd_deg),
            np.hypot(errors.distance_sd_m, errors.distance_sd_percent / 100.0 * distance),
            dbh_sd(dbh, errors),
        ],
        axis=-1,
    )
    sd: Floats = sqrt(2.0) * np.maximum(single, _LEAST_SD)
    return sd
