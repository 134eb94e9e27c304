"""The round: a queue of what needs a look, plot after plot, and what of it has been looked at already."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal, Slot

from stemmap.desktop.session import Session

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from stemmap.survey.findings import Finding

#: Gravity from which on a finding has to be looked at; notes lie below.
_TO_LOOK_AT = 2


@dataclass(frozen=True)
class Stage:
    """How far the round is, counted from 1; `plot` is 0 at findings about files, which come before all plots."""

    plot: int
    plots: int
    finding: int
    findings: int


class Round(QObject):
    """Leads the session from finding to finding: files first, then plot by plot, the graver ones first.

    What was looked at is kept until the program ends, and nowhere else; it outlives other settings, because a
    finding keeps its id.

    Signals
    -------
    changed
        The round began, went on or ended, or something was looked at.
    """

    changed = Signal()

    def __init__(self, session: Session, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._looked: dict[int, set[str]] = {}
        self._upload: object = None
        self._queue: NDArray[np.int64] | None = None
        self._place = 0
        self._told: Finding | None = None
        self.active = False
        self.with_notes = False
        session.replaced.connect(self._on_replaced)
        session.finding_selected.connect(self._on_finding_selected)

    # what is where

    @property
    def queue(self) -> NDArray[np.int64]:
        """Places of the findings to look at, in the order of the round."""
        if self._queue is None:
            import numpy as np

            opened = self._session.opened
            if opened is None:
                return np.zeros(0, np.int64)
            grave = opened.workup.findings.gravity[opened.by_gravity]
            self._queue = opened.by_gravity[grave >= (1 if self.with_notes else _TO_LOOK_AT)]
        return self._queue

    @property
    def finding(self) -> Finding | None:
        """The finding the round stands at; None when it has not begun or is through."""
        return self._told if self.active else None

    @property
    def stage(self) -> Stage | None:
        """How far the round is; None where there is no finding."""
        workup = self._session.workup
        if workup is None or self.finding is None:
            return None
        import numpy as np

        visits = workup.findings.order.visit[self.queue]
        first, last = np.searchsorted(visits, [visits[self._place], visits[self._place] + 1])
        fresh = np.append(True, np.diff(visits) != 0) & (visits >= 0)
        return Stage(
            int(fresh[: self._place + 1].sum()), int(fresh.sum()), self._place - int(first) + 1, int(last - first)
        )

    def looked_at(self, visit: int) -> int:
        """Number of errors and things to look at of a visit, or of the files (-1), that were looked at."""
        return len(self._looked.get(visit, ()))

    # going

    def start(self) -> None:
        """Begin with what has not been looked at: on the selected plot, else on the next ones, else from the top."""
        self.active = True
        self._place = self._first()
        self._show()

    def end(self) -> None:
        """End the round; the selection stays."""
        self.active = False
        self.changed.emit()

    def go(self, step: int) -> None:
        """Go on (1) or back (-1); one step beyond the last finding the round is through."""
        self._place = min(max(self._place + step, 0), len(self.queue))
        self._show()

    def switch_notes(self) -> None:
        """Go through the notes as well, or leave them out; the round stays where it is, or at the next finding."""
        here = int(self.queue[self._place]) if 0 <= self._place < len(self.queue) else -1
        self.with_notes, self._queue = not self.with_notes, None
        if self.active:
            self._place = self._nearest(here) if here >= 0 else len(self.queue)
            self._show()
        else:
            self.changed.emit()

    def _nearest(self, place: int) -> int:
        """Number in the queue of a finding, or of the next one that is in the queue."""
        import numpy as np

        opened = self._session.opened
        if opened is None:
            return 0
        rank = np.empty(len(opened.by_gravity), np.int64)
        rank[opened.by_gravity] = np.arange(len(rank))
        return int(np.searchsorted(rank[self.queue], rank[place])) if len(rank) else 0

    def _first(self) -> int:
        """Where a round begins."""
        import numpy as np

        opened = self._session.opened
        if opened is None or not len(self.queue):
            return 0
        findings = opened.workup.findings
        visits = findings.order.visit[self.queue]
        here = int(np.searchsorted(visits, self._session.visit))
        for places in (range(here, len(visits)), range(here)):
            for place in places:
                visit = int(visits[place])
                looked = self._looked.get(visit)
                if not looked or findings.tell(int(self.queue[place])).id not in looked:
                    return place
        return here

    def _show(self) -> None:
        """Select the plot and finding at which the round stands."""
        self._told = None
        workup = self._session.workup
        if workup is not None and 0 <= self._place < len(self.queue):
            place = int(self.queue[self._place])
            self._told = workup.findings.tell(place)
            self._session.select_place(place)
            self._look_at(self._told)
        self.changed.emit()

    def _look_at(self, told: Finding) -> bool:
        """Whether an error or a thing to look at is seen for the first time."""
        looked = self._looked.setdefault(told.visit_row, set())
        fresh = told.severity != "note" and told.id not in looked
        if fresh:
            looked.add(told.id)
        return fresh

    # following the session

    @Slot()
    def _on_finding_selected(self) -> None:
        told = self._session.selected_finding
        if told is not None and self._look_at(told):
            self.changed.emit()

    @Slot()
    def _on_replaced(self) -> None:
        """Forget another survey's round; under other settings keep what was looked at and is still in doubt."""
        opened = self._session.opened
        if opened is None:
            return
        self._queue = None
        if self._upload is not opened.workup.survey.upload:
            self._upload, self._looked, self._told, self.active = opened.workup.survey.upload, {}, None, False
            self.changed.emit()
            return
        for visit, looked in self._looked.items():
            looked &= {one.id for one in opened.findings(visit)}
        if self.active and self._told is not None:
            ids = [one.id for one in opened.findings(self._told.visit_row)]
            places = opened.workup.findings.places_of(self._told.visit_row)
            here = places.start + (ids.index(self._told.id) if self._told.id in ids else 0)
            self._place = self._nearest(here)
            self._show()
