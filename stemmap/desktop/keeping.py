"""What the survey file keeps besides decisions: settings changed in the window, and layers for a GIS."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal, Slot

if TYPE_CHECKING:
    from stemmap.desktop.following import Following
    from stemmap.desktop.window import MainWindow
    from stemmap.progress import Progress
    from stemmap.store.layers import Written
    from stemmap.survey.settings import Settings
    from stemmap.tasks.workup import Workup

#: So long after the last decision the layers follow, milliseconds.
_LAYERS_AFTER_MS = 4000


class Keeping(QObject):
    """Stores beside the decisions, off the GUI thread, what must not wait for somebody to save it.

    Signals
    -------
    stored
        Settings were stored from here.
    """

    stored = Signal()

    def __init__(self, window: MainWindow, following: Following) -> None:
        super().__init__(following)
        self._window, self._following = window, following
        self._session, self._jobs = window.session, window.jobs
        self._settings: Settings | None = None
        self._written: tuple[Path, Written] | None = None
        self._soon = QTimer(self, singleShot=True, interval=_LAYERS_AFTER_MS)
        self._soon.timeout.connect(self.refresh_layers)
        self._session.replaced.connect(self._keep_settings)

    # layers

    @Slot()
    def layers_soon(self) -> None:
        """Bring the layers up to date when nobody has decided for a while."""
        if self._following.path is not None:
            self._soon.start()

    @Slot()
    def refresh_layers(self) -> None:
        """Bring the layers of the survey file up to date, if they are not."""
        path, shown = self._following.path, self._session.opened
        if path is None or self._following.read_only or self._jobs.runs("known"):
            return
        if self._following.settling:
            self._soon.start()  # what is being computed for the window need not be computed for the layers again
            return
        workup = shown.workup if shown is not None and shown.checked and shown.as_of is None else None
        before = self._written[1] if self._written is not None and self._written[0] == path else None

        def apply(written: Written | None) -> None:
            self._written = None if written is None else (path, written)

        self._jobs.start("layers", lambda progress: _refresh(path, progress, workup, before), apply=apply, shown=False)

    def make_known(self, then: Callable[[], object]) -> None:
        """Put what is found under the settings shown into the layers, so that it can be decided; then go on."""
        path, opened, who = self._following.path, self._session.opened, self._window.deciding.who(ask=False)
        if path is None or opened is None:
            return
        workup = opened.workup
        settings = workup.survey.settings

        def work(progress: Progress) -> None:
            from stemmap.tasks.survey_file import keep_settings

            keep_settings(path, settings, who=who)
            _refresh(path, progress, workup)

        def apply(_nothing: None) -> None:
            self.stored.emit()
            then()

        self._jobs.start("known", work, apply=apply)

    # settings

    def holds(self, settings: Settings) -> None:
        """Take settings for those that the file has."""
        self._settings = settings

    @Slot()
    def _keep_settings(self) -> None:
        """Store settings that were changed in the window: what is on the screen is on the disk."""
        path, opened, following = self._following.path, self._session.opened, self._following
        if path is None or opened is None or not opened.checked or following.read_only:
            return
        if opened.as_of is not None or following.as_of is not None:
            return
        settings = opened.workup.survey.settings
        if settings == self._settings:
            return
        self._settings, who = settings, self._window.deciding.who(ask=False)

        def work(_progress: Progress) -> None:
            from stemmap.tasks.survey_file import keep_settings

            keep_settings(path, settings, who=who)

        def apply(_nothing: None) -> None:
            self.stored.emit()
            self.layers_soon()

        self._jobs.start("settings", work, apply=apply, shown=False)


def _refresh(path: Path, progress: Progress, workup: Workup | None, before: Written | None = None) -> Written | None:
    """Bring the layers up to date where they are not; returns how they were left, if that is known."""
    from stemmap.store.survey_file import is_writable, opened, stale
    from stemmap.tasks.survey_file import refresh_layers

    with opened(path) as survey_file:
        behind = stale(survey_file)
    if behind and is_writable(path):
        return refresh_layers(path, progress, workup=workup, before=before)
    return before
