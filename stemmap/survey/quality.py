"""What measuring again says of the survey's measurements: agreement by field, of blind and of cold looks apart."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np
from numpy.typing import NDArray

from stemmap.core.agreement import Agreement, agreement, turned, within
from stemmap.core.robust import Robust, gross, robust
from stemmap.survey.matched import Matched, Outcome
from stemmap.survey.packet import Look
from stemmap.survey.records import Upload
from stemmap.survey.returned import cells
from stemmap.survey.settings import Settings
from stemmap.survey.tolerance import tolerances
from stemmap.units import DIFFERENCE_DECIMALS

Floats = NDArray[np.float64]

#: With fewer pairs the intervals are too wide to judge by (an assumption of ours).
FEW = 8

#: Measured quantities with the unit in which their differences are told.
QUANTITIES: tuple[tuple[str, str], ...] = (("azimuth", "°"), ("distance", "m"), ("dbh", "cm"))


@dataclass(frozen=True)
class Gross:
    """A difference that does not belong to the others of its field.

    Parameters
    ----------
    plot, visit, stem
        Of its stem, as recorded; empty where nothing is.
    difference
        Again minus recorded, in the unit of the field.
    """

    plot: str
    visit: str
    stem: str
    difference: float

    def words(self, unit: str) -> str:
        """The stem and its difference."""
        stem, difference = self.stem or "?", f"{self.difference:+.{DIFFERENCE_DECIMALS[unit]}f}"
        if self.visit:
            return f"plot {self.plot} visit {self.visit} stem {stem} ({difference} {unit})"
        return f"plot {self.plot} stem {stem} ({difference} {unit})"


@dataclass(frozen=True)
class Quality:
    """Agreement of one field under one kind of look.

    Parameters
    ----------
    look
        blind: the crew did not know the former values, so that the figures tell how well the survey was measured; cold:
        it saw them, and agreement is easier.
    field, unit
        What was measured, and the unit of bias and standard deviation; species and status have none.
    tolerance_low, tolerance_high
        Smallest and largest tolerance of a pair, in that unit; NaN where there is none.
    agreement
        Its figures, again minus recorded; of species and status only the share that is the same.
    robust
        Median difference, and standard deviation that gross differences hardly move; of species nothing.
    gross
        Differences beyond the tolerance that do not belong to the others, the largest first.
    without_gross
        As `agreement`, without them.
    """

    look: Look
    field: str
    unit: str
    tolerance_low: float
    tolerance_high: float
    agreement: Agreement
    robust: Robust
    gross: tuple[Gross, ...]
    without_gross: Agreement

    @property
    def sd_of_one(self) -> float:
        """Standard deviation of a single measurement, if both crews measure alike: that of the difference by √2."""
        return self.agreement.spread / sqrt(2.0)

    @property
    def robust_reason(self) -> str:
        """Why the spread by the median says nothing; empty when it does."""
        return "more than half of the differences are the same" if self.robust.spread == 0.0 else ""

    @property
    def gross_share(self) -> float:
        """Share of the gross differences in the sum of squares around the mean; NaN without two pairs left."""
        left, all_pairs = self.without_gross, self.agreement
        return 1.0 - (left.pairs - 1) * left.spread**2 / ((all_pairs.pairs - 1) * all_pairs.spread**2)

    @property
    def gross_words(self) -> str:
        """Which differences make most of bias and standard deviation, and what these are without; empty: none do."""
        if not self.gross:
            return ""
        first, *others = (each.words(self.unit) for each in self.gross)
        left, digits = self.without_gross, DIFFERENCE_DECIMALS[self.unit]
        bias, spread, unit = f"{left.bias:+.{digits}f}", f"{left.spread:.{digits}f}", self.unit
        share, pairs = f"{100.0 * self.gross_share:.0f}", self.agreement.pairs
        if not others:
            return (
                f"One of {pairs} differences, {first}, makes {share} % of their scatter; without it the bias is {bias} "
                f"{unit} and the standard deviation {spread} {unit}."
            )
        count = len(self.gross)
        if count == 2:
            return (
                f"{count} of {pairs} differences, {first} and {others[0]}, make {share} % of their scatter; without "
                f"them the bias is {bias} {unit} and the standard deviation {spread} {unit}."
            )
        return (
            f"{count} of {pairs} differences, {first}, {others[0]} and {count - 2} more, make {share} % of their "
            f"scatter; without them the bias is {bias} {unit} and the standard deviation {spread} {unit}."
        )

    @property
    def reason(self) -> str:
        """Why figures are missing or say little; empty when they are not."""
        pairs = self.agreement.pairs
        if not pairs:
            return "nothing was measured twice"
        if pairs == 1:
            return "one pair tells no standard deviation"
        return f"only {pairs} pairs: the intervals are wide" if pairs < FEW else ""


@dataclass(frozen=True)
class Found:
    """How many of the stems that were asked for were found, under one kind of look."""

    look: Look
    asked: int
    found: int
    not_found: int
    added: int


def differences(matched: Matched) -> Floats:
    """Again minus recorded of each row that was compared, NaN else: degrees, metres, centimetres; shape (rows, 3)."""
    difference = matched.again - matched.recorded
    difference[:, 0] = turned(matched.again[:, 0], matched.recorded[:, 0])
    difference[~matched.compared] = np.nan
    return difference


def allowed(matched: Matched, settings: Settings) -> Floats:
    """Tolerance of each row: degrees, metres, centimetres; shape (rows, 3)."""
    made = tolerances(settings, distance_m=matched.recorded[:, 1], dbh_cm=matched.recorded[:, 2])
    return np.column_stack([made.azimuth_deg, made.distance_m, made.dbh_cm])


def quality(upload: Upload, settings: Settings, matched: Matched, *, confidence: float = 0.95) -> list[Quality]:
    """Agreement by look and field.

    Species agree where the texts do, but for case and blanks. Gross differences, as `stemmap.core.robust.gross` has
    them and beyond the tolerance, stay in all figures: the plain ones are what bias and standard deviation mean.

    Parameters
    ----------
    confidence
        Of the intervals.
    """
    told = []
    difference, tolerance = differences(matched), allowed(matched, settings)
    looks: Sequence[tuple[Look, NDArray[np.bool_]]] = (("blind", matched.blind), ("cold", ~matched.blind))
    for look, chosen in looks:
        for place, (field, unit) in enumerate(QUANTITIES):
            rows = np.flatnonzero(chosen & ~np.isnan(difference[:, place]))
            limits = tolerance[rows, place]
            made = agreement(difference[rows, place], tolerance=limits, confidence=confidence)
            ends = (float(limits.min()), float(limits.max())) if len(rows) else (np.nan, np.nan)
            far = gross(difference[rows, place]) & ~within(difference[rows, place], limits)
            left = agreement(difference[rows[~far], place], tolerance=limits[~far], confidence=confidence)
            middle = robust(difference[rows, place], confidence=confidence)
            named = _gross(upload, matched, rows[far], difference[rows[far], place])
            told.append(Quality(look, field, unit, *ends, made, middle, named, left))
        same = _same(upload, matched)[chosen]
        counted = agreement(same, tolerance=0.0, confidence=confidence)
        share = Agreement(counted.pairs, counted.within, counted.within_low, counted.within_high, *[np.nan] * 6)
        told.append(Quality(look, "species", "", np.nan, np.nan, share, robust([]), (), share))
    return told


def _gross(upload: Upload, matched: Matched, rows: NDArray[np.int64], difference: Floats) -> tuple[Gross, ...]:
    """Stems of some rows with their differences, the largest first."""
    order = np.argsort(-np.abs(difference), kind="stable")
    stems = upload.stems.take(matched.stem[rows[order]])
    plot, visit, stem, tree = (cells(stems, name).tolist() for name in ("plot", "visit", "stem", "tree"))
    numbers = [one or other for one, other in zip(stem, tree, strict=True)]
    return tuple(map(Gross, plot, visit, numbers, difference[order].tolist()))


def stems_found(matched: Matched) -> list[Found]:
    """How many stems were found by look; rows that were written twice are counted once."""
    told = []
    looks: Sequence[tuple[Look, NDArray[np.bool_]]] = (("blind", matched.blind), ("cold", ~matched.blind))
    for look, chosen in looks:
        count = np.bincount(matched.outcome[chosen], minlength=len(Outcome))
        found, gone, added = (int(count[each]) for each in (Outcome.COMPARED, Outcome.NOT_FOUND, Outcome.NEW))
        told.append(Found(look, found + gone, found, gone, added))
    return told


def _same(upload: Upload, matched: Matched) -> Floats:
    """0 where the species written again is the recorded one, 1 where it is another, NaN where one is missing."""
    if upload.returned is None:
        return np.full(len(matched.outcome), np.nan)
    again = cells(upload.returned.rows, "species")
    recorded = cells(upload.stems.take(np.where(matched.compared, matched.stem, -1)), "species")
    differs = [one.casefold() != other.casefold() for one, other in zip(again, recorded, strict=True)]
    return np.where((again != "") & (recorded != ""), np.array(differs, np.float64), np.nan)
