"""Values of a sheet: numbers and dates read from the texts of its columns, and what had to be decided for that."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

import numpy as np

from stemmap.reading import remarks
from stemmap.reading.dates import DatesRead, only_years, read_dates
from stemmap.reading.layers import WGS84
from stemmap.reading.numbers import NumbersRead, decide, plain_numbers, scan_numbers
from stemmap.reading.placement import Kind, Placement
from stemmap.reading.sheet import Sheet
from stemmap.survey.fields import FIELDS
from stemmap.survey.records import Column, Records, Remark, StatedUnit


@dataclass(frozen=True)
class Values:
    """Columns of one sheet by canonical field.

    Parameters
    ----------
    kind
        The table the sheet is.
    records
        All its columns; plot columns are not split off yet.
    units
        Units that headings or cells name.
    remarks
        What had to be decided.
    """

    kind: Kind
    records: Records
    units: tuple[StatedUnit, ...]
    remarks: tuple[Remark, ...]


def read_values(sheet: Sheet, placement: Placement, number: int) -> Values:
    """Values of one sheet.

    Parameters
    ----------
    sheet, placement
        The sheet and what its columns are.
    number
        Index of the sheet among the sources of the upload.
    """
    said: list[Remark] = []
    fields = _years_as_visit(sheet, placement, said)
    numbers = _numbers(sheet, fields)
    columns: dict[str, Column] = {}
    other: dict[str, Column] = {}
    units: list[StatedUnit] = []
    for place, (heading, column, name) in enumerate(zip(sheet.headings, sheet.columns, fields, strict=True)):
        if name is None:
            if heading or column.filled.any():
                other[heading or f"column {place + 1}"] = column
            continue
        unit = placement.units[place]
        if place in numbers:
            said += _tell_numbers(numbers[place], sheet, place)
            columns[name] = replace(column, label_values=numbers[place].values)
            unit = unit or numbers[place].unit
        elif FIELDS[name].kind == "date":
            dates = read_dates(column.labels)
            said += _tell_dates(dates, sheet, place)
            columns[name] = replace(column, label_values=dates.values)
        else:
            columns[name] = column
        if unit:
            units.append(StatedUnit(name, unit, sheet.source, heading))
    _add_points(sheet, placement.kind, columns, other, said)
    table = "stems" if placement.kind == "stems with plots" else placement.kind
    if table == "stems" and "plot" not in columns:
        columns["plot"] = _as_one_plot(sheet, said)
    source = np.full(len(sheet), number, np.int32)
    records = Records(table, MappingProxyType(columns), source, sheet.line, MappingProxyType(other))
    return Values(placement.kind, records, tuple(units), (*placement.remarks, *said))


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
    use = "another column names the visits, so it is kept beside them" if taken else "they name the visits"
    sentence = f"Column {heading!r} holds years, not days; {use}."
    said.append(Remark(remarks.DATE_IS_YEAR, sentence, sheet.source, column=heading))
    return fields


def _numbers(sheet: Sheet, fields: list[str | None]) -> dict[int, NumbersRead]:
    """Numbers of each column that holds some; the columns of a file explain each other's decimal marks."""
    named = {place: name for place, name in enumerate(fields) if name and FIELDS[name].kind == "number"}
    plain = {place: plain_numbers(sheet.columns[place].labels) for place in named}
    scans = {
        place: scan_numbers(sheet.columns[place].labels, own_unit=FIELDS[name].unit)
        for place, name in named.items()
        if plain[place] is None
    }
    if any("," in scan.decimal for scan in scans.values()):
        # Where others write decimal commas, a plain 1.234 may mean more than a thousand.
        scans |= {
            place: scan_numbers(sheet.columns[place].labels, own_unit=FIELDS[name].unit)
            for place, name in named.items()
            if place not in scans
        }
    marks = frozenset(mark for scan in scans.values() for mark in scan.decimal)
    read = {place: NumbersRead(values) for place, values in plain.items() if values is not None}
    for place, scan in scans.items():
        read[place] = decide(scan, name=named[place], separator=sheet.separator, marks=marks)
    return read


def _about_cell(check: str, sentence: str, text: str, sheet: Sheet, place: int) -> Remark:
    """A remark about the first cell of a column with the given text."""
    heading, column = sheet.headings[place], sheet.columns[place]
    row = int(np.argmax(column.codes == np.flatnonzero(column.labels == text)[0]))
    line = int(sheet.line[row])
    return Remark(
        check, f"Line {line}, column {heading!r}: {sentence}", sheet.source, line=line, column=heading, text=text
    )


def _tell_numbers(read: NumbersRead, sheet: Sheet, place: int) -> list[Remark]:
    said = []

    def tell(check: str, sentence: str, text: str) -> None:
        said.append(_about_cell(check, sentence, text, sheet, place))

    if read.ambiguous:
        mark = "comma" if "," in read.ambiguous else "point"
        kind = "thousands mark" if read.assumed_thousands else "decimal mark"
        sentence = (
            f"the {mark} in {remarks.quoted(read.ambiguous)} and its like was taken as a {kind}, but nothing settles "
            "it. If that is wrong, save the file with another decimal mark."
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


def _tell_dates(read: DatesRead, sheet: Sheet, place: int) -> list[Remark]:
    said = []
    if read.ambiguous:
        sentence = (
            f"{remarks.quoted(read.ambiguous)} and its like was read with the day first; nothing in the column settles "
            "day and month. If that is wrong, write dates as year-month-day."
        )
        said.append(_about_cell(remarks.DATE_ORDER, sentence, read.ambiguous, sheet, place))
    if read.serial:
        sentence = f"{remarks.quoted(read.serial)} was read as a spreadsheet's number of a day."
        said.append(_about_cell(remarks.DATE_SERIAL, sentence, read.serial, sheet, place))
    return said


def _add_points(
    sheet: Sheet, kind: Kind, columns: dict[str, Column], other: dict[str, Column], said: list[Remark]
) -> None:
    """Points of a layer of plots as their centres, unless columns say them; all other points are kept beside."""
    points = sheet.points
    if points is None:
        return
    x, y = Column.of_numbers(points.x), Column.of_numbers(points.y)
    typed: Mapping[str, Column] = {
        name: columns[name] for name in ("lon", "lat", "easting", "northing") if name in columns
    }
    if kind != "plots" or typed:
        other["point x"], other["point y"] = x, y
        if kind == "plots":
            names = " and ".join(typed)
            sentence = f"{sheet.source} has points and columns of coordinates; the columns {names} were used."
            said.append(Remark(remarks.GEOMETRY_AND_COLUMNS, sentence, sheet.source))
    elif points.crs in WGS84:
        columns["lon"], columns["lat"] = x, y
    else:
        columns["easting"], columns["northing"] = x, y
        if points.crs and "crs" not in columns:
            columns["crs"] = _everywhere(points.crs, len(sheet))


def _as_one_plot(sheet: Sheet, said: list[Remark]) -> Column:
    """All stems of a sheet without a column for the plot belong to one plot, named as the sheet."""
    sentence = f"{sheet.source} has no column for the plot; its {len(sheet):,} stems were taken as plot {sheet.name!r}."
    said.append(Remark(remarks.PLOT_COLUMN_MISSING, sentence, sheet.source))
    return _everywhere(sheet.name, len(sheet))


def _everywhere(text: str, rows: int) -> Column:
    return Column(np.array([text], dtype=object), np.zeros(rows, np.int32))
