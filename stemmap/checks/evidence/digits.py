"""Last digits of the diameters."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from stemmap.survey.records import Column
from stemmap.survey.registry import Case

#: Share of diameters that have so many decimals, for these to be the rule.
_RULE = 0.2


def last_digits(case: Case) -> dict[str, NDArray[np.int64]]:
    """Last digit by stem of each column of dbh that is fine enough, -1 without one; shape (stems,) each."""
    digits = {}
    for name, least in (("dbh_cm", 1), ("dbh_mm", 0)):
        column = case.survey.stems.records.columns.get(name)
        digit = None if column is None else _last_digits(column, least)
        if digit is not None:
            digits[name] = digit
    return digits


def _last_digits(column: Column, least: int) -> NDArray[np.int64] | None:
    """Last digit by row at the resolution of the column, -1 without one; None where it has fewer decimals than that."""
    texts = [str(label).strip().replace(",", ".") for label in column.labels]
    places = np.array([*(len(text.partition(".")[2]) for text in texts), 0])
    filled = column.codes[column.filled]
    count = np.bincount(places[filled], minlength=least + 1)
    rule = np.flatnonzero(count >= _RULE * max(len(filled), 1))
    resolution = int(rule.max(initial=0))
    if resolution < least or not len(filled):
        return None
    values = column.numbers
    usable = np.isfinite(values) & (values > 0.0)
    scaled = np.rint(np.where(usable, values, 0.0) * 10.0**resolution)
    return np.where(usable & (scaled < 2.0**53), np.mod(scaled, 10.0), -1.0).astype(np.int64)
