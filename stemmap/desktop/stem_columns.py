"""Columns of the stem table: those typed in the forest, and those derived from them."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication

from stemmap.desktop.columns import TableColumn, coded_column, given, number_column
from stemmap.desktop.sentences import azimuth_unit, inside_labels, severity_labels
from stemmap.desktop.wording import worded

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from stemmap.survey.records import Column
    from stemmap.survey.settings import Settings
    from stemmap.tasks.workup import Workup

_tr = QCoreApplication.translate


def stem_columns(workup: Workup) -> tuple[TableColumn, ...]:
    """Columns for the stems of a survey: their plot, what the upload has, then what is derived."""
    return (*_place(workup), *_typed(workup), *_derived(workup))


def _place(workup: Workup) -> Iterator[TableColumn]:
    """Plot and visit, which need no room while the stems of one plot are shown."""
    visits, rows = workup.survey.visits, workup.survey.stems.visit_row
    for title, meaning, labels in (
        (_tr("stem_columns", "plot"), _tr("stem_columns", "plot as typed"), visits.plot),
        (_tr("stem_columns", "visit"), _tr("stem_columns", "visit as typed"), visits.visit),
    ):
        yield coded_column(title, meaning, given(rows), given(labels), group="typed")


def _typed(workup: Workup) -> Iterator[TableColumn]:
    from stemmap.survey.fields import fields_of

    records = workup.survey.stems.records
    shown = [field for field in fields_of("stems") if field.name not in ("plot", "visit")]
    for field in sorted(
        shown, key=lambda field: field.name == "date"
    ):  # the same for the whole plot, so last
        if records.has(field.name) and records.columns[field.name].filled.any():
            title = _title(field.name, workup.survey.settings)
            yield _typed_column(
                title, worded(field.meaning), records.columns[field.name], numeric=field.kind == "number"
            )
    for heading, column in records.other.items():
        yield _typed_column(
            heading, _tr("stem_columns", "column of the upload that is kept but not used"), column
        )


def _typed_column(title: str, meaning: str, column: Column, *, numeric: bool = False) -> TableColumn:
    values = cache(lambda: column.numbers) if numeric else None
    return coded_column(title, meaning, given(column.codes), given(column.labels), values=values, group="typed")


def _title(name: str, settings: Settings) -> str:
    """Heading of a field with the unit it has in this upload."""
    foot = settings.measurement.length_unit == "foot"
    if name == "azimuth":
        return f"{worded('azimuth')}, {azimuth_unit(settings).strip()}"
    words, _, unit = name.rpartition("_")
    units = {"m": "ft" if foot else "m", "cm": "in" if foot else "cm", "mm": "mm", "deg": "°", "percent": "%"}
    if unit not in units:
        return worded(name.replace("_", " "))
    return f"{worded(words.replace('_', ' '))}, {units[unit]}"


def _derived(workup: Workup) -> Iterator[TableColumn]:
    import numpy as np

    measured, worst = workup.measured, workup.findings.worst_of_stem
    status = [
        _tr("stem_columns", "living"),
        _tr("stem_columns", "dead"),
        _tr("stem_columns", "cut"),
        _tr("stem_columns", "gone"),
    ]

    @cache
    def inside_code() -> NDArray[np.integer]:
        code = 1 + 2 * ~measured.inside + measured.borderline
        return np.where(measured.inside_known, code, 0)

    for title, meaning, codes, labels in (
        (
            _tr("stem_columns", "finding"),
            _tr("stem_columns", "the gravest finding about this stem"),
            cache(lambda: 3 - worst),
            [*severity_labels(), ""],
        ),
        (
            _tr("stem_columns", "in or out"),
            _tr("stem_columns", "whether the stem belongs to the sample"),
            inside_code,
            inside_labels(),
        ),
    ):
        yield coded_column(
            title, meaning, codes, given(labels), natural=False, group="derived"
        )
    numbers = (
        (
            _tr("stem_columns", "distance, m"),
            _tr("stem_columns", "horizontal distance from the plot centre to the axis of the stem"),
            given(measured.horizontal_distance_m),
            2,
        ),
        (
            _tr("stem_columns", "limit, m"),
            _tr("stem_columns", "limiting distance: up to it the stem is in"),
            given(measured.limiting_distance_m),
            2,
        ),
        (
            _tr("stem_columns", "in with, %"),
            _tr("stem_columns", "probability that the stem is in, given the errors of measurement"),
            cache(lambda: 100.0 * measured.inside_probability),
            1,
        ),
        (
            _tr("stem_columns", "grid azimuth, °"),
            _tr("stem_columns", "azimuth from the plot centre against grid north, degrees"),
            given(measured.grid_azimuth_deg),
            1,
        ),
        (
            _tr("stem_columns", "dbh, cm"),
            _tr("stem_columns", "diameter at breast height, whatever was typed"),
            given(measured.dbh_cm),
            1,
        ),
        (
            _tr("stem_columns", "stems/ha"),
            _tr("stem_columns", "stems per hectare that the stem stands for when it is in"),
            given(measured.expansion_per_ha),
            1,
        ),
    )
    for title, meaning, values, decimals in numbers:
        yield number_column(title, meaning, values, decimals, group="derived")
    yield coded_column(
        _tr("stem_columns", "status"),
        _tr("stem_columns", "what the status typed was understood as"),
        given(measured.status),
        given(status),  # in the order of `Status`
        natural=False,
        group="derived",
    )
