"""Rows straight from the pages of a database file, for when SQLite itself can no longer read it.

Source: "Database File Format", sections 1.6 (b-tree pages) and 2.1 (record format), https://www.sqlite.org/fileformat.html.
"""

from __future__ import annotations

import struct
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

#: Bytes of a page of a survey file, fixed so that pages are found when the header is damaged.
PAGE_SIZE = 4096

_LEAF, _INTERIOR = 0x0D, 0x05
_HEADER = 100
#: Bytes of an integer by its serial type.
_INTEGER_SIZES = {1: 1, 2: 2, 3: 3, 4: 4, 5: 6, 6: 8}
_CONSTANTS = {0: None, 8: 0, 9: 1}


class Unreadable(Exception):
    """A page or record that does not follow the format."""


@dataclass(frozen=True)
class Row:
    """A row: its page, its number, and its values as stored; the number stands for an integer primary key."""

    page: int
    rowid: int
    values: tuple[Any, ...]


@dataclass(frozen=True)
class Pages:
    """The bytes of a database file with pages of one size and nothing reserved in them."""

    content: bytes
    size: int = PAGE_SIZE

    @property
    def count(self) -> int:
        """Number of whole pages."""
        return len(self.content) // self.size

    def _page(self, number: int) -> bytes:
        if not 1 <= number <= self.count:
            raise Unreadable
        return self.content[(number - 1) * self.size : number * self.size]

    def leaves(self) -> Iterator[int]:
        """Numbers of all pages that look like leaves of a table."""
        for number in range(1, self.count + 1):
            if self.content[(number - 1) * self.size + (_HEADER if number == 1 else 0)] == _LEAF:
                yield number

    def leaves_of(self, root: int) -> Iterator[int]:
        """Numbers of the leaves of a table as far as its tree can be followed."""
        waiting, seen = [root], set()
        while waiting:
            number = waiting.pop()
            if number in seen or not 1 <= number <= self.count:
                continue
            seen.add(number)
            page = self._page(number)
            start = _HEADER if number == 1 else 0
            if page[start] == _LEAF:
                yield number
            elif page[start] == _INTERIOR:
                waiting.append(int.from_bytes(page[start + 8 : start + 12], "big"))
                waiting += [int.from_bytes(page[cell : cell + 4], "big") for cell in _cells(page, start, 12)]

    def rows(self, number: int) -> Iterator[Row]:
        """Rows of a leaf; those that do not follow the format are left out."""
        page = self._page(number)
        for cell in _cells(page, _HEADER if number == 1 else 0, 8):
            try:
                yield self._row(number, page, cell)
            except (Unreadable, IndexError, struct.error, UnicodeDecodeError, OverflowError):
                continue

    def _row(self, number: int, page: bytes, cell: int) -> Row:
        length, place = _varint(page, cell)
        rowid, place = _varint(page, place)
        if length > len(self.content):
            raise Unreadable
        usable = self.size
        local = length
        if length > usable - 35:
            least = (usable - 12) * 32 // 255 - 23
            local = least + (length - least) % (usable - 4)
            local = local if local <= usable - 35 else least
        payload = page[place : place + local]
        if local < length:
            following = int.from_bytes(page[place + local : place + local + 4], "big")
            payload += self._overflow(following, length - local)
        if len(payload) != length:
            raise Unreadable
        return Row(number, rowid, _values(payload))

    def _overflow(self, number: int, length: int) -> bytes:
        parts = []
        while length > 0:
            page = self._page(number)
            part = page[4 : 4 + length]
            parts.append(part)
            length -= len(part)
            number = int.from_bytes(page[:4], "big")
        return b"".join(parts)


def _cells(page: bytes, start: int, head: int) -> list[int]:
    count = int.from_bytes(page[start + 3 : start + 5], "big")
    first = start + head
    # A page cannot hold more cells than it has room for their places.
    count = min(count, (len(page) - first) // 2)
    return [place for (place,) in struct.iter_unpack(">H", page[first : first + 2 * count]) if place < len(page)]


def _varint(data: bytes, place: int) -> tuple[int, int]:
    value = 0
    for here in range(place, place + 8):
        byte = data[here]
        if byte < 0x80:
            return value << 7 | byte, here + 1
        value = value << 7 | byte & 0x7F
    # The ninth byte is whole.
    value = value << 8 | data[place + 8]
    return (value if value < 1 << 63 else value - (1 << 64)), place + 9


def _values(payload: bytes) -> tuple[Any, ...]:
    head, place = _varint(payload, 0)
    if not 0 < head <= len(payload):
        raise Unreadable
    kinds = []
    while place < head:
        kind, place = _varint(payload, place)
        kinds.append(kind)
    values: list[Any] = []
    place = head
    for kind in kinds:
        size, value = _value(kind, payload, place)
        if place + size > len(payload):
            raise Unreadable
        values.append(value)
        place += size
    return tuple(values)


def _value(kind: int, payload: bytes, place: int) -> tuple[int, Any]:
    if kind in _INTEGER_SIZES:
        size = _INTEGER_SIZES[kind]
        return size, int.from_bytes(payload[place : place + size], "big", signed=True)
    if kind == 7:
        return 8, struct.unpack_from(">d", payload, place)[0]
    if kind in _CONSTANTS:
        return 0, _CONSTANTS[kind]
    if kind < 12:
        raise Unreadable
    size = (kind - 12) // 2
    part = payload[place : place + size]
    return size, part.decode("utf-8") if kind % 2 else part
