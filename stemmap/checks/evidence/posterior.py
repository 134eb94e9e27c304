"""What each suspected record was meant to be: all evidence in one probability."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.diameters import diameters
from stemmap.checks.evidence.exchanged import log_gain
from stemmap.checks.evidence.last_visit import revisit
from stemmap.checks.evidence.meanings import Meanings, meanings
from stemmap.checks.evidence.suspects import Suspects, reordered, suspects
from stemmap.checks.evidence.told import Evidence, evidence, order_told
from stemmap.checks.evidence.twins import twins
from stemmap.checks.evidence.typed import QUANTITIES, typed
from stemmap.core.keystrokes import SLIPS, slip_shares
from stemmap.core.sweep_chain import Choices
from stemmap.survey.registry import Case
from stemmap.units import METRES

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]

#: Slips by stem that are thought of before the survey has told, by quantity, and the stems this is worth.
RATES, RATES_WORTH = np.array([0.004, 0.003, 0.003]), 400.0
#: Slips by stem and quantity that a survey can tell at most.
_MOST_SLIPS = 0.1
#: Records entered twice by stem before the survey has told.
TWICE_RATE = 0.001
#: Shares of the kinds of slips before the survey has told, by quantity, and the slips this is worth.
_SHARES, _SHARES_WORTH = np.stack([slip_shares(name) for name in QUANTITIES]), 15.0
#: Shares of stems that came and that went between two visits before the survey has told, and what that is worth.
_CAME, _WENT, _CHANGE_WORTH = 0.05, 0.05, 40.0
#: Share of right azimuths that stand out of the order of numbers, before the survey has told.
_ASTRAY = 0.003
#: Share of slips that change a value too little for anybody to see, by quantity; common sense.
UNSEEN = np.array([0.2, 0.5, 0.3])
#: Share of right records beyond their limit, before the survey has told.
_BEYOND = 0.002
_FIRST_ROUNDS, _ROUNDS = 2, 12
#: Probability below which a meaning is thought of no longer.
_NOTHING = 1e-6
#: Radii from the centre, and spreads from the usual diameter, beyond which nothing was meant to be.
_FAR, _GIANT = 2.0, 6.0
#: Rates that change by no more than this share have settled.
_SETTLED = 0.02


@dataclass(frozen=True)
class Posterior:
    """The suspects, their meanings, and how probable each is.

    Parameters
    ----------
    doubted, meant, told
        Records, meanings, evidence.
    weight
        Probability of each meaning, shape (meanings,).
    right, twice
        Probability that the record is right as typed, that it is another one entered again; shape (suspects,).
    twin
        Row of the record it then repeats; -1: none.
    rates
        Slips by stem as estimated, by quantity.
    under
        The rates under which all was weighed.
    """

    doubted: Suspects
    meant: Meanings
    told: Evidence
    weight: Floats
    right: Floats
    twice: Floats
    twin: Integers
    rates: Floats
    under: Rates


@dataclass
class Rates:
    """How often what happens, as far as the survey has told."""

    slips: Floats = field(default_factory=RATES.copy)
    shares: Floats = field(default_factory=_SHARES.copy)
    twice: float = TWICE_RATE
    came: float = _CAME
    went: float = _WENT
    beyond: float = _BEYOND
    astray: float = _ASTRAY
    log_written: tuple[Floats | None, ...] = (None,) * len(QUANTITIES)


@dataclass(frozen=True)
class _Weights:
    """One round: probabilities, and what the next round's rates are learnt from."""

    weight: Floats
    right: Floats
    twice: Floats
    new: Floats
    stand: Floats
    in_order: Floats


def posterior(case: Case) -> Posterior:
    """Weigh all meanings of all suspected records.

    Once with the order of azimuths as typed, then with the order of all that the suspects may have meant, so that one
    mistyped azimuth does not cast doubt on its neighbours.
    """
    doubted = case.once(suspects)
    meant = meanings(case, doubted)
    meant = meant.take(_thinkable(case, doubted, meant))
    told = evidence(case, doubted, meant)
    first = _settled(case, doubted, meant, told, choices=None, rounds=_FIRST_ROUNDS)
    choices = _choices(doubted, meant, first)
    doubted = reordered(case, doubted, choices)
    order, tells, asked = order_told(doubted, meant)
    told = replace(told, order=np.where(asked, order, told.order), tells=np.where(asked, tells, told.tells))
    # What neither the slips nor the order nor anything else speaks for is thought of no longer.
    in_order = told.tells * (told.order + _ASTRAY) + 1.0 - told.tells
    before = first.told.tells * (first.told.order + _ASTRAY) + 1.0 - first.told.tells
    kept = (meant.quantity < 0) | (meant.partner >= 0) | (first.weight * np.maximum(in_order / before, 1.0) > _NOTHING)
    meant, told = meant.take(kept), told.take(kept)
    del first, order, tells, asked, in_order, before  # each as long as all meanings of all records
    return _settled(case, doubted, meant, told, choices=choices, rounds=_ROUNDS)


def _thinkable(case: Case, doubted: Suspects, meant: Meanings) -> NDArray[np.bool_]:
    """Whether a meaning may weigh anything: far beyond the plot, or a giant, is what nobody meant."""
    stem = doubted.rows[meant.owner]
    usual = case.once(diameters)
    off = np.abs(np.log(np.maximum(meant.dbh_cm, 1e-3)) - usual.middle[usual.species[stem]])
    unusual = (meant.quantity == 2) & (off > _GIANT * usual.spread[usual.species[stem]])
    radius = case.measured.radius_m[case.survey.stems.visit_row[stem]]
    margin = case.survey.settings.design.outside_recorded_to_m or 0.0
    reach = _FAR * np.maximum(radius, margin * METRES[case.survey.settings.measurement.length_unit])
    thinkable: NDArray[np.bool_] = ~(unusual | ((meant.quantity == 1) & (meant.distance_m > reach)))
    return thinkable


def _choices(doubted: Suspects, meant: Meanings, found: Posterior) -> Choices:
    """What each suspect's azimuth may have been by everything but the order."""
    told, stem = found.told, doubted.place[doubted.rows[meant.owner]]
    in_order = told.tells * (told.order + _ASTRAY) + 1.0 - told.tells
    weight = np.where((meant.partner < 0) & (stem >= 0), found.weight / in_order, 0.0)
    # A stem entered twice stands anywhere in the order.
    total = np.bincount(meant.owner, weight, minlength=len(doubted.rows)) + found.twice
    share = weight / np.maximum(total, 1e-300)[meant.owner]
    some = np.flatnonzero(share > 1e-6)
    return Choices(stem[some], meant.azimuth_deg[some], share[some])


def _settled(
    case: Case, doubted: Suspects, meant: Meanings, told: Evidence, *, choices: Choices | None, rounds: int
) -> Posterior:
    """Probabilities of all meanings; rates are learnt from the survey itself in a few rounds (EM).

    Of a part of a survey all is weighed once, under the rates of the whole.
    """
    twin, log_twin = twins(case, doubted)
    gain = log_gain(case, doubted, meant, astray=_ASTRAY, choices=choices)
    learnt = case.whole.once(posterior) if case.whole is not None else None
    rates = Rates() if learnt is None else learnt.under
    for _ in range(rounds):
        under = rates
        round_ = _weighed(doubted, meant, told, rates=under, gain=gain, twins=(twin, log_twin))
        if learnt is not None:
            return Posterior(doubted, meant, told, round_.weight, round_.right, round_.twice, twin, learnt.rates, under)
        rates = _learnt(case, doubted, meant, told, found=round_, rates=under)
        if np.all(np.abs(rates.slips - under.slips) < _SETTLED * under.slips):
            break
    return Posterior(doubted, meant, told, round_.weight, round_.right, round_.twice, twin, rates.slips, under)


def _weighed(
    doubted: Suspects,
    meant: Meanings,
    told: Evidence,
    *,
    rates: Rates,
    gain: Floats,
    twins: tuple[Integers, Floats],
) -> _Weights:
    """Probabilities of all meanings under given rates."""
    owner, count = meant.owner, len(doubted.rows)
    quantity, is_typed = np.maximum(meant.quantity, 0), meant.quantity < 0
    written = np.zeros(count)
    for spelt, log_shares in zip(doubted.spellings, rates.log_written, strict=True):
        if spelt is not None and log_shares is not None:
            written += spelt.told(log_shares)[doubted.rows]
    share = rates.slips[quantity] * rates.shares[quantity, np.maximum(meant.slip, 0)]
    prior = np.log(share + 1e-300) + meant.log_chance
    prior = np.where(is_typed, np.log1p(-rates.slips.sum()) + written[owner], prior)
    new = told.crowd + np.log(rates.came + (1.0 - rates.came) * told.edge)
    stand = np.logaddexp(new, told.again + np.log((1.0 - rates.went) / rates.went))
    rest = told.free + stand + told.polar + told.beyond * np.log(rates.beyond) - 60.0 * told.impossible
    in_order = told.tells * ((1.0 - rates.astray) * told.order + rates.astray) + 1.0 - told.tells
    log_weight = prior + np.log(in_order) + rest
    log_weight = np.where(np.isfinite(log_weight), log_weight, -300.0)
    top = np.full(count, -np.inf)
    np.maximum.at(top, owner, log_weight)
    plain = np.where(meant.partner >= 0, 0.0, np.exp(log_weight - top[owner]))
    total = top + np.log(np.maximum(np.bincount(owner, plain, minlength=count), 1e-30))

    # One stem entered twice need be found only once among those of the last visit, whichever of the two it is.
    twin = np.clip(np.searchsorted(doubted.rows, twins[0]), 0, max(count - 1, 0))
    log_twice = np.log(rates.twice) + twins[1] + np.maximum(stand[:count] - stand[twin], 0.0)
    total = np.logaddexp(total, log_twice)

    # An exchange explains two records at once: what it does for the other counts here too. The first meaning of each
    # record, that it is right as typed, stands in the row of the record.
    swap = np.flatnonzero(meant.partner >= 0)
    mine, theirs = owner[swap], owner[meant.partner[swap]]
    gained = gain[swap] + rest[swap] - rest[mine] + rest[meant.partner[swap]] - rest[theirs]
    log_weight[swap] = prior[swap] - prior[mine] + log_weight[mine] + gained + log_weight[theirs] - total[theirs]

    np.maximum.at(top, owner, log_weight)
    top = np.maximum(top, log_twice)
    weight, twice = np.exp(log_weight - top[owner]), np.exp(log_twice - top)
    whole = np.bincount(owner, weight, minlength=count) + twice
    weight = weight / whole[owner]
    return _Weights(weight, weight[:count], twice / whole, new, stand, in_order)


def _learnt(case: Case, doubted: Suspects, meant: Meanings, told: Evidence, *, found: _Weights, rates: Rates) -> Rates:
    """Rates that the probabilities of a round speak for."""
    rows, owner, count = doubted.rows, meant.owner, len(doubted.rows)
    placed = case.once(typed).doubted
    known = np.isfinite(case.measured.dbh_cm)

    def rate(cases: float, thought: float, of: NDArray[np.bool_] = placed) -> float:
        return (cases + thought * RATES_WORTH) / (np.count_nonzero(of) + RATES_WORTH)

    next_ = Rates(came=rates.came, went=rates.went)
    log_written: list[Floats | None] = []
    for number, spelt in enumerate(doubted.spellings):
        some = np.flatnonzero(meant.quantity == number)
        kinds = np.bincount(meant.slip[some], found.weight[some], minlength=len(SLIPS))
        of = placed | known if number == 2 else placed
        learnt = rate(float(kinds.sum()) / (1.0 - UNSEEN[number]), RATES[number], of)
        # A survey in which more is wrong than this is not one of single slips, and its rates would run away.
        next_.slips[number] = min(learnt, _MOST_SLIPS)
        next_.shares[number] = (kinds + _SHARES_WORTH * _SHARES[number]) / (kinds.sum() + _SHARES_WORTH)
        log_written.append(None)
        if spelt is not None:
            wrong = np.zeros(len(spelt.places))
            wrong[rows] = np.bincount(owner[some], found.weight[some], minlength=count)
            log_written[number] = spelt.log_shares(wrong)
    next_.log_written = tuple(log_written)
    next_.twice = rate(float(found.twice.sum()), TWICE_RATE)
    next_.beyond = rate(float(found.right @ told.beyond[:count]), _BEYOND)
    out_of_turn = (rates.astray * told.tells / found.in_order)[:count]
    next_.astray = rate(float(found.right @ out_of_turn), _ASTRAY)

    both = case.once(revisit)
    if len(both.this):
        # Those that came are new and right as typed; those that went are found neither as typed nor otherwise.
        is_new = found.right * np.exp((found.new - found.stand)[:count])
        came = float(is_new[np.isin(rows, both.this)].sum()) + doubted.came
        again = np.exp(told.again - found.stand) * (1.0 - rates.went) / rates.went
        elsewhere = np.bincount(owner, found.weight * again, minlength=count)
        unmatched = np.isin(rows, both.this[both.found.last < 0])
        there = np.count_nonzero(np.isfinite(both.there.x_m))
        lost = there - np.count_nonzero(both.found.last >= 0) - float(elsewhere[unmatched].sum())
        next_.came = (came + _CAME * _CHANGE_WORTH) / (len(both.this) + _CHANGE_WORTH)
        next_.went = (max(lost, 0.0) + _WENT * _CHANGE_WORTH) / (len(both.last) + _CHANGE_WORTH)
    return next_
