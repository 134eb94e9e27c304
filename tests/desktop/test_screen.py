"""The real program on a virtual screen."""

import signal
import subprocess
import sys

import pytest
from PySide6.QtGui import QImage

DRIVER = """
import sys
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication
from stemmap.desktop import run
from stemmap.desktop.program import run_window
import stemmap.desktop.program as program
from stemmap.tasks.demo import sample_files

made = program.make_window

def watched(application):
    window = made(application)

    def look():
        canvas = window.panels.map_panel.canvas
        if window.session.workup is None or canvas.shown is None or window.jobs.busy:
            QTimer.singleShot(50, look)
            return
        window.step_finding(1)
        QTimer.singleShot(300, end)

    def end():
        window.screen().grabWindow(window.winId()).save(sys.argv[1])
        print(window.session.selected_finding.message)
        window.close()

    QTimer.singleShot(50, look)
    return window

program.make_window = watched
files, settings = sample_files()
sys.exit(run(files, settings=settings))
"""


@pytest.mark.screen
def test_program_opens_the_sample_survey_on_a_real_screen(screen, tmp_path, qapp):
    picture = tmp_path / "window.png"
    ended = subprocess.run(
        [sys.executable, "-W", "error", "-c", DRIVER, str(picture)],
        env={**screen, "QT_FATAL_WARNINGS": "1"},
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert ended.returncode == 0, ended.stderr
    assert ended.stderr == ""
    assert ended.stdout.strip()
    image = QImage(str(picture))
    assert image.width() >= 900
    shades = {image.pixelColor(x, y).name() for x in range(0, image.width(), 7) for y in range(0, image.height(), 7)}
    assert len(shades) > 30


@pytest.mark.screen
def test_program_ends_at_an_interrupt_and_leaves_nothing_behind(screen, tmp_path):
    program = subprocess.Popen(
        [sys.executable, "-m", "stemmap"], env=screen, stderr=subprocess.PIPE, text=True, cwd=tmp_path
    )
    with pytest.raises(subprocess.TimeoutExpired):
        program.wait(timeout=5)
    program.send_signal(signal.SIGINT)
    _, errors = program.communicate(timeout=20)
    assert errors == ""
    assert program.returncode == 0
    assert list(tmp_path.iterdir()) == []
