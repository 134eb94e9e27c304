"""Findings in every form."""

import csv
import html.parser
import io
import json

import pytest

from stemmap.survey.findings import Findings
from stemmap.writing.findings import FORMS, counts_sentence, write_findings
from tests.uploads import findings, survey


def text_of(made, form):
    stream = io.StringIO()
    write_findings(stream, made, form)
    return stream.getvalue()


@pytest.fixture
def made(written):
    return findings(written)


def test_json_holds_every_finding_and_the_counts(made):
    told = json.loads(text_of(made, "json"))
    assert list(told) == ["findings", "counts"]
    assert told["findings"] == [finding.as_json() for finding in made]
    assert told["counts"] == made.counts


def test_csv_has_a_row_for_every_finding(made):
    rows = list(csv.DictReader(io.StringIO(text_of(made, "csv"), newline="")))
    assert [row["id"] for row in rows] == [finding.id for finding in made]
    assert {row["severity"] for row in rows} <= {"error", "warning", "note"}
    for row, finding in zip(rows, made, strict=True):
        assert json.loads(row["evidence"] or "{}") == finding.evidence


def test_csv_holds_no_formula(made):
    for row in csv.reader(io.StringIO(text_of(made, "csv"), newline="")):
        assert [cell for cell in row if cell.startswith(("=", "@", "+"))] == []


def test_table_tells_plot_by_plot(made):
    lines = text_of(made, "table").splitlines()
    assert "The upload" in lines
    assert "Plot 1, visit 2026" in lines
    assert lines[-1] == f"{counts_sentence(made).capitalize()}."
    for finding in made:
        assert any(finding.message in line and finding.severity in line for line in lines), finding.message


def test_table_says_that_a_whole_plot_may_be_wrong_or_its_last_visit():
    azimuths = [5, 31, 58, 80, 104, 131, 150, 178, 205, 233, 255, 287, 310, 341]
    distances = [3.2, 5.1, 7.0, 4.4, 6.1, 2.9, 7.4, 5.5, 3.8, 6.6, 4.9, 7.1, 5.8, 2.5]
    both = {
        "plot": ["1"] * 28,
        "visit": ["2021"] * 14 + ["2026"] * 14,
        "stem": [f"{number}" for number in range(1, 15)] * 2,
        "azimuth": [f"{each}" for each in azimuths + [360 - azimuth for azimuth in azimuths]],
        "distance_m": [f"{each:.2f}" for each in distances * 2],
        "dbh_cm": [f"{20 + each:.1f}" for each in distances * 2],
    }
    lines = text_of(findings(survey(both, settings={"design": {"radius_m": 8}})), "table").splitlines()
    told = "perhaps all 14 stems of this visit stand elsewhere (probability 0.50), perhaps those of the last visit"
    assert told in [line.strip() for line in lines]


class Page(html.parser.HTMLParser):
    def __init__(self):
        super().__init__()
        self.tags, self.text = [], []

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)

    def handle_data(self, data):
        self.text.append(data)


def test_page_escapes_what_was_typed():
    stems = {"plot": ["<script>alert(1)</script>"], "stem": ['"&<b>'], "azimuth": ["<i>"], "distance_m": ["0"]}
    text = text_of(findings(survey(stems)), "html")
    page = Page()
    page.feed(text)
    assert set(page.tags) <= {
        "html",
        "head",
        "meta",
        "title",
        "style",
        "body",
        "h1",
        "h2",
        "p",
        "dl",
        "dt",
        "dd",
        "small",
        "br",
    }
    assert "<script>alert(1)</script>" in " ".join(page.text)
    assert '"&<b>' in " ".join(page.text)


@pytest.mark.parametrize("form", list(FORMS))
def test_nothing_found_is_said_in_every_form(form):
    text = text_of(Findings(survey(), ()), form)
    assert {
        "json": json.loads(text) if form == "json" else None,
        "csv": text.count("\n") == 1,
        "table": "No findings." in text,
        "html": "No findings." in text,
    }[form]


def test_counts_are_words():
    stems = {"plot": ["1", "1"], "azimuth": ["40", "110"], "distance_m": ["1", "1"], "dbh_cm": ["twenty", "thirty"]}
    made = findings(survey(stems, settings={"design": {"radius_m": 5}}))
    assert counts_sentence(made) == "2 errors, 1 note"
