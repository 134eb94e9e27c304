"""Stems that carry the same number as on the last visit."""

import numpy as np
from numpy.typing import NDArray

from stemmap.survey.last_visit import last_records
from stemmap.survey.registry import Case


def same_number(case: Case) -> NDArray[np.int64]:
    """Row of the same tree and stem number on the plot's visit before, -1 for none; shape (stems,)."""
    return last_records(case.survey, case.measured)
