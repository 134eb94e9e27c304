"""The map in the real window: from all plots down to one stem, layers, tools, going to a place."""

import numpy as np
import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, Qt
from PySide6.QtGui import QGuiApplication, QMouseEvent, QNativeGestureEvent, QPointingDevice
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from stemmap.desktop.goto_field import Destination, destination
from stemmap.desktop.map_request import LEGEND_MM
from stemmap.desktop.measuring import MeasuredLine
from stemmap.desktop.survey_map import plots_of
from stemmap.drawing.scene import Texts
from stemmap.drawing.typeface import widths

MIDDLE, LEFT = Qt.MouseButton.MiddleButton, Qt.MouseButton.LeftButton


@pytest.fixture
def canvas(opened):
    return opened.panels.map_panel.canvas


@pytest.fixture
def far(qtbot, canvas, settled):
    """The map with all plots of the sample survey."""
    qtbot.waitUntil(lambda: canvas.survey.plots is not None)
    canvas.show_survey()
    settled()
    return canvas


def place_on_map(canvas, visit):
    return canvas.survey.mark_of(canvas.view, visit)[0].toPoint()


def drag(canvas, start, end, modifiers=Qt.KeyboardModifier.NoModifier):
    """Press, move and release, as the window system sends them."""

    def send(kind, at, button, buttons):
        at = QPointF(at)
        event = QMouseEvent(kind, at, canvas.mapToGlobal(at), button, buttons, modifiers)
        QApplication.sendEvent(canvas, event)

    send(QEvent.Type.MouseButtonPress, start, LEFT, LEFT)
    for share in (0.4, 0.8, 1.0):
        at = QPointF(start) + share * (QPointF(end) - QPointF(start))
        send(QEvent.Type.MouseMove, at, Qt.MouseButton.NoButton, LEFT)
    send(QEvent.Type.MouseButtonRelease, end, LEFT, Qt.MouseButton.NoButton)


# from all plots to one and back


def test_zooming_out_of_a_plot_shows_its_neighbours_where_they_lie(qtbot, canvas, settled):
    qtbot.waitUntil(lambda: canvas.survey.plots is not None)
    visit, at = canvas.shown.request.visit, QPointF(canvas.rect().center())
    while not canvas.is_far:
        centre, scale = QPointF(canvas.view.origin_x, canvas.view.origin_y), canvas.view.per_metre
        canvas.zoom(0.8, at)
    expected = at + 0.8 * (centre - at)
    place = canvas.survey.mark_of(canvas.view, visit)[0]

    assert canvas.view.per_metre == pytest.approx(0.8 * scale)
    assert (place.x(), place.y()) == pytest.approx((expected.x(), expected.y()))
    assert canvas.shown is None


def test_zooming_into_a_plot_shows_its_stems_on_the_same_ground(far, opened, settled):
    visit = 10
    at = QPointF(place_on_map(far, visit))
    for _ in range(60):
        at = far.survey.mark_of(far.view, visit)[0]
        far.zoom(1.25, at)
        if not far._far_wanted:
            break
    view = far.view
    settled()

    assert not far.is_far
    assert opened.session.visit in (visit, visit + 1, visit - 1)
    assert far.view.per_metre == pytest.approx(view.per_metre)
    assert (far.view.origin_x, far.view.origin_y) == pytest.approx((at.x(), at.y()), abs=1.0)


def test_dragging_a_plot_out_of_sight_brings_the_others_into_sight(qtbot, canvas):
    qtbot.waitUntil(lambda: canvas.survey.plots is not None)
    canvas.pan(5000.0, 0.0)

    assert canvas.is_far


def test_a_click_selects_a_plot_and_the_map_stays(qtbot, far, opened):
    view = far.view
    visits = opened.session.workup.survey.visits
    alone = [visit for visit in range(len(visits)) if far.survey.plot_at(view, QPointF(place_on_map(far, visit))) >= 0]
    qtbot.mouseClick(far, LEFT, pos=place_on_map(far, alone[0]))

    assert visits.plot[opened.session.visit] == visits.plot[alone[0]]
    assert far.is_far
    assert far.view == view
    assert opened.panels.map_panel.heading.text().startswith("All plots, selected: ")


def test_a_double_click_on_a_plot_shows_its_stems(qtbot, far, opened, settled):
    visits = opened.session.workup.survey.visits
    visit = next(
        visit for visit in range(len(visits)) if far.survey.plot_at(far.view, QPointF(place_on_map(far, visit))) >= 0
    )
    qtbot.mouseDClick(far, LEFT, pos=place_on_map(far, visit))
    settled()

    assert not far.is_far
    assert visits.plot[far.shown.request.visit] == visits.plot[visit]


def test_a_double_click_on_a_cluster_shows_its_plots(qtbot, far):
    far.zoom(0.5, QPointF(far.rect().center()))
    clusters = far.survey.plots.clusters(far.view.millimetres_per_metre)
    crowd = int(np.argmax(clusters.count))
    assert clusters.count[crowd] > 1
    at = QPointF(*far.view.to_device(clusters.place[crowd : crowd + 1])[0])
    assert "plots" in far.survey.sentence(far.view, far.survey.cluster_at(far.view, at))
    before = far.view.per_metre
    qtbot.mouseDClick(far, LEFT, pos=at.toPoint())

    assert far.is_far
    assert far.view.per_metre > before
    assert far.rect().contains(QPointF(*far.view.to_device(clusters.low[crowd : crowd + 1])[0]).toPoint())


def test_home_goes_up_and_enter_down_again(qtbot, canvas, settled, opened):
    qtbot.waitUntil(lambda: canvas.survey.plots is not None)
    visit = opened.session.visit
    canvas.setFocus()
    qtbot.keyClick(canvas, Qt.Key.Key_Home)
    assert canvas.is_far
    qtbot.keyClick(canvas, Qt.Key.Key_Return)
    settled()
    assert not canvas.is_far
    assert canvas.shown.request.visit == visit


def test_the_whole_survey_in_the_list_is_the_map_of_all_plots(far, opened, settled):
    opened.session.select_visit(5)
    settled()
    assert not far.is_far
    opened.session.select_visit(-1)
    assert far.is_far


def test_a_selected_stem_is_shown_from_afar(far, opened, settled):
    stem = int(opened.session.workup.survey.visits.first_stem[opened.session.visit])
    opened.session.select_stem(stem)
    settled()

    assert not far.is_far
    assert far.rect().contains(far.place_of(stem).toPoint())


def test_plots_without_coordinates_are_told_and_a_plot_is_never_left(qtbot, show):
    stems = {"plot": ["A"], "azimuth": [10], "distance_m": [3], "dbh_cm": [20]}
    window = show(stems, {"plot": ["A", "B"]}, {"design": {"radius_m": 12.0}})
    canvas = window.panels.map_panel.canvas
    qtbot.waitUntil(lambda: canvas.survey.plots is not None)
    for _ in range(40):
        canvas.zoom(0.8, QPointF(100, 100))
    canvas.pan(9000.0, 0.0)
    assert not canvas.is_far
    canvas.show_survey()
    assert "No plot has coordinates" in canvas._words
    canvas.grab()


def test_plots_are_told_in_words_under_the_pointer(qtbot, far):
    said = []
    far.pointed.connect(said.append)
    qtbot.mouseMove(far, place_on_map(far, 0))
    qtbot.waitUntil(lambda: any("plot" in words.lower() for words in said))
    qtbot.mouseMove(far, QPoint(3, far.height() // 2))
    qtbot.waitUntil(lambda: any("easting" in words for words in said))


@pytest.mark.parametrize("size", [(900, 700), (1280, 720), (1280, 800), (1920, 1080), (1000, 1400)])
def test_no_plot_lies_under_the_north_arrow(opened, qtbot, far, settled, size):
    opened.resize(*size)
    far.show_survey()
    settled()
    north, _ = far.survey.corners(dark=False)
    per_mm = far.view.per_millimetre
    arrow = QRectF(0.0, 0.0, (2.0 * north.box.high_mm[0] + 2.0) * per_mm, 16.0 * per_mm)
    for visit in range(len(opened.session.workup.survey.visits)):
        at, reach = far.survey.mark_of(far.view, visit)
        assert not arrow.intersects(QRectF(at.x() - reach, at.y() - reach, 2.0 * reach, 2.0 * reach)), visit


def test_the_legend_of_all_plots_has_room_for_its_words_in_german(german, far):
    north, legend = far.survey.corners(dark=False)
    assert [shape.texts for shape in north.shapes if isinstance(shape, Texts)] == [("Gitter-N",)]
    for shape in legend.shapes:
        if isinstance(shape, Texts):
            right = shape.place[:, 0] + np.reshape(shape.offset_mm, (-1, 2))[:, 0] + widths(shape.texts) * shape.size_mm
            assert (right <= LEGEND_MM).all(), shape.texts


def test_states_of_the_overview_are_those_of_the_list(opened):
    plots = plots_of(opened.session.opened)

    assert len(plots.visit) + len(plots.adrift) == len(set(opened.session.workup.survey.visits.plot))


# tools


def test_two_stems_are_measured_between_their_centres(opened, canvas):
    stems = canvas.shown.scene.stems
    first, second = stems.row[0], stems.row[4]
    canvas.switch_measuring()
    assert opened.actions_by_name["measure"].isChecked()
    drag(canvas, canvas.place_of(int(first)), canvas.place_of(int(second)))
    gap = stems.place[4] - stems.place[0]

    assert canvas.line.distance_m == pytest.approx(np.hypot(*gap))
    assert canvas.line.grid_azimuth_deg == pytest.approx(np.degrees(np.arctan2(*gap)) % 360.0)
    canvas.grab()
    canvas.switch_measuring()
    assert canvas.line is None


def test_measuring_among_all_plots_tells_ground_distance_and_the_survey_s_unit(far, opened):
    plots = far.survey.plots
    line = MeasuredLine((0.0, 0.0), (0.0, 1000.0), plots)
    settings = opened.session.workup.survey.settings.having("measurement.azimuth_unit", "gon")

    # The scale factor of UTM is between 0.9996 and 1.0010 inside a zone.
    assert 1000.0 / 1.001 < line.distance_m < 1000.0 / 0.9995
    assert line.to((1000.0, 0.0)).sentence(settings).endswith("grid azimuth 100.0 gon")


def test_a_box_marks_stems_on_the_map_and_in_the_table(opened, canvas, settled):
    drag(
        canvas,
        QPoint(2, 2),
        QPoint(canvas.width() - 2, canvas.height() - 2),
        Qt.KeyboardModifier.ShiftModifier,
    )
    table = opened.panels.stems_table
    rows = {table.model.shown.row_at(index.row()) for index in table.view.selectionModel().selectedRows()}
    assert len(rows) == len(canvas.shown.scene.stems.row) > 3
    assert canvas.marked.rows == rows
    canvas.grab()
    table.copy_rows()
    assert len(QGuiApplication.clipboard().text().splitlines()) == len(rows) + 1
    opened.session.step_visit(1)
    settled()
    assert not canvas.marked.rows


def test_a_box_among_all_plots_marks_them_in_their_table(opened, far, settled):
    corners = QPoint(2, 2), QPoint(far.width() - 2, far.height() - 2)
    drag(far, *corners, Qt.KeyboardModifier.ShiftModifier)
    table, plots = opened.panels.plots_panel, far.survey.plots
    rows = {table.model.shown.row_at(index.row()) - 1 for index in table.view.selectionModel().selectedRows()}
    assert rows == far.marked_plots.rows
    assert {plots.plot_of_visit[row] for row in rows} == set(range(len(plots.place)))
    plain = far.grab().toImage()
    QTest.keyClick(far, Qt.Key.Key_Escape)
    assert not far.marked_plots.rows
    assert far.grab().toImage() != plain


def test_rows_selected_in_the_table_are_marked_on_the_map(opened, canvas):
    table = opened.panels.stems_table
    table.view.selectAll()
    assert len(canvas.marked.rows) == table.model.rowCount()
    table.view.selectRow(2)
    assert not canvas.marked.rows


def test_the_left_button_drags_the_ground(canvas, opened):
    before, stem = canvas.view, opened.session.stem
    drag(canvas, QPoint(100, 100), QPoint(150, 90))

    assert (canvas.view.origin_x - before.origin_x, canvas.view.origin_y - before.origin_y) == (50.0, -10.0)
    assert opened.session.stem == stem


def test_two_fingers_enlarge_the_map(canvas):
    before = canvas.view.per_metre
    at = QPointF(200.0, 150.0)
    event = QNativeGestureEvent(
        Qt.NativeGestureType.ZoomNativeGesture,
        QPointingDevice.primaryPointingDevice(),
        2,
        at,
        at,
        canvas.mapToGlobal(at),
        0.25,
        QPointF(),
    )
    QApplication.sendEvent(canvas, event)

    assert canvas.view.per_metre == pytest.approx(1.25 * before)


def test_true_scales_are_true_by_the_size_of_the_screen(opened, canvas):
    opened.actions_by_name["scale-200"].trigger()
    per_mm = canvas.screen().physicalDotsPerInchX() / 25.4
    per_mm = per_mm if 40.0 <= 25.4 * per_mm <= 800.0 else canvas.screen().logicalDotsPerInchX() / 25.4

    assert canvas.view.per_metre == pytest.approx(5.0 * per_mm)
    assert opened.panels.map_panel.scale.text() == "1:200"


# layers


def test_every_layer_can_be_ticked_by_menu_key_and_panel(qtbot, opened, canvas, settled):
    boxes = opened.panels.layers_panel.boxes
    for name, box in boxes.items():
        action = opened.actions_by_name["legend" if name == "legend" else f"layer-{name.replace('_', '-')}"]
        before = getattr(canvas.layers.value, name)
        assert action.isChecked() == box.isChecked() == before
        assert action.shortcuts()
        action.trigger()
        assert action.isChecked() == box.isChecked() == getattr(canvas.layers.value, name) != before
        box.click()
        assert getattr(canvas.layers.value, name) == before
    settled()


def test_fills_and_thickness_are_chosen(opened, canvas, settled):
    opened.actions_by_name["fill-dbh"].trigger()
    panel = opened.panels.layers_panel
    assert panel.colour_by.currentData() == "dbh"
    assert [key for key in ("species", "dbh") if opened.actions_by_name[f"fill-{key}"].isChecked()] == ["dbh"]
    thin = canvas.shown.scene.stems.radius_m.max()
    canvas.layers.want(symbol_factor=3.0)
    settled()
    assert canvas.shown.scene.stems.radius_m.max() == pytest.approx(3.0 * thin)
    assert "3 times as thick" in opened.panels.map_panel.notes.text()


def test_all_layers_are_painted_at_once(opened, canvas, far, settled):
    from dataclasses import fields

    wanted = {each.name: True for each in fields(canvas.layers.value) if each.type == "bool"}
    canvas.layers.want(**wanted)
    far.grab()
    far.show_plot()
    settled()
    canvas.grab()


# going to a place


def test_what_is_typed_names_a_plot_a_stem_or_a_place(opened, far):
    survey, plots = opened.session.workup.survey, far.survey.plots
    visit = survey.visit_row("20")
    stem = next(
        row for row in range(*survey.visits.first_stem[visit : visit + 2].tolist()) if survey.stems.label(row) == "30"
    )
    lon, lat = plots.geographic([(50.0, 70.0)])
    east, north = (plots.base + np.array([50.0, 70.0])).tolist()

    def meant(text, shown=0):
        return destination(text, survey, shown, plots)

    assert meant("20") == Destination(visit)
    assert meant("20/30") == Destination(visit, stem)
    assert meant("/30", visit) == meant("30/", visit) or meant("/30", visit) == Destination(visit, stem)
    assert meant(f"{east:.1f} {north:.1f}").place == pytest.approx((50.0, 70.0), abs=0.1)
    for text in (
        f"{lon[0]:.7f} {lat[0]:.7f}",
        f"{lon[0]:.7f}, {lat[0]:.7f}",
        f"{lat[0]:.7f} N {lon[0]:.7f} E",
        f"{lat[0]:.7f}° N, {lon[0]:.7f}° E",
        f"{lon[0]:.7f}; {lat[0]:.7f}".replace(".", ","),
    ):
        assert meant(text).place == pytest.approx((50.0, 70.0), abs=0.1), text
    for text in ("no such plot", "20/none such", "1 2 3", "", "400 N 20 E"):
        found = meant(text)
        assert found is None or found == Destination(visit), text


def test_the_field_goes_to_a_stem_and_leaves_the_way_free(qtbot, opened, settled):
    goto, canvas = opened.panels.map_panel.goto, opened.panels.map_panel.canvas
    opened.actions_by_name["go-to"].trigger()
    assert goto.isVisible()
    QTest.keyClicks(goto.field, "20/30")
    qtbot.keyClick(goto.field, Qt.Key.Key_Return)
    settled()
    assert not goto.isVisible()
    assert opened.session.workup.survey.stems.label(opened.session.stem) == "30"
    assert canvas.rect().contains(canvas.place_of(opened.session.stem).toPoint())


def test_the_field_goes_to_coordinates_and_names_the_nearest_plot(qtbot, opened, far, settled):
    goto = opened.panels.map_panel.goto
    east, north = far.survey.plots.base + far.survey.plots.place[3] + (40.0, 0.0)
    goto.ask()
    goto.field.setText(f"{east:.0f} {north:.0f}")
    goto.go()
    assert far.is_far
    assert far.pin is not None
    assert str(far.survey.plots.names[3]) in goto.answer.text()
    far.grab()
    qtbot.keyClick(goto.field, Qt.Key.Key_Escape)
    assert far.pin is None


def test_the_field_says_when_there_is_no_such_place(opened):
    goto = opened.panels.map_panel.goto
    goto.ask()
    goto.field.setText("nowhere")
    goto.go()
    assert goto.answer.text() == "There is no plot, stem or place “nowhere”."
    assert goto.isVisible()


# the user's own ground


def test_backgrounds_are_read_shown_and_taken_away(qtbot, opened, far, settled, tmp_path):
    import geopandas
    from shapely import LineString

    base = far.survey.plots.base
    path = tmp_path / "own.gpkg"
    lines = [LineString([base - 5000.0, base + 5000.0])]
    geopandas.GeoDataFrame({"a": [1]}, geometry=lines, crs=far.survey.plots.crs).to_file(path)
    before = far.grab().toImage()
    far.backgrounds.add([path])
    qtbot.waitUntil(lambda: len(far.backgrounds.shown) == 1)
    assert far.grab().toImage() != before
    far.show_plot()
    settled()
    assert far.shown.request.backgrounds == far.backgrounds.shown
    opened.actions_by_name["remove-backgrounds"].trigger()
    assert far.backgrounds.shown == ()


def test_layers_of_a_file_are_switched_one_by_one(qtbot, opened, far, settled, tmp_path):
    import geopandas
    from shapely import Point

    plots = far.survey.plots
    path, area = tmp_path / "own.gpkg", Point(*plots.base).buffer(50.0)
    for name in ("stands", "roads", "water"):
        geopandas.GeoDataFrame(geometry=[area], crs=plots.crs).to_file(path, layer=name)
    far.backgrounds.add([path])
    boxes = opened.panels.background_boxes
    qtbot.waitUntil(lambda: len(boxes.boxes) == 3)
    assert [box.text() for box in boxes.boxes] == ["own.gpkg: stands", "own.gpkg: roads", "own.gpkg: water"]
    assert [box.isChecked() for box in boxes.boxes] == [True, False, False]
    assert "several layers" in opened.message_bar.sentence
    boxes.boxes[2].click()
    qtbot.waitUntil(lambda: len(far.backgrounds.shown) == 2)
    boxes.boxes[0].click()
    assert [ground.layer for ground in far.backgrounds.grounds if ground.on] == ["water"]
    assert len(far.backgrounds.shown) == 1
    path.unlink()
    boxes.boxes[0].click()  # what was read once need not be read again
    assert len(far.backgrounds.shown) == 2
    boxes.boxes[1].click()
    qtbot.waitUntil(lambda: not boxes.boxes[1].isChecked())
    assert "own.gpkg" in opened.message_bar.sentence
    opened.actions_by_name["remove-backgrounds"].trigger()
    assert boxes.isHidden()


def test_a_background_that_cannot_be_read_is_told(qtbot, opened, far, tmp_path):
    path = tmp_path / "own.gpkg"
    path.write_text("nothing")
    far.backgrounds.add([path])
    qtbot.waitUntil(opened.message_bar.isVisible)
    assert far.backgrounds.shown == ()


def test_a_background_without_places_of_plots_is_refused(qtbot, show, tmp_path):
    window = show({"plot": ["A"], "azimuth": [10], "distance_m": [3]}, {"plot": ["A"]}, {"design": {"radius_m": 12.0}})
    canvas = window.panels.map_panel.canvas
    qtbot.waitUntil(lambda: canvas.survey.plots is not None)
    canvas.backgrounds.add([tmp_path / "own.gpkg"])
    assert window.message_bar.isVisible()


def test_the_order_of_numbers_is_shown_while_a_finding_is_selected_for_which_it_tells(opened, canvas, settled):
    findings = opened.session.workup.findings
    told = [findings.tell(place) for place in range(len(findings))]
    place = next(place for place, each in enumerate(told) if each.told_by_order)
    other = next(n for n in findings.places_of(told[place].visit_row) if not told[n].told_by_order)
    opened.session.select_place(place)
    settled()
    assert canvas.shown.request.layers.order
    assert not canvas.layers.value.order
    opened.session.select_place(other)
    settled()
    assert not canvas.shown.request.layers.order
