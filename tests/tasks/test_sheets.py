"""Documents of plot sheets: which visits, contents at the end, outline, whole files or none."""

import re
from threading import Event

import pdfplumber
import pypdfium2
import pytest

from stemmap.assets import sample_data
from stemmap.errors import Cancelled, InputError, OutputError
from stemmap.progress import Progress
from stemmap.tasks.recheck import recheck_list
from stemmap.tasks.sheets import chosen_visits, write_sheets
from stemmap.tasks.workup import open_uploads, work_up
from tests.uploads import survey


@pytest.fixture(scope="module")
def sample():
    folder = sample_data("survey")
    return open_uploads([folder / "plots.csv", folder / "stems.csv"], settings=folder / "settings.toml")


def outline(path):
    with pypdfium2.PdfDocument(path) as document:
        return {entry.get_title(): entry.get_dest().get_index() for entry in document.get_toc()}


def texts(path):
    with pdfplumber.open(path) as pdf:
        return [page.extract_text() for page in pdf.pages]


def test_contents_and_outline_lead_to_the_pages_of_each_plot(sample, tmp_path):
    write_sheets(sample, tmp_path / "maps.pdf", plots=["20", "5", "12", "1"])
    entries, pages = outline(tmp_path / "maps.pdf"), texts(tmp_path / "maps.pdf")
    rows = re.findall(r"^(\d+) 2026 (.*) (\d+) (\d+)$", pages[-1], re.MULTILINE)

    assert list(entries) == [*(f"Plot {plot}, visit 2026" for plot in ("20", "5", "12", "1")), "Contents"]
    assert entries["Contents"] == len(pages) - 1
    assert [row[0] for row in rows] == ["20", "5", "12", "1"]
    for plot, _, count, number in rows:
        assert pages[int(number) - 1].startswith(f"Plot {plot}, visit 2026 1:")
        assert f"page {number} · page 1 of" in pages[int(number) - 1]
        assert entries[f"Plot {plot}, visit 2026"] == int(number) - 1
        row = sample.survey.visit_row(plot, "2026")
        assert int(count) == len(sample.findings.of_visit(row))
    states = {row[0]: row[1] for row in rows}
    five = sample.survey.visit_row("5", "2026")
    errors, warnings = (int(sample.findings.count_by_visit(each)[five]) for each in ("error", "warning"))
    assert states["5"] == f"errors: {errors}, to look at: {warnings}"
    assert states["12"] == "empty plot, no findings"


def test_sheets_of_a_re_check_list_stand_in_its_order_and_say_what_to_measure(sample, tmp_path):
    listed = recheck_list(sample, budget_hours=4.0)
    write_sheets(sample, tmp_path / "maps.pdf", recheck=listed)
    told = " ".join(texts(tmp_path / "maps.pdf"))

    names = [f"Plot {sample.survey.visits.plot[row]}, visit 2026" for row in listed.by_visit]
    assert list(outline(tmp_path / "maps.pdf")) == [*names, "Contents"]
    assert told.count("Measure again: No.") == sum(max(stems) >= 0 for stems in listed.by_visit.values())
    assert told.count("Look from a second point") == sum(-1 in stems for stems in listed.by_visit.values())
    with pytest.raises(OutputError, match="re-check list"):
        write_sheets(sample, tmp_path / "none.pdf", recheck=recheck_list(sample, budget_hours=0.0))


def test_a_single_sheet_has_no_contents(sample, tmp_path):
    write_sheets(sample, tmp_path / "map.pdf", plots=["20"])

    assert list(outline(tmp_path / "map.pdf")) == ["Plot 20, visit 2026"]
    assert "Contents" not in " ".join(texts(tmp_path / "map.pdf"))


def test_plots_with_something_to_look_at_and_every_visit_can_be_chosen(sample):
    visits = sample.survey.visits
    counts = sample.findings.count_by_visit("error") + sample.findings.count_by_visit("warning")
    last = chosen_visits(sample)
    doubtful = chosen_visits(sample, doubtful=True)
    every = chosen_visits(sample, every_visit=True)

    assert len(last) == len(set(visits.plot))
    assert doubtful == [row for row in last if counts[row]]
    assert 0 < len(doubtful) < len(last)
    assert sorted(every) == list(range(len(visits)))
    assert chosen_visits(sample, ["3", "1"]) == [sample.survey.visit_row("3"), sample.survey.visit_row("1")]
    with pytest.raises(InputError, match="no plot nowhere"):
        chosen_visits(sample, ["nowhere"])


def test_every_stem_of_a_large_plot_is_in_the_text_of_the_pdf(tmp_path):
    count = 300
    stems = {
        "plot": ["A"] * count,
        "stem": [f"k{number}" for number in range(count)],
        "azimuth": [number * 7 % 360 for number in range(count)],
        "distance_m": [round(1.0 + number / 30.0, 2) for number in range(count)],
        "dbh_cm": [20.0] * count,
    }
    workup = work_up(survey(stems, {"plot": ["A"]}, settings={"design": {"radius_m": 12.62}}))
    write_sheets(workup, tmp_path / "a.pdf")
    pages = texts(tmp_path / "a.pdf")
    listed = re.findall(r"^(k\d+) \d+ \d+\.\d+ 20\.0 ", "\n".join(pages), re.MULTILINE)

    assert listed == stems["stem"]


@pytest.mark.parametrize(
    ("stems", "plots", "design"),
    [
        (None, {"plot_status": ["empty"]}, {"radius_m": 8}),
        (None, {}, {}),
        ({"azimuth": [3], "distance_m": [4]}, {}, {"kind": "angle_count", "basal_area_factor": 4}),
        ({"azimuth": [3, ""], "distance_m": [4, 5], "dbh_cm": ["", 30]}, {}, {"radius_m": 8}),
        ({"azimuth": [3], "distance_m": [4], "dbh_cm": [9]}, {"lon": [10], "lat": [50]}, {"radius_m": 8}),
    ],
    ids=["empty", "nothing known", "angle count", "missing values", "coordinates"],
)
def test_odd_plots_have_sheets(stems, plots, design, tmp_path):
    columns = {"plot": ["A"] * len(stems["azimuth"]), **stems} if stems else None
    workup = work_up(survey(columns, {"plot": ["A"], **plots}, settings={"design": design}))
    for form in ("pdf", "svg", "png"):
        write_sheets(workup, tmp_path / f"a.{form}")

    assert "Plot A" in texts(tmp_path / "a.pdf")[0]
    assert (tmp_path / "a.svg").stat().st_size > 10_000


def test_a_plot_is_one_picture_however_many_pages_its_sheet_has(sample, tmp_path):
    files = write_sheets(sample, tmp_path / "m.svg", plots=["20"], every_visit=True)

    assert [file.name for file in files] == ["m_20_2021.svg", "m_20_2026.svg"]
    assert 'height="594mm"' in files[1].read_text("utf-8")


def test_stopping_and_failing_leave_no_file(sample, tmp_path, monkeypatch):
    stop = Event()

    def report(_sentence, share):
        if share and share > 0.3:
            stop.set()

    with pytest.raises(Cancelled):
        write_sheets(sample, tmp_path / "maps.pdf", progress=Progress(report, stop))
    with pytest.raises(InputError, match="does not fit"):
        write_sheets(sample, tmp_path / "maps.pdf", scale=20)
    quiet = work_up(survey(None, {"plot": ["A"], "plot_status": ["empty"]}, settings={"design": {"radius_m": 8}}))
    with pytest.raises(OutputError, match="no plot with an error"):
        write_sheets(quiet, tmp_path / "maps.pdf", doubtful=True)
    assert list(tmp_path.iterdir()) == []
