"""Surveys opened lately, kept from one start to the next."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from types import MappingProxyType
from typing import Any

from PySide6.QtCore import QSettings, Slot
from PySide6.QtWidgets import QMenu, QWidget

_KEY = "recent/surveys"
MOST = 10


@dataclass(frozen=True)
class Recent:
    """What was opened: the arguments of `Uploads.open`."""

    paths: tuple[Path, ...]
    settings: Path | None = None
    radius_m: float | None = None
    columns: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))

    @property
    def title(self) -> str:
        """Names of the files, and the folder of the first."""
        names = ", ".join(path.name for path in self.paths[:3]) + (", …" if len(self.paths) > 3 else "")
        return f"{names} – {self.paths[0].parent}"

    @property
    def missing(self) -> bool:
        """Whether a file is no longer where it was."""
        return not all(path.exists() for path in [*self.paths, *([self.settings] if self.settings else [])])


def recent_surveys() -> list[Recent]:
    """Surveys opened lately, the last one first; what is kept but not understood is passed over."""
    try:
        kept = json.loads(str(QSettings().value(_KEY, "[]", type=str)))
        return [_read(one) for one in kept if one.get("paths")][:MOST]
    except (ValueError, TypeError, AttributeError):
        return []


def remember_survey(survey: Recent) -> None:
    """Put a survey on top of those opened lately."""
    paths = tuple(path.absolute() for path in survey.paths)
    settings = survey.settings.absolute() if survey.settings else None
    first = Recent(paths, settings, survey.radius_m, survey.columns)
    kept = [first, *(one for one in recent_surveys() if one.paths != paths)][:MOST]
    QSettings().setValue(_KEY, json.dumps([_written(one) for one in kept]))


def forget_surveys() -> None:
    """Forget all surveys opened lately."""
    QSettings().remove(_KEY)


def _read(kept: Mapping[str, Any]) -> Recent:
    settings = kept.get("settings")
    return Recent(
        tuple(Path(path) for path in kept["paths"]),
        Path(settings) if settings else None,
        kept.get("radius_m"),
        MappingProxyType(dict(kept.get("columns") or {})),
    )


def _written(survey: Recent) -> dict[str, Any]:
    return {
        "paths": [str(path) for path in survey.paths],
        "settings": str(survey.settings) if survey.settings else None,
        "radius_m": survey.radius_m,
        "columns": dict(survey.columns),
    }


class RecentMenu(QMenu):
    """Surveys opened lately; those whose files are gone are greyed.

    Parameters
    ----------
    parent
        The window.
    reopen
        Called with the survey chosen.
    """

    def __init__(self, parent: QWidget, reopen: Callable[[Recent], None]) -> None:
        super().__init__(parent)
        self.setTitle(self.tr("Open &recent"))
        self.setObjectName("recent")
        self.setToolTipsVisible(True)
        self._reopen = reopen
        self.aboutToShow.connect(self.fill)
        self.fill()

    @Slot()
    def fill(self) -> None:
        """Show what is kept now."""
        self.clear()
        surveys = recent_surveys()
        for number, survey in enumerate(surveys, start=1):
            title = survey.title.replace("&", "&&")
            action = self.addAction(f"&{number % 10}  {title}")
            action.setToolTip("\n".join(str(path) for path in survey.paths))
            action.setEnabled(not survey.missing)
            action.triggered.connect(lambda _checked=False, survey=survey: self._reopen(survey))
        if surveys:
            self.addSeparator()
            self.addAction(self.tr("&Forget these")).triggered.connect(forget_surveys)
        else:
            self.addAction(self.tr("Nothing was opened yet")).setEnabled(False)
