"""The user's own ground under the map, read from local files."""

from __future__ import annotations

from pathlib import Path

from stemmap.errors import InputError
from stemmap.progress import Progress
from stemmap.reading.backgrounds import PICTURES, VECTORS, layers_of, read_outlines, read_picture
from stemmap.survey.background import Background


def background_layers(path: Path | str) -> tuple[str, ...]:
    """Names of the layers of a file from which one can be chosen; none where there is no choice.

    Raises
    ------
    InputError
        When a vector file cannot be read or has no layer with places.
    """
    file = Path(path)
    names = layers_of(file) if file.suffix.lower() in VECTORS else ()
    return names if len(names) > 1 else ()


def read_background(
    path: Path | str, crs: str, *, layer: str | None = None, progress: Progress | None = None
) -> Background:
    """Read a vector layer or a picture into the system of the map; the file's ending tells which it is.

    Parameters
    ----------
    path
        The file.
    crs
        System of the map.
    layer
        Name of the layer of a vector file; None: its first.

    Raises
    ------
    InputError
        When the ending is not known, or the file cannot lie under the map.
    """
    file, steps = Path(path), progress or Progress()
    ending = file.suffix.lower()
    if ending in VECTORS:
        return read_outlines(file, crs, steps, layer=layer)
    if ending in PICTURES:
        return read_picture(file, crs, steps)
    raise InputError(f"{file.name} cannot lie under the map: it ends with none of {', '.join(VECTORS + PICTURES)}.")
