"""Concentric circles as a small table: one line for each circle, an empty last line for one more."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QLocale, QSignalBlocker, Qt, Signal, Slot
from PySide6.QtWidgets import QHeaderView, QTableWidget, QTableWidgetItem, QWidget

from stemmap.desktop.wording import worded
from stemmap.errors import InputError

if TYPE_CHECKING:
    from stemmap.survey.settings import CircleSettings

_COLUMNS = ("radius_m", "min_dbh_cm", "max_dbh_cm")


class CirclesField(QTableWidget):
    """Radius and the limits of dbh of each circle.

    Signals
    -------
    edited
        The circles as mappings, a list.
    refused
        Sentence for a cell that is no number.
    """

    edited = Signal(list)
    refused = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(0, len(_COLUMNS), parent)
        self._circles: tuple[CircleSettings, ...] = ()
        self.setHorizontalHeaderLabels([self.tr("radius"), self.tr("dbh from"), self.tr("dbh below")])
        for column, meaning in enumerate(
            (
                self.tr("Radius of the circle"),
                self.tr("Smallest dbh that counts in the circle"),
                self.tr("From this dbh on stems do not count in the circle"),
            )
        ):
            self.model().setHeaderData(column, Qt.Orientation.Horizontal, meaning, Qt.ItemDataRole.ToolTipRole)
        self.setAccessibleName(self.tr("Concentric circles"))
        self.setToolTip(
            self.tr(
                "A stem counts in the largest circle whose dbh it reaches. Clear a radius to drop its circle."
            )
        )
        self.setTabKeyNavigation(False)
        self.verticalHeader().hide()
        self.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        self.cellChanged.connect(self._on_cell_changed)

    def show_circles(self, circles: tuple[CircleSettings, ...]) -> None:
        """Show circles without telling them as an edit."""
        with QSignalBlocker(self):
            self._circles = circles
            self.setRowCount(len(circles) + 1)
            for row in range(len(circles) + 1):
                for column, name in enumerate(_COLUMNS):
                    value = getattr(circles[row], name) if row < len(circles) else None
                    text = "" if value is None else QLocale().toString(float(value), "g", 6)
                    item = QTableWidgetItem(text)
                    item.setTextAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
                    self.setItem(row, column, item)
            rows = self.verticalHeader().defaultSectionSize() * (len(circles) + 1)
            self.setFixedHeight(rows + self.horizontalHeader().sizeHint().height() + 4)

    @Slot(int, int)
    def _on_cell_changed(self, _row: int, _column: int) -> None:
        try:
            circles = [made for row in range(self.rowCount()) if (made := self._circle(row))]
        except InputError as fault:
            self.refused.emit(worded(str(fault)))
            self.show_circles(self._circles)
            return
        self.edited.emit(circles)

    def _circle(self, row: int) -> dict[str, float]:
        """One line as a mapping; empty when it has no radius. What the table does not show is kept."""
        numbers = {name: self._number(row, column) for column, name in enumerate(_COLUMNS)}
        if numbers["radius_m"] is None:
            return {}
        kept = {}
        if row < len(self._circles):
            kept = {name: getattr(self._circles[row], name) for name in ("offset_azimuth", "offset_m")}
        return kept | {name: value for name, value in numbers.items() if value is not None}

    def _number(self, row: int, column: int) -> float | None:
        item = self.item(row, column)
        text = item.text().strip() if item else ""
        if not text:
            return None
        value, understood = QLocale().toDouble(text)
        if understood:
            return value
        try:
            return float(text.replace(",", "."))
        except ValueError as fault:
            told = self.tr("{text} is no number; the circles stay as they were.")
            raise InputError(told.format(text=repr(text))) from fault
