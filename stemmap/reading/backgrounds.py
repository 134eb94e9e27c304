"""The user's own ground under the map: vector layers, GeoTIFF, and pictures with a world file. Nothing is fetched.

What GeoTIFF says of its place is read from its tags (OGC GeoTIFF 1.1, OGC 19-008r4, sections 7.1 to 7.4 and B.2); a
world file holds six lines: pixel width, two turns, minus pixel height, and the middle of the first pixel.
"""

from __future__ import annotations

import warnings
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

import numpy as np

from stemmap.errors import InputError
from stemmap.progress import Progress
from stemmap.reading.vectors import layer_names, read_places
from stemmap.survey.background import Outlines, Picture
from stemmap.survey.place import coordinate_system

if TYPE_CHECKING:
    from PIL.Image import Image

VECTORS: Final = (".gpkg", ".geojson", ".json")
PICTURES: Final = (".tif", ".tiff", ".png", ".jpg", ".jpeg")
#: Corners of a layer and pixels along a side that are kept; more would make the map slow.
MOST_CORNERS: Final = 2_000_000
MOST_PIXELS: Final = 4096
_MOST_READ: Final = 400_000_000
_PIXEL_SCALE, _TIE_POINT, _TRANSFORMATION, _GEO_KEYS = 33550, 33922, 34264, 34735
_RASTER_TYPE_KEY, _GEOGRAPHIC_KEY, _PROJECTED_KEY = 1025, 2048, 3072
_PIXEL_IS_POINT: Final = 2
_USER_DEFINED: Final = 32767


def layers_of(path: Path) -> tuple[str, ...]:
    """Names of the layers of a GeoPackage or GeoJSON file that have places.

    Raises
    ------
    InputError
        When the file cannot be read or has no such layer.
    """
    names = layer_names(path)
    if not names:
        raise InputError(f"{path.name} holds no places; the map stays as it was.")
    return names


def read_outlines(path: Path, crs: str, progress: Progress, *, layer: str | None = None) -> Outlines:
    """Lines, borders of areas and points of a layer of a GeoPackage or of a GeoJSON file.

    Parameters
    ----------
    path
        The file.
    crs
        System into which the coordinates are transformed.
    layer
        Name of the layer; None: the first one.

    Raises
    ------
    InputError
        When the file holds no layer with places, or does not say in which system they are.
    """
    import shapely

    progress.step(f"Reading {path.name}")
    frame = read_places(path, layer)
    progress.step(f"Transforming {path.name}", 0.5)
    shapes = shapely.force_2d(frame.geometry.to_crs(coordinate_system(crs)).to_numpy())
    parts = shapely.get_parts(shapes[~shapely.is_missing(shapes) & ~shapely.is_empty(shapes)])
    areas = shapely.get_type_id(parts) == shapely.GeometryType.POLYGON
    lines = np.concatenate([parts[~areas], shapely.get_rings(parts[areas])])
    points, line = shapely.get_coordinates(lines, return_index=True)
    finite = np.isfinite(points).all(axis=1)
    points, line = points[finite], line[finite]
    remark = ""
    if len(points) > MOST_CORNERS:
        line = line[:MOST_CORNERS]
        points = points[: len(line)]
        remark = f"{path.name} has more than {MOST_CORNERS} corners, so only the first of them are shown."
    first = np.flatnonzero(np.append(True, np.diff(line) != 0)) if len(line) else np.zeros(0, np.int64)
    return Outlines(path.name, crs, points, np.append(first, len(points)).astype(np.int64), remark)


def read_picture(path: Path, crs: str, progress: Progress) -> Picture:
    """A GeoTIFF, or a picture with a world file beside it, that lies in a system with north up.

    Parameters
    ----------
    path
        The file.
    crs
        System of the map. A picture is not bent into another one.

    Raises
    ------
    InputError
        When the picture cannot be read, has no place, is turned, or lies in another system.
    """
    from PIL import Image, UnidentifiedImageError

    progress.step(f"Reading {path.name}")
    try:
        with warnings.catch_warnings(action="ignore"), Image.open(path) as image:  # damage is told below
            if image.width * image.height > _MOST_READ:
                raise InputError(f"{path.name} has more than {_MOST_READ} pixels; cut out the part you need.")
            tags = dict(getattr(image, "tag_v2", {}))
            system, remark = _system_of(path, tags)
            place = _place_of_tags(path.name, tags) or _place_of_world_file(path)
            if place is None:
                raise InputError(f"{path.name} does not say where it lies: it is no GeoTIFF and has no world file.")
            width, height = image.size
            pixels = _reduced(image, progress, path.name)
    except (UnidentifiedImageError, OSError, SyntaxError, Image.DecompressionBombError) as fault:
        raise InputError(f"{path.name} cannot be read as a picture; the map stays as it was.") from fault
    if system is not None and not coordinate_system(system).equals(coordinate_system(crs), ignore_axis_order=True):
        raise InputError(f"{path.name} lies in {system}, the map in {crs}; transform the picture first.")
    west, north, pixel_width, pixel_height = place
    rows, columns = pixels.shape[:2]
    return Picture(
        path.name, crs, pixels, west, north, pixel_width * width / columns, pixel_height * height / rows, remark
    )


def _reduced(image: Image, progress: Progress, name: str) -> np.ndarray[Any, np.dtype[np.uint8]]:
    """Pixels with opacity, made coarser where there are very many."""
    progress.step(f"Reading the pixels of {name}", 0.3)
    if image.mode.startswith("I;16") or image.mode in ("I", "F"):
        values = np.asarray(image, dtype=float)
        low, high = np.nanmin(values), np.nanmax(values)
        grey = (255.0 * (values - low) / max(high - low, 1e-12)).astype(np.uint8)
        pixels = np.dstack([grey, grey, grey, np.full_like(grey, 255)])
    else:
        pixels = np.asarray(image.convert("RGBA"))
    step = -(-max(pixels.shape[:2]) // MOST_PIXELS)
    # A whole number of pixels is left out, and the rest at the rim, so that the scale stays true.
    rows, columns = (side // step * step for side in pixels.shape[:2])
    return np.ascontiguousarray(pixels[step // 2 : rows : step, step // 2 : columns : step])


def _system_of(path: Path, tags: dict[int, Any]) -> tuple[str | None, str]:
    """Coordinate system that tags or a .prj file state, and a remark when none does."""
    keys = np.reshape(np.array(tags.get(_GEO_KEYS, ()), dtype=np.int64), (-1, 4))[1:]
    for wanted in (_PROJECTED_KEY, _GEOGRAPHIC_KEY):
        found = keys[(keys[:, 0] == wanted) & (keys[:, 1] == 0) & (keys[:, 3] != _USER_DEFINED)]
        if len(found):
            return f"EPSG:{found[0, 3]}", ""
    beside = path.with_suffix(".prj")
    if beside.is_file():
        return beside.read_text(encoding="utf-8", errors="replace").strip(), ""
    return None, f"{path.name} does not say its coordinate system; it is shown as lying in that of the map."


def _place_of_tags(name: str, tags: dict[int, Any]) -> tuple[float, float, float, float] | None:
    """West, north and pixel sides of a GeoTIFF; None where it has no tags of its place."""
    if _TRANSFORMATION in tags:
        a, b, _, west, c, d, _, north = (float(value) for value in tags[_TRANSFORMATION][:8])
        if b or c or a <= 0.0 or d >= 0.0:
            raise InputError(f"{name} is turned; only pictures with north up can lie under the map.")
        width, height = a, -d
    elif _PIXEL_SCALE in tags and _TIE_POINT in tags:
        width, height = (float(value) for value in tags[_PIXEL_SCALE][:2])
        column, row, _, x, y = (float(value) for value in tags[_TIE_POINT][:5])
        west, north = x - column * width, y + row * height
    else:
        return None
    keys = np.reshape(np.array(tags.get(_GEO_KEYS, ()), dtype=np.int64), (-1, 4))[1:]
    if ((keys[:, 0] == _RASTER_TYPE_KEY) & (keys[:, 3] == _PIXEL_IS_POINT)).any():
        west, north = west - width / 2.0, north + height / 2.0
    return west, north, width, height


def _place_of_world_file(path: Path) -> tuple[float, float, float, float] | None:
    """West, north and pixel sides that a world file states; None where there is none."""
    ending = path.suffix[1:].lower()
    names = [f".{ending[0]}{ending[-1]}w", f".{ending}w", ".wld"]
    names += [name.upper() for name in names]
    beside = next((path.with_suffix(name) for name in names if path.with_suffix(name).is_file()), None)
    if beside is None:
        return None
    try:
        width, turn, other_turn, height, x, y = (
            float(line.replace(",", ".")) for line in beside.read_text(encoding="ascii").split()[:6]
        )
    except (UnicodeDecodeError, ValueError) as fault:
        raise InputError(f"{beside.name} is no world file: six numbers are expected, one in a line.") from fault
    if turn or other_turn or width <= 0.0 or height >= 0.0:
        raise InputError(f"{path.name} is turned; only pictures with north up can lie under the map.")
    return x - width / 2.0, y - height / 2.0, width, -height
