"""Starts the window: application, look, excepthook, first paint, and only then the reading of files."""

from __future__ import annotations

import gc
import signal
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Slot
from PySide6.QtWidgets import QApplication

from stemmap.desktop.faults import install_hook
from stemmap.desktop.languages import chosen_language, speak
from stemmap.desktop.window import MainWindow

if TYPE_CHECKING:
    from PySide6.QtGui import QGuiApplication


#: So long, in seconds, the window waits for work on another thread to let it have the interpreter. Python's own 5 ms
#: would be waited for each cell and each mark that is painted meanwhile.
_TURN_S = 0.0005


class Collector(QObject):
    """Collects unreachable objects on the GUI thread alone, because some of them may be Qt's."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        # What is loaded and made by then stays; looking at it each time would take longer than all the rest.
        window.prepared.connect(gc.freeze)
        gc.disable()
        self._clock = QTimer(self, interval=1000)
        self._clock.timeout.connect(self._on_tick)
        self._clock.start()
        self._turn = 0

    @Slot()
    def _on_tick(self) -> None:
        """The young often, all only once a minute."""
        self._turn = (self._turn + 1) % 60
        gc.collect(1 if self._turn else 2)


def make_window(application: QGuiApplication) -> MainWindow:
    """The window in its own look, not shown yet."""
    sys.setswitchinterval(_TURN_S)
    if isinstance(application, QApplication):
        application.setStyle("Fusion")
    application.setOrganizationName("stemmap")
    application.setApplicationName("stemmap")
    application.setApplicationDisplayName("stemmap")
    speak(application, chosen_language())
    window = MainWindow()
    window.schemes.apply()
    install_hook(window.message_bar.tell)
    return window


def run_window(
    application: QGuiApplication,
    paths: Sequence[Path],
    *,
    settings: Path | None,
    radius_m: float | None,
    columns: Mapping[str, str],
) -> int:
    """Show the window, read the files once it is painted, and stay until it is closed."""
    # Ctrl+C in the terminal closes the window, also while it is being made: the quit waits for the event loop.
    signal.signal(signal.SIGINT, lambda *_: QTimer.singleShot(0, application.quit))
    window = make_window(application)
    _collector = Collector(window)
    if paths:
        window.painted.connect(
            lambda: window.uploads.open(paths, settings=settings, radius_m=radius_m, columns=columns)
        )
    window.show()
    return application.exec()
