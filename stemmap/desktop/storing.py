"""Writing into the survey file from the window: at once, or behind another program that is writing, one by one."""

from __future__ import annotations

import time
from collections import deque
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, QTimer, Signal, Slot

from stemmap.desktop.decision_words import when
from stemmap.desktop.jobs import Jobs
from stemmap.errors import StemmapError

if TYPE_CHECKING:
    from stemmap.progress import Progress
    from stemmap.store.survey_file import SurveyFile

#: So long the window stands still for another program that is writing.
_AT_ONCE_S = 0.03
#: So long it waits then without standing still, and how long it is silent about that.
_MOST_S, _SILENT_MS = 120.0, 400


@dataclass(frozen=True)
class _Wanted:
    path: Path
    work: Callable[[SurveyFile], Any]
    apply: Callable[[Any], None]
    refused: Callable[[StemmapError], None]


class Storing(QObject):
    """Keeps the order in which it was asked to store.

    Signals
    -------
    told
        Whom it waits for.
    """

    told = Signal(str)

    def __init__(self, jobs: Jobs, parent: QObject) -> None:
        super().__init__(parent)
        self._jobs = jobs
        self._waiting: deque[_Wanted] = deque()
        self._patience = QTimer(self, singleShot=True, interval=_SILENT_MS)
        self._patience.timeout.connect(self._on_long)

    def store(
        self,
        path: Path,
        work: Callable[[SurveyFile], Any],
        *,
        apply: Callable[[Any], None],
        refused: Callable[[StemmapError], None],
    ) -> None:
        """Write into a survey file.

        Parameters
        ----------
        work
            What is done with the file; a fault of it means that nothing was stored.
        apply, refused
            Called on the GUI thread with its result, when that is on the disk, or with its fault.
        """
        from stemmap.store.survey_file import Busy, opened

        wanted = _Wanted(path, work, apply, refused)
        if not self._waiting:
            try:
                with opened(path, write=True, wait_s=_AT_ONCE_S) as survey_file:
                    result = work(survey_file)
            except Busy:
                self._patience.start()
            except StemmapError as fault:
                refused(fault)
                return
            else:
                apply(result)
                return
        self._waiting.append(wanted)
        if len(self._waiting) == 1:
            self._begin()

    def _begin(self) -> None:
        wanted = self._waiting[0]

        def work(progress: Progress) -> Any:
            try:
                return _stored(wanted, progress)
            except StemmapError as fault:
                return fault

        self._jobs.start("store", work, apply=self._on_stored, refused=self._on_gone, shown=False)

    @Slot(object)
    def _on_stored(self, result: Any) -> None:
        wanted = self._go_on()
        if isinstance(result, StemmapError):
            wanted.refused(result)
        else:
            wanted.apply(result)

    def _on_gone(self) -> None:
        """It failed with a fault that has no sentence, which is told by whoever runs the jobs."""
        self._go_on()

    def _go_on(self) -> _Wanted:
        self._patience.stop()
        done = self._waiting.popleft()
        if self._waiting:
            self._begin()
        return done

    @Slot()
    def _on_long(self) -> None:
        from stemmap.store.writer import writer_of

        if not self._waiting:
            return
        path = self._waiting[0].path
        writer = writer_of(path)
        if writer is None:
            words = self.tr("Another program is writing into {name}.").format(name=path.name)
        else:
            words = self.tr(
                "{who} on the computer {computer} (process {process}) has been writing into {name} since {since}."
            ).format(
                who=writer.who,
                computer=writer.computer,
                process=writer.process,
                name=path.name,
                since=when(writer.since),
            )
        self.told.emit(words + " " + self.tr("What you decided is stored as soon as that is done."))


def _stored(wanted: _Wanted, progress: Progress) -> Any:
    """Store behind whoever is writing.

    Raises
    ------
    StemmapError
        When it cannot be stored, or takes too long.
    """
    from stemmap.store.survey_file import Busy, opened

    began = time.monotonic()
    while True:
        progress.step("")  # the window may be closing
        try:
            with opened(wanted.path, write=True, wait_s=0.25) as survey_file:
                return wanted.work(survey_file)
        except Busy:
            if time.monotonic() - began > _MOST_S:
                raise
