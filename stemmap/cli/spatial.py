"""Verbs that tell how the stems stand to each other."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from stemmap.cli.options import Uploads, as_of_option, output_option, progress_line, target, upload_options

if TYPE_CHECKING:
    from datetime import datetime


@click.command()
@upload_options
@as_of_option
@click.option(
    "--by",
    type=click.Choice(["species", "size"]),
    multiple=True,
    help="Also each species among the others and by twos; the thick and the thin stems. May be given twice.",
)
@click.option(
    "--simulations",
    type=click.IntRange(min=39),
    default=199,
    metavar="N",
    help="Of each plot; usually 199, and at least 40 for indices to tell of a difference.",
)
@click.option("--seed", type=click.IntRange(min=0), default=1, metavar="N", help="Of the simulations; usually 1.")
@click.option("--format", "form", type=click.Choice(["table", "json", "csv"]), default="table")
@output_option
def structure(
    uploads: Uploads,
    *,
    as_of: str | None,
    by: tuple[str, ...],
    simulations: int,
    seed: int,
    form: str,
    output: str,
) -> None:
    """Tell whether stems stand clumped or regular, and how species and dbh mingle, each against chance."""
    from stemmap.survey.structure import structure as told
    from stemmap.writing.output import text_output
    from stemmap.writing.structure import write_structure

    workup, _ = uploads.worked_up(as_of)
    progress, done = progress_line()
    made = told(
        workup.summary,
        by_species="species" in by,
        by_size="size" in by,
        simulations=simulations,
        seed=seed,
        progress=progress,
    )
    done()
    with text_output(target(output)) as stream:
        write_structure(stream, made, form)


@click.command()
@upload_options
@as_of_option
@click.option("--seed", type=click.IntRange(min=0), default=1, metavar="N", help="Of the simulations; usually 1.")
@click.option("--date", "day", type=click.DateTime(["%Y-%m-%d"]), help="Day to stand on the report.")
@click.option("-o", "--output", required=True, metavar="OUT", help="report.html or report.pdf")
def report(uploads: Uploads, *, as_of: str | None, seed: int, day: datetime | None, output: str) -> None:
    """Write a report: results per hectare, findings, spatial structure, methods and settings."""
    from stemmap.tasks.report import write_report

    workup, _ = uploads.worked_up(as_of)
    progress, done = progress_line()
    write_report(workup, Path(output), seed=seed, day=None if day is None else day.date(), progress=progress)
    done()
    click.echo(f"The report was written to {output}.", err=True)
