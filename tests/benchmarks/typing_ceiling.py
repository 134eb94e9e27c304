"""What can be told of typing errors without a last visit by who knows the recipe of the invented plots by heart.

The order of numbers is followed with the true noise and the true chance of each slip; distances and diameters have
their true densities. Only what stems tell by standing in one another is left out.
"""

from __future__ import annotations

from functools import cache
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from tests.benchmarks.mistyped_plots import FIELDS, KINDS, PHONE, ROW, Plots, Recipe

Floats = NDArray[np.float64]

_STEPS_BY_DEGREE = 2


def slips(kind: str, text: str, field: int) -> dict[str, float]:  # noqa: C901, PLR0912 - one branch for each kind
    """What one slip makes of a number, with the chance of each."""
    made: dict[str, float] = {}

    def add(typed: str, chance: float) -> None:
        typed = f"{int(typed)}" if field == 0 and typed else typed
        if typed.strip(".") and (field == 0 or float(typed) > 0):
            made[typed] = made.get(typed, 0.0) + chance

    places = [at for at, sign in enumerate(text) if sign != "."]
    if kind == "transpose":
        pairs = [(a, b) for a, b in pairwise(places) if text[a] != text[b]]
        for a, b in pairs:
            signs = list(text)
            signs[a], signs[b] = signs[b], signs[a]
            add("".join(signs), 1.0 / len(pairs))
    elif kind == "back_bearing":
        add(str((int(text) + 180) % 360), 1.0)
    elif kind == "gon_as_degree":
        add(str(round(int(text) / 0.9)), 1.0)
    elif kind.endswith("decimal_lost"):
        powers = (10,) if field == 2 else (10, 100)
        for power in powers:
            add(f"{float(text) * power:g}", 1.0 / len(powers))
    else:
        for at in places:
            if kind == "drop_digit":
                add(text[:at] + text[at + 1 :] if len(places) > 1 else "", 1.0 / len(places))
            elif kind == "double_digit":
                add(text[:at] + text[at] + text[at:], 1.0 / len(places))
            else:
                for pad in (PHONE, ROW):
                    for key in pad[text[at]]:
                        add(text[:at] + key + text[at + 1 :], 0.5 / len(pad[text[at]]) / len(places))
    return {typed: chance for typed, chance in made.items() if float(typed) != float(text)}


def _shares(field: int) -> dict[str, float]:
    """Of 1 error how many are of each kind in this field."""
    whole = sum(KINDS.values())
    found = {}
    for kind, number in KINDS.items():
        share = number / whole
        if kind in ("duplicate_record", "swap_azimuth"):
            continue
        if kind in ("back_bearing", "gon_as_degree"):
            share *= field == 0
        elif kind.endswith("decimal_lost"):
            share *= field == (2 if kind.startswith("dbh") else 1)
        else:
            share *= FIELDS[field]
        if share:
            found[kind] = share
    return found


@cache
def _turned() -> dict[int, dict[int, float]]:
    """For each azimuth as typed the azimuths that were meant, with the chance that an error made just this of it."""
    table: dict[int, dict[int, float]] = {}
    for meant in range(360):
        for kind, share in _shares(0).items():
            for typed, chance in slips(kind, str(meant), 0).items():
                of = table.setdefault(int(typed), {})
                of[meant] = of.get(meant, 0.0) + share * chance
    return table


@cache
def _mistyped(field: int, radius: float) -> dict[float, float]:
    """Probability of each number as typed among all errors of this field."""
    table: dict[float, float] = {}
    steps = np.arange(0.1, radius + 0.1, 0.01) if field == 1 else np.arange(5.0, 100.0, 0.1)
    for value in steps:
        text = f"{value:.2f}" if field == 1 else f"{value:.1f}"
        density = _density(field, radius, float(value))
        for kind, share in _shares(field).items():
            for typed, chance in slips(kind, text, field).items():
                key = round(float(typed), 3)
                table[key] = table.get(key, 0.0) + density * share * chance
    return table


def _density(field: int, radius: float, value: float) -> float:
    """Probability of a right number as written."""
    if field == 1:
        edge = 0.5 * (1.0 - np.tanh(0.8 * (value - radius) / 0.05))
        return float(0.01 * 2.0 * value / radius**2 * edge) + 1e-9
    return float(0.1 * np.exp(-0.5 * ((np.log(max(value, 0.1)) - 3.2) / 0.42) ** 2) / (0.42 * 2.5066 * value)) + 1e-9


def wrong_by_the_recipe(made: Plots, recipe: Recipe, keys: list[tuple[str, str]]) -> Floats:
    """Probability that each record is wrong, by key."""
    columns = made.columns
    plot = np.array(columns["plot"])
    wrong: dict[tuple[str, str], float] = {}
    first = np.flatnonzero(np.append(True, plot[1:] != plot[:-1]))
    for begin, end in zip(first, np.append(first[1:], len(plot)), strict=True):
        name = plot[begin]
        rows = range(begin, end)
        azimuth = [int(columns["azimuth"][row]) for row in rows]
        distance = [float(columns["distance_m"][row]) for row in rows]
        dbh = [float(columns["dbh_cm"][row]) for row in rows]
        chance = _followed(azimuth, distance, dbh, recipe=recipe, radius=made.radius[name])
        for place, each in enumerate(chance):
            wrong[name, str(place + 1)] = float(each)
    return np.array([wrong[key] for key in keys])


def _followed(
    azimuth: list[int], distance: list[float], dbh: list[float], *, recipe: Recipe, radius: float
) -> Floats:
    """Forward and backward sums along the order, with all that each record may be."""
    count, steps = len(azimuth), 360 * _STEPS_BY_DEGREE
    at = (np.arange(steps) + 0.5) / _STEPS_BY_DEGREE
    rate = recipe.errors / count
    whole = sum(KINDS.values())
    turned = _turned()
    sd = np.hypot(recipe.noise, 0.29)

    def near(value: float) -> Floats:
        off = np.abs(at - value)
        off = np.minimum(off, 360.0 - off)
        seen: Floats = np.exp(-0.5 * (off / sd) ** 2) / (sd * 2.5066)
        return seen

    right, wrong = np.zeros((count, steps)), np.zeros((count, steps))
    for place in range(count):
        # Errors of distance and dbh leave the azimuth as it is.
        usual = [_density(1, radius, distance[place]), _density(2, radius, dbh[place])]
        slipped = [
            _mistyped(1, radius).get(round(distance[place], 3), 0.0),
            _mistyped(2, radius).get(round(dbh[place], 3), 0.0),
        ]
        straight = near(azimuth[place] if azimuth[place] < 360 else 1e6)
        right[place] = straight * (1.0 - rate) * usual[0] * usual[1]
        wrong[place] = straight * rate * (slipped[0] * usual[1] + usual[0] * slipped[1])
        for meant, chance in turned.get(azimuth[place], {}).items():
            wrong[place] += near(meant) * rate * chance * usual[0] * usual[1]
        for away in (-3, -2, -1, 1, 2, 3):
            if 0 <= place + away < count and azimuth[place + away] < 360:
                share = rate * KINDS["swap_azimuth"] / whole / 3.0
                wrong[place] += near(azimuth[place + away]) * share * usual[0] * usual[1]
        # A record entered again stands out of turn beside one that it agrees with.
        for away in (-3, -2, -1):
            if place + away >= 0:
                off = (azimuth[place] - azimuth[place + away] + 180) % 360 - 180
                alike = np.exp(-0.25 * (off / sd) ** 2) / (sd * 3.545)
                farther = distance[place] - distance[place + away]
                alike *= 0.01 * np.exp(-0.25 * (farther / 0.05) ** 2) / (0.05 * 3.545)
                alike *= 0.1 * np.exp(-0.25 * ((dbh[place] - dbh[place + away]) / 0.2) ** 2) / (0.2 * 3.545)
                wrong[place] += rate * KINDS["duplicate_record"] / whole / 3.0 * alike
        top = max(right[place].max(), wrong[place].max(), 1e-300)
        right[place], wrong[place] = right[place] / top, wrong[place] / top
    total = right + wrong
    before, after = np.ones((count, steps)), np.ones((count, steps))
    for place in range(1, count):
        state = np.cumsum(before[place - 1] * total[place - 1])
        before[place] = state / max(state.max(), 1e-300)
    for place in range(count - 2, -1, -1):
        state = np.cumsum((after[place + 1] * total[place + 1])[::-1])[::-1]
        after[place] = state / max(state.max(), 1e-300)
    weight = before * after
    bad, good = (weight * wrong).sum(axis=1), (weight * right).sum(axis=1)
    found: Floats = bad / np.maximum(bad + good, 1e-300)
    return found
