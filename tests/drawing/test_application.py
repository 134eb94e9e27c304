"""Qt starts only where it can, and says why not where it cannot."""

import subprocess
import sys

import pytest
from PySide6.QtGui import QGuiApplication

from stemmap.drawing import application as start
from stemmap.drawing.typeface import family
from stemmap.errors import EnvironmentFault


def test_the_running_application_is_used_again():
    assert start.application(offscreen=True) is QGuiApplication.instance()


def test_the_shipped_font_is_used():
    assert family() == "Noto Sans"


def test_an_application_of_another_kind_is_refused():
    class Other(QGuiApplication):
        """Never made."""

    with pytest.raises(EnvironmentFault, match="Other"):
        start.application(lambda: Other, offscreen=True)


def test_missing_libraries_are_named_with_the_line_that_installs_them(monkeypatch):
    monkeypatch.setattr(start, "missing_libraries", lambda window: [("libGL.so.1", "libgl1")])

    with pytest.raises(EnvironmentFault, match=r"libGL\.so\.1.*apt-get install.*libgl1"):
        start.application(offscreen=True)


def test_without_a_display_a_window_is_refused_with_a_sentence(monkeypatch):
    for name in ("QT_QPA_PLATFORM", "DISPLAY", "WAYLAND_DISPLAY"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr(sys, "platform", "linux")

    assert not start.display_available()
    with pytest.raises(EnvironmentFault, match="no display"):
        start.application(offscreen=False)


@pytest.mark.parametrize("name", ["DISPLAY", "WAYLAND_DISPLAY"])
def test_a_display_that_does_not_answer_is_none(monkeypatch, name):
    for variable in ("QT_QPA_PLATFORM", "DISPLAY", "WAYLAND_DISPLAY"):
        monkeypatch.delenv(variable, raising=False)
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.setenv(name, ":4711" if name == "DISPLAY" else "no-such-socket")

    assert not start.display_available()


def test_drawing_needs_no_widgets_and_the_probe_no_qt():
    code = (
        "import sys, stemmap.drawing.application as a; assert 'PySide6' not in sys.modules;"
        "a.application(offscreen=True); assert 'numpy' not in sys.modules;"
        "import stemmap.drawing.targets, stemmap.drawing.sheet;"
        "print([m for m in sys.modules if m.startswith('PySide6.QtWidgets') or m.startswith('PySide6.QtPrint')])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert done.stdout.strip() == "[]"
