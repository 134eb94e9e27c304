"""The summary in every form."""

import csv
import io
import json

import pytest

from stemmap.survey.measured import measure
from stemmap.survey.summary import summarise
from stemmap.writing.summary import FORMS, write_summary
from tests.uploads import survey


def text_of(made, form, **rest):
    stream = io.StringIO()
    write_summary(stream, summarise(made, measure(made)), form, **rest)
    return stream.getvalue()


def test_json_holds_plots_and_strata(written):
    told = json.loads(text_of(written, "json", fieldwork=[{"by": "survey"}]))
    made = summarise(written, measure(written))
    assert list(told) == ["plots", "strata", "survey", "estimates", "change", "error_budget"]
    assert told["plots"] == [made.plot_json(row) for row in range(3)]
    assert told["strata"] == made.strata_json()
    assert told["survey"] == [{"by": "survey"}]


def test_csv_has_a_row_for_every_plot(written):
    rows = list(csv.DictReader(io.StringIO(text_of(written, "csv"), newline="")))
    told = json.loads(text_of(written, "json"))["plots"]
    assert [row["plot"] for row in rows] == ["1", "2", "'=3"]
    for row, plot in zip(rows, told, strict=True):
        for name in ("stems_per_ha", "basal_area_m2_per_ha", "mean_nearest_m", "uniform_angle"):
            assert (float(row[name]) if row[name] else None) == plot[name], name
        assert (float(row["clark_evans_r"]) if row["clark_evans_r"] else None) == plot["clark_evans"]["r"]
        for name, why in plot["reasons"].items():
            assert f"{name}: {why}" in row["reasons"]


def test_table_names_every_plot_and_says_how_the_means_were_made(written):
    text = text_of(written, "table")
    lines = text.splitlines()
    assert lines[0].split()[:3] == ["plot", "visit", "in"]
    assert "per ha" in lines[1]
    assert [line.split()[0] for line in lines[2:5]] == ["1", "2", "=3"]
    assert "simple random sampling" in text


@pytest.mark.parametrize("form", list(FORMS))
def test_empty_upload_is_written_in_every_form(form):
    assert text_of(survey(), form)
