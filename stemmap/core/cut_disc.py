"""A window that a stand edge cuts: the part of a circular plot inside the stand, in metres."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import ArrayLike, NDArray

from stemmap.core.arcs import Circles, arcs_within, shared
from stemmap.core.disc import ROUNDING_M, Disc
from stemmap.core.edge import Boundary, boundary, inside, to_border
from stemmap.errors import InputError

if TYPE_CHECKING:
    from shapely import Geometry

#: So many circles with pieces of the stand edge are looked at together.
_TOGETHER = 400_000
#: So many margins are each worked out exactly; steps of a table for more of them.
_MARGINS = 500


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
        local = self._local(xy)
        plot = np.zeros(len(local), dtype=np.int64)
        edge = to_border(self._ground, local, plot=plot)
        stand = np.where(inside(self._ground, local, plot=plot), edge, -edge)
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
            here = slice(first, first + step)
            share[here] = self._turn_inside(local[here], d[here])
        return share / (2.0 * np.pi)

    def _turn_inside(self, centre: NDArray[np.float64], d: NDArray[np.float64]) -> NDArray[np.float64]:
        """Angle over which circles lie inside: within the disc it is one arc, and on it each crossing changes sides.

        With φ counted from the outward direction, where a circle is last inside the disc, and the ground on the left of
        every piece of the edge, a circle comes in where a piece leaves it and goes out where a piece enters it.
        """
        x, y = centre.T
        outward = np.arctan2(y, x)
        beyond = np.pi * (1.0 - self.disc.arc_fraction(centre + np.asarray(self.disc.centre), d))
        begins, ends = beyond, 2.0 * np.pi - beyond
        there = inside(
            self._ground,
            centre + d[:, None] * np.column_stack([np.cos(outward), np.sin(outward)]),
            plot=np.zeros(len(d), dtype=np.int64),
        )
        turn = np.where(there, ends - begins, 0.0)
        sides = np.zeros(len(d))
        way = self._ground.end - self._ground.start
        px, py = self._ground.start[:, 0] - x[:, None], self._ground.start[:, 1] - y[:, None]
        length2, towards = (way * way).sum(axis=1), px * way[:, 0] + py * way[:, 1]
        root2 = towards * towards - length2 * (px * px + py * py - (d * d)[:, None])
        circle, piece = np.nonzero(root2 > 0.0)
        px, py, towards = px[circle, piece], py[circle, piece], towards[circle, piece]
        root = np.sqrt(root2[circle, piece])
        for sign in (1.0, -1.0):
            share = (sign * root - towards) / length2[piece]
            hit = np.flatnonzero((share >= 0.0) & (share < 1.0))
            of, at = circle[hit], share[hit]
            crossed = np.arctan2(py[hit] + at * way[piece[hit], 1], px[hit] + at * way[piece[hit], 0])
            angle = (crossed - outward[of]) % (2.0 * np.pi)
            rest = np.maximum(ends[of] - angle, 0.0) - np.maximum(begins[of] - angle, 0.0)
            turn += np.bincount(of, sign * rest, minlength=len(d))
            sides += np.bincount(of, np.full(len(of), sign), minlength=len(d))
        # A circle that touches a corner may count a crossing once too often; then the middle of each arc tells.
        doubtful = np.flatnonzero(sides != 0.0)
        if len(doubtful):
            circles = Circles(centre[doubtful], d[doubtful])
            some = len(doubtful)
            arcs = arcs_within(circles, [self._whole(some)], self._ground, np.zeros(some, dtype=np.int64))
            turn[doubtful] = np.bincount(arcs.item, arcs.stop - arcs.start, minlength=some)
        return turn

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
