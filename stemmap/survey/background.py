"""The user's own ground under the map: outlines or a picture, both in projected coordinates."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Outlines:
    """Lines, borders of areas, and points of one layer.

    Parameters
    ----------
    name
        Of the file or layer.
    crs
        System of the coordinates.
    points
        Corners of all outlines one after the other, x and y in the system's own unit, shape (m, 2).
    first
        Corners of outline i are rows first[i] to first[i + 1]; one with a single corner is a point; shape (n + 1,).
    remark
        A sentence on what is left out; empty when everything is there.
    """

    name: str
    crs: str
    points: Floats
    first: NDArray[np.int64]
    remark: str = ""


@dataclass(frozen=True, eq=False)
class Picture:
    """A picture with north up.

    Parameters
    ----------
    name
        Of the file.
    crs
        System of the coordinates.
    pixels
        Red, green, blue and opacity from the north-west on, shape (rows, columns, 4), uint8.
    west, north
        Corner of the first pixel in the system's own unit.
    pixel_width, pixel_height
        Sides of a pixel in the system's own unit, both positive.
    remark
        A sentence on what was assumed; empty when nothing was.
    """

    name: str
    crs: str
    pixels: NDArray[np.uint8]
    west: float
    north: float
    pixel_width: float
    pixel_height: float
    remark: str = ""


Background = Outlines | Picture
