"""A rectangular window: the ground of a mapped stand, in metres."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from stemmap.core.disc import ROUNDING_M
from stemmap.errors import InputError


@dataclass(frozen=True)
class Rectangle:
    """A rectangular window along the axes.

    Parameters
    ----------
    x0, y0
        Its south-west corner, m.
    x1, y1
        Its north-east corner, m.

    Raises
    ------
    InputError
        When it has no area.

    Examples
    --------
    >>> Rectangle(0.0, 0.0, 100.0, 100.0).perimeter
    400.0
    """

    x0: float
    y0: float
    x1: float
    y1: float

    def __post_init__(self) -> None:
        if not (math.isfinite(self.area) and self.x1 > self.x0 and self.y1 > self.y0):
            raise InputError(
                "A rectangle needs its south-west corner first and its north-east corner second, "
                f"not ({self.x0}, {self.y0}) and ({self.x1}, {self.y1})."
            )

    @property
    def area(self) -> float:
        """Area, m²."""
        return (self.x1 - self.x0) * (self.y1 - self.y0)

    @property
    def perimeter(self) -> float:
        """Length of the edge, m."""
        return 2.0 * (self.x1 - self.x0 + self.y1 - self.y0)

    @property
    def half_diagonal(self) -> float:
        """Half the diagonal, m."""
        return 0.5 * math.hypot(self.x1 - self.x0, self.y1 - self.y0)

    def to_edge(self, xy: ArrayLike) -> NDArray[np.float64]:
        """Measure how far each point lies from the nearest side, m, negative outside.

        Outside and beyond a corner it is the larger of the two distances to the sides' lines.

        Parameters
        ----------
        xy
            Points, shape (n, 2), m.
        """
        x, y = np.asarray(xy, dtype=np.float64).reshape(-1, 2).T
        return np.asarray(np.minimum.reduce([x - self.x0, self.x1 - x, y - self.y0, self.y1 - y]))

    def inside(self, xy: ArrayLike) -> NDArray[np.bool_]:
        """Tell which points lie inside; the edge is inside, a missing position is not.

        Parameters
        ----------
        xy
            Points, shape (n, 2), m.
        """
        return np.asarray(self.to_edge(xy) >= -ROUNDING_M)

    def random(self, count: int, rng: np.random.Generator) -> NDArray[np.float64]:
        """Points at random in the window, shape (count, 2), m."""
        corner, size = np.array([self.x0, self.y0]), np.array([self.x1 - self.x0, self.y1 - self.y0])
        return np.asarray(corner + rng.random((count, 2)) * size)

    def arc_fraction(self, xy: ArrayLike, distance: ArrayLike) -> NDArray[np.float64]:
        """Share of the circle around each point that lies inside.

        A side at distance a < d cuts off the arc 2 arccos(a/d); two sides whose corner lies inside the circle cut
        α + β - π/2 of it twice.

        Parameters
        ----------
        xy
            Points inside the window, shape (n, 2), m.
        distance
            Radii of the circles, shape (n,), m.
        """
        x, y = np.asarray(xy, dtype=np.float64).reshape(-1, 2).T
        d = np.asarray(distance, dtype=np.float64)
        sides = (x - self.x0, y - self.y0, self.x1 - x, self.y1 - y)
        cut = np.zeros((4, len(d)))
        for half_angle, side in zip(cut, sides, strict=True):
            reached = np.flatnonzero(side < d)
            half_angle[reached] = np.arccos(side[reached] / d[reached])
        outside = 2.0 * cut.sum(axis=0)
        for one, other in ((0, 1), (1, 2), (2, 3), (3, 0)):
            outside -= np.maximum(cut[one] + cut[other] - 0.5 * np.pi, 0.0)
        return np.asarray(1.0 - outside / (2.0 * np.pi))

    def set_covariance(self, dx: ArrayLike, dy: ArrayLike) -> NDArray[np.float64]:
        """Area that the window shares with itself moved by (dx, dy), m²: (w - |dx|) (h - |dy|).

        Parameters
        ----------
        dx, dy
            Moves, m, any shape.
        """
        width = np.maximum(self.x1 - self.x0 - np.abs(np.asarray(dx, dtype=np.float64)), 0.0)
        height = np.maximum(self.y1 - self.y0 - np.abs(np.asarray(dy, dtype=np.float64)), 0.0)
        return np.asarray(width * height)

    def eroded_area(self, margin: ArrayLike) -> NDArray[np.float64]:
        """Area of the places at least so far inside, m²: (w - 2 d) (h - 2 d).

        Parameters
        ----------
        margin
            Distances from the edge, shape (n,), m.
        """
        lost = 2.0 * np.asarray(margin, dtype=np.float64)
        return np.maximum(self.x1 - self.x0 - lost, 0.0) * np.maximum(self.y1 - self.y0 - lost, 0.0)
