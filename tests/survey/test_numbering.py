"""Stems in the order of their numbers."""

import numpy as np

from stemmap.survey.numbering import in_order
from tests.uploads import survey


def numbered(*stems):
    return survey(stems={"plot": ["A"] * len(stems), "stem": stems, "azimuth": [1] * len(stems)})


def test_numbers_are_ordered_as_numbers():
    assert in_order(numbered("10", "9", "1"), np.arange(3)).tolist() == [2, 1, 0]


def test_no_stems_are_in_order():
    assert in_order(numbered("10", "9", "1"), np.zeros(0, np.int64)).tolist() == []
