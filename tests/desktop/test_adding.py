"""Uploads added to the open survey file: what differs is asked, nothing is overwritten, others' uploads come along."""

import csv
import shutil

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDropEvent
from PySide6.QtWidgets import QDialog

from stemmap.store.records import uploads_of
from stemmap.store.survey_file import opened
from stemmap.tasks.stored import load_path
from stemmap.tasks.survey_file import add_uploads


@pytest.fixture
def folder(tmp_path, checkout_root):
    shutil.copytree(checkout_root / "sample_data" / "survey", tmp_path / "survey")
    return tmp_path / "survey"


@pytest.fixture
def files(folder):
    return [folder / "stems.csv", folder / "plots.csv"]


@pytest.fixture
def adding(window, qtbot, folder, files, monkeypatch):
    monkeypatch.setattr(type(window.deciding), "who", lambda self, ask=True: "Ida")
    path = folder.parent / "survey.gpkg"
    add_uploads(path, files, who="Ida", settings=folder / "settings.toml")
    with qtbot.waitSignal(window.session.replaced, timeout=20000):
        window.uploads.open([path])
    return window


def count(path):
    with opened(path) as survey_file:
        return len(uploads_of(survey_file))


def rows_of(path):
    with path.open(encoding="utf-8", newline="") as stream:
        rows = list(csv.DictReader(stream))
    return rows, list(rows[0])


def write(path, rows, names):
    with path.open("w", encoding="utf-8", newline="") as stream:
        writer = csv.DictWriter(stream, names)
        writer.writeheader()
        writer.writerows(rows)


def press(window, text):
    next(one for one in window.offer_bar.buttons if one.text().replace("&", "") == text).click()


def test_the_same_upload_again_changes_nothing_and_says_so(adding, qtbot, files, tmp_path):
    with qtbot.waitSignal(adding.adding.told, timeout=20000):
        adding.adding.add(files)
    assert "is there already" in adding.message_bar.sentence
    assert count(tmp_path / "survey.gpkg") == 1


def changed_stems(folder):
    rows, names = rows_of(folder / "stems.csv")
    rows[3]["dbh_cm"] = "77.7"
    write(folder / "later.csv", rows, names)
    return folder / "later.csv", rows[3]


def test_a_changed_upload_shows_its_difference_and_asks(adding, qtbot, folder, tmp_path):
    path, (later, row) = tmp_path / "survey.gpkg", changed_stems(folder)
    adding.adding.add([later])
    qtbot.waitUntil(adding.offer_bar.isVisible, timeout=20000)
    assert "changed stems 1" in adding.offer_bar.sentence
    assert count(path) == 1
    press(adding, "Show them")
    shown = adding.findChild(QDialog)
    model = shown.table.model
    assert [model.text(0, column) for column in (0, 1, 3, 4, 6)] == ["changed", row["plot"], row["stem"], "dbh", "77.7"]
    shown.close()
    with qtbot.waitSignal(adding.adding.told, timeout=20000):
        press(adding, "Keep the old ones")
    assert "left out" in adding.message_bar.sentence
    assert count(path) == 1
    adding.adding.add([later])
    qtbot.waitUntil(adding.offer_bar.isVisible, timeout=20000)
    before = adding.session.visit
    with qtbot.waitSignal(adding.adding.told, timeout=20000):
        press(adding, "Replace the old ones")
    assert not adding.offer_bar.isVisible()
    assert count(path) == 2
    assert adding.session.visit == before
    assert "77.7" in adding.session.workup.survey.stems.texts("dbh_cm")
    # What was replaced is still there as it was.
    assert "77.7" not in load_path(path, "2000-01-01").stems.texts("dbh_cm")


def test_new_plots_are_added_at_once(adding, qtbot, folder, tmp_path):
    rows, names = rows_of(folder / "stems.csv")
    write(folder / "fresh.csv", [{**row, "plot": "900"} for row in rows[:5]], names)
    with qtbot.waitSignal(adding.adding.told, timeout=20000):
        adding.adding.add([folder / "fresh.csv"])
    assert adding.session.workup.survey.visit_row("900") >= 0
    assert count(tmp_path / "survey.gpkg") == 2


def test_files_dropped_on_a_survey_file_are_added_when_that_is_agreed(adding, qtbot, files):
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path)) for path in files])
    drop = QDropEvent(
        QPointF(300, 300), Qt.DropAction.CopyAction, data, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    )
    adding.dropEvent(drop)
    qtbot.waitUntil(adding.offer_bar.isVisible, timeout=20000)
    assert "Add stems.csv, plots.csv to survey.gpkg?" in adding.offer_bar.sentence
    with qtbot.waitSignal(adding.adding.told, timeout=20000):
        press(adding, "Add")
    assert "is there already" in adding.message_bar.sentence


@pytest.fixture
def watching(adding, qtbot, tmp_path, monkeypatch):
    """The window with a folder that is watched, looked into as fast as the test wants."""
    (tmp_path / "incoming").mkdir()
    adding.watching._soon.setInterval(50)
    adding.watching.watch(tmp_path / "incoming")
    return adding


def test_new_files_in_a_watched_folder_are_offered_and_added_only_when_that_is_said(
    watching, qtbot, folder, files, tmp_path
):
    path, incoming = tmp_path / "survey.gpkg", tmp_path / "incoming"
    shutil.copy(files[0], incoming / "again.csv")  # is in the survey file already
    rows, names = rows_of(folder / "stems.csv")
    write(incoming / "fresh.csv", [{**row, "plot": "900"} for row in rows[:5]], names)
    (incoming / "notes.md").write_text("no upload")
    qtbot.waitUntil(watching.offer_bar.isVisible, timeout=20000)
    assert "New in the folder incoming: fresh.csv. Add to survey.gpkg?" in watching.offer_bar.sentence
    assert count(path) == 1
    with qtbot.waitSignal(watching.adding.told, timeout=20000):
        press(watching, "Add")
    assert count(path) == 2
    assert watching.session.workup.survey.visit_row("900") >= 0
    watching.watching.look()
    qtbot.waitUntil(lambda: not watching.jobs.runs("watch"), timeout=20000)
    assert not watching.offer_bar.isVisible()


def test_a_file_that_is_still_being_written_waits(watching, qtbot, tmp_path):
    part = tmp_path / "incoming" / "part.csv"
    watching.watching._soon.setInterval(100_000)
    for size in range(1, 4):
        part.write_text("plot;stem\n" + "1;1\n" * size)
        watching.watching.look()
        qtbot.waitUntil(lambda: not watching.jobs.runs("watch"), timeout=20000)
        assert not watching.offer_bar.isVisible()
    watching.watching.look()
    qtbot.waitUntil(watching.offer_bar.isVisible, timeout=20000)


def test_the_folder_and_what_was_declined_are_kept_for_the_survey_file(watching, qtbot, tmp_path):
    (tmp_path / "incoming" / "other.csv").write_text("plot;stem\n1;1\n")
    qtbot.waitUntil(watching.offer_bar.isVisible, timeout=20000)
    press(watching, "Not these")
    with qtbot.waitSignal(watching.session.replaced, timeout=20000):
        watching.uploads.open_sample()
    assert watching.watching.folder is None
    assert not watching.actions_by_name["watch-folder"].isChecked()
    with qtbot.waitSignal(watching.session.replaced, timeout=20000):
        watching.uploads.open([tmp_path / "survey.gpkg"])
    assert watching.watching.folder == tmp_path / "incoming"
    assert watching.actions_by_name["watch-folder"].isChecked()
    for _ in range(2):
        watching.watching.look()
        qtbot.waitUntil(lambda: not watching.jobs.runs("watch"), timeout=20000)
    assert not watching.offer_bar.isVisible()


def test_uploads_that_others_add_are_read_along(adding, qtbot, folder, tmp_path):
    rows, names = rows_of(folder / "stems.csv")
    write(folder / "fresh.csv", [{**row, "plot": "900"} for row in rows[:5]], names)
    before = adding.session.visit
    add_uploads(tmp_path / "survey.gpkg", [folder / "fresh.csv"], who="Bo")
    with qtbot.waitSignal(adding.session.replaced, timeout=20000):
        adding.deciding.following.read_along()
    assert "Bo added an upload" in adding.message_bar.sentence
    assert adding.session.workup.survey.visit_row("900") >= 0
    assert adding.session.visit == before


def test_in_the_round_uploads_of_others_wait_until_it_suits(adding, qtbot, folder, tmp_path):
    adding.panels.round.start()
    rows, names = rows_of(folder / "stems.csv")
    write(folder / "fresh.csv", [{**row, "plot": "900"} for row in rows[:5]], names)
    add_uploads(tmp_path / "survey.gpkg", [folder / "fresh.csv"], who="Bo")
    adding.deciding.following.read_along()
    qtbot.waitUntil(adding.offer_bar.isVisible, timeout=20000)
    assert adding.panels.round.active
    assert adding.session.workup.survey.visit_row("900") < 0
    with qtbot.waitSignal(adding.session.replaced, timeout=20000):
        press(adding, "Read it now")
    assert adding.session.workup.survey.visit_row("900") >= 0
