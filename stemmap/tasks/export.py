"""Stems as rows with coordinates, for a GIS or a spreadsheet."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.core.locate import geographic
from stemmap.progress import Progress
from stemmap.survey.place import coordinate_system, project_points
from stemmap.tasks.destination import spare_records
from stemmap.tasks.workup import Workup
from stemmap.writing.layers import write_stems
from stemmap.writing.stems import stem_columns


def export_stems(
    workup: Workup, path: Path | str, *, crs: str | None = None, progress: Progress | None = None
) -> str | None:
    """Write all stems of a survey, in and out, with their places; the file name's ending tells the format.

    Parameters
    ----------
    crs
        Coordinate system of the result; None: that of the survey.

    Returns
    -------
    The coordinate system used; None when no plot has coordinates.

    Raises
    ------
    InputError
        When the coordinate system or the ending is not known.
    OutputError
        When the file cannot be written, or is a survey file.
    """
    progress, path = progress or Progress(), Path(path)
    spare_records(path)
    progress.step("Projecting stems")
    columns, used = exported_columns(workup, crs=crs)
    lonlat = np.full((len(columns["easting"]), 2), np.nan)
    if used is not None and path.suffix.lower() == ".geojson":
        lonlat = np.column_stack(geographic(columns["easting"], columns["northing"], coordinate_system(used)))
    progress.step(f"Writing {path.name}")
    write_stems(path, columns, used, lonlat)
    return used


def exported_columns(workup: Workup, *, crs: str | None = None) -> tuple[dict[str, NDArray[Any]], str | None]:
    """Columns of an export and the coordinate system of their easting and northing.

    Raises
    ------
    InputError
        When the coordinate system is not known.
    """
    survey, measured = workup.survey, workup.measured
    if crs is not None:
        coordinate_system(crs)
    used = (crs or measured.crs) if measured.crs is not None else None
    easting = northing = np.full(len(survey.stems), np.nan)
    if used is not None:
        azimuth, distance = measured.true_azimuth_deg, measured.horizontal_distance_m
        easting, northing = project_points(measured.centres, used, survey.stems.visit_row, azimuth, distance)
    return stem_columns(survey, measured, easting, northing), used
