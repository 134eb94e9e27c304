"""Vector layers of files that lie here.

GDAL tells kinds of files by what stands in them, whatever they are called. Some kinds name addresses that it would
fetch, and so does a GeoJSON file that gives its coordinate system as a link. What is handed on here sends it nowhere.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from stemmap.errors import InputError
from stemmap.reading.layers import crs_member

if TYPE_CHECKING:
    from geopandas import GeoDataFrame

_DATABASE = b"SQLite format 3\0"
#: "ESRI Shapefile Technical Description", July 1998, p. 4: file code 9994, big endian.
_SHAPEFILE = (9994).to_bytes(4, "big")


@dataclass(frozen=True)
class _Source:
    """What GDAL is given: the file, or the bytes of a GeoJSON without what it names; and the system it names."""

    content: Path | bytes
    crs: str | None = None


def layer_names(path: Path) -> tuple[str, ...]:
    """Names of the layers of a GeoPackage, shapefile or GeoJSON file that have places.

    Raises
    ------
    InputError
        When the file cannot be read.
    """
    import pyogrio
    from pyogrio.errors import DataSourceError

    source = _source(path)
    if isinstance(source.content, bytes):
        return (path.stem,)
    try:
        listed = pyogrio.list_layers(source.content).tolist()
    except (DataSourceError, OSError) as fault:
        raise InputError(f"{path.name} cannot be read as a vector layer; save it again as GeoPackage.") from fault
    return tuple(str(name) for name, geometry in listed if geometry is not None)


def read_places(path: Path, layer: str | None = None) -> GeoDataFrame:
    """The geometries of a layer of a GeoPackage, shapefile or GeoJSON file.

    Parameters
    ----------
    layer
        Its name; None: the first one.

    Raises
    ------
    InputError
        When the file cannot be read, holds no places, or does not say its coordinate system.
    """
    import geopandas
    from pyogrio.errors import DataLayerError, DataSourceError

    source = _source(path)
    try:
        if isinstance(source.content, bytes):
            frame = geopandas.read_file(source.content, columns=[])
        else:
            frame = geopandas.read_file(source.content, columns=[], layer=layer)
        if source.crs is not None and isinstance(frame, geopandas.GeoDataFrame):
            frame = frame.set_crs(source.crs, allow_override=True)
    except (DataSourceError, DataLayerError, OSError, ValueError, RuntimeError) as fault:
        raise InputError(f"{path.name} cannot be read as a vector layer; save it again as GeoPackage.") from fault
    if not isinstance(frame, geopandas.GeoDataFrame) or not len(frame):
        raise InputError(f"{path.name} holds no places.")
    if frame.crs is None:
        raise InputError(f"{path.name} does not say its coordinate system; save it with one.")
    return frame


def _source(path: Path) -> _Source:
    try:
        with path.open("rb") as stream:
            head = stream.read(len(_DATABASE))
        if head == _DATABASE or head.startswith(_SHAPEFILE):
            return _Source(path)
        content = path.read_bytes()
        made = json.loads(content.decode(json.detect_encoding(content)))
    except OSError as fault:
        raise InputError(f"{path.name} cannot be read: {fault.strerror or fault}.") from fault
    except (ValueError, RecursionError):
        made = None
    if not isinstance(made, dict):
        raise InputError(
            f"{path.name} cannot be read as a vector layer: it is no GeoPackage, shapefile or GeoJSON file; "
            "save it again as GeoPackage."
        )
    plain: dict[str, Any] = {key: made[key] for key in ("type", "features", "geometry", "coordinates") if key in made}
    return _Source(json.dumps(plain).encode("utf-8", "replace"), crs_member(made))
