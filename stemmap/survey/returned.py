"""What crews bring back from field packets: the rows that were sent out, and those that came back, as typed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stemmap.survey.records import Records

Texts = NDArray[np.object_]

_YES = frozenset({"yes", "y", "x", "1", "found", "ja", "j", "gefunden", "oui", "true", "wahr", "ok"})
_NO = frozenset({"no", "n", "0", "not found", "missing", "nein", "nicht gefunden", "fehlt", "non", "false", "falsch"})
_NEW = frozenset({"new", "added", "neu", "nouveau"})
#: No upload has all of these headings.
_FILL_IN = frozenset({"packet", "row", "found"})


@dataclass(frozen=True)
class PacketRows:
    """The rows of all field packets that were sent out, as columns of shape (rows,).

    Parameters
    ----------
    packet, row
        Name of the packet, and number of the row in it.
    blind
        Whether the former values were withheld.
    plot, visit, tree, stem
        Names as typed in the record; empty where there was none.
    source, line
        The record: index of its file or sheet, and its line; -1 for a row that was left for a new stem.
    after_entry
        Journal entry after which the packet was made.
    """

    packet: NDArray[np.object_]
    row: NDArray[np.int64]
    blind: NDArray[np.bool_]
    plot: NDArray[np.object_]
    visit: NDArray[np.object_]
    tree: NDArray[np.object_]
    stem: NDArray[np.object_]
    source: NDArray[np.int64]
    line: NDArray[np.int64]
    after_entry: NDArray[np.int64]

    def __len__(self) -> int:
        return len(self.row)


@dataclass(frozen=True)
class Returned:
    """What crews brought back from field packets.

    Parameters
    ----------
    rows
        Every row of the tables that came back, as typed.
    after_entry
        Journal entry after which each row was taken in, shape (rows,).
    asked
        What the packets asked for.
    """

    rows: Records
    after_entry: NDArray[np.int64]
    asked: PacketRows


def cells(records: Records, heading: str) -> Texts:
    """Texts of a column by its heading, canonical or not, without blanks around them; empty where there is none."""
    column = records.columns.get(heading)
    if column is None:
        column = next((each for name, each in records.other.items() if name.strip().casefold() == heading), None)
    if column is None:
        return np.full(len(records), "", object)
    labels = np.array([*(str(label).strip() for label in column.labels), ""], object)
    texts: Texts = labels[column.codes]
    return texts


def is_fill_in(headings: Iterable[str]) -> bool:
    """Whether a table with these headings is the table of a field packet."""
    return {heading.strip().casefold() for heading in headings} >= _FILL_IN


def row_number(text: str) -> int:
    """Number of a row, as a spreadsheet may have rewritten it; -1 when it is none."""
    digits = text.removesuffix(".0").removesuffix(",0")
    return int(digits) if digits.isascii() and digits.isdecimal() and len(digits) < 10 else -1


def found(text: str) -> str:
    """What a crew wrote of finding a stem: yes, no, new; ? when not understood, empty when nothing."""
    word = text.casefold()
    return "yes" if word in _YES else "no" if word in _NO else "new" if word in _NEW else "?" if word else ""
