"""What speaks against a stem: findings as letter and outline, proposals as dashed ghosts, the last visit as dots."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

import numpy as np

from stemmap.core.bearings import to_degrees
from stemmap.core.locate import offsets
from stemmap.drawing.marks import LEAST_MM, NO_DBH_MM, Stems
from stemmap.drawing.palette import Theme, readable_on
from stemmap.drawing.scene import Discs, Floats, Lines, Polygons, Shape, Stroke, Texts
from stemmap.drawing.typeface import SMALL
from stemmap.survey.batches import SEVERITIES, Family, Severity
from stemmap.survey.finding import Finding
from stemmap.survey.measured import Measured
from stemmap.survey.survey import Survey
from stemmap.units import DBH_CENTIMETRES, METRES

#: The letter of each family of findings.
LETTERS: Final[Mapping[Family, str]] = MappingProxyType(
    {"import": "I", "inclusion": "C", "typing": "T", "diameter": "D", "revisit": "R", "visibility": "V"}
)
#: Distance of a finding's outline from the edge of the stem, and side of a letter's badge.
OUTLINE_GAP_MM: Final = 0.8
BADGE_MM: Final = 2.5
_LAST_MM: Final = 0.6
_NOTHING_TYPED: Final = {"azimuth": np.nan, "distance_m": np.nan, "vertical_angle_deg": np.nan}
_SQUARE: Final = np.array([[-0.5, -0.5], [0.5, -0.5], [0.5, 0.5], [-0.5, 0.5]])


@dataclass(frozen=True)
class Doubt:
    """What the findings on one stem come to.

    Parameters
    ----------
    letters
        Letters of their families, each once, in the order of `LETTERS`.
    severity
        The worst.
    """

    letters: str
    severity: Severity


def doubts_of(findings: Sequence[Finding]) -> dict[int, Doubt]:
    """Doubts by row of the stem; -1 for those about the whole plot."""
    found: dict[int, list[Finding]] = {}
    for finding in findings:
        found.setdefault(finding.stem_row, []).append(finding)
    return {
        row: Doubt(
            "".join(letter for family, letter in LETTERS.items() if any(item.family == family for item in items)),
            min((item.severity for item in items), key=SEVERITIES.index),
        )
        for row, items in found.items()
    }


def outline(severity: Severity, theme: Theme) -> Stroke:
    """Outline of a stem with a finding: firm and thick for an error, firm for a warning, dotted for a note."""
    match severity:
        case "error":
            return Stroke(theme.accent, 0.65)
        case "warning":
            return Stroke(theme.accent, 0.3)
        case "note":
            return Stroke(theme.ink, 0.2, dash_mm=(0.5, 0.5))


def outline_shapes(stems: Stems, doubts: Mapping[int, Doubt], theme: Theme) -> list[Shape]:
    """Outlines around the stems that have findings."""
    shapes: list[Shape] = []
    rank = np.array([SEVERITIES.index(doubts[row].severity) if row in doubts else -1 for row in stems.row.tolist()])
    for number, severity in enumerate(SEVERITIES):
        chosen = rank == number
        for radius_mm in np.unique(stems.radius_mm[chosen]).tolist():
            alike = chosen & (stems.radius_mm == radius_mm)
            shapes.append(
                Discs(
                    stems.place[alike],
                    stems.radius_m[alike],
                    radius_mm=radius_mm + OUTLINE_GAP_MM,
                    stroke=outline(severity, theme),
                )
            )
    return shapes


def badge_shapes(
    place: Floats, offset_mm: Floats, letters: Sequence[str], severity: Severity, theme: Theme
) -> list[Shape]:
    """Letters of findings in small squares: full for an error, open for a warning or a note.

    Parameters
    ----------
    place, offset_mm
        Where the row of letters begins, at half its height; shape (n, 2).
    letters
        n texts of one or more letters.
    severity
        Of all of them.
    """
    shapes: list[Shape] = []
    fill = theme.accent if severity == "error" else theme.inside
    stroke = Stroke(theme.ink if severity == "note" else theme.accent, 0.25)
    size = BADGE_MM * _SQUARE
    for start, offset, row in zip(place, offset_mm, letters, strict=True):
        for number, letter in enumerate(row):
            middle = offset + np.array([(number + 0.5) * BADGE_MM, 0.0])
            at = start[None, :]
            shapes.append(Polygons(at, outline_mm=size + middle, fill=fill, stroke=stroke))
            shapes.append(Texts(at, (letter,), SMALL, readable_on(fill), offset_mm=middle))
    return shapes


@dataclass(frozen=True)
class Ghost:
    """Where a stem would stand if a proposal held.

    Parameters
    ----------
    stem_row
        Row of the stem; -1 of one that is not recorded.
    place
        Metres, shape (2,).
    radius_m
        NaN without dbh.
    number
        What a crew called a stem that is not recorded.
    """

    stem_row: int
    place: Floats
    radius_m: float
    number: str = ""

    @property
    def radius(self) -> tuple[float, float]:
        """Radius in metres, and in millimetres where the dbh is not known."""
        return (self.radius_m, 0.0) if self.radius_m > 0.0 else (0.0, NO_DBH_MM)


def ghosts_of(
    survey: Survey,
    measured: Measured,
    findings: Sequence[Finding],
    *,
    turn_deg: float,
    reach_m: float,
    symbol_factor: float = 1.0,
) -> tuple[Ghost, ...]:
    """Ghosts of the likeliest proposal of each finding, and of all stems where a whole plot is meant otherwise.

    Stems that a crew found and nobody recorded have one too. Only those that can be placed on the map.

    Parameters
    ----------
    turn_deg
        Grid azimuth of the survey's own north at the plot.
    reach_m
        Radius of the ground shown.
    symbol_factor
        How many times as thick as they are stems are drawn.
    """
    made: dict[tuple[int, frozenset[tuple[str, float]]], Ghost] = {}
    for finding in findings:
        proposed = [(each.row, each.numbers) for each in finding.meant if each.numbers]
        numbers = [each for each in finding.proposals if isinstance(each["value"], int | float)]
        if finding.brought is not None:
            found = {each["field"]: float(each["value"]) for each in numbers}
            dbh = finding.evidence.get("dbh_cm") or np.nan
            place = _reach(survey, _NOTHING_TYPED | found, dbh, turn_deg=turn_deg)
            if np.hypot(*place) <= reach_m:
                number = str(finding.evidence.get("number") or "")
                made[-1, frozenset(found.items())] = Ghost(-1, place, symbol_factor * dbh / 200.0, number)
        best = max(finding.proposals, key=lambda proposal: proposal["probability"] or 0.0, default=None)
        if finding.stem_row >= 0 and best in numbers:
            proposed.append((finding.stem_row, {best["field"]: float(best["value"])}))
        for row, values in proposed:
            place, dbh = place_under(survey, measured, row, values, turn_deg=turn_deg)
            if np.hypot(*place) <= reach_m:
                made[row, frozenset(values.items())] = Ghost(row, place, symbol_factor * dbh / 200.0)
    return tuple(made.values())


def place_under(
    survey: Survey, measured: Measured, stem_row: int, values: Mapping[str, float], *, turn_deg: float
) -> tuple[Floats, float]:
    """Where a stem would stand and how thick it would be if other values of its record were the true ones.

    Parameters
    ----------
    values
        By canonical field, in the unit and north of the records.
    turn_deg
        Grid azimuth of the survey's own north at the plot.

    Returns
    -------
    Metres from the plot centre, NaN when it cannot be said, and dbh in centimetres.
    """
    stems, before = survey.stems, float(measured.dbh_cm[stem_row])
    dbh = before
    if "dbh_cm" in values:
        dbh = values["dbh_cm"] * DBH_CENTIMETRES[survey.settings.measurement.length_unit]
    place = np.array([measured.x_m[stem_row], measured.y_m[stem_row]])
    if not any(name in values for name in _NOTHING_TYPED):
        return (place if "dbh_cm" in values else np.full(2, np.nan)), dbh
    typed = {name: float(stems.numbers(name)[stem_row]) for name in _NOTHING_TYPED}
    origin = place - _reach(survey, typed, before, turn_deg=turn_deg)
    if np.isnan(origin).any() and not stems.records.has("station"):
        # What was typed could not be placed; it was measured from the centre all the same.
        origin = np.zeros(2)
    return origin + _reach(survey, typed | dict(values), before, turn_deg=turn_deg), dbh


def _reach(survey: Survey, record: Mapping[str, float], dbh_cm: float, *, turn_deg: float) -> Floats:
    """From where a stem was measured to the stem, metres, shape (2,)."""
    settings = survey.settings.measurement
    distance = record["distance_m"] * METRES[settings.length_unit]
    if settings.distance == "slope":
        distance *= float(np.cos(np.radians(np.nan_to_num(record["vertical_angle_deg"]))))
    if settings.distance_to == "face":
        distance += float(np.nan_to_num(dbh_cm)) / 200.0
    return np.array(offsets(to_degrees(record["azimuth"], settings.azimuth_unit) + turn_deg, distance))


def ghost_shapes(ghosts: Sequence[Ghost], stems: Stems, theme: Theme) -> list[Shape]:
    """Dashed discs where the stems would stand, with a thin line from where they were typed.

    To a stem that is not recorded no line leads: it has a ring, like a stem with a finding, and its number.
    """
    stroke = Stroke(theme.ghost, 0.3, dash_mm=(0.9, 0.6))
    shapes: list[Shape] = []
    for ghost in ghosts:
        at = ghost.place[None, :]
        typed = stems.place[stems.row == ghost.stem_row]
        radius_m, radius_mm = ghost.radius
        shapes += [
            Lines(typed, np.repeat(at, len(typed), axis=0), Stroke(theme.ghost, 0.2)),
            Discs(at, radius_m, radius_mm=radius_mm, least_mm=LEAST_MM, stroke=stroke),
        ]
        if ghost.stem_row < 0:
            ring = radius_mm + NO_DBH_MM
            beside = np.array([[ring + OUTLINE_GAP_MM, 0.0]])
            shapes += [
                Discs(at, radius_m, radius_mm=ring, stroke=stroke),
                Texts(at, (ghost.number,), SMALL, theme.ghost, offset_mm=beside, align=0.0),
            ]
    return shapes


def last_visit_shapes(
    survey: Survey, measured: Measured, visit_row: int, stems: Stems, *, reach_m: float, theme: Theme
) -> list[Shape]:
    """Hollow dots where the stems stood at the visit before, each tied to the stem with its number."""
    previous = int(survey.visits.previous[visit_row])
    if previous < 0:
        return []
    rows = survey.visits.stems(previous)
    place = np.column_stack([measured.x_m[rows], measured.y_m[rows]])
    seen = np.hypot(place[:, 0], place[:, 1]) <= reach_m
    if not seen.any():
        return []
    numbers, again = survey.stems.number_code, survey.stems.occurrence
    drawn = zip(numbers[stems.row].tolist(), again[stems.row].tolist(), strict=True)
    now = {key: order for order, key in enumerate(drawn)}
    before = zip(numbers[rows].tolist(), again[rows].tolist(), strict=True)
    partner = np.array([now.get(key, -1) if key[0] >= 0 else -1 for key in before])
    tied = seen & (partner >= 0)
    return [
        Lines(place[tied], stems.place[partner[tied]], Stroke(theme.soft, 0.15)),
        last_dot(place[seen], theme),
    ]


def last_dot(place: Floats, theme: Theme) -> Discs:
    """Hollow dots for the last visit."""
    return Discs(place, radius_mm=_LAST_MM, fill=theme.inside, stroke=Stroke(theme.soft, 0.2))
