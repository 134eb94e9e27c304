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
        """Tell what those of some files that are tables of field packets would come to, and hand over the others."""

        def work(_progress: Progress) -> list[Path]:
            from stemmap.tasks.remeasured import fill_in_tables

            return fill_in_tables(paths)

        def apply(tables: list[Path]) -> None:
            rest = [path for path in paths if path not in tables]
            if rest:
                others(rest)
            if tables:
                self.offer(tables)

        self._window.jobs.start("sort", work, apply=apply)

    def _takes(self, paths: Sequence[Path]) -> Path | None:
        """The survey file that tables can be taken into; None, after a sentence, where there is none."""
        following = self._window.deciding.following
        if following.path is None:
            words = self.tr(
                "{names} is the table of a field packet: open the survey file that the crew was sent out from, then "
                "take it in there."
            )
            self._window.message_bar.tell(words.format(names=_names(paths)))
            return None
        if following.as_of is not None:
            words = self.tr("An earlier moment is shown, at which nothing can be taken in. First go back to now.")
            self._window.message_bar.tell(words)
            return None
        return following.path

    def offer(self, paths: Sequence[Path]) -> None:
        """Say what tables would come to, and take them in when that is wanted; until then nothing is stored."""
        survey_path = self._takes(paths)
        if survey_path is None:
            return

        def work(progress: Progress) -> tuple[str, bool]:
            from stemmap.tasks.remeasured import foresee

            made = foresee(survey_path, paths, progress=progress)
            known = worded(made.sentence(survey_path.name)) if not made.new_rows else ""
            return known or self._foretold(made.tally(), _names(paths), survey_path.name), bool(made.new_rows)

        def apply(made: tuple[str, bool]) -> None:
            sentence, fresh = made
            if self._window.deciding.following.path != survey_path:
                return
            if not fresh:
                self._window.message_bar.tell(sentence)
                return
            answers = (
                Answer(self.tr("&Take in"), lambda: self.bring(paths)),
                Answer(self.tr("&Not these"), lambda: None),
            )
            self._window.offer_bar.offer("remeasured", sentence, answers)

        self._window.jobs.start("foresee", work, apply=apply)

    def bring(self, paths: Sequence[Path]) -> None:
        """Take in tables that crews filled in."""
        following, survey_path = self._window.deciding.following, self._takes(paths)
        who = self._window.deciding.who() if survey_path is not None else ""
        if survey_path is None or not who:
            return

        def work(progress: Progress) -> tuple[Opened, str, list[str]]:
            from stemmap.tasks.remeasured import bring_back

            made = bring_back(survey_path, paths, who=who, progress=progress)
            known = worded(made.sentence(survey_path.name)) if made.known_files else ""
            told = self._told(made.tally(), _names(paths)) if made.new_rows else ""
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
        """What tables came to, with every row in it once."""
        return self.tr("Taken in from {names}, {rows}. Findings to decide: {open}.").format(
            names=names, rows=self._rows(tally), open=tally.to_decide
        )

    def _foretold(self, tally: Tally, names: str, survey: str) -> str:
        """What tables would come to."""
        plots = ", ".join(tally.plots[:5]) + (", …" if len(tally.plots) > 5 else "")
        return self.tr(
            "Take {names} into {survey}? For the plots {plots} it holds {rows}. No record changes; findings to decide "
            "would then be {open}. Nothing was stored yet."
        ).format(names=names, survey=survey, rows=self._rows(tally), plots=plots or "–", open=tally.to_decide)

    def _rows(self, tally: Tally) -> str:
        """The rows, by what became of them; those kinds that occur."""
        parts = (
            (tally.within, self.tr("within the tolerance {count}")),
            (tally.beyond, self.tr("beyond the tolerance {count}")),
            (tally.added, self.tr("with a value that was missing {count}")),
            (tally.bare, self.tr("found without a value {count}")),
            (tally.not_found, self.tr("not found {count}")),
            (tally.new, self.tr("new stems {count}")),
            (tally.unmatched, self.tr("fitting nothing {count}")),
            (tally.repeated, self.tr("written again further down {count}")),
            (tally.blank, self.tr("not filled in {count}")),
        )
        besides = (
            (tally.other_plot, self.tr("naming another plot than was printed {count}")),
            (tally.exchanged, self.tr("with the values of another row {count}")),
        )
        words = self.tr("{count} rows: {parts}").format(count=tally.rows, parts=_those(parts))
        among = _those(besides)
        return words + (self.tr("; among them {parts}").format(parts=among) if among else "")

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


def _names(paths: Sequence[Path]) -> str:
    return ", ".join(path.name for path in paths)


def _those(parts: Sequence[tuple[int, str]]) -> str:
    """The kinds that occur, each with its number."""
    return ", ".join(words.format(count=count) for count, words in parts if count)


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
