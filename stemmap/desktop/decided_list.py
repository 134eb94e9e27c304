"""What was decided on the selected plot: what, by whom, when and why, also where the finding is gone since."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Slot
from PySide6.QtWidgets import QAbstractItemView, QLabel, QListWidget, QListWidgetItem, QVBoxLayout, QWidget

from stemmap.desktop.decision_words import decision_sentence
from stemmap.desktop.session import Session

if TYPE_CHECKING:
    from stemmap.survey.journal import Entry

#: So many lines of the list are seen at most.
_LINES = 6


class DecidedList(QWidget):
    """The decisions that hold, the last one first; a click leads to the stem. Hidden where nothing was decided."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._entries: list[Entry] = []
        self.heading, self.list = QLabel(), QListWidget()
        self.heading.setContentsMargins(8, 4, 8, 4)
        self.list.setWordWrap(True)
        self.list.setAccessibleName(self.tr("Decided on this plot"))
        self.list.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setAlternatingRowColors(True)
        self.list.itemActivated.connect(self._on_chosen)
        self.list.itemClicked.connect(self._on_chosen)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.heading)
        layout.addWidget(self.list)
        session.replaced.connect(self._on_changed)
        session.visit_selected.connect(self._on_changed)
        self.hide()

    @Slot()
    def _on_changed(self) -> None:
        workup, visit = self._session.workup, self._session.visit
        if workup is None:
            return
        survey = workup.survey
        place = (survey.visits.plot[visit], survey.visits.visit[visit]) if visit >= 0 else (None, "")
        held = [entry for entry in survey.decisions.standing.values() if (entry.plot, entry.visit or "") == place]
        self.setVisible(bool(held))
        if held == self._entries:
            return
        self._entries = held[::-1]
        self.heading.setText(self.tr("Decided on this plot: {count}").format(count=len(held)))
        self.list.clear()
        for entry in self._entries:
            about = self.tr("stem {stem}").format(stem=entry.stem) if entry.stem else self.tr("the plot")
            item = QListWidgetItem(f"{about[:1].upper()}{about[1:]} · {decision_sentence(entry)}")
            item.setToolTip(item.text())
            self.list.addItem(item)
        lines = min(sum(2 for _ in self._entries), _LINES)
        self.list.setFixedHeight(lines * (self.fontMetrics().height() + 4))

    @Slot(QListWidgetItem)
    def _on_chosen(self, item: QListWidgetItem) -> None:
        """Select the stem that was decided on."""
        workup, entry = self._session.workup, self._entries[self.list.row(item)]
        if workup is not None and entry.source is not None and entry.line is not None:
            from stemmap.survey.decided import rows_of

            self._session.select_stem(int(rows_of(workup.survey.stems.records, [(entry.source, entry.line)])[0]))
