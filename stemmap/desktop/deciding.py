"""Decisions in the window: stored in the survey file at once, the survey checked again behind them."""

from __future__ import annotations

import getpass
import os
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from PySide6.QtCore import QObject, QSettings, Qt, QTimer, Signal, Slot
from PySide6.QtWidgets import QFileDialog, QInputDialog

from stemmap.desktop.session import Opened, prepare
from stemmap.errors import StemmapError

if TYPE_CHECKING:
    from stemmap.desktop.window import MainWindow
    from stemmap.progress import Progress
    from stemmap.survey.journal import Entry

#: So often a survey file is asked whether somebody else decided, milliseconds.
_READ_ALONG_MS = 2000
#: So long after the last decision the layers of the survey file follow, milliseconds.
_LAYERS_AFTER_MS = 4000


class Deciding(QObject):
    """Stores decisions on the selected finding, and undoes them.

    Signals
    -------
    told
        A sentence about what was stored, or why it was not.
    decided
        The journal has another entry.
    """

    told = Signal(str)
    decided = Signal()

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window, self._session, self._jobs = window, window.session, window.jobs
        self._layers = QTimer(self, singleShot=True, interval=_LAYERS_AFTER_MS)
        self._layers.timeout.connect(self._refresh_layers)
        self._known = 0
        self._along = QTimer(self, interval=_READ_ALONG_MS)
        self._along.timeout.connect(self.read_along)
        self._session.replaced.connect(self._on_replaced)
        self._session.replaced.connect(self._keep_settings)
        self._session.visit_selected.connect(self._remember_place)
        window.uploads.opened.connect(self._return_to_place, Qt.ConnectionType.QueuedConnection)

    @Slot()
    def _on_replaced(self) -> None:
        workup = self._session.workup
        self._known = 0 if workup is None else max(self._known, len(workup.survey.decisions.entries))
        if self.survey_path is None:
            self._known = 0
            self._along.stop()
        elif not self._along.isActive():
            self._known = 0 if workup is None else len(workup.survey.decisions.entries)
            self._along.start()
            self._layers.start()  # a window that was closed or killed early may have left them behind

    @Slot()
    def read_along(self) -> None:
        """Take in what others decided in the same survey file meanwhile, and say who."""
        from stemmap.store.decisions import entries
        from stemmap.store.survey_file import newest_entry, opened

        path = self.survey_path
        if path is None or self._jobs.runs("survey"):
            return
        try:
            with opened(path) as survey_file:
                if newest_entry(survey_file) <= self._known:
                    return
                fresh = entries(survey_file)[self._known :]
        except StemmapError as fault:
            self._along.stop()
            self.told.emit(str(fault))
            return
        self._known = fresh[-1].entry
        names = ", ".join(dict.fromkeys(entry.who for entry in fresh))
        self.told.emit(
            self.tr("Decided meanwhile in this file by {names}: {count}. The survey is checked again.").format(
                names=names, count=len(fresh)
            )
        )
        self._work_up_again(path)
        self.decided.emit()

    @property
    def survey_path(self) -> Path | None:
        """The survey file that is open; None where uploads are."""
        workup, latest = self._session.workup, self._window.uploads.latest
        numbered = workup is not None and bool(workup.survey.upload.upload_of_source)
        return latest.paths[0] if numbered and latest is not None and len(latest.paths) == 1 else None

    def takes(self, paths: Sequence[Path]) -> bool:
        """Whether files can be added to what is open: a survey file is, and none of them is one."""
        from stemmap.store.survey_file import is_survey_file

        return self.survey_path is not None and not any(map(is_survey_file, paths))

    def decide(self, decision: str, why: str = "") -> bool:
        """Store a decision on the selected finding, as `stemmap decide` takes it; whether it was stored."""
        chosen = self._session.selected_finding
        if chosen is None:
            self.told.emit(self.tr("Choose a finding first: N goes to the next one."))
            return False
        wanted = int(decision.partition("=")[2] or 1) if decision.startswith("correct") else 0
        if wanted > max(len(chosen.proposals), 1 if chosen.meant else 0):
            self.told.emit(
                self.tr("There is no such proposal: K keeps the record, R sends the crew, E gives another value.")
            )
            return False
        return self._decide_on(chosen.id, decision, why)

    def _decide_on(self, finding: str, decision: str, why: str, *, fresh: bool = False) -> bool:
        """Store a decision; where the file does not list the finding yet, after its layers were made anew."""

        def store(path: Path, who: str) -> Entry:
            from stemmap.store.decisions import Request
            from stemmap.store.decisions import decide as store_decision
            from stemmap.store.survey_file import opened

            with opened(path, write=True) as survey_file:
                return store_decision(survey_file, Request(finding, decision, why, who))

        def make_known() -> None:
            self._refresh_layers(lambda: self._decide_on(finding, decision, why, fresh=True))

        entry = self._store(store, unknown=None if fresh else make_known)
        if entry is not None and self._window.panels.round.active:
            self._window.panels.round.go(1)
        return entry is not None

    @Slot()
    def undo(self) -> None:
        """Undo the last decision that holds."""
        self._turn("undo")

    @Slot()
    def redo(self) -> None:
        """Redo what was undone last."""
        self._turn("redo")

    def _turn(self, decision: Literal["undo", "redo"]) -> None:
        def store(path: Path, who: str) -> Entry:
            from stemmap.store.decisions import turn
            from stemmap.store.survey_file import opened

            with opened(path, write=True) as survey_file:
                return turn(survey_file, decision, who=who)

        self._store(store)

    def _store(self, store: Callable[[Path, str], Entry], *, unknown: Callable[[], None] | None = None) -> Entry | None:
        from stemmap.store.decisions import FindingUnknown

        path = self.survey_path
        if path is None:
            self.told.emit(self.tr("Decisions are kept in a survey file: choose File, Keep as survey file."))
            return None
        who = self.who()
        if not who:
            return None
        try:
            entry = store(path, who)
        except FindingUnknown as fault:
            if unknown is None:
                self.told.emit(str(fault))
            else:
                unknown()
            return None
        except StemmapError as fault:
            self.told.emit(str(fault))
            return None
        if entry.entry == self._known + 1:
            self._known = entry.entry
        self._window.statusBar().showMessage(self._sentence(entry), 8000)
        self._work_up_again(path)
        self._layers.start()
        self.decided.emit()
        return entry

    def _sentence(self, entry: Entry) -> str:
        words = {
            "correct": self.tr("Stored: {old} was meant to be {new}."),
            "value": self.tr("Stored: {new} holds in place of {old}."),
            "keep": self.tr("Stored: right as recorded."),
            "recheck": self.tr("Stored: the crew measures it again."),
            "undo": self.tr("Undone: entry {of}."),
            "redo": self.tr("Done again: entry {of}."),
        }[entry.decision]
        return words.format(old=entry.old, new=entry.new, of=entry.of)

    def _work_up_again(self, path: Path) -> None:
        """Check the survey again as it is decided now; the window goes on meanwhile."""
        workup = self._session.workup
        if workup is None:
            return
        upload, settings = workup.survey.upload, workup.survey.settings

        def work(progress: Progress) -> Opened:
            from stemmap.store.decisions import entries
            from stemmap.store.survey_file import opened
            from stemmap.survey.decided import Decisions
            from stemmap.survey.survey import assemble
            from stemmap.tasks.workup import work_up

            with opened(path) as survey_file:
                journal = entries(survey_file)
            return prepare(work_up(assemble(upload, settings, Decisions(journal)), progress))

        self._jobs.start("survey", work, apply=self._session.update, shown=False)

    def _refresh_layers(self, then: Callable[[], object] = lambda: None) -> None:
        path = self.survey_path
        if path is None:
            return

        def work(progress: Progress) -> None:
            from stemmap.store.survey_file import opened, stale
            from stemmap.tasks.survey_file import refresh_layers

            with opened(path) as survey_file:
                behind = stale(survey_file)
            if behind and os.access(path, os.W_OK):
                refresh_layers(path, progress)

        def apply(_nothing: None) -> None:
            then()

        self._jobs.start("layers", work, apply=apply, shown=False)

    @Slot()
    def _keep_settings(self) -> None:
        """Store settings that were changed in the window: what is on the screen is on the disk."""
        path, opened = self.survey_path, self._session.opened
        if path is None or opened is None or not opened.checked:
            return
        settings = opened.workup.survey.settings

        def work(_progress: Progress) -> None:
            from stemmap.tasks.survey_file import keep_settings

            keep_settings(path, settings, who=self.who(ask=False))

        self._jobs.start("settings", work, apply=lambda _nothing: None, shown=False)

    # who works, and where

    @Slot()
    def _remember_place(self) -> None:
        """Keep which plot is shown, so that the file opens there, also after a crash."""
        path, workup, row = self.survey_path, self._session.workup, self._session.visit
        if path is not None and workup is not None and row >= 0:
            visits = workup.survey.visits
            QSettings().setValue("survey/place", [str(path.absolute()), str(visits.plot[row]), str(visits.visit[row])])

    @Slot()
    def _return_to_place(self) -> None:
        """Go to the plot at which a survey file was left."""
        path, workup, kept = self.survey_path, self._session.workup, QSettings().value("survey/place")
        if path is None or workup is None or not isinstance(kept, list) or len(kept) != 3:
            return
        if str(kept[0]) == str(path.absolute()):
            self._session.select_visit(workup.survey.visit_row(str(kept[1]), str(kept[2])))

    def who(self, *, ask: bool = True) -> str:
        """Who decides: asked once, kept from one start to the next; empty when nobody wants to say."""
        kept = str(QSettings().value("survey/who", "", type=str))
        if kept or not ask:
            return kept or getpass.getuser()
        return self.ask_who()

    @Slot()
    def ask_who(self) -> str:
        """Ask who decides."""
        before = str(QSettings().value("survey/who", "", type=str)) or getpass.getuser()
        name, agreed = QInputDialog.getText(
            self._window, self.tr("Who decides?"), self.tr("Your name, as it shall stand in the journal:"), text=before
        )
        if agreed and name.strip():
            QSettings().setValue("survey/who", name.strip())
            return name.strip()
        return ""

    @Slot()
    def choose_survey_file(self) -> None:
        """Keep the open uploads as a survey file, and go on in it."""
        name, _ = QFileDialog.getSaveFileName(
            self._window, self.tr("Keep as survey file"), "survey.gpkg", self.tr("Survey file (*.gpkg)")
        )
        if name:
            self.keep_as(Path(name if name.lower().endswith(".gpkg") else f"{name}.gpkg"))

    def keep_as(self, path: Path) -> None:
        """Keep the open uploads as a survey file at a path where there is none."""
        latest, settings, who = self._window.uploads.latest, self._session.settings, self.who()
        if latest is None or settings is None or not who:
            return
        if path.exists():
            self.told.emit(self.tr("There is a file {name} already; choose another name.").format(name=path.name))
            return

        def work(progress: Progress) -> None:
            from stemmap.tasks.survey_file import add_uploads

            add_uploads(path, latest.paths, who=who, settings=settings, progress=progress)

        self._jobs.start("keep", work, apply=lambda _nothing: self._window.uploads.open([path]))
