"""What reading can say is declared, explained, and said of the broken sample upload."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

import stemmap.reading.remarks as declared
from stemmap.reading import read_upload
from stemmap.reading.remarks import quoted, some, some_lines
from stemmap.survey.registry import catalogue

_SLUGS = sorted({value for name, value in vars(declared).items() if name.isupper() and isinstance(value, str)})
_BROKEN = Path(__file__).parents[2] / "sample_data" / "broken"


@pytest.mark.parametrize("slug", _SLUGS)
def test_every_remark_is_in_the_catalogue_with_its_reason(slug: str):
    check = catalogue()[slug]
    assert check.family == "import"
    assert check.title.endswith(".")
    for part in ("What: ", "Why: ", "What to do: "):
        assert part in check.explanation


def test_broken_sample_upload_is_read_and_its_faults_are_said():
    upload = read_upload([_BROKEN / "plots.csv", _BROKEN / "stems.csv"])
    assert (len(upload.plots), len(upload.stems)) == (4, 16)
    said = {(remark.check, remark.file, remark.line, remark.column) for remark in upload.remarks}
    assert {
        ("decimal-mark-ambiguous", "stems.csv", 4, "Distanz"),
        ("column-not-placed", "stems.csv", None, "Güte"),
        ("lines-ragged", "stems.csv", 14, None),
        ("lines-ragged", "stems.csv", 15, None),
    } <= said
    assert np.isnan(upload.stems.numbers("dbh_cm")[[3, 9]]).all()
    assert np.isnan(upload.stems.numbers("azimuth")[8])
    assert np.isnat(upload.plots.dates("date")[2])


def test_every_remark_is_one_of_its_kind():
    upload = read_upload([_BROKEN / "plots.csv", _BROKEN / "stems.csv"])
    keys = [(remark.check, remark.file, remark.line, remark.column) for remark in upload.remarks]
    assert len(keys) == len(set(keys))


def test_long_lists_and_texts_are_cut():
    assert some(range(3), count=3) == "0, 1, 2"
    assert some(range(2000), count=2000).endswith("9 and 1,990 more")
    assert some_lines([4]) == "line 4"
    assert some_lines(np.arange(12)).startswith("lines 0, 1")
    assert len(quoted("x" * 1000)) < 50
