"""The journal as a table, JSON or CSV."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TextIO

from stemmap.survey.journal import Entry
from stemmap.writing.tables import write_csv, write_json_list, write_text_table

_HEADINGS = ("entry", "time", "who", "finding", "plot", "visit", "stem", "decision", "field", "old", "new", "why", "of")


def write_journal(stream: TextIO, entries: Sequence[Entry], form: str) -> None:
    """Write entries one by one.

    Parameters
    ----------
    form
        table, json or csv.
    """
    if form == "json":
        write_json_list(stream, "entries", (entry.as_json() for entry in entries), {})
        return
    rows = [[getattr(entry, name) for name in _HEADINGS] for entry in entries]
    (write_csv if form == "csv" else write_text_table)(stream, _HEADINGS, rows)
