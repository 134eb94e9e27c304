"""The same stem on the last visit, by its number."""

from stemmap.survey.last_visit import last_records
from stemmap.survey.measured import measure
from tests.uploads import survey


def last_of(stems):
    made = survey(stems, settings={"design": {"radius_m": 10}})
    return last_records(made, measure(made)).tolist()


def visits(first, second, **rest):
    """Two visits of a plot; stems as (number, azimuth, distance)."""
    both = [*first, *second]
    return {
        "plot": [1] * len(both),
        "visit": ["a"] * len(first) + ["b"] * len(second),
        "stem": [number for number, _, _ in both],
        "azimuth": [azimuth for _, azimuth, _ in both],
        "distance_m": [distance for _, _, distance in both],
        **rest,
    }


def test_stem_has_the_record_of_its_number_on_the_visit_before():
    first, second = [(1, 10, 5), (2, 50, 6), (3, 90, 7)], [(3, 90, 7), (1, 11, 5), (4, 200, 5)]
    assert last_of(visits(first, second)) == [-1, -1, -1, 2, 0, -1]


def test_number_that_occurs_twice_names_no_stem():
    assert last_of(visits([(1, 10, 5), (1, 50, 6)], [(1, 10, 5)])) == [-1, -1, -1]
    assert last_of(visits([(1, 10, 5)], [(1, 10, 5), (1, 50, 6)])) == [-1, -1, -1]


def test_numbers_given_anew_name_no_stem():
    first = [(1, 10, 5), (2, 50, 6), (3, 90, 7)]
    assert last_of(visits(first, [(1, 90, 7), (2, 10, 5), (3, 90, 7)])) == [-1] * 6


def test_number_that_stands_elsewhere_names_no_stem():
    first = [(1, 10, 5), (2, 50, 6), (3, 90, 7)]
    assert last_of(visits(first, [(1, 10, 5), (2, 50, 6), (3, 140, 7)])) == [-1, -1, -1, 0, 1, -1]


def test_stem_that_was_not_placed_again_keeps_its_number():
    assert last_of(visits([(1, 10, 5)], [(1, "", "")])) == [-1, 0]


def test_stems_without_numbers_and_plots_of_one_visit_have_no_last_record():
    assert last_of(visits([("", 10, 5)], [("", 10, 5)])) == [-1, -1]
    assert last_of({"plot": [1, 2], "stem": [1, 1], "azimuth": [10, 10], "distance_m": [5, 5]}) == [-1, -1]


def test_other_plots_numbers_are_other_stems():
    stems = visits([(1, 10, 5)], [(1, 10, 5)], plot=[1, 2])
    assert last_of(stems) == [-1, -1]
