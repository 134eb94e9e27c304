"""Ranking of doubts by what they bring for each minute, against trying all choices."""

from itertools import combinations

import numpy as np
import pytest

from stemmap.core.recheck import drawn, ranked


def cost(chosen, minutes, plot, walk):
    return sum(minutes[i] for i in chosen) + walk * len({plot[i] for i in chosen})


def test_no_doubts_make_an_empty_list():
    made = ranked([], [], [], walk_minutes=30.0)

    assert len(made.order) == len(made.within(100.0)) == 0


def test_walk_is_paid_once_a_plot():
    made = ranked([5.0, 4.0, 3.0, 9.0], [2.0, 2.0, 10.0, 2.0], [7, 7, 7, 3], walk_minutes=20.0)

    assert made.minutes.sum() == pytest.approx(16.0 + 2 * 20.0)
    assert made.order.tolist() == [3, 0, 1, 2]
    assert made.minutes.tolist() == [22.0, 22.0, 2.0, 10.0]


def test_many_small_doubts_on_one_plot_go_before_one_larger_doubt_that_needs_a_walk_of_its_own():
    worth, plot = [1.0, 1.0, 1.0, 1.0, 1.5], [0, 0, 0, 0, 1]

    assert ranked(worth, [1.0] * 5, plot, walk_minutes=20.0).order.tolist() == [0, 1, 2, 3, 4]
    assert ranked(worth, [1.0] * 5, plot, walk_minutes=0.0).order.tolist() == [4, 0, 1, 2, 3]


def test_worth_per_minute_never_rises_along_the_list():
    rng = np.random.default_rng(5)
    made = ranked(rng.gamma(0.5, 1.0, 3000), rng.uniform(1, 9, 3000), rng.integers(0, 400, 3000), walk_minutes=30.0)

    assert sorted(made.order.tolist()) == list(range(3000))
    assert (np.diff(made.rate) <= 1e-12).all()


@pytest.mark.parametrize("seed", range(8))
def test_for_the_minutes_at_which_a_piece_ends_no_other_choice_brings_more(seed):
    rng = np.random.default_rng(seed)
    worth, minutes, plot = rng.gamma(0.7, 1.0, 9), rng.uniform(1.0, 6.0, 9), rng.integers(0, 3, 9)
    made = ranked(worth, minutes, plot, walk_minutes=8.0)

    choices = [each for size in range(10) for each in combinations(range(9), size)]
    costs = np.array([cost(each, minutes, plot, 8.0) for each in choices])
    gains = np.array([worth[list(each)].sum() for each in choices])
    ends = np.flatnonzero(np.append(np.diff(made.rate) < 0, True)) + 1
    for end in ends:
        best = gains[costs <= made.minutes[:end].sum() + 1e-9].max()
        assert worth[made.order[:end]].sum() == pytest.approx(best)


def test_list_fits_into_the_minutes_and_uses_what_is_left_on_plots_that_are_visited():
    made = ranked([9.0, 1.0, 3.0, 0.1], [2.0, 2.0, 2.0, 2.0], [0, 0, 1, 0], walk_minutes=30.0)
    taken = made.within(40.0)

    assert made.order[taken].tolist() == [0, 1, 3]
    assert made.minutes[taken].sum() == pytest.approx(36.0)
    assert len(made.within(31.0)) == 0
    assert len(made.within(np.inf)) == 4


# Blind checks


def draw(plot, visited, **wanted):
    options = {"minutes_per_stem": 2.0, "walk_minutes": 30.0, "limit": np.inf, "rng": np.random.default_rng(1)}
    return drawn(plot, np.array(visited), **(options | wanted))


def test_every_candidate_is_drawn_equally_often():
    rng = np.random.default_rng(2)
    plot = np.repeat([0, 1, 2], [1, 3, 6])
    times = np.bincount(
        np.concatenate([draw(plot, [True, False, False], count=2, rng=rng).places for _ in range(5000)]), minlength=10
    )

    # 99.9 % of ten binomial numbers of mean 1000 lie within 4 standard deviations.
    assert np.abs(times - 1000).max() < 4 * np.sqrt(5000 * 0.2 * 0.8)


def test_a_walk_is_paid_once_for_each_plot_that_is_not_visited():
    made = draw([0, 0, 1, 1, 1], [True, False], count=5)

    assert sorted(made.places.tolist()) == [0, 1, 2, 3, 4]
    assert sorted(made.minutes.tolist()) == [2.0, 2.0, 2.0, 2.0, 32.0]


def test_when_no_walk_can_be_paid_the_rest_are_drawn_on_visited_plots():
    plot = np.repeat([0, 1, 2, 3], 25)
    made = draw(plot, [True, False, False, False], count=8, limit=20.0)

    assert len(made.places) == 8
    assert (plot[made.places] == 0).all()
    assert made.near > 0
    assert made.minutes.sum() == 16.0


def test_no_more_are_drawn_than_there_are_and_than_the_minutes_hold():
    assert len(draw([0, 0], [True], count=9).places) == 2
    assert len(draw([0, 0, 0], [True], count=3, limit=5.0).places) == 2
    assert len(draw([0, 0, 0], [False], count=3, limit=5.0).places) == 0
    assert len(draw([], [False], count=3).places) == 0
