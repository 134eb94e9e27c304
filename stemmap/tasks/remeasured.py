"""What crews bring back from field packets: taken into the survey file, told row by row, and taken over together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from stemmap.errors import InputError, OutputError
from stemmap.progress import Progress
from stemmap.reading import preview_upload, read_upload
from stemmap.store.decisions import Request, decide
from stemmap.store.records import UploadedFile, add_upload, files_brought_back, files_uploaded
from stemmap.store.survey_file import is_survey_file, opened
from stemmap.survey.finding import LIKELY
from stemmap.survey.records import Records, Upload
from stemmap.survey.returned import PacketRows, Returned, is_fill_in
from stemmap.tasks.brought_back import BroughtBack, brought_back
from stemmap.tasks.stored import load
from stemmap.tasks.survey_file import make_layers, refresh_layers, uploaded_file
from stemmap.tasks.workup import Workup, open_uploads, with_stand, work_up

#: All proposals, or those that are probably right.
Take = Literal["all", "likely"]

#: Kinds of files that crews fill in.
_FILLED_IN = frozenset((".csv", ".txt", ".tsv", ".xlsx"))


def fill_in_tables(paths: Sequence[Path]) -> list[Path]:
    """Those of some files that are tables of field packets; no more of each is read than tells it."""
    return [path for path in paths if path.suffix.lower() in _FILLED_IN and path.is_file() and _is_fill_in(path)]


def _is_fill_in(path: Path) -> bool:
    try:
        preview = preview_upload([path], {}, rows=1)
    except InputError:
        return False
    return any(is_fill_in(sheet.headings) for sheet in preview.sheets)


def bring_back(
    survey_path: Path, paths: Sequence[Path], *, who: str, take: Take | None = None, progress: Progress | None = None
) -> BroughtBack:
    """Take in tables that crews filled in: every row is kept as typed, a file that is there already changes nothing.

    Parameters
    ----------
    take
        Take proposals over at once, all or those that are likely, and keep the records that were confirmed; each is an
        entry of the journal.

    Raises
    ------
    InputError
        When there is no such survey file, or a table cannot be read, holds no stems or is an upload of the survey.
    OutputError
        When the survey file cannot be written.
    """
    progress = progress or Progress()
    if not who.strip():
        raise InputError("Nobody is named who takes this in; say it with --who NAME.")
    fresh, old = _fresh(survey_path, paths)
    new_rows, workup = 0, None
    if fresh:
        brought, files = _read(fresh, progress), [file for _, file in fresh]
        new_rows = _rows(brought)
        workup = _store(survey_path, brought, files, who=who, progress=progress)
    workup = workup or open_uploads([survey_path], progress=progress)
    made = replace(brought_back(workup), new_rows=new_rows, known_files=old)
    taken = _take_over(survey_path, made, take, who=who) if take else 0
    if not taken:
        return made
    refresh_layers(survey_path, progress)
    workup = open_uploads([survey_path], progress=progress)
    return replace(brought_back(workup), new_rows=new_rows, known_files=old, taken=taken)


def foresee(survey_path: Path, paths: Sequence[Path], *, progress: Progress | None = None) -> BroughtBack:
    """What tables that crews filled in would come to in a survey file; nothing is stored.

    Raises
    ------
    InputError, OutputError
        As in `bring_back`.
    """
    progress = progress or Progress()
    fresh, old = _fresh(survey_path, paths)
    if not fresh:
        return replace(brought_back(open_uploads([survey_path], progress=progress)), known_files=old)
    brought = _read(fresh, progress)
    with opened(survey_path, write=True) as survey_file, survey_file.trying() as connection:
        add_upload(connection, brought, [file for _, file in fresh], who="", replaces=False, gone={})
        survey = load(survey_file)
    workup = work_up(with_stand(survey, survey_path.parent, progress), progress)
    return replace(brought_back(workup), new_rows=_rows(brought), known_files=old)


def _fresh(survey_path: Path, paths: Sequence[Path]) -> tuple[Sequence[tuple[Path, UploadedFile]], tuple[str, ...]]:
    """Those of some files that the survey file does not have, each once, and the names of the others.

    Raises
    ------
    InputError
        When one is a survey file or an upload of the survey.
    """
    for path in paths:
        if is_survey_file(path):
            raise InputError(f"{path.name} is a survey file; give the table of a packet that a crew filled in.")
    with opened(survey_path) as survey_file:
        known, recorded = files_brought_back(survey_file), files_uploaded(survey_file)
    files = [(path, uploaded_file(path)) for path in paths]
    # Compared with itself, every record would be confirmed.
    themselves = ", ".join(file.name for _, file in files if file.sha256 in recorded)
    if themselves:
        raise InputError(f"{themselves}: the records themselves, not measured again; give what a crew filled in.")
    fresh = {file.sha256: (path, file) for path, file in files if file.sha256 not in known}
    return [*fresh.values()], tuple(file.name for path, file in files if (path, file) not in fresh.values())


def _rows(brought: Upload) -> int:
    return 0 if brought.returned is None else len(brought.returned.rows)


def _read(fresh: Sequence[tuple[Path, UploadedFile]], progress: Progress) -> Upload:
    """The rows of tables that were filled in, as they are added to a survey file."""
    upload = read_upload([path for path, _ in fresh], progress=progress)
    if not len(upload.stems):
        names = ", ".join(path.name for path, _ in fresh)
        raise InputError(f"{names} holds no rows of stems; give the table of the field packet, filled in.")
    rows = replace(upload.stems, table="remeasured")
    none: NDArray[np.object_] = np.zeros(0, object)
    zero = np.zeros(0, np.int64)
    asked = PacketRows(none, zero, zero.astype(bool), none, none, none, none, zero, zero, zero)
    return Upload(
        Records.empty("plots"),
        Records.empty("stems"),
        Records.empty("stations"),
        upload.sources,
        returned=Returned(rows, np.zeros(len(rows), np.int64), asked),
    )


def _store(
    survey_path: Path, brought: Upload, files: Sequence[UploadedFile], *, who: str, progress: Progress
) -> Workup:
    with opened(survey_path, write=True) as survey_file, survey_file.writing() as connection:
        if files_brought_back(survey_file) & {file.sha256 for file in files}:
            raise OutputError(f"Somebody else took the same into {survey_path.name} meanwhile; nothing was stored.")
        add_upload(connection, brought, files, who=who, replaces=False, gone={})
        workup = work_up(with_stand(load(survey_file), survey_path.parent, progress), progress)
        progress.step("Writing layers")
        make_layers(survey_file, workup)
    return workup


def _take_over(survey_path: Path, made: BroughtBack, take: Take, *, who: str) -> int:
    """Decide for proposals one by one; returns how many."""
    standing = made.workup.survey.decisions.standing
    # One that was kept and is there again was measured otherwise since.
    decided = {finding for finding, entry in standing.items() if entry.decision != "keep"}
    chosen = [
        each["finding"]
        for each in made.proposals()
        if each["finding"] not in decided and (take == "all" or (each["probability"] or 0.0) >= LIKELY)
    ]
    kept = [each["finding"] for each in made.confirmed() if each["finding"] not in standing]
    requests = [Request(finding, "correct", "measured again, taken over together", who) for finding in chosen]
    requests += [Request(finding, "keep", "measured again within the tolerance", who) for finding in kept]
    with opened(survey_path, write=True) as survey_file:
        for request in requests:
            decide(survey_file, request)
    return len(requests)
