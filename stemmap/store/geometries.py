"""Geometries as the blobs of OGC 12-128r19 (GeoPackage), all of a layer at once."""

from __future__ import annotations

import sqlite3

import numpy as np
from numpy.typing import NDArray


def point_blobs(x: NDArray[np.float64], y: NDArray[np.float64], srs_id: int) -> list[bytes | None]:
    """Points as GeoPackage geometries (clause 2.1.3): header without envelope, then WKB; None where unknown.

    Parameters
    ----------
    x, y
        Coordinates, shape (n,).
    """
    kind = np.dtype([("head", "S4"), ("srs", "<i4"), ("order", "u1"), ("type", "<u4"), ("xy", "<f8", (2,))])
    made = np.zeros(len(x), kind)
    made["head"], made["srs"], made["order"], made["type"] = b"GP\x00\x01", srs_id, 1, 1
    made["xy"] = np.column_stack([x, y])
    return _parted(made, np.isfinite(x) & np.isfinite(y))


def ring_blobs(x: NDArray[np.float64], y: NDArray[np.float64], srs_id: int) -> list[bytes | None]:
    """Polygons of one closed ring each as GeoPackage geometries; None where a corner is unknown.

    Parameters
    ----------
    x, y
        Corners, the last equal to the first, shape (n, corners).
    """
    corners = x.shape[1]
    kind = np.dtype(
        [
            ("head", "S4"),
            ("srs", "<i4"),
            ("order", "u1"),
            ("type", "<u4"),
            ("rings", "<u4"),
            ("corners", "<u4"),
            ("xy", "<f8", (corners, 2)),
        ]
    )
    made = np.zeros(len(x), kind)
    made["head"], made["srs"], made["order"], made["type"] = b"GP\x00\x01", srs_id, 1, 3
    made["rings"], made["corners"] = 1, corners
    made["xy"] = np.stack([x, y], axis=-1)
    known: NDArray[np.bool_] = np.asarray(np.isfinite(x + y).all(axis=-1))
    return _parted(made, known)


def _parted(made: NDArray[np.void], known: NDArray[np.bool_]) -> list[bytes | None]:
    size, whole = made.dtype.itemsize, made.tobytes()
    return [whole[place * size : (place + 1) * size] if there else None for place, there in enumerate(known.tolist())]


def note_extent(connection: sqlite3.Connection, table: str, x: NDArray[np.float64], y: NDArray[np.float64]) -> None:
    """Note how far a layer reaches; nothing where it has no positions."""
    known = np.isfinite(x) & np.isfinite(y)
    extent: list[float | None] = [None] * 4
    if known.any():
        extent = [float(edge) for edge in (x[known].min(), y[known].min(), x[known].max(), y[known].max())]
    connection.execute(
        "UPDATE gpkg_contents SET min_x = ?, min_y = ?, max_x = ?, max_y = ? WHERE table_name = ?", (*extent, table)
    )
