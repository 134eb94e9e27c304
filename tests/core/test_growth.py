"""Usual growth by group and size."""

import numpy as np

from stemmap.core.growth import usual


def test_spread_of_a_normal_sample_is_its_standard_deviation():
    values = np.random.default_rng(1).normal(3.0, 0.5, 20_000)
    made = usual(values, np.zeros(20_000, int), np.ones(20_000))

    np.testing.assert_allclose(made.middle, 3.0, atol=0.03)
    np.testing.assert_allclose(made.below, 0.5, atol=0.03)
    np.testing.assert_allclose(made.above, 0.5, atol=0.03)


def test_each_species_and_third_of_its_sizes_has_its_own_median():
    size = np.tile(np.arange(90.0), 2)
    group = np.repeat([4, 9], 90)
    values = group + np.floor(size / 30) / 10
    made = usual(values, group, size)

    np.testing.assert_allclose(made.middle, values)
    np.testing.assert_allclose(made.below, 0.0, atol=1e-12)


def test_few_stems_of_a_species_follow_the_survey():
    values = np.append(np.full(300, 1.0), [5.0, 5.0])
    made = usual(values, np.append(np.zeros(300, int), [1, 1]), np.arange(302.0))

    assert made.middle.tolist() == [1.0] * 302


def test_one_wild_value_moves_nothing():
    values = np.append(np.linspace(0.9, 1.1, 60), 400.0)
    made = usual(values, np.zeros(61, int), np.ones(61))

    assert np.all(np.abs(made.middle - 1.0) < 0.05)
    assert np.all(made.above < 0.2)


def test_missing_values_are_left_out_and_nothing_gives_nothing():
    made = usual(np.array([np.nan, 2.0, 2.0]), np.zeros(3, int), np.ones(3))

    assert np.isnan(made.middle[0])
    assert made.middle[1:].tolist() == [2.0, 2.0]
    assert usual(np.zeros(0), np.zeros(0, int), np.zeros(0)).middle.shape == (0,)
