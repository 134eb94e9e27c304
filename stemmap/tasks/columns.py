"""Which column of an upload is which field: looked at before all of it is read, said, and saved with the settings."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from stemmap.progress import Progress
from stemmap.reading import Preview, Understood, preview_upload
from stemmap.reading.headings import likely_fields
from stemmap.reading.remarks import HEADINGS_UNKNOWN, PLOT_COLUMN_MISSING
from stemmap.survey.records import Upload
from stemmap.survey.settings import Settings, columns_above
from stemmap.tasks.workup import settings_of
from stemmap.units import FULL_CIRCLE, METRES

_DIAMETERS = ("dbh_cm", "dbh_mm", "girth_cm")


@dataclass(frozen=True)
class ColumnsAsked:
    """The tables of an upload, and how they are read so far.

    Parameters
    ----------
    preview
        First rows of each table.
    settings
        The settings, with no columns mapped but those of the settings file.
    columns
        Columns mapped beyond them, canonical field to heading.
    """

    preview: Preview
    settings: Settings
    columns: Mapping[str, str]

    def under(self, columns: Mapping[str, str]) -> Settings:
        """The settings with columns mapped beyond those of the settings file."""
        return self.settings.with_columns(columns_above(columns, self.settings.columns))


def look_at_columns(
    paths: Sequence[Path],
    *,
    settings: Path | None = None,
    radius_m: float | None = None,
    columns: Mapping[str, str],
    now: Settings | None = None,
    progress: Progress | None = None,
) -> ColumnsAsked:
    """Read headings and first rows of an upload.

    Parameters
    ----------
    paths, settings, radius_m, columns, progress
        As in `open_uploads`.
    now
        Settings as they were changed since the upload was opened.

    Raises
    ------
    InputError
        When the settings cannot be used.
    Cancelled
        When `progress` says so.
    """
    _, chosen = settings_of(paths, settings=settings, radius_m=radius_m)
    if now is not None:
        chosen = now.with_columns(chosen.columns)
    mapped = columns_above(columns, chosen.columns)
    return ColumnsAsked(preview_upload(paths, mapped, progress=progress), chosen, MappingProxyType(dict(columns)))


def offsets(understood: Understood, settings: Settings) -> tuple[NDArray[np.float64], NDArray[np.float64]] | None:
    """How far east and north of the centre each stem was typed, in metres; each of shape (rows,).

    Distance and azimuth are taken as typed, without slope and declination, which a few rows need not settle. None
    while azimuth or distance stands in no column.
    """
    if not {"azimuth", "distance_m"} <= understood.columns.keys():
        return None
    turns = understood.columns["azimuth"].numbers / FULL_CIRCLE[settings.measurement.azimuth_unit]
    metres = understood.columns["distance_m"].numbers * METRES[settings.measurement.length_unit]
    return metres * np.sin(2 * np.pi * turns), metres * np.cos(2 * np.pi * turns)


def looks_unmapped(upload: Upload) -> bool:
    """Whether a file was left out for its headings, or stems lack what a map needs while columns are not understood.

    Stems with a diameter, but without azimuth and distance alike, are a list that needs no map, unless a heading looks
    like one of them.
    """
    if any(remark.check == HEADINGS_UNKNOWN for remark in upload.remarks):
        return True
    if not len(upload.stems):
        return False
    unplaced = [heading for records in (upload.plots, upload.stems, upload.stations) for heading in records.other]
    lacking = {name for name in ("azimuth", "distance_m") if name not in upload.stems.columns}
    only_listed = len(lacking) == 2 and any(name in upload.stems.columns for name in _DIAMETERS)
    lacking |= {"plot" for remark in upload.remarks if remark.check == PLOT_COLUMN_MISSING}
    alike = any(lacking & set(likely_fields(heading)) for heading in unplaced)
    return bool(lacking and unplaced) and (alike or not only_listed)
