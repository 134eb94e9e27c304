"""The ground a pattern of stems was seen in: a disc, a rectangle or a disc that a stand edge cuts, in metres."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import ArrayLike, NDArray

from stemmap.core.arcs import Circles, arcs_within, shared
from stemmap.core.edge import Boundary, boundary, inside
from stemmap.errors import InputError

if TYPE_CHECKING:
    from shapely import Geometry

#: A micrometre, far below any tape and above the rounding of projected coordinates: the edge is inside.
ROUNDING_M = 1e-6

#: So many circles with pieces of the stand edge are looked at together.
_TOGETHER = 1_000_000
#: So many margins are each worked out exactly; steps of a table for more of them.
_MARGINS = 500


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


@dataclass(frozen=True)
class CutDisc:
    """The part of a disc that lies inside a stand.

    Parameters
    ----------
    disc
        The whole plot.
    polygon
        The stand, a shapely polygon or multipolygon in the coordinates of the disc.

    Raises
    ------
    InputError
        When the two share no ground, or the polygon crosses itself.

    Examples
    --------
    >>> import shapely
    >>> half = CutDisc(Disc((0.0, 0.0), 10.0), shapely.box(0.0, -50.0, 50.0, 50.0))
    >>> round(half.area, 3), round(half.perimeter, 3)
    (157.08, 51.416)
    """

    disc: Disc
    polygon: Geometry

    def __post_init__(self) -> None:
        import shapely

        if not shapely.is_valid(self.polygon):
            raise InputError(f"The stand edge cannot be used: {shapely.is_valid_reason(self.polygon)}.")
        if not self.area > 0.0:
            raise InputError(f"The circle of {self.disc.radius} m at {self.disc.centre} lies wholly outside the stand.")

    @cached_property
    def _stand(self) -> Geometry:
        """The stand about the plot centre, no farther than a little beyond the circle."""
        import shapely

        about = shapely.transform(self.polygon, lambda corners: corners - np.asarray(self.disc.centre))
        reach = 1.01 * self.disc.radius
        return shapely.intersection(about, shapely.box(-reach, -reach, reach, reach))

    @cached_property
    def _ground(self) -> Boundary:
        return boundary(np.array([self._stand], dtype=object))

    @cached_property
    def _measures(self) -> tuple[float, float]:
        area, length = shared([self._whole(1)], self._ground, np.zeros(1, dtype=np.int64))
        return float(area[0]), float(length[0])

    @property
    def area(self) -> float:
        """Area inside the stand, m²."""
        return self._measures[0]

    @property
    def perimeter(self) -> float:
        """Length of the edge, arcs and stand edge, m."""
        return self._measures[1]

    @cached_property
    def half_diagonal(self) -> float:
        """Half the diagonal of the upright rectangle around what lies inside, m."""
        one = np.zeros(1, dtype=np.int64)
        arcs = arcs_within(self._whole(1), [], self._ground, one)
        quarters = 0.5 * np.pi * np.arange(5)
        turned = quarters[((arcs.start[:, None] <= quarters) & (quarters <= arcs.stop[:, None])).any(axis=0)]
        angle = np.concatenate([arcs.start, arcs.stop, turned])
        corners = np.concatenate([self._ground.start, self._ground.end])
        corners = corners[np.hypot(corners[:, 0], corners[:, 1]) <= self.disc.radius]
        points = np.vstack([self.disc.radius * np.column_stack([np.cos(angle), np.sin(angle)]), corners])
        return 0.5 * float(np.hypot(*np.ptp(points, axis=0)))

    def to_edge(self, xy: ArrayLike) -> NDArray[np.float64]:
        """Measure how far each point lies from the nearest of circle and stand edge, m, negative outside.

        Outside both it is the larger of the two distances.

        Parameters
        ----------
        xy
            Points, shape (n, 2), m.
        """
        import shapely

        local = self._local(xy)
        edge = shapely.distance(shapely.boundary(self._stand), shapely.points(local))
        stand = np.where(inside(self._ground, local, plot=np.zeros(len(local), dtype=np.int64)), edge, -edge)
        return np.minimum(self.disc.radius - np.hypot(local[:, 0], local[:, 1]), stand)

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
        points = np.empty((0, 2))
        while len(points) < count:
            more = int(1.2 * (count - len(points)) * self.disc.area / self.area) + 10
            tried = self.disc.random(more, rng)
            held = inside(self._ground, self._local(tried), plot=np.zeros(more, dtype=np.int64))
            points = np.concatenate([points, tried[held]])
        return points[:count]

    def arc_fraction(self, xy: ArrayLike, distance: ArrayLike) -> NDArray[np.float64]:
        """Share of the circle around each point that lies inside: the sum of its arcs between crossings.

        Parameters
        ----------
        xy
            Points inside the window, shape (n, 2), m.
        distance
            Radii of the circles, shape (n,), m.
        """
        local, d = self._local(xy), np.asarray(distance, dtype=np.float64)
        share = np.empty(len(d))
        step = max(1, _TOGETHER // max(len(self._ground.start), 1))
        for first in range(0, len(d), step):
            circles = Circles(local[first : first + step], d[first : first + step])
            some = len(circles.radius)
            arcs = arcs_within(circles, [self._whole(some)], self._ground, np.zeros(some, dtype=np.int64))
            share[first : first + step] = np.bincount(arcs.item, arcs.stop - arcs.start, minlength=some)
        return share / (2.0 * np.pi)

    def set_covariance(self, dx: ArrayLike, dy: ArrayLike) -> NDArray[np.float64]:
        """Area that the window shares with itself moved by (dx, dy), m²: two discs and the stand cut by itself.

        Parameters
        ----------
        dx, dy
            Moves, m, any shape.
        """
        import shapely

        moves = np.stack(np.broadcast_arrays(np.asarray(dx, dtype=np.float64), np.asarray(dy, dtype=np.float64)), -1)
        move = moves.reshape(-1, 2)
        far = np.hypot(move[:, 0], move[:, 1])
        result = np.where(far == 0.0, self.area, 0.0)
        rows = np.flatnonzero((far > 0.0) & (far < 2.0 * self.disc.radius))
        stands = np.repeat(np.asarray(self._stand, dtype=object), len(rows))
        corners, item = shapely.get_coordinates(stands, return_index=True)
        moved = shapely.set_coordinates(stands.copy(), corners + move[rows][item])
        both = boundary(shapely.intersection(stands, moved))
        discs = [self._whole(len(rows)), Circles(move[rows], np.full(len(rows), self.disc.radius))]
        result[rows] = shared(discs, both, np.arange(len(rows)))[0]
        return result.reshape(moves.shape[:-1])

    def eroded_area(self, margin: ArrayLike) -> NDArray[np.float64]:
        """Area of the places at least so far inside, m²: of the smaller disc in the stand less a strip along its edge.

        Where the edge bends outwards the strip has a round corner, drawn with 64 pieces in a quarter turn.

        Parameters
        ----------
        margin
            Distances from the edge, shape (n,), m.
        """
        import shapely

        d = np.asarray(margin, dtype=np.float64)
        if len(d) > _MARGINS:
            # For many margins a strip is made at even steps only; between them the area is all but straight.
            steps = np.linspace(0.0, self.disc.radius, _MARGINS)
            return np.interp(d, steps, self.eroded_area(steps))
        rows = np.flatnonzero(d < self.disc.radius)
        # The sides of the square around the circle, where the stand was cut off, lose no more than the circle does.
        stands = shapely.buffer(self._stand, -d[rows], quad_segs=64)
        discs = Circles(np.zeros((len(rows), 2)), self.disc.radius - d[rows])
        result = np.zeros(len(d))
        result[rows] = shared([discs], boundary(stands), np.arange(len(rows)))[0]
        return result

    def _local(self, xy: ArrayLike) -> NDArray[np.float64]:
        points: NDArray[np.float64] = np.asarray(xy, dtype=np.float64).reshape(-1, 2) - np.asarray(self.disc.centre)
        return points

    def _whole(self, count: int) -> Circles:
        """The whole circle about its own centre, so many times."""
        return Circles(np.zeros((count, 2)), np.full(count, self.disc.radius))


Window = Disc | Rectangle | CutDisc
