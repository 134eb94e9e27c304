"""Uploads made in memory, as reading would hand them over, for tests of everything above it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import isfinite
from types import MappingProxyType
from typing import Any

import numpy as np

from stemmap import checks
from stemmap.survey.fields import FIELDS, Table
from stemmap.survey.findings import Finding, Findings
from stemmap.survey.measured import measure
from stemmap.survey.records import Column, Records, Upload
from stemmap.survey.registry import Case, run_checks
from stemmap.survey.settings import Settings, parse_settings
from stemmap.survey.survey import Survey, assemble


def column(name: str, cells: Sequence[Any]) -> Column:
    """A column from Python values: None or an empty string is an empty cell, anything else is typed by str()."""
    texts = Column.of_texts(["" if cell is None else str(cell) for cell in cells])
    kind = FIELDS[name].kind
    if kind == "text":
        return texts
    values = [_number(label) if kind == "number" else _date(label) for label in texts.labels]
    return Column(texts.labels, texts.codes, np.array(values, "f8" if kind == "number" else "M8[D]"))


def _number(text: str) -> float:
    try:
        number = float(text)
    except ValueError:
        return np.nan
    return number if isfinite(number) else np.nan


def _date(text: str) -> np.datetime64:
    try:
        return np.datetime64(text, "D")
    except ValueError:
        return np.datetime64("NaT", "D")


def records(table: Table, columns: Mapping[str, Sequence[Any]], *, source: int = 0) -> Records:
    """Records of one file whose rows begin in line 2; a column that is no field is kept under its heading."""
    count = len(next(iter(columns.values()), ()))
    return Records(
        table,
        MappingProxyType({name: column(name, cells) for name, cells in columns.items() if name in FIELDS}),
        np.full(count, source, np.int32),
        np.arange(2, count + 2, dtype=np.int32),
        MappingProxyType({name: Column.of_texts(cells) for name, cells in columns.items() if name not in FIELDS}),
    )


def survey(
    stems: Mapping[str, Sequence[Any]] | None = None,
    plots: Mapping[str, Sequence[Any]] | None = None,
    stations: Mapping[str, Sequence[Any]] | None = None,
    settings: Settings | Mapping[str, Any] | None = None,
) -> Survey:
    """A survey from columns and settings."""
    upload = Upload(
        records("plots", plots or {}),
        records("stems", stems or {}, source=1),
        records("stations", stations or {}, source=2),
        ("plots.csv", "stems.csv", "stations.csv"),
    )
    chosen = settings if isinstance(settings, Settings) else parse_settings(settings or {})
    return assemble(upload, chosen)


def findings(made: Survey) -> Findings:
    """What all checks find in a survey."""
    checks.load()
    return run_checks(Case(made, measure(made)))


def found(made: Survey, slug: str) -> list[Finding]:
    """What one check finds in a survey."""
    return [finding for finding in findings(made) if finding.check == slug]
