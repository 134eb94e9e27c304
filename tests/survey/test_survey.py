"""Records are put together as plots, visits and stems, and none is lost."""

from collections import Counter

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stemmap.survey.settings import parse_settings
from tests.uploads import survey


def rows(made):
    """Plot, visit and number of stems of every visit."""
    visits = made.visits
    return list(zip(visits.plot.tolist(), visits.visit.tolist(), visits.stem_count.tolist(), strict=True))


# Visits


def test_empty_upload_has_no_visits():
    made = survey()
    assert len(made.visits) == 0
    assert len(made.stems) == 0
    assert made.visits.first_stem.tolist() == [0]
    assert made.visits.previous.shape == (0,)
    assert made.visit_row("1") == -1


def test_stems_alone_make_their_plots():
    made = survey({"plot": ["b", "a", "b"], "stem": [1, 1, 2]})
    assert rows(made) == [("b", "", 2), ("a", "", 1)]
    assert not made.visits.described.any()


def test_plots_alone_are_visits_without_stems():
    made = survey(plots={"plot": ["2", "1"], "radius_m": [10, 8]})
    assert rows(made) == [("2", "", 0), ("1", "", 0)]
    assert made.visits.described.all()
    assert made.visits.numbers("radius_m").tolist() == [10.0, 8.0]


def test_one_plot_with_one_stem():
    made = survey({"plot": ["1"], "stem": ["1"]}, {"plot": ["1"]})
    assert rows(made) == [("1", "", 1)]
    assert made.visits.first_stem.tolist() == [0, 1]


def test_space_around_a_plot_number_makes_no_other_plot():
    made = survey({"plot": ["7", " 7 "], "stem": [1, 2]}, {"plot": ["7 "], "radius_m": [9]})
    assert rows(made) == [("7", "", 2)]
    assert made.visits.numbers("radius_m").tolist() == [9.0]


def test_plots_come_in_the_order_of_the_upload_and_stems_too():
    made = survey({"plot": ["z", "a", "z", "m"], "stem": [3, 1, 1, 5]}, {"plot": ["z", "a", "m"]})
    assert made.visits.plot.tolist() == ["z", "a", "m"]
    assert made.stems.texts("stem").tolist() == ["3", "1", "1", "5"]
    assert [made.visits.stems(row) for row in range(3)] == [slice(0, 2), slice(2, 3), slice(3, 4)]


def test_visits_of_a_plot_follow_time():
    stems = {
        "plot": [1, 1, 2, 1],
        "visit": ["second", "first", "first", "third"],
        "date": ["2021-06-01", "2016-06-01", "2016-07-01", "2026-06-01"],
    }
    made = survey(stems)
    assert rows(made) == [("1", "first", 1), ("1", "second", 1), ("1", "third", 1), ("2", "first", 1)]
    assert made.visits.previous.tolist() == [-1, 0, 1, -1]
    assert made.visit_row("1") == 2
    assert made.visit_row("1", "first") == 0
    assert made.visit_row("1", "fourth") == -1


def test_visits_without_dates_follow_their_numbers():
    made = survey({"plot": [1, 1, 1], "visit": ["cycle 10", "cycle 9", "cycle 2"]})
    assert made.visits.visit.tolist() == ["cycle 2", "cycle 9", "cycle 10"]


def test_a_date_on_one_visit_only_tells_no_order():
    made = survey({"plot": [1, 1], "visit": ["2026", "2021"]}, {"plot": [1], "visit": ["2026"], "date": ["2026-05-01"]})
    assert made.visits.visit.tolist() == ["2021", "2026"]


def test_plot_row_without_visit_holds_for_all_visits():
    made = survey(
        {"plot": [1, 1], "visit": ["2021", "2026"]},
        {"plot": [1, 1], "visit": ["", "2026"], "radius_m": [12.62, None], "crew": ["", "north"]},
    )
    assert rows(made) == [("1", "2021", 1), ("1", "2026", 1)]
    assert made.visits.numbers("radius_m").tolist() == [12.62, 12.62]
    assert made.visits.texts("crew").tolist() == ["", "north"]
    assert [made.visits.text("crew", row) for row in range(2)] == ["", "north"]
    assert made.visits.text("stratum", 0) == ""
    assert made.visits.special.tolist() == [-1, 1]
    assert made.visits.general.tolist() == [0, 0]
    assert made.visits.of_record.tolist() == [0, 1]


def test_stems_without_visit_belong_to_the_only_visit_of_their_plot():
    made = survey({"plot": [1, 2]}, {"plot": [1, 2, 2], "visit": ["2026", "2021", "2026"]})
    assert rows(made) == [("1", "2026", 1), ("2", "", 1), ("2", "2021", 0), ("2", "2026", 0)]


def test_row_of_a_visit_that_no_stem_names_is_a_visit():
    made = survey({"plot": [1], "visit": ["2021"]}, {"plot": [1, 1], "visit": ["2021", "2026"]})
    assert rows(made) == [("1", "2021", 1), ("1", "2026", 0)]


# Visits by date


@pytest.mark.parametrize(("days", "visits"), [(0, 1), (1, 1), (182, 1), (183, 2), (1826, 2)])
def test_dates_within_half_a_year_are_one_visit(days, visits):
    first = np.datetime64("2021-05-10")
    made = survey({"plot": [1, 1], "date": [first, first + days]})
    assert len(made.visits) == visits
    assert made.visits.visit[0] == "2021-05-10"
    assert made.visits.date[0] == first


@pytest.mark.parametrize(("name", "date"), [("10.05.2021", ""), ("2021-05-10", ""), ("2021", "2021-05-10")])
def test_a_date_that_is_the_name_of_the_visit_is_not_said_twice(name, date):
    made = survey({"plot": [1], "visit": [name], "date": [np.datetime64("2021-05-10")]})
    assert made.visits.unsaid_date(0) == date


def test_visit_column_stands_above_dates():
    made = survey({"plot": [1, 1], "visit": ["a", "b"], "date": ["2021-05-10", "2021-05-11"]})
    assert made.visits.visit.tolist() == ["a", "b"]


def test_date_that_was_not_understood_stays_with_the_last_visit():
    made = survey({"plot": [1, 1, 1], "date": ["2021-05-10", "soon", "2026-05-10"]})
    assert rows(made) == [("1", "2021-05-10", 1), ("1", "2026-05-10", 2)]


def test_one_dated_plot_row_holds_for_all_dates_of_its_stems():
    made = survey({"plot": [1, 1], "date": ["2021-05-10", "2026-05-10"]}, {"plot": [1], "date": ["2026-05-10"]})
    assert len(made.visits) == 2
    assert made.visits.general.tolist() == [0, 0]


def test_plot_rows_of_several_dates_join_the_stems_of_their_time():
    made = survey(
        {"plot": [1, 1, 1], "date": ["2021-05-10", "2021-06-01", "2026-05-10"]},
        {"plot": [1, 1], "date": ["2026-05-12", "2021-05-11"], "crew": ["south", "north"]},
    )
    assert rows(made) == [("1", "2021-05-10", 2), ("1", "2026-05-10", 1)]
    assert made.visits.texts("crew").tolist() == ["north", "south"]


def test_named_plot_row_names_the_visit_of_its_date():
    made = survey(
        {"plot": [1, 1], "date": ["2021-05-10", "2026-05-10"]},
        {"plot": [1, 1], "visit": ["cycle 3", "cycle 4"], "date": ["2021-05-11", "2026-05-12"]},
    )
    assert rows(made) == [("1", "cycle 3", 1), ("1", "cycle 4", 1)]


def test_dated_plot_rows_find_the_visits_that_stems_name():
    made = survey(
        {"plot": [1, 1], "visit": ["2021", "2026"], "date": ["2021-05-10", "2026-05-10"]},
        {"plot": [1, 1], "date": ["2026-05-12", "2021-05-11"], "crew": ["south", "north"]},
    )
    assert rows(made) == [("1", "2021", 1), ("1", "2026", 1)]
    assert made.visits.texts("crew").tolist() == ["north", "south"]


# Stems


def test_stem_without_plot_is_kept_apart():
    made = survey({"plot": ["1", "", "1"], "stem": [1, 2, 3]})
    assert made.stems.texts("stem").tolist() == ["1", "3"]
    assert made.unplaced.texts("stem").tolist() == ["2"]
    assert made.unplaced.line.tolist() == [3]


def test_upload_without_plot_column_places_no_stem():
    made = survey({"stem": [1, 2]})
    assert len(made.stems) == 0
    assert len(made.unplaced) == 2


def test_label_is_the_stem_number_else_the_trees():
    made = survey({"plot": [1, 1, 1], "tree": ["4", "5", ""], "stem": ["a", "", ""]})
    assert [made.stems.label(row) for row in range(3)] == ["a", "5", ""]
    assert survey({"plot": [1]}).stems.label(0) == ""


def test_forks_share_a_tree_and_differ_in_stem():
    made = survey({"plot": [1, 1, 1], "tree": [5, 5, 5], "stem": [1, 2, 2]})
    assert len(set(made.stems.number_code.tolist())) == 2
    assert made.stems.occurrence.tolist() == [1, 1, 2]
    assert [made.stems.key(row) for row in range(3)] == ["5.1", "5.2", "5.2~2"]


def test_space_around_a_number_makes_no_other_number():
    made = survey({"plot": [1, 1], "stem": ["7", " 7 "]})
    assert made.stems.occurrence.tolist() == [1, 2]


def test_numbers_are_counted_visit_by_visit():
    made = survey({"plot": [1, 1, 2], "visit": ["a", "b", "a"], "stem": [1, 1, 1]})
    assert made.stems.occurrence.tolist() == [1, 1, 1]


def test_stems_without_number_are_told_apart_by_their_order():
    made = survey({"plot": [1, 1], "stem": ["", ""]})
    assert made.stems.number_code.tolist() == [-1, -1]
    assert [made.stems.key(row) for row in range(2)] == ["-", "-~2"]


def test_keys_differ_where_numbers_differ():
    trees = ["1.2", "1", "1", "", "1~2", "-", "", "a b", "a/b"]
    numbers = ["3", "2.3", "", "1", "", "", "", "", ""]
    made = survey({"plot": [1] * len(trees), "tree": trees, "stem": numbers})
    keys = [made.stems.key(row) for row in range(len(trees))]
    assert len(set(keys)) == len(keys)
    assert not any(set(key) & set(" /\t") for key in keys)


def test_other_settings_leave_the_records_alone():
    made = survey({"plot": [1], "azimuth": [100]})
    turned = made.under(parse_settings({"measurement": {"azimuth_unit": "gon"}}))
    assert turned.stems is made.stems
    assert turned.settings.measurement.azimuth_unit == "gon"


# Whatever is uploaded

NAMES = st.sampled_from(["", "1", " 1 ", "2", "10", "A-1", "é"])
STEM = st.tuples(NAMES, st.sampled_from(["", "2021", "2026"]), st.sampled_from(["", "1", "2"]))
PLOT = st.tuples(NAMES, st.sampled_from(["", "2021", "2026"]))
DATE = st.sampled_from(["", "2021-05-01", "2021-07-01", "2026-05-01", "soon"])


def columns(table, names):
    return {name: [row[place] for row in table] for place, name in enumerate(names)}


def check_offsets(made, stems):
    visits = made.visits
    assert sorted([*made.stems.records.line, *made.unplaced.line]) == list(range(2, len(stems) + 2))
    assert visits.first_stem[0] == 0
    assert visits.first_stem[-1] == len(made.stems)
    assert (np.diff(visits.first_stem) >= 0).all()
    np.testing.assert_array_equal(made.stems.visit_row, np.repeat(np.arange(len(visits)), visits.stem_count))
    typed = [str(name).strip() for name in made.stems.texts("plot")]
    assert visits.plot[made.stems.visit_row].tolist() == typed
    assert len(set(zip(visits.plot, visits.visit, strict=True))) == len(visits)
    for row, previous in enumerate(visits.previous):
        assert previous == -1 or (previous == row - 1 and visits.plot[previous] == visits.plot[row])
    assert [plot for plot in visits.plot if plot == ""] == []


@given(st.lists(STEM, max_size=12), st.lists(PLOT, max_size=6))
def test_every_stem_is_placed_once_or_kept_apart(stems, plots):
    made = survey(columns(stems, ("plot", "visit", "stem")), columns(plots, ("plot", "visit")))
    check_offsets(made, stems)


@given(st.lists(st.tuples(NAMES, DATE), max_size=12), st.lists(st.tuples(NAMES, DATE), max_size=6))
def test_every_stem_is_placed_once_where_dates_make_the_visits(stems, plots):
    made = survey(columns(stems, ("plot", "date")), columns(plots, ("plot", "date")))
    check_offsets(made, stems)


@given(st.lists(STEM, max_size=12), st.lists(PLOT, max_size=6, unique=True), st.randoms(use_true_random=False))
def test_order_of_the_upload_changes_no_visit(stems, plots, random):
    def content(made):
        stem = zip(
            made.visits.plot[made.stems.visit_row],
            made.visits.visit[made.stems.visit_row],
            made.stems.texts("stem"),
            strict=True,
        )
        return Counter(zip(made.visits.plot, made.visits.visit, strict=True)), Counter(stem)

    names = ("plot", "visit", "stem"), ("plot", "visit")
    before = content(survey(columns(stems, names[0]), columns(plots, names[1])))
    random.shuffle(stems)
    random.shuffle(plots)
    assert content(survey(columns(stems, names[0]), columns(plots, names[1]))) == before
