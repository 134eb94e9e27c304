"""The polygons of a stand, from a vector file."""

from __future__ import annotations

from pathlib import Path

from stemmap.errors import InputError
from stemmap.progress import Progress
from stemmap.reading.vectors import read_places
from stemmap.survey.survey import StandGround


def read_stand(path: Path, progress: Progress | None = None) -> StandGround:
    """Read the polygons of a stand; several are one ground.

    Parameters
    ----------
    path
        A GeoPackage, GeoJSON file or shapefile; the first layer is taken.
    progress
        Told what is read.

    Raises
    ------
    InputError
        When the file is not there or not readable, holds no polygon, or does not say its coordinate system.
    """
    import shapely

    (progress or Progress()).step(f"Reading {path.name}")
    if not path.exists():
        raise InputError(
            f"The polygons of the stand, {path.name}, are not in {path.parent.resolve()}; "
            "put the file there or correct [design] stand."
        )
    frame = read_places(path)
    shapes = shapely.force_2d(frame.geometry.to_numpy())
    parts = shapely.get_parts(shapes[~shapely.is_missing(shapes) & ~shapely.is_empty(shapes)])
    areas = parts[shapely.get_type_id(parts) == shapely.GeometryType.POLYGON]
    if not len(areas):
        raise InputError(f"{path.name} holds no polygon of a stand; [design] stand needs its outline as an area.")
    return StandGround(path.name, str(frame.crs.to_wkt()), shapely.union_all(shapely.make_valid(areas)))
