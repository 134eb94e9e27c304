"""A survey of which some visits are withheld."""

import numpy as np

from stemmap.survey.withheld import by_number, without_values
from tests.uploads import survey


def made():
    return survey(
        {
            "plot": ["A", "A", "A", "B", "B"],
            "visit": ["2021", "2026", "2026", "2026", "2026"],
            "tree": ["1", "1", "1", "x", ""],
            "stem": ["1", "10", "9", "2", "1"],
            "azimuth": [10, 20, 30, 40, 50],
            "distance_m": [1, 2, 3, 4, 5],
            "species": ["oak", "oak", "fir", "fir", "oak"],
            "note": ["a", "b", "c", "d", "e"],
        }
    )


def test_of_a_withheld_visit_only_the_numbers_are_left():
    whole = made()
    row = whole.visit_row("A", "2026")
    part = without_values(whole, [row])
    rows = whole.visits.stems(row)
    assert np.isnan(part.stems.numbers("azimuth")[rows]).all()
    assert part.stems.texts("species")[rows].tolist() == ["", ""]
    assert part.stems.records.other["note"].texts[rows].tolist() == ["", ""]
    assert part.stems.texts("stem")[rows].tolist() == ["9", "10"]
    assert part.visits.previous[row] == -1


def test_every_other_visit_is_as_it_was():
    whole = made()
    row = whole.visit_row("A", "2026")
    part = without_values(whole, [row])
    others = np.flatnonzero(whole.stems.visit_row != row)
    for name in whole.stems.records.columns:
        assert part.stems.texts(name)[others].tolist() == whole.stems.texts(name)[others].tolist()
    assert part.visits.previous[part.visit_row("A", "2021")] == whole.visits.previous[whole.visit_row("A", "2021")]


def test_numbers_are_ordered_as_numbers_and_texts_come_after_them():
    whole = made()
    rows = by_number(whole, whole.visit_row("A", "2026"))
    assert whole.stems.texts("stem")[rows].tolist() == ["9", "10"]
    rows = by_number(whole, whole.visit_row("B", "2026"))
    assert whole.stems.texts("stem")[rows].tolist() == ["1", "2"]
