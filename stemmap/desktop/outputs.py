"""What the window writes: stems, plot sheets, settings. It asks where, writes off the GUI thread, tells the place."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal, Slot
from PySide6.QtWidgets import QFileDialog, QWidget

from stemmap.desktop.jobs import Jobs
from stemmap.desktop.session import Session

if TYPE_CHECKING:
    from stemmap.progress import Progress


class Outputs(QObject):
    """Writes one thing at a time.

    Signals
    -------
    begun, written
        Writing began; it is done, with the sentence that says what was written where.
    """

    begun = Signal()
    written = Signal(str)

    def __init__(self, session: Session, jobs: Jobs, window: QWidget) -> None:
        super().__init__(window)
        self._session, self._jobs, self._window = session, jobs, window

    @property
    def busy(self) -> bool:
        """Whether something is being written."""
        return self._jobs.runs("writing")

    @Slot()
    def choose_stems(self) -> None:
        """Ask where to write the stems and write them."""
        workup = self._session.workup
        if workup is None:
            return

        def work(path: Path, progress: Progress) -> str:
            from stemmap.tasks.export import export_stems

            used = export_stems(workup, path, progress=progress)
            if used is None:
                return self.tr("The stems were written to {path} without coordinates: no plot centre is known.").format(
                    path=path
                )
            return self.tr("The stems were written to {path}, in {crs}.").format(path=path, crs=used)

        kinds = self.tr("GeoPackage (*.gpkg);;GeoJSON (*.geojson);;CSV (*.csv)")
        self._ask(self.tr("Export stems"), "stems.gpkg", kinds, work)

    @Slot()
    def choose_sheets(self) -> None:
        """Ask where to write the plot sheets and write them."""
        workup = self._session.workup
        if workup is None:
            return

        def work(path: Path, progress: Progress) -> str:
            from stemmap.tasks.sheets import write_sheets

            write_sheets(workup, path, progress=progress)
            return self.tr("The plot sheets were written to {path}; print them at 100 %.").format(path=path)

        self._ask(self.tr("Plot sheets as PDF"), "plot sheets.pdf", self.tr("PDF (*.pdf)"), work)

    @Slot()
    def choose_settings(self) -> None:
        """Ask where to write the settings and write them."""
        settings = self._session.settings
        if settings is None:
            return

        def work(path: Path, _progress: Progress) -> str:
            from stemmap.tasks.workup import save_settings

            save_settings(settings, path)
            return self.tr("The settings were saved to {path}.").format(path=path)

        self._ask(self.tr("Save settings"), "settings.toml", self.tr("Settings (*.toml)"), work)

    def _ask(self, title: str, name: str, kinds: str, work: Callable[[Path, Progress], str]) -> None:
        """Ask for a file name, then write."""
        if self.busy:
            return
        chosen, kind = QFileDialog.getSaveFileName(self._window, title, name, kinds)
        if not chosen:
            return
        path = Path(chosen)
        if not path.suffix:
            path = path.with_suffix(kind.partition("*")[2].partition(")")[0])
        self._jobs.start("writing", lambda progress: work(path, progress), apply=self.written.emit)
        self.begun.emit()
