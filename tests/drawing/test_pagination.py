"""Pages of a document: headings stay with what they head, rows stay whole, heads of tables come again."""

from itertools import pairwise

import numpy as np
import pytest
from PySide6.QtGui import QTextDocument

from stemmap.drawing.document import document_pdf
from stemmap.drawing.pagination import Part, pages, parts_of

HEAD = (0.0, 1.0)


def test_parts_follow_each_other_until_the_page_is_full():
    parts = [Part(float(top), top + 3.0) for top in range(0, 15, 3)]
    assert pages(parts, 7.0) == [[(0.0, 6.0)], [(6.0, 12.0)], [(12.0, 15.0)]]


def test_a_heading_goes_over_with_what_it_heads():
    parts = [Part(0.0, 5.0), Part(5.0, 6.0, with_next=True), Part(6.0, 9.0)]
    assert pages(parts, 8.0) == [[(0.0, 5.0)], [(5.0, 9.0)]]


def test_the_head_of_a_table_comes_again_on_each_of_its_pages():
    rows = [Part(float(top), top + 1.0, head=HEAD) for top in range(1, 8)]
    parts = [Part(*HEAD, with_next=True), *rows, Part(8.0, 9.0)]
    assert pages(parts, 4.0) == [[(0.0, 4.0)], [HEAD, (4.0, 7.0)], [HEAD, (7.0, 9.0)]]


def test_what_is_higher_than_a_page_is_divided_and_all_of_it_shown():
    assert pages([Part(0.0, 1.0), Part(1.0, 10.0), Part(10.0, 11.0)], 4.0) == [
        [(0.0, 1.0)],
        [(1.0, 5.0)],
        [(5.0, 9.0)],
        [(9.0, 11.0)],
    ]
    assert pages([Part(0.0, 3.0, with_next=True), Part(3.0, 6.0)], 4.0) == [[(0.0, 3.0)], [(3.0, 6.0)]]


def test_nothing_has_no_pages():
    assert pages([], 4.0) == []


@pytest.mark.parametrize("seed", range(20))
def test_every_part_is_shown_once_and_on_one_page(seed):
    rng = np.random.default_rng(seed)
    heights = rng.uniform(0.1, 4.0, 300)
    tops = np.append(0.0, np.cumsum(heights))
    begins = rng.random(300) < 0.3
    parts = [Part(float(tops[n]), float(tops[n + 1]), bool(begins[n])) for n in range(300)]
    made = pages(parts, 10.0)
    assert all(sum(bottom - top for top, bottom in strips) <= 10.0 + 1e-9 for strips in made)
    assert made[0][0][0] == 0.0
    ends = {strip[1] for strips in made for strip in strips}
    assert ends <= {part.bottom for part in parts}
    # Headings end a page only where a chain of them is higher than a page.
    for part in parts[:-1]:
        if part.with_next and part.bottom in ends:
            first = next(n for n in range(parts.index(part), -1, -1) if n == 0 or not begins[n - 1])
            last = next(n for n in range(parts.index(part), 300) if not begins[n] or n == 299)
            assert parts[last].bottom - parts[first].top > 10.0


@pytest.fixture
def laid_out(qapp):
    def made(html, width=400.0):
        document = QTextDocument()
        document.setDocumentMargin(0.0)
        document.setHtml(html)
        document.setTextWidth(width)
        return document

    return made


def test_headings_pictures_and_heads_stay_with_the_next(laid_out):
    html = (
        "<h2>Plots</h2><p>few words</p><table><thead><tr><th>a</th></tr></thead><tbody><tr><td>1</td></tr>"
        "<tr><td>2</td></tr></tbody></table><p><img src='x' width='20' height='20'></p><p>what it says</p>"
    )
    parts = list(parts_of(laid_out(html)))
    shown = [(part.with_next, part.head is not None) for part in parts]
    assert shown[0] == (True, False)
    rows = [part for part in parts if part.head is not None]
    assert len(rows) == 2
    head = next(part for part in parts if part.head is None and (part.top, part.bottom) == rows[0].head)
    assert head.with_next
    assert head.bottom == pytest.approx(rows[0].top)
    assert shown[-2:] == [(True, False), (False, False)]
    assert all(part.bottom <= other.top for part, other in pairwise(parts))


def test_a_long_paragraph_is_broken_between_lines_but_not_after_the_first(laid_out):
    parts = list(parts_of(laid_out(f"<p>{'many words ' * 200}</p>")))
    assert len(parts) > 10
    assert [part.with_next for part in parts] == [True, *[False] * (len(parts) - 3), True, False]


def test_a_table_of_many_pages_has_as_many_as_it_needs(qapp):
    rows = "".join(f"<tr><td>{number}</td></tr>" for number in range(400))
    text = f"<table><thead><tr><th>No.</th></tr></thead><tbody>{rows}</tbody></table>"
    made = document_pdf(text, {}, title="Rows")
    assert 5 <= made.count(b"/Type /Page\n") <= 9
    assert made == document_pdf(text, {}, title="Rows")
