"""Whether a file is a GeoPackage, as far as the standard library can tell.

Clauses of OGC 12-128r19, https://www.geopackage.org/spec140/.
"""

import sqlite3
import struct
from pathlib import Path


def faults(path: Path) -> list[str]:
    """What is wrong with a file; nothing when all is well."""
    with path.open("rb") as stream:
        head = stream.read(100)
    found = []
    if head[:16] != b"SQLite format 3\0":
        found.append("header (1.1.1.1.1)")
    if head[68:72] != b"GPKG" or struct.unpack(">I", head[60:64])[0] != 10400:
        found.append("application_id or user_version (1.1.1.1.1)")
    connection = sqlite3.connect(path)
    try:
        found += _table_faults(connection)
    finally:
        connection.close()
    return found


def _table_faults(connection: sqlite3.Connection) -> list[str]:
    found = []
    if connection.execute("PRAGMA integrity_check").fetchall() != [("ok",)]:
        found.append("integrity_check (1.1.1.2.3)")
    if connection.execute("PRAGMA foreign_key_check").fetchall():
        found.append("foreign_key_check (1.1.1.2.3)")
    tables = {name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
    contents = dict(connection.execute("SELECT table_name, data_type FROM gpkg_contents"))
    system = {name for name in tables if name.startswith(("gpkg_", "sqlite_"))}
    indices = {
        f"rtree_{name}_{column}{part}"
        for name, column in connection.execute("SELECT table_name, column_name FROM gpkg_extensions")
        for part in ("", "_node", "_parent", "_rowid")
    }
    found += [f"{name} is not listed" for name in sorted(tables - system - indices - set(contents))]
    found += [f"{name} is listed, but not there (1.1.3.1.2)" for name in sorted(set(contents) - tables)]
    systems = {each for (each,) in connection.execute("SELECT srs_id FROM gpkg_spatial_ref_sys")}
    if not {-1, 0, 4326} <= systems:
        found.append("systems that must be there (1.1.2.1.2)")
    layers = {name for name, kind in contents.items() if kind == "features"}
    columns = {
        name: (column, kind, srs)
        for name, column, kind, srs in connection.execute(
            "SELECT table_name, column_name, geometry_type_name, srs_id FROM gpkg_geometry_columns"
        )
    }
    if set(columns) != layers:
        found.append("layers and their columns of geometries differ (2.1.5.1.2)")
    for name, (column, kind, srs) in columns.items():
        code = {"POINT": 1, "POLYGON": 3}.get(kind)
        for (blob,) in connection.execute(f'SELECT "{column}" FROM "{name}" WHERE "{column}" IS NOT NULL'):
            envelope = (0, 32, 48, 48, 64)[blob[3] >> 1 & 7]
            empty = blob[3] >> 4 & 1
            if blob[:3] != b"GP\0" or struct.unpack("<i", blob[4:8])[0] != srs:
                found.append(f"{name}: header of a geometry (2.1.3.1.1)")
            if struct.unpack("<I", blob[9 + envelope : 13 + envelope])[0] != code and code and not empty:
                found.append(f"{name}: kind of a geometry (2.1.5.1.2)")
    return found
