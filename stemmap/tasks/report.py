"""The report of a survey: summary, findings, spatial structure, methods, settings; HTML or PDF, nothing beside it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Any

from stemmap.drawing.diagrams import PAPER, Diagram, diagrams_of, draw, worded_diagram
from stemmap.errors import InputError
from stemmap.progress import Progress
from stemmap.survey.batches import SEVERITIES
from stemmap.survey.change import change_json
from stemmap.survey.error_budget import error_budget_json
from stemmap.survey.estimate_words import budget_sentences, change_sentences, estimate_sentences
from stemmap.survey.estimates import estimates_json
from stemmap.survey.profiles import profiles
from stemmap.survey.structure import CAUTION, Structure, SurveyStructure, last_visits, structure
from stemmap.survey.summary import Summary
from stemmap.tasks.report_methods import METHODS
from stemmap.tasks.report_quality import quality_blocks
from stemmap.tasks.workup import Workup
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


@dataclass(frozen=True)
class Spoken:
    """The language of a report.

    Parameters
    ----------
    code
        As HTML has it.
    mark
        Decimal mark of numbers in tables and diagrams.
    words
        Turns an English sentence of the program into that language, with the same decimal mark.
    """

    code: str = "en"
    mark: str = "."
    words: Callable[[str], str] = str

    def number(self, value: float | None, decimals: int) -> str:
        """A number as the language writes it; a dash when it is not known."""
        return "–" if value is None else f"{value:.{decimals}f}".replace(".", self.mark)

    def interval(self, told: Mapping[str, Any], decimals: int) -> str:
        """The limits of an interval; a dash when they are not known."""
        if told["low"] is None:
            return "–"
        # A t interval of a rare thing reaches below zero; the thing itself does not.
        return f"{self.number(max(told['low'], 0.0), decimals)} – {self.number(told['high'], decimals)}"


#: Command line and scripts write the same report wherever they run.
ENGLISH = Spoken()


def write_report(
    workup: Workup,
    path: Path,
    *,
    seed: int = 1,
    day: date | None = None,
    spoken: Spoken = ENGLISH,
    progress: Progress | None = None,
) -> None:
    """Write the report as HTML or PDF, as the ending says; the same from the same input, seed and day.

    Parameters
    ----------
    day
        Day that stands on the report; None: none.
    spoken
        Its language; English when not said.

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
    made = structure(workup.summary, by_species=True, by_size=True, seed=seed, progress=progress)
    progress.step("Drawing")
    shown = [
        worded_diagram(one, spoken.words)
        for one in diagrams_of(
            made.pooled.curves,
            profiles(workup.summary, last_visits(workup.summary)),
            species=made.pooled.species,
            sizes=made.pooled.sizes,
            large=made.large.pooled.curves if made.large else None,
        )
    ]
    style = replace(PAPER, mark=spoken.mark)
    name = workup.survey.settings.name
    said = spoken.words
    title = said(f"Report on {name}") if name else said("Report on a survey of sample plots")
    blocks = list(_blocks(workup, made, shown, day, spoken))
    if ending == ".html":
        pictures = [_inline(draw([one], "svg", style=style, size_mm=_SIZE_MM, titled=False)) for one in shown]
        with text_output(path) as stream:
            stream.write(report_html(title, blocks, pictures.__getitem__, language=spoken.code))
        return
    from stemmap.drawing.application import application
    from stemmap.drawing.document import document_pdf

    application(offscreen=True)
    drawn = {
        f"diagram-{number}": draw([one], "png", style=style, size_mm=_SIZE_MM, titled=False)
        for number, one in enumerate(shown)
    }
    text = report_html(
        title,
        blocks,
        lambda number: f'<p><img src="diagram-{number}" width="420"></p>',
        style="",
        language=spoken.code,
    )
    pdf = document_pdf(text, drawn, title=title, day=day)
    with whole_file(path) as partial:
        partial.write_bytes(pdf)


def _inline(svg: bytes) -> str:
    """An SVG as it may stand in HTML: without what stands before its first element."""
    text = svg.decode("utf-8")
    return text[text.index("<svg") :]


def _blocks(
    workup: Workup, made: SurveyStructure, shown: list[Diagram], day: date | None, spoken: Spoken
) -> Iterator[Block]:
    survey, summary, said = workup.survey, workup.summary, spoken.words
    plots = len(set(survey.visits.plot))
    yield Paragraph(said(f"{plots} plots, {len(survey.visits)} visits, {len(survey.stems)} stems recorded."))
    if workup.measured.crs:
        yield Paragraph(said(f"Coordinates: {workup.measured.crs}."))
    if day:
        yield Paragraph(said(f"Printed {day.isoformat()}."))
    yield Paragraph(said(_CAREFUL))
    of_kind = [sum(finding.severity == kind for finding in workup.findings) for kind in SEVERITIES]
    counted = said(f"{of_kind[0]} errors, {of_kind[1]} warnings and {of_kind[2]} notes.")
    yield Paragraph(counted + " " + said("The values below hold the records as they are now, with these doubts."))
    yield from _survey_blocks(summary, spoken)
    yield Heading(said("Findings"))
    yield Paragraph(counted + " " + said("A finding is a doubt, not a verdict."))
    by_check: dict[tuple[str, str], int] = {}
    for finding in workup.findings:
        key = (str(finding.check).replace("-", " "), str(finding.severity))
        by_check[key] = by_check.get(key, 0) + 1
    yield Table(
        (said("Check"), said("Severity"), said("Findings")),
        [(said(check), said(severity), str(count)) for (check, severity), count in sorted(by_check.items())],
    )
    yield from quality_blocks(workup, spoken)
    yield from _structure_blocks(made, shown, spoken)
    yield Heading(said("Plots"))
    headings = ("Plot", "Visit", "Stems in", "Stems/ha", "m²/ha", "Clark-Evans R (p)", "Remark")
    yield Table(
        [said(heading) for heading in headings],
        [_plot_row(summary.plot_json(row), one, spoken) for row, one in enumerate(made.plots)],
        sentences=45,
    )
    yield Heading(said("Methods"))
    yield Table(
        (said("Value"), said("How it is made, and source")),
        [(said(value), said(how)) for value, how in METHODS],
        sentences=75,
    )
    yield Heading(said("Settings"))
    yield Paragraph(said("What was said of how the survey was measured; all else holds as the handbook says."))
    yield Verbatim(settings_text(survey.settings) or said("(nothing was said)") + "\n")


def _survey_blocks(summary: Summary, spoken: Spoken) -> Iterator[Block]:
    """The survey by its design, its strata, its change, and what its error is made of."""
    said = spoken.words
    headings = ("Species", "Stems/ha", "95 % interval", "m²/ha", "95 % interval")
    for told in estimates_json(summary):
        yield Heading(_of_visit("The survey per hectare", told["visit"], said))
        yield Paragraph(" ".join(map(said, estimate_sentences(told))))
        yield Table(
            [said(heading) for heading in headings],
            [_species_row(part["species"] or said("(none)"), part, spoken) for part in told["species"]],
        )
    for told in error_budget_json(summary):
        yield Heading(_of_visit("What the error is made of and what would mend it", told["visit"], said))
        yield Paragraph(" ".join(map(said, budget_sentences(told))))
    for told in change_json(summary):
        yield Heading(said("Change between the visits"))
        yield Paragraph(" ".join(map(said, change_sentences(told))))
        yield Table(
            [said(heading) for heading in ("Part", "Stems/ha", "m²/ha", "Standard error", "Meaning")],
            [_change_row(name, meaning, told, spoken) for name, meaning in told["meaning"].items()],
            sentences=45,
        )
    strata = [row for row in summary.strata_json() if row["stratum"] is not None]
    if strata:
        yield Heading(said("Strata, each as a simple random sample of its own"))
        columns = ("Stratum", "Visit", "Plots", "Stems/ha", "95 % interval", "m²/ha", "95 % interval")
        yield Table([said(heading) for heading in columns], [_stratum_row(row, spoken) for row in strata])
        for row in strata:
            reason = row["stems_per_ha"]["reason"] or row["basal_area_m2_per_ha"]["reason"]
            if reason:
                yield Paragraph(f"{row['stratum']} {row['visit'] or ''}: {said(reason)}.")


def _of_visit(words: str, visit: str | None, said: Callable[[str], str]) -> str:
    return said(words) if visit is None else said(f"{words}, visit {visit}")


def _structure_blocks(made: SurveyStructure, shown: list[Diagram], spoken: Spoken) -> Iterator[Block]:
    said = spoken.words
    yield Heading(said("Spatial structure"))
    yield Paragraph(
        " ".join(
            [
                said(f"Compared: {made.pooled.inclusion}."),
                said(f"{made.simulations} simulations, seed {made.seed}."),
                said(CAUTION),
            ]
        )
    )
    for stratum in made.strata:
        curve = stratum.curves.get("l_minus_r")
        told = said(curve.sentence) if curve else said(f"not known: {stratum.reason}.")
        yield Paragraph(f"{said('Stratum')} {stratum.heading['stratum'] or said('(none)')}: {told}")
    if made.pooled.reason:
        yield Paragraph(said(f"Nothing is told of all plots: {made.pooled.reason}."))
    for number, one in enumerate(shown):
        yield Figure(number, f"{one.title}. {one.sentence}")
    if made.pooled.indices:
        yield Table((said("Indices of all plots"),), [(said(one["sentence"]),) for one in made.pooled.indices.values()])
    if made.large is not None and made.large.pooled.curves:
        yield Heading(said("Large stems by themselves"))
        yield Paragraph(said(f"Compared: {made.large.pooled.inclusion}."))
        yield Table(
            (said("Curves of all plots"),), [(said(one.sentence),) for one in made.large.pooled.curves.values()]
        )


def _species_row(name: str, part: Mapping[str, Any], spoken: Spoken) -> tuple[str, ...]:
    stems, area = part["stems_per_ha"], part["basal_area_m2_per_ha"]
    return (
        name,
        spoken.number(stems["mean"], 0),
        spoken.interval(stems, 0),
        spoken.number(area["mean"], 2),
        spoken.interval(area, 2),
    )


def _change_row(name: str, meaning: str, told: Mapping[str, Any], spoken: Spoken) -> tuple[str, ...]:
    stems, area = told["stems_per_ha"][name], told["basal_area_m2_per_ha"][name]
    return (
        spoken.words(name.replace("_", " ")),
        spoken.number(stems["mean"], 1),
        spoken.number(area["mean"], 2),
        spoken.number(area["standard_error"], 2),
        spoken.words(meaning),
    )


def _stratum_row(row: Mapping[str, Any], spoken: Spoken) -> tuple[str, ...]:
    stems, area = row["stems_per_ha"], row["basal_area_m2_per_ha"]
    return (
        row["stratum"],
        row["visit"] or spoken.words("last"),
        str(row["plots"]),
        spoken.number(stems["mean"], 0),
        spoken.interval(stems, 0),
        spoken.number(area["mean"], 1),
        spoken.interval(area, 1),
    )


def _plot_row(plot: Mapping[str, Any], one: Structure, spoken: Spoken) -> tuple[str, ...]:
    index = one.indices.get("clark_evans", {}).get("donnelly")
    curve = one.curves.get("l_minus_r")
    return (
        str(plot["plot"]),
        plot["visit"] or "",
        spoken.number(plot["in"], 0),
        spoken.number(plot["stems_per_ha"], 0),
        spoken.number(plot["basal_area_m2_per_ha"], 1),
        "–" if index is None else f"{spoken.number(index['r'], 2)} ({_small(index['p'], spoken)})",
        spoken.words(plot["reasons"].get("stems_per_ha") or (curve.sentence if curve else one.reason)),
    )


def _small(p: float, spoken: Spoken) -> str:
    return f"< {spoken.number(0.001, 3)}" if p < 0.001 else spoken.number(p, 3)
