"""Input fields that never change by a wheel meant for scrolling."""

from __future__ import annotations

from PySide6.QtCore import QSignalBlocker, Qt
from PySide6.QtGui import QValidator, QWheelEvent
from PySide6.QtWidgets import QComboBox, QDoubleSpinBox, QWidget


class ChoiceField(QComboBox):
    """One of several values, each with the words shown for it."""

    def __init__(self, choices: tuple[tuple[str, str], ...], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        for value, words in choices:
            self.addItem(words, value)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(10)

    @property
    def value(self) -> str:
        """The chosen value."""
        return str(self.currentData())

    def show_value(self, value: str) -> None:
        """Choose a value without telling it as an edit."""
        self.setCurrentIndex(self.findData(value))

    def wheelEvent(self, e: QWheelEvent) -> None:
        """Let the page scroll unless this field has the focus."""
        if self.hasFocus():
            super().wheelEvent(e)
        else:
            e.ignore()


class NumberField(QDoubleSpinBox):
    """A number that is told when it is complete, typed with point or comma; zero may stand for "not set"."""

    def __init__(
        self, *, decimals: int, step: float, largest: float, unit: str, unset: str = "", parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setDecimals(decimals)
        self.setSingleStep(step)
        self.setRange(0.0, largest)
        self.setSuffix(f" {unit}" if unit else "")
        self.setSpecialValueText(unset)
        self.setKeyboardTracking(False)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMinimumWidth(90)
        self._optional = bool(unset)

    @property
    def number(self) -> float | None:
        """The number; None when it is not set."""
        return None if self._optional and self.value() == 0.0 else self.value()

    def show_number(self, number: float | None) -> None:
        """Show a number without telling it as an edit."""
        with QSignalBlocker(self):
            self.setValue(0.0 if number is None else number)

    def _own_mark(self, text: str) -> str:
        """A text with the decimal mark of this country in place of the other one; thousands are never grouped here."""
        mark = self.locale().decimalPoint()
        return text.replace("." if mark == "," else ",", mark)

    def validate(self, input: str, pos: int) -> tuple[QValidator.State, str, int]:  # noqa: A002 - Qt's own name
        """Accept both marks."""
        return super().validate(self._own_mark(input), pos)[0], input, pos

    def valueFromText(self, text: str) -> float:
        """Understand both marks."""
        return super().valueFromText(self._own_mark(text))

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Let the page scroll unless this field has the focus."""
        if self.hasFocus():
            super().wheelEvent(event)
        else:
            event.ignore()
