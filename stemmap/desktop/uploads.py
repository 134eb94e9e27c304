"""What the window reads: it asks for files, reads them off the GUI thread and hands over what is in them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal, Slot
from PySide6.QtWidgets import QFileDialog, QMainWindow

from stemmap.assets import sample_data
from stemmap.desktop.jobs import Jobs
from stemmap.desktop.recent import Recent, remember_survey
from stemmap.desktop.session import Opened, prepare

if TYPE_CHECKING:
    from stemmap.progress import Progress
    from stemmap.survey.settings import Settings


class Uploads(QObject):
    """Reads one upload at a time; what was open stays until the next one is there.

    Signals
    -------
    begun
        Reading began.
    opened
        There is a survey, with everything that the panels ask for.
    refused
        The files could not be used; `Jobs.failed` says why.

    Attributes
    ----------
    latest
        The upload read last, whether it could be used or not; None before the first.
    goes_on
        Whether what was opened last is the survey that was open already, in another file.
    """

    begun = Signal()
    opened = Signal(object)
    refused = Signal()

    def __init__(self, jobs: Jobs, window: QMainWindow) -> None:
        super().__init__(window)
        self._jobs, self._window = jobs, window
        self.latest: Recent | None = None
        self.goes_on = False

    @Slot()
    def choose(self) -> None:
        """Ask for the files of a survey and open them."""
        kinds = self.tr("Uploads (*.csv *.txt *.tsv *.xlsx *.geojson *.json *.gpkg *.toml);;All files (*)")
        names, _ = QFileDialog.getOpenFileNames(self._window, self.tr("Open uploads"), "", kinds)
        if names:
            self.open([Path(name) for name in names])

    @Slot()
    def open_sample(self) -> None:
        """Open the invented survey that comes with the program."""
        folder = sample_data("survey")
        files = (folder / "plots.csv", folder / "stems.csv")
        self.read(Recent(files, folder / "settings.toml"), remember=False)

    def open(
        self,
        paths: Sequence[Path],
        *,
        settings: Path | None = None,
        radius_m: float | None = None,
        columns: Mapping[str, str] | None = None,
        goes_on: bool = False,
    ) -> None:
        """Open files; as in `read`."""
        self.read(Recent(tuple(paths), settings, radius_m, MappingProxyType(dict(columns or {}))), goes_on=goes_on)

    def read(
        self, upload: Recent, under: Settings | None = None, *, remember: bool = True, goes_on: bool = False
    ) -> None:
        """Open an upload, under its own settings or under others.

        Parameters
        ----------
        remember
            Whether it is named among those opened lately.
        goes_on
            Whether it is the survey that is open, in another file: what is selected stays, and what was looked at.
        """

        def work(progress: Progress) -> Opened:
            from stemmap.tasks.workup import open_uploads

            if under is not None:
                return prepare(open_uploads(upload.paths, settings=under, progress=progress))
            return prepare(
                open_uploads(
                    upload.paths,
                    settings=upload.settings,
                    radius_m=upload.radius_m,
                    columns=upload.columns,
                    progress=progress,
                )
            )

        def apply(opened: Opened) -> None:
            if remember:
                remember_survey(upload)
            self.goes_on = goes_on
            self.opened.emit(opened)

        self.latest = upload
        self._jobs.start("survey", work, apply=apply, refused=self.refused.emit)
        self.begun.emit()
