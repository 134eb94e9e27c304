"""The ground a pattern of stems was seen in: a disc or a rectangle, in metres."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from stemmap.errors import InputError

#: A micrometre, far below any tape and above the rounding of projected coordinates: the edge is inside.
ROUNDING_M = 1e-6


@dataclass(frozen=True)
class Disc:
    """A circular window.

    Parameters
    ----------
    centre
        Easting and northing of the centre, m.
    radius
        Radius, m.

    Raises
    ------
    InputError
        When the radius is not a positive number.

    Examples
    --------
    >>> round(Disc((0.0, 0.0), 12.62).area, 3)
    500.344
    """

    centre: tuple[float, float]
    radius: float

    def __post_init__(self) -> None:
        if not (math.isfinite(self.radius) and self.radius > 0.0):
            raise InputError(f"A circle needs a positive radius in metres, not {self.radius}.")

    @property
    def area(self) -> float:
        """Area, m²: π R²."""
        return math.pi * self.radius**2

    @property
    def perimeter(self) -> float:
        """Length of the edge, m: 2 π R."""
        return 2.0 * math.pi * self.radius

    @property
    def half_diagonal(self) -> float:
        """Half the diagonal of the square around the circle, m."""
        return math.sqrt(2.0) * self.radius

    def to_edge(self, xy: ArrayLike) -> NDArray[np.float64]:
        """Measure how far each point lies from the edge: R - distance to the centre, m, negative outside.

        Parameters
        ----------
        xy
            Points, shape (n, 2), m.
        """
        from_centre = np.asarray(xy, dtype=np.float64).reshape(-1, 2) - np.asarray(self.centre)
        return np.asarray(self.radius - np.hypot(from_centre[:, 0], from_centre[:, 1]))

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
        radius, angle = self.radius * np.sqrt(rng.random(count)), 2.0 * np.pi * rng.random(count)
        around = np.column_stack([radius * np.cos(angle), radius * np.sin(angle)])
        return np.asarray(around + np.asarray(self.centre))

    def arc_fraction(self, xy: ArrayLike, distance: ArrayLike) -> NDArray[np.float64]:
        """Share of the circle around each point that lies inside.

        With the point ρ from the centre, the circle of radius d is inside where the cosine of the angle to the outward
        direction is at most (R² - ρ² - d²) / (2 ρ d).

        Parameters
        ----------
        xy
            Points inside the window, shape (n, 2), m.
        distance
            Radii of the circles, shape (n,), m.
        """
        from_centre = np.asarray(xy, dtype=np.float64).reshape(-1, 2) - np.asarray(self.centre)
        rho2 = np.einsum("ij,ij->i", from_centre, from_centre)
        d = np.asarray(distance, dtype=np.float64)
        across = 2.0 * np.sqrt(rho2) * d
        cosine = np.divide(self.radius**2 - rho2 - d * d, across, out=np.ones_like(across), where=across > 0.0)
        return np.asarray(1.0 - np.arccos(np.clip(cosine, -1.0, 1.0)) / np.pi)

    def set_covariance(self, dx: ArrayLike, dy: ArrayLike) -> NDArray[np.float64]:
        """Area that the window shares with itself moved by (dx, dy), m²: the lens of two circles d apart.

        2 R² arccos(d / 2R) - d/2 √(4 R² - d²), zero from d = 2R on.

        Parameters
        ----------
        dx, dy
            Moves, m, any shape.
        """
        d = np.minimum(np.hypot(np.asarray(dx, dtype=np.float64), np.asarray(dy, dtype=np.float64)), 2.0 * self.radius)
        lens = 2.0 * self.radius**2 * np.arccos(d / (2.0 * self.radius))
        return np.asarray(lens - 0.5 * d * np.sqrt(4.0 * self.radius**2 - d * d))


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


Window = Disc | Rectangle
