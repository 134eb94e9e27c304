"""What crews bring back, in the window: chosen, dropped or found in the watched folder, taken in and told."""

import shutil

import numpy as np
import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDropEvent
from PySide6.QtWidgets import QFileDialog

from stemmap.desktop.decision_words import decision_words
from stemmap.desktop.quality_words import gross_sentences, quality_lines
from stemmap.tasks.brought_back import brought_back
from stemmap.tasks.packet import make_packet
from stemmap.tasks.packet_plots import Errand
from stemmap.tasks.survey_file import add_uploads
from tests.crew import Crew, Errors, exchange, true_stems, write_csv_as_typed, write_upload, write_workbook

PLOTS, STEMS = 6, 12


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """A survey file, stem 3 of plot 1 recorded 3 m too near and 6 opposite, and a packet of it filled in: the rows."""
    folder = tmp_path_factory.mktemp("sent")
    rng = np.random.default_rng(4)
    names, true = true_stems(rng, plots=PLOTS, stems=STEMS)
    true[2, 1] = 9.0
    recorded = Errors().measured(true, rng)
    recorded[2, 1] -= 3.0
    recorded[5, 0] = (recorded[5, 0] + 180.0) % 360.0
    add_uploads(folder / "wood.gpkg", write_upload(folder, names, recorded), who="Ida")
    errand = Errand(tuple(str(plot + 1) for plot in range(PLOTS)), False, None, 0.5, 3)
    make_packet(folder / "wood.gpkg", folder / "packet", errand, who="Ida")
    crew = Crew(dict(zip(names, true, strict=True)), np.random.default_rng(8))
    rows = crew.fill(folder / "packet" / "fill_in.csv")
    muddle(rows)
    return folder, rows


def muddle(rows):
    """Two lines of plot 2 exchanged, a stem not found, a new one, and a row of another packet."""
    second = [row for row in rows if row["plot"] == "2" and row["stem"]]
    exchange(second[0], second[1])
    second[4].update(found="no", azimuth="", distance_m="", dbh_cm="")
    spare = next(row for row in rows if not row["stem"])
    spare.update(found="new", stem="77", azimuth="123.4", distance_m="4.560", dbh_cm="18.20", species="beech")
    rows.append(dict.fromkeys(rows[0], "") | {"packet": "NOSUCH", "row": "3", "plot": "55", "stem": "1"})
    rows[-1].update(found="yes", dbh_cm="20.0")


@pytest.fixture
def tables(made, tmp_path):
    write_csv_as_typed(tmp_path / "back.csv", made[1])
    write_workbook(tmp_path / "back.xlsx", made[1])
    return tmp_path / "back.csv", tmp_path / "back.xlsx"


@pytest.fixture
def receiving(window, made, settled, tmp_path, monkeypatch):
    """The window on a survey file of its own, from which a crew was sent out."""
    monkeypatch.setattr(type(window.deciding), "who", lambda self, ask=True: "Ida")
    shutil.copy(made[0] / "wood.gpkg", tmp_path / "wood.gpkg")
    window.uploads.open([tmp_path / "wood.gpkg"])
    settled()
    return window


def drop(window, *paths):
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
    place, none = QPointF(300, 300), Qt.KeyboardModifier.NoModifier
    window.dropEvent(QDropEvent(place, Qt.DropAction.CopyAction, data, Qt.MouseButton.LeftButton, none))


def told(window, qtbot, words):
    qtbot.waitUntil(lambda: words in window.message_bar.sentence, timeout=30000)
    return window.message_bar.sentence


def brought(window):
    return [each for each in window.session.workup.findings if each.check == "remeasured"]


def take_in(window, qtbot, answer="&Take in"):
    """Wait until what was dropped is told, and answer; returns what was told."""
    qtbot.waitUntil(window.offer_bar.isVisible, timeout=30000)
    sentence = window.offer_bar.sentence
    next(one for one in window.offer_bar.buttons if one.text() == answer).click()
    return sentence


@pytest.mark.parametrize("kind", [0, 1], ids=["csv", "xlsx"])
def test_a_table_dropped_on_a_survey_file_is_told_then_taken_in(receiving, tables, made, qtbot, kind):
    path = receiving.deciding.survey_path
    before = path.read_bytes()
    drop(receiving, tables[kind])
    qtbot.waitUntil(receiving.offer_bar.isVisible, timeout=30000)
    assert path.read_bytes() == before
    assert not brought(receiving)
    foretold = take_in(receiving, qtbot)
    sentence = told(receiving, qtbot, "Taken in")
    rows = len(made[1])
    assert foretold.startswith(f"Take {tables[kind].name} into wood.gpkg? For the plots 1, 2, 3, 4, 5, … it holds ")
    assert f" {rows} rows: within the tolerance " in foretold
    assert "Nothing was stored yet." in foretold
    assert sentence.startswith(f"Taken in from {tables[kind].name}, {rows} rows: within the tolerance ")
    counted = sentence.partition(": within")[2].partition(";")[0].partition(". ")[0]
    assert sum(int(part.split()[-1]) for part in counted.split(", ")) == rows
    assert ", not found 1, new stems 1, fitting nothing 1, not filled in " in sentence
    assert "; among them with the values of another row 2. Findings to decide: " in sentence
    decidable = [each for each in brought(receiving) if each.proposals]
    assert sentence.endswith(f"Findings to decide: {len(decidable)}.")
    assert f"findings to decide would then be {len(decidable)}." in foretold
    assert "1/2026/3/remeasured/distance_m" in {each.id for each in decidable}
    assert not receiving.offer_bar.isVisible()


def test_a_table_that_was_dropped_by_mistake_stores_nothing(receiving, tables, qtbot):
    path = receiving.deciding.survey_path
    before = path.read_bytes()
    drop(receiving, tables[0])
    take_in(receiving, qtbot, "&Not these")
    assert not receiving.offer_bar.isVisible()
    assert path.read_bytes() == before
    assert not brought(receiving)


def test_show_brings_up_the_findings_about_it_and_no_others(receiving, tables, qtbot):
    receiving.remeasurements.bring([tables[0]])
    told(receiving, qtbot, "Taken in")
    (show,) = receiving.message_bar.buttons
    show.click()
    table = receiving.panels.findings_table
    qtbot.waitUntil(lambda: len(table.model.shown) == len(brought(receiving)), timeout=30000)
    assert receiving.panels.docks["all-findings"].isVisible()
    assert table.view.hasFocus()


def test_the_same_table_again_changes_nothing_and_says_so(receiving, tables, qtbot, tmp_path):
    receiving.remeasurements.bring([tables[0]])
    told(receiving, qtbot, "Taken in")
    before = brought(receiving)
    drop(receiving, tables[0])
    assert "every row is in wood.gpkg already" in told(receiving, qtbot, "already")
    assert brought(receiving) == before


def test_what_was_taken_in_from_here_is_not_told_as_news_of_others(receiving, tables, qtbot, settled):
    receiving.remeasurements.bring([tables[0]])
    sentence = told(receiving, qtbot, "Taken in")
    settled()
    receiving.deciding.following.read_along()
    qtbot.waitUntil(lambda: not receiving.jobs.runs("along"), timeout=30000)
    assert receiving.message_bar.sentence == sentence


def test_tables_are_chosen_in_a_dialog(receiving, tables, qtbot, monkeypatch):
    monkeypatch.setattr(QFileDialog, "getOpenFileNames", lambda *rest: ([str(tables[1])], ""))
    receiving.actions_by_name["remeasurements"].trigger()
    told(receiving, qtbot, "Taken in from back.xlsx")


def test_a_table_dropped_where_no_survey_file_is_open_gets_a_sentence(opened, tables, qtbot):
    assert not opened.actions_by_name["remeasurements"].isEnabled()
    before = opened.session.workup
    drop(opened, tables[0])
    assert "open the survey file" in told(opened, qtbot, "back.csv")
    assert opened.session.workup is before


def test_a_table_is_not_taken_in_while_an_earlier_moment_is_shown(receiving, tables, qtbot):
    receiving.deciding.following.as_of = 0
    drop(receiving, tables[0])
    assert "go back to now" in told(receiving, qtbot, "earlier moment")


def test_uploads_dropped_together_with_a_table_are_offered(receiving, tables, made, qtbot):
    drop(receiving, tables[0], made[0] / "stems.csv")
    qtbot.waitUntil(lambda: "Add stems.csv to wood.gpkg?" in receiving.offer_bar.sentence, timeout=30000)
    qtbot.waitUntil(lambda: not receiving.jobs.runs("foresee"), timeout=30000)
    receiving.offer_bar._close.click()
    take_in(receiving, qtbot)
    told(receiving, qtbot, "Taken in from back.csv, ")


def test_the_watched_folder_offers_a_table_for_what_it_is(receiving, tables, qtbot, tmp_path):
    (tmp_path / "incoming").mkdir()
    receiving.watching._soon.setInterval(50)
    receiving.watching.watch(tmp_path / "incoming")
    shutil.copy(tables[0], tmp_path / "incoming" / "crew a.csv")
    qtbot.waitUntil(receiving.offer_bar.isVisible, timeout=30000)
    assert (
        receiving.offer_bar.sentence == "Back from the field, in the folder incoming: crew a.csv. Take into wood.gpkg?"
    )
    next(one for one in receiving.offer_bar.buttons if one.text() == "&Take in").click()
    told(receiving, qtbot, "Taken in from crew a.csv")
    receiving.watching.look()
    qtbot.waitUntil(lambda: not receiving.jobs.runs("watch"), timeout=30000)
    assert not receiving.offer_bar.isVisible()


def test_the_survey_panel_tells_how_well_was_measured_blind_and_cold_apart(receiving, tables, qtbot):
    panel = receiving.panels.survey_panel
    receiving.panels.bring_forward("survey")
    assert panel.by.findData("again") < 0
    receiving.remeasurements.bring([tables[0]])
    told(receiving, qtbot, "Taken in")
    panel.by.setCurrentIndex(panel.by.findData("again"))
    panel.by.activated.emit(panel.by.currentIndex())
    lines = {line.split("\t")[0]: line.split("\t")[1:] for line in panel.as_text().splitlines()}
    figures = brought_back(receiving.session.workup).quality()
    (blind,) = [each for each in figures["fields"] if (each["look"], each["field"]) == ("blind", "distance")]
    assert lines[""] == ["Blind", "Former values seen"]
    assert lines["Stems added"] == [str(each["added"]) for each in figures["stems"]]
    assert lines["Distance: within tolerance"][0].startswith(f"{100.0 * blind['within']:.0f} % of {blind['pairs']} (")
    assert lines["Distance: bias"][0].startswith(f"{blind['bias']:+.3f} m (")
    assert lines["Distance: standard deviation"][0].startswith(f"{blind['spread']:.3f} m (")
    assert all(line.meaning for line in quality_lines(figures))


def test_findings_about_it_are_decided_by_one_key_each_in_words_that_fit(receiving, tables, qtbot):
    receiving.remeasurements.bring([tables[0]])
    told(receiving, qtbot, "Taken in")
    receiving.remeasurements.show_findings()
    assert receiving.session.selected_finding.id == brought(receiving)[0].id
    findings = receiving.session.workup.findings
    new = next(place for place, each in enumerate(findings) if each.brought)
    receiving.session.select_place(new)
    receiving.deciding.decide("correct")
    stored = receiving.statusBar().currentMessage
    qtbot.waitUntil(lambda: stored() == "Stored: taken over as a stem of the plot.", timeout=30000)
    assert decision_words(receiving.deciding.following.journal[-1]) == "taken over as a stem"
    qtbot.waitUntil(lambda: not any(each.brought for each in brought(receiving)), timeout=30000)
    findings = receiving.session.workup.findings
    # The crew typed 4,560 and 18,20; that the decided values are 4.56 and 18.2 speaks against neither.
    assert not [each for each in findings if each.stem == "77" and each.check == "mistyped"]
    far = next(place for place, each in enumerate(findings) if each.id == "1/2026/3/remeasured/distance_m")
    receiving.session.select_place(far)
    receiving.deciding.decide("correct")
    qtbot.waitUntil(lambda: "holds in place of" in stored(), timeout=30000)
    receiving.deciding.undo()
    qtbot.waitUntil(lambda: stored().startswith("Undone: entry 2"), timeout=30000)
    qtbot.waitUntil(lambda: "1/2026/3/remeasured/distance_m" in {each.id for each in brought(receiving)}, timeout=30000)


def test_doubted_values_that_were_measured_again_alike_are_kept_together_when_asked(receiving, made, qtbot, tmp_path):
    findings, name = receiving.session.workup.findings, "1/2026/6/mistyped/azimuth"
    assert name in {each.id for each in findings}
    rows = [dict(row) for row in made[1]]
    doubted = next(row for row in rows if (row["plot"], row["stem"]) == ("1", "6"))
    doubted["azimuth"] = receiving.session.workup.survey.stems.texts("azimuth")[5]
    write_csv_as_typed(tmp_path / "alike.csv", rows)
    receiving.remeasurements.bring([tmp_path / "alike.csv"])
    assert "measured again alike: 1." in told(receiving, qtbot, "Taken in")
    next(one for one in receiving.message_bar.buttons if one.text() == "&Keep these 1").click()
    told(receiving, qtbot, "Stored for 1 findings: kept as recorded.")
    qtbot.waitUntil(lambda: name not in {each.id for each in receiving.session.workup.findings}, timeout=30000)
    assert receiving.deciding.following.journal[-1].why == "measured again within the tolerance"


def test_a_gross_difference_is_told_above_the_figures(sample, german):
    told = {
        "fields": [
            {"look": "blind", "field": "dbh", "gross_reason": None},
            {
                "look": "cold",
                "field": "dbh",
                "gross_reason": "One of 16 differences, plot 3 stem 8 (+391.70 cm), makes 100 % of their scatter; "
                "without it the bias is -0.01 cm and the standard deviation 0.20 cm.",
            },
        ]
    }
    said = gross_sentences(told)
    assert said.startswith("Frühere Werte gesehen, ")
    assert "16 Differenzen" in said
    assert "391,70 cm" in said
    assert gross_sentences({"fields": told["fields"][:1]}) == ""
