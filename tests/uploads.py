"""Uploads made in memory, as reading would hand them over, for tests of everything above it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Any

import numpy as np

from stemmap.survey.fields import FIELDS, Table
from stemmap.survey.records import Column, Records, Upload
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
        return float(text)
    except ValueError:
        return np.nan


def _date(text: str) -> np.datetime64:
    try:
        return np.datetime64(text, "D")
    except ValueError:
        return np.datetime64("NaT", "D")


def records(table: Table, columns: Mapping[str, Sequence[Any]], *, source: int = 0) -> Records:
    """Records of one file whose rows begin in line 2."""
    made = {name: column(name, cells) for name, cells in columns.items()}
    count = len(next(iter(made.values()), ()))
    return Records(
        table,
        MappingProxyType(made),
        np.full(count, source, np.int32),
        np.arange(2, count + 2, dtype=np.int32),
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
