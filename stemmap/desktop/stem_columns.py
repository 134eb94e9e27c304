"""Columns of the stem table: those typed in the forest, and those derived from them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal

from PySide6.QtCore import QCoreApplication

from stemmap.desktop.sentences import azimuth_unit, inside_words, number, severity_word

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from stemmap.survey.findings import Severity
    from stemmap.survey.records import Column
    from stemmap.survey.settings import Settings
    from stemmap.tasks.workup import Workup

_tr = QCoreApplication.translate


@dataclass(frozen=True)
class StemColumn:
    """One column of the stem table.

    Parameters
    ----------
    title, meaning
        Heading and tool tip.
    group
        Typed in the forest or derived.
    numeric
        Whether it is set to the right.
    text
        Text of a stem's cell by stem row, made when it is looked at.
    order
        Sort keys of some stem rows.
    """

    title: str
    meaning: str
    group: Literal["typed", "derived"]
    numeric: bool
    text: Callable[[int], str]
    order: Callable[[slice], NDArray[Any]]


def stem_columns(workup: Workup) -> tuple[StemColumn, ...]:
    """Columns for the stems of a survey: what the upload has, then what is derived."""
    return (*_typed(workup), *_derived(workup))


def _typed(workup: Workup) -> Iterator[StemColumn]:
    from stemmap.survey.fields import fields_of

    records = workup.survey.stems.records
    shown = [field for field in fields_of("stems") if field.name not in ("plot", "visit")]
    for field in sorted(
        shown, key=lambda field: field.name == "date"
    ):  # the same for the whole plot, so last
        if records.has(field.name) and records.columns[field.name].filled.any():
            title = _title(field.name, workup.survey.settings)
            yield _typed_column(
                title, field.meaning, records.columns[field.name], numeric=field.kind == "number"
            )
    for heading, column in records.other.items():
        yield _typed_column(
            heading, _tr("stem_columns", "column of the upload that is kept but not used"), column
        )


def _typed_column(title: str, meaning: str, column: Column, *, numeric: bool = False) -> StemColumn:
    def text(row: int) -> str:
        code = column.codes[row]
        return "" if code < 0 else str(column.labels[code])

    def order(rows: slice) -> NDArray[Any]:
        return column.numbers[rows] if numeric else _text_ranks(column, rows)

    return StemColumn(title, meaning, "typed", numeric, text, order)


def _text_ranks(column: Column, rows: slice) -> NDArray[Any]:
    """Ranks of texts with the numbers inside them sorted as numbers; empty cells last."""
    import re

    import numpy as np

    def key(label: str) -> list[tuple[int, int, str]]:
        return [
            (0, int(part), "") if part.isdecimal() else (1, 0, part.casefold())
            for part in re.findall(r"\d+|\D+", label)
        ]

    used, place = np.unique(column.codes[rows], return_inverse=True)
    labels = [(code < 0, key(str(column.labels[code])) if code >= 0 else []) for code in used.tolist()]
    rank = np.empty(len(used), np.int64)
    rank[sorted(range(len(used)), key=lambda one: labels[one])] = np.arange(len(used))
    return rank[place]


def _title(name: str, settings: Settings) -> str:
    """Heading of a field with the unit it has in this upload."""
    foot = settings.measurement.length_unit == "foot"
    if name == "azimuth":
        return f"azimuth, {azimuth_unit(settings).strip()}"
    words, _, unit = name.rpartition("_")
    units = {"m": "ft" if foot else "m", "cm": "in" if foot else "cm", "mm": "mm", "deg": "°", "percent": "%"}
    if unit not in units:
        return name.replace("_", " ")
    return f"{words.replace('_', ' ')}, {units[unit]}"


def _derived(workup: Workup) -> Iterator[StemColumn]:
    from stemmap.survey.measured import Status

    measured, worst = workup.measured, workup.findings.worst_of_stem
    status = {
        Status.LIVING: _tr("stem_columns", "living"),
        Status.DEAD: _tr("stem_columns", "dead"),
        Status.CUT: _tr("stem_columns", "cut"),
        Status.GONE: _tr("stem_columns", "gone"),
    }
    severities: dict[int, Severity] = {3: "error", 2: "warning", 1: "note"}

    def worst_word(row: int) -> str:
        return severity_word(severities[int(worst[row])]) if worst[row] else ""

    yield StemColumn(
        _tr("stem_columns", "finding"),
        _tr("stem_columns", "the gravest finding about this stem"),
        "derived",
        numeric=False,
        text=worst_word,
        order=lambda rows: -worst[rows],
    )
    yield StemColumn(
        _tr("stem_columns", "in or out"),
        _tr("stem_columns", "whether the stem belongs to the sample"),
        "derived",
        numeric=False,
        text=lambda row: inside_words(workup, row),
        order=lambda rows: (
            4 * ~measured.inside_known[rows] + 2 * ~measured.inside[rows] + measured.borderline[rows]
        ),
    )
    numbers = (
        (
            _tr("stem_columns", "distance, m"),
            _tr("stem_columns", "horizontal distance from the plot centre to the axis of the stem"),
            measured.horizontal_distance_m,
            2,
        ),
        (
            _tr("stem_columns", "limit, m"),
            _tr("stem_columns", "limiting distance: up to it the stem is in"),
            measured.limiting_distance_m,
            2,
        ),
        (
            _tr("stem_columns", "in with, %"),
            _tr("stem_columns", "probability that the stem is in, given the errors of measurement"),
            100.0 * measured.inside_probability,
            1,
        ),
        (
            _tr("stem_columns", "grid azimuth, °"),
            _tr("stem_columns", "azimuth from the plot centre against grid north, degrees"),
            measured.grid_azimuth_deg,
            1,
        ),
        (
            _tr("stem_columns", "dbh, cm"),
            _tr("stem_columns", "diameter at breast height, whatever was typed"),
            measured.dbh_cm,
            1,
        ),
        (
            _tr("stem_columns", "stems/ha"),
            _tr("stem_columns", "stems per hectare that the stem stands for when it is in"),
            measured.expansion_per_ha,
            1,
        ),
    )
    for title, meaning, values, decimals in numbers:
        yield _number_column(title, meaning, values, decimals)
    yield StemColumn(
        _tr("stem_columns", "status"),
        _tr("stem_columns", "what the status typed was understood as"),
        "derived",
        numeric=False,
        text=lambda row: status[Status(int(measured.status[row]))],
        order=lambda rows: measured.status[rows],
    )


def _number_column(title: str, meaning: str, values: NDArray[Any], decimals: int) -> StemColumn:
    return StemColumn(
        title,
        meaning,
        "derived",
        numeric=True,
        text=lambda row: number(values[row], decimals),
        order=lambda rows: values[rows],
    )
