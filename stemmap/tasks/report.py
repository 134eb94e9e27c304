"""The report of a survey: summary, findings, spatial structure, methods, settings; HTML or PDF, nothing beside it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from pathlib import Path
from typing import Any

from stemmap.drawing.diagrams import Diagram, diagrams_of, draw
from stemmap.errors import InputError
from stemmap.progress import Progress
from stemmap.survey.profiles import profiles
from stemmap.survey.structure import CAUTION, Structure, SurveyStructure, last_visits, structure
from stemmap.tasks.workup import Workup
from stemmap.writing.findings import counts_sentence
from stemmap.writing.output import text_output, whole_file
from stemmap.writing.report import Block, Figure, Heading, Paragraph, Table, Verbatim, report_html
from stemmap.writing.settings import settings_text

#: Millimetres of a diagram in the report.
_SIZE_MM = (120.0, 70.0)
_CAREFUL = (
    "The values are those of the records as they were checked, with the decisions made so far; maps and coordinates "
    "are no legal survey. Whoever goes out to measure again minds weather, deadwood and slopes; the local rules of "
    "safety come before anything said here."
)
#: How each value is made, and where it comes from.
_METHODS = (
    (
        "Stems and basal area per hectare",
        "Sum over the living stems that are in, each times 10000 / area of the circle it was sampled by, m² (angle "
        "count: basal area factor / basal area of the stem). Mean and interval: simple random sampling, Student's t.",
    ),
    (
        "Clark-Evans R",
        "Mean distance to the nearest stem over the one expected, 0.5 √(A/n) + (0.0514 + 0.041/√n) P/n, A area, "
        "P perimeter, n stems (Clark & Evans 1954, Ecology 35: 445-453; Donnelly 1978, in: Simulation methods in "
        "archaeology, 91-95).",
    ),
    (
        "L(r)",
        "K(r) = A / (n (n - 1)) Σ w 1(d ≤ r) over ordered pairs d apart, isotropic edge weights w (Ripley 1976, "
        "Journal of Applied Probability 13: 255-266); L = √(K/π). Pooled: Σ n(n-1) K / Σ n(n-1) over plots.",
    ),
    (
        "Envelopes",
        "Global, 95 %, by extreme rank length (Myllymäki et al. 2017, Journal of the Royal Statistical Society B 79: "
        "381-404), against as many stems at random in the same circles; for marks, dealt out anew among the stems of "
        "each plot. A curve without a pattern leaves its envelope in 5 of 100 cases.",
    ),
    (
        "g(r)",
        "Pair correlation, Epanechnikov kernel of half-width 0.15 / √(n/A) (Stoyan & Stoyan 1994, Fractals, random "
        "shapes and point fields).",
    ),
    (
        "Mark correlation",
        "Mean product of the dbh of two stems r apart over the squared mean dbh of their plot, kernel of half-width "
        "1 m (Stoyan & Stoyan 1994).",
    ),
    (
        "G(r)",
        "Share of stems whose nearest stem is within r, from those nearer to it than to the edge, weighed by the area "
        "in which they could be seen so (Hanisch 1984, Statistics 15: 409-416).",
    ),
    (
        "Indices of the four nearest stems",
        "Uniform angle (Gadow et al. 1998), mingling and differentiation 1 - thinner / thicker dbh (Füldner 1995), "
        "share of thinner neighbours, competition Σ (dbh of neighbour / own dbh) / distance (Hegyi 1974); only stems "
        "whose fourth neighbour is nearer than the edge.",
    ),
)


def write_report(
    workup: Workup, path: Path, *, seed: int = 1, day: date | None = None, progress: Progress | None = None
) -> None:
    """Write the report as HTML or PDF, as the ending says; the same from the same input, seed and day.

    Parameters
    ----------
    day
        Day that stands on the report; None: none.

    Raises
    ------
    InputError
        When the name ends with neither .html nor .pdf.
    OutputError
        When the file cannot be written.
    Cancelled
        When `progress` says so.
    """
    ending = path.suffix.lower()
    if ending not in (".html", ".pdf"):
        raise InputError(f"A report ends with .html or .pdf, not as {path.name} does; choose another name with -o.")
    progress = progress or Progress()
    made = structure(workup.summary, by_species=True, seed=seed, rows=None, progress=progress)
    progress.step("Drawing")
    shown = diagrams_of(made.pooled.curves, profiles(workup.summary, last_visits(workup.summary)), made.pooled.species)
    name = workup.survey.settings.name
    title = f"Report on {name}" if name else "Report on a survey of sample plots"
    blocks = list(_blocks(workup, made, shown, day))
    if ending == ".html":
        pictures = [_inline(draw([one], "svg", size_mm=_SIZE_MM, titled=False)) for one in shown]
        with text_output(path) as stream:
            stream.write(report_html(title, blocks, pictures.__getitem__))
        return
    from stemmap.drawing.application import application
    from stemmap.drawing.document import document_pdf

    application(offscreen=True)
    drawn = {
        f"diagram-{number}": draw([one], "png", size_mm=_SIZE_MM, titled=False) for number, one in enumerate(shown)
    }
    text = report_html(title, blocks, lambda number: f'<p><img src="diagram-{number}" width="420"></p>', style="")
    pdf = document_pdf(text, drawn, title=title, day=day)
    with whole_file(path) as partial:
        partial.write_bytes(pdf)


def _inline(svg: bytes) -> str:
    """An SVG as it may stand in HTML: without what stands before its first element."""
    text = svg.decode("utf-8")
    return text[text.index("<svg") :]


def _blocks(workup: Workup, made: SurveyStructure, shown: list[Diagram], day: date | None) -> Iterator[Block]:
    survey, summary = workup.survey, workup.summary
    plots = len(set(survey.visits.plot))
    yield Paragraph(
        f"{plots} plots, {len(survey.visits)} visits, {len(survey.stems)} stems recorded."
        + (f" Coordinates: {workup.measured.crs}." if workup.measured.crs else "")
        + (f" Printed {day.isoformat()}." if day else "")
    )
    yield Paragraph(_CAREFUL)
    yield Heading("What the survey says per hectare")
    yield Table(
        ("Stratum", "Visit", "Plots", "Stems/ha", "95 % interval", "m²/ha", "95 % interval", "Remark"),
        [_stratum_row(row) for row in summary.strata_json()],
    )
    yield Heading("Findings")
    yield Paragraph(f"{counts_sentence(workup.findings).capitalize()}. A finding is a doubt, not a verdict.")
    by_check: dict[tuple[str, str], int] = {}
    for finding in workup.findings:
        key = (str(finding.check), str(finding.severity))
        by_check[key] = by_check.get(key, 0) + 1
    yield Table(("Check", "Severity", "Findings"), [(*key, str(count)) for key, count in sorted(by_check.items())])
    yield from _structure_blocks(made, shown)
    yield Heading("Plots")
    yield Table(
        ("Plot", "Visit", "Stems in", "Stems/ha", "m²/ha", "Clark-Evans R (p)", "Remark"),
        [_plot_row(summary.plot_json(row), one) for row, one in enumerate(made.plots)],
    )
    yield Heading("Methods")
    yield Table(("Value", "How it is made, and source"), _METHODS)
    yield Heading("Settings")
    yield Paragraph("What was said of how the survey was measured; all else holds as the handbook says.")
    yield Verbatim(settings_text(survey.settings) or "(nothing was said)\n")


def _structure_blocks(made: SurveyStructure, shown: list[Diagram]) -> Iterator[Block]:
    yield Heading("Spatial structure")
    yield Paragraph(f"Compared: {made.pooled.inclusion}. {made.simulations} simulations, seed {made.seed}. {CAUTION}")
    for stratum in made.strata:
        curve = stratum.curves.get("l_minus_r")
        told = curve.sentence if curve else f"not known: {stratum.reason}."
        yield Paragraph(f"Stratum {stratum.heading['stratum'] or '(none)'}: {told}")
    if made.pooled.reason:
        yield Paragraph(f"Nothing is told of all plots: {made.pooled.reason}.")
    for number, one in enumerate(shown):
        yield Figure(number, f"{one.title}. {one.sentence}")
    if made.pooled.indices:
        yield Table(("Indices of all plots",), [(index["sentence"],) for index in made.pooled.indices.values()])


def _stratum_row(row: Mapping[str, Any]) -> tuple[str, ...]:
    stems, area = row["stems_per_ha"], row["basal_area_m2_per_ha"]
    return (
        row["stratum"] or "all",
        row["visit"] or "last",
        str(row["plots"]),
        _number(stems["mean"], 0),
        _interval(stems, 0),
        _number(area["mean"], 1),
        _interval(area, 1),
        stems["reason"] or area["reason"] or "",
    )


def _plot_row(plot: Mapping[str, Any], one: Structure) -> tuple[str, ...]:
    index = one.indices.get("clark_evans", {}).get("donnelly")
    curve = one.curves.get("l_minus_r")
    return (
        str(plot["plot"]),
        plot["visit"] or "",
        _number(plot["in"], 0),
        _number(plot["stems_per_ha"], 0),
        _number(plot["basal_area_m2_per_ha"], 1),
        "–" if index is None else f"{index['r']:.2f} ({index['p']:.3f})",
        plot["reasons"].get("stems_per_ha") or (curve.sentence if curve else one.reason),
    )


def _number(value: float | None, decimals: int) -> str:
    return "–" if value is None else f"{value:.{decimals}f}"


def _interval(value: Mapping[str, Any], decimals: int) -> str:
    return "–" if value["low"] is None else f"{value['low']:.{decimals}f} to {value['high']:.{decimals}f}"
