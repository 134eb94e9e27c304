"""Tables as CSV and JSON, streamed row by row; numbers unrounded, missing values empty in CSV and null in JSON."""

from __future__ import annotations

import csv
import json
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any, TextIO

import numpy as np
from numpy.typing import NDArray

#: A spreadsheet takes a text that begins so for a formula.
_FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n")

#: Characters that end a line or are commands to a terminal.
_COMMANDS = re.compile("[\x00-\x1f\x7f-\x9f\u2028\u2029]+")

_ROWS_AT_ONCE = 10_000


def plain_text(text: str) -> str:
    """A text as a spreadsheet shows it: one that would be taken for a formula gets an apostrophe in front."""
    if text.startswith(_FORMULA_STARTS) and not _is_number(text):
        return f"'{text}"
    return text


def distinct_names(headings: Iterable[str], *, taken: Iterable[str]) -> list[str]:
    """The headings, with a number behind each that is taken or came before, but for case: databases know no case."""
    used = {name.casefold() for name in taken}
    names = []
    for heading in headings:
        name, number = heading, 1
        while name.casefold() in used:
            number += 1
            name = f"{heading}_{number}"
        used.add(name.casefold())
        names.append(name)
    return names


def _is_number(text: str) -> bool:
    try:
        float(text)
    except ValueError:
        return False
    return True


def _cell(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, bool | np.bool_):
        return "true" if value else "false"
    if isinstance(value, float | np.floating):
        return repr(float(value)) if np.isfinite(value) else ""
    return plain_text(str(value))


def write_csv(stream: TextIO, headings: Sequence[str], rows: Iterable[Iterable[Any]]) -> None:
    """Write rows under headings."""
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerow([plain_text(heading) for heading in headings])
    writer.writerows([_cell(value) for value in row] for row in rows)


def write_csv_columns(stream: TextIO, columns: Mapping[str, NDArray[Any]]) -> None:
    """Write columns of one length."""
    write_csv(stream, list(columns), column_rows(columns))


def column_rows(columns: Mapping[str, NDArray[Any]]) -> Iterator[tuple[Any, ...]]:
    """The rows of columns, turned into Python values a block at a time."""
    count = len(next(iter(columns.values()), ()))
    for start in range(0, count, _ROWS_AT_ONCE):
        yield from zip(*(values[start : start + _ROWS_AT_ONCE].tolist() for values in columns.values()), strict=True)


def write_json_list(stream: TextIO, name: str, items: Iterable[Mapping[str, Any]], rest: Mapping[str, Any]) -> None:
    """Write ``{name: [items...], **rest}`` item by item, so that a million findings never stand in memory.

    Iterators within the rest are written so too.
    """
    stream.write(f'{{"{name}": ')
    _write_value(stream, iter(items))
    for key, value in rest.items():
        stream.write(f',\n"{key}": ')
        _write_value(stream, value)
    stream.write("}\n")


def _write_value(stream: TextIO, value: Any) -> None:
    """Write a value as JSON: an iterator as a list with a line for each item, all else as usual."""
    if isinstance(value, Iterator):
        stream.write("[")
        for place, item in enumerate(value):
            stream.write(",\n" if place else "\n")
            _write_value(stream, item)
        stream.write("]")
    elif isinstance(value, Mapping) and any(isinstance(part, Iterator) for part in value.values()):
        for place, (key, part) in enumerate(value.items()):
            stream.write(f'{", " if place else "{"}"{key}": ')
            _write_value(stream, part)
        stream.write("}")
    else:
        stream.write(json.dumps(value, ensure_ascii=False, allow_nan=False))


def write_text_table(
    stream: TextIO, headings: Sequence[str], rows: Iterable[Sequence[Any]], *, units: Sequence[str] | None = None
) -> None:
    """Write an aligned table for people, units below the headings; numbers to the right."""
    above = [list(headings)] if units is None else [list(headings), list(units)]
    shown = [[_shown(value) for value in row] for row in rows]
    widths = [max(map(len, column)) for column in zip(*above, *shown, strict=True)]
    numeric = [all(_is_number(cell) or cell in ("", "–") for cell in column) for column in zip(*shown, strict=True)]
    numeric = numeric or [False] * len(widths)
    for line in (*above, *shown):
        cells = [
            cell.rjust(width) if right else cell.ljust(width)
            for cell, width, right in zip(line, widths, numeric, strict=True)
        ]
        stream.write("  ".join(cells).rstrip() + "\n")


def _shown(value: Any) -> str:
    return "–" if value is None else one_line(str(value))


def one_line(text: str) -> str:
    """Text for people, without what would break its line or command the terminal; names and reasons may hold both."""
    return _COMMANDS.sub(" ", text)
