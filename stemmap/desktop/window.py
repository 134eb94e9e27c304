"""The main window: panels around the map, the menus, and the work they start."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QByteArray, QEvent, QSettings, QSize, Qt, QTimer, Signal, Slot
from PySide6.QtGui import (
    QCloseEvent,
    QDragEnterEvent,
    QDragLeaveEvent,
    QDropEvent,
    QGuiApplication,
)
from PySide6.QtWidgets import (
    QMainWindow,
    QSizePolicy,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from stemmap.desktop.actions import fill_menu, make_action
from stemmap.desktop.adding import Adding
from stemmap.desktop.commands import FILE_MENU, GO_MENU, HELP_MENU, VIEW_MENU, window_commands
from stemmap.desktop.deciding import Deciding
from stemmap.desktop.deciding_commands import DECIDE_MENU
from stemmap.desktop.faults import sentence_of
from stemmap.desktop.field_packet import FieldPacket
from stemmap.desktop.jobs import Jobs
from stemmap.desktop.language_menu import LanguageMenu
from stemmap.desktop.map_commands import SCALE_MENU, fill_by_menu, layers_menu
from stemmap.desktop.map_layers import follow
from stemmap.desktop.message_bar import MessageBar, OfferBar
from stemmap.desktop.one_line import OneLine
from stemmap.desktop.outputs import Outputs
from stemmap.desktop.past_bar import PastBar
from stemmap.desktop.reason_line import ReasonLine
from stemmap.desktop.recent import RecentMenu
from stemmap.desktop.remeasurements import Remeasurements
from stemmap.desktop.scheme_menu import SchemeMenu
from stemmap.desktop.sentences import field_words
from stemmap.desktop.session import Opened, Session, prepare, relocated
from stemmap.desktop.start_page import StartPage
from stemmap.desktop.upload_columns import UploadColumns
from stemmap.desktop.uploads import Uploads
from stemmap.desktop.value_line import ValueLine
from stemmap.desktop.watching import Watching
from stemmap.desktop.work_status import WorkStatus
from stemmap.errors import Cancelled, HeadingsUnknown, InputError
from stemmap.survey.fields import FIELDS

if TYPE_CHECKING:
    from stemmap.desktop.handbook import HandbookWindow
    from stemmap.desktop.panels import Panels
    from stemmap.progress import Progress


#: What the panels are made of, in the order in which it is loaded; each takes a few milliseconds.
_PARTS = tuple(
    f"stemmap.desktop.{name}"
    for name in (
        *("findings_panel", "table_panel", "findings_table", "goto_field", "map_sight", "map_panel", "plots_panel"),
        *("journal_panel", "round_card", "settings_panel", "stems_table", "summary_panel", "panels"),
    )
)


class MainWindow(QMainWindow):
    """Shows one survey at a time.

    Signals
    -------
    painted
        The window was painted for the first time.
    prepared
        All panels are made.
    """

    painted = Signal()
    prepared = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("main")
        self.setWindowTitle("stemmap")
        self.setAcceptDrops(True)
        self.resize(1280, min(800, self.screen().availableSize().height()))
        geometry = QSettings().value("window/geometry", QByteArray(), type=QByteArray)
        if isinstance(geometry, QByteArray):
            self.restoreGeometry(geometry)
        self._was_painted = False
        self._later: Iterator[Callable[[], object]] = iter(())
        self._preparing = QTimer(self, interval=0)
        self._preparing.timeout.connect(self._prepare)
        self._panels: Panels | None = None
        self._handbook: HandbookWindow | None = None
        self.session = Session(self)
        self.jobs = Jobs(self)
        self.message_bar, self.offer_bar = MessageBar(), OfferBar()
        self.start_page = StartPage()
        self.uploads = Uploads(self.jobs, self)
        self.outputs = Outputs(self.session, self.jobs, self)
        self.upload_columns = UploadColumns(self)
        self.deciding = Deciding(self)
        self.adding, self.watching, self.field_packet = Adding(self), Watching(self), FieldPacket(self)
        self.remeasurements = Remeasurements(self)
        self.value_line, self.reason_line = ValueLine(), ReasonLine()
        self.past_bar = PastBar(self.deciding.following)
        self._lay_out()
        commands = window_commands(self)
        self.actions_by_name = {entry.name: make_action(self, entry, self.deciding.pass_over) for entry in commands}
        self._needs = {entry.name: entry.needs for entry in commands}
        self._fill_menus()
        self._connect()
        self._enable_actions()

    @property
    def panels(self) -> Panels:
        """Everything that shows a survey; made at the first call, after the first painting."""
        if self._panels is None:
            from stemmap.desktop.panels import Panels

            self._panels = Panels(self, self.session, self.jobs, self.deciding.following)
            self._pages.addWidget(self._panels.map_panel)
            for dock in self._panels.docks.values():
                self._view_menu.insertAction(self._schemes, dock.toggleViewAction())
            self._view_menu.insertSeparator(self._schemes)
            self._panels.round.changed.connect(self._on_round)
            canvas = self._panels.map_panel.canvas
            canvas.pointed.connect(self._on_pointed)
            canvas.backgrounds.told.connect(self.message_bar.tell)
            canvas.measuring_changed.connect(self.actions_by_name["measure"].setChecked)
            follow(self.actions_by_name, canvas.layers)
            self.reason_line.left.connect(canvas.setFocus)
            self._panels.settings_panel.refused.connect(self.message_bar.tell)
            self._panels.settings_panel.system_wanted.connect(self.actions_by_name["crs"].trigger)
            self._panels.settings_panel.save_button.clicked.connect(self.outputs.choose_settings)
            structure_panel = self._panels.structure_panel
            structure_panel.save_wanted.connect(self.outputs.choose_diagrams)
            map_layers = self._panels.map_panel.canvas.layers
            self.outputs.layers = lambda: map_layers.value
            self._enable_actions()
        return self._panels

    # putting together

    def _lay_out(self) -> None:
        self._pages = QStackedWidget()
        self._pages.addWidget(self.start_page)
        middle = QWidget()
        column = QVBoxLayout(middle)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.message_bar)
        column.addWidget(self.offer_bar)
        for part in (self.past_bar, self.value_line, self.reason_line):
            column.addWidget(part)
        column.addWidget(self._pages, 1)
        self.setCentralWidget(middle)
        self._pointed = OneLine()
        self._hint = self.tr("N next finding, PgDown next plot, wheel zooms, dragging pans")
        self._pointed.setContentsMargins(6, 0, 6, 0)
        self.work_status = WorkStatus(self.jobs)
        self.statusBar().addWidget(self._pointed, 1)
        self.statusBar().addPermanentWidget(self.work_status)

    def _fill_menus(self) -> None:
        bar, made = self.menuBar(), self.actions_by_name
        file_menu = bar.addMenu(self.tr("&File"))
        fill_menu(file_menu, made, FILE_MENU)
        file_menu.insertMenu(made["sample"], RecentMenu(self, self.uploads.read))
        self._view_menu = bar.addMenu(self.tr("&View"))
        fill_menu(self._view_menu, made, VIEW_MENU)
        self._view_menu.addSeparator()
        for title, names in (
            (self.tr("La&yers"), layers_menu()),
            (self.tr("Fill &by"), fill_by_menu()),
            (self.tr("True &scale"), SCALE_MENU),
        ):
            fill_menu(self._view_menu.addMenu(title), made, names)
        self.schemes = SchemeMenu(self)
        self._schemes = self._view_menu.addMenu(self.schemes)
        self._view_menu.addMenu(LanguageMenu(self, self.message_bar.tell))
        fill_menu(bar.addMenu(self.tr("&Go")), made, GO_MENU)
        fill_menu(bar.addMenu(self.tr("&Decide")), made, DECIDE_MENU)
        fill_menu(bar.addMenu(self.tr("&Help")), made, HELP_MENU)

    def _connect(self) -> None:
        self.session.replaced.connect(self._on_replaced)
        self.session.settings_edited.connect(self._on_settings_edited)
        self.jobs.failed.connect(self._on_failed)
        self.jobs.progressed.connect(self._on_progressed)
        self.jobs.idled.connect(self._on_idled)
        self.uploads.begun.connect(self._on_reading)
        self.uploads.begun.connect(self.panels.bookmark.keep)
        self.uploads.opened.connect(self._on_opened)
        self.uploads.refused.connect(self._on_refused)
        self.outputs.begun.connect(self._enable_actions)
        self.outputs.written.connect(self._on_written)
        self.field_packet.begun.connect(self._enable_actions)
        self.field_packet.written.connect(self._on_written)
        self.deciding.told.connect(self.message_bar.tell)
        self.adding.told.connect(self.message_bar.tell)
        self.watching.told.connect(self.message_bar.tell)
        self.watching.changed.connect(self._enable_actions)
        self.value_line.given.connect(self.deciding.decide)
        self.deciding.following.turned.connect(self._on_turned)
        self.start_page.open_wanted.connect(self.uploads.choose)
        self.start_page.sample_wanted.connect(self.uploads.open_sample)
        self.start_page.recent_wanted.connect(self.uploads.read)
        self.start_page.cancel_wanted.connect(self.jobs.cancel)
        self.schemes.recoloured.connect(self._dress)

    # opening

    @Slot()
    def _on_reading(self) -> None:
        self.message_bar.hide()
        self.show_work()
        if self.session.workup is None:
            self.start_page.show_progress(self.tr("Reading…"), -1.0)
        else:
            self.panels.settings_panel.setEnabled(False)
        self._enable_actions()

    @Slot(object)
    def _on_opened(self, opened: Opened) -> None:
        if self.uploads.goes_on and self.session.workup is not None:
            self.panels.settings_panel.setEnabled(True)
            self.session.update(opened)
        else:
            self.show_opened(opened)
        self.upload_columns.opened(opened)

    @Slot()
    def _on_refused(self) -> None:
        self.start_page.show_empty()
        if self.session.workup is not None:
            self.panels.settings_panel.setEnabled(True)
            self.session.keep_settings()

    def show_work(self) -> None:
        """Show the map of what is open, or the start page."""
        self.show_page(self.start_page if self.session.workup is None else self.panels.map_panel)

    def show_page(self, page: QWidget) -> None:
        """Show a page in the middle of the window."""
        if self._pages.indexOf(page) < 0:
            self._pages.addWidget(page)
        self._pages.setCurrentWidget(page)
        if self.session.workup is not None:
            self.panels.stand_aside(aside=page is not self.panels.map_panel)

    def show_opened(self, opened: Opened) -> None:
        """Show a survey in place of the one before."""
        panels = self.panels
        panels.settings_panel.setEnabled(True)
        # Behind the map the size of the start page no longer matters.
        self.start_page.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Ignored)
        self.show_page(panels.map_panel)
        if self.session.workup is None:
            panels.show()
        self.session.show(opened)
        self._pointed.say(self._hint)
        panels.plots_panel.setFocus()

    @Slot()
    def _on_replaced(self) -> None:
        workup = self.session.workup
        if workup is not None:
            name, path = workup.survey.settings.name, self.deciding.survey_path
            name = name or ", ".join(workup.survey.upload.sources[:2])
            if path is not None:
                name = f"{name} – {path.name}"
            if self.deciding.following.read_only:
                name = self.tr("{name} (can only be read)").format(name=name)
            self.setWindowTitle(f"{name} – stemmap" if name else "stemmap")
        self._enable_actions()

    @Slot()
    def _on_settings_edited(self) -> None:
        """Work the survey up again under the settings wanted."""
        opened, settings = self.session.opened, self.session.settings
        if opened is None or settings is None:
            return

        def work(progress: Progress) -> Opened:
            from stemmap.tasks.workup import relocate

            return relocated(opened, relocate(opened.workup, settings, progress))

        self.message_bar.hide()
        self.jobs.start("survey", work, apply=self._on_relocated, refused=self.session.keep_settings)

    @Slot(object)
    def _on_relocated(self, opened: Opened) -> None:
        """Show the survey at its new positions while it is checked there."""

        def work(progress: Progress) -> Opened:
            from stemmap.tasks.workup import check_again

            return prepare(check_again(opened.workup, progress))

        self.session.update(opened)
        self.jobs.start("survey", work, apply=self.session.update, refused=self.session.keep_settings)
        self._enable_actions()
        self._enable_actions()

    # going about

    def step_finding(self, step: int) -> None:
        """Go to the next (1) or previous (-1) finding and show the list it stands in."""
        if self.panels.round.active:
            self.panels.round.go(step)
            return
        self.panels.bring_forward("findings")
        if not self.session.step_finding(step):
            self.statusBar().showMessage(
                self.tr("There is no further error or thing to look at.")
                if step > 0
                else self.tr("There is no error or thing to look at before this."),
                4000,
            )

    def show_settings(self) -> None:
        """Bring the settings to the front."""
        self.panels.bring_forward("settings")
        self.panels.settings_panel.fields["measurement.azimuth_unit"].setFocus()

    def toggle_full_screen(self) -> None:
        """Full screen and back."""
        self.setWindowState(self.windowState() ^ Qt.WindowState.WindowFullScreen)

    def ask_value(self) -> None:
        """Ask for another value than the proposed ones, for the selected finding."""
        self.deciding.arrive()
        chosen = self.session.selected_finding
        if chosen is None:
            self.message_bar.tell(self.tr("Choose a finding about a value of a stem first: N goes to the next one."))
        elif chosen.stem is None or chosen.field is None:
            self.statusBar().showMessage(
                self.tr("This finding is about no single value: K keeps the record, R sends the crew."), 8000
            )
        else:
            of_number = FIELDS[chosen.field].kind == "number" if chosen.field in FIELDS else False
            self.value_line.ask(chosen.stem, field_words(chosen.field), number=of_number)

    def show_journal(self) -> None:
        """Bring the journal to the front and go to its filter."""
        self.panels.bring_forward("journal")
        self.panels.journal_panel.look_for()

    def show_handbook(self) -> None:
        """Show the handbook beside the window."""
        if self._handbook is None:
            from stemmap.desktop.handbook import HandbookWindow

            self._handbook = HandbookWindow()
        self._handbook.show()
        self._handbook.raise_()
        self._handbook.activateWindow()

    @Slot()
    def _enable_actions(self) -> None:
        opened = self.session.opened is not None
        checked = self.session.opened is not None and self.session.opened.checked
        now = self.deciding.following.as_of is None
        able = {
            "nothing": True,
            "survey": opened,
            "checked": checked,
            "output": checked and not self.outputs.busy,
            "now": checked and now,
            "file": checked and now and self.deciding.survey_path is not None and not self.deciding.following.read_only,
            "work": self.jobs.busy,
            "round": self._panels is not None and self._panels.round.active,
        }
        for name, needs in self._needs.items():
            self.actions_by_name[name].setEnabled(able[needs])
        self.actions_by_name["watch-folder"].setChecked(self.watching.folder is not None)
        for dock in self._panels.docks.values() if self._panels is not None else ():
            dock.toggleViewAction().setEnabled(opened)

    @Slot()
    def _on_turned(self) -> None:
        """At an earlier moment the settings are those of then."""
        if self._panels is not None:
            self._panels.settings_panel.setEnabled(self.deciding.following.as_of is None)
        self._enable_actions()

    # being told

    @Slot(object)
    def _on_failed(self, fault: BaseException) -> None:
        if isinstance(fault, Cancelled):
            self.statusBar().showMessage(sentence_of(fault), 6000)
        else:
            kept = isinstance(fault, InputError) and self.session.workup is not None
            stays = self.tr("What was open stays as it was.") if kept else ""
            self.message_bar.tell(f"{sentence_of(fault)} {stays}".rstrip())
        if isinstance(fault, HeadingsUnknown):
            self.upload_columns.ask_again()
        self._enable_actions()

    @Slot(str)
    def _on_written(self, sentence: str) -> None:
        self.message_bar.tell(sentence)
        self._enable_actions()

    @Slot(str, float)
    def _on_progressed(self, sentence: str, share: float) -> None:
        if self.session.workup is None and self.jobs.runs("survey"):
            self.start_page.show_progress(sentence or self.tr("Reading…"), share)
        self.actions_by_name["stop"].setEnabled(True)

    @Slot()
    def _on_idled(self) -> None:
        self.actions_by_name["stop"].setEnabled(False)

    @Slot(str)
    def _on_pointed(self, sentence: str) -> None:
        self._pointed.say(sentence or self._hint)

    @Slot()
    def _on_round(self) -> None:
        going = self.panels.round
        if going.active:
            self.show_work()
        else:
            words = self.tr("The round goes through the notes too.") if going.with_notes else self._hint
            self._pointed.say(words)
        self._enable_actions()

    @Slot()
    def _on_painted(self) -> None:
        self.painted.emit()
        self._later = iter((self._dress, *(partial(import_module, name) for name in _PARTS), lambda: self.panels))
        self._preparing.start()

    @Slot()
    def _prepare(self) -> None:
        """Make ready what the first survey will need, piece by piece, while nobody waits for it."""
        step = next(self._later, None)
        if step is None:
            self._preparing.stop()
            self.prepared.emit()
        else:
            step()

    @Slot()
    def _dress(self) -> None:
        """Give window and actions their icons, in the colours in force; not before the first painting."""
        from stemmap.desktop.icons import dress, program_icon

        if self._was_painted:
            QGuiApplication.setWindowIcon(program_icon())
            dress(self.actions_by_name, self.palette())

    # Qt's own

    def event(self, event: QEvent) -> bool:
        """Tell when the window was painted for the first time."""
        handled = super().event(event)
        if event.type() == QEvent.Type.Paint and not self._was_painted:
            self._was_painted = True
            QTimer.singleShot(0, self._on_painted)  # after the painting, in which nothing may be painted anew
        return handled

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take files."""
        if any(url.isLocalFile() for url in event.mimeData().urls()):
            event.acceptProposedAction()
            self.start_page.invite(dragged=True)
            if self.deciding.survey_path is not None:
                self.statusBar().showMessage(
                    self.tr("Drop uploads to add them, which is asked before, or field packets")
                )
            elif self.session.workup is not None:
                sentence = self.tr("Drop to open in place of this survey, which stays under File, Open recent")
                self.statusBar().showMessage(sentence)

    def dragLeaveEvent(self, event: QDragLeaveEvent) -> None:
        """The files went elsewhere."""
        self.start_page.invite(dragged=False)
        self.statusBar().clearMessage()
        super().dragLeaveEvent(event)

    def dropEvent(self, event: QDropEvent) -> None:
        """Open the files dropped together in place of what was open, or add them to an open survey file."""
        self.start_page.invite(dragged=False)
        self.statusBar().clearMessage()
        paths = [Path(url.toLocalFile()) for url in event.mimeData().urls() if url.isLocalFile()]
        if paths:
            event.acceptProposedAction()
            self.remeasurements.sort(paths, self._take_uploads)

    def _take_uploads(self, paths: Sequence[Path]) -> None:
        """Offer to add uploads to what is open, or open them."""
        if self.deciding.takes(paths):
            self.adding.offer_dropped(paths)
        else:
            self.uploads.open(paths)

    def closeEvent(self, event: QCloseEvent) -> None:
        """Remember sizes and places, and stop all work first."""
        QSettings().setValue("window/geometry", self.saveGeometry())
        if self._panels is not None and self.session.workup is not None:
            self._panels.remember()
        self._preparing.stop()
        self.jobs.close()
        if self._handbook is not None:
            self._handbook.close()
            self._handbook.deleteLater()
            self._handbook = None
        super().closeEvent(event)

    def minimumSizeHint(self) -> QSize:
        """Smallest size at which every panel can be used."""
        return QSize(900, 560)
