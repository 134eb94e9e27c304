"""The report: whole, self-contained, and the same each time."""

import re
from datetime import date
from pathlib import Path

import pytest

from stemmap.assets import sample_data
from stemmap.errors import InputError
from stemmap.tasks.report import Spoken, write_report
from stemmap.tasks.workup import Workup, open_uploads


@pytest.fixture(scope="module")
def workup() -> Workup:
    folder = sample_data("survey")
    return open_uploads([folder / "plots.csv", folder / "stems.csv"], settings=folder / "settings.toml")


def test_a_page_needs_nothing_beside_it_and_has_every_part(workup: Workup, tmp_path: Path) -> None:
    path = tmp_path / "report.html"
    write_report(workup, path)
    text = path.read_text("utf-8")
    for part in ("per hectare", "Findings", "Spatial structure", "Plots", "Methods", "Settings", "no legal survey"):
        assert part in text
    assert text.count("<svg") >= 7
    assert not re.search(r'(src|href)="(?!#)', text.replace("xlink:href", "href"))


@pytest.mark.parametrize("ending", ["html", "pdf"])
def test_the_same_input_and_seed_give_the_same_bytes(workup: Workup, tmp_path: Path, ending: str) -> None:
    paths = [tmp_path / f"{name}.{ending}" for name in "abc"]
    write_report(workup, paths[0])
    write_report(workup, paths[1])
    write_report(workup, paths[2], seed=2)
    first, again, other = (path.read_bytes() for path in paths)
    assert first == again
    assert first != other


def test_a_day_stands_on_the_report_only_when_given(workup: Workup, tmp_path: Path) -> None:
    path = tmp_path / "report.html"
    write_report(workup, path, day=date(2026, 3, 1))
    assert "Printed 2026-03-01" in path.read_text("utf-8")
    pdf = tmp_path / "report.pdf"
    write_report(workup, pdf)
    assert b"(D:20000101000000Z" in pdf.read_bytes()
    assert b"/CreationDate (D:20000101" in pdf.read_bytes()


def test_another_ending_is_refused_before_any_work(workup: Workup, tmp_path: Path) -> None:
    with pytest.raises(InputError, match=r"\.html or \.pdf"):
        write_report(workup, tmp_path / "report.doc")


def test_every_text_is_spoken_in_the_language_wanted(workup: Workup, tmp_path: Path) -> None:
    path = tmp_path / "report.html"
    write_report(workup, path, spoken=Spoken(code="xx", mark=",", words=lambda text: text and f"«{text}»"))
    text = path.read_text("utf-8")
    assert '<html lang="xx">' in text
    plain = re.sub(r"<svg.*?</svg>|<pre>.*?</pre>", "", text, flags=re.DOTALL)
    prose = re.findall(r"<(?:h[12]|p|th|figcaption)[^>]*>([^<]+)</", plain)
    assert len(prose) > 60
    untold = [words for words in prose if "«" not in words]
    assert untold == []
    numbers = " ".join(re.findall(r"<td>([^<«]+)</td>", text))
    assert re.search(r"\d,\d", numbers)
    assert not re.search(r"\d\.\d", numbers)
    assert not re.search(r">[\d−]*\.\d+</text>", text)


def test_what_is_in_doubt_and_what_mends_the_error_is_told(workup: Workup, tmp_path: Path) -> None:
    path = tmp_path / "report.html"
    write_report(workup, path)
    text = path.read_text("utf-8")
    for part in (
        "errors, ",
        "The values below hold the records as they are now, with these doubts.",
        "One further plot would take it to about ",
        "A compass twice as exact would not change it",
        "Large stems by themselves",
        "mark variogram",
        "The thicker half of the stems",
        "pairs of species that were compared",
    ):
        assert part in text
