"""The lines below the headings of a text file: where lines and cells end, with regard to quotation marks."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray


@dataclass(frozen=True)
class Body:
    """The lines below the headings.

    Parameters
    ----------
    content
        UTF-8 with plain line ends.
    separator
        What separates cells.
    before
        Number of physical lines above.
    well_formed
        Quotation marks open and close where cells do.
    closed
        The number of quotation marks is even.
    ends
        Offsets of the line ends outside quotation marks.
    separators
        Offsets of the separators outside quotation marks.
    """

    content: bytes
    separator: str
    before: int
    well_formed: bool
    closed: bool
    ends: NDArray[np.int64]
    separators: NDArray[np.int64]

    @classmethod
    def after(cls, content: bytes, lines: int, separator: str) -> Body:
        """The body that begins after a number of physical lines."""
        start = 0
        for _ in range(lines):
            end = content.find(b"\n", start)
            start = len(content) if end < 0 else end + 1
        body = content[start:]
        if body and not body.endswith(b"\n"):
            body += b"\n"
        letters = np.frombuffer(body, np.uint8)
        mark = ord(separator)
        ends, separators = np.flatnonzero(letters == 10), np.flatnonzero(letters == mark)
        if b'"' not in body:
            return cls(body, separator, lines, well_formed=True, closed=True, ends=ends, separators=separators)
        quotes = np.flatnonzero(letters == 34)
        opening, closing = quotes[::2], quotes[1::2]
        closed = len(quotes) % 2 == 0
        before = np.append(np.uint8(10), letters)[opening]
        behind = np.append(letters, np.uint8(10))[closing + 1]
        starts_cell = (before == 10) | (before == mark) | (before == 34)
        ends_cell = (behind == 10) | (behind == mark) | (behind == 34)
        well_formed = closed and bool(starts_cell.all() and ends_cell.all())
        inside_ends = np.searchsorted(quotes, ends) % 2 == 1
        inside_separators = np.searchsorted(quotes, separators) % 2 == 1
        return cls(body, separator, lines, well_formed, closed, ends[~inside_ends], separators[~inside_separators])

    @property
    def cells(self) -> NDArray[np.int64]:
        """Number of cells of each line, shape (lines,)."""
        past = np.searchsorted(self.separators, self.ends)
        return np.diff(past, prepend=0) + 1

    @property
    def longest(self) -> int:
        """Bytes of the longest line."""
        return int(np.diff(self.ends, prepend=-1).max(initial=0))

    @property
    def numbers(self) -> NDArray[np.int32]:
        """Physical line on which each line begins, as a person counts them, shape (lines,)."""
        if self.content.count(b"\n") == len(self.ends):
            return np.arange(self.before + 1, self.before + 1 + len(self.ends), dtype=np.int32)
        first = np.append(-1, self.ends[:-1]) + 1
        breaks = np.flatnonzero(np.frombuffer(self.content, np.uint8) == 10)
        return (self.before + 1 + np.searchsorted(breaks, first)).astype(np.int32)
