"""The round: a queue of what needs a look, plot after plot, and what of it has been looked at already."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal, Slot

from stemmap.desktop.session import Session

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from stemmap.survey.finding import Finding

#: Ids of findings that were looked at, by plot and visit as typed; those about files under two empty names.
Looked = dict[tuple[str, str], set[str]]
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

    It follows to a plot or finding that is selected otherwise. What was looked at outlives other settings and records,
    because a finding keeps its id; one that was decided and is there again was looked at.

    Signals
    -------
    changed
        The round began, went on or ended, or something was looked at.

    Attributes
    ----------
    active
        Whether it goes on.
    with_notes
        Whether it goes through the notes too.
    looked
        What was looked at.
    """

    changed = Signal()

    def __init__(self, session: Session, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self.looked: Looked = {}
        self._counted: dict[int, int] = {}
        self._survey = session.surveys
        self._queue: NDArray[np.int64] | None = None
        self._place = 0
        self._before = False  # whether it stands before that place and not at it
        self._told: Finding | None = None
        self._leading = False
        self.active = False
        self.with_notes = False
        session.replaced.connect(self._on_replaced)
        session.finding_selected.connect(self._on_finding_selected)
        self._astray = QTimer(self, singleShot=True, interval=0)
        self._astray.timeout.connect(self._follow)
        session.visit_selected.connect(self._on_visit_selected)

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
        if workup is None or self.finding is None or self._before:
            return None
        import numpy as np

        visits = workup.findings.order.visit[self.queue]
        first, last = np.searchsorted(visits, [visits[self._place], visits[self._place] + 1])
        fresh = np.append(True, np.diff(visits) != 0) & (visits >= 0)
        return Stage(
            int(fresh[: self._place + 1].sum()), int(fresh.sum()), self._place - int(first) + 1, int(last - first)
        )

    @property
    def is_through(self) -> bool:
        """Whether nothing further is in the queue."""
        return self._place >= len(self.queue) and not self._before

    def looked_at(self, visit: int) -> int:
        """Number of errors and things to look at of a visit, or of the files (-1), that were looked at."""
        if visit not in self._counted:
            opened, looked = self._session.opened, self.looked.get(self._name(visit))
            known = opened.doubts(visit) if opened is not None and looked else []
            self._counted[visit] = sum(one.id in (looked or ()) for one in known)
        return self._counted[visit]

    def _name(self, visit: int) -> tuple[str, str]:
        """Plot and visit as typed, two empty names for the files."""
        workup = self._session.workup
        if workup is None or visit < 0:
            return "", ""
        return str(workup.survey.visits.plot[visit]), str(workup.survey.visits.visit[visit])

    def remember(self, looked: Looked) -> None:
        """Take findings for looked at."""
        for name, ids in looked.items():
            self.looked.setdefault(name, set()).update(ids)
        self._counted = {}
        self.changed.emit()

    # going

    def start(self) -> None:
        """Begin with what has not been looked at: on the selected plot, else on the next ones, else from the top."""
        self.active = True
        self._go_to(self._first())

    def end(self) -> None:
        """End the round; the selection stays."""
        self.active = False
        self.changed.emit()

    def go(self, step: int) -> None:
        """Go on (1) or back (-1); one step beyond the last finding the round is through."""
        step = 0 if self._before and step > 0 else step
        self._go_to(min(max(self._place + step, 0), len(self.queue)))

    def switch_notes(self) -> None:
        """Go through the notes as well, or leave them out; the round stays where it is, or at the next finding."""
        here = int(self.queue[self._place]) if 0 <= self._place < len(self.queue) else -1
        self.with_notes, self._queue = not self.with_notes, None
        if self.active:
            self._go_to(self._nearest(here) if here >= 0 else len(self.queue))
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
        visits = opened.workup.findings.order.visit[self.queue]
        here = int(np.searchsorted(visits, self._session.visit))
        fresh = self._first_fresh(range(here, len(visits)))
        return next((place for place in (fresh, self._first_fresh(range(here))) if place is not None), here)

    def _first_fresh(self, places: range) -> int | None:
        """The first of some places in the queue that was not looked at; None when all were."""
        workup = self._session.workup
        if workup is None:
            return None
        findings = workup.findings
        for place in places:
            looked = self.looked.get(self._name(int(findings.order.visit[self.queue[place]])))
            if not looked or findings.tell(int(self.queue[place])).id not in looked:
                return place
        return None

    def _go_to(self, place: int) -> None:
        """Stand at a place of the queue; at its end the round is through."""
        self._place, self._before = place, False
        self._show()

    def _show(self) -> None:
        """Select the plot and finding at which the round stands."""
        self._told = None
        workup = self._session.workup
        if workup is not None and 0 <= self._place < len(self.queue):
            place = int(self.queue[self._place])
            self._told = workup.findings.tell(place)
            self._leading = True
            self._session.select_place(place)
            self._leading = False
            self._look_at(self._told)
        self.changed.emit()

    def _look_at(self, told: Finding) -> bool:
        """Whether an error or a thing to look at is seen for the first time."""
        looked = self.looked.setdefault(self._name(told.visit_row), set())
        fresh = told.severity != "note" and told.id not in looked
        if fresh:
            looked.add(told.id)
            self._counted.pop(told.visit_row, None)
        return fresh

    # following the session

    @Slot()
    def _on_visit_selected(self) -> None:
        """Follow when the stem or finding is selected too, if one is."""
        if self.active and not self._leading:
            self._astray.start()

    @Slot()
    def _on_finding_selected(self) -> None:
        told = self._session.selected_finding
        if told is None or self._leading:
            return
        fresh = self._look_at(told)
        if self.active and (self._told is None or told.id != self._told.id):
            self._follow()
        elif fresh:
            self.changed.emit()

    @Slot()
    def _follow(self) -> None:
        """Stand where the session is: at the finding selected, else at the first of the plot to look at."""
        import numpy as np

        opened, place = self._session.opened, self._session.place
        if opened is None or not self.active:
            return
        self._astray.stop()
        visits = opened.workup.findings.order.visit[self.queue]
        first, last = np.searchsorted(visits, [self._session.visit, self._session.visit + 1]).tolist()
        if place < 0 and first < last:
            fresh = self._first_fresh(range(first, last))
            self._go_to(first if fresh is None else fresh)
            return
        self._place = first if place < 0 else self._nearest(place)
        self._before = place < 0 or self._place == len(self.queue) or int(self.queue[self._place]) != place
        self._told = self._session.selected_finding
        self.changed.emit()

    @Slot()
    def _on_replaced(self) -> None:
        """Forget another survey's round; in the same one stay where it is."""
        opened = self._session.opened
        if opened is None:
            return
        self._queue, self._counted = None, {}
        if self._survey != self._session.surveys:
            self._survey, self.looked, self._told, self.active = self._session.surveys, {}, None, False
            self.changed.emit()
        elif self.active and self._told is not None:
            self._return_to(self._told)

    def _return_to(self, told: Finding) -> None:
        """Stand at a finding of the survey before, or at the next of its plot when it is gone."""
        opened = self._session.opened
        if opened is None:
            return
        row = told.visit_row
        if row >= 0:
            row = opened.workup.survey.visit_row(str(told.plot), told.visit or "")
        ids = [one.id for one in opened.findings(row)]
        if told.id in ids:
            self._go_to(self._nearest(opened.workup.findings.places_of(row).start + ids.index(told.id)))
        else:
            self._go_to(self._first())
