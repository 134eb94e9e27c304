"""Records that repeat another one of the same visit."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.diameters import diameters
from stemmap.checks.evidence.suspects import Suspects
from stemmap.core.locate import dbh_sd
from stemmap.survey.registry import Case

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]

#: Records so many numbers apart are entered soon after one another.
_SOON = 3


def twins(case: Case, doubted: Suspects) -> tuple[Integers, Floats]:
    """For each suspect the record that it most likely repeats, and the logarithm of the density of that.

    The density is that of place and dbh around the other record, per square metre and centimetre, times what turns
    square metres into units of azimuth and distance.
    """
    count = len(doubted.rows)
    twin, best = np.full(count, -1, np.int64), np.full(count, -np.inf)
    if not len(doubted.pairs):
        return twin, best
    measured = case.measured
    late, early = doubted.pairs[:, 0], doubted.pairs[:, 1]
    errors = measured.errors
    east, north = errors.var_east[late] + errors.var_east[early], errors.var_north[late] + errors.var_north[early]
    cross = errors.cov_east_north[late] + errors.cov_east_north[early]
    east, north = east + 4e-4, north + 4e-4
    determinant = east * north - cross**2
    x, y = measured.x_m[late] - measured.x_m[early], measured.y_m[late] - measured.y_m[early]
    apart = (north * x**2 + east * y**2 - 2.0 * cross * x * y) / determinant
    sd = np.maximum(dbh_sd(measured.dbh_cm[late], case.survey.settings.errors), 0.05) * np.sqrt(2.0)
    thicker = measured.dbh_cm[late] - measured.dbh_cm[early]
    alike = np.where(np.isfinite(thicker), -0.5 * (thicker / sd) ** 2 - np.log(sd * np.sqrt(2.0 * np.pi)), -3.0)
    species = case.once(diameters).species
    other_kind = np.where(species[late] == species[early], 0.0, -4.0)
    density = -0.5 * apart - np.log(2.0 * np.pi * np.sqrt(determinant)) + alike + other_kind
    density += np.log(np.maximum(measured.horizontal_distance_m[late], 0.05))
    # Who enters a stem twice does so at once, where there is an order.
    here, there = doubted.place[late], doubted.place[early]
    # No place, no plot, no order.
    tells = np.append(doubted.sweep.tells, 0.0)[np.append(doubted.sweep.plot, -1)[here]]
    stems = case.survey.visits.stem_count[case.survey.stems.visit_row[late]]
    soon = np.where(np.abs(here - there) <= _SOON, np.maximum(stems / (2.0 * _SOON), 1.0), 0.1)
    density += np.log(tells * soon + 1.0 - tells)
    place = np.searchsorted(doubted.rows, late)
    held = (place < count) & (doubted.rows[np.minimum(place, count - 1)] == late)
    for number in np.flatnonzero(held)[np.argsort(density[held])]:
        twin[place[number]], best[place[number]] = early[number], density[number]
    return twin, best
