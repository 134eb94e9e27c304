"""Where one was in a survey file and what was looked at: kept when uploads become one, and from start to start."""

import shutil

import pytest
from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QApplication

from stemmap.desktop.bookmark import _KEY
from stemmap.desktop.uploads import Recent
from stemmap.desktop.window import MainWindow
from stemmap.drawing.application import application
from stemmap.tasks.survey_file import add_uploads


@pytest.fixture(scope="module")
def kept(tmp_path_factory, checkout_root):
    folder = checkout_root / "sample_data" / "survey"
    path = tmp_path_factory.mktemp("kept") / "survey.gpkg"
    add_uploads(path, [folder / "stems.csv", folder / "plots.csv"], who="Ida", settings=folder / "settings.toml")
    return path


@pytest.fixture
def survey_path(kept, tmp_path):
    return shutil.copy(kept, tmp_path / "survey.gpkg")


@pytest.fixture
def named(window, monkeypatch):
    """The window of somebody who has said who decides."""
    monkeypatch.setattr(type(window.deciding), "who", lambda self, ask=True: "Ida")
    return window


@pytest.fixture
def started(qtbot, qapp):
    """Another window, as after another start of the program: started(path)."""
    made = []

    def start(path):
        application(lambda: QApplication, offscreen=True)
        window = MainWindow()
        made.append(window)
        qtbot.addWidget(window)
        with qtbot.waitSignal(window.painted):
            window.show()
        open_file(window, qtbot, path)
        return window

    yield start
    for window in made:
        window.jobs.close()


def open_file(window, qtbot, path):
    with qtbot.waitSignal(window.session.replaced, timeout=30000):
        window.uploads.open([path])
    qtbot.wait(20)


def walk(window, steps):
    """Go through some findings in the round; returns the visit reached and how many were looked at by visit."""
    going = window.panels.round
    going.start()
    for _ in range(steps):
        going.go(1)
    return window.session.visit, looked(window)


def looked(window):
    visits = range(-1, len(window.session.workup.survey.visits))
    return {row: count for row in visits if (count := window.panels.round.looked_at(row))}


def test_uploads_kept_as_a_survey_file_stay_at_the_plot_in_the_round_and_looked_at(
    named, qtbot, settled, tmp_path, checkout_root
):
    folder = checkout_root / "sample_data" / "survey"
    with qtbot.waitSignal(named.session.replaced, timeout=30000):
        named.uploads.read(Recent((folder / "plots.csv", folder / "stems.csv"), folder / "settings.toml"))
    settled()
    visit, seen = walk(named, 7)
    told, stem = named.panels.round.finding, named.session.stem
    turned = []
    named.session.visit_selected.connect(lambda: turned.append(named.session.visit))
    with qtbot.waitSignal(named.deciding.following.turned, timeout=30000):
        named.deciding.keep_as(tmp_path / "new.gpkg")
    settled()
    assert named.deciding.survey_path == tmp_path / "new.gpkg"
    assert (named.session.visit, named.session.stem) == (visit, stem)
    assert not turned
    assert named.panels.round.active
    assert named.panels.round.finding.id == named.session.selected_finding.id == told.id
    assert looked(named) == seen
    named.deciding.decide("keep")
    qtbot.waitUntil(lambda: named.deciding.following.journal[-1:] and True, timeout=30000)
    assert named.deciding.following.journal[-1].finding == told.id


def test_another_start_on_the_file_goes_on_where_it_was_left(named, qtbot, survey_path, started):
    open_file(named, qtbot, survey_path)
    visit, seen = walk(named, 9)
    assert sum(seen.values()) >= 9
    # No goodbye: as after a crash.
    qtbot.waitUntil(lambda: not named.panels.bookmark._soon.isActive(), timeout=5000)
    again = started(survey_path)
    assert again.session.visit == visit
    assert looked(again) == seen
    assert not again.panels.round.active
    again.panels.round.start()
    assert again.panels.round.finding.visit_row >= visit


def test_a_file_opened_again_in_the_same_window_has_its_marks_and_another_has_its_own(
    named, qtbot, survey_path, tmp_path
):
    open_file(named, qtbot, survey_path)
    visit, seen = walk(named, 4)
    other = shutil.copy(survey_path, tmp_path / "other.gpkg")
    named.panels.bookmark.keep()
    open_file(named, qtbot, other)
    assert looked(named) == {}
    assert not named.panels.round.active
    open_file(named, qtbot, survey_path)
    assert (named.session.visit, looked(named)) == (visit, seen)


def test_closing_the_window_keeps_the_last_step(named, qtbot, survey_path, started):
    open_file(named, qtbot, survey_path)
    visit, seen = walk(named, 3)
    named.close()
    again = started(survey_path)
    assert (again.session.visit, looked(again)) == (visit, seen)


def test_marks_stay_when_the_survey_is_read_anew(named, qtbot, survey_path):
    open_file(named, qtbot, survey_path)
    _, seen = walk(named, 5)
    told = named.panels.round.finding
    with qtbot.waitSignal(named.session.replaced, timeout=30000):
        named.deciding.following.read_anew()
    assert looked(named) == seen
    assert named.panels.round.active
    assert named.panels.round.finding.id == told.id


@pytest.mark.parametrize("value", ["", "[]", "{", '{"PATH": 3}', '{"PATH": {"place": "x", "looked": [[1]]}}'])
def test_what_somebody_else_wrote_there_does_no_harm(named, qtbot, survey_path, value):
    QSettings().setValue(_KEY, value.replace("PATH", str(survey_path)))
    open_file(named, qtbot, survey_path)
    assert looked(named) == {}
    walk(named, 1)
    named.panels.bookmark.keep()
    assert str(survey_path) in QSettings().value(_KEY)
