"""The polygons of a stand from vector files, and what cannot be used."""

import geopandas
import pytest
import shapely

from stemmap.errors import InputError
from stemmap.reading.stand import read_stand
from stemmap.tasks.workup import open_uploads

CRS = "EPSG:32633"
TWO = [shapely.box(400100, 5400000, 400200, 5400100), shapely.box(400150, 5400000, 400300, 5400100)]


def written(path, shapes, crs=CRS):
    geopandas.GeoDataFrame({"name": ["A"] * len(shapes)}, geometry=shapes, crs=crs).to_file(path)
    return path


@pytest.mark.parametrize("ending", ["gpkg", "geojson", "shp"])
def test_polygons_that_overlap_are_one_ground(tmp_path, ending):
    stand = read_stand(written(tmp_path / f"stand.{ending}", TWO))

    assert stand.polygons.area == pytest.approx(20_000.0, rel=1e-6)
    assert stand.name == f"stand.{ending}"


def test_missing_file_is_told_with_its_folder(tmp_path):
    with pytest.raises(InputError, match=r"not in .*correct"):
        read_stand(tmp_path / "none.gpkg")


def test_file_of_points_is_no_stand(tmp_path):
    with pytest.raises(InputError, match="no polygon"):
        read_stand(written(tmp_path / "points.gpkg", [shapely.Point(1, 2)]))


def test_broken_file_is_told(tmp_path):
    (tmp_path / "stand.gpkg").write_bytes(b"no database")
    with pytest.raises(InputError, match="cannot be read"):
        read_stand(tmp_path / "stand.gpkg")


def test_stand_lies_beside_the_settings(tmp_path):
    written(tmp_path / "stand.geojson", TWO[:1])
    (tmp_path / "plots.csv").write_text("plot,easting,northing\n1,400105,5400050\n")
    (tmp_path / "stems.csv").write_text("plot,stem,azimuth,distance_m,dbh_cm\n1,1,90,4,30\n1,2,270,6,30\n")
    settings = tmp_path / "survey.toml"
    settings.write_text(f'[survey]\ncrs = "{CRS}"\n[design]\nradius_m = 12.62\nstand = "stand.geojson"\n')

    workup = open_uploads([tmp_path / "plots.csv", tmp_path / "stems.csv"], settings=settings)
    told = workup.summary.plot_json(0)

    assert told["in"] == 1
    assert told["share_inside"] == pytest.approx(0.745, abs=1e-3)
