"""The checkout that prepares itself: it acts only where something is missing, and never leaves half an environment."""

import ast
import importlib.metadata
import os
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from stemmap import checkout

fcntl = pytest.importorskip("fcntl", reason="the stand-ins of these tests are shell scripts")

#: A Python that notes how it was called, can do all that it is asked for and ends with 7.
STAND_IN = '#!/bin/sh\necho "$@" >> "$0.calls"\ncase "$1 $2" in "-m pip") exit ${PIP_ENDS:-0};; esac\nexit 7\n'


@pytest.fixture
def fresh(tmp_path, checkout_root):
    """A checkout with nothing but what starts it; its command line says that it ran."""
    (tmp_path / "stemmap").mkdir()
    for name in ("__init__.py", "__main__.py", "checkout.py"):
        shutil.copy(checkout_root / "stemmap" / name, tmp_path / "stemmap" / name)
    (tmp_path / "stemmap" / "cli.py").write_text("def main(open_window):\n    print('ran')\n")
    (tmp_path / "pyproject.toml").write_text("[project]\n")
    return tmp_path


def add_environment(folder: Path, *, stamp: str | None) -> Path:
    python = folder / ".venv" / "bin" / "python"
    python.parent.mkdir(parents=True)
    python.write_text(STAND_IN)
    python.chmod(0o755)
    if stamp is not None:
        (folder / ".venv" / "stamp").write_text(stamp)
    return python


def stamp_of(folder: Path, extra: str = "") -> str:
    code = f"from stemmap import checkout; print(checkout._stamp({extra!r}), end='')"
    return subprocess.run([sys.executable, "-c", code], cwd=folder, capture_output=True, text=True, check=True).stdout


def start(folder: Path, *arguments: str, **environment: str) -> subprocess.CompletedProcess[str]:
    """Run ``python -m stemmap`` in a Python that has only its standard library (-S)."""
    command = [sys.executable, "-S", "-m", "stemmap", *arguments]
    return subprocess.run(
        command, cwd=folder, capture_output=True, text=True, check=False, env={**os.environ, **environment}
    )


def names_in(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def calls(python: Path) -> list[str]:
    record = Path(f"{python}.calls")
    return record.read_text().splitlines() if record.exists() else []


def test_imports_are_those_of_the_project_file(checkout_root):
    """Each distribution of pyproject.toml stands in IMPORTS under the name it is imported by."""
    project = tomllib.loads((checkout_root / "pyproject.toml").read_text("utf-8"))["project"]
    listed = {"": project["dependencies"], "test": project["optional-dependencies"]["test"]}
    modules = importlib.metadata.packages_distributions()
    for extra, requirements in listed.items():
        wanted = {importlib.metadata.distribution(name_of(line)).name for line in requirements}
        assert {modules[name][0] for name in checkout.IMPORTS[extra]} == wanted


def name_of(requirement: str) -> str:
    return re.match(r"[\w-]+", requirement).group()


def test_oldest_python_is_that_of_the_project_file(checkout_root):
    project = tomllib.loads((checkout_root / "pyproject.toml").read_text("utf-8"))["project"]
    assert project["requires-python"] == ">=" + ".".join(map(str, checkout.MINIMUM))


@pytest.mark.parametrize(
    "name",
    ["stemmap/__init__.py", "stemmap/__main__.py", "stemmap/checkout.py", "tests/__init__.py", "tests/__main__.py"],
)
def test_an_old_python_can_parse_what_it_meets_first(checkout_root, name):
    """No text of it is beyond Python 2.7: plain ASCII, no annotation, no f-string, no keyword-only argument."""
    text = (checkout_root / name).read_bytes().decode("ascii")
    tree = ast.parse(text, feature_version=(3, 4))
    for node in ast.walk(tree):
        assert not isinstance(node, ast.JoinedStr | ast.AnnAssign | ast.NamedExpr | ast.Nonlocal), ast.dump(node)
        if isinstance(node, ast.FunctionDef):
            arguments = [*node.args.args, node.args.vararg, node.args.kwarg]
            assert not node.args.kwonlyargs
            assert node.returns is None
            assert not any(argument.annotation for argument in arguments if argument)
        if isinstance(node, ast.List | ast.Tuple):
            assert not any(isinstance(element, ast.Starred) for element in node.elts)


def test_an_old_python_is_told_so(monkeypatch, capsys):
    monkeypatch.setattr(checkout, "MINIMUM", (3, 99))
    with pytest.raises(SystemExit, match="3"):
        checkout.prepare("stemmap")
    assert capsys.readouterr().err.startswith("stemmap: Python 3.99 or newer is needed, and this is Python 3.")


def test_nothing_happens_outside_a_checkout(fresh):
    (fresh / "pyproject.toml").unlink()
    assert start(fresh).stdout == "ran\n"


def test_nothing_happens_where_all_is_there(monkeypatch):
    monkeypatch.setattr(checkout, "_bring_up", lambda *_: pytest.fail("nothing was missing"))
    checkout.prepare("tests", extra="test")


@pytest.mark.parametrize("installed_for", ["", "test"])
def test_ready_environment_takes_over(fresh, installed_for):
    python = add_environment(fresh, stamp=stamp_of(fresh, installed_for))
    result = start(fresh, "check", "a b.csv", "--radius", "9")
    assert (result.returncode, result.stdout, result.stderr) == (7, "", "")
    assert calls(python) == ["-m stemmap check a b.csv --radius 9"]


def test_changed_project_file_brings_the_environment_up_to_date(fresh):
    python = add_environment(fresh, stamp=stamp_of(fresh))
    (fresh / "pyproject.toml").write_text("[project] # changed\n")
    assert start(fresh, "demo").returncode == 7
    assert calls(python)[-1] == "-m stemmap demo"
    assert calls(python)[-2].endswith("--editable .")
    assert (fresh / ".venv" / "stamp").read_text() == stamp_of(fresh)


def test_failed_installation_leaves_no_stamp(fresh):
    python = add_environment(fresh, stamp=stamp_of(fresh))
    python.write_text(STAND_IN.replace('"-m pip")', '"-m pip") [ "$3" = --version ] && exit 0;'))
    (fresh / "pyproject.toml").write_text("[project] # changed\n")
    result = start(fresh, "demo", PIP_ENDS="1")
    assert result.returncode == 3
    assert result.stderr.splitlines()[-1].startswith("stemmap: pip could not install")
    assert not (fresh / ".venv" / "stamp").exists()


def test_unfinished_environment_is_made_anew(fresh, monkeypatch):
    add_environment(fresh, stamp=None)
    (fresh / ".venv" / "unfinished").touch()
    (fresh / ".venv" / "half").touch()
    made = []
    monkeypatch.setattr(checkout, "ROOT", str(fresh))
    monkeypatch.setattr(checkout, "_install", lambda extra: made.append((extra, names_in(fresh / ".venv"))))
    monkeypatch.setattr(subprocess, "call", lambda command, **_: made.append(command[1:3]) or 0)
    checkout._bring_up("test", inside=False)
    assert made == [["-m", "venv"], ("test", ["unfinished"])]
    assert names_in(fresh / ".venv") == ["stamp"]


def test_interrupted_preparation_says_so_and_leaves_its_mark(fresh, monkeypatch, capsys):
    def interrupt(*_, **__):
        raise KeyboardInterrupt

    monkeypatch.setattr(checkout, "ROOT", str(fresh))
    monkeypatch.setattr(checkout, "_missing_imports", lambda _: ["numpy"])
    monkeypatch.setattr(subprocess, "call", interrupt)
    with pytest.raises(SystemExit, match="3"):
        checkout.prepare("stemmap")
    assert capsys.readouterr().err.endswith("stemmap: stopped; the same line goes on from here.\n")
    assert names_in(fresh / ".venv") == ["unfinished"]


def test_environment_of_someone_else_is_not_thrown_away(fresh):
    python = add_environment(fresh, stamp=None)
    python.unlink()
    (fresh / ".venv" / "mine").touch()
    result = start(fresh)
    assert result.returncode == 3
    assert "remove it and type the same line again" in result.stderr
    assert (fresh / ".venv" / "mine").exists()


def test_second_run_waits_for_the_first(fresh):
    add_environment(fresh, stamp=stamp_of(fresh))
    command = [sys.executable, "-S", "-m", "stemmap"]
    with (fresh / "pyproject.toml").open("rb") as held:
        fcntl.flock(held, fcntl.LOCK_EX)
        second = subprocess.Popen(command, cwd=fresh, stderr=subprocess.PIPE, text=True)
        assert second.stderr.readline() == "stemmap: another run is preparing .venv; waiting for it.\n"
        assert second.poll() is None
    assert second.wait(timeout=20) == 7
    second.stderr.close()


LACKING = [("libGL.so.1", "libgl1"), ("libEGL.so.1", "libegl1")]
APT_LINE = "apt-get install -y --no-install-recommends libgl1 libegl1"


def test_user_is_told_the_line_to_type(monkeypatch):
    monkeypatch.setattr(checkout, "missing_libraries", lambda _window: LACKING)
    monkeypatch.setattr(shutil, "which", lambda _: "/usr/bin/apt-get")
    monkeypatch.setattr(os, "geteuid", lambda: 1000)
    with pytest.raises(checkout._CheckoutError) as told:
        checkout._mend_system(need_venv=False, window=False)
    assert f"\n    sudo {APT_LINE}\n" in str(told.value)


def test_system_without_apt_is_told_what_it_lacks(monkeypatch):
    monkeypatch.setattr(checkout, "missing_libraries", lambda _window: LACKING)
    monkeypatch.setattr(shutil, "which", lambda _: None)
    with pytest.raises(checkout._CheckoutError, match=r"lacks libGL\.so\.1, libEGL\.so\.1: install"):
        checkout._mend_system(need_venv=False, window=False)


@pytest.mark.parametrize("works", [True, False])
def test_root_installs_and_says_so(monkeypatch, capsys, works):
    typed = []

    def run(line):
        typed.append(" ".join(line))
        return works, "E: no such thing"

    monkeypatch.setattr(checkout, "missing_libraries", lambda _window: LACKING if len(typed) < 2 else [])
    monkeypatch.setattr(checkout, "_run_quietly", run)
    monkeypatch.setattr(shutil, "which", lambda _: "/usr/bin/apt-get")
    monkeypatch.setattr(os, "geteuid", lambda: 0)
    if works:
        checkout._mend_system(need_venv=False, window=False)
    else:
        with pytest.raises(checkout._CheckoutError, match="could not install libgl1 libegl1"):
            checkout._mend_system(need_venv=False, window=False)
    assert typed == ["apt-get update", APT_LINE]
    told = capsys.readouterr().err
    assert told.startswith(f"stemmap: this system lacks libGL.so.1, libEGL.so.1; installing: {APT_LINE}\n")
    assert ("E: no such thing" in told) is not works


def test_other_systems_bring_their_libraries(monkeypatch):
    monkeypatch.setattr(sys, "platform", "darwin")
    assert checkout.missing_libraries(window=True) == []


@pytest.mark.screen
def test_libraries_named_are_enough_for_a_real_window(screen):
    code = (
        "from PySide6.QtWidgets import QApplication, QWidget\n"
        "app = QApplication([])\nwindow = QWidget()\nwindow.show()\napp.processEvents()\n"
        "print(app.platformName(), window.windowHandle().isExposed() or window.isVisible())"
    )
    result = subprocess.run([sys.executable, "-c", code], env=screen, capture_output=True, text=True, check=False)
    assert (result.stdout, result.returncode) == ("xcb True\n", 0), result.stderr
