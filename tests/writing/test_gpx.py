"""GPX files: well-formed whatever the names are, longitudes as the schema wants them."""

from xml.etree import ElementTree

import pytest

from stemmap.writing.gpx import Waypoint, write_gpx

GPX = "{http://www.topografix.com/GPX/1/1}"


def read(path):
    return ElementTree.parse(path).getroot()


def test_any_name_can_stand_in_it(tmp_path):
    places = [Waypoint(10.0, 50.0, '<&"\x00\x0b\ud800ä', "about\x1f")]
    write_gpx(places, tmp_path / "centres.gpx", name="P & Q", about="a < b")
    root = read(tmp_path / "centres.gpx")
    assert root.findtext(f"{GPX}wpt/{GPX}name") == '<&"\ufffd\ufffd\ufffdä'
    assert root.findtext(f"{GPX}metadata/{GPX}desc") == "a < b"


@pytest.mark.parametrize(("lon", "written"), [(180.0, -180.0), (190.0, -170.0), (-180.0, -180.0), (10.25, 10.25)])
def test_longitudes_lie_from_minus_180_up_to_but_not_180(tmp_path, lon, written):
    """Type longitudeType of the schema of GPX 1.1, https://www.topografix.com/GPX/1/1/gpx.xsd."""
    write_gpx([Waypoint(lon, 1.0, "A", "")], tmp_path / "centres.gpx", name="P", about="")
    assert float(read(tmp_path / "centres.gpx").find(f"{GPX}wpt").get("lon")) == written


def test_without_places_there_is_no_route(tmp_path):
    write_gpx([], tmp_path / "centres.gpx", name="P", about="")
    assert [child.tag for child in read(tmp_path / "centres.gpx")] == [f"{GPX}metadata"]
