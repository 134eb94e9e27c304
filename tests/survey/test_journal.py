"""Moments of the journal: what a user may write, and which entries stood then."""

from __future__ import annotations

import pytest

from stemmap.errors import InputError
from stemmap.survey.journal import Entry, moment, until

TIMES = ("2026-11-24T23:59:59.999Z", "2026-11-25T20:46:30.844Z", "2026-11-25T20:50:00.000Z", "2026-11-26T00:00:00.000Z")
ENTRIES = tuple(
    Entry(number, time, "Ida", "1/2026/4/mistyped/azimuth", "1", "2026", "4", "keep", "azimuth", None, None, "")
    for number, time in enumerate(TIMES, start=1)
)


@pytest.mark.parametrize(
    ("text", "last"),
    [
        ("0", 0),
        ("2", 2),
        ("2026-11-24", 1),
        ("2026-11-25", 3),
        ("2026-11-25T20", 3),
        ("2026-11-25T20:46", 2),
        ("2026-11-25 20:46", 2),
        ("2026-11-25T20:46:29", 1),
        ("2026-11-25T20:46:30", 2),
        ("2026-11-25T20:46:30.843", 1),
        ("2026-11-25T20:46:30.844Z", 2),
        ("2026-11-25T20:46Z", 2),
        ("2026-11-25T21:46+01:00", 2),
        ("2026-11-25 21:50+01", 3),
        ("2026-11-25T02:16-1830", 2),
        (" 2026-11-26T00:59:59+01:00 ", 3),
    ],
)
def test_a_moment_is_a_number_or_a_time_however_it_is_written(text, last):
    assert [entry.entry for entry in until(ENTRIES, moment(text))] == list(range(1, last + 1))


@pytest.mark.parametrize(
    "text",
    ["", "-1", "1.5", "now", "25.11.2026", "20261125", "20261125T2046", "2026-W48-3", "2026-02-30", "2026-11-25T25:00"],
)
def test_what_is_neither_is_refused_and_never_compared_as_text(text):
    with pytest.raises(InputError, match="neither the number of a journal entry nor a time"):
        moment(text)
