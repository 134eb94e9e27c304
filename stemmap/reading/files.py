"""Files of an upload: what kind each is, told by its content, and the sheets it holds."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from types import MappingProxyType
from typing import Literal

from stemmap.errors import InputError
from stemmap.progress import Progress
from stemmap.reading.layers import read_geojson, read_geopackage
from stemmap.reading.sheet import Sheet
from stemmap.reading.text import read_text
from stemmap.reading.workbook import read_workbook
from stemmap.survey.records import Remark

#: Larger files are refused; 10^7 stems as text need less.
MOST_BYTES = 512 << 20
_BINARY = (
    (b"\x89PNG", "a picture (PNG)", "give the table itself"),
    (b"\xff\xd8\xff", "a picture (JPEG)", "give the table itself"),
    (b"GIF8", "a picture (GIF)", "give the table itself"),
    (b"%PDF", "a PDF", "give the table it was made from"),
    (b"\x1f\x8b", "a compressed file (gzip)", "unpack it first"),
    (b"\xd0\xcf\x11\xe0", "an old Excel or Word file, or one with a password", "save it as XLSX or CSV"),
    (b"PAR1", "a Parquet file", "export it as CSV or GeoPackage"),
    (b"7z\xbc\xaf", "a compressed file (7z)", "unpack it first"),
    (b"Rar!", "a compressed file (RAR)", "unpack it first"),
)
_PROMISED = MappingProxyType({".xlsx": "a workbook", ".xlsm": "a workbook", ".gpkg": "a GeoPackage"})


def is_settings(path: Path) -> bool:
    """Whether a file is a settings file."""
    return path.suffix.lower() == ".toml"


def sheets_of(
    path: Path,
    *,
    source: str,
    asked: frozenset[str],
    progress: Progress,
    said: list[Remark],
    most_rows: int | None = None,
) -> Iterator[Sheet]:
    """The tables of a file.

    Parameters
    ----------
    path
        The file.
    source
        Its name in sentences.
    asked
        Folded headings that a mapping asks for.
    progress
        Told before the long steps.
    said
        Takes remarks about sheets that are not read.
    most_rows
        Rows from the top that will do, where a file can be read in part; None: all.

    Raises
    ------
    InputError
        When the file cannot be used.
    """
    start = _start(path, source)
    kind = _kind(start, path.suffix.lower(), source)
    try:
        if kind == "workbook":
            yield from read_workbook(
                path, source=source, asked=asked, progress=progress, said=said, most_rows=most_rows
            )
        elif kind == "geopackage":
            yield from read_geopackage(path, source=source, progress=progress, said=said, most_rows=most_rows)
        elif kind == "geojson":
            yield read_geojson(path, source=source, progress=progress)
        else:
            yield read_text(path, source=source, asked=asked, progress=progress, whole=most_rows is None)
    except OSError as fault:
        raise InputError(f"{source} cannot be read: {fault.strerror or fault}.") from fault
    except MemoryError as fault:
        raise InputError(f"{source} is too large for the memory of this machine; split it.") from fault


def _kind(start: bytes, ending: str, source: str) -> Literal["workbook", "geopackage", "geojson", "text"]:
    """What a file is by its first bytes; a name that promises something else is refused."""
    if start.startswith(b"PK\x03\x04"):
        return "workbook"
    if start.startswith(b"SQLite format 3\x00"):
        return "geopackage"
    for mark, name, advice in _BINARY:
        if start.startswith(mark):
            raise InputError(f"{source} is {name}, whatever its name says; {advice}.")
    if ending in _PROMISED:
        raise InputError(
            f"{source} is called {_PROMISED[ending]}, but is none; export it again, or correct its ending."
        )
    if start.removeprefix(b"\xef\xbb\xbf").lstrip().startswith(b"{"):
        return "geojson"
    if ending in (".geojson", ".json"):
        raise InputError(f"{source} is called a GeoJSON file, but is none; export it again.")
    return "text"


def _start(path: Path, source: str) -> bytes:
    """The first bytes of an ordinary file."""
    try:
        if path.is_dir():
            raise InputError(f"{source or path} is a folder; give the files in it.")
        if not path.exists():
            raise InputError(f"There is no file {path}; check its name and folder.")
        if not path.is_file():
            raise InputError(f"{source} is no ordinary file.")
        size = path.stat().st_size
        if size == 0:
            raise InputError(f"{source} is empty; export it again.")
        if size > MOST_BYTES:
            raise InputError(f"{source} is larger than 512 MiB; split it.")
        with path.open("rb") as stream:
            return stream.read(4096)
    except OSError as fault:
        raise InputError(f"{source} cannot be read: {fault.strerror or fault}.") from fault
