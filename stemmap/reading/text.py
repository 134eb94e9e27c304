"""Text files: character set, delimiter, quotation marks and ragged lines, read into a sheet."""

from __future__ import annotations

import csv
import io
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from itertools import islice
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from stemmap.errors import InputError
from stemmap.progress import Progress
from stemmap.reading import remarks
from stemmap.reading.body import Body
from stemmap.reading.headings import known_count
from stemmap.reading.sheet import (
    MOST_COLUMNS,
    MOST_SINGLE_CELLS,
    TOP_LINES,
    Sheet,
    Top,
    check_extent,
    column_of,
    find_top,
    top_remarks,
    without_blank_rows,
)
from stemmap.survey.records import Column, Remark

SEPARATORS = (";", "\t", ",", "|")
#: More characters than any field record has in one line; Python's csv module stops at the same length of a cell.
LONGEST_LINE = 131_072
#: Bytes at the top of a file in which the delimiter and the headings are looked for.
TOP_BYTES = 1 << 20
#: Rows that are parsed in one go; as long no other thread goes on.
_ROWS_AT_ONCE = 20_000
SURPLUS = "(beyond the last heading)"
_MARKS = (
    (b"\xef\xbb\xbf", "utf-8"),
    (b"\xff\xfe\x00\x00", "utf-32-le"),
    (b"\x00\x00\xfe\xff", "utf-32-be"),
    (b"\xff\xfe", "utf-16-le"),
    (b"\xfe\xff", "utf-16-be"),
)


def read_text(path: Path, *, source: str, asked: frozenset[str], progress: Progress, whole: bool = True) -> Sheet:
    """The table of a text file.

    Parameters
    ----------
    path
        The file.
    source
        Its name in remarks.
    asked
        Folded headings that a mapping asks for.
    progress
        Told before the long steps.
    whole
        Whether all of the file is wanted, or only its first lines.

    Raises
    ------
    InputError
        When the file holds no table of text.
    """
    progress.step(f"Reading {source}")
    content, said = _as_utf8(path.read_bytes() if whole else _first_lines(path), source)
    separator, first_rows, ends, skipped = _first_rows(content, source, asked)
    top = find_top(first_rows, asked)
    if top is None:
        raise InputError(f"{source} is empty: it has no line of text.")
    check_extent(len(top.headings), 0, source)
    starts = [skipped + 1] + [skipped + 1 + end for end in ends]
    said += top_remarks(top, starts, source)
    progress.step(f"Reading the lines of {source}")
    body = Body.after(content, skipped + ends[top.past - 1], separator)
    sheet, more = _table(body, top, source, path.stem)
    return without_blank_rows(replace(sheet, remarks=(*said, *more)))


def _first_lines(path: Path) -> bytes:
    """The first complete lines of a file; all of it when its letters take more than a byte."""
    with path.open("rb") as stream:
        top = stream.read(TOP_BYTES)
        if len(top) < TOP_BYTES or b"\0" in top or top.startswith(tuple(mark for mark, _ in _MARKS[1:])):
            return top + stream.read()
    return top[: top.rfind(b"\n") + 1] or top


def _as_utf8(content: bytes, source: str) -> tuple[bytes, list[Remark]]:
    """The content in UTF-8 with plain line ends, and what was assumed about its letters."""
    said: list[Remark] = []
    encoding = next((name for mark, name in _MARKS if content.startswith(mark)), None)
    if encoding is None and b"\0" in content[:TOP_BYTES]:
        encoding = _utf16_without_mark(content)
    try:
        if encoding not in (None, "utf-8"):
            content = content.decode(str(encoding)).lstrip("\ufeff").encode()
        content = content.removeprefix(b"\xef\xbb\xbf")
        if b"\0" in content:
            line = content.count(b"\n", 0, content.index(b"\0")) + 1
            raise InputError(
                f"{source} has NUL bytes (first in line {line}): it is damaged or no text file; export it again."
            )
        if not content.isascii():
            content.decode()
    except UnicodeDecodeError as fault:
        if encoding is not None:
            raise InputError(f"{source} is marked as {encoding.upper()}, but is not; save it as UTF-8.") from fault
        content = content.decode("cp1252", errors="replace").encode()
        said.append(_encoding_remark(content, source))
    if b"\r" in content:
        content = content.replace(b"\r\n", b"\n").replace(b"\r", b"\n")
    _check_is_text(content, source)
    return content, said


def _utf16_without_mark(content: bytes) -> str | None:
    """UTF-16 told by its zero bytes: every other byte of Western text is zero."""
    sample = np.frombuffer(content[: min(TOP_BYTES, len(content) // 2 * 2)], np.uint8)
    if len(sample) < 2:
        return None
    even, odd = (sample[::2] == 0).mean(), (sample[1::2] == 0).mean()
    if odd > 0.7 and even < 0.1:
        return "utf-16-le"
    return "utf-16-be" if even > 0.7 and odd < 0.1 else None


def _encoding_remark(content: bytes, source: str) -> Remark:
    number, line = next((number, line) for number, line in enumerate(content.splitlines(), 1) if not line.isascii())
    text = line.decode()
    place = next(place for place, letter in enumerate(text) if not letter.isascii())
    shown = text[max(0, place - 15) : place + 15]
    sentence = (
        f"The letters of {source} were read as Western European (Windows 1252); line {number} reads "
        f"{shown!r}. If that is wrong, save the file as UTF-8."
    )
    return Remark(remarks.ENCODING_ASSUMED, sentence, source, line=number, text=shown)


def _check_is_text(content: bytes, source: str) -> None:
    sample = np.frombuffer(content[:TOP_BYTES], np.uint8)
    control = ((sample < 32) & (sample != 9) & (sample != 10) & (sample != 12)).mean() if len(sample) else 0.0
    if control > 0.01:
        raise InputError(f"{source} is no text file; give a CSV, XLSX, GeoJSON or GeoPackage file.")


def _first_rows(content: bytes, source: str, asked: frozenset[str]) -> tuple[str, list[list[str]], list[int], int]:
    """Delimiter, cells of the first lines, the physical line each ends on, and lines skipped before them."""
    sample = content[:TOP_BYTES].decode(errors="ignore")
    if len(sample) < len(content):
        sample = sample[: sample.rfind("\n") + 1] or sample
    skipped = 0
    first_line = sample.partition("\n")[0].strip().strip('"').lower()
    said = first_line[4:5] if first_line.startswith("sep=") else ""
    if said:
        sample, skipped = sample.partition("\n")[2], 1
    best: tuple[tuple[int, int, int], str, list[list[str]], list[int]] | None = None
    for separator in (said,) if said else SEPARATORS:
        rows, ends = _top_rows(sample, separator)
        known = max((known_count(row, asked) for row in rows if len(row) <= MOST_COLUMNS), default=0)
        common, times = Counter(map(len, rows)).most_common(1)[0] if rows else (0, 0)
        score = (known, times if common > 1 else 0, common)
        if best is None or score > best[0]:
            best = (score, separator, rows, ends)
    if best is None or not best[2]:
        found = "has a first line far too long for headings" if sample.strip() else "is empty: it has no line of text"
        raise InputError(f"{source} {found}.")
    return best[1], best[2], best[3], skipped


def _top_rows(sample: str, separator: str) -> tuple[list[list[str]], list[int]]:
    """Cells of the first lines and the physical line each ends on."""
    rows: list[list[str]] = []
    ends: list[int] = []
    reader = csv.reader(io.StringIO(sample, newline=""), delimiter=separator)
    try:
        for row in islice(reader, TOP_LINES):
            rows.append(row)
            ends.append(reader.line_num)
    except csv.Error:
        # A cell of the sample is too long; the body says so with its line.
        pass
    return rows, ends


def _table(body: Body, top: Top, source: str, name: str) -> tuple[Sheet, list[Remark]]:
    """The records below the headings, and what is to be said about their lines."""
    if not body.content.strip(b" \n\t;,|"):
        raise InputError(f"{source} has headings, but no records below them; export it again with its records.")
    width = len(top.headings)
    check_extent(width, body.content.count(b"\n"), source)
    cells = body.cells if body.well_formed else np.zeros(0, np.int64)
    if body.well_formed and cells.max(initial=0) <= width and body.longest <= LONGEST_LINE:
        numbers = body.numbers
        columns = _columns_at_once(body.content, body.separator, width)
        short = cells < width
        if short.any():
            short &= np.any([column.filled for column in columns], axis=0)
        said = _ragged(numbers[short], numbers[:0], source)
        return Sheet(source, name, top.headings, columns, numbers, top.units, body.separator), said
    return _line_by_line(body, top, source, name)


def _columns_at_once(content: bytes, separator: str, width: int) -> tuple[Column, ...]:
    """Columns of a regular table; every distinct text of a column is stored once."""
    import pandas as pd

    pieces = pd.read_csv(
        io.BytesIO(content),
        sep=separator,
        header=None,
        names=list(range(width)),
        index_col=False,
        # Not "category": from some version on pandas turns such texts into numbers, and 007 into 7.
        dtype=object,
        na_filter=False,
        skip_blank_lines=False,
        quoting=csv.QUOTE_MINIMAL if b'"' in content else csv.QUOTE_NONE,
        engine="c",
        low_memory=False,
        encoding="utf-8",
        chunksize=_ROWS_AT_ONCE,
    )
    with pieces:
        read = [[piece[place].to_numpy() for place in range(width)] for piece in pieces]
    return tuple(column_of(np.concatenate(texts)) for texts in zip(*read, strict=True))


def _line_by_line(body: Body, top: Top, source: str, name: str) -> tuple[Sheet, list[Remark]]:
    """Records of an irregular table: missing cells are empty, surplus cells are kept in a column of their own."""
    width = len(top.headings)
    check_extent(width, body.content.count(b"\n"), source, most_cells=MOST_SINGLE_CELLS)
    rows: list[list[str]] = []
    numbers: list[int] = []
    few: list[int] = []
    many: list[int] = []
    for number, row in _rows(body, source):
        if len(row) < width and any(row):
            few.append(number)
        surplus = body.separator.join(row[width:])
        if surplus.strip(body.separator + " "):
            many.append(number)
        else:
            surplus = ""
        rows.append([*row[:width], *[""] * (width - len(row)), surplus])
        numbers.append(number)
    headings = (*top.headings, SURPLUS) if many else top.headings
    columns = tuple(column_of(list(cells)) for cells in islice(zip(*rows, strict=True), len(headings)))
    said = _ragged(np.array(few, np.int32), np.array(many, np.int32), source)
    if not body.closed:
        said.append(_unclosed(body, source))
    line = np.array(numbers, np.int32)
    return Sheet(source, name, headings, columns, line, top.units, body.separator), said


def _rows(body: Body, source: str) -> Iterator[tuple[int, list[str]]]:
    """Line number and cells of each line; with a quotation mark left open every line stands by itself."""
    text = body.content.decode()
    number = body.before + 1
    try:
        if body.closed:
            reader = csv.reader(io.StringIO(text, newline=""), delimiter=body.separator)
            for row in reader:
                yield number, row
                number = body.before + reader.line_num + 1
        else:
            for line in text.split("\n"):
                yield number, next(csv.reader([line], delimiter=body.separator), [])
                number += 1
    except csv.Error as fault:
        raise InputError(
            f"{source} has a cell of more than {LONGEST_LINE:,} characters in line {number}: a quotation mark may "
            "not be closed there, or the file is no table of records."
        ) from fault


def _unclosed(body: Body, source: str) -> Remark:
    number = next(
        number for number, line in enumerate(body.content.splitlines(), body.before + 1) if line.count(b'"') % 2
    )
    sentence = (
        f"A quotation mark is left open in {source}, probably in line {number}; every line was read by itself. "
        "Look at that line and remove the mark."
    )
    return Remark(remarks.QUOTE_UNCLOSED, sentence, source, line=number)


def _ragged(few: NDArray[np.int32], many: NDArray[np.int32], source: str) -> list[Remark]:
    said = []
    if len(few):
        sentence = f"Too few cells in {remarks.some_lines(few)}; the missing cells are taken as empty."
        said.append(Remark(remarks.LINES_RAGGED, sentence, source, line=int(few[0])))
    if len(many):
        sentence = (
            f"Too many cells in {remarks.some_lines(many)}; the surplus is kept under {SURPLUS!r}, but its "
            "earlier cells may stand one column too far to the right. Mend these lines in the file."
        )
        said.append(Remark(remarks.LINES_RAGGED, sentence, source, line=int(many[0])))
    return said
