"""The floors: a file imports only from those below its own, and nothing heavy is loaded before it is needed."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

#: The import contract of pyproject.toml, as ``lint-imports`` applies it.
LINT_IMPORTS = "from importlinter.cli import lint_imports_command; lint_imports_command()"
FLOORS = (
    "cli",
    "desktop",
    "tasks",
    "checks",
    "reading",
    "writing",
    "drawing",
    "store",
    "survey",
    "core",
)
GROUND = ("errors", "units", "progress", "assets", "checkout", "__main__")


def lint_imports(folder: Path) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-c", LINT_IMPORTS, "--no-cache", "--no-logo"]
    return subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)


def test_every_import_comes_from_a_floor_below(checkout_root):
    result = lint_imports(checkout_root)
    assert result.returncode == 0, result.stdout + result.stderr


@pytest.mark.parametrize(
    ("file", "text", "broken"),
    [
        ("core/locate.py", "import stemmap.survey", "floors below"),
        ("survey/plots.py", "def late():\n    import stemmap.tasks", "floors below"),
        ("checks/azimuth.py", "import stemmap.reading", "floors below"),
        ("cli/view.py", "import stemmap.desktop", "floors below"),
        ("units.py", "import stemmap.core", "floors below"),
        ("misc.py", "", "floors below"),
        ("tasks/check.py", "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    import PySide6", "Qt only in"),
        ("core/stand.py", "import pandas", "core and survey"),
        ("survey/log.py", "import logging", "core and survey"),
        ("drawing/painter.py", "import PySide6.QtGui, stemmap.survey", ""),
    ],
)
def test_contract_catches(checkout_root, tmp_path, file, text, broken):
    """A house with nothing in it but one import: the contract names what it breaks, and only that."""
    for floor in FLOORS:
        (tmp_path / "stemmap" / floor).mkdir(parents=True)
        (tmp_path / "stemmap" / floor / "__init__.py").touch()
    for name in ("__init__", *GROUND):
        (tmp_path / "stemmap" / f"{name}.py").touch()
    (tmp_path / "pyproject.toml").write_text((checkout_root / "pyproject.toml").read_text("utf-8"), "utf-8")
    (tmp_path / "stemmap" / file).write_text(text, "utf-8")
    result = lint_imports(tmp_path)
    assert result.returncode == (1 if broken else 0), result.stdout + result.stderr
    if broken:
        assert broken in next(line for line in result.stdout.splitlines() if "BROKEN" in line)


def qt_modules(file: Path) -> set[str]:
    """Modules of Qt that a file imports anywhere in its text."""
    found = set()
    for node in ast.walk(ast.parse(file.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module == "PySide6":
            found |= {f"PySide6.{alias.name}" for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            found.add(node.module)
    return {name for name in found if name.split(".")[0] == "PySide6"}


def test_drawing_paints_without_widgets(checkout_root):
    for file in (checkout_root / "stemmap" / "drawing").rglob("*.py"):
        assert qt_modules(file) <= {"PySide6.QtCore", "PySide6.QtGui", "PySide6.QtSvg"}, file


TABLES = {"pandas", "geopandas", "pyogrio", "matplotlib", "pyarrow", "python_calamine"}
SCIENCE = {"scipy", "pyproj", "shapely", "ppigrf"}


@pytest.mark.parametrize(
    ("module", "unwanted"),
    [
        ("stemmap", {"click", "numpy", "PySide6"} | TABLES | SCIENCE),
        ("stemmap.__main__", {"click", "numpy", "ctypes", "subprocess", "PySide6"} | TABLES | SCIENCE),
        ("stemmap.cli", {"numpy", "PySide6"} | TABLES | SCIENCE),
        ("stemmap.core", {"PySide6", "logging"} | TABLES),
        ("stemmap.survey", {"PySide6", "click"} | TABLES),
        ("stemmap.checks", {"PySide6", "click"} | TABLES),
        ("stemmap.reading", {"PySide6", "click"} | TABLES),
        ("stemmap.writing", {"PySide6", "click"} | TABLES),
        ("stemmap.drawing", {"PySide6.QtWidgets", "click"} | TABLES),
        ("stemmap.tasks", {"PySide6", "click"} | TABLES),
        ("stemmap.desktop", {"click"} | TABLES | SCIENCE),
    ],
)
def test_import_is_clean(module, unwanted):
    """A fresh process that imports a floor has loaded none of what it must not need for that."""
    code = f"import sys, {module}; print(*sorted(set(sys.modules) & {unwanted!r}))"
    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout.split()
    assert not loaded, f"import {module} loads {', '.join(loaded)}"
