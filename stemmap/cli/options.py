"""Arguments and options that several verbs share, and what they stand for."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import wraps
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

if TYPE_CHECKING:
    from stemmap.progress import Progress
    from stemmap.tasks.workup import Workup

_Verb = TypeVar("_Verb", bound=Callable[..., Any])


@dataclass(frozen=True)
class Uploads:
    """The uploads, or the survey file, that a verb works on, and how they are read."""

    files: tuple[Path, ...]
    settings: Path | None
    radius: float | None
    columns: dict[str, str]

    def worked_up(self, as_of: str | None = None) -> tuple[Workup, Progress]:
        """The survey with all that is computed from it."""
        from stemmap.tasks.workup import open_uploads

        progress, done = progress_line()
        workup = open_uploads(
            self.files,
            settings=self.settings,
            radius_m=self.radius,
            columns=self.columns,
            as_of=as_of,
            progress=progress,
        )
        done()
        return workup, progress


def _map_option(_context: click.Context, _parameter: click.Parameter, pairs: tuple[str, ...]) -> dict[str, str]:
    columns = {}
    for pair in pairs:
        field, sign, heading = pair.partition("=")
        if not sign or not field.strip() or not heading.strip():
            raise click.BadParameter(f"{pair!r} must read field=column.")
        columns[field.strip()] = heading.strip()
    return columns


def upload_options(verb: _Verb) -> Any:
    """The arguments and options that say what is read and how; the verb gets them as its `uploads`."""

    @wraps(verb)
    def gathered(
        *args: Any,
        files: tuple[Path, ...],
        settings: Path | None,
        radius: float | None,
        columns: dict[str, str],
        **others: Any,
    ) -> Any:
        if (output := others.get("output")) is not None:
            spare(output, [*files, *([] if settings is None else [settings])])
        return verb(*args, uploads=Uploads(files, settings, radius, columns), **others)

    made: Any = gathered
    for option in reversed(
        (
            click.argument("files", nargs=-1, required=True, type=click.Path(path_type=Path)),
            click.option(
                "--settings",
                type=click.Path(path_type=Path),
                help="Settings file (TOML); not given: the one beside the uploads or in the survey file.",
            ),
            click.option("--radius", type=float, metavar="M", help="Radius of the plots, one fixed circle."),
            click.option(
                *("--map", "columns"),
                multiple=True,
                metavar="FIELD=COLUMN",
                callback=_map_option,
                help="Say which column is a field: dbh_cm=BHD1.",
            ),
        )
    ):
        made = option(made)
    return made


as_of_option = click.option(
    "--as-of",
    metavar="WHEN",
    help="A survey file as it was at a journal entry or a time (UTC) such as 2026-11-25 or 2026-11-25T16:30+01:00.",
)
output_option = click.option("-o", "--output", default="-", metavar="OUT", help="File; - is standard output.")


def listing_options(verb: _Verb) -> Any:
    """The options of every verb that makes a re-check list."""
    for option in reversed(
        (
            click.option("--budget-hours", type=float, metavar="H", help="Crew time; not given: no limit."),
            click.option("--blind-share", type=float, metavar="S", help="Blind checks for each doubt; usually 0.05."),
            click.option(
                "--seed",
                type=click.IntRange(min=0),
                default=1,
                metavar="N",
                help="Of drawing the blind checks; usually 1.",
            ),
        )
    ):
        verb = option(verb)
    return verb


def asked_of_list(budget_hours: float | None, blind_share: float | None, seed: int) -> dict[str, Any]:
    """What is asked of a re-check list."""
    share = {} if blind_share is None else {"blind_share": blind_share}
    return {"budget_hours": budget_hours, "seed": seed, **share}


def target(output: str) -> Path | None:
    """The file to write; None: standard output."""
    return None if output == "-" else Path(output)


def spare(output: str, read: Iterable[Path]) -> None:
    """Refuse an output that is a survey file or among the files that are read, before any work is done."""
    from stemmap.tasks.destination import spare_records

    spare_records(target(output), read)


def progress_line() -> tuple[Progress, Callable[[], None]]:
    """Progress on standard error, one line that is written over, when somebody watches; and what wipes it."""
    from stemmap.progress import Progress

    if not sys.stderr.isatty():
        return Progress(), lambda: None

    def show(sentence: str, share: float | None) -> None:
        percent = "" if share is None else f" {share:4.0%}"
        click.echo(f"\r\033[K{sentence}{percent}", err=True, nl=False)

    return Progress(show), lambda: click.echo("\r\033[K", err=True, nl=False)


def logged_in() -> str:
    """Name of who is logged in."""
    import getpass

    try:
        return getpass.getuser()
    except (OSError, KeyError, ImportError):
        return ""
