"""The window. Only here may Qt's widgets be used."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PySide6.QtGui import QGuiApplication

__all__ = ["run"]

_NO_COLUMNS: Mapping[str, str] = MappingProxyType({})


def _widgets() -> type[QGuiApplication]:
    from PySide6.QtWidgets import QApplication

    return QApplication


def run(
    paths: Sequence[Path] = (),
    *,
    settings: Path | None = None,
    radius_m: float | None = None,
    columns: Mapping[str, str] = _NO_COLUMNS,
) -> int:
    """Open the window and stay until it is closed.

    Parameters
    ----------
    paths
        Uploads to open once the window is there.
    settings, radius_m, columns
        As for `stemmap.tasks.workup.open_uploads`.

    Returns
    -------
    Exit code of the program.

    Raises
    ------
    EnvironmentFault
        When there is no display or a system library is missing.
    """
    from stemmap.drawing.application import application

    started = application(_widgets, offscreen=False)

    from stemmap.desktop.program import run_window

    return run_window(started, paths, settings=settings, radius_m=radius_m, columns=columns)
