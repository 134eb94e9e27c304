"""The re-check list as a table, JSON or CSV."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from types import MappingProxyType
from typing import Any, TextIO

from stemmap.writing.tables import write_csv, write_json_list, write_text_table

Lines = Iterable[Mapping[str, Any]]

_CAUTION = "Going back is field work: weather, slope and dead wood decide; follow the rules of your own organisation."
_HEADINGS = (
    *("plot", "visit", "stem", "kind", "probability", "stems_per_ha", "basal_area_m2_per_ha"),
    *("worth_percent", "worth_percent_per_hour", "minutes", "reasons"),
)


def write_recheck(stream: TextIO, lines: Lines, totals: Mapping[str, Any], form: str) -> None:
    """Write the lines of a re-check list, and what they add up to where the form has room for it."""
    FORMS[form](stream, lines, totals)


def _write_json(stream: TextIO, lines: Lines, totals: Mapping[str, Any]) -> None:
    write_json_list(stream, "recheck", lines, {"totals": totals})


def _write_csv(stream: TextIO, lines: Lines, _totals: Mapping[str, Any]) -> None:
    write_csv(
        stream,
        _HEADINGS,
        (
            [
                *(line[name] for name in _HEADINGS[:5]),
                *line["effect"].values(),
                *(line[name] for name in _HEADINGS[7:10]),
                " ".join(line["reasons"]),
            ]
            for line in lines
        ),
    )


def _write_table(stream: TextIO, lines: Lines, totals: Mapping[str, Any]) -> None:
    headings = ["plot", "visit", "stem", "kind", "wrong with", "result moves", "per hour", "minutes", "why"]
    units = ["", "", "", "", "probability", "by %", "%", "", ""]
    write_text_table(stream, headings, map(_table_row, lines), units=units)
    why = totals["result"]["reason"]
    if why:
        stream.write(f"\nNothing can be ranked: {why}.\n")
    share = totals["share_of_all_doubts"]
    covered = "" if share is None else f", {100.0 * share:.0f} % of what all doubts may move"
    stream.write(
        f"\n{totals['doubts']} doubts and {totals['blind']} blind checks on {totals['plots']} plots, "
        f"{totals['minutes'] / 60.0:.1f} hours{covered}; doubts left out: {totals['doubts_left_out']}.\n"
        "Minutes are those of the settings, [recheck]; the first line of a plot carries the walk.\n"
        f"{_CAUTION}\n"
    )


def _table_row(line: Mapping[str, Any]) -> list[Any]:
    def rounded(value: float | None, form: str) -> str | None:
        return None if value is None else format(value, form)

    return [
        *(line["plot"], line["visit"] or "", "(plot)" if line["stem"] is None else line["stem"], line["kind"]),
        rounded(line["probability"], ".2f"),
        rounded(line["worth_percent"], ".3f"),
        rounded(line["worth_percent_per_hour"], ".3f"),
        rounded(line["minutes"], ".0f"),
        " ".join(line["reasons"]),
    ]


#: Forms that a re-check list can be written in.
FORMS: Mapping[str, Callable[[TextIO, Lines, Mapping[str, Any]], None]] = MappingProxyType(
    {"table": _write_table, "json": _write_json, "csv": _write_csv}
)
