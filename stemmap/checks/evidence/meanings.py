"""Everything that suspected records may have been meant to be, one row for each meaning."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.copied import copied
from stemmap.checks.evidence.level import level_to
from stemmap.checks.evidence.reach import reach
from stemmap.checks.evidence.repeats import tree_codes
from stemmap.checks.evidence.suspects import Suspects
from stemmap.checks.evidence.typed import QUANTITIES, typed
from stemmap.core.keystrokes import SLIPS, meant
from stemmap.survey.registry import Case
from stemmap.units import FULL_CIRCLE

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]

EXCHANGED = SLIPS.index("exchanged")
ALONG_THE_SLOPE = SLIPS.index("along the slope")
TWO_COLUMNS = SLIPS.index("two columns")
LINE_ABOVE = SLIPS.index("line above")
ANYTHING = SLIPS.index("anything else")

#: Columns of a record that are taken for one another, by the quantity whose meaning it is told as: the azimuth stands
#: under distance, the distance under dbh.
OTHER_COLUMN = (1, 2)
#: Values that stand for anything at all, by quantity.
_ANYTHING = (45, 16, 12)
#: Farthest distance and greatest dbh that anything reaches where the survey says nothing; metres, centimetres.
_REACH_M, _THICKNESS_CM = 25.0, 100.0
#: A distance along the slope is longer than the horizontal one by this or more to be told from it, metres.
_LEVEL_M = 0.2
#: Records so many places apart follow closely on one another.
_CLOSE = 3


@dataclass(frozen=True)
class Meanings:
    """Meanings of suspected records, shape (n,). The first of each record is that it is right as typed.

    Parameters
    ----------
    owner
        Place of the record among the suspects.
    quantity
        0 azimuth, 1 distance, 2 diameter; -1: right as typed.
    value
        What was meant, in the unit of the file.
    slip
        Index into `SLIPS`.
    log_chance
        Logarithm of the chance that this slip gave what was typed.
    azimuth_deg, distance_m, dbh_cm
        The record under this meaning: grid azimuth, horizontal distance to the axis, dbh.
    partner
        Row of the same exchange seen from the other record; -1: no exchange.
    """

    owner: Integers
    quantity: Integers
    value: Floats
    slip: Integers
    log_chance: Floats
    azimuth_deg: Floats
    distance_m: Floats
    dbh_cm: Floats
    partner: Integers

    def part(self, rows: slice) -> Meanings:
        """Consecutive meanings; rows of partners are still those of the whole."""
        return Meanings(**{each.name: getattr(self, each.name)[rows] for each in fields(self)})

    def take(self, kept: NDArray[np.bool_]) -> Meanings:
        """Some meanings, all exchanges among them."""
        some = {each.name: getattr(self, each.name)[kept] for each in fields(self)}
        row = np.append(np.cumsum(kept) - 1, -1)
        some["partner"] = row[some["partner"]]
        return Meanings(**some)


def meanings(case: Case, doubted: Suspects) -> Meanings:
    """Think of everything that the suspected records may have been meant to be."""
    as_typed, rows = case.once(typed), doubted.rows
    count = len(rows)
    none = np.full(count, -1)
    parts: list[tuple[NDArray[Any], ...]] = [(np.arange(count), none, np.full(count, np.nan), none, np.zeros(count))]
    partners = [np.full(count, -1)]
    for number, name in enumerate(as_typed.columns):
        if name is None:
            continue
        parts += [_readings(case, doubted, number, name), _anything(case, doubted, number)]
        partners += [np.full(len(each[0]), -1) for each in parts[-2:]]
    for number, other in enumerate(OTHER_COLUMN):
        parts.append(_two_columns(case, doubted, number, other))
        partners.append(np.full(len(parts[-1][0]), -1))
    parts.append(_along_the_slope(case, doubted))
    partners.append(np.full(len(parts[-1][0]), -1))
    so_far = sum(len(each[0]) for each in parts)
    exchange, partner = _exchanges(case, doubted)
    parts.append(exchange)
    partners.append(partner + so_far)
    owner, quantity, value, slip, chance = (np.concatenate([each[place] for each in parts]) for place in range(5))
    stem = rows[owner]
    measured = case.measured
    azimuth = np.where(
        quantity == 0,
        (value * as_typed.degrees + as_typed.turn_deg[stem]) % 360.0,
        measured.grid_azimuth_deg[stem],
    )
    distance = np.where(
        quantity == 1, value * as_typed.per_metre[stem] + as_typed.to_axis_m[stem], measured.horizontal_distance_m[stem]
    )
    dbh = np.where(quantity == 2, value * as_typed.per_centimetre, measured.dbh_cm[stem])
    turned, far = (np.flatnonzero((slip == TWO_COLUMNS) & (quantity == each)) for each in (0, 1))
    distance[turned] = (as_typed.numbers[0] * as_typed.per_metre + as_typed.to_axis_m)[stem[turned]]
    dbh[far] = as_typed.numbers[1, stem[far]] * as_typed.per_centimetre
    return Meanings(owner, quantity, value, slip, chance, azimuth, distance, dbh, np.concatenate(partners))


def _open(case: Case, doubted: Suspects, quantity: int) -> NDArray[np.bool_]:
    """Suspects whose quantity may be wrong: places not from the centre, or carried over, are not doubted."""
    places = case.once(typed).doubted & ~case.once(copied)
    return doubted.thickness if quantity == 2 else places[doubted.rows]


def _readings(case: Case, doubted: Suspects, quantity: int, name: str) -> tuple[NDArray[Any], ...]:
    """What the typed text alone makes one think of."""
    column = case.survey.stems.records.columns[name]
    codes = np.where(_open(case, doubted, quantity), column.codes[doubted.rows], -1)
    typed_codes, place = np.unique(codes[codes >= 0], return_inverse=True)
    written = doubted.spellings[quantity]
    found = meant(
        [str(column.labels[code]) for code in typed_codes],
        QUANTITIES[quantity],
        decimals=written.decimals if written is not None else 0,
        keeps_zeros=written is not None and written.keeps_zeros,
        full_circle=FULL_CIRCLE[case.survey.settings.measurement.azimuth_unit],
    )
    begin, number = found.first[:-1][place], np.diff(found.first)[place]
    owner = np.repeat(np.flatnonzero(codes >= 0), number)
    row = np.repeat(begin - (np.cumsum(number) - number), number) + np.arange(len(owner))
    return owner, np.full(len(owner), quantity), found.value[row], found.slip[row], found.log_chance[row]


def _anything(case: Case, doubted: Suspects, quantity: int) -> tuple[NDArray[Any], ...]:
    """Values all over the range: what was meant cannot be told from what was typed."""
    as_typed, rows = case.once(typed), doubted.rows
    steps = _ANYTHING[quantity]
    share = (np.arange(steps) + 0.5) / steps
    if quantity == 0:
        most = np.full(len(rows), 360.0 / as_typed.degrees)
    elif quantity == 1:
        most = case.measured.limiting_distance_m[rows]
        most = np.where(np.isfinite(most), most, case.measured.radius_m[case.survey.stems.visit_row[rows]])
        most = case.once(reach).limit_m(most)
        most = np.where(np.isfinite(most), most, _REACH_M) / as_typed.per_metre[rows]
    else:
        most = np.full(len(rows), _THICKNESS_CM / as_typed.per_centimetre)
    numbers = as_typed.numbers[quantity]
    owner = np.repeat(np.flatnonzero(np.isfinite(numbers[rows]) & _open(case, doubted, quantity)), steps)
    value = most[owner] * np.tile(share, len(owner) // steps)
    # The line above: the same number as in the record before says that much more than any number does.
    before = np.append(np.nan, numbers[:-1])
    before[case.survey.visits.first_stem[:-1].clip(max=max(len(numbers) - 1, 0))] = np.nan
    # Stems of one tree share their place, and a record entered again is no other record's line.
    again = numbers == before
    for code in (case.once(tree_codes), case.survey.stems.number_code):
        again &= (code != np.append(-1, code[:-1])) | (code < 0)
    again = again[rows]
    slip = np.where(again[owner], LINE_ABOVE, ANYTHING)
    finest = 10.0 ** -(written.decimals if (written := doubted.spellings[quantity]) is not None else 0)
    chance = -np.log(steps) + np.where(again[owner], np.log(np.maximum(most[owner] / finest, 1.0)), 0.0)
    # Who types anything at all still types a number that could be one.
    beyond = numbers[rows] / most
    chance += np.where(beyond > 1.0, np.log(0.1 / np.maximum(beyond, 1.0)), 0.0)[owner]
    return owner, np.full(len(owner), quantity), value, slip, chance


def _two_columns(case: Case, doubted: Suspects, quantity: int, other: int) -> tuple[NDArray[Any], ...]:
    """Two numbers of one record, each in the column of the other."""
    numbers = case.once(typed).numbers[:, doubted.rows]
    some = (numbers[quantity] > 0.0) & (numbers[other] > 0.0) & (numbers[quantity] != numbers[other])
    owner = np.flatnonzero(some & _open(case, doubted, quantity) & _open(case, doubted, 1))
    slip = np.full(len(owner), TWO_COLUMNS)
    return owner, np.full(len(owner), quantity), numbers[other, owner], slip, np.zeros(len(owner))


def _along_the_slope(case: Case, doubted: Suspects) -> tuple[NDArray[Any], ...]:
    """A distance along the slope among horizontal ones, or a horizontal one among those along the slope."""
    survey, numbers = case.survey, case.once(typed).numbers[1, doubted.rows]
    level = level_to(case, doubted.rows)
    value = numbers / level if survey.settings.measurement.distance == "slope" else numbers * level
    written = doubted.spellings[1]
    value = value if written is None else np.round(value, written.decimals)
    # What changes by less than a distance errs is no other distance.
    steep = np.abs(value - numbers) * case.once(typed).per_metre[doubted.rows] > _LEVEL_M
    owner = np.flatnonzero(steep & (numbers > 0.0) & _open(case, doubted, 1))
    slip = np.full(len(owner), ALONG_THE_SLOPE)
    return owner, np.ones(len(owner), np.int64), value[owner], slip, np.zeros(len(owner))


def _exchanges(case: Case, doubted: Suspects) -> tuple[tuple[NDArray[Any], ...], Integers]:
    """Azimuths of two suspected stems of one visit exchanged, each pair from both sides."""
    visit = case.survey.stems.visit_row
    azimuth = case.once(typed).numbers[0]
    seen = np.isfinite(case.measured.grid_azimuth_deg[doubted.rows])
    usable = np.flatnonzero(seen & _open(case, doubted, 0))
    of = visit[doubted.rows[usable]]
    first, last = np.searchsorted(of, of), np.searchsorted(of, of, side="right")
    count = last - first
    left = np.repeat(np.arange(len(of)), count)
    right = np.arange(len(left)) - np.repeat(np.cumsum(count) - count, count) + np.repeat(first, count)
    different = azimuth[doubted.rows[usable[left]]] != azimuth[doubted.rows[usable[right]]]
    left, right = left[different], right[different]
    width = max(len(of), 1)
    key = left * width + right
    partner = np.searchsorted(key, right * width + left)
    owner, other = usable[left], usable[right]
    stems = case.survey.visits.stem_count[visit[doubted.rows[owner]]]
    # Half of all exchanges happen between records that follow closely on one another.
    near = np.abs(doubted.place[doubted.rows[owner]] - doubted.place[doubted.rows[other]]) <= _CLOSE
    return (
        owner,
        np.zeros(len(owner), np.int64),
        azimuth[doubted.rows[other]],
        np.full(len(owner), EXCHANGED),
        np.log(0.5 / np.maximum(stems - 1.0, 1.0) + near * 0.5 / (2.0 * _CLOSE)),
    ), partner
