"""Plot sheets on real printers: preview, page setup, print; the same pages and painter as the PDF, true to scale."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from PySide6.QtCore import QMarginsF, QObject, Signal, Slot
from PySide6.QtGui import QPageLayout, QPageSize, QPainter
from PySide6.QtPrintSupport import QPageSetupDialog, QPrintDialog, QPrinter, QPrinterInfo, QPrintPreviewDialog
from PySide6.QtWidgets import QDialog, QWidget

from stemmap.desktop.jobs import Jobs
from stemmap.desktop.sheets_dialog import SheetsDialog
from stemmap.errors import Cancelled, OutputError

if TYPE_CHECKING:
    from stemmap.drawing.page import Page
    from stemmap.progress import Progress
    from stemmap.tasks.workup import Workup

#: Sheets in a preview, which paints all its pages at once while the window waits.
MOST_PREVIEWED = 8
_MILLIMETRES_PER_INCH = 25.4
_PAPERS = {
    "A4": QPageSize.PageSizeId.A4,
    "A3": QPageSize.PageSizeId.A3,
    "Letter": QPageSize.PageSizeId.Letter,
}


def paint_sheets(pages: Iterable[Page], printer: QPrinter) -> int:
    """Paint pages on a printer true to scale, each in the middle of its paper; the number of pages.

    Parameters
    ----------
    pages
        Each is asked for when the one before it is painted.
    printer
        Its page must be full, that is, count from the edge of the paper.

    Raises
    ------
    OutputError
        When the printer takes no page.
    """
    from stemmap.drawing.painter import paint_page

    painter, count = QPainter(), 0
    try:
        for page in pages:
            begun = printer.newPage() if painter.isActive() else painter.begin(printer)
            if not begun:
                raise OutputError("The printer takes no page; look whether it is ready, and print again.")
            count += 1
            per_millimetre = printer.logicalDpiX() / _MILLIMETRES_PER_INCH
            paper = printer.pageLayout().fullRect(QPageLayout.Unit.Millimeter)
            painter.save()
            painter.translate(
                (paper.width() - page.width_mm) / 2.0 * per_millimetre,
                (paper.height() - page.height_mm) / 2.0 * per_millimetre,
            )
            paint_page(page, painter, per_millimetre)
            painter.restore()
    finally:
        if painter.isActive():
            painter.end()
    return count


class Printing(QObject):
    """Asks which sheets are wanted and prints them.

    Signals
    -------
    begun, done
        Printing began; it is done, with the sentence that says so.
    file_wanted
        The sheets chosen are wanted as a PDF.
    """

    begun = Signal()
    done = Signal(str)
    file_wanted = Signal()

    def __init__(self, jobs: Jobs, window: QWidget) -> None:
        super().__init__(window)
        self._jobs, self._window = jobs, window
        self._workup: Workup | None = None
        self._made: QPrinter | None = None
        self.dialog = SheetsDialog(window)
        self.dialog.print_wanted.connect(self.choose_printer)
        self.dialog.preview_wanted.connect(self.preview)
        self.dialog.setup_wanted.connect(self.set_up_page)
        self.dialog.file_wanted.connect(self.file_wanted)

    @property
    def printer(self) -> QPrinter:
        """The printer; the paper is that of the sheets, and counted from its edge."""
        if self._made is None:
            self._made = QPrinter(QPrinter.PrinterMode.HighResolution)
            self._made.setFullPage(True)
            self._made.setCreator("stemmap")
        return self._made

    def ask(self, workup: Workup, visit: int) -> None:
        """Ask which sheets of a survey are wanted."""
        self._workup = workup
        # Qt's page setup speaks to printers only, and to nobody where there is none.
        self.dialog.setup_button.setEnabled(bool(QPrinterInfo.availablePrinterNames()))
        self.dialog.ask(workup, visit)

    @Slot()
    def choose_printer(self) -> None:
        """Ask for the printer and print."""
        self._lay_paper()
        asked = QPrintDialog(self.printer, self.dialog)
        asked.setOption(QPrintDialog.PrintDialogOption.PrintPageRange, on=False)
        asked.accepted.connect(self.print_sheets)
        asked.finished.connect(asked.deleteLater)
        QDialog.open(asked)  # its own open() asks for a receiver

    @Slot()
    def print_sheets(self) -> None:
        """Print what is chosen on the printer that is set, off the GUI thread."""
        workup, wanted, printer = self._workup, self.dialog.wanted, self.printer
        if workup is None or self._jobs.runs("writing"):
            return
        printer.setDocName(self.tr("Plot sheets"))
        warning = self._about_margins()

        def work(progress: Progress) -> str:
            from stemmap.tasks.sheets import document

            try:
                count = paint_sheets(document(workup, wanted.rows, wanted.options, progress=progress), printer)
                progress.step("")  # also when it was stopped at the last page
            except Cancelled as stopped:
                words = self.tr("Printing was stopped; pages that the printer has already may still come out.")
                raise Cancelled(words) from stopped
            return " ".join(part for part in (self.tr("Pages printed: {count}.").format(count=count), warning) if part)

        self.dialog.accept()
        self._jobs.start("writing", work, apply=self.done.emit)
        self.begun.emit()

    @Slot()
    def preview(self) -> None:
        """Show the first sheets as they will be printed."""
        workup, wanted = self._workup, self.dialog.wanted
        if workup is None or self._jobs.runs("writing"):
            return  # the printer is at work
        rows = wanted.rows[:MOST_PREVIEWED]
        self._lay_paper()

        def work(progress: Progress) -> list[Page]:
            from stemmap.tasks.sheets import document

            return list(document(workup, rows, wanted.options, progress=progress))

        def show(pages: list[Page]) -> None:
            self.show_preview(pages, shown=len(rows), wanted=len(wanted.rows))

        self._jobs.start("preview", work, apply=show)

    def show_preview(self, pages: list[Page], *, shown: int, wanted: int) -> QPrintPreviewDialog:
        """Show pages in Qt's preview; its own button prints what it shows."""
        dialog = QPrintPreviewDialog(self.printer, self.dialog if self.dialog.isVisible() else self._window)
        dialog.setObjectName("sheets-preview-window")
        title = self.tr("Preview of {shown} of {wanted} sheets").format(shown=shown, wanted=wanted)
        dialog.setWindowTitle(title if shown < wanted else self.tr("Preview of the plot sheets"))
        dialog.paintRequested.connect(lambda printer: paint_sheets(pages, printer))
        dialog.finished.connect(dialog.deleteLater)
        dialog.resize(self._window.size())
        dialog.open()
        return dialog

    @Slot()
    def set_up_page(self) -> None:
        """Ask for paper and tray; a paper that sheets are made for is taken over."""
        self.printer.setOutputFormat(QPrinter.OutputFormat.NativeFormat)
        self._lay_paper()
        asked = QPageSetupDialog(self.printer, self.dialog)
        asked.accepted.connect(self._take_paper)
        asked.finished.connect(asked.deleteLater)
        asked.open()

    @Slot()
    def _take_paper(self) -> None:
        chosen = self.printer.pageLayout().pageSize().id()
        for name, size in _PAPERS.items():
            if size == chosen:
                self.dialog.paper.setCurrentText(name)

    def _lay_paper(self) -> None:
        """Give the printer the paper of the sheets, upright, counted from its edge."""
        size = QPageSize(_PAPERS[self.dialog.paper.currentText()])
        self.printer.setPageLayout(QPageLayout(size, QPageLayout.Orientation.Portrait, QMarginsF(0.0, 0.0, 0.0, 0.0)))
        self.printer.setFullPage(True)

    def _about_margins(self) -> str:
        """A sentence where the printer leaves white what the sheets need; empty where it does not."""
        from stemmap.drawing.sheet import MARGIN_MM, paper_size

        layout = self.printer.pageLayout()
        least = QPageLayout(layout)
        least.setUnits(QPageLayout.Unit.Millimeter)
        margins, paper = least.minimumMargins(), least.fullRect(QPageLayout.Unit.Millimeter)
        width, height = paper_size(self.dialog.paper.currentText())
        if paper.width() < width - 1.0 or paper.height() < height - 1.0:
            return self.tr(
                "The paper of the printer is smaller than the sheets, so their edges are cut off; the scale is true."
            )
        widest = max(margins.left(), margins.top(), margins.right(), margins.bottom())
        if widest > MARGIN_MM:
            return self.tr(
                "The printer leaves {widest} mm white at an edge, more than the sheets do: what lies there is cut off;"
                " the scale is true."
            ).format(widest=f"{widest:.0f}")
        return ""
