"""The polygons of a stand, from any vector file that GDAL reads."""

from __future__ import annotations

from pathlib import Path

from stemmap.errors import InputError
from stemmap.progress import Progress
from stemmap.survey.ground import StandGround


def read_stand(path: Path, progress: Progress | None = None) -> StandGround:
    """Read the polygons of a stand; several are one ground.

    Parameters
    ----------
    path
        A vector file such as GeoPackage, GeoJSON or shapefile; the first layer is taken.
    progress
        Told what is read.

    Raises
    ------
    InputError
        When the file is not there or not readable, holds no polygon, or does not say its coordinate system.
    """
    import geopandas
    import shapely
    from pyogrio.errors import DataLayerError, DataSourceError

    (progress or Progress()).step(f"Reading {path.name}")
    if not path.exists():
        raise InputError(
            f"The polygons of the stand, {path.name}, are not in {path.parent.resolve()}; "
            "put the file there or correct [design] stand."
        )
    try:
        frame = geopandas.read_file(path, columns=[])
    except (DataSourceError, DataLayerError, OSError, ValueError) as fault:
        raise InputError(f"{path.name} cannot be read as polygons; save it again as GeoPackage.") from fault
    shapes = shapely.force_2d(frame.geometry.to_numpy()) if isinstance(frame, geopandas.GeoDataFrame) else []
    parts = shapely.get_parts([shape for shape in shapes if shape is not None and not shape.is_empty])
    areas = parts[shapely.get_type_id(parts) == shapely.GeometryType.POLYGON]
    if not len(areas):
        raise InputError(f"{path.name} holds no polygon of a stand; [design] stand needs its outline as an area.")
    if frame.crs is None:
        raise InputError(f"{path.name} does not say its coordinate system; save it with one.")
    return StandGround(path.name, str(frame.crs.to_wkt()), shapely.union_all(shapely.make_valid(areas)))
