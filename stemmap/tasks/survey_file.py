"""The survey file as both shells use it: uploads added, the survey worked up as decided, its layers kept up to date."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass, replace
from pathlib import Path
from types import MappingProxyType

from stemmap.errors import InputError, OutputError, StemmapError
from stemmap.progress import Progress
from stemmap.reading import read_upload
from stemmap.store.decisions import entries
from stemmap.store.layers import Written, compare_layers, mark_decided, write_layers
from stemmap.store.newest import newest
from stemmap.store.records import UploadedFile, add_settings, add_upload, latest_settings, uploads_of
from stemmap.store.repair import Saved, repair
from stemmap.store.survey_file import SurveyFile, is_survey_file, opened
from stemmap.survey.difference import Difference, difference
from stemmap.survey.fields import Table
from stemmap.survey.returned import is_fill_in
from stemmap.survey.settings import Settings
from stemmap.survey.survey import Survey, assemble
from stemmap.tasks.gis_layers import layers_of
from stemmap.tasks.stored import load
from stemmap.tasks.workup import Workup, settings_of, with_stand, work_up
from stemmap.writing.settings import settings_text

_NO_COLUMNS: Mapping[str, str] = MappingProxyType({})


class KnownPlotsDiffer(InputError):
    """An upload has other records of plots that the survey file knows, and nobody said which of them hold."""

    def __init__(self, told: Difference) -> None:
        super().__init__(f"{told.sentence()} Say --replace to take the new records, or --keep the old ones.")
        self.difference = told


@dataclass(frozen=True)
class Added:
    """What adding an upload did.

    Parameters
    ----------
    upload
        Number of the upload; None when nothing was new.
    difference
        What it says of plots that were known; None for the first upload.
    workup
        The survey afterwards; None when nothing was new.
    """

    upload: int | None
    difference: Difference | None
    workup: Workup | None

    def sentence(self, name: str) -> str:
        """What was done, in words.

        Parameters
        ----------
        name
            Of the survey file.
        """
        if self.upload is None or self.workup is None:
            kept = self.difference is not None and self.difference.changes
            said = "Records that differ were left out, as you said." if kept else "Every record of it is there already."
            return f"Nothing was added to {name}. {said}"
        if self.difference is None:
            survey = self.workup.survey
            return f"{name} holds the upload now; stems: {len(survey.stems)}, visits of plots: {len(survey.visits)}."
        changes = f" {self.difference.sentence()}" if self.difference.changes else ""
        return f"{name} holds the upload now; new records: {self.difference.new}.{changes}"


def add_uploads(
    survey_path: Path,
    paths: Sequence[Path],
    *,
    who: str,
    replace_known: bool | None = None,
    settings: Path | Settings | None = None,
    radius_m: float | None = None,
    columns: Mapping[str, str] = _NO_COLUMNS,
    progress: Progress | None = None,
) -> Added:
    """Add an upload to a survey file, which is made when there is none.

    Parameters
    ----------
    replace_known
        What to do with records of known plots that differ: True: take the new ones (the old ones stay readable as
        they were), False: keep the old ones, None: refuse and say what differs.
    settings, radius_m, columns
        As in `open_uploads`; None: those of the survey file, for a new one those beside the upload.

    Raises
    ------
    KnownPlotsDiffer
        When known plots differ and it was not said what to do.
    InputError
        When nothing usable was read.
    OutputError
        When the survey file cannot be written.
    Cancelled
        When `progress` says so.
    """
    progress = progress or Progress()
    if not who.strip():
        raise InputError("Nobody is named who adds the upload; say it with --who NAME.")
    _refuse_names(survey_path, paths)
    files = [uploaded_file(path) for path in paths if path.is_file()]
    known, uploads = _known(survey_path)
    if known is not None and settings is None:
        settings = known.settings
    found, chosen = settings_of(paths, settings=settings, radius_m=radius_m, columns=columns)
    upload = read_upload(paths, columns=chosen.columns, progress=progress)
    if is_fill_in(upload.stems.other):
        names = ", ".join(path.name for path in paths)
        raise InputError(
            f"{names} is the table of a field packet; take it in with stemmap remeasured, in the window with File, "
            "Re-measurements."
        )
    upload = replace(upload, remarks=(*found.remarks, *upload.remarks))
    told = None
    gone: Mapping[Table, Sequence[tuple[int, int]]] = {}
    if known is not None:
        told = difference(known, assemble(upload, chosen))
        if told.changes and replace_known is None:
            raise KnownPlotsDiffer(told)
        if not (told.new or (told.changes and replace_known)) and chosen == known.settings:
            return Added(None, told, None)
        upload, gone = told.to_add(replaces=bool(replace_known))
    with (
        _made_or_removed(survey_path),
        opened(survey_path, write=True, create=True) as survey_file,
        survey_file.writing(who) as connection,
    ):
        if uploads_of(survey_file) != uploads:
            raise OutputError(f"Somebody else added to {survey_path.name} meanwhile; nothing was stored. Try again.")
        number = add_upload(connection, upload, files, who=who, replaces=bool(replace_known), gone=gone)
        if known is None or chosen != known.settings:
            add_settings(connection, settings_text(chosen), who=who)
        # The file holds it now, and there may be little memory.
        del upload
        workup = work_up(with_stand(load(survey_file), survey_file.path.parent, progress), progress)
        progress.step("Writing layers")
        make_layers(survey_file, workup)
    return Added(number, told, workup)


def _refuse_names(survey_path: Path, paths: Sequence[Path]) -> None:
    """Refuse a survey file in place of an upload, and a new one that nothing would know as such by its name."""
    for path in paths:
        if is_survey_file(path):
            raise InputError(f"{path.name} is a survey file, no upload; add the files that it was made of instead.")
    there = survey_path.exists() and survey_path.stat().st_size > 0
    if not there and survey_path.suffix.lower() != ".gpkg":
        raise InputError(f"{survey_path.name} cannot be a survey file: its name must end in .gpkg. Nothing was made.")


@contextmanager
def _made_or_removed(path: Path) -> Iterator[None]:
    """Remove a survey file that was made in vain, so that a full disk has its room back."""
    new = not path.exists()
    try:
        yield
    except BaseException:
        if new:
            with suppress(StemmapError, OSError), opened(path, write=True) as survey_file, survey_file.trying():
                # Another command may have come first.
                if not uploads_of(survey_file):
                    path.unlink()
        raise


def _known(path: Path) -> tuple[Survey | None, list[tuple[int, tuple[UploadedFile, ...]]]]:
    """The survey that a file holds and the uploads it was made of; nothing where there is no file yet."""
    if not path.exists() or path.stat().st_size == 0:
        return None, []
    with opened(path) as survey_file:
        uploads = uploads_of(survey_file)
        return (load(survey_file) if uploads else None), uploads


def uploaded_file(path: Path) -> UploadedFile:
    """Name, sum and size of a file.

    Raises
    ------
    InputError
        When it cannot be read.
    """
    try:
        if path.exists() and not path.is_file():
            raise InputError(f"{path.name or path} is no ordinary file.")
        with path.open("rb") as stream:
            total = hashlib.file_digest(stream, "sha256")
        name = os.fsencode(path.name).decode("utf-8", "replace")
        return UploadedFile(name, total.hexdigest(), path.stat().st_size)
    except OSError as fault:
        raise InputError(f"{path.name} cannot be read: {fault.strerror or fault}.") from fault


def refresh_layers(
    path: Path, progress: Progress | None = None, *, workup: Workup | None = None, before: Written | None = None
) -> Written:
    """Bring the layers of a survey file up to date with what is decided; only rows that differ are written.

    Parameters
    ----------
    workup
        The survey of the file as it was worked up before; it is used where it is that of the file's last decision,
        upload and settings, else the survey is worked up again.
    before
        How this process left the layers the last time, so that they need not be read again.

    Raises
    ------
    InputError, OutputError
        When the file cannot be read or written.
    """
    with opened(path, write=True) as survey_file:
        with survey_file.writing() as connection:
            if mark_decided(connection, entries(survey_file)):
                return before or Written()
        began = newest(survey_file)
        if workup is None or not _is_of(workup, survey_file):
            workup = work_up(with_stand(load(survey_file), survey_file.path.parent, progress), progress)
        known = len(workup.survey.decisions.entries)
        layers = layers_of(workup)
        differences = compare_layers(survey_file, layers, before)
        with survey_file.writing() as connection:
            # Somebody else may have made newer ones meanwhile.
            at = connection.execute("SELECT COALESCE(layers_at, 0) FROM survey_file").fetchone()[0]
            now = newest(survey_file)
            if at <= known and (now.upload, now.settings) == (began.upload, began.settings):
                return write_layers(connection, layers, differences)
    return before or Written()


def _is_of(workup: Workup, survey_file: SurveyFile) -> bool:
    """Whether a survey was checked as a whole as the file has it now."""
    survey, case = workup.survey, workup.case
    if case.survey is not survey or case.measured is not workup.measured:
        return False  # only some plots were checked after a decision
    upload = max(survey.upload.upload_of_source, default=0)
    return (
        survey.decisions.entries == entries(survey_file)
        and upload == newest(survey_file).upload
        and settings_text(survey.settings) == latest_settings(survey_file)
    )


def keep_settings(path: Path, settings: Settings, *, who: str) -> None:
    """Store settings in a survey file, if they are others than it holds.

    Raises
    ------
    InputError, OutputError
        When the file cannot be read or written.
    """
    with opened(path, write=True) as survey_file:
        text = settings_text(settings)
        if text != latest_settings(survey_file):
            with survey_file.writing(who) as connection:
                add_settings(connection, text, who=who)


def repair_survey(damaged: Path, repaired: Path) -> Saved:
    """Save what can be read from a damaged survey file into a new one, with layers if the survey can be put together.

    Raises
    ------
    InputError
        When there is no damaged file, it cannot be read at all, or the new one would not be known by its name.
    OutputError
        When there is a file at `repaired` already, or it cannot be written.
    """
    _refuse_names(repaired, [])
    saved = repair(damaged, repaired)
    if saved.rows["settings"] and saved.rows["uploads"]:
        try:
            refresh_layers(repaired)
        except (InputError, OutputError) as fault:
            return replace(saved, lagging=str(fault))
    return saved


def make_layers(survey_file: SurveyFile, workup: Workup) -> Written:
    """Bring the layers up to date with a survey, inside the caller's transaction."""
    return write_layers(survey_file.connection, layers_of(workup))
