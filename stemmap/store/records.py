"""Records as typed in the survey file: every text as it stood, beside it the number or date that was read from it."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import repeat
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.store.schema import RECORD_TABLES, column_for, quoted
from stemmap.store.seals import record_seals
from stemmap.store.survey_file import SurveyFile, now, told
from stemmap.survey.fields import Table
from stemmap.survey.records import Column, Records, Upload


@dataclass(frozen=True)
class UploadedFile:
    """A file of an upload: its name, a sum over its bytes, and their number."""

    name: str
    sha256: str
    size: int


def uploads_of(survey_file: SurveyFile) -> list[tuple[int, tuple[UploadedFile, ...]]]:
    """Number of each upload and its files."""
    files: dict[int, list[UploadedFile]] = {
        int(number): [] for (number,) in survey_file.connection.execute("SELECT id FROM uploads ORDER BY id")
    }
    for number, *file in survey_file.connection.execute(
        "SELECT upload, name, sha256, bytes FROM upload_files ORDER BY id"
    ):
        files[number].append(UploadedFile(*file))
    return [(number, tuple(of)) for number, of in files.items()]


def files_brought_back(survey_file: SurveyFile) -> frozenset[str]:
    """Sums over the files that crews filled in and that the survey file holds."""
    with told(survey_file.path):
        rows = survey_file.connection.execute(
            "SELECT sha256 FROM upload_files WHERE upload IN (SELECT DISTINCT upload FROM records_remeasured)"
        ).fetchall()
    return frozenset(str(row[0]) for row in rows)


def files_uploaded(survey_file: SurveyFile) -> frozenset[str]:
    """Sums over the files of the records themselves, which no crew filled in."""
    with told(survey_file.path):
        rows = survey_file.connection.execute(
            "SELECT sha256 FROM upload_files WHERE upload NOT IN (SELECT DISTINCT upload FROM records_remeasured)"
        ).fetchall()
    return frozenset(str(row[0]) for row in rows)


def add_upload(
    connection: sqlite3.Connection,
    upload: Upload,
    files: Sequence[UploadedFile],
    *,
    who: str,
    replaces: bool,
    gone: Mapping[Table, Sequence[tuple[int, int]]],
) -> int:
    """Add an upload's records, inside the caller's transaction.

    Parameters
    ----------
    upload
        The records to add.
    replaces
        Whether it was told to replace.
    gone
        By table the (source, line) of the records in the file that these replace.

    Returns
    -------
    Number of the upload.
    """
    after = connection.execute("SELECT COALESCE(MAX(entry), 0) FROM journal").fetchone()[0]
    number = connection.execute(
        "INSERT INTO uploads (time, who, after_entry, replaces) VALUES (?, ?, ?, ?)", (now(), who, after, int(replaces))
    ).lastrowid
    if number is None:
        raise sqlite3.DatabaseError("the upload got no number")
    connection.executemany(
        "INSERT INTO upload_files (upload, name, sha256, bytes) VALUES (?, ?, ?, ?)",
        [(number, file.name, file.sha256, file.size) for file in files],
    )
    first = connection.execute("SELECT COALESCE(MAX(id) + 1, 0) FROM sources").fetchone()[0]
    connection.executemany(
        "INSERT INTO sources (id, upload, name, records) VALUES (?, ?, ?, 0)",
        [(first + place, number, name) for place, name in enumerate(upload.sources)],
    )
    connection.executemany(
        "INSERT INTO remarks (upload, kind, sentence, file, line, heading, cell) VALUES (?, ?, ?, ?, ?, ?, ?)",
        [(number, r.check, r.sentence, r.file, r.line, r.column, r.text) for r in upload.remarks],
    )
    connection.executemany(
        "INSERT INTO stated_units (upload, field, unit, file, heading) VALUES (?, ?, ?, ?, ?)",
        [(number, unit.field, unit.unit, unit.file, unit.column) for unit in upload.units],
    )
    tables = [upload.plots, upload.stems, upload.stations]
    for records in [*tables, upload.returned.rows] if upload.returned else tables:
        table = RECORD_TABLES[records.table]
        connection.executemany(
            f"UPDATE {table} SET replaced_by = ? WHERE source = ? AND line = ? AND replaced_by IS NULL",
            [(number, source, line) for source, line in gone.get(records.table, ())],
        )
        if len(records):
            _add_records(connection, records, number, first)
    return int(number)


def add_settings(connection: sqlite3.Connection, toml: str, *, who: str) -> None:
    """Add settings, which hold from now on, inside the caller's transaction."""
    connection.execute(
        "INSERT INTO settings (time, who, after_entry, toml) "
        "VALUES (?, ?, (SELECT COALESCE(MAX(entry), 0) FROM journal), ?)",
        (now(), who, toml),
    )
    # The layers were made under other settings.
    connection.execute("UPDATE survey_file SET layers_at = NULL")


def latest_settings(survey_file: SurveyFile) -> str:
    """Text of the settings that hold."""
    row = survey_file.connection.execute("SELECT toml FROM settings ORDER BY id DESC LIMIT 1").fetchone()
    return str(row[0]) if row else ""


def _add_records(connection: sqlite3.Connection, records: Records, upload: int, first: int) -> None:
    names = {name: name for name in records.columns} | {
        heading: column_for(connection, records.table, heading) for heading in records.other
    }
    columns = {names[name]: column for name, column in (*records.columns.items(), *records.other.items())}
    table = RECORD_TABLES[records.table]
    marks = ", ".join("?" * (4 + len(columns)))
    source = records.source.astype(np.int64) + first
    texts = [np.array([*column.labels, None], object)[column.codes].tolist() for column in columns.values()]
    connection.executemany(
        f"INSERT INTO {table} (source, line, upload, seal{''.join(f', {quoted(name)}' for name in columns)}) "
        f"VALUES ({marks})",
        zip(
            source.tolist(),
            records.line.tolist(),
            repeat(upload, len(records)),
            record_seals(records, source).tolist(),
            *texts,
            strict=True,
        ),
    )
    connection.executemany(
        "UPDATE sources SET records = records + ? WHERE id = ?",
        [(count, number) for number, count in enumerate(np.bincount(source).tolist()) if count],
    )
    connection.executemany(
        "UPDATE record_columns SET used = 1 WHERE records = ? AND name = ?", [(records.table, name) for name in columns]
    )
    for name, column in columns.items():
        connection.executemany(
            "INSERT INTO readings (records, name, source, cell, number, day) VALUES (?, ?, ?, ?, ?, ?)",
            _readings(records.table, name, column, source),
        )


def _readings(records: str, name: str, column: Column, source: NDArray[np.int64]) -> Iterator[tuple[Any, ...]]:
    """What was read from each distinct text of a column, source by source."""
    if column.label_values is None:
        return
    filled = np.flatnonzero(column.codes >= 0)
    pairs = np.unique(source[filled] * len(column.labels) + column.codes[filled])
    of_source, code = np.divmod(pairs, max(len(column.labels), 1))
    values = column.label_values
    for where, place in zip(of_source.tolist(), code.tolist(), strict=True):
        value = values[place]
        if values.dtype.kind == "M":
            yield records, name, where, str(column.labels[place]), None, None if np.isnat(value) else str(value)
        else:
            yield records, name, where, str(column.labels[place]), float(value), None
