"""Tables read columns and copy nothing; they sort, filter, and follow the one selection."""

from time import perf_counter

import numpy as np
import pytest
from PySide6.QtCore import QItemSelectionModel, Qt
from PySide6.QtGui import QGuiApplication

from stemmap.desktop.columns import Wanted, arrange
from stemmap.desktop.findings_panel import FindingsModel
from stemmap.desktop.findings_table import FindingsTable, finding_columns
from stemmap.desktop.jobs import Jobs
from stemmap.desktop.plots_panel import PlotsPanel
from stemmap.desktop.round import Round
from stemmap.desktop.session import WHOLE_SURVEY, Session, prepare
from stemmap.desktop.stem_columns import stem_columns
from stemmap.desktop.stems_table import StemsTable
from stemmap.desktop.table_model import TableModel
from stemmap.tasks.workup import work_up
from tests.uploads import survey

STEMS = {
    "plot": ["A"] * 5 + ["B"],
    "stem": ["2", "10", "1a", "", "1", "7"],
    "azimuth": [10, 20, 30, 40, 50, 60],
    "distance_m": [5, 3, "", 1, 4, 2],
    "dbh_cm": [20, 30, 40, 50, 10, 15.5],
    "species": ["oak", "Beech", "", "beech", "ash", "oak"],
    "remark": ["", "leans", "", "", "", ""],
    "Quality": ["a", "b", "a", "b", "c", "d"],
}


@pytest.fixture
def jobs(qapp):
    made = Jobs()
    yield made
    made.close()


@pytest.fixture
def small(qapp):
    return Session()


@pytest.fixture
def tables(qtbot, small, jobs):
    """The three tables of a small survey, the first plot selected."""
    made = StemsTable(small, jobs), PlotsPanel(small, Round(small), jobs), FindingsTable(small, jobs)
    for panel in made:
        qtbot.addWidget(panel)
        panel.resize(700, 200)
        panel.show()
    small.show(prepare(work_up(survey(STEMS, {"plot": ["A", "B"]}, settings={"design": {"radius_m": 10.0}}))))
    small.select_visit(0)
    return made


@pytest.fixture
def stems(tables):
    return tables[0]


def texts(panel, title):
    titles = [column.title for column in panel.model.columns]
    return [panel.model.text(row, titles.index(title)) for row in range(panel.model.rowCount())]


def test_models_keep_qt_s_rules(qtmodeltester, small, tables):
    for panel in tables:
        qtmodeltester.check(panel.model)
    findings = FindingsModel(small, tables[0])
    findings.renew()
    assert findings.rowCount()
    qtmodeltester.check(findings)


def test_typed_columns_stand_before_derived_ones(stems):
    groups = [column.group for column in stems.model.columns]
    assert groups == sorted(groups, reverse=True)
    typed = [column.title for column in stems.model.columns if column.group == "typed"]
    assert typed == ["plot", "visit", "stem", "azimuth, °", "distance, m", "dbh, cm", "species", "remark", "Quality"]


def test_headings_tell_their_group_to_a_screen_reader(stems):
    role = Qt.ItemDataRole.AccessibleTextRole
    assert stems.model.headerData(2, Qt.Orientation.Horizontal, role) == "as typed: stem"
    last = len(stems.model.columns) - 1
    assert stems.model.headerData(last, Qt.Orientation.Horizontal, role).startswith("derived: ")


def test_cells_show_what_was_typed(stems):
    assert texts(stems, "stem") == ["2", "10", "1a", "", "1"]
    assert texts(stems, "distance, m")[:5] == ["5", "3", "", "1", "4"]


@pytest.mark.parametrize(
    ("title", "upwards"),
    [
        ("stem", ["1", "1a", "2", "10", ""]),
        ("dbh, cm", ["10", "20", "30", "40", "50"]),
        ("distance, m", ["1", "3", "4", "5", ""]),
        ("species", ["ash", "Beech", "beech", "oak", ""]),
    ],
)
def test_sorting_understands_numbers_and_leaves_gaps_last(stems, title, upwards):
    column = [column.title for column in stems.model.columns].index(title)
    stems.view.sortByColumn(column, Qt.SortOrder.AscendingOrder)
    assert texts(stems, title) == upwards
    stems.view.sortByColumn(column, Qt.SortOrder.DescendingOrder)
    filled = [text for text in upwards if text]
    down = [text.casefold() for text in texts(stems, title)]
    assert down == [*(text.casefold() for text in filled[::-1]), *[""] * (len(upwards) - len(filled))]
    stems.view.sortByColumn(-1, Qt.SortOrder.AscendingOrder)
    assert texts(stems, "stem") == ["2", "10", "1a", "", "1"]


def test_sorted_rows_find_their_stems(stems):
    stems.view.sortByColumn(5, Qt.SortOrder.AscendingOrder)
    shown = stems.model.shown
    assert [shown.place_of(shown.row_at(row)) for row in range(5)] == list(range(5))
    assert shown.place_of(5) == -1


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("beech", ["10", ""]),
        ("BEECH b", ["10", ""]),
        ("lean", ["10"]),
        ("oak plateau", []),
        ("dbh 20", ["2"]),
        ("stem 1", ["1"]),
        ("stem 1a", ["1a"]),
        ("  ", ["2", "10", "1a", "", "1"]),
    ],
)
def test_typing_leaves_the_rows_that_hold_all_words(stems, words, found):
    stems.filter.setText(words)
    assert texts(stems, "stem") == found
    assert stems.count.text() == (f"{len(found)} of 5" if len(found) < 5 else "5")


def test_numbers_are_found_by_how_they_begin(stems):
    stems.all_plots.setChecked(True)
    for typed in ("15.5", "15,5", "dbh 15.5", "dbh 15"):
        stems.filter.setText(typed)
        assert texts(stems, "stem") == ["7"], typed


def test_all_plots_are_filtered_by_plot_and_stem(small, stems):
    stems.find_stem()
    assert not stems.view.isColumnHidden(0)
    stems.filter.setText("plot b stem 7")
    assert texts(stems, "stem") == ["7"]
    stems.view.show_row(0)
    assert (small.visit, small.stem) == (1, 5)


def test_filter_and_order_stay_with_another_plot(small, stems):
    stems.filter.setText("oak")
    small.select_visit(1)
    assert texts(stems, "stem") == ["7"]
    small.select_visit(WHOLE_SURVEY)
    assert texts(stems, "stem") == ["2", "7"]


def test_whole_survey_stays_on_top_of_the_plots(tables):
    plots = tables[1]
    for order in Qt.SortOrder:
        plots.view.sortByColumn(0, order)
        assert texts(plots, "Plot")[0] == "all"
    assert texts(plots, "Plot") == ["all", "B", "A"]
    plots.filter.setText("b")
    assert texts(plots, "Plot")[:1] == ["all"]
    assert "A" not in texts(plots, "Plot") or "borderline" in texts(plots, "State")[-1]


def test_plots_are_sorted_by_what_was_found(session, qtbot, jobs):
    plots = PlotsPanel(session, Round(session), jobs)
    qtbot.addWidget(plots)
    session.replaced.emit()
    plots.view.sortByColumn(2, Qt.SortOrder.AscendingOrder)
    states = texts(plots, "State")[1:]
    assert "error" in states[0]
    assert states[-1] in ("no findings", "empty plot")
    plots.filter.setText("to look")
    assert all("to look" in state for state in texts(plots, "State")[1:])


def test_findings_table_leads_to_plot_and_stem(session, qtbot, jobs):
    table = FindingsTable(session, jobs)
    qtbot.addWidget(table)
    session.replaced.emit()
    findings = session.workup.findings
    assert table.model.rowCount() == len(findings)
    assert texts(table, "sentence") == [told.message for told in findings]
    table.filter.setText("missing")
    assert 0 < table.model.rowCount() < len(findings)
    table.view.show_row(0)
    assert session.selected_finding.check == "dbh-missing"
    assert session.stem == session.selected_finding.stem_row
    assert session.place == table.model.shown.row_at(0)


def test_findings_are_sorted_by_what_a_second_look_is_worth(session, qtbot, jobs):
    table = FindingsTable(session, jobs)
    qtbot.addWidget(table)
    session.replaced.emit()
    titles = [column.title for column in finding_columns(session.workup)]
    worth = session.workup.worth.of_findings
    table.view.sortByColumn(titles.index("worth, %"), Qt.SortOrder.DescendingOrder)

    first = [table.model.shown.row_at(place) for place in range(5)]
    assert worth[first].tolist() == sorted(worth[~np.isnan(worth)], reverse=True)[:5]


def test_selected_stem_is_scrolled_to_in_a_plot_just_selected(session, qtbot, jobs):
    table = StemsTable(session, jobs)
    qtbot.addWidget(table)
    table.resize(600, 180)
    table.show()
    session.replaced.emit()
    survey_ = session.workup.survey
    row = survey_.visit_row("20", "2026")
    rows = survey_.visits.stems(row)
    session.select_visit(row)
    session.select_stem(rows.stop - 1)
    place = table.view.visualRect(table.view.currentIndex())
    assert table.view.viewport().rect().intersects(place)


def test_selected_rows_are_copied_with_headings_and_tabs(stems):
    model = stems.view.selectionModel()
    stems.view.sortByColumn(5, Qt.SortOrder.AscendingOrder)
    flags = QItemSelectionModel.SelectionFlag.Select | QItemSelectionModel.SelectionFlag.Rows
    for row in (3, 0):
        model.select(stems.model.index(row, 2), flags)
    stems.choose_column(7, shown=False)
    stems.copy_rows()
    lines = QGuiApplication.clipboard().text().splitlines()
    assert lines[0].split("\t")[:4] == ["stem", "azimuth, °", "distance, m", "dbh, cm"]
    assert "remark" not in lines[0]
    assert [line.split("\t")[0] for line in lines[1:]] == ["1", "1a"]
    stems.choose_column(7, shown=True)


def test_columns_chosen_are_remembered(qtbot, small, stems, jobs):
    titles = [column.title for column in stems.model.columns]
    place = titles.index("remark")
    stems.choose_column(place, shown=False)
    again = StemsTable(small, jobs)
    qtbot.addWidget(again)
    small.replaced.emit()
    assert again.view.isColumnHidden(place)
    again.choose_column(place, shown=True)
    third = StemsTable(small, jobs)
    qtbot.addWidget(third)
    small.replaced.emit()
    assert not third.view.isColumnHidden(place)
    action = next(one for one in third.columns_menu().actions() if one.text() == "remark")
    assert action.isChecked()


def test_units_of_the_upload_stand_in_the_headings():
    measurement = {"azimuth_unit": "gon", "length_unit": "foot"}
    made = survey(STEMS, {"plot": ["A", "B"]}, settings={"design": {"radius_m": 30}, "measurement": measurement})
    titles = [column.title for column in stem_columns(work_up(made))]
    assert titles[3:6] == ["azimuth, gon", "distance, ft", "dbh, in"]


@pytest.fixture(scope="module")
def large():
    """A workup of 300,000 stems on many plots, with many findings."""
    plots, each = 12_000, 25
    count = plots * each
    rng = np.random.default_rng(5)
    columns = {
        "plot": np.repeat(np.arange(plots), each),
        "stem": np.tile(np.arange(each), plots),
        "azimuth": rng.integers(0, 361, count),
        "distance_m": (12.7 * np.sqrt(rng.random(count))).round(2),
        "species": rng.choice(["oak", "beech", "ash"], count),
    }
    return work_up(survey(columns, {"plot": list(range(plots))}, settings={"design": {"radius_m": 12.0}}))


def test_very_many_stems_are_shown_at_once_and_sorted_elsewhere(qtbot, small, jobs, large):
    small.show(prepare(large))
    table = StemsTable(small, jobs)
    qtbot.addWidget(table)
    table.all_plots.setChecked(True)
    began = perf_counter()
    small.replaced.emit()
    assert perf_counter() - began < 0.2
    assert table.model.rowCount() == len(large.survey.stems)
    began = perf_counter()
    table.view.sortByColumn(3, Qt.SortOrder.AscendingOrder)
    table.model.filter("beech")
    assert perf_counter() - began < 0.1
    assert table.model.waiting
    qtbot.waitUntil(lambda: not table.model.waiting, timeout=20_000)
    species = [column.title for column in table.model.columns].index("species")
    shown = table.model.shown
    assert {table.model.text(row, species) for row in range(0, len(shown), 997)} == {"beech"}
    azimuths = [int(table.model.text(row, 3)) for row in range(0, len(shown), 997)]
    assert azimuths == sorted(azimuths)


def test_rows_are_filtered_and_sorted_by_arrays(large):
    columns = stem_columns(large)
    began = perf_counter()
    found = arrange(columns, Wanted(slice(0, len(large.survey.stems)), words="oak borderline", column=3))
    assert perf_counter() - began < 3.0  # seven times as fast on an idle machine
    assert 0 < len(found) < len(large.survey.stems) / 3


def test_an_older_arrangement_is_not_shown(qtbot, jobs, large):
    model = TableModel("stems", jobs, None)
    model.renew(slice(0, len(large.survey.stems)), columns=stem_columns(large))
    model.filter("oak")
    model.filter("ash")
    qtbot.waitUntil(lambda: not model.waiting, timeout=20_000)
    assert model.shown.wanted.words == "ash"


def test_findings_stay_as_they_were_told_until_the_list_is_renewed(opened):
    session, panel = opened.session, opened.panels.findings_panel
    session.select_visit(next(row for row in range(len(session.workup.survey.visits)) if session.opened.count(row)))
    model = panel.list.model()
    messages = [model.index(row).data() for row in range(model.rowCount())]
    held, session.findings = session.findings, []  # other panels may be painted before this one is told
    assert [model.index(row).data() for row in range(model.rowCount())] == messages
    model.renew()
    assert model.rowCount() == 0
    session.findings = held
    model.renew()
