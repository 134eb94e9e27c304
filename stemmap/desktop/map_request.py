"""What the map asks for off the GUI thread: one plot described for one size, scale and set of colours."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from stemmap.progress import Progress

if TYPE_CHECKING:
    from stemmap.drawing.layers import Layers
    from stemmap.drawing.palette import Theme
    from stemmap.drawing.scene import Box, Scene, View
    from stemmap.survey.background import Background
    from stemmap.survey.finding import Finding
    from stemmap.tasks.workup import Workup


#: Width of the legend, millimetres.
LEGEND_MM = 46.0
#: The legend takes no more than this share of the width.
_MOST_LEGEND = 0.45
#: Share of the map's height that its legend may take before species give way.
_LEGEND_SHARE = 0.9


@dataclass(frozen=True)
class MapRequest:
    """A map that is wanted.

    Parameters
    ----------
    workup, visit, findings
        The survey, the row of the visit and its findings.
    dark
        Whether it is painted light on dark.
    width, height, per_millimetre
        Size of the map and of a millimetre in units of the window.
    view
        The part of the ground wanted; None: the whole plot.
    layers
        What is drawn; the legend takes its room from the width.
    backgrounds
        The user's own ground.
    """

    workup: Workup
    visit: int
    findings: tuple[Finding, ...]
    dark: bool
    width: int
    height: int
    per_millimetre: float
    view: View | None
    layers: Layers
    backgrounds: tuple[Background, ...] = ()

    @property
    def legend_width(self) -> float:
        """Room of the legend, units of the window."""
        return legend_room(self.layers, self.width, self.per_millimetre)

    def is_that(self, other: MapRequest) -> bool:
        """Whether the same map is wanted of the same survey."""
        (large, small), (other_large, other_small) = self._parts, other._parts
        return (
            small == other_small
            and len(large) == len(other_large)
            and all(one is another for one, another in zip(large, other_large, strict=True))
        )

    @property
    def _parts(self) -> tuple[tuple[object, ...], tuple[object, ...]]:
        """What is the same only as the same object, and what is where it is equal."""
        sight = (self.width, self.height, self.per_millimetre, self.view, self.layers)
        return (self.workup, *self.backgrounds), (self.visit, len(self.findings), self.dark, *sight)


def legend_room(layers: Layers, width: float, per_millimetre: float) -> float:
    """Room of the legend beside a map, units of the window; none where it is not wanted or the map needs it all."""
    room = LEGEND_MM * per_millimetre if layers.legend else 0.0
    return room if room <= _MOST_LEGEND * width else 0.0


@dataclass(frozen=True)
class DescribedMap:
    """A map ready to be painted.

    Parameters
    ----------
    request
        What it was made for.
    frame
        What must be seen of the whole plot.
    view
        The view that was asked for.
    scene
        The plot.
    north
        The north arrow.
    legend
        What the marks mean; None when it is not wanted.
    """

    request: MapRequest
    frame: Box
    view: View
    scene: Scene
    north: Scene
    legend: Scene | None

    def fitting(self, width: int, height: int) -> View:
        """The view that shows the whole plot beside the legend in a window of this size."""
        from stemmap.drawing.scene import View

        request = self.request
        free = width - legend_room(request.layers, width, request.per_millimetre)
        return View.fitting(self.frame, max(free, 1.0), height, request.per_millimetre)


def theme_of(*, dark: bool) -> Theme:
    """Colours of the map in a light or a dark window."""
    from stemmap.drawing.palette import DARK, LIGHT

    return DARK if dark else LIGHT


def describe_map(request: MapRequest, _progress: Progress | None = None) -> DescribedMap:
    """Describe a plot for the screen."""
    from stemmap.drawing.ground import north_mark
    from stemmap.drawing.legend import ROW_MM, describe_legend
    from stemmap.drawing.plot_map import describe_plot, frame_of, north_word
    from stemmap.drawing.scene import View

    survey, measured = request.workup.survey, request.workup.measured
    frame = frame_of(survey, measured, request.visit)
    free = max(request.width - request.legend_width, 1.0)
    view = request.view or View.fitting(frame, free, request.height, request.per_millimetre)
    theme = theme_of(dark=request.dark)
    scene = describe_plot(
        survey,
        measured,
        request.visit,
        findings=request.findings,
        theme=theme,
        millimetres_per_metre=view.millimetres_per_metre,
        corners=False,
        layers=request.layers,
        unseen=request.workup.summary.unseen,
        backgrounds=request.backgrounds,
    )
    north = north_mark(north_word(survey, measured, request.visit), theme)
    legend = None
    if request.legend_width:
        legend = describe_legend(
            survey,
            measured,
            request.visit,
            findings=request.findings,
            theme=theme,
            width_mm=LEGEND_MM,
            most_rows=max(int(_LEGEND_SHARE * request.height / request.per_millimetre / ROW_MM), 1),
            layers=request.layers,
            unseen=request.workup.summary.unseen,
        )
    return DescribedMap(request, frame, view, scene, north, legend)
