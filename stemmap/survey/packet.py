"""The field packet: which stems a crew measures again, with or without their former values before its eyes."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import astuple, dataclass
from typing import Literal

#: Cold: the crew sees the former values and says whether they are right. Blind: it measures without knowing them.
Look = Literal["cold", "blind"]
#: What a packet was asked for: named plots, the re-check list, all plots.
Asked = Literal["plots", "recheck", "all"]

#: Letters of the names of packets: no vowels, so that they make no words, and nothing that a spreadsheet takes for a
#: number.
_LETTERS = "BCDFGHJKLMNPQRSTVWXZ"
_NAME_LENGTH = 6


@dataclass(frozen=True)
class PacketRow:
    """A row of the fill-in table.

    Parameters
    ----------
    row
        Its number in the packet, from 1.
    look
        Whether the crew sees the former values.
    plot, visit
        The visit to which it belongs; None for a visit without a name.
    tree, stem
        Numbers as typed; None where the cell is empty.
    source, line, upload
        The record; None: an empty row, for a stem that has no record.
    former
        Values that held when the packet was made, as text by canonical field, also where the crew does not see them.
    """

    row: int
    look: Look
    plot: str
    visit: str | None
    tree: str | None
    stem: str | None
    source: int | None
    line: int | None
    upload: int | None
    former: Mapping[str, str]


@dataclass(frozen=True)
class Packet:
    """What was asked for, and the rows that came of it.

    Parameters
    ----------
    asked, blind_share, seed
        Which plots; blind plots for each other one; of drawing them.
    rows
        Rows of the fill-in table, those of a plot together.
    """

    asked: Asked
    blind_share: float
    seed: int
    rows: tuple[PacketRow, ...]

    @property
    def name(self) -> str:
        """Six letters made from all that is in the packet: the same packet made again bears the same name."""
        rows = [[*astuple(row)[:-1], sorted(row.former.items())] for row in self.rows]
        whole = json.dumps([self.asked, self.blind_share, self.seed, rows])
        number = int.from_bytes(hashlib.sha256(whole.encode("utf-8", "surrogatepass")).digest())
        return "".join(_LETTERS[number // len(_LETTERS) ** place % len(_LETTERS)] for place in range(_NAME_LENGTH))
