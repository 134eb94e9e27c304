"""Findings as a table, JSON, CSV or a page for a browser."""

from __future__ import annotations

import html
import json
from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType
from typing import TextIO

from stemmap.survey.finding import Finding
from stemmap.survey.findings import Findings
from stemmap.writing.tables import one_line, write_csv, write_json_list

_HEADINGS = (
    *("id", "plot", "visit", "stem", "check", "severity", "family", "field", "message"),
    *("stems_per_ha", "basal_area_m2_per_ha", "proposals", "evidence"),
)


def write_findings(stream: TextIO, findings: Findings, form: str) -> None:
    """Write findings one by one in one of `FORMS`."""
    FORMS[form](stream, findings)


def counts_sentence(findings: Findings) -> str:
    """How many findings there are, in words."""
    counts = findings.counts
    words = [f"{count} {name}{'' if count == 1 else 's'}" for name, count in counts.items() if count]
    return ", ".join(words) or "no findings"


def _write_json(stream: TextIO, findings: Findings) -> None:
    write_json_list(stream, "findings", (finding.as_json() for finding in findings), {"counts": findings.counts})


def _write_csv(stream: TextIO, findings: Findings) -> None:
    write_csv(stream, _HEADINGS, map(_row, findings))


def _row(finding: Finding) -> list[object]:
    return [
        *(finding.id, finding.plot, finding.visit, finding.stem, finding.check, finding.severity),
        *(finding.family, finding.field, finding.message),
        *finding.effect.values(),
        json.dumps(proposals, ensure_ascii=False) if (proposals := finding.as_json()["proposals"]) else None,
        json.dumps(finding.evidence, ensure_ascii=False) if finding.evidence else None,
    ]


def _write_table(stream: TextIO, findings: Findings) -> None:
    place: object = ()
    for finding in findings:
        if (finding.plot, finding.visit) != place:
            place = (finding.plot, finding.visit)
            stream.write(f"\n{one_line(_heading(finding))}\n")
        stream.write(f"  {finding.severity:8}{one_line(finding.message)}\n")
        stream.writelines(f"          {one_line(line)}\n" for line in _extras(finding))
    stream.write(f"\n{counts_sentence(findings).capitalize()}.\n")


def _heading(finding: Finding) -> str:
    if finding.plot is None:
        return "The upload"
    return f"Plot {finding.plot}" + (f", visit {finding.visit}" if finding.visit else "")


def _extras(finding: Finding) -> Iterator[str]:
    stems, area = finding.effect["stems_per_ha"], finding.effect["basal_area_m2_per_ha"]
    if stems is not None:
        yield f"worth {stems:.1f} stems/ha" + ("" if area is None else f", {area:.2f} m²/ha")
    for proposal in finding.proposals:
        value = proposal["value"]
        told = value if isinstance(value, str) else f"{value:g}"
        probability = finding.told_probability(proposal)
        chance = "" if probability is None else f" (probability {probability:.2f})"
        yield f"perhaps {proposal['field']} {told}{chance}"
    if finding.strikes_all:
        told = f"perhaps {len(finding.meant)} records are to be struck"
        yield f"{told} (probability {finding.meant[0].probability:.2f})"
    elif finding.meant:
        told = f"perhaps all {len(finding.meant)} stems of this visit stand elsewhere"
        yield f"{told} (probability {finding.meant[0].probability:.2f}), perhaps those of the last visit"


def _write_html(stream: TextIO, findings: Findings) -> None:
    stream.write(
        '<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>Findings</title>\n<style>'
        "body{font:15px/1.45 sans-serif;max-width:60em;margin:2em auto;padding:0 1em;color:#1c1c1c;background:#fff}"
        "h2{font-size:1.05em;margin:1.6em 0 .4em;border-bottom:1px solid #999}"
        "dt{float:left;width:6em;font-weight:bold}dd{margin:0 0 .5em 6em}small{color:#555}</style></head><body>\n"
        f"<h1>Findings</h1><p>{html.escape(counts_sentence(findings).capitalize())}.</p>\n"
    )
    place: object = ()
    for finding in findings:
        if (finding.plot, finding.visit) != place:
            stream.write("" if place == () else "</dl>\n")
            place = (finding.plot, finding.visit)
            stream.write(f"<h2>{html.escape(_heading(finding))}</h2><dl>\n")
        extras = "".join(f"<br><small>{html.escape(line)}</small>" for line in _extras(finding))
        stream.write(f"<dt>{finding.severity}</dt><dd>{html.escape(finding.message)}{extras}</dd>\n")
    stream.write(f"{'</dl>' if place != () else ''}</body></html>\n")


#: Forms that findings can be written in.
FORMS: Mapping[str, Callable[[TextIO, Findings], None]] = MappingProxyType(
    {"table": _write_table, "json": _write_json, "csv": _write_csv, "html": _write_html}
)
