"""What each suspected record was meant to be: all evidence in one probability."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.diameters import diameters, log_growth
from stemmap.checks.evidence.ground import ground, place_sd
from stemmap.checks.evidence.last_visit import revisit
from stemmap.checks.evidence.exchanged import log_gain
from stemmap.checks.evidence.meanings import Meanings, meanings
from stemmap.checks.evidence.suspects import Suspects, reordered, suspects
from stemmap.checks.evidence.typed import QUANTITIES, typed
from stemmap.core.design import dbh_classes, membership
from stemmap.core.keystrokes import SLIPS, slip_shares
from stemmap.core.locate import dbh_sd
from stemmap.core.sweep import Choices
from stemmap.survey.registry import Case
from stemmap.survey.settings import sampling_design
from stemmap.units import METRES

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]

#: Slips by stem that are thought of before the survey has told, by quantity, and the stems this is worth.
_RATES, _RATES_WORTH = np.array([0.004, 0.003, 0.003]), 400.0
#: Records entered twice by stem before the survey has told.
_TWICE_RATE = 0.001
#: So many slips the shares of the kinds are worth before the survey has told.
_SHARES_WORTH = 15.0
#: Shares of stems that came and that went between two visits before the survey has told, and what that is worth.
_CAME, _WENT, _CHANGE_WORTH = 0.05, 0.05, 40.0
#: Share of right azimuths that stand out of the order of numbers, before the survey has told.
_ASTRAY = 0.003
#: Share of slips that change a value too little for anybody to see, by quantity; common sense.
_UNSEEN = np.array([0.2, 0.5, 0.3])
#: Share of right records beyond their limit, before the survey has told.
_BEYOND = 0.002
_ROUNDS = 8
#: Records so many numbers apart are entered soon after one another.
_SOON = 3


@dataclass(frozen=True)
class Evidence:
    """What everything tells of each meaning, in logarithms; shape (meanings,).

    Parameters
    ----------
    order, tells
        Density of the azimuth in the order of numbers, relative to a uniform one; how surely the plot has an order.
    free, beyond, dbh
        Free ground; 1 where it lies beyond its limit; density of the diameter alone.
    impossible
        Whether it can be no measurement.
    crowd
        Density of such stems, per square metre and centimetre.
    edge
        Chance that the last visit could not see it: 1 where there was none.
    again
        Of the stems of the last visit that nobody else is.
    polar
        Square metres per unit of distance.
    """

    order: Floats
    tells: Floats
    impossible: NDArray[np.bool_]
    free: Floats
    beyond: Floats
    dbh: Floats
    crowd: Floats
    edge: Floats
    again: Floats
    polar: Floats


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
    """

    doubted: Suspects
    meant: Meanings
    told: Evidence
    weight: Floats
    right: Floats
    twice: Floats
    twin: Integers
    rates: Floats


def posterior(case: Case) -> Posterior:
    """Weigh all meanings of all suspected records.

    Once with the order of azimuths as typed, then with the order of all that the suspects may have meant, so that one
    mistyped azimuth does not cast doubt on its neighbours.
    """
    doubted = case.once(suspects)
    meant = meanings(case, doubted)
    first = _weighed(case, doubted, meant, _evidence(case, doubted, meant), None)
    choices = _choices(doubted, meant, first)
    doubted = reordered(case, doubted, choices)
    return _weighed(case, doubted, meant, _evidence(case, doubted, meant), choices)


def _choices(doubted: Suspects, meant: Meanings, found: Posterior) -> Choices:
    """What each suspect's azimuth may have been by everything but the order."""
    told, stem = found.told, doubted.place[doubted.rows[meant.owner]]
    in_order = told.tells * (told.order + _ASTRAY) + 1.0 - told.tells
    weight = np.where((meant.partner < 0) & (stem >= 0), found.weight / in_order, 0.0)
    total = np.bincount(meant.owner, weight, minlength=len(doubted.rows))
    share = weight / np.maximum(total, 1e-300)[meant.owner]
    some = np.flatnonzero(share > 1e-6)
    return Choices(stem[some], meant.azimuth_deg[some], share[some])


def _weighed(
    case: Case, doubted: Suspects, meant: Meanings, told: Evidence, choices: Choices | None
) -> Posterior:
    """Probabilities of all meanings; rates are learnt from the survey itself in a few rounds (EM)."""
    both, as_typed = case.once(revisit), case.once(typed)
    rows, owner = doubted.rows, meant.owner
    count, stems = len(rows), max(int(as_typed.doubted.sum()), 1)
    rates, twice_rate = _RATES.copy(), _TWICE_RATE
    shares = np.stack([slip_shares(quantity) for quantity in QUANTITIES])
    came, went, beyond, astray = _CAME, _WENT, _BEYOND, _ASTRAY
    gain = log_gain(case, doubted, meant, astray=_ASTRAY, choices=choices)
    swap = np.flatnonzero(meant.partner >= 0)
    other = meant.owner[meant.partner[swap]]
    swap_owner = owner[swap]
    again_of = _twins(case, doubted)
    twin_place = np.clip(np.searchsorted(rows, again_of[0]), 0, max(count - 1, 0))
    written = np.zeros(count)
    quantity, is_typed = np.maximum(meant.quantity, 0), meant.quantity < 0
    for _ in range(_ROUNDS):
        prior = np.log(rates[quantity] * shares[quantity, np.maximum(meant.slip, 0)] + 1e-300) + meant.log_chance
        prior = np.where(is_typed, np.log1p(-rates.sum()) + written[owner], prior)
        new = told.crowd + np.log(came + (1.0 - came) * told.edge)
        stand = np.logaddexp(new, told.again + np.log((1.0 - went) / went))
        rest = told.free + stand + told.polar + told.beyond * np.log(beyond) - 60.0 * told.impossible
        in_order = told.tells * ((1.0 - astray) * told.order + astray) + 1.0 - told.tells
        log_weight = prior + np.log(in_order) + rest
        log_weight = np.where(np.isfinite(log_weight), log_weight, -300.0)
        top = np.full(count, -np.inf)
        np.maximum.at(top, owner, log_weight)
        plain = np.where(meant.partner >= 0, 0.0, np.exp(log_weight - top[owner]))
        total = top + np.log(np.maximum(np.bincount(owner, plain, minlength=count), 1e-30))
        # An exchange explains two records at once: what it does for the other counts here too.
        mine, theirs = rest[swap] - rest[swap_owner], rest[meant.partner[swap]] - rest[other]
        log_weight[swap] = (prior[swap] - prior[swap_owner] + log_weight[swap_owner]) + gain[swap] + mine + theirs
        log_weight[swap] -= total[other] - log_weight[other]
        # One stem entered twice need be found only once among those of the last visit, whichever of the two it is.
        log_twice = np.log(twice_rate) + again_of[1] + np.maximum(stand[:count] - stand[twin_place], 0.0)
        np.maximum.at(top, owner, log_weight)
        top = np.maximum(top, log_twice)
        weight, twice = np.exp(log_weight - top[owner]), np.exp(log_twice - top)
        whole = np.bincount(owner, weight, minlength=count) + twice
        weight, twice = weight / whole[owner], twice / whole
        right = np.bincount(owner[is_typed], weight[is_typed], minlength=count)

        wrong = np.bincount(quantity[~is_typed], weight[~is_typed], minlength=3)
        rates = (wrong / (1.0 - _UNSEEN) + _RATES * _RATES_WORTH) / (stems + _RATES_WORTH)
        for number, name in enumerate(QUANTITIES):
            some = ~is_typed & (quantity == number)
            kinds = np.bincount(meant.slip[some], weight[some], minlength=len(SLIPS))
            shares[number] = (kinds + _SHARES_WORTH * slip_shares(name)) / (kinds.sum() + _SHARES_WORTH)
        twice_rate = (twice.sum() + _TWICE_RATE * _RATES_WORTH) / (stems + _RATES_WORTH)
        beyond = (float(right @ told.beyond[:count]) + _BEYOND * _RATES_WORTH) / (stems + _RATES_WORTH)
        out_of_turn = (astray / in_order * told.tells)[:count]
        astray = (float(right @ out_of_turn) + _ASTRAY * _RATES_WORTH) / (stems + _RATES_WORTH)
        written = np.zeros(count)
        for number, spelt in enumerate(doubted.spellings):
            if spelt is not None:
                all_wrong = np.zeros(len(spelt.places))
                here = quantity == number
                all_wrong[rows] = np.bincount(owner[here], np.where(is_typed, 0.0, weight)[here], minlength=count)
                written += spelt.log_share(all_wrong)[rows]
        if len(both.this):
            # New and right as typed; gone: neither found as typed nor under another meaning.
            is_new = right * np.exp((new - stand)[:count])
            came = (float(is_new[np.isin(rows, both.this)].sum()) + _CAME * _CHANGE_WORTH) / (
                len(both.this) + _CHANGE_WORTH
            )
            lost = len(both.last) - np.count_nonzero(both.found.last >= 0)
            elsewhere = np.bincount(owner, weight * np.exp(told.again - stand) * (1.0 - went) / went, minlength=count)
            unmatched = np.isin(rows, both.this[both.found.last < 0])
            gone = max(lost - float(elsewhere[unmatched].sum()), 0.0)
            went = (gone + _WENT * _CHANGE_WORTH) / (len(both.last) + _CHANGE_WORTH)
    return Posterior(doubted, meant, told, weight, right, twice, again_of[0].astype(np.int64), rates)


def _evidence(case: Case, doubted: Suspects, meant: Meanings) -> Evidence:
    """Everything that speaks for or against each meaning."""
    from scipy.special import ndtr

    survey, measured, free = case.survey, case.measured, case.once(ground)
    stem = doubted.rows[meant.owner]
    visit = survey.stems.visit_row[stem]
    angle = np.radians(meant.azimuth_deg)
    x, y = meant.distance_m * np.sin(angle), meant.distance_m * np.cos(angle)
    order, tells = np.ones(len(stem)), np.zeros(len(stem))
    told = np.flatnonzero((doubted.place[stem] >= 0) & (meant.quantity <= 0))
    at = doubted.place[stem[told]]
    order[told] = doubted.sweep.relative_density(at, meant.azimuth_deg[told])
    tells[told] = doubted.sweep.tells[doubted.sweep.plot[at]]
    order = np.where(meant.quantity > 0, order[meant.owner], order)
    tells = np.where(meant.quantity > 0, tells[meant.owner], tells)
    # An azimuth beyond the circle and a distance below zero cannot be right.
    impossible = (np.isnan(meant.azimuth_deg) & np.isfinite(case.once(typed).numbers[0][stem])) | (
        np.isnan(meant.distance_m) & np.isfinite(case.once(typed).numbers[1][stem])
    )
    limit, too_thin = _limits(case, stem, meant)
    sd = place_sd(case, meant.distance_m)
    reach = np.where(np.isfinite(limit), limit, np.inf)
    inside = ndtr((reach - meant.distance_m) / np.maximum(sd, 0.02))
    outside = 1.0 - np.where(np.isfinite(inside), inside, 1.0)
    # Far beyond the limit is stranger than just beyond it.
    far = np.clip(np.nan_to_num(meant.distance_m / reach) - 1.2, 0.0, 3.0)
    beyond = np.clip(outside * (1.0 + far) + too_thin, 0.0, 3.0)
    usual = case.once(diameters)
    dbh = usual.log_density(stem, meant.dbh_cm, survey.settings.instrument.max_dbh_cm)
    spread = np.where(np.isfinite(reach), reach, 15.0)
    crowd = np.log(np.maximum(survey.visits.stem_count[visit], 1) / (np.pi * spread[meant.owner] ** 2)) + dbh
    again, edge = _again(case, doubted, meant, x, y, dbh)
    return Evidence(
        order=order,
        tells=tells,
        impossible=impossible,
        free=free.log_free(case, stem, x, y, np.where(meant.quantity == 2, np.nan, meant.dbh_cm)),
        beyond=beyond,
        dbh=dbh,
        crowd=crowd,
        edge=edge,
        again=again,
        polar=np.where(meant.distance_m > 0.0, np.log(np.maximum(meant.distance_m, 0.05)), 0.0),
    )


def _limits(case: Case, stem: Integers, meant: Meanings) -> tuple[Floats, Floats]:
    """Horizontal distance up to which stems are recorded, and how far (0 to 1) a stem is too thin for the design."""
    survey, measured = case.survey, case.measured
    settings = survey.settings
    design = sampling_design(settings)
    wide = (measured.horizontal_distance_m - measured.compared_distance_m)[stem]
    limit = measured.limiting_distance_m[stem] + np.nan_to_num(wide)
    too_thin = np.zeros(len(stem))
    if design is not None:
        least = dbh_classes(design)[0].lower_cm
        below = least - meant.dbh_cm
        reach = 0.15 * least + 3.0 * dbh_sd(meant.dbh_cm, settings.errors)
        too_thin = np.where(below > 0.0, np.clip(below / reach, 0.0, 1.0), 0.0) if np.isfinite(least) else too_thin
    if design is not None and design.needs_dbh:
        some = np.flatnonzero(meant.quantity == 2)
        radius = measured.radius_m[survey.stems.visit_row[stem[some]]]
        member = membership(
            design,
            azimuth_deg=np.nan_to_num(meant.azimuth_deg[some]),
            distance_m=np.nan_to_num(meant.distance_m[some], nan=1.0),
            dbh_cm=meant.dbh_cm[some],
            radius_m=radius,
            slope_percent=np.zeros(len(some)),
        )
        limit[some] = member.limiting_distance_m
    limit = np.where(np.isfinite(limit), limit, measured.radius_m[survey.stems.visit_row[stem]])
    margin = settings.design.outside_recorded_to_m or 0.0
    return np.maximum(limit, margin * METRES[settings.measurement.length_unit]), too_thin


def _again(
    case: Case, doubted: Suspects, meant: Meanings, x: Floats, y: Floats, dbh: Floats
) -> tuple[Floats, Floats]:
    """How well each meaning is a stem of the last visit that nobody else is, and whether none could be seen there.

    The first is the logarithm of the density of place and dbh summed over those stems, per square metre and
    centimetre; the second 1 where the last visit's circle did not reach, or where there was none.
    """
    from scipy.special import ndtr

    both = case.once(revisit)
    again, edge = np.full(len(x), -np.inf), np.ones(len(x))
    place = np.full(len(case.survey.stems), -1, np.int64)
    place[both.this] = np.arange(len(both.this))
    mine = place[doubted.rows[meant.owner]]
    row = np.flatnonzero(mine >= 0)
    if not len(row):
        return again, edge
    own = mine[row]
    plot = both.here.plot[own]
    turn = np.radians(both.fit.rotation_deg)[plot]
    angle = np.radians(meant.azimuth_deg[row]) - turn
    there_x = meant.distance_m[row] * np.sin(angle) + both.fit.shift_east_m[plot]
    there_y = meant.distance_m[row] * np.cos(angle) + both.fit.shift_north_m[plot]
    reach = case.measured.radius_m[case.survey.visits.previous[both.visit[plot]]]
    sd = place_sd(case, meant.distance_m[row])
    seen = ndtr((np.where(np.isfinite(reach), reach, np.inf) - np.hypot(there_x, there_y)) / np.maximum(1.5 * sd, 0.03))
    edge[row] = np.where(np.isfinite(seen), 1.0 - seen, 1.0)

    # Stems of the last visit that are nobody's, plot by plot, and the record's own.
    taken = np.zeros(len(both.last), bool)
    taken[both.found.last[both.found.last >= 0]] = True
    free = np.flatnonzero(~taken)
    first = np.searchsorted(both.there.plot[free], plot)
    number = np.searchsorted(both.there.plot[free], plot, side="right") - first
    state = np.repeat(np.arange(len(row)), number)
    other = free[np.arange(len(state)) - np.repeat(np.cumsum(number) - number, number) + np.repeat(first, number)]
    found = both.found.last[own]
    has = np.flatnonzero(found >= 0)
    state, other = np.concatenate([state, has]), np.concatenate([other, found[has]])
    if not len(state):
        return again, edge
    errors = case.survey.settings.errors
    off_x, off_y = both.there.x_m[other] - there_x[state], both.there.y_m[other] - there_y[state]
    sine, cosine = np.sin(angle[state]), np.cos(angle[state])
    east, north, cross = both.there.var_east[other], both.there.var_north[other], both.there.cov_east_north[other]
    apart = np.maximum(meant.distance_m[row][state], 0.0)
    radial_sd = errors.distance_sd_m + apart * errors.distance_sd_percent / 100.0
    radial = sine**2 * east + cosine**2 * north + 2 * sine * cosine * cross + radial_sd**2 + 4e-4
    across = cosine**2 * east + sine**2 * north - 2 * sine * cosine * cross + 4e-4
    across += (apart * np.radians(errors.azimuth_sd_deg)) ** 2
    along = (off_x * sine + off_y * cosine) ** 2 / radial + (off_x * cosine - off_y * sine) ** 2 / across
    along /= both.wider**2
    near = np.exp(-0.5 * np.minimum(along, 400.0)) * (1.0 - both.loose)
    near += both.loose / 9.0 * np.exp(-np.minimum(along, 4000.0) / 18.0)
    log_near = np.log(near + 1e-300) - np.log(2.0 * np.pi * np.sqrt(radial * across))
    # Copied places say nothing of the place: any meaning of azimuth and distance is as good.
    copied = both.copied[own[state]]
    log_near = np.where(copied, 0.0, log_near)
    grown = log_growth(meant.dbh_cm[row][state] - both.there.dbh_cm[other], both.growth_cm)
    grown = np.where(np.isfinite(meant.dbh_cm[row][state]), grown, dbh[row][state])
    # A stem of the last visit that this circle does not reach would not be missed.
    back_x = both.there.x_m[other] - both.fit.shift_east_m[plot[state]]
    back_y = both.there.y_m[other] - both.fit.shift_north_m[plot[state]]
    now = case.measured.radius_m[both.visit[plot[state]]]
    within = ndtr((np.where(np.isfinite(now), now, np.inf) - np.hypot(back_x, back_y)) / (1.5 * np.sqrt(radial)))
    log_density = np.nan_to_num(log_near + grown + np.log(np.maximum(within, 0.02)), nan=-300.0)
    top = np.full(len(row), -np.inf)
    np.maximum.at(top, state, log_density)
    total = np.bincount(state, np.exp(log_density - top[state]), minlength=len(row))
    with np.errstate(divide="ignore"):
        again[row] = np.where(total > 0.0, top + np.log(total), -np.inf)
    return again, edge


def _twins(case: Case, doubted: Suspects) -> tuple[Integers, Floats]:
    """For each suspect the record that it most likely repeats, and the logarithm of the density of that.

    The density is that of place and dbh around the other record, per square metre and centimetre, times what turns
    square metres into units of azimuth and distance.
    """
    count = len(doubted.rows)
    twin, best = np.full(count, -1, np.int64), np.full(count, -np.inf)
    if not len(doubted.pairs):
        return twin, best
    measured, free = case.measured, case.once(ground)
    late, early = doubted.pairs[:, 0], doubted.pairs[:, 1]
    errors = measured.errors
    east, north = errors.var_east[late] + errors.var_east[early], errors.var_north[late] + errors.var_north[early]
    cross = errors.cov_east_north[late] + errors.cov_east_north[early]
    east, north = east + 4e-4, north + 4e-4
    determinant = east * north - cross**2
    x, y = measured.x_m[late] - measured.x_m[early], measured.y_m[late] - measured.y_m[early]
    apart = (north * x**2 + east * y**2 - 2.0 * cross * x * y) / determinant
    sd = np.maximum(dbh_sd(measured.dbh_cm[late], case.survey.settings.errors), 0.05) * np.sqrt(2.0)
    thicker = measured.dbh_cm[late] - measured.dbh_cm[early]
    alike = np.where(np.isfinite(thicker), -0.5 * (thicker / sd) ** 2 - np.log(sd * np.sqrt(2.0 * np.pi)), -3.0)
    species = case.once(diameters).species
    other_kind = np.where(species[late] == species[early], 0.0, -4.0)
    density = -0.5 * apart - np.log(2.0 * np.pi * np.sqrt(determinant)) + alike + other_kind
    density += np.log(np.maximum(measured.horizontal_distance_m[late], 0.05))
    # Who enters a stem twice does so at once, where there is an order.
    here, there = doubted.place[late], doubted.place[early]
    tells = np.where(here >= 0, doubted.sweep.tells[doubted.sweep.plot[np.maximum(here, 0)]], 0.0)
    stems = case.survey.visits.stem_count[case.survey.stems.visit_row[late]]
    soon = np.where(np.abs(here - there) <= _SOON, np.maximum(stems / (2.0 * _SOON), 1.0), 0.1)
    density += np.log(tells * soon + 1.0 - tells)
    place = np.searchsorted(doubted.rows, late)
    held = (place < count) & (doubted.rows[np.minimum(place, count - 1)] == late)
    for number in np.flatnonzero(held)[np.argsort(density[held])]:
        twin[place[number]], best[place[number]] = early[number], density[number]
    return twin, best
