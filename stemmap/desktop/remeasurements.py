"""What crews bring back: tables of field packets taken into the open survey file, off the GUI thread, and told."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, QObject, Slot
from PySide6.QtWidgets import QFileDialog

from stemmap.desktop.actions import Entry
from stemmap.desktop.message_bar import Answer
from stemmap.desktop.session import Opened, prepare
from stemmap.desktop.wording import worded

if TYPE_CHECKING:
    from stemmap.desktop.window import MainWindow
    from stemmap.progress import Progress
    from stemmap.tasks.brought_back import Tally


class Remeasurements(QObject):
    """Takes in the tables of field packets, chosen or dropped."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window = window

    @Slot()
    def choose(self) -> None:
        """Ask for tables that crews filled in and take them in."""
        kinds = self.tr("Tables of field packets (*.xlsx *.csv *.txt *.tsv);;All files (*)")
        names, _ = QFileDialog.getOpenFileNames(self._window, self.tr("Re-measurements"), "", kinds)
        if names:
            self.bring([Path(name) for name in names])

    def sort(self, paths: Sequence[Path], others: Callable[[Sequence[Path]], object]) -> None:
        """Take in those of some files that are tables of field packets, and hand over the others, if there are any."""

        def work(_progress: Progress) -> list[Path]:
            from stemmap.tasks.remeasured import fill_in_tables

            return fill_in_tables(paths)

        def apply(tables: list[Path]) -> None:
            rest = [path for path in paths if path not in tables]
            if rest:
                others(rest)
            if tables:
                self.bring(tables)

        self._window.jobs.start("sort", work, apply=apply)

    def bring(self, paths: Sequence[Path]) -> None:
        """Take in tables that crews filled in."""
        following, names = self._window.deciding.following, ", ".join(path.name for path in paths)
        survey_path = following.path
        if survey_path is None:
            words = self.tr(
                "{names} is the table of a field packet: open the survey file that the crew was sent out from, then "
                "take it in there."
            )
            self._window.message_bar.tell(words.format(names=names))
            return
        if following.as_of is not None:
            words = self.tr("An earlier moment is shown, at which nothing can be taken in. First go back to now.")
            self._window.message_bar.tell(words)
            return
        who = self._window.deciding.who()
        if not who:
            return

        def work(progress: Progress) -> tuple[Opened, str, list[str]]:
            from stemmap.tasks.remeasured import bring_back

            made = bring_back(survey_path, paths, who=who, progress=progress)
            known = worded(made.sentence(survey_path.name)) if made.known_files else ""
            told = self._told(made.tally(), names) if made.new_rows else ""
            confirmed = [each["finding"] for each in made.confirmed()]
            return prepare(made.workup), f"{told} {known}".strip(), confirmed

        def apply(made: tuple[Opened, str, list[str]]) -> None:
            opened, sentence, confirmed = made
            if following.path == survey_path:
                following.show_added(opened)
                self._tell(sentence, confirmed)

        self._window.jobs.start("add", work, apply=apply)

    def _tell(self, sentence: str, confirmed: Sequence[str]) -> None:
        """Say what was taken in, with what can be done next."""
        answers = [Answer(self.tr("Sho&w"), self.show_findings)]
        if confirmed:
            words = self.tr("Values that are in doubt and were measured again alike: {count}.")
            sentence += " " + words.format(count=len(confirmed))
            why = self.tr("measured again within the tolerance")
            keep = self.tr("&Keep these {count}").format(count=len(confirmed))
            answers.append(Answer(keep, lambda: self._window.deciding.decide_all(confirmed, "keep", why)))
        self._window.message_bar.tell(sentence, answers)

    def _told(self, tally: Tally, names: str) -> str:
        """What a table came to, in one sentence."""
        return self.tr(
            "Taken in from {names}: filled-in rows {filled}, of them beyond the tolerance {beyond}, not found {gone}, "
            "new stems {new}, fitting nothing {loose}; findings to decide {open}."
        ).format(
            names=names,
            filled=tally.filled_in,
            beyond=tally.beyond,
            gone=tally.not_found,
            new=tally.new,
            loose=tally.unmatched,
            open=tally.to_decide,
        )

    def show_findings(self) -> None:
        """Bring the findings about what crews brought back to the front, and go to the first."""
        panels, workup = self._window.panels, self._window.session.workup
        panels.bring_forward("all-findings")
        column = QCoreApplication.translate("findings_table", "check")
        panels.findings_table.filter.setText(f"{column} {worded('remeasured')}")
        panels.findings_table.view.setFocus()
        if workup is not None:
            batches, of_place = workup.findings.batches, workup.findings.order.batch.tolist()
            first = (place for place, number in enumerate(of_place) if batches[number][0].slug == "remeasured")
            self._window.session.select_place(next(first, -1))


def remeasurement_commands(window: MainWindow) -> tuple[Entry, ...]:
    """Taking in what crews bring back."""
    return (
        Entry(
            "remeasurements",
            QCoreApplication.translate("commands", "Re-measureme&nts…"),
            QCoreApplication.translate(
                "commands", "Take in tables of field packets that crews filled in; no record is changed by it"
            ),
            window.remeasurements.choose,
            ("Ctrl+Shift+I",),
            "file",
        ),
    )
