"""The survey that a survey file holds, as decided, now or at an earlier moment."""

from __future__ import annotations

import tomllib
from pathlib import Path

from stemmap.store.decisions import entries
from stemmap.store.records import read_stored
from stemmap.store.survey_file import SurveyFile, opened
from stemmap.survey.decided import Decisions
from stemmap.survey.journal import moment, until
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
    """The survey of the file at a path; as in `load`.

    Raises
    ------
    InputError
        When there is no such file too.
    """
    with opened(path) as survey_file:
        return load(survey_file, as_of)
