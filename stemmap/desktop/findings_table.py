"""The table of all findings of the survey; a finding is told only when its row comes into sight."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QCoreApplication, Slot

from stemmap.desktop.columns import TableColumn, coded_column, given, number_column
from stemmap.desktop.jobs import Jobs
from stemmap.desktop.sentences import severity_labels
from stemmap.desktop.session import Opened, Session
from stemmap.desktop.table_panel import TablePanel
from stemmap.desktop.wording import worded

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from stemmap.survey.finding import Finding
    from stemmap.tasks.workup import Workup

_tr = QCoreApplication.translate
#: So many rows are looked at to find the next one.
_MOST_AHEAD = 1000


def finding_columns(workup: Workup) -> tuple[TableColumn, ...]:
    """Columns for all findings of a survey in their order."""
    findings, visits = workup.findings, workup.survey.visits
    order = findings.order

    @cache
    def gravity() -> NDArray[np.integer]:
        return 3 - findings.gravity

    @cache
    def stem_label() -> tuple[list[str], NDArray[np.integer]]:
        return _stem_labels(workup)

    sentence = coded_column(
        _tr("findings_table", "sentence"),
        _tr("findings_table", "what was found"),
        given(order.batch),
        given([batch.message for _, batch in findings.batches]),
    )
    return (
        coded_column(
            _tr("findings_table", "severity"),
            _tr("findings_table", "how grave it is"),
            gravity,
            severity_labels,
            natural=False,
        ),
        coded_column(
            _tr("findings_table", "plot"),
            _tr("findings_table", "plot as typed"),
            given(order.visit),
            given(visits.plot),
            natural=False,
        ),
        coded_column(
            _tr("findings_table", "visit"),
            _tr("findings_table", "visit as typed"),
            given(order.visit),
            given(visits.visit),
            shown=any(visits.visit[:1000]),
        ),
        coded_column(
            _tr("findings_table", "stem"),
            _tr("findings_table", "stem number as typed"),
            lambda: stem_label()[1],
            lambda: stem_label()[0],
        ),
        coded_column(
            _tr("findings_table", "check"),
            _tr("findings_table", "kind of doubt"),
            given(order.batch),
            given([worded(check.slug.replace("-", " ")) for check, _ in findings.batches]),
        ),
        number_column(
            _tr("findings_table", "worth, %"),
            _tr(
                "findings_table",
                "what a second look is worth: by how much the values per hectare of the plot are expected to change, "
                "in percent of an average plot, all doubts about the stem or the plot together",
            ),
            lambda: workup.worth.of_findings,
            2,
        ),
        TableColumn(
            sentence.title,
            sentence.meaning,
            lambda place: findings.tell(place).message,
            sentence.order,
            sentence.matches,
        ),
        number_column(
            _tr("findings_table", "stems/ha"),
            _tr("findings_table", "stems per hectare in doubt"),
            cache(lambda: _effect(workup, "stems_per_ha")),
            1,
        ),
        number_column(
            _tr("findings_table", "m²/ha"),
            _tr("findings_table", "basal area in doubt, square metres per hectare"),
            cache(lambda: _effect(workup, "basal_area_m2_per_ha")),
            2,
        ),
    )


def _effect(workup: Workup, name: str) -> NDArray[np.float64]:
    """What each finding is worth per hectare, in order; NaN where it cannot be said."""
    import numpy as np

    findings = workup.findings
    start = np.cumsum([0, *(len(batch) for _, batch in findings.batches)])
    effects: list[NDArray[Any]] = []
    for _, batch in findings.batches:
        effect = getattr(batch, name)
        effects.append(np.full(len(batch), np.nan) if effect is None else effect)
    values: NDArray[np.float64] = np.concatenate([*effects, np.zeros(0)])
    return values[start[findings.order.batch] + findings.order.row]


def _stem_labels(workup: Workup) -> tuple[list[str], NDArray[np.integer]]:
    """Stem numbers as typed, the tree's where stems have none, and which of them belongs to each finding."""
    import numpy as np

    labels: list[str] = []
    stem = workup.findings.order.stem
    code = np.full(len(stem), -1, np.int64)
    for name in ("stem", "tree"):
        column = workup.survey.stems.records.columns.get(name)
        if column is not None:
            codes = np.append(column.codes, -1)[stem]
            code = np.where((code < 0) & (codes >= 0), codes + len(labels), code)
            labels += [str(label) for label in column.labels]
    return labels, code


class FindingsTable(TablePanel):
    """Follows and leads the selected finding."""

    def __init__(self, session: Session, jobs: Jobs) -> None:
        super().__init__("findings", jobs)
        self._session = session
        self.view.setAccessibleName(self.tr("All findings"))
        self.view.setAccessibleDescription(
            self.tr("Each finding of the survey; arrow keys choose one with its plot and stem.")
        )
        self.model.tip = self._sentence
        session.replaced.connect(self._on_replaced)
        session.finding_selected.connect(self.show_selected)

    def place_after(self, is_wanted: Callable[[Finding], bool]) -> int:
        """Place of the first finding wanted below the rows marked; -1 where it is not among the next of them."""
        workup, marked = self._session.workup, self.marked_places()
        if workup is None or not marked:
            return -1
        below = range(marked[-1] + 1, min(marked[-1] + 1 + _MOST_AHEAD, len(self.model.shown)))
        places = map(self.model.shown.row_at, below)
        return next((place for place in places if is_wanted(workup.findings.tell(place))), -1)

    def _sentence(self, place: int) -> str:
        workup = self._session.workup
        return "" if workup is None else workup.findings.tell(place).message

    def _chosen(self, row: int) -> None:
        self._session.select_place(row)

    def _selected(self) -> int:
        return self._session.place

    @Slot()
    def _on_replaced(self) -> None:
        opened: Opened | None = self._session.opened
        if opened is None:
            return
        if opened.checked:
            self.set_columns(finding_columns(opened.workup), slice(0, len(opened.workup.findings)))
        else:
            self.count.setText(self.tr("Working them out anew…"))
