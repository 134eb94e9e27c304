"""Work off the GUI thread: frozen inputs go out, one unchanging result comes back, and only if it is still wanted."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, Qt, QTimer, Signal, Slot
from shiboken6 import isValid

from stemmap.desktop.wording import worded
from stemmap.errors import Cancelled
from stemmap.progress import Progress

if TYPE_CHECKING:
    from concurrent.futures import ThreadPoolExecutor

#: Milliseconds between two looks at how far the work is.
_TICK = 100


@dataclass(frozen=True)
class _Outcome:
    number: int
    result: Any = None
    fault: BaseException | None = None


class _Run:
    """One piece of work; kept by `Jobs` until its outcome has been handled."""

    def __init__(self, number: int, channel: str, work: Callable[[Progress], Any]) -> None:
        self.channel = channel
        self.latest: tuple[str, float | None] = ("", None)
        self.progress = Progress(report=self._note)
        self._number, self._work = number, work

    def _note(self, sentence: str, share: float | None) -> None:
        self.latest = (sentence, share)

    def outcome(self) -> _Outcome:
        """Do the work; whatever happens to it is told on the GUI thread."""
        try:
            self.progress.step("")  # it may have been stopped while it waited for a thread
            return _Outcome(self._number, result=self._work(self.progress))
        except BaseException as fault:
            return _Outcome(self._number, fault=fault)


@dataclass(frozen=True)
class _Wanted:
    run: _Run
    apply: Callable[[Any], None]
    refused: Callable[[], None] | None
    shown: bool


class Jobs(QObject):
    """Runs work in channels: new work in a channel stops the older one, whose result is thrown away.

    Signals
    -------
    progressed
        Sentence and share done (-1: unknown) of the work shown to the user, ten times a second.
    idled
        No work shown to the user is left.
    failed
        The exception of a piece of work that is still wanted.
    """

    progressed = Signal(str, float)
    idled = Signal()
    failed = Signal(object)
    ended = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._pool: ThreadPoolExecutor | None = None
        self._closed = False
        self._count = 0
        self._wanted: dict[int, _Wanted] = {}
        self._clock = QTimer(self, interval=_TICK)
        self._clock.timeout.connect(self._on_tick)
        self.ended.connect(self._on_ended, Qt.ConnectionType.QueuedConnection)

    def start(
        self,
        channel: str,
        work: Callable[[Progress], Any],
        *,
        apply: Callable[[Any], None],
        refused: Callable[[], None] | None = None,
        shown: bool = True,
    ) -> None:
        """Run `work` and hand its result to `apply` on the GUI thread.

        Parameters
        ----------
        channel
            Work that is still running in it is stopped first.
        work
            Called on another thread; must touch no widget.
        apply
            Called on the GUI thread with the result.
        refused
            Called on the GUI thread when the work failed or was cancelled by the user, before `failed` is told.
        shown
            Whether progress is told.
        """
        if self._closed:
            return
        self.drop(channel)
        self._count += 1
        run = _Run(self._count, channel, work)
        self._wanted[self._count] = _Wanted(run, apply, refused, shown)
        self._threads().submit(lambda: self.ended.emit(run.outcome()))
        if shown:
            self._clock.start()

    @property
    def busy(self) -> bool:
        """Whether work shown to the user is under way."""
        return any(wanted.shown for wanted in self._wanted.values())

    def runs(self, channel: str) -> bool:
        """Whether work of a channel is under way."""
        return any(wanted.run.channel == channel for wanted in self._wanted.values())

    @Slot()
    def cancel(self) -> None:
        """Stop what is shown to the user at its next step."""
        for wanted in self._wanted.values():
            if wanted.shown:
                wanted.run.progress.stop.set()

    def close(self) -> None:
        """Stop everything and wait for it; from now on nothing is begun."""
        self._closed = True
        for number, wanted in list(self._wanted.items()):
            self._forget(number, wanted)
        self._clock.stop()
        if self._pool is not None:
            self._pool.shutdown()

    def _threads(self) -> ThreadPoolExecutor:
        """Python's own threads, made when the first work comes, after the first painting.

        One of Qt's pool would be a new thread to Python at every start but an old one to PROJ, whose context pyproj
        has freed meanwhile.
        """
        if self._pool is None:
            from concurrent.futures import ThreadPoolExecutor

            self._pool = ThreadPoolExecutor(3, thread_name_prefix="work")
        return self._pool

    def drop(self, channel: str) -> None:
        """Stop the work of a channel; what comes of it is thrown away."""
        for number, wanted in list(self._wanted.items()):
            if wanted.run.channel == channel:
                self._forget(number, wanted)

    def _forget(self, number: int, wanted: _Wanted) -> None:
        """Want a run no longer; what comes of it is thrown away."""
        wanted.run.progress.stop.set()
        del self._wanted[number]

    @Slot()
    def _on_tick(self) -> None:
        shown = [wanted.run for wanted in self._wanted.values() if wanted.shown]
        if shown:
            sentence, share = shown[-1].latest
            self.progressed.emit(worded(sentence), -1.0 if share is None else share)

    @Slot(object)
    def _on_ended(self, outcome: _Outcome) -> None:
        wanted = self._wanted.pop(outcome.number, None)
        if wanted is None:
            return
        if wanted.shown and not self.busy:
            self._clock.stop()
            self.idled.emit()
        if outcome.fault is None and wanted.run.progress.stop.is_set():
            outcome = _Outcome(outcome.number, fault=Cancelled("Stopped on request; nothing was changed."))
        if outcome.fault is None:
            owner = getattr(wanted.apply, "__self__", None)
            if not isinstance(owner, QObject) or isValid(owner):  # else its window was closed meanwhile
                wanted.apply(outcome.result)
            return
        if wanted.refused is not None:
            wanted.refused()
        self.failed.emit(outcome.fault)
