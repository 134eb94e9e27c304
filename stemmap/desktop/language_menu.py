"""The menu that chooses the language of the window."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Slot
from PySide6.QtGui import QAction, QActionGroup
from PySide6.QtWidgets import QMenu, QWidget

from stemmap.desktop.languages import LANGUAGES, SYSTEM, choose_language, chosen_language


class LanguageMenu(QMenu):
    """One entry for each language, and one for that of the system; a choice holds from the next start on.

    Parameters
    ----------
    parent
        The window.
    tell
        Called with a sentence for the user.
    """

    def __init__(self, parent: QWidget, tell: Callable[[str], None]) -> None:
        super().__init__(parent)
        self.setTitle(self.tr("La&nguage"))
        self._tell = tell
        self._group = QActionGroup(self)
        for language, text in ((SYSTEM, self.tr("Like the &system")), *LANGUAGES.items()):
            action = self.addAction(text)
            action.setCheckable(True)
            action.setChecked(language == chosen_language())
            action.setData(language)
            action.setObjectName(f"language-{language}")
            self._group.addAction(action)
        self._group.triggered.connect(self._on_chosen)

    @Slot(QAction)
    def _on_chosen(self, action: QAction) -> None:
        choose_language(str(action.data()))
        self._tell(self.tr("The window speaks this language from the next start on."))
