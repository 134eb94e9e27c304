"""What a typed number may have been meant to be: slips of the thumb and of the head, each with its chance."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType
from typing import Final, Literal

import numpy as np
from numpy.typing import NDArray

__all__ = ["SLIPS", "Quantity", "Readings", "meant", "slip_shares"]

Quantity = Literal["azimuth", "distance", "diameter"]

#: Kinds of slips, as `Readings.slip` counts them. The last five need more than the typed text to be thought of.
SLIPS: Final = (
    "transposed",
    "neighbouring key",
    "digit missing",
    "digit doubled",
    "digit added",
    "decimal point",
    "back bearing",
    "mirrored",
    "quadrant",
    "gon and degree",
    "other unit",
    "along the slope",
    "exchanged",
    "two columns",
    "line above",
    "anything else",
)

_NUMBER: Final = {slip: number for number, slip in enumerate(SLIPS)}

#: How often one slip happens among all slips of a quantity, before the survey itself has told. Common practice.
_SHARES: Mapping[Quantity, Mapping[str, float]] = MappingProxyType(
    {
        "azimuth": {
            "transposed": 0.15,
            "neighbouring key": 0.2,
            "digit missing": 0.12,
            "digit doubled": 0.05,
            "digit added": 0.03,
            "back bearing": 0.15,
            "mirrored": 0.04,
            "quadrant": 0.03,
            "gon and degree": 0.08,
            "exchanged": 0.05,
            "two columns": 0.01,
            "line above": 0.03,
            "anything else": 0.06,
        },
        "distance": {
            "transposed": 0.15,
            "neighbouring key": 0.22,
            "digit missing": 0.12,
            "digit doubled": 0.05,
            "digit added": 0.05,
            "decimal point": 0.24,
            "other unit": 0.03,
            "along the slope": 0.02,
            "two columns": 0.02,
            "line above": 0.04,
            "anything else": 0.06,
        },
        "diameter": {
            "transposed": 0.15,
            "neighbouring key": 0.22,
            "digit missing": 0.1,
            "digit doubled": 0.05,
            "digit added": 0.05,
            "decimal point": 0.24,
            "other unit": 0.07,
            "line above": 0.04,
            "anything else": 0.08,
        },
    }
)

#: Keys beside each digit: telephone pad, row of a keyboard, number block (its zero lies under the one and the two).
_PADS: Final = (
    ("24", "135", "26", "157", "2468", "359", "48", "5790", "68"),
    ("2", "13", "24", "35", "46", "57", "68", "79", "80"),
    ("240", "1350", "26", "157", "2468", "359", "48", "579", "68"),
)
_ZERO: Final = ("8", "9", "12")
_PAD_SHARE: Final = (0.4, 0.4, 0.2)


def _keys() -> Mapping[str, tuple[tuple[str, float], ...]]:
    """For each typed digit the digits that were meant, with the chance that this key was hit instead."""
    table: dict[str, dict[str, float]] = {digit: {} for digit in "0123456789"}
    for pad, zero, share in zip(_PADS, _ZERO, _PAD_SHARE, strict=True):
        for digit, around in zip("1234567890", (*pad, zero), strict=True):
            for hit in around:
                table[hit][digit] = table[hit].get(digit, 0.0) + share / len(around)
    return MappingProxyType({digit: tuple(meant.items()) for digit, meant in table.items()})


_KEYS: Final = _keys()


@dataclass(frozen=True)
class Readings:
    """What typed texts may have been meant to be; arrays of shape (readings,), sorted by text.

    Parameters
    ----------
    first
        Readings of text i are rows first[i] to first[i + 1]; shape (texts + 1,).
    value
        The number that may have been meant, in the unit of the text.
    slip
        Index into `SLIPS`.
    log_chance
        Logarithm of the chance that this slip turns the value that was meant into just this text.
    """

    first: NDArray[np.int64]
    value: NDArray[np.float64]
    slip: NDArray[np.int64]
    log_chance: NDArray[np.float64]


def slip_shares(quantity: Quantity) -> NDArray[np.float64]:
    """Share of each of `SLIPS` among the slips of a quantity, before the survey has told; sums to 1."""
    shares = _SHARES[quantity]
    return np.array([shares.get(slip, 0.0) for slip in SLIPS])


#: Nobody types numbers with more digits, or more places after the point; they would have readings without end.
_MOST_DIGITS, _MOST_DECIMALS = 16, 9


def meant(
    texts: Sequence[str],
    quantity: Quantity,
    *,
    decimals: int,
    keeps_zeros: bool = False,
    full_circle: float = 360.0,
) -> Readings:
    """Think of everything that typed numbers may have been meant to be.

    Parameters
    ----------
    texts
        Numbers as typed, decimal point or comma; a text that is no plain number has no reading.
    quantity
        Decides which slips can be: a back bearing is one of azimuths only.
    decimals
        Places after the point that numbers of this column have.
    keeps_zeros
        Whether they are written to the last place ("7.50") rather than without trailing zeros ("7.5").
    full_circle
        Parts of a full circle in the unit of azimuths.

    Returns
    -------
    Readings
        A value that two slips lead to stands there twice, once for each.
    """
    circle = full_circle if quantity == "azimuth" else 0.0
    decimals = min(decimals, _MOST_DECIMALS)
    found = [_of_text(text, quantity, decimals=decimals, keeps_zeros=keeps_zeros, full_circle=circle) for text in texts]
    none = np.zeros((3, 0))
    value, slip, log_chance = np.concatenate([none, *found], axis=1)
    first = np.cumsum([0, *(each.shape[1] for each in found)], dtype=np.int64)
    return Readings(first, value, slip.astype(np.int64), log_chance)


@lru_cache(maxsize=20_000)
def _of_text(
    text: str, quantity: Quantity, *, decimals: int, keeps_zeros: bool, full_circle: float
) -> NDArray[np.float64]:
    """Values, slips and logarithms of chances of one text, shape (3, readings); kept, for numbers come again."""
    plain = text.strip().replace(",", ".")
    whole, _, part = plain.partition(".")
    found: dict[tuple[float, int], float] = {}
    if len(whole + part) <= _MOST_DIGITS and (whole + part).isascii() and (whole + part).isdigit():
        for kind, number, probability in _readings(
            whole, part, quantity, decimals=decimals, keeps_zeros=keeps_zeros, full_circle=full_circle
        ):
            key = (round(number, 6), _NUMBER[kind])
            found[key] = found.get(key, 0.0) + probability
        typed = float(plain)
        found = {key: each for key, each in found.items() if abs(key[0] - typed) > 1e-9}
    rows = np.array([(*key, chance) for key, chance in found.items()], float).reshape(-1, 3).T
    rows[2] = np.log(rows[2])
    return rows


def _readings(
    whole: str, part: str, quantity: Quantity, *, decimals: int, keeps_zeros: bool, full_circle: float
) -> Iterator[tuple[str, float, float]]:
    """Kind, value and chance of everything a number may have been meant to be."""
    circle = quantity == "azimuth"
    typed = float(f"{whole or 0}.{part or 0}")
    forms = {(whole, part)}
    if not keeps_zeros:
        forms |= {(whole, part.ljust(places, "0")) for places in range(len(part) + 1, decimals + 1)}
    # A leading zero is lost between the thumb and the file.
    forms |= {(front, behind) for _, behind in tuple(forms) for front in _fronts(whole, circle=circle)}
    # Sorted, so that the same numbers always give the same sums in the same order.
    for front, behind in sorted(forms):
        for kind, digits, places, probability in _slips(front + behind, len(behind)):
            if places > decimals or (keeps_zeros and places != decimals) or not digits:
                continue
            left = digits[: len(digits) - places]
            if (len(left) > 1 and left[0] == "0") or (not left and kind != "digit missing"):
                continue
            number = int(digits) / 10.0**places
            if number <= full_circle or not circle:
                yield kind, number, probability
    if circle:
        yield from _turned(typed, full_circle, decimals)
        return
    # The point was left out, or stands a place too far to the right; seldom too far to the left.
    for power, probability in ((-1, 0.45), (-2, 0.4), (1, 0.1), (2, 0.05)):
        moved = round(typed * 10.0**power, 6)
        if abs(round(moved, decimals) - moved) < 1e-9 and moved > 0.0:
            yield "decimal point", moved, probability
    units = (0.3048,) if quantity == "distance" else (1.0 / np.pi, 2.54)
    for factor in units:
        yield "other unit", round(typed * factor, decimals), 1.0 / len(units)


def _fronts(whole: str, *, circle: bool) -> list[str]:
    """Other ways to write the places before the point."""
    if circle:
        return [whole.zfill(places) for places in range(len(whole) + 1, 4)]
    return [""] if whole == "0" else []


def _slips(digits: str, places: int) -> Iterator[tuple[str, str, int, float]]:
    """Kind, digits, places after the point and chance of what one slip of the thumb made these digits from."""
    count = len(digits)
    for place in range(count - 1):
        left, right = digits[place], digits[place + 1]
        if left != right:
            swapped = digits[:place] + right + left + digits[place + 2 :]
            pairs = sum(swapped[each] != swapped[each + 1] for each in range(count - 1))
            yield "transposed", swapped, places, 1.0 / pairs
        else:
            shorter = digits[:place] + digits[place + 1 :]
            yield "digit doubled", shorter, places - (place + 1 >= count - places), 1.0 / (count - 1)
    for place, digit in enumerate(digits):
        for key, probability in _KEYS[digit]:
            yield "neighbouring key", digits[:place] + key + digits[place + 1 :], places, probability / count
        shorter = digits[:place] + digits[place + 1 :]
        yield "digit added", shorter, places - (place >= count - places), 0.1 / count
    for place in range(count + 1):
        for key in "0123456789":
            longer = digits[:place] + key + digits[place:]
            sides = {places + (place > count - places)} | ({places, places + 1} if place == count - places else set())
            for after in sides:
                yield "digit missing", longer, after, 1.0 / (count + 1)


def _turned(azimuth: float, full: float, decimals: int) -> Iterator[tuple[str, float, float]]:
    """Readings of the instrument that were not the azimuth."""
    if azimuth <= full:
        yield "back bearing", (azimuth + full / 2.0) % full, 1.0
        yield "mirrored", full - azimuth, 1.0
        for quarter in (0.25, 0.75):
            yield "quadrant", (azimuth + quarter * full) % full, 0.5
    # Typed in the other unit of the circle: gon where degrees were wanted, or degrees where gon were.
    factor = 0.9 if abs(full - 400.0) > 1e-9 else 1.0 / 0.9
    if azimuth * factor <= full:
        yield "gon and degree", round(azimuth * factor, decimals), 1.0
