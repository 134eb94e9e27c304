"""Everything typed that a survey file holds, read back; and what another program changed in it."""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.store.schema import RECORD_TABLES, quoted
from stemmap.store.seals import record_seals
from stemmap.store.survey_file import Damaged, SurveyFile, told
from stemmap.survey.fields import FIELDS, LARGEST, Table
from stemmap.survey.records import Column, Records, Remark, StatedUnit, Upload
from stemmap.survey.returned import PacketRows, Returned

#: So many records are read at once.
_READ_AT_ONCE = 20_000


@dataclass(frozen=True)
class Edited:
    """Records of one file, sheet or layer that are not as they were uploaded: another program changed them.

    Parameters
    ----------
    source
        The file, sheet or layer.
    lines
        Those that differ, or that nobody uploaded.
    missing
        Number of those that are gone.
    """

    source: str
    lines: tuple[int, ...]
    missing: int


@dataclass(frozen=True)
class Stored:
    """What a survey file holds, as of one moment.

    Parameters
    ----------
    upload
        All records that hold, as typed; sources are numbered through all uploads.
    toml
        Text of the settings.
    edited
        What is not as it was uploaded.
    """

    upload: Upload
    toml: str
    edited: tuple[Edited, ...] = ()


def read_stored(survey_file: SurveyFile, *, as_of: int | str | None = None) -> Stored:
    """Everything typed that holds.

    Parameters
    ----------
    as_of
        As it was after a journal entry, or at a time in ISO 8601 and UTC; None: now.

    Raises
    ------
    Damaged
        When tables are gone or hold values of another kind than were written.
    """
    try:
        with told(survey_file.path):
            return _read_stored(survey_file.connection, as_of)
    except (TypeError, ValueError, LookupError, OverflowError) as fault:
        raise Damaged(survey_file.path) from fault


def _read_stored(connection: sqlite3.Connection, as_of: int | str | None) -> Stored:
    before = {int: "after_entry <= ?1", str: "substr(time, 1, length(?1)) <= ?1"}.get(type(as_of), "?1 IS NULL")
    upload = connection.execute(f"SELECT COALESCE(MAX(id), 0) FROM uploads WHERE {before}", (as_of,)).fetchone()[0]
    settings = connection.execute(
        f"SELECT toml FROM settings WHERE {before} ORDER BY id DESC LIMIT 1", (as_of,)
    ).fetchone()
    sources = connection.execute(
        "SELECT sources.name, upload, after_entry FROM sources JOIN uploads ON upload = uploads.id ORDER BY sources.id"
    ).fetchall()
    edits: dict[int, set[int]] = {}
    read = {table: _read_records(connection, table, upload, edits) for table in RECORD_TABLES}
    return Stored(
        Upload(
            plots=read["plots"],
            stems=read["stems"],
            stations=read["stations"],
            sources=tuple(name for name, _, _ in sources),
            remarks=tuple(
                Remark(*row)
                for row in connection.execute(
                    "SELECT kind, sentence, file, line, heading, cell FROM remarks WHERE upload <= ? ORDER BY id",
                    (upload,),
                )
            ),
            units=tuple(
                StatedUnit(*row)
                for row in connection.execute(
                    "SELECT DISTINCT field, unit, file, heading FROM stated_units WHERE upload <= ? ORDER BY id",
                    (upload,),
                )
            ),
            upload_of_source=tuple(number for _, number, _ in sources),
            returned=_returned(connection, read["remeasured"], np.array([after for _, _, after in sources], np.int64)),
        ),
        str(settings[0]) if settings else "",
        _edited(connection, edits),
    )


def _edited(connection: sqlite3.Connection, edits: Mapping[int, set[int]]) -> tuple[Edited, ...]:
    """What is not as it was uploaded, from the lines of each source that differ."""
    counts = " UNION ALL ".join(f"SELECT source FROM {table}" for table in RECORD_TABLES.values())
    missing = dict(
        connection.execute(
            "SELECT id, records - COUNT(source) AS missing FROM sources "
            f"LEFT JOIN ({counts}) ON source = id GROUP BY id HAVING missing > 0"
        ).fetchall()
    )
    names = dict(connection.execute("SELECT id, name FROM sources"))
    return tuple(
        Edited(str(names[number]), tuple(sorted(edits.get(number, ()))), missing.get(number, 0))
        for number in sorted({*edits, *missing})
    )


def _returned(connection: sqlite3.Connection, rows: Records, after: NDArray[np.int64]) -> Returned | None:
    """What came back from field packets; None where nothing did."""
    if not len(rows):
        return None
    asked = connection.execute(
        "SELECT packets.name, row, look = 'blind', plot, COALESCE(visit, ''), COALESCE(tree, ''), COALESCE(stem, ''), "
        "COALESCE(source, -1), COALESCE(line, -1), after_entry FROM packet_rows JOIN packets ON packet = packets.id "
        "ORDER BY packet_rows.id"
    ).fetchall()
    columns = zip(*asked, strict=True) if asked else [()] * 10
    kinds = (object, np.int64, bool, *(object,) * 4, *(np.int64,) * 3)
    return Returned(
        rows,
        after[rows.source],
        PacketRows(*(np.array(column, kind) for column, kind in zip(columns, kinds, strict=True))),
    )


def _read_records(connection: sqlite3.Connection, table: Table, upload: int, edits: dict[int, set[int]]) -> Records:
    """The records of a table; lines that are not as they were uploaded are entered in `edits`, source by source."""
    import pandas as pd

    stored = RECORD_TABLES[table]
    known_columns = connection.execute(
        "SELECT name, field, heading, used FROM record_columns WHERE records = ? ORDER BY id", (table,)
    ).fetchall()
    used = [(name, field, heading) for name, field, heading, is_used in known_columns if is_used]
    # Nobody typed anything in the other columns.
    unused = "".join(f", {quoted(name)}" for name, _, _, is_used in known_columns if not is_used)
    cursor = connection.execute(
        "SELECT CAST(source AS INTEGER), CAST(line AS INTEGER), CAST(COALESCE(seal, 0) AS INTEGER), "
        f"COALESCE(NULL, NULL{unused}) IS NOT NULL{''.join(f', {quoted(name)}' for name, _, _ in used)} "
        f"FROM {stored} WHERE source IN (SELECT id FROM sources WHERE upload <= ?) "
        "AND (replaced_by IS NULL OR replaced_by > ?) ORDER BY id",
        (upload, upload),
    )
    places: list[NDArray[np.int64]] = []
    known: list[dict[Any, int]] = [{} for _ in used]
    codes: list[list[NDArray[np.int32]]] = [[] for _ in used]
    while rows := cursor.fetchmany(_READ_AT_ONCE):
        source, line, seal, filled, *texts = zip(*rows, strict=True)
        places.append(np.array([source, line, seal, filled], np.int64))
        for labels, parts, cells in zip(known, codes, texts, strict=True):
            code, distinct = pd.factorize(np.array(cells, dtype=object))
            told = [labels.setdefault(label, len(labels)) for label in distinct]
            parts.append(np.array([*told, -1], np.int32)[code])
    for number, row in connection.execute(
        f"SELECT source, line FROM {stored} WHERE replaced_by IS NOT NULL "
        "AND replaced_by NOT IN (SELECT id FROM uploads WHERE replaces)"
    ):
        edits.setdefault(number, set()).add(row)
    if not places:
        return Records.empty(table)
    of_source, of_line, of_seal, of_filled = np.concatenate(places, axis=1)
    columns: dict[str, Column] = {}
    other: dict[str, Column] = {}
    for (_, field, heading), labels, parts in zip(used, known, codes, strict=True):
        column = Column(np.array([*labels, None], dtype=object)[:-1], np.concatenate(parts))
        if field is None:
            other[heading] = column
        else:
            columns[field] = _with_readings(connection, table, column, field, of_source)
    records = Records(
        table,
        MappingProxyType(columns),
        of_source.astype(np.int32),
        of_line.astype(np.int32),
        MappingProxyType(other),
    )
    sealed = [number for (number,) in connection.execute("SELECT id FROM sources WHERE records IS NOT NULL")]
    differs = ((record_seals(records, of_source) != of_seal) | (of_filled != 0)) & np.isin(of_source, sealed)
    for row in np.flatnonzero(differs).tolist():
        edits.setdefault(int(of_source[row]), set()).add(int(of_line[row]))
    return records


def _with_readings(
    connection: sqlite3.Connection, table: Table, column: Column, field: str, source: NDArray[np.int64]
) -> Column:
    """The column with the numbers or dates read from its texts, told apart by source where sources read them unlike."""
    kind = FIELDS[field].kind
    if kind == "text":
        return column
    read = connection.execute(
        "SELECT source, cell, number, day FROM readings WHERE records = ? AND name = ?", (table, field)
    ).fetchall()
    place = {label: code for code, label in enumerate(column.labels)}
    labels: list[str] = []
    values: list[Any] = []
    made: dict[tuple[int, str], int] = {}
    code_of = np.full((int(source.max(initial=0)) + 1, len(column.labels) + 1), -1, np.int32)

    def enter(where: int, code: int, value: Any) -> None:
        key = (code, repr(value))
        if key not in made:
            made[key] = len(labels)
            labels.append(str(column.labels[code]))
            values.append(value)
        code_of[where, code] = made[key]

    for where, cell, number, day in read:
        if cell in place and where < len(code_of):
            enter(where, place[cell], _finite(number) if kind == "number" else (day or "NaT"))
    codes = code_of[source, column.codes]
    # Cells that another program changed were never read: they stay, and are no number until they are uploaded.
    for row in np.flatnonzero((codes < 0) & (column.codes >= 0)).tolist():
        enter(int(source[row]), int(column.codes[row]), np.nan if kind == "number" else "NaT")
    codes = code_of[source, column.codes]
    read_values = np.array(values, np.float64 if kind == "number" else "datetime64[D]")
    return Column(np.array(labels, dtype=object), codes, read_values)


def _finite(number: float | None) -> float:
    """A number that was read; NaN where none was. Nobody reads one without measure, whatever stands in the table."""
    return np.nan if number is None or not abs(number) <= LARGEST else number
