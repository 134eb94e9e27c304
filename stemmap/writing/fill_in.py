"""The fill-in table of a field packet, as CSV and as a workbook that keeps a crew from the commonest slips."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from stemmap.survey.fields import typed_number
from stemmap.survey.packet import PacketRow
from stemmap.writing.output import whole_file
from stemmap.writing.tables import write_csv

#: What a crew says of each stem.
FOUND = ("yes", "no", "new")

#: The files say no time, so that the same packet is the same bytes.
_MADE = datetime(2000, 1, 1, tzinfo=UTC).replace(tzinfo=None)
_WIDTHS = {"remark": 30.0, "species": 16.0, "look": 7.0, "row": 6.0, "found": 8.0}
#: A footer takes 255 characters.
_CAUTION = (
    "Safety first: storm-damaged trees, hanging branches, weather; do not work alone; never look into a laser. "
    "The rules of your employer and of the place come first."
)


@dataclass(frozen=True)
class FillInTable:
    """The table that a crew fills in.

    Parameters
    ----------
    packet
        Name of the packet.
    rows
        Its rows.
    measured
        Fields that are measured again, by their canonical names in the file's own units, with the least and greatest
        value that is usual.
    species, statuses
        Words to choose from.
    """

    packet: str
    rows: Sequence[PacketRow]
    measured: Mapping[str, tuple[float, float]]
    species: Sequence[str]
    statuses: Sequence[str]

    @property
    def headings(self) -> tuple[str, ...]:
        """Headings; those a crew writes under are canonical, so that the table is read like an upload."""
        former = (f"former_{name}" for name in self.measured)
        told = ("packet", "row", "plot", "visit", "tree", "stem", "look", *former)
        return (*told, "found", *self.measured, "species", "status", "remark")

    def told(self, row: PacketRow) -> list[str]:
        """What stands in a row before the crew writes into it, up to the former values; none of these when blind."""
        former = [row.former.get(name, "") if row.look == "cold" else "" for name in self.measured]
        numbers = (row.visit or "", row.tree or "", row.stem or "")
        return [self.packet, str(row.row), row.plot, *numbers, row.look, *former]


def write_fill_in_csv(table: FillInTable, path: Path) -> None:
    """Write the table as CSV in UTF-8 with a byte order mark, by which spreadsheets know the encoding.

    Raises
    ------
    OutputError
        When the file cannot be written.
    """
    empty = [""] * (len(table.headings) - len(table.told(table.rows[0])))
    with (
        whole_file(path) as partial,
        partial.open("w", encoding="utf-8-sig", errors="backslashreplace", newline="") as stream,
    ):
        write_csv(stream, table.headings, ([*table.told(row), *empty] for row in table.rows))


def write_fill_in_workbook(
    table: FillInTable, path: Path, *, about: Sequence[str], wording: Callable[[str], str] = str
) -> None:
    """Write the table as XLSX: lists to choose from, limits on numbers, headings that stay, former values locked.

    The lock bears no password; it only keeps from slips.

    Parameters
    ----------
    about
        Sentences for a second sheet.
    wording
        Gives a sentence in the crew's language.

    Raises
    ------
    OutputError
        When the file cannot be written.
    """
    import xlsxwriter

    # Texts are texts: a name that begins with = is no formula, one that looks like an address no link.
    options = {"strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False}
    with whole_file(path) as partial:
        workbook = xlsxwriter.Workbook(str(partial), options)
        workbook.set_properties({"title": f"Field packet {table.packet}", "created": _MADE})
        sheet = workbook.add_worksheet("Fill in")
        _add_about(workbook, about)
        lists = _add_lists(workbook, table)
        _fill(workbook, sheet, table)
        _limit(sheet, table, lists, wording)
        _dress(sheet, table)
        sheet.set_footer(f"&L&8{wording(_CAUTION).replace('&', '&&')[:200]}&R&8&P / &N")
        workbook.close()


def _fill(workbook: Any, sheet: Any, table: FillInTable) -> None:
    head = workbook.add_format({"bold": True, "bottom": 1, "bg_color": "#E8E8E8", "text_wrap": True, "valign": "top"})
    locked = workbook.add_format({"font_color": "#555555"})
    first = workbook.add_format({"font_color": "#555555", "top": 1})
    open_ = {
        (begins, number): workbook.add_format(
            {"locked": False, "bg_color": "#FFFBE6", "border": 4, "num_format": "General" if number else "@"}
            | ({"top": 1} if begins else {})
        )
        for begins in (False, True)
        for number in (False, True)
    }
    for place, heading in enumerate(table.headings):
        sheet.write_string(0, place, heading, head)
    before = ""
    for line, row in enumerate(table.rows, start=1):
        begins, before = row.plot != before, row.plot
        told = table.told(row)
        for place, text in enumerate(told):
            number = typed_number(text) if table.headings[place].startswith("former_") or place == 1 else None
            style = first if begins else locked
            if number is not None:
                sheet.write_number(line, place, number, style)
            elif text:
                sheet.write_string(line, place, text, style)
            else:
                sheet.write_blank(line, place, None, style)
        for place in range(len(told), len(table.headings)):
            sheet.write_blank(line, place, None, open_[begins, table.headings[place] in table.measured])
        # The number of a new stem is for the crew to give.
        if row.source is None:
            for name in ("tree", "stem"):
                sheet.write_blank(line, table.headings.index(name), None, open_[begins, False])


def _limit(sheet: Any, table: FillInTable, lists: Mapping[str, str], wording: Callable[[str], str]) -> None:
    last = len(table.rows)
    for name, source in lists.items():
        place = table.headings.index(name)
        strict = name == "found"
        sheet.data_validation(
            *(1, place, last, place),
            {
                "validate": "list",
                "source": source,
                "error_type": "stop" if strict else "warning",
                "error_title": name,
                "error_message": wording(
                    "Choose yes, no or new." if strict else "This is not in the list. Is it right?"
                ),
            },
        )
    for name, (least, most) in table.measured.items():
        place = table.headings.index(name)
        circle = name == "azimuth"
        sheet.data_validation(
            *(1, place, last, place),
            {
                "validate": "decimal",
                "criteria": "between",
                "minimum": least,
                "maximum": most,
                "error_type": "stop" if circle else "warning",
                "error_title": name,
                "error_message": wording(f"Usual is a number from {least:g} to {most:g}."),
            },
        )


def _dress(sheet: Any, table: FillInTable) -> None:
    for place, heading in enumerate(table.headings):
        sheet.set_column(place, place, _WIDTHS.get(heading, 11.0))
    sheet.freeze_panes(1, table.headings.index("look"))
    sheet.ignore_errors({"number_stored_as_text": f"A1:ZZ{len(table.rows) + 1}"})
    sheet.protect("", {"format_columns": True, "format_rows": True, "select_locked_cells": True, "autofilter": True})
    sheet.set_landscape()
    sheet.set_paper(9)
    sheet.fit_to_pages(1, 0)
    sheet.repeat_rows(0)


def _add_about(workbook: Any, about: Sequence[str]) -> None:
    sheet = workbook.add_worksheet("Read me first")
    wrapped = workbook.add_format({"text_wrap": True, "valign": "top"})
    sheet.set_column(0, 0, 110.0, wrapped)
    for line, sentence in enumerate(about):
        sheet.write_string(line, 0, sentence, wrapped)
    sheet.protect()


def _add_lists(workbook: Any, table: FillInTable) -> dict[str, str]:
    """A hidden sheet of the words to choose from; where they stand, by heading."""
    sheet = workbook.add_worksheet("lists")
    sheet.hide()
    lists = {"found": FOUND, "species": table.species, "status": table.statuses}
    said = {}
    for place, (name, words) in enumerate(lists.items()):
        if words:
            sheet.write_column(0, place, [str(word) for word in words])
            column = "ABC"[place]
            said[name] = f"=lists!${column}$1:${column}${len(words)}"
    return said
