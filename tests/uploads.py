"""Uploads made in memory, as reading would hand them over, for tests of everything above it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import isfinite
from types import MappingProxyType
from typing import Any

import numpy as np

from stemmap import checks
from stemmap.survey.fields import FIELDS, Table
from stemmap.survey.finding import Finding
from stemmap.survey.findings import Findings
from stemmap.survey.measured import measure
from stemmap.survey.records import Column, Records, Upload
from stemmap.survey.registry import Case, run_checks
from stemmap.survey.returned import PacketRows, Returned
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
    returned: Mapping[str, Sequence[Any]] | None = None,
    *,
    blind: bool = False,
) -> Survey:
    """A survey from columns and settings, with what came back of a packet that asked for all its stems."""
    upload = Upload(
        records("plots", plots or {}),
        records("stems", stems or {}, source=1),
        records("stations", stations or {}, source=2),
        ("plots.csv", "stems.csv", "stations.csv", "returned.csv"),
        returned=None if returned is None else brought_back(stems or {}, returned, blind=blind),
    )
    chosen = settings if isinstance(settings, Settings) else parse_settings(settings or {})
    return assemble(upload, chosen)


def brought_back(
    stems: Mapping[str, Sequence[Any]], columns: Mapping[str, Sequence[Any]], *, blind: bool = False
) -> Returned:
    """Rows of packet P, which has a row for each stem in their order, then one for a new stem on each plot."""
    plots = list(dict.fromkeys(stems["plot"]))
    count, spare = len(stems["plot"]), len(plots)

    def texts(name: str) -> list[str]:
        return [*map(str, stems.get(name, [""] * count)), *([""] * spare)]

    rows = records("remeasured", columns, source=3)
    asked = PacketRows(
        packet=np.array(["P"] * (count + spare), object),
        row=np.arange(1, count + spare + 1),
        blind=np.full(count + spare, blind),
        plot=np.array([*stems["plot"], *plots], object),
        visit=np.array(texts("visit"), object),
        tree=np.array(texts("tree"), object),
        stem=np.array(texts("stem"), object),
        source=np.array([1] * count + [-1] * spare),
        line=np.array([*range(2, count + 2), *([-1] * spare)]),
        after_entry=np.zeros(count + spare, np.int64),
    )
    return Returned(rows, np.zeros(len(rows), np.int64), asked)


def findings(made: Survey) -> Findings:
    """What all checks find in a survey."""
    checks.load()
    return run_checks(Case(made, measure(made)))


def found(made: Survey, slug: str) -> list[Finding]:
    """What one check finds in a survey."""
    return [finding for finding in findings(made) if finding.check == slug]
