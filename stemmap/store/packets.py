"""Field packets in the survey file: what crews were sent out with."""

from __future__ import annotations

import json
import sqlite3

from stemmap.store.survey_file import now
from stemmap.survey.packet import Packet


def add_packet(connection: sqlite3.Connection, packet: Packet, *, who: str) -> int:
    """Store a packet inside the caller's transaction, unless it is there already; returns its number."""
    name = packet.name
    known = connection.execute("SELECT id FROM packets WHERE name = ?", (name,)).fetchone()
    if known:
        return int(known[0])
    number = connection.execute(
        "INSERT INTO packets (name, time, who, after_entry, settings, asked, blind_share, seed) VALUES (?, ?, ?, "
        "(SELECT COALESCE(MAX(entry), 0) FROM journal), (SELECT COALESCE(MAX(id), 0) FROM settings), ?, ?, ?)",
        (name, now(), who, packet.asked, packet.blind_share, packet.seed),
    ).lastrowid
    if number is None:
        raise sqlite3.DatabaseError("the packet got no number")
    connection.executemany(
        "INSERT INTO packet_rows (packet, row, look, plot, visit, tree, stem, source, line, upload, former) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        [
            (
                *(number, row.row, row.look, row.plot, row.visit, row.tree, row.stem),
                *(row.source, row.line, row.upload, json.dumps(dict(row.former), ensure_ascii=False)),
            )
            for row in packet.rows
        ],
    )
    return int(number)
