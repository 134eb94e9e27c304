"""The journal: every decision in a table, and a slider that shows the survey as it was after any of them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from operator import attrgetter
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QCoreApplication, Qt, QTimer, Slot
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QSlider

from stemmap.desktop.columns import TableColumn, number_column, text_column
from stemmap.desktop.decision_words import decision_label, when
from stemmap.desktop.following import Following
from stemmap.desktop.jobs import Jobs
from stemmap.desktop.sentences import field_words
from stemmap.desktop.session import Session
from stemmap.desktop.table_panel import TablePanel

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from stemmap.survey.journal import Entry

_tr = QCoreApplication.translate
#: So long the slider rests before the survey is shown as it was there, milliseconds.
_REST_MS = 60


def journal_columns(entries: Sequence[Entry]) -> tuple[TableColumn, ...]:
    """Columns for entries, one a row; a cell is worded when it is looked at, sorted by or searched."""
    cells: dict[str, Callable[[Entry], str | None]] = {
        _tr("journal_panel", "time"): lambda entry: when(entry.time),
        _tr("journal_panel", "who"): attrgetter("who"),
        _tr("journal_panel", "plot"): attrgetter("plot"),
        _tr("journal_panel", "visit"): attrgetter("visit"),
        _tr("journal_panel", "stem"): attrgetter("stem"),
        _tr("journal_panel", "decision"): _decision,
        _tr("journal_panel", "field"): lambda entry: field_words(entry.field) if entry.field else "",
        _tr("journal_panel", "old"): attrgetter("old"),
        _tr("journal_panel", "new"): attrgetter("new"),
        _tr("journal_panel", "why"): attrgetter("why"),
    }

    def numbers() -> NDArray[np.float64]:
        import numpy as np

        return np.arange(float(len(entries)), 0.0, -1.0)

    entry = number_column(
        _tr("journal_panel", "entry"), _tr("journal_panel", "number of the entry, from 1 without gaps"), numbers, 0
    )
    return entry, *(text_column(title, title, _Cells(entries, cell)) for title, cell in cells.items())


class _Cells(Sequence[str]):
    """Texts of a column, made one by one."""

    def __init__(self, entries: Sequence[Entry], cell: Callable[[Entry], str | None]) -> None:
        self._entries, self._cell = entries, cell

    def __len__(self) -> int:
        return len(self._entries)

    def __getitem__(self, row: Any) -> Any:
        return self._cell(self._entries[row]) or ""


def _decision(entry: Entry) -> str:
    label = decision_label(entry.decision)
    return label if entry.of is None else f"{label} ({entry.of})"


class JournalPanel(TablePanel):
    """Entries, the newest first; a row leads to its stem."""

    def __init__(self, session: Session, jobs: Jobs, following: Following) -> None:
        super().__init__("journal", jobs)
        self._session, self._following_file = session, following
        self._entries: tuple[Entry, ...] = ()
        self.view.setAccessibleName(self.tr("Journal"))
        self.view.setAccessibleDescription(self.tr("Each decision: who, when, what, why; a row leads to its stem."))
        self.slider = QSlider(Qt.Orientation.Horizontal)
        self.slider.setAccessibleName(self.tr("As it was on"))
        self.slider.setToolTip(self.tr("Drag to see the survey as it was after a decision; nothing is changed by that"))
        self.slider.setPageStep(10)
        self.moment = QLabel()
        self.moment.setMinimumWidth(1)
        self.now = QPushButton(self.tr("Back to now"))
        self.now.clicked.connect(self.go_to_now)
        row = QHBoxLayout()
        row.setContentsMargins(6, 4, 6, 4)
        row.setSpacing(8)
        row.addWidget(QLabel(self.tr("As it was on:")))
        row.addWidget(self.slider, 1)
        row.addWidget(self.moment, 1)
        row.addWidget(self.now)
        self.add_below(row)
        self._rest = QTimer(self, singleShot=True, interval=_REST_MS)
        self._rest.timeout.connect(self._on_rested)
        self.slider.valueChanged.connect(self._on_slid)
        following.written.connect(self.read)
        following.turned.connect(self.read)
        session.replaced.connect(self._say_why_empty)
        self.read()

    @Slot()
    def read(self) -> None:
        """Show the entries that are known now."""
        followed = self._following_file
        if followed.journal is not self._entries or not self.model.columns:
            self._entries = followed.journal
            self.set_columns(journal_columns(self._entries[::-1]), slice(0, len(self._entries)))
        shown = len(self._entries) if followed.as_of is None else followed.as_of
        self.slider.blockSignals(True)  # noqa: FBT003 - Qt's own way; nothing is slid by hand
        self.slider.setRange(0, len(self._entries))
        self.slider.setValue(shown)
        self.slider.blockSignals(False)  # noqa: FBT003 - Qt's own way
        self.slider.setEnabled(bool(self._entries))
        self._tell_moment()
        self._say_why_empty()

    @Slot()
    def _say_why_empty(self) -> None:
        words = self.tr("Nothing was decided yet.")
        if self._following_file.path is None:
            words = self.tr("Uploads have no journal. Keep them as a survey file first: File, Keep as survey file.")
        self.view.words = "" if self._entries else words
        self.view.viewport().update()

    # the slider

    @Slot()
    def _on_slid(self) -> None:
        self._tell_moment()
        self._rest.start()

    @Slot()
    def _on_rested(self) -> None:
        self._following_file.look(self.slider.value())

    @Slot()
    def go_to_now(self) -> None:
        """Show the survey as it is now."""
        self.slider.setValue(self.slider.maximum())

    def _tell_moment(self) -> None:
        place = self.slider.value()
        self.now.setEnabled(place < len(self._entries))
        if place == len(self._entries):
            words = self.tr("now")
        elif place == 0:
            words = self.tr("before the first decision")
        else:
            entry = self._entries[place - 1]
            words = self.tr("after entry {entry} ({who}, {when})").format(
                entry=entry.entry, who=entry.who, when=when(entry.time)
            )
        self.moment.setText(words)
        self.moment.setToolTip(words)

    # rows

    def _chosen(self, row: int) -> None:
        """Go to the stem or plot of an entry."""
        workup, entry = self._session.workup, self._entries[len(self._entries) - 1 - row]
        if workup is None or entry.plot is None:
            return
        visit = workup.survey.visit_row(entry.plot, entry.visit or "")
        if visit < 0:
            return
        self._session.select_visit(visit)
        rows = range(*workup.survey.visits.stems(visit).indices(len(workup.survey.stems)))
        records = workup.survey.stems.records
        same = [each for each in rows if (records.source[each], records.line[each]) == (entry.source, entry.line)]
        self._session.select_stem(same[0] if same else -1)

    def _selected(self) -> int:
        return -1
