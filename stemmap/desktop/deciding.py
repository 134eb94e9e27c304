"""Decisions in the window: stored in the survey file at once, the survey checked again behind them."""

from __future__ import annotations

import getpass
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from PySide6.QtCore import QObject, QSettings, Signal, Slot
from PySide6.QtWidgets import QFileDialog, QInputDialog

from stemmap.desktop.decision_words import adds_stem, decided_place, decision_words, when
from stemmap.desktop.following import Following
from stemmap.desktop.going_on import GoingOn
from stemmap.desktop.message_bar import Answer
from stemmap.desktop.sentences import field_words, strikes
from stemmap.desktop.storing import Storing
from stemmap.desktop.wording import worded
from stemmap.errors import InputError, StemmapError

if TYPE_CHECKING:
    from stemmap.desktop.window import MainWindow
    from stemmap.progress import Progress
    from stemmap.store.survey_file import SurveyFile
    from stemmap.survey.journal import Entry

    Store = Callable[[SurveyFile, str], Sequence[Entry]]


class Deciding(QObject):
    """Stores decisions on the selected finding or on several, and undoes them.

    Signals
    -------
    told
        A sentence about what was stored, or why it was not.
    """

    told = Signal(str)

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window, self._session, self._jobs = window, window.session, window.jobs
        self.following: Following = Following(window)
        self._storing = Storing(window.jobs, self)
        self._storing.told.connect(self._hold)
        self.following.told.connect(self.told)
        self._held = self._refused = ""
        self._going_on = GoingOn(window, self)
        for moved in (self._session.visit_selected, self._session.stem_selected, self._session.finding_selected):
            moved.connect(self.pass_over)

    @property
    def survey_path(self) -> Path | None:
        """The survey file that is open; None where uploads are."""
        return self.following.path

    def takes(self, paths: Sequence[Path]) -> bool:
        """Whether files can be added to what is open: a survey file is, and none of them is one."""
        from stemmap.store.survey_file import is_survey_file

        return self.survey_path is not None and not any(map(is_survey_file, paths))

    @Slot(str)
    def _hold(self, sentence: str) -> None:
        """Say why nothing is stored, until something is."""
        self._held = sentence
        self.told.emit(sentence)

    def _refuse(self, sentence: str) -> None:
        """Say why there is nothing to store, until something else is done."""
        self._refused = sentence
        self.told.emit(sentence)

    @Slot()
    def pass_over(self) -> None:
        """Say no longer why something was refused."""
        self._window.message_bar.withdraw(self._refused)

    # deciding

    def arrive(self) -> None:
        """Be at the finding that the next key is about: the one after the last that was decided."""
        self._going_on.arrive()

    def decide(self, decision: str, why: str = "") -> None:
        """Store a decision, as `stemmap decide` takes it, on the finding selected or those marked in their table."""
        self.arrive()
        marked = self._marked()
        if len(marked) > 1:
            self.decide_all(marked, decision, why)
            return
        chosen = self._session.selected_finding
        if chosen is None:
            self._refuse(self.tr("Choose a finding first: N goes to the next one."))
            return
        wanted = int(decision.partition("=")[2] or 1) if decision.startswith("correct") else 0
        if wanted > max(len(chosen.proposals), 1 if chosen.meant else 0):
            self._refuse(
                self.tr("There is no such proposal: K keeps the record, R sends the crew, E gives another value.")
            )
            return
        self._decide_on([chosen.id], decision, why or self._window.reason_line.text, self._on_decided)

    def _marked(self) -> list[str]:
        """Ids of the findings marked in their table, while it has the focus."""
        table, workup = self._window.panels.findings_table, self._session.workup
        if workup is None or not table.view.hasFocus():
            return []
        return [workup.findings.tell(table.model.shown.row_at(place)).id for place in table.marked_places()]

    def decide_all(self, findings: Sequence[str], decision: str, why: str = "") -> None:
        """Store one decision on several findings, with an entry for each."""

        def tell(entries: Sequence[Entry]) -> None:
            numbers = [entry.entry for entry in entries]
            words = self.tr("Stored for {count} findings: {what}.").format(
                count=len(entries), what=decision_words(entries[0]) if entries else "–"
            )
            if len(entries) < len(findings):
                words += " " + self.tr("{count} have no such proposal and stay as they are.").format(
                    count=len(findings) - len(entries)
                )
            words += " " + self.tr("Each is an entry of its own; Ctrl+Z takes them back one by one.")
            undo = Answer(self.tr("&Undo these {count}").format(count=len(entries)), lambda: self._undo_all(numbers))
            self._window.message_bar.tell(words, (undo,) if entries else ())
            self._going_on.go_on([entry.finding for entry in entries])

        self._decide_on(findings, decision, why or self._window.reason_line.text, tell)

    def _decide_on(
        self,
        findings: Sequence[str],
        decision: str,
        why: str,
        tell: Callable[[Sequence[Entry]], None],
        *,
        fresh: bool = False,
    ) -> None:
        """Store a decision; where the file does not list a finding yet, after its layers were made anew."""

        def store(survey_file: SurveyFile, who: str) -> Sequence[Entry]:
            from stemmap.store.decisions import Request, decide, decide_all

            requests = [Request(finding, decision, why, who) for finding in findings]
            if len(requests) == 1:
                return [decide(survey_file, requests[0])]
            return decide_all(survey_file, requests)[0]

        def make_known() -> None:
            self.following.keeping.make_known(lambda: self._decide_on(findings, decision, why, tell, fresh=True))

        self._store(store, tell, unknown=None if fresh else make_known)

    def _on_decided(self, entries: Sequence[Entry]) -> None:
        words = {
            "correct": self.tr("Stored: {old} was meant to be {new}."),
            "value": self.tr("Stored: {new} holds in place of {old}."),
            "keep": self.tr("Stored: right as recorded."),
            "recheck": self.tr("Stored: the crew measures it again."),
        }["value" if "/remeasured/" in entries[0].finding and entries[0].new else entries[0].decision]
        if entries[0].old is None and entries[0].new is not None:
            words = self.tr("Stored: {new} holds, where nothing was recorded.")
        if strikes(entries[0].field, entries[0].new):
            words = self.tr("Stored: struck; the record is kept as typed and counts nowhere.")
        if adds_stem(entries[0]):
            words = self.tr("Stored: taken over as a stem of the plot.")
        self._window.statusBar().clearMessage()  # the same words once more are news as well
        self._window.statusBar().showMessage(words.format(old=entries[0].old, new=entries[0].new), 8000)
        self._going_on.go_on([entries[0].finding])

    # taking back

    @Slot()
    def undo(self) -> None:
        """Undo the last decision that holds; that of somebody else only when it is said twice."""
        from stemmap.survey.journal import to_undo

        meant = self._meant(to_undo)
        if meant is None:
            return
        words = self.tr("The last decision is not yours: {who}, {when}, {plot}: {what}.").format(
            who=meant.who,
            when=when(meant.time),
            plot=decided_place(meant),
            what=decision_words(meant),
        )
        words += " " + self.tr("Undo it once more to take it back all the same.")
        if meant.who == self.who(ask=False) or self._window.message_bar.sentence == words:
            self._window.message_bar.withdraw(words)
            self._turn("undo", meant)
        else:
            self._window.message_bar.tell(words, (Answer(self.tr("&Undo it"), lambda: self._turn("undo", meant)),))

    @Slot()
    def redo(self) -> None:
        """Redo what was undone last."""
        from stemmap.survey.journal import to_redo

        meant = self._meant(to_redo)
        if meant is not None:
            self._turn("redo", meant)

    def _meant(self, find: Callable[[Sequence[Entry]], Entry]) -> Entry | None:
        """The decision that is meant, if there is one."""
        if self.survey_path is None:
            self._refuse(self.tr("Decisions are kept in a survey file: choose File, Keep as survey file."))
            return None
        try:
            return find(self.following.journal)
        except InputError as fault:
            self._refuse(worded(str(fault)))
            return None

    def _turn(self, decision: Literal["undo", "redo"], meant: Entry) -> None:
        why = self._window.reason_line.text

        def store(survey_file: SurveyFile, who: str) -> Sequence[Entry]:
            from stemmap.store.decisions import turn

            return [turn(survey_file, decision, meant.entry, who=who, why=why)]

        def tell(_entries: Sequence[Entry]) -> None:
            words = {
                "undo": self.tr("Undone: entry {entry} by {who}, {place}: {what}."),
                "redo": self.tr("Done again: entry {entry} by {who}, {place}: {what}."),
            }[decision]
            place = decided_place(meant)
            if meant.field and meant.new is None:  # otherwise the words of the decision name it
                place += f", {field_words(meant.field)}"
            sentence = words.format(entry=meant.entry, who=meant.who, place=place, what=decision_words(meant))
            self._window.statusBar().showMessage(sentence, 8000)

        self._store(store, tell)

    def _undo_all(self, numbers: Sequence[int]) -> None:
        def store(survey_file: SurveyFile, who: str) -> Sequence[Entry]:
            from stemmap.store.decisions import turn_all

            return turn_all(survey_file, "undo", numbers, who=who)

        def tell(entries: Sequence[Entry]) -> None:
            words = self.tr("Undone: {count} decisions, each with an entry of its own.")
            self._window.statusBar().showMessage(words.format(count=len(entries)), 8000)

        self._store(store, tell)

    # storing

    def _store(
        self,
        store: Store,
        tell: Callable[[Sequence[Entry]], None],
        *,
        unknown: Callable[[], None] | None = None,
    ) -> None:
        from stemmap.store.decisions import FindingUnknown

        path = self.survey_path
        if path is None:
            self._refuse(self.tr("Decisions are kept in a survey file: choose File, Keep as survey file."))
            return
        if self.following.as_of is not None:
            self._refuse(self.tr("An earlier moment is shown, at which nothing can be decided. First go back to now."))
            return
        who = self.who()
        if not who:
            return

        def apply(entries: Sequence[Entry]) -> None:
            self._window.reason_line.used()
            for sentence in (self._held, self._refused):
                self._window.message_bar.withdraw(sentence)
            tell(entries)
            if path == self.survey_path:
                self.following.took(entries)

        def refused(fault: StemmapError) -> None:
            if isinstance(fault, FindingUnknown) and unknown is not None:
                unknown()
            else:
                self._hold(worded(str(fault)))

        self._storing.store(path, lambda survey_file: store(survey_file, who), apply=apply, refused=refused)

    # who decides, and where

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

        def go_on(_nothing: None) -> None:
            self._window.uploads.open([path], goes_on=True)
            words = self.tr("The survey file {name} was made; what is decided from now on is kept in it.")
            self._window.statusBar().showMessage(words.format(name=path.name), 8000)

        self._jobs.start("keep", work, apply=go_on)
