"""The user's own ground under the map, read from local files."""

from __future__ import annotations

from pathlib import Path

from stemmap.errors import InputError
from stemmap.progress import Progress
from stemmap.reading.backgrounds import PICTURES, VECTORS, read_outlines, read_picture
from stemmap.survey.background import Background


def read_background(path: Path | str, crs: str, *, progress: Progress | None = None) -> Background:
    """Read a vector layer or a picture into the system of the map; the file's ending tells which it is.

    Raises
    ------
    InputError
        When the ending is not known, or the file cannot lie under the map.
    """
    file, steps = Path(path), progress or Progress()
    ending = file.suffix.lower()
    if ending in VECTORS:
        return read_outlines(file, crs, steps)
    if ending in PICTURES:
        return read_picture(file, crs, steps)
    raise InputError(f"{file.name} cannot lie under the map: it ends with none of {', '.join(VECTORS + PICTURES)}.")
