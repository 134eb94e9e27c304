"""The survey that a survey file holds, as decided, now or at an earlier moment."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from pathlib import Path

from stemmap.reading.remarks import SURVEY_FILE_DAMAGED
from stemmap.store.decisions import entries
from stemmap.store.records import read_stored
from stemmap.store.repair import readable
from stemmap.store.survey_file import SurveyFile
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
    if as_of is None:
        stored = read_stored(survey_file)
    else:
        journal = until(journal, moment(as_of))
        stored = read_stored(survey_file, as_of=moment(as_of))
    return assemble(stored.upload, parse_settings(tomllib.loads(stored.toml)), Decisions(journal))


def load_path(path: Path, as_of: str | None = None) -> Survey:
    """The survey of the file at a path; as in `load`. Of a damaged journal what can be read, with a finding.

    Raises
    ------
    InputError
        When there is no such file too.
    """
    damage: list[Remark] = []
    with readable(
        path, lambda sentence: damage.append(Remark(SURVEY_FILE_DAMAGED, sentence, path.name))
    ) as survey_file:
        survey = load(survey_file, as_of)
    return replace(survey, upload=replace(survey.upload, remarks=(*damage, *survey.upload.remarks)))
