"""Field packets from the window: what is chosen is what is made, off the GUI thread, and told."""

import csv

import pytest

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
