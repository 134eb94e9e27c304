"""Verbs of the survey file: add, decide, journal, repair. Deciding loads nothing that takes time."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from io import TextIOWrapper
from pathlib import Path
from typing import TYPE_CHECKING, TextIO

import click

from stemmap.cli.options import Uploads, logged_in, output_option, progress_line, spare, target, upload_options
from stemmap.errors import InputError, OutputError, StemmapError

if TYPE_CHECKING:
    from stemmap.store.survey_file import SurveyFile
    from stemmap.survey.journal import Entry

_SURVEY = click.argument("survey", type=click.Path(path_type=Path))


@click.command()
@_SURVEY
@upload_options
@click.option("--who", default="", metavar="NAME", help="Who adds it; not given: who is logged in.")
@click.option(
    *("--replace/--keep", "replaces"),
    default=None,
    help="Which records hold where known plots differ: the new or the old.",
)
def add(survey: Path, uploads: Uploads, *, who: str, replaces: bool | None) -> None:
    """Add uploads to a survey file.

    The survey file (.gpkg) is made when there is none. It keeps every record as it was typed, so the same upload again
    adds nothing. Records of known plots that differ are told, and --replace or --keep says what is to happen: with
    --replace the new ones hold and the old ones stay readable as they were, with --keep the old ones hold.
    """
    from stemmap.tasks.survey_file import add_uploads

    progress, done = progress_line()
    added = add_uploads(
        survey,
        uploads.files,
        who=who or logged_in(),
        replace_known=replaces,
        settings=uploads.settings,
        radius_m=uploads.radius,
        columns=uploads.columns,
        progress=progress,
    )
    done()
    click.echo(added.sentence(survey.name), err=True)


@click.command()
@_SURVEY
@click.argument("finding")
@click.argument("decision", required=False)
@click.argument("why", nargs=-1)
@click.option("--who", default="", metavar="NAME", help="Who decides; not given: who is logged in.")
def decide(survey: Path, finding: str, decision: str | None, why: tuple[str, ...], *, who: str) -> None:
    """Store a decision on a finding.

    FINDING is the id that stemmap check tells. DECISION is one of

    \b
      correct    the most probable proposal holds; correct=2: the second
      value=X    this value holds
      keep       the record is right as it is
      recheck    a crew shall look again

    All further words are the reason. The record stays as typed: the decision is an entry of the journal, and the last
    entry on a finding holds. It is on the disk when "ok", the number of the entry and the finding are printed.

    \b
      stemmap decide SURVEY undo [ENTRY]   take the last decision back, or that one
      stemmap decide SURVEY redo [ENTRY]   let it hold again
      stemmap decide SURVEY -              read one decision a line: finding, decision, reason
    """  # noqa: D301 - the backspace tells click to keep the lines as they are
    from stemmap.store.survey_file import opened

    with opened(survey, write=True) as survey_file:
        if finding == "-":
            bad = decide_lines(survey_file, _whole_lines(sys.stdin), sys.stdout, who or logged_in())
        else:
            entry = _decide_one(survey_file, finding, decision, " ".join(why), who or logged_in())
            click.echo(f"ok {entry.entry} {entry.finding}")
            bad = 0
    try:
        _bring_layers_up_to_date(survey)
    except OutputError as fault:
        click.echo(f"stemmap: The layers for a GIS lag behind until the next decision: {fault}", err=True)
    if bad:
        raise click.exceptions.Exit(InputError.exit_code)


def _decide_one(survey_file: SurveyFile, finding: str, decision: str | None, why: str, who: str) -> Entry:
    from stemmap.store.decisions import FindingUnknown, Request, turn
    from stemmap.store.decisions import decide as store_decision

    if finding in ("undo", "redo"):
        number = None if decision is None else _entry_number(decision)
        return turn(survey_file, "undo" if finding == "undo" else "redo", number, who=who, why=why)
    if decision is None:
        raise InputError("Say what is decided: correct, correct=2, value=X, keep or recheck.")
    request = Request(finding, decision, why, who)
    try:
        return store_decision(survey_file, request)
    except FindingUnknown:
        # It may have come up through a decision that the layers do not know yet.
        if not _bring_layers_up_to_date(survey_file.path):
            raise
        return store_decision(survey_file, request)


def _whole_lines(stream: TextIO) -> TextIO:
    """A stream whose lines end where the file says so, and whose bytes that are no text stand in them as such."""
    if isinstance(stream, TextIOWrapper):
        stream.reconfigure(errors="surrogateescape", newline="\n")
    return stream


def decide_lines(survey_file: SurveyFile, lines: Iterable[str], answers: TextIO, who: str) -> int:
    """Store one decision a line, each answered when it is on the disk; returns how many were refused."""
    refused = 0
    for line in lines:
        text = line.rstrip("\r\n")
        if not text.strip():
            continue
        finding, _, rest = text.partition(" ")
        decision, _, why = rest.partition(" ")
        try:
            entry = _decide_one(survey_file, finding, decision or None, why, who)
            answer = f"ok {entry.entry} {entry.finding}"
        except StemmapError as fault:
            refused += 1
            # What is quoted may break lines, and every answer is one.
            answer = f"error {' '.join(str(fault).splitlines())}"
        answers.write(f"{answer}\n")
        answers.flush()
    return refused


def _entry_number(text: str) -> int:
    if not (text.isascii() and text.isdecimal()):
        raise InputError(f"{text!r} is no number of an entry; stemmap journal shows them.")
    return int(text)


def _bring_layers_up_to_date(survey: Path) -> bool:
    """Make the layers anew where a decision changed what they show; whether that was needed."""
    from stemmap.store.survey_file import opened, stale

    with opened(survey) as survey_file:
        if not stale(survey_file):
            return False
    from stemmap.tasks.survey_file import refresh_layers

    for name in refresh_layers(survey).kept:
        click.echo(
            "stemmap: Another program changed a layer. Layers are made from the records and the decisions; "
            f"the changed one was kept as {name}.",
            err=True,
        )
    return True


@click.command()
@_SURVEY
@click.option("--format", "form", type=click.Choice(["table", "json", "csv"]), default="table")
@click.option("--as-of", metavar="WHEN", help="Up to an entry's number or a time (UTC) such as 2026-11-25.")
@output_option
def journal(survey: Path, *, form: str, as_of: str | None, output: str) -> None:
    """Show all decisions: who, when, what, why. Those taken back stand in it too."""
    from stemmap.store.decisions import entries
    from stemmap.store.repair import readable
    from stemmap.survey.journal import moment, until
    from stemmap.writing.journal import write_journal
    from stemmap.writing.output import text_output

    spare(output, [survey])
    with readable(survey, lambda sentence: click.echo(f"stemmap: {sentence}", err=True)) as survey_file:
        told = entries(survey_file)
    if as_of is not None:
        told = until(told, moment(as_of))
    with text_output(target(output)) as stream:
        write_journal(stream, told, form)


@click.command()
@_SURVEY
@click.option(
    *("-o", "--output"),
    metavar="OUT",
    type=click.Path(path_type=Path),
    help="The new file; not given: SURVEY-repaired.gpkg beside it.",
)
def repair(survey: Path, *, output: Path | None) -> None:
    """Save what can be read from a damaged survey file.

    The damaged file stays as it is; everything that can still be read goes into a new one, and it is told what is lost.
    """
    from stemmap.tasks.survey_file import repair_survey

    target = output or survey.with_name(f"{survey.stem}-repaired.gpkg")
    click.echo(repair_survey(survey, target).sentence(survey.name, target.name), err=True)
