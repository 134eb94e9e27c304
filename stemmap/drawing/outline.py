"""The outline of a PDF: names in the reader's side bar that lead to pages.

Qt's writer makes none, so it is added behind a finished file as an incremental update: new objects, a new catalogue,
and a second table of places that points back to the first (ISO 32000-1, sections 7.5.6 and 12.3.3).
Only files as Qt writes them are understood: a plain table of places, one level of pages.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from PySide6.QtCore import QIODevice

from stemmap.errors import OutputError

_TAIL = 4096


def outline_update(file: QIODevice, entries: Sequence[tuple[str, int]]) -> bytes:
    """What to append to a PDF so that it has an outline.

    Parameters
    ----------
    file
        A complete PDF as `QPdfWriter` makes it, open for reading.
    entries
        Names, each with the place of its page, 0 for the first.

    Raises
    ------
    OutputError
        When the file is not complete.
    """
    size = file.size()
    table = int(_found(rb"startxref\s+(\d+)\s+%%EOF\s*$", _read(file, max(size - _TAIL, 0), _TAIL)))
    last = _read(file, table, size - table)
    places = [int(place) for place in re.findall(rb"(\d{10}) \d{5} [nf]", last)]

    def content(number: int) -> bytes:
        place = places[number]
        return _read(file, place, min((other for other in places if other > place), default=table) - place)

    root = int(_found(rb"/Root (\d+) 0 R", last))
    catalogue = content(root)
    kids = _found(rb"/Kids\s*\[(.*?)\]", content(int(_found(rb"/Pages (\d+) 0 R", catalogue))))
    pages = re.findall(rb"\d+ 0 R", kids)
    outline, first = len(places), len(places) + 1
    final = outline + len(entries)
    objects = {root: b"<<%s/Outlines %d 0 R /PageMode /UseOutlines >>" % (_found(rb"<<(.*)>>", catalogue), outline)}
    objects[outline] = b"<< /Type /Outlines /First %d 0 R /Last %d 0 R /Count %d >>" % (first, final, len(entries))
    for number, (name, page) in enumerate(entries, start=first):
        title = ("\ufeff" + name).encode("utf-16-be", "replace").hex().encode()
        before = b"/Prev %d 0 R " % (number - 1) if number > first else b""
        after = b"/Next %d 0 R " % (number + 1) if number < final else b""
        beside = before + after
        objects[number] = b"<< /Title <%s> /Parent %d 0 R %s/Dest [%s /Fit] >>" % (title, outline, beside, pages[page])
    trailer = _found(rb"trailer\s*<<(.*)>>\s*startxref", last)
    trailer = re.sub(rb"/Size \d+", b"/Size %d /Prev %d" % (final + 1, table), trailer)
    return _update(objects, trailer, size)


def _update(objects: Mapping[int, bytes], trailer: bytes, size: int) -> bytes:
    """Objects, the table of their places, and the trailer, to stand behind so many bytes."""
    made, places = bytearray(b"\n"), {}
    for number, content in objects.items():
        places[number] = size + len(made)
        made += b"%d 0 obj\n%s\nendobj\n" % (number, content)
    table = size + len(made)
    made += b"xref\n"
    for number, place in places.items():
        made += b"%d 1\n%010d 00000 n \n" % (number, place)
    return bytes(made + b"trailer\n<<%s>>\nstartxref\n%d\n%%%%EOF\n" % (trailer, table))


def _read(file: QIODevice, place: int, length: int) -> bytes:
    file.seek(place)
    return bytes(file.read(length).data())


def _found(pattern: bytes, text: bytes) -> bytes:
    match = re.search(pattern, text, re.DOTALL)
    if match is None:
        raise OutputError("The PDF came out incomplete and was not kept; is the disk full?")
    return match[1]
