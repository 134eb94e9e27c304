"""Layers of the survey file for a GIS: plots as circles and centres, stems as decided, findings; made as a whole."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import isfinite
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.store import geopackage
from stemmap.store.geometries import note_extent, point_blobs, ring_blobs
from stemmap.store.schema import quoted
from stemmap.survey.journal import Entry, standing

Columns = Mapping[str, NDArray[Any]]


@dataclass(frozen=True)
class Layer:
    """One layer: its attributes and where its rows are.

    Parameters
    ----------
    types
        Attributes by name, each with its type in the file.
    part
        Gives the attributes of some rows, as columns that SQLite takes.
    x, y
        Positions in the file's system, NaN where unknown: points of shape (n,), or corners of closed rings of shape
        (n, corners).
    """

    types: Mapping[str, str]
    part: Callable[[slice], Mapping[str, Sequence[Any]]]
    x: NDArray[np.float64]
    y: NDArray[np.float64]

    @classmethod
    def of_columns(cls, columns: Columns, x: NDArray[np.float64], y: NDArray[np.float64]) -> Layer:
        """A layer of whole columns, shape (n,) each: object, float64, int64, bool or datetime64."""
        return cls(
            {name: _sql_type(values) for name, values in columns.items()},
            lambda rows: {name: _values(values[rows]) for name, values in columns.items()},
            x,
            y,
        )


#: So many rows are made from their columns at once.
_WRITTEN_AT_ONCE = 10_000

_PURPOSE = {
    "plots": "plots as circles, one for each visit",
    "plot_centres": "plot centres, one for each visit",
    "stems": "stems as decided, one for each record",
    "findings": "what is doubtful",
}


def write_layers(
    connection: sqlite3.Connection,
    layers: Mapping[str, Layer],
    system: geopackage.ReferenceSystem | None,
    *,
    decided: Mapping[str, Entry],
    at_entry: int,
) -> list[str]:
    """Make the layers anew, inside the caller's transaction.

    A layer that another program changed is kept under another name.

    Parameters
    ----------
    layers
        By name: plots, plot_centres, stems, findings.
    system
        The system of their positions; None where nothing has a place on the map.
    decided
        The decisions that hold, by id of their finding. A finding that is settled by its decision stays in the layer,
        so that it can be decided otherwise.
    at_entry
        The last journal entry that they know.

    Returns
    -------
    Names under which changed layers were kept.
    """
    srs = geopackage.NO_SYSTEM if system is None else system.srs_id
    if system is not None:
        geopackage.add_system(connection, system)
    settled = _as_they_were(connection, decided)
    kept = []
    for name, layer in layers.items():
        if geopackage.is_edited(connection, name):
            kept.append(geopackage.set_aside(connection, name))
        geopackage.without_index(connection, name)
        geopackage.unlist(connection, name)
        connection.execute(f"DROP TABLE IF EXISTS {name}")
        declared = "".join(f", {quoted(each)} {kind}" for each, kind in layer.types.items())
        kind = "POINT" if layer.x.ndim == 1 else "POLYGON"
        connection.execute(f"CREATE TABLE {name} (fid INTEGER PRIMARY KEY, geom {kind}{declared})")
        geopackage.add_features(connection, name, _PURPOSE[name], kind=kind, srs_id=srs)
        marks = ", ".join("?" * (len(layer.types) + 1))
        names = "".join(f", {quoted(each)}" for each in layer.types)
        connection.executemany(f"INSERT INTO {name} (geom{names}) VALUES ({marks})", _rows(layer, srs))
        note_extent(connection, name, layer.x, layer.y)
        geopackage.note_made(connection, name, _PURPOSE[name])
    connection.execute("DROP INDEX IF EXISTS findings_id")
    connection.execute("CREATE UNIQUE INDEX findings_id ON findings (id)")
    for row in settled:
        if not connection.execute("SELECT 1 FROM findings WHERE id = ?", (row["id"],)).fetchone():
            marks = ", ".join("?" * len(row))
            names = ", ".join(map(quoted, row))
            connection.execute(f"INSERT INTO findings ({names}) VALUES ({marks})", list(row.values()))
    connection.execute("UPDATE survey_file SET layers_at = ?", (at_entry,))
    return kept


def mark_decided(connection: sqlite3.Connection, journal: Sequence[Entry]) -> bool:
    """Bring the layers up to date without making them anew, inside the caller's transaction.

    That is enough as long as nobody did more since than to keep findings or to send the crew again: no value changes by
    that.

    Parameters
    ----------
    journal
        All entries.

    Returns
    -------
    Whether the layers are up to date now; if not, nothing was changed.
    """
    at = connection.execute("SELECT layers_at FROM survey_file").fetchone()[0]
    if at is None or any(geopackage.is_edited(connection, name) for name in _PURPOSE):
        return False
    before = standing(journal[:at])
    last = {entry.finding: entry for entry in journal[at:]}
    if any(entry.decision not in ("keep", "recheck") for entry in journal[at:]):
        return False
    rows = {
        finding: connection.execute(
            "SELECT fid, open, plot, visit, severity FROM findings WHERE id = ?", (finding,)
        ).fetchone()
        for finding in last
    }
    for finding, entry in last.items():
        was = before.get(finding)
        closed = rows[finding] is None or not rows[finding][1]
        if (was is not None and was.changes) or (closed and entry.decision == "recheck"):
            return False
    for finding, entry in last.items():
        if rows[finding] is not None:
            _mark(connection, rows[finding], entry)
    if last:
        connection.execute("UPDATE survey_file SET layers_at = ?", (journal[-1].entry,))
    return True


def _mark(connection: sqlite3.Connection, row: tuple[Any, ...], entry: Entry) -> None:
    fid, was_open, plot, visit, severity = row
    still_open = entry.decision != "keep"
    connection.execute(
        "UPDATE findings SET decision = ?, open = ? WHERE fid = ?", (entry.decision, int(still_open), fid)
    )
    if was_open and not still_open:
        for layer in ("plots", "plot_centres"):
            count = f"{severity}s"
            connection.execute(
                f"UPDATE {layer} SET {count} = {count} - 1 WHERE plot IS ? AND visit IS ?", (plot, visit)
            )


def _as_they_were(connection: sqlite3.Connection, decided: Mapping[str, Entry]) -> list[dict[str, Any]]:
    """Rows of the layer as it was for decided findings, as they stand there once they are found no more."""
    if not connection.execute("SELECT 1 FROM gpkg_contents WHERE table_name = 'findings'").fetchone():
        return []
    rows = []
    for each in decided:
        cursor = connection.execute("SELECT * FROM findings WHERE id = ?", (each,))
        names = [column[0] for column in cursor.description]
        for values in cursor:
            row = dict(zip(names, values, strict=True)) | {"open": 0, "decision": decided[each].decision}
            row.pop("fid")
            rows.append(row)
    return rows


def _rows(layer: Layer, srs: int) -> Iterator[tuple[Any, ...]]:
    blobs = point_blobs if layer.x.ndim == 1 else ring_blobs
    for first in range(0, len(layer.x), _WRITTEN_AT_ONCE):
        rows = slice(first, first + _WRITTEN_AT_ONCE)
        yield from zip(blobs(layer.x[rows], layer.y[rows], srs), *layer.part(rows).values(), strict=True)


def _sql_type(values: NDArray[Any]) -> str:
    kinds = {"f": "DOUBLE", "i": "INTEGER", "b": "BOOLEAN", "M": "DATE"}
    if values.dtype.kind != "O":
        return kinds.get(values.dtype.kind, "TEXT")
    first = next((value for value in values.tolist() if value is not None), "")
    return {bool: "BOOLEAN", int: "INTEGER", float: "DOUBLE"}.get(type(first), "TEXT")


def _values(values: NDArray[Any]) -> Sequence[Any]:
    """A column as SQLite takes it: nothing for NaN, NaT and empty text."""
    if values.dtype.kind == "f":
        return [value if isfinite(value) else None for value in values.tolist()]
    if values.dtype.kind == "M":
        return [None if text == "NaT" else text for text in values.astype("datetime64[D]").astype(str).tolist()]
    if values.dtype.kind == "O":
        return [None if value == "" else value for value in values.tolist()]
    listed: list[Any] = values.tolist()
    return listed
