"""The real window without a screen, with uploads made in memory or from the sample data."""

from __future__ import annotations

import gc

import pytest
from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QApplication

from stemmap.assets import sample_data
from stemmap.desktop.palettes import palette
from stemmap.desktop.session import Session, prepare
from stemmap.desktop.window import MainWindow
from stemmap.drawing.application import application
from stemmap.tasks.survey_file import add_uploads
from stemmap.tasks.workup import open_uploads, work_up
from tests.desktop.spoken import spoken
from tests.uploads import survey

OPENING_MS = 30_000


def pytest_collection_modifyitems(items):
    """The platform without a screen cannot bound a window's size or raise a tool tip, and says so each time."""
    for item in items:
        if "tests/desktop" in item.path.as_posix():
            item.add_marker(pytest.mark.qt_log_ignore("This plugin does not support"))


@pytest.fixture(scope="session")
def libraries():
    """What was imported stays; it need not be looked at again and again."""
    gc.collect()
    gc.freeze()


@pytest.fixture(autouse=True)
def collected(libraries):
    """Unreachable widgets go here, as the program does it: on another thread Qt would not survive it."""
    gc.disable()
    yield
    gc.collect()
    gc.enable()


@pytest.fixture(scope="session")
def sample():
    """The sample survey worked up."""
    folder = sample_data("survey")
    return open_uploads([folder / "plots.csv", folder / "stems.csv"], settings=folder / "settings.toml")


@pytest.fixture
def survey_path(tmp_path, checkout_root):
    """A survey file of the sample, of this test alone."""
    folder = checkout_root / "sample_data" / "survey"
    path = tmp_path / "survey.gpkg"
    add_uploads(path, [folder / "stems.csv", folder / "plots.csv"], who="Ida", settings=folder / "settings.toml")
    return path


@pytest.fixture
def german(qapp):
    """Everything that is made during the test speaks German."""
    with spoken(qapp, "de"):
        yield


@pytest.fixture
def session(qapp, sample):
    """A session with the sample survey open."""
    made = Session()
    made.show(prepare(sample))
    return made


@pytest.fixture
def window(qtbot, qapp):
    """The window, empty."""
    application(lambda: QApplication, offscreen=True)
    QSettings().clear()  # another test's window has left its places and choices
    qapp.setStyle("Fusion")
    qapp.setPalette(palette(dark=False))
    made = MainWindow()
    qtbot.addWidget(made)
    made.resize(1280, 800)
    with qtbot.waitSignal(made.painted):
        made.show()
    yield made
    made.jobs.close()


@pytest.fixture
def settled(qtbot, window):
    """Waits until all work that was begun is shown."""

    def wait():
        def done():
            return not window.jobs.busy and not window.jobs.runs("map") and not window.panels.map_panel.canvas.moving

        qtbot.waitUntil(done, timeout=OPENING_MS)

    return wait


@pytest.fixture
def opened(window, sample, settled):
    """The window with the sample survey."""
    window.show_opened(prepare(sample))
    settled()
    return window


@pytest.fixture
def show(window, settled):
    """Shows a survey of uploads made in memory: show({"plot": [...], ...}, plots={...}, settings={...})."""

    def made(stems, plots=None, settings=None):
        window.show_opened(prepare(work_up(survey(stems, plots or {}, settings=settings or {}))))
        settled()
        return window

    return made
