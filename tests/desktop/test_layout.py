"""At the sizes of common screens nothing that is always in sight is cut off, in German words either."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QTabBar

from stemmap.desktop.session import prepare, relocated
from stemmap.tasks.workup import relocate

#: Free ground on both sides of a tab's text together, below which the text is shortened.
TAB_PX = 16


@pytest.fixture(params=[(1280, 720), (1280, 800), (1920, 1080)], ids=["1280x720", "1280x800", "1920x1080"])
def germans(german, window, sample, settled, request):
    window.resize(*request.param)
    window.show_opened(prepare(sample))
    settled()
    return window


def test_the_name_of_no_panel_is_cut(germans):
    seen = []
    for tabs in germans.findChildren(QTabBar):
        for number in range(tabs.count()):
            text = tabs.tabText(number).replace("&", "")
            seen.append(text)
            assert tabs.tabRect(number).width() >= tabs.fontMetrics().horizontalAdvance(text) + TAB_PX, text
    assert {"Probeflächen", "Einstellungen", "Auswertung", "Struktur", "Alle Befunde"} <= set(seen)


def test_the_heading_of_the_map_says_that_findings_are_worked_out_anew_beside_the_plot(germans, settled):
    session, panel = germans.session, germans.panels.map_panel
    wanted = session.settings.having("errors.distance_sd_m", 0.07)
    session.update(relocated(session.opened, relocate(session.opened.workup, wanted)))
    assert panel.work.isVisible()
    assert panel.work.width() >= panel.work.fontMetrics().horizontalAdvance(panel.work.text())
    assert panel.heading.text() == panel.heading.sentence
    assert "Probefläche" in panel.heading.text()


def test_states_of_plots_that_were_looked_through_have_room(germans, qtbot, settled):
    view, model = germans.panels.plots_panel.view, germans.panels.plots_panel.model
    state = model.columnCount() - 1 - sum(map(view.isColumnHidden, range(model.columnCount())))
    going = germans.panels.round
    going.start()
    for _ in range(3):
        going.go(1)
    going.end()
    texts = [model.text(row, state) for row in range(1, 4)]
    assert any(text.startswith("durchgesehen; ") for text in texts)
    room = view.columnWidth(state)
    assert not view.horizontalScrollBar().isVisible()
    assert max(view.fontMetrics().horizontalAdvance(text) for text in texts) <= room


def test_figures_on_the_card_of_the_round_are_not_cut(germans, qtbot, settled):
    qtbot.keyClick(germans, Qt.Key.Key_F8)
    evidence = germans.panels.round_view.card.evidence
    seen = 0
    for _ in range(12):
        if evidence.isVisible():
            seen += 1
            assert evidence.minimumSizeHint().width() <= evidence.width()
        qtbot.keyClick(germans, Qt.Key.Key_Space)
    assert seen


def test_a_column_makes_room_for_the_arrow_when_it_is_sorted(germans):
    view, model = germans.panels.plots_panel.view, germans.panels.plots_panel.model
    before = view.columnWidth(0)
    view.horizontalHeader().setSortIndicator(0, Qt.SortOrder.AscendingOrder)
    assert view.columnWidth(0) > before
    assert model.columns[0].title == "Probefläche"
