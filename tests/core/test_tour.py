"""The walking order of places."""

import itertools

import numpy as np
import pytest

from stemmap.core.tour import MOST_TOGETHER, short_tour


def length(x, y, order):
    return np.hypot(np.diff(x[order]), np.diff(y[order])).sum()


@pytest.mark.parametrize("number", [0, 1, 2, 3, 60])
def test_every_place_comes_once_from_the_start(number):
    x, y = np.random.default_rng(3).uniform(0.0, 1000.0, (2, number))
    order = short_tour(x, y, start=max(number - 1, 0))
    assert sorted(order) == list(range(number))
    assert not number or order[0] == number - 1


def test_places_on_a_line_are_walked_along():
    x = np.array([0.0, 50.0, 10.0, 40.0, 20.0, 30.0])
    assert x[short_tour(x, 0.0 * x)].tolist() == sorted(x)


def test_places_at_one_spot_end_the_search():
    assert sorted(short_tour(np.zeros(5), np.zeros(5))) == list(range(5))


def test_of_seven_places_the_way_is_at_most_a_quarter_longer_than_the_shortest():
    """Shortest way by trying all orders (own simulation)."""
    rng = np.random.default_rng(5)
    for _ in range(20):
        x, y = rng.uniform(0.0, 1000.0, (2, 7))
        best = min(length(x, y, [0, *rest]) for rest in itertools.permutations(range(1, 7)))
        assert length(x, y, short_tour(x, y)) <= 1.25 * best


def test_very_many_places_are_walked_in_blocks_without_long_ways_back():
    """For n places at random in a square of area A the shortest way is about 0.7124 sqrt(n A).

    Beardwood, Halton and Hammersley 1959, constant by Johnson et al. 1996, from memory. This one may be half as long
    again.
    """
    number = 4 * MOST_TOGETHER
    x, y = np.random.default_rng(7).uniform(0.0, 1000.0, (2, number))
    order = short_tour(x, y)
    assert sorted(order) == list(range(number))
    assert length(x, y, order) <= 1.5 * 0.7124 * np.sqrt(number) * 1000.0
