"""Invented plots with known typing errors, as many as are wanted: what the bench of typing findings is worked on.

Stems at random, in groups or keeping apart; numbered clockwise from north; azimuths read to 1 degree and written in
whole degrees, distances to 5 cm in centimetres, diameters to 2 mm in millimetres. About one record in twenty is wrong.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

RADII_M = (8.0, 9.77, 10.0, 11.28, 12.62, 15.0)
#: Kinds of errors and how many of 100 are so.
KINDS = {
    "adjacent_key": 19,
    "back_bearing": 14,
    "dbh_decimal_lost": 7,
    "distance_decimal_lost": 12,
    "double_digit": 6,
    "drop_digit": 10,
    "duplicate_record": 10,
    "gon_as_degree": 10,
    "swap_azimuth": 2,
    "transpose": 10,
}
#: Share of errors of single digits in azimuth, distance and dbh.
FIELDS = (0.57, 0.29, 0.14)
PHONE = dict(zip("1234567890", ("24", "135", "26", "157", "2468", "359", "48", "5790", "68", "8"), strict=True))
ROW = dict(zip("1234567890", ("2", "13", "24", "35", "46", "57", "68", "79", "80", "9"), strict=True))


@dataclass(frozen=True)
class Recipe:
    """What the plots are like: plots, errors by plot, factor of the noise, share that came and went, numbering."""

    plots: int = 400
    errors: float = 1.31
    noise: float = 1.0
    changed: float = 0.03
    last_visit: bool = False
    numbering: str = "clockwise"


@dataclass
class Record:
    """One stem as typed, and what was meant: texts of azimuth, distance and dbh."""

    typed: list[str]
    meant: list[str]
    tree: int
    kind: str = ""


@dataclass(frozen=True)
class Plots:
    """Columns of the upload, radius by plot, what is wrong, and which records stand there a second time.

    What is wrong, by plot and stem: kind, field, what was meant, metres moved.
    """

    columns: dict[str, list[str]]
    radius: dict[str, float]
    truth: dict[tuple[str, str], tuple[str, int, str, float]]
    twins: set[tuple[str, str]]


def simulate(rng: np.random.Generator, recipe: Recipe) -> Plots:
    """Fresh plots of a recipe."""
    columns: dict[str, list[str]] = {name: [] for name in ("plot", "visit", "stem", "azimuth", "distance_m", "dbh_cm")}
    radii, truth, twins = {}, {}, set()
    for number in range(recipe.plots):
        name = f"S{number + 1:05d}"
        radius = float(rng.choice(RADII_M))
        x, y = _places(rng, radius)
        dbh = np.maximum(5.0, np.exp(rng.normal(3.2, 0.42, len(x))))
        radii[name] = radius
        if recipe.last_visit:
            before = rng.random(len(x)) >= recipe.changed
            grown = np.maximum(5.0, dbh - np.abs(rng.normal(1.5, 0.8, len(x))))
            kept = _measured(rng, x[before], y[before], grown[before], recipe)
            _write(columns, name, "2021-09-01", [each.typed for each in kept])
        now = np.ones(len(x), bool) if not recipe.last_visit else rng.random(len(x)) >= recipe.changed
        records = _measured(rng, x[now], y[now], dbh[now], recipe)
        records = _with_errors(rng, records, (x[now], y[now], dbh[now]), recipe)
        if recipe.numbering == "shuffled":
            records = [records[place] for place in rng.permutation(len(records))]
        elif recipe.numbering == "counter-clockwise":
            begin = int(rng.integers(len(records)))
            records = (records[begin:] + records[:begin])[::-1]
        for place, record in [(at, each) for at, each in enumerate(records) if each.kind == "duplicate_record"]:
            # The later of the two is the one too many, whichever was written first.
            other = next(at for at, each in enumerate(records) if each.tree == record.tree and each is not record)
            twins.add((name, str(min(place, other) + 1)))
            records[min(place, other)].kind, records[max(place, other)].kind = "", "duplicate_record"
        _write(columns, name, "2026-09-01", [each.typed for each in records])
        for place, record in enumerate(records):
            if record.kind:
                field = next((at for at in range(3) if record.typed[at] != record.meant[at]), -1)
                moved = abs(_place(record.typed) - _place(record.meant))
                truth[name, str(place + 1)] = (record.kind, field, record.meant[max(field, 0)], moved)
    return Plots(columns, radii, truth, twins)


def _place(typed: list[str]) -> complex:
    return float(typed[1]) * complex(np.exp(1j * np.radians(float(typed[0]))))


def _places(rng: np.random.Generator, radius: float) -> tuple[Floats, Floats]:
    """Stems of one plot, at least 0.15 m from the centre and half a metre apart."""
    count = int(np.clip(rng.lognormal(3.2, 0.45), 7, 76))
    kind = rng.integers(3)
    apart = 0.5 if kind < 2 else 0.55 * radius * np.sqrt(1.0 / count)
    middles = rng.uniform(-radius, radius, (max(2, count // 5), 2))
    chosen: list[tuple[float, float]] = []
    tried = 0
    while len(chosen) < count:
        tried += 1
        at = rng.uniform(-radius, radius, 2)
        if kind == 1 and rng.random() < 0.7:
            at = middles[rng.integers(len(middles))] + rng.normal(0.0, 0.12 * radius, 2)
        least = apart if tried < 40 * count else 0.3
        far = np.hypot(*at)
        if 0.15 < far < radius and all((at[0] - x) ** 2 + (at[1] - y) ** 2 > least**2 for x, y in chosen):
            chosen.append((float(at[0]), float(at[1])))
    x, y = np.array(chosen).T
    order = np.argsort(np.degrees(np.arctan2(x, y)) % 360.0)
    return x[order], y[order]


def _measured(rng: np.random.Generator, x: Floats, y: Floats, dbh: Floats, recipe: Recipe) -> list[Record]:
    """Records of one visit in clockwise order."""
    azimuth = np.rint(np.degrees(np.arctan2(x, y)) + rng.normal(0.0, recipe.noise, len(x))).astype(int) % 360
    distance = np.maximum(np.hypot(x, y) + rng.normal(0.0, 0.05 * recipe.noise, len(x)), 0.1)
    thick = dbh + rng.normal(0.0, 0.2 * recipe.noise, len(x))
    typed = [[str(a), f"{d:.2f}", f"{t:.1f}"] for a, d, t in zip(azimuth, distance, thick, strict=True)]
    return [Record(each, list(each), tree) for tree, each in enumerate(typed)]


def _with_errors(
    rng: np.random.Generator, records: list[Record], stand: tuple[Floats, Floats, Floats], recipe: Recipe
) -> list[Record]:
    kinds, weights = list(KINDS), np.array(list(KINDS.values()), float)
    for _ in range(rng.poisson(recipe.errors)):
        kind = str(rng.choice(kinds, p=weights / weights.sum()))
        place = int(rng.integers(len(records)))
        record = records[place]
        if record.kind:
            continue
        if kind == "duplicate_record":
            x, y, dbh = (each[record.tree : record.tree + 1] for each in stand)
            again = _measured(rng, x, y, dbh, recipe)[0]
            again.kind, again.tree = kind, record.tree
            records.insert(min(place + int(rng.integers(1, 4)), len(records)), again)
        elif kind == "swap_azimuth":
            other = records[(place + int(rng.integers(1, 4))) % len(records)]
            if other.kind or other.typed[0] == record.typed[0]:
                continue
            record.typed[0], other.typed[0] = other.typed[0], record.typed[0]
            record.kind = other.kind = kind
        else:
            field = 2 if kind == "dbh_decimal_lost" else 1 if kind == "distance_decimal_lost" else 0
            if kind not in ("back_bearing", "gon_as_degree") and "decimal" not in kind:
                field = int(rng.choice(3, p=FIELDS))
            typed = slip(rng, kind, record.typed[field], field)
            if typed is not None and float(typed) != float(record.typed[field]):
                record.typed[field], record.kind = typed, kind
    return records


def slip(rng: np.random.Generator, kind: str, text: str, field: int) -> str | None:
    """One slip of the thumb or the head; None where it cannot happen to this number."""
    places = [at for at, sign in enumerate(text) if sign != "."]
    at = int(rng.choice(places))
    if kind == "adjacent_key":
        pad = PHONE if rng.random() < 0.5 else ROW
        made = text[:at] + str(rng.choice(list(pad[text[at]]))) + text[at + 1 :]
    elif kind == "drop_digit":
        made = text[:at] + text[at + 1 :] if len(places) > 1 else ""
    elif kind == "double_digit":
        made = text[:at] + text[at] + text[at:]
    elif kind == "transpose":
        pairs = [(a, b) for a, b in pairwise(places) if text[a] != text[b]]
        if not pairs:
            return None
        a, b = pairs[int(rng.integers(len(pairs)))]
        signs = list(text)
        signs[a], signs[b] = signs[b], signs[a]
        made = "".join(signs)
    elif kind == "back_bearing":
        made = str((int(text) + 180) % 360)
    elif kind == "gon_as_degree":
        made = str(round(int(text) / 0.9))
    else:
        made = f"{float(text) * (10 if field == 2 or rng.random() < 0.5 else 100):g}"
    made = f"{int(made)}" if field == 0 and made else made
    return made if made.strip(".") and float(made) > (-1 if field == 0 else 0) else None


def _write(columns: dict[str, list[str]], plot: str, visit: str, rows: list[list[str]]) -> None:
    for number, (azimuth, distance, dbh) in enumerate(rows):
        for name, cell in zip(columns, (plot, visit, str(number + 1), azimuth, distance, dbh), strict=True):
            columns[name].append(cell)


def variants(plots: int) -> dict[str, Recipe]:
    """The recipe and what it is held against."""
    plain = Recipe(plots=plots)
    return {
        "without a last visit": plain,
        "with a last visit": replace(plain, last_visit=True),
        "counter-clockwise, without": replace(plain, numbering="counter-clockwise"),
        "counter-clockwise, with": replace(plain, numbering="counter-clockwise", last_visit=True),
        "shuffled, with": replace(plain, numbering="shuffled", last_visit=True),
        "noise doubled, without": replace(plain, noise=2.0),
        "noise doubled, with": replace(plain, noise=2.0, last_visit=True),
        "free of errors, without": replace(plain, errors=0.0),
        "free of errors, with": replace(plain, errors=0.0, last_visit=True),
        "1 of 300 wrong, without": replace(plain, errors=0.09),
        "1 of 300 wrong, with": replace(plain, errors=0.09, last_visit=True),
    }
