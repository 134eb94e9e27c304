"""Plot sheets from the window: which ones, as PDF, in the preview, on a printer; the map on the clipboard."""

from threading import Event
from xml.etree import ElementTree as ET

import numpy as np
import pdfplumber
import pytest
from PySide6.QtCore import QMarginsF
from PySide6.QtGui import QGuiApplication, QPageLayout, QPageSize
from PySide6.QtPrintSupport import QPrintDialog, QPrinter, QPrintPreviewDialog
from PySide6.QtWidgets import QDialog, QFileDialog, QPushButton

from stemmap.desktop.printing import MOST_PREVIEWED, paint_sheets
from stemmap.progress import Progress
from stemmap.tasks.recheck import recheck_list
from stemmap.tasks.sheets import SheetOptions, chosen_visits, document

MILLIMETRES = 25.4 / 72.0


@pytest.fixture
def dialog(opened):
    """The dialog of the sheets, open on the sample survey."""
    opened.actions_by_name["sheets"].trigger()
    made = opened.outputs.printing.dialog
    yield made
    made.reject()


def press(dialog, name):
    dialog.findChild(QPushButton, f"sheets-{name}").click()


def choose(dialog, number):
    dialog.plots.button(number).setChecked(True)


def circles(page):
    """Centre and radius of every round curve of a page of a PDF, millimetres."""
    for curve in page.curves:
        x0, x1, top, bottom = (curve[name] * MILLIMETRES for name in ("x0", "x1", "top", "bottom"))
        if abs((x1 - x0) - (bottom - top)) < 0.02:
            yield (x0 + x1) / 2.0, (top + bottom) / 2.0, (x1 - x0) / 2.0


def to_file(path, *, paper=QPageSize.PageSizeId.A4):
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(path))
    size = QPageSize(paper)
    printer.setPageLayout(QPageLayout(size, QPageLayout.Orientation.Portrait, QMarginsF(0.0, 0.0, 0.0, 0.0)))
    printer.setFullPage(True)
    return printer


def test_the_dialog_counts_the_sheets_of_each_choice(opened, dialog):
    workup = opened.session.workup
    counts = []
    for number in range(3):
        choose(dialog, number)
        counts.append(len(dialog.wanted.rows))

    assert counts == [1, len(chosen_visits(workup, doubtful=True)), len(chosen_visits(workup))]
    dialog.every_visit.setChecked(True)
    assert len(dialog.wanted.rows) == len(workup.survey.visits)
    assert f"Sheets: {len(workup.survey.visits)}." in dialog.told.text()


def test_the_dialog_offers_what_is_worth_a_walk_within_hours(opened, dialog):
    dialog.plots.button(3).setChecked(True)
    dialog.hours.setValue(3.0)
    wanted, few = dialog.wanted, recheck_list(opened.session.workup, budget_hours=3.0).by_visit

    assert (wanted.rows, wanted.options.again) == (list(few), few)
    assert not dialog.every_visit.isEnabled()
    dialog.hours.setValue(100.0)
    assert len(dialog.wanted.rows) > len(few)
    choose(dialog, 2)
    assert not dialog.hours.isEnabled()
    assert dialog.wanted.options.again == {}


def test_the_dialog_stays_as_it_was_left(opened, dialog):
    choose(dialog, 1)
    dialog.paper.setCurrentText("A3")
    dialog.scale.setCurrentText("1:200")
    dialog.dated.setChecked(False)
    dialog.reject()
    opened.actions_by_name["sheets"].trigger()

    options = dialog.wanted.options
    assert (options.scale, options.paper, options.printed) == (200, "A3", None)
    assert dialog.plots.checkedId() == 1
    assert dialog.print_button.isDefault()


def test_the_sheets_wanted_are_written_as_pdf(opened, dialog, settled, monkeypatch, tmp_path):
    path = tmp_path / "maps.pdf"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *rest: (str(path), "PDF (*.pdf)"))
    choose(dialog, 0)
    press(dialog, "file")
    settled()
    with pdfplumber.open(path) as pdf:
        first = pdf.pages[0].extract_text()

    assert f"Plot {opened.session.workup.survey.visits.plot[opened.session.visit]}" in first
    assert "printed 20" in first
    assert not dialog.isVisible()
    assert "print them at 100 %" in opened.message_bar.sentence
    assert opened.actions_by_name["sheets"].isEnabled()


def test_sheets_are_printed_off_the_gui_thread(opened, dialog, settled, monkeypatch, tmp_path):
    printing = opened.outputs.printing
    asked = []
    monkeypatch.setattr(QDialog, "open", asked.append)
    press(dialog, "print")
    assert isinstance(asked[0], QPrintDialog)

    printing.printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printing.printer.setOutputFileName(str(tmp_path / "printed.pdf"))
    asked[0].accepted.emit(printing.printer)
    assert opened.jobs.runs("writing")
    settled()
    with pdfplumber.open(tmp_path / "printed.pdf") as pdf:
        pages = len(pdf.pages)
    assert opened.message_bar.sentence.startswith(f"Pages printed: {pages}.")


def test_a_print_that_is_stopped_says_that_pages_may_still_come_out(qtbot, opened, dialog, monkeypatch, settled):
    begun = Event()

    def endless(_workup, _rows, _options, *, progress):
        while True:
            begun.set()
            progress.step("")
            yield from ()

    monkeypatch.setattr("stemmap.tasks.sheets.document", endless)
    opened.outputs.printing.print_sheets()
    qtbot.waitUntil(begun.is_set)
    opened.jobs.cancel()
    settled()
    assert opened.statusBar().currentMessage().endswith("may still come out.")


@pytest.mark.parametrize("paper", [QPageSize.PageSizeId.A4, QPageSize.PageSizeId.A3])
def test_a_printed_sheet_is_true_to_scale_and_in_the_middle_of_its_paper(sample, paper, tmp_path, qapp):
    row = sample.survey.visit_row("20", "2026")
    pages = document(sample, [row], SheetOptions(200, "A4"), progress=Progress())
    count = paint_sheets(pages, to_file(tmp_path / "a.pdf", paper=paper))
    width, height = ((210.0, 297.0), (297.0, 420.0))[paper == QPageSize.PageSizeId.A3]
    with pdfplumber.open(tmp_path / "a.pdf") as pdf:
        found = np.array(list(circles(pdf.pages[0])))
        lengths = np.array([abs(line["x1"] - line["x0"]) for line in pdf.pages[0].lines]) * MILLIMETRES
        assert len(pdf.pages) == count == 2

    for radius_m in (9.0, 13.0):
        (x, y, radius) = found[np.argmin(np.abs(found[:, 2] - radius_m * 5.0))]
        assert radius == pytest.approx(radius_m * 5.0, abs=0.1)
        assert x == pytest.approx(width / 2.0, abs=0.3)  # Qt rounds papers to whole points
        assert abs(y - height / 2.0) < 60.0
    assert np.abs(lengths - 100.0).min() < 0.1


def test_the_preview_shows_the_first_sheets(opened, dialog, qtbot, monkeypatch, tmp_path):
    shown = []
    monkeypatch.setattr(QPrintPreviewDialog, "open", lambda self: shown.append(self))  # noqa: PLW0108 - a method
    dialog.every_visit.setChecked(True)
    press(dialog, "preview")
    qtbot.waitUntil(lambda: bool(shown), timeout=30_000)
    wanted = len(opened.session.workup.survey.visits)

    assert wanted > MOST_PREVIEWED
    assert shown[0].windowTitle() == f"Preview of {MOST_PREVIEWED} of {wanted} sheets"
    shown[0].paintRequested.emit(to_file(tmp_path / "a.pdf"))
    with pdfplumber.open(tmp_path / "a.pdf") as pdf:
        assert len(pdf.pages) > MOST_PREVIEWED


def test_page_setup_takes_a_known_paper_over(opened, dialog, monkeypatch):
    printing = opened.outputs.printing

    class Setup(QDialog):
        """Stands for Qt's own, which is silent on a machine without printers."""

        def __init__(self, printer, parent):
            super().__init__(parent)
            printer.setPageSize(QPageSize(QPageSize.PageSizeId.Letter))
            self.open = self.accept

    monkeypatch.setattr("stemmap.desktop.printing.QPageSetupDialog", Setup)
    printing.set_up_page()

    assert dialog.paper.currentText() == "Letter"


def test_the_map_on_the_clipboard_is_picture_drawing_and_table(opened, settled, qtbot):
    opened.session.select_visit(opened.session.workup.survey.visit_row("20", "2026"))
    opened.actions_by_name["copy-map"].trigger()
    qtbot.waitUntil(lambda: "clipboard" in opened.statusBar().currentMessage(), timeout=30_000)
    data = QGuiApplication.clipboard().mimeData()
    table = bytes(data.data("text/tab-separated-values").data()).decode().splitlines()

    assert data.hasImage()
    assert data.imageData().width() > 1000
    assert ET.fromstring(bytes(data.data("image/svg+xml").data()).decode()).tag.endswith("svg")
    assert table[0].split("\t")[:4] == ["stem", "azimuth °", "distance m", "dbh cm"]
    assert len(table) == 31
    assert data.text().splitlines() == table


@pytest.mark.parametrize("kind", ["png", "svg"])
def test_the_map_is_saved_as_a_picture(opened, settled, monkeypatch, tmp_path, kind):
    path = tmp_path / f"map.{kind}"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *rest: (str(path), ""))
    opened.session.select_visit(0)
    opened.actions_by_name["save-map"].trigger()
    settled()

    assert path.stat().st_size > 5000


def test_without_a_plot_it_is_said_what_to_do(opened):
    opened.session.select_visit(-1)
    opened.actions_by_name["copy-map"].trigger()

    assert opened.statusBar().currentMessage().startswith("Select a plot first")


def test_a_printer_that_cuts_off_the_edges_is_spoken_of(opened, dialog, settled, tmp_path):
    printing = opened.outputs.printing
    choose(dialog, 0)
    printing.printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printing.printer.setOutputFileName(str(tmp_path / "a.pdf"))
    printing.printer.setPageSize(QPageSize(QPageSize.PageSizeId.A5))
    printing.print_sheets()
    settled()

    assert "smaller than the sheets" in opened.message_bar.sentence


def test_the_dialog_is_named_and_reached_by_keys(opened, dialog):
    buttons = dialog.findChildren(QPushButton)

    assert all("&" in button.text() for button in buttons if button.objectName())
    assert dialog.paper.accessibleName()
    assert dialog.scale.accessibleName()
