"""What can be read from a damaged survey file, saved into a new one. The damaged file is never written."""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, TypeAlias

from stemmap.errors import InputError, OutputError
from stemmap.store import schema
from stemmap.store.decisions import add_lost, entries, sealed_entry
from stemmap.store.pages import Pages, Row
from stemmap.store.survey_file import Damaged, SurveyFile, opened
from stemmap.survey.fields import FIELDS

#: Name, definition and root of a table that a file lists.
_Listed: TypeAlias = tuple[str, str, int]


@dataclass(frozen=True)
class Saved:
    """What a repair saved.

    Parameters
    ----------
    rows
        Number of rows by table.
    entries
        Number of journal entries.
    missing
        Numbers of the journal entries that are lost, as far as later ones tell.
    lagging
        Why the new file has no layers yet; nothing where it has them.
    whole
        Whether nothing was damaged.
    """

    rows: Mapping[str, int]
    entries: int
    missing: tuple[int, ...]
    lagging: str = ""
    whole: bool = False

    def sentence(self, damaged: str, repaired: str) -> str:
        """What was saved, in words."""
        records = sum(self.rows.get(table, 0) for table in schema.RECORD_TABLES.values())
        lost = f" Lost: {', '.join(map(str, self.missing[:20]))}." if self.missing else " None is missing between them."
        layers = f" Its layers for a GIS come with the next decision: {self.lagging}" if self.lagging else ""
        if self.whole:
            return (
                f"{damaged} is whole, nothing in it is damaged: go on with it. {repaired} holds the same {records} "
                f"records and {self.entries} decisions.{layers}"
            )
        return (
            f"{repaired} holds what could be read from {damaged}: {records} records and {self.entries} decisions."
            f"{lost} The damaged file was left as it is; keep it.{layers}"
        )


@dataclass(frozen=True)
class _Column:
    """A column: its name, the Python type of its values, and whether it may be empty."""

    name: str
    kind: type
    empty: bool

    def takes(self, value: Any) -> bool:
        """Whether a stored value can stand in it."""
        if value is None:
            return self.empty
        return isinstance(value, self.kind) or (self.kind is float and isinstance(value, int))


@dataclass
class _Table:
    """A table as it is in the damaged file: its columns after the number, and the rows found so far by their number."""

    columns: list[_Column]
    rows: dict[int, tuple[Any, ...]] = field(default_factory=dict)

    def takes(self, row: Row) -> bool:
        """Whether a row has the shape of this table; columns that were added later may be missing in it."""
        key, *values = row.values or (0,)
        if key is not None or row.rowid < 0 or len(values) > len(self.columns):
            return False
        missing = self.columns[len(values) :]
        return all(column.empty for column in missing) and all(
            column.takes(value) for column, value in zip(self.columns, values, strict=False)
        )


def repair(damaged: Path, repaired: Path) -> Saved:
    """Save what can be read from a damaged survey file into a new one, without its layers.

    Journal entries are known by their seals wherever they stand; other rows by the table whose tree leads to them, or,
    where no tree does, by the shape of their page.

    Raises
    ------
    InputError
        When the damaged file cannot be read at all.
    OutputError
        When there is a file at `repaired` already, or it cannot be written.
    """
    if repaired.exists():
        raise OutputError(f"There is a file {repaired} already; name another one.")
    try:
        pages = Pages(damaged.read_bytes())
    except OSError as fault:
        raise InputError(f"{damaged.name} cannot be read: {fault.strerror or fault}.") from fault
    with (
        _whole_or_gone(repaired),
        opened(repaired, write=True, create=True) as survey_file,
        survey_file.writing() as connection,
    ):
        listed = list(_listed(pages))
        tables = _tables(listed, connection)
        _follow_trees(pages, listed, tables)
        _add_strays(pages, listed, tables)
        if not any(table.rows for table in tables.values()):
            raise InputError(f"Nothing of a survey file can be read in {damaged.name}; no file was made.")
        for name, table in tables.items():
            _insert(connection, name, table)
        schema.list_fields(connection)
        # The tables are those of today, whatever version the damaged file had. The layers can be made anew.
        connection.execute("UPDATE survey_file SET layers_at = NULL, schema_version = ?", (schema.SCHEMA,))
        journal = tables["journal"].rows
        missing = sorted(set(range(1, max(journal, default=0) + 1)) - set(journal))
        for number in missing:
            add_lost(connection, number)
    saved = {name: len(table.rows) for name, table in tables.items()}
    return Saved(saved, len(journal), tuple(missing), whole=not missing and _is_whole(damaged, saved))


def _is_whole(path: Path, saved: Mapping[str, int]) -> bool:
    """Whether the database finds no fault in a file, its journal keeps its seals, and every row was saved."""
    try:
        with opened(path) as survey_file:
            entries(survey_file)
            connection = survey_file.connection
            there = [name for name in saved if connection.execute(f"PRAGMA table_info({name})").fetchone()]
            first = {"journal": "WHERE entry > 0"}  # the rows below are no decisions
            counts = {
                name: connection.execute(f"SELECT COUNT(*) FROM {name} {first.get(name, '')}").fetchone()[0]
                for name in there
            }
            sound: bool = connection.execute("PRAGMA integrity_check(1)").fetchone() == ("ok",)
            return sound and all(saved[name] == count for name, count in counts.items())
    except (InputError, OutputError, sqlite3.Error):
        return False


@contextmanager
def _whole_or_gone(path: Path) -> Iterator[None]:
    """A file that did not exist before, and will not when making it fails."""
    try:
        yield
    except BaseException:
        for left in (path, path.with_name(f"{path.name}-journal")):
            with suppress(OSError):
                left.unlink(missing_ok=True)
        raise


@contextmanager
def readable(path: Path, tell: Callable[[str], None]) -> Iterator[SurveyFile]:
    """A survey file to be read; of one whose journal is damaged, what a repair can save, in a file for the moment.

    Parameters
    ----------
    tell
        Called with a sentence when the file is damaged.

    Raises
    ------
    Damaged
        When decisions are lost, or nothing can be saved.
    """
    try:
        with opened(path) as survey_file:
            entries(survey_file)
    except Damaged as fault:
        with TemporaryDirectory() as folder:
            mended = Path(folder) / path.name
            saved = repair(path, mended)
            if saved.missing or not saved.rows["uploads"]:
                # Results without some of the decisions would be others than were decided.
                raise
            tell(f"{str(fault).removesuffix('.')}; every decision in it could be read.")
            with opened(mended) as survey_file:
                yield survey_file
    else:
        with opened(path) as survey_file:
            yield survey_file


def _tables(listed: Sequence[_Listed], connection: sqlite3.Connection) -> dict[str, _Table]:
    """The tables of a survey file; the records tables with the columns that uploads gave them, where that is known."""
    names = [*schema.TABLES, *schema.RECORD_TABLES.values()]
    made = {}
    for name in names:
        _, *columns = connection.execute(f"PRAGMA table_info({name})").fetchall()
        made[name] = _Table([_Column(column[1], _KINDS[column[2]], not column[3]) for column in columns])
    for name, definition, _ in listed:
        if name in schema.RECORD_TABLES.values():
            # As the damaged file has them: one of an older version has fewer, or has them in another order.
            fixed = [column for column in made[name].columns if column.name not in FIELDS]
            said = [match.replace('""', '"') for match in _COLUMN.findall(definition)]
            made[name].columns = [*fixed, *(_Column(column, str, empty=True) for column in said)]
    return made


_KINDS = {"INTEGER": int, "TEXT": str, "DOUBLE": float}
#: A column with a quoted name in a CREATE TABLE that this program writes.
_COLUMN = re.compile(r'"((?:[^"]|"")*)" TEXT')


def _listed(pages: Pages) -> Iterator[_Listed]:
    """Name, definition and root of the tables that the file lists, as far as it can be read."""
    for leaf in pages.leaves_of(1):
        for row in pages.rows(leaf):
            match row.values:
                case ("table", str(name), str(), int(root), str(definition)):
                    yield name, definition, root


def _follow_trees(pages: Pages, listed: Sequence[_Listed], tables: dict[str, _Table]) -> None:
    for name, _, root in listed:
        if name in tables:
            for leaf in pages.leaves_of(root):
                for row in pages.rows(leaf):
                    _keep(name, tables[name], row)


def _add_strays(pages: Pages, listed: Sequence[_Listed], tables: dict[str, _Table]) -> None:
    """Rows of leaves that no tree leads to any more."""
    reached = {leaf for _, _, root in listed for leaf in pages.leaves_of(root)} | set(pages.leaves_of(1))
    for leaf in pages.leaves():
        if leaf in reached:
            continue
        rows = list(pages.rows(leaf))
        fitting = [name for name, table in tables.items() if rows and all(_fits(name, table, row) for row in rows)]
        for row in rows:
            for name in {"journal", *fitting[:1]}:
                _keep(name, tables[name], row)


def _keep(name: str, table: _Table, row: Row) -> None:
    if _fits(name, table, row):
        table.rows.setdefault(row.rowid, (row.rowid, *row.values[1:]))


def _fits(name: str, table: _Table, row: Row) -> bool:
    """Whether a row can be one of a table; an entry of the journal must carry its seal."""
    return table.takes(row) and (name != "journal" or sealed_entry((row.rowid, *row.values[1:])) is not None)


def _insert(connection: sqlite3.Connection, name: str, table: _Table) -> None:
    """Put the rows of a table into the new file, after the columns that only the damaged one has."""
    if name in ("survey_file", "record_columns"):
        connection.execute(f"DELETE FROM {name}")
    known = {row[1] for row in connection.execute(f"PRAGMA table_info({name})")}
    for column in table.columns:
        if column.name not in known:
            connection.execute(f"ALTER TABLE {name} ADD COLUMN {schema.quoted(column.name)} TEXT")
    width = 1 + len(table.columns)
    names = "".join(f", {schema.quoted(column.name)}" for column in table.columns)
    connection.executemany(
        f"INSERT INTO {name} (rowid{names}) VALUES ({', '.join('?' * width)})",
        [(*values, *[None] * (width - len(values))) for _, values in sorted(table.rows.items())],
    )
