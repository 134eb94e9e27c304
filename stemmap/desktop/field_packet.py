"""Sending a crew out from the window: which plots, how many of them blind, into which folder."""

from __future__ import annotations

from datetime import date
from itertools import count
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
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
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
        self._plot, self._beside = "", Path()
        self.plots = QButtonGroup(self)
        self._listed = QRadioButton(self.tr("What is &worth a walk, and what was decided to be measured again"))
        self._one, self._all = QRadioButton(), QRadioButton(self.tr("&All plots with stems"))
        self.hours, self.blind, self.seed = QDoubleSpinBox(), QSpinBox(), QSpinBox()
        self.paper = QComboBox()
        self.folder, self.browse, self.refusal = QLineEdit(), QPushButton(), QLabel()
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
        label = QLabel(self.tr("F&older"))
        label.setBuddy(self.folder)
        form.addRow(label, self._folder_line())
        told = QLabel(
            self.tr(
                "The folder is made new. It gets plot sheets, a table to fill in, the plot centres for a satellite"
                " receiver and a page to read first. Going out is field work: weather, slope and dead wood decide; the"
                " rules of your own organisation come first."
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
        column.addWidget(self.refusal)
        column.addWidget(told)
        column.addWidget(self._buttons)
        self.make = self._buttons.addButton(self.tr("&Make the packet"), QDialogButtonBox.ButtonRole.AcceptRole)
        self.make.setDefault(True)
        self._buttons.accepted.connect(self.accept)
        self._buttons.rejected.connect(self.reject)
        self.plots.idToggled.connect(self._on_changed)

    def _folder_line(self) -> QHBoxLayout:
        line = QHBoxLayout()
        self.browse.setText(self.tr("&Choose…"))
        self.browse.setAutoDefault(False)
        self.browse.setAccessibleName(self.tr("Choose the folder of the field packet"))
        self.browse.clicked.connect(self._on_browse)
        self.folder.setAccessibleName(self.tr("Folder of the field packet"))
        self.folder.setToolTip(self.tr("A folder that is not there yet is made; one that holds files is refused"))
        self.folder.setMinimumWidth(self.folder.fontMetrics().averageCharWidth() * 50)
        self.folder.textEdited.connect(self.refusal.hide)
        self.refusal.setWordWrap(True)
        self.refusal.hide()
        line.addWidget(self.folder)
        line.addWidget(self.browse)
        return line

    def ask(self, workup: Workup, visit: int, survey_path: Path) -> None:
        """Show the dialog for a survey, the plot that is selected in it, and its survey file."""
        self._beside = survey_path
        self.folder.setText(str(self._new_folder(survey_path.parent)))
        self.refusal.hide()
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

    @property
    def path(self) -> Path:
        """The folder that is written in the line; a name alone stands beside the survey file."""
        return self._beside.parent / Path(self.folder.text().strip()).expanduser()

    def accept(self) -> None:
        """Close when the folder may be made or is empty; say otherwise why not."""
        said = self._said_of_folder()
        self.refusal.setText(said)
        self.refusal.setVisible(bool(said))
        if said:
            self.adjustSize()
            self.folder.setFocus()
            self.folder.selectAll()
            return
        super().accept()

    def _said_of_folder(self) -> str:
        path = self.path
        if not self.folder.text().strip():
            return self.tr("No folder is named: write a name for the new folder.")
        if _has_files(path):
            return self.tr(
                "{folder} holds files already and is left as it is; a packet gets a folder of its own: write another"
                " name."
            ).format(folder=path)
        if path.is_file():
            return self.tr("{folder} is a file: write another name for the folder.").format(folder=path)
        return ""

    def _new_folder(self, where: Path) -> Path:
        """A folder that is not there yet, named after the survey file and the day."""
        name = self.tr("{survey}_packet_{date}").format(survey=self._beside.stem, date=date.today().isoformat())
        names = (name if number == 1 else f"{name}_{number}" for number in count(1))
        return next(where / each for each in names if not (where / each).exists())

    @Slot()
    def _on_browse(self) -> None:
        chosen = QFileDialog.getExistingDirectory(self, self.tr("Where to put the field packet"), str(self.path.parent))
        if chosen:
            where = Path(chosen)
            self.folder.setText(str(self._new_folder(where) if _has_files(where) else where))
            self.refusal.hide()

    @Slot()
    def _on_changed(self) -> None:
        self.hours.setEnabled(self.plots.checkedId() == _LISTED)


def _has_files(folder: Path) -> bool:
    """Whether something is in a folder; one that may not be looked into is told when the packet is made."""
    try:
        return folder.is_dir() and any(folder.iterdir())
    except OSError:
        return False


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
            self._dialog.accepted.connect(self._make_chosen)
        return self._dialog

    @Slot()
    def ask(self) -> None:
        """Ask what a crew is sent out for."""
        session, path = self._window.session, self._window.deciding.survey_path
        if session.workup is not None and path is not None and not self._window.outputs.busy:
            self.dialog.ask(session.workup, session.visit, path)

    @Slot()
    def _make_chosen(self) -> None:
        self.make(self.dialog.path)

    def make(self, folder: Path) -> None:
        """Make the packet that is chosen in a folder."""
        path, who = self._window.deciding.survey_path, self._window.deciding.who()
        if path is None or not who:
            return
        errand, paper = self.dialog.errand, self.dialog.paper.currentText()

        def work(progress: Progress) -> str:
            from stemmap.tasks.packet import make_packet
            from stemmap.tasks.packet_words import hours_sentence

            made = make_packet(path, folder, errand, who=who, paper=paper, wording=worded, progress=progress)
            words = self.tr(
                "Field packet {name} is in {folder}. Plots with former values: {cold}, blind: {blind}; stems to measure"
                " again: {stems}."
            ).format(name=made.name, folder=folder, cold=made.cold, blind=made.blind, stems=made.stems)
            words += " " + worded(hours_sentence(*made.hours))
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
