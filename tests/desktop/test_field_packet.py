"""Field packets from the window: what is chosen is what is made, off the GUI thread, and told."""

import csv
from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog

from stemmap.assets import sample_data
from stemmap.tasks.survey_file import add_uploads


@pytest.fixture
def sending(window, qtbot, tmp_path, monkeypatch):
    """The window on a survey file."""
    monkeypatch.setattr(type(window.deciding), "who", lambda self, ask=True: "Ida")
    folder = sample_data("survey")
    add_uploads(
        tmp_path / "wood.gpkg",
        [folder / "stems.csv", folder / "plots.csv"],
        who="Ida",
        settings=folder / "settings.toml",
    )
    with qtbot.waitSignal(window.session.replaced, timeout=20000):
        window.uploads.open([tmp_path / "wood.gpkg"])
    return window


def looks(folder):
    with (folder / "fill_in.csv").open(encoding="utf-8-sig", newline="") as stream:
        return {row["plot"]: row["look"] for row in csv.DictReader(stream)}


def test_a_packet_needs_a_survey_file(opened):
    assert not opened.actions_by_name["field-packet"].isEnabled()


def test_what_is_chosen_is_made_in_the_folder_and_told(sending, qtbot, tmp_path):
    sending.session.select_visit(2)
    plot = str(sending.session.workup.survey.visits.plot[2])
    sending.actions_by_name["field-packet"].trigger()
    dialog = sending.field_packet.dialog
    assert dialog.isVisible()
    dialog.plots.button(1).setChecked(True)
    assert not dialog.hours.isEnabled()
    dialog.blind.setValue(100)
    with qtbot.waitSignal(sending.field_packet.written, timeout=30000) as written:
        sending.field_packet.make(tmp_path / "out")
    made = looks(tmp_path / "out")
    assert made[plot] == "cold"
    assert sorted(made.values()) == ["blind", "cold"]
    assert str(tmp_path / "out") in written.args[0]
    assert sending.message_bar.sentence == written.args[0]
    dialog.reject()


def test_a_folder_with_a_packet_is_refused_by_a_sentence(sending, qtbot, tmp_path):
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "fill_in.csv").write_text("filled in")
    sending.field_packet.ask()
    with qtbot.waitSignal(sending.jobs.failed, timeout=30000):
        sending.field_packet.make(tmp_path / "out")
    assert "Name another folder" in sending.message_bar.sentence
    assert (tmp_path / "out" / "fill_in.csv").read_text() == "filled in"
    sending.field_packet.dialog.reject()


def test_a_new_folder_beside_the_survey_file_is_proposed_and_made(sending, qtbot, tmp_path):
    sending.field_packet.ask()
    dialog = sending.field_packet.dialog
    proposed = dialog.path
    assert proposed.parent == tmp_path
    assert proposed.name == f"wood_packet_{date.today().isoformat()}"
    dialog.plots.button(2).setChecked(True)
    with qtbot.waitSignal(sending.field_packet.written, timeout=30000):
        qtbot.keyClick(dialog.folder, Qt.Key.Key_Return)
    assert not dialog.isVisible()
    assert (proposed / "fill_in.csv").exists()
    sending.field_packet.ask()
    assert dialog.path.name == f"{proposed.name}_2"
    dialog.reject()


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("full", "holds files already"),
        (" ", "No folder is named"),
        ("full/notes.txt", "is a file"),
    ],
)
def test_a_folder_that_will_not_do_is_refused_in_the_dialog(sending, tmp_path, text, said):
    (tmp_path / "full").mkdir()
    (tmp_path / "full" / "notes.txt").write_text("mine")
    sending.field_packet.ask()
    dialog = sending.field_packet.dialog
    dialog.folder.setText(text)
    dialog.make.click()
    assert dialog.isVisible()
    assert said in dialog.refusal.text()
    assert dialog.refusal.isVisible()
    assert not sending.jobs.busy
    dialog.reject()


def test_an_empty_folder_and_a_name_beside_the_survey_file_will_do(sending, tmp_path):
    (tmp_path / "empty").mkdir()
    sending.field_packet.ask()
    dialog = sending.field_packet.dialog
    made = []
    sending.field_packet.make = made.append
    for text in ("empty", "new/below", str(tmp_path / "whole")):
        dialog.folder.setText(text)
        dialog.make.click()
        assert not dialog.isVisible()
    assert made == [tmp_path / "empty", tmp_path / "new" / "below", tmp_path / "whole"]


def test_in_a_folder_that_is_chosen_and_full_a_new_one_is_proposed(sending, tmp_path, monkeypatch):
    (tmp_path / "crews").mkdir()
    chosen = []
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *_: chosen[-1])
    sending.field_packet.ask()
    dialog = sending.field_packet.dialog
    for folder, proposed in ((tmp_path / "crews", "crews"), (tmp_path, f"wood_packet_{date.today().isoformat()}")):
        chosen.append(str(folder))
        dialog.browse.click()
        assert dialog.path.name == proposed
    dialog.reject()
