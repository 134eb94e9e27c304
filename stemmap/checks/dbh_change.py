"""Diameters that grew or shrank more than trees do."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.numbers import same_number
from stemmap.core.growth import usual
from stemmap.core.locate import dbh_sd
from stemmap.survey.batches import Batch
from stemmap.survey.measured import Status
from stemmap.survey.registry import Case, check

Floats = NDArray[np.float64]

#: So many standard deviations of both measurements, and of the survey's own growth, are no reason to doubt.
_MEASUREMENTS, _GROWTHS = 4.0, 6.0
#: So many times what is ordinary is worth a look; less is a note.
_CLEARLY = 1.5
#: No tree grows faster, cm a year.
_FASTEST = 7.5
#: Two measuring heights that differ by this share are two places on the stem.
_SAME_PLACE = 0.05
_DAYS = 365.25


@check("dbh-change", family="diameter", severity="warning", of_survey=True)
def dbh_change(case: Case) -> Iterator[Batch]:
    """A dbh grew or shrank since the last visit by more than measurement and growth explain.

    What: the dbh of a living stem lies further from the last one than four standard deviations of both measurements,
    and outside what stems of its species and size did in this survey (median of the survey, six robust standard
    deviations to each side); or it grew by more than 75 mm a year. Where the next visit agrees with the one before,
    only the visit between is named.
    Why: one of the two dbh was mistyped, taken at another height, or belongs to another stem.
    What to do: look at both records; measure again if the stem matters. Neither visit is known to be the wrong one.
    Source: limits of 75 mm a year and of 4 standard deviations, those (mm) being 0.9036 + 0.006214 dbh, used on
    tropical plots (Condit et al., from memory); ordinary growth from the survey itself.
    """
    survey = case.survey
    last = case.once(same_number)
    before = np.where(last >= 0, last[last], -1)
    change = _changes(case, np.flatnonzero(last >= 0), last)
    skipped = _changes(case, np.flatnonzero(before >= 0), before)
    odd = change.odd
    # A visit that agrees with the one before last clears itself: the visit between is the odd one.
    cleared = odd & np.append(odd, False)[last] & skipped.compared & ~skipped.odd
    peak = np.zeros(len(odd), bool)
    peak[last[cleared]] = True
    for grew, between, severity in product((True, False), (True, False), ("warning", "note")):
        word = "grew" if grew else "shrank"
        rest = "; the next visit agrees with the one before" if between else ""
        far = change.times > _CLEARLY
        rows = np.flatnonzero(
            odd & ~cleared & ((change.grown_cm > 0.0) == grew) & (peak == between) & (far == (severity == "warning"))
        )
        if not len(rows):
            continue
        yield case.about_stems(
            rows,
            f"No. {{stem}}: the dbh {word} by {{change_cm:.1f}} cm since the last visit, from {{last_dbh_cm:.1f}} "
            f"to {{dbh_cm:.1f}} cm; {{low_cm:.1f}} to {{high_cm:.1f}} cm would be ordinary{rest}.",
            field="dbh_cm",
            evidence={
                "dbh_cm": case.measured.dbh_cm[rows],
                "last_dbh_cm": case.measured.dbh_cm[last[rows]],
                "last_visit": survey.visits.visit[survey.stems.visit_row[last[rows]]],
                "change_cm": np.abs(change.grown_cm[rows]),
                "low_cm": change.low_cm[rows],
                "high_cm": change.high_cm[rows],
            },
            severity=severity,
            **case.worth(rows),
        )


@dataclass(frozen=True)
class _Changes:
    """Change of dbh by stem against an earlier record, in cm and in times of what is ordinary; shape (stems,) each."""

    compared: NDArray[np.bool_]
    odd: NDArray[np.bool_]
    times: Floats
    grown_cm: Floats
    low_cm: Floats
    high_cm: Floats


def _changes(case: Case, rows: NDArray[np.int64], earlier: NDArray[np.int64]) -> _Changes:
    """Changes of the rows against the records named by `earlier`."""
    survey, measured = case.survey, case.measured
    count = len(survey.stems)
    date, visit = survey.visits.date, survey.stems.visit_row
    old, new = measured.dbh_cm[earlier[rows]], measured.dbh_cm[rows]
    years = (date[visit[rows]] - date[visit[earlier[rows]]]).astype(float) / _DAYS
    dated = np.isfinite(years) & ~np.isnat(date[visit[rows]] - date[visit[earlier[rows]]]) & (years > 0.0)
    years = np.where(dated, years, 1.0)
    height = survey.stems.numbers("measurement_height_m")
    moved = np.abs(height[rows] - height[earlier[rows]]) > _SAME_PLACE * height[rows]
    living = (measured.status[rows] == Status.LIVING) & (measured.status[earlier[rows]] == Status.LIVING)
    usable = living & np.isfinite(old) & np.isfinite(new) & ~moved
    rows, old, new, years, dated = rows[usable], old[usable], new[usable], years[usable], dated[usable]

    species = survey.stems.records.columns.get("species")
    group = species.alike()[rows] if species is not None else np.zeros(len(rows), np.int64)
    growth = usual((new - old) / years, group, old)
    sd = np.hypot(dbh_sd(old, survey.settings.errors), dbh_sd(new, survey.settings.errors))
    room = np.maximum(_MEASUREMENTS * sd, _MEASUREMENTS * (0.09036 + 0.006214 * old))
    low = old + np.minimum(growth.middle, 0.0) * years - np.maximum(room, _GROWTHS * growth.below * years)
    high = old + np.maximum(growth.middle, 0.0) * years + np.maximum(room, _GROWTHS * growth.above * years)
    high = np.where(dated, np.minimum(high, old + _FASTEST * years + room), high)

    def by_stem(values: Floats) -> Floats:
        spread = np.full(count, np.nan)
        spread[rows] = values
        return spread

    compared, odd = np.zeros(count, bool), np.zeros(count, bool)
    compared[rows] = True
    odd[rows] = (new < low) | (new > high)
    times = (new - old) / (np.where(new > old, high, low) - old)
    return _Changes(compared, odd, by_stem(times), by_stem(new - old), by_stem(low), by_stem(high))
