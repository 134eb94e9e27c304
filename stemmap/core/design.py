"""Sampling designs: how far a stem may stand from the centre, and how many stems per hectare it stands for."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Final, NamedTuple

import numpy as np

from stemmap.core.locate import offsets, polar
from stemmap.errors import InputError
from stemmap.units import SQUARE_METRES_PER_HECTARE

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

__all__ = [
    "KINDS",
    "RESOLUTION",
    "SLOPE_RULES",
    "Circle",
    "DbhClass",
    "Design",
    "GroundEllipse",
    "Membership",
    "compared_distance",
    "dbh_classes",
    "expansion_factor",
    "ground_ellipse",
    "limiting_distance",
    "membership",
    "slope_radius",
]

KINDS: Final = ("fixed", "concentric", "angle_count")
SLOPE_RULES: Final = ("horizontal", "same_radius_on_slope", "enlarged_radius_on_slope")

#: Metres (and centimetres of dbh) below which two figures are the same: far under any record, far over float noise.
RESOLUTION: Final = 1e-6


@dataclass(frozen=True)
class Circle:
    """One circle of a nested design.

    Parameters
    ----------
    radius_m
        Metres.
    min_dbh_cm, max_dbh_cm
        Stems from the first to under the second are sampled by it; None: no such limit.
    offset_azimuth_deg, offset_m
        Where its centre lies from the plot centre: degrees in the north the stems' azimuths are given in, metres.

    Raises
    ------
    InputError
        The figures contradict themselves.
    """

    radius_m: float
    min_dbh_cm: float | None = None
    max_dbh_cm: float | None = None
    offset_azimuth_deg: float = 0.0
    offset_m: float = 0.0

    def __post_init__(self) -> None:
        _require_positive(self.radius_m, "The radius of a circle")
        low, high = self.min_dbh_cm, self.max_dbh_cm
        if low is not None and high is not None and not low < high:
            raise InputError(
                f"The circle of {self.radius_m:g} m takes stems from {low:g} cm to under {high:g} cm, "
                "which is none: correct min_dbh_cm or max_dbh_cm."
            )
        if not (math.isfinite(self.offset_azimuth_deg) and math.isfinite(self.offset_m) and self.offset_m >= 0.0):
            raise InputError(
                f"The circle of {self.radius_m:g} m has an offset that is no place: give offset_azimuth "
                "and a non-negative offset_m."
            )


@dataclass(frozen=True)
class Design:
    """How stems are chosen on a plot; every length in metres.

    Parameters
    ----------
    kind
        "fixed", "concentric" or "angle_count".
    radius_m
        Radius of the fixed plot; None when each plot states its own.
    circles
        The circles of a concentric design.
    basal_area_factor
        Of an angle count, square metres per hectare.
    max_radius_m
        Beyond it no stem of an angle count is taken; None: no cap.
    slope
        "horizontal", "same_radius_on_slope" or "enlarged_radius_on_slope". An angle count always goes by
        horizontal distance.
    min_dbh_cm
        Thinner stems are not counted; None: every stem counts, in a fixed plot one without dbh too.

    Raises
    ------
    InputError
        The figures do not make a design.
    """

    kind: str = "fixed"
    radius_m: float | None = None
    circles: tuple[Circle, ...] = ()
    basal_area_factor: float | None = None
    max_radius_m: float | None = None
    slope: str = "horizontal"
    min_dbh_cm: float | None = None

    def __post_init__(self) -> None:
        if self.kind not in KINDS:
            raise InputError(f"The design {self.kind!r} is not known: choose one of {', '.join(KINDS)}.")
        if self.slope not in SLOPE_RULES:
            raise InputError(f"The slope rule {self.slope!r} is not known: choose one of {', '.join(SLOPE_RULES)}.")
        if self.radius_m is not None:
            _require_positive(self.radius_m, "The plot radius")
        if self.max_radius_m is not None:
            _require_positive(self.max_radius_m, "The largest radius of an angle count")
        if self.min_dbh_cm is not None:
            _require_positive(self.min_dbh_cm, "The smallest dbh counted")
        if self.kind == "concentric" and not self.circles:
            raise InputError("A concentric design needs its circles: give circles with radius_m and min_dbh_cm.")
        if self.kind != "concentric" and self.circles:
            raise InputError(f"A design of kind {self.kind!r} has no circles: set kind to concentric or drop them.")
        if self.kind == "angle_count":
            if self.basal_area_factor is None:
                raise InputError("An angle count needs its basal_area_factor.")
            _require_positive(self.basal_area_factor, "The basal area factor")

    @property
    def needs_dbh(self) -> bool:
        """Whether a stem without dbh can be neither in nor out."""
        return self.kind != "fixed" or self.min_dbh_cm is not None

    @property
    def slope_rule(self) -> str:
        """The slope rule that holds for this kind of design."""
        return "horizontal" if self.kind == "angle_count" else self.slope


class DbhClass(NamedTuple):
    """Stems from `lower_cm` to under `upper_cm` are sampled by circle number `circle`; -1: by none."""

    lower_cm: float
    upper_cm: float
    circle: int


@dataclass(frozen=True)
class Membership:
    """How stems stand to their design; arrays of shape (stems,).

    Parameters
    ----------
    limiting_distance_m
        How far the stem may stand; NaN when unknown or when no circle samples such a stem.
    compared_distance_m
        The distance that is held against it: horizontal, along the slope, or from the centre of an offset circle.
    expansion_per_ha
        Stems per hectare that the stem stands for if it is in; 0 when no circle samples it; NaN when unknown.
    circle
        Number of the circle that samples the stem, 0 in fixed plots and angle counts; -1 none or unknown.
    inside
        The stem is in: compared distance <= limiting distance. False where unknown.
    known
        Whether the record tells if the stem is in.
    """

    limiting_distance_m: NDArray[np.float64]
    compared_distance_m: NDArray[np.float64]
    expansion_per_ha: NDArray[np.float64]
    circle: NDArray[np.int64]
    inside: NDArray[np.bool_]
    known: NDArray[np.bool_]


@dataclass(frozen=True)
class GroundEllipse:
    """A circle laid on the slope, seen on the map: half axes in metres along and across the aspect."""

    along_m: NDArray[np.float64]
    across_m: NDArray[np.float64]


def slope_radius(radius_m: ArrayLike, slope_percent: ArrayLike | None, rule: str) -> NDArray[np.float64]:
    """Radius that distances are held against under a slope rule, metres.

    The enlarged radius is R (1 + s^2)^(1/4): a circle laid on the slope whose horizontal area is pi R^2.

    References
    ----------
    US Forest Service, Common Stand Exam user guide, App. I, table "Circular plot radii corrected for slope".
    """
    radius = np.asarray(radius_m, dtype=float)
    if rule == "horizontal":
        return radius
    tangent2 = (_column(slope_percent) / 100.0) ** 2
    if rule == "same_radius_on_slope":
        return radius + 0.0 * tangent2
    return radius * (1.0 + tangent2) ** 0.25


def ground_ellipse(radius_m: ArrayLike, slope_percent: ArrayLike | None, rule: str) -> GroundEllipse:
    """Half axes of a plot's border on the map.

    Across the aspect the border lies at `slope_radius`, along it that is foreshortened by cos(atan(s)).

    Parameters
    ----------
    radius_m
        Nominal radius, metres.
    slope_percent
        Percent; NaN gives NaN unless the rule is "horizontal".
    rule
        One of `SLOPE_RULES`.
    """
    across = slope_radius(radius_m, slope_percent, rule)
    if rule == "horizontal":
        return GroundEllipse(along_m=across, across_m=across)
    return GroundEllipse(along_m=across * _cosine(slope_percent), across_m=across)


def dbh_classes(design: Design) -> tuple[DbhClass, ...]:
    """Classes of dbh that are sampled alike, in rising order and without gaps.

    A stem belongs to the largest circle whose limits it meets.
    """
    smallest = -math.inf if design.min_dbh_cm is None else design.min_dbh_cm
    ranges = [
        (
            max(smallest, -math.inf if circle.min_dbh_cm is None else circle.min_dbh_cm),
            math.inf if circle.max_dbh_cm is None else circle.max_dbh_cm,
        )
        for circle in design.circles
    ] or [(smallest, math.inf)]
    # Of circles of one radius the first wins.
    order = sorted(range(len(design.circles)), key=lambda i: -design.circles[i].radius_m) or [0]
    edges = sorted({-math.inf, math.inf, *(edge for pair in ranges for edge in pair)})
    classes: list[DbhClass] = []
    for lower, upper in pairwise(edges):
        circle = next((i for i in order if ranges[i][0] <= lower and upper <= ranges[i][1]), -1)
        if classes and classes[-1].circle == circle:
            classes[-1] = classes[-1]._replace(upper_cm=upper)
        else:
            classes.append(DbhClass(lower, upper, circle))
    return tuple(classes)


def compared_distance(
    circle: Circle | None,
    *,
    rule: str,
    azimuth_deg: NDArray[np.float64],
    distance_m: NDArray[np.float64],
    slope_percent: ArrayLike | None = None,
    aspect_deg: ArrayLike | None = None,
    slope_distance_m: ArrayLike | None = None,
) -> NDArray[np.float64]:
    """Distance that decides whether stems are in.

    Along a slope it is D sqrt(1 + (s cos(azimuth - aspect))^2), unless it was measured.

    Parameters
    ----------
    circle
        The circle that samples them; None for a plot without nested circles.
    rule
        One of `SLOPE_RULES`.
    azimuth_deg, distance_m
        Direction and horizontal distance from the plot centre to the stem's axis.
    slope_percent, aspect_deg
        Slope of the plot and the azimuth in which it falls (or rises), in the north of `azimuth_deg`. On level
        ground the aspect may be missing.
    slope_distance_m
        Measured distance along the slope to the stem's axis, NaN where there is none; used only from the plot
        centre.
    """
    offset = circle is not None and circle.offset_m > 0.0
    if circle is not None and offset:
        x, y = offsets(azimuth_deg, distance_m)
        x0, y0 = offsets(circle.offset_azimuth_deg, circle.offset_m)
        azimuth_deg, distance_m = polar(x - x0, y - y0)
    if rule == "horizontal":
        return distance_m
    tangent = _column(slope_percent) / 100.0
    fall = tangent * np.cos(np.radians(azimuth_deg - _column(aspect_deg)))
    along = distance_m * np.sqrt(1.0 + np.where(tangent == 0.0, 0.0, fall) ** 2)
    if slope_distance_m is None or offset:
        return along
    return np.where(np.isfinite(slope_distance_m), slope_distance_m, along)


def limiting_distance(
    design: Design,
    circle: int,
    *,
    dbh_cm: NDArray[np.float64],
    radius_m: ArrayLike | None,
    slope_percent: ArrayLike | None,
) -> NDArray[np.float64]:
    """Distance up to which stems sampled by circle number `circle` are in, metres.

    Angle count: 0.5 dbh / sqrt(BAF), not beyond the largest radius (Bitterlich's relascope in metres per
    centimetre). Otherwise the radius under the slope rule.
    """
    if design.kind == "angle_count":
        assert design.basal_area_factor is not None
        limit = 0.5 * dbh_cm / math.sqrt(design.basal_area_factor)
        return limit if design.max_radius_m is None else np.minimum(limit, design.max_radius_m)
    return slope_radius(_radius(design, circle, radius_m), slope_percent, design.slope_rule)


def expansion_factor(
    design: Design,
    circle: int,
    *,
    dbh_cm: NDArray[np.float64],
    radius_m: ArrayLike | None,
    slope_percent: ArrayLike | None,
) -> NDArray[np.float64]:
    """Stems per hectare that stems sampled by circle number `circle` stand for.

    10000 / horizontal area of the circle; angle count: BAF / basal area of the stem, and where the largest radius
    holds that circle's factor.
    """
    if design.kind == "angle_count":
        assert design.basal_area_factor is not None
        basal_area = math.pi * (np.where(dbh_cm > 0.0, dbh_cm, np.nan) / 200.0) ** 2
        factor = design.basal_area_factor / basal_area
        if design.max_radius_m is None:
            return factor
        return np.maximum(factor, SQUARE_METRES_PER_HECTARE / (math.pi * design.max_radius_m**2))
    area = math.pi * _radius(design, circle, radius_m) ** 2
    if design.slope_rule == "same_radius_on_slope":
        area = area * _cosine(slope_percent)
    return SQUARE_METRES_PER_HECTARE / area


def membership(
    design: Design,
    *,
    azimuth_deg: ArrayLike,
    distance_m: ArrayLike,
    dbh_cm: ArrayLike,
    radius_m: ArrayLike | None = None,
    slope_percent: ArrayLike | None = None,
    aspect_deg: ArrayLike | None = None,
    slope_distance_m: ArrayLike | None = None,
) -> Membership:
    """Decide which stems are in.

    Parameters
    ----------
    design
        The sampling design.
    azimuth_deg, distance_m
        Direction and horizontal distance from the plot centre to the stem's axis, shape (stems,).
    dbh_cm
        Centimetres, NaN where missing.
    radius_m
        Radius of each stem's plot where it differs from the fixed design's, NaN elsewhere.
    slope_percent, aspect_deg, slope_distance_m
        As in `compared_distance`; the slope rules other than "horizontal" need them.
    """
    columns = (azimuth_deg, distance_m, dbh_cm, radius_m, slope_percent, aspect_deg, slope_distance_m)
    azimuth, distance, dbh, radius, slope, aspect, taped = np.broadcast_arrays(*map(_column, columns))
    limit, factor = np.full(dbh.shape, np.nan), np.full(dbh.shape, np.nan)
    compared = np.array(distance)
    number = np.full(dbh.shape, -1, dtype=np.int64)
    counted = np.ones(dbh.shape, dtype=bool)
    for lower, upper, circle in dbh_classes(design):
        if design.needs_dbh:
            chosen = (dbh >= lower - RESOLUTION) & (dbh < upper - RESOLUTION)
        else:
            chosen = np.ones(dbh.shape, dtype=bool)
        if circle < 0:
            counted[chosen] = False
            factor[chosen] = 0.0
            continue
        number[chosen] = circle
        stems = {"dbh_cm": dbh[chosen], "radius_m": radius[chosen], "slope_percent": slope[chosen]}
        limit[chosen] = limiting_distance(design, circle, **stems)
        factor[chosen] = expansion_factor(design, circle, **stems)
        compared[chosen] = compared_distance(
            design.circles[circle] if design.circles else None,
            rule=design.slope_rule,
            azimuth_deg=azimuth[chosen],
            distance_m=distance[chosen],
            slope_percent=slope[chosen],
            aspect_deg=aspect[chosen],
            slope_distance_m=taped[chosen],
        )
    return Membership(
        limiting_distance_m=limit,
        compared_distance_m=compared,
        expansion_per_ha=factor,
        circle=number,
        # A missing figure compares as false, which is what an undecided stem is.
        inside=compared - limit <= RESOLUTION / 2.0,
        known=np.isfinite(compared - limit) | ~counted,
    )


def _radius(design: Design, circle: int, radius_m: ArrayLike | None) -> NDArray[np.float64]:
    if design.kind == "concentric":
        return np.asarray(design.circles[circle].radius_m, dtype=float)
    own = np.nan if design.radius_m is None else design.radius_m
    if radius_m is None:
        return np.asarray(own, dtype=float)
    stated = np.asarray(radius_m, dtype=float)
    return np.where(np.isfinite(stated), stated, own)


def _cosine(slope_percent: ArrayLike | None) -> NDArray[np.float64]:
    return 1.0 / np.sqrt(1.0 + (_column(slope_percent) / 100.0) ** 2)


def _column(column: ArrayLike | None) -> NDArray[np.float64]:
    return np.asarray(np.nan if column is None else column, dtype=float)


def _require_positive(value: float, what: str) -> None:
    if not (math.isfinite(value) and value > 0.0):
        raise InputError(f"{what} is {value:g}, but must be a positive number.")
