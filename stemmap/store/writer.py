"""Who is writing into a survey file: a note beside it for as long as somebody does.

Only the database's own lock keeps writers apart; the note says whom the others wait for. Whoever writes it holds a lock
on it that the system takes back however the process ends, so that a note left behind is known for one.
"""

from __future__ import annotations

import getpass
import json
import os
import platform
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import asdict, dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import BinaryIO


@dataclass(frozen=True)
class Writer:
    """Who writes: name, computer, process, and since when, ISO 8601 in UTC."""

    who: str
    computer: str
    process: int
    since: str

    def sentence(self) -> str:
        """Who writes and since when, for people at this computer."""
        since = datetime.fromisoformat(self.since).astimezone().strftime("%H:%M:%S")
        return f"{self.who} on {self.computer} (process {self.process}) has been writing into it since {since}"


def note_of(path: Path) -> Path:
    """Where the note on a survey file lies."""
    return path.with_name(f"{path.name}-writer")


@contextmanager
def noted(path: Path, who: str = "") -> Iterator[None]:
    """Say who writes into a survey file as long as it is written; a note that cannot be written is done without.

    Parameters
    ----------
    who
        Name; empty: the name of the account.
    """
    note = note_of(path)
    mine: BinaryIO | None = None
    with suppress(OSError):
        stream = note.open("a+b")
        if _lock(stream):
            mine = stream
            mine.truncate(0)
            mine.write(json.dumps(asdict(_myself(who))).encode())
            mine.flush()
        else:
            stream.close()
    try:
        yield
    finally:
        if mine is not None:
            with suppress(OSError):
                mine.close()
            with suppress(OSError):
                note.unlink()


def writer_of(path: Path) -> Writer | None:
    """Who writes into a survey file; None when nobody does, or nobody who leaves notes."""
    try:
        with note_of(path).open("r+b") as stream:
            if _lock(stream):
                return None  # whoever wrote it has ended
            return Writer(**json.loads(stream.read()))
    except (OSError, ValueError, TypeError):
        return None


def _myself(who: str) -> Writer:
    if not who:
        with suppress(OSError, KeyError):
            who = getpass.getuser()
    now = datetime.now(UTC).isoformat(timespec="seconds")
    return Writer(who or "Somebody", platform.node(), os.getpid(), now)


def _lock(stream: BinaryIO) -> bool:
    """Lock a note without waiting; whether that was possible. The lock ends with the process at the latest."""
    try:
        import fcntl
    except ImportError:
        return _lock_far_byte(stream)
    try:
        fcntl.flock(stream, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True


def _lock_far_byte(stream: BinaryIO) -> bool:
    """The same where locks keep others from reading: on a byte that the text never reaches."""
    import msvcrt

    try:
        stream.seek(1 << 20)
        msvcrt.locking(stream.fileno(), msvcrt.LK_NBLCK, 1)  # type: ignore[attr-defined,unused-ignore] # Windows
    except OSError:
        return False
    finally:
        stream.seek(0)
    return True
