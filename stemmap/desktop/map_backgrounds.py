"""The user's own ground under the map: which files were added to the open survey, and reading them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, QObject, Signal, Slot
from PySide6.QtWidgets import QFileDialog, QWidget

from stemmap.desktop.jobs import Jobs
from stemmap.desktop.session import Session
from stemmap.desktop.survey_map import SurveyMap
from stemmap.desktop.wording import worded

if TYPE_CHECKING:
    from stemmap.progress import Progress
    from stemmap.survey.background import Background

_tr = QCoreApplication.translate


@dataclass(frozen=True, eq=False)
class Ground:
    """A file of the user's own, or a layer of one.

    Parameters
    ----------
    path, layer
        The file, and the name of the layer where it has several.
    on
        Whether it lies under the map.
    read
        What is in it; None as long as nobody wanted to see it.
    """

    path: Path
    layer: str | None
    on: bool
    read: Background | None

    @property
    def title(self) -> str:
        """Name for the user."""
        return self.path.name if self.layer is None else f"{self.path.name}: {self.layer}"


class MapBackgrounds(QObject):
    """What lies under the map of the open survey.

    Signals
    -------
    changed
        A background was added, switched on or off, or all were taken away.
    told
        A sentence on what was assumed, left out, or is missing.
    """

    changed = Signal()
    told = Signal(str)

    def __init__(self, session: Session, jobs: Jobs, survey: SurveyMap, parent: QObject) -> None:
        super().__init__(parent)
        self._session, self._jobs, self._survey = session, jobs, survey
        self._upload: object = None
        self.grounds: tuple[Ground, ...] = ()
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
        """Read files off the GUI thread and put them under the map; of several layers only the first one."""
        plots, files = self._survey.plots, tuple(paths)
        if not files:
            return
        if plots is None or plots.crs is None:
            self.told.emit(
                _tr("backgrounds", "A background needs plots with coordinates; nothing was added.")
            )
            return
        crs = plots.crs

        def work(progress: Progress) -> tuple[Ground, ...]:
            from stemmap.tasks.backgrounds import background_layers, read_background

            grounds: list[Ground] = []
            for path in files:
                first, *others = background_layers(path) or (None,)
                read = read_background(path, crs, layer=first, progress=progress)
                grounds.append(Ground(path, first, on=True, read=read))
                grounds += [Ground(path, other, on=False, read=None) for other in others]
            return tuple(grounds)

        self._jobs.start("background", work, apply=self._put)

    def _put(self, added: tuple[Ground, ...]) -> None:
        if self._fits(added):
            self._have((*self.grounds, *added))
            sentences = [worded(ground.read.remark) for ground in added if ground.read and ground.read.remark]
            if any(ground.layer is not None for ground in added):
                sentences.append(_tr("backgrounds", "There are several layers; tick under Layers which are shown."))
            if sentences:
                self.told.emit(" ".join(sentences))

    def switch(self, ground: Ground, *, on: bool) -> None:
        """Put one of them under the map, read if need be, or take it from there; it can be switched back."""
        plots, switched = self._survey.plots, replace(ground, on=on)
        if ground.read is not None or plots is None or plots.crs is None:
            self._exchange(ground, switched)
            return
        crs = plots.crs

        def work(progress: Progress) -> Ground:
            from stemmap.tasks.backgrounds import read_background

            return replace(switched, read=read_background(ground.path, crs, layer=ground.layer, progress=progress))

        def apply(read: Ground) -> None:
            if self._fits((read,)):
                self._exchange(ground, read)

        self._jobs.start("background", work, apply=apply, refused=self.changed.emit)

    def _exchange(self, old: Ground, new: Ground) -> None:
        self._have(tuple(new if ground is old else ground for ground in self.grounds))

    def _fits(self, grounds: tuple[Ground, ...]) -> bool:
        """Whether what was read still lies in the system of the map."""
        plots = self._survey.plots
        return plots is not None and all(ground.read is None or ground.read.crs == plots.crs for ground in grounds)

    def _have(self, grounds: tuple[Ground, ...]) -> None:
        self.grounds = grounds
        self.shown = tuple(ground.read for ground in grounds if ground.on and ground.read is not None)
        self.changed.emit()

    @Slot()
    def clear(self) -> None:
        """Take all of them away."""
        if self.grounds:
            self._have(())

    @Slot()
    def _on_replaced(self) -> None:
        workup = self._session.workup
        if workup is not None and workup.survey.upload is not self._upload:
            self._upload = workup.survey.upload
            self.clear()

    @Slot()
    def _on_plots_made(self) -> None:
        """Take them away when other settings have moved the map into another system."""
        if self._survey.plots is not None and not self._fits(self.grounds):
            self.clear()
            self.told.emit(_tr("backgrounds", "The map lies in another system now; add the backgrounds again."))
