"""Stems as layers for a GIS: GeoPackage, GeoJSON (RFC 7946), Parquet, and CSV with coordinates as columns."""

from __future__ import annotations

import errno
import json
import os
import shutil
import warnings
from collections.abc import Callable, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from stemmap.errors import EnvironmentFault, InputError, OutputError
from stemmap.writing.output import text_output, whole_file
from stemmap.writing.tables import column_rows, distinct_names, write_csv_columns

if TYPE_CHECKING:
    from geopandas import GeoDataFrame

Columns = Mapping[str, NDArray[Any]]

#: A disk with less room than this is full for a library that writes.
_LITTLE_BYTES = 1 << 16

#: Characters of a library's own words that are told.
_LONGEST_REASON = 120

#: Columns that a layer makes of its own.
_KEPT_NAMES = ("fid", "geom", "geometry", "ogc_fid")


def write_stems(path: Path, columns: Columns, crs: str | None, lonlat: NDArray[np.float64]) -> None:
    """Write stems in the format that the file name asks for.

    Parameters
    ----------
    path
        Ends in .gpkg, .geojson, .csv or .parquet.
    columns
        As `stemmap.writing.stems.stem_columns` gives them.
    crs
        System of easting and northing; None when no plot has coordinates.
    lonlat
        The same positions on WGS 84, shape (n, 2), as GeoJSON wants them.

    Raises
    ------
    InputError
        When the ending is none of these.
    OutputError
        When the file cannot be written.
    EnvironmentFault
        When Parquet is asked for and its library is not installed.
    """
    writer = _WRITERS.get(path.suffix.lower())
    if writer is None:
        raise InputError(f"{path.name}: the name must end in {', '.join(_WRITERS)}.")
    writer(path, columns, crs, lonlat)


def _write_csv(path: Path, columns: Columns, _crs: str | None, _lonlat: NDArray[np.float64]) -> None:
    with text_output(path) as stream:
        write_csv_columns(stream, columns)


def _write_geojson(path: Path, columns: Columns, _crs: str | None, lonlat: NDArray[np.float64]) -> None:
    """Write features one by one; positions are longitude and latitude on WGS 84 whatever the properties say."""
    names = list(columns)
    with text_output(path) as stream:
        stream.write('{"type": "FeatureCollection", "features": [')
        for place, (point, row) in enumerate(zip(lonlat.tolist(), column_rows(columns), strict=True)):
            known = np.isfinite(point).all()
            feature = {
                "type": "Feature",
                "geometry": {"type": "Point", "coordinates": point} if known else None,
                "properties": {name: _json_value(value) for name, value in zip(names, row, strict=True)},
            }
            stream.write(",\n" if place else "\n")
            stream.write(json.dumps(feature, ensure_ascii=False, allow_nan=False))
        stream.write("]}\n")


def _json_value(value: Any) -> Any:
    if value == "" or (isinstance(value, float) and not np.isfinite(value)):
        return None
    return value if value is None or isinstance(value, bool | int | float | str) else str(value)


def _frame(columns: Columns, crs: str | None) -> GeoDataFrame:
    import geopandas
    import pandas as pd
    import shapely

    from stemmap.survey.place import coordinate_system

    values: dict[str, Any] = {}
    for name, column in zip(distinct_names(columns, taken=_KEPT_NAMES), columns.values(), strict=True):
        if name == "inside":
            values[name] = pd.array([None if item is None else bool(item) for item in column], dtype="boolean")
        elif column.dtype.kind == "M":
            values[name] = column.astype("datetime64[ms]")
        elif column.dtype.kind == "O":
            values[name] = column.copy()
            values[name][column == ""] = None
        else:
            values[name] = column
    known = np.isfinite(columns["easting"]) & np.isfinite(columns["northing"])
    points = np.full(len(known), None, dtype=object)
    points[known] = shapely.points(columns["easting"][known], columns["northing"][known])
    return geopandas.GeoDataFrame(values, geometry=points, crs=None if crs is None else coordinate_system(crs))


def _write_gpkg(path: Path, columns: Columns, crs: str | None, _lonlat: NDArray[np.float64]) -> None:
    frame = _frame(columns, crs)
    with whole_file(path) as partial, warnings.catch_warnings():
        # Where no plot has a place there are no points, and no system is missing.
        warnings.filterwarnings("ignore", message="'crs' was not provided")
        _write(lambda: frame.to_file(partial, layer="stems", driver="GPKG"), path)


def _write_parquet(path: Path, columns: Columns, crs: str | None, _lonlat: NDArray[np.float64]) -> None:
    try:
        import pyarrow  # noqa: F401 - only whether it is there
    except ImportError:
        raise EnvironmentFault(
            "Parquet needs the package pyarrow; install it with: python3 -m pip install 'stemmap[parquet]'"
        ) from None
    frame = _frame(columns, crs)
    with whole_file(path) as partial:
        _write(lambda: frame.to_parquet(partial), path)


def _write(write: Callable[[], None], path: Path) -> None:
    from pyogrio.errors import DataLayerError, DataSourceError

    try:
        write()
    except (DataSourceError, DataLayerError, ValueError) as fault:
        # The libraries tell a full disk in their own words, at times with pages of SQL in them.
        full = shutil.disk_usage(path.resolve().parent).free < _LITTLE_BYTES
        reason = os.strerror(errno.ENOSPC) if full else str(fault).splitlines()[0][:_LONGEST_REASON]
        raise OutputError(f"{path} cannot be written: {reason}. Choose another place.") from fault


_WRITERS: Mapping[str, Callable[[Path, Columns, str | None, NDArray[np.float64]], None]] = MappingProxyType(
    {".gpkg": _write_gpkg, ".geojson": _write_geojson, ".csv": _write_csv, ".parquet": _write_parquet}
)
