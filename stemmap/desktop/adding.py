"""Uploads added to the survey file that is open: read off the GUI thread, and asked about what they say otherwise."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal, Slot
from PySide6.QtWidgets import QFileDialog

from stemmap.desktop.message_bar import Answer
from stemmap.desktop.recent import recent_surveys
from stemmap.desktop.session import Opened, prepare
from stemmap.desktop.wording import worded

if TYPE_CHECKING:
    from stemmap.desktop.window import MainWindow
    from stemmap.progress import Progress
    from stemmap.survey.difference import Differing

#: So many records that differ are shown one by one.
_MOST_SHOWN = 2000


@dataclass(frozen=True)
class _Asked:
    """What an upload says otherwise: how many records by kind, on which plots, and the records."""

    counts: tuple[int, int, int, int]
    plots: Sequence[str]
    records: Sequence[Differing]


class Adding(QObject):
    """Adds uploads to the open survey file.

    Signals
    -------
    told
        A sentence about what was added, or why nothing was.
    """

    told = Signal(str)

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window = window

    @Slot()
    def choose(self, folder: Path | None = None) -> None:
        """Ask for the files of an upload and add them.

        Parameters
        ----------
        folder
            Where to look first.
        """
        kinds = self.tr("Uploads (*.csv *.txt *.tsv *.xlsx *.geojson *.json *.gpkg *.toml);;All files (*)")
        names, _ = QFileDialog.getOpenFileNames(self._window, self.tr("Add uploads"), str(folder or ""), kinds)
        if names:
            self.add([Path(name) for name in names])

    def offer_dropped(self, paths: Sequence[Path]) -> None:
        """Ask whether files that were dropped on the survey file are added to it or opened in its place."""
        survey_path = self._window.deciding.survey_path
        names = ", ".join(path.name for path in paths[:3]) + (", …" if len(paths) > 3 else "")
        self._window.offer_bar.offer(
            "dropped",
            self.tr("Add {names} to {survey}?").format(names=names, survey=survey_path.name if survey_path else ""),
            (
                Answer(self.tr("&Add"), lambda: self.add(paths)),
                Answer(self.tr("&Open in its place"), lambda: self._window.uploads.open(paths)),
            ),
        )

    def add(self, paths: Sequence[Path], *, replace_known: bool | None = None) -> None:
        """Add an upload; what it says otherwise about known plots is asked first."""
        survey_path = self._window.deciding.survey_path
        if survey_path is None:
            self.told.emit(self.tr("Uploads are added to a survey file: choose File, Keep as survey file, first."))
            return
        who, columns = self._window.deciding.who(), _columns_said(paths)
        if not who:
            return

        def work(progress: Progress) -> tuple[str, Opened | None] | _Asked:
            from stemmap.errors import HeadingsUnknown, InputError
            from stemmap.tasks.survey_file import KnownPlotsDiffer, add_uploads

            try:
                added = add_uploads(
                    survey_path, paths, who=who, replace_known=replace_known, columns=columns, progress=progress
                )
            except KnownPlotsDiffer as fault:
                told = fault.difference
                return _Asked(told.counts, told.plots(), told.records(_MOST_SHOWN))
            except HeadingsUnknown as fault:
                raise InputError(
                    f"{fault} Open the upload by itself and say there which column is which; then add it again."
                ) from fault
            fresh = None if added.workup is None else prepare(added.workup)
            return added.sentence(survey_path.name), fresh

        def apply(made: tuple[str, Opened | None] | _Asked) -> None:
            if isinstance(made, _Asked):
                self._ask(paths, made)
                return
            sentence, opened = made
            if opened is not None and self._window.deciding.survey_path == survey_path:
                self._window.deciding.following.show_added(opened)
            self.told.emit(worded(sentence))

        self._window.jobs.start("add", work, apply=apply)

    def _ask(self, paths: Sequence[Path], asked: _Asked) -> None:
        """Ask which records of known plots hold; until that is answered nothing is stored."""
        more, gone, changed, rows = asked.counts
        counts = (
            (more, self.tr("new stems {count}")),
            (gone, self.tr("stems gone {count}")),
            (changed, self.tr("changed stems {count}")),
            (rows, self.tr("changed plot rows {count}")),
        )
        sentence = self.tr(
            "The upload says otherwise what the survey file has of the same plots and visits: {what} (plots {plots}). "
            "Nothing was stored yet. Records that are replaced stay readable as they were."
        ).format(
            what=", ".join(words.format(count=count) for count, words in counts if count),
            plots=", ".join(asked.plots[:5]),
        )

        def show() -> None:
            from stemmap.desktop.difference_window import DifferenceWindow

            DifferenceWindow(self._window, self._window.jobs, asked.records).show()
            self._ask(paths, asked)

        self._window.offer_bar.offer(
            "differs",
            sentence,
            (
                Answer(self.tr("Sho&w them"), show),
                Answer(self.tr("&Replace the old ones"), lambda: self.add(paths, replace_known=True)),
                Answer(self.tr("&Keep the old ones"), lambda: self.add(paths, replace_known=False)),
            ),
        )


def _columns_said(paths: Sequence[Path]) -> Mapping[str, str]:
    """Which column is which field, if that was said when the same files were opened by themselves."""
    wanted = {path.absolute() for path in paths}
    return next((one.columns for one in recent_surveys() if set(one.paths) == wanted), {})
