"""Layers of a GIS: GeoJSON and GeoPackage."""

from __future__ import annotations

import json
import re
import warnings
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.errors import InputError
from stemmap.progress import Progress
from stemmap.reading import remarks
from stemmap.reading.sheet import MOST_SINGLE_CELLS, Points, Sheet, check_extent, column_of
from stemmap.reading.workbook import column_of_values
from stemmap.survey.records import Remark

#: Coordinate systems whose x is the longitude and y the latitude of WGS 84.
WGS84 = frozenset({"EPSG:4326", "OGC:CRS84"})
_CRS_NAME = re.compile(r"urn:ogc:def:crs:(EPSG|OGC):[\d.]*:(\w+)", re.IGNORECASE)


class _Number(str):
    """A number as it stands in a GeoJSON file, told from a text."""

    __slots__ = ()


#: An escaped backslash, a whole character of two escapes, or half of one.
_ESCAPES = re.compile(r"(\\\\|\\u[dD][89abAB][\da-fA-F]{2}\\u[dD][c-fC-F][\da-fA-F]{2})|\\u[dD][89a-fA-F][\da-fA-F]{2}")


def _text(path: Path) -> str:
    """Text of a JSON file; half of a character, which no file can hold, reads as the mark for what is no character."""
    content = path.read_bytes()
    text = content.decode(json.detect_encoding(content))
    return _ESCAPES.sub(lambda found: found[1] or "\ufffd", text)


def read_geojson(path: Path, *, source: str, progress: Progress) -> Sheet:
    """The features of a GeoJSON file; numbers keep the digits they are written with.

    Raises
    ------
    InputError
        When the file is no GeoJSON, with the line at which it breaks off.
    """
    progress.step(f"Reading {source}")
    try:
        content = json.loads(_text(path), parse_float=_Number, parse_int=_Number, parse_constant=_Number)
    except json.JSONDecodeError as fault:
        raise InputError(
            f"{source} is no complete GeoJSON file: it breaks off or is damaged in line {fault.lineno}; export it anew."
        ) from fault
    except (UnicodeDecodeError, RecursionError) as fault:
        raise InputError(f"{source} is no readable GeoJSON file; export it again.") from fault
    features = content.get("features") if isinstance(content, dict) else None
    if not isinstance(features, list) or not all(isinstance(feature, dict) for feature in features):
        raise InputError(f"{source} is JSON, but no GeoJSON collection of features.")
    records = [feature.get("properties") or {} for feature in features]
    if not all(isinstance(record, dict) for record in records):
        raise InputError(f"{source} has features whose properties are no table.")
    headings = tuple(dict.fromkeys(str(name) for record in records for name in record))
    _check_filled(len(records), headings, source)
    columns = tuple(column_of([_written(record.get(name)) for record in records]) for name in headings)
    x, y = np.array([_position(feature.get("geometry")) for feature in features], np.float64).reshape(-1, 2).T
    line = np.arange(1, len(records) + 1, dtype=np.int32)
    drawn = any(feature.get("geometry") for feature in features)
    points, said = _points(x, y, crs=crs_member(content), drawn=drawn, source=source)
    return Sheet(source, path.stem, headings, columns, line, points=points, remarks=said)


def read_geopackage(
    path: Path, *, source: str, progress: Progress, said: list[Remark], most_rows: int | None = None
) -> Iterator[Sheet]:
    """The layers and tables of a GeoPackage, whole or `most_rows` records of each.

    Raises
    ------
    InputError
        When the file is no GeoPackage or is damaged.
    """
    import pyogrio
    import shapely

    try:
        with warnings.catch_warnings():
            # An unusual file name ending is no concern of the user's.
            warnings.simplefilter("ignore")
            names = [str(name) for name in pyogrio.list_layers(path)[:, 0]]
            for name in names:
                shown_as = source if len(names) == 1 else f"{source}, layer {name}"
                progress.step(f"Reading {shown_as}")
                about_layer = pyogrio.read_info(path, layer=name, force_feature_count=True)
                check_extent(
                    len(about_layer["fields"]), about_layer["features"], shown_as, most_cells=MOST_SINGLE_CELLS
                )
                meta, fids, geometry, values = pyogrio.raw.read(
                    path, layer=name, return_fids=True, max_features=most_rows
                )
                headings = tuple(str(field) for field in meta["fields"])
                if not len(fids) or not headings:
                    said.append(Remark(remarks.SHEET_IGNORED, f"{shown_as} is empty and was not read.", shown_as))
                    continue
                columns = tuple(column_of_values(_as_objects(column)) for column in values)
                points: Points | None = None
                about: tuple[Remark, ...] = ()
                if geometry is not None:
                    shapes = shapely.from_wkb(geometry)
                    points, about = _points(
                        shapely.get_x(shapes),
                        shapely.get_y(shapes),
                        crs=str(meta["crs"] or ""),
                        drawn=not shapely.is_missing(shapes).all(),
                        source=shown_as,
                    )
                line = np.arange(1, len(fids) + 1, dtype=np.int32)
                yield Sheet(shown_as, path.stem if len(names) == 1 else name, headings, columns, line, points=points,
                            remarks=about)  # fmt: skip
    except (pyogrio.errors.DataSourceError, pyogrio.errors.DataLayerError, RuntimeError, ValueError) as fault:
        raise InputError(
            f"{source} is damaged or no GeoPackage. Export it again; if it is a survey file, stemmap repair saves what "
            "can be read."
        ) from fault


def _check_filled(count: int, headings: Sequence[str], source: str) -> None:
    if not count or not headings:
        raise InputError(f"{source} has no features with properties.")
    check_extent(len(headings), count, source, most_cells=MOST_SINGLE_CELLS)


def _written(value: Any) -> str:
    """A property as text: numbers as they are written, without the .0 that programs hang onto whole numbers."""
    if isinstance(value, _Number):
        return value.removesuffix(".0")
    if isinstance(value, str):
        return value
    if value is None:
        return ""
    return "TRUE" if value is True else "FALSE" if value is False else json.dumps(value, ensure_ascii=False)


def _position(geometry: Any) -> tuple[float, float]:
    """Coordinates of a point; NaN for anything else."""
    if isinstance(geometry, dict) and geometry.get("type") == "Point":
        coordinates: Any = geometry.get("coordinates")
        try:
            return float(coordinates[0]), float(coordinates[1])
        except (TypeError, ValueError, IndexError, KeyError):
            pass
    return np.nan, np.nan


def crs_member(content: Mapping[str, Any]) -> str:
    """The coordinate system: WGS 84 unless the file says otherwise in the way of the older standard."""
    member = content.get("crs")
    properties = member.get("properties") if isinstance(member, dict) else None
    name = str(properties.get("name", "")) if isinstance(properties, dict) else ""
    match = _CRS_NAME.fullmatch(name)
    return f"{match[1].upper()}:{match[2]}" if match else name or "EPSG:4326"


def _points(
    x: NDArray[np.float64], y: NDArray[np.float64], *, crs: str, drawn: bool, source: str
) -> tuple[Points | None, tuple[Remark, ...]]:
    """The points of a layer, and a word when some records have none although something is drawn."""
    missing = np.flatnonzero(~(np.isfinite(x) & np.isfinite(y)))
    if not drawn:
        return None, ()
    said: tuple[Remark, ...] = ()
    if len(missing):
        lines = remarks.some((int(row) + 1 for row in missing), count=len(missing))
        sentence = f"Records {lines} of {source} have no point; their place is unknown."
        said = (Remark(remarks.GEOMETRY_MISSING, sentence, source, line=int(missing[0]) + 1),)
    return Points(x, y, crs) if len(missing) < len(x) else None, said


def _as_objects(column: NDArray[Any]) -> list[Any]:
    """Values of a layer's field as Python values; days and times as ISO text."""
    if column.dtype.kind == "M":
        texts = np.datetime_as_string(column, unit="s")
        return ["" if text == "NaT" else str(text).removesuffix("T00:00:00").replace("T", " ") for text in texts]
    values: list[Any] = column.tolist()
    return values
