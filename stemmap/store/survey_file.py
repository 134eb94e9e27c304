"""Opening a survey file: whole at every moment, one writer at a time, faults as sentences."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from urllib.parse import quote

from stemmap import __version__
from stemmap.errors import InputError, OutputError
from stemmap.store import geopackage, schema
from stemmap.store.pages import PAGE_SIZE
from stemmap.store.writer import noted, writer_of

#: So long a command waits for another one to finish its transaction.
_WAIT_SECONDS = 30.0

_HEADER = 100
_MAGIC = b"SQLite format 3"


def is_survey_file(path: Path) -> bool:
    """Whether a file is a survey file of stemmap: a GeoPackage with its tables, perhaps a damaged one."""
    if path.suffix.lower() != ".gpkg":
        return False
    try:
        with path.open("rb") as stream:
            head = stream.read(_HEADER)
        if head[: len(_MAGIC)] != _MAGIC or int.from_bytes(head[68:72], "big") != geopackage.APPLICATION_ID:
            return False
        try:
            with _connected(path, "ro") as connection:
                return schema.version_of(connection) is not None
        except (sqlite3.DatabaseError, UnicodeDecodeError):
            return b"CREATE TABLE survey_file" in path.read_bytes()
    except OSError:
        return False


class Busy(OutputError):
    """Another program is writing into a survey file."""

    def __init__(self, path: Path) -> None:
        writer = writer_of(path)
        words = "another program is writing into it" if writer is None else writer.sentence()
        super().__init__(f"{path.name}: {words} and has not finished yet; nothing of this was stored. Try again.")


class Damaged(InputError):
    """A survey file is not as it was written."""

    def __init__(self, path: Path) -> None:
        super().__init__(
            f"{path.name} is damaged; nothing was changed. Keep it, and save what can be read from it with "
            f"stemmap repair {path.name}."
        )


@dataclass(frozen=True)
class SurveyFile:
    """An open survey file.

    Parameters
    ----------
    path
        Where it lies.
    connection
        Its database; transactions are begun by hand.
    read_only
        Whether nothing can be written: the medium forbids it or nobody asked.
    """

    path: Path
    connection: sqlite3.Connection
    read_only: bool

    @contextmanager
    def writing(self, who: str = "") -> Iterator[sqlite3.Connection]:
        """A transaction: all of it is on the disk afterwards, or nothing.

        Parameters
        ----------
        who
            Whom others are told that they wait for; empty: the name of the account.

        Raises
        ------
        Busy
            When somebody else is writing for longer than can be waited.
        OutputError
            When the file cannot be written: the disk is full, the medium fails, somebody else holds it.
        """
        with told(self.path):
            if self.read_only:
                raise OutputError(f"{self.path.name} cannot be written here; copy it to a folder of your own.")
            self.connection.execute("BEGIN IMMEDIATE")
            try:
                with noted(self.path, who):
                    yield self.connection
                    self.connection.execute("COMMIT")
            except BaseException:
                _roll_back(self.connection)
                raise

    @contextmanager
    def trying(self) -> Iterator[sqlite3.Connection]:
        """A transaction of which nothing stays, to see what would follow from it; faults as in `writing`."""
        with told(self.path):
            if self.read_only:
                raise OutputError(f"{self.path.name} cannot be written here; copy it to a folder of your own.")
            self.connection.execute("BEGIN IMMEDIATE")
            try:
                yield self.connection
            finally:
                _roll_back(self.connection)

    def close(self) -> None:
        """Let go of the file."""
        self.connection.close()


def _roll_back(connection: sqlite3.Connection) -> None:
    # After some faults SQLite has rolled back by itself, after others it cannot; the next opening does it then.
    try:
        if connection.in_transaction:
            connection.execute("ROLLBACK")
    except sqlite3.Error:
        connection.close()


@contextmanager
def opened(
    path: Path, *, write: bool = False, create: bool = False, wait_s: float = _WAIT_SECONDS
) -> Iterator[SurveyFile]:
    """Open a survey file.

    Parameters
    ----------
    write
        Whether something will be written; a medium that forbids it is refused when it is tried.
    create
        Whether the file is made when there is none.
    wait_s
        How long to wait for another program that is writing, here and in transactions.

    Raises
    ------
    InputError
        When there is no such file, it is no survey file, a later stemmap made it, or it is damaged.
    OutputError
        When it cannot be written.
    """
    survey_file = open_file(path, write=write, create=create, wait_s=wait_s)
    try:
        yield survey_file
    finally:
        survey_file.close()


def open_file(path: Path, *, write: bool = False, create: bool = False, wait_s: float = _WAIT_SECONDS) -> SurveyFile:
    """Open a survey file, to be closed by the caller; parameters and faults as in `opened`."""
    fresh = not path.exists() or path.stat().st_size == 0
    if fresh and not create:
        raise InputError(f"There is no survey file {path}; check its name, or make one with stemmap add.")
    if not fresh and path.suffix.lower() != ".gpkg" and not _begins_as_database(path):
        raise InputError(f"{path.name} is no survey file of stemmap; nothing was changed.")
    with told(path):
        # Where it can be, a file is opened for writing even to be read: after a kill SQLite first rolls back what was
        # not finished.
        writable = create or is_writable(path)
        connection = _connect(path, "rwc" if create else "rw" if writable else "ro", wait_s)
        if not write:
            connection.execute("PRAGMA query_only = ON")
        try:
            if not fresh:
                connection = _accepted(connection, path, write=write)
            elif create:
                _create(connection)
        except BaseException:
            connection.close()
            raise
    return SurveyFile(path, connection, read_only=not (write and writable))


def _begins_as_database(path: Path) -> bool:
    """Whether the first bytes are those of a database; a file that nobody may read is left to the opening to tell."""
    try:
        with path.open("rb") as stream:
            return stream.read(len(_MAGIC)) == _MAGIC
    except OSError:
        return True


def _create(connection: sqlite3.Connection) -> None:
    connection.execute(f"PRAGMA page_size = {PAGE_SIZE}")
    connection.execute("BEGIN IMMEDIATE")
    try:
        # Another command may have made it in the meantime.
        if schema.version_of(connection) is None:
            schema.create(connection, made_with=__version__, made_at=now())
        connection.execute("COMMIT")
    except BaseException:
        _roll_back(connection)
        raise


def _accepted(connection: sqlite3.Connection, path: Path, *, write: bool) -> sqlite3.Connection:
    """The connection by which a file is used: one of an older version is read from a copy in memory."""
    version = schema.version_of(connection)
    if version is None:
        raise InputError(f"{path.name} is no survey file of stemmap; nothing was changed.")
    if not schema.needs_steps(version, path.name):
        return connection
    if write:
        _bring_up_to_date(connection, path, version)
        return connection
    copy = sqlite3.connect(":memory:", isolation_level=None, check_same_thread=False)
    connection.backup(copy)
    connection.close()
    schema.bring_up_to_date(copy, version)
    copy.execute("PRAGMA query_only = ON")
    return copy


def _bring_up_to_date(connection: sqlite3.Connection, path: Path, version: int) -> None:
    """Take the steps from an older version, after a copy of the file as it was."""
    connection.execute("BEGIN IMMEDIATE")
    try:
        # Another command may have taken them in the meantime.
        if schema.version_of(connection) == version:
            copy = sqlite3.connect(path.with_name(f"{path.stem}.version-{version}{path.suffix}"))
            try:
                with _connected(path, "ro") as unchanged:
                    unchanged.backup(copy)
            finally:
                copy.close()
            schema.bring_up_to_date(connection, version)
        connection.execute("COMMIT")
    except BaseException:
        _roll_back(connection)
        raise


def is_writable(path: Path) -> bool:
    """Whether decisions can be stored in a survey file: it and its folder, where the rollback journal lies."""
    return os.access(path, os.W_OK) and os.access(path.absolute().parent, os.W_OK)


def _connect(path: Path, mode: str, wait_s: float = _WAIT_SECONDS) -> sqlite3.Connection:
    uri = f"file:{quote(os.fsencode(path.absolute()))}?mode={mode}"
    connection = sqlite3.connect(uri, uri=True, timeout=wait_s, isolation_level=None, check_same_thread=False)
    # One file, whole at every moment: the rollback journal is gone when a decision is acknowledged, and the folder
    # that listed it is on the disk too.
    connection.execute("PRAGMA synchronous = EXTRA")
    connection.execute("PRAGMA cell_size_check = ON")
    return connection


@contextmanager
def _connected(path: Path, mode: str) -> Iterator[sqlite3.Connection]:
    connection = _connect(path, mode)
    try:
        yield connection
    finally:
        connection.close()


@contextmanager
def told(path: Path) -> Iterator[None]:
    """Tell faults of the database as sentences.

    Raises
    ------
    InputError
        When the file is damaged or no database.
    OutputError
        When it cannot be written or read just now.
    """
    try:
        yield
    except sqlite3.DatabaseError as fault:
        name = getattr(fault, "sqlite_errorname", "") or ""
        # SQL that stemmap wrote is wrong only where a table or column is gone, a text only where bytes were changed.
        if name.startswith(("SQLITE_CORRUPT", "SQLITE_NOTADB")) or name == "SQLITE_ERROR" or "decode" in str(fault):
            raise Damaged(path) from fault
        if name.startswith("SQLITE_BUSY"):
            raise Busy(path) from fault
        raise OutputError(f"{path.name}: {_REASONS.get(name, _reason(name, fault))}") from fault
    except UnicodeDecodeError as fault:  # what the database has to say quotes damaged bytes
        raise Damaged(path) from fault


_REASONS = {
    "SQLITE_FULL": "the disk is full; nothing of this was stored, everything before is whole.",
    "SQLITE_READONLY": "it cannot be written here; copy it to a folder of your own.",
    "SQLITE_CANTOPEN": "it cannot be opened; check the folder and your rights to it.",
    # The last step: the folder must know that the rollback journal is gone.
    "SQLITE_IOERR_DIR_FSYNC": "the disk failed at the last step: this may be stored or not, everything before is "
    "whole. Check the disk, then look what is there.",
    "SQLITE_NOMEM": "the machine has too little memory for it.",
}


def _reason(name: str, fault: sqlite3.Error) -> str:
    kind = "_".join(name.split("_")[:2])
    if kind in _REASONS:
        return _REASONS[kind]
    if kind == "SQLITE_IOERR":
        return "the disk failed; nothing of this was stored, everything before is whole. Check the disk."
    return f"the database says {fault}; nothing of this was stored, everything before is whole."


def stale(survey_file: SurveyFile) -> bool:
    """Whether the layers lag behind the decisions.

    Raises
    ------
    InputError
        When the file is damaged.
    """
    with told(survey_file.path):
        at, last = survey_file.connection.execute(
            "SELECT (SELECT layers_at FROM survey_file), (SELECT COALESCE(MAX(entry), 0) FROM journal)"
        ).fetchone()
    return bool(at != last)


def now() -> str:
    """The time in UTC, ISO 8601 to the millisecond."""
    return datetime.now(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")
