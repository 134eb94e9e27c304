"""Stems as rows: what an export says of each, as columns."""

from __future__ import annotations

from types import MappingProxyType
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.survey.fields import fields_of
from stemmap.survey.measured import Measured, Status
from stemmap.survey.survey import Survey
from stemmap.writing.tables import distinct_names

#: Fields of the record that an export carries already.
_TAKEN = frozenset({"plot", "visit", "stem"})

#: What a field is called in an export when the file counts in feet and inches.
_IN_FEET = MappingProxyType(
    {"distance_m": "distance_ft", "dbh_cm": "dbh_in", "dbh_cross_cm": "dbh_cross_in", "girth_cm": "girth_in"}
)


def stem_columns(
    survey: Survey, measured: Measured, easting: NDArray[np.float64], northing: NDArray[np.float64]
) -> dict[str, NDArray[Any]]:
    """Columns of an export, one row a stem: place, decision, then the record's own fields as read.

    Numbers are unrounded; NaN, NaT and empty texts stand for missing. `inside` is None where it is not known.
    """
    stems, visits = survey.stems, survey.visits
    inside = measured.inside.astype(object)
    inside[~measured.inside_known] = None
    counted = np.where(measured.inside, measured.expansion_per_ha, 0.0)
    columns: dict[str, NDArray[Any]] = {
        "plot": visits.plot[stems.visit_row],
        "visit": visits.visit[stems.visit_row],
        "stem": np.where(stems.texts("stem") == "", stems.texts("tree"), stems.texts("stem")),
        "easting": easting,
        "northing": northing,
        "local_x_m": measured.x_m,
        "local_y_m": measured.y_m,
        "horizontal_distance_m": measured.horizontal_distance_m,
        "grid_azimuth_deg": measured.grid_azimuth_deg,
        "limiting_distance_m": measured.limiting_distance_m,
        "inside": inside,
        "inside_probability": measured.inside_probability,
        "borderline": measured.borderline,
        "stems_per_ha": np.where(measured.inside_known, counted, np.nan),
        "position_sd_east_m": np.sqrt(measured.errors.var_east),
        "position_sd_north_m": np.sqrt(measured.errors.var_north),
        "living": measured.status == Status.LIVING,
    }
    called = _IN_FEET if survey.settings.measurement.length_unit == "foot" else {}
    for field in fields_of("stems"):
        if field.name in _TAKEN or not stems.records.has(field.name):
            continue
        name = called.get(field.name, field.name)
        if field.kind == "number":
            columns[name] = stems.numbers(field.name)
        elif field.kind == "date":
            columns[name] = stems.records.dates(field.name)
        else:
            columns[name] = stems.texts(field.name)
    if "dbh_cm" not in columns:
        columns["dbh_cm"] = measured.dbh_cm
    others = stems.records.other
    names = distinct_names(others, taken=columns)
    return columns | {name: column.texts for name, column in zip(names, others.values(), strict=True)}
