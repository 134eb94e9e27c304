"""Settings as a TOML file."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from stemmap.survey.settings import Settings, said_values
from stemmap.writing.output import text_output


def write_settings(settings: Settings, path: Path) -> None:
    """Write the settings that were said.

    Raises
    ------
    OutputError
        When the file cannot be written.
    """
    with text_output(path) as stream:
        stream.write(settings_text(settings))


def settings_text(settings: Settings) -> str:
    """The settings that were said, as TOML."""
    lines = []
    for section, values in said_values(settings).items():
        lines.append(f"[{section}]")
        lines += [f"{_key(key)} = {_value(value)}" for key, value in values.items()]
        lines.append("")
    return "".join(f"{line}\n" for line in lines)


def _key(key: str) -> str:
    return key if key.replace("_", "").isascii() and key.replace("_", "").isalnum() else _text(key)


def _value(value: Any) -> str:
    """A value as TOML writes it; a JSON string is a TOML basic string."""
    if isinstance(value, list):
        return f"[{', '.join(_value(item) for item in value)}]"
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key} = {_value(item)}" for key, item in value.items()) + "}"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int | float):
        return repr(value)
    return _text(str(value))


def _text(text: str) -> str:
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")
