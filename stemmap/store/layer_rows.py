"""Rows of layers for a GIS, and which of them a survey file has otherwise."""

from __future__ import annotations

import marshal
import sqlite3
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import isfinite
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.store.geometries import point_blobs, ring_blobs
from stemmap.store.schema import quoted

Columns = Mapping[str, NDArray[Any]]
#: Geometry and attributes of a row, as SQLite takes and gives them.
Row = tuple[Any, ...]

#: So many rows are made from their columns, or read, at once.
_AT_ONCE = 10_000
#: Where more rows than these are new, a layer is made anew: they would be held in memory, and it takes as long.
_MOST_NEW = 50_000


@dataclass(frozen=True)
class Layer:
    """One layer: its attributes and where its rows are.

    Parameters
    ----------
    types
        Attributes by name, each with its type in the file.
    part
        Gives the attributes of some rows, as columns that SQLite takes and would give back as they are.
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

    @property
    def kind(self) -> str:
        """Kind of its geometries."""
        return "POINT" if self.x.ndim == 1 else "POLYGON"

    def declared(self) -> dict[str, str]:
        """Columns of its table with their types."""
        return {"fid": "INTEGER", "geom": self.kind, **self.types}

    def rows(self, srs: int) -> Iterator[Sequence[Row]]:
        """Its rows, some at once, in the file's system of that number."""
        blobs = point_blobs if self.x.ndim == 1 else ring_blobs
        for first in range(0, len(self.x), _AT_ONCE):
            rows = slice(first, first + _AT_ONCE)
            yield list(zip(blobs(self.x[rows], self.y[rows], srs), *self.part(rows).values(), strict=True))


@dataclass(frozen=True)
class RowSums:
    """Rows of a layer as they are in the file, by their sums.

    Parameters
    ----------
    fids, sums
        Their numbers and sums over all that is in them, shape (rows,). The sums are keyed anew in each process.
    """

    fids: NDArray[np.int64]
    sums: NDArray[np.int64]


@dataclass(frozen=True)
class Differing:
    """Rows in which a layer of the file differs from what it should be.

    Parameters
    ----------
    gone
        Numbers (fid) of rows that it should not have, ascending.
    fids, fresh
        Rows that it lacks, and the numbers they get: first those that become free.
    after
        The rows that stand when all this is written.
    """

    gone: Sequence[int]
    fids: Sequence[int]
    fresh: Sequence[Row]
    after: RowSums

    def __bool__(self) -> bool:
        return bool(self.gone or self.fresh)


def insert_rows(
    connection: sqlite3.Connection, table: str, rows: Sequence[Row], fids: Sequence[int] | None = None
) -> None:
    """Add rows to a layer, under the given numbers or the next ones."""
    if rows:
        marks = ", ".join("?" * (len(rows[0]) + 1))
        numbered = zip([None] * len(rows) if fids is None else fids, rows, strict=True)
        connection.executemany(f"INSERT INTO {table} VALUES ({marks})", ((fid, *row) for fid, row in numbered))


def differing_rows(present: RowSums, rows: Iterator[Sequence[Row]]) -> Differing | None:
    """Compare a layer as it stands in the file with its rows as they should be, in whatever order.

    Rows are told apart by sums of 64 bits: that a changed row is taken for one of a million others has a chance of
    10^-13.

    Returns
    -------
    None where so many rows are new that the layer is better made anew.
    """
    order = np.argsort(present.sums, kind="stable")
    fids = present.fids[order]
    known, first, count = np.unique(present.sums[order], return_index=True, return_counts=True)
    used = np.zeros(len(known), np.int64)
    fresh: list[Row] = []
    fresh_sums = [np.zeros(0, np.int64)]
    for part in rows:
        wanted = _sums(part)
        found = np.zeros(len(part), bool)
        if len(known):
            place = np.minimum(np.searchsorted(known, wanted), len(known) - 1)
            # Of rows that are alike as many are found as the file has.
            found = (known[place] == wanted) & (_occurrence(wanted) < count[place] - used[place])
            np.add.at(used, place[found], 1)
        fresh += [part[row] for row in np.flatnonzero(~found).tolist()]
        fresh_sums.append(wanted[~found])
        if len(fresh) > _MOST_NEW:
            return None
    rank = np.arange(len(order)) - np.repeat(first, count)
    stays = rank < np.repeat(used, count)
    gone = np.sort(fids[~stays])
    last = int(present.fids.max(initial=0))
    added = np.append(gone, np.arange(last + 1, last + 1 + max(len(fresh) - len(gone), 0)))[: len(fresh)]
    after = RowSums(np.concatenate([fids[stays], added]), np.concatenate([np.repeat(known, used), *fresh_sums]))
    return Differing(gone.tolist(), added.tolist(), fresh, after)


def row_sums(connection: sqlite3.Connection, table: str) -> RowSums:
    """Numbers and sums of the rows of a layer in the file; read bit by bit, so that nobody waits who wants to write."""
    fids, sums, last = [np.zeros(0, np.int64)], [np.zeros(0, np.int64)], -(2**63)
    while rows := connection.execute(
        f"SELECT * FROM {table} WHERE fid > ? ORDER BY fid LIMIT {_AT_ONCE}", (last,)
    ).fetchall():
        fids.append(np.array([row[0] for row in rows], np.int64))
        sums.append(_sums([row[1:] for row in rows]))
        last = rows[-1][0]
    return RowSums(np.concatenate(fids), np.concatenate(sums))


def _sums(rows: Sequence[Row]) -> NDArray[np.int64]:
    # The hash of numbers is not used: -1 and -2 share it. Version 2 writes equal values alike.
    return np.array([hash(marshal.dumps(row, 2)) for row in rows], np.int64)


def _occurrence(sums: NDArray[np.int64]) -> NDArray[np.int64]:
    """How many equal ones stand before each, shape (n,)."""
    order = np.argsort(sums, kind="stable")
    _, first, count = np.unique(sums[order], return_index=True, return_counts=True)
    before = np.empty(len(sums), np.int64)
    before[order] = np.arange(len(sums)) - np.repeat(first, count)
    return before


def columns_of(connection: sqlite3.Connection, table: str) -> dict[str, str]:
    """Columns of a table with their types; none where it is not there."""
    return {str(row[1]): str(row[2]) for row in connection.execute(f"PRAGMA table_info({quoted(table)})")}


def _sql_type(values: NDArray[Any]) -> str:
    kinds = {"f": "DOUBLE", "i": "INTEGER", "b": "BOOLEAN", "M": "DATE"}
    if values.dtype.kind != "O":
        return kinds.get(values.dtype.kind, "TEXT")
    first = next((value for value in values.tolist() if value is not None), "")
    return {bool: "BOOLEAN", int: "INTEGER", float: "DOUBLE"}.get(type(first), "TEXT")


def _values(values: NDArray[Any]) -> Sequence[Any]:
    """A column as SQLite takes it: nothing for NaN, NaT and empty text, 0 and 1 for false and true."""
    if values.dtype.kind == "f":
        return [value if isfinite(value) else None for value in (values + 0.0).tolist()]  # SQLite knows no -0.0
    if values.dtype.kind == "M":
        return [None if text == "NaT" else text for text in values.astype("datetime64[D]").astype(str).tolist()]
    if values.dtype.kind == "O":
        return [
            None if value == "" else int(value) if value is True or value is False else value
            for value in values.tolist()
        ]
    listed: list[Any] = values.astype(np.int64).tolist() if values.dtype.kind == "b" else values.tolist()
    return listed
