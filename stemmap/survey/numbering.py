"""The order in which stems are numbered."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from stemmap.survey.survey import Survey

#: Where fewer stems than this share bear a plain number, numbers tell no order.
_PLAIN = 0.9


def in_order(survey: Survey, rows: NDArray[np.int64]) -> NDArray[np.int64]:
    """Rows of stems by visit and number; stems without a plain number in the order of the upload.

    Parameters
    ----------
    survey
        The survey.
    rows
        Rows of the stems wanted, in the order of the upload; shape (n,).
    """
    stems = survey.stems
    keys: list[NDArray[np.generic]] = [rows]
    for name in ("stem", "tree"):
        column = stems.records.columns.get(name)
        if column is None:
            continue
        codes, place = np.unique(column.codes[rows], return_inverse=True)
        texts = ["" if code < 0 else str(column.labels[code]).strip() for code in codes.tolist()]
        number = np.array([float(text) if text.isdecimal() else np.nan for text in texts])[place]
        if np.isfinite(number).sum() > _PLAIN * len(number):
            keys.append(np.where(np.isfinite(number), number, np.inf))
    ordered: NDArray[np.int64] = rows[np.lexsort((*keys, stems.visit_row[rows]))]
    return ordered
