"""Dates as people type them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np
from numpy.typing import NDArray

from stemmap.reading.headings import fold

#: First letters of the months in English, German, French, Spanish, Finnish and Swedish, folded.
_MONTHS = (
    ("jan", "janv", "ene", "tammi"),
    ("feb", "fev", "helmi"),
    ("mar", "mrz", "maerz", "maalis"),
    ("apr", "avr", "abr", "huhti"),
    ("may", "mai", "maj", "touko"),
    ("jun", "juin", "kesa"),
    ("jul", "juil", "heina"),
    ("aug", "aou", "ago", "elo"),
    ("sep", "set", "syys"),
    ("oct", "okt", "loka"),
    ("nov", "marras"),
    ("dec", "dez", "dic", "joulu"),
)
_MONTH_OF = {start: number for number, starts in enumerate(_MONTHS, 1) for start in starts}
_TIME = re.compile(
    r"[T ,]\s*\d{1,2}[:.]\d{2}(?:[:.]\d{2}(?:[.,]\d+)?)?\s*(?:[ap]\.?m\.?)?\s*(?:Z|[+-]\d{2}:?\d{2})?$", re.IGNORECASE
)
_YEAR_FIRST = re.compile(r"(\d{4})([-/.])(\d{1,2})\2(\d{1,2})")
_COMPACT = re.compile(r"((?:19|20)\d{2})(\d{2})(\d{2})")
_YEAR_LAST = re.compile(r"(\d{1,2})\s*([./-])\s*(\d{1,2})\s*\2\s*(\d{4}|\d{2})")
_NAMED = re.compile(
    r"(\d{1,2})[. /-]*(?:de )?([^\W\d]+)[. ,/-]*(?:de )?(\d{4}|\d{2})|([^\W\d]+)[. ]*(\d{1,2})[,. ]+(\d{4})"
)
_SERIAL = re.compile(r"[2-6]\d{4}(\.\d+)?")
_YEAR = re.compile(r"(?:18|19|20|21)\d{2}")
_MISSING = np.datetime64("NaT", "D")


@dataclass(frozen=True)
class DatesRead:
    """What was read from the distinct texts of a column of dates.

    Parameters
    ----------
    values
        Day for each text, NaT where it is none; shape (k,).
    ambiguous
        A text whose day and month nothing settles; empty when there is none.
    serial
        A text that was read as a day number of a spreadsheet; empty when there is none.
    """

    values: NDArray[np.datetime64]
    ambiguous: str = ""
    serial: str = ""


def only_years(labels: NDArray[np.object_]) -> bool:
    """Whether every text that is not blank is a year alone."""
    texts = [text for label in labels.tolist() if (text := str(label).strip())]
    return bool(texts) and all(_YEAR.fullmatch(text) for text in texts)


def read_dates(labels: NDArray[np.object_]) -> DatesRead:
    """Days of the distinct texts of one column. The time of day is left out.

    Year first, or day before month with points; with slashes or hyphens and the year last, the column shows which of
    day and month comes first, else the day is assumed to.
    """
    days: list[date | None] = []
    swappable: list[tuple[int, int, int, int]] = []
    first_over = second_over = False
    serial = ""
    for place, label in enumerate(labels.tolist()):
        text = _TIME.sub("", str(label).strip()).strip()
        day = None
        match = _YEAR_LAST.fullmatch(text)
        if match is None:
            day = _one(text)
            if day is None and _SERIAL.fullmatch(text):
                day, serial = date(1899, 12, 30) + timedelta(days=int(float(text))), serial or label
        elif match[2] == ".":
            day = _day(match[4], match[3], match[1])
        else:
            first, second = int(match[1]), int(match[3])
            first_over |= 12 < first <= 31
            second_over |= 12 < second <= 31
            swappable.append((place, first, second, _full_year(match[4])))
        days.append(day)
    month_first = second_over and not first_over
    ambiguous = ""
    for place, first, second, year in swappable:
        swap = month_first if first <= 12 and second <= 12 else second > 12
        days[place] = _day(year, first, second) if swap else _day(year, second, first)
        if first_over == second_over and first <= 12 and second <= 12 and first != second:
            ambiguous = ambiguous or str(labels[place])
    values = np.array([_MISSING if day is None else np.datetime64(day, "D") for day in days], "datetime64[D]")
    return DatesRead(values, ambiguous, serial)


def _one(text: str) -> date | None:
    """A day that explains itself."""
    if match := _YEAR_FIRST.fullmatch(text):
        return _day(match[1], match[3], match[4])
    if match := _COMPACT.fullmatch(text):
        return _day(match[1], match[2], match[3])
    if match := _NAMED.fullmatch(text):
        day, name, year = (match[1], match[2], match[3]) if match[1] else (match[5], match[4], match[6])
        month = _month(name)
        return None if month is None else _day(_full_year(year), month, day)
    return None


def _month(name: str) -> int | None:
    folded = fold(name)
    fitting = [(len(start), number) for start, number in _MONTH_OF.items() if folded.startswith(start)]
    return max(fitting)[1] if fitting else None


def _full_year(year: str) -> int:
    """A year of two digits lies between 1970 and 2069."""
    number = int(year)
    return number if len(year) == 4 else number + (2000 if number < 70 else 1900)


def _day(year: str | int, month: str | int, day: str | int) -> date | None:
    number = _full_year(year) if isinstance(year, str) else year
    try:
        return date(number, int(month), int(day))
    except ValueError:
        return None
