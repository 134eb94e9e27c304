"""Brings the translations up to date: collects all texts, merges them into the .ts file, and compiles it.

Run from the top of a checkout: python resources/translations/update.py. Translate what it calls unfinished in
stemmap_de.ts (with Qt Linguist or by hand) and run it again.
"""

from __future__ import annotations

import argparse
import ast
import json
import re
import subprocess
import sys
import sysconfig
import tempfile
from collections.abc import Iterator
from pathlib import Path

from stemmap import checks
from stemmap.reading import remarks  # noqa: F401 - declares what reading reports
from stemmap.survey.fields import FIELDS
from stemmap.survey.registry import catalogue

HERE = Path(__file__).resolve().parent
TOP = HERE.parents[1]
LANGUAGE = "de"

#: Floors whose English sentences reach the window through `stemmap.desktop.wording`.
FLOORS = ("checks", "survey", "reading", "writing", "store", "tasks", "core", "drawing")
#: Single words that stand in for a part of a sentence.
WORDS = (
    *("in", "out", "azimuth", "distance", "number", "date", "plot", "stem", "stems", "plots", "stations"),
    *("it fits %1", "%1, %2 and %3", "%1 and %2", ", and "),
    *("Species", "Stems/ha", "Check", "Severity", "Findings", "Plot", "Visit", "Plots", "Stratum", "Remark", "Methods"),
    *("Value", "Settings", "Part", "Meaning", "net", "growth", "weight", "ingrowth", "ongrowth", "mortality"),
    *("removals", "last", "error", "warning", "note", "95 % interval", "Envelopes", "thick", "thin"),
    *("Look", "Field", "Pairs", "Bias", "p = %1", "p < %1"),
    *("Summarising", "larger", "smaller", "grid", "true", "magnetic", "degree", "degrees", "gon", "gons", "mils"),
)
#: What no sentence for a user has: several lines, markup, patterns, keys of a file, words of the database.
_NO_SENTENCE = re.compile(
    r"\n|<|\\|\{\"|'crs'|\[\^|^r[ow]c?$|^kind(_[a-z]+)? %1$"
    r"|\b(SELECT|INSERT|UPDATE|DELETE|CREATE|DROP|ALTER|PRAGMA|BEGIN|WHERE|FROM|ORDER BY|UNION|INTEGER|TEXT|NULL)\b"
)
#: Files whose English texts stand in what they write, not in the window: of tables, of what crews brought back.
_IN_THE_FILE = (
    *("store/geopackage.py", "store/layers.py", "store/schema.py"),
    *("drawing/document.py", "writing/report.py", "writing/remeasured.py"),
    *("tasks/remeasured.py", "survey/returned.py"),
)
_TOLD = re.compile(r"[A-Za-z]{2,}.* |^ .*[a-z]{2}|^[a-z]{2,} %|%\d .*[a-z]{2}")
#: Explanations of checks are part of the handbook, which is English.
_NOT_TOLD = ("what", "why", "todo", "explanation")


def tool(name: str) -> Path | None:
    """One of Qt's translation tools that come with PySide6, None where it is missing."""
    found = [Path(folder) / name for folder in (sysconfig.get_path("scripts"), Path(sys.executable).parent)]
    return next((path for path in found if path.exists()), None)


def sentences() -> list[str]:
    """English sentences of the floors below the window, with %1, %2 ... where values come in."""
    found: dict[str, None] = {}
    for floor in FLOORS:
        for path in sorted((TOP / "stemmap" / floor).rglob("*.py")):
            tree = ast.parse(path.read_text("utf-8"))
            if f"{floor}/{path.name}" in _IN_THE_FILE:
                tree = ast.Module([node for node in ast.walk(tree) if isinstance(node, ast.Raise)], [])
            found |= dict.fromkeys(_sentences_of(tree))
            if floor == "checks":
                found |= dict.fromkeys(_evidence_of(tree))
    return sorted({*found, *WORDS, *_names()})


def _names() -> Iterator[str]:
    """Fields without their units, and kinds of doubt, as the tables name them."""
    checks.load()
    for slug in catalogue():
        yield slug.replace("-", " ")
    for name in FIELDS:
        words, _, unit = name.rpartition("_")
        yield (words if unit in ("m", "cm", "mm", "deg", "percent") else name).replace("_", " ")


def _sentences_of(tree: ast.Module) -> Iterator[str]:
    passed_over = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef):
            first = node.body[0] if node.body else None
            if isinstance(first, ast.Expr):
                passed_over.add(first.value)
        if isinstance(node, ast.keyword) and node.arg in _NOT_TOLD:
            passed_over.update(ast.walk(node.value))
        if isinstance(node, ast.Call) and ast.unparse(node.func).endswith(("tr", "translate")):
            passed_over.update(node.args)
        if isinstance(node, ast.JoinedStr):
            passed_over.update(part for part in node.values if isinstance(part, ast.Constant))
            passed_over.update(
                part
                for value in node.values
                if isinstance(value, ast.FormattedValue) and value.format_spec
                for part in ast.walk(value.format_spec)
            )
    for node in ast.walk(tree):
        if isinstance(node, ast.IfExp):
            either = [text for text in map(_text, (node.body, node.orelse)) if re.fullmatch("[a-z]{2,}", text)]
            yield from (text for text in either if not _NO_SENTENCE.search(text))
        text = _text(node)
        if node not in passed_over and text and _TOLD.search(text) and not _NO_SENTENCE.search(text):
            yield text


def _evidence_of(tree: ast.Module) -> Iterator[str]:
    """Names of what the findings of a check rest on, as the window shows them."""
    for node in ast.walk(tree):
        for key in node.keys if isinstance(node, ast.Dict) else ():
            if isinstance(key, ast.Constant) and re.fullmatch("[a-z_]+", str(key.value)):
                yield str(key.value).replace("_", " ")


def _text(node: ast.AST) -> str:
    """A string, or a string with values as its fixed words and numbered places."""
    if isinstance(node, ast.Constant):
        return node.value if isinstance(node.value, str) else ""
    if not isinstance(node, ast.JoinedStr):
        return ""
    parts, places = [], 0
    for part in node.values:
        if isinstance(part, ast.Constant):
            parts.append(str(part.value))
        else:
            places += 1
            parts.append(f"%{places}")
    return "".join(parts)


def collect(translations: Path) -> None:
    """Merge all texts of the code into a .ts file."""
    lupdate = tool("pyside6-lupdate")
    if lupdate is None:
        raise SystemExit("pyside6-lupdate is not installed; it comes with PySide6-Essentials.")
    with tempfile.TemporaryDirectory() as folder:
        listed = Path(folder) / "sentences.py"
        lines = [f"QCoreApplication.translate('work', {json.dumps(text, ensure_ascii=False)})" for text in sentences()]
        listed.write_text("\n".join(lines) + "\n", "utf-8")
        sources = [*sorted((TOP / "stemmap/desktop").glob("*.py")), *sorted((TOP / "stemmap/drawing").glob("*.py"))]
        subprocess.run(
            [
                *(lupdate, "-silent", "-locations", "none", "-no-obsolete", "-no-ui-lines"),
                *("-disable-heuristic", "sametext", "-disable-heuristic", "similartext"),
                *("-tr-function-alias", "translate+=_tr", "-source-language", "en", "-target-language", LANGUAGE),
                *(*sources, listed, "-ts", translations),
            ],
            check=True,
        )


def main() -> None:
    """Collect, merge, compile."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.parse_args()
    translations = HERE / f"stemmap_{LANGUAGE}.ts"
    (HERE / "sentences.json").write_text(json.dumps(sentences(), ensure_ascii=False, indent=0) + "\n", "utf-8")
    collect(translations)
    lrelease = tool("pyside6-lrelease")
    if lrelease is None:
        raise SystemExit("pyside6-lrelease is not installed; it comes with PySide6-Essentials.")
    compiled = translations.with_suffix(".qm")
    subprocess.run([lrelease, "-silent", translations, "-qm", compiled], check=True)
    unfinished = translations.read_text("utf-8").count('type="unfinished"')
    print(f"{translations.relative_to(TOP)}: {unfinished} texts unfinished")


if __name__ == "__main__":
    main()
