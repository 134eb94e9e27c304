"""The one state of the window: which survey is open and which plot, stem and finding are selected."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, Signal

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from stemmap.survey.finding import Finding
    from stemmap.survey.settings import Settings
    from stemmap.survey.summary import Summary
    from stemmap.survey.survey import Survey
    from stemmap.tasks.workup import Workup

#: Selected in place of a plot: the survey as a whole, with what is said about its files.
WHOLE_SURVEY = -1
#: Findings of one plot, or about the files, that are shown one by one.
MOST_TOLD = 1000


@dataclass(frozen=True)
class Opened:
    """A survey worked up, with everything the panels ask for at once; made off the GUI thread.

    Parameters
    ----------
    workup
        The survey with what was computed from it.
    errors, warnings, notes
        Number of findings by visit row, and of those about files in the last place; shape (visits + 1,).
    strata
        Estimates per stratum, as the summary tells them.
    by_gravity
        Places of all findings plot by plot, the gravest of a plot first; shape (findings,).
    checked
        Whether the findings hold for these positions; otherwise they are those of the settings before.
    as_of
        Number of the last journal entry that is told, where later ones are left out; None: all are.
    """

    workup: Workup
    errors: NDArray[np.int64]
    warnings: NDArray[np.int64]
    notes: NDArray[np.int64]
    strata: tuple[dict[str, Any], ...]
    by_gravity: NDArray[np.int64]
    checked: bool = True
    as_of: int | None = None

    def findings(self, visit: int) -> list[Finding]:
        """Findings of a visit or of the files (-1), the first of them where there are very many."""
        return self.workup.findings.of_visit(visit, MOST_TOLD)

    def doubts(self, visit: int) -> list[Finding]:
        """Errors and warnings of a visit or of the files."""
        findings = self.workup.findings
        grave = findings.gravity > 1
        return [findings.tell(place) for place in findings.places_of(visit)[:MOST_TOLD] if grave[place]]

    def count(self, visit: int) -> int:
        """Number of all findings of a visit or of the files."""
        return int(self.errors[visit] + self.warnings[visit] + self.notes[visit])


def prepare(workup: Workup) -> Opened:
    """Count the findings of each visit and estimate the strata; what panels read later is computed here as well."""
    import numpy as np

    from stemmap.desktop.telling import in_window_language
    from stemmap.survey.batches import SEVERITIES

    workup = in_window_language(workup)
    findings = workup.findings
    about_files = dict.fromkeys(SEVERITIES, 0)
    for place, (_, batch) in enumerate(findings.batches):
        about_files[findings.severity_of(place)] += int((batch.visit < 0).sum())
    counts = [np.append(findings.count_by_visit(severity), about) for severity, about in about_files.items()]
    _ = findings.worst_of_stem, findings.tell(0) if len(findings) else None  # what telling one needs, for all
    _ = workup.worth.of_findings
    _read_first(workup.summary)
    by_gravity = np.lexsort((-findings.gravity, findings.order.visit))
    return Opened(workup, counts[0], counts[1], counts[2], tuple(workup.summary.strata_json()), by_gravity)


def _read_first(summary: Summary) -> None:
    """Tell the summary of the first plot, for which what all plots need is computed."""
    if len(summary.survey.visits):
        summary.plot_json(0)


def relocated(opened: Opened, workup: Workup) -> Opened:
    """The survey at other positions, with the findings of before; what panels read is computed here as well."""
    _read_first(workup.summary)
    return replace(opened, workup=workup, strata=tuple(workup.summary.strata_json()), checked=False)


class Session(QObject):
    """What is open and selected. Panels read it when a signal says that something changed, and hold nothing themselves.

    Signals
    -------
    replaced
        Another survey was opened, or the same one was worked up under other settings.
    visit_selected, stem_selected, finding_selected
        Another plot visit, stem or finding was selected (or none).
    settings_edited
        Other settings are wanted; the survey under them is not there yet.

    Attributes
    ----------
    surveys
        How many surveys were opened so far; the same as long as it is the same survey.
    """

    replaced = Signal()
    visit_selected = Signal()
    stem_selected = Signal()
    finding_selected = Signal()
    settings_edited = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.opened: Opened | None = None
        self.surveys = 0
        self._checked: Opened | None = None
        self.settings: Settings | None = None
        self.settings_at_opening: Settings | None = None
        self.visit = WHOLE_SURVEY
        self.stem = -1
        self.finding = -1
        self.findings: list[Finding] = []

    @property
    def workup(self) -> Workup | None:
        """The survey worked up, None when nothing is open."""
        return None if self.opened is None else self.opened.workup

    @property
    def selected_finding(self) -> Finding | None:
        """The selected finding, None when there is none."""
        return self.findings[self.finding] if 0 <= self.finding < len(self.findings) else None

    @property
    def place(self) -> int:
        """Place of the selected finding among those of the whole survey, -1 when there is none."""
        if self.workup is None or self.selected_finding is None:
            return -1
        return self.workup.findings.places_of(self.visit).start + self.finding

    def show(self, opened: Opened) -> None:
        """Show another survey, at the first plot that has something to look at."""
        import numpy as np

        settings = opened.workup.survey.settings
        self.opened = self._checked = opened
        self.surveys += 1
        self.settings = self.settings_at_opening = settings
        doubtful = np.flatnonzero((opened.errors + opened.warnings)[:-1])
        has_plots = len(opened.workup.survey.visits) > 0
        self.visit = int(doubtful[0]) if len(doubtful) else 0 if has_plots else WHOLE_SURVEY
        self.stem = self.finding = -1
        self.findings = opened.findings(self.visit)
        self.replaced.emit()

    def update(self, opened: Opened) -> None:
        """Show the same survey under other settings or with other records; the selection stays where it can."""
        chosen = self.selected_finding
        if self.workup is not None:
            shown, survey = self.workup.survey, opened.workup.survey
            if survey.upload is not shown.upload or not survey.stems.stand_as(shown.stems):
                self._find_visit(survey)
        self.opened = opened
        if opened.checked:
            self._checked, self.settings = opened, opened.workup.survey.settings
        self.findings = opened.findings(self.visit)
        same = [place for place, told in enumerate(self.findings) if chosen is not None and told.id == chosen.id]
        self.finding = same[0] if same else -1
        if same and self.stem < 0:
            self.stem = self.findings[same[0]].stem_row
        self.replaced.emit()

    def _find_visit(self, survey: Survey) -> None:
        """Stay at the plot and visit that is selected where others have come before it or it is gone.

        Rows of stems are others too where one was added or struck.
        """
        self.stem = -1
        if self.workup is not None and self.visit != WHOLE_SURVEY:
            visits = self.workup.survey.visits
            self.visit = survey.visit_row(str(visits.plot[self.visit]), str(visits.visit[self.visit]))

    def edit(self, dotted: str, value: Any) -> None:
        """Want one setting changed.

        Raises
        ------
        InputError
            When the value does not fit; the settings stay as they were.
        """
        if self.settings is not None:
            self.want(self.settings.having(dotted, value))

    def want(self, settings: Settings) -> None:
        """Want other settings; at an earlier moment they are those of then."""
        if self.opened is not None and self.opened.as_of is not None:
            return
        self.settings = settings
        self.settings_edited.emit()

    def keep_settings(self) -> None:
        """Go back to what was shown before, because the survey under the settings wanted could not be computed."""
        if self._checked is not None:
            self.update(self._checked)

    def select_visit(self, row: int) -> None:
        """Select a plot visit by its row, or the whole survey."""
        opened = self.opened
        if opened is None or row == self.visit or not WHOLE_SURVEY <= row < len(opened.workup.survey.visits):
            return
        self.visit, self.stem, self.finding = row, -1, -1
        self.findings = opened.findings(row)
        self.visit_selected.emit()

    def select_stem(self, row: int) -> None:
        """Select a stem by its row (-1: none) and its first finding; its plot comes with it."""
        if self.workup is None or row == self.stem:
            return
        if row >= 0:
            self.select_visit(int(self.workup.survey.stems.visit_row[row]))
        self.stem = row
        self.stem_selected.emit()
        chosen = self.selected_finding
        if chosen is None or chosen.stem_row != row:
            places = [place for place, told in enumerate(self.findings) if row >= 0 and told.stem_row == row]
            self._choose_finding(places[0] if places else -1)

    def select_finding(self, place: int) -> None:
        """Select one of the plot's findings by its place (-1: none) and the stem it speaks of."""
        self._choose_finding(place)
        if (chosen := self.selected_finding) is not None and chosen.stem_row != self.stem:
            self.stem = chosen.stem_row
            self.stem_selected.emit()

    def select_place(self, place: int) -> None:
        """Select a finding by its place among those of the whole survey; its plot and stem come with it."""
        if self.workup is None:
            return
        findings = self.workup.findings
        visit = int(findings.order.visit[place])
        self.select_visit(visit)
        if (within := place - findings.places_of(visit).start) < len(self.findings):
            self.select_finding(within)
        else:
            self.select_stem(int(findings.order.stem[place]))

    def _choose_finding(self, place: int) -> None:
        if place != self.finding:
            self.finding = place
            self.finding_selected.emit()

    def step_visit(self, step: int) -> None:
        """Go to the next (1) or previous (-1) plot visit."""
        self.select_visit(max(self.visit + step, WHOLE_SURVEY))

    def select_other_visit(self) -> None:
        """Select the visit before of the same plot, at its first visit the last one; the same stem stays selected."""
        if self.workup is None or self.visit == WHOLE_SURVEY:
            return
        import numpy as np

        visits, stems, stem = self.workup.survey.visits, self.workup.survey.stems, self.stem
        row = int(visits.previous[self.visit])
        if row < 0:
            row = self.visit
            while len(later := np.flatnonzero(visits.previous == row)):
                row = int(later[0])
        self.select_visit(row)
        if stem >= 0 and stems.number_code[stem] >= 0:
            rows = np.arange(len(stems))[visits.stems(row)]
            same = (stems.number_code[rows] == stems.number_code[stem]) & (
                stems.occurrence[rows] == stems.occurrence[stem]
            )
            self.select_stem(int(rows[same][0]) if same.any() else -1)

    def step_finding(self, step: int) -> bool:
        """Go to the next (1) or previous (-1) error or warning, over to other plots; whether there was one."""
        if self.opened is None:
            return False
        place = self._doubtful_place(self.finding + step if self.finding >= 0 or step > 0 else -1, step)
        if place is None:
            row = self._doubtful_visit(step)
            if row is None:
                return False
            self.select_visit(row)
            place = self._doubtful_place(0 if step > 0 else len(self.findings) - 1, step)
        if place is not None:
            self.select_finding(place)
        return place is not None

    def _doubtful_place(self, first: int, step: int) -> int | None:
        last = len(self.findings) if step > 0 else -1
        places = range(first, last, step) if 0 <= first < len(self.findings) else range(0)
        return next((place for place in places if self.findings[place].severity != "note"), None)

    def _doubtful_visit(self, step: int) -> int | None:
        """The nearest visit in the direction of `step` with an error or warning, the whole survey coming first."""
        import numpy as np

        if self.opened is None:
            return None
        doubtful = np.flatnonzero(np.roll(self.opened.errors + self.opened.warnings, 1)) - 1
        beyond = doubtful[doubtful > self.visit] if step > 0 else doubtful[doubtful < self.visit][::-1]
        return int(beyond[0]) if len(beyond) else None
