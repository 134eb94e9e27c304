"""Where one was in a survey file and what was looked at in it, kept from one start of the window to the next.

It is kept with the window's own settings and not in the file: what somebody has looked at is theirs alone, others who
decide in the same file have not seen it, and a file that can only be read is looked through as well.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, QSettings, QTimer, Slot

from stemmap.desktop.round import Looked, Round
from stemmap.desktop.session import Session

if TYPE_CHECKING:
    from stemmap.desktop.following import Following

_KEY = "survey/left"
#: So long after a step it is kept, milliseconds: not at each of many.
_SOON_MS = 300
#: So many survey files are remembered.
_MOST_FILES = 30


class Bookmark(QObject):
    """Keeps for each survey file the plot that is shown and what was looked at, also for after a crash.

    Parameters
    ----------
    session, going
        What is shown, and what of it was looked at.
    following
        Knows the survey file that is open.
    parent
        As for all objects.
    """

    def __init__(self, session: Session, going: Round, following: Following, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._session, self._round, self._following = session, going, following
        self._survey = session.surveys
        self._soon = QTimer(self, singleShot=True, interval=_SOON_MS)
        self._soon.timeout.connect(self.keep)
        session.replaced.connect(self._on_replaced)
        session.visit_selected.connect(self._soon.start)
        going.changed.connect(self._soon.start)

    @Slot()
    def keep(self) -> None:
        """Keep where one is now."""
        self._soon.stop()
        path, workup, row = self._following.path, self._session.workup, self._session.visit
        if path is None or workup is None or self._survey != self._session.surveys:
            return
        visits = workup.survey.visits
        place = [str(visits.plot[row]), str(visits.visit[row])] if row >= 0 else None
        kept, name = _kept(), str(path.absolute())
        kept.pop(name, None)
        kept[name] = {"place": place, "looked": [[*key, *sorted(ids)] for key, ids in self._round.looked.items()]}
        QSettings().setValue(_KEY, json.dumps(dict([*kept.items()][-_MOST_FILES:])))

    @Slot()
    def _on_replaced(self) -> None:
        if self._survey == self._session.surveys:
            self._soon.start()
            return
        self._survey = self._session.surveys
        path = self._following.path
        place, looked = ([], {}) if path is None else _read(_kept().get(str(path.absolute())))
        if looked:
            self._round.remember(looked)
        if place:
            # After all panels show the survey.
            QTimer.singleShot(0, self, lambda: self._go_to(*place))

    def _go_to(self, plot: str, visit: str) -> None:
        workup = self._session.workup
        if workup is not None and self._survey == self._session.surveys:
            self._session.select_visit(workup.survey.visit_row(plot, visit))


def _kept() -> dict[str, Any]:
    try:
        kept = json.loads(str(QSettings().value(_KEY, "{}", type=str)))
    except ValueError:
        return {}
    return kept if isinstance(kept, dict) else {}


def _read(kept: Any) -> tuple[list[str], Looked]:
    """Plot and visit, and ids by plot and visit; nothing where it is not as it was kept."""
    try:
        place, looked = kept["place"] or [], kept["looked"]
        return [str(name) for name in place][:2], {(plot, visit): set(ids) for plot, visit, *ids in looked}
    except (KeyError, TypeError, ValueError):
        return [], {}
