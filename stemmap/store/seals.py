"""A sum for each record over its place, all that was typed in it, and what was read from that.

By these it is known when another program, or a fault of the disk, changed a record. They do not guard against somebody
who means to deceive.
"""

from __future__ import annotations

import hashlib
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.survey.records import Column, Records


def record_seals(records: Records, source: NDArray[np.int64]) -> NDArray[np.int64]:
    """The sum of each record; shape (n,).

    Parameters
    ----------
    records
        The records.
    source
        Numbers of their sources in the survey file, shape (n,).
    """
    # Sums of cells commute, so that it does not matter in which order the columns stand; empty cells add nothing.
    total = _mixed(source.astype(np.uint64) << np.uint64(32) | records.line.astype(np.uint64))
    for kind, columns in (("field", records.columns), ("heading", records.other)):
        for name, column in columns.items():
            total += _cell_sums(f"{kind} {name}", column)[column.codes]
    return total.view(np.int64)


def _cell_sums(name: str, column: Column) -> NDArray[np.uint64]:
    """A sum for each distinct text of a column and what was read from it; one more, 0, for the empty cell."""
    values = column.label_values
    if values is None:
        read: list[Any] = [""] * len(column.labels)
    elif values.dtype.kind == "M":
        read = values.astype(str).tolist()
    else:
        read = (values.astype(np.float64) + 0.0).tolist()  # a file knows no negative zero
    sums = [
        int.from_bytes(
            hashlib.blake2b(f"{name}\0{text}\0{value}".encode("utf-8", "surrogatepass"), digest_size=8).digest()
        )
        for text, value in zip(column.labels.tolist(), read, strict=True)
    ]
    return np.array([*sums, 0], np.uint64)


def _mixed(key: NDArray[np.uint64]) -> NDArray[np.uint64]:
    """Numbers that are unlike for keys that are alike: the last steps of the generator splitmix64."""
    key = (key ^ key >> np.uint64(30)) * np.uint64(0xBF58476D1CE4E5B9)
    key = (key ^ key >> np.uint64(27)) * np.uint64(0x94D049BB133111EB)
    return key ^ key >> np.uint64(31)
