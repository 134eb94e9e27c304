"""The panel of the spatial structure: it follows the plot, computes beside the GUI, and says no more than it knows."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QPalette

from stemmap.desktop.jobs import Jobs
from stemmap.desktop.session import WHOLE_SURVEY
from stemmap.desktop.structure_panel import StructurePanel
from stemmap.errors import Cancelled
from stemmap.tasks.diagrams import write_diagrams


@pytest.fixture
def panel(qtbot, session):
    """The panel in sight, with the first plot told."""
    jobs = Jobs()
    made = StructurePanel(session, jobs)
    qtbot.addWidget(made)
    made.resize(320, 600)
    session.select_visit(2)
    made.show()
    drawn(qtbot, made)
    yield made
    jobs.close()


def drawn(qtbot, panel, visit=2):
    def all_drawn():
        assert panel.told is not None
        assert panel.told.visit == visit
        assert panel.pictures
        assert all(not picture.pixmap().isNull() for picture in panel.pictures)

    qtbot.waitUntil(all_drawn, timeout=30_000)


def test_every_diagram_has_a_picture_a_name_and_its_sentence(panel):
    names = [diagram.name for diagram in panel.told.diagrams]
    told = ["l_minus_r", "g", "mark_correlation", "mark_variogram", "nearest", "dbh", "azimuth", "distance", "large"]
    assert names[:9] == told
    for picture, diagram in zip(panel.pictures, panel.told.diagrams, strict=True):
        assert picture.accessibleName() == diagram.title
        assert diagram.sentence
        assert picture.accessibleDescription() == diagram.sentence


def test_one_diagram_or_all_are_saved_by_key_and_menu(qtbot, panel):
    wanted = []
    panel.save_wanted.connect(wanted.append)
    qtbot.keyClick(panel.pictures[2], Qt.Key.Key_Return)
    panel.pictures[4].save_action.trigger()
    panel.save_button.click()

    diagrams = panel.told.diagrams
    assert wanted == [(diagrams[2],), (diagrams[4],), diagrams]


def test_it_follows_the_plot_and_the_survey(qtbot, panel, session):
    session.select_visit(WHOLE_SURVEY)
    drawn(qtbot, panel, WHOLE_SURVEY)
    assert panel.told.made.plots > 1
    assert len(panel.told.strata) > 1


def test_a_plot_with_too_few_stems_says_so(qtbot, panel, session):
    summary = session.workup.summary
    visit = int((summary.near.stems == 0).argmax())
    session.select_visit(visit)
    qtbot.waitUntil(lambda: panel.told is not None and panel.told.visit == visit, timeout=30_000)
    assert not panel.pictures
    assert panel.told.made.reason
    assert panel.state.text().startswith("Not known")
    assert not panel.save_button.isVisible()


def test_other_colours_are_drawn_anew(qtbot, panel):
    before = panel.pictures[0].pixmap().toImage()
    colours = QPalette(panel.palette())
    colours.setColor(QPalette.ColorRole.WindowText, "#ff0000")
    panel.setPalette(colours)
    qtbot.waitUntil(lambda: panel.pictures[0].pixmap().toImage() != before, timeout=30_000)


def test_what_was_stopped_can_be_begun_again(qtbot, panel, session):
    panel._jobs.failed.connect(lambda fault: None)
    session.select_visit(WHOLE_SURVEY)
    with qtbot.waitSignal(panel._jobs.failed, timeout=30_000) as told:
        panel._jobs.cancel()
    assert isinstance(told.args[0], Cancelled)
    assert panel.again_button.isVisible()
    panel.again_button.click()
    drawn(qtbot, panel, WHOLE_SURVEY)
    assert not panel.again_button.isVisible()


@pytest.mark.parametrize(("ending", "begins"), [(".svg", b"<?xml"), (".png", b"\x89PNG"), (".csv", b"diagram,")])
def test_diagrams_are_saved_the_same_each_time(panel, tmp_path, ending, begins):
    first, second = tmp_path / f"a{ending}", tmp_path / f"b{ending}"
    write_diagrams(panel.told.diagrams, first)
    write_diagrams(panel.told.diagrams, second)
    assert first.read_bytes() == second.read_bytes()
    assert first.read_bytes().startswith(begins)
