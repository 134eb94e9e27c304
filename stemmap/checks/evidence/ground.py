"""Free ground: two stems cannot stand in one another, and records that nearly agree may be one stem entered twice."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.repeats import tree_codes
from stemmap.checks.evidence.typed import judged_visits
from stemmap.survey.measured import Status
from stemmap.survey.registry import Case

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]

#: Metres between the levels on which visits are laid so that one k-d tree serves them all.
_APART = 1.0e4
#: Stems whose axes lie no further apart are looked at as a pair, metres.
_PAIR_M = 1.0
#: Share of right records that overlap another stem all the same, before the survey has told, and what that is worth.
_TOUCHING, _TOUCHING_WORTH = 0.003, 400.0
#: Radius that is thought of where no dbh is known, metres.
_SLENDER = 0.05


@dataclass(frozen=True)
class Ground:
    """Standing stems of all visits.

    Parameters
    ----------
    rows
        Rows of the stems, shape (n,).
    tree
        Of their places, visits apart.
    radius_m, sd_m
        Radius and error of place, by stem of the survey.
    tree_code
        Equal for forks of one tree, -1: not told; by stem of the survey.
    touching
        Share of records that overlap another one far beyond their errors.
    pairs
        Rows of stems close to one another, the earlier first; shape (p, 2).
    """

    rows: Integers
    tree: Any
    radius_m: Floats
    sd_m: Floats
    tree_code: Integers
    touching: float
    pairs: Integers

    def log_free(self, case: Case, stem: Integers, x_m: Floats, y_m: Floats, dbh_cm: Floats) -> Floats:
        """Logarithm of the chance that a right record would overlap its nearest stems as these places do.

        Parameters
        ----------
        stem
            Row of each stem.
        x_m, y_m, dbh_cm
            Where it may stand, and its diameter.
        """
        found = np.zeros(len(stem))
        known = np.flatnonzero(np.isfinite(x_m) & np.isfinite(y_m))
        if not len(known) or not len(self.rows):
            return found
        row = stem[known]
        at = np.column_stack([x_m[known], y_m[known], case.survey.stems.visit_row[row] * _APART])
        nearest = min(3, len(self.rows))
        apart, other = self.tree.query(at, k=nearest, distance_upper_bound=1.5)
        apart, other = apart.reshape(-1, nearest), other.reshape(-1, nearest)
        radius = np.where(np.isfinite(dbh_cm[known]), dbh_cm[known] / 200.0, _SLENDER)
        radius = np.minimum(radius, 0.75)
        sd = place_sd(case, np.hypot(x_m[known], y_m[known]))
        total = np.zeros(len(known))
        for column in range(nearest):
            inside = other[:, column] < len(self.rows)
            neighbour = self.rows[np.where(inside, other[:, column], 0)]
            fork = (self.tree_code[neighbour] == self.tree_code[row]) & (self.tree_code[row] >= 0)
            tells = inside & (neighbour != row) & ~fork
            gap = apart[:, column] - 0.9 * (radius + self.radius_m[neighbour])
            told = self.log_apart(gap, np.hypot(sd, self.sd_m[neighbour]))
            total += np.where(tells, told, 0.0)
        found[known] = total
        return found

    def log_apart(self, gap_m: Floats, sd_m: Floats) -> Floats:
        """Logarithm of the chance that two stems beside one another are measured with such a gap or a smaller one."""
        from scipy.special import ndtr

        free = ndtr(np.where(np.isfinite(gap_m), gap_m, 9.0) / sd_m + 0.7)
        found: Floats = np.log(self.touching + (1.0 - self.touching) * free)
        return found


def ground(case: Case) -> Ground:
    """Lay out all standing stems and find those that are close to one another."""
    from scipy.spatial import cKDTree

    measured, stems = case.measured, case.survey.stems
    standing = np.isfinite(measured.x_m) & (measured.status <= Status.DEAD)
    rows = np.flatnonzero(standing & judged_visits(case)[stems.visit_row])
    places = np.column_stack([measured.x_m[rows], measured.y_m[rows], stems.visit_row[rows] * _APART])
    tree = cKDTree(places, balanced_tree=False, compact_nodes=False)
    pairs = rows[tree.query_pairs(_PAIR_M, output_type="ndarray")] if len(rows) else np.zeros((0, 2), np.int64)
    radius = np.where(np.isfinite(measured.dbh_cm), measured.dbh_cm / 200.0, _SLENDER)
    errors = measured.errors
    sd = np.sqrt(np.maximum(0.5 * (errors.var_east + errors.var_north), 4e-4))
    sd = np.where(np.isfinite(sd), sd, 0.15)
    code = case.once(tree_codes)
    radius, pairs = np.minimum(radius, 0.75), np.sort(pairs, axis=1)
    one, two = pairs[:, 0], pairs[:, 1]
    apart = np.hypot(measured.x_m[one] - measured.x_m[two], measured.y_m[one] - measured.y_m[two])
    deep = apart - 0.9 * (radius[one] + radius[two]) < -2.0 * np.hypot(sd[one], sd[two])
    deep &= (code[one] != code[two]) | (code[one] < 0)
    touching = float((np.count_nonzero(deep) + _TOUCHING * _TOUCHING_WORTH) / (len(rows) + _TOUCHING_WORTH))
    if case.whole is not None:
        touching = case.whole.once(ground).touching
    return Ground(rows, tree, radius, sd, code, touching, pairs)


def place_sd(case: Case, distance_m: Floats) -> Floats:
    """Error of a place so far from the centre, the same in all directions, metres."""
    errors = case.survey.settings.errors
    along = errors.distance_sd_m + errors.distance_sd_percent / 100.0 * distance_m
    across = np.radians(errors.azimuth_sd_deg) * distance_m
    sd: Floats = np.sqrt(np.maximum(0.5 * (along**2 + across**2), 4e-4))
    return sd
