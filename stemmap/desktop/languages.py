"""The language of the window: what is chosen, what the system speaks, and Qt's translations for it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from PySide6.QtCore import QCoreApplication, QLibraryInfo, QLocale, QSettings, QTranslator

from stemmap.assets import resource

#: Languages the window speaks, each by its own name; English stands in the code.
LANGUAGES: Final = {"en": "English", "de": "Deutsch"}
#: Chosen when the system decides.
SYSTEM: Final = "system"
_KEY: Final = "window/language"
_SPOKEN: Final = "language"


def chosen_language() -> str:
    """What was chosen: a key of `LANGUAGES`, or `SYSTEM` when nothing was."""
    kept = str(QSettings().value(_KEY, SYSTEM, type=str))
    return kept if kept in LANGUAGES else SYSTEM


def choose_language(language: str) -> None:
    """Keep a choice for the next start."""
    QSettings().setValue(_KEY, language)


def system_language(wanted: Sequence[str] | None = None) -> str:
    """The first language of the system that the window speaks, otherwise English."""
    for name in QLocale.system().uiLanguages() if wanted is None else wanted:
        language = name.replace("_", "-").partition("-")[0].lower()
        if language in LANGUAGES:
            return language
    return "en"


def spoken_language() -> str:
    """The language in force."""
    application = QCoreApplication.instance()
    return str((application and application.property(_SPOKEN)) or "en")


def speak(application: QCoreApplication, choice: str) -> None:
    """Put a language in force, before the window is made; numbers follow a language that was chosen.

    Parameters
    ----------
    application
        Keeps the translations.
    choice
        A key of `LANGUAGES`, or `SYSTEM`.
    """
    language = system_language() if choice == SYSTEM else choice
    application.setProperty(_SPOKEN, language)
    if choice != SYSTEM and not QLocale.system().name().startswith(language):
        QLocale.setDefault(QLocale(language))
    if language == "en":
        return
    for name, folder in (
        ("qtbase", QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath)),
        ("stemmap", str(resource("translations"))),
    ):
        translator = QTranslator(application)
        if translator.load(f"{name}_{language}", folder):
            application.installTranslator(translator)
