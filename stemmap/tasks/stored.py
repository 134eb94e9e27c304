"""The survey that a survey file holds, as decided, now or at an earlier moment."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from pathlib import Path
from typing import Any

from stemmap.errors import InputError
from stemmap.reading.remarks import LAYER_EDITED, NAMED, RECORDS_EDITED, SURVEY_FILE_DAMAGED
from stemmap.store.decisions import entries
from stemmap.store.layers import edited_layers
from stemmap.store.newest import changed_after
from stemmap.store.repair import readable
from stemmap.store.survey_file import SurveyFile, opened
from stemmap.store.typed import Edited, read_stored
from stemmap.survey.decided import Decisions
from stemmap.survey.journal import moment, until
from stemmap.survey.records import Remark
from stemmap.survey.settings import parse_settings
from stemmap.survey.survey import Survey, assemble


def load(survey_file: SurveyFile, as_of: str | None = None) -> Survey:
    """The survey as decided.

    Parameters
    ----------
    as_of
        Number of a journal entry, or a time in ISO 8601; None: now.

    Raises
    ------
    InputError
        When the file is damaged, or `as_of` is neither.
    """
    journal = entries(survey_file)
    at = None if as_of is None else moment(as_of)
    if at is not None:
        journal = until(journal, at)
    stored = read_stored(survey_file, as_of=at)
    remarks = (*(_edited(each) for each in stored.edited), *stored.upload.remarks)
    upload = replace(stored.upload, remarks=remarks)
    return assemble(upload, parse_settings(_settings(survey_file.path, stored.toml)), Decisions(journal))


def _settings(path: Path, toml: str) -> dict[str, Any]:
    try:
        return tomllib.loads(toml)
    except (ValueError, RecursionError) as fault:
        raise InputError(
            f"Another program changed the settings in {path.name}, so that they cannot be read: {fault}."
        ) from fault


def _edited(edited: Edited) -> Remark:
    """What is not as it was uploaded, in words."""
    told = []
    if edited.lines:
        count, named = len(edited.lines), ", ".join(map(str, edited.lines[:NAMED]))
        lines = f"line {named}" if count == 1 else f"lines {named}{' and more' if count > NAMED else ''}"
        told.append(f"{count} record{'' if count == 1 else 's'} in it ({lines}) changed")
    if edited.missing:
        told.append(f"{edited.missing} missing")
    sentence = (
        f"Another program changed the records of {edited.source} in the survey file: {' and '.join(told)}. "
        "What stands there now is used; to have it as it was typed, add the file again with --replace."
    )
    return Remark(RECORDS_EDITED, sentence, edited.source, edited.lines[0] if len(edited.lines) == 1 else None)


def as_it_was(path: Path, entry: int) -> Survey | None:
    """The survey of the file at a path as it was after a journal entry; None where only decisions came since.

    Raises
    ------
    InputError
        When the file cannot be read.
    """
    with opened(path) as survey_file:
        return load(survey_file, str(entry)) if changed_after(survey_file, entry) else None


def load_path(path: Path, as_of: str | None = None) -> Survey:
    """The survey of the file at a path; as in `load`, of a damaged journal what can be read.

    A finding tells of damage, another one of layers that another program changed.

    Raises
    ------
    InputError
        When there is no such file too.
    """
    said: list[Remark] = []
    with readable(
        path, lambda sentence: said.append(Remark(SURVEY_FILE_DAMAGED, sentence, path.name))
    ) as survey_file:
        survey = load(survey_file, as_of)
        edited = [] if said else edited_layers(survey_file)
    if edited:
        layers = f"layer {edited[0]}" if len(edited) == 1 else f"layers {', '.join(edited)}"
        sentence = (
            f"Another program changed the {layers} in {path.name}; results come from the records and the decisions "
            "alone. Enter what was meant as decisions; what was changed is kept beside the layers that are made anew."
        )
        said.append(Remark(LAYER_EDITED, sentence, path.name))
    return replace(survey, upload=replace(survey.upload, remarks=(*said, *survey.upload.remarks)))
