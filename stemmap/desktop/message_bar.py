"""Sentences above the map that stay until they are read: what happened, what was kept, what to do."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from PySide6.QtCore import QCoreApplication, QRect, Qt, Signal, Slot
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QToolButton, QVBoxLayout, QWidget

from stemmap.desktop.palettes import severity_colour

_tr = QCoreApplication.translate


@dataclass(frozen=True)
class Answer:
    """A button of a message: its text, and what it does once the message is gone."""

    text: str
    run: Callable[[], object]


class MessageBar(QFrame):
    """Shows one message at a time and takes no focus; hidden when there is none.

    Parameters
    ----------
    parent
        As for all widgets.
    dismissible
        Whether it can be hidden without an answer.

    Signals
    -------
    ended
        The message was answered or dismissed; what the answer does comes after that.
    """

    ended = Signal()

    def __init__(self, parent: QWidget | None = None, *, dismissible: bool = True) -> None:
        super().__init__(parent)
        self.setFrameShape(QFrame.Shape.StyledPanel)
        self.setAutoFillBackground(True)
        self._label = QLabel()
        self._label.setWordWrap(True)
        self._label.setTextFormat(Qt.TextFormat.PlainText)
        self._label.setTextInteractionFlags(
            Qt.TextInteractionFlag.TextSelectableByMouse | Qt.TextInteractionFlag.TextSelectableByKeyboard
        )
        self._close = QToolButton()
        self._close.setText(_tr("message_bar", "Dismiss"))
        self._close.setToolTip(_tr("message_bar", "Hide this message"))
        self._close.setAccessibleName(_tr("message_bar", "Dismiss the message"))
        self._close.clicked.connect(self._on_dismissed)
        self.buttons: list[QPushButton] = []
        self._row, self._below = QHBoxLayout(), QHBoxLayout()
        self._row.addWidget(self._label, 1)
        self._row.addWidget(self._close, 0, Qt.AlignmentFlag.AlignTop)
        self._below.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 6, 6, 6)
        column.addLayout(self._row)
        column.addLayout(self._below)
        if not dismissible:
            self._close.hide()
        self.hide()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint a firm edge, so that the message is not taken for a part of the page."""
        super().paintEvent(event)
        edge = QRect(0, 0, 5, self.height())
        QPainter(self).fillRect(edge, severity_colour("warning", self.palette()))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep room for all lines: rather the map and the tables give way than the last line of a message."""
        super().resizeEvent(event)
        self._make_room()

    def _make_room(self) -> None:
        self._label.setMinimumHeight(max(self._label.heightForWidth(self._label.width()), 0))

    @property
    def sentence(self) -> str:
        """What is shown; empty when nothing is."""
        return "" if self.isHidden() else self._label.text()

    def tell(self, sentence: str, answers: Sequence[Answer] = ()) -> None:
        """Show a sentence in place of the one before, with buttons for what can be answered."""
        self._label.setText(sentence)
        for button in self.buttons:
            button.hide()
            button.deleteLater()
        self.buttons = [self._button(answer) for answer in answers]
        # One button leaves the sentence its room, several would squeeze it.
        for button in self.buttons:
            if len(answers) == 1:
                self._row.insertWidget(1, button, 0, Qt.AlignmentFlag.AlignTop)
            else:
                self._below.addWidget(button)
        self._make_room()
        self.setAccessibleName(_tr("message_bar", "Message"))
        self.setAccessibleDescription(sentence)
        self.show()

    def withdraw(self, sentence: str) -> None:
        """Show a sentence no longer, if it is the one shown."""
        if self.sentence == sentence:
            self.hide()

    def _button(self, answer: Answer) -> QPushButton:
        button = QPushButton(answer.text)

        def on_clicked() -> None:
            self.hide()
            self.ended.emit()
            answer.run()

        button.clicked.connect(on_clicked)
        return button

    @Slot()
    def _on_dismissed(self) -> None:
        self.hide()
        self.ended.emit()


class OfferBar(MessageBar):
    """Offers that wait until they are answered or dismissed, one after the other; messages do not push them away."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._waiting: dict[str, tuple[str, Sequence[Answer]]] = {}
        self._shown = ""
        self.ended.connect(self._on_ended)

    def offer(self, about: str, sentence: str, answers: Sequence[Answer]) -> None:
        """Offer something; another offer about the same thing is replaced."""
        self._waiting[about] = (sentence, answers)
        self._show_next()

    def call_off(self, about: str = "") -> None:
        """Offer something no more; without a name nothing of all."""
        for name in [about] if about else [*self._waiting]:
            self._waiting.pop(name, None)
        self._show_next()

    @Slot()
    def _on_ended(self) -> None:
        self._waiting.pop(self._shown, None)
        self._show_next()

    def _show_next(self) -> None:
        self._shown = next(iter(self._waiting), "")
        if self._shown:
            self.tell(*self._waiting[self._shown])
        else:
            self.hide()
