"""Sums over labellings: the first one gives what the single functions say of the pattern as it is."""

import numpy as np
import pytest

from stemmap.core.labelling import kind_sums, labellings, mark_sums
from stemmap.core.pairs import weighted_pairs
from stemmap.core.replicates import weighted_pairs_of
from stemmap.core.second_order import cross_k, k_function, mark_correlation, mark_variogram
from stemmap.core.windows import Disc

DISC = Disc((0.0, 0.0), 10.0)
R = np.arange(1.0, 6.0)
XY = DISC.random(40, np.random.default_rng(1))
KIND = np.random.default_rng(2).integers(0, 3, 40)
ORDER = labellings(40, 5, np.random.default_rng(3))
PAIRS = weighted_pairs(XY, DISC, 6.0, correction="isotropic")


def test_pairs_of_many_plots_are_those_of_each():
    other = DISC.random(40, np.random.default_rng(9))
    both = weighted_pairs_of(np.stack([other, XY]), DISC, 6.0)
    mine = both.one >= 40

    assert (both.other >= 40)[mine].all()
    assert sorted(both.weight[mine]) == pytest.approx(sorted(PAIRS.weight))


@pytest.mark.parametrize("labelling", [0, 3])
def test_sums_of_kinds_are_k_of_one_kind_and_the_mean_of_both_ways_between_two(labelling):
    within = DISC.area * kind_sums(PAIRS, ORDER, KIND, 3, R)[labelling]
    kind = KIND[ORDER[labelling]]
    n = np.bincount(kind)

    np.testing.assert_allclose(within[1, 1] / (n[1] * (n[1] - 1)), k_function(XY[kind == 1], DISC, R))
    ways = [cross_k(XY, DISC, R, of=kind == a, to=kind == b) for a, b in ((0, 2), (2, 0))]
    np.testing.assert_allclose(within[0, 2] / (2 * n[0] * n[2]), np.mean(ways, axis=0))


def test_a_stem_of_unknown_kind_is_of_no_pair():
    unknown = KIND.copy()
    unknown[7] = -1
    kept = np.arange(40) != 7
    there = weighted_pairs(XY[kept], DISC, 6.0, correction="isotropic")

    with_it = kind_sums(PAIRS, ORDER[:1], unknown, 3, R)
    np.testing.assert_allclose(with_it, kind_sums(there, np.arange(39)[None], KIND[kept], 3, R))


def test_sums_of_marks_are_the_mark_correlation_and_the_mark_variogram_over_the_variance():
    dbh = np.random.default_rng(4).uniform(7.0, 60.0, 40)
    made = mark_sums(PAIRS, ORDER, dbh, R, halfwidth=1.0)
    dealt = dbh[ORDER[2]]

    np.testing.assert_allclose(made.products[2] / made.weights, mark_correlation(XY, dealt, DISC, R))
    variogram = mark_variogram(XY, dealt, DISC, R) / dbh.var(ddof=1)
    np.testing.assert_allclose(made.differences[2] / made.weights, variogram)


def test_by_chance_the_variogram_is_one():
    dbh = np.random.default_rng(5).uniform(7.0, 60.0, 40)
    order = labellings(40, 4_000, np.random.default_rng(6))
    made = mark_sums(PAIRS, order, dbh, R, halfwidth=1.0)

    np.testing.assert_allclose(made.differences[1:].mean(axis=0) / made.weights, 1.0, atol=0.01)
