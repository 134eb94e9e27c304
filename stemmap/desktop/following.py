"""Window and survey file as one: what is decided is shown at once, what others write is read along."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from time import sleep
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal, Slot

from stemmap.desktop.decision_words import when
from stemmap.desktop.keeping import Keeping
from stemmap.desktop.message_bar import Answer
from stemmap.desktop.session import Opened, prepare
from stemmap.errors import InputError

if TYPE_CHECKING:
    from stemmap.desktop.map_request import DescribedMap
    from stemmap.desktop.window import MainWindow
    from stemmap.progress import Progress
    from stemmap.store.newest import Newest
    from stemmap.survey.journal import Entry

#: So often a survey file is asked whether somebody else wrote into it, milliseconds.
_READ_ALONG_MS = 2000
#: So long after the last decision the whole survey is checked again, milliseconds.
_WHOLE_AFTER_MS = 300
#: So often a survey file that cannot be read is tried before it is given up, and seconds between.
_TRIES, _BETWEEN_TRIES_S = 3, 1.0


@dataclass(frozen=True)
class _Written:
    """What a survey file holds: numbers of the newest, the journal where it is longer, and who added uploads when.

    Or that it is no longer the file that was opened: somebody put another copy in its place.
    """

    newest: Newest
    journal: tuple[Entry, ...]
    added: Sequence[tuple[str, str]]
    replaced: bool = False


class Following(QObject):
    """Knows the survey file that is open and its journal, and keeps the session up with them.

    Signals
    -------
    told
        A sentence about what others wrote.
    written
        The journal has more entries.
    turned
        Another survey file is open, or none, or another moment of it is shown.

    Attributes
    ----------
    path
        The survey file that is open; None where uploads are.
    read_only
        Whether nothing can be stored in it.
    journal
        All entries that are known.
    as_of
        Number of the last entry that is shown; None: all of them.
    """

    told = Signal(str)
    written = Signal()
    turned = Signal()

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window, self._session, self._jobs = window, window.session, window.jobs
        self.path: Path | None = None
        self.read_only = False
        self.journal: tuple[Entry, ...] = ()
        self.as_of: int | None = None
        self._now: Opened | None = None
        self._known: Newest | None = None
        self._own: set[int] = set()
        self._whole = QTimer(self, singleShot=True, interval=_WHOLE_AFTER_MS)
        self._whole.timeout.connect(self._check_whole)
        self._along = QTimer(self, interval=_READ_ALONG_MS)
        self._along.timeout.connect(self.read_along)
        self._reading = False
        window.uploads.begun.connect(lambda: self._set_reading(reading=True))
        window.uploads.refused.connect(lambda: self._set_reading(reading=False))
        window.uploads.opened.connect(self._on_opened)
        self.keeping = Keeping(window, self)
        self.keeping.stored.connect(self._on_stored)

    def _set_reading(self, *, reading: bool) -> None:
        """Whether files are being read that will take the place of what is open."""
        self._reading = reading

    @Slot(object)
    def _on_opened(self, opened: Opened) -> None:
        """Follow the survey file that was opened, or none."""
        from stemmap.store.survey_file import is_writable

        survey, latest = opened.workup.survey, self._window.uploads.latest
        numbered = latest is not None and bool(survey.upload.upload_of_source)
        self.path = latest.paths[0] if numbered and latest is not None else None
        self.read_only = self.path is not None and not is_writable(self.path)
        self.journal = survey.decisions.entries
        self.keeping.holds(survey.settings)
        self.as_of, self._now, self._known, self._own = None, None, None, set()
        self._reading = False
        self._whole.stop()
        self._along.stop()
        self._window.offer_bar.call_off()
        if self.path is not None:
            self._along.start()
            self.keeping.layers_soon()  # a window that was closed or killed early may have left them behind
        if self.read_only and self.path is not None:
            words = self.tr(
                "{name} can only be read here: everything can be looked at, but nothing is stored. To decide, copy it "
                "to a folder of your own."
            ).format(name=self.path.name)
            QTimer.singleShot(0, self, lambda: self.told.emit(words))
        self.turned.emit()

    @property
    def settling(self) -> bool:
        """Whether the survey as a whole is still to be checked after the last decision."""
        return self._whole.isActive() or self._jobs.runs("survey")

    @Slot()
    def _on_stored(self) -> None:
        """Settings that were stored from here are nobody else's."""
        self._known = None

    # what is decided

    def took(self, entries: Sequence[Entry]) -> None:
        """Show what was stored in the file from here."""
        self._own |= {entry.entry for entry in entries}
        if entries and entries[0].entry == len(self.journal) + 1:
            self.journal = (*self.journal, *entries)
        else:
            self.read_along()  # others decided in between
        self.keeping.layers_soon()
        self.written.emit()
        self.show_decided()  # last, so that nothing here has to wait for the check

    def look(self, entry: int | None) -> None:
        """Show the survey as it was after an entry of the journal (0: before the first); None: as it is now."""
        before, self.as_of = self.as_of, entry if entry is None or entry < len(self.journal) else None
        if before is None and self.as_of is not None:
            self._now = self._session.opened
        if before != self.as_of:
            self.show_decided()
            self.turned.emit()

    def show_decided(self) -> None:
        """Check the plots that are decided otherwise than shown, at once; then the survey as a whole."""
        self._start(whole=False)

    @Slot()
    def _check_whole(self) -> None:
        self._start(whole=True)

    def _start(self, *, whole: bool) -> None:
        shown, path, as_of, journal = self._session.opened, self.path, self.as_of, self.journal
        if shown is None or path is None or self._reading:
            return
        self._whole.stop()
        if self._session.settings != shown.workup.survey.settings:
            self._whole.start()  # other settings are being worked out
            return
        if self._now is not None and self._now.workup.survey.upload is not shown.workup.survey.upload:
            shown = self._now  # what was shown had other records
        base, whole, canvas = shown, whole or not shown.checked, self._window.panels.map_panel.canvas
        describe = canvas.ahead()

        def work(progress: Progress) -> tuple[Opened, DescribedMap | None]:
            opened = replace(_decided(base, path, journal, as_of, whole=whole, progress=progress), as_of=as_of)
            # While nothing else goes on this is quick; beside the painting of all the rest it takes twice as long.
            return opened, describe(opened)

        def apply(made: tuple[Opened, DescribedMap | None]) -> None:
            opened, described = made
            if path == self.path and as_of == self.as_of:
                if as_of is None:
                    self._now = None
                canvas.take(described)
                self._session.update(opened)
                if not whole:
                    self._sum_up(opened)

        self._jobs.start("survey", work, apply=apply, shown=False)

    def _sum_up(self, shown: Opened) -> None:
        """Sum up many stems, which was left out at first; then check the survey as a whole."""
        summary = shown.workup.summary
        if summary.measured is shown.workup.measured or summary.survey.stems is shown.workup.survey.stems:
            self._whole.start()
            return

        def work(_progress: Progress) -> Opened:
            from stemmap.tasks.workup import summed_up

            return replace(prepare(summed_up(shown.workup)), as_of=shown.as_of)

        def apply(opened: Opened) -> None:
            self._session.update(opened)
            self._whole.start()

        self._jobs.start("survey", work, apply=apply, shown=False)

    # what others write

    @Slot()
    def read_along(self) -> None:
        """Take in what others wrote into the same survey file meanwhile, and say who and when."""
        path, journal, shown = self.path, self.journal, self._session.opened
        if path is None or shown is None or any(map(self._jobs.runs, ("along", "add", "settings", "known"))):
            return
        # At an earlier moment later uploads are left out.
        before = None if shown.as_of is not None else max(shown.workup.survey.upload.upload_of_source, default=0)

        def work(_progress: Progress) -> _Written | None:
            for _ in range(_TRIES - 1):
                try:
                    return _written(path, journal, before)
                except InputError:
                    # Perhaps a copy is just being put in its place.
                    sleep(_BETWEEN_TRIES_S)
            return _written(path, journal, before)

        def apply(found: _Written | None) -> None:
            if found is None or path != self.path:
                return
            if found.replaced:
                self._take_other(path)
                return
            known, self._known = self._known, found.newest
            fresh = found.journal[len(self.journal) :]
            if fresh:
                self.journal = found.journal
                self._tell_decided([entry for entry in fresh if entry.entry not in self._own])
                self.show_decided()
                self.written.emit()
            if found.added or (known is not None and found.newest.settings > known.settings):
                self._tell_added(found.added)

        self._jobs.start("along", work, apply=apply, refused=self._along.stop, shown=False)

    def _take_other(self, path: Path) -> None:
        """Read the copy that was put in the place of the file, as soon as the present is looked at."""
        if self.as_of is None and not self._jobs.runs("survey"):
            words = self.tr("Another copy of {name} was put in its place from outside; what it holds is being read.")
            self.told.emit(words.format(name=path.name))
            self.read_anew()

    def _tell_decided(self, fresh: Sequence[Entry]) -> None:
        if fresh:
            names = ", ".join(dict.fromkeys(entry.who for entry in fresh))
            words = self.tr("Decided meanwhile in this file by {names}: {count}, the last at {time}.")
            self.told.emit(words.format(names=names, count=len(fresh), time=when(fresh[-1].time)))

    def _tell_added(self, added: Sequence[tuple[str, str]]) -> None:
        """Read uploads and settings of others at once; in the round not before it suits."""
        words = self.tr("The settings of this file were changed by somebody else.")
        if added:
            who, time = added[-1]
            words = self.tr("{who} added an upload to this file, {time}.").format(who=who, time=when(time))
        if self._window.panels.round.active:
            self._window.offer_bar.offer("added", words, (Answer(self.tr("&Read it now"), self.read_anew),))
        else:
            self.read_anew()
            self.told.emit(words + " " + self.tr("It is being read."))

    @Slot()
    def read_anew(self) -> None:
        """Read the survey file again as a whole; what is selected stays selected."""
        path = self.path
        if path is None:
            return

        def work(progress: Progress) -> Opened:
            from stemmap.tasks.workup import open_uploads

            return prepare(open_uploads([path], progress=progress))

        def apply(opened: Opened) -> None:
            if path == self.path and self.as_of is None:
                self.show_added(opened)

        self._jobs.start("survey", work, apply=apply)

    def show_added(self, opened: Opened) -> None:
        """Show the survey with an upload that was added from here."""
        survey = opened.workup.survey
        self.journal, self._known = survey.decisions.entries, None
        self.keeping.holds(survey.settings)
        self._session.update(opened)
        self.written.emit()


def _decided(
    shown: Opened,
    path: Path,
    journal: tuple[Entry, ...],
    as_of: int | None,
    *,
    whole: bool,
    progress: Progress,
) -> Opened:
    """A survey as its journal says, or said as of an entry."""
    from stemmap.survey.decided import Decisions
    from stemmap.survey.survey import assemble
    from stemmap.tasks.stored import as_it_was
    from stemmap.tasks.workup import decide_again, work_up

    workup = shown.workup
    decisions = Decisions(journal if as_of is None else journal[:as_of])
    earlier = None if as_of is None else as_it_was(path, as_of)
    if earlier is None and not whole:
        again = decide_again(workup, decisions)
        if again is not None:
            return prepare(again)
    survey = earlier or assemble(workup.survey.upload, workup.survey.settings, decisions)
    return prepare(work_up(replace(survey, ground=workup.survey.ground), progress))


def _written(path: Path, journal: tuple[Entry, ...], upload_known: int | None) -> _Written | None:
    """What was written into a survey file; None while it is away or somebody is writing, it is asked again soon."""
    from stemmap.store.decisions import entries
    from stemmap.store.newest import added_after, goes_on, newest
    from stemmap.store.survey_file import Busy, opened

    if not path.exists():
        return None
    try:
        with opened(path, wait_s=0.5) as survey_file:
            now = newest(survey_file)
            if (journal and not goes_on(survey_file, journal[-1])) or now.upload < (upload_known or 0):
                return _Written(now, (), (), replaced=True)
            added = upload_known is not None and now.upload > upload_known
            return _Written(
                now,
                entries(survey_file) if now.entry > len(journal) else (),
                added_after(survey_file, upload_known or 0) if added else (),
            )
    except Busy:
        return None
