"""The one place that starts Qt: libraries looked for first, offscreen where no window is wanted, font registered."""

from __future__ import annotations

import os
import sys
from ctypes import CDLL, c_void_p
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from stemmap.checkout import install_line, missing_libraries
from stemmap.errors import EnvironmentFault

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtGui import QGuiApplication

    Kind = TypeVar("Kind", bound=QGuiApplication)


def display_available() -> bool:
    """Whether a window can be shown here: on Linux, whether an X or Wayland server answers."""
    if os.environ.get("QT_QPA_PLATFORM", "").partition(":")[0] in ("offscreen", "minimal"):
        return False
    if not sys.platform.startswith("linux"):
        return True
    return _wayland_answers() or _x_answers()


def _wayland_answers() -> bool:
    from socket import AF_UNIX, SOCK_STREAM, socket  # AF_UNIX is not everywhere

    name = os.environ.get("WAYLAND_DISPLAY")
    if not name:
        return False
    with socket(AF_UNIX, SOCK_STREAM) as line:
        try:
            line.connect(str(Path(os.environ.get("XDG_RUNTIME_DIR", ""), name)))
        except OSError:
            return False
    return True


def _x_answers() -> bool:
    if not os.environ.get("DISPLAY"):
        return False
    try:
        xcb = CDLL("libxcb.so.1")
    except OSError:
        return True  # looked for again, with a sentence, when the window is opened
    xcb.xcb_connect.restype = c_void_p
    line = c_void_p(xcb.xcb_connect(None, None))
    refused = xcb.xcb_connection_has_error(line)
    xcb.xcb_disconnect(line)
    return not refused


def probe_libraries(*, window: bool) -> None:
    """Look for the system libraries that Qt loads; without them the import of Qt would fail with a riddle.

    Raises
    ------
    EnvironmentFault
        Naming what is missing and the line that installs it.
    """
    missing = missing_libraries(window)
    if missing:
        names = ", ".join(name for name, _package in missing)
        line = install_line([package for _name, package in missing])
        raise EnvironmentFault(
            f"The system lacks libraries that drawing needs ({names}); nothing was written. On Debian or Ubuntu: {line}"
        )


def application(kind: Callable[[], type[Kind]] | None = None, *, offscreen: bool) -> QGuiApplication:
    """The Qt application of this process, made at the first call.

    Parameters
    ----------
    kind
        Imports and returns the class wanted, for example QApplication; None: QGuiApplication, enough for drawing. It
        is called after the libraries were looked for.
    offscreen
        Draw without any display. Without a usable display Qt would end the process, so this is settled before Qt
        loads. A running application is used as it is.

    Raises
    ------
    EnvironmentFault
        When libraries or a display are missing, or the running application is of another kind.
    """
    if offscreen and not _runs_already():
        os.environ["QT_QPA_PLATFORM"] = "offscreen"
    on_screen = not offscreen and os.environ.get("QT_QPA_PLATFORM") != "offscreen"
    if on_screen and not display_available():
        raise EnvironmentFault(
            "There is no display for a window; start stemmap in a desktop session, or see stemmap --help for what"
            " works without one."
        )
    probe_libraries(window=on_screen and not os.environ.get("WAYLAND_DISPLAY"))
    from PySide6.QtCore import QLocale
    from PySide6.QtGui import QGuiApplication

    from stemmap.drawing.typeface import family

    wanted = QGuiApplication if kind is None else kind()
    running = QGuiApplication.instance()
    if running is None:
        running = wanted([*sys.argv[:1]])
        if kind is None:
            QLocale.setDefault(QLocale.c())  # without a window words are English, and so are their numbers
    elif not isinstance(running, wanted):
        raise EnvironmentFault(f"Qt runs already, but not as the {wanted.__name__} that is needed here.")
    family()
    return running


def _runs_already() -> bool:
    """Whether this process has a Qt application; Qt is not loaded to ask."""
    if "PySide6.QtGui" not in sys.modules:
        return False
    from PySide6.QtGui import QGuiApplication

    return QGuiApplication.instance() is not None
