"""The lists of plots, stems and findings read columns; they copy nothing."""

from time import perf_counter

import numpy as np
import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from stemmap.desktop.findings_panel import FindingsModel
from stemmap.desktop.plots_panel import PlotsModel
from stemmap.desktop.round import Round
from stemmap.desktop.session import WHOLE_SURVEY, Session, prepare
from stemmap.desktop.stems_table import StemsModel
from stemmap.tasks.workup import work_up
from tests.uploads import survey

STEMS = {
    "plot": ["A"] * 5 + ["B"],
    "stem": ["2", "10", "1a", "", "1", "7"],
    "azimuth": [10, 20, 30, 40, 50, 60],
    "distance_m": [5, 3, "", 1, 4, 2],
    "dbh_cm": [20, 30, 40, 50, 10, 15],
    "species": ["oak", "Beech", "", "beech", "ash", "oak"],
    "remark": ["", "leans", "", "", "", ""],
    "Quality": ["a", "b", "a", "b", "c", "d"],
}


@pytest.fixture
def small(qapp):
    made = Session()
    made.show(prepare(work_up(survey(STEMS, {"plot": ["A", "B"]}, settings={"design": {"radius_m": 10.0}}))))
    made.select_visit(0)
    return made


@pytest.fixture
def owner(qtbot):
    made = QWidget()
    qtbot.addWidget(made)
    return made


@pytest.fixture
def stems(small, owner):
    made = StemsModel(small, owner)
    made.renew(columns=True)
    return made


def texts(model, title):
    titles = [column.title for column in model.columns]
    return [model.index(row, titles.index(title)).data() for row in range(model.rowCount())]


def test_models_keep_qt_s_rules(qtmodeltester, small, owner, stems):
    for model in (stems, PlotsModel(small, Round(small), owner), FindingsModel(small, owner)):
        qtmodeltester.check(model)


def test_typed_columns_stand_before_derived_ones(stems):
    groups = [column.group for column in stems.columns]
    assert groups == sorted(groups, reverse=True)
    typed = [column.title for column in stems.columns if column.group == "typed"]
    assert typed == ["stem", "azimuth, °", "distance, m", "dbh, cm", "species", "remark", "Quality"]


def test_headings_tell_their_group_to_a_screen_reader(stems):
    role = Qt.ItemDataRole.AccessibleTextRole
    assert stems.headerData(0, Qt.Orientation.Horizontal, role) == "as typed: stem"
    assert stems.headerData(len(stems.columns) - 1, Qt.Orientation.Horizontal, role).startswith("derived: ")


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
    column = [column.title for column in stems.columns].index(title)
    stems.sort(column)
    assert texts(stems, title) == upwards
    stems.sort(column, Qt.SortOrder.DescendingOrder)
    if title in ("dbh, cm", "distance, m"):
        filled = [text for text in upwards if text]
        assert texts(stems, title) == [*filled[::-1], *[""] * (len(upwards) - len(filled))]
    stems.sort(-1)
    assert texts(stems, "stem") == ["2", "10", "1a", "", "1"]


def test_sorted_rows_find_their_stems(stems):
    stems.sort(3)
    assert [stems.row_of(stems.stem_at(row)) for row in range(5)] == list(range(5))
    assert stems.row_of(5) == -1


def test_whole_survey_has_no_stems_to_show(small, stems):
    small.select_visit(WHOLE_SURVEY)
    stems.renew(columns=False)
    assert stems.rowCount() == 0


def test_units_of_the_upload_stand_in_the_headings(qapp, owner):
    session = Session()
    measurement = {"azimuth_unit": "gon", "length_unit": "foot"}
    made = survey(STEMS, {"plot": ["A", "B"]}, settings={"design": {"radius_m": 30}, "measurement": measurement})
    session.show(prepare(work_up(made)))
    model = StemsModel(session, owner)
    model.renew(columns=True)
    assert [column.title for column in model.columns][1:4] == ["azimuth, gon", "distance, ft", "dbh, in"]


def test_a_plot_with_very_many_stems_is_shown_and_sorted_at_once(qapp, owner):
    count = 300_000
    rng = np.random.default_rng(5)
    columns = {"plot": ["A"] * count, "azimuth": rng.integers(0, 360, count), "distance_m": rng.integers(1, 15, count)}
    session = Session()
    session.show(prepare(work_up(survey(columns, {"plot": ["A"]}, settings={"design": {"radius_m": 12.0}}))))
    model = StemsModel(session, owner)
    began = perf_counter()
    model.renew(columns=True)
    assert perf_counter() - began < 0.1
    assert model.rowCount() == count
    began = perf_counter()
    model.sort(1)
    assert perf_counter() - began < 0.3
    assert model.index(count - 1, 1).data() == "14"
