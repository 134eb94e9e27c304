"""Findings told in the language of the window."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QLocale

from stemmap.desktop.languages import spoken_language
from stemmap.desktop.wording import worded
from stemmap.survey.finding import Sentence

if TYPE_CHECKING:
    from stemmap.tasks.workup import Workup


class _LocalSentence(Sentence):
    """Fills a message with numbers as people of this country write them."""

    def format_field(self, value: Any, format_spec: str) -> str:
        text = super().format_field(value, format_spec)
        return text.replace(".", QLocale().decimalPoint()) if isinstance(value, float) else text


_LOCAL = _LocalSentence()


def in_window_language(workup: Workup) -> Workup:
    """The same survey; its findings tell themselves in the language of the window, with its decimal mark."""
    if spoken_language() == "en":
        return workup
    return replace(workup, findings=replace(workup.findings, telling=_tell))


def _tell(message: str, values: dict[str, Any]) -> str:
    # What reading remarked comes as a whole sentence, all others as a message with named places.
    known = {name: worded(value) if name == "sentence" else value for name, value in values.items()}
    return _LOCAL.vformat(worded(message), (), known)
