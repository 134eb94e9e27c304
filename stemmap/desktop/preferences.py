"""Preferences of the program, which belong to no survey: language and colours."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QLocale, QSettings, Qt
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QFormLayout, QLabel, QVBoxLayout, QWidget

from stemmap.desktop.fields import ChoiceField
from stemmap.desktop.languages import LANGUAGES, SYSTEM, choose_language, chosen_language

#: How the colours are chosen.
SCHEMES = ("system", "light", "dark")
_SCHEME_KEY = "window/colours"


def chosen_scheme() -> str:
    """How the colours were chosen last: one of `SCHEMES`."""
    kept = str(QSettings().value(_SCHEME_KEY, SCHEMES[0], type=str))
    return kept if kept in SCHEMES else SCHEMES[0]


def choose_scheme(scheme: str) -> None:
    """Keep a choice of colours."""
    QSettings().setValue(_SCHEME_KEY, scheme)


class Preferences(QDialog):
    """A page that works at once and needs no confirmation.

    Parameters
    ----------
    parent
        The window.
    recolour
        Called when other colours were chosen.
    """

    def __init__(self, parent: QWidget, recolour: Callable[[], None]) -> None:
        super().__init__(parent)
        self.setObjectName("preferences")
        self.setWindowTitle(self.tr("Preferences"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setModal(False)
        self._recolour = recolour
        system = self.tr("Like the system")
        self.language = ChoiceField(((SYSTEM, system), *LANGUAGES.items()))
        self.language.show_value(chosen_language())
        self.colours = ChoiceField(
            ((SCHEMES[0], system), (SCHEMES[1], self.tr("Light")), (SCHEMES[2], self.tr("Dark")))
        )
        self.colours.show_value(chosen_scheme())
        form = QFormLayout()
        for name, field in ((self.tr("&Language"), self.language), (self.tr("&Colours"), self.colours)):
            label = QLabel(name)
            label.setBuddy(field)
            field.setAccessibleName(name.replace("&", ""))
            form.addRow(label, field)
        later = QLabel(self.tr("Another language is spoken from the next start on."))
        later.setWordWrap(True)
        words = self.tr("Numbers are written like {number}; both comma and point may be typed.")
        decimals = QLabel(words.format(number=QLocale().toString(12.62, "f", 2)))
        decimals.setWordWrap(True)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        buttons.rejected.connect(self.close)
        layout = QVBoxLayout(self)
        layout.addLayout(form)
        for part in (later, decimals, buttons):
            layout.addWidget(part)
        self.language.activated.connect(lambda _place: choose_language(self.language.value))
        self.colours.activated.connect(self._on_colours)
        width = max(self.sizeHint().width(), 48 * self.fontMetrics().averageCharWidth())
        self.resize(width, layout.totalHeightForWidth(width))

    def _on_colours(self, _place: int) -> None:
        choose_scheme(self.colours.value)
        self._recolour()
