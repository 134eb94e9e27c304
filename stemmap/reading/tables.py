"""Tables: plot columns split off from stems, and the sheets of all files put together."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.reading import remarks
from stemmap.reading.values import Values
from stemmap.survey.fields import Table, fields_of
from stemmap.survey.records import Column, Records, Remark

_ONLY_PLOTS = tuple(item.name for item in fields_of("plots") if "stems" not in item.tables)


def tables_of(values: Values, source: str, said: list[Remark]) -> Mapping[Table, Records]:
    """Records of one sheet by table.

    Parameters
    ----------
    values
        Its values.
    source
        Its name in remarks.
    said
        Takes remarks about plots whose lines differ.
    """
    records = values.records
    if values.kind != "stems with plots":
        return {records.table: records}
    plots, stems = _split(records, source, said)
    return {"plots": plots, "stems": stems}


def _split(records: Records, source: str, said: list[Remark]) -> tuple[Records, Records]:
    """Plots and stems of a sheet that repeats the plot's columns on every stem."""
    described = [name for name in _ONLY_PLOTS if records.has(name)]
    keys = [name for name in ("plot", "visit") if records.has(name)]
    first, group = _distinct([records.columns[name].codes for name in keys])
    rows, _ = _distinct([records.columns[name].codes for name in (*keys, *described)])
    differing = np.setdiff1d(rows, first)
    if len(differing):
        said.append(_contradiction(records, described, differing, first[group[differing]], source))
    kept = [*keys, *(["date"] if records.has("date") else []), *described]
    plots = replace(
        records.take(first),
        table="plots",
        columns=MappingProxyType({name: records.columns[name].take(first) for name in kept}),
        other=MappingProxyType({}),
    )
    own = {name: column for name, column in records.columns.items() if name not in described}
    typed = [column.filled for name, column in own.items() if name not in ("plot", "visit", "date")]
    typed += [column.filled for column in records.other.values()]
    stems = replace(records, columns=MappingProxyType(own))
    is_stem = np.any(typed, axis=0) if typed else np.zeros(len(records), dtype=bool)
    if not is_stem.all():
        lines = records.line[~is_stem]
        sentence = f"No stem is recorded in {remarks.some_lines(lines)}; they stand for plots without stems."
        said.append(Remark(remarks.PLOT_KEPT_EMPTY, sentence, source, line=int(lines[0])))
        stems = stems.take(np.flatnonzero(is_stem))
    return plots, stems


def _contradiction(
    records: Records, described: Sequence[str], rows: NDArray[np.int64], first: NDArray[np.int64], source: str
) -> Remark:
    """The columns and plots whose lines disagree with the first line of their plot."""
    columns = {name: records.columns[name].codes for name in described}
    unlike = [name for name, codes in columns.items() if np.any(codes[rows] != codes[first])]
    plots = list(dict.fromkeys(records.columns["plot"].texts[rows]))
    line = int(records.line[rows[0]])
    sentence = (
        f"{', '.join(unlike)} differ from line to line on plot {remarks.some(plots, count=len(plots))} (first in "
        f"line {line}); the first line of each plot holds."
    )
    return Remark(remarks.PLOT_CONTRADICTION, sentence, source, line=line)


def _distinct(codes: Sequence[NDArray[np.integer]]) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """First row of each distinct combination of codes, in the order of the rows, and each row's combination."""
    import pandas as pd

    combined = np.zeros(len(codes[0]), np.int64)
    for code in codes:
        wide = combined * (int(code.max(initial=0)) + 2) + code + 1
        combined = pd.factorize(wide)[0].astype(np.int64)
    _, first = np.unique(combined, return_index=True)
    return first, combined


def put_together(table: Table, parts: Iterable[Records]) -> Records:
    """Records of several sheets as one table, in their order."""
    filled = [part for part in parts if len(part)]
    if not filled:
        return Records.empty(table)
    if len(filled) == 1:
        return filled[0]
    names = list(dict.fromkeys(name for part in filled for name in part.columns))
    others = list(dict.fromkeys(name for part in filled for name in part.other))
    return Records(
        table,
        MappingProxyType({name: _joined([(part.columns.get(name), len(part)) for part in filled]) for name in names}),
        np.concatenate([part.source for part in filled]),
        np.concatenate([part.line for part in filled]),
        MappingProxyType({name: _joined([(part.other.get(name), len(part)) for part in filled]) for name in others}),
    )


def _joined(parts: Sequence[tuple[Column | None, int]]) -> Column:
    """Columns one below the other. Equal texts share a label when the same was read from them in every file."""
    import pandas as pd

    columns = [column or Column(np.zeros(0, object), np.full(rows, -1, np.int32)) for column, rows in parts]
    starts = np.cumsum([0, *(len(column.labels) for column in columns[:-1])])
    codes = [
        np.where(column.codes >= 0, column.codes + start, -1) for column, start in zip(columns, starts, strict=True)
    ]
    code, labels = np.concatenate(codes).astype(np.int32), np.concatenate([column.labels for column in columns])
    values = [column.label_values for column in columns if column.label_values is not None]
    read: Any = np.concatenate(values) if values else None
    shared, distinct = pd.factorize(labels)
    _, first = np.unique(shared, return_index=True)
    if read is not None:
        alike = read == read[first][shared]
        unread = np.isnat if read.dtype.kind == "M" else np.isnan
        if not np.all(alike | (unread(read) & unread(read[first][shared]))):
            return Column(labels, code, read)
        read = read[first]
    shared_code = np.append(shared, -1)[code].astype(np.int32)
    return Column(np.asarray(distinct, dtype=object), shared_code, read)
