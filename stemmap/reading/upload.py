"""An upload: all its files read into one set of records."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path

import numpy as np

from stemmap.errors import InputError
from stemmap.progress import Progress
from stemmap.reading import remarks
from stemmap.reading.files import is_settings, sheets_of
from stemmap.reading.headings import fold
from stemmap.reading.placement import check_columns, place_columns, unknown_sentence
from stemmap.reading.sheet import Sheet, repeated_headings
from stemmap.reading.tables import Read, put_together, read_values
from stemmap.survey.fields import Table
from stemmap.survey.records import Remark, Upload


def read_upload(
    paths: Sequence[Path], *, columns: Mapping[str, str] | None = None, progress: Progress | None = None
) -> Upload:
    """Read the files of an upload. Every cell is kept as typed, with what was read from it beside it.

    Parameters
    ----------
    paths
        CSV, text, XLSX, GeoJSON and GeoPackage files; settings files among them are left to `read_settings`.
    columns
        Canonical field to the heading under which it stands; other headings are recognised by themselves.
    progress
        Told before the long steps.

    Returns
    -------
    Upload
        Plots, stems and stations, with a remark for everything that was decided or left out.

    Raises
    ------
    InputError
        When no file can be used.
    """
    columns = columns or {}
    progress = progress or Progress()
    check_columns(columns)
    said: list[Remark] = []
    asked = frozenset(fold(heading) for heading in columns.values())
    sheets: list[Sheet] = []
    reads: list[Read] = []
    faults: list[InputError] = []
    for path, source in _named(paths, said):
        try:
            for sheet, read in _read_file(path, source, columns, asked, len(sheets), progress, said):
                sheets.append(sheet)
                reads.append(read)
        except InputError as fault:
            faults.append(fault)
            said.append(Remark(remarks.FILE_UNUSABLE, str(fault), source))
    if not reads:
        if not faults:
            raise InputError("No file of records was given; give CSV, XLSX, GeoJSON or GeoPackage files.")
        raise faults[0] if len(faults) == 1 else InputError(" ".join(map(str, faults[:5])))
    said += [remark for sheet in sheets for remark in sheet.remarks]
    said += [remark for read in reads for remark in read.remarks]
    said += _missing_headings(columns, sheets)
    progress.step("Putting the records together", 0.95)

    def of(table: Table) -> Iterator[Read]:
        # A table of plots of its own speaks before plot columns repeated among stems.
        yield from (read for read in reads if table in read.records and read.kind != "stems with plots")
        yield from (read for read in reads if table in read.records and read.kind == "stems with plots")

    return Upload(
        plots=put_together("plots", (read.records["plots"] for read in of("plots"))),
        stems=put_together("stems", (read.records["stems"] for read in reads if "stems" in read.records)),
        stations=put_together("stations", (read.records["stations"] for read in of("stations"))),
        sources=tuple(sheet.source for sheet in sheets),
        remarks=tuple(said),
        units=tuple(unit for read in reads for unit in read.units),
    )


def _named(paths: Sequence[Path], said: list[Remark]) -> Iterator[tuple[Path, str]]:
    """Each file of records once, with the name it has in sentences: without its folder where that is clear."""
    seen: dict[Path, str] = {}
    names = Counter(path.name for path in paths)
    for path in paths:
        source = path.name if names[path.name] == 1 else str(path)
        if is_settings(path):
            continue
        resolved = path.resolve()
        if resolved in seen:
            sentence = f"{source} is the same file as {seen[resolved]}; it was read once."
            said.append(Remark(remarks.FILE_TWICE, sentence, source))
            continue
        seen[resolved] = source
        yield path, source


def _read_file(
    path: Path,
    source: str,
    columns: Mapping[str, str],
    asked: frozenset[str],
    number: int,
    progress: Progress,
    said: list[Remark],
) -> Iterator[tuple[Sheet, Read]]:
    """The sheets of one file that hold records, with what was read from them."""
    unknown: list[Sheet] = []
    found = 0
    for sheet in sheets_of(path, source=source, asked=asked, progress=progress, said=said):
        placement = place_columns(sheet, columns)
        if placement is None:
            unknown.append(sheet)
            continue
        repeats = repeated_headings(sheet)
        if repeats.any():
            sentence = f"The headings stand again in {remarks.some_lines(sheet.line[repeats])}; skipped."
            said.append(Remark(remarks.HEADINGS_REPEATED, sentence, sheet.source))
            sheet = sheet.take(np.flatnonzero(~repeats))
        progress.step(f"Reading the values of {sheet.source}")
        read = read_values(sheet, placement, number + found)
        found += 1
        yield replace(sheet, columns=()), replace(read, remarks=(*placement.remarks, *read.remarks))
    if not found and unknown:
        raise InputError(unknown_sentence(unknown[0]))
    for sheet in unknown:
        sentence = f"{sheet.source} was not read: it has no heading of plots, stems or stations."
        said.append(Remark(remarks.SHEET_IGNORED, sentence, sheet.source))


def _missing_headings(columns: Mapping[str, str], sheets: Sequence[Sheet]) -> list[Remark]:
    """Headings that a mapping asks for and no file has."""
    there = {fold(heading) for sheet in sheets for heading in sheet.headings}
    said = []
    for name, heading in columns.items():
        if fold(heading) not in there:
            sentence = f"No file has the heading {heading!r} that was asked for {name}; correct the mapping."
            said.append(Remark(remarks.HEADING_MISSING, sentence, sheets[0].source, column=heading))
    return said
