"""The user's own ground: read into the map's system, or refused with a sentence."""

import geopandas
import numpy as np
import pyproj
import pytest
from PIL import Image, TiffImagePlugin
from shapely import LineString, MultiPolygon, Point, Polygon

from stemmap.errors import Cancelled, InputError
from stemmap.progress import Progress
from stemmap.reading import backgrounds
from stemmap.reading.backgrounds import read_outlines, read_picture

CRS = "EPSG:25833"
WEST, NORTH = 400_000.0, 5_300_000.0


@pytest.fixture
def layer(tmp_path):
    """Writes a layer: layer([shapes], "x.gpkg", crs)."""

    def write(shapes, name="own.gpkg", crs=CRS):
        path = tmp_path / name
        geopandas.GeoDataFrame({"name": ["x"] * len(shapes)}, geometry=list(shapes), crs=crs).to_file(path)
        return path

    return write


@pytest.fixture
def picture(tmp_path):
    """Writes a picture of 40 columns and 30 rows, its upper left quarter red: picture("x.tif", tags, world=...)."""

    def write(name="own.tif", tags=None, *, world=None, prj=None, mode="RGB"):
        pixels = np.zeros((30, 40, 3), np.uint8)
        pixels[:15, :20, 0] = 255
        image = Image.fromarray(pixels).convert(mode)
        path = tmp_path / name
        if tags is None:
            image.save(path)
        else:
            directory = TiffImagePlugin.ImageFileDirectory_v2()
            for tag, (kind, values) in tags.items():
                directory.tagtype[tag] = kind
                directory[tag] = values
            image.save(path, tiffinfo=directory)
        if world is not None:
            path.with_suffix(world[0]).write_text("\n".join(map(str, world[1])))
        if prj is not None:
            path.with_suffix(".prj").write_text(prj)
        return path

    return write


DOUBLE, SHORT = 12, 3


def geo_tags(*, epsg=25833, tie=(0.0, 0.0, 0.0, WEST, NORTH, 0.0), point=False, scale=(0.5, 0.5, 0.0)):
    # GeoTIFF 1.1: a header of four shorts (version 1, revision 1.0, number of keys), then key, place, count, value.
    keys = (1, 1, 0, 2, 1025, 0, 1, 2 if point else 1, 3072, 0, 1, epsg)
    return {33550: (DOUBLE, scale), 33922: (DOUBLE, tie), 34735: (SHORT, keys)}


def test_lines_areas_and_points_become_outlines(layer):
    shapes = [
        LineString([(0, 0), (1, 1), (2, 0)]),
        MultiPolygon([Polygon([(0, 0), (4, 0), (4, 4)], [[(3, 1), (3.5, 1), (3.5, 1.5)]])]),
        Point(7, 8),
    ]
    read = read_outlines(layer(shapes), CRS, Progress())
    corners = {tuple(np.diff(read.first)[order].tolist()) for order in [np.argsort(np.diff(read.first))]}

    assert corners == {(1, 3, 4, 4)}
    assert [7.0, 8.0] in read.points.tolist()
    assert read.crs == CRS


def test_a_layer_in_another_system_is_transformed(layer):
    # Computed with pyproj: EPSG:4326 15 E, 48 N is 500000 E in zone 33.
    read = read_outlines(layer([Point(15.0, 48.0)], "own.geojson", "EPSG:4326"), CRS, Progress())

    assert read.points[0, 0] == pytest.approx(500_000.0, abs=1e-3)


def test_shapes_without_a_place_are_left_out(layer):
    read = read_outlines(layer([Point(1, 2), None, Polygon()]), CRS, Progress())

    assert read.first.tolist() == [0, 1]


def test_a_layer_with_very_many_corners_is_cut_and_says_so(layer, monkeypatch):
    monkeypatch.setattr(backgrounds, "MOST_CORNERS", 10)
    read = read_outlines(layer([LineString([(n, 0), (n, 1)]) for n in range(9)]), CRS, Progress())

    assert len(read.points) == 10
    assert "more than 10 corners" in read.remark


@pytest.mark.parametrize(
    ("name", "content", "sentence"),
    [
        ("broken.gpkg", b"no database", "cannot be read as a vector layer"),
        ("empty.geojson", b'{"type": "FeatureCollection", "features": []}', "holds no places"),
    ],
)
def test_a_layer_that_cannot_be_used_is_refused(tmp_path, name, content, sentence):
    path = tmp_path / name
    path.write_bytes(content)
    with pytest.raises(InputError, match=sentence):
        read_outlines(path, CRS, Progress())


def test_reading_can_be_stopped(layer):
    progress = Progress()
    progress.stop.set()
    with pytest.raises(Cancelled):
        read_outlines(layer([Point(1, 2)]), CRS, progress)


def test_a_geotiff_lies_where_its_tags_say(picture):
    read = read_picture(picture("own.tif", geo_tags()), CRS, Progress())

    assert (read.west, read.north, read.pixel_width, read.pixel_height) == (WEST, NORTH, 0.5, 0.5)
    assert read.pixels[0, 0].tolist() == [255, 0, 0, 255]
    assert read.remark == ""


def test_a_tie_point_inside_the_picture_and_pixels_as_points_are_understood(picture):
    tags = geo_tags(tie=(10.0, 20.0, 0.0, WEST, NORTH, 0.0), point=True)
    read = read_picture(picture("own.tif", tags), CRS, Progress())

    # Ten pixels to the west and twenty to the north of the tie point, and half a pixel since it is a pixel's middle.
    assert (read.west, read.north) == (WEST - 5.0 - 0.25, NORTH + 10.0 + 0.25)


def test_a_transformation_with_north_up_is_understood_and_a_turned_one_refused(picture):
    matrix = [0.5, 0.0, 0.0, WEST, 0.0, -0.5, 0.0, NORTH, *[0.0] * 4, 0.0, 0.0, 0.0, 1.0]
    keys = {34735: geo_tags()[34735]}
    read = read_picture(picture("own.tif", {34264: (DOUBLE, matrix), **keys}), CRS, Progress())
    assert (read.west, read.north, read.pixel_height) == (WEST, NORTH, 0.5)
    matrix[1] = 0.1
    with pytest.raises(InputError, match="turned"):
        read_picture(picture("turned.tif", {34264: (DOUBLE, matrix), **keys}), CRS, Progress())


def test_a_geotiff_in_another_system_is_refused(picture):
    with pytest.raises(InputError, match="lies in EPSG:25832, the map in EPSG:25833"):
        read_picture(picture("own.tif", geo_tags(epsg=25832)), CRS, Progress())


@pytest.mark.parametrize(
    ("name", "world"), [("a.png", ".pgw"), ("a.jpg", ".jgw"), ("a.tif", ".tfw"), ("a.png", ".wld"), ("a.PNG", ".pgw")]
)
def test_a_world_file_gives_the_middle_of_the_first_pixel(picture, name, world):
    read = read_picture(picture(name, world=(world, (0.5, 0, 0, -0.5, WEST, NORTH))), CRS, Progress())

    assert (read.west, read.north, read.pixel_width) == (WEST - 0.25, NORTH + 0.25, 0.5)
    assert "does not say its coordinate system" in read.remark


def test_a_system_beside_a_world_file_is_read(picture):
    world = (".pgw", (0.5, 0, 0, -0.5, WEST, NORTH))
    read = read_picture(picture("a.png", world=world, prj=pyproj.CRS.from_epsg(25833).to_wkt()), CRS, Progress())
    assert read.remark == ""
    with pytest.raises(InputError, match="transform the picture first"):
        read_picture(picture("b.png", world=world, prj=pyproj.CRS.from_epsg(32632).to_wkt()), CRS, Progress())


@pytest.mark.parametrize(
    ("world", "sentence"),
    [
        (None, "does not say where it lies"),
        ((0.5, 0.1, 0, -0.5, WEST, NORTH), "is turned"),
        ((0.5, 0, 0, 0.5, WEST, NORTH), "is turned"),
        ((0.5, 0, "x"), "six numbers"),
    ],
)
def test_a_picture_without_a_usable_place_is_refused(picture, world, sentence):
    path = picture("a.png", world=None if world is None else (".pgw", world))
    with pytest.raises(InputError, match=sentence):
        read_picture(path, CRS, Progress())


def test_a_file_that_is_no_picture_is_refused(tmp_path):
    path = tmp_path / "a.tif"
    path.write_bytes(b"II*\x00 and no more")
    with pytest.raises(InputError, match="cannot be read as a picture"):
        read_picture(path, CRS, Progress())


def test_a_large_picture_becomes_coarser_and_stays_in_its_place(picture, monkeypatch):
    monkeypatch.setattr(backgrounds, "MOST_PIXELS", 20)
    read = read_picture(picture("own.tif", geo_tags()), CRS, Progress())

    assert read.pixels.shape == (15, 20, 4)
    assert read.pixel_width == 1.0
    assert (read.pixels[:7, :10, 0] == 255).all()


@pytest.mark.parametrize("mode", ["L", "P", "RGBA", "I;16", "F"])
def test_grey_palettes_opacity_and_heights_are_shown(picture, mode):
    read = read_picture(picture("own.tif", geo_tags(), mode=mode), CRS, Progress())

    assert read.pixels.shape == (30, 40, 4)
    assert read.pixels[0, 0, 0] > read.pixels[-1, -1, 0]
