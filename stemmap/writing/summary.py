"""The summary as a table, JSON or CSV."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from types import MappingProxyType
from typing import Any, TextIO

from stemmap.survey.summary import Summary
from stemmap.writing.tables import write_csv, write_json_list, write_text_table

Fieldwork = Sequence[Mapping[str, Any]]

_COLUMNS = (
    *("plot", "visit", "date", "stratum", "plot_status", "stems", "in", "borderline", "without_dbh"),
    *("stems_per_ha", "basal_area_m2_per_ha", "qmd_cm", "mean_nearest_m"),
    *("uniform_angle", "uniform_angle_n", "mingling", "mingling_n", "expected_in", "hidden_share"),
    *("missed_stems_per_ha", "missed_stems_per_ha_low", "missed_stems_per_ha_high"),
    *("missed_basal_area_m2_per_ha", "missed_basal_area_m2_per_ha_low", "missed_basal_area_m2_per_ha_high"),
)


def write_summary(stream: TextIO, summary: Summary, form: str, *, fieldwork: Fieldwork = ()) -> None:
    """Write the summary of all plots, and of strata, survey and fieldwork where the form has room for them.

    Parameters
    ----------
    stream, summary, form
        What is written where, and as which of `FORMS`.
    fieldwork
        What groups of plot visits tell of how they were measured; JSON alone has room for it.
    """
    FORMS[form](stream, summary, fieldwork)


def _plots(summary: Summary) -> Any:
    return (summary.plot_json(row) for row in range(len(summary.survey.visits)))


def _write_json(stream: TextIO, summary: Summary, fieldwork: Fieldwork) -> None:
    write_json_list(stream, "plots", _plots(summary), {"strata": summary.strata_json(), "survey": fieldwork})


def _write_csv(stream: TextIO, summary: Summary, _fieldwork: Fieldwork) -> None:
    index = ("r", "z", "p", "n")
    headings = [*_COLUMNS, *(f"clark_evans_{name}" for name in index), "dead_stems_per_ha", "dead_in", "reasons"]
    rows = (
        [
            *(plot[name] for name in _COLUMNS),
            *(plot["clark_evans"][name] for name in index),
            plot["dead"]["stems_per_ha"],
            plot["dead"]["in"],
            "; ".join(f"{name}: {why}" for name, why in plot["reasons"].items()),
        ]
        for plot in _plots(summary)
    )
    write_csv(stream, headings, rows)


def _write_table(stream: TextIO, summary: Summary, _fieldwork: Fieldwork) -> None:
    headings = ["plot", "visit", "in", "border-", "stems", "basal area", "QMD", "nearest", "Clark-Evans", "note"]
    units = ["", "", "", "line", "per ha", "m²/ha", "cm", "m", "R (p)", ""]
    write_text_table(stream, headings, map(_table_row, _plots(summary)), units=units)
    stream.write("\n")
    write_text_table(
        stream,
        ["stratum", "visit", "plots", "stems per ha", "(95 % interval)", "basal area m²/ha", "(95 % interval)", "note"],
        [_stratum_row(row) for row in summary.strata_json()],
    )
    stream.write("\nMeans and intervals are those of simple random sampling.\n")


def _table_row(plot: Mapping[str, Any]) -> list[str | None]:
    ce = plot["clark_evans"]
    why = plot["reasons"].get("stems_per_ha") or plot["reasons"].get("basal_area_m2_per_ha") or ce["note"] or ""
    return [
        str(plot["plot"]),
        plot["visit"] or "",
        _number(plot["in"], 0),
        _number(plot["borderline"], 0),
        _number(plot["stems_per_ha"], 0),
        _number(plot["basal_area_m2_per_ha"], 2),
        _number(plot["qmd_cm"], 1),
        _number(plot["mean_nearest_m"], 2),
        None if ce["r"] is None else f"{ce['r']:.2f} ({ce['p']:.3f})",
        why,
    ]


def _stratum_row(row: Mapping[str, Any]) -> list[str]:
    stems, area = row["stems_per_ha"], row["basal_area_m2_per_ha"]
    return [
        row["stratum"] or "all",
        row["visit"] or "last",
        str(row["plots"]),
        _number(stems["mean"], 0) or "–",
        _interval(stems, 0),
        _number(area["mean"], 2) or "–",
        _interval(area, 2),
        stems["reason"] or area["reason"] or "",
    ]


def _number(value: float | None, decimals: int) -> str | None:
    return None if value is None else f"{value:.{decimals}f}"


def _interval(value: Mapping[str, Any], decimals: int) -> str:
    if value["low"] is None:
        return "–"
    return f"({value['low']:.{decimals}f} to {value['high']:.{decimals}f})"


#: Forms that the summary can be written in.
FORMS: Mapping[str, Callable[[TextIO, Summary, Fieldwork], None]] = MappingProxyType(
    {"table": _write_table, "json": _write_json, "csv": _write_csv}
)
