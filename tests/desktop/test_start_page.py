"""The first minutes: what the empty window offers."""

from __future__ import annotations

from PySide6.QtCore import QMimeData, QPoint, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDragLeaveEvent
from PySide6.QtWidgets import QLabel, QWidget

from stemmap.assets import sample_data
from stemmap.desktop.recent import Recent, remember_survey
from stemmap.desktop.start_page import StartPage

BROKEN = sample_data("broken")
FILES = (BROKEN / "plots.csv", BROKEN / "stems.csv")


def _dragged_over(window):
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path)) for path in FILES])
    event = QDragEnterEvent(
        QPoint(9, 9), Qt.DropAction.CopyAction, data, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    )
    window.dragEnterEvent(event)
    return event


def test_page_says_what_the_program_does(window):
    told = " ".join(label.text() for label in window.start_page.findChildren(QLabel) if label.isVisible())
    assert "azimuth, distance and dbh" in told
    assert "drop them here" in told


def test_nothing_opened_lately_is_not_spoken_of(window):
    assert window.start_page.recent_buttons == []
    assert not any(label.isVisible() and label.text() == "Opened lately" for label in window.findChildren(QLabel))


def test_survey_opened_lately_opens_at_a_click(qtbot, window, settled):
    remember_survey(Recent(FILES))
    window.start_page.show_empty()
    (button,) = window.start_page.recent_buttons
    assert button.accessibleName().startswith("plots.csv, stems.csv")
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    settled()
    assert window.session.workup is not None


def test_survey_whose_files_are_gone_is_greyed(window, tmp_path):
    remember_survey(Recent((tmp_path / "gone.csv",)))
    remember_survey(Recent(FILES))
    window.start_page.show_empty()
    first, second = window.start_page.recent_buttons
    assert first.isEnabled()
    assert not second.isEnabled()
    assert "no longer" in second.toolTip()


def test_page_names_the_last_five_surveys(window, tmp_path):
    for number in range(7):
        remember_survey(Recent((tmp_path / f"{number}.csv",)))
    window.start_page.show_empty()
    names = [button.accessibleName()[0] for button in window.start_page.recent_buttons]
    assert names == ["6", "5", "4", "3", "2"]


def test_everything_on_the_page_is_reached_by_the_keyboard(window):
    remember_survey(Recent(FILES))
    window.start_page.show_empty()
    page = window.start_page
    reached: set[QWidget] = set()
    widget: QWidget = page.open_button
    while widget not in reached:
        reached.add(widget)
        widget = widget.nextInFocusChain()
    assert {page.open_button, page.sample_button, *page.recent_buttons} <= reached


def test_files_dragged_over_the_window_are_invited(window):
    assert _dragged_over(window).isAccepted()
    looks = window.start_page.grab().toImage()
    window.dragLeaveEvent(QDragLeaveEvent())
    assert window.start_page.grab().toImage() != looks


def test_dragging_over_an_open_survey_says_what_dropping_does(opened):
    _dragged_over(opened)
    assert "Open recent" in opened.statusBar().currentMessage()
    opened.dragLeaveEvent(QDragLeaveEvent())
    assert opened.statusBar().currentMessage() == ""


def test_long_names_do_not_widen_the_page(qtbot, tmp_path):
    plain = StartPage()
    qtbot.addWidget(plain)
    remember_survey(Recent(tuple(tmp_path / f"{'very long name of an upload ' * 4}{n}.csv" for n in range(4))))
    page = StartPage()
    qtbot.addWidget(page)
    assert page.minimumSizeHint().width() == plain.minimumSizeHint().width()
