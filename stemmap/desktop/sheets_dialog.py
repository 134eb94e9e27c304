"""The dialog that asks which plot sheets are wanted, and where they go."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import QLocale, Qt, Signal, SignalInstance, Slot
from PySide6.QtWidgets import (
    QButtonGroup,
    QCheckBox,
    QComboBox,
    QDialog,
    QDialogButtonBox,
    QDoubleSpinBox,
    QFormLayout,
    QLabel,
    QPushButton,
    QRadioButton,
    QVBoxLayout,
    QWidget,
)

from stemmap.desktop.sentences import visit_name
from stemmap.desktop.session import WHOLE_SURVEY
from stemmap.desktop.wording import worded

if TYPE_CHECKING:
    from stemmap.tasks.sheets import SheetOptions
    from stemmap.tasks.workup import Workup

_SCALES = (100, 150, 200, 250, 500)
_ONE, _DOUBTFUL, _ALL, _LISTED = range(4)
_HOURS = 8.0


@dataclass(frozen=True)
class SheetsWanted:
    """Which sheets are wanted and how.

    Parameters
    ----------
    rows
        Rows of the visits.
    options
        Paper, scale, day of printing.
    """

    rows: list[int]
    options: SheetOptions


class SheetsDialog(QDialog):
    """Asks for plots, visits, paper and scale; stays as it was left until the next time.

    Signals
    -------
    print_wanted, preview_wanted, setup_wanted, file_wanted
        One of the buttons was pressed.
    """

    print_wanted = Signal()
    preview_wanted = Signal()
    setup_wanted = Signal()
    file_wanted = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("sheets-dialog")
        self.setWindowTitle(self.tr("Plot sheets"))
        self._workup: Workup | None = None
        self._visit = WHOLE_SURVEY
        self.plots = QButtonGroup(self)
        self._one, self._doubtful, self._all = QRadioButton(), QRadioButton(), QRadioButton()
        self._listed = QRadioButton()
        self.hours = QDoubleSpinBox()
        self.every_visit = QCheckBox(self.tr("&Every visit, not only the last"))
        self.paper = QComboBox()
        self.scale = QComboBox()
        self.dated = QCheckBox(self.tr("Da&y of printing on each sheet"))
        self.dated.setChecked(True)
        self.told = QLabel()
        self.told.setWordWrap(True)
        self._buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        self._lay_out()

    def _lay_out(self) -> None:
        form = QFormLayout()
        choices = QVBoxLayout()
        buttons = ((_ONE, self._one), (_DOUBTFUL, self._doubtful), (_LISTED, self._listed), (_ALL, self._all))
        for number, button in buttons:
            self.plots.addButton(button, number)
            choices.addWidget(button)
            if number == _LISTED:
                choices.addWidget(self.hours, alignment=Qt.AlignmentFlag.AlignLeft)
        self.hours.setRange(0.5, 1000.0)
        self.hours.setValue(_HOURS)
        self.hours.setDecimals(1)
        self.hours.setPrefix(self.tr("within "))
        self.hours.setSuffix(self.tr(" hours of field work"))
        self.hours.setAccessibleName(self.tr("Hours of field work"))
        self.hours.setToolTip(self.tr("Minutes for a walk and for a stem stand in the settings file, [recheck]"))
        choices.addWidget(self.every_visit)
        form.addRow(self.tr("Plots"), choices)
        self.paper.addItems(["A4", "A3", "Letter"])
        if QLocale().measurementSystem() == QLocale.MeasurementSystem.ImperialUSSystem:
            self.paper.setCurrentText("Letter")
        form.addRow(self.tr("&Paper"), self.paper)
        self.scale.addItem(self.tr("the largest that fits each plot"))
        for scale in _SCALES:
            self.scale.addItem(f"1:{scale}", scale)
        form.addRow(self.tr("&Scale"), self.scale)
        form.addRow("", self.dated)
        self.paper.setAccessibleName(self.tr("Paper"))
        self.scale.setAccessibleName(self.tr("Scale"))
        column = QVBoxLayout(self)
        column.addLayout(form)
        column.addWidget(self.told)
        column.addWidget(self._buttons)
        self._all.setChecked(True)
        self.print_button = self._button(self.tr("P&rint…"), "sheets-print", self.print_wanted)
        self.print_button.setDefault(True)
        preview = self._button(self.tr("Pre&view"), "sheets-preview", self.preview_wanted)
        self.setup_button = self._button(self.tr("Pa&ge setup…"), "sheets-setup", self.setup_wanted)
        self.setup_button.setToolTip(self.tr("Paper and tray of the printer, where the system has one"))
        file = self._button(self.tr("Save as P&DF…"), "sheets-file", self.file_wanted)
        self._sending = (self.print_button, preview, file)
        self._buttons.rejected.connect(self.reject)
        self.plots.idToggled.connect(self._on_changed)
        self.every_visit.toggled.connect(self._on_changed)
        self.hours.valueChanged.connect(self._on_changed)

    def _button(self, text: str, name: str, wanted: SignalInstance) -> QPushButton:
        button = self._buttons.addButton(text, QDialogButtonBox.ButtonRole.ActionRole)
        button.setObjectName(name)
        button.clicked.connect(wanted)
        return button

    def ask(self, workup: Workup, visit: int) -> None:
        """Show the dialog for a survey and the plot that is selected in it."""
        self._workup, self._visit = workup, visit
        shown = visit_name(workup, visit) if visit >= 0 else self.tr("none")
        self._one.setText(self.tr("&The one shown: {plot}").format(plot=shown.replace("&", "&&")))
        self._one.setEnabled(visit >= 0)
        self._doubtful.setText(self.tr("Plots with an &error or something to look at"))
        self._listed.setText(self.tr("What is &worth a walk: plots on the re-check list, in its order"))
        self._all.setText(self.tr("&All plots"))
        if visit < 0 and self._one.isChecked():
            self._all.setChecked(True)
        self._on_changed()
        self.open()
        self.print_button.setFocus()

    @property
    def wanted(self) -> SheetsWanted:
        """What is chosen."""
        from stemmap.tasks.sheets import SheetOptions

        day = date.today() if self.dated.isChecked() else None
        scale, paper = self.scale.currentData(), self.paper.currentText()
        again = self._again()
        return SheetsWanted(self._rows(again), SheetOptions(scale, paper, day, worded, again))

    def _again(self) -> dict[int, list[int]]:
        """Stems to measure again by visit, where the re-check list is wanted."""
        from stemmap.tasks.recheck import recheck_list

        if self._workup is None or self.plots.checkedId() != _LISTED:
            return {}
        return recheck_list(self._workup, budget_hours=self.hours.value()).by_visit

    def _rows(self, again: dict[int, list[int]]) -> list[int]:
        from stemmap.tasks.sheets import chosen_visits

        if self._workup is None:
            return []
        if self.plots.checkedId() == _LISTED:
            return list(again)
        choice, every = self.plots.checkedId(), self.every_visit.isChecked()
        if choice == _ONE and not every:
            return [self._visit]
        plots = [str(self._workup.survey.visits.plot[self._visit])] if choice == _ONE else None
        return chosen_visits(self._workup, plots, doubtful=choice == _DOUBTFUL, every_visit=every)

    @Slot()
    def _on_changed(self) -> None:
        listed = self.plots.checkedId() == _LISTED
        self.hours.setEnabled(listed)
        self.every_visit.setEnabled(not listed)
        count = len(self._rows(self._again()))
        for button in self._sending:
            button.setEnabled(count > 0)
        self.told.setText(
            self.tr(
                "Sheets: {count}. Print at 100 % (actual size); a bar of 100 mm on each sheet shows whether it was."
            ).format(count=count)
        )
