"""The test of equal last digits."""

import numpy as np
import pytest

from stemmap.core.digits import digit_test


@pytest.mark.parametrize("numbers", [50, 200, 2000])
def test_equal_digits_are_rejected_in_five_of_a_hundred_samples(numbers):
    counts = np.random.default_rng(8).multinomial(numbers, np.full(10, 0.1), 20_000)

    assert 0.04 <= np.mean(digit_test(counts).p < 0.05) <= 0.06


def test_digits_of_a_smooth_stand_are_equal_in_tenths_of_a_centimetre():
    """Diameters of a gamma distribution cut at 7 cm, read to a millimetre."""
    rng = np.random.default_rng(9)
    dbh = 7.0 + rng.gamma(2.0, 8.0, (4000, 200))
    digit = np.mod(np.rint(10 * dbh), 10).astype(int)
    counts = np.array([np.bincount(each, minlength=10) for each in digit])

    assert 0.04 <= np.mean(digit_test(counts).p < 0.05) <= 0.06


def test_probability_is_that_of_chi_square_with_nine_degrees_of_freedom():
    # 16.919 is exceeded by chance in 0.05 of all samples (printed tables).
    off = np.array([[10, -5, -5, 3, -3, 1, -1, 0, 0, 0], [10, -5, -5, 3, -3, 0, 0, 0, 0, 0]])
    made = digit_test(10 + off)

    assert 0.048 < made.p[0] < 0.05 < made.p[1] < 0.053
    assert made.effect[0] == pytest.approx(np.sqrt(0.17))


def test_few_numbers_say_nothing():
    made = digit_test(np.array([[49, 0, 0, 0, 0, 0, 0, 0, 0, 0], [0] * 10]))

    assert np.isnan(made.p).all()
    assert made.effect.tolist() == [3.0, 0.0]
