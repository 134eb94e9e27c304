"""An upload: all its files read into one set of records."""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from types import MappingProxyType

import numpy as np

from stemmap.errors import HeadingsUnknown, InputError
from stemmap.progress import Progress
from stemmap.reading import remarks
from stemmap.reading.files import is_settings, sheets_of
from stemmap.reading.headings import fold
from stemmap.reading.placement import check_columns, place_columns, unknown_sentence
from stemmap.reading.sheet import Sheet, repeated_headings, totals
from stemmap.reading.tables import put_together, tables_of
from stemmap.reading.values import Values, read_values
from stemmap.survey.fields import Table
from stemmap.survey.records import Records, Remark, StatedUnit, Upload

_NO_COLUMNS: Mapping[str, str] = MappingProxyType({})


@dataclass
class _Reading:
    """What has been read so far.

    Parameters
    ----------
    columns, asked
        The mapping that was asked for, and its headings folded.
    sources
        Names of the sheets that hold records.
    headings
        All headings found, folded.
    tables
        Records of each sheet, and whether its plots were split off from stems.
    """

    columns: Mapping[str, str]
    asked: frozenset[str]
    progress: Progress
    sources: list[str] = field(default_factory=list)
    headings: set[str] = field(default_factory=set)
    tables: list[tuple[bool, Mapping[Table, Records]]] = field(default_factory=list)
    units: list[StatedUnit] = field(default_factory=list)
    remarks: list[Remark] = field(default_factory=list)

    def read_file(self, path: Path, source: str) -> None:
        """Read all sheets of one file; nothing of it is kept when it cannot be used."""
        unknown: list[Sheet] = []
        said: list[Remark] = []
        read: list[tuple[Sheet, Values]] = []
        sheets = sheets_of(path, source=source, asked=self.asked, progress=self.progress, said=said)
        for sheet in map(tidied, sheets):
            placement = place_columns(sheet, self.columns)
            if placement is None:
                unknown.append(sheet)
                continue
            self.progress.step(f"Reading the values of {sheet.source}")
            values = read_values(sheet, placement, len(self.sources) + len(read))
            read.append((replace(sheet, columns=()), values))
        if not read:
            if unknown:
                raise HeadingsUnknown(unknown_sentence(unknown[0]))
            raise InputError(f"{source} holds no records.")
        for sheet in unknown:
            sentence = f"{sheet.source} was not read: it has no heading of plots, stems or stations."
            said.append(Remark(remarks.SHEET_IGNORED, sentence, sheet.source))
        for sheet, values in read:
            said += [*sheet.remarks, *values.remarks]
            self.sources.append(sheet.source)
            self.headings |= {fold(heading) for heading in sheet.headings}
            self.tables.append((values.kind == "stems with plots", tables_of(values, sheet.source, said)))
            self.units += values.units
        self.remarks += said

    def missing_headings(self) -> Iterator[Remark]:
        """Headings that the mapping asks for and no file has."""
        for name, heading in self.columns.items():
            if fold(heading) not in self.headings:
                sentence = f"No file has the heading {heading!r} that was asked for {name}; correct the mapping."
                yield Remark(remarks.HEADING_MISSING, sentence, self.sources[0], column=heading)

    def table(self, name: Table) -> Records:
        """One table of all files. A table of plots of its own speaks before plot columns repeated among stems."""
        ordered = sorted(self.tables, key=lambda item: item[0]) if name == "plots" else self.tables
        return put_together(name, [tables[name] for _, tables in ordered if name in tables])


def read_upload(
    paths: Sequence[Path], *, columns: Mapping[str, str] = _NO_COLUMNS, progress: Progress | None = None
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
        When no file can be used, or `columns` names a field there is not; `HeadingsUnknown` when a file holds a
        table, but no heading of it is known.
    Cancelled
        When `progress` says so.
    """
    check_columns(columns)
    asked = frozenset(fold(heading) for heading in columns.values())
    reading = _Reading(columns, asked, progress or Progress())
    faults: list[InputError] = []
    for path, source in named_files(paths, reading.remarks):
        try:
            reading.read_file(path, source)
        except InputError as fault:
            faults.append(fault)
            known = not isinstance(fault, HeadingsUnknown)
            check = remarks.FILE_UNUSABLE if known else remarks.HEADINGS_UNKNOWN
            reading.remarks.append(Remark(check, str(fault), source))
    if not reading.tables:
        kind = HeadingsUnknown if any(isinstance(fault, HeadingsUnknown) for fault in faults) else InputError
        raise kind(
            " ".join(str(fault) for fault in faults[: remarks.NAMED])
            or "No file of records was given; give CSV, XLSX, GeoJSON or GeoPackage files."
        )
    reading.progress.step("Putting the records together")
    return Upload(
        plots=reading.table("plots"),
        stems=reading.table("stems"),
        stations=reading.table("stations"),
        sources=tuple(reading.sources),
        remarks=(*reading.remarks, *reading.missing_headings()),
        units=tuple(reading.units),
    )


def named_files(paths: Sequence[Path], said: list[Remark]) -> Iterator[tuple[Path, str]]:
    """Each file of records once, with the name it has in sentences: without its folder where that is clear."""
    seen: dict[Path, str] = {}
    twice: dict[str, Remark] = {}
    names = Counter(path.name for path in paths)
    for path in paths:
        if is_settings(path):
            continue
        # A name may hold bytes that are no text, which nothing could write down.
        source = os.fsencode(path.name if names[path.name] == 1 else path).decode("utf-8", "replace")
        try:
            resolved = path.resolve()
        except (OSError, RuntimeError):
            # A link that leads to itself; opening it says so.
            resolved = path.absolute()
        if resolved in seen:
            sentence = f"{source} is the same file as {seen[resolved]}; it was read once."
            twice.setdefault(source, Remark(remarks.FILE_TWICE, sentence, source))
            continue
        seen[resolved] = source
        yield path, source
    said += twice.values()


def tidied(sheet: Sheet) -> Sheet:
    """The sheet without lines that repeat the headings or hold totals, and with headings that differ."""
    repeats = repeated_headings(sheet)
    if repeats.any():
        lines = sheet.line[repeats]
        sentence = f"The headings stand again in {remarks.some_lines(lines)}; skipped."
        said = Remark(remarks.HEADINGS_REPEATED, sentence, sheet.source, line=int(lines[0]))
        sheet = replace(sheet.take(np.flatnonzero(~repeats)), remarks=(*sheet.remarks, said))
    sums = totals(sheet)
    if sums.any():
        lines = sheet.line[sums]
        sentence = f"Totals stand in {remarks.some_lines(lines)}; skipped."
        said = Remark(remarks.TOTALS_SKIPPED, sentence, sheet.source, line=int(lines[0]))
        sheet = replace(sheet.take(np.flatnonzero(~sums)), remarks=(*sheet.remarks, said))
    return replace(sheet, headings=_distinct(sheet.headings))


def _distinct(headings: Sequence[str]) -> tuple[str, ...]:
    """Headings with a number behind those that stand there a second time."""
    distinct: dict[str, None] = {}
    result = []
    for heading in headings:
        name, number = heading, 2
        while name and name in distinct:
            name, number = f"{heading} ({number})", number + 1
        distinct[name] = None
        result.append(name)
    return tuple(result)
