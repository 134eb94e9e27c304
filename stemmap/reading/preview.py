"""The first rows of an upload, and what they are understood as under a mapping of columns."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np

from stemmap.errors import InputError
from stemmap.progress import Progress
from stemmap.reading.files import sheets_of
from stemmap.reading.headings import fold
from stemmap.reading.placement import Kind, check_columns, place_columns
from stemmap.reading.sheet import TOP_LINES, Sheet
from stemmap.reading.upload import named_files, tidied
from stemmap.reading.values import read_values
from stemmap.survey.records import Column, Remark


@dataclass(frozen=True)
class Preview:
    """The tables of an upload as they stand in its files.

    Parameters
    ----------
    sheets
        Each table with its first rows.
    faults
        A sentence for each file that holds no table.
    """

    sheets: tuple[Sheet, ...]
    faults: tuple[str, ...]


@dataclass(frozen=True)
class Understood:
    """What a table is understood as.

    Parameters
    ----------
    kind
        The table it is; None while no heading is known.
    fields
        Canonical field of each column, None for a column that is kept as it is.
    columns
        First rows by field, with the numbers and dates read from them; those that stand in no column of the file too,
        such as the points of a layer.
    units
        Units that headings or cells name, by field.
    """

    kind: Kind | None
    fields: tuple[str | None, ...]
    columns: Mapping[str, Column]
    units: Mapping[str, str]


def preview_upload(
    paths: Sequence[Path], columns: Mapping[str, str], *, rows: int = 20, progress: Progress | None = None
) -> Preview:
    """Read the headings and first rows of each file of an upload, and no more of it than needed.

    Parameters
    ----------
    paths
        Files of the upload; settings files are passed over.
    columns
        Canonical field to the heading under which it stands, as far as it was said.
    rows
        Rows kept of each table.
    progress
        Told before the long steps.

    Raises
    ------
    InputError
        When `columns` names a field there is not.
    Cancelled
        When `progress` says so.
    """
    check_columns(columns)
    asked = frozenset(fold(heading) for heading in columns.values())
    sheets: list[Sheet] = []
    faults: list[str] = []
    said: list[Remark] = []
    for path, source in named_files(paths, said):
        found = sheets_of(
            path,
            source=source,
            asked=asked,
            progress=progress or Progress(),
            said=said,
            most_rows=rows + 2 * TOP_LINES,
        )
        try:
            sheets += [sheet.take(np.arange(min(rows, len(sheet)))) for sheet in map(tidied, found)]
        except InputError as fault:
            faults.append(str(fault))
    return Preview(tuple(sheets), tuple(faults))


def understood_as(sheet: Sheet, columns: Mapping[str, str]) -> Understood:
    """What the rows of a previewed table are under a mapping, decided as in reading the whole upload.

    Parameters
    ----------
    sheet
        A table of a preview.
    columns
        Canonical field to heading.
    """
    placement = place_columns(sheet, columns)
    if placement is None:
        return Understood(None, (None,) * len(sheet.headings), {}, {})
    values = read_values(sheet, replace(placement, remarks=()), 0)
    units = {stated.field: stated.unit for stated in values.units}
    return Understood(placement.kind, placement.fields, values.records.columns, units)
