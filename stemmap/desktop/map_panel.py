"""The map with a line above it that names the plot, and one below that says what it cannot show."""

from __future__ import annotations

from math import isnan
from typing import TYPE_CHECKING

from PySide6.QtCore import Slot
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from stemmap.desktop.goto_field import GotoField
from stemmap.desktop.jobs import Jobs
from stemmap.desktop.map_canvas import MapCanvas
from stemmap.desktop.one_line import OneLine
from stemmap.desktop.sentences import visit_name
from stemmap.desktop.session import WHOLE_SURVEY, Session

if TYPE_CHECKING:
    from stemmap.tasks.workup import Workup


class MapPanel(QWidget):
    """Heading, map, notes."""

    def __init__(self, session: Session, jobs: Jobs, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self.canvas = MapCanvas(session, jobs)
        self.heading = OneLine()
        self.heading.setContentsMargins(10, 6, 10, 6)
        self.notes = QLabel()
        self.notes.setWordWrap(True)
        self.notes.setContentsMargins(10, 4, 10, 4)
        self.notes.setAccessibleName(self.tr("Notes on the map"))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        self.goto = GotoField(session, self.canvas)
        self.scale = QLabel()
        self.scale.setContentsMargins(10, 6, 10, 6)
        self.scale.setToolTip(self.tr("Scale of the map on this screen, by the size the screen reports"))
        # What is true for a moment has a place of its own: the heading gives way to it.
        self.work = QLabel(self.tr("being checked again…"))
        self.work.setContentsMargins(10, 6, 10, 6)
        self.work.hide()
        above = QHBoxLayout()
        above.addWidget(self.heading, 1)
        above.addWidget(self.work)
        above.addWidget(self.scale)
        layout.addLayout(above)
        layout.addWidget(self.goto)
        layout.addWidget(self.canvas, 1)
        layout.addWidget(self.notes)
        self.canvas.described.connect(self._on_described)
        self.canvas.moved.connect(self._on_moved)
        session.replaced.connect(self._show_heading)
        session.visit_selected.connect(self._show_heading)

    @Slot()
    def _show_heading(self) -> None:
        opened, visit = self._session.opened, self._session.visit
        if opened is None:
            return
        parts = [visit_name(opened.workup, visit)]
        if visit != WHOLE_SURVEY:
            visits = opened.workup.survey.visits
            date = visits.unsaid_date(visit)
            parts += [date] if date else []
            stratum, crew = visits.text("stratum", visit), visits.text("crew", visit)
            parts += [self.tr("stratum {name}").format(name=stratum)] if stratum else []
            parts += [self.tr("crew {name}").format(name=crew)] if crew else []
            if self.canvas.is_far:
                parts = [self.tr("All plots, selected: {plot}").format(plot=parts[0])]
        self.work.setVisible(not opened.checked)
        self.heading.say(", ".join(parts))

    def _hints(self, workup: Workup, visit: int) -> list[str]:
        """What is missing on a plot, and what to do about it."""
        from stemmap.survey.plot_status import PlotStatus

        hints = []
        if not workup.survey.visits.stem_count[visit]:
            hints.append(self.tr("No stems were recorded on this plot."))
            if workup.summary.status[visit] == PlotStatus.UNKNOWN:
                hints.append(self.tr("If it is empty, say so in the column plot_status of the plots."))
        if workup.survey.settings.design.kind == "fixed" and isnan(workup.measured.radius_m[visit]):
            hints.append(self.tr("Set the radius under Settings (Alt+Return)."))
        return hints

    @Slot()
    def _on_moved(self) -> None:
        scale = self.canvas.scale
        rounded = float(f"{scale:.3g}")
        plots = self.canvas.survey.plots
        nothing = not scale or (self.canvas.is_far and (plots is None or plots.crs is None))
        self.scale.setText("" if nothing else f"1:{self.locale().toString(rounded, 'f', 0)}")

    @Slot()
    def _on_described(self) -> None:
        shown, workup = self.canvas.shown, self._session.workup
        sentences = list(shown.scene.notes) if shown is not None else []
        plots = self.canvas.survey.plots
        if self.canvas.is_far and plots is not None and plots.crs is not None:
            sentences = list(plots.notes)
        self._show_heading()
        if shown is not None and workup is not None:
            sentences += self._hints(workup, shown.request.visit)
        self.notes.setText(" ".join(sentences))
        self.notes.setVisible(bool(sentences))
