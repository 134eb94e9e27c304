"""What the plots say of the survey: its means by design, what their error is made of, and the change, in sentences."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from stemmap.desktop.jobs import Jobs
from stemmap.desktop.paragraph import paragraph
from stemmap.desktop.wording import worded

if TYPE_CHECKING:
    from stemmap.survey.summary import Summary

_tr = QCoreApplication.translate

#: A heading, and the sentences under it.
Part = tuple[str, str]


class EstimatesView(QWidget):
    """Tells one survey; computes off the GUI thread.

    Parameters
    ----------
    jobs
        Run the work.
    wanted
        Tells whether anybody sees it; what is told while nobody does waits for `begin`.
    """

    def __init__(self, jobs: Jobs, wanted: Callable[[], bool], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._jobs, self._seen = jobs, wanted
        self._wanted: Summary | None = None
        self._told: Summary | None = None
        self.labels: list[QLabel] = []
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(4)

    def tell(self, summary: Summary) -> None:
        """Tell another survey."""
        self._wanted = summary
        self.begin()

    def begin(self) -> None:
        """Compute what came while nobody could see it."""
        summary = self._wanted
        if summary is None or summary is self._told or not self._seen():
            return
        self._told = summary
        self._show([("", self.tr("Estimating the survey…"))])
        self._jobs.start("estimates", lambda _progress: _parts(summary), apply=self._show, shown=False)

    def _show(self, parts: list[Part]) -> None:
        for label in self.labels:
            self._layout.removeWidget(label)
            label.deleteLater()
        self.labels = []
        for heading, text in parts:
            for content, bold in ((heading, True), (text, False)):
                if content:
                    self.labels.append(paragraph(content, bold=bold))
                    self._layout.addWidget(self.labels[-1])


def _parts(summary: Summary) -> list[Part]:
    """Headings and sentences in the language of the window."""
    from stemmap.survey.change import change_json
    from stemmap.survey.error_budget import error_budget_json
    from stemmap.survey.estimate_words import budget_sentences, change_sentences, estimate_sentences
    from stemmap.survey.estimates import estimates_json

    budget = {told["visit"]: told for told in error_budget_json(summary)}
    parts: list[Part] = []
    for told in estimates_json(summary):
        visit = told["visit"]
        named = _tr("estimates_view", "The survey at visit {visit}").format(visit=visit)
        parts.append((named if visit else _tr("estimates_view", "The survey"), _joined(estimate_sentences(told))))
        if visit in budget:
            heading = _tr("estimates_view", "What its error is made of")
            parts.append((heading, _joined(budget_sentences(budget[visit]))))
    parts += [(_tr("estimates_view", "Change"), _joined(change_sentences(told))) for told in change_json(summary)]
    return parts


def _joined(sentences: list[str]) -> str:
    return "\n".join(map(worded, sentences))
