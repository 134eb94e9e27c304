"""The whole survey on the map: its plots, what lies under the pointer, and how it passes over into a single plot."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, QObject, QPointF, QRectF, QSize, QTimer, Signal, Slot

from stemmap.desktop.jobs import Jobs
from stemmap.desktop.map_request import LEGEND_MM, theme_of
from stemmap.desktop.sentences import number, visit_name, visit_state
from stemmap.desktop.session import WHOLE_SURVEY, Opened, Session

if TYPE_CHECKING:
    from stemmap.drawing.layers import Layers
    from stemmap.drawing.overview import Overview
    from stemmap.drawing.scene import Box, Scene, View
    from stemmap.progress import Progress
    from stemmap.survey.background import Background

_tr = QCoreApplication.translate
#: So long the marks of plots that are there wait for the map of the plot that somebody looks at, milliseconds.
_LATER_MS = 120
#: The pointer hits a mark within so many millimetres of its middle.
_WITHIN_MM = 2.8
#: A plot is entered when it fills this share of the map as it would fit, and left below a smaller one.
ENTERED = 0.45


class SurveyMap(QObject):
    """The plots of the session's survey.

    Signals
    -------
    made
        The plots of the open survey are there.
    """

    made = Signal()

    def __init__(self, session: Session, jobs: Jobs, parent: QObject) -> None:
        super().__init__(parent)
        self._session, self._jobs = session, jobs
        self.plots: Overview | None = None
        self._opened: Opened | None = None
        self._corners: tuple[tuple[bool, Overview], Scene, Scene] | None = None
        self._later = QTimer(self, singleShot=True, interval=_LATER_MS)
        self._later.timeout.connect(self._make)
        session.replaced.connect(self._on_replaced)

    @Slot()
    def _on_replaced(self) -> None:
        opened = self._session.opened
        if opened is None or opened is self._opened:
            return
        if self._opened is None or self._opened.workup.survey.upload is not opened.workup.survey.upload:
            self.plots = None
        self._opened = opened
        if self.plots is None:
            self._make()
        else:
            self._later.start()

    @Slot()
    def _make(self) -> None:
        opened = self._opened
        if opened is None:
            return

        def apply(plots: Overview) -> None:
            self.plots = plots
            self.made.emit()

        self._jobs.start("overview", lambda progress: plots_of(opened, progress), apply=apply, shown=False)

    # how it lies

    @property
    def box(self) -> Box | None:
        """What a map of all plots must show; None while they are not there or none has coordinates."""
        return None if self.plots is None or self.plots.crs is None else self.plots.box

    def index_of(self, visit: int) -> int:
        """Index of a visit's plot; -1 when it has no coordinates."""
        if self.plots is None or not 0 <= visit < len(self.plots.plot_of_visit):
            return -1
        return int(self.plots.plot_of_visit[visit])

    def far(self, view: View, visit: int) -> View | None:
        """A view of one plot as a view of the survey; None when the plot has no coordinates."""
        return self._shifted(view, visit, -1.0)

    def near(self, view: View, visit: int) -> View | None:
        """A view of the survey as a view of one of its plots; None when the plot has no coordinates."""
        return self._shifted(view, visit, 1.0)

    def _shifted(self, view: View, visit: int, sign: float) -> View | None:
        index = self.index_of(visit)
        if self.plots is None or index < 0:
            return None
        east, north = (sign * view.per_metre * self.plots.place[index]).tolist()
        return replace(view, origin_x=view.origin_x + east, origin_y=view.origin_y - north)

    def entered(self, view: View, at: QPointF, room: float) -> int:
        """Visit of the plot into which the map was zoomed at a point; -1: none.

        Parameters
        ----------
        view
            Of the survey.
        at
            Point of the widget.
        room
            Smaller side of the map, units of the widget.
        """
        from stemmap.drawing.plot_map import reach_of

        plots, workup = self.plots, self._session.workup
        if plots is None or workup is None or view.per_metre < ENTERED * room / 1000.0:
            return -1
        east, north = view.to_metres(at.x(), at.y())
        index = plots.near(east, north)
        if index < 0:
            return -1
        visit = self.visit_of(index)
        reach = reach_of(workup.survey, workup.measured, visit)
        x, y = (plots.place[index] - (east, north)).tolist()
        fills = 2.0 * reach * view.per_metre >= ENTERED * room
        return visit if fills and x * x + y * y <= (1.2 * reach) ** 2 else -1

    def visit_of(self, index: int) -> int:
        """The selected visit where it is one of the plot's, else the plot's last."""
        if self.index_of(self._session.visit) == index:
            return self._session.visit
        return WHOLE_SURVEY if self.plots is None else int(self.plots.visit[index])

    def around(self, index: int, view: View) -> Box | None:
        """A box around the plots of the cluster under a mark; None where it is a single plot."""
        if self.plots is None:
            return None
        clusters = self.plots.clusters(view.millimetres_per_metre)
        if clusters.count[index] == 1:
            return None
        return self.plots.around(clusters.low[index], clusters.high[index])

    # what is under the pointer

    def cluster_at(self, view: View, at: QPointF) -> int:
        """Mark under a point of the widget; -1: none."""
        if self.plots is None:
            return -1
        return self.plots.cluster_at(view, at.x(), at.y(), within_mm=_WITHIN_MM)

    def within(self, view: View, box: QRectF) -> list[int]:
        """Visits of the plots whose centres lie in a box on the widget, one for each plot."""
        if self.plots is None:
            return []
        import numpy as np

        places = view.to_device(self.plots.place)
        inside = (places >= (box.left(), box.top())) & (places <= (box.right(), box.bottom()))
        return [self.visit_of(index) for index in np.flatnonzero(inside.all(axis=1)).tolist()]

    def plot_at(self, view: View, at: QPointF) -> int:
        """Visit of the single plot under a point of the widget; -1: none."""
        mark = self.cluster_at(view, at)
        if self.plots is None or mark < 0:
            return -1
        clusters = self.plots.clusters(view.millimetres_per_metre)
        return self.visit_of(int(clusters.first[mark])) if clusters.count[mark] == 1 else -1

    def sentence(self, view: View, mark: int) -> str:
        """A mark in words."""
        opened, plots = self._session.opened, self.plots
        if opened is None or plots is None or mark < 0:
            return ""
        from stemmap.drawing.overview import ERROR, TO_LOOK_AT

        clusters = plots.clusters(view.millimetres_per_metre)
        first, count = int(clusters.first[mark]), int(clusters.count[mark])
        if count == 1:
            visit = self.visit_of(first)
            return f"{visit_name(opened.workup, visit)}: {visit_state(opened, visit)}"
        states = plots.state[first : first + count]
        return _tr("survey_map", "{count} plots, {errors} with errors, {others} to look at").format(
            count=count, errors=int((states == ERROR).sum()), others=int((states == TO_LOOK_AT).sum())
        )

    def nearest_sentence(self, place: tuple[float, float]) -> str:
        """The plot nearest to a place and how far it is."""
        index = -1 if self.plots is None else self.plots.near(*place)
        if self.plots is None or index < 0:
            return ""
        east, north = (self.plots.place[index] - place).tolist()
        return _tr("survey_map", "The nearest plot is {plot}, {distance} m away.").format(
            plot=self.plots.names[index], distance=number((east * east + north * north) ** 0.5, 0)
        )

    def mark_of(self, view: View, visit: int) -> tuple[QPointF, float] | None:
        """Place and radius on the widget of the mark that stands for a visit's plot."""
        index = self.index_of(visit)
        if self.plots is None or index < 0:
            return None
        import numpy as np

        from stemmap.drawing.overview_map import CLUSTER_MM, PLOT_MM

        clusters = self.plots.clusters(view.millimetres_per_metre)
        mark = int(np.searchsorted(clusters.first, index, side="right")) - 1
        x, y = view.to_device(clusters.place[mark : mark + 1])[0].tolist()
        alone = clusters.count[mark] == 1
        to_scale = float(np.nan_to_num(self.plots.radius_m[index])) * view.per_metre if alone else 0.0
        return QPointF(x, y), max(to_scale, (PLOT_MM if alone else CLUSTER_MM) * view.per_millimetre)

    # how it looks

    def corners(self, *, dark: bool) -> tuple[Scene, Scene] | None:
        """North arrow and legend."""
        plots = self.plots
        if plots is None:
            return None
        from stemmap.drawing.ground import north_mark
        from stemmap.drawing.overview_map import describe_overview_legend

        if self._corners is None or self._corners[0] != (dark, plots):
            theme = theme_of(dark=dark)
            legend = describe_overview_legend(plots, theme=theme, width_mm=LEGEND_MM)
            self._corners = (dark, plots), north_mark(_tr("map", "grid N"), theme), legend
        return self._corners[1:]


def describe_survey(
    plots: Overview,
    view: View,
    room: QSize,
    *,
    dark: bool,
    layers: Layers,
    backgrounds: tuple[Background, ...],
) -> Scene:
    """Describe what a view of some size shows of all plots."""
    from stemmap.drawing.overview_map import describe_overview

    theme = theme_of(dark=dark)
    return describe_overview(
        plots, view, room.width(), room.height(), theme=theme, layers=layers, backgrounds=backgrounds
    )


def plots_of(opened: Opened, _progress: Progress | None = None) -> Overview:
    """All plots of a survey with the gravest of their findings."""
    import numpy as np

    from stemmap.drawing.overview import CLEAR, ERROR, TO_LOOK_AT, overview

    errors, warnings = opened.errors[:-1], opened.warnings[:-1]
    gravest = np.where(errors > 0, ERROR, np.where(warnings > 0, TO_LOOK_AT, CLEAR))
    return overview(opened.workup.survey, opened.workup.measured, gravest)
