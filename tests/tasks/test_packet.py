"""Field packets: what is in the folder, what the survey file keeps, and what a blind plot tells: nothing."""

import csv
import io
import re
import sqlite3
import zipfile
from contextlib import closing
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pdfplumber
import pytest

from stemmap.assets import sample_data
from stemmap.errors import InputError, OutputError
from stemmap.store.decisions import Request, decide, turn
from stemmap.store.survey_file import opened
from stemmap.tasks.packet import ABOUT, CENTRES, MOST_ROWS, SHEETS, TABLE, WORKBOOK, make_packet
from stemmap.tasks.packet_plots import EMPTY_ROWS, Errand
from stemmap.tasks.survey_file import add_uploads
from stemmap.tasks.workup import open_uploads
from tests.store.validity import faults

GPX = "{http://www.topografix.com/GPX/1/1}"
#: Plot B is far from A and C; D has no coordinates. Values of B and C stand nowhere else.
STEMS = """plot,visit,tree,stem,azimuth,distance_m,dbh_cm,species,status,remark
A,2026,,1,12,3.40,21.5,beech,living,
A,2026,,2,128,5.55,35.2,oak,living,
A,2026,,3,251,7.10,18.0,beech,dead,
A,2026,,4,300,2.10,28.0,beech,cut,
B,2026,,10,301.25,8.37,43.91,larch,living,leans far
B,2026,,2,77.75,6.43,31.77,larch,cut,
B,2026,,9,188.5,4.57,52.63,larch,living,
C,2021,,1,13.75,7.41,24.87,larch,living,
C,2026,,1,14.25,7.53,26.39,larch,living,
D,2026,,1,99.5,3.33,33.35,oak,living,
"""
PLOTS = "plot,lon,lat\nA,10.5,50.1\nB,10.9,50.3\nC,10.51,50.1\nD,,\n"
SETTINGS = "[survey]\nname = 'Test wood'\n[design]\nradius_m = 12.62\n"


@pytest.fixture(scope="module")
def survey_file(tmp_path_factory):
    folder = tmp_path_factory.mktemp("survey")
    for name, text in (("stems.csv", STEMS), ("plots.csv", PLOTS), ("settings.toml", SETTINGS)):
        (folder / name).write_text(text, "utf-8")
    path = folder / "wood.gpkg"
    add_uploads(path, [folder / "stems.csv", folder / "plots.csv", folder / "settings.toml"], who="Ida")
    return path


def rows_of(folder):
    with (folder / TABLE).open(encoding="utf-8-sig", newline="") as stream:
        return list(csv.DictReader(stream))


def text_of(path: Path) -> str:
    """Everything that can be read in a file of a packet."""
    if path.suffix == ".pdf":
        with pdfplumber.open(path) as pdf:
            return "\n".join(page.extract_text() for page in pdf.pages)
    if path.suffix == ".xlsx":
        with zipfile.ZipFile(path) as archive:
            return "\n".join(archive.read(name).decode("utf-8") for name in archive.namelist())
    return path.read_text("utf-8-sig")


def stored(path, sql):
    with closing(sqlite3.connect(path)) as connection:
        return connection.execute(sql).fetchall()


def test_the_folder_holds_what_a_crew_needs(survey_file, tmp_path):
    made = make_packet(survey_file, tmp_path / "out", Errand(["A", "D"]), who="Ida")
    names = {path.name for path in (tmp_path / "out").iterdir()}
    assert names == {SHEETS, TABLE, WORKBOOK, CENTRES, ABOUT}
    assert (made.cold, made.blind, made.stems, made.without_place) == (2, 0, 4, ("D",))
    for name in names - {TABLE}:
        assert "do not work alone" in " ".join(text_of(tmp_path / "out" / name).split()), name
        assert made.name in text_of(tmp_path / "out" / name), name


def test_cold_rows_show_the_former_values_and_empty_rows_follow_each_plot(survey_file, tmp_path):
    made = make_packet(survey_file, tmp_path / "out", Errand(["A", "D"]), who="Ida")
    rows = rows_of(tmp_path / "out")
    assert [int(row["row"]) for row in rows] == list(range(1, len(rows) + 1))
    assert {row["packet"] for row in rows} == {made.name}
    assert [row["plot"] for row in rows] == ["A"] * (3 + EMPTY_ROWS) + ["D"] * (1 + EMPTY_ROWS)
    told = [(row["stem"], row["former_azimuth"], row["former_distance_m"], row["former_dbh_cm"]) for row in rows[:4]]
    assert told == [("1", "12", "3.40", "21.5"), ("2", "128", "5.55", "35.2"), ("3", "251", "7.10", "18.0"), ("",) * 4]
    blank = ("found", "azimuth", "distance_m", "dbh_cm", "species", "status", "remark")
    assert all(row[name] == "" for row in rows for name in blank)


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_a_blind_plot_tells_no_value_in_any_file(survey_file, tmp_path, seed):
    make_packet(survey_file, tmp_path / "out", Errand(["A"], blind_share=1.0, seed=seed), who="Ida")
    rows = rows_of(tmp_path / "out")
    blind = {row["plot"] for row in rows if row["look"] == "blind"}
    assert len(blind) == 1
    assert {row["plot"] for row in rows if row["look"] == "cold"} == {"A"}
    typed = [line for line in csv.DictReader(io.StringIO(STEMS)) if line["plot"] in blind]
    values = [line[name] for line in typed for name in ("azimuth", "distance_m", "dbh_cm", "remark") if line[name]]
    assert len(values) >= 3
    for path in (tmp_path / "out").iterdir():
        text = text_of(path)
        told = [value for value in values if re.search(rf"(?<![\d.]){re.escape(value)}(?![\d])", text)]
        assert told == [], path.name


def test_a_blind_plot_names_all_its_stems_in_the_order_of_their_numbers(survey_file, tmp_path):
    """Neither the order of the records, which goes round the plot, nor a stem left out tells what was recorded."""
    make_packet(survey_file, tmp_path / "out", Errand(["A", "B", "C", "D"], blind_share=1.0), who="Ida")
    rows = rows_of(tmp_path / "out")
    assert {row["look"] for row in rows} == {"blind"}
    assert [row["stem"] for row in rows if row["plot"] == "B"][:4] == ["2", "9", "10", ""]
    assert [row["stem"] for row in rows if row["plot"] == "A"][:5] == ["1", "2", "3", "4", ""]
    with pdfplumber.open(tmp_path / "out" / SHEETS) as pdf:
        text = "\n".join(text for page in pdf.pages if "Plot B" in (text := page.extract_text()))
    assert "Blind check" in text
    assert re.findall(r"^– (\d+)$", text, re.MULTILINE) == ["2", "9", "10"]


def test_a_cold_sheet_says_how_a_lost_centre_is_found_and_a_blind_one_does_not(survey_file, tmp_path):
    """The ways that it tells, laid off from the places of the stems, all end in the centre (by geometry)."""
    folder = sample_data("survey")
    path = tmp_path / "sample.gpkg"
    add_uploads(path, [folder / "stems.csv", folder / "plots.csv", folder / "settings.toml"], who="Ida")
    make_packet(path, tmp_path / "out", Errand(["2"], blind_share=1.0), who="Ida")
    sheets = text_of(tmp_path / "out" / SHEETS)
    assert sheets.count("Is the centre lost?") == 1
    said = " ".join(sheets.split()).partition("Is the centre lost?")[2]
    ways = re.findall(r"No\. (\S+) \(\w+\): (\d+)°, ([\d.]+) m", said)
    assert len(ways) == 3
    rows = {row["stem"]: row for row in rows_of(tmp_path / "out") if row["look"] == "cold"}
    for stem, azimuth, distance in ways:
        assert (float(rows[stem]["former_azimuth"]) + 180.0) % 360.0 == pytest.approx(float(azimuth), abs=0.51)
        assert float(rows[stem]["former_distance_m"]) == pytest.approx(float(distance), abs=0.006)
    angle = np.radians([float(rows[stem]["former_azimuth"]) for stem, _, _ in ways])
    taped = np.array([float(distance) for *_, distance in ways])
    back = np.radians([float(azimuth) for _, azimuth, _ in ways])
    stems = np.column_stack([np.sin(angle), np.cos(angle)]) * taped[:, None]
    assert stems + np.column_stack([np.sin(back), np.cos(back)]) * taped[:, None] == pytest.approx(0.0, abs=0.15)


def test_with_the_re_check_list_its_stems_are_asked_for(tmp_path):
    folder = sample_data("survey")
    path = tmp_path / "sample.gpkg"
    add_uploads(path, [folder / "stems.csv", folder / "plots.csv", folder / "settings.toml"], who="Ida")
    made = make_packet(path, tmp_path / "out", Errand(recheck=True, budget_hours=6.0, blind_share=0.25), who="Ida")
    rows = rows_of(tmp_path / "out")
    cold = {row["plot"] for row in rows if row["look"] == "cold"}
    blind = {row["plot"] for row in rows if row["look"] == "blind"}
    assert (len(cold), len(blind)) == (made.cold, made.blind)
    assert made.blind == -(-made.cold // 4)
    assert not cold & blind
    with closing(sqlite3.connect(path)) as connection:
        count = dict(connection.execute("SELECT plot, COUNT(*) FROM records_stems WHERE visit = '2026' GROUP BY plot"))
    asked = {plot: sum(row["plot"] == plot and row["stem"] != "" for row in rows) for plot in cold}
    assert any(0 < asked[plot] < count[plot] / 2 for plot in cold)
    assert "Measure again: No." in text_of(tmp_path / "out" / SHEETS)


def test_what_was_decided_to_be_measured_again_is_asked_for_whatever_the_budget(tmp_path):
    folder = sample_data("survey")
    path = tmp_path / "sample.gpkg"
    add_uploads(path, [folder / "stems.csv", folder / "plots.csv", folder / "settings.toml"], who="Ida")
    findings = [each for each in open_uploads([path]).findings if each.stem and each.visit == "2026"]
    chosen = findings[0], findings[-1]
    with opened(path, write=True) as survey_file:
        for finding in chosen:
            decide(survey_file, Request(finding.id, "recheck", "", "Ida"))
        turn(survey_file, "undo", who="Ida")
    errand = Errand(recheck=True, budget_hours=0.0, blind_share=0.0)
    make_packet(path, tmp_path / "out", errand, who="Ida")
    asked = [(row["plot"], row["stem"]) for row in rows_of(tmp_path / "out") if row["stem"]]
    assert asked == [(chosen[0].plot, chosen[0].stem)]


def test_the_gpx_leads_on_a_short_way_from_the_first_plot_past_all_that_have_a_place(survey_file, tmp_path):
    """Elements and their order by the schema of GPX 1.1, https://www.topografix.com/GPX/1/1/gpx.xsd."""
    make_packet(survey_file, tmp_path / "out", Errand(["A", "B", "C", "D"]), who="Ida")
    root = ElementTree.parse(tmp_path / "out" / CENTRES).getroot()
    assert root.tag == f"{GPX}gpx"
    assert (root.get("version"), root.get("creator")) == ("1.1", "stemmap")
    assert [child.tag.removeprefix(GPX) for child in root] == ["metadata", "wpt", "wpt", "wpt", "rte"]
    points = root.findall(f"{GPX}wpt")
    assert [point.findtext(f"{GPX}name") for point in points] == ["A", "C", "B"]
    assert [(float(point.get("lat")), float(point.get("lon"))) for point in points] == [
        (50.1, 10.5),
        (50.1, 10.51),
        (50.3, 10.9),
    ]
    route = root.findall(f"{GPX}rte/{GPX}rtept")
    assert [point.attrib for point in route] == [point.attrib for point in points]
    assert [[child.tag.removeprefix(GPX) for child in point] for point in points] == [["name", "desc"]] * 3
    order = [row["plot"] for row in rows_of(tmp_path / "out")]
    assert list(dict.fromkeys(order)) == ["A", "C", "B", "D"]


def test_the_same_packet_again_is_the_same_bytes_and_is_kept_once(survey_file, tmp_path):
    """But for the sheets: a PDF says when it was made."""
    errand = Errand(["A"], blind_share=1.0, seed=5)
    first = make_packet(survey_file, tmp_path / "one", errand, who="Ida")
    before = stored(survey_file, "SELECT * FROM packet_rows")
    again = make_packet(survey_file, tmp_path / "two", errand, who="Udo")
    assert again.name == first.name
    assert stored(survey_file, "SELECT * FROM packet_rows") == before
    for name in (TABLE, WORKBOOK, CENTRES, ABOUT):
        assert (tmp_path / "one" / name).read_bytes() == (tmp_path / "two" / name).read_bytes(), name
    assert text_of(tmp_path / "one" / SHEETS) == text_of(tmp_path / "two" / SHEETS)


def test_another_seed_is_another_packet(survey_file, tmp_path):
    names = {
        make_packet(survey_file, tmp_path / str(seed), Errand(["A"], blind_share=1.0, seed=seed), who="Ida").name
        for seed in range(6, 9)
    }
    assert len(names) == 3
    assert all(re.fullmatch(r"[B-DF-HJ-NP-TV-Z]{6}", name) for name in names)


def test_the_survey_file_keeps_what_was_sent_out_with_values_that_the_crew_does_not_see(survey_file, tmp_path):
    made = make_packet(survey_file, tmp_path / "out", Errand(["B"], blind_share=0.0), who="Ida")
    [(number, who, asked)] = stored(survey_file, f"SELECT id, who, asked FROM packets WHERE name = '{made.name}'")
    assert (who, asked) == ("Ida", "plots")
    rows = stored(
        survey_file, f"SELECT row, look, plot, stem, line, former FROM packet_rows WHERE packet = {number} ORDER BY row"
    )
    assert len(rows) == len(rows_of(tmp_path / "out"))
    assert rows[0][:5] == (1, "cold", "B", "10", 6)
    assert '"azimuth": "301.25"' in rows[0][5]
    assert rows[-1][4:] == (None, "{}")
    assert faults(survey_file) == []


def test_a_packet_never_overwrites_another(survey_file, tmp_path):
    make_packet(survey_file, tmp_path / "out", Errand(["A"]), who="Ida")
    before = (tmp_path / "out" / TABLE).read_bytes()
    with pytest.raises(OutputError, match="holds a packet already"):
        make_packet(survey_file, tmp_path / "out", Errand(["B"]), who="Ida")
    assert (tmp_path / "out" / TABLE).read_bytes() == before


@pytest.mark.parametrize(
    ("errand", "who", "sentence"),
    [
        (Errand(["A"]), " ", "--who"),
        (Errand(["Z"]), "Ida", "no plot Z"),
        (Errand(["A"], blind_share=1.5), "Ida", "between 0 and 1"),
    ],
)
def test_what_cannot_be_is_refused_and_nothing_is_kept(survey_file, tmp_path, errand, who, sentence):
    before = stored(survey_file, "SELECT COUNT(*) FROM packets")
    with pytest.raises(InputError, match=sentence):
        make_packet(survey_file, tmp_path / "out", errand, who=who)
    assert stored(survey_file, "SELECT COUNT(*) FROM packets") == before


def test_uploads_are_no_survey_file(survey_file, tmp_path):
    with pytest.raises(InputError, match="stemmap add"):
        make_packet(survey_file.parent / "stems.csv", tmp_path / "out", Errand(), who="Ida")


def test_more_rows_than_crews_can_fill_in_are_refused(survey_file, tmp_path, monkeypatch):
    monkeypatch.setattr("stemmap.tasks.packet.MOST_ROWS", 10)
    assert MOST_ROWS > 10
    with pytest.raises(InputError, match="name fewer plots"):
        make_packet(survey_file, tmp_path / "out", Errand(), who="Ida")


def test_the_crew_is_told_how_long_it_takes_and_where_to_look_for_hidden_stems(tmp_path):
    """By hand: 30 + 5 minutes to each plot, 2 for each stem, 10 to look from a second point."""
    folder = sample_data("survey")
    path = tmp_path / "wood.gpkg"
    add_uploads(path, [folder / name for name in ("plots.csv", "stems.csv", "settings.toml")], who="Ida")
    made = make_packet(path, tmp_path / "out", Errand(None, True, 8.0, 0.5, 1), who="Ida")
    about = (tmp_path / "out" / ABOUT).read_text("utf-8").splitlines()
    plots = [line for line in about if re.match(r"\d+\. plot ", line)]
    hours = {"cold": 0.0, "blind": 0.0}
    for line in plots:
        look = "blind" if ": blind, " in line else "cold"
        stems = int(re.search(r"stems to measure: (\d+)", line)[1])
        searched = line.endswith("; look from a second point for stems that others hide")
        assert stems or searched
        hours[look] += (35 + 2 * stems + 10 * searched) / 60
    assert made.hours == pytest.approx((hours["cold"], hours["blind"]))
    assert 7.0 < made.hours[0] <= 8.0
    told = f"takes about {sum(made.hours):.1f} hours, {made.hours[1]:.1f} on blind plots."
    assert any(line.endswith(told) for line in about)
    assert told in made.sentence()
