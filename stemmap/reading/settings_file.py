"""The settings file of a survey: named by the user, among the files of the upload, or beside them."""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path
from typing import Any

from stemmap.errors import InputError
from stemmap.reading import remarks
from stemmap.reading.files import is_settings
from stemmap.survey.records import Remark
from stemmap.survey.settings import Settings, parse_settings

_SECTIONS = frozenset(
    {"survey", "measurement", "design", "sample", "errors", "instrument", "recheck", "tolerance", "status", "columns"}
)
_MOST_BYTES = 1 << 20


@dataclass(frozen=True)
class SettingsFound:
    """Which settings file belongs to an upload.

    Parameters
    ----------
    path
        The file, None where there is none.
    remarks
        What to say about the choice.
    """

    path: Path | None = None
    remarks: tuple[Remark, ...] = ()


def read_settings(path: Path | None = None, beside: Sequence[Path] = ()) -> Settings:
    """Settings of a survey.

    Parameters
    ----------
    path
        The settings file that was named; None: the one that `find_settings` finds, else the defaults.
    beside
        The files of the upload.

    Raises
    ------
    InputError
        When the file cannot be read, is no TOML (with the line) or says what is not allowed (with the key).
    """
    path = path or find_settings(beside).path
    if path is None:
        return Settings()
    table = _table(path)
    try:
        return parse_settings(table)
    except InputError as fault:
        raise InputError(f"{path.name}: {fault}") from fault


def find_settings(files: Sequence[Path]) -> SettingsFound:
    """The settings file among the files of an upload, else the only one in their folders.

    Raises
    ------
    InputError
        When several settings files are among the files.
    """
    among = list(dict.fromkeys(file for file in files if is_settings(file)))
    if len(among) > 1:
        raise InputError(f"Several settings files were given ({', '.join(map(str, among))}); give one.")
    if among:
        return SettingsFound(among[0])
    fitting: list[Path] = []
    broken: list[Remark] = []
    for candidate in _candidates(files):
        fault = ""
        try:
            sections = _table(candidate).keys()
        except InputError as told:
            fault = str(told)
        else:
            misspelt = [name for name in sections if get_close_matches(name, _SECTIONS, n=1, cutoff=0.75)]
            if _SECTIONS & sections:
                fitting.append(candidate)
            elif misspelt:
                fault = f"{candidate.name} has a section [{misspelt[0]}] that is not known, and none that is."
        if fault:
            sentence = f"{fault} It lies beside the upload and was not used; the upload was read without it."
            broken.append(Remark(remarks.SETTINGS_UNDECIDED, sentence, candidate.name))
    if len(fitting) == 1:
        name = fitting[0].name
        sentence = f"Settings were taken from {name} beside the upload, because none were named."
        return SettingsFound(fitting[0], (Remark(remarks.SETTINGS_FOUND, sentence, name),))
    if fitting:
        names = remarks.some((file.name for file in fitting), count=len(fitting))
        sentence = (
            f"Several settings files lie beside the upload ({names}); none was used. "
            "Open the right one together with the upload, or name it with --settings."
        )
        return SettingsFound(remarks=(Remark(remarks.SETTINGS_UNDECIDED, sentence, fitting[0].name),))
    return SettingsFound(remarks=tuple(broken[: remarks.NAMED]))


def _candidates(files: Sequence[Path]) -> list[Path]:
    folders = list(dict.fromkeys(file.parent for file in files))
    found = []
    for folder in folders:
        try:
            found += sorted(file for file in folder.iterdir() if is_settings(file) and file.is_file())
        except OSError:
            continue
    return found


def _table(path: Path) -> dict[str, Any]:
    try:
        if path.is_dir():
            raise InputError(f"{path.name or path} is a folder, not a settings file.")
        if path.exists() and not path.is_file():
            raise InputError(f"{path.name} is no ordinary file, so no settings file.")
        if path.stat().st_size > _MOST_BYTES:
            raise InputError(f"{path.name} is too large for a settings file.")
        return tomllib.loads(path.read_text("utf-8-sig"))
    except FileNotFoundError as fault:
        raise InputError(f"There is no settings file {path}; check its name and folder.") from fault
    except OSError as fault:
        raise InputError(f"{path.name} cannot be read: {fault.strerror or fault}.") from fault
    except UnicodeDecodeError as fault:
        raise InputError(f"{path.name} is not written in UTF-8; save it as UTF-8.") from fault
    except (ValueError, RecursionError) as fault:  # a number of thousands of digits is a plain ValueError
        raise InputError(
            f"{path.name} is no valid settings file (TOML): {fault}. Mend that line, or leave the file out."
        ) from fault
