"""Words for decisions: what was decided, who did and when."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, QDateTime, QLocale, QTimeZone

from stemmap.desktop.sentences import field_words, strikes

if TYPE_CHECKING:
    from stemmap.survey.journal import Entry

_tr = QCoreApplication.translate


def decision_label(decision: str) -> str:
    """What a kind of decision is called."""
    return {
        "correct": _tr("decision_words", "corrected as proposed"),
        "value": _tr("decision_words", "another value"),
        "keep": _tr("decision_words", "kept as recorded"),
        "recheck": _tr("decision_words", "measure again"),
        "undo": _tr("decision_words", "undone"),
        "redo": _tr("decision_words", "done again"),
        "lost": _tr("decision_words", "lost in a damaged file"),
    }.get(decision, decision)


def when(time: str) -> str:
    """A moment, given in ISO 8601 and UTC, as people here write it."""
    seconds = datetime.fromisoformat(time).timestamp()
    local = QDateTime.fromSecsSinceEpoch(int(seconds), QTimeZone.systemTimeZone())
    return QLocale().toString(local, QLocale.FormatType.ShortFormat)


def decided_place(entry: Entry) -> str:
    """The plot and stem that were decided on."""
    if entry.plot is None:
        return _tr("decision_words", "the files")
    plot = _tr("decision_words", "plot {plot}").format(plot=entry.plot)
    stem = _tr("decision_words", "stem {stem}").format(stem=entry.stem)
    return f"{plot}, {stem}" if entry.stem else plot


def decision_words(entry: Entry) -> str:
    """What was decided."""
    label = decision_label(entry.decision)
    if adds_stem(entry):
        return _tr("decision_words", "taken over as a stem")
    if entry.decision in ("correct", "value") and strikes(entry.field, entry.new):
        return _tr("decision_words", "struck, counted nowhere")
    if entry.decision in ("correct", "value") and entry.field:
        return _tr("decision_words", "{label}, {field} {old} → {new}").format(
            label=label, field=field_words(entry.field), old=entry.old or "–", new=entry.new
        )
    return label


def adds_stem(entry: Entry) -> bool:
    """Whether a stem that a crew brought back became one of the plot."""
    added = bool(entry.changes) and all(change.old is None for change in entry.changes)
    return entry.decision == "correct" and not entry.stem and added


def decision_sentence(entry: Entry) -> str:
    """What was decided, by whom, when and why."""
    words = _tr("decision_words", "Decided: {what}. {who}, {when}.").format(
        what=decision_words(entry), who=entry.who, when=when(entry.time)
    )
    if entry.why:
        words += " " + _tr("decision_words", "Reason: {why}").format(why=entry.why)
    return words
