"""The command line: verbs and options. Each verb imports what it needs when it runs, so that --help is quick."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

from stemmap import __version__
from stemmap.cli import field_packets, spatial, survey_files
from stemmap.cli.options import (
    Uploads,
    as_of_option,
    asked_of_list,
    listing_options,
    output_option,
    progress_line,
    target,
    upload_options,
)
from stemmap.errors import Cancelled, InputError, OutputError, StemmapError

if TYPE_CHECKING:
    from datetime import datetime

OpenWindow = Callable[..., int]

EXIT_FINDINGS = 1


def _exit(code: int) -> NoReturn:
    raise click.exceptions.Exit(code)


@click.group(invoke_without_command=True, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, message="stemmap %(version)s")
@click.pass_context
def cli(context: click.Context) -> None:
    """Check, map and summarise stem records of circular forest sample plots.

    Without a verb the window opens.
    """
    if context.invoked_subcommand is None:
        _exit(context.obj(()))


@cli.command()
@upload_options
@click.pass_obj
def view(open_window: OpenWindow, uploads: Uploads) -> None:
    """Open the window on uploads or a survey file."""
    _exit(open_window(uploads.files, settings=uploads.settings, radius_m=uploads.radius, columns=uploads.columns))


@cli.command()
@click.pass_obj
def demo(open_window: OpenWindow) -> None:
    """Show the sample survey. Without a display it is written as files to ./stemmap-demo/."""
    from stemmap.drawing.application import display_available
    from stemmap.tasks.demo import sample_files, write_demo

    files, settings = sample_files()
    if display_available():
        _exit(open_window(files, settings=settings))
    folder = write_demo(Path("stemmap-demo"), progress_line()[0])
    click.echo(f"No display was found, so the sample survey was written as pictures, PDF and tables to {folder}/")


@cli.command()
@upload_options
@as_of_option
@click.option("--format", "form", type=click.Choice(["table", "json", "csv", "html"]), default="table")
@output_option
@click.option("--fail-on", type=click.Choice(["error", "warning"]), help="Exit with 1 when there is such a finding.")
def check(
    uploads: Uploads,
    *,
    as_of: str | None,
    form: str,
    output: str,
    fail_on: str | None,
) -> None:
    """Report what is doubtful in uploads or a survey file."""
    from stemmap.writing.findings import write_findings
    from stemmap.writing.output import text_output

    workup, _ = uploads.worked_up(as_of)
    with text_output(target(output)) as stream:
        write_findings(stream, workup.findings, form)
    counts = workup.findings.counts
    if fail_on and (counts["error"] or (fail_on == "warning" and counts["warning"])):
        _exit(EXIT_FINDINGS)


@cli.command()
@upload_options
@as_of_option
@click.option("--format", "form", type=click.Choice(["table", "json", "csv"]), default="table")
@output_option
def summary(
    uploads: Uploads,
    *,
    as_of: str | None,
    form: str,
    output: str,
) -> None:
    """Sum up each plot per hectare, strata and survey. These with their sampling error."""
    from stemmap.writing.output import text_output
    from stemmap.writing.summary import write_summary

    workup, _ = uploads.worked_up(as_of)
    with text_output(target(output)) as stream:
        write_summary(stream, workup.summary, form, fieldwork=workup.fieldwork)


@cli.command()
@upload_options
@as_of_option
@click.option("--crs", help="Coordinate system of the result, for example EPSG:25832.")
@click.option("-o", "--output", required=True, metavar="OUT", help="stems.gpkg, .geojson, .csv or .parquet")
def export(
    uploads: Uploads,
    *,
    as_of: str | None,
    crs: str | None,
    output: str,
) -> None:
    """Write all stems with their coordinates."""
    from stemmap.tasks.export import export_stems

    workup, progress = uploads.worked_up(as_of)
    used = export_stems(workup, Path(output), crs=crs, progress=progress)
    where = "without coordinates: no plot centre is known" if used is None else f"in {used}"
    click.echo(f"{len(workup.survey.stems)} stems written to {output}, {where}.", err=True)


@cli.command()
@upload_options
@as_of_option
@click.option("--plots", metavar="P1,P2", help="Plots; all when not given.")
@click.option("--scale", type=click.IntRange(min=1), metavar="N", help="Scale 1:N; not given: the largest that fits.")
@click.option("--paper", type=click.Choice(["A4", "A3", "Letter"], case_sensitive=False), default="A4")
@click.option("--doubtful", is_flag=True, help="Only plots with an error or something to look at.")
@click.option("--every-visit", is_flag=True, help="Every visit of a plot; not given: its last one.")
@click.option("--recheck", "listed", is_flag=True, help="Only plots on the re-check list, in its order.")
@listing_options
@click.option("--date", "printed", type=click.DateTime(["%Y-%m-%d"]), help="Day of printing, to stand on each sheet.")
@click.option("-o", "--output", required=True, metavar="OUT", help="maps.pdf; or .png, .svg: one file a plot.")
def sheets(
    uploads: Uploads,
    *,
    as_of: str | None,
    plots: str | None,
    scale: int | None,
    paper: str,
    doubtful: bool,
    every_visit: bool,
    listed: bool,
    budget_hours: float | None,
    blind_share: float | None,
    seed: int,
    printed: datetime | None,
    output: str,
) -> None:
    """Print a map of each plot at true scale. Each with its list of stems to measure again."""
    from stemmap.tasks.recheck import recheck_list
    from stemmap.tasks.sheets import write_sheets

    if listed and (plots or doubtful or every_visit):
        raise click.UsageError(
            "--recheck says which plots are printed; leave --plots, --doubtful and --every-visit out."
        )
    if not listed and (budget_hours, blind_share, seed) != (None, None, 1):
        raise click.UsageError("--budget-hours, --blind-share and --seed belong to --recheck.")
    workup, progress = uploads.worked_up(as_of)
    names = None if plots is None else [name.strip() for name in plots.split(",")]
    asked = recheck_list(workup, **asked_of_list(budget_hours, blind_share, seed)) if listed else None
    written = write_sheets(
        workup,
        Path(output),
        plots=names,
        scale=scale,
        paper=paper,
        printed=None if printed is None else printed.date(),
        doubtful=doubtful,
        every_visit=every_visit,
        recheck=asked,
        progress=progress,
    )
    click.echo(f"{len(written)} file{'' if len(written) == 1 else 's'} written, the first is {written[0]}.", err=True)


@cli.command()
@upload_options
@as_of_option
@listing_options
@click.option("--format", "form", type=click.Choice(["table", "json", "csv"]), default="table")
@output_option
def recheck(
    uploads: Uploads,
    *,
    as_of: str | None,
    budget_hours: float | None,
    blind_share: float | None,
    seed: int,
    form: str,
    output: str,
) -> None:
    """List what is worth a walk. What changes the result most for each minute of crew time comes first."""
    from stemmap.tasks.recheck import recheck_list
    from stemmap.writing.output import text_output
    from stemmap.writing.recheck import write_recheck

    workup, _ = uploads.worked_up(as_of)
    made = recheck_list(workup, **asked_of_list(budget_hours, blind_share, seed))
    with text_output(target(output)) as stream:
        write_recheck(stream, made.lines(), made.totals(), form)


@cli.command()
def checks() -> None:
    """List all checks: what, why, what to do."""
    from stemmap.tasks.catalogue import write_catalogue
    from stemmap.writing.output import text_output

    with text_output(None) as stream:
        write_catalogue(stream)


for verb in (
    survey_files.add,
    survey_files.decide,
    survey_files.journal,
    survey_files.repair,
    field_packets.packet,
    field_packets.remeasured,
    spatial.structure,
    spatial.report,
):
    cli.add_command(verb)


def _open_streams() -> None:
    """Put streams that lead nowhere in place of those that whoever calls has closed."""
    for name, mode in (("stdin", "r"), ("stdout", "w"), ("stderr", "w")):
        if getattr(sys, name) is None:
            setattr(sys, name, Path(os.devnull).open(mode, encoding="utf-8"))  # noqa: SIM115 - as long as the process


def main(open_window: OpenWindow) -> int:  # noqa: PLR0911 - one return for each way to end
    """Run the command line and give its exit code: 0 done, 1 findings, 2 unusable input, 3 cancelled or no way.

    Parameters
    ----------
    open_window
        Opens the window on files and gives the exit code; handed in, because neither shell knows the other.
    """
    from stemmap.writing.output import write_no_more

    _open_streams()
    try:
        # Without standalone mode click gives back the code of an exit, else what the verb returned: nothing.
        code = int(cli.main(prog_name="stemmap", standalone_mode=False, obj=open_window) or 0)
        sys.stdout.flush()
    except click.exceptions.Abort:
        click.echo("Stopped.", err=True)
        return Cancelled.exit_code
    except click.ClickException as fault:
        fault.show()
        return InputError.exit_code
    except StemmapError as fault:
        click.echo(f"stemmap: {fault}", err=True)
        return fault.exit_code
    except KeyboardInterrupt:
        click.echo("Stopped.", err=True)
        return Cancelled.exit_code
    except SystemExit:
        # So click answers a reader that has had enough, with the code that here tells of findings.
        write_no_more()
        return Cancelled.exit_code
    except OSError as fault:
        if fault.filename is not None:
            raise
        write_no_more()
        click.echo(f"stemmap: The output cannot be written: {fault.strerror or fault}.", err=True)
        return OutputError.exit_code
    except MemoryError:
        click.echo("stemmap: the machine has too little memory for this upload; split it and try again.", err=True)
        return StemmapError.exit_code
    else:
        return code
