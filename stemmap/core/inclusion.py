"""The probability that a stem is in, given what was recorded and how well it was measured."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, NamedTuple

import numpy as np

from stemmap.core.design import (
    RESOLUTION,
    Design,
    compared_distance,
    dbh_classes,
    expansion_factor,
    limiting_distance,
)
from stemmap.core.locate import HALF_DBH

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

__all__ = ["Inclusion", "probability"]

# A class whose limits lie farther away than this many standard deviations (3e-7) is left out.
_FAR: Final = 5.0
# Standard normal arguments beyond this are as good as infinite.
_CERTAIN: Final = 40.0


@dataclass(frozen=True)
class Inclusion:
    """What a record says about a stem's being in; arrays of shape (stems,), NaN where unknown.

    Parameters
    ----------
    probability
        That the stem is in.
    expected_per_ha
        Stems per hectare it stands for, weighted by probability (0 when it is surely out); in an angle count with
        the factor of the recorded dbh.
    class_change
        Probability that the true dbh lies in another class of the design than the recorded one: its weight, if not
        its being in, is then in doubt.
    """

    probability: NDArray[np.float64]
    expected_per_ha: NDArray[np.float64]
    class_change: NDArray[np.float64]


class _Piece(NamedTuple):
    """A range of dbh in which the limiting distance is one straight line: constant or proportional to dbh."""

    lower_cm: float
    upper_cm: float
    circle: int
    proportional: bool


class _Sight(NamedTuple):
    """The compared distance, how it follows the horizontal distance, and its standard deviation without dbh."""

    distance_m: NDArray[np.float64]
    gradient: NDArray[np.float64]
    sd_m: NDArray[np.float64]


class _Stems(NamedTuple):
    """Columns of the stems, all of one length, named as the arguments of `probability`."""

    azimuth: NDArray[np.float64]
    distance: NDArray[np.float64]
    dbh: NDArray[np.float64]
    tape_sd: NDArray[np.float64]
    tangential_sd: NDArray[np.float64]
    dbh_sd: NDArray[np.float64]
    half_dbh: NDArray[np.float64]
    radius: NDArray[np.float64]
    slope: NDArray[np.float64]
    aspect: NDArray[np.float64]
    slope_distance: NDArray[np.float64]
    slope_sd: NDArray[np.float64]
    shift: NDArray[np.float64]

    def pick(self, chosen: NDArray[np.bool_]) -> _Stems:
        """Return some of the stems."""
        return self if chosen.all() else _Stems(*(column[chosen] for column in self))


def probability(
    design: Design,
    *,
    azimuth_deg: ArrayLike,
    distance_m: ArrayLike,
    dbh_cm: ArrayLike,
    tape_sd_m: ArrayLike,
    tangential_sd_m: ArrayLike,
    dbh_sd_cm: ArrayLike,
    to_face: ArrayLike = False,
    radius_m: ArrayLike | None = None,
    slope_percent: ArrayLike | None = None,
    aspect_deg: ArrayLike | None = None,
    slope_distance_m: ArrayLike | None = None,
    slope_sd_m: ArrayLike | None = None,
    shift_m: ArrayLike = 0.0,
) -> Inclusion:
    r"""Probability that stems are in.

    The statement is about the truth given the record: true distance, azimuth and dbh scatter normally about the
    recorded ones (a flat prior), with the standard deviations given. For a class of dbh [a, b) sampled by a circle
    of limiting distance L the probability is

    .. math:: P(a \le d < b,\; D \le L(d)),

    and the classes are summed. D and d are correlated when the distance was taken to the face (half of the dbh is
    part of D), and L follows dbh in an angle count; the joint probability is exact (bivariate normal by Owen's T).
    Slope and aspect of the plot count as exactly known. The azimuth matters for offset circles and on slopes.

    Parameters
    ----------
    design
        The sampling design.
    azimuth_deg, distance_m, dbh_cm, radius_m, slope_percent, aspect_deg, slope_distance_m
        As in `stemmap.core.design.membership`.
    tape_sd_m, tangential_sd_m
        Standard deviations of the horizontal distance without its half diameter, and across the line of sight; see
        `stemmap.core.locate.position_errors`.
    dbh_sd_cm
        Standard deviation of dbh, see `stemmap.core.locate.dbh_sd`.
    to_face
        Whether half of the dbh was added to the distance, bool or shape (stems,).
    slope_sd_m
        Standard deviation of `slope_distance_m` where that is given.
    shift_m
        Expected minus computed horizontal distance, see `stemmap.core.locate.position_errors`.

    References
    ----------
    Owen, D. B. (1956), Tables for computing bivariate normal probabilities, Annals of Mathematical Statistics 27.
    """
    given = (
        azimuth_deg,
        distance_m,
        dbh_cm,
        tape_sd_m,
        tangential_sd_m,
        dbh_sd_cm,
        np.where(to_face, HALF_DBH, 0.0),
        radius_m,
        slope_percent,
        aspect_deg,
        slope_distance_m,
        slope_sd_m,
        shift_m,
    )
    columns = np.broadcast_arrays(*(np.asarray(np.nan if c is None else c, dtype=float) for c in given))
    shape = columns[0].shape
    stems = _Stems(*(column.ravel() for column in columns))
    inside, expected, same_class = (np.zeros(stems.dbh.size) for _ in range(3))
    pieces = _pieces(design)
    recorded = _recorded_circle(pieces, stems.dbh)
    for piece in pieces:
        low, high, chance = _dbh_range(piece, stems, needs_dbh=design.needs_dbh)
        same_class += np.where((recorded == piece.circle) | np.isnan(chance), chance, 0.0)
        # Missing figures must come through, so only what is surely elsewhere is left out.
        chosen = ~(chance <= 0.0)
        if piece.circle < 0:
            continue
        near = stems.pick(chosen)
        found = _inside_and_in_range(design, piece, near, low[chosen], high[chosen])
        inside[chosen] += found
        expected[chosen] += found * expansion_factor(
            design, piece.circle, dbh_cm=near.dbh, radius_m=near.radius, slope_percent=near.slope
        )
    # Sums of rounded shares may pass 0 and 1 by the last digit.
    return Inclusion(
        probability=np.clip(inside, 0.0, 1.0).reshape(shape),
        expected_per_ha=expected.reshape(shape),
        class_change=np.clip(1.0 - same_class, 0.0, 1.0).reshape(shape),
    )


def _pieces(design: Design) -> tuple[_Piece, ...]:
    """Return the design's classes of dbh, that of a capped angle count cut where the cap begins."""
    angle = design.kind == "angle_count"
    pieces = []
    for lower, upper, circle in dbh_classes(design):
        if angle and circle >= 0 and design.max_radius_m is not None:
            cap = max(lower, design.max_radius_m / _limit_per_cm(design))
            pieces.append(_Piece(lower, cap, circle, proportional=True))
            pieces.append(_Piece(cap, upper, circle, proportional=False))
        else:
            pieces.append(_Piece(lower, upper, circle, proportional=angle))
    return tuple(pieces)


def _recorded_circle(pieces: tuple[_Piece, ...], dbh: NDArray[np.float64]) -> NDArray[np.int64]:
    edges = [piece.lower_cm - RESOLUTION for piece in pieces[1:]]
    return np.array([piece.circle for piece in pieces])[np.searchsorted(edges, dbh, side="right")]


def _dbh_range(
    piece: _Piece, stems: _Stems, *, needs_dbh: bool
) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]:
    """Limits of a piece in standard deviations from the recorded dbh, and the probability between them."""
    from scipy.special import ndtr

    if not needs_dbh:
        shape = stems.dbh.shape
        return np.full(shape, -np.inf), np.full(shape, np.inf), np.ones(shape)
    low, high = (_standardised(edge, stems) for edge in (piece.lower_cm, piece.upper_cm))
    return low, high, ndtr(high) - ndtr(low)


def _standardised(edge: float, stems: _Stems) -> NDArray[np.float64]:
    above = edge - stems.dbh
    exact = np.where(above > RESOLUTION, np.inf, -np.inf)
    z = np.divide(above, stems.dbh_sd, out=exact, where=stems.dbh_sd > RESOLUTION)
    z = np.where(np.abs(z) > _FAR, np.copysign(np.inf, z), z)
    return np.where(np.isnan(stems.dbh) | np.isnan(stems.dbh_sd), np.nan, z)


def _limit_per_cm(design: Design) -> float:
    assert design.basal_area_factor is not None
    return 0.5 / math.sqrt(design.basal_area_factor)


def _inside_and_in_range(
    design: Design, piece: _Piece, stems: _Stems, low: NDArray[np.float64], high: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Probability that stems are in and their dbh lies between the limits of the piece."""
    from scipy.special import ndtr

    per_cm = 0.0
    if piece.proportional:
        per_cm = _limit_per_cm(design)
        limit = per_cm * stems.dbh
    else:
        # Past the cap of an angle count, where the limit is the largest radius whatever the dbh.
        dbh = np.maximum(stems.dbh, piece.lower_cm) if design.kind == "angle_count" else stems.dbh
        limit = limiting_distance(design, piece.circle, dbh_cm=dbh, radius_m=stems.radius, slope_percent=stems.slope)
    sight = _sight(design, piece.circle, stems)
    slope = per_cm - sight.gradient * stems.half_dbh
    moved = np.where(slope == 0.0, 0.0, slope * stems.dbh_sd)
    margin, sd = limit - sight.distance_m, np.hypot(sight.sd_m, moved)
    exact = np.where(margin >= -RESOLUTION / 2.0, np.inf, -np.inf)
    exact[np.isnan(margin) | np.isnan(sd)] = np.nan
    reach = np.divide(margin, sd, out=exact, where=sd > RESOLUTION)
    chance: NDArray[np.float64] = ndtr(reach)
    cut = ~((low == -np.inf) & (high == np.inf))
    free = cut & (moved == 0.0)
    chance[free] *= ndtr(high[free]) - ndtr(low[free])
    bound = cut & ~free
    if bound.any():
        correlation = -moved[bound] / sd[bound]
        both = _both_below(high[bound], reach[bound], correlation) - _both_below(low[bound], reach[bound], correlation)
        chance[bound] = np.maximum(both, 0.0)
    return chance


def _sight(design: Design, circle: int, stems: _Stems) -> _Sight:
    """Carry distance and azimuth to the compared distance.

    Off the plot centre and along a slope it bends with both, so each is moved by one standard deviation to either
    side: the half difference is the standard deviation it causes, the mean of both the shift of the expectation.
    """
    sampled_by = design.circles[circle] if design.circles else None
    offset = sampled_by is not None and sampled_by.offset_m > 0.0
    rule = design.slope_rule
    if not offset and rule == "horizontal":
        return _Sight(stems.distance + stems.shift, np.ones(stems.distance.shape), stems.tape_sd)

    def compared(azimuth: NDArray[np.float64], distance: NDArray[np.float64]) -> NDArray[np.float64]:
        return compared_distance(
            sampled_by,
            rule=rule,
            azimuth_deg=azimuth,
            distance_m=distance,
            slope_percent=stems.slope,
            aspect_deg=stems.aspect,
        )

    here = compared(stems.azimuth, stems.distance)
    away = stems.distance > 0.0
    turn = np.degrees(np.divide(stems.tangential_sd, stems.distance, out=np.zeros(here.shape), where=away))
    right, left = compared(stems.azimuth + turn, stems.distance), compared(stems.azimuth - turn, stems.distance)
    step = np.maximum(stems.tape_sd, 0.001)
    far, near = compared(stems.azimuth, stems.distance + step), compared(stems.azimuth, stems.distance - step)
    gradient = (far - near) / (2.0 * step)
    mean = here + gradient * stems.shift + (right + left - 2.0 * here + far + near - 2.0 * here) / 2.0
    sd = np.hypot(gradient * stems.tape_sd, (right - left) / 2.0)
    if offset or not np.isfinite(stems.slope_distance).any():
        return _Sight(mean, gradient, sd)
    taped = np.isfinite(stems.slope_distance)
    steep = np.divide(stems.slope_distance, stems.distance, out=np.ones(here.shape), where=away)
    return _Sight(
        np.where(taped, stems.slope_distance, mean),
        np.where(taped, steep, gradient),
        np.where(taped, stems.slope_sd, sd),
    )


def _both_below(
    h: NDArray[np.float64], k: NDArray[np.float64], correlation: NDArray[np.float64]
) -> NDArray[np.float64]:
    """P(X <= h, Y <= k) of standard normal X and Y, by Owen's T."""
    from scipy.special import ndtr, owens_t

    # At the ends of its range the formula divides by zero; so near them it is right to 1e-6.
    rho = np.clip(correlation, -1.0 + 1e-10, 1.0 - 1e-10)
    h, k = (np.clip(np.where(a == 0.0, 1e-12, a), -_CERTAIN, _CERTAIN) for a in (h, k))
    root = np.sqrt(1.0 - rho**2)
    below: NDArray[np.float64] = (
        0.5 * (ndtr(h) + ndtr(k))
        - owens_t(h, (k - rho * h) / (h * root))
        - owens_t(k, (h - rho * k) / (k * root))
        - np.where(h * k > 0.0, 0.0, 0.5)
    )
    return below
