"""What crews brought back as a table, JSON or CSV: rows, proposals, and how well the survey was measured."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, TextIO

from stemmap.survey.finding import LIKELY
from stemmap.survey.returned import found
from stemmap.units import DIFFERENCE_DECIMALS
from stemmap.writing.tables import write_csv, write_json_list, write_text_table

Lines = Iterable[Mapping[str, Any]]

_TEXTS = (
    *("file", "line", "packet", "row", "plot", "visit", "tree", "stem", "found", "look", "outcome", "known_by"),
    "names_other_plot",
)
_QUANTITIES = ("azimuth_deg", "distance_m", "dbh_cm")
_FIGURES = ("typed", "again", "recorded", "difference", "tolerance", "within")
_UNEVENTFUL = ("not filled in", "empty row for a new stem")
_COMPARED, _AS_PRINTED = "measured again", "row of the packet"


@dataclass(frozen=True)
class Told:
    """What is told of all rows that came back.

    Parameters
    ----------
    rows, proposals, confirmed
        One by one, as the task makes them.
    counts, quality
        What they add up to.
    """

    rows: Lines
    proposals: Lines
    confirmed: Lines
    counts: Mapping[str, Any]
    quality: Mapping[str, Any]


def write_remeasured(stream: TextIO, told: Told, form: str) -> None:
    """Write what crews brought back; the CSV has the rows alone."""
    FORMS[form](stream, told)


def _write_json(stream: TextIO, told: Told) -> None:
    rest = {
        "counts": told.counts,
        "proposals": list(told.proposals),
        "confirmed": list(told.confirmed),
        "quality": told.quality,
    }
    write_json_list(stream, "rows", told.rows, rest)


def _write_csv(stream: TextIO, told: Told) -> None:
    headings = [*_TEXTS, *(f"{name}_{figure}" for name in _QUANTITIES for figure in _FIGURES), "remark"]
    write_csv(
        stream,
        headings,
        (
            [
                *(row[name] for name in _TEXTS),
                *(row[name][figure] for name in _QUANTITIES for figure in _FIGURES),
                row["remark"],
            ]
            for row in told.rows
        ),
    )


def _write_table(stream: TextIO, told: Told) -> None:
    shown = [row for row in told.rows if _worth_telling(row)]
    headings = ["packet", "row", "plot", "stem", "what became of it", "known by", "azimuth", "distance", "dbh"]
    units = ["", "", "", "", "", "", "°", "m", "cm"]
    if shown:
        write_text_table(stream, headings, map(_row, shown), units=units)
        stream.write(
            "Differences, again minus recorded; * is beyond the tolerance, ? behind what was written and is no value. "
            "Rows that agree are left out here; JSON and CSV have all.\n\n"
        )
    counts = ", ".join(f"{count} {word}" for word, count in told.counts["outcomes"].items() if count)
    stream.write(f"{told.counts['rows']} rows came back" + (f": {counts}.\n" if counts else ".\n"))
    for packet, count in told.counts["not_come_back"].items():
        stream.write(f"Packet {packet}: {count} rows did not come back.\n")
    proposals = list(told.proposals)
    if proposals:
        heading = f"Proposals to decide on: {len(proposals)} (stemmap decide SURVEY FINDING correct, keep or recheck)"
        stream.write(f"\n{heading}\n")
        for each in proposals:
            likely = each["probability"] >= LIKELY
            chance = f" Probability {each['probability']:.2f}." if likely else ""
            stream.write(f"  {each['finding']}\n    {each['message']}{chance}\n")
    confirmed = list(told.confirmed)
    if confirmed:
        stream.write(f"\nFindings that doubt values which were confirmed within the tolerance: {len(confirmed)}\n")
        for each in confirmed:
            stream.write(f"  {each['finding']}\n    {each['message']}\n")
    stream.write("".join(f"{line}\n" for line in _quality_lines(told.quality)))


def _worth_telling(row: Mapping[str, Any]) -> bool:
    if row["outcome"] != _COMPARED:
        return row["outcome"] not in _UNEVENTFUL
    agrees = all(row[name]["within"] is not False and not _not_understood(row[name]) for name in _QUANTITIES)
    return not agrees or row["known_by"] != _AS_PRINTED or row["names_other_plot"] or _found_otherwise(row)


def _found_otherwise(row: Mapping[str, Any]) -> bool:
    """Whether a row that counts as measured again says under found that the stem is not there, or nothing known."""
    return row["outcome"] == _COMPARED and found(row["found"] or "") in ("no", "?")


def _not_understood(figures: Mapping[str, Any]) -> bool:
    """Whether something was written that is no value of the quantity."""
    return figures["typed"] is not None and figures["again"] is None


def _row(row: Mapping[str, Any]) -> list[Any]:
    of = row["of"] or row
    cells = []
    for name, decimals in zip(_QUANTITIES, (1, 2, 1), strict=True):
        difference, inside = row[name]["difference"], row[name]["within"]
        missing = f"{row[name]['typed']} ?" if _not_understood(row[name]) else "–"
        cells.append(missing if difference is None else f"{difference:+.{decimals}f}" + ("" if inside else "*"))
    stem = of["stem"] or of["tree"]
    means = row["known_by"]
    if row["names_other_plot"] and means == _AS_PRINTED:
        means = f"{means}; it names plot {row['plot']}"
    if _found_otherwise(row):
        means = f"{means}; found says {row['found']}"
    return [row["packet"], row["row"], of["plot"], stem, row["outcome"], means, *cells]


def _quality_lines(quality: Mapping[str, Any]) -> Iterator[str]:
    """How well the survey was measured, in words and figures."""
    for look, heading in _LOOKS.items():
        fields = [each for each in quality["fields"] if each["look"] == look and each["pairs"]]
        stems = next((each for each in quality["stems"] if each["look"] == look and each["asked"]), None)
        if not fields and stems is None:
            continue
        yield ""
        yield heading
        if stems is not None:
            yield f"  stems: {stems['found']} of {stems['asked']} found, {stems['added']} added"
        for each in fields:
            yield f"  {each['field']}: {_figures(each)}"
            if each["gross_reason"]:
                yield f"    {each['gross_reason']}"
    if quality["fields"]:
        yield f"Intervals hold with 95 %. Tolerances: {quality['tolerance']}."


_LOOKS: Mapping[str, str] = MappingProxyType(
    {
        "blind": "How well the survey was measured, from blind checks (the crew did not know the former values):",
        "cold": "Looks with the former values before the crew's eyes; they agree too easily to tell of errors:",
    }
)


_FIGURES_TOLD = (
    *(("bias", "bias", "+"), ("standard deviation", "spread", "")),
    *(("median", "median", "+"), ("standard deviation by the median", "robust_sd", "")),
)


def _figures(told: Mapping[str, Any]) -> str:
    share = (
        f"{told['pairs']} pairs, {told['within']:.0%} {'within tolerance' if told['unit'] else 'the same'} "
        f"({told['within_low']:.0%} to {told['within_high']:.0%})"
    )
    unit = told["unit"]
    if unit and told["spread"] is not None:
        decimals = DIFFERENCE_DECIMALS[unit]
        share += "".join(
            f"; {word} {told[name]:{sign}.{decimals}f} {unit} "
            f"({told[f'{name}_low']:{sign}.{decimals}f} to {told[f'{name}_high']:{sign}.{decimals}f})"
            for word, name, sign in _FIGURES_TOLD
            if told[f"{name}_low"] is not None
        )
    if told["robust_reason"]:
        share += f"; no standard deviation by the median: {told['robust_reason']}"
    return f"{share}; {told['reason']}" if told["reason"] else share


#: Forms that it can be written in.
FORMS: Mapping[str, Callable[[TextIO, Told], None]] = MappingProxyType(
    {"table": _write_table, "json": _write_json, "csv": _write_csv}
)
