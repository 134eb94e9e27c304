"""Puts the window into another language for a while."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from PySide6.QtCore import QCoreApplication, QLocale, QTranslator

from stemmap.desktop.languages import speak


@contextmanager
def spoken(application: QCoreApplication, language: str) -> Iterator[None]:
    """Everything that is made meanwhile speaks this language."""
    before = QLocale()
    speak(application, language)
    try:
        yield
    finally:
        for translator in application.findChildren(QTranslator):
            application.removeTranslator(translator)
            translator.setParent(None)
        application.setProperty("language", None)
        QLocale.setDefault(before)
