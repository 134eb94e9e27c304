"""Workbooks (XLSX): sheets read cell by cell as they are shown."""

from __future__ import annotations

import re
import zipfile
import zlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from datetime import datetime, time
from pathlib import Path
from typing import Any

import numpy as np

from stemmap.errors import InputError
from stemmap.progress import Progress
from stemmap.reading import remarks
from stemmap.reading.sheet import (
    MOST_SINGLE_CELLS,
    TOP_LINES,
    Sheet,
    check_extent,
    column_of,
    find_top,
    top_remarks,
    without_blank_rows,
)
from stemmap.survey.records import Column, Remark

#: A workbook of 10^6 stems unfolds to about a third of it.
_MOST_UNFOLDED = 1 << 30
#: Sheets shrink to a tenth or twentieth; what shrinks more than this only wants to fill the memory.
_MOST_SHRUNK = 300
_SMALL = 16 << 20
_CHUNK = 4 << 20
#: XML allows these ways of writing the place of a cell, but no program uses them.
_HIDDEN_PLACE = re.compile(rb"<(?:c|row)\s(?:[^<>]*\s)?r(?:\s+=|=\s|=[\"'][^\"'<>]*&)")
#: Letters and digits of the place of a cell, at most; XFD1048576 is the last one there is.
_LONGEST_PLACE = 16
_ERROR = re.compile(rb'<c r="([A-Z]{1,3}\d{1,7})"[^>]*? t="e"')


@dataclass
class _Scan:
    """What passes by while a workbook is unfolded once for inspection."""

    columns: int = 0
    rows: int = 0
    errors: list[str] = field(default_factory=list)


def read_workbook(
    path: Path,
    *,
    source: str,
    asked: frozenset[str],
    progress: Progress,
    said: list[Remark],
    most_rows: int | None = None,
) -> Iterator[Sheet]:
    """The visible sheets of a workbook that hold a table.

    Parameters
    ----------
    path, source
        The file and its name in sentences.
    asked
        Folded headings that a mapping asks for.
    progress
        Told before each sheet.
    said
        Takes remarks about sheets that are not read.
    most_rows
        Rows from the top of each sheet that will do; None: all.

    Raises
    ------
    InputError
        When the file is no workbook, is damaged, or would fill the memory.
    """
    import python_calamine

    progress.step(f"Looking into {source}")
    errors = _inspect(path, source)
    if errors:
        sentence = (
            f"{source} shows formula errors in {remarks.some(errors, count=len(errors))}; these cells were taken as "
            "empty. Mend the formulas."
        )
        said.append(Remark(remarks.FORMULA_ERRORS, sentence, source, text=errors[0]))
    try:
        workbook = python_calamine.CalamineWorkbook.from_path(str(path))
        visible = [sheet.name for sheet in workbook.sheets_metadata if _is_visible(sheet)]
        for about in workbook.sheets_metadata:
            if about.name not in visible:
                sentence = f"Sheet {about.name!r} of {source} is hidden or holds no cells and was not read."
                said.append(Remark(remarks.SHEET_IGNORED, sentence, f"{source}, sheet {about.name}"))
        for name in visible:
            shown_as = source if len(visible) == 1 else f"{source}, sheet {name}"
            progress.step(f"Reading {shown_as}")
            rows = workbook.get_sheet_by_name(name).to_python(skip_empty_area=False, nrows=most_rows)
            sheet = _sheet(rows, shown_as, path.stem if len(visible) == 1 else name, asked)
            if sheet is not None:
                yield sheet
                continue
            if len(visible) == 1:
                raise InputError(f"{source} holds no records: it is empty or has headings only.")
            sentence = f"{shown_as} was not read: it is empty or has headings only."
            said.append(Remark(remarks.SHEET_IGNORED, sentence, shown_as))
    except (python_calamine.CalamineError, OSError, ValueError) as fault:
        raise InputError(f"{source} is no readable workbook ({fault}); save it again as XLSX or CSV.") from fault


def _is_visible(sheet: Any) -> bool:
    import python_calamine

    return bool(
        sheet.visible == python_calamine.SheetVisibleEnum.Visible
        and sheet.typ == python_calamine.SheetTypeEnum.WorkSheet
    )


def _inspect(path: Path, source: str) -> list[str]:
    """Unfold a workbook once without keeping it; cells that show a formula error.

    The reader keeps a sheet as one rectangle from the first to the last cell, so its size must be known before.
    """
    try:
        with zipfile.ZipFile(path) as folded:
            entries = folded.infolist()
            if "xl/workbook.xml" not in folded.namelist():
                raise InputError(f"{source} is a ZIP file, but no XLSX workbook; unpack it or save it as XLSX.")
            unfolded = sum(entry.file_size for entry in entries)
            if unfolded > _MOST_UNFOLDED or any(
                entry.file_size > _SMALL and entry.file_size > _MOST_SHRUNK * max(entry.compress_size, 1)
                for entry in entries
            ):
                raise InputError(
                    f"{source} would unfold to {unfolded / 1e6:,.0f} MB; that is no table of records. Save it as CSV."
                )
            errors: list[str] = []
            for entry in entries:
                scan = _Scan()
                _unfold(folded, entry, scan)
                check_extent(scan.columns, scan.rows, source, most_cells=MOST_SINGLE_CELLS)
                errors += scan.errors
            return errors
    except (zipfile.BadZipFile, zlib.error, EOFError, OSError, RuntimeError, NotImplementedError) as fault:
        raise InputError(f"{source} is damaged or no XLSX workbook ({fault}); save it again.") from fault


def _unfold(folded: zipfile.ZipFile, entry: zipfile.ZipInfo, scan: _Scan) -> None:
    """Read one part to its end, which also proves its stated size; a sheet may be kept under any name."""
    rest = b""
    with folded.open(entry) as stream:
        while chunk := stream.read(_CHUNK):
            text = rest + chunk
            cut = text.rfind(b"<")
            text, rest = text[:cut], text[cut:]
            columns, rows = _farthest(text)
            scan.columns, scan.rows = max(scan.columns, columns), max(scan.rows, rows)
            if b' t="e"' in text:
                scan.errors += [address.decode() for address in _ERROR.findall(text)]


def _farthest(text: bytes) -> tuple[int, int]:
    """Number of the last column and the last row that cells in a piece of a sheet name as their place.

    Raises
    ------
    BadZipFile
        When a place is written in a way that XML allows and no program uses, to hide it.
    """
    letters = np.frombuffer(b" " + text + b" " * _LONGEST_PLACE, np.uint8)
    start = np.flatnonzero((letters[:-3] <= 32) & (letters[1:-2] == ord("r")))
    sign, quote = letters[start + 2], letters[start + 3]
    equals, is_quoted = sign == ord("="), (quote == ord('"')) | (quote == ord("'"))
    place = start[equals & is_quoted] + 4
    hidden = bool(((sign <= 32) | (equals & (quote <= 32))).any())
    column, row = np.zeros(len(place), np.int64), np.zeros(len(place), np.int64)
    inside = np.ones(len(place), dtype=bool)
    for step in range(_LONGEST_PLACE):
        if not inside.any():
            break
        letter = letters[np.minimum(place + step, len(letters) - 1)].astype(np.int64)
        digit, number = (letter >= 48) & (letter <= 57), (letter & 0xDF) - 64
        named = ~digit & (number >= 1) & (number <= 26)
        hidden |= bool((inside & (letter == ord("&"))).any())
        inside &= digit | named
        column = np.where(inside & named, np.minimum(column * 26 + number, 10**9), column)
        row = np.where(inside & digit, row * 10 + letter - 48, row)
    if hidden and _HIDDEN_PLACE.search(text):
        raise zipfile.BadZipFile("cells are written in an unusual way")
    return int(column.max(initial=0)), int(row.max(initial=0))


def _sheet(rows: Sequence[Sequence[Any]], source: str, name: str, asked: frozenset[str]) -> Sheet | None:
    """The table of a sheet; None when it holds no records."""
    first_rows = [[shown(value) for value in row] for row in rows[:TOP_LINES]]
    top = find_top(first_rows, asked)
    if top is None:
        return None
    body = rows[top.past :]
    columns = tuple(column_of_values(values) for values in zip(*body, strict=True))
    if not any(column.filled.any() for column in columns):
        return None
    line = np.arange(top.past + 1, len(rows) + 1, dtype=np.int32)
    said = top_remarks(top, range(1, len(first_rows) + 1), source)
    return without_blank_rows(Sheet(source, name, top.headings, columns, line, top.units, remarks=tuple(said)))


def column_of_values(values: Sequence[Any]) -> Column:
    """A column of texts from values of a workbook or layer; each distinct value is written once."""
    import pandas as pd

    array = np.empty(len(values), dtype=object)
    array[:] = values
    codes, distinct = pd.factorize(array)
    written = column_of([shown(value) for value in distinct])
    return Column(written.labels, np.append(written.codes, np.int32(-1))[codes])


def shown(value: Any) -> str:
    """A value as a person sees it: 7.0 as 7, a day without a time as a day, nothing as an empty text."""
    if value is None or isinstance(value, str):
        return value or ""
    if isinstance(value, bool | np.bool_):
        return "TRUE" if value else "FALSE"
    if isinstance(value, float):
        text = f"{value:.15g}" if abs(value) >= 1e15 or not value.is_integer() else str(int(value))
        return "" if value != value else text  # noqa: PLR0124 - only "not a number" differs from itself
    if isinstance(value, datetime) and value.time() == time():
        return value.date().isoformat()
    return str(value)
