"""Where results go: to standard output or whole into a file, and how files named after data are named safely."""

from __future__ import annotations

import os
import re
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import TextIO

from stemmap.errors import OutputError

#: Names that one system or another keeps for devices.
_RESERVED = re.compile(r"(?i)(con|prn|aux|nul|com\d|lpt\d)(\..*)?")


@contextmanager
def text_output(path: Path | None) -> Iterator[TextIO]:
    """A text stream to a file, which appears whole or not at all, or to standard output when there is no path.

    Raises
    ------
    OutputError
        When the file cannot be written.
    """
    if path is None:
        yield sys.stdout
        return
    with whole_file(path) as partial, partial.open("w", encoding="utf-8", newline="") as stream:
        yield stream


@contextmanager
def whole_file(path: Path) -> Iterator[Path]:
    """A temporary path beside `path` that takes its place when the work ends well and vanishes when it does not.

    Raises
    ------
    OutputError
        When the file cannot be written.
    """
    try:
        handle, name = tempfile.mkstemp(prefix=".", suffix=path.suffix, dir=path.parent)
        os.close(handle)
    except OSError as fault:
        raise OutputError(f"{path} cannot be written: {fault.strerror}. Choose another place.") from fault
    partial = Path(name)
    try:
        yield partial
        partial.chmod(0o666 & ~_umask())
        partial.replace(path)
    except OSError as fault:
        raise OutputError(f"{path} cannot be written: {fault.strerror or fault}. Choose another place.") from fault
    finally:
        with suppress(OSError):
            partial.unlink()


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def safe_name(text: str) -> str:
    """A file name made from data that every system accepts: no path, no device, not too long.

    Distinct texts can fall together; number them if that matters.
    """
    name = re.sub(r"[^\w.-]+", "_", text, flags=re.UNICODE).strip("._ ")[:80] or "unnamed"
    return f"_{name}" if _RESERVED.fullmatch(name) else name
