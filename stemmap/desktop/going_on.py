"""Which finding comes next when one was decided, for somebody who works down a list."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Slot

if TYPE_CHECKING:
    from stemmap.desktop.window import MainWindow
    from stemmap.survey.finding import Finding

#: So long the next finding of the plot waits for what the decision changes, milliseconds.
_WAITS_MS = 150


class GoingOn(QObject):
    """Goes to the next open finding: of the round, of the table of findings one works in, else of the plot.

    On the plot it waits a moment for what the decision changes, since showing both one after the other takes twice as
    long. Where there is none, the finding decided stays selected as long as it is there, so that N goes on behind it.
    """

    def __init__(self, window: MainWindow, parent: QObject) -> None:
        super().__init__(parent)
        self._window, self._session = window, window.session
        self._next: Sequence[str] = ()
        self._waiting = QTimer(self, singleShot=True, interval=_WAITS_MS)
        self._waiting.timeout.connect(self._select)
        for moved in (self._session.visit_selected, self._session.stem_selected, self._session.finding_selected):
            moved.connect(self._on_moved)
        self._session.replaced.connect(self._on_replaced)

    def go_on(self, decided: Sequence[str]) -> None:
        """Go on from the selected finding, if it is one of those decided; whoever has gone elsewhere stays there."""
        chosen, panels, session = self._session.selected_finding, self._window.panels, self._session
        if chosen is None or chosen.id not in decided:
            return

        def is_open(told: Finding) -> bool:
            """Whether it asks for a decision; notes do only for somebody who goes through the notes."""
            standing = {} if session.workup is None else session.workup.survey.decisions.standing
            wanted = told.severity != "note" or chosen.severity == "note"
            return wanted and told.id not in decided and told.id not in standing

        if panels.round.active:
            panels.round.go(1)
        elif panels.findings_table.view.hasFocus():
            place = panels.findings_table.place_after(is_open)
            if place >= 0:
                session.select_place(place)
        else:
            told, here = session.findings, session.finding
            self._next = [each.id for each in (*told[here + 1 :], *told[:here]) if is_open(each)]
            if self._next:
                self._waiting.start()

    def arrive(self) -> None:
        """Wait no longer: the next decision is about the next finding."""
        if self._waiting.isActive():
            self._waiting.stop()
            self._select()

    @Slot()
    def _select(self) -> None:
        """Select the first of the next findings that is there; the others follow where that is gone soon."""
        left, places = self._next, {told.id: place for place, told in enumerate(self._session.findings)}
        self._session.select_finding(next((places[one] for one in left if one in places), -1))
        self._next = left

    @Slot()
    def _on_moved(self) -> None:
        self._next = ()
        self._waiting.stop()

    @Slot()
    def _on_replaced(self) -> None:
        if self._next and (self._waiting.isActive() or self._session.finding < 0):
            self._waiting.stop()
            self._select()
