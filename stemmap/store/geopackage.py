"""What OGC 12-128r19 (GeoPackage 1.4) asks of a file: identity, tables that describe tables."""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass

#: "GPKG" and version 1.4.0, clause 1.1.1.1.1.
APPLICATION_ID, USER_VERSION = 0x47504B47, 10400

#: What is said of a layer that another program changed.
_EDITED = "changed by another program"
#: The time as gpkg_contents notes it; one and the same within a statement.
_NOW = "strftime('%Y-%m-%dT%H:%M:%fZ','now')"

#: The system of positions that are on no map (clause 1.1.2.1.2).
NO_SYSTEM = -1

_CORE = """
CREATE TABLE gpkg_spatial_ref_sys (
  srs_name TEXT NOT NULL, srs_id INTEGER PRIMARY KEY, organization TEXT NOT NULL,
  organization_coordsys_id INTEGER NOT NULL, definition TEXT NOT NULL, description TEXT);
CREATE TABLE gpkg_contents (
  table_name TEXT NOT NULL PRIMARY KEY, data_type TEXT NOT NULL, identifier TEXT UNIQUE, description TEXT DEFAULT '',
  last_change DATETIME NOT NULL DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ','now')),
  min_x DOUBLE, min_y DOUBLE, max_x DOUBLE, max_y DOUBLE, srs_id INTEGER,
  CONSTRAINT fk_gc_r_srs_id FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys(srs_id));
CREATE TABLE gpkg_geometry_columns (
  table_name TEXT NOT NULL, column_name TEXT NOT NULL, geometry_type_name TEXT NOT NULL, srs_id INTEGER NOT NULL,
  z TINYINT NOT NULL, m TINYINT NOT NULL, CONSTRAINT pk_geom_cols PRIMARY KEY (table_name, column_name),
  CONSTRAINT uk_gc_table_name UNIQUE (table_name),
  CONSTRAINT fk_gc_tn FOREIGN KEY (table_name) REFERENCES gpkg_contents(table_name),
  CONSTRAINT fk_gc_srs FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys(srs_id));
CREATE TABLE gpkg_extensions (
  table_name TEXT, column_name TEXT, extension_name TEXT NOT NULL, definition TEXT NOT NULL, scope TEXT NOT NULL,
  CONSTRAINT ge_tce UNIQUE (table_name, column_name, extension_name));
"""

_WGS84 = (
    'GEOGCS["WGS 84",DATUM["WGS_1984",SPHEROID["WGS 84",6378137,298.257223563,AUTHORITY["EPSG","7030"]],'
    'AUTHORITY["EPSG","6326"]],PRIMEM["Greenwich",0,AUTHORITY["EPSG","8901"]],UNIT["degree",0.0174532925199433,'
    'AUTHORITY["EPSG","9122"]],AUTHORITY["EPSG","4326"]]'
)


@dataclass(frozen=True)
class ReferenceSystem:
    """A coordinate system as a GeoPackage lists it: name, number, organization, its number there, and WKT."""

    name: str
    srs_id: int
    organization: str
    code: int
    definition: str


_SYSTEMS = (
    ReferenceSystem("Undefined Cartesian SRS", -1, "NONE", -1, "undefined"),
    ReferenceSystem("Undefined geographic SRS", 0, "NONE", 0, "undefined"),
    ReferenceSystem("WGS 84 geodetic", 4326, "EPSG", 4326, _WGS84),
)


def prepare(connection: sqlite3.Connection) -> None:
    """Make an empty database a GeoPackage, inside the caller's transaction."""
    connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
    connection.execute(f"PRAGMA user_version = {USER_VERSION}")
    for statement in _CORE.split(";\n"):
        if statement.strip():
            connection.execute(statement)
    for system in _SYSTEMS:
        add_system(connection, system)


def add_system(connection: sqlite3.Connection, system: ReferenceSystem) -> None:
    """List a coordinate system, once."""
    connection.execute(
        "INSERT OR IGNORE INTO gpkg_spatial_ref_sys VALUES (?, ?, ?, ?, ?, NULL)",
        (system.name, system.srs_id, system.organization, system.code, system.definition),
    )


def add_attributes(connection: sqlite3.Connection, table: str, description: str) -> None:
    """List a table without geometries."""
    connection.execute(
        "INSERT INTO gpkg_contents (table_name, data_type, identifier, description) VALUES (?, 'attributes', ?, ?)",
        (table, table, description),
    )


def add_features(connection: sqlite3.Connection, table: str, description: str, *, kind: str, srs_id: int) -> None:
    """List a layer whose geometries of one kind (POINT, POLYGON) stand in its column `geom`."""
    connection.execute(
        "INSERT INTO gpkg_contents (table_name, data_type, identifier, description, srs_id) "
        "VALUES (?, 'features', ?, ?, ?)",
        (table, table, description, srs_id),
    )
    connection.execute(
        "INSERT INTO gpkg_geometry_columns VALUES (?, 'geom', ?, ?, 0, 0)",
        (table, kind, srs_id),
    )


def unlist(connection: sqlite3.Connection, table: str) -> None:
    """Take a layer off the lists."""
    connection.execute("DELETE FROM gpkg_geometry_columns WHERE table_name = ?", (table,))
    connection.execute("DELETE FROM gpkg_contents WHERE table_name = ?", (table,))


def system_of(connection: sqlite3.Connection, table: str) -> int | None:
    """Number of the system of a layer's positions; None where there is no such layer."""
    row = connection.execute("SELECT srs_id FROM gpkg_contents WHERE table_name = ?", (table,)).fetchone()
    return None if row is None else row[0]


#: Changes of a layer's rows of which the file itself takes note.
_CHANGES = ("INSERT", "UPDATE", "DELETE")


def note_made(connection: sqlite3.Connection, table: str, description: str) -> None:
    """Note when a layer was made, so that it is seen when another program changes it.

    Programs should note the time of a change themselves, but statements of SQL do not; triggers do it for them.
    """
    for change in _CHANGES:
        connection.execute(
            f"CREATE TRIGGER IF NOT EXISTS {table}_edited_{change.lower()} AFTER {change} ON {table} BEGIN "
            f"UPDATE gpkg_contents SET last_change = {_NOW}, description = '{_EDITED}' "
            f"WHERE table_name = '{table}'; END"
        )
    connection.execute(
        f"UPDATE gpkg_contents SET last_change = {_NOW}, description = ? || ' (made ' || {_NOW} || ')' "
        "WHERE table_name = ?",
        (description, table),
    )


def is_edited(connection: sqlite3.Connection, table: str) -> bool:
    """Whether another program changed a layer: it notes the time of the change, or drops the note of its making."""
    row = connection.execute(
        "SELECT description, last_change FROM gpkg_contents WHERE table_name = ?", (table,)
    ).fetchone()
    return row is not None and not str(row[0]).endswith(f"(made {row[1]})")


def without_index(connection: sqlite3.Connection, table: str) -> None:
    """Take away what other programs hang on a layer to find its rows sooner; none of it is data."""
    triggers = connection.execute(
        "SELECT name FROM sqlite_master WHERE type = 'trigger' AND tbl_name = ?", (table,)
    ).fetchall()
    for (name,) in triggers:
        connection.execute('DROP TRIGGER "' + name.replace('"', '""') + '"')
    connection.execute(f"DROP TABLE IF EXISTS rtree_{table}_geom")
    connection.execute("DELETE FROM gpkg_extensions WHERE table_name = ?", (table,))
    if connection.execute("SELECT 1 FROM sqlite_master WHERE name = 'gpkg_ogr_contents'").fetchone():
        connection.execute("DELETE FROM gpkg_ogr_contents WHERE table_name = ?", (table,))


def set_aside(connection: sqlite3.Connection, table: str) -> str:
    """Keep a layer under another name; returns that."""
    taken = {name for (name,) in connection.execute("SELECT name FROM sqlite_master")}
    number = 1
    while (name := f"{table}_edited_{number}") in taken:
        number += 1
    without_index(connection, table)
    connection.execute(f"ALTER TABLE {table} RENAME TO {name}")
    connection.execute("UPDATE gpkg_geometry_columns SET table_name = ? WHERE table_name = ?", (name, table))
    connection.execute(
        "UPDATE gpkg_contents SET table_name = ?, identifier = ?, description = ? WHERE table_name = ?",
        (name, name, _EDITED, table),
    )
    return name
