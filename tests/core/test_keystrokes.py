"""What a typed number may have been meant to be."""

import numpy as np
import pytest

from stemmap.core.keystrokes import SLIPS, meant, slip_shares


def readings(text, quantity="azimuth", **options):
    """Value and slip to chance."""
    found = meant([text], quantity, **{"decimals": 0 if quantity == "azimuth" else 2} | options)
    return {
        (float(value), SLIPS[slip]): float(np.exp(chance))
        for value, slip, chance in zip(found.value, found.slip, found.log_chance, strict=True)
    }


@pytest.mark.parametrize(
    ("typed", "value", "slip"),
    [
        ("218", 128, "transposed"),
        ("243", 273, "neighbouring key"),
        ("34", 345, "digit missing"),
        ("1022", 102, "digit doubled"),
        ("1900", 190, "digit doubled"),
        ("2718", 271, "digit added"),
        ("294", 114, "back bearing"),
        ("10", 350, "mirrored"),
        ("300", 30, "quadrant"),
        ("284", 256, "gon and degree"),
        ("5", 105, "digit missing"),
    ],
)
def test_azimuth_may_have_been_meant(typed, value, slip):
    assert (value, slip) in readings(typed)


@pytest.mark.parametrize(
    ("typed", "value", "slip"),
    [
        ("76.2", 7.62, "decimal point"),
        ("536", 5.36, "decimal point"),
        ("0.54", 10.54, "digit missing"),
        ("9.225", 9.25, "digit doubled"),
        ("3.70", 7.30, "transposed"),
        ("6,62", 9.62, "neighbouring key"),
        ("30.00", 9.14, "other unit"),
    ],
)
def test_distance_may_have_been_meant(typed, value, slip):
    assert (value, slip) in readings(typed, "distance", keeps_zeros=True)


def test_girth_may_have_been_typed_for_a_diameter():
    assert (25.0, "other unit") in readings("78.5", "diameter", decimals=1)


def test_trailing_zero_may_have_been_lost():
    assert (10.05, "transposed") not in readings("10.5", "distance", keeps_zeros=True)
    assert (15.0, "transposed") in readings("10.5", "distance")


def test_nothing_lies_beyond_the_circle():
    for full in (360.0, 400.0):
        values = [value for text in ("218", "611", "0", "360") for value, _ in readings(text, full_circle=full)]
        assert min(values) >= 0.0
        assert max(values) <= full


def test_typed_value_is_no_reading_of_itself():
    assert all(value != 218 for value, _ in readings("218"))


def test_text_that_is_no_number_has_no_reading():
    found = meant(["", "n/a", "-5", "218"], "azimuth", decimals=0)
    assert found.first.tolist()[:4] == [0, 0, 0, 0]
    assert found.first[-1] == len(found.value) > 0


def test_chance_is_that_of_hitting_just_this():
    found = readings("218")
    # 128 has two pairs of unlike neighbours, one of which gives 218.
    assert found[128, "transposed"] == pytest.approx(0.5)
    assert found[38, "back bearing"] == 1.0
    # 319 cannot give 218 with one slip.
    assert all(value != 319 for value, _ in found)
    assert max(found.values()) <= 1.0


@pytest.mark.parametrize("quantity", ["azimuth", "distance", "diameter"])
def test_shares_sum_to_one(quantity):
    assert slip_shares(quantity).sum() == pytest.approx(1.0)


def test_numbers_without_end_have_no_readings_without_end():
    found = meant(["3.5", "1." + "0" * 400, "9" * 400], "distance", decimals=400)
    assert found.first[1] < 200
    assert found.first[1:].tolist() == [found.first[1]] * 3
