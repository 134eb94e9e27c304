"""Verbs of field packets: what crews are sent out with, and what they bring back."""

from __future__ import annotations

from pathlib import Path
from typing import Literal

import click

from stemmap.cli.options import logged_in, output_option, progress_line, spare, target


@click.command()
@click.argument("survey", type=click.Path(path_type=Path))
@click.option("--plots", metavar="P1,P2", help="Plots; not given: all with stems.")
@click.option("--recheck", "listed", is_flag=True, help="The plots and stems of the re-check list instead.")
@click.option("--budget-hours", type=float, metavar="H", help="Crew time for the re-check list; not given: no limit.")
@click.option(
    "--blind-share",
    type=float,
    metavar="S",
    help="Blind plots for each other one; not given: 0.05 with --recheck, else none.",
)
@click.option(
    "--seed", type=click.IntRange(min=0), default=1, metavar="N", help="Of drawing the blind plots; usually 1."
)
@click.option("--scale", type=click.IntRange(min=1), metavar="N", help="Scale 1:N; not given: the largest that fits.")
@click.option("--paper", type=click.Choice(["A4", "A3", "Letter"], case_sensitive=False), default="A4")
@click.option("--who", default="", metavar="NAME", help="Who sends it out; not given: who is logged in.")
@click.option("-o", "--output", required=True, metavar="FOLDER", type=click.Path(path_type=Path), help="New folder.")
def packet(
    survey: Path,
    *,
    plots: str | None,
    listed: bool,
    budget_hours: float | None,
    blind_share: float | None,
    seed: int,
    scale: int | None,
    paper: str,
    who: str,
    output: Path,
) -> None:
    """Make a field packet from a survey file.

    The folder gets plot sheets, a table to fill in as XLSX and as CSV, the plot centres in a short order as GPX, and a
    page to read first. Cold plots show the former values. Blind plots, drawn by chance beside them, show none: they
    tell how well crews measure. The survey file keeps what was sent out; stemmap remeasured takes in what comes back.
    """
    from stemmap.tasks.packet import make_packet
    from stemmap.tasks.packet_plots import Errand

    if listed and plots is not None:
        raise click.UsageError("--recheck says which plots are visited; leave --plots out.")
    if budget_hours is not None and not listed:
        raise click.UsageError("--budget-hours belongs to --recheck.")
    names = None if plots is None else tuple(name.strip() for name in plots.split(","))
    progress, done = progress_line()
    made = make_packet(
        survey,
        output,
        Errand(names, listed, budget_hours, blind_share, seed),
        who=who or logged_in(),
        scale=scale,
        paper=paper,
        progress=progress,
    )
    done()
    click.echo(made.sentence(), err=True)


@click.command()
@click.argument("survey", type=click.Path(path_type=Path))
@click.argument("files", nargs=-1, type=click.Path(path_type=Path))
@click.option(
    "--take",
    type=click.Choice(["all", "likely"]),
    help="Take the open proposals over at once, all or those that are probably right, and keep the records that were "
    "confirmed; each gets a journal entry.",
)
@click.option("--who", default="", metavar="NAME", help="Who takes it in; not given: who is logged in.")
@click.option("--format", "form", type=click.Choice(["table", "json", "csv"]), default="table")
@output_option
def remeasured(
    survey: Path, files: tuple[Path, ...], *, take: Literal["all", "likely"] | None, who: str, form: str, output: str
) -> None:
    """Take in what crews brought back from field packets.

    FILES are the tables of the packets, filled in; without any it is told what the survey file holds of them. Every
    row is kept as typed and told with what became of it. Values beyond the tolerance, stems not found and new stems
    become findings with proposals, decided with stemmap decide, in the window, or together with --take. Blind checks
    tell how well the survey was measured.
    """
    from stemmap.tasks.remeasured import bring_back
    from stemmap.writing.output import text_output
    from stemmap.writing.remeasured import Told, write_remeasured

    spare(output, [survey, *files])
    progress, done = progress_line()
    made = bring_back(survey, files, who=who or logged_in(), take=take, progress=progress)
    done()
    click.echo(made.sentence(survey.name), err=True)
    with text_output(target(output)) as stream:
        write_remeasured(
            stream, Told(made.rows(), made.proposals(), made.confirmed(), made.counts(), made.quality()), form
        )
