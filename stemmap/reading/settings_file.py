"""The settings file of a survey: named by the user, among the files of the upload, or beside them."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from stemmap.errors import InputError
from stemmap.reading import remarks
from stemmap.reading.files import is_settings
from stemmap.survey.records import Remark
from stemmap.survey.settings import Settings, parse_settings

_SECTIONS = frozenset({"survey", "measurement", "design", "errors", "instrument", "status", "columns"})
_MOST_BYTES = 1 << 20


@dataclass(frozen=True)
class SettingsRead:
    """Settings and where they come from.

    Parameters
    ----------
    settings
        The settings; defaults where no file was found.
    path
        The file, None where there is none.
    remarks
        What to say about the choice.
    """

    settings: Settings
    path: Path | None = None
    remarks: tuple[Remark, ...] = ()


def read_settings(path: Path | None = None, beside: Sequence[Path] = ()) -> SettingsRead:
    """Settings of a survey.

    Parameters
    ----------
    path
        The settings file that was named; None: one among the files of the upload, else the only one beside them.
    beside
        The files of the upload.

    Raises
    ------
    InputError
        When the file cannot be read, is no TOML (with the line) or says what is not allowed (with the key).
    """
    if path is not None:
        return SettingsRead(parse_settings(_table(path)), path)
    among = list(dict.fromkeys(file for file in beside if is_settings(file)))
    if len(among) > 1:
        raise InputError(f"Several settings files were given ({', '.join(map(str, among))}); give one.")
    if among:
        return SettingsRead(parse_settings(_table(among[0])), among[0])
    return _beside(beside)


def _beside(files: Sequence[Path]) -> SettingsRead:
    """The only settings file in the folders of the upload."""
    fitting: list[tuple[Path, Mapping[str, Any]]] = []
    broken: list[InputError] = []
    for candidate in _candidates(files):
        try:
            table = _table(candidate)
        except InputError as fault:
            broken.append(fault)
            continue
        if _SECTIONS & table.keys():
            fitting.append((candidate, table))
    if len(fitting) == 1:
        found, table = fitting[0]
        sentence = f"Settings were taken from {found.name} beside the upload, because none were named."
        return SettingsRead(parse_settings(table), found, (Remark(remarks.SETTINGS_FOUND, sentence, found.name),))
    if fitting:
        names = remarks.some((file.name for file, _ in fitting), count=len(fitting))
        sentence = f"Several settings files lie beside the upload ({names}); none was used. Name one with --settings."
        said = (Remark(remarks.SETTINGS_UNDECIDED, sentence, fitting[0][0].name),)
        return SettingsRead(Settings(), remarks=said)
    said = tuple(
        Remark(remarks.SETTINGS_UNDECIDED, f"{fault} It was not used.", str(fault).split(" ", 1)[0])
        for fault in broken[: remarks.NAMED]
    )
    return SettingsRead(Settings(), remarks=said)


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
            raise InputError(f"{path.name} is a folder, not a settings file.")
        if path.stat().st_size > _MOST_BYTES:
            raise InputError(f"{path.name} is too large for a settings file.")
        return tomllib.loads(path.read_text("utf-8-sig"))
    except FileNotFoundError as fault:
        raise InputError(f"There is no settings file {path}; check its name and folder.") from fault
    except OSError as fault:
        raise InputError(f"{path.name} cannot be read: {fault.strerror or fault}.") from fault
    except UnicodeDecodeError as fault:
        raise InputError(f"{path.name} is not written in UTF-8; save it as UTF-8.") from fault
    except (tomllib.TOMLDecodeError, RecursionError) as fault:
        raise InputError(f"{path.name} is no valid settings file (TOML): {fault}.") from fault
