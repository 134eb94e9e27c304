"""A circular window: the ground of a whole sample plot, in metres."""

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

    def eroded_area(self, margin: ArrayLike) -> NDArray[np.float64]:
        """Area of the places at least so far inside, m²: π (R - d)².

        Parameters
        ----------
        margin
            Distances from the edge, shape (n,), m.
        """
        left = np.maximum(self.radius - np.asarray(margin, dtype=np.float64), 0.0)
        return np.asarray(np.pi * left * left)
