"""A background is read by what its file is."""

import geopandas
import pytest
from PIL import Image
from shapely import Point

from stemmap.errors import InputError
from stemmap.survey.background import Outlines, Picture
from stemmap.tasks.backgrounds import read_background


def test_the_ending_tells_what_a_file_is(tmp_path):
    layer, picture = tmp_path / "own.GeoJSON", tmp_path / "own.PNG"
    layer.write_text(geopandas.GeoSeries([Point(15, 48)], crs="EPSG:4326").to_json())
    Image.new("RGB", (4, 4)).save(picture)
    picture.with_suffix(".pgw").write_text("1\n0\n0\n-1\n400000\n5300000\n")

    assert isinstance(read_background(layer, "EPSG:25833"), Outlines)
    assert isinstance(read_background(picture, "EPSG:25833"), Picture)


def test_another_ending_is_refused(tmp_path):
    with pytest.raises(InputError, match=r"own\.doc cannot lie under the map"):
        read_background(tmp_path / "own.doc", "EPSG:25833")
