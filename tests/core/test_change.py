"""Change between two visits: its parts by hand, and that they add up."""

import numpy as np
import pytest

from stemmap.core.change import Fate, change


def test_every_fate_has_its_part():
    # By hand: 20 stems per hectare each, basal areas in m².
    made = change(
        list(Fate),
        [0] * 6,
        first=[0.05, np.nan, np.nan, 0.08, 0.09, 0.02],
        second=[0.06, 0.01, 0.04, np.nan, np.nan, np.nan],
        first_factor=[20.0, 0.0, 0.0, 20.0, 20.0, 20.0],
        second_factor=[20.0, 20.0, 20.0, 0.0, 0.0, 0.0],
        plots=1,
    )

    assert made.growth[0] == pytest.approx(0.2)
    assert (made.ingrowth[0], made.ongrowth[0]) == pytest.approx((0.2, 0.8))
    assert (made.mortality[0], made.removals[0], made.not_found[0]) == pytest.approx((1.6, 1.8, 0.4))
    assert made.net[0] == pytest.approx(-2.6)


def test_stem_that_passes_into_the_next_circle_grows_at_its_first_weight():
    # From 50 stems per hectare (200 m²) to 20 (500 m²).
    made = change([Fate.SURVIVED], [0], first=[0.1], second=[0.11], first_factor=[50.0], second_factor=[20.0], plots=1)

    assert made.growth[0] == pytest.approx(0.5)
    assert made.weight[0] == pytest.approx(-3.3)
    assert made.net[0] == pytest.approx(20 * 0.11 - 50 * 0.1)


def test_parts_add_up_to_the_difference_of_the_visits():
    rng = np.random.default_rng(12)
    fate, plot = rng.integers(0, 6, 300), rng.integers(0, 9, 300)
    then, now = fate != Fate.INGROWTH, fate <= Fate.ONGROWTH
    then &= fate != Fate.ONGROWTH
    first, second = rng.gamma(2.0, 0.02, (2, 300))
    factor = rng.choice([20.0, 50.0], (2, 300))

    made = change(fate, plot, first=first, second=second, first_factor=factor[0], second_factor=factor[1], plots=9)
    before = np.bincount(plot[then], weights=(factor[0] * first)[then], minlength=9)
    after = np.bincount(plot[now], weights=(factor[1] * second)[now], minlength=9)

    np.testing.assert_allclose(made.net, after - before, atol=1e-9)
