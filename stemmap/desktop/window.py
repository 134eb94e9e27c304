"""The main window: panels around the map, the menus, and the work they start."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QSize, Qt, Signal, Slot
from PySide6.QtGui import QAction, QActionGroup, QCloseEvent, QDragEnterEvent, QDropEvent, QGuiApplication, QKeySequence
from PySide6.QtWidgets import (
    QApplication,
    QDockWidget,
    QFileDialog,
    QLabel,
    QMainWindow,
    QSplitter,
    QStackedWidget,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from stemmap.desktop.about import show_about
from stemmap.desktop.actions import SEPARATOR, Entry, fill_menu, make_action
from stemmap.desktop.faults import sentence_of
from stemmap.desktop.findings_panel import FindingsPanel
from stemmap.desktop.jobs import Jobs
from stemmap.desktop.map_panel import MapPanel
from stemmap.desktop.message_bar import MessageBar
from stemmap.desktop.palettes import palette, system_is_dark
from stemmap.desktop.plots_panel import PlotsPanel
from stemmap.desktop.session import Opened, Session, prepare
from stemmap.desktop.settings_panel import SettingsPanel
from stemmap.desktop.start_page import StartPage
from stemmap.desktop.stems_table import StemsTable
from stemmap.desktop.summary_panel import SummaryPanel
from stemmap.desktop.work_status import WorkStatus
from stemmap.errors import Cancelled

if TYPE_CHECKING:
    from stemmap.progress import Progress

_Key = QKeySequence.StandardKey


class MainWindow(QMainWindow):
    """Shows one survey at a time.

    Signals
    -------
    painted
        The window was painted for the first time.
    """

    painted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("main")
        self.setWindowTitle("stemmap")
        self.setAcceptDrops(True)
        self.resize(1280, 800)
        self._was_painted = False
        self._scheme = "system"
        self.session = Session(self)
        self.jobs = Jobs(self)
        self.message_bar = MessageBar()
        self.start_page = StartPage()
        self.map_panel = MapPanel(self.session, self.jobs)
        self.stems_table = StemsTable(self.session)
        self.plots_panel = PlotsPanel(self.session)
        self.findings_panel = FindingsPanel(self.session)
        self.summary_panel = SummaryPanel(self.session, self.jobs)
        self.settings_panel = SettingsPanel(self.session)
        self._lay_out()
        self.actions_by_name = {entry.name: make_action(self, entry) for entry in self._entries()}
        self._needs = {entry.name: entry.needs for entry in self._entries()}
        self._fill_menus()
        self._connect()
        self._enable_actions()

    @property
    def canvas(self) -> QWidget:
        """The map itself."""
        return self.map_panel.canvas

    # putting together

    def _lay_out(self) -> None:
        self._splitter = QSplitter(Qt.Orientation.Vertical)
        self._splitter.addWidget(self.map_panel)
        self._splitter.addWidget(self.stems_table)
        self._splitter.setStretchFactor(0, 3)
        self._splitter.setStretchFactor(1, 1)
        self._splitter.setSizes([520, 200])
        self._splitter.setChildrenCollapsible(False)
        self._pages = QStackedWidget()
        self._pages.addWidget(self.start_page)
        self._pages.addWidget(self._splitter)
        middle = QWidget()
        column = QVBoxLayout(middle)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.message_bar)
        column.addWidget(self._pages, 1)
        self.setCentralWidget(middle)
        left, right = Qt.DockWidgetArea.LeftDockWidgetArea, Qt.DockWidgetArea.RightDockWidgetArea
        self.docks = {
            "plots": self._dock("plots", self.tr("Plots"), self.plots_panel, left),
            "findings": self._dock("findings", self.tr("Findings"), self.findings_panel, right),
            "summary": self._dock("summary", self.tr("Summary"), self.summary_panel, right),
            "settings": self._dock("settings", self.tr("Settings"), self.settings_panel, right),
        }
        self.setTabPosition(Qt.DockWidgetArea.AllDockWidgetAreas, QTabWidget.TabPosition.North)
        self.tabifyDockWidget(self.docks["findings"], self.docks["summary"])
        self.tabifyDockWidget(self.docks["summary"], self.docks["settings"])
        self.docks["findings"].raise_()
        self.resizeDocks([self.docks["plots"], self.docks["findings"]], [250, 340], Qt.Orientation.Horizontal)
        for dock in self.docks.values():
            dock.hide()
        self._pointed = QLabel()
        self._pointed.setContentsMargins(6, 0, 6, 0)
        self.work_status = WorkStatus(self.jobs)
        self.statusBar().addWidget(self._pointed, 1)
        self.statusBar().addPermanentWidget(self.work_status)

    def _dock(self, name: str, title: str, content: QWidget, area: Qt.DockWidgetArea) -> QDockWidget:
        dock = QDockWidget(title, self)
        dock.setObjectName(f"dock-{name}")
        dock.setWidget(content)
        self.addDockWidget(area, dock)
        return dock

    def _entries(self) -> tuple[Entry, ...]:
        tr, session, canvas = self.tr, self.session, self.map_panel.canvas
        role = QAction.MenuRole
        return (
            Entry("open", tr("&Open uploads…"), tr("Choose the files of plots and stems"), self.choose_uploads, (_Key.Open, "Ctrl+O")),
            Entry("sample", tr("Open the &sample survey"), tr("An invented forest with planted recording errors"), self.open_sample),
            Entry("export", tr("&Export stems…"), tr("Write all stems with their coordinates for a GIS or a spreadsheet"), self.choose_export, ("Ctrl+E",), "survey"),
            Entry("sheets", tr("&Plot sheets as PDF…"), tr("Write a map of each plot at true scale"), self.choose_sheets, ("Ctrl+P",), "survey"),
            Entry("save-settings", tr("Save se&ttings…"), tr("Write the settings in force to a file of its own"), self.choose_settings_file, (_Key.Save, "Ctrl+S"), "survey"),
            Entry("cancel", tr("S&top"), tr("Stop what is being done; nothing is changed"), self.jobs.cancel, ("Ctrl+.",), "work"),
            Entry("quit", tr("&Quit"), tr("Close the program; nothing of yours is changed"), self.close, (_Key.Quit, "Ctrl+Q"), role=role.QuitRole),
            Entry("zoom-in", tr("Zoom &in"), tr("Enlarge the map; the wheel does it at the pointer"), canvas.zoom_in, ("+", "=", _Key.ZoomIn), "survey"),
            Entry("zoom-out", tr("Zoom &out"), tr("Reduce the map"), canvas.zoom_out, ("-", _Key.ZoomOut), "survey"),
            Entry("fit", tr("&Whole plot"), tr("Fit the plot into the map; a double click does the same"), canvas.fit, ("0", "Ctrl+0"), "survey"),
            Entry("full-screen", tr("&Full screen"), tr("Give the window the whole screen, and back"), self.toggle_full_screen, ("F11", _Key.FullScreen)),
            Entry("next-plot", tr("&Next plot"), tr("Go to the next plot visit"), lambda: session.step_visit(1), ("PgDown",), "survey"),
            Entry("previous-plot", tr("&Previous plot"), tr("Go to the plot visit before"), lambda: session.step_visit(-1), ("PgUp",), "survey"),
            Entry("next-finding", tr("Next &finding"), tr("Go to the next error or thing to look at, over to other plots"), lambda: self.step_finding(1), ("N",), "survey"),
            Entry("previous-finding", tr("Previous f&inding"), tr("Go to the error or thing to look at before"), lambda: self.step_finding(-1), ("Shift+N",), "survey"),
            Entry("settings", tr("&Settings"), tr("Units, north, design and errors of the open survey"), self.show_settings, (_Key.Preferences, "Ctrl+,"), "survey", role.PreferencesRole),
            Entry("about", tr("&About stemmap"), tr("Version, licences, and what the maps are not"), lambda: show_about(self), (), role=role.AboutRole),
        )

    def _fill_menus(self) -> None:
        bar, made = self.menuBar(), self.actions_by_name
        file = bar.addMenu(self.tr("&File"))
        names = ("open", "sample", SEPARATOR, "export", "sheets", "save-settings", SEPARATOR, "cancel", SEPARATOR, "quit")
        fill_menu(file, made, names)
        view = bar.addMenu(self.tr("&View"))
        fill_menu(view, made, ("zoom-in", "zoom-out", "fit", SEPARATOR))
        for dock in self.docks.values():
            view.addAction(dock.toggleViewAction())
        view.addSeparator()
        schemes = view.addMenu(self.tr("&Colours"))
        group = QActionGroup(self)
        for scheme, text in (
            ("system", self.tr("Like the &system")),
            ("light", self.tr("&Light")),
            ("dark", self.tr("&Dark")),
        ):
            action = schemes.addAction(text)
            action.setCheckable(True)
            action.setChecked(scheme == "system")
            action.setData(scheme)
            action.setObjectName(f"colours-{scheme}")
            group.addAction(action)
        group.triggered.connect(self._on_scheme_chosen)
        fill_menu(view, made, (SEPARATOR, "full-screen"))
        go = bar.addMenu(self.tr("&Go"))
        fill_menu(go, made, ("next-plot", "previous-plot", SEPARATOR, "next-finding", "previous-finding", SEPARATOR, "settings"))
        fill_menu(bar.addMenu(self.tr("&Help")), made, ("about",))

    def _connect(self) -> None:
        self.session.replaced.connect(self._on_replaced)
        self.session.settings_edited.connect(self._on_settings_edited)
        self.jobs.failed.connect(self._on_failed)
        self.jobs.progressed.connect(self._on_progressed)
        self.jobs.idled.connect(self._on_idled)
        self.map_panel.canvas.pointed.connect(self._pointed.setText)
        self.settings_panel.refused.connect(self.message_bar.tell)
        self.settings_panel.save_button.clicked.connect(self.choose_settings_file)
        self.start_page.open_wanted.connect(self.choose_uploads)
        self.start_page.sample_wanted.connect(self.open_sample)
        self.start_page.cancel_wanted.connect(self.jobs.cancel)
        QGuiApplication.styleHints().colorSchemeChanged.connect(self._on_system_scheme)

    # opening

    @Slot()
    def choose_uploads(self) -> None:
        """Ask for the files of a survey and open them."""
        kinds = self.tr("Uploads (*.csv *.txt *.tsv *.xlsx *.geojson *.json *.gpkg *.toml);;All files (*)")
        names, _ = QFileDialog.getOpenFileNames(self, self.tr("Open uploads"), "", kinds)
        if names:
            self.open_uploads([Path(name) for name in names])

    @Slot()
    def open_sample(self) -> None:
        """Open the invented survey that comes with the program."""

        def work(progress: Progress) -> Opened:
            from stemmap.tasks.demo import sample_files
            from stemmap.tasks.workup import open_uploads

            paths, settings = sample_files()
            return prepare(open_uploads(paths, settings=settings, progress=progress))

        self._start_reading(work)

    def open_uploads(
        self,
        paths: Sequence[Path],
        *,
        settings: Path | None = None,
        radius_m: float | None = None,
        columns: Mapping[str, str] | None = None,
    ) -> None:
        """Read files off the GUI thread and show what is in them; what was open stays until then."""
        files = tuple(paths)

        def work(progress: Progress) -> Opened:
            from stemmap.tasks.workup import open_uploads

            return prepare(
                open_uploads(files, settings=settings, radius_m=radius_m, columns=columns or {}, progress=progress)
            )

        self._start_reading(work)

    def _start_reading(self, work: Callable[[Progress], Opened]) -> None:
        self.message_bar.hide()
        self.settings_panel.setEnabled(False)
        if self.session.workup is None:
            self.start_page.show_progress(self.tr("Reading…"), -1.0)
        self.jobs.start("survey", work, apply=self._show_opened, refused=self._keep)
        self._enable_actions()

    def _show_opened(self, opened: Opened) -> None:
        self.settings_panel.setEnabled(True)
        first = self.session.workup is None
        self._pages.setCurrentWidget(self._splitter)
        if first:
            for dock in self.docks.values():
                dock.show()
            self.docks["findings"].raise_()
        self.session.show(opened)
        self.plots_panel.setFocus()

    def _keep(self) -> None:
        self.settings_panel.setEnabled(True)
        self.start_page.show_empty()
        self.session.keep_settings()

    @Slot()
    def _on_replaced(self) -> None:
        workup = self.session.workup
        if workup is not None:
            name = workup.survey.settings.name or ", ".join(workup.survey.upload.sources[:2])
            self.setWindowTitle(f"{name} – stemmap" if name else "stemmap")
        self._enable_actions()

    @Slot()
    def _on_settings_edited(self) -> None:
        """Work the survey up again under the settings wanted."""
        workup, settings = self.session.workup, self.session.settings
        if workup is None or settings is None:
            return
        survey = workup.survey.under(settings)

        def work(progress: Progress) -> Opened:
            from stemmap.tasks.workup import work_up

            return prepare(work_up(survey, progress))

        self.message_bar.hide()
        self.jobs.start("survey", work, apply=self.session.update, refused=self.session.keep_settings)

    # writing

    @Slot()
    def choose_export(self) -> None:
        """Ask where to write the stems and write them."""
        kinds = self.tr("GeoPackage (*.gpkg);;GeoJSON (*.geojson);;CSV (*.csv)")

        def work(path: Path, progress: Progress) -> str:
            from stemmap.tasks.export import export_stems

            used = export_stems(workup, path, progress=progress)
            where = self.tr("in {crs}").format(crs=used) if used else self.tr("without coordinates: no plot centre is known")
            return self.tr("The stems were written to {path}, {where}.").format(path=path, where=where)

        workup = self.session.workup
        self._ask_and_write(self.tr("Export stems"), "stems.gpkg", kinds, work)

    @Slot()
    def choose_sheets(self) -> None:
        """Ask where to write the plot sheets and write them."""

        def work(path: Path, progress: Progress) -> str:
            from stemmap.tasks.sheets import write_sheets

            write_sheets(workup, path, progress=progress)
            return self.tr("The plot sheets were written to {path}; print them at 100 %.").format(path=path)

        workup = self.session.workup
        self._ask_and_write(self.tr("Plot sheets as PDF"), "plot sheets.pdf", self.tr("PDF (*.pdf)"), work)

    @Slot()
    def choose_settings_file(self) -> None:
        """Ask where to write the settings and write them."""

        def work(path: Path, _progress: Progress) -> str:
            from stemmap.tasks.workup import save_settings

            save_settings(settings, path)
            return self.tr("The settings were saved to {path}.").format(path=path)

        settings = self.session.settings
        self._ask_and_write(self.tr("Save settings"), "settings.toml", self.tr("Settings (*.toml)"), work)

    def _ask_and_write(self, title: str, name: str, kinds: str, work: Callable[[Path, Progress], str]) -> None:
        """Ask for a file name, then write off the GUI thread; the sentence that comes back is told."""
        if self.session.workup is None or self.jobs.runs("writing"):
            return
        chosen, kind = QFileDialog.getSaveFileName(self, title, name, kinds)
        if not chosen:
            return
        path = Path(chosen)
        if not path.suffix:
            path = path.with_suffix(kind.partition("*")[2].rstrip(")"))
        self.jobs.start("writing", lambda progress: work(path, progress), apply=self._tell_written)
        self._enable_actions()

    def _tell_written(self, sentence: str) -> None:
        self.message_bar.tell(sentence)
        self._enable_actions()

    # going about

    def step_finding(self, step: int) -> None:
        """Go to the next (1) or previous (-1) finding and show the list it stands in."""
        self.docks["findings"].show()
        self.docks["findings"].raise_()
        if not self.session.step_finding(step):
            self.statusBar().showMessage(
                self.tr("There is no further error or thing to look at.")
                if step > 0
                else self.tr("There is no error or thing to look at before this."),
                4000,
            )

    def show_settings(self) -> None:
        """Bring the settings to the front."""
        self.docks["settings"].show()
        self.docks["settings"].raise_()
        self.settings_panel.fields["measurement.azimuth_unit"].setFocus()

    def toggle_full_screen(self) -> None:
        """Full screen and back."""
        self.setWindowState(self.windowState() ^ Qt.WindowState.WindowFullScreen)

    def _enable_actions(self) -> None:
        opened, busy = self.session.workup is not None, self.jobs.busy
        writing = self.jobs.runs("writing")
        for name, needs in self._needs.items():
            able = {"nothing": True, "survey": opened, "work": busy}[needs]
            self.actions_by_name[name].setEnabled(able and not (writing and name in ("export", "sheets", "save-settings")))
        for dock in self.docks.values():
            dock.toggleViewAction().setEnabled(opened)

    # being told

    @Slot(object)
    def _on_failed(self, fault: BaseException) -> None:
        if isinstance(fault, Cancelled):
            self.statusBar().showMessage(str(fault), 6000)
        else:
            self.message_bar.tell(sentence_of(fault))
        self._enable_actions()

    @Slot(str, float)
    def _on_progressed(self, sentence: str, share: float) -> None:
        if self.session.workup is None and self.jobs.runs("survey"):
            self.start_page.show_progress(sentence or self.tr("Reading…"), share)
        self.actions_by_name["cancel"].setEnabled(True)

    @Slot()
    def _on_idled(self) -> None:
        self.actions_by_name["cancel"].setEnabled(False)

    @Slot(QAction)
    def _on_scheme_chosen(self, action: QAction) -> None:
        self._scheme = str(action.data())
        self.apply_scheme()

    @Slot()
    def _on_system_scheme(self) -> None:
        self.apply_scheme()

    def apply_scheme(self) -> None:
        """Colour the program light or dark, as chosen or as the system asks."""
        dark = self._scheme == "dark" or (self._scheme == "system" and system_is_dark())
        application = QApplication.instance()
        if isinstance(application, QApplication):
            application.setPalette(palette(dark=dark))

    # Qt's own

    def event(self, event: QEvent) -> bool:
        """Tell when the window was painted for the first time."""
        handled = super().event(event)
        if event.type() == QEvent.Type.Paint and not self._was_painted:
            self._was_painted = True
            self.painted.emit()
        return handled

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if any(url.isLocalFile() for url in event.mimeData().urls()):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        paths = [Path(url.toLocalFile()) for url in event.mimeData().urls() if url.isLocalFile()]
        if paths:
            event.acceptProposedAction()
            self.open_uploads(paths)

    def closeEvent(self, event: QCloseEvent) -> None:
        self.jobs.close()
        super().closeEvent(event)

    def minimumSizeHint(self) -> QSize:
        return QSize(900, 560)
