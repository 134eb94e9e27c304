"""The estimates of a survey, its error budget and its change in sentences that a forester reads."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

Told = Mapping[str, Any]

#: What is told of stems and basal area, and with how many decimals.
_QUANTITIES = (("stems_per_ha", 0), ("basal_area_m2_per_ha", 2))
#: Bias over standard error from which on it is said how they compare.
_WORTH_SAYING = 0.25
#: A limit that moves by this share of the interval is told.
_MOVED = 0.05
#: A remedy that changes the standard error by less than this share hardly changes it.
_HARDLY = 0.01


def estimate_sentences(told: Told) -> list[str]:
    """What one visit says of the survey.

    Parameters
    ----------
    told
        One entry of `survey.estimates.estimates_json`.
    """
    return [*_means(told), *_totals(told), *_density(told["density"]), *_cautions(told)]


def _means(told: Told) -> Iterator[str]:
    stems, area = told["stems_per_ha"], told["basal_area_m2_per_ha"]
    if stems["mean"] is None:
        yield f"Stems per hectare of the survey are not known: {stems['reason']}."
        return
    plots = "1 plot" if stems["plots"] == 1 else f"{stems['plots']} plots"
    yield f"Computed as {told['method']}, from {plots}."
    if stems["standard_error"] is None:
        yield f"{stems['mean']:.0f} stems per hectare; the error is not known: {stems['reason']}."
        return
    yield (
        f"{stems['mean']:.0f} stems per hectare, standard error {stems['standard_error']:.0f} or {_percent(stems)} %; "
        f"95 % interval {_least(stems['low']):.0f} to {stems['high']:.0f}."
    )
    if _skewed(stems):
        yield (
            f"A few plots hold much more than the others: allowing for that (Hall 1992) the 95 % interval of stems per "
            f"hectare is {_least(stems['skew_low']):.0f} to {stems['skew_high']:.0f}."
        )
    if area["mean"] is not None and area["standard_error"] is not None:
        yield (
            f"{area['mean']:.2f} m² of basal area per hectare, standard error {area['standard_error']:.2f} or "
            f"{_percent(area)} %; "
            f"95 % interval {_least(area['low']):.2f} to {area['high']:.2f}."
        )
        if _skewed(area):
            yield (
                f"A few plots hold much more than the others: allowing for that (Hall 1992) the 95 % interval of basal "
                f"area is {_least(area['skew_low']):.2f} to {area['skew_high']:.2f} m² per hectare."
            )
    if stems["left_out"] == 1:
        yield "1 plot without a known value was left out."
    elif stems["left_out"]:
        yield f"{stems['left_out']} plots without a known value were left out."
    effect = stems["design_effect"]
    if effect is not None and abs(effect - 1.0) >= 0.05:
        yield f"For stems the plots tell as much as {stems['plots'] / effect:.0f} plots drawn at random would."


def _skewed(told: Told) -> bool:
    """Whether skewness, of values that reach far up, moves a limit by more than a twentieth of the interval."""
    moved = max(told["skew_low"] - told["low"], told["skew_high"] - told["high"])
    return bool(moved > _MOVED * (told["high"] - told["low"]))


def _totals(told: Told) -> Iterator[str]:
    totals = told.get("totals")
    if totals and totals["stems"]["total"] is not None and totals["stems"]["standard_error"] is not None:
        stems, area = totals["stems"], totals["basal_area_m2"]
        yield (
            f"On {told['area_ha']:g} ha these are {stems['total']:.0f} stems, standard error "
            f"{stems['standard_error']:.0f}."
        )
        if area["total"] is not None and area["standard_error"] is not None:
            yield (
                f"On {told['area_ha']:g} ha these are {area['total']:.0f} m² of basal area, standard error "
                f"{area['standard_error']:.0f}."
            )


def _density(density: Told) -> Iterator[str]:
    if density["reineke_per_ha"] is None:
        return
    summed = density["reineke_summed_per_ha"]["mean"]
    yield f"Reineke's index of stand density is {density['reineke_per_ha']:.0f} per hectare, for stems of 25.4 cm."
    if summed is not None:
        yield f"Summed stem by stem it is {summed:.0f} per hectare."
    yield f"Curtis's relative density is {density['relative_density']:.1f}."


def _cautions(told: Told) -> Iterator[str]:
    if "edge_sentence" in told:
        yield told["edge_sentence"]
    for caution in told["cautions"]:
        yield f"To be known: {caution}."
    few = [part["species"] or "(none)" for part in told["species"] if part["note"]]
    if few:
        yield f"On fewer than 10 plots, so that its interval holds the truth less often than it says: {', '.join(few)}."


def budget_sentences(told: Told) -> list[str]:
    """What the error is made of, and what would make it smaller.

    Parameters
    ----------
    told
        One entry of `survey.error_budget.error_budget_json`.
    """
    stems, area = told["stems_per_ha"], told["basal_area_m2_per_ha"]
    if stems["sampling_error"] is None or area["sampling_error"] is None:
        return ["The error of the survey is not known, so that no remedy can be weighed."]
    azimuths = "azimuths do not decide which stems are in"
    if told["at_stand_edge"]:
        azimuths = "azimuths decide at the stand edge alone, and that is not weighed here"
    return [
        f"The standard error is {stems['sampling_error']:.1f} stems/ha and {area['sampling_error']:.2f} m²/ha; it "
        "holds all that plots differ by, doubts about single stems too.",
        *_further(told),
        *_doubt(stems, area),
        *_instrument(stems, area, "a_better_compass", "A compass twice as exact", azimuths),
        *_instrument(
            stems, area, "a_better_distance", "Distances twice as exact", "no stem is near enough to its limit"
        ),
        *_hidden(told),
    ]


def _further(told: Told) -> Iterator[str]:
    stems, area = told["stems_per_ha"], told["basal_area_m2_per_ha"]
    if stems["a_further_plot"] is not None and area["a_further_plot"] is not None:
        after = _after(stems, area, "a_further_plot")
        plots = f"One further plot would take it to about {after}."
        yield plots if told["units"] == "plots" else f"One further cluster would take it to about {after}."
    number = area["plots_for_half_the_error"]
    if number is None:
        yield f"Half of it in basal area is out of reach with more of the {told['units']} alone."
    else:
        yield f"Half of it in basal area takes about {number} {told['units']} in all, drawn alike."


def _after(stems: Told, area: Told, name: str) -> str:
    return (
        f"{max(stems['sampling_error'] + stems[name], 0.0):.1f} stems/ha and "
        f"{max(area['sampling_error'] + area[name], 0.0):.2f} m²/ha"
    )


def _doubt(stems: Told, area: Told) -> Iterator[str]:
    if round(stems["inclusion_doubt"], 1) == 0.0:
        yield "Hardly a stem stands so near its limiting distance that it may be in or out."
    elif area["inclusion_doubt"] is not None:
        yield (
            f"Stems that may be in or out contribute {stems['inclusion_doubt']:.1f} stems/ha and "
            f"{area['inclusion_doubt']:.2f} m²/ha to it, where errors add by their squares."
        )


def _instrument(stems: Told, area: Told, name: str, words: str, why: str) -> Iterator[str]:
    changes = [(line[name], line["sampling_error"]) for line in (stems, area)]
    if any(change is None for change, _ in changes):
        return
    if all(change == 0.0 for change, _ in changes):
        yield f"{words} would not change it: {why}."
    elif all(abs(change) < _HARDLY * error for change, error in changes):
        yield f"{words} would hardly change it, by less than 1 %."
    else:
        yield f"{words} would take it to about {_after(stems, area, name)}."


def _hidden(told: Told) -> Iterator[str]:
    stems, area = told["stems_per_ha"], told["basal_area_m2_per_ha"]
    known, plots = told["plots_with_visibility_known"], told["plots"]
    if stems["not_visible"] is None or area["not_visible"] is None:
        yield "What is hidden behind other stems is not known, so that a second stand-point cannot be weighed."
        return
    yield (
        f"About {stems['not_visible']:.1f} stems/ha and {area['not_visible']:.2f} m²/ha are expected to be missed "
        f"behind other stems, told from {known} of {plots} plots; a second stand-point would find these at most."
    )
    share = area["not_visible"] / area["sampling_error"] if area["sampling_error"] else 0.0
    if share >= _WORTH_SAYING:
        yield (
            f"That is a bias, not a part of the error: {100 * share:.0f} % of the standard error in basal area, and "
            "more plots do not lessen it."
        )


def change_sentences(told: Told) -> list[str]:
    """How the survey changed between two visits.

    Parameters
    ----------
    told
        One entry of `survey.change.change_json`.
    """
    net = told["basal_area_m2_per_ha"]["net"]
    made = [
        f"From visit {told['from_visit'] or 'before'} to visit {told['to_visit'] or 'last'}, {told['plots']} plots "
        "were measured both times."
    ]
    if net["mean"] is None:
        return [*made, f"The change is not known: {net['reason']}."]
    if net["standard_error"] is None:
        made.append(f"Basal area changed by {net['mean']:+.2f} m²/ha; whether by chance is not known.")
    elif net["low"] > 0.0 or net["high"] < 0.0:
        made.append(
            f"Basal area changed by {net['mean']:+.2f} m²/ha, standard error {net['standard_error']:.2f}; that is more "
            "than by the choice of the plots alone."
        )
    else:
        made.append(
            f"Basal area changed by {net['mean']:+.2f} m²/ha, standard error {net['standard_error']:.2f}; no change is "
            "shown, for the 95 % interval holds zero."
        )
    if told["years"]:
        growth = told["basal_area_m2_per_ha"]["growth"]["mean"] / told["years"]
        made.append(f"Stems that lived through it grew by {growth:.2f} m²/ha a year, over {told['years']:.1f} years.")
    return [*made, *(f"To be known: {caution}." for caution in told["cautions"])]


def _percent(told: Told) -> str:
    """Standard error as a share of the mean."""
    return f"{100.0 * told['standard_error'] / told['mean']:.0f}" if told["mean"] else "–"


def _least(value: float) -> float:
    """No less than nothing: a t interval of a rare thing reaches below zero, the thing itself does not."""
    return max(value, 0.0)
