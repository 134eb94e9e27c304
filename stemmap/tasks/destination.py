"""Where a result may go: never over what it was made from, and never over a survey file."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from stemmap.errors import OutputError
from stemmap.store.survey_file import is_survey_file


def spare_records(path: Path | None, read: Iterable[Path] = ()) -> None:
    """Refuse a place where a result would take the place of records.

    Parameters
    ----------
    path
        Where the result is to be written; None: to standard output.
    read
        The files that the result is made from.

    Raises
    ------
    OutputError
        When a survey file lies there, or one of `read`.
    """
    if path is None or not path.is_file():
        return
    if is_survey_file(path):
        raise OutputError(
            f"{path.name} is a survey file, with records and decisions in it; a result is never written over one. "
            "Choose another name."
        )
    if any(other.exists() and path.samefile(other) for other in read):
        raise OutputError(f"{path.name} is what the result is made from, and stays as it is. Choose another name.")
