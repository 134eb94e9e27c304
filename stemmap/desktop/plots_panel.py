"""The table of plots: each visit with its state in words, and more where it is wanted."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from functools import cache, partial
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QCoreApplication, Slot

from stemmap.desktop.columns import TableColumn, coded_column, given, number_column
from stemmap.desktop.jobs import Jobs
from stemmap.desktop.round import Round
from stemmap.desktop.sentences import visit_name, visit_state
from stemmap.desktop.session import WHOLE_SURVEY, Opened, Session
from stemmap.desktop.table_panel import TablePanel

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Words = tuple[list[str], NDArray[np.integer]]

_tr = QCoreApplication.translate


def plot_columns(opened: Opened, going: Round) -> tuple[TableColumn, ...]:
    """Columns for the visits of a survey; row 0 is the whole survey, row 1 the first visit."""
    import numpy as np

    visits = opened.workup.survey.visits
    codes = given(np.arange(len(visits) + 1))

    @cache
    def plots() -> list[str]:
        return [_tr("plots_panel", "all"), *visits.plot.tolist()]

    @cache
    def names() -> list[str]:
        return ["", *visits.visit.tolist()]

    several = any(visits.visit[:1000])
    plot = coded_column(_tr("plots_panel", "Plot"), _tr("plots_panel", "plot as typed"), codes, plots, natural=False)
    visit = coded_column(
        _tr("plots_panel", "Visit"), _tr("plots_panel", "visit as typed"), codes, names, shown=several
    )
    return (
        # All names at once are only needed for sorting and filtering, which is done elsewhere.
        replace(plot, text=lambda row: str(visits.plot[row - 1]) if row else _tr("plots_panel", "all")),
        replace(visit, text=lambda row: str(visits.visit[row - 1]) if row else ""),
        _state_column(opened, going),
        *_more_columns(opened),
    )


def _state_column(opened: Opened, going: Round) -> TableColumn:
    def text(row: int) -> str:
        visit = row + WHOLE_SURVEY
        return visit_state(opened, visit, going.looked_at(visit))

    def order(rows: slice) -> NDArray[Any]:
        import numpy as np

        grave = opened.errors * 1e8 + opened.warnings * 1e4 + np.minimum(opened.notes, 9999)
        return -np.roll(grave, 1)[rows]

    def matches(word: str, rows: slice, whole: bool) -> NDArray[np.bool_]:  # noqa: FBT001 - always given
        import numpy as np

        told = (text(row).casefold() for row in range(rows.start, rows.stop))
        return np.array([state == word if whole else word in state for state in told], bool)

    return TableColumn(
        _tr("plots_panel", "State"),
        _tr("plots_panel", "what was found; the plots with errors come first when sorted"),
        text,
        order,
        matches,
    )


def _more_columns(opened: Opened) -> Iterator[TableColumn]:
    """Columns that are shown when the user chooses them; what they hold is put together only then."""
    visits, summary = opened.workup.survey.visits, opened.workup.summary
    for name, title in (("stratum", _tr("plots_panel", "Stratum")), ("crew", _tr("plots_panel", "Crew"))):
        words = cache(partial(visits.words, name))
        yield coded_column(
            title,
            _tr("plots_panel", "as typed"),
            cache(partial(_codes, words)),
            partial(_labels, words),
            shown=False,
        )
    dates = cache(partial(_dates, visits.date))
    yield coded_column(
        _tr("plots_panel", "Date"),
        _tr("plots_panel", "date of the visit"),
        lambda: dates()[1],
        lambda: dates()[0],
        natural=False,
        shown=False,
    )
    for title, meaning, values, decimals in (
        (_tr("plots_panel", "Stems"), _tr("plots_panel", "stems recorded"), visits.stem_count, 0),
        (_tr("plots_panel", "Borderline"), _tr("plots_panel", "living borderline stems"), summary.borderline, 0),
        (
            _tr("plots_panel", "Stems/ha"),
            _tr("plots_panel", "living stems per hectare"),
            summary.stems_per_ha,
            0,
        ),
        (
            _tr("plots_panel", "m²/ha"),
            _tr("plots_panel", "basal area of living stems, square metres per hectare"),
            summary.basal_area_m2_per_ha,
            2,
        ),
    ):
        below = cache(partial(_below, values, float("nan")))
        yield number_column(title, meaning, below, decimals, shown=False)


def _below(values: NDArray[Any], first: float) -> NDArray[Any]:
    """Values by visit below one for the whole survey."""
    import numpy as np

    dtype = np.float64 if np.isnan(first) else values.dtype
    return np.concatenate([np.array([first], dtype), values])


def _codes(words: Callable[[], Words]) -> NDArray[np.integer]:
    return _below(words()[1], -1)


def _labels(words: Callable[[], Words]) -> Sequence[str]:
    return words()[0]


def _dates(dates: NDArray[np.datetime64]) -> tuple[list[str], NDArray[np.integer]]:
    """Distinct dates in order, and the place of each visit's among them; -1 where it is not known."""
    import numpy as np

    used, place = np.unique(dates, return_inverse=True)
    return [str(date) for date in used], _below(np.where(np.isnat(dates), -1, place), -1)


class PlotsPanel(TablePanel):
    """Follows and leads the selected visit."""

    def __init__(self, session: Session, going: Round, jobs: Jobs) -> None:
        super().__init__("plots", jobs)
        self._session, self._round = session, going
        self.view.setAccessibleName(self.tr("Plots"))
        self.view.setAccessibleDescription(self.tr("Each plot and visit with its state; arrow keys choose one."))
        self.view.horizontalHeader().setStretchLastSection(True)
        self.model.accessible = self.model.tip = self._sentence
        session.replaced.connect(self._on_replaced)
        session.visit_selected.connect(self.show_selected)
        going.changed.connect(self._on_looked)

    def _sentence(self, row: int) -> str:
        opened, visit = self._session.opened, row + WHOLE_SURVEY
        if opened is None:
            return ""
        return f"{visit_name(opened.workup, visit)}: {visit_state(opened, visit, self._round.looked_at(visit))}"

    def _chosen(self, row: int) -> None:
        self._session.select_visit(row + WHOLE_SURVEY)

    def _selected(self) -> int:
        return self._session.visit - WHOLE_SURVEY

    @Slot()
    def _on_replaced(self) -> None:
        opened = self._session.opened
        if opened is not None:
            count = len(opened.workup.survey.visits) + 1
            self.set_columns(plot_columns(opened, self._round), slice(0, count), pinned=1)

    @Slot()
    def _on_looked(self) -> None:
        self.view.viewport().update()
