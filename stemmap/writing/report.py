"""A report as one page of HTML that needs nothing beside it: headings, paragraphs, tables, pictures."""

from __future__ import annotations

import html
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

_STYLE = (
    "body{font:15px/1.45 sans-serif;max-width:62em;margin:2em auto;padding:0 1em;color:#1c1c1c;background:#fff}"
    "h1{font-size:1.5em}h2{font-size:1.15em;margin:1.8em 0 .4em;border-bottom:1px solid #999}"
    "table{border-collapse:collapse;margin:.6em 0}th,td{padding:2px 10px 2px 0;text-align:left;vertical-align:top}"
    "th{border-bottom:1px solid #999}pre{background:#f3f3ef;padding:.6em;overflow:auto}"
    "figure{margin:1em 0}figure svg,figure img{max-width:100%;height:auto}figcaption{max-width:46em}"
    "@media print{h2,figure,tr{break-inside:avoid}h2{break-after:avoid}thead{display:table-header-group}}"
)


@dataclass(frozen=True)
class Heading:
    """Begins a part of the report."""

    text: str


@dataclass(frozen=True)
class Paragraph:
    """Some sentences."""

    text: str


@dataclass(frozen=True)
class Table:
    """Rows of words under headings; where the last column holds sentences, it takes a part of the width, percent."""

    headings: Sequence[str]
    rows: Sequence[Sequence[str]]
    sentences: int = 0


@dataclass(frozen=True)
class Verbatim:
    """Lines as they stand in a file."""

    text: str


@dataclass(frozen=True)
class Figure:
    """A picture by its number, with what it says."""

    number: int
    caption: str


Block = Heading | Paragraph | Table | Verbatim | Figure


def report_html(
    title: str, blocks: Sequence[Block], picture: Callable[[int], str], *, style: str = _STYLE, language: str = "en"
) -> str:
    """The report as HTML.

    Parameters
    ----------
    title
        Its title.
    blocks
        What it consists of, in order.
    picture
        Gives the markup of a picture by its number.
    style
        Style sheet.
    language
        Code of the language of its texts.
    """
    body = "\n".join(part for block in blocks for part in _markup(block, picture))
    return (
        f'<!doctype html>\n<html lang="{language}"><head><meta charset="utf-8"><title>{html.escape(title)}</title>\n'
        f"<style>{style}</style></head><body>\n<h1>{html.escape(title)}</h1>\n{body}\n</body></html>\n"
    )


def _markup(block: Block, picture: Callable[[int], str]) -> Iterator[str]:
    match block:
        case Heading(text):
            yield f"<h2>{html.escape(text)}</h2>"
        case Paragraph(text):
            yield f"<p>{html.escape(text)}</p>"
        case Verbatim(text):
            yield f"<pre>{html.escape(text)}</pre>"
        case Figure(number, caption):
            yield f"<figure>{picture(number)}<figcaption>{html.escape(caption)}</figcaption></figure>"
        case Table(headings, rows, sentences):
            cells = [f"<th>{html.escape(cell)}</th>" for cell in headings]
            if sentences:
                cells[-1] = cells[-1].replace("<th>", f'<th width="{sentences}%">', 1)
            opening = '<table width="100%">' if sentences else "<table>"
            yield f"{opening}<thead><tr>{''.join(cells)}</tr></thead><tbody>"
            for row in rows:
                yield "<tr>" + "".join(f"<td>{html.escape(cell)}</td>" for cell in row) + "</tr>"
            yield "</tbody></table>"
