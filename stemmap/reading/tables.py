"""Sheets turned into records of plots, stems and stations: values read, plot columns split off, files put together."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from stemmap.reading import remarks
from stemmap.reading.dates import only_years, read_dates
from stemmap.reading.numbers import NumbersRead, read_numbers
from stemmap.reading.placement import Kind, Placement
from stemmap.reading.sheet import Sheet
from stemmap.survey.fields import FIELDS, Table, fields_of
from stemmap.survey.records import Column, Records, Remark, StatedUnit

_ONLY_PLOTS = tuple(item.name for item in fields_of("plots") if "stems" not in item.tables)


@dataclass(frozen=True)
class Read:
    """What one sheet gave.

    Parameters
    ----------
    kind
        The table it is.
    records
        Its records by table.
    units
        Units named by headings or cells.
    remarks
        What reading its values had to say.
    """

    kind: Kind
    records: Mapping[Table, Records]
    units: tuple[StatedUnit, ...]
    remarks: tuple[Remark, ...]


def read_values(sheet: Sheet, placement: Placement, number: int) -> Read:
    """Records of one sheet.

    Parameters
    ----------
    sheet, placement
        The sheet and what its columns are.
    number
        Index of the sheet among the sources of the upload.
    """
    columns: dict[str, Column] = {}
    other: dict[str, Column] = {}
    said: list[Remark] = []
    units: list[StatedUnit] = []
    fields = _years_as_visit(sheet, placement, said)
    for place, (heading, column, name) in enumerate(zip(sheet.headings, sheet.columns, fields, strict=True)):
        if name is None:
            if heading or column.filled.any():
                other[_free_name(heading or f"column {place + 1}", other)] = column
            continue
        unit = placement.units[place]
        if FIELDS[name].kind == "number":
            read = read_numbers(
                column.labels, name=name, own_unit=FIELDS[name].unit, separator=sheet.separator
            )
            column = replace(column, label_values=read.values)
            said += _tell_numbers(read, sheet.source, heading)
            unit = unit or read.unit
        elif FIELDS[name].kind == "date":
            dates = read_dates(column.labels)
            column = replace(column, label_values=dates.values)
            said += _tell_dates(dates.ambiguous, dates.serial, sheet.source, heading)
        columns[name] = column
        if unit:
            units.append(StatedUnit(name, unit, sheet.source, heading))
    source = np.full(len(sheet), number, np.int32)
    stems_or_plots: Table = "stems" if placement.kind == "stems with plots" else placement.kind
    records = Records(
        stems_or_plots, MappingProxyType(columns), source, sheet.line, MappingProxyType(other)
    )
    if "plot" not in columns and stems_or_plots == "stems":
        records = _as_one_plot(records, sheet, said)
    tables: dict[Table, Records] = {stems_or_plots: records}
    if placement.kind == "stems with plots":
        tables["plots"], tables["stems"] = _split(records, sheet, said)
    return Read(placement.kind, MappingProxyType(tables), tuple(units), tuple(said))


def _years_as_visit(sheet: Sheet, placement: Placement, said: list[Remark]) -> list[str | None]:
    """The fields, with a column of dates that holds years only turned into the visit."""
    fields = list(placement.fields)
    if "date" not in fields:
        return fields
    place = fields.index("date")
    if not only_years(sheet.columns[place].labels):
        return fields
    heading = sheet.headings[place]
    taken = "visit" in fields
    fields[place] = None if taken else "visit"
    use = "the visits are named by another column, so it is kept beside them" if taken else "they name the visits"
    sentence = f"Column {heading!r} holds years, not days; {use}."
    said.append(Remark(remarks.DATE_IS_YEAR, sentence, sheet.source, column=heading))
    return fields


def _free_name(heading: str, taken: Mapping[str, Column]) -> str:
    """The heading, numbered when a column of that name is there already."""
    name, number = heading, 2
    while name in taken:
        name, number = f"{heading} ({number})", number + 1
    return name


def _tell_numbers(read: NumbersRead, source: str, heading: str) -> list[Remark]:
    said = []

    def tell(check: str, sentence: str, text: str) -> None:
        said.append(Remark(check, f"Column {heading!r}: {sentence}", source, column=heading, text=text))

    if read.ambiguous:
        mark = "comma" if "," in read.ambiguous else "point"
        kind = "thousands mark" if read.assumed_thousands else "decimal mark"
        sentence = (
            f"the {mark} in {remarks.quoted(read.ambiguous)} and its like was taken as a {kind}, but nothing in the "
            "column settles it. If that is wrong, save the file with another decimal mark."
        )
        tell(remarks.DECIMAL_AMBIGUOUS, sentence, read.ambiguous)
    elif read.thousands:
        sentence = f"{remarks.quoted(read.thousands)} and its like was read with marked thousands."
        tell(remarks.THOUSANDS_MARK, sentence, read.thousands)
    if read.points and read.commas:
        sentence = (
            f"decimal points ({remarks.quoted(read.points)}) and decimal commas ({remarks.quoted(read.commas)}) stand "
            "side by side; each cell was read by its own mark."
        )
        tell(remarks.DECIMALS_MIXED, sentence, read.commas)
    if read.with_unit:
        sentence = f"the unit in {remarks.quoted(read.with_unit)} and its like was left out of the number."
        tell(remarks.UNIT_IN_CELLS, sentence, read.with_unit)
    return said


def _tell_dates(ambiguous: str, serial: str, source: str, heading: str) -> list[Remark]:
    said = []
    if ambiguous:
        sentence = (
            f"Column {heading!r}: {remarks.quoted(ambiguous)} and its like was read with the day first; nothing in "
            "the column settles day and month. If that is wrong, write dates as year-month-day."
        )
        said.append(Remark(remarks.DATE_ORDER, sentence, source, column=heading, text=ambiguous))
    if serial:
        sentence = f"Column {heading!r}: {remarks.quoted(serial)} and its like was read as a spreadsheet's day number."
        said.append(Remark(remarks.DATE_SERIAL, sentence, source, column=heading, text=serial))
    return said


def _as_one_plot(records: Records, sheet: Sheet, said: list[Remark]) -> Records:
    """All stems of a sheet without a column for the plot belong to one plot, named as the sheet."""
    sentence = f"{sheet.source} has no column for the plot; its {len(sheet):,} stems were taken as plot {sheet.name!r}."
    said.append(Remark(remarks.PLOT_COLUMN_MISSING, sentence, sheet.source))
    plot = Column(np.array([sheet.name], object), np.zeros(len(sheet), np.int32))
    return replace(records, columns=MappingProxyType({"plot": plot, **records.columns}))


def _split(records: Records, sheet: Sheet, said: list[Remark]) -> tuple[Records, Records]:
    """Plots and stems of a sheet that repeats the plot's columns on every stem."""
    described = [name for name in _ONLY_PLOTS if records.has(name)]
    keys = [name for name in ("plot", "visit") if records.has(name)]
    first, group = _distinct([records.columns[name].codes for name in keys])
    rows, _ = _distinct([records.columns[name].codes for name in (*keys, *described)])
    differing = np.setdiff1d(rows, first)
    if len(differing):
        _tell_contradiction(records, described, differing, first[group[differing]], sheet, said)
    kept = [*keys, *(["date"] if records.has("date") else []), *described]
    plots = replace(
        records.take(first),
        table="plots",
        columns=MappingProxyType({name: records.columns[name].take(first) for name in kept}),
        other=MappingProxyType({}),
    )
    own = {name: column for name, column in records.columns.items() if name not in described}
    typed = [column.filled for name, column in own.items() if name not in ("plot", "visit", "date")]
    typed += [column.filled for column in records.other.values()]
    stems = replace(records, columns=MappingProxyType(own))
    is_stem = np.any(typed, axis=0) if typed else np.zeros(len(records), dtype=bool)
    if not is_stem.all():
        lines = records.line[~is_stem]
        sentence = f"No stem is recorded in {remarks.some_lines(lines)}; they stand for plots without stems."
        said.append(Remark(remarks.PLOT_KEPT_EMPTY, sentence, sheet.source, line=int(lines[0])))
        stems = stems.take(np.flatnonzero(is_stem))
    return plots, stems


def _tell_contradiction(
    records: Records,
    described: Sequence[str],
    rows: NDArray[np.int64],
    first: NDArray[np.int64],
    sheet: Sheet,
    said: list[Remark],
) -> None:
    """Name the columns and plots whose lines disagree."""
    unlike = [name for name in described if np.any(records.columns[name].codes[rows] != records.columns[name].codes[first])]
    plots = list(dict.fromkeys(records.columns["plot"].texts[rows[:1000]]))
    sentence = (
        f"{', '.join(unlike)} of plot {remarks.some(plots, count=len(plots))} differ from line to line (first in line "
        f"{records.line[rows[0]]}); the first line of each plot holds."
    )
    said.append(Remark(remarks.PLOT_CONTRADICTION, sentence, sheet.source, line=int(records.line[rows[0]])))


def _distinct(codes: Sequence[NDArray[np.integer]]) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """First row of each distinct combination of codes, in the order of the rows, and each row's combination."""
    import pandas as pd

    combined = np.zeros(len(codes[0]), np.int64)
    for code in codes:
        wide = combined * (int(code.max(initial=0)) + 2) + code + 1
        combined = pd.factorize(wide)[0].astype(np.int64)
    _, first = np.unique(combined, return_index=True)
    return first, combined


def put_together(table: Table, parts: Iterable[Records]) -> Records:
    """Records of several sheets as one table, in their order."""
    filled = [part for part in parts if len(part)]
    if not filled:
        return Records.empty(table)
    if len(filled) == 1:
        return filled[0]
    names = list(dict.fromkeys(name for part in filled for name in part.columns))
    others = list(dict.fromkeys(name for part in filled for name in part.other))
    return Records(
        table,
        MappingProxyType({name: _joined([(part.columns.get(name), len(part)) for part in filled]) for name in names}),
        np.concatenate([part.source for part in filled]),
        np.concatenate([part.line for part in filled]),
        MappingProxyType({name: _joined([(part.other.get(name), len(part)) for part in filled]) for name in others}),
    )


def _joined(parts: Sequence[tuple[Column | None, int]]) -> Column:
    """Columns one below the other. Equal texts share a label when the same was read from them in every file."""
    import pandas as pd

    columns = [column or Column(np.zeros(0, object), np.full(rows, -1, np.int32)) for column, rows in parts]
    starts = np.cumsum([0, *(len(column.labels) for column in columns[:-1])])
    codes = [
        np.where(column.codes >= 0, column.codes + start, -1) for column, start in zip(columns, starts, strict=True)
    ]
    code, labels = np.concatenate(codes).astype(np.int32), np.concatenate([column.labels for column in columns])
    values = [column.label_values for column in columns if column.label_values is not None]
    read = np.concatenate(values) if values else None
    shared, distinct = pd.factorize(labels)
    _, first = np.unique(shared, return_index=True)
    if read is not None:
        here, there = read, read[first][shared]
        if not np.all((here == there) | ((here != here) & (there != there))):
            return Column(labels, code, read)
        read = read[first]
    shared_code = np.append(shared, -1)[code].astype(np.int32)
    return Column(np.asarray(distinct, dtype=object), shared_code, read)
