"""The catalogue of checks, made from the registry."""

from __future__ import annotations

from typing import TextIO

from stemmap import checks
from stemmap.reading import remarks  # noqa: F401 - declares what reading reports
from stemmap.survey.registry import catalogue


def write_catalogue(stream: TextIO) -> None:
    """Write every check with its family, severity and explanation."""
    checks.load()
    for slug, made in catalogue().items():
        title, _, rest = made.explanation.partition("\n")
        stream.write(f"{slug}  ({made.family}, {made.severity})\n    {title}\n")
        stream.writelines(f"    {line}\n" for line in rest.strip("\n").splitlines())
        stream.write("\n")
