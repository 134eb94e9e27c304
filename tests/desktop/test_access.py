"""The window can be read and used by everybody: names, order of the focus, contrast, large letters, small screens."""

from __future__ import annotations

from dataclasses import astuple
from itertools import pairwise

import pytest
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtGui import QFont, QPalette
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractSpinBox,
    QApplication,
    QCheckBox,
    QComboBox,
    QDockWidget,
    QDoubleSpinBox,
    QGroupBox,
    QHeaderView,
    QLabel,
    QLineEdit,
    QMenu,
    QRadioButton,
    QScrollArea,
    QStyle,
    QTabBar,
    QWidget,
)

from stemmap.desktop.palettes import DARK, LIGHT, SEVERITY, give_colours, palette
from stemmap.desktop.session import prepare
from stemmap.desktop.window import MainWindow
from stemmap.drawing.palette import contrast
from tests.desktop.spoken import spoken

TEXT, SYMBOL = 4.5, 3.0  # W3C, Web Content Accessibility Guidelines 2.2, 1.4.3 and 1.4.11

SIZE = (1280, 720)


@pytest.fixture(params=["en", "de"])
def language(request, qapp):
    """Both languages, one after the other."""
    with spoken(qapp, request.param):
        yield request.param


@pytest.fixture(params=[1.0, 2.0], ids=["100 %", "200 %"])
def letters(request, qapp):
    """Usual letters and letters twice as large."""
    before = qapp.font()
    larger = QFont(before)
    larger.setPointSizeF(before.pointSizeF() * request.param)
    qapp.setFont(larger)
    yield request.param
    qapp.setFont(before)


@pytest.fixture
def small(qtbot, qapp):
    """A window on a small screen, made in the language and with the letters of the test."""
    qapp.setStyle("Fusion")
    qapp.setPalette(palette(dark=False))
    made = MainWindow()
    qtbot.addWidget(made)
    made.resize(*SIZE)
    with qtbot.waitSignal(made.painted):
        made.show()
    yield made
    made.jobs.close()


@pytest.fixture
def filled(qtbot, small, sample):
    """The small window with the sample survey."""
    small.show_opened(prepare(sample))
    qtbot.waitUntil(lambda: not small.jobs.busy and not small.jobs.runs("map"), timeout=30_000)
    return small


def shown(window, kind=QWidget):
    return [widget for widget in window.findChildren(kind) if widget.window() is window and seen(widget)]


def seen(widget):
    """Whether a widget can be seen, if need be after scrolling; one behind another tab cannot."""
    return widget.isVisible() and not (scrolled(widget) or widget).visibleRegion().isEmpty()


def explained(widget):
    """Whether what is cut off can be read in a tool tip."""
    return bool(widget.toolTip())


def cut_labels(window):
    for label in shown(window, QLabel):
        text = label.text()
        if not text or "<" in text or explained(label):
            continue
        if label.wordWrap():
            if label.heightForWidth(label.width()) > label.height() + 2:
                yield f"label {text!r}: {label.heightForWidth(label.width())} in {label.height()} high"
        elif label.sizeHint().width() > label.width() + 1:
            yield f"label {text!r}: {label.sizeHint().width()} in {label.width()}"


def cut_buttons(window):
    for button in shown(window, QAbstractButton):
        needed = button.fontMetrics().horizontalAdvance(button.text().replace("&", ""))
        if button.text() and needed > button.width() - 4 and not button.objectName().startswith("qt_"):
            yield f"button {button.text()!r}: {needed} in {button.width()}"


def cut_choices(window):
    for choice in shown(window, QComboBox):
        field = choice.style().subControlRect(
            QStyle.ComplexControl.CC_ComboBox, _option(choice), QStyle.SubControl.SC_ComboBoxEditField, choice
        )
        needed = choice.fontMetrics().horizontalAdvance(choice.currentText())
        if needed > field.width() + 1 and not explained(choice):
            yield f"choice {choice.currentText()!r}: {needed} in {field.width()}"


def _option(choice):
    from PySide6.QtWidgets import QStyleOptionComboBox

    option = QStyleOptionComboBox()
    choice.initStyleOption(option)
    return option


def cut_numbers(window):
    for field in shown(window, QAbstractSpinBox):
        line = field.findChild(QLineEdit)
        needed = field.fontMetrics().horizontalAdvance(field.text())
        if needed > line.width() and not explained(field):
            yield f"number {field.text()!r}: {needed} in {line.width()}"


def cut_tabs(window):
    for tabs in shown(window, QTabBar):
        for number in range(tabs.count()):
            text, room = tabs.tabText(number).replace("&", ""), tabs.tabRect(number).width()
            if tabs.fontMetrics().horizontalAdvance(text) > room and not tabs.tabToolTip(number):
                yield f"tab {text!r}: {tabs.fontMetrics().horizontalAdvance(text)} in {room}"


def cut_headings(window):
    for header in shown(window, QHeaderView):
        if header.orientation() != Qt.Orientation.Horizontal or header.model() is None:
            continue
        for section in range(header.count()):
            if header.isSectionHidden(section):
                continue
            text = str(header.model().headerData(section, header.orientation()) or "")
            tip = header.model().headerData(section, header.orientation(), Qt.ItemDataRole.ToolTipRole)
            needed = header.fontMetrics().horizontalAdvance(text.strip())
            if needed > header.sectionSize(section) and not tip:
                yield f"heading {text!r}: {needed} in {header.sectionSize(section)}"


def cut_titles(window):
    for box in shown(window, QGroupBox):
        needed = box.fontMetrics().horizontalAdvance(box.title())
        if needed > box.width():
            yield f"title {box.title()!r}: {needed} in {box.width()}"
    for area in shown(window, QScrollArea):
        content = area.widget()
        if content is None or area.horizontalScrollBarPolicy() != Qt.ScrollBarPolicy.ScrollBarAlwaysOff:
            continue
        if content.minimumSizeHint().width() > area.viewport().width():
            needed = content.minimumSizeHint().width()
            yield f"content of {area.accessibleName() or area}: {needed} in {area.viewport().width()}"


def cut_widgets(window):
    """Controls that reach out of the window."""
    inside = QRect(QPoint(0, 0), window.size())
    for widget in shown(window):
        empty = isinstance(widget, QTabBar) and widget.count() == 0
        if isinstance(widget, QAbstractButton | QComboBox | QLabel | QTabBar) and not empty and not scrolled(widget):
            place = QRect(widget.mapTo(window, QPoint(0, 0)), widget.size())
            if not inside.contains(place):
                yield f"{widget} at {place.getRect()} reaches out of the window"


def scrolled(widget):
    """The area in which a widget is scrolled, if any."""
    while widget is not None and not isinstance(widget, QScrollArea):
        widget = widget.parentWidget()
    return widget


def cut_off(window):
    """Everything visible in a window whose text cannot be read in full."""
    kinds = (cut_labels, cut_buttons, cut_choices, cut_numbers, cut_tabs, cut_headings, cut_titles, cut_widgets)
    return [told for kind in kinds for told in kind(window)]


def test_start_page_is_not_cut_off(language, letters, small):
    assert not (told := cut_off(small)), "\n".join(told)


def test_page_of_columns_is_not_cut_off(qtbot, language, letters, small):
    small.uploads.open_sample()
    qtbot.waitUntil(lambda: not small.jobs.busy and not small.jobs.runs("map"), timeout=30_000)
    small.upload_columns.ask()
    qtbot.waitUntil(lambda: not small.jobs.busy)
    assert small.upload_columns.page.isVisible()
    assert not (told := cut_off(small)), "\n".join(told)


def test_panels_are_not_cut_off(qtbot, language, letters, filled):
    filled.step_finding(1)
    assert (filled.width(), filled.height()) == SIZE
    told = {}
    for name, dock in filled.panels.docks.items():
        dock.show()
        dock.raise_()
        qtbot.wait(30)
        told |= dict.fromkeys(f"{name}: {line}" for line in cut_off(filled))
    assert not told, "\n".join(told)


def test_messages_are_not_cut_off(qtbot, language, letters, filled):
    filled.message_bar.tell("A sentence that is long enough for two lines of a small window with large letters. " * 3)
    qtbot.wait(30)
    assert not (told := list(cut_labels(filled))), "\n".join(told)


def test_handbook_is_not_cut_off(qtbot, language, letters, small):
    small.show_handbook()
    qtbot.wait(30)
    assert cut_off(small._handbook) == []


# names and order


def named(widget):
    return widget.accessibleName() or (widget.text() if isinstance(widget, QAbstractButton) else "")


def focusable(window):
    return [
        widget
        for widget in window.findChildren(QWidget)
        if widget.focusPolicy() & Qt.FocusPolicy.TabFocus
        and widget.window() is window
        and not widget.objectName().startswith("qt_")
        and not isinstance(widget, QMenu | QTabBar)  # a tab's name is its text
        and not isinstance(widget.parent(), QAbstractSpinBox | QComboBox)
    ]


def buddies(window):
    return {label.buddy() for label in window.findChildren(QLabel) if label.buddy() is not None}


def test_every_control_has_a_name(opened):
    opened.show_handbook()
    for window in (opened, opened._handbook):
        known = buddies(window)
        assert [str(widget) for widget in focusable(window) if not named(widget) and widget not in known] == []


def test_every_panel_and_picture_has_a_name(opened):
    assert [dock for dock in opened.findChildren(QDockWidget) if not dock.windowTitle()] == []


def top_in(window, widget):
    """Height at which a widget is met; what can be scrolled to lies in its area."""
    top, area = widget.mapTo(window, QPoint(0, 0)).y(), scrolled(widget)
    return top if area is None else min(top, area.mapTo(window, QPoint(0, area.height())).y())


def backwards(window, dock):
    """Controls of a panel that are met after one that stands lower; those of one row stand about its middle."""
    controls = [widget for widget in focusable(window) if dock.isAncestorOf(widget) and widget.isVisible()]
    chain, widget = [], dock.nextInFocusChain()
    while widget is not dock:
        if widget in controls:
            chain.append(widget)
        widget = widget.nextInFocusChain()
    return [
        f"{named(after)} after {named(before)}"
        for before, after in pairwise(chain)
        if top_in(window, after) + after.height() // 2 < top_in(window, before)
    ]


def test_focus_goes_down_a_panel_in_reading_order(qtbot, opened):
    for name, dock in opened.panels.docks.items():
        dock.show()
        dock.raise_()

        def settled(name=name, dock=dock):
            assert backwards(opened, dock) == [], name

        # Controls stand where they belong only after the panel has been laid out.
        qtbot.waitUntil(settled)


# contrast


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
def test_texts_of_the_window_stand_out(colours):
    for ground in (colours.window, colours.base, colours.alternate, colours.button):
        for ink in (colours.text, colours.faint_text):
            assert contrast(ink, ground) >= TEXT, (ink, ground)
    for ground in (colours.window, colours.base):
        assert contrast(colours.link, ground) >= TEXT
    assert contrast(colours.on_selection, colours.selection) >= TEXT
    assert all(colour.startswith("#") for colour in astuple(colours))


@pytest.mark.parametrize(("scheme", "colours"), [("light", LIGHT), ("dark", DARK)])
def test_signs_of_findings_stand_out(scheme, colours):
    for colour in SEVERITY[scheme].values():
        for ground in (colours.window, colours.base, colours.alternate):
            assert contrast(colour, ground) >= TEXT  # the sign is a letter


@pytest.mark.parametrize("dark", [False, True])
@pytest.mark.parametrize("kind", [QLineEdit, QDoubleSpinBox, QCheckBox, QRadioButton])
def test_edges_of_fields_and_boxes_stand_out(qapp, qtbot, dark, kind):
    give_colours(dark=dark)
    field = kind()
    qtbot.addWidget(field)
    field.ensurePolished()
    base, edge = (field.palette().color(role) for role in (QPalette.ColorRole.Base, QPalette.ColorRole.Window))
    give_colours(dark=False)
    assert contrast(edge.darker(140).name(), base.name()) >= SYMBOL


@pytest.mark.parametrize("dark", [False, True])
def test_icons_stand_out(qapp, dark):
    from stemmap.assets import resource
    from stemmap.desktop.icons import icon

    colours = palette(dark=dark)
    ground = colours.color(QPalette.ColorRole.Window).name()
    names = [path.stem for path in resource("icons").glob("*.svg") if path.stem != "stemmap"]
    assert names
    for name in names:
        picture = icon(name, colours).pixmap(24, 24).toImage()
        inks = {picture.pixelColor(x, y).name() for x in range(24) for y in range(24)
                if picture.pixelColor(x, y).alpha() == 255}  # fmt: skip
        assert inks, name
        assert min(contrast(ink, ground) for ink in inks) >= SYMBOL, name


def test_every_icon_is_of_an_action(opened):
    from stemmap.assets import resource

    drawn = {path.stem for path in resource("icons").glob("*.svg")} - {"stemmap"}
    assert drawn - set(opened.actions_by_name) == set()
    assert [name for name in drawn if opened.actions_by_name[name].icon().isNull()] == []


def test_program_has_its_own_icon(qapp, opened):
    assert not qapp.windowIcon().isNull()


@pytest.mark.parametrize("name", ["sheets", "preferences", "command-search", "crs", "about"])
def test_dialogs_are_not_cut_off(qtbot, language, letters, filled, name):
    before = set(QApplication.topLevelWidgets())
    filled.actions_by_name[name].trigger()
    qtbot.waitUntil(lambda: not filled.jobs.busy, timeout=30_000)
    qtbot.wait(50)
    opened = [widget for widget in set(QApplication.topLevelWidgets()) - before if widget.isVisible()]
    assert opened, name
    for dialog in opened:
        assert not (told := cut_off(dialog)), "\n".join(told)
        assert dialog.width() <= SIZE[0], name
        assert dialog.height() <= SIZE[1], name
        unnamed = [str(widget) for widget in focusable(dialog) if not named(widget) and widget not in buddies(dialog)]
        assert unnamed == []
        dialog.close()
