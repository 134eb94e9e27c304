"""Makes ``python3 -m stemmap ...`` and ``python3 -m tests`` work in a fresh checkout.

It acts only where pyproject.toml lies beside the package and the running Python lacks a library named there: then it
builds .venv, installs into it and starts the same line again inside. Standard library only, and a syntax that even
Python 2.7 can parse, so that an old Python answers with a sentence and not with a syntax error.
"""

import io
import os
import sys

MINIMUM = (3, 11)
ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))

#: Import names of what pyproject.toml asks for, by extra ("" is what the program itself needs).
IMPORTS = {
    "": (
        "PIL",
        "PySide6",
        "click",
        "geopandas",
        "matplotlib",
        "numpy",
        "pandas",
        "ppigrf",
        "pyogrio",
        "pyproj",
        "python_calamine",
        "scipy",
        "shapely",
        "xlsxwriter",
    ),
    "test": (
        "hypothesis",
        "importlinter",
        "pdfplumber",
        "pyarrow",
        "pypdfium2",
        "pytest",
        "pytestqt",
    ),
}

#: Shared libraries that Qt loads from the system, with the Debian package of each.
QT_LIBRARIES = (
    ("libglib-2.0.so.0", "libglib2.0-0"),
    ("libGL.so.1", "libgl1"),
    ("libEGL.so.1", "libegl1"),
    ("libxkbcommon.so.0", "libxkbcommon0"),
    ("libfontconfig.so.1", "libfontconfig1"),
    ("libfreetype.so.6", "libfreetype6"),
    ("libdbus-1.so.3", "libdbus-1-3"),
)

#: The same for a window on an X display.
X_LIBRARIES = (
    ("libX11-xcb.so.1", "libx11-xcb1"),
    ("libxkbcommon-x11.so.0", "libxkbcommon-x11-0"),
    ("libxcb-cursor.so.0", "libxcb-cursor0"),
    ("libxcb-icccm.so.4", "libxcb-icccm4"),
    ("libxcb-image.so.0", "libxcb-image0"),
    ("libxcb-keysyms.so.1", "libxcb-keysyms1"),
    ("libxcb-randr.so.0", "libxcb-randr0"),
    ("libxcb-render-util.so.0", "libxcb-render-util0"),
    ("libxcb-shape.so.0", "libxcb-shape0"),
    ("libxcb-xkb.so.1", "libxcb-xkb1"),
)


class _CheckoutError(Exception):
    """What the checkout cannot mend by itself; its text tells the user what to do."""


def prepare(module, extra=""):
    # type: (str, str) -> None
    """Go on in an environment that has what the checkout needs, making it first where there is none.

    Parameters
    ----------
    module
        What to start again there, as after ``python3 -m``.
    extra
        The extra of pyproject.toml that it needs, or "".

    Raises
    ------
    SystemExit
        With 3 when something is missing that only the user can bring; its sentence is on standard error.
    """
    try:
        go_there = _bring_up_if_needed(extra)
    except (_CheckoutError, OSError) as fault:
        _say(str(fault))
        sys.exit(3)
    except KeyboardInterrupt:
        _say("stopped; the same line goes on from here.")
        sys.exit(3)
    if go_there:
        _start_again(module)


def missing_libraries(window):
    # type: (bool) -> list[tuple[str, str]]
    """Shared libraries that Qt would look for in vain, as (file name, Debian package).

    Parameters
    ----------
    window
        Whether a real window on an X display is wanted, not only pictures and PDF.
    """
    if not sys.platform.startswith("linux"):
        return []  # elsewhere Qt brings all it needs
    import ctypes

    missing = []
    for library in QT_LIBRARIES + (X_LIBRARIES if window else ()):
        try:
            ctypes.CDLL(library[0])
        except OSError:
            missing.append(library)
    return missing


def install_line(packages):
    # type: (list[str]) -> str
    """Return the line that installs Debian packages, as the user would type it."""
    return " ".join(["sudo"] + _apt_install(packages))


def _bring_up_if_needed(extra):
    # type: (str) -> bool
    """Return whether to go on in .venv, which then is ready."""
    if sys.version_info < MINIMUM:
        raise _CheckoutError(_too_old())
    if not os.path.isfile(os.path.join(ROOT, "pyproject.toml")):
        return False
    missing = _missing_imports(extra)
    inside = os.path.realpath(sys.prefix) == os.path.realpath(_in_venv())
    if not missing and not (inside and _is_stale(extra)):
        return False
    if missing and inside and os.environ.get("STEMMAP_PREPARED") == ROOT:
        raise _CheckoutError("%s lacks %s: remove it and type the same line again." % (_in_venv(), missing[0]))
    _bring_up(extra, inside)
    return True


def _too_old():
    # type: () -> str
    import subprocess

    sentence = "Python %d.%d or newer is needed, and this is Python %s (%s)." % (
        MINIMUM + (sys.version.split()[0], sys.executable)
    )
    for minor in range(20, MINIMUM[1] - 1, -1):
        name = "python3.%d" % minor
        try:  # asked, not only looked for: a stand-in may lie on the path
            subprocess.check_output([name, "-c", ""], stderr=subprocess.STDOUT)
        except (OSError, subprocess.CalledProcessError):
            continue
        return sentence + " This machine has %s: type that instead of python." % name
    return sentence + " Install a newer one, and type its name instead of python."


def _missing_imports(extra):
    # type: (str) -> list[str]
    from importlib.util import find_spec

    names = IMPORTS[""] + (IMPORTS[extra] if extra else ())
    return [name for name in names if find_spec(name) is None]


def _in_venv(*parts):
    # type: (str) -> str
    return os.path.join(ROOT, ".venv", *parts)


def _venv_python():
    # type: () -> str
    return _in_venv("Scripts", "python.exe") if os.name == "nt" else _in_venv("bin", "python")


# Two files in .venv tell how far it got: "stamp", written last, holds what it was installed for; "unfinished", written
# first, says that the folder was made here and may be thrown away if it is still there next time.


def _stamp(extra):
    # type: (str) -> str
    import zlib

    with open(os.path.join(ROOT, "pyproject.toml"), "rb") as project:
        return "%08x %s" % (zlib.crc32(project.read() + ROOT.encode()), extra)


def _has_stamp(extra):
    # type: (str) -> bool
    try:
        with open(_in_venv("stamp")) as stamp:
            return stamp.read() in (_stamp(extra), _stamp("test"))
    except OSError:
        return False


def _is_stale(extra):
    # type: (str) -> bool
    return os.path.exists(_in_venv("stamp")) and not _has_stamp(extra)


def _bring_up(extra, inside):
    # type: (str, bool) -> None
    import time

    started = time.time()
    with _locked(os.path.join(ROOT, "pyproject.toml")):  # whoever comes second finds the work done
        ready = not inside and _has_stamp(extra) and os.path.exists(_venv_python())
        _mend_system(need_venv=not ready, window=not extra and _has_display())
        if ready:
            return
        if os.path.exists(_in_venv("unfinished")) or not _has_pip():
            _say("preparing .venv in %s, once; this takes minutes." % ROOT)
            _make_venv()
        else:
            _say("bringing .venv up to date.")
        _remove(_in_venv("stamp"))
        _install(extra)
        with open(_in_venv("stamp"), "w") as stamp:
            stamp.write(_stamp(extra))
        _remove(_in_venv("unfinished"))
    _say(".venv is ready after %.0f s." % (time.time() - started))


def _locked(path):
    # type: (str) -> io.BufferedReader
    """Open a file that no other run holds; closing it lets the next one go on."""
    held = io.open(path, "rb")  # noqa: SIM115 - the caller closes it
    if sys.platform == "win32":
        import msvcrt
        import time

        held.seek(1 << 30)  # far behind the end, so that the file itself stays readable
        while True:
            try:
                msvcrt.locking(held.fileno(), msvcrt.LK_NBLCK, 1)
            except OSError:
                time.sleep(1)
            else:
                return held
    import fcntl

    try:
        fcntl.flock(held, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        _say("another run is preparing .venv; waiting for it.")
        fcntl.flock(held, fcntl.LOCK_EX)
    return held


def _has_pip():
    # type: () -> bool
    import subprocess

    try:
        return subprocess.run([_venv_python(), "-m", "pip", "--version"], capture_output=True).returncode == 0
    except OSError:
        return False


def _make_venv():
    # type: () -> None
    import shutil
    import subprocess

    folder = _in_venv()
    made_here = os.path.exists(_in_venv("unfinished")) or os.path.exists(_in_venv("stamp"))
    if os.path.isdir(folder) and os.listdir(folder) and not made_here:
        raise _CheckoutError("%s is not from here and has no pip: remove it and type the same line again." % folder)
    shutil.rmtree(folder, ignore_errors=True)
    os.makedirs(folder)
    open(_in_venv("unfinished"), "w").close()
    base = getattr(sys, "_base_executable", None) or sys.executable
    if subprocess.call([base, "-m", "venv", folder], stdout=2) != 0:
        raise _CheckoutError("%s could not make the environment %s; its own words stand above." % (base, folder))


def _install(extra):
    # type: (str) -> None
    import subprocess

    target = ".[%s]" % extra if extra else "."
    pip = [_venv_python(), "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--no-user"]
    if subprocess.call(pip + ["--editable", target], cwd=ROOT, stdout=2) != 0:
        raise _CheckoutError(
            "pip could not install what stemmap needs; its own words stand above."
            " With the network and about 1 GB of disk at hand, type the same line again."
        )


def _mend_system(need_venv, window):
    # type: (bool, bool) -> None
    """Install what the system lacks when root on a Debian, otherwise say what to type."""
    import shutil

    missing = _missing_of_system(need_venv, window)
    if not missing:
        return
    names = ", ".join(name for name, _ in missing)
    packages = [package for _, package in missing]
    if not shutil.which("apt-get"):
        raise _CheckoutError("this system lacks %s: install what brings it and type the same line again." % names)
    if os.geteuid() != 0:
        line = install_line(packages)
        raise _CheckoutError("this system lacks %s. Type\n    %s\nand then the same line again." % (names, line))
    _say("this system lacks %s; installing: %s" % (names, " ".join(_apt_install(packages))))
    _run_quietly(["apt-get", "update"])  # lists may be old or absent; if that matters the next step says so
    done, words = _run_quietly(_apt_install(packages))
    if not done or _missing_of_system(need_venv, window):
        sys.stderr.write(words[-2000:])
        raise _CheckoutError("apt-get could not install %s; its last words stand above." % " ".join(packages))


def _run_quietly(command):
    # type: (list[str]) -> tuple[bool, str]
    import subprocess

    process = subprocess.run(
        command,
        env=dict(os.environ, DEBIAN_FRONTEND="noninteractive"),
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
    )
    return process.returncode == 0, process.stdout.decode(errors="replace")


def _missing_of_system(need_venv, window):
    # type: (bool, bool) -> list[tuple[str, str]]
    import importlib
    from importlib.util import find_spec

    importlib.invalidate_caches()
    missing = missing_libraries(window)
    if need_venv and find_spec("ensurepip") is None:
        missing.append(("ensurepip", "python%d.%d-venv" % sys.version_info[:2]))
    return missing


def _apt_install(packages):
    # type: (list[str]) -> list[str]
    return ["apt-get", "install", "-y", "--no-install-recommends"] + packages


def _start_again(module):
    # type: (str) -> None
    command = [_venv_python(), "-m", module] + sys.argv[1:]
    environment = dict(os.environ, STEMMAP_PREPARED=ROOT)
    sys.stdout.flush()
    sys.stderr.flush()
    if os.name == "nt":  # exec would let the shell go on while the new process still runs
        import subprocess

        sys.exit(subprocess.call(command, env=environment))
    os.execve(command[0], command, environment)


def _has_display():
    # type: () -> bool
    return bool(os.environ.get("DISPLAY")) and os.environ.get("QT_QPA_PLATFORM", "xcb").startswith("xcb")


def _remove(path):
    # type: (str) -> None
    if os.path.exists(path):
        os.remove(path)


def _say(sentence):
    # type: (str) -> None
    sys.stderr.write("stemmap: %s\n" % sentence)
    sys.stderr.flush()
