"""What the window writes: stems, plot sheets, settings. It asks where, writes off the GUI thread, tells the place."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QLocale, QMimeData, QObject, Signal, Slot
from PySide6.QtGui import QGuiApplication, QImage
from PySide6.QtWidgets import QFileDialog

from stemmap.desktop.jobs import Jobs
from stemmap.desktop.languages import spoken_language
from stemmap.desktop.session import WHOLE_SURVEY, Session
from stemmap.desktop.wording import worded

if TYPE_CHECKING:
    from stemmap.desktop.printing import Printing
    from stemmap.desktop.window import MainWindow
    from stemmap.drawing.diagrams import Diagram
    from stemmap.drawing.layers import Layers
    from stemmap.progress import Progress
    from stemmap.survey.settings import Settings

#: How long a passing sentence is shown, milliseconds.
_SHOWN_MS: Final = 5000


class Outputs(QObject):
    """Writes one thing at a time.

    Signals
    -------
    begun, written
        Writing began; it is done, with the sentence that says what was written where.
    """

    begun = Signal()
    written = Signal(str)

    def __init__(self, session: Session, jobs: Jobs, window: MainWindow) -> None:
        super().__init__(window)
        self._session, self._jobs, self._window = session, jobs, window
        self._printing: Printing | None = None
        #: What is drawn on the map that is copied or saved; the window hands in what its own map shows.
        self.layers: Callable[[], Layers | None] = lambda: None

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

    @property
    def printing(self) -> Printing:
        """What asks for plot sheets and prints them; made at the first call, since printers are slow to find."""
        if self._printing is None:
            from stemmap.desktop.printing import Printing

            self._printing = Printing(self._jobs, self._window)
            self._printing.begun.connect(self.begun)
            self._printing.done.connect(self.written)
            self._printing.file_wanted.connect(self.choose_sheet_file)
        return self._printing

    @Slot()
    def choose_sheets(self) -> None:
        """Ask which plot sheets are wanted, and print them or write them as PDF."""
        workup = self._session.workup
        if workup is not None and not self.busy:
            self.printing.ask(workup, self._session.visit)

    @Slot()
    def choose_sheet_file(self) -> None:
        """Ask where to write the plot sheets that are wanted and write them."""
        workup, dialog = self._session.workup, self.printing.dialog
        if workup is None:
            return
        wanted = dialog.wanted

        def work(path: Path, progress: Progress) -> str:
            from stemmap.tasks.sheets import write_visits

            write_visits(workup, path, wanted.rows, wanted.options, progress=progress)
            return self.tr("The plot sheets were written to {path}; print them at 100 %.").format(path=path)

        if self._ask(self.tr("Plot sheets as PDF"), "plot sheets.pdf", self.tr("PDF (*.pdf)"), work):
            dialog.accept()

    @Slot()
    def choose_picture(self) -> None:
        """Ask where to write the map of the plot shown, as a picture, and write it."""
        workup, visit, layers = self._session.workup, self._session.visit, self.layers()
        if workup is None or self._lacks_plot():
            return

        def work(path: Path, _progress: Progress) -> str:
            from stemmap.tasks.sheets import write_picture

            write_picture(workup, path, visit, layers)
            return self.tr("The map was written to {path}.").format(path=path)

        name = f"plot {workup.survey.visits.plot[visit]}.png"
        self._ask(self.tr("Map as a picture"), name, self.tr("PNG (*.png);;SVG (*.svg)"), work)

    @Slot(tuple)
    def choose_diagrams(self, diagrams: tuple[Diagram, ...]) -> None:
        """Ask where to write diagrams of the spatial structure and write them."""

        def work(path: Path, _progress: Progress) -> str:
            from stemmap.tasks.diagrams import write_diagrams

            write_diagrams(diagrams, path, mark=QLocale().decimalPoint())
            return self.tr("The diagrams were written to {path}.").format(path=path)

        kinds = self.tr("SVG (*.svg);;PNG (*.png);;CSV (*.csv)")
        self._ask(self.tr("Save diagrams"), "structure.svg", kinds, work)

    @Slot()
    def choose_report(self) -> None:
        """Ask where to write the report and write it, in the language and with the decimal mark of the window."""
        workup = self._session.workup
        if workup is None:
            return

        def work(path: Path, progress: Progress) -> str:
            from stemmap.tasks.report import Spoken, write_report

            spoken = Spoken(code=spoken_language(), mark=QLocale().decimalPoint(), words=worded)
            write_report(workup, path, day=date.today(), spoken=spoken, progress=progress)
            return self.tr("The report was written to {path}.").format(path=path)

        kinds = self.tr("HTML (*.html);;PDF (*.pdf)")
        self._ask(self.tr("Report"), "report.html", kinds, work)

    @Slot()
    def copy_map(self) -> None:
        """Put the map of the plot shown on the clipboard, as a picture, as SVG, and its stems as a table."""
        workup, visit, layers = self._session.workup, self._session.visit, self.layers()
        if workup is None or self._lacks_plot():
            return

        def work(_progress: Progress) -> tuple[QImage, bytes, str]:
            from stemmap.drawing.targets import image_of, svg_of
            from stemmap.tasks.sheets import plot_picture, stems_as_text

            page = plot_picture(workup, visit, layers)
            return image_of(page), svg_of(page), stems_as_text(workup, visit)

        self._jobs.start("copying", work, apply=self._on_copied, shown=False)

    @Slot(object)
    def _on_copied(self, made: tuple[QImage, bytes, str]) -> None:
        image, drawing, table = made
        data = QMimeData()
        data.setImageData(image)
        data.setData("image/svg+xml", drawing)
        data.setData("text/tab-separated-values", table.encode())
        data.setText(table)
        QGuiApplication.clipboard().setMimeData(data)
        self._say(self.tr("The map is on the clipboard: as a picture, as SVG, and its stems as a table."))

    def _say(self, sentence: str) -> None:
        """Say something that need not stay."""
        self._window.statusBar().showMessage(sentence, _SHOWN_MS)

    def _lacks_plot(self) -> bool:
        """Whether no plot is selected; then it is said what to do."""
        if self._session.visit == WHOLE_SURVEY:
            self._say(self.tr("Select a plot first: the map of one plot is what is copied or saved."))
            return True
        return False

    @Slot()
    def choose_settings(self) -> None:
        """Ask where to write the settings and write them."""
        if self._session.settings is not None:
            self.save(self._session.settings)

    def save(self, settings: Settings) -> None:
        """Ask where to write some settings and write them."""

        def work(path: Path, _progress: Progress) -> str:
            from stemmap.tasks.workup import save_settings

            save_settings(settings, path)
            return self.tr("The settings were saved to {path}.").format(path=path)

        self._ask(self.tr("Save settings"), "settings.toml", self.tr("Settings (*.toml)"), work)

    def _ask(self, title: str, name: str, kinds: str, work: Callable[[Path, Progress], str]) -> bool:
        """Ask for a file name, then write; whether there was one."""
        if self.busy:
            return False
        chosen, kind = QFileDialog.getSaveFileName(self._window, title, name, kinds)
        if not chosen:
            return False
        path = Path(chosen)
        if not path.suffix:
            path = path.with_suffix(kind.partition("*")[2].partition(")")[0])
        latest = self._window.uploads.latest
        # Settings that were read are written over on purpose.
        read = [] if latest is None else [one for one in latest.paths if one.suffix.lower() != ".toml"]

        def sparing(progress: Progress) -> str:
            from stemmap.tasks.destination import spare_records

            spare_records(path, read)
            return work(path, progress)

        self._jobs.start("writing", sparing, apply=self.written.emit)
        self.begun.emit()
        return True
