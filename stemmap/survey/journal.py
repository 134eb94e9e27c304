"""The journal: who decided what, when and why. Entries are only ever added; what holds is folded from them.

Imports nothing heavy: a decision is stored before numpy would be loaded.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from typing import Any, Final, Literal

from stemmap.errors import InputError

#: A day, or a time of a day, which may say how far it is from UTC.
_TIME: Final = re.compile(
    r"\d{4}-\d\d-\d\d(?:[T ](\d\d(?::\d\d(?::\d\d(?:\.\d+)?)?)?)(Z|[+-]\d\d(?::?\d\d)?)?)?", re.ASCII
)
#: What a time of so many characters tells.
_PRECISION: Final = {2: "hours", 5: "minutes", 8: "seconds"}

Decision = Literal["correct", "keep", "recheck", "value", "undo", "redo", "lost"]


@dataclass(frozen=True)
class Change:
    """One value of one stem that a decision changes: its record, its field, the texts before and after."""

    source: int
    line: int
    field: str
    old: str | None
    new: str


@dataclass(frozen=True)
class Entry:
    """One entry of the journal.

    Parameters
    ----------
    entry
        Its number, from 1 without gaps.
    time
        When it was stored, ISO 8601 in UTC.
    who
        Who decided.
    finding
        Id of the finding that was decided.
    plot, visit, stem
        Names as typed; None where the finding names none.
    decision
        correct (a proposal holds), value (another value holds), keep (right as recorded), recheck (send the crew),
        undo, redo; lost: the entry could not be saved from a damaged file.
    field
        Canonical field of `old` and `new`.
    old, new
        Texts of the value before and after; None where nothing changes; of a whole plot, how many values change.
    why
        As given, verbatim.
    source, line
        The record: index of its file or sheet in the survey file, and its line there; None for a whole plot.
    upload
        The newest upload of the plot's visit when it was decided.
    of
        The entry that an undo or redo speaks of.
    changes
        Every value that is changed, of one stem or of all stems of a plot.
    """

    entry: int
    time: str
    who: str
    finding: str
    plot: str | None
    visit: str | None
    stem: str | None
    decision: Decision
    field: str | None
    old: str | None
    new: str | None
    why: str
    source: int | None = None
    line: int | None = None
    upload: int | None = None
    of: int | None = None
    changes: tuple[Change, ...] = ()

    def as_json(self) -> dict[str, Any]:
        """The entry in the form that `stemmap journal --format json` promises."""
        names = ("entry", "time", "who", "finding", "plot", "visit", "stem", "decision", "field", "old", "new", "why")
        told = {name: getattr(self, name) for name in names}
        return told if self.of is None else {**told, "of": self.of}


def moment(text: str) -> int | str:
    """Number of an entry, or a time, from text.

    Returns
    -------
    The number; or the time in UTC as entries have it, as long as it was said: a day, a minute, a second.

    Raises
    ------
    InputError
        When it is neither.
    """
    text = text.strip()
    if text.isascii() and text.isdecimal() and len(text) < 8:
        return int(text)
    said = _TIME.fullmatch(text)
    try:
        time = datetime.fromisoformat(text) if said else None
    except ValueError:
        time = None
    if said is None or time is None:
        raise InputError(
            f"{text!r} is neither the number of a journal entry nor a time; write 12, 2026-11-25 or 2026-11-25T16:30."
        )
    clock, zone = said.groups()
    if clock is None:
        return text
    if zone is not None:
        time = time.astimezone(UTC).replace(tzinfo=None)
    return time.isoformat(timespec=_PRECISION.get(len(clock), "milliseconds"))


def until(entries: Iterable[Entry], moment: int | str) -> tuple[Entry, ...]:
    """The entries up to an entry's number or a time, that one included.

    Parameters
    ----------
    moment
        Number of an entry, or a time as `moment` gives it; a day means its end, a minute its last second.
    """
    if isinstance(moment, int):
        return tuple(entry for entry in entries if entry.entry <= moment)
    return tuple(entry for entry in entries if entry.time[: len(moment)] <= moment)


def standing(entries: Sequence[Entry]) -> dict[str, Entry]:
    """For each decided finding the decision that holds: its last one that is not undone.

    The findings are in the order in which those decisions were made.
    """
    active = _active(entries)
    last: dict[str, Entry] = {}
    for entry in entries:
        if active.get(entry.entry):
            last.pop(entry.finding, None)
            last[entry.finding] = entry
    return last


def _active(entries: Sequence[Entry]) -> dict[int, bool]:
    """Whether each decision holds, by its number; undo, redo and what was lost are left out."""
    active: dict[int, bool] = {}
    lost = {entry.entry for entry in entries if entry.decision == "lost"}
    for entry in entries:
        if entry.entry in lost or entry.of in lost:
            continue
        if entry.of is None:
            active[entry.entry] = True
        else:
            active[entry.of] = entry.decision == "redo"
    return active


def to_undo(entries: Sequence[Entry], number: int | None = None) -> Entry:
    """The decision that an undo means: the numbered one, else the last that holds.

    Raises
    ------
    InputError
        When there is none.
    """
    active = _active(entries)
    if number is None:
        number = max((each for each, holds in active.items() if holds), default=None)
        if number is None:
            raise InputError("There is nothing to undo: no decision holds.")
    if number not in active:
        raise InputError(f"Entry {number} is no decision, so it cannot be undone; the journal shows them.")
    if not active[number]:
        raise InputError(f"Entry {number} is undone already.")
    return next(entry for entry in entries if entry.entry == number)


def to_redo(entries: Sequence[Entry], number: int | None = None) -> Entry:
    """The decision that a redo means: the numbered one, else the one undone last, if nothing was decided since.

    Raises
    ------
    InputError
        When there is none.
    """
    active = _active(entries)
    if number is None:
        for entry in reversed(entries):
            if entry.of is None:
                break
            if entry.decision == "undo" and active.get(entry.of) is False:
                number = entry.of
                break
        if number is None:
            raise InputError("There is nothing to redo: nothing was undone since the last decision.")
    if active.get(number) is not False:
        raise InputError(f"Entry {number} is not undone, so it cannot be redone.")
    return next(entry for entry in entries if entry.entry == number)


def turned(entry: Entry, decision: Literal["undo", "redo"], *, who: str, why: str) -> Entry:
    """The entry that undoes or redoes a decision; number and time are given when it is stored."""
    old, new = (entry.new, entry.old) if decision == "undo" else (entry.old, entry.new)
    return replace(
        entry,
        entry=0,
        time="",
        who=who,
        decision=decision,
        old=old,
        new=new,
        why=why,
        of=entry.entry,
        changes=(),
    )
