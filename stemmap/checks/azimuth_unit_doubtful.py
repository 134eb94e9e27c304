"""An azimuth unit that the values contradict."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.last_visit import revisit
from stemmap.checks.evidence.readings import TIMES_0_9
from stemmap.checks.evidence.shared import groupings
from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]

#: So many azimuths spread over the full circle almost surely hold some of the last tenth: 0.9 ** 200 is below 1e-9.
_ENOUGH = 200
#: How often slips lead beyond 360, and how often a crew, an instrument or a day, and a single visit, has another unit.
_SLIP, _GROUP, _VISIT = 0.005, 0.01, 0.003
#: From this probability on another unit is told, of groups with so many plots; that a sector is empty says half of
#: what as many azimuths from different plots would say, since stems of one plot stand in groups.
_TOLD, _PLOTS, _WORTH = 0.95, 5, 0.5


@check("azimuth-unit-doubtful", family="import", severity="warning", needs=("azimuth",), of_survey=True)
def azimuth_unit_doubtful(case: Case) -> Iterator[Batch]:
    """The azimuths do not look like the azimuth unit of the settings.

    What: in gon or mils, no azimuth lies beyond 360 although there are many; in degrees, many lie beyond 360. Asked of
    the whole survey, then of each instrument, crew and day, and in degrees of each plot.
    Why: the unit in the settings is not the one on the instrument; then every stem stands in the wrong place.
    What to do: set the azimuth unit; where only some plots are in another unit, convert their azimuths.
    Source: a full circle has 360 degrees or 400 gon, so that a tenth of azimuths in gon lies beyond 360; Bayes' rule.
    """
    measurement, stems = case.survey.settings.measurement, case.survey.stems
    azimuth = stems.numbers("azimuth")
    known = np.isfinite(azimuth)
    count, beyond = int(known.sum()), int(np.count_nonzero(azimuth > 360.0))
    evidence = {"azimuths": np.array([count]), "beyond_360": np.array([beyond])}
    if measurement.azimuth_unit != "degree" and count >= _ENOUGH and not beyond:
        message = (
            f"The azimuth unit is {measurement.azimuth_unit}, but none of {{azimuths}} azimuths is above 360: "
            "they look like degrees."
        )
        yield case.about_files(1, message, field="azimuth", evidence=evidence)
    elif measurement.azimuth_unit == "degree" and beyond > max(2, 0.02 * count):
        other = "gon" if np.count_nonzero(azimuth > 400.0) < beyond / 2 else "mils"
        message = (
            "The azimuth unit is degree, but {beyond_360} of {azimuths} azimuths are above 360: "
            f"they look like {other}."
        )
        yield case.about_files(1, message, field="azimuth", evidence=evidence)
    elif measurement.azimuth_unit in ("degree", "gon"):
        visits = len(case.survey.visits)
        numbers = np.bincount(stems.visit_row[known], minlength=visits)
        high = np.bincount(stems.visit_row[(azimuth > 360.0) & (azimuth <= 400.0)], minlength=visits)
        yield from _of_parts(case, numbers, high, degree=measurement.azimuth_unit == "degree")


def _of_parts(case: Case, numbers: Integers, high: Integers, *, degree: bool) -> Iterator[Batch]:
    """Doubts about instruments, crews, days and single visits, from their azimuths and those beyond 360."""
    told = np.zeros(len(numbers), bool)
    message = (
        "{who}: {beyond_360} of {azimuths} azimuths are above 360, though the azimuth unit is degree: they look like "
        "gon."
        if degree
        else "{who}: none of {azimuths} azimuths is above 360, though the azimuth unit is gon: they look like degrees."
    )
    for each in case.once(groupings):
        rows = np.flatnonzero((each.group >= 0) & ~told & (numbers > 0))
        group, count = each.group[rows], len(each.who)
        n, beyond = (np.bincount(group, values[rows], minlength=count) for values in (numbers, high))
        chance = _other_unit(n, beyond, prior=_GROUP, degree=degree)
        wrong = (chance >= _TOLD) & (np.bincount(group, minlength=count) >= _PLOTS)
        told[rows] |= wrong[group]
        chosen = np.flatnonzero(wrong)
        who = np.array([each.who[place] for place in chosen.tolist()], object)
        evidence = {"who": who, **_evidence(n[chosen], beyond[chosen], chance[chosen])}
        yield case.about_files(len(chosen), message, field="azimuth", evidence=evidence, about=who)
    if degree:
        both = case.once(revisit)
        told[both.visit[both.otherwise.reading == TIMES_0_9]] = True
        chance = _other_unit(numbers, high, prior=_VISIT, degree=True)
        chosen = np.flatnonzero((chance >= _TOLD) & ~told)
        yield case.about_visits(
            chosen,
            "Plot {plot}: {beyond_360} of {azimuths} azimuths are above 360, though the azimuth unit is degree: they "
            "look like gon.",
            field="azimuth",
            evidence=_evidence(numbers[chosen], high[chosen], chance[chosen]),
        )


def _evidence(
    numbers: NDArray[np.generic], beyond: NDArray[np.generic], chance: Floats
) -> dict[str, NDArray[np.generic]]:
    whole = {"azimuths": numbers.astype(np.int64), "beyond_360": beyond.astype(np.int64)}
    return {**whole, "probability": chance}


def _other_unit(numbers: NDArray[np.generic], beyond: NDArray[np.generic], *, prior: float, degree: bool) -> Floats:
    """Probability that azimuths in degrees are gon, or the reverse."""
    n, high = numbers.astype(float), beyond.astype(float)
    gon = high * np.log(0.1) + (n - high) * np.log(0.9)
    slips = high * np.log(_SLIP) + (n - high) * np.log(1.0 - _SLIP)
    log_odds = (gon - slips if degree else (slips - gon) * _WORTH) + np.log(prior / (1.0 - prior))
    chance: Floats = 1.0 / (1.0 + np.exp(-np.clip(log_odds, -500.0, 500.0)))
    return chance if degree else np.where(high > 0, 0.0, chance)
