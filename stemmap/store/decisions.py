"""The journal in the survey file: entries are added one by one, each acknowledged only when it is on the disk."""

from __future__ import annotations

import hashlib
import json
import sqlite3
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import astuple, dataclass, replace
from typing import Any, Literal

from stemmap.errors import InputError
from stemmap.store.schema import Altered, quoted
from stemmap.store.survey_file import SurveyFile, now, told
from stemmap.survey.fields import FIELDS, typed_number
from stemmap.survey.journal import Change, Decision, Entry, standing, to_redo, to_undo, turned

_COLUMNS = (
    "time",
    "who",
    "finding",
    "plot",
    "visit",
    "stem",
    "decision",
    "field",
    "old",
    "new",
    "why",
    "source",
    "line",
    "upload",
    "of",
    "changes",
)
_SELECT = f"SELECT entry, {', '.join(_COLUMNS)}, seal FROM journal"


class FindingUnknown(InputError):
    """The survey file lists no such finding; its layers may be older than its decisions."""


@dataclass(frozen=True)
class Request:
    """A decision as asked for.

    Parameters
    ----------
    finding
        Id of the finding.
    decision
        correct, correct=N (the Nth proposal), keep, recheck, or value=X.
    why, who
        Reason, verbatim, and who decides.
    """

    finding: str
    decision: str
    why: str
    who: str


def entries(survey_file: SurveyFile) -> tuple[Entry, ...]:
    """The whole journal.

    Raises
    ------
    Damaged
        When an entry is missing or is not as it was stored.
    """
    with told(survey_file.path):
        read = _entries(survey_file.connection)
        if [entry.entry for entry in read] != list(range(1, len(read) + 1)):
            raise Altered
    return read


def _entries(
    connection: sqlite3.Connection, where: str = "WHERE entry > 0", values: tuple[object, ...] = ()
) -> tuple[Entry, ...]:
    read = map(sealed_entry, connection.execute(f"{_SELECT} {where} ORDER BY entry", values))
    return tuple(_whole(entry) for entry in read)


def _whole(entry: Entry | None) -> Entry:
    if entry is None:
        raise Altered
    return entry


def sealed_entry(row: Sequence[Any]) -> Entry | None:
    """An entry from its number, columns and seal as they are stored; None where it is not as it was stored."""
    entry, *rest, changes, sealed = row
    named = dict(zip(_COLUMNS, rest, strict=False))
    try:
        read = Entry(entry=entry, **named, changes=tuple(Change(*change) for change in json.loads(changes)))
        return read if seal(read) == sealed else None
    except (TypeError, ValueError, RecursionError):
        return None


def decide(survey_file: SurveyFile, request: Request) -> Entry:
    """Store a decision; it is on the disk when this returns.

    Raises
    ------
    FindingUnknown
        When no finding has that id.
    InputError
        When the decision is not understood or does not fit the finding.
    OutputError
        When it cannot be stored.
    """
    _check_text(request.finding, request.decision, request.why, request.who)
    with survey_file.writing(request.who) as connection:
        return _append(connection, _entry(connection, request))


def decide_all(survey_file: SurveyFile, requests: Sequence[Request]) -> tuple[list[Entry], list[InputError]]:
    """Store several decisions, one entry each; all of them are on the disk when this returns.

    Returns
    -------
    The entries, and why other decisions do not fit their finding and were left out.

    Raises
    ------
    FindingUnknown
        When no finding has one of the ids; nothing is stored then.
    OutputError
        When they cannot be stored; nothing is then.
    """
    stored: list[Entry] = []
    refused: list[InputError] = []
    for request in requests:
        _check_text(request.finding, request.decision, request.why, request.who)
    with survey_file.writing(requests[0].who if requests else "") as connection:
        for request in requests:
            try:
                stored.append(_append(connection, _entry(connection, request)))
            except FindingUnknown:
                raise
            except InputError as fault:
                refused.append(fault)
    return stored, refused


def turn_all(
    survey_file: SurveyFile, decision: Literal["undo", "redo"], numbers: Sequence[int], *, who: str, why: str = ""
) -> list[Entry]:
    """Undo or redo several decisions, one entry each; those that are so already are left as they are.

    Raises
    ------
    OutputError
        When they cannot be stored; nothing is then.
    """
    _check_text(why, who)
    stored: list[Entry] = []
    with survey_file.writing(who) as connection:
        written = _entries(connection)
        for number in numbers:
            with suppress(InputError):
                meant = to_undo(written, number) if decision == "undo" else to_redo(written, number)
                stored.append(_append(connection, turned(meant, decision, who=who, why=why)))
    return stored


def turn(
    survey_file: SurveyFile, decision: Literal["undo", "redo"], number: int | None = None, *, who: str, why: str = ""
) -> Entry:
    """Undo or redo a decision: the numbered one, else the last; that is an entry too.

    Raises
    ------
    InputError
        When there is nothing to undo or redo.
    OutputError
        When it cannot be stored.
    """
    _check_text(why, who)
    with survey_file.writing(who) as connection:
        written = _entries(connection)
        meant = to_undo(written, number) if decision == "undo" else to_redo(written, number)
        return _append(connection, turned(meant, decision, who=who, why=why))


#: Characters of a reason, a value or a name; who writes more has fed in a file by mistake.
_LONGEST = 100_000


def _check_text(*texts: str) -> None:
    """Refuse bytes that are no text, which a terminal passes on as half characters, and texts without end."""
    for text in texts:
        if len(text) > _LONGEST:
            raise InputError(f"A text of {len(text)} characters is no decision; {_LONGEST} are the most.")
        if not text.isascii() and any("\ud800" <= each <= "\udfff" for each in text):
            raise InputError(f"{text!r} is no decision; say correct, correct=2, keep, recheck or value=X.")


def _append(connection: sqlite3.Connection, entry: Entry) -> Entry:
    number = int(connection.execute("SELECT COALESCE(MAX(entry), 0) + 1 FROM journal").fetchone()[0])
    stored = replace(entry, entry=number, time=now())
    _write(connection, stored)
    return stored


def add_lost(connection: sqlite3.Connection, number: int) -> None:
    """Put an entry that says so in place of one that could not be saved, inside the caller's transaction."""
    why = "This entry could not be read from the damaged file."
    _write(connection, Entry(number, now(), "", "", None, None, None, "lost", None, None, None, why))


def _write(connection: sqlite3.Connection, entry: Entry) -> None:
    marks = ", ".join("?" * (len(_COLUMNS) + 2))
    connection.execute(
        f"INSERT INTO journal (entry, {', '.join(_COLUMNS)}, seal) VALUES ({marks})",
        (entry.entry, *row_of(entry), seal(entry)),
    )


def row_of(entry: Entry) -> list[Any]:
    """An entry's columns as they are stored, without its number and seal."""
    *plain, _ = _COLUMNS
    changes = [list(astuple(change)) for change in entry.changes]
    return [*(getattr(entry, name) for name in plain), json.dumps(changes, ensure_ascii=False)]


def seal(entry: Entry) -> str:
    """A sum over all of an entry, by which it is known when it is found in a damaged file."""
    whole = json.dumps([entry.entry, *row_of(entry)], ensure_ascii=False)
    return hashlib.sha256(whole.encode("utf-8", "surrogatepass")).hexdigest()[:32]


def _entry(connection: sqlite3.Connection, request: Request) -> Entry:
    """The entry that a request means, without number and time."""
    if not request.who.strip():
        raise InputError("Nobody is named who decides; say it with --who NAME.")
    row = connection.execute(
        "SELECT plot, visit, stem, field, proposals, source, line, upload FROM findings WHERE id = ?",
        (request.finding,),
    ).fetchone()
    if row is None:
        raise FindingUnknown(
            f"The survey file has no finding {request.finding!r}; stemmap check lists the findings with their ids."
        )
    # Another program may have written the layer, with whole numbers as decimal ones; the seal tells them apart.
    try:
        plot, visit, stem, field, proposals = (None if each is None else str(each) for each in row[:5])
        source, line, upload = (None if each is None else _place(each) for each in row[5:])
        finding = Entry(
            0, "", request.who, request.finding, plot, visit, stem, "keep", field, None, None, request.why,
            source, line, upload,
        )  # fmt: skip
        return _decided(connection, finding, request.decision, json.loads(proposals or "[]"))
    except (TypeError, ValueError, LookupError, OverflowError, RecursionError) as fault:
        raise InputError(
            f"Another program changed the finding {request.finding!r} in the survey file, so that it cannot be "
            "decided; stemmap repair makes a file with its findings made anew."
        ) from fault


def _place(number: float | str) -> int:
    """Number of a file, line or upload.

    Raises
    ------
    ValueError, OverflowError
        When it is none.
    """
    place = int(number)
    if place.bit_length() > 63:
        raise OverflowError(number)
    return place


def _decided(connection: sqlite3.Connection, entry: Entry, decision: str, proposals: list[dict[str, Any]]) -> Entry:
    """The entry with what is decided: the decision, the values it changes."""
    word, sign, value = decision.partition("=")
    if word == "keep" and not sign:
        return entry
    if word == "recheck" and not sign:
        return replace(entry, decision="recheck")
    if word == "correct":
        place = int(value) if value.isascii() and value.isdecimal() and len(value) < 3 else (0 if sign else 1)
        of_stems = [each for each in proposals if "line" in each]
        of_finding = [each for each in proposals if "line" not in each]
        if of_stems and not of_finding and place == 1:
            changes = tuple(
                _change(connection, each["source"], each["line"], each["field"], _written(each["value"]))
                for each in of_stems
            )
            fields = " and ".join(sorted({change.field for change in changes}))
            # A stem that a crew added was not recorded before.
            recorded = any(change.old is not None for change in changes)
            old, new = ("as recorded", f"{len(changes)} values") if recorded else ("no stem", "a stem")
            return replace(entry, decision="correct", field=fields, old=old, new=new, changes=changes)
        if not 1 <= place <= len(of_finding):
            known = f"it has {len(of_finding)}" if of_finding else "it has none; say value=X, keep or recheck"
            raise InputError(f"The finding has no proposal {value or 1}: {known}.")
        chosen = of_finding[place - 1]
        return _changed(connection, entry, "correct", chosen["field"], _written(chosen["value"]))
    if word == "value" and sign:
        return _changed(connection, entry, "value", entry.field, _given(entry.field, value))
    raise InputError(f"{decision!r} is no decision; say correct, correct=2, keep, recheck or value=X.")


def _changed(connection: sqlite3.Connection, entry: Entry, decision: Decision, field: str | None, new: str) -> Entry:
    if entry.source is None or entry.line is None or field is None:
        raise InputError("The finding is about no single stem, so no value of it can be changed; say keep or recheck.")
    change = _change(connection, entry.source, entry.line, field, new)
    return replace(entry, decision=decision, field=field, old=change.old, new=new, changes=(change,))


def _change(connection: sqlite3.Connection, source: int, line: int, field: str, new: str) -> Change:
    """A change of the value that holds: the last one decided for that field of the record, else the typed one."""
    of_record = _entries(connection, "WHERE source = ? AND line = ?", (source, line))
    decided = [change.new for held in standing(of_record).values() for change in held.changes if change.field == field]
    if decided:
        return Change(source, line, field, decided[-1], new)
    typed = connection.execute(
        f"SELECT {quoted(field)} FROM records_stems WHERE source = ? AND line = ?", (source, line)
    ).fetchone()
    return Change(source, line, field, str(typed[0]) if typed and typed[0] is not None else None, new)


#: Units of lengths and directions of a stem, none of which is below zero.
_NEVER_NEGATIVE = frozenset({"m", "cm", "mm", "azimuth unit"})


def _given(field: str | None, value: str) -> str:
    if field is None or field not in FIELDS:
        raise InputError("The finding is about no single value, so none can be given; say keep or recheck.")
    text = value.strip()
    if FIELDS[field].kind != "number":
        return value
    number = typed_number(text)
    if number is None:
        raise InputError(f"{value!r} is no number for {field}.")
    if number < 0.0 and FIELDS[field].unit in _NEVER_NEGATIVE:
        raise InputError(f"{field} cannot be below zero, so {value!r} was not stored.")
    return text.replace(",", ".")


def _written(value: object) -> str:
    """A proposed value as text: whole numbers without a point."""
    if isinstance(value, float) and value.is_integer() and abs(value) < 1e15:
        return str(int(value))
    return str(value)
