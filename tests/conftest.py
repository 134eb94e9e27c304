"""What all tests share: no window of theirs reaches a real screen, and nothing of theirs the user's own settings."""

import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import settings

from stemmap.checkout import install_line, missing_libraries

_HOME = tempfile.TemporaryDirectory(prefix="stemmap-tests-")

# Before Qt starts: it reads these once.
os.environ["QT_QPA_PLATFORM"] = "offscreen"
os.environ["XDG_CONFIG_HOME"] = os.environ["XDG_DATA_HOME"] = os.environ["XDG_RUNTIME_DIR"] = _HOME.name

# A shared machine may be slow for a moment; that is no fault of the code.
settings.register_profile("stemmap", deadline=None)
settings.load_profile("stemmap")


def _no_screen() -> str:
    """Return why no real window can be opened here, or ""."""
    if not sys.platform.startswith("linux"):
        return "the virtual screen Xvfb is for Linux"
    lacking = [package for _, package in missing_libraries(window=True)]
    if not shutil.which("Xvfb"):
        lacking.append("xvfb")
    return f"this system lacks {', '.join(lacking)}: {install_line(lacking)}" if lacking else ""


def pytest_runtest_setup(item: pytest.Item) -> None:
    if item.get_closest_marker("screen") and (reason := _no_screen()):
        if os.environ.get("CI") == "true":
            pytest.fail(f"Screen tests must run in CI, but {reason}", pytrace=False)
        pytest.skip(f"Screen tests: {reason}")


@pytest.fixture(scope="session", autouse=True)
def one_application(qapp: object) -> object:
    """A process has one Qt application: the kind that windows need, also for tests that only draw.

    It has the program's own letters from the start, as the program itself, so that no test depends on those before.
    """
    from stemmap.drawing.typeface import family

    family()
    return qapp


@pytest.fixture(scope="session")
def screen() -> Iterator[dict[str, str]]:
    """Environment of a process whose windows open on a virtual screen of 1600 x 1000 pixels.

    Ask for it in tests marked ``screen`` only: the marker tells first whether there can be one.
    """
    reader, writer = os.pipe()
    server = subprocess.Popen(
        ["Xvfb", "-displayfd", str(writer), "-screen", "0", "1600x1000x24", "-nolisten", "tcp", "-noreset"],
        pass_fds=[writer],
        stderr=subprocess.DEVNULL,
    )
    os.close(writer)
    with os.fdopen(reader) as answer:
        number = answer.readline().strip()  # Xvfb says which display it found free, once it is up
    if not number:
        pytest.fail(f"Xvfb ended with {server.wait()} before its screen was up.", pytrace=False)
    environment = {**os.environ, "DISPLAY": f":{number}", "QT_QPA_PLATFORM": "xcb"}
    environment.pop("WAYLAND_DISPLAY", None)
    yield environment
    server.terminate()
    server.wait(timeout=10)


@pytest.fixture(scope="session")
def checkout_root() -> Path:
    """Top folder of the checkout."""
    return Path(__file__).resolve().parents[1]
