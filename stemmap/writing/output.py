"""Where results go: to standard output or whole into a file, and how files named after data are named safely."""

from __future__ import annotations

import os
import re
import secrets
import sys
import unicodedata
from collections.abc import Iterable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import TextIO

from stemmap.errors import OutputError

#: Names that one system or another keeps for devices.
_RESERVED = re.compile(r"(?i)(con|prn|aux|nul|com[\d¹²³]|lpt[\d¹²³])(\..*)?")


@contextmanager
def text_output(path: Path | None) -> Iterator[TextIO]:
    """A text stream to a file, which appears whole or not at all, or to standard output when there is no path.

    Whoever reads the standard output may stop before its end; that is no fault.

    Raises
    ------
    OutputError
        When the file cannot be written.
    """
    if path is None:
        try:
            yield sys.stdout
            sys.stdout.flush()
        except BrokenPipeError:
            write_no_more()
    elif path.exists() and not path.is_file() and not path.is_dir():
        # A pipe or a device takes what is written and must never be replaced by a file.
        with path.open("w", encoding="utf-8", errors="backslashreplace", newline="") as stream:
            yield stream
    else:
        with (
            whole_file(path) as partial,
            partial.open("w", encoding="utf-8", errors="backslashreplace", newline="") as stream,
        ):
            yield stream


def write_no_more() -> None:
    """Let go of a standard output that takes nothing any more, so that what is still held back fails nowhere."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


@contextmanager
def whole_file(path: Path) -> Iterator[Path]:
    """A path beside `path` for a file that takes its place when the work ends well and vanishes when it does not.

    A link is followed: what it leads to is replaced.

    Raises
    ------
    OutputError
        When the file cannot be written.
    """
    target = path.resolve()
    if target.exists() and not target.is_file():
        raise OutputError(f"{path} is no file that could be replaced. Choose another name.")
    partial = target.with_name(f".{secrets.token_hex(8)}{path.suffix}")
    try:
        # Opened here so that a place where nothing can be written is known before the work is done.
        os.close(os.open(partial, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o666))
        mode = partial.stat().st_mode
        yield partial
        # A library may have made the file anew, and with rights of its own.
        partial.chmod(mode)
        partial.replace(target)
    except OSError as fault:
        raise OutputError(f"{path} cannot be written: {fault.strerror or fault}. Choose another place.") from fault
    finally:
        with suppress(OSError):
            partial.unlink()


def safe_name(text: str) -> str:
    """A file name made from data that every system accepts: no path, no device, not too long.

    Distinct texts can fall together; see `distinct_file_names`.
    """
    plain = re.sub(r"[^\w.-]+", "_", unicodedata.normalize("NFC", text))
    name = plain.strip("._")[:80].rstrip("._") or "unnamed"
    return f"_{name}" if _RESERVED.fullmatch(name) else name


def distinct_file_names(texts: Iterable[str]) -> list[str]:
    """Safe names for texts from the data, none twice, also where a system knows no case."""
    used: set[str] = set()
    names = []
    for text in texts:
        base = name = safe_name(text)
        again = 1
        while name.casefold() in used:
            again += 1
            name = f"{base}_{again}"
        used.add(name.casefold())
        names.append(name)
    return names
