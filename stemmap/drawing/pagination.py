"""Pages of a long document: what stands together, and where one page ends and the next begins."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from PySide6.QtGui import QTextBlock, QTextCursor, QTextDocument, QTextTable

#: A paragraph of more lines than this may be broken between them.
_MOST_LINES: Final = 6
#: What stands for a picture in a text.
_PICTURE: Final = "\ufffc"

#: From where to where of the height of the document.
Strip = tuple[float, float]


@dataclass(frozen=True)
class Part:
    """What a page break never divides, unless it is higher than a page.

    Parameters
    ----------
    top, bottom
        Where it lies in the document.
    with_next
        Whether the part after it begins on the same page: a heading, the head of a table, a picture over its words.
    head
        Head of its table, repeated where a page begins with this part; None: there is none.
    """

    top: float
    bottom: float
    with_next: bool = False
    head: Strip | None = None


def pages(parts: Sequence[Part], height: float) -> list[list[Strip]]:
    """Strips of the document from top to bottom of each page.

    Parameters
    ----------
    parts
        In their order.
    height
        Of a page.
    """
    made: list[list[Strip]] = []
    heads: list[Strip] = []
    start, end = 0.0, 0.0
    first = 0
    while first < len(parts):
        last = first
        while parts[last].with_next and last + 1 < len(parts):
            last += 1
        group, repeated = parts[first : last + 1], sum(bottom - top for top, bottom in heads)
        if group[-1].bottom - start > height - repeated:
            if end > start:
                made.append([*heads, (start, end)])
            start = end = group[0].top
            heads = [group[0].head] if group[0].head else []
            room = height - sum(bottom - top for top, bottom in heads)
            if group[-1].bottom - start > room and len(group) > 1:
                last, group = first, group[:1]  # too much to stand together
            while group[-1].bottom - start > room > 0.0:
                made.append([*heads, (start, start + room)])
                start += room
        end = group[-1].bottom
        first = last + 1
    if end > start:
        made.append([*heads, (start, end)])
    return made


def parts_of(document: QTextDocument) -> Iterator[Part]:
    """Parts of a document that was laid out on one page without an end."""
    down = 0.0
    for part in _all_parts(document):
        # The empty paragraph that Qt puts after a table lies over the last line of that.
        if part.bottom > down:
            yield replace(part, top=max(part.top, down))
            down = part.bottom


def _all_parts(document: QTextDocument) -> Iterator[Part]:
    block = document.begin()
    while block.isValid():
        table = _table_at(block)
        if table is None:
            yield from _of_block(document, block)
            block = block.next()
        else:
            yield from _of_table(document, table)
            block = document.findBlock(table.lastPosition() + 1)


def _table_at(block: QTextBlock) -> QTextTable | None:
    return QTextCursor(block).currentTable()


def _of_block(document: QTextDocument, block: QTextBlock) -> Iterator[Part]:
    box, layout = document.documentLayout().blockBoundingRect(block), block.layout()
    count = layout.lineCount()
    if count > _MOST_LINES:
        for number in range(count):
            line = layout.lineAt(number).naturalTextRect().translated(box.topLeft())
            # Neither the first line nor the last one stands alone.
            yield Part(line.top(), line.bottom(), number in (0, count - 2))
        return
    text = block.text()
    begins = block.blockFormat().headingLevel() > 0 or _PICTURE in text or not text.strip()
    yield Part(box.top(), box.bottom(), begins)


def _of_table(document: QTextDocument, table: QTextTable) -> Iterator[Part]:
    """The rows; those of the head stay with the first one after them."""
    layout = document.documentLayout()
    box, gap = layout.frameBoundingRect(table), table.format().cellSpacing() / 2.0
    tops = [
        layout.blockBoundingRect(table.cellAt(row, 0).firstCursorPosition().block()).top() - gap
        for row in range(table.rows())
    ]
    ends = [*tops[1:], box.bottom()]
    count = table.format().headerRowCount()
    head = (tops[0], ends[count - 1]) if count else None
    for row, (top, bottom) in enumerate(zip(tops, ends, strict=True)):
        yield Part(top, bottom, row < count, None if row < count else head)
