"""The user's own ground under the map: which files were added to the open survey, and reading them."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, QObject, Signal, Slot
from PySide6.QtWidgets import QFileDialog, QWidget

from stemmap.desktop.jobs import Jobs
from stemmap.desktop.session import Session
from stemmap.desktop.survey_map import SurveyMap

if TYPE_CHECKING:
    from stemmap.progress import Progress
    from stemmap.survey.background import Background

_tr = QCoreApplication.translate


class MapBackgrounds(QObject):
    """What lies under the map of the open survey.

    Signals
    -------
    changed
        A background was added, or all were taken away.
    told
        A sentence on what was assumed, left out, or is missing.
    """

    changed = Signal()
    told = Signal(str)

    def __init__(self, session: Session, jobs: Jobs, survey: SurveyMap, parent: QObject) -> None:
        super().__init__(parent)
        self._session, self._jobs, self._survey = session, jobs, survey
        self._upload: object = None
        self.shown: tuple[Background, ...] = ()
        session.replaced.connect(self._on_replaced)
        survey.made.connect(self._on_plots_made)

    def choose(self, window: QWidget) -> None:
        """Ask for files and put them under the map."""
        endings = "*.gpkg *.geojson *.json *.tif *.tiff *.png *.jpg *.jpeg"
        kinds = _tr("backgrounds", "Layers and pictures ({endings});;All files (*)").format(endings=endings)
        names, _ = QFileDialog.getOpenFileNames(window, _tr("backgrounds", "Add background"), "", kinds)
        self.add([Path(name) for name in names])

    def add(self, paths: Sequence[Path]) -> None:
        """Read files off the GUI thread and put them under the map."""
        plots, files = self._survey.plots, tuple(paths)
        if not files:
            return
        if plots is None or plots.crs is None:
            self.told.emit(
                _tr("backgrounds", "A background needs plots with coordinates; nothing was added.")
            )
            return
        crs = plots.crs

        def work(progress: Progress) -> tuple[Background, ...]:
            from stemmap.tasks.backgrounds import read_background

            return tuple(read_background(path, crs, progress=progress) for path in files)

        self._jobs.start("background", work, apply=self._put)

    def _put(self, read: tuple[Background, ...]) -> None:
        plots = self._survey.plots
        if plots is None or any(background.crs != plots.crs for background in read):
            return
        self.shown += read
        self.changed.emit()
        remarks = [background.remark for background in read if background.remark]
        if remarks:
            self.told.emit(" ".join(remarks))

    @Slot()
    def clear(self) -> None:
        """Take all of them away."""
        if self.shown:
            self.shown = ()
            self.changed.emit()

    @Slot()
    def _on_replaced(self) -> None:
        workup = self._session.workup
        if workup is not None and workup.survey.upload is not self._upload:
            self._upload = workup.survey.upload
            self.clear()

    @Slot()
    def _on_plots_made(self) -> None:
        """Take them away when other settings have moved the map into another system."""
        plots = self._survey.plots
        if plots is not None and any(background.crs != plots.crs for background in self.shown):
            self.clear()
            self.told.emit(_tr("backgrounds", "The map lies in another system now; add the backgrounds again."))
