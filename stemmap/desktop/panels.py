"""Everything that shows a survey: the map, and the panels around it, which move and are remembered."""

from __future__ import annotations

from PySide6.QtCore import QByteArray, QCoreApplication, QSettings, Qt
from PySide6.QtWidgets import QDockWidget, QMainWindow, QTabWidget, QWidget

from stemmap.desktop.background_boxes import BackgroundBoxes
from stemmap.desktop.bookmark import Bookmark
from stemmap.desktop.findings_panel import FindingsPanel
from stemmap.desktop.findings_table import FindingsTable
from stemmap.desktop.following import Following
from stemmap.desktop.jobs import Jobs
from stemmap.desktop.journal_panel import JournalPanel
from stemmap.desktop.map_layers import LayersPanel
from stemmap.desktop.map_panel import MapPanel
from stemmap.desktop.marked_rows import MarkedInTable
from stemmap.desktop.plots_panel import PlotsPanel
from stemmap.desktop.raised import when_raised
from stemmap.desktop.round import Round
from stemmap.desktop.round_card import RoundView
from stemmap.desktop.session import WHOLE_SURVEY, Session
from stemmap.desktop.settings_panel import SettingsPanel
from stemmap.desktop.stems_table import StemsTable
from stemmap.desktop.structure_panel import StructurePanel
from stemmap.desktop.summary_panel import SummaryPanel
from stemmap.desktop.survey_panel import SurveyPanel

_tr = QCoreApplication.translate
_LEFT, _RIGHT = Qt.DockWidgetArea.LeftDockWidgetArea, Qt.DockWidgetArea.RightDockWidgetArea
_BOTTOM = Qt.DockWidgetArea.BottomDockWidgetArea
#: To be raised when panels come, go or change their names: an older layout is then no longer restored.
_LAYOUT = 5


class Panels:
    """The panels of a window; they come into sight with the first survey.

    Parameters
    ----------
    window
        The window to whose sides they are docked.
    session, jobs
        What they show, and who works for them.
    following
        Knows the journal of the survey file that is open.
    """

    def __init__(self, window: QMainWindow, session: Session, jobs: Jobs, following: Following) -> None:
        self._window = window
        self.round = Round(session, window)  # before all that shows how far it is
        self.map_panel = MapPanel(session, jobs)
        self.stems_table = StemsTable(session, jobs)
        self.findings_table = FindingsTable(session, jobs)
        self.round_view = RoundView(self.map_panel.canvas, session, self.round, window)
        self.plots_panel = PlotsPanel(session, self.round, jobs)
        self.background_boxes = BackgroundBoxes(self.map_panel.canvas.backgrounds)
        self.layers_panel = LayersPanel(self.map_panel.canvas.layers, self.background_boxes)
        MarkedInTable(self.map_panel.canvas.marked, self.stems_table)
        MarkedInTable(self.map_panel.canvas.marked_plots, self.plots_panel, first=-WHOLE_SURVEY)
        self.findings_panel = FindingsPanel(session)
        self.summary_panel = SummaryPanel(session, jobs)
        self.structure_panel = StructurePanel(session, jobs)
        self.survey_panel = SurveyPanel(session)
        self.journal_panel = JournalPanel(session, jobs, following)
        self.settings_panel = SettingsPanel(session)
        self.docks = {
            "plots": self._dock("plots", _tr("panels", "Plots"), self.plots_panel, _LEFT),
            "layers": self._dock("layers", _tr("panels", "Layers"), self.layers_panel, _LEFT),
            "stems": self._dock("stems", _tr("panels", "Stems"), self.stems_table, _BOTTOM),
            "all-findings": self._dock("all-findings", _tr("panels", "All findings"), self.findings_table, _BOTTOM),
            "survey": self._dock("survey", _tr("panels", "Survey"), self.survey_panel, _BOTTOM),
            "journal": self._dock("journal", _tr("panels", "Journal"), self.journal_panel, _BOTTOM),
            "findings": self._dock("findings", _tr("panels", "Findings"), self.findings_panel, _RIGHT),
            "summary": self._dock("summary", _tr("panels", "Summary"), self.summary_panel, _RIGHT),
            "structure": self._dock("structure", _tr("panels", "Structure"), self.structure_panel, _RIGHT),
            "settings": self._dock("settings", _tr("panels", "Settings"), self.settings_panel, _LEFT),
        }
        window.setTabPosition(Qt.DockWidgetArea.AllDockWidgetAreas, QTabWidget.TabPosition.North)
        self._explain()
        self._arrange()
        when_raised(self.docks["summary"], self.summary_panel.come_into_sight)
        when_raised(self.docks["structure"], self.structure_panel.come_into_sight)
        when_raised(self.docks["survey"], self.survey_panel.come_into_sight)
        self.bookmark = Bookmark(session, self.round, following, window)
        self._around_map: QByteArray | None = None
        self._aside = False
        self.round.changed.connect(self.make_room)

    def _explain(self) -> None:
        """Say what each panel is for to whoever points at it and asks."""
        for part, text in (
            (
                self.map_panel,
                _tr(
                    "panels",
                    "The map shows every stem where its azimuth and distance place it, to scale. Around the circle "
                    "lies the borderline zone. A letter and an outline stand for a finding, a dashed disc for where a "
                    "stem may really stand, a small hollow dot for where it stood at the last visit.",
                ),
            ),
            (
                self.docks["plots"],
                _tr(
                    "panels",
                    "Every plot and visit with its state: what was found, how much of it is left to look at, or that "
                    "it was looked through. Choose one to see its map.",
                ),
            ),
            (
                self.docks["stems"],
                _tr(
                    "panels",
                    "Every stem as it was typed in the forest, and what is derived from it. "
                    "Nothing typed is ever changed.",
                ),
            ),
            (
                self.docks["findings"],
                _tr(
                    "panels",
                    "What speaks against the records of the selected plot, in sentences. "
                    "Each is a doubt, not a verdict.",
                ),
            ),
            (
                self.docks["all-findings"],
                _tr("panels", "The findings of the whole survey: sort them, filter them by typing, copy them."),
            ),
            (
                self.docks["survey"],
                _tr(
                    "panels",
                    "How the survey was measured, crew by crew or day by day: findings, rates of recording errors, "
                    "last digits, what stems hide from the centre, and how stems were numbered.",
                ),
            ),
            (
                self.docks["journal"],
                _tr(
                    "panels",
                    "Every decision: who, when, what and why. Choose one to go to its stem, or drag the slider to see "
                    "the survey as it was then. Entries are only ever added.",
                ),
            ),
            (
                self.docks["summary"],
                _tr(
                    "panels",
                    "What the selected plot says per hectare, with the reason where a value cannot be known; for the "
                    "whole survey the estimates of its strata.",
                ),
            ),
            (
                self.docks["structure"],
                _tr(
                    "panels",
                    "How the stems of the selected plot, or of the whole survey, stand to each other: clumped or "
                    "regular, how dbh and species mingle, each compared with chance.",
                ),
            ),
            (
                self.docks["settings"],
                _tr(
                    "panels",
                    "How this survey was measured: units, north, sampling design, errors. A change is computed and "
                    "shown at once; it is kept when you save the settings.",
                ),
            ),
        ):
            part.setWhatsThis(text)

    def stand_aside(self, *, aside: bool) -> None:
        """Leave the whole window to a page in place of the map, or come back."""
        self._aside = aside
        self.make_room()

    def make_room(self) -> None:
        """Give the whole window to the map in the round, or to a page, and take the room back after it."""
        if (self.round.active or self._aside) == (self._around_map is not None):
            return
        if self._around_map is None:
            self._around_map = self._window.saveState(_LAYOUT)
            for dock in self.docks.values():
                dock.hide()
            if not self._aside:
                self.map_panel.canvas.setFocus()
        else:
            self._window.restoreState(self._around_map, _LAYOUT)
            self._around_map = None

    def _arrange(self) -> None:
        """Put the panels where they are as long as nobody moves them."""
        window, docks = self._window, self.docks
        for corner, area in (
            (Qt.Corner.BottomLeftCorner, _LEFT),
            (Qt.Corner.BottomRightCorner, _RIGHT),
        ):
            window.setCorner(corner, area)
        for name, area in (("plots", _LEFT), ("stems", _BOTTOM), ("findings", _RIGHT)):
            window.addDockWidget(area, docks[name])
            docks[name].setFloating(False)
        for name, above in (
            ("layers", "plots"),
            ("settings", "layers"),
            ("all-findings", "stems"),
            ("survey", "all-findings"),
            ("journal", "survey"),
            ("summary", "findings"),
            ("structure", "summary"),
        ):
            docks[name].setFloating(False)
            window.tabifyDockWidget(docks[above], docks[name])
        across, down = Qt.Orientation.Horizontal, Qt.Orientation.Vertical
        # The map keeps half of a small window; the states of the plots are longer than the lines of sentences.
        left, right = min(400, window.width() * 17 // 64), min(340, window.width() * 15 // 64)
        below = min(260, window.height() // 3)
        window.resizeDocks([docks["plots"], docks["findings"]], [left, right], across)
        window.resizeDocks([docks["stems"]], [below], down)

    def reset(self) -> None:
        """Put all panels back where they were at first."""
        self._arrange()
        self._show_all()

    def remember(self) -> None:
        """Keep the places of the panels for the next time, and where one was in a survey file."""
        self.bookmark.keep()
        layout = self._around_map or self._window.saveState(_LAYOUT)
        QSettings().setValue("window/layout", layout)

    def _dock(self, name: str, title: str, content: QWidget, area: Qt.DockWidgetArea) -> QDockWidget:
        dock = QDockWidget(title, self._window)
        dock.setObjectName(f"dock-{name}")
        dock.setWidget(content)
        dock.hide()
        self._window.addDockWidget(area, dock)
        return dock

    def show(self) -> None:
        """Bring the panels into sight as they were left, or all of them."""
        layout = QSettings().value("window/layout", QByteArray(), type=QByteArray)
        if not (isinstance(layout, QByteArray) and self._window.restoreState(layout, _LAYOUT)):
            self._show_all()

    def _show_all(self) -> None:
        for dock in self.docks.values():
            dock.show()
        self.bring_forward("plots")
        self.bring_forward("stems")
        self.bring_forward("findings")

    def bring_forward(self, name: str) -> None:
        """Show a panel in front of those it shares its place with."""
        self.docks[name].show()
        self.docks[name].raise_()
