"""The order of numbering."""

import numpy as np
import pytest

from stemmap.core.sweep import order_of_numbers, steadiness
from stemmap.core.sweep_chain import Choices

PLOTS, STEMS = 60, 24
FIRST = np.arange(PLOTS + 1) * STEMS


@pytest.fixture
def clockwise():
    rng = np.random.default_rng(7)
    return np.round(np.sort(rng.uniform(0, 360, (PLOTS, STEMS)), axis=1) + rng.normal(0, 1, (PLOTS, STEMS))) % 360


def sweep(azimuth, **options):
    return order_of_numbers(azimuth.ravel(), FIRST, sd_deg=1.2, **options)


def test_clockwise_numbers_tell(clockwise):
    found = sweep(clockwise)
    assert (found.tells > 0.99).all()
    assert found.clockwise.all()


def test_counter_clockwise_numbers_from_any_start_tell(clockwise):
    found = sweep(np.roll(clockwise[:, ::-1], 9, axis=1))
    assert (found.tells > 0.99).all()
    assert not found.clockwise.any()


def test_second_sweep_appended_tells(clockwise):
    found = sweep(np.concatenate([clockwise[:, ::2], clockwise[:, 1::2]], axis=1))
    assert (found.tells > 0.9).mean() > 0.9


def test_numbers_in_no_order_tell_nothing(clockwise):
    found = sweep(np.random.default_rng(3).permuted(clockwise, axis=1))
    assert (found.tells < 0.01).mean() > 0.95


def test_wrong_azimuths_stand_out_and_neighbours_do_not(clockwise):
    azimuth = clockwise.copy()
    azimuth[:, [7, 15]] = (azimuth[:, [7, 15]] + 180.0) % 360.0
    found = sweep(azimuth)
    density = found.relative_density(np.arange(azimuth.size), azimuth.ravel()).reshape(PLOTS, STEMS)
    assert (density[:, [7, 15]] < 0.01).mean() > 0.95
    right = np.delete(density, [7, 15], axis=1)
    assert (right < 0.5).mean() < 0.01


def test_density_is_one_over_the_gap_between_neighbours():
    azimuth = np.array([[10.0, 40, 70, 100, 160, 220, 250, 280, 310, 340]])
    found = order_of_numbers(azimuth.ravel(), np.array([0, 10]), sd_deg=0.5)
    # Between 100 and 220 lie 120 of 360 degrees.
    assert found.relative_density(np.array([4, 4]), np.array([130.0, 190.0])) == pytest.approx(3.0, rel=0.1)
    assert found.relative_density(np.array([4]), np.array([300.0]))[0] < 0.05


def test_unknown_azimuth_keeps_its_place():
    azimuth = np.array([10.0, 40, 70, np.nan, 160, 220, 250, 280, 310, 340])
    found = order_of_numbers(azimuth, np.array([0, 10]), sd_deg=1.0)
    density = found.relative_density(np.array([3, 3]), np.array([100.0, np.nan]))
    assert density == pytest.approx([4.0, 1.0], rel=0.1)


def test_choices_replace_an_azimuth():
    azimuth = np.array([10.0, 40, 70, 280, 160, 220, 250, 280, 310, 340])
    choices = Choices(np.array([3, 3]), np.array([280.0, 100.0]), np.array([0.5, 0.5]))
    stem, where = np.array([4]), np.array([85.0])
    typed = order_of_numbers(azimuth, np.array([0, 10]), sd_deg=1.0).relative_density(stem, where)
    chosen = order_of_numbers(azimuth, np.array([0, 10]), sd_deg=1.0, choices=choices).relative_density(stem, where)
    # With 100 likely before it, 85 is hardly in order any more.
    assert chosen < 0.5 * typed


def test_what_choices_lack_is_anything_at_all():
    azimuth = np.array([10.0, 40, 70, 280, 160, 220, 250, 280, 310, 340])
    stem, where = np.array([4]), np.array([85.0])

    def told(probability):
        choices = Choices(np.array([3]), np.array([130.0]), np.array([probability]))
        found = order_of_numbers(azimuth, np.array([0, 10]), sd_deg=1.0, choices=choices)
        return found.relative_density(stem, where)[0]

    assert told(1.0) < 0.2 * told(0.05)


@pytest.mark.parametrize(("noise", "low", "high"), [(1.0, 0.9, 1.4), (2.0, 1.7, 2.6)])
def test_steadiness_of_azimuths_is_learnt(noise, low, high):
    rng = np.random.default_rng(8)
    azimuth = np.round(np.sort(rng.uniform(0, 360, (PLOTS, STEMS)), axis=1) + rng.normal(0, noise, (PLOTS, STEMS)))
    assert low <= steadiness(azimuth.ravel() % 360, FIRST, sd_deg=1.2) <= high


def test_few_plots_do_not_tell_how_steady_azimuths_are(clockwise):
    assert steadiness(clockwise[:3].ravel(), FIRST[:4], sd_deg=1.2) == 1.2


def test_wrong_first_azimuth_leaves_a_small_plot_in_order(clockwise):
    few = np.array([263.0, 83, 90, 93, 102, 280, 300, 340])
    first = np.append(FIRST, FIRST[-1] + len(few))
    found = order_of_numbers(np.append(clockwise.ravel(), few), first, sd_deg=1.2)
    assert found.tells[-1] > 0.9
    assert found.relative_density(FIRST[-1:], np.array([263.0])) < 0.1


def test_plots_of_any_size_are_allowed():
    found = order_of_numbers(np.array([5.0, 10.0, 20.0]), np.array([0, 0, 1, 3]), sd_deg=1.0)
    assert found.tells.tolist() == [0.0, 0.0, 0.0]
    assert len(order_of_numbers(np.zeros(0), np.array([0]), sd_deg=1.0).tells) == 0


def test_hundreds_of_stems_in_no_order_leave_every_density_finite():
    azimuth = np.random.default_rng(1).integers(0, 360, 300).astype(float)
    made = order_of_numbers(azimuth, np.array([0, 300]), sd_deg=1.2)
    assert made.density.mean(axis=1) == pytest.approx(1.0, rel=1e-4)
    assert made.tells[0] < 0.01
