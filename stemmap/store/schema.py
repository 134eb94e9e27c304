"""The tables of a survey file, their version, and the steps from older ones.

What is typed, uploaded, set and decided is only ever added to; layers are made from it and can be made anew.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Container, Mapping
from types import MappingProxyType

from stemmap.errors import InputError, OutputError
from stemmap.store import geopackage
from stemmap.survey.fields import FIELDS, Table, fields_of

#: Columns of a records table; SQLite takes no more than 2,000.
_MOST_COLUMNS = 1_900

#: Version of the tables below; one more with each step.
SCHEMA = 2

RECORD_TABLES: Mapping[Table, str] = MappingProxyType(
    {
        "plots": "records_plots",
        "stems": "records_stems",
        "stations": "records_stations",
        "remeasured": "records_remeasured",
    }
)

#: Each table with its columns and what it is for. The types are those of GeoPackage, clause 1.1.1.1.3.
TABLES: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "survey_file": (
            "schema_version INTEGER NOT NULL, made_with TEXT NOT NULL, made_at TEXT NOT NULL, layers_at INTEGER",
            "version of these tables; the journal entry at which the layers stand",
        ),
        "uploads": (
            "time TEXT NOT NULL, who TEXT NOT NULL, after_entry INTEGER NOT NULL, replaces INTEGER NOT NULL",
            "each upload that was added, when, by whom, after which journal entry",
        ),
        "upload_files": (
            "upload INTEGER NOT NULL, name TEXT NOT NULL, sha256 TEXT NOT NULL, bytes INTEGER NOT NULL",
            "the files of each upload",
        ),
        "sources": (
            "upload INTEGER NOT NULL, name TEXT NOT NULL, records INTEGER",
            "the files, sheets and layers that hold records, and how many",
        ),
        "remarks": (
            "upload INTEGER NOT NULL, kind TEXT NOT NULL, sentence TEXT NOT NULL, file TEXT NOT NULL, line INTEGER, "
            "heading TEXT, cell TEXT",
            "what reading had to say about each upload",
        ),
        "stated_units": (
            "upload INTEGER NOT NULL, field TEXT NOT NULL, unit TEXT NOT NULL, file TEXT NOT NULL, "
            "heading TEXT NOT NULL",
            "units that headings or cells name",
        ),
        "settings": (
            "time TEXT NOT NULL, who TEXT NOT NULL, after_entry INTEGER NOT NULL, toml TEXT NOT NULL",
            "settings of the survey, the last row holds",
        ),
        "record_columns": (
            "records TEXT NOT NULL, name TEXT NOT NULL, field TEXT, heading TEXT, used INTEGER NOT NULL DEFAULT 0",
            "what the columns of the records tables are: a field, or a heading of the upload kept as it was",
        ),
        "readings": (
            "records TEXT NOT NULL, name TEXT NOT NULL, source INTEGER NOT NULL, cell TEXT NOT NULL, number DOUBLE, "
            "day TEXT",
            "the number or date that was read from each distinct text of a column",
        ),
        "journal": (
            "time TEXT NOT NULL, who TEXT NOT NULL, finding TEXT NOT NULL, plot TEXT, visit TEXT, stem TEXT, "
            "decision TEXT NOT NULL, field TEXT, old TEXT, new TEXT, why TEXT NOT NULL, source INTEGER, line INTEGER, "
            "upload INTEGER, of INTEGER, changes TEXT NOT NULL, seal TEXT NOT NULL",
            "every decision: who, when, why, old and new value; only ever added to; the rows below 1 are none",
        ),
        "packets": (
            "name TEXT NOT NULL, time TEXT NOT NULL, who TEXT NOT NULL, after_entry INTEGER NOT NULL, "
            "settings INTEGER NOT NULL, asked TEXT NOT NULL, blind_share DOUBLE NOT NULL, seed INTEGER NOT NULL",
            "each field packet: its name on every row, when, by whom, after which journal entry, under which row of "
            "settings, what was asked for (plots, recheck, all)",
        ),
        "packet_rows": (
            "packet INTEGER NOT NULL, row INTEGER NOT NULL, look TEXT NOT NULL, plot TEXT NOT NULL, visit TEXT, "
            "tree TEXT, stem TEXT, source INTEGER, line INTEGER, upload INTEGER, former TEXT NOT NULL",
            "the rows of each field packet, cold or blind: the record by source and line (none: an empty row for a "
            "stem that is new) and its values as they held then, a JSON object of texts by field",
        ),
    }
)

#: Tables that came with version 2.
_PACKET_TABLES = ("packets", "packet_rows")


def create(connection: sqlite3.Connection, *, made_with: str, made_at: str) -> None:
    """Make an empty database a survey file, inside the caller's transaction."""
    geopackage.prepare(connection)
    for table in TABLES:
        _add_table(connection, table)
    for name in RECORD_TABLES:
        _add_records_table(connection, name)
    list_fields(connection)
    _fill_journal(connection)
    connection.execute("CREATE INDEX records_stems_line ON records_stems (source, line)")
    connection.execute(
        "INSERT INTO survey_file (schema_version, made_with, made_at) VALUES (?, ?, ?)", (SCHEMA, made_with, made_at)
    )


def _add_table(connection: sqlite3.Connection, table: str) -> None:
    columns, purpose = TABLES[table]
    key = "entry INTEGER PRIMARY KEY" if table == "journal" else "id INTEGER PRIMARY KEY"
    connection.execute(f"CREATE TABLE {table} ({key}, {columns})")
    geopackage.add_attributes(connection, table, purpose)


def _add_records_table(connection: sqlite3.Connection, name: Table) -> None:
    table = RECORD_TABLES[name]
    columns = ", ".join(f"{quoted(field.name)} TEXT" for field in fields_of(name))
    # A page that no tree leads to any more is known by its shape: these are never taken for other stems.
    shape = "kind TEXT NOT NULL DEFAULT 'measured again', " if name == "remeasured" else ""
    connection.execute(
        f"CREATE TABLE {table} (id INTEGER PRIMARY KEY, source INTEGER NOT NULL, line INTEGER NOT NULL, "
        f"upload INTEGER NOT NULL, {shape}replaced_by INTEGER, seal INTEGER, {columns})"
    )
    geopackage.add_attributes(
        connection, table, f"records of {name} exactly as typed, with file, line and a sum over them"
    )


def list_fields(connection: sqlite3.Connection) -> None:
    """Say of all columns of the records tables that hold fields which they hold, where that is not said yet."""
    connection.executemany(
        "INSERT INTO record_columns (records, name, field) SELECT ?1, ?2, ?2 "
        "WHERE NOT EXISTS (SELECT 1 FROM record_columns WHERE records = ?1 AND field = ?2)",
        [(name, field.name) for name in RECORD_TABLES for field in fields_of(name)],
    )


#: What the rows below the first entry say to somebody who looks at the table in another program.
_NO_DECISION = "This is no decision: the row keeps room, so that a copy of the file holds every decision at any moment."


def _fill_journal(connection: sqlite3.Connection) -> None:
    """Two rows below the first entry that are no decisions: the journal's tree has a branch from the beginning.

    A kill between the page writes of one decision can tear a copy of the file that is taken without its rollback
    journal. As long as no row of the journal ever moves to another page, such a copy still holds every decision that
    was acknowledged; the only time that rows would move is when the first page of the tree becomes a branch.
    """
    connection.executemany(
        "INSERT INTO journal (entry, time, who, finding, decision, why, changes, seal) "
        "VALUES (?, '', '', '', '', ?, '', '')",
        [(-1, _NO_DECISION.ljust(3000)), (0, _NO_DECISION.ljust(1500))],
    )


def quoted(name: str) -> str:
    """A name as SQL writes it."""
    return '"' + name.replace('"', '""') + '"'


def column_for(connection: sqlite3.Connection, records: Table, heading: str) -> str:
    """The column that holds an upload's own heading in a records table; made when there is none yet."""
    found = connection.execute(
        "SELECT name FROM record_columns WHERE records = ? AND heading = ?", (records, heading)
    ).fetchone()
    if found:
        return str(found[0])
    taken = {
        str(row[1]).casefold() for row in connection.execute(f"PRAGMA table_info({RECORD_TABLES[records]})").fetchall()
    }
    if len(taken) >= _MOST_COLUMNS:
        raise OutputError(
            f"The survey file cannot take another column: {heading!r}. Leave out columns that nobody needs, or begin a "
            "new survey file."
        )
    # SQL takes no NUL in a name, and tells names apart without regard to case.
    name = _free_name(heading.replace("\x00", "")[:200] or "column", taken)
    connection.execute(f"ALTER TABLE {RECORD_TABLES[records]} ADD COLUMN {quoted(name)} TEXT")
    connection.execute(
        "INSERT INTO record_columns (records, name, heading) VALUES (?, ?, ?)",
        (records, name, heading),
    )
    return name


def _add_packets(connection: sqlite3.Connection) -> None:
    """From version 1 to 2: field packets, what comes back from them, and the fields and sums that came since."""
    connection.execute("ALTER TABLE sources ADD COLUMN records INTEGER")
    for table in _PACKET_TABLES:
        _add_table(connection, table)
    for name in RECORD_TABLES:
        if name != "remeasured":
            _add_fields(connection, name)
    _add_records_table(connection, "remeasured")
    list_fields(connection)


def _add_fields(connection: sqlite3.Connection, name: Table) -> None:
    """Give a records table the columns that it lacks; an upload's own heading of that name gives way."""
    table = RECORD_TABLES[name]
    there = {
        str(row[1]).casefold(): str(row[1]) for row in connection.execute(f"PRAGMA table_info({table})").fetchall()
    }
    known = {row[0] for row in connection.execute("SELECT field FROM record_columns WHERE records = ?", (name,))}
    lacking = {field.name: "TEXT" for field in fields_of(name) if field.name not in known}
    for column, kind in {"seal": "INTEGER", **lacking}.items():
        taken = there.get(column)
        if taken is not None:
            other = _free_name(taken, there)
            connection.execute(f"ALTER TABLE {table} RENAME COLUMN {quoted(taken)} TO {quoted(other)}")
            connection.execute(
                "UPDATE record_columns SET name = ? WHERE records = ? AND name = ?", (other, name, taken)
            )
        connection.execute(f"ALTER TABLE {table} ADD COLUMN {quoted(column)} {kind}")


def _free_name(plain: str, taken: Container[str]) -> str:
    """A name that no column and no field has."""
    name, number = plain, 1
    while name.casefold() in taken or name in FIELDS:
        number += 1
        name = f"{plain} ({number})"
    return name


#: From each older version to the next, inside the caller's transaction.
_STEPS: Mapping[int, Callable[[sqlite3.Connection], None]] = MappingProxyType({1: _add_packets})


class Altered(sqlite3.DatabaseError):
    """What a table holds is not what stemmap wrote."""

    sqlite_errorname = "SQLITE_CORRUPT"


def version_of(connection: sqlite3.Connection) -> int | None:
    """Version of the tables; None when the database is no survey file.

    Raises
    ------
    Altered
        When it is one that does not say its version.
    """
    known = connection.execute("SELECT 1 FROM sqlite_master WHERE name = 'survey_file' AND type = 'table'").fetchone()
    if not known:
        return None
    row = connection.execute("SELECT schema_version FROM survey_file").fetchone()
    if row is None or not isinstance(row[0], int) or row[0] < 1:
        raise Altered
    return row[0]


def needs_steps(version: int, name: str) -> bool:
    """Whether a file of that version must be brought up to date.

    Raises
    ------
    InputError
        When a later stemmap made it.
    """
    if version > SCHEMA:
        raise InputError(
            f"{name} was made by a later stemmap (tables of version {version}, this one knows up to {SCHEMA}); "
            "nothing was changed. Open it with a newer stemmap."
        )
    return version < SCHEMA


def bring_up_to_date(connection: sqlite3.Connection, version: int) -> None:
    """Take the steps from an older version, inside the caller's transaction."""
    for step in range(version, SCHEMA):
        _STEPS[step](connection)
    connection.execute("UPDATE survey_file SET schema_version = ?", (SCHEMA,))
