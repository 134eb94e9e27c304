"""Everything that shows a survey: the map with its table of stems, and the panels around them."""

from __future__ import annotations

from PySide6.QtCore import QByteArray, QCoreApplication, Qt
from PySide6.QtWidgets import QDockWidget, QMainWindow, QSplitter, QTabWidget, QWidget

from stemmap.desktop.findings_panel import FindingsPanel
from stemmap.desktop.jobs import Jobs
from stemmap.desktop.map_panel import MapPanel
from stemmap.desktop.plots_panel import PlotsPanel
from stemmap.desktop.round import Round
from stemmap.desktop.round_card import RoundView
from stemmap.desktop.session import Session
from stemmap.desktop.settings_panel import SettingsPanel
from stemmap.desktop.stems_table import StemsTable
from stemmap.desktop.summary_panel import SummaryPanel

_tr = QCoreApplication.translate
_LEFT, _RIGHT = Qt.DockWidgetArea.LeftDockWidgetArea, Qt.DockWidgetArea.RightDockWidgetArea


class Panels:
    """The panels of a window; they come into sight with the first survey.

    Parameters
    ----------
    window
        The window to whose sides they are docked.
    session, jobs
        What they show, and who works for them.
    """

    def __init__(self, window: QMainWindow, session: Session, jobs: Jobs) -> None:
        self._window = window
        self.round = Round(session, window)  # before all that shows how far it is
        self.map_panel = MapPanel(session, jobs)
        self.stems_table = StemsTable(session)
        self.round_view = RoundView(self.map_panel.canvas, session, self.round, window)
        self.plots_panel = PlotsPanel(session, self.round)
        self.findings_panel = FindingsPanel(session)
        self.summary_panel = SummaryPanel(session, jobs)
        self.settings_panel = SettingsPanel(session)
        self.middle = self._middle()
        self.docks = {
            "plots": self._dock("plots", _tr("panels", "Plots"), self.plots_panel, _LEFT),
            "findings": self._dock("findings", _tr("panels", "Findings"), self.findings_panel, _RIGHT),
            "summary": self._dock("summary", _tr("panels", "Summary"), self.summary_panel, _RIGHT),
            "settings": self._dock("settings", _tr("panels", "Settings"), self.settings_panel, _RIGHT),
        }
        window.setTabPosition(Qt.DockWidgetArea.AllDockWidgetAreas, QTabWidget.TabPosition.North)
        window.tabifyDockWidget(self.docks["findings"], self.docks["summary"])
        window.tabifyDockWidget(self.docks["summary"], self.docks["settings"])
        window.resizeDocks(
            [self.docks["plots"], self.docks["findings"]], [250, 340], Qt.Orientation.Horizontal
        )

        self._around_map: QByteArray | None = None
        self.round.changed.connect(self.make_room)

    def make_room(self) -> None:
        """Give the whole window to the map in the round, and take the room back after it."""
        if self.round.active == (self._around_map is not None):
            return
        if self._around_map is None:
            self._around_map = self._window.saveState()
            for dock in self.docks.values():
                dock.hide()
            self.stems_table.hide()
            self.map_panel.canvas.setFocus()
        else:
            self._window.restoreState(self._around_map)
            self.stems_table.show()
            self._around_map = None

    def _middle(self) -> QSplitter:
        splitter = QSplitter(Qt.Orientation.Vertical)
        splitter.addWidget(self.map_panel)
        splitter.addWidget(self.stems_table)
        splitter.setStretchFactor(0, 3)
        splitter.setStretchFactor(1, 1)
        splitter.setSizes([520, 200])
        splitter.setChildrenCollapsible(False)
        return splitter

    def _dock(self, name: str, title: str, content: QWidget, area: Qt.DockWidgetArea) -> QDockWidget:
        dock = QDockWidget(title, self._window)
        dock.setObjectName(f"dock-{name}")
        dock.setWidget(content)
        dock.hide()
        self._window.addDockWidget(area, dock)
        return dock

    def show(self) -> None:
        """Bring all panels into sight, the findings in front."""
        for dock in self.docks.values():
            dock.show()
        self.bring_forward("findings")

    def bring_forward(self, name: str) -> None:
        """Show a panel in front of those it shares its place with."""
        self.docks[name].show()
        self.docks[name].raise_()
