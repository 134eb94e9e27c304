"""Makes the handbook, handbook.html, from texts.toml, the action table, the fields, settings and docstrings.

Run from the top of a checkout: python resources/handbook/make_handbook.py
"""

from __future__ import annotations

import dataclasses
import inspect
import re
import tomllib
from collections.abc import Iterable, Iterator
from html import escape
from importlib import import_module
from pathlib import Path
from types import ModuleType
from typing import Any, Final, get_args, get_type_hints

from PySide6.QtGui import QGuiApplication, QKeySequence

from stemmap.drawing.application import application

HERE = Path(__file__).resolve().parent
TOP = HERE.parents[1]
TARGET = HERE / "handbook.html"

TEXTS: Final[dict[str, Any]] = tomllib.loads((HERE / "texts.toml").read_text("utf-8"))

#: Modules whose docstrings hold the formulas, in the order of the work.
COMPUTED = (
    ("stemmap.core.bearings", "Azimuths and norths"),
    ("stemmap.core.locate", "Positions and their errors"),
    ("stemmap.core.design", "Sampling designs"),
    ("stemmap.core.inclusion", "Probability of being in"),
    ("stemmap.core.stand", "Per hectare"),
    ("stemmap.core.estimates", "The survey from its plots"),
    ("stemmap.core.change", "Change between visits"),
    ("stemmap.core.edge", "Plots that a stand edge cuts"),
    ("stemmap.core.clark_evans", "Clumped, random or regular: the nearest stem"),
    ("stemmap.core.aggregation", "Clumped, random or regular: places and stems"),
    ("stemmap.core.neighbours", "Neighbourhood of the stems"),
    ("stemmap.core.stem_indices", "Species and sizes of neighbours"),
    ("stemmap.core.second_order", "Structure by distance"),
    ("stemmap.core.mark_relations", "Size and kind by distance"),
    ("stemmap.core.windows", "Ground in which stems were recorded"),
    ("stemmap.core.visibility", "Ground hidden from the centre"),
    ("stemmap.core.missed", "Stems missed behind others"),
    ("stemmap.core.recheck", "What is worth a walk"),
    ("stemmap.core.digits", "Last digits"),
    ("stemmap.core.rates", "Rates of recording errors"),
)

SEVERITIES = {"error": "error", "warning": "to look at", "note": "note"}

_SETTING_SECTIONS = ("measurement", "design", "sample", "errors", "instrument", "recheck", "tolerance", "status")

STYLE = (
    "table{border-collapse:collapse} td,th{padding:3px 10px 3px 0;text-align:left;vertical-align:top} "
    "h2{margin-top:28px} code{font-family:monospace}"
)


def handbook() -> str:
    """The handbook as one HTML page."""
    chapters = [
        ("first-steps", "First steps", _first_steps()),
        ("window", "The window", _window()),
        ("keys", "Keys", _keys()),
        ("files", "Files and headings", _files()),
        ("settings", "Settings", _settings()),
        ("computed", "What is computed, and its sources", _computed()),
        ("checks", "All checks", _checks()),
        ("cautions", "Cautions", "".join(f"<p>{_joined(part)}</p>\n" for part in TEXTS["cautions"])),
    ]
    contents = "".join(f'<li><a href="#{name}">{title}</a></li>\n' for name, title, _ in chapters)
    body = "".join(f'<h2><a name="{name}"></a>{title}</h2>\n{text}' for name, title, text in chapters)
    return (
        f'<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>Handbook of stemmap</title>\n'
        f"<style>{STYLE}</style></head><body>\n"
        f'<h1><a name="contents"></a>Handbook of stemmap</h1>\n<ul>\n{contents}</ul>\n{body}</body></html>\n'
    )


def _first_steps() -> str:
    steps = "".join(f"<li><b>{part['title']}.</b> {_joined(part)}</li>\n" for part in TEXTS["steps"])
    sheet = '<p><img src="../pictures/sheet.png" width="420" alt="A plot sheet at true scale"></p>\n'
    return f"<ol>\n{steps}</ol>\n{sheet}"


def _joined(part: dict[str, str]) -> str:
    return " ".join(part["text"].split())


def _window() -> str:
    picture = '<p><img src="../pictures/window.png" width="740" alt="The window with the sample survey"></p>\n'
    return picture + "".join(f"<p><b>{part['title']}.</b> {_joined(part)}</p>\n" for part in TEXTS["window"])


def _widgets() -> type[QGuiApplication]:
    from PySide6.QtWidgets import QApplication

    return QApplication


def _keys() -> str:
    application(_widgets, offscreen=True)
    from stemmap.desktop.commands import window_commands
    from stemmap.desktop.window import MainWindow

    window = MainWindow()
    rows = []
    for entry in window_commands(window):
        # The platform's own keys come on top of these, which hold everywhere.
        keys = [QKeySequence(key).toString(QKeySequence.SequenceFormat.PortableText) for key in _plain(entry.keys)]
        rows.append((entry.text.replace("&", "").rstrip("…"), ", ".join(keys), entry.help))
    window.close()
    return _table(("Action", "Keys", "What it does"), [[escape(cell) for cell in row] for row in rows])


def _plain(keys: Iterable[Any]) -> Iterator[str]:
    return (key for key in keys if isinstance(key, str))


def _files() -> str:
    from stemmap.survey.fields import FIELDS

    headings = tomllib.loads((TOP / "stemmap/reading/headings.toml").read_text("utf-8"))
    rows = []
    for field in FIELDS.values():
        words = [str(words[field.name][0]) for words in headings.values() if words.get(field.name)]
        unit = f", {field.unit}" if field.unit else ""
        rows.append(
            [
                f"<code>{field.name}</code>",
                escape(field.meaning + unit),
                ", ".join(field.tables),
                escape(", ".join(dict.fromkeys(words))),
            ]
        )
    languages = ", ".join(name.capitalize() for name in headings)
    return (
        "<p>CSV in any common encoding, with comma, semicolon or tab and with decimal point or comma; XLSX; GeoJSON; "
        "GeoPackage. Plots and stems in two files, sheets or layers, or in one with the columns of the plot repeated."
        f"</p>\n<p>Headings are understood in these languages: {languages}; below is the first word of each. Any other "
        "is named in the settings, under <code>[columns]</code>, or with <code>--map field=heading</code>.</p>\n"
        + _table(("Field", "Meaning", "Table", "Headings, for example"), rows)
    )


def _settings() -> str:
    from stemmap.survey.settings import CircleSettings, Settings, StratumSettings

    helps = _offered()
    rows: list[list[str]] = []
    defaults = Settings()
    for section, part in (
        ("survey", None),
        *((name, getattr(defaults, name)) for name in _SETTING_SECTIONS),
    ):
        if part is None:
            rows += [_setting(f"survey.{key}", "", "text", helps) for key in ("name", "crs")]
            continue
        for key, value in _values(part):
            if key in ("circles", "strata"):
                one = CircleSettings(radius_m=float("nan")) if key == "circles" else StratumSettings("")
                rows += [
                    _setting(f"{section}.{key}.{inner}", _said(default), "", helps) for inner, default in _values(one)
                ]
            else:
                allowed = get_args(get_type_hints(type(part))[key])
                choices = " | ".join(choice for choice in allowed if isinstance(choice, str))
                rows.append(_setting(f"{section}.{key}", _said(value), choices if section != "status" else "", helps))
    return (
        "<p>A text file in the form TOML, with a section in brackets for the first part of each name. Lengths and "
        "diameters are in the unit of the file.</p>\n" + _table(("Setting", "Default", "Meaning"), rows)
    )


def _values(part: Any) -> list[tuple[str, Any]]:
    return [(field.name, getattr(part, field.name)) for field in dataclasses.fields(part)]


def _said(value: Any) -> str:
    if value is None or value != value:  # noqa: PLR0124 - a number that is not said is NaN
        return ""
    return ", ".join(map(str, value)) if isinstance(value, tuple) else str(value)


def _setting(key: str, default: str, choices: str, helps: dict[str, str]) -> list[str]:
    section, _, name = key.rpartition(".")
    meaning = escape(helps[key]) + (f" ({escape(choices)})" if choices and choices != "text" else "")
    return [f"<code>[{section}] {name}</code>", escape(default) or "not said", meaning]


def _offered() -> dict[str, str]:
    """What each setting means, as the panel says."""
    from stemmap.desktop import setting_items

    parts = [make() for name, make in vars(setting_items).items() if name.endswith("_items") and callable(make)]
    return TEXTS["settings"] | {item.key: item.help for part in parts for item in part}


def _computed() -> str:
    parts = []
    for name, title in COMPUTED:
        module = import_module(name)
        parts.append(f"<h3>{title}</h3>\n{_paragraphs(inspect.getdoc(module) or '')}")
        parts += [f"<p><b>{label}</b></p>\n{text}" for label, text in _documented(module)]
    return "".join(parts)


def _documented(module: ModuleType) -> Iterator[tuple[str, str]]:
    """Functions and classes of a module that say more than one sentence, in the order of the file."""
    public = [
        made
        for name, made in vars(module).items()
        if not name.startswith("_") and getattr(made, "__module__", "") == module.__name__
    ]
    for made in sorted((one for one in public if callable(one)), key=lambda one: inspect.getsourcelines(one)[1]):
        told = inspect.getdoc(made) or ""
        summary, _, rest = _without_lists(told).partition("\n")
        if rest.strip():
            yield _inline(summary), _paragraphs(rest)


def _without_lists(docstring: str) -> str:
    """A docstring without its parameters, errors and examples."""
    sections = re.split(r"^([A-Z][A-Za-z ]+)\n-{3,}\n", docstring, flags=re.MULTILINE)
    kept = [sections[0]]
    for title, text in zip(sections[1::2], sections[2::2], strict=True):
        if title in ("References", "Notes"):
            kept.append(f"\n\n{'Source: ' if title == 'References' else ''}{text.strip()}\n")
    return "".join(kept)


def _paragraphs(text: str) -> str:
    parts = [part.strip() for part in re.split(r"\n\s*\n|\n(?=\.\. \[)", text.strip())]
    return "".join(f"<p>{_inline(part)}</p>\n" for part in parts if part)


def _inline(text: str) -> str:
    text = text.replace(".. math::", "").replace(r"\le", "≤").replace(r"\;", " ")
    text = re.sub(r"^\.\. (\[\d\])", r"\1", text)
    text = re.sub(r"(\[\d\])_", r"\1", text)
    text = escape(" ".join(text.split()), quote=False)
    return re.sub(r"``?([^`]+)``?", r"<code>\1</code>", text)


def _checks() -> str:
    from stemmap import checks
    from stemmap.reading import remarks  # noqa: F401 - declares what reading reports
    from stemmap.survey.registry import catalogue

    checks.load()
    parts = []
    for slug, made in catalogue().items():
        title, _, rest = made.explanation.partition("\n")
        lines = re.sub(r"\n(?=(?:What|Why|What to do|Source): )", "\n\n", rest.strip("\n"))
        parts.append(f"<h4>{escape(title)}</h4>\n<p><code>{slug}</code>, {SEVERITIES[made.severity]}</p>\n")
        parts.append(_paragraphs(lines))
    return "".join(parts)


def _table(heads: tuple[str, ...], rows: Iterable[Iterable[str]]) -> str:
    head = "".join(f"<th>{text}</th>" for text in heads)
    body = "".join("<tr>" + "".join(f"<td>{cell}</td>" for cell in row) + "</tr>\n" for row in rows)
    return f"<table>\n<tr>{head}</tr>\n{body}</table>\n"


def main() -> None:
    """Write the handbook."""
    TARGET.write_text(handbook(), "utf-8")


if __name__ == "__main__":
    main()
