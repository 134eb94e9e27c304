"""Words for what the window shows: the state of a plot, a stem on the map, what a finding is worth."""

from __future__ import annotations

import re
from collections.abc import Mapping
from math import isnan
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QCoreApplication, QLocale

from stemmap.desktop.wording import worded
from stemmap.survey.fields import STRUCK

if TYPE_CHECKING:
    from stemmap.desktop.session import Opened
    from stemmap.survey.batches import Severity
    from stemmap.survey.finding import Finding
    from stemmap.survey.settings import Settings
    from stemmap.tasks.workup import Workup

_tr = QCoreApplication.translate


def number(value: float, decimals: int) -> str:
    """A number as people of this country write it; a dash when it is not known."""
    if isnan(value):
        return "–"
    return QLocale().toString(float(value), "f", decimals)


def chance(probability: float) -> str:
    """A probability in percent; nothing is said to be sure."""
    if probability > 0.99:
        return _tr("sentences", "over 99 %")
    if probability < 0.01:
        return _tr("sentences", "under 1 %")
    return _tr("sentences", "{percent} %").format(percent=number(100.0 * probability, 0))


def severity_labels() -> list[str]:
    """The words shown for the severities, the gravest first."""
    return [_tr("sentences", "Error"), _tr("sentences", "To look at"), _tr("sentences", "Note")]


def severity_word(severity: Severity) -> str:
    """The word shown for a severity."""
    return severity_labels()[("error", "warning", "note").index(severity)]


def looked_words(total: int, looked: int) -> str:
    """How many of the errors and things to look at are left; empty when none was looked at or there is none."""
    if not looked or not total:
        return ""
    left = max(total - looked, 0)
    return _tr("sentences", "{n} left").format(n=left) if left else _tr("sentences", "looked through")


def count_words(errors: int, warnings: int, notes: int) -> str:
    """Numbers of findings in words; notes are told only where nothing weighs more."""
    words = []
    if errors:
        words.append(_tr("sentences", "1 error") if errors == 1 else _tr("sentences", "{n} errors").format(n=errors))
    if warnings:
        words.append(_tr("sentences", "{n} to look at").format(n=warnings))
    if notes and not words:
        words.append(_tr("sentences", "1 note") if notes == 1 else _tr("sentences", "{n} notes").format(n=notes))
    return ", ".join(words)


def visit_state(opened: Opened, row: int, looked: int = 0) -> str:
    """The state of a plot visit, or of the whole survey's files (row -1), in words; `looked` findings were seen."""
    errors, warnings = int(opened.errors[row]), int(opened.warnings[row])
    counted = count_words(errors, warnings, int(opened.notes[row]))
    words = [_lack_of_stems(opened, row), counted] if row >= 0 else [counted]
    found = ", ".join(word for word in words if word) or _tr("sentences", "no findings")
    # In a narrow list the end may have no room: how much is left comes first, then the numbers, the graver first.
    return "; ".join(word for word in (looked_words(errors + warnings, looked), found) if word)


def _lack_of_stems(opened: Opened, row: int) -> str:
    from stemmap.survey.plot_status import PlotStatus

    visits, status = opened.workup.survey.visits, int(opened.workup.summary.status[row])
    if status == PlotStatus.NOT_REACHED:
        return _tr("sentences", "not reached")
    if status == PlotStatus.NON_FOREST:
        return _tr("sentences", "non-forest")
    if visits.first_stem[row] == visits.first_stem[row + 1]:
        return _tr("sentences", "empty plot") if status == PlotStatus.EMPTY else _tr("sentences", "no stems")
    if len(visits.records) and visits.special[row] < 0 and visits.general[row] < 0:
        return _tr("sentences", "no plot data")
    return ""


def visit_name(workup: Workup, row: int) -> str:
    """Plot and visit as typed."""
    if row < 0:
        return _tr("sentences", "Whole survey")
    plot, visit = workup.survey.visits.plot[row], workup.survey.visits.visit[row]
    named = _tr("sentences", "Plot {plot}").format(plot=plot)
    return _tr("sentences", "{plot}, visit {visit}").format(plot=named, visit=visit) if visit else named


def azimuth_unit(settings: Settings) -> str:
    """Short sign of the azimuth unit."""
    signs = {"degree": "°", "gon": " gon"}
    return signs.get(settings.measurement.azimuth_unit, " mil")


def inside_labels() -> list[str]:
    """Words for whether a stem is in: not known, in, in but borderline, out, out but borderline."""
    inside, outside = _tr("sentences", "in"), _tr("sentences", "out")
    borderline = _tr("sentences", "{word}, borderline")
    return [
        _tr("sentences", "not known whether in"),
        *(inside, borderline.format(word=inside)),
        *(outside, borderline.format(word=outside)),
    ]


def inside_words(workup: Workup, row: int) -> str:
    """Whether a stem is in, in words."""
    measured = workup.measured
    code = 1 + 2 * (not measured.inside[row]) + bool(measured.borderline[row]) if measured.inside_known[row] else 0
    return inside_labels()[code]


def stem_sentence(workup: Workup, row: int) -> str:
    """A stem in one line: number, species, dbh, azimuth and distance, in or out."""
    stems, measured = workup.survey.stems, workup.measured
    label = stems.label(row)
    parts = [_tr("sentences", "Stem {label}").format(label=label) if label else _tr("sentences", "Stem without number")]
    species = stems.records.columns.get("species")
    if species is not None and species.codes[row] >= 0:
        parts.append(str(species.labels[species.codes[row]]))
    dbh = float(measured.dbh_cm[row])
    known = _tr("sentences", "dbh {dbh} cm").format(dbh=number(dbh, 1))
    parts.append(_tr("sentences", "no dbh") if isnan(dbh) else known)
    unit = azimuth_unit(workup.survey.settings)
    azimuth = stems.records.columns.get("azimuth")
    if azimuth is not None and azimuth.codes[row] >= 0:
        typed = f"{azimuth.labels[azimuth.codes[row]]}{unit}"
        parts.append(_tr("sentences", "azimuth {azimuth}").format(azimuth=typed))
    distance = float(measured.horizontal_distance_m[row])
    if not isnan(distance):
        parts.append(_tr("sentences", "distance {distance} m").format(distance=number(distance, 2)))
    parts.append(inside_words(workup, row))
    return ", ".join(parts)


def finding_place(told: Finding) -> str:
    """What a finding speaks of."""
    if told.stem_row >= 0:
        return _tr("sentences", "stem {stem}").format(stem=told.stem) if told.stem else _tr("sentences", "a stem")
    if told.visit_row >= 0:
        return _tr("sentences", "the plot")
    return str(told.evidence.get("file") or _tr("sentences", "the survey"))


def finding_remainder(told: Finding) -> str:
    """What is proposed and what the finding is worth, in one line; empty when neither is known."""
    parts = []
    likely = [proposal for proposal in told.proposals if not strikes(proposal["field"], proposal["value"])]
    if told.brought is not None:
        parts.append(_tr("sentences", "The map shows dashed where it would stand."))
    elif likely:
        values = ", ".join(
            f"{field_words(proposal['field'])} {_value(proposal['value'])}{_chance_of(told, proposal)}"
            for proposal in likely
        )
        parts.append(_tr("sentences", "Perhaps meant: {values}.").format(values=values))
    for proposal in told.proposals:
        if strikes(proposal["field"], proposal["value"]):
            words = _tr("sentences", "Perhaps to be struck{chance}: kept as typed, counted nowhere.")
            parts.append(words.format(chance=_chance_of(told, proposal)))
    if told.strikes_all:
        words = _tr("sentences", "Perhaps {count} records are to be struck ({chance}): kept as typed, counted nowhere.")
        parts.append(words.format(count=len(told.meant), chance=chance(told.meant[0].probability)))
    elif told.meant:
        parts.append(_tr("sentences", "The map shows dashed where its stems would then stand."))
    stems, area = told.effect["stems_per_ha"], told.effect["basal_area_m2_per_ha"]
    if stems:
        parts.append(
            _tr("sentences", "Worth {stems} stems/ha, {area} m²/ha.").format(
                stems=number(stems, 1), area=number(area if area is not None else float("nan"), 2)
            )
        )
    return " ".join(parts)


def strikes(field: str | None, value: object) -> bool:
    """Whether a value proposed or decided strikes its record."""
    return field == "status" and value == STRUCK


def _chance_of(told: Finding, proposal: Mapping[str, Any]) -> str:
    """How probable a proposal is, in brackets; nothing where that would mislead."""
    probability = told.told_probability(proposal)
    return "" if probability is None else f" ({chance(probability)})"


def _value(value: float | str) -> str:
    return value if isinstance(value, str) else f"{value:g}".replace(".", QLocale().decimalPoint())


def _stands_in(text: str, sentence: str) -> bool:
    """Whether a sentence says a value, not merely its digits within another one."""
    return re.search(rf"(?<![\w.,]){re.escape(text)}(?![\w]|[.,]\d)", sentence) is not None


def field_words(name: str) -> str:
    """What a field is called, without its unit."""
    words, _, unit = name.rpartition("_")
    return worded((words if unit in ("m", "cm", "mm", "deg", "percent") else name).replace("_", " "))


def evidence_lines(told: Finding) -> list[tuple[str, str]]:
    """What a finding rests on: name with unit, and value as people of this country write it.

    What stands in the sentence or among the proposals already is left out.
    """
    kinds = {
        "distance_m": (_tr("sentences", "distance, m"), 2),
        "limiting_distance_m": (_tr("sentences", "limiting distance, m"), 2),
        "beyond_m": (_tr("sentences", "beyond the limit, m"), 2),
        "dbh_cm": (_tr("sentences", "dbh, cm"), 1),
        "class_limit_cm": (_tr("sentences", "class limit, cm"), 1),
        "class_change_probability": (_tr("sentences", "probability of the other class"), 2),
        "inside_probability": (_tr("sentences", "probability of being in"), 2),
        "file": (_tr("sentences", "file"), 0),
        "line": (_tr("sentences", "line"), 0),
        "column": (_tr("sentences", "column"), 0),
        "text": (_tr("sentences", "as typed"), 0),
        "typed": (_tr("sentences", "as typed"), 0),
        "limit_m": (_tr("sentences", "limiting distance, m"), 2),
        "probability_wrong": (_tr("sentences", "probability of an error"), 2),
        "last_visit": (_tr("sentences", "last visit"), 0),
        "last_dbh_cm": (_tr("sentences", "dbh at the last visit, cm"), 1),
        "change_cm": (_tr("sentences", "change of dbh, cm"), 1),
        "low_cm": (_tr("sentences", "change expected from, cm"), 1),
        "high_cm": (_tr("sentences", "change expected up to, cm"), 1),
        "pairs": (_tr("sentences", "stems found at both visits"), 0),
        "rotation_deg": (_tr("sentences", "rotation, °"), 1),
        "standard_error_deg": (_tr("sentences", "standard error, °"), 1),
        "shift_east_m": (_tr("sentences", "shift to the east, m"), 2),
        "shift_north_m": (_tr("sentences", "shift to the north, m"), 2),
        "standard_error_m": (_tr("sentences", "standard error, m"), 2),
        "hidden_percent": (_tr("sentences", "hidden ground, %"), 1),
        "pairs_as_recorded": (_tr("sentences", "found at both visits as recorded"), 0),
        "probability": (_tr("sentences", "probability"), 2),
    }
    lines = []
    for name, (title, decimals) in kinds.items():
        value = told.evidence.get(name)
        if value not in (None, ""):
            text = number(value, decimals) if isinstance(value, float) else str(value)
            text = field_words(text) if name == "column" else text
            if "probability" in name:
                text = chance(float(value))
            if _stands_in(text, told.message):
                continue
            lines.append((title, text if len(text) <= 60 else f"{text[:60]}…"))
    return lines
