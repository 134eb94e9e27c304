"""Sending a crew out from the window: which plots, how many of them blind, into which folder."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, QLocale, QObject, Qt, Signal, Slot
from PySide6.QtWidgets import (
    QButtonGroup,
    QComboBox,
    QDialog,
    QDialogButtonBox,
    QDoubleSpinBox,
    QFileDialog,
    QFormLayout,
    QLabel,
    QRadioButton,
    QSpinBox,
    QVBoxLayout,
    QWidget,
)

from stemmap.desktop.actions import Entry
from stemmap.desktop.sentences import visit_name
from stemmap.desktop.wording import worded

if TYPE_CHECKING:
    from stemmap.desktop.window import MainWindow
    from stemmap.progress import Progress
    from stemmap.tasks.packet_plots import Errand
    from stemmap.tasks.workup import Workup

_LISTED, _ONE, _ALL = range(3)
_HOURS = 8.0
_BLIND_PERCENT = 10


class PacketDialog(QDialog):
    """Asks what a crew is sent out for; stays as it was left until the next time."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("packet-dialog")
        self.setWindowTitle(self.tr("Field packet"))
        self._plot = ""
        self.plots = QButtonGroup(self)
        self._listed = QRadioButton(self.tr("What is &worth a walk, and what was decided to be measured again"))
        self._one, self._all = QRadioButton(), QRadioButton(self.tr("&All plots with stems"))
        self.hours, self.blind, self.seed = QDoubleSpinBox(), QSpinBox(), QSpinBox()
        self.paper = QComboBox()
        self._buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel)
        self._lay_out()

    def _lay_out(self) -> None:
        choices = QVBoxLayout()
        for number, button in ((_LISTED, self._listed), (_ONE, self._one), (_ALL, self._all)):
            self.plots.addButton(button, number)
            choices.addWidget(button)
            if number == _LISTED:
                choices.addWidget(self.hours, alignment=Qt.AlignmentFlag.AlignLeft)
        self._listed.setChecked(True)
        self.hours.setRange(0.0, 1000.0)
        self.hours.setValue(_HOURS)
        self.hours.setDecimals(1)
        self.hours.setPrefix(self.tr("within "))
        self.hours.setSuffix(self.tr(" hours of field work"))
        self.hours.setAccessibleName(self.tr("Hours of field work"))
        self.blind.setRange(0, 100)
        self.blind.setValue(_BLIND_PERCENT)
        self.blind.setSuffix(" %")
        self.blind.setToolTip(
            self.tr("So many for each hundred others, drawn by chance: the crew measures them without former values")
        )
        self.seed.setRange(1, 999_999)
        self.seed.setToolTip(self.tr("Another number draws other blind plots; the same one draws the same again"))
        self.paper.addItems(["A4", "A3", "Letter"])
        if QLocale().measurementSystem() == QLocale.MeasurementSystem.ImperialUSSystem:
            self.paper.setCurrentText("Letter")
        form = QFormLayout()
        form.addRow(self.tr("Plots"), choices)
        form.addRow(self.tr("&Blind plots beside them"), self.blind)
        form.addRow(self.tr("D&rawn by number"), self.seed)
        form.addRow(self.tr("&Paper"), self.paper)
        told = QLabel(
            self.tr(
                "The folder gets plot sheets, a table to fill in, the plot centres for a satellite receiver and a page"
                " to read first. Going out is field work: weather, slope and dead wood decide; the rules of your own"
                " organisation come first."
            )
        )
        told.setWordWrap(True)
        for widget, name in (
            (self.blind, self.tr("Blind plots in percent")),
            (self.seed, self.tr("Number by which blind plots are drawn")),
            (self.paper, self.tr("Paper")),
        ):
            widget.setAccessibleName(name)
        column = QVBoxLayout(self)
        column.addLayout(form)
        column.addWidget(told)
        column.addWidget(self._buttons)
        self.make = self._buttons.addButton(self.tr("&Choose folder…"), QDialogButtonBox.ButtonRole.AcceptRole)
        self.make.setDefault(True)
        self._buttons.accepted.connect(self.accept)
        self._buttons.rejected.connect(self.reject)
        self.plots.idToggled.connect(self._on_changed)

    def ask(self, workup: Workup, visit: int) -> None:
        """Show the dialog for a survey and the plot that is selected in it."""
        self._plot = str(workup.survey.visits.plot[visit]) if visit >= 0 else ""
        shown = visit_name(workup, visit) if visit >= 0 else self.tr("none")
        self._one.setText(self.tr("&The one shown: {plot}").format(plot=shown.replace("&", "&&")))
        self._one.setEnabled(visit >= 0)
        if visit < 0 and self._one.isChecked():
            self._listed.setChecked(True)
        self._on_changed()
        self.open()
        self.make.setFocus()

    @property
    def errand(self) -> Errand:
        """What is chosen."""
        from stemmap.tasks.packet_plots import Errand

        choice = self.plots.checkedId()
        return Errand(
            plots=(self._plot,) if choice == _ONE else None,
            recheck=choice == _LISTED,
            budget_hours=self.hours.value() if choice == _LISTED else None,
            blind_share=self.blind.value() / 100.0,
            seed=self.seed.value(),
        )

    @Slot()
    def _on_changed(self) -> None:
        self.hours.setEnabled(self.plots.checkedId() == _LISTED)


class FieldPacket(QObject):
    """Makes field packets from the survey file that is open.

    Signals
    -------
    begun, written
        Writing began; it is done, with the sentence that says what was written where.
    """

    begun = Signal()
    written = Signal(str)

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window = window
        self._dialog: PacketDialog | None = None

    @property
    def dialog(self) -> PacketDialog:
        """What asks; made at the first call."""
        if self._dialog is None:
            self._dialog = PacketDialog(self._window)
            self._dialog.accepted.connect(self._choose_folder)
        return self._dialog

    @Slot()
    def ask(self) -> None:
        """Ask what a crew is sent out for."""
        session = self._window.session
        if session.workup is not None and not self._window.outputs.busy:
            self.dialog.ask(session.workup, session.visit)

    @Slot()
    def _choose_folder(self) -> None:
        chosen = QFileDialog.getExistingDirectory(self._window, self.tr("Folder for the field packet"))
        if chosen:
            self.make(Path(chosen))

    def make(self, folder: Path) -> None:
        """Make the packet that is chosen in a folder."""
        path, who = self._window.deciding.survey_path, self._window.deciding.who()
        if path is None or not who:
            return
        errand, paper = self.dialog.errand, self.dialog.paper.currentText()

        def work(progress: Progress) -> str:
            from stemmap.tasks.packet import make_packet

            made = make_packet(path, folder, errand, who=who, paper=paper, wording=worded, progress=progress)
            words = self.tr(
                "Field packet {name} is in {folder}. Plots with former values: {cold}, blind: {blind}; stems to measure"
                " again: {stems}."
            ).format(name=made.name, folder=folder, cold=made.cold, blind=made.blind, stems=made.stems)
            if made.without_place:
                words += " " + self.tr("Without coordinates, so not in the list of plot centres: {plots}.").format(
                    plots=", ".join(made.without_place[:10])
                )
            return words

        self._window.jobs.start("writing", work, apply=self.written.emit)
        self.begun.emit()


def packet_commands(window: MainWindow) -> tuple[Entry, ...]:
    """Sending crews out."""
    return (
        Entry(
            "field-packet",
            QCoreApplication.translate("commands", "Fie&ld packet…"),
            QCoreApplication.translate(
                "commands", "Send a crew out: plot sheets, a table to fill in, the way to the plots, in one folder"
            ),
            window.field_packet.ask,
            ("Ctrl+Shift+P",),
            "file",
        ),
    )
