"""Places in their order for a satellite receiver.

Source: GPX 1.1 schema, https://www.topografix.com/GPX/1/1/gpx.xsd.
"""

from __future__ import annotations

import xml.etree.ElementTree as ET
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from stemmap.writing.output import whole_file

_NAMESPACE = "http://www.topografix.com/GPX/1/1"
_SCHEMA = "http://www.w3.org/2001/XMLSchema-instance"
#: What XML 1.0 cannot hold.
_NO_TEXT = dict.fromkeys((*range(9), 11, 12, *range(14, 32), 0xFFFE, 0xFFFF, *range(0xD800, 0xE000)), "\ufffd")


@dataclass(frozen=True)
class Waypoint:
    """A place: longitude and latitude on WGS 84 in degrees, name, and a sentence about it."""

    lon: float
    lat: float
    name: str
    about: str


def write_gpx(places: Sequence[Waypoint], path: Path, *, name: str, about: str) -> None:
    """Write places as way points and, in the same order, as a route.

    Raises
    ------
    OutputError
        When the file cannot be written.
    """
    root = ET.Element(
        "gpx",
        {
            "version": "1.1",
            "creator": "stemmap",
            "xmlns": _NAMESPACE,
            "xmlns:xsi": _SCHEMA,
            "xsi:schemaLocation": f"{_NAMESPACE} {_NAMESPACE}/gpx.xsd",
        },
    )
    metadata = ET.SubElement(root, "metadata")
    _add_text(metadata, "name", name)
    _add_text(metadata, "desc", about)
    for place in places:
        _add_point(root, "wpt", place)
    if places:
        route = ET.SubElement(root, "rte")
        _add_text(route, "name", name)
        for place in places:
            _add_point(route, "rtept", place)
    ET.indent(root)
    with whole_file(path) as partial:
        ET.ElementTree(root).write(partial, encoding="utf-8", xml_declaration=True)


def _add_point(parent: ET.Element, tag: str, place: Waypoint) -> None:
    # The schema takes longitudes from -180 up to but not 180.
    lon = (place.lon + 180.0) % 360.0 - 180.0
    point = ET.SubElement(parent, tag, {"lat": f"{place.lat:.8f}", "lon": f"{lon:.8f}"})
    _add_text(point, "name", place.name)
    _add_text(point, "desc", place.about)


def _add_text(parent: ET.Element, tag: str, text: str) -> None:
    ET.SubElement(parent, tag).text = text.translate(_NO_TEXT)
