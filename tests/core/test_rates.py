"""Rates of rare cases and their intervals."""

import numpy as np
import pytest

from stemmap.core.rates import event_rate

THOUGHT, WORTH = 0.004, 400.0


def test_without_a_chance_the_rate_is_what_was_thought():
    made = event_rate([0.0], [0.0], thought=THOUGHT, worth=WORTH)
    assert made.rate == pytest.approx(THOUGHT)


def test_many_chances_outweigh_what_was_thought():
    made = event_rate([10_000.0], [1e6], thought=THOUGHT, worth=WORTH)
    assert made.rate == pytest.approx(0.01, rel=0.01)
    assert made.low == pytest.approx(0.0098, rel=0.01)
    assert made.high == pytest.approx(0.0102, rel=0.01)


def test_cases_that_may_not_be_real_widen_the_interval():
    sure, unsure = (event_rate([5.0], [1000.0], thought=THOUGHT, worth=WORTH, spread=spread) for spread in (0.0, 2.5))
    assert unsure.rate == sure.rate
    assert unsure.low < sure.low < sure.high < unsure.high


def test_intervals_hold_95_of_100_true_rates():
    """Rates drawn from the prior, cases of which each is seen with a probability that is known (own simulation)."""
    rng = np.random.default_rng(7)
    true = rng.gamma(THOUGHT * WORTH, 1.0 / WORTH, 4000)
    number = rng.poisson(true * 2000.0)
    made = event_rate(number, 2000.0, thought=THOUGHT, worth=WORTH)
    assert 0.94 <= np.mean((made.low <= true) & (true <= made.high)) <= 0.96
