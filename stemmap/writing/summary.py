"""The summary as a table, JSON or CSV."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from types import MappingProxyType
from typing import Any, TextIO

from stemmap.survey.change import change_json
from stemmap.survey.error_budget import error_budget_json
from stemmap.survey.estimate_words import budget_sentences
from stemmap.survey.estimates import estimates_json
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
    rest = {
        "strata": summary.strata_json(),
        "survey": fieldwork,
        "estimates": estimates_json(summary),
        "change": change_json(summary),
        "error_budget": error_budget_json(summary),
    }
    write_json_list(stream, "plots", _plots(summary), rest)


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
    stream.write("\nMeans and intervals of strata are those of simple random sampling.\n")
    _write_estimates(stream, summary)
    _write_change(stream, summary)
    _write_budget(stream, summary)


def _write_estimates(stream: TextIO, summary: Summary) -> None:
    """The survey by its own design: stems, basal area and every species."""
    for told in estimates_json(summary):
        count = "1 plot" if told["plots"] == 1 else f"{told['plots']} plots"
        stream.write(f"\nSurvey, visit {told['visit'] or 'last'}: {told['method']}, {count}.\n")
        for caution in told["cautions"]:
            stream.write(f"{caution[0].upper()}{caution[1:]}.\n")
        if "edge_sentence" in told:
            stream.write(f"{told['edge_sentence']}\n")
        parts = [("all", told), *((part["species"] or "(none)", part) for part in told["species"])]
        write_text_table(
            stream,
            [
                "species",
                "stems",
                "std. error",
                "(95 % interval)",
                "basal area",
                "std. error",
                "(95 % interval)",
                "note",
            ],
            [_estimate_row(name, part) for name, part in parts],
            units=["", "per ha", "per ha", "", "m²/ha", "m²/ha", "", ""],
        )
        density = told["density"]
        stream.write(
            f"Reineke's index {_number(density['reineke_per_ha'], 0) or '–'} per ha "
            f"(summed {_number(density['reineke_summed_per_ha']['mean'], 0) or '–'}), "
            f"relative density {_number(density['relative_density'], 1) or '–'}.\n"
        )


def _estimate_row(name: str, part: Mapping[str, Any]) -> list[str | None]:
    stems, area = part["stems_per_ha"], part["basal_area_m2_per_ha"]
    return [
        name,
        _number(stems["mean"], 0),
        _number(stems["standard_error"], 0),
        _interval(stems, 0),
        _number(area["mean"], 2),
        _number(area["standard_error"], 2),
        _interval(area, 2),
        part.get("note") or "",
    ]


def _write_change(stream: TextIO, summary: Summary) -> None:
    for told in change_json(summary):
        years = "" if told["years"] is None else f", {told['years']:.1f} years"
        stream.write(
            f"\nChange from visit {told['from_visit'] or 'before'} to {told['to_visit'] or 'last'}: "
            f"{told['plots']} plots measured twice{years}.\n"
        )
        write_text_table(
            stream,
            ["part", "stems", "std. error", "basal area", "std. error", "meaning"],
            [
                [
                    name.replace("_", " "),
                    *(_number(told["stems_per_ha"][name][key], 1) for key in ("mean", "standard_error")),
                    *(_number(told["basal_area_m2_per_ha"][name][key], 2) for key in ("mean", "standard_error")),
                    meaning,
                ]
                for name, meaning in told["meaning"].items()
            ],
            units=["", "per ha", "per ha", "m²/ha", "m²/ha", ""],
        )


def _write_budget(stream: TextIO, summary: Summary) -> None:
    for told in error_budget_json(summary):
        stream.write(f"\nWhat the error is made of and what would mend it, visit {told['visit'] or 'last'}.\n")
        for sentence in budget_sentences(told):
            stream.write(f"{sentence}\n")


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
