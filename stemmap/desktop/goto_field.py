"""One field to go to a plot, a stem or coordinates; it stands above the map and is never in the way."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, QStringListModel, Qt, Slot
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QCompleter, QHBoxLayout, QLabel, QLineEdit, QWidget

from stemmap.desktop.map_canvas import MapCanvas
from stemmap.desktop.session import Session

if TYPE_CHECKING:
    from stemmap.drawing.overview import Overview
    from stemmap.survey.survey import Survey

_tr = QCoreApplication.translate
_NUMBER = re.compile(r"([+-]?\d+(?:[.,]\d+)?)\s*°?\s*([NSEWO]?)\Z", re.IGNORECASE)
#: Between two numbers: a semicolon, a comma with a blank, or a blank before a number.
_BETWEEN = re.compile(r"\s*;\s*|,\s+|\s+(?=[+-]?\d)")


@dataclass(frozen=True)
class Destination:
    """Where to go: a stem, else a plot, else coordinates.

    Parameters
    ----------
    visit, stem
        Rows in the survey, -1 for none.
    place
        Metres from the base of the whole survey.
    """

    visit: int = -1
    stem: int = -1
    place: tuple[float, float] | None = None


def destination(text: str, survey: Survey, visit: int, plots: Overview | None) -> Destination | None:
    """What is meant by "12", "12/7", "/7", "4471200 5324100" or "13.40 E 52.52 N"; None when nothing is.

    Parameters
    ----------
    text
        As typed. A plot's name comes first; a number that names no plot is a stem of the plot shown.
    survey, visit, plots
        The survey, the row of the plot shown and the map of all plots.
    """
    typed = text.strip()
    found = _plot(survey, typed, visit)
    if found >= 0:
        return Destination(found)
    plot, slash, number = typed.rpartition("/")
    here = visit if not plot.strip() else _plot(survey, plot.strip(), visit)
    if here >= 0 and number.strip():
        stem = _stem(survey, here, number.strip())
        if stem >= 0:
            return Destination(here, stem)
        if slash and plot.strip():
            return Destination(here)
    place = _place(typed, plots)
    return None if place is None else Destination(place=place)


def _plot(survey: Survey, name: str, visit: int) -> int:
    """Row of the visit shown where it is the plot's, else of its last visit; -1: there is no such plot."""
    if visit >= 0 and str(survey.visits.plot[visit]).casefold() == name.casefold():
        return visit
    row = survey.visit_row(name)
    if row >= 0 or not name:
        return row
    folded = [str(plot).casefold() == name.casefold() for plot in survey.visits.plot.tolist()]
    return len(folded) - 1 - folded[::-1].index(True) if any(folded) else -1


def _stem(survey: Survey, visit: int, label: str) -> int:
    rows = survey.visits.stems(visit)
    return next((row for row in range(rows.start, rows.stop) if survey.stems.label(row) == label), -1)


def _place(text: str, plots: Overview | None) -> tuple[float, float] | None:
    """Metres from the base of projected coordinates in metres, or of longitude and latitude in degrees."""
    read = [_NUMBER.match(part) for part in _BETWEEN.split(text) if part]
    if plots is None or plots.crs is None or len(read) != 2:
        return None
    values, letters = [], []
    for number in read:
        if number is None:
            return None
        letter = number[2].upper()
        values.append(float(number[1].replace(",", ".")) * (-1.0 if letter in ("S", "W") else 1.0))
        letters.append(letter)
    if letters[0] in ("N", "S") or letters[1] in ("E", "W", "O"):
        values.reverse()
    first, second = values
    if abs(first) <= 180.0 and abs(second) <= 90.0:
        return plots.projected(first, second)
    return None if any(letters) else (first - float(plots.base[0]), second - float(plots.base[1]))


class GotoField(QWidget):
    """Asks where to go; Enter goes there, Esc goes back to the map."""

    def __init__(self, session: Session, canvas: MapCanvas, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self._canvas = session, canvas
        self._completed: object = None
        self.field = QLineEdit()
        self.field.setPlaceholderText(_tr("goto", "Plot, plot/stem, or coordinates"))
        self.field.setAccessibleName(_tr("goto", "Go to"))
        self.field.setToolTip(
            _tr("goto", "For example 12, 12/7, /7 for a stem of this plot, 4471200 5324100, or 13.40 E 52.52 N")
        )
        self._names = QStringListModel(self)
        completer = QCompleter(self._names, self)
        completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        self.field.setCompleter(completer)
        self.answer = QLabel()
        self.answer.setWordWrap(True)
        self.answer.setAccessibleName(_tr("goto", "Answer"))
        layout = QHBoxLayout(self)
        layout.setContentsMargins(10, 2, 10, 4)
        layout.addWidget(self.field)
        layout.addWidget(self.answer, 1)
        self.field.returnPressed.connect(self.go)
        self.field.textEdited.connect(self.answer.clear)
        session.replaced.connect(self.hide)
        self.hide()

    def ask(self) -> None:
        """Show the field and wait for an answer in it."""
        workup = self._session.workup
        if workup is None:
            return
        if self._completed is not workup.survey.upload:
            self._completed = workup.survey.upload
            self._names.setStringList(list(dict.fromkeys(map(str, workup.survey.visits.plot.tolist()))))
        self.answer.clear()
        self.show()
        self.field.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.field.selectAll()

    @Slot()
    def go(self) -> None:
        """Go where the text says, or say that there is no such place."""
        workup = self._session.workup
        if workup is None or not self.field.text().strip():
            return
        plots = self._canvas.survey.plots
        where = destination(self.field.text(), workup.survey, self._session.visit, plots)
        if where is None:
            words = _tr("goto", "There is no plot, stem or place “{text}”.")
            self.answer.setText(words.format(text=self.field.text().strip()))
            return
        if where.place is not None:
            self._canvas.show_place(where.place)
            self.answer.setText(self._canvas.survey.nearest_sentence(where.place))
            return
        self._session.select_visit(where.visit)
        self._canvas.show_plot()
        if where.stem >= 0:
            self._session.select_stem(where.stem)
        self._leave()

    def _leave(self) -> None:
        self.hide()
        self._canvas.setFocus()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc goes back to the map."""
        if event.key() == Qt.Key.Key_Escape:
            self._canvas.show_place(None)
            self._leave()
        else:
            super().keyPressEvent(event)
