"""All that speaks for or against each meaning of the suspected records."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.diameters import diameters
from stemmap.checks.evidence.found_again import found_again, log_by_number, nobodys, own_places
from stemmap.checks.evidence.ground import ground, place_sd
from stemmap.checks.evidence.growth import growth
from stemmap.checks.evidence.meanings import TWO_COLUMNS, Meanings
from stemmap.checks.evidence.reach import reach
from stemmap.checks.evidence.suspects import Suspects
from stemmap.checks.evidence.typed import typed
from stemmap.core.blocks import blocks, side_by_side
from stemmap.core.design import dbh_classes, membership
from stemmap.core.locate import dbh_sd
from stemmap.survey.registry import Case
from stemmap.survey.settings import sampling_design
from stemmap.units import METRES

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]


@dataclass(frozen=True)
class Evidence:
    """What everything tells of each meaning, in logarithms; shape (meanings,).

    Parameters
    ----------
    order, tells
        Density of the azimuth in the order of numbers, relative to a uniform one; how surely the plot has an order.
    free, beyond, dbh
        Free ground; 1 where it lies beyond its limit; density of the diameter alone.
    impossible
        Whether it can be no measurement.
    crowd
        Density of such stems, per square metre and centimetre.
    edge
        Chance that the last visit could not see it: 1 where there was none.
    again
        Of the stems of the last visit that nobody else is.
    polar
        Square metres per unit of distance.
    """

    order: Floats
    tells: Floats
    impossible: NDArray[np.bool_]
    free: Floats
    beyond: Floats
    dbh: Floats
    crowd: Floats
    edge: Floats
    again: Floats
    polar: Floats

    def take(self, kept: NDArray[np.bool_]) -> Evidence:
        """The evidence of some meanings."""
        return Evidence(**{each.name: getattr(self, each.name)[kept] for each in fields(self)})


def order_told(doubted: Suspects, meant: Meanings) -> tuple[Floats, Floats, NDArray[np.bool_]]:
    """What the order of numbers tells of each meaning, how surely there is one, and whether the sweep was asked."""
    stem = doubted.rows[meant.owner]
    order, tells = np.ones(len(stem)), np.zeros(len(stem))
    asked = np.append(doubted.sweep.row, -1)[doubted.place[stem]] >= 0
    told = np.flatnonzero(asked & (meant.quantity <= 0))
    at = doubted.place[stem[told]]
    order[told] = doubted.sweep.relative_density(at, meant.azimuth_deg[told])
    tells[told] = doubted.sweep.tells[doubted.sweep.plot[at]]
    # Under any other doubt the azimuth is as typed, whose meaning stands in the row of the record.
    order = np.where(meant.quantity > 0, order[meant.owner], order)
    tells = np.where(meant.quantity > 0, tells[meant.owner], tells)
    return order, tells, asked


def evidence(case: Case, doubted: Suspects, meant: Meanings) -> Evidence:
    """Everything that speaks for or against each meaning."""
    order, tells, _ = order_told(doubted, meant)
    # What all blocks read is made before they go on side by side.
    for make in (ground, typed, diameters, growth, own_places, nobodys):
        case.once(make)
    count = len(doubted.rows)
    limit, _ = _limits(case, doubted.rows, meant.part(slice(0, count)))
    spread = np.where(np.isfinite(limit), limit, 15.0)
    stems = np.maximum(case.survey.visits.stem_count[case.survey.stems.visit_row[doubted.rows]], 1)
    log_crowd = np.log(stems / (np.pi * spread**2))
    parts = side_by_side(
        lambda block: _of_block(case, doubted.rows, meant.part(block), log_crowd), blocks(len(meant.owner))
    )
    told = {name: np.concatenate([part[name] for part in parts]) for name in parts[0]}
    return Evidence(order=order, tells=tells, **told)


def _of_block(case: Case, rows: Integers, meant: Meanings, log_crowd: Floats) -> dict[str, NDArray[Any]]:
    """All evidence but that of the order, of some meanings; `rows` and `log_crowd` by suspect."""
    from scipy.special import ndtr

    survey, as_typed = case.survey, case.once(typed)
    stem = rows[meant.owner]
    angle = np.radians(meant.azimuth_deg)
    x, y = meant.distance_m * np.sin(angle), meant.distance_m * np.cos(angle)
    # An azimuth beyond the circle and a distance below zero cannot be right.
    impossible = np.isnan(meant.azimuth_deg) & np.isfinite(as_typed.numbers[0][stem])
    impossible |= np.isnan(meant.distance_m) & np.isfinite(as_typed.numbers[1][stem])
    impossible &= as_typed.doubted[stem]
    limit, too_thin = _limits(case, stem, meant)
    sd = place_sd(case, meant.distance_m)
    far_m = np.where(np.isfinite(limit), limit, np.inf)
    inside = ndtr((far_m - meant.distance_m) / np.maximum(sd, 0.02))
    outside = 1.0 - np.where(np.isfinite(inside), inside, 1.0)
    # Far beyond the limit is stranger than just beyond it.
    far = np.clip(np.nan_to_num(meant.distance_m / far_m) - 1.2, 0.0, 3.0)
    dbh = case.once(diameters).log_density(stem, meant.dbh_cm, survey.settings.instrument.max_dbh_cm)
    again, edge = found_again(case, stem, meant, log_dbh=dbh)
    grown = log_by_number(case, stem, meant)
    thickness = np.where(meant.quantity == 2, np.nan, meant.dbh_cm)
    return {
        "impossible": impossible,
        "free": case.once(ground).log_free(case, stem, x, y, thickness),
        "beyond": np.clip(outside * (1.0 + far) + too_thin, 0.0, 3.0),
        "dbh": dbh,
        "crowd": log_crowd[meant.owner] + dbh,
        "edge": edge,
        "again": np.where(np.isfinite(grown), grown, again),
        "polar": np.where(meant.distance_m > 0.0, np.log(np.maximum(meant.distance_m, 0.05)), 0.0),
    }


def _limits(case: Case, stem: Integers, meant: Meanings) -> tuple[Floats, Floats]:
    """Horizontal distance up to which stems are recorded, and how far (0 to 1) a stem is too thin for the design."""
    survey, measured = case.survey, case.measured
    settings = survey.settings
    farthest = case.once(reach)
    design = sampling_design(settings) if farthest.fits else None
    wide = (measured.horizontal_distance_m - measured.compared_distance_m)[stem]
    limit = measured.limiting_distance_m[stem] + np.nan_to_num(wide)
    too_thin = np.zeros(len(stem))
    if design is not None:
        least = min((each.lower_cm for each in dbh_classes(design) if each.circle >= 0), default=-np.inf)
        below = least - meant.dbh_cm
        thick = 0.15 * least + 3.0 * dbh_sd(meant.dbh_cm, settings.errors)
        too_thin = np.where(below > 0.0, np.clip(below / thick, 0.0, 1.0), 0.0) if np.isfinite(least) else too_thin
    if design is not None and design.needs_dbh:
        some = np.flatnonzero((meant.quantity == 2) | (meant.slip == TWO_COLUMNS))
        radius = measured.radius_m[survey.stems.visit_row[stem[some]]]
        member = membership(
            design,
            azimuth_deg=np.nan_to_num(meant.azimuth_deg[some]),
            distance_m=np.nan_to_num(meant.distance_m[some], nan=1.0),
            dbh_cm=meant.dbh_cm[some],
            radius_m=radius,
            slope_percent=np.zeros(len(some)),
        )
        limit[some] = member.limiting_distance_m
    limit = np.where(np.isfinite(limit), limit, measured.radius_m[survey.stems.visit_row[stem]])
    limit = farthest.limit_m(limit)
    margin = settings.design.outside_recorded_to_m or 0.0
    return np.maximum(limit, margin * METRES[settings.measurement.length_unit]), too_thin
